# SPDX-License-Identifier: Apache-2.0
"""Stations through the command line: check's table, run.json, explain, and what is refused.

usage: stations_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import io
import json

import bay

TABLE = 'lon,lat,date,value\n-30.070,41.030,2021-01-10,12\n-30.070,41.030,2021-07-10,2\n' \
        '-30.050,41.030,2021-01-10,10\n-30.050,41.030,2021-07-11,4\n'


class Stations(bay.Bay):
    def stations_plan(self, table=TABLE, more='', *edits):
        (self.folder / 'stations.csv').write_text(table)
        water = f'[water.nitrogen]\nstations = "stations.csv"\nunit = "umol/L"\n{more}\n'
        return self.plan((r'(?s)\[water\.nitrogen\].*?(?=\n\[)', water), *edits)

    def test_check_prints_months_and_what_is_assumed(self):
        result = bay.run('check', self.stations_plan())
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn('stations, 2 places, 4 days with readings, 2021-01-10 to 2021-07-11',
                      ' '.join(result.stdout.split()))
        self.assertRegex(result.stdout, r'Jan +2 +2 +2 +2\.000 +0\.000')
        self.assertRegex(result.stdout, r'Feb +0 +filled +0 +- +-')
        self.assertIn('water.nitrogen.nugget_m = 50', result.stdout)
        self.assertRegex(result.stdout, r'no reading in Feb, Mar, .*filled on the line')

    def test_run_keeps_the_error_and_hashes_the_table(self):
        result, out = self.scout(self.stations_plan())
        self.assertEqual(result.returncode, 0, result.stderr)
        record = json.loads((out / 'run.json').read_text())
        layer = next(r for r in record['layers'] if r['key'] == 'water.nitrogen')
        self.assertAlmostEqual(layer['error'], 2.0, places=6)
        self.assertIn('left out', layer['error_basis'])
        self.assertEqual(layer['months'][0], {'places': 2, 'readings': 2, 'filled': False,
                                              'left_out': 2, 'rmse': 2.0, 'bias': 0.0})
        self.assertIsNone(layer['months'][1]['rmse'])
        self.assertIn('stations.csv', [i['file'] for i in record['inputs']])

    def test_a_depth_that_is_not_understood_is_a_warning_everywhere(self):
        table = TABLE.replace('value\n', 'value,Sample depth\n').replace('2\n', '2,15\n')
        table = table.replace('10\n', '10,0\n').replace('4\n', '4,0\n')
        plan = self.stations_plan(table)
        warning = 'water.nitrogen: stations.csv: columns not used: Sample depth; if one is the ' \
                  'sample\'s depth, write depth = "Sample depth" in [water.nitrogen.columns]'
        checked = bay.run('check', plan)
        self.assertIn(warning, checked.stdout + checked.stderr)
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn(warning, result.stderr)
        self.assertIn(warning, json.loads((out / 'run.json').read_text())['warnings'])

    def test_threads_do_not_change_a_byte(self):
        plan = self.stations_plan()
        maps = []
        for threads in (1, 2):
            out = self.folder / f'out{threads}'
            result = bay.run('scout', plan, '--out', out, '--threads', threads)
            self.assertEqual(result.returncode, 0, result.stderr)
            maps.append((out / 'maps' / 'yield.tif').read_bytes())
        self.assertEqual(*maps)

    def test_nitrate_and_ammonium_apart(self):
        (self.folder / 'stations.csv').write_text(TABLE)
        plan = self.plan((r'(?s)\[water\.nitrogen\].*?(?=\n\[)',
                          '[water.nitrogen.nitrate]\nstations = "stations.csv"\nunit = "umol/L"\n'
                          '[water.nitrogen.ammonium]\nconstant = 1\nunit = "umol/L"\n'))
        result = bay.run('explain', plan, '--at', '-30.06,41.03', '--csv')
        self.assertEqual(result.returncode, 0, result.stderr)
        rows = list(csv.DictReader(io.StringIO(result.stdout)))
        july = [float(r['nitrogen']) for r in rows if r['date'].startswith('07')]
        self.assertTrue(all(3.0 <= value < 6.5 for value in july), july)
        result = bay.run('check', plan)
        self.assertRegex(result.stdout, r'(?m)^water\.nitrogen\.nitrate: stations, 2 places')
        self.assertRegex(result.stdout, r'(?m)^water\.nitrogen\.ammonium: constant')

    def test_refusals_name_file_and_row(self):
        for table, *fragments in (
                ('lon,lat,date,value\n-30.07,41.03,10/01/2021,3\n', 'stations.csv: row 2: date'),
                ('lon,lat,date,value\n-30.07,41.03,2021-01-10\n', 'row 2: has 3 cells'),
                ('lon,lat,date\n-30.07,41.03,2021-01-10\n', 'no column value'),
                ('lon,lat,date,value\n30.07,41.03,2021-01-10,3\n', 'does not overlap the area'),
                ('', 'is empty')):
            with self.subTest(table=table):
                self.refused(self.stations_plan(table), 3, 'water.nitrogen', *fragments)

    def test_a_folder_or_a_missing_table(self):
        plan = self.stations_plan()
        (self.folder / 'stations.csv').unlink()
        self.refused(plan, 3, 'stations.csv: does not exist')
        (self.folder / 'stations.csv').mkdir()
        self.refused(plan, 3, 'stations.csv: is a folder')


if __name__ == '__main__':
    bay.main()

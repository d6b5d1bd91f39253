# SPDX-License-Identifier: Apache-2.0
"""Field readings through the command line, on Heron Bight: residuals, what apply does, which sites are checked.

usage: field_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import io
import json
import re
import sqlite3

from osgeo import gdal, osr

import bay

gdal.UseExceptions()
osr.UseExceptions()

HEAD = 'lon,lat,date,property,value,unit,visit\n'
PLACES = ((-30.060, 41.030), (-30.050, 41.030), (-30.065, 41.025))
FAR = (-30.060, 41.018)  # 1.3 km from the first place


class Field(bay.Bay):
    def field_plan(self, rows, more=''):
        (self.folder / 'readings.csv').write_text(HEAD + rows)
        path = self.plan()
        path.write_text(self.plan_text + f'\n[field]\nreadings = "readings.csv"\n{more}\n')
        return path

    def days(self, plan, place, name):
        result = bay.run('explain', plan, '--at', f'{place[0]},{place[1]}', '--csv')
        self.assertEqual(result.returncode, 0, result.stderr)
        return [row[name] for row in csv.DictReader(io.StringIO(result.stdout))]

    def middle_of_cell(self, out, lon, lat):
        """Longitude and latitude of the middle of the maps' cell that holds a place."""
        grid = gdal.Open(str(out / 'maps' / 'depth_low_water.tif'))
        west, cell, _, north, _, _ = grid.GetGeoTransform()
        degrees = osr.SpatialReference()
        degrees.ImportFromEPSG(4326)
        degrees.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        x, y, _ = osr.CoordinateTransformation(degrees, grid.GetSpatialRef()).TransformPoint(lon, lat)
        middle = (west + ((x - west) // cell + 0.5) * cell,
                  north - ((north - y) // cell + 0.5) * cell)
        back = osr.CoordinateTransformation(grid.GetSpatialRef(), degrees)
        return back.TransformPoint(*middle)[:2]

    def field_of(self, plan):
        result = bay.run('check', plan, '--json')
        self.assertEqual(result.returncode, 0, result.stderr)
        return json.loads(result.stdout)

    def rows_off_by(self, shift):
        """Readings that lie so far above the salinity that check itself finds there."""
        found = []
        for lon, lat in PLACES:
            one = self.field_of(self.field_plan(f'{lon},{lat},2026-07-15,salinity,30,psu,a\n'))
            found.append(30 - one['field']['residuals'][0]['bias'])
        return ''.join(f'{lon},{lat},2026-07-15,salinity,{value + shift:.6f},psu,first\n'
                       for (lon, lat), value in zip(PLACES, found))

    def test_a_known_shift_comes_back_as_bias(self):
        rows = self.rows_off_by(-1.25)
        record = self.field_of(self.field_plan(rows))
        one = record['field']['residuals'][0]
        self.assertEqual((one['property'], one['unit'], one['n']), ('salinity', 'practical salinity', 3))
        self.assertAlmostEqual(one['bias'], -1.25, places=5)
        self.assertAlmostEqual(one['rmse'], 1.25, places=5)
        self.assertIn("the plan's error stays", one['done'])
        self.assertTrue(any('salinity: 3 readings, bias -1.250' in w for w in record['warnings']))

    def test_bias_moves_the_layer_and_a_second_look_finds_none(self):
        plain = self.days(self.plan(name='plain.toml'), FAR, 'salinity')
        rows = self.rows_off_by(-1.25)
        plan = self.field_plan(rows, 'apply = "bias"')
        moved = self.days(plan, FAR, 'salinity')
        for a, b in zip(plain, moved):
            self.assertAlmostEqual(float(b) - float(a), -1.25, delta=0.011)
        warned = bay.run('check', plan).stdout
        self.assertIn('-1.250', warned)
        self.assertIn('was added everywhere, in all months', warned)

    def test_replace_gives_the_reading_and_leaves_far_water_alone(self):
        plain = self.plan(name='plain.toml')
        lon, lat = PLACES[0]
        plan = self.field_plan(f'{lon},{lat},2026-07-15,salinity,17.5,psu,a\n',
                               'apply = "replace"\nrange_m = 400')
        dates = self.days(plan, (lon, lat), 'date')
        salinity = self.days(plan, (lon, lat), 'salinity')
        july = [float(s) for date, s in zip(dates, salinity) if date.startswith('07')]
        self.assertEqual(len(july), 31)
        self.assertAlmostEqual(sum(july) / 31, 17.5, delta=0.02)
        for name in ('salinity', 'temperature', 'biomass_g_per_m'):
            self.assertEqual(self.days(plan, FAR, name), self.days(plain, FAR, name))
        self.assertNotEqual(self.days(plan, (lon, lat), 'biomass_g_per_m'),
                            self.days(plain, (lon, lat), 'biomass_g_per_m'))

    def test_confidence_changes_no_best_estimate_and_keeps_the_error(self):
        self.plan_text = re.sub(r'(?m)^error = 1\.5$', '', self.plan_text)
        self.plan_text = self.plan_text.replace('draws = 4', 'draws = 0')
        _, out = self.scout(self.plan(name='plain.toml'))
        before = {p.name: p.read_bytes() for p in (out / 'maps').iterdir()}
        lon, lat = PLACES[0]
        plan = self.field_plan(f'{lon},{lat},2026-07-15,salinity,20,psu,a\n')
        after = self.folder / 'after'
        result = bay.run('scout', plan, '--out', after)
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn('field.readings: readings.csv: salinity: 1 reading', result.stderr)
        now = {p.name: p.read_bytes() for p in (after / 'maps').iterdir()}
        self.assertEqual(now.keys(), before.keys())
        self.assertEqual([name for name in now if now[name] != before[name]], [])
        record = json.loads((after / 'run.json').read_text())
        layer = next(r for r in record['layers'] if r['key'] == 'water.salinity')
        self.assertAlmostEqual(layer['error'], record['field']['residuals'][0]['rmse'])
        self.assertIn('field readings', layer['error_basis'])
        self.assertIn('readings.csv', [i['file'] for i in record['inputs']])

    def test_sites_that_were_visited(self):
        _, out = self.scout(self.plan(name='plain.toml'))
        sites = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        self.assertEqual({s['field_checked'] for s in sites}, {'not field-checked'})
        lon, lat = sites[0]['lon'], sites[0]['lat']
        plan = self.field_plan(f'{lon},{lat},2026-06-10,temperature,18,degC,a\n'
                               f'{lon},{lat},2026-06-10,salinity,25,psu,a\n'
                               f'{lon},{lat},2026-08-02,temperature,21,degC,b\n')
        checked = self.folder / 'checked'
        self.assertEqual(bay.run('scout', plan, '--out', checked).returncode, 0)
        first, *others = csv.DictReader((checked / 'sites.csv').read_text().splitlines())
        self.assertEqual((first['field_checked'], first['field_visits'], first['field_months']),
                         ('2026-08-02', '2', 'Jun; Aug'))
        columns = list(first)
        start = columns.index('field_checked')
        self.assertEqual(columns[start:start + 3], ['field_checked', 'field_visits', 'field_months'])
        self.assertTrue(all(s['field_checked'] == 'not field-checked' and s['field_visits'] == '0'
                            and s['field_months'] == '' for s in others))
        features = json.loads((checked / 'sites.geojson').read_text())['features']
        self.assertEqual(features[0]['properties']['field_visits'], 2)
        with sqlite3.connect(checked / 'sites.gpkg') as db:
            rows = db.execute('select field_checked, field_visits, field_months from sites '
                              'where rank = 1').fetchall()
        self.assertEqual(rows, [('2026-08-02', 2, 'Jun; Aug')])
        record = json.loads((checked / 'run.json').read_text())['field_checked']
        self.assertEqual(record['S01'], {'last': '2026-08-02', 'visits': 2, 'months': 'Jun; Aug'})
        self.assertTrue(all(record[s['name']] is None for s in others))
        self.assertIn('last 2026-08-02, visits: 2, months Jun; Aug',
                      (checked / 'report.html').read_text())

    def test_threads_do_not_change_a_byte(self):
        plan = self.field_plan(''.join(f'{lon},{lat},2026-07-15,nitrogen,9,umol/L,a\n'
                                       for lon, lat in PLACES), 'apply = "replace"')
        maps = []
        for threads in (1, 3):
            out = self.folder / f'out{threads}'
            result = bay.run('scout', plan, '--out', out, '--threads', threads)
            self.assertEqual(result.returncode, 0, result.stderr)
            maps.append((out / 'maps' / 'yield.tif').read_bytes())
        self.assertEqual(*maps)

    def test_the_template_filled_in_feeds_a_run(self):
        _, out = self.scout(self.plan(name='plain.toml'))
        template = (out / 'field_readings.csv').read_text()
        header, *rows = template.splitlines()
        self.assertEqual(header + '\n', HEAD)
        self.assertNotIn('<pre>', (out / 'field_sheet.html').read_text())
        sites = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        self.assertEqual(len(rows), len(sites) * 5 * 6)
        found = {'temperature': '18.5', 'salinity': '27', 'secchi': '3.1', 'nitrogen': '6',
                 'current': '0.2', 'depth_low_water': '5.5'}
        filled = []
        for row in csv.DictReader(io.StringIO(template)):
            if row['visit'].startswith('S01 '):
                row['date'], row['value'] = '2026-06-10', found[row['property']]
            filled.append(','.join(row.values()))
        plan = self.field_plan('\n'.join(filled) + '\n')
        checked = self.folder / 'checked'
        result = bay.run('scout', plan, '--out', checked, '--quiet')
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn('without a value left out', result.stderr)
        record = json.loads((checked / 'run.json').read_text())['field']
        self.assertEqual({r['property']: r['n'] for r in record['residuals']},
                         dict.fromkeys(('temperature', 'salinity', 'kd', 'nitrogen', 'current',
                                        'depth_low_water'), 5))
        first = next(csv.DictReader((checked / 'sites.csv').read_text().splitlines()))
        self.assertEqual(first['field_checked'], '2026-06-10')

    def test_the_sheet_expects_what_the_files_hold_at_the_centre(self):
        """Kd and nitrogen read from the files by GDAL, between the four pixels around the middle of
        the cell that holds the centre."""
        _, out = self.scout(self.plan(name='plain.toml'))
        page = (out / 'field_sheet.html').read_text()
        site = next(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        lon, lat = self.middle_of_cell(out, float(site['lon']), float(site['lat']))

        def there(file, band):
            source = gdal.Open(str(bay.SAMPLES / file))
            west, width, _, north, _, height = source.GetGeoTransform()
            x, y = (lon - west) / width - 0.5, (lat - north) / height - 0.5
            four = source.GetRasterBand(band).ReadAsArray(int(x), int(y), 2, 2).astype(float)
            u, v = x % 1, y % 1
            return (1 - v) * (four[0] @ [1 - u, u]) + v * (four[1] @ [1 - u, u])

        def row(name):
            cells = re.search(f'<th scope="row">{re.escape(name)}</th>(.*?)</tr>', page)[1]
            return re.findall(r'<td>(.*?)</td>', cells)

        kd, din, milligrams = row('Kd, 1/m'), row('DIN, µmol/L'), row('DIN, mg/L as N')
        self.assertEqual(len(kd), 14)
        for month in range(12):
            self.assertAlmostEqual(float(kd[month]), there(f'kd_{month + 1:02d}.tif', 1), delta=0.006)
            nitrogen = there('nitrogen.tif', month + 1)
            self.assertAlmostEqual(float(din[month]), nitrogen * 1000 / 14.007, delta=0.06)
            self.assertAlmostEqual(float(milligrams[month]), nitrogen, delta=0.0006)
        self.assertEqual((kd[12], milligrams[12]), ('0.15', '0.020'))

    def test_refusals(self):
        lon, lat = PLACES[0]
        good = f'{lon},{lat},2026-07-15,salinity,20,psu,a\n'
        self.refused(self.field_plan(good + f'{lon},{lat},15.7.2026,salinity,20,psu,a\n'), 3,
                     'field.readings: readings.csv: row 3: date')
        self.refused(self.field_plan(good, 'apply = "average"'), 2, 'field.apply')
        self.refused(self.field_plan(good, 'range_m = 300'), 2, 'field.range_m', 'replace')
        plan = self.field_plan(good)
        (self.folder / 'readings.csv').unlink()
        self.refused(plan, 3, 'field.readings', 'readings.csv: does not exist')
        result = bay.run('check', plan)
        self.assertEqual(result.returncode, 3)
        self.assertIn('to mend, 1 of 1: field.readings', result.stdout)


if __name__ == '__main__':
    bay.main()

# SPDX-License-Identifier: Apache-2.0
"""The printed figures of sites against the programs of GeographicLib (Karney 2013; Debian:
geographiclib-tools): walked from corner to corner by the printed lengths and bearings a traverse
closes, areas are those of the printed corners, and so is UTM. Heron Bight, 20 m cells.

usage: geographiclib_sites_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
SAMPLES = SOURCE / 'data-samples' / 'heron-bight'
LEG = 0.02      # m: half a centimetre of length, half a second of bearing over 190 m, and room
CLOSURE = 0.03  # m, around four legs


def tool(words, lines):
    """A program's answer, a list of words a line."""
    answer = subprocess.run(words, input=''.join(line + '\n' for line in lines),
                            capture_output=True, text=True, check=True, timeout=60)
    return [line.split() for line in answer.stdout.splitlines()]


def place_of(start, bearing, length):
    """Where a way of some length leads, (lon, lat)."""
    lat, lon, _ = tool(['GeodSolve', '-p', '6'],
                       [f'{start[1]:.12f} {start[0]:.12f} {bearing:.8f} {length:.4f}'])[0]
    return float(lon), float(lat)


def apart(a, b):
    return float(tool(['GeodSolve', '-i', '-p', '6'],
                      [f'{a[1]:.12f} {a[0]:.12f} {b[1]:.12f} {b[0]:.12f}'])[0][2])


def pairs(cell):
    return [tuple(map(float, one.split())) for one in cell.split(';')]


class Sites(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        cls.addClassCleanup(shutil.rmtree, cls.folder, ignore_errors=True)
        for file in SAMPLES.iterdir():
            if file.suffix not in ('.toml', '.md'):
                shutil.copy(file, cls.folder)
        plan = cls.folder / 'plan.toml'
        plan.write_text(re.sub(r'(?m)^cell_m = .*$', 'cell_m = 20', (SAMPLES / 'plan.toml').read_text()))
        cls.out = cls.folder / 'out'
        subprocess.run([PROGRAM, 'scout', str(plan), '--out', str(cls.out), '--quiet'], check=True,
                       capture_output=True)
        cls.rows = list(csv.DictReader((cls.out / 'sites.csv').read_text().splitlines()))
        cls.plan_text = plan.read_text()

    def closes(self, corners, legs):
        """Walked by its legs (length, bearing) a traverse meets every corner and its start."""
        here = corners[0]
        for i, (length, bearing) in enumerate(legs):
            self.assertLess(apart(place_of(corners[i], bearing, length), corners[(i + 1) % 4]), LEG)
            here = place_of(here, bearing, length)
        self.assertLess(apart(here, corners[0]), CLOSURE)

    def test_the_traverse_of_sites_csv_closes(self):
        self.assertEqual(len(self.rows), 5)
        for row in self.rows:
            legs = zip(map(float, row['sides_m'].split(';')),
                       map(float, row['side_bearings_deg'].split(';')))
            self.closes(pairs(row['printed_corners']), list(legs))
            self.assertEqual(row['printed_corners'], row['corners'])  # the plan asks for WGS 84

    def test_the_traverse_of_the_site_sheets_closes(self):
        page = (self.out / 'report.html').read_text()
        for row in self.rows:
            sheet = page[page.index(f'id="site-{row["name"]}"'):]
            corners = [(float(lon), float(lat)) for lat, lon in
                       re.findall(r'C[1-4]</th>\s*<td>(-?\d+\.\d{6}), (-?\d+\.\d{6})</td>', sheet)[:4]]
            legs = [(float(m), int(d) + int(minute) / 60 + int(s) / 3600) for m, d, minute, s in re.findall(
                r'C[1-4] to C[1-4]</th>.*?(\d+\.\d\d) m .*?(\d{3})° (\d\d)′ (\d\d)″', sheet, re.S)[:4]]
            self.assertEqual((len(corners), len(legs)), (4, 4))
            self.closes(corners, legs)

    def test_areas_are_those_of_the_printed_corners(self):
        for row in self.rows:
            lines = [f'{lat:.6f} {lon:.6f}' for lon, lat in pairs(row['corners'])]
            area = abs(float(tool(['Planimeter', '-r', '-p', '6'], lines)[0][2]))
            self.assertAlmostEqual(float(row['area_ha']), area / 1e4, delta=6e-5)
            self.assertAlmostEqual(float(row['area_acres']), area / 4046.8564224, delta=2e-4)
            # Rounding moves a corner by 7 cm at most, and 506 m of sides lie around 1.2 ha.
            self.assertAlmostEqual(float(row['area_unrounded_ha']), area / 1e4, delta=0.0036)

    def test_utm_is_that_of_the_printed_corners(self):
        for row in self.rows:
            lines = [f'{lat:.6f} {lon:.6f}' for lon, lat in pairs(row['printed_corners'])]
            for (x, y), (zone, easting, northing) in zip(
                    pairs(row['utm_corners']), tool(['GeoConvert', '-u', '-p', '2'], lines)):
                self.assertEqual(zone, '25n')
                self.assertIn('UTM zone 25N', row['utm_zone'])
                self.assertAlmostEqual(x, float(easting), delta=0.0101)
                self.assertAlmostEqual(y, float(northing), delta=0.0101)

    def test_ways_to_landing_and_marks(self):
        landing = tuple(map(float, re.search(r'landing\s*= \[(.*?)\]', self.plan_text)[1].split(',')))
        marks = [tuple(map(float, at.split(','))) for at in
                 re.findall(r'(?m)^at\s*= \[(.*?)\]', self.plan_text)]
        self.assertEqual(len(marks), 2)
        for row in self.rows:
            told = [(row['landing_straight_m'], row['landing_bearing_deg'])]
            told += re.findall(r' (\d+\.\d) m (\d+\.\d)', row['marks'])
            self.assertEqual(len(told), 3)
            for (metres, degrees), there in zip(told, [landing, *marks]):
                azimuth, _, length = tool(
                    ['GeodSolve', '-i', '-p', '3'],
                    [f'{row["lat"]} {row["lon"]} {there[1]:.6f} {there[0]:.6f}'])[0]
                self.assertAlmostEqual(float(metres), float(length), delta=0.051)
                turn = (float(degrees) - float(azimuth) + 180) % 360 - 180
                self.assertLess(abs(turn), 0.051)

    def test_the_calendar_adds_up_to_yield_and_stocking(self):
        for row in self.rows:
            hauls = pairs(row['harvest_calendar'].replace('-', '.'))
            self.assertEqual(len(hauls), int(row['harvests']))
            self.assertAlmostEqual(sum(weight for _, weight in hauls),
                                   float(row['yield_t']) + float(row['stocked_kg']) / 1000,
                                   delta=1e-4 * (1 + len(hauls)))

    def test_the_load_table_agrees_with_the_sites(self):
        table = list(csv.DictReader((self.out / 'load.csv').read_text().splitlines()))
        self.assertEqual([r['name'] for r in table], [r['name'] for r in self.rows] + ['all at once'])
        for row, site in zip(table, self.rows):
            nitrogen = float(site['nitrogen_kg'])
            self.assertEqual(row['note'], 'estimate, not a credit')
            self.assertAlmostEqual(float(row['net_nitrogen_kg_per_season']), nitrogen, delta=6e-4)
            self.assertAlmostEqual(float(row['share_of_load_percent']), nitrogen / 520, delta=2e-5)
            self.assertAlmostEqual(float(row['share_of_goal_percent']), nitrogen / 156, delta=2e-5)
            cost = (9.5 * float(site['line_m']) + 30000) / nitrogen
            self.assertAlmostEqual(float(row['cost_per_kg']), cost, delta=2e-4 * cost)
            self.assertAlmostEqual(float(row['reaches_sea_anyway_percent']), 100 / 1.15, delta=0.006)
        together = sum(float(r['nitrogen_with_neighbours_kg']) for r in self.rows)
        self.assertAlmostEqual(float(table[-1]['net_nitrogen_kg_per_season']), together, delta=0.004)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

# SPDX-License-Identifier: Apache-2.0
"""explain: the page of text, the JSON beside it, the plan's dates against the water's."""
import csv
import json
import os
import re

import numpy as np
from osgeo import gdal, osr

from bay import SOURCE, Bay, main, run

gdal.UseExceptions()
osr.UseExceptions()

PLACE = ('--at', '-30.055,41.03')
LAND = ('--at', '-30.0205,41.0590')
GROWN = ('--at', '-30.064097,41.027879')
SEA = ('--at', '-30.0999,41.0001')


def told(plan, *words, lang='C.UTF-8'):
    env = {k: v for k, v in os.environ.items() if not k.startswith('LC_')}
    return run('explain', plan, *PLACE, *words, env=env | {'LANG': lang})


class Text(Bay):
    def test_a_page_in_lines_of_a_terminal(self):
        result = told(self.plan())
        self.assertEqual(result.returncode, 0, result.stderr)
        lines = result.stdout.splitlines()
        self.assertLessEqual(len(lines), 60)
        for label in ('Place', 'Depth', 'Verdict', 'Season', 'By water', 'Yield', 'Nitrogen',
                      'Days lost', 'Biomass', 'Tissue N', 'Harvests', 'Cautions'):
            self.assertTrue(any(line.startswith(label) for line in lines), label)

    def test_a_fixed_line_says_so_and_grows_less(self):
        floats = self.told_yield(self.plan())
        plan = self.plan((r'^\[farm\]$', '[farm]\nline = "fixed"'), name='fixed.toml')
        text = re.sub(r'\s+', ' ', told(plan).stdout)
        self.assertIn('m below low water, fixed to the bed; mean over the tide', text)
        self.assertLess(self.told_yield(plan), floats)

    def test_the_slope_of_the_bed_is_told_where_a_criterion_looks_at_it(self):
        self.assertNotIn('Slope', told(self.plan()).stdout)
        plan = self.plan((r'^\[sites\]$', '[criteria.slope]\n[criteria.growth]\n[sites]'),
                         name='slope.toml')
        self.assertRegex(told(plan).stdout, r'Slope +\d+\.\d degrees, of the bed')
        answer = json.loads(told(plan, '--json').stdout)
        score, = (c['score'] for c in answer['criteria'] if c['name'] == 'slope')
        self.assertAlmostEqual(score, min(1, max(0, (10 - answer['slope_deg']) / 5)), places=6)

    def test_mass_transfer_says_so_and_changes_growth(self):
        plan = self.plan((r'^\[crop\]$', '[crop]\nboundary_layer = "mass_transfer"'), name='mass.toml')
        text = re.sub(r'\s+', ' ', told(plan).stdout)
        self.assertIn('uptake limited by mass transfer', text)
        self.assertNotEqual(self.told_yield(plan), self.told_yield(self.plan()))

    def told_yield(self, plan):
        answer = json.loads(run('explain', plan, *GROWN, '--json').stdout)
        return answer['season']['yield_kg_per_m']

    def test_weights_in_both_unit_systems(self):
        text = told(self.plan()).stdout
        kg, lb = map(float, re.search(r'Yield +([\d.]+) kg per m \(([\d.]+) lb per ft\)',
                                      text).groups())
        self.assertAlmostEqual(lb, kg / 0.45359237 * 0.3048, delta=0.006)

    def test_blocks_only_where_the_environment_says_utf8(self):
        plan = self.plan()
        self.assertRegex(told(plan).stdout, r'Biomass +[▁▂▃▄▅▆▇█]{60}  \d+ to \d+ g per m')
        plain = told(plan, lang='C').stdout
        self.assertTrue(plain.isascii())
        self.assertRegex(plain, r'Biomass +[.:=+*#@-]{60}  \d+ to \d+ g per m')

    def test_cautions_by_their_numbers(self):
        foot = told(self.plan()).stdout.split('Cautions')[1]
        for number in (1, 4, 10, 12):
            self.assertRegex(foot, rf'\b{number} \w')
        self.assertNotRegex(foot, r'\b(2|3|5|11) \w')

    def test_land_says_so_and_grows_nothing(self):
        plan = self.plan()
        result = run('explain', plan, *LAND)
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn('none was grown here', result.stdout)
        self.assertIsNone(json.loads(run('explain', plan, *LAND, '--json').stdout)['season'])

    def test_water_too_cold_says_so(self):
        plan = self.plan()
        self.assertRegex(run('explain', plan, *SEA).stdout, r'Season +warm-red-alga: none, .* too cold')
        season = json.loads(run('explain', plan, *SEA, '--json').stdout)['season']
        self.assertEqual(season['window'], {'state': 'too cold', 'outplant': None,
                                            'last_haul': None, 'days': 0})
        self.assertEqual(season['months'], [])

    def test_kelp_is_seeded_and_hauled_once(self):
        plan = self.plan((r'"warm-red-alga"', '"sugar-kelp"'), (r'^gear_in .*$', 'gear_in = "10-15"'),
                         (r'^gear_out .*$', 'gear_out = "06-01"'), (r'^stocking_g_per_m .*$', ''),
                         (r'^harvest_days .*$', ''))
        text = re.sub(r'\s+', ' ', run('explain', plan, *GROWN).stdout)
        self.assertIn('net of what was seeded; 1 harvest ', text)
        self.assertRegex(text, r'\(growth stops at [\d.]+ degC at salinity [\d.]+\)')


class Json(Bay):
    def test_agrees_with_the_daily_series(self):
        plan = self.plan()
        told_json = json.loads(told(plan, '--json').stdout)
        days = list(csv.DictReader(told(plan, '--csv').stdout.splitlines()))
        season = told_json['season']
        self.assertEqual(season['window']['outplant'], days[0]['date'])
        self.assertEqual(season['window']['days'], len(days))
        cuts = {d['date']: float(d['harvest_g_per_m']) / 1000 for d in days
                if float(d['harvest_g_per_m']) > 0}
        self.assertEqual({h['date']: h['kg_per_m'] for h in season['harvests']}, cuts)
        self.assertEqual(season['daily']['biomass_g_per_m'],
                         [float(d['biomass_g_per_m']) for d in days])
        self.assertAlmostEqual(season['yield_kg_per_m'], sum(cuts.values()) - 0.1, places=9)

    def test_a_month_is_held_back_by_its_lowest_factor(self):
        plan = self.plan()
        season = json.loads(told(plan, '--json').stdout)['season']
        days = list(csv.DictReader(told(plan, '--csv').stdout.splitlines()))
        self.assertEqual(sum(m['days'] for m in season['months']), len(days))
        words = {'temperature': ('cold water', 'warm water'),
                 'salinity': ('fresh water', 'salty water'), 'light': ('light',),
                 'nitrogen': ('nitrogen',), 'crowding': ('crowding on the line',)}
        begin = 0
        for month in season['months']:
            of_month = days[begin:begin + month['days']]
            begin += month['days']
            mean = sum(float(d['f_nitrogen']) for d in of_month) / len(of_month)
            self.assertAlmostEqual(month['mean_factors']['nitrogen'], mean, places=9)
            lowest = min(month['mean_factors'], key=month['mean_factors'].get)
            expected = words[lowest] if month['mean_factors'][lowest] < 0.95 else ('nothing',)
            self.assertIn(month['held_back_by'], expected)

    def test_the_page_of_outputs_names_every_key(self):
        page = (SOURCE / 'docs' / 'user' / 'outputs.md').read_text(encoding='utf-8')
        part = page.split('## tidelot explain')[1].split('## ')[0]
        listed, of_season = [], []
        for cell in re.findall(r'(?m)^\| ([a-z_0-9., ]+) \|', part.split('|---|---|')[1]):
            names = [name.removeprefix('season.') for name in cell.split(', ')]
            (of_season if cell.startswith('season.') else listed).extend(names)
        answer = json.loads(run('explain', self.plan(), *GROWN, '--json').stdout)
        self.assertEqual(sorted(listed), sorted(answer))
        self.assertEqual(sorted(of_season), sorted(answer['season']))

    def test_csv_and_json_together_are_refused(self):
        result = told(self.plan(), '--csv', '--json')
        self.assertEqual(result.returncode, 2)
        self.assertEqual(result.stdout, '')
        self.assertEqual(len(result.stderr.splitlines()), 1, result.stderr)
        self.assertIn('--csv', result.stderr)


class Closures(Bay):
    def test_every_rule_that_closes_a_place_is_named(self):
        plan = self.plan()
        _, out = self.scout(plan)
        source = gdal.Open(str(out / 'maps' / 'closed.tif'))
        closed = source.ReadAsArray().astype(np.int64)
        bits = sum((closed >> bit) & 1 for bit in range(24)) * (closed < 0xFFFFFFFE)
        row, col = np.unravel_index(np.argmax(bits), bits.shape)
        self.assertGreater(bits[row, col], 1)
        west, size, _, north, _, _ = source.GetGeoTransform()
        to = osr.SpatialReference()
        to.ImportFromEPSG(4326)
        to.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        change = osr.CoordinateTransformation(source.GetSpatialRef(), to)
        lon, lat, _ = change.TransformPoint(west + (col + 0.5) * size, north - (row + 0.5) * size)
        at = ('--at', f'{lon:.7f},{lat:.7f}')
        names = json.loads(run('explain', plan, *at, '--json').stdout)['closed_by']
        self.assertEqual(len(names), bits[row, col])
        text = re.sub(r'\s+', ' ', run('explain', plan, *at).stdout)
        self.assertIn('Closed by ' + '; '.join(names), text)
        self.assertEqual(json.loads(run('explain', plan, *SEA, '--json').stdout)['closed_by'], [])


class Dates(Bay):
    """Dates that the plan gives, far from the water's own."""
    EARLY = (r'^harvest_days .*$', 'harvest_days = 14\noutplant = "04-01"')

    def test_auto_dates_do_not_warn(self):
        result, _ = self.scout(self.plan())
        self.assertNotIn('farm.outplant', result.stderr)
        self.assertNotIn('the water says otherwise', told(self.plan()).stdout)

    def test_explain_and_scout_warn_with_both_dates(self):
        plan = self.plan((r'^gear_in .*$', 'gear_in = "03-15"'), self.EARLY)
        text = re.sub(r'\s+', ' ', told(plan).stdout)
        self.assertRegex(text, r'farm\.outplant: 04-01 is used as given, but the water says '
                               r'otherwise at this place \(0[56]-\d\d\)')
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        wanted = r'farm\.outplant: 04-01 is used as given.* at S01 \(0[56]-\d\d\)'
        self.assertRegex(result.stderr, wanted)
        self.assertTrue(any(re.search(wanted, line) for line in
                            json.loads((out / 'run.json').read_text())['warnings']))
        self.assertRegex((out / 'report.html').read_text(), wanted)


class Sites(Bay):
    def test_every_ranked_site_tells_its_months(self):
        plan = self.plan()
        _, out = self.scout(plan)
        rows = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        self.assertTrue(rows)
        place = f"{rows[0]['lon']},{rows[0]['lat']}"
        season = json.loads(run('explain', plan, '--at', place, '--json').stdout)['season']
        words = {'cold water': 'cold', 'warm water': 'warm', 'fresh water': 'fresh',
                 'salty water': 'salty', 'crowding on the line': 'crowding'}
        told_months = '; '.join(f"{m['month']} {words.get(m['held_back_by'], m['held_back_by'])}"
                                for m in season['months'])
        self.assertEqual(rows[0]['limits_by_month'], told_months)
        report = (out / 'report.html').read_text()
        self.assertEqual(report.count('class="season-chart"'), report.count('class="site-plan"'))
        self.assertIn(told_months, report)


if __name__ == '__main__':
    main()

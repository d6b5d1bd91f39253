# SPDX-License-Identifier: Apache-2.0
"""Two crops a year: each by a run of its own, and in turn on the same lines."""
import datetime
import json
import re
import shutil
import tempfile
import unittest
from pathlib import Path

import numpy as np
from bay import SOURCE, main, run
from compare_test import hashes, rows

SAMPLES = SOURCE / 'data-samples'
CROPS = '--crops', 'warm-red-alga,sugar-kelp'
LONG = []   # of long_spring()
# Water that is the same everywhere, so that a crop's yield is, too, and its sites lie where any
# crop's do: then a single run within the turn's dates is the crop in turn.
WATER = '''
title = "{title}"
[area]
bounds = [-33.20, 42.00, -33.164, 42.03]
cell_m = 30
[depth]
file          = "depth.tif"
positive      = "down"
unit          = "m"
datum         = "MLLW"
tidal_range_m = 1.6
lowest_tide_m = -0.3
[water.temperature]
monthly = {temperature}
[water.salinity]
constant = 30
[water.light]
constant = 0.5
[water.nitrogen]
constant = 9
unit = "umol/L"
[water.current]
constant = 0.18
{season}
[crop]
profile = "{crop}"
[sites]
count           = 2
min_suitability = 0.05
landing         = [-33.1835, 42.0235]
[uncertainty]
draws = 6
[report]
waterbody = "{title}"
what_if = "no"
'''
# A long spring in which both crops could grow, and a short fall of the kind.
LONG_SPRING = [6, 5, 6, 9, 13, 15, 17, 20, 18, 15, 11, 8]


def month_day(text, shift=0):
    day = datetime.date(2025, *map(int, text.split('-'))) + datetime.timedelta(shift)
    return day.strftime('%m-%d')


def season_of(gear_in, gear_out):
    return f'[season]\ngear_in = "{gear_in}"\ngear_out = "{gear_out}"'


def quantile(values, share):
    """Hyndman & Fan 1996, type 7, of values that are kept as float32."""
    return float(np.quantile(np.array(values, dtype=np.float32).astype(float), share))


class TwoCrops(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)
        self.out = self.folder / 'out'

    def uniform(self, name, crop='warm-red-alga', season='', temperature=LONG_SPRING, more=''):
        folder = self.folder / name
        folder.mkdir(exist_ok=True)
        shutil.copy(SAMPLES / 'tern-sound' / 'depth.tif', folder)
        plan = folder / f'{crop}.toml'
        plan.write_text(WATER.format(title=name, crop=crop, season=season,
                                     temperature=temperature) + more)
        return plan

    def compare(self, *words, status=0):
        result = run('compare', *words, '--out', self.out, '--quiet')
        self.assertEqual(result.returncode, status, result.stderr)
        return result

    def long_spring(self):
        """What a comparison of two such waters leaves; run once, to be read only."""
        if not LONG:
            LONG.append(tempfile.TemporaryDirectory(prefix='tidelot-test-'))
            self.compare(*(self.uniform(name) for name in ('Here', 'There')), *CROPS, '--threads', 2)
            shutil.copytree(self.out, LONG[0].name, dirs_exist_ok=True)
            shutil.rmtree(self.out)
        return Path(LONG[0].name)

    def told(self, out=None):
        return json.loads(((out or self.out) / 'compare.json').read_text())

    def single(self, plan):
        out = self.folder / 'single'
        shutil.rmtree(out, ignore_errors=True)
        self.assertEqual(run('scout', plan, '--out', out, '--quiet').returncode, 0)
        return json.loads((out / 'run.json').read_text())

    def assert_near(self, crop, record):
        """The same but for where the sites lie: on other latitudes, by a hundredth of a degree."""
        for mine, theirs in ((crop['nitrogen_kg']['best'],
                              record['all_sites']['nitrogen_with_neighbours_kg']),
                             (crop['nitrogen_kg']['p90'],
                              record['uncertainty']['all_sites']['nitrogen_kg']['p90'])):
            self.assertAlmostEqual(mine / theirs, 1, delta=1e-5)

    def assert_is_run(self, crop, record):
        """A crop's figures are a single run's to the last digit."""
        self.assertEqual(self.figures(crop), self.figures_of_run(record))

    @staticmethod
    def figures(crop):
        return {f'{kind} {of}': crop[kind][of] for kind in ('nitrogen_kg', 'yield_t')
                for of in ('best', 'p10', 'p90')}

    @staticmethod
    def figures_of_run(record):
        together, spread = record['all_sites'], record['uncertainty']['all_sites']
        found = {'nitrogen_kg best': together['nitrogen_with_neighbours_kg'],
                 'yield_t best': together['yield_with_neighbours_t']}
        return {**found, **{f'{kind} {p}': spread[kind][p] for kind in ('nitrogen_kg', 'yield_t')
                            for p in ('p10', 'p90')}}

    def test_each_crop_alone_is_its_single_run(self):
        crops = self.told(self.long_spring())['estuaries'][0]['crops']
        self.assert_is_run(crops['first'], self.single(self.uniform('Here')))
        self.assert_is_run(crops['second'], self.single(self.uniform('Here', 'sugar-kelp')))

    def test_in_turn_each_crop_is_a_single_run_within_its_dates(self):
        out = self.long_spring()
        turn = self.told(out)['estuaries'][0]['crops']['in_turn']
        self.assertIsNone(turn['cannot'])
        self.assertTrue(turn['seasons_overlap'])
        first, second = turn['first_from'], turn['second_from']
        records = [self.single(self.uniform('Here', crop, season_of(a, month_day(b, -1))))
                   for crop, a, b in (('warm-red-alga', first, second),
                                      ('sugar-kelp', second, first))]
        self.assert_is_run(turn['first'], records[0])
        self.assert_near(turn['second'], records[1])  # that run's own sites lie elsewhere
        folder = out / 'bays' / 'here-then-sugar-kelp'
        kept = json.loads((folder / 'run.json').read_text())['in_turn']
        members = [np.array(kept[crop]['members']['nitrogen_kg']) for crop in ('first', 'second')]
        self.assertEqual(list(members[0]), records[0]['bay']['all_members']['nitrogen_kg'])
        both = turn['nitrogen_kg']
        self.assertEqual(both['best'], turn['first']['nitrogen_kg']['best']
                         + turn['second']['nitrogen_kg']['best'])
        for p, share in (('p10', 0.1), ('p90', 0.9)):
            self.assertAlmostEqual(both[p], quantile(members[0] + members[1], share), places=9)
        # Paired: the range of the sum is not that of sums.
        sums = turn['first']['nitrogen_kg']['p90'] + turn['second']['nitrogen_kg']['p90']
        self.assertNotAlmostEqual(both['p90'], sums, places=6)

    def test_no_other_day_of_the_overlap_gives_more(self):
        """At another day of change in the overlap, single runs give no more on a line."""
        crops = self.told(self.long_spring())['estuaries'][0]['crops']
        turn, alga, kelp = crops['in_turn'], crops['first'], crops['second']

        def both(first, second):
            per_m = 0.0
            for crop, a, b in (('warm-red-alga', first, second), ('sugar-kelp', second, first)):
                plan = self.uniform('Here', crop, season_of(a, month_day(b, -1)))
                explained = run('explain', plan, '--at', '-33.1835,42.02', '--json')
                self.assertEqual(explained.returncode, 0, explained.stderr)
                per_m += json.loads(explained.stdout)['season']['nitrogen_g_per_m']
            return per_m

        best = both(turn['first_from'], turn['second_from'])
        tried = 0
        for days in (-20, -8, -3, -1, 1, 3, 8, 20):
            spring = month_day(turn['first_from'], days)
            if alga['outplant'] <= spring <= month_day(kelp['last_haul'], 1):
                tried += 1
                self.assertLessEqual(both(spring, turn['second_from']), best + 1e-9, spring)
            fall = month_day(turn['second_from'], days)
            if kelp['outplant'] <= fall <= month_day(alga['last_haul'], 1):
                tried += 1
                self.assertLessEqual(both(turn['first_from'], fall), best + 1e-9, fall)
        self.assertGreaterEqual(tried, 3)

    def test_seasons_that_do_not_meet_stay_as_they_come(self):
        seasons = [4, 3, 5, 10, 19, 22, 24, 25, 23, 19, 18, 6]
        plans = [self.uniform(name, temperature=seasons,
                              season=season_of('06-01', '10-15')) for name in ('Here', 'There')]
        self.compare(*plans, *CROPS)
        crops = self.told()['estuaries'][0]['crops']
        turn = crops['in_turn']
        self.assertIsNone(turn['cannot'])
        self.assertFalse(turn['seasons_overlap'])
        for which in ('first', 'second'):
            for what in ('outplant', 'last_haul', 'months'):
                self.assertEqual(turn[which][what], crops[which][what])
        self.assertEqual(self.figures(turn['first']), self.figures(crops['first']))
        self.assertAlmostEqual(turn['second']['nitrogen_kg']['best']
                               / crops['second']['nitrogen_kg']['best'], 1, delta=1e-5)
        self.assertIn('the seasons do not overlap', (self.out / 'compare.html').read_text())

    def test_a_rule_of_the_winter_keeps_the_second_crop_off(self):
        corners = [[-33.3, 41.9], [-33.0, 41.9], [-33.0, 42.1], [-33.3, 42.1], [-33.3, 41.9]]
        rule = ('[[closed]]\nname = "winter herring"\nfile = "herring.geojson"\nmonths = [1, 2]\n')
        plans = []
        for name in ('Here', 'There'):
            plan = self.uniform(name, more=rule)
            plan.with_name('herring.geojson').write_text(json.dumps(
                {'type': 'FeatureCollection', 'features': [
                    {'type': 'Feature', 'properties': {},
                     'geometry': {'type': 'Polygon', 'coordinates': [corners]}}]}))
            plans.append(plan)
        self.compare(*plans, *CROPS)
        told = self.told()
        crops = told['estuaries'][0]['crops']
        self.assertGreater(crops['first']['nitrogen_kg']['best'], 0)
        self.assertEqual(crops['second']['sites'], 0)
        self.assertEqual(crops['in_turn']['cannot'],
                         'a site is closed to sugar-kelp: winter herring')
        page = (self.out / 'compare.html').read_text()
        self.assertIn('they cannot follow each other: a site is closed to sugar-kelp', page)
        row = rows(self.out, 'compare.csv')[0]
        self.assertTrue(row['in_turn'].startswith('cannot: '))
        self.assertEqual(row['in_turn_nitrogen_kg'], '')

    def test_no_season_is_a_finding(self):
        plans = [self.uniform(name, temperature=[12] * 12) for name in ('Here', 'There')]
        result = self.compare(*plans, *CROPS)
        self.assertIn('In no estuary can', result.stdout)
        self.assertRegex(self.told()['estuaries'][0]['crops']['in_turn']['cannot'], 'has no')

    def test_what_was_assumed_is_kept_and_printed(self):
        own = '[crop.set]\nt_opt = 24\n[farm]\nstocking_g_per_m = 120.0\noutplant = "05-20"\n'
        plans = [self.uniform(name, season=season_of('05-01', '11-15'), more=own)
                 for name in ('Here', 'There')]
        result = self.compare(*plans, *CROPS)
        crops = self.told()['estuaries'][0]['crops']
        self.assertEqual(crops['assumed_of_first'], [])
        assumed = {one['key']: (one['planned'], one['assumed'])
                   for one in crops['assumed_of_second']}
        self.assertEqual(assumed['crop.set.t_opt'], (24, None))
        self.assertEqual(assumed['farm.stocking_g_per_m'], (120.0, None))
        self.assertEqual(assumed['farm.outplant'], ('05-20', 'auto'))
        self.assertEqual(assumed['season.gear_in'], ('05-01', None))
        page = re.sub(r'\s+', ' ', (self.out / 'compare.html').read_text())
        printed = re.sub(r'\s+', ' ', result.stdout)
        for text in (page, printed):
            self.assertIn('sugar-kelp: season.gear_in is none instead of 05-01 (gear dates of the '
                          'plan&#39;s own season; none are known for this one); in Here, There.'
                          .replace('&#39;', '&#39;' if text is page else "'"), text)
        self.assertIn('sugar-kelp season.gear_in = none',
                      rows(self.out, 'compare.csv')[0]['crops_assumed'])

    def test_finished_runs_are_taken_over_and_threads_change_nothing(self):
        plans = [self.uniform(name) for name in ('Here', 'There')]
        self.compare(*plans, *CROPS, '--threads', 1)
        first = hashes(self.out)
        self.assertEqual(hashes(self.long_spring()), first)
        self.assertEqual(sorted(p.name for p in (self.out / 'bays').iterdir()),
                         sorted(place + more for place in ('here', 'there') for more in
                                ('', '-place', '-sugar-kelp', '-then-sugar-kelp')))
        result = self.compare(*plans, *CROPS)
        self.assertEqual(result.stdout.count('taken over'), 4)
        self.assertEqual(hashes(self.out), first)

    def test_the_order_of_the_crops_says_whose_lines_they_are(self):
        """A plan of the second crop that is read for the first gives what the first's plan gives."""
        mine = self.told(self.long_spring())['estuaries'][0]
        kelp = [self.uniform(name, 'sugar-kelp') for name in ('Here', 'There')]
        self.compare(*kelp, *CROPS)
        theirs = self.told()['estuaries'][0]
        for what in ('first', 'second', 'in_turn'):
            self.assertEqual(theirs['crops'][what], mine['crops'][what], what)
        self.assertEqual(theirs['measures'], mine['measures'])

    def test_words_that_are_no_two_crops_are_refused(self):
        plans = [self.uniform(name) for name in ('Here', 'There')]
        for words, why in (('warm-red-alga', 'write two crop profiles'),
                           ('sugar-kelp,sugar-kelp', 'write two crop profiles'),
                           ('warm-red-alga,sugar-kelb', "did you mean 'sugar-kelp'")):
            result = self.compare(*plans, '--crops', words, status=2)
            self.assertIn(why, result.stderr)
            self.assertFalse(self.out.exists())


if __name__ == '__main__':
    main()

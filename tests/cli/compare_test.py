# SPDX-License-Identifier: Apache-2.0
"""Estuaries side by side, from the outside."""
import base64
import csv
import hashlib
import json
import re
import shutil
import tempfile
import unittest
from pathlib import Path

import numpy as np
import rasterio
from bay import SOURCE, main, run

SAMPLES = SOURCE / 'data-samples'
UNCHANGED = []   # of unchanged()


def hashes(out):
    return {str(p.relative_to(out)): hashlib.sha256(p.read_bytes()).hexdigest()
            for p in out.iterdir() if p.is_file() and p.name != 'run.json'}


def rows(out, name):
    with open(out / name, newline='', encoding='utf-8') as file:
        return list(csv.DictReader(file))


class Compare(unittest.TestCase):
    """Folders of their own with the two small samples at 30 m and few members."""

    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)
        self.out = self.folder / 'out'
        self.tern, self.alder = (self.copy(name) for name in ('tern-sound', 'alder-mouth'))

    def copy(self, name, to=None):
        shutil.copytree(SAMPLES / name, self.folder / (to or name))
        plan = self.folder / (to or name) / 'plan.toml'
        self.edit(plan, (r'^cell_m = .*$', 'cell_m = 30'), (r'^count +=.*$', 'count = 3'),
                  (r'\Z', '\n[uncertainty]\ndraws = 8\n'))
        return plan

    def edit(self, plan, *edits):
        text = plan.read_text()
        for pattern, replacement in edits:
            text, changes = re.subn(pattern, replacement, text, count=1, flags=re.M)
            self.assertEqual(changes, 1, pattern)
        plan.write_text(text)

    def compare(self, *words, status=0):
        result = run('compare', *words, '--out', self.out, '--quiet')
        self.assertEqual(result.returncode, status, result.stderr)
        return result

    def unchanged(self):
        """What a comparison of the samples as they are leaves, and what it says; run once, to be
        read only."""
        if not UNCHANGED:
            kept = tempfile.TemporaryDirectory(prefix='tidelot-test-')
            said = self.compare(self.tern, self.alder, '--threads', 2).stdout
            shutil.copytree(self.out, kept.name, dirs_exist_ok=True)
            shutil.rmtree(self.out)
            UNCHANGED.extend((kept, said))
        return Path(UNCHANGED[0].name), UNCHANGED[1]

    def test_the_numbers_are_those_of_the_single_runs_to_the_last_digit(self):
        out, _ = self.unchanged()
        told = json.loads((out / 'compare.json').read_text())
        table = rows(out, 'compare.csv')
        for plan, bay, row in zip((self.tern, self.alder), told['estuaries'], table):
            single = self.folder / 'single'
            self.assertEqual(run('scout', plan, '--out', single, '--quiet').returncode, 0)
            record = json.loads((single / 'run.json').read_text())
            measures = bay['measures']
            for key in ('water_ha', 'open_ha'):
                self.assertEqual(measures[key]['best'], record['counts'][key])
            self.assertEqual(measures['nitrogen_all_sites_kg']['best'],
                             record['all_sites']['nitrogen_with_neighbours_kg'])
            self.assertEqual(measures['yield_all_sites_t']['best'],
                             record['all_sites']['yield_with_neighbours_t'])
            spread = record['uncertainty']['all_sites']['nitrogen_kg']
            best = record['uncertainty']['sites']['S01']
            for p in ('p10', 'p90'):
                self.assertEqual(measures['nitrogen_all_sites_kg'][p], spread[p])
                self.assertEqual(measures['nitrogen_best_site_kg'][p], best['nitrogen_kg'][p])
                self.assertEqual(measures['yield_best_site_t'][p], best['yield_t'][p])
            self.assertEqual({one['to']: one['ha'] for one in bay['lost_to']},
                             record['counts']['water_ha_closed_by'])
            first = rows(single, 'sites.csv')[0]
            self.assertEqual(row['nitrogen_best_site_kg'], first['nitrogen_kg'])
            self.assertEqual(row['nitrogen_best_site_kg_p10'], first['nitrogen_kg_p10'])
            self.assertEqual(row['yield_best_site_t'], first['yield_t'])
            self.assertEqual(row['landing_km'], first['landing_km'])
            self.assertEqual((row['outplant'], row['last_haul']),
                             (first['outplant'], first['last_haul']))
            load = rows(single, 'load.csv')[-1]
            self.assertEqual(load['name'], 'all at once')
            for mine, theirs in (('nitrogen_kg_per_100_m', 'kg_per_100_m'),
                                 ('nitrogen_kg_per_ha_site', 'kg_per_ha_site'),
                                 ('nitrogen_kg_per_ha_gear_box', 'kg_per_ha_gear_box'),
                                 ('cost_per_kg', 'cost_per_kg'),
                                 ('cost_per_kg_p10', 'cost_per_kg_low'),
                                 ('cost_per_kg_p90', 'cost_per_kg_high'),
                                 ('line_m', 'line_m')):
                self.assertEqual(row[mine], load[theirs], mine)
            self.assertAlmostEqual(100 * float(row['share_of_load']),
                                   float(load['share_of_load_percent']), places=4)
            shutil.rmtree(single)

    def test_chances_add_up_and_the_order_is_told(self):
        out, said = self.unchanged()
        told = json.loads((out / 'compare.json').read_text())
        self.assertTrue(told['paired'])
        order = told['orders']['nitrogen_all_sites_kg']
        self.assertEqual(order['order'], ['Alder Mouth', 'Tern Sound'])
        for places in order['chance_of_place'].values():
            self.assertAlmostEqual(sum(places), 1.0)
        self.assertEqual(len(order['pairs']), 1)
        self.assertLess(order['pairs'][0]['chance_a_better'], 0.2)
        self.assertIn('Alder Mouth would carry off most nitrogen', said)

    def test_two_bays_share_the_crop_and_not_the_errors(self):
        out, _ = self.unchanged()
        a, b = (json.loads(p.read_text())['bay']['errors']
                for p in sorted(out.glob('bays/*-summer/run.json')))
        self.assertEqual([layer['input'] for layer in a], [layer['input'] for layer in b])
        for one, other in zip(a, b):
            self.assertNotEqual(one['z'], other['z'])

    def test_the_same_plan_twice_is_a_tie_everywhere(self):
        self.compare(self.tern, self.copy('tern-sound', 'again'))
        told = json.loads((self.out / 'compare.json').read_text())
        self.assertEqual([bay['estuary'] for bay in told['estuaries']],
                         ['Tern Sound', 'Tern Sound 2'])
        for order in told['orders'].values():
            for pair in order['pairs']:
                self.assertEqual((pair['chance_a_better'], pair['tie']), (0.5, True))

    def test_a_finished_run_is_taken_over_and_a_changed_one_is_not(self):
        self.compare(self.tern, self.alder)
        first = hashes(self.out)
        result = self.compare(self.tern, self.alder)
        self.assertEqual(result.stdout.count('taken over'), 2)
        self.assertEqual(hashes(self.out), first)
        readings = self.tern.parent / 'nitrogen.csv'
        readings.write_text(re.sub(r',([\d.]+)$', r',9\1', readings.read_text(), count=1,
                                   flags=re.M))
        result = self.compare(self.tern, self.alder)
        self.assertEqual(result.stdout.count('taken over'), 1)
        self.assertNotEqual(hashes(self.out), first)

    def test_the_run_beside_the_plan_is_taken_over(self):
        self.assertEqual(run('scout', self.tern, '--quiet').returncode, 0)
        result = self.compare(self.tern, self.alder)
        self.assertIn('Tern Sound: its finished run was taken over', result.stdout)
        self.assertFalse((self.out / 'bays' / 'tern-sound-summer').exists())

    def test_same_bytes_at_any_thread_count_and_place(self):
        two = hashes(self.unchanged()[0])
        self.assertEqual(set(two), {'compare.html', 'compare.csv', 'compare.json'})
        elsewhere = self.copy('tern-sound', 'elsewhere')
        self.compare(elsewhere, self.alder, '--threads', 1)
        self.assertEqual(hashes(self.out), two)

    def test_another_measure_is_refused_or_printed(self):
        self.edit(self.alder, (r'^line_gap_m .*$', 'line_gap_m = 9'))
        result = self.compare(self.tern, self.alder, status=2)
        self.assertIn('farm.line_gap_m is 6', result.stderr)
        self.assertIn('--allow-different', result.stderr)
        self.assertFalse(self.out.exists())
        self.compare(self.tern, self.alder, '--allow-different')
        page = (self.out / 'compare.html').read_text()
        self.assertEqual(len(re.findall(r'farm.line_gap_m: 6(?:\.0)? in Tern Sound, 9', page)), 2)
        self.assertEqual(page.count('<section class="next"'), 1)
        captions = re.findall(r'<caption><span>(.*?)</span>', page)
        self.assertTrue(all('not measured alike' in each for each in captions), captions)
        self.assertEqual({row['measured_alike'] for row in rows(self.out, 'compare.csv')}, {'no'})

    def test_the_sites_that_are_looked_for_are_part_of_the_measure(self):
        self.edit(self.alder, (r'^count +=.*$', 'count = 2'), (r'^area_ha +=.*$', 'area_ha = 1.0'))
        result = self.compare(self.tern, self.alder, status=2)
        self.assertIn('sites.count is 3 in Tern Sound, 2 in Alder Mouth (sites.area_ha differs, too)',
                      result.stderr)
        self.assertFalse(self.out.exists())
        self.compare(self.tern, self.alder, '--allow-different')
        page = (self.out / 'compare.html').read_text()
        self.assertEqual(page.count('sites.count: 3 in Tern Sound, 2 in Alder Mouth'), 2)
        self.assertEqual(page.count('sites.area_ha: 1.2 in Tern Sound, 1'), 2)
        self.edit(self.alder, (r'^count +=.*$', 'count = 3'), (r'^area_ha +=.*$', 'area_ha = 1.2'),
                  (r'^length_to_width += .*$', 'shape = "line"'))
        result = self.compare(self.tern, self.alder, status=2)
        self.assertIn('sites.shape is "box" in Tern Sound, "line" in Alder Mouth', result.stderr)

    def test_twenty_plans(self):
        plans = [self.tern]
        self.edit(self.tern, (r'^cell_m = .*$', 'cell_m = 90'), (r'^count +=.*$', 'count = 1'),
                  (r'^draws = .*$', 'draws = 2'))
        for number in range(2, 21):
            folder = self.folder / f'bay-{number}'
            shutil.copytree(self.tern.parent, folder)
            plans.append(folder / 'plan.toml')
            self.edit(plans[-1], (r'^constant = 0.18.*$', f'constant = {0.1 + 0.01 * number:.2f}'))
        self.compare(*plans)
        told = json.loads((self.out / 'compare.json').read_text())
        self.assertEqual(len(told['estuaries']), 20)
        order = told['orders']['nitrogen_all_sites_kg']
        self.assertEqual(len(order['pairs']), 190)
        by_name = {one['estuary']: one['measures']['nitrogen_all_sites_kg']['best']
                   for one in told['estuaries']}
        self.assertEqual(order['order'], sorted(by_name, key=lambda name: -by_name[name]))
        table = rows(self.out, 'compare.csv')
        self.assertEqual(sorted(int(row['rank']) for row in table), list(range(1, 21)))
        page = (self.out / 'compare.html').read_text()
        self.assertEqual(page.count('<figure>'), 20)
        self.assertIn('All pairs and measures: compare.json', page)

    def test_every_measure_has_a_spread_or_says_that_it_has_none(self):
        self.edit(self.alder, (r'^lowest_tide_m.*$', 'lowest_tide_m = -0.5\nerror_m = 0'))
        self.compare(self.tern, self.alder)
        table = dict(zip(('Tern Sound', 'Alder Mouth'), rows(self.out, 'compare.csv')))
        told = {one['estuary']: one['measures'] for one in
                json.loads((self.out / 'compare.json').read_text())['estuaries']}
        for name, row in table.items():
            for key, measure in told[name].items():
                ends = row[f'{key}_p10'], row[f'{key}_p90']
                if measure['spread'] == 'not uncertain here':
                    self.assertEqual(ends, ('not uncertain here',) * 2, key)
                    self.assertIsNone(measure['p10'])
                elif measure['best'] is not None:
                    self.assertEqual(measure['spread'], 'P10 to P90 of the members', key)
                    self.assertLessEqual(float(ends[0]), float(ends[1]), key)
        # The error of the depth moves the shore; without one nothing does.
        for key in ('water_ha', 'open_ha', 'open_share', 'landing_km'):
            self.assertEqual(told['Alder Mouth'][key]['spread'], 'not uncertain here', key)
            self.assertEqual(told['Tern Sound'][key]['spread'], 'P10 to P90 of the members', key)
        for key in ('water_ha', 'open_ha', 'open_share'):
            self.assertLess(told['Tern Sound'][key]['p10'], told['Tern Sound'][key]['p90'], key)

    def test_members_of_the_water_are_those_of_the_maps(self):
        self.edit(self.tern, (r'^lowest_tide_m.*$', 'lowest_tide_m = -0.3\nerror_m = 0.4'))
        self.edit(self.alder, (r'^lowest_tide_m.*$', 'lowest_tide_m = -0.5\nerror_m = 0'))
        self.compare(self.tern, self.alder)
        for name in ('tern-sound-summer', 'alder-mouth-summer'):
            folder = self.out / 'bays' / name
            bay = json.loads((folder / 'run.json').read_text())['bay']
            counts = json.loads((folder / 'run.json').read_text())['counts']
            cell_ha = bay['water_ha'] / counts['water']
            members = bay['members']
            with rasterio.open(folder / 'maps' / 'confidence.tif') as file:
                confidence = file.read(1, masked=True).filled(0).astype(float)
            self.assertAlmostEqual(float(np.mean(members['suitable_ha'])) / cell_ha,
                                   float(confidence.sum()), delta=0.01)
            with rasterio.open(folder / 'maps' / 'depth_low_water.tif') as file:
                depth = file.read(1, masked=True).filled(-1).astype(float)
            shifts = 0.4 * np.array(next(e['z'] for e in bay['errors'] if e['input'] == 'depth'))
            if name.startswith('alder'):
                shifts *= 0
                self.assertEqual(set(members['open_ha']), {bay['open_ha']})
            for shift, water, open_ha in zip(shifts, members['water_ha'], members['open_ha']):
                if shift <= 0:  # the map tells no depths of the land that a rise would drown
                    self.assertAlmostEqual(water / cell_ha, ((depth > 0) & (depth + shift > 0)).sum(),
                                           delta=0.5)
                else:
                    self.assertGreaterEqual(water, bay['water_ha'])
                self.assertLessEqual(open_ha, water)

    def test_a_members_way_and_waves_are_those_of_a_run_in_its_depths(self):
        shutil.copy(SAMPLES / 'heron-bight' / 'wind_rose.csv', self.tern.parent)
        self.edit(self.tern, (r'^lowest_tide_m.*$', 'lowest_tide_m = -0.3\nerror_m = 0.4'),
                  (r'^draws = .*$', 'draws = 4'),
                  (r'\Z', '\n[waves]\nwinds = "wind_rose.csv"\n'))
        self.edit(self.alder, (r'^draws = .*$', 'draws = 4'))
        self.compare(self.tern, self.alder)
        bay = json.loads((self.out / 'bays' / 'tern-sound-summer' / 'run.json').read_text())['bay']
        shifts = 0.4 * np.array(next(e['z'] for e in bay['errors'] if e['input'] == 'depth'))
        best = bay['sites'][0]
        at = f"{best['centre']['lon']},{best['centre']['lat']}"
        place = json.loads((self.out / 'bays' / 'tern-sound-summer-place' / 'run.json').read_text())
        members = place['place_members']
        for shift, way, wave in zip(shifts, members['landing_km'], members['wave_50y_m'],
                                    strict=True):
            other = self.tern.with_name('other.toml')
            # The score of access is the way, in hundreds of km.
            other.write_text(re.sub(r'(?m)^tidal_range_m', f'low_water_m = {shift:.9f}\ntidal_range_m',
                                    self.tern.read_text())
                             + '\n[criteria.access]\ncurve = [[0, 0], [100, 1]]\n')
            told = run('explain', other, '--at', at, '--json')
            self.assertEqual(told.returncode, 0, told.stderr)
            told = json.loads(told.stdout)
            access = next(c['score'] for c in told['criteria'] if c['name'] == 'access')
            self.assertAlmostEqual(way, 100 * access, places=4)
            # explain tells the centre, the member the highest over the site.
            self.assertGreaterEqual(wave, told['waves']['height_50y_m'] - 1e-4)
            self.assertLess(wave, told['waves']['height_50y_m'] * 1.15)

    def test_one_that_fails_is_told_and_the_others_go_on(self):
        (self.alder.parent / 'depth.tif').unlink()
        third = self.copy('tern-sound', 'third')
        result = self.compare(self.tern, self.alder, third, status=3)
        self.assertIn('depth.tif', result.stderr)
        told = json.loads((self.out / 'compare.json').read_text())
        self.assertTrue(told['partial'])
        self.assertEqual(len(told['estuaries']), 2)
        self.assertEqual([one['plan'] for one in told['failed']], ['Alder Mouth'])
        self.assertEqual({row['comparison'] for row in rows(self.out, 'compare.csv')},
                         {'partial: 1 of 3 plans failed'})
        self.assertIn('partial: 1 of 3 plans failed', (self.out / 'compare.html').read_text())

    def test_all_that_fail_leave_nothing(self):
        for plan in (self.tern, self.alder):
            (plan.parent / 'depth.tif').unlink()
        self.compare(self.tern, self.alder, status=3)
        self.assertFalse(self.out.exists())

    def test_two_to_twenty_plans(self):
        for plans in ((self.tern,), (self.tern,) * 21):
            result = self.compare(*plans, status=2)
            self.assertIn('compare takes 2 to 20', result.stderr)
            self.assertFalse(self.out.exists())

    def test_what_a_target_takes(self):
        for plan in (self.tern, self.alder):
            self.edit(plan, (r'^cell_m = .*$', 'cell_m = 45'), (r'^draws = .*$', 'draws = 2'))
        self.compare(self.tern, self.alder, '--target-kg', 8)
        tern, alder = (bay['target'] for bay in
                       json.loads((self.out / 'compare.json').read_text())['estuaries'])
        self.assertGreaterEqual(alder['best']['nitrogen_kg'], 8)
        self.assertGreater(tern['best']['line_m'], alder['best']['line_m'])
        for plan in (self.tern, self.alder):  # large sites: soon no more fit
            self.edit(plan, (r'^area_ha +=.*$', 'area_ha = 5.0'))
        self.compare(self.tern, self.alder, '--target-kg', 5000)
        tern, alder = (bay['target'] for bay in
                       json.loads((self.out / 'compare.json').read_text())['estuaries'])
        for bay in (tern, alder):
            self.assertIsNone(bay['best'])
            self.assertTrue(bay['no_more_fit'])
            self.assertLess(bay['most_kg'], 5000)

    def test_the_page_asks_nothing_of_the_network_and_shows_text_as_text(self):
        self.edit(self.tern, (r'^waterbody = .*$', 'waterbody = "<b>x</b> & \\\\"y\\\\""'))
        self.compare(self.tern, self.alder)
        page = (self.out / 'compare.html').read_text()
        style = re.search(r'<style>(.*?)</style>', page, re.S)[1]
        known = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
        self.assertIn(f"content=\"default-src 'none'; base-uri 'none'; form-action 'none'; img-src data:; "
                      f"style-src 'sha256-{known}'; script-src 'none'\"", page)
        self.assertNotIn(' style="', page)
        self.assertNotIn('<b>x', page)
        self.assertNotIn('<script', page)
        self.assertIsNone(re.search(r'(?:src|href)="(?!data:)', page))
        for caution in ('Not for navigation', 'Hatched means no data'):
            self.assertIn(caution, page)


if __name__ == '__main__':
    main()

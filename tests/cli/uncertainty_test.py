# SPDX-License-Identifier: Apache-2.0
"""Members of the uncertainty through the command line: the spread in maps, sites and run.json."""
import csv
import hashlib
import json
import math
import re

import numpy
import rasterio

from bay import Bay, main, run

CROP = r'^\[crop\]$'


def bands(out, name):
    with rasterio.open(out / 'maps' / name) as ds:
        return ds.read(), ds.descriptions, ds.nodata


def mean_width(out):
    """P10 to P90 of nitrogen, over the water."""
    values, _, nodata = bands(out, 'nitrogen.tif')
    return (values[2] - values[1])[values[0] != nodata].mean()


def sites(out):
    with open(out / 'sites.csv', newline='', encoding='utf-8') as file:
        return list(csv.DictReader(file))


def hashes(out):
    return {p.relative_to(out): hashlib.sha256(p.read_bytes()).hexdigest()
            for p in out.rglob('*') if p.is_file() and p.name != 'run.json'}


class Uncertainty(Bay):

    def run_with(self, keys, *words, name='plan.toml'):
        plan = self.plan((CROP, f'[uncertainty]\n{keys}\n[crop]'), name=name)
        out = self.folder / name.replace('.toml', '-out')
        result = run('scout', plan, '--out', out, '--quiet', *words)
        self.assertEqual(result.returncode, 0, result.stderr)
        return result, out

    def setUp(self):
        super().setUp()
        self.plan_text = re.sub(r'(?ms)^\[uncertainty\]$.*?(?=^\[)', '', self.plan_text)

    def test_maps_hold_the_best_estimate_and_three_quantiles(self):
        _, out = self.run_with('draws = 32')
        for name in ('yield.tif', 'nitrogen.tif'):
            values, words, nodata = bands(out, name)
            self.assertEqual(values.shape[0], 4)
            for word, start in zip(words, ('best', 'P10', 'P90', 'P50')):
                self.assertTrue(word.startswith(start), word)
            known = values[0] != nodata
            self.assertTrue((values[:, known] != nodata).all())
            self.assertTrue((values[:, ~known] == nodata).all())
            p10, p90, p50 = (values[i][known] for i in (1, 2, 3))
            self.assertTrue((p10 <= p50).all() and (p50 <= p90).all())
            self.assertGreater((p90 > p10).mean(), 0.9)

    def test_confidence_is_a_share_and_nothing_closed_by_a_rule_has_any(self):
        _, out = self.run_with('draws = 32')
        confidence, _, nodata = bands(out, 'confidence.tif')
        closed, _, _ = bands(out, 'closed.tif')
        suitability, _, _ = bands(out, 'suitability.tif')
        known = confidence[0] != nodata
        self.assertTrue(((confidence[0][known] >= 0) & (confidence[0][known] <= 1)).all())
        by_rule = known & (closed[0] >= 256) & (closed[0] < 2**31)
        self.assertGreater(by_rule.sum(), 0)
        self.assertEqual(set(confidence[0][by_rule]), {0.0})
        # What the best estimate finds very good is suitable in most members.
        self.assertGreater(confidence[0][known & (suitability[0] > 0.95)].mean(), 0.8)
        # A share of 32 members.
        self.assertTrue(numpy.allclose(confidence[0][known] * 32 % 1, 0, atol=1e-4))

    def test_the_same_seed_gives_the_same_bytes_at_any_number_of_threads(self):
        _, one = self.run_with('draws = 16', '--threads', 1, name='one.toml')
        _, two = self.run_with('draws = 16', '--threads', 2, name='two.toml')
        self.assertEqual(hashes(one), hashes(two))
        _, other = self.run_with('draws = 16\nseed = 2', name='other.toml')
        self.assertNotEqual(hashes(one), hashes(other))
        self.assertEqual(*(bands(out, 'yield.tif')[0][0].tobytes() for out in (one, other)))

    def test_errors_that_are_alike_nearby_alone_give_another_spread(self):
        _, everywhere = self.run_with('draws = 32', name='everywhere.toml')
        _, near = self.run_with('draws = 32\nlength_m = 500', '--threads', 1, name='near.toml')
        _, again = self.run_with('draws = 32\nlength_m = 500', '--threads', 2, name='again.toml')
        self.assertEqual(hashes(near), hashes(again))
        self.assertNotEqual(hashes(near), hashes(everywhere))
        a, b = (json.loads((out / 'run.json').read_text())['uncertainty']
                for out in (everywhere, near))
        self.assertIsNone(a['length_m'])
        self.assertEqual(b['length_m'], 500)

    def test_no_draws_no_spread_is_invented(self):
        result, out = self.run_with('draws = 0')
        self.assertIn('No spread was computed', result.stdout)
        self.assertEqual(bands(out, 'yield.tif')[0].shape[0], 1)
        self.assertFalse((out / 'maps/confidence.tif').exists())
        for site in sites(out):
            for column, value in site.items():
                if re.search(r'_p(10|50|90)$|^chance_|^ties|^measure', column):
                    self.assertEqual(value, '', column)
        self.assertIsNone(json.loads((out / 'run.json').read_text())['uncertainty'])

    def test_sites_hold_their_spread_and_chances(self):
        result, out = self.run_with('draws = 64')
        told = json.loads((out / 'run.json').read_text())['uncertainty']
        self.assertEqual((told['draws'], told['seed']), (64, 1))
        rows = sites(out)
        self.assertGreater(len(rows), 1)
        for row in rows:
            p10, p50, p90 = (float(row[f'nitrogen_kg_{p}']) for p in ('p10', 'p50', 'p90'))
            self.assertTrue(p10 < p50 < p90)
            self.assertTrue(p10 < float(row['nitrogen_kg']) < p90 * 1.2)
            self.assertTrue(0 <= float(row['chance_best']) <= float(row['chance_in_three']) <= 1)
            self.assertIn(row['ties_with_next'], ('yes', 'no'))
            self.assertAlmostEqual(told['sites'][row['name']]['nitrogen_kg']['p10'], p10, delta=6e-4)
        # Somebody is the best in every member; equal scores share the place.
        self.assertGreaterEqual(sum(float(row['chance_best']) for row in rows), 1 - 1e-3)
        self.assertGreaterEqual(sum(float(row['chance_in_three']) for row in rows),
                                min(3, len(rows)) - 2e-3)
        everything = told['all_sites']['nitrogen_kg']
        self.assertLess(everything['p10'], everything['p90'])
        if any(row['ties_with_next'] == 'yes' for row in rows):
            self.assertIn('are a tie', result.stdout)

    def test_every_input_says_who_says_so(self):
        _, out = self.run_with('draws = 16')
        inputs = json.loads((out / 'run.json').read_text())['uncertainty']['inputs']
        keys = [one['key'] for one in inputs]
        self.assertEqual(len(keys), len(set(keys)))
        for key in ('water.temperature', 'water.nitrogen', 'depth', 'crop.mu_max_per_day'):
            self.assertIn(key, keys)
        for one in inputs:
            self.assertTrue(one['basis'], one)
            for number in ('sd', 'coefficient_of_variation', 'low', 'high'):
                self.assertTrue(math.isfinite(one.get(number, 0.0)))

    def test_a_larger_error_widens_the_spread(self):
        outs = []
        for error in ('0.01', '2.5'):
            self.plan_text = re.sub(r'(?ms)(^\[water\.temperature\]$.*?^error *= )[0-9.]+',
                                    r'\g<1>' + error, self.plan_text)
            outs.append(self.run_with('draws = 64', name=f'plan{len(outs)}.toml')[1])
        small, large = map(mean_width, outs)
        self.assertGreater(large, 1.1 * small)

    def test_few_draws_are_a_warning(self):
        result, _ = self.run_with('draws = 5')
        self.assertIn('uncertainty.draws = 5 tells little', result.stderr)


if __name__ == '__main__':
    main()

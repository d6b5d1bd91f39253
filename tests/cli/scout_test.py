# SPDX-License-Identifier: Apache-2.0
"""The main job from the outside: what a run leaves, and what it refuses."""
import csv
import hashlib
import json
import os
import re
import subprocess
import unittest

import numpy as np
import rasterio
from bay import PROGRAM, Bay, main, run

COLUMNS = ('rank,name,lon,lat,area_ha,suitability,yield_t,yield_t_p10,yield_t_p90,nitrogen_kg,'
           'nitrogen_kg_p10,nitrogen_kg_p90,depth_min_m,depth_max_m,outplant,last_haul,harvests,'
           'line_m,bundles,landing_km,nearest_closed,nearest_closed_m,cautions,limited_by,'
           'corners').split(',')
FILES = {'maps/suitability.tif', 'maps/yield.tif', 'maps/nitrogen.tif', 'maps/season.tif',
         'maps/depth_low_water.tif', 'maps/coverage.tif', 'maps/confidence.tif',
         'maps/closed.tif', 'maps/reason.tif', 'sites.gpkg', 'sites.geojson', 'sites.csv', 'load.csv',
         'sites.gpx', 'report.html', 'field_sheet.html', 'field_readings.csv',
         'sheets.html', 'sites.sld', 'run.json'}
FILES |= {name.replace('.tif', '.sld') for name in FILES if name.startswith('maps/')}


def files_in(folder):
    return {str(p.relative_to(folder)) for p in folder.rglob('*') if p.is_file()}


def hashes(folder):
    return {name: hashlib.sha256((folder / name).read_bytes()).hexdigest()
            for name in files_in(folder) if name != 'run.json'}


class Results(Bay):
    what_if = True

    def test_leaves_exactly_the_promised_files(self):
        result, out = self.unchanged()
        self.assertEqual(files_in(out), FILES)
        self.assertIn('report.html', result.stdout)

    def test_same_bytes_at_any_thread_count_and_place(self):
        plan = self.plan()
        _, out = self.scout(plan, '--threads', '1')
        one = hashes(out)
        self.assertEqual(len(one), len(FILES) - 1)
        other = self.folder / 'elsewhere'
        again = run('scout', plan.name, '--out', other, '--threads', '7', cwd=self.folder,
                    env={**os.environ, 'LC_ALL': 'de_DE.UTF-8', 'TZ': 'Pacific/Chatham'})
        self.assertEqual(again.returncode, 0, again.stderr)
        self.assertEqual(hashes(other), one)

    def test_sites_csv(self):
        _, out = self.unchanged()
        raw = (out / 'sites.csv').read_bytes()
        self.assertFalse(raw.startswith(b'\xef\xbb\xbf'))
        rows = list(csv.DictReader(raw.decode().splitlines()))
        self.assertEqual(list(rows[0])[:len(COLUMNS)], COLUMNS)
        self.assertEqual([int(r['rank']) for r in rows], list(range(1, len(rows) + 1)))
        for row in rows:
            corners = [tuple(map(float, c.split())) for c in row['corners'].split(';')]
            self.assertEqual(len(set(corners)), 4)
            self.assertRegex(row['area_ha'], r'^\d+\.\d{4}$')
            self.assertAlmostEqual(float(row['area_ha']), 1.2, delta=0.01)
            self.assertLess(float(row['yield_t_p10']), float(row['yield_t_p90']))
            self.assertLess(float(row['nitrogen_kg_p10']), float(row['nitrogen_kg_p90']))
            self.assertEqual(row['draw_down'], 'counted')
            mean_kg = float(row['line_m']) * float(row['nitrogen_g_per_m']) / 1000
            self.assertAlmostEqual(float(row['nitrogen_without_kg']), mean_kg, delta=2e-3 * mean_kg)
            self.assertLessEqual(float(row['nitrogen_kg']), float(row['nitrogen_without_kg']))
            self.assertLessEqual(float(row['yield_t']), float(row['yield_without_t']))
            self.assertLessEqual(float(row['nitrogen_with_neighbours_kg']), float(row['nitrogen_kg']))
            others = set(filter(None, row['neighbours'].split('; ')))
            self.assertLessEqual(others, {r['name'] for r in rows} - {row['name']})
            self.assertRegex(row['outplant'], r'^\d\d-\d\d$')
            self.assertGreater(float(row['line_m']), 0)
            self.assertGreaterEqual(float(row['nearest_closed_m']), 0)

    def test_slower_water_is_drawn_down_further(self):
        shares = []
        for current in ('0.3', '0.03'):
            _, out = self.scout(self.plan((r'^(\[water\.current\]\n)[^[]*',
                                           rf'\g<1>constant = {current}\n\n')))
            rows = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
            shares.append(float(rows[0]['nitrogen_kg']) / float(rows[0]['nitrogen_without_kg']))
        self.assertLess(shares[1], shares[0])

    def test_choices_of_a_site(self):
        _, out = self.unchanged()
        rows = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        record = json.loads((out / 'run.json').read_text())
        for row in rows:
            choices = record['choices'][row['name']]
            planned = [c for c in choices if c['plan']]
            self.assertEqual([next(iter(c)) for c in planned],
                             ['line_depth_m', 'stocking_g_per_m', 'harvest_days', 'outplant'])
            for choice in planned:
                self.assertAlmostEqual(choice['nitrogen_kg'], float(row['nitrogen_kg']), delta=6e-4)
            self.assertEqual([c['harvest_days'] for c in choices if 'harvest_days' in c],
                             [7, 10, 14, 21, 28])
            drawn = record['draw_down'][row['name']]
            self.assertLess(drawn['taken_up_kg'], drawn['supply_kg'])
            self.assertTrue(0 < drawn['lowest_share'] < 1)

    def test_neighbours_of_a_site(self):
        slow = self.plan((r'^(\[water\.current\]\n)[^[]*', '\\g<1>constant = 0.04\n\n'))
        _, out = self.scout(slow)
        rows = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        record = json.loads((out / 'run.json').read_text())
        for row in rows:
            told = record['neighbours'][row['name']]
            self.assertEqual(told['sites'], list(filter(None, row['neighbours'].split('; '))))
            if not told['sites']:
                self.assertEqual(row['nitrogen_with_neighbours_kg'], row['nitrogen_kg'])
        together = record['all_sites']
        self.assertAlmostEqual(together['nitrogen_kg'],
                               sum(float(row['nitrogen_kg']) for row in rows), delta=0.02)
        self.assertLessEqual(together['nitrogen_with_neighbours_kg'], together['nitrogen_kg'])

    def test_kelp_has_its_draw_down_and_its_choices(self):
        text = self.plan_text
        for key in ('stocking_g_per_m', 'harvest_days'):
            text = re.sub(rf'(?m)^{key} .*\n', '', text)
        self.plan_text = text
        plan = self.plan((r'^profile .*$', 'profile = "sugar-kelp"'), (r'^gear_in .*\n', ''),
                         (r'^gear_out .*\n', ''), (r'^cell_m = .*$', 'cell_m = 120'))
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        rows = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        record = json.loads((out / 'run.json').read_text())
        self.assertTrue(rows)
        for row in rows:
            self.assertEqual(row['draw_down'], 'counted')
            self.assertLess(float(row['nitrogen_kg']), float(row['nitrogen_without_kg']))
            planned = [c for c in record['choices'][row['name']] if c['plan']]
            self.assertEqual([next(iter(c)) for c in planned],
                             ['line_depth_m', 'fronds_per_m', 'outplant'])

    def test_what_lies_near_a_site(self):
        near = ('[[near]]\nname = "other licences"\nfile = "closed.gpkg"\nlayer = "leases"\n'
                'distance_m = 400\ncount = 0\n')
        told, out = self.scout(self.plan((r'^\[crop\]$', near + '\n[crop]')))
        self.assertEqual(told.returncode, 0, told.stderr)
        record = json.loads((out / 'run.json').read_text())
        sites = json.loads((out / 'sites.geojson').read_text())['features']
        beyond = []
        for site in (one['properties'] for one in sites):
            found, = site['near']
            self.assertEqual(record['near'][site['name']], [found])
            self.assertEqual(found['beyond'], found['within'] > 0)
            self.assertEqual(found['within'] > 0, found['nearest_m'] <= 400)
            phrase = f"{found['within']} within 400 m of: other licences (at most 0)"
            self.assertEqual(phrase in site['cautions'], found['beyond'])
            beyond.append(found['beyond'])
        self.assertIn(True, beyond)
        self.assertIn('within the distance, at most 0', (out / 'report.html').read_text())
        with rasterio.open(out / 'maps/closed.tif') as ds:
            closed = ds.read(1)
        refusing = near + 'effect = "close"\n'
        told, out = self.scout(self.plan((r'^\[crop\]$', refusing + '\n[crop]')))
        self.assertEqual(told.returncode, 0, told.stderr)
        for site in json.loads((out / 'sites.geojson').read_text())['features']:
            found, = site['properties']['near']
            self.assertEqual(found['within'], 0)
            self.assertGreater(found['nearest_m'], 399.9)
        with rasterio.open(out / 'maps/closed.tif') as ds:
            self.assertTrue((ds.read(1) == closed).all())

    def test_what_each_rule_closes_and_closes_alone(self):
        _, out = self.unchanged()
        counts = json.loads((out / 'run.json').read_text())['counts']
        with rasterio.open(out / 'maps/closed.tif') as ds:
            bits = ds.read(1)
            names = {v: int(k[4:]) for k, v in ds.tags().items() if k.startswith('BIT_')}
        with rasterio.open(out / 'maps/depth_low_water.tif') as ds:
            water = ds.read(1, masked=True).filled(0) > 0
        bits = np.where(bits >= 0xFFFFFFFE, 0, bits)
        hectares = counts['water_ha'] / counts['water']
        by, alone = counts['water_ha_closed_by'], counts['water_ha_closed_only_by']
        self.assertEqual(list(by), list(alone))
        self.assertEqual(list(by), list(counts['water_cells_closed_by']))
        for name, bit in names.items():
            closed = ((bits >> bit) & 1).astype(bool) & water
            self.assertAlmostEqual(by.get(name, 0), closed.sum() * hectares, places=6)
            self.assertAlmostEqual(alone.get(name, 0), (closed & (bits == 1 << bit)).sum() * hectares,
                                   places=6)
        self.assertGreater(sum(by.values()), counts['closed_ha'])
        self.assertLess(sum(alone.values()), counts['closed_ha'])
        page = (out / 'report.html').read_text()
        self.assertIn('By it alone', page)
        self.assertIn('Any of them', page)

    def test_maps_share_one_grid_and_say_what_they_are(self):
        _, out = self.unchanged()
        grids = set()
        for name in sorted(FILES):
            if name.endswith('.tif'):
                with rasterio.open(out / name) as ds:
                    grids.add((ds.crs.to_string(), ds.transform, ds.shape))
                    self.assertTrue(all(ds.descriptions), name)
                    self.assertEqual(ds.tags()['TITLE'], 'Heron Bight, summer')
        self.assertEqual(len(grids), 1)
        with rasterio.open(out / 'maps/suitability.tif') as ds:
            values = ds.read(1, masked=True)
            self.assertEqual(ds.nodata, -9999)
        with rasterio.open(out / 'maps/closed.tif') as ds:
            closed = ds.read(1)
        with rasterio.open(out / 'maps/depth_low_water.tif') as ds:
            depth = ds.read(1, masked=True)
        self.assertGreaterEqual(values.min(), 0)
        self.assertLessEqual(values.max(), 1)
        is_closed = (closed > 0) & (closed < 4294967294)
        self.assertTrue((values[is_closed & ~values.mask] == 0).all())
        self.assertFalse((values.mask & is_closed).any(), 'closed water is 0, not nodata')
        self.assertTrue((depth.compressed() > 0).all(), 'land is nodata')

    def test_ranking_is_the_sum_of_suitability_times_yield(self):
        _, out = self.scout(self.plan((r'^cell_m = .*$', 'cell_m = 20')))
        with rasterio.open(out / 'maps/suitability.tif') as ds:
            crs, transform, shape = ds.crs, ds.transform, ds.shape
            score = ds.read(1, masked=True).filled(0).astype(float)
        with rasterio.open(out / 'maps/yield.tif') as ds:
            score *= ds.read(1, masked=True).filled(0)
        from rasterio.features import geometry_mask
        from rasterio.warp import transform_geom
        fine = 10  # points a side of a cell: each cell counts by the share that is covered
        sums = []
        for feature in json.loads((out / 'sites.geojson').read_text())['features']:
            shape_here = transform_geom('EPSG:4326', crs, feature['geometry'])
            inside = geometry_mask([shape_here], [side * fine for side in shape],
                                   transform * transform.scale(1 / fine), invert=True)
            share = inside.reshape(shape[0], fine, shape[1], fine).mean(axis=(1, 3))
            sums.append((score * share).sum())
        self.assertGreater(len(sums), 2)
        for better, worse in zip(sums, sums[1:]):
            self.assertGreaterEqual(better, worse * (1 - 1e-3))

    def test_sites_stand_clear_of_rules_and_each_other(self):
        from osgeo import ogr, osr
        _, out = self.scout(self.plan((r'^cell_m = .*$', 'cell_m = 20')))
        wgs, utm = osr.SpatialReference(), osr.SpatialReference()
        wgs.ImportFromEPSG(4326)
        utm.ImportFromEPSG(32625)
        for each in wgs, utm:
            each.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        source = ogr.Open(str(out / 'sites.geojson'))    # kept: a layer dies with its source
        sites = source.GetLayer()
        shapes = []
        for feature in sites:
            shape = feature.GetGeometryRef().Clone()
            shape.Transform(osr.CoordinateTransformation(wgs, utm))
            shapes.append(shape)
        gap = min(a.Distance(b) for i, a in enumerate(shapes) for b in shapes[:i])
        self.assertGreaterEqual(gap, 99.9)
        closed = ogr.Open(str(self.folder / 'closed.gpkg'))
        for layer, where, setback in (('eelgrass', "status = 'mapped'", 30),
                                      ('channel', None, 45), ('moorings', None, 60)):
            rows = closed.GetLayer(layer)
            rows.SetAttributeFilter(where)
            to_utm = osr.CoordinateTransformation(rows.GetSpatialRef(), utm)
            for feature in rows:
                rule = feature.GetGeometryRef().Clone()
                rule.Transform(to_utm)
                for shape in shapes:
                    self.assertGreaterEqual(shape.Distance(rule), setback - 0.2, layer)

    def test_no_site_is_an_answer(self):
        result, out = self.scout(self.plan((r'^count           = 5', 'min_suitability = 1.0\ncount = 5')))
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn('No site found', result.stdout)
        self.assertEqual(len((out / 'sites.csv').read_text().splitlines()), 1)
        self.assertEqual(files_in(out), FILES)

    def test_run_json_tells_what_was_assumed(self):
        _, out = self.unchanged()
        record = json.loads((out / 'run.json').read_text())
        self.assertEqual(record['program'], 'tidelot')
        keys = record['plan']['keys']
        self.assertTrue(keys['farm.line_gap_m']['given'])
        self.assertFalse(keys['farm.clearance_m']['given'])
        self.assertTrue(keys['farm.clearance_m']['basis'])
        depth = next(i for i in record['inputs'] if i['file'] == 'depth.tif')
        self.assertEqual(depth['sha256'],
                         hashlib.sha256((self.folder / 'depth.tif').read_bytes()).hexdigest())

    def test_report_asks_nothing_of_the_network(self):
        _, out = self.scout(self.plan())
        for name in 'report.html', 'field_sheet.html':
            page = (out / name).read_text()
            self.assertIn("default-src 'none'", page)
            self.assertIsNone(re.search(r'(src|href)\s*=\s*["\']?\s*(https?:)?//', page))
            self.assertIn('Not for navigation', page)
            self.assertNotIn(str(self.folder), page)


    def test_north_arrow_points_along_the_meridian(self):
        """East of the zone's central meridian true north lies west of grid north."""
        from rasterio.warp import transform
        _, out = self.unchanged()
        with rasterio.open(out / 'maps/depth_low_water.tif') as ds:
            box = ds.bounds
            crs = ds.crs
        lon, lat = (box.left + box.right) / 2, (box.bottom + box.top) / 2
        (lon,), (lat,) = transform(crs, 'EPSG:4326', [lon], [lat])
        xs, ys = transform('EPSG:4326', crs, [lon, lon], [lat, lat + 0.001])
        bearing = np.degrees(np.arctan2(xs[1] - xs[0], ys[1] - ys[0]))
        page = (out / 'report.html').read_text()
        turns = {float(t) for t in re.findall(r'rotate\((-?[\d.]+)\)', page)}
        self.assertTrue(any(abs(t - bearing) < 0.01 for t in turns), (turns, bearing))
        self.assertLess(bearing, -1)
        self.assertIn(f'true north lies {-bearing:.2f}° west', page)


class OutputFolder(Bay):
    def test_replaces_its_own_run_and_keeps_what_is_not_its(self):
        plan = self.plan()
        _, out = self.scout(plan)
        (out / 'notes.txt').write_text('mine')
        result, _ = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual((out / 'notes.txt').read_text(), 'mine')
        self.assertEqual(files_in(out), FILES | {'notes.txt'})

    def test_refuses_a_folder_that_is_not_a_run(self):
        out = self.folder / 'out'
        out.mkdir()
        (out / 'thesis.txt').write_text('years of work')
        result, _ = self.scout(self.plan())
        self.assertEqual(result.returncode, 4, result.stderr)
        self.assertEqual(files_in(out), {'thesis.txt'})

    def test_default_folder_stands_beside_the_plan(self):
        result = run('scout', self.plan(name='summer.toml'), cwd='/')
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual(files_in(self.folder / 'summer-out'), FILES)

    def test_unwritable_place_is_status_4(self):
        result = run('scout', self.plan(), '--out', '/proc/tidelot-cannot-be-here')
        self.assertEqual(result.returncode, 4, result.stderr)


class Refusals(Bay):
    def test_unknown_key_names_place_and_nearest(self):
        self.refused(self.plan((r'^line_gap_m .*$', 'line_gap = 6')), 2, 'plan.toml:',
                     'line_gap', 'line_gap_m')

    def test_later_keys_are_not_yet_supported(self):
        self.refused(self.plan((r'^\[crop\]$', '[run]\ngrowth = "x"\n[crop]')), 2,
                     'not yet supported', 'plan.toml:')

    def test_unknown_profile(self):
        self.refused(self.plan((r'warm-red-alga', 'warm-red-algae')), 2, 'warm-red-alga')

    def test_missing_file(self):
        self.refused(self.plan((r'"depth\.tif"', '"deep.tif"')), 3, 'deep.tif', 'depth')

    def test_missing_layer(self):
        self.refused(self.plan((r'"eelgrass"$', '"seagrass"')), 3, 'seagrass', 'closed.gpkg')

    def test_wrong_variable(self):
        self.refused(self.plan((r'"sst"', '"salt"')), 3, 'temperature.nc', 'salt')

    def test_bad_filter(self):
        self.refused(self.plan((r'''"status = 'mapped'"''', '"no_such = 1"')), 3, 'where')

    def test_positive_is_checked_against_the_values(self):
        self.refused(self.plan((r'^positive .*$', 'positive = "down"'),
                               (r'^bounds = .*$', 'bounds = [-30.062, 41.0255, -30.060, 41.0285]'),
                               (r'^landing .*$', '')),
                     3, 'positive')

    def test_unit_clash(self):
        self.refused(self.plan((r'^unit     = "K"', 'unit = "degF"')), 3, 'water.temperature',
                     'unit')

    def test_no_overlap(self):
        self.refused(self.plan((r'^bounds = .*$', 'bounds = [-40.10, 41.00, -40.02, 41.06]'),
                               (r'^landing .*$', '')), 3, 'area')

    def test_grid_too_large(self):
        self.refused(self.plan((r'^cell_m = .*$', 'cell_m = 0.01')), 2, 'cell_m')

    def test_truncated_raster(self):
        whole = (self.folder / 'depth.tif').read_bytes()
        (self.folder / 'depth.tif').unlink()
        (self.folder / 'depth.tif').write_bytes(whole[:len(whole) * 2 // 3])
        self.refused(self.plan(), 3, 'depth.tif')

    def test_words_on_the_command_line(self):
        for words in ((), ('scuot',), ('scout',), ('scout', 'a', 'b'), ('scout', 'a', '--threads', 'x'),
                      ('scout', 'nowhere.toml'), ('compare', 'a', 'b'), ('crops', 'kelpp'),
                      ('explain', self.plan()), ('explain', self.plan(), '--at', '41'),
                      ('explain', self.plan(), '--at', '0,0')):
            result = run(*words)
            self.assertEqual(result.returncode, 2, words)
            self.assertEqual(len(result.stderr.splitlines()), 1, result.stderr)
            self.assertEqual(result.stdout, '')


class Others(Bay):
    def test_a_landing_far_inland_is_told(self):
        plan = self.plan((r'^landing .*$', 'landing = [-30.0173, 41.0599]'))
        result, _ = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        told = r'warning: sites\.landing: the nearest water for the boat lies \d{3,4} m from it'
        self.assertRegex(result.stderr, told)
        check = run('check', plan)
        self.assertRegex(' '.join(check.stdout.split()), told)
        explain = run('explain', plan, '--at', '-30.055,41.03')
        self.assertRegex(' '.join(explain.stdout.split()), told)

    def test_a_landing_outside_of_the_area_is_to_mend(self):
        check = run('check', self.plan((r'^landing .*$', 'landing = [-29.5, 41.0599]')))
        self.assertEqual(check.returncode, 2)
        self.assertIn('sites.landing: lies outside the area', check.stdout)

    def test_depths_the_wrong_way_round_are_told(self):
        plan = self.plan((r'^positive .*$', 'positive = "down"'), name='down.toml')
        told = 'warning: depth.positive: the depths look upside down'
        self.assertIn(told, run('check', plan).stdout)
        self.assertNotIn(told, run('check', self.plan()).stdout)
        result, out = self.scout(plan)
        self.assertIn(told, result.stderr)
        warnings = json.loads((out / 'run.json').read_text())['warnings']
        self.assertTrue(any('look upside down' in line for line in warnings))

    def test_check_lists_every_layer(self):
        result = run('check', self.plan())
        self.assertEqual(result.returncode, 0, result.stderr)
        for key in ('depth', 'water.temperature', 'water.salinity', 'water.light', 'water.nitrogen',
                    'water.current', 'closed[0]', 'closed[4]'):
            self.assertRegex(result.stdout, rf'(?m)^{re.escape(key)}\s')

        self.assertRegex(result.stdout.splitlines()[-1], r'^ready: tidelot scout .*plan\.toml$')

    def test_check_names_everything_there_is_to_mend(self):
        plan = self.plan((r'"nitrogen.tif"', '"nothere.tif"'), (r'"eelgrass"$', '"seagrass"'))
        result = run('check', plan)
        self.assertEqual(result.returncode, 3)
        last = result.stdout.splitlines()[-2:]
        self.assertIn('to mend, 1 of 2: water.nitrogen: nothere.tif', last[0])
        self.assertIn('to mend, 2 of 2: closed "eelgrass beds": ', last[1])
        self.assertEqual(len(result.stderr.splitlines()), 1, result.stderr)
        self.assertIn('plan.toml: 2 things are to mend, listed above', result.stderr)
        self.assertEqual((result.stdout + result.stderr).count('nothere.tif'), 1)
        self.assertRegex(result.stdout, r'(?m)^depth\s.* 100 % ')

    def test_check_fits_a_terminal(self):
        for plan in (self.plan(), self.plan((r'"nitrogen.tif"', '"nothere.tif"'))):
            for line in run('check', plan).stdout.splitlines():
                message = re.match('warning: |to mend, |ready: ', line)
                self.assertTrue(len(line) <= 100 or message, line)

    def test_check_json(self):
        result = run('check', self.plan(), '--json')
        self.assertEqual(result.returncode, 0, result.stderr)
        found = json.loads(result.stdout)
        self.assertTrue(found['ready'])
        self.assertEqual(found['to_mend'], [])
        rows = {row['key']: row for row in found['layers']}
        self.assertEqual(rows['water.temperature']['file'], 'temperature.nc')
        self.assertEqual(rows['water.temperature']['times'], '2019-01-16 to 2019-12-16')
        self.assertAlmostEqual(rows['depth']['cover'], 1.0)
        self.assertIn('area.edge', found['defaults'])
        broken = run('check', self.plan((r'"nitrogen.tif"', '"nothere.tif"')), '--json')
        self.assertEqual(broken.returncode, 3)
        found = json.loads(broken.stdout)
        self.assertFalse(found['ready'])
        self.assertEqual(len(found['to_mend']), 1)

    def closed_by(self, *edits):
        result, out = self.scout(self.plan(*edits))
        self.assertEqual(result.returncode, 0, result.stderr)
        return json.loads((out / 'run.json').read_text())['counts']

    def test_a_rule_of_some_months_closes_where_it_meets_the_season(self):
        whole = json.loads((self.unchanged()[1] / 'run.json').read_text())['counts']
        self.assertGreater(whole['water_cells_closed_by']['eelgrass beds'], 0)
        name = (r'^(name\s*= "eelgrass beds")$', r'\1\nmonths = [{}]')
        summer = self.closed_by((name[0], name[1].format('7, 8')))
        winter = self.closed_by((name[0], name[1].format('1, 2')))
        self.assertEqual(summer['water_cells_closed_by']['eelgrass beds'],
                         whole['water_cells_closed_by']['eelgrass beds'])
        self.assertNotIn('eelgrass beds', winter['water_cells_closed_by'])
        self.assertGreater(winter['open'], whole['open'])

    def test_a_rule_for_food_holds_for_food(self):
        food = (r'^(name\s*= "eelgrass beds")$', r'\1\nonly_for = "food"')
        counts = json.loads((self.unchanged()[1] / 'run.json').read_text())['counts']
        whole = counts['water_cells_closed_by']['eelgrass beds']
        self.assertNotIn('eelgrass beds', self.closed_by(food)['water_cells_closed_by'])
        eaten = self.closed_by(food, (r'^use .*"nutrient"', 'use = "food"'))
        self.assertEqual(eaten['water_cells_closed_by']['eelgrass beds'], whole)

    def test_edge_rule_and_coverage_map(self):
        def known(edge):
            _, out = self.scout(self.plan((r'^cell_m = .*$', f'cell_m = 40\nedge = "{edge}"')))
            with rasterio.open(out / 'maps/coverage.tif') as ds:
                coverage = ds.read(1)
            with rasterio.open(out / 'maps/nitrogen.tif') as ds:
                nitrogen = ds.read(1)
            return coverage, nitrogen != -9999
        cover, half = known('half')
        again, full = known('full')
        _, some = known('any')
        np.testing.assert_array_equal(cover, again)
        water = cover != -9999
        self.assertTrue(((cover[water] >= 0) & (cover[water] <= 1)).all())
        np.testing.assert_array_equal(full, water & (cover > 1 - 1e-6) & full)
        self.assertFalse((full & ~half).any() or (half & ~some).any())
        self.assertTrue((half & ~full).any())
        self.assertTrue((cover[half] >= 0.5 - 1e-6).all())

    def test_explain_csv(self):
        result = run('explain', self.plan(), '--at', '-30.055,41.03', '--csv')
        self.assertEqual(result.returncode, 0, result.stderr)
        rows = list(csv.DictReader(result.stdout.splitlines()))
        self.assertEqual(','.join(rows[0]), 'date,temperature,salinity,kd,nitrogen,par,day_length_h,'
                         'f_temperature,f_salinity,f_light,f_nitrogen,f_density,growth_per_day,'
                         'biomass_g_per_m,tissue_n,harvest_g_per_m')
        self.assertGreater(len(rows), 100)
        weight = 100.0
        for row in rows:
            weight *= np.exp(float(row['growth_per_day']))
            self.assertAlmostEqual(weight, float(row['biomass_g_per_m']), delta=1e-6 * weight)
            weight -= float(row['harvest_g_per_m'])
        self.assertAlmostEqual(weight, 0.0, delta=1e-6)

    def test_explain_agrees_with_the_maps(self):
        plan = self.plan()
        _, out = self.unchanged()
        row = next(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        series = run('explain', plan, '--at', f"{row['lon']},{row['lat']}", '--csv').stdout
        days = list(csv.DictReader(series.splitlines()))
        self.assertEqual(days[0]['date'], row['outplant'])
        self.assertEqual(days[-1]['date'], row['last_haul'])
        grown = sum(float(d['harvest_g_per_m']) for d in days) - 100
        from rasterio.warp import transform
        with rasterio.open(out / 'maps/yield.tif') as ds:
            (x,), (y,) = transform('EPSG:4326', ds.crs, [float(row['lon'])], [float(row['lat'])])
            mapped = next(ds.sample([(x, y)]))[0]
        self.assertAlmostEqual(mapped, grown / 1000, delta=1e-4 * (grown + 100) / 1000)

    def test_explain_tells_the_rules_around(self):
        text = run('explain', self.plan(), '--at', '-30.0645,41.0279').stdout
        row = next(line for line in text.splitlines() if line.startswith('main channel'))
        self.assertIn('invented rule 3.1', row)
        self.assertNotIn('closed here', row)
        inside = run('explain', self.plan(), '--at', '-30.0470,41.0043').stdout
        row = next(line for line in inside.splitlines() if line.startswith('main channel'))
        self.assertIn('closed here', row)
        self.assertIn('inside', row)

    def test_start_writes_a_plan_once(self):
        folder = self.folder / 'new'
        self.assertEqual(run('start', folder).returncode, 0)
        text = (folder / 'plan.toml').read_text()
        self.assertEqual(run('start', folder).returncode, 4)
        self.assertEqual((folder / 'plan.toml').read_text(), text)
        self.assertEqual(run('check', folder / 'plan.toml').returncode, 3)   # no layers there yet

    def test_crops(self):
        self.assertIn('warm-red-alga', run('crops').stdout)
        self.assertIn('Gorman', run('crops', 'warm-red-alga').stdout)

    def test_help_fits_a_screen(self):
        for words in ((), ('scout',), ('check',), ('explain',), ('crops',), ('start',)):
            result = run(*words, '--help')
            self.assertEqual(result.returncode, 0)
            self.assertLess(len(result.stdout.splitlines()), 25)

    def test_a_full_stdout_is_status_4(self):
        with open('/dev/full', 'w') as full:
            result = subprocess.run([PROGRAM, 'crops', 'warm-red-alga'], stdout=full,
                                    stderr=subprocess.PIPE, text=True)
        self.assertEqual(result.returncode, 4, result.stderr)


if __name__ == '__main__':
    main()

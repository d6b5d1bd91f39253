#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""Several sources of depth, against numpy: depth_sources_test.py PROGRAM SOURCE_FOLDER

Rasters whose pixels are the grid's cells: a cell takes a pixel's value as it is, so that the
numbers to expect follow from the rasters by numpy alone.
"""
import csv
import json
import sys
from pathlib import Path

import numpy as np
import rasterio

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parent))
import depth_bay

CELL = 25.0


def source(name, file, more=''):
    return f'[[depth.sources]]\nname = "{name}"\nfile = "{file}"\n{more}\n'


HEAD = '[depth]\npositive = "down"\ndatum = "MLLW"\n'


class Sources(depth_bay.DepthBay):
    def setUp(self):
        super().setUp()
        west, south, east, north = self.square(0)
        self.middle = (west + east) / 2, (south + north) / 2
        self.raster('chart.tif', lambda x, y: 9 + 0 * x + 0 * y)
        self.raster('survey.tif', self.survey)

    def survey(self, x, y):
        """A disc in the middle with a notch, deeper eastward."""
        dx, dy = x - self.middle[0], y - self.middle[1]
        inside = (np.hypot(dx, dy) < 500) & ~((dx > 0) & (np.abs(dy) < 110))
        return np.where(inside, 6 + dx / 1000 + 0 * dy, np.nan)

    def at_cells(self, function, x, y):
        return np.broadcast_to(function(x, y), x.shape).astype('float32').astype(float)

    def test_the_first_with_a_value_wins(self):
        found, x, y, _ = self.scout(HEAD + source('survey', 'survey.tif') +
                                    source('chart', 'chart.tif'))
        better = self.at_cells(self.survey, x, y)
        np.testing.assert_array_equal(found, np.where(np.isnan(better), 9.0, better))
        which, _, _ = self.map('depth_source')
        np.testing.assert_array_equal(which, np.isnan(better).astype(float))
        with rasterio.open(self.folder / 'out' / 'maps' / 'depth_source.tif') as file:
            self.assertEqual((file.dtypes[0], file.nodata), ('uint8', 255))
        self.assertIn('maps/depth_source.tif', (self.folder / 'out' / 'run.json').read_text())

    def test_feathered(self):
        """The share rises over 150 m of distance to the nearest cell that is not covered."""
        feather = 150.0
        found, x, y, _ = self.scout(
            HEAD + source('survey', 'survey.tif', f'feather_m = {feather}') +
            source('chart', 'chart.tif'))
        better = self.at_cells(self.survey, x, y)
        bare = np.argwhere(np.isnan(better))
        wanted = np.full(better.shape, 9.0)
        mixed = 0
        for row, col in np.argwhere(~np.isnan(better)):
            away = CELL * np.sqrt(((bare - [row, col]) ** 2).sum(1).min())
            share = min(1.0, away / feather)
            mixed += share < 1
            wanted[row, col] = share * better[row, col] + (1 - share) * 9.0
        self.assertGreater(mixed, 100)
        np.testing.assert_allclose(found, wanted, rtol=0, atol=1e-6)
        which, _, _ = self.map('depth_source')
        np.testing.assert_array_equal(which, np.isnan(better).astype(float))

    def test_no_seam_between_tiles_or_threads(self):
        plan = (HEAD + source('survey', 'survey.tif', 'feather_m = 400') +
                source('chart', 'chart.tif'))
        files = []
        for threads in '1', '4':
            self.scout(plan, '--threads', threads)
            folder = self.folder / 'out'
            files.append([(folder / name).read_bytes() for name in
                          ('maps/depth_low_water.tif', 'maps/depth_source.tif', 'sites.csv')])
        self.assertEqual(*files)

    def test_nothing_is_mixed_with_nothing(self):
        """At its edge towards unknown water the better source stands alone."""
        found, x, y, _ = self.scout(HEAD + source('survey', 'survey.tif', 'feather_m = 150') +
                                    source('again', 'survey.tif'))
        np.testing.assert_allclose(found, self.at_cells(self.survey, x, y), rtol=0, atol=1e-6)

    def test_each_its_own_zero_sign_and_unit(self):
        """5.00 m at mean lower low water, as an elevation in feet from mean sea level 1.10 m above
        it, and as a depth from mean high water 2.05 m above it."""
        self.raster('bed.tif', lambda x, y: np.where(x < self.middle[0], -6.10 / 0.3048, np.nan) +
                    0 * y)
        self.raster('high.tif', lambda x, y: 7.05 + 0 * x + 0 * y)
        found, _, _, _ = self.scout(
            HEAD + 'low_water_m = 0\n' +
            source('bed', 'bed.tif', 'positive = "up"\nunit = "ft"\ndatum = "mean sea level"\n'
                                     'low_water_m = -1.10') +
            source('high', 'high.tif', 'datum = "mean high water"\nlow_water_m = -2.05'))
        np.testing.assert_allclose(found, 5.0, rtol=0, atol=2e-6)

    def test_a_raster_of_separations(self):
        self.raster('separation.tif', lambda x, y: -1 - (x - self.middle[0]) / 4000 + 0 * y)
        found, x, _, _ = self.scout(
            HEAD + 'low_water_m = 0\n' +
            source('survey', 'survey.tif', 'datum = "MSL"\nlow_water_m = "separation.tif"') +
            source('chart', 'chart.tif'))
        _, _, y = self.map('depth_low_water')
        better = self.at_cells(self.survey, x, y) - 1 - (x - self.middle[0]) / 4000
        np.testing.assert_allclose(found, np.where(np.isnan(better), 9.0, better), rtol=0,
                                   atol=1e-5)

    def test_two_zeros_are_not_mixed_in_silence(self):
        self.refused(HEAD + source('survey', 'survey.tif', 'datum = "MSL"') +
                     source('chart', 'chart.tif'), 2, 'depth.sources[0].low_water_m is missing',
                     'MSL', 'MLLW')
        self.refused(HEAD + source('survey', 'survey.tif', 'datum = "LAT"') +
                     source('chart', 'chart.tif'), 2, 'low_water_m is missing')
        self.refused(HEAD + source('survey', 'survey.tif', 'datum = "MSL"\nlow_water_m = -1.1') +
                     source('chart', 'chart.tif'), 2, 'low_water_m is missing', '"chart"')

    def test_named_at_sites_and_places(self):
        plan = HEAD + source('survey 2021', 'survey.tif') + source('chart', 'chart.tif')
        self.scout(plan)
        out = self.folder / 'out'
        with open(out / 'sites.csv', encoding='utf-8') as text:
            sites = list(csv.DictReader(text))
        self.assertTrue(sites)
        for site in sites:
            self.assertEqual(site['depth_datum'], 'MLLW')
            self.assertIn(site['depth_source'].split(' %')[0].rsplit(' ', 1)[0],
                          ('survey 2021', 'chart', 'survey'))
            self.assertAlmostEqual(float(site['depth_high_min_m']),
                                   float(site['depth_min_m']) + 2.1, delta=0.011)
        page = (out / 'report.html').read_text()
        self.assertIn('Depths from', page)
        self.assertIn('survey 2021: MLLW; low water: 0 m', page)
        lon, lat = depth_bay.TO_DEGREES.transform(self.middle[0] - 200, self.middle[1])
        at = f'{lon:.6f},{lat:.6f}'
        told = self.run_plan(plan, '--at', at, command='explain')
        words = ' '.join(told.stdout.split())
        self.assertIn('m at high water (MLLW); from survey 2021', words)
        told = json.loads(self.run_plan(plan, '--at', at, '--json', command='explain').stdout)
        self.assertEqual(told['depth_source'], 'survey 2021')
        told = self.run_plan(plan, command='check').stdout
        self.assertIn('depth.sources[1]', told)
        self.assertIn('gives the depth of', ' '.join(told.split()))

    def test_one_file_leaves_no_map_of_sources(self):
        self.scout(HEAD + 'file = "chart.tif"')
        self.assertFalse((self.folder / 'out' / 'maps' / 'depth_source.tif').exists())
        with open(self.folder / 'out' / 'sites.csv', encoding='utf-8') as text:
            self.assertEqual({s['depth_source'] for s in csv.DictReader(text)}, {'chart.tif'})

    def test_refused(self):
        both = HEAD + 'file = "chart.tif"\n' + source('survey', 'survey.tif')
        self.refused(both, 2, 'depth.file and [[depth.sources]] are both given')
        self.refused(HEAD, 2, 'depth.file is missing')
        self.refused('[depth]\ndatum = "MLLW"\n' + source('chart', 'chart.tif'), 2,
                     'depth.sources[0].positive is missing')
        self.refused(HEAD + 2 * source('chart', 'chart.tif'), 2, 'taken by another source')
        self.refused(HEAD + source('chart', 'chart.tif', 'feather_m = 90000'), 2, 'feather_m',
                     '256 cells')
        self.refused(HEAD + source('gone', 'gone.tif'), 3, 'depth.sources[0]: gone.tif')
        self.refused(HEAD + source('chart', 'chart.tif', 'positive = "up"'), 3,
                     'depth.sources[0].positive')


if __name__ == '__main__':
    depth_bay.main()

# SPDX-License-Identifier: Apache-2.0
"""Waves from the outside: the maps, the criterion, the closed bit, and what explain says."""
import csv
import json
import math
import unittest

import numpy as np
import pyproj
import rasterio
import scipy.optimize
from bay import Bay, main, run
from osgeo import ogr

RANGE = 0.0  # m, tidal range: no land dries, so that the maps show all land there is for waves
WIND = 24.0  # m/s, once in fifty years from the north
OPEN_KM = 7.0
# No convergence along the middle of the bay, so north is up.
UPRIGHT = (r'^cell_m = 40$',
           'cell_m = 40\ncrs = "+proj=tmerc +lon_0=-30.06 +lat_0=41 +datum=WGS84 +units=m"')


def young_verhagen(wind, fetch, depth):
    """Young & Verhagen 1996, Coastal Engineering 29:47-78, written down a second time."""
    g = 9.81
    x, d = g * fetch / wind**2, g * depth / wind**2
    a = np.tanh(0.493 * d**0.75)
    energy = 3.64e-3 * (a * np.tanh(3.13e-3 * x**0.57 / a))**1.74
    return 4 * np.sqrt(energy) * wind**2 / g


def ring(points):
    """A closed polygon."""
    line = ogr.Geometry(ogr.wkbLinearRing)
    for point in points:
        line.AddPoint_2D(*point)
    line.CloseRings()
    polygon = ogr.Geometry(ogr.wkbPolygon)
    polygon.AddGeometry(line)
    return polygon


def cell_outline(row, col):
    return ring([(col, row), (col + 1, row), (col + 1, row + 1), (col, row + 1)])


def fetch_from_north(depth, cell):
    """Of cells whose rows run from north to south: fetch and mean depth of each column's water."""
    fetch, mean = np.zeros_like(depth), np.full_like(depth, np.nan)
    for col in range(depth.shape[1]):
        length, total, count = OPEN_KM * 1000 - cell / 2, 0.0, 0
        for row in range(depth.shape[0]):
            d = depth[row, col]
            if d <= 0:
                length, total, count = -cell / 2, 0.0, 0
                continue
            length, total, count = length + cell, total + d, count + 1
            fetch[row, col], mean[row, col] = length, total / count
    return fetch, mean


class Waves(Bay):
    def winds(self, rows):
        (self.folder / 'winds.csv').write_text(
            'direction,speed,share,speed_1y,speed_50y\n' + rows)

    def only_north(self):
        self.winds(f'0,8,0.3,15,{WIND}\n90,0,0,,\n180,0,0,,\n270,0,0,,\n')

    def rose(self):
        self.winds(''.join(f'{45 * i},{5 + i % 3},0.1,,\n' for i in range(8)))

    def with_waves(self, *edits, more=''):
        waves = f'[waves]\nwinds = "winds.csv"\nopen_km = {OPEN_KM}\n{more}\n[sites]'
        return self.plan((r'^\[sites\]$', waves), *edits)

    def maps(self, out, name='waves'):
        with rasterio.open(out / f'maps/{name}.tif') as file:
            return file.read(), file.descriptions, file.transform

    def test_one_direction_against_columns_counted_here(self):
        self.only_north()
        result, out = self.scout(self.with_waves(
            UPRIGHT, (r'^tidal_range_m .*$', f'tidal_range_m = {RANGE}'), more='directions = 4'))
        self.assertEqual(result.returncode, 0, result.stderr)
        waves, names, transform = self.maps(out)
        self.assertEqual(len(names), 4)
        depth = self.maps(out, 'depth_low_water')[0][0].astype(float)
        water = depth != -9999
        low = np.where(water, depth, np.nan)
        self.assertGreater(water.sum(), 1000)
        cell = transform.a
        with rasterio.open(out / 'maps/reason.tif') as file:
            land = file.read(1) == 1
        counted = np.where(land, -1.0, np.where(water, low + RANGE, 50.0))
        fetch, mean = fetch_from_north(counted, cell)
        expected = np.minimum(young_verhagen(WIND, np.maximum(fetch, 1), np.maximum(mean, 0.1)),
                              0.6 * (low + RANGE))
        found = waves[0]
        np.testing.assert_allclose(found[water], expected[water], rtol=4e-3)
        self.assertTrue((found[water] <= 0.6 * (low[water] + RANGE) + 1e-4).all())
        self.assertTrue((waves[2][water] <= found[water] + 1e-6).all())

    def test_same_bytes_at_any_thread_count(self):
        self.rose()
        plan = self.with_waves()
        _, out = self.scout(plan, '--threads', '1')
        one = (out / 'maps/waves.tif').read_bytes()
        _, out = self.scout(plan, '--threads', '3')
        self.assertEqual((out / 'maps/waves.tif').read_bytes(), one)

    def test_share_of_time_is_less_for_a_higher_limit(self):
        self.rose()
        shares = []
        for limit in (0.2, 0.4):
            _, out = self.scout(self.with_waves(more=f'working_limit_m = {limit}'))
            waves, names, _ = self.maps(out)
            self.assertIn(f'{limit} m', names[3])
            shares.append(waves[3][waves[3] != -9999])
        self.assertTrue((shares[0] >= shares[1]).all())
        self.assertGreater(shares[0].max(), 0.0)
        self.assertLessEqual(shares[0].max(), 0.8)

    def test_a_site_tells_the_waves_of_its_most_exposed_cell(self):
        self.rose()
        _, out = self.scout(self.with_waves())
        waves = self.maps(out)[0]
        depth = self.maps(out, 'depth_low_water')[0][0].astype(float)
        site = next(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
        with rasterio.open(out / 'maps/waves.tif') as file:
            inverse = ~file.transform
            to_grid = pyproj.Transformer.from_crs('EPSG:4326', file.crs, always_xy=True)
        corners = [to_grid.transform(*map(float, c.split())) for c in site['corners'].split(';')]
        outline = ring([inverse * c for c in corners])
        covered = [(r, c) for r in range(depth.shape[0]) for c in range(depth.shape[1])
                   if outline.Intersection(cell_outline(r, c)).Area() > 1e-6]
        worst = max(covered, key=lambda cell: waves[0][cell])
        self.assertAlmostEqual(float(site['wave_50y_m']), waves[0][worst], delta=0.0051)
        self.assertAlmostEqual(float(site['wave_50y_period_s']), waves[1][worst], delta=0.051)
        self.assertAlmostEqual(float(site['wave_1y_m']), waves[2][worst], delta=0.0051)
        self.assertAlmostEqual(float(site['wave_share_above']), waves[3][worst], delta=0.00006)
        tide = json.loads((out / 'run.json').read_text())['plan']['keys'][
            'depth.tidal_range_m']['value']
        deep = depth[worst] + tide
        height, period = float(waves[0][worst]), float(waves[1][worst])
        k = scipy.optimize.brentq(  # linear theory: w^2 = g k tanh(k d)
            lambda k: 9.81 * k * math.tanh(k * deep) - (2 * math.pi / period) ** 2, 1e-6, 100)
        bed = math.pi * height / period / math.sinh(k * deep)
        self.assertAlmostEqual(float(site['wave_bed_m_s']), bed, delta=0.006)
        self.assertIn('once in fifty years', (out / 'report.html').read_text())

    def test_what_the_gear_bears_closes_with_its_bit(self):
        self.only_north()
        result, out = self.scout(self.with_waves((r'^use .*"nutrient"$', 'use = "nutrient"\nmax_wave_m = 0.5')))
        self.assertEqual(result.returncode, 0, result.stderr)
        waves = self.maps(out)[0][0]
        with rasterio.open(out / 'maps/closed.tif') as file:
            closed = file.read(1)
        water = (closed != 0xFFFFFFFF) & (closed != 0xFFFFFFFE)
        np.testing.assert_array_equal((closed[water] & 4) != 0, waves[water] > 0.5)
        counts = json.loads((out / 'run.json').read_text())['counts']
        self.assertGreater(counts['water_cells_closed_by']['waves too high for the gear'], 0)

    def test_explain_tells_the_waves(self):
        self.rose()
        plan = self.with_waves()
        result = run('explain', plan, '--at', '-30.055,41.03')
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertRegex(result.stdout, r'Waves +significant height once in 50 years \d')
        found = json.loads(run('explain', plan, '--at', '-30.055,41.03', '--json').stdout)
        self.assertGreater(found['waves']['height_50y_m'], found['waves']['height_1y_m'])

    def test_refusals(self):
        self.winds('0,5,0.2,,\n')
        self.refused(self.with_waves(), 3, 'waves.winds', 'winds.csv', 'directions')
        self.refused(self.plan((r'^use .*"nutrient"$', 'use = "nutrient"\nmax_wave_m = 1')), 2, 'max_wave_m',
                     '[waves]')


if __name__ == '__main__':
    main()

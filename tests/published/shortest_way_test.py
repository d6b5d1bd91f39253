# SPDX-License-Identifier: Apache-2.0
"""Ways over water against what is known from outside: straight lines in open water; around a round
island the closed form (two tangents and the arc between them, elementary geometry); and SciPy's
Dijkstra (scipy.sparse.csgraph) on a graph of its own with 32 neighbours, in a bay of walls.

A plan whose only criterion is the way to the landing scores 1 - km / 10, so that the suitability map
is the distance. shortest_way_test.py PROGRAM SOURCE_DIR"""
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import numpy as np
import rasterio
import rasterio.warp
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra

PROGRAM = sys.argv[1]
CELL, SIDE = 20.0, 120
CRS = '+proj=tmerc +lon_0=-30 +lat_0=41 +k=1 +datum=WGS84 +units=m'
HALF = CELL * SIDE / 2


def centres():
    at = (np.arange(SIDE) + 0.5) * CELL - HALF
    return np.meshgrid(at, -at)


class Ways(unittest.TestCase):
    def distances(self, depth, x, y):
        """m from the landing at x, y, by the program."""
        with tempfile.TemporaryDirectory() as folder:
            folder = Path(folder)
            transform = rasterio.transform.from_origin(-HALF, HALF, CELL, CELL)
            with rasterio.open(folder / 'depth.tif', 'w', driver='GTiff', width=SIDE, height=SIDE,
                               count=1, dtype='float32', crs=CRS, transform=transform) as file:
                file.write(depth.astype('float32'), 1)
            lon, lat = rasterio.warp.transform(CRS, 'EPSG:4326', [x], [y])
            w, s, e, n = rasterio.warp.transform_bounds(CRS, 'EPSG:4326', *(0.98 * HALF * np.array(
                [-1, -1, 1, 1])))
            (folder / 'plan.toml').write_text(f'''
title = "ways"
[area]
bounds = [{w}, {s}, {e}, {n}]
cell_m = {CELL}
crs = "{CRS}"
[depth]
file = "depth.tif"
positive = "down"
unit = "m"
datum = "MLLW"
[water.temperature]
constant = 20
[water.salinity]
constant = 28
[water.light]
constant = 0.8
[water.nitrogen]
constant = 5
unit = "umol/L"
[water.current]
constant = 0.15
[crop]
profile = "warm-red-alga"
[criteria.access]
curve = [[0, 1], [10, 0]]
[sites]
landing = [{lon[0]}, {lat[0]}]
[uncertainty]
draws = 0
[report]
what_if = "no"
''')
            subprocess.run([PROGRAM, 'scout', folder / 'plan.toml', '--out', folder / 'out',
                            '--quiet'], check=True, capture_output=True)
            with rasterio.open(folder / 'out/maps/suitability.tif') as file:
                score, t = file.read(1).astype(float), file.transform
        self.assertEqual(t.a, CELL)
        whole = np.full((SIDE, SIDE), np.nan)
        row, col = round((HALF - t.f) / CELL), round((t.c + HALF) / CELL)
        known = np.where(score <= 0, np.nan, (1 - score) * 10000)
        whole[row:row + known.shape[0], col:col + known.shape[1]] = known
        return whole

    def within(self, found, expected, water):
        """As it is said of itself: right to about a cell and 3 %."""
        self.assertGreater(water.sum(), 1000)
        off = np.abs(found - expected)[water]
        self.assertTrue((off <= 0.03 * expected[water] + 1.5 * CELL).all(), off.max())

    def test_open_water(self):
        x, y = centres()
        found = self.distances(np.full((SIDE, SIDE), 8.0), 10.0, 10.0)
        self.within(found, np.hypot(x - 10, y - 10), np.isfinite(found))

    def test_round_an_island(self):
        x, y = centres()
        radius, start = 500.0, np.array([-900.0, 0.0])
        depth = np.where(np.hypot(x, y) < radius, -3.0, 8.0)
        found = self.distances(depth, *start)
        r, d = np.hypot(x, y), 900.0
        straight = np.hypot(x - start[0], y - start[1])
        # behind the island: its shadow is where the line meets the circle between the two
        along = np.clip(((0 - start[0]) * (x - start[0]) + (0 - start[1]) * (y - start[1]))
                        / straight**2, 0, 1)
        nearest = np.hypot(start[0] + along * (x - start[0]), start[1] + along * (y - start[1]))
        angle = np.abs(np.arctan2(y, x) - np.pi)
        angle = np.minimum(angle, 2 * np.pi - angle)
        with np.errstate(invalid='ignore'):
            round_it = (np.sqrt(d**2 - radius**2) + np.sqrt(r**2 - radius**2) +
                        radius * (angle - np.arccos(radius / d) - np.arccos(radius / r)))
        expected = np.where(nearest < radius, round_it, straight)
        self.within(found, expected, np.isfinite(found) & (r > radius + 2 * CELL))

    def test_walls_against_scipy(self):
        rng = np.random.default_rng(3)
        depth = np.full((SIDE, SIDE), 8.0)
        for i, row in enumerate(range(15, SIDE, 15)):  # walls with gaps on either side in turn
            depth[row:row + 2, :] = -2.0
            gap = int(rng.integers(5, 20))
            depth[row:row + 2, gap:gap + 6] = 8.0 if i % 2 else -2.0
            depth[row:row + 2, SIDE - gap - 6:SIDE - gap] = -2.0 if i % 2 else 8.0
        water = depth > 0
        x, y = centres()
        found = self.distances(depth, x[4, 60], y[4, 60])
        steps = [(a, b) for a in range(-4, 5) for b in range(-4, 5) if np.gcd(a, b) == 1]
        index = np.arange(SIDE * SIDE).reshape(SIDE, SIDE)
        rows, cols, ways = [], [], []
        for a, b in steps:
            clear = water.copy()
            for t in np.linspace(0, 1, 17):  # all the cells under the step are water
                clear &= np.roll(water, (-round(a * t), -round(b * t)), (0, 1))
            r, c = np.nonzero(clear)
            inside = (r + a >= 0) & (r + a < SIDE) & (c + b >= 0) & (c + b < SIDE)
            rows.append(index[r[inside], c[inside]])
            cols.append(index[r[inside] + a, c[inside] + b])
            ways.append(np.full(inside.sum(), CELL * np.hypot(a, b)))
        graph = coo_matrix((np.concatenate(ways), (np.concatenate(rows), np.concatenate(cols))),
                           shape=(SIDE * SIDE, SIDE * SIDE)).tocsr()
        expected = dijkstra(graph, indices=index[4, 60]).reshape(SIDE, SIDE)
        both = np.isfinite(found) & np.isfinite(expected)
        self.assertEqual((np.isfinite(found) & ~np.isfinite(expected) & water).sum(), 0)
        off = np.abs(found - expected)[both]
        self.assertGreater(both.sum(), 5000)
        # eight walls: a corner each, where the ways may differ by a cell's diagonal
        self.assertTrue((off <= 0.03 * expected[both] + 8 * 1.5 * CELL).all(), off.max())


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

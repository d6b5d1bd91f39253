# SPDX-License-Identifier: Apache-2.0
"""A small square of water with constant properties, for tests of the layers of depth: no members
and no table of moved limits, which no such test looks at."""
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import numpy as np
import pyproj
import rasterio

PROGRAM = sys.argv[1]
CRS = 'EPSG:32626'
BOUNDS = -29.98, 41.00, -29.96, 41.015
TO_DEGREES = pyproj.Transformer.from_crs(CRS, 'EPSG:4326', always_xy=True)
TO_METRES = pyproj.Transformer.from_crs('EPSG:4326', CRS, always_xy=True)

PLAN = '''
title = "Heron Bight, depths"
[area]
bounds = [-29.98, 41.00, -29.96, 41.015]
cell_m = 25
crs = "EPSG:32626"
{depth}
[water.temperature]
constant = 20.0
[water.salinity]
constant = 29.0
[water.light]
constant = 0.5
[water.nitrogen]
constant = 8.0
unit = "umol/L"
[water.current]
constant = 0.15
[crop]
profile = "warm-red-alga"
[sites]
count = 3
[uncertainty]
draws = 0
[report]
what_if = "no"
'''


class DepthBay(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def plan(self, depth):
        path = self.folder / 'plan.toml'
        path.write_text(PLAN.format(depth=depth))
        return path

    def run_plan(self, depth, *words, command='scout'):
        plan = self.plan(depth)
        more = ['--out', str(self.folder / 'out')] if command == 'scout' else []
        return subprocess.run([PROGRAM, command, str(plan), *more, *words], capture_output=True,
                              text=True)

    def scout(self, depth, *words):
        """The map of depth at low water (NaN: none), x and y of the cells' centres, and what was
        said."""
        shutil.rmtree(self.folder / 'out', ignore_errors=True)
        done = self.run_plan(depth, *words)
        self.assertEqual(done.returncode, 0, done.stderr)
        values, x, y = self.map('depth_low_water')
        return values, x, y, done.stdout + done.stderr

    def map(self, name):
        with rasterio.open(self.folder / 'out' / 'maps' / f'{name}.tif') as file:
            values = file.read(1, masked=True).astype(float).filled(np.nan)
            col, row = np.meshgrid(np.arange(file.width), np.arange(file.height))
            x, y = file.transform * (col + 0.5, row + 0.5)
        return values, x, y

    def refused(self, depth, status, *fragments):
        shutil.rmtree(self.folder / 'out', ignore_errors=True)
        done = self.run_plan(depth)
        lines = [line for line in done.stderr.splitlines() if not line.startswith('warning: ')]
        self.assertEqual((done.returncode, len(lines)), (status, 1), done.stderr)
        for fragment in fragments:
            self.assertIn(fragment, lines[0])
        self.assertFalse((self.folder / 'out').exists())

    def square(self, grow=100.0):
        """West, south, east, north of the area in metres, grown."""
        x, y = TO_METRES.transform([BOUNDS[0], BOUNDS[2]] * 2, [BOUNDS[1]] * 2 + [BOUNDS[3]] * 2)
        return min(x) - grow, min(y) - grow, max(x) + grow, max(y) + grow

    def raster(self, name, function, step=25.0, crs=CRS, box=None, **profile):
        """A raster of function(x, y) at the pixels' centres, NaN no data; gives its values and
        corner."""
        west, south, east, north = box or self.square()
        west, north = np.floor(west / 25) * 25, np.ceil(north / 25) * 25
        columns, rows = int((east - west) / step), int((north - south) / step)
        x = west + (np.arange(columns) + 0.5) * step
        y = north - (np.arange(rows) + 0.5) * step
        values = np.broadcast_to(function(x[None, :], y[:, None]), (rows, columns))
        settings = dict(driver='GTiff', width=columns, height=rows, count=1, dtype='float32',
                        crs=crs, transform=rasterio.transform.from_origin(west, north, step, step),
                        nodata=-9999.0)
        settings.update(profile)
        with rasterio.open(self.folder / name, 'w', **settings) as file:
            file.write(np.where(np.isnan(values), -9999.0, values).astype('float32'), 1)
        return values


def main():
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]], verbosity=1)

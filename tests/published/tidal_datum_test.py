# SPDX-License-Identifier: Apache-2.0
"""Depths and tidal datums, through the program and rasterio.

D-01 and D-03: arithmetic on the definitions of the datums (mean lower low water, mean sea level,
mean high water above it), computed by hand. D-02: offsets that a tide station published; the
reading of 2.00 ft on the 1929 datum is 3.27 ft above its mean lower low water and -1.35 ft on its
mean higher high water. A foot is 0.3048 m, exact (1959).
Tolerance 1e-5 m: maps are float32.

usage: tidal_datum_test.py PROGRAM SOURCE_FOLDER
"""
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import numpy as np
import rasterio
from rasterio.transform import from_origin

PROGRAM = sys.argv[1]
CELLS, SIDE = 60, 50.0  # enough to cover the area of the plan
WEST, NORTH = 250000.0, 4544000.0
FOOT = 0.3048

PLAN = """
title = "Heron Bight, one depth"
[area]
bounds = [-29.97, 40.99, -29.96, 41.0]
cell_m = 50
crs = "EPSG:32626"
[depth]
{depth}
[water.temperature]
constant = 18.0
[water.salinity]
constant = 29.0
[water.light]
measure = "kd"
constant = 0.5
[water.nitrogen]
constant = 8.0
unit = "umol/L"
[water.current]
constant = 0.15
[crop]
profile = "warm-red-alga"
[uncertainty]
draws = 0
[report]
what_if = "no"
"""


class Datums(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def low_water_depth(self, value, **keys):
        """maps/depth_low_water.tif of a layer with one value, which must be the same everywhere."""
        profile = dict(driver='GTiff', width=CELLS, height=CELLS, count=1, dtype='float64',
                       crs='EPSG:32626', transform=from_origin(WEST, NORTH, SIDE, SIDE))
        with rasterio.open(self.folder / 'depth.tif', 'w', **profile) as file:
            file.write(np.full((1, CELLS, CELLS), value))
        lines = ['file = "depth.tif"'] + [
            f'{key} = "{word}"' if isinstance(word, str) else f'{key} = {word}'
            for key, word in keys.items()]
        plan = self.folder / 'plan.toml'
        plan.write_text(PLAN.format(depth='\n'.join(lines)))
        out = self.folder / 'out'
        answer = subprocess.run([PROGRAM, 'scout', str(plan), '--out', str(out), '--quiet'],
                                capture_output=True, text=True, timeout=60)
        self.assertEqual(answer.returncode, 0, answer.stderr)
        with rasterio.open(out / 'maps' / 'depth_low_water.tif') as file:
            found = np.unique(file.read(1))
        shutil.rmtree(out)
        self.assertEqual(found.size, 1, found)
        return float(found[0])

    def assertDepth(self, found, metres):
        self.assertAlmostEqual(found, metres, delta=1e-5)

    def test_d01_low_water_depth_from_each_zero(self):
        # 5.00 m at mean lower low water; mean sea level lies 1.10 m, mean high water 2.05 m above.
        self.assertDepth(self.low_water_depth(5.0, positive='down', datum='MLLW'), 5.0)
        self.assertDepth(self.low_water_depth(6.10, positive='down', datum='mean sea level',
                                              low_water_m=-1.10), 5.0)
        self.assertDepth(self.low_water_depth(7.05, positive='down', datum='mean high water',
                                              low_water_m=-2.05), 5.0)

    def test_d01_the_bed_as_an_elevation(self):
        self.assertDepth(self.low_water_depth(-6.10, positive='up', datum='mean sea level',
                                              low_water_m=-1.10), 5.0)

    def test_d02_a_published_station_in_feet(self):
        # A bed 20 ft below the 1929 datum: its zero lies 1.27 ft above mean lower low water, which
        # in turn lies 4.62 ft below mean higher high water.
        feet = 20.0 - 1.27
        self.assertDepth(self.low_water_depth(20.0, positive='down', unit='ft', datum='1929',
                                              low_water_m=-1.27 * FOOT), feet * FOOT)
        on_high_water = 20.0 + 3.35
        self.assertDepth(self.low_water_depth(on_high_water, positive='down', unit='ft',
                                              datum='MHHW', low_water_m=-4.62 * FOOT),
                         feet * FOOT)

    def test_d03_there_and_back(self):
        # The depth at low water as a layer of its own gives itself.
        once = self.low_water_depth(-6.10, positive='up', datum='mean sea level', low_water_m=-1.1)
        self.assertEqual(self.low_water_depth(once, positive='down', datum='MLLW'), once)

    def test_d03_the_sign_is_never_guessed(self):
        # All bed values negative, called depths: the plan and the file do not agree.
        with self.assertRaises(AssertionError) as caught:
            self.low_water_depth(-6.10, positive='down', datum='MLLW')
        self.assertIn('positive', str(caught.exception))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

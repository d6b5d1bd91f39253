# SPDX-License-Identifier: Apache-2.0
"""Slope of the bed: Horn 1981, Proc. IEEE 69:14-47, as GDAL computes it (gdaldem slope), at places
of Heron Bight whose neighbours are all water. horn1981_test.py PROGRAM SOURCE_DIR"""
import json
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import numpy as np
import pyproj
import rasterio
from osgeo import gdal

gdal.UseExceptions()
PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2]).resolve()
BAY = SOURCE / 'data-samples' / 'heron-bight'


class Slope(unittest.TestCase):
    def test_like_gdal(self):
        with tempfile.TemporaryDirectory() as folder:
            folder = Path(folder)
            for file in BAY.iterdir():
                shutil.copy(file, folder)
            text = re.sub(r'(?m)^cell_m .*$', 'cell_m = 40', (BAY / 'plan.toml').read_text())
            plan = folder / 'slope.toml'
            plan.write_text(text.replace('[sites]', '[criteria.slope]\n[criteria.growth]\n[sites]', 1))
            out = folder / 'out'
            subprocess.run([PROGRAM, 'scout', plan, '--out', out, '--quiet'], check=True,
                           capture_output=True)
            with rasterio.open(out / 'maps/depth_low_water.tif') as file:
                depth, transform, crs = file.read(1), file.transform, file.crs
            slope = gdal.DEMProcessing('', str(out / 'maps/depth_low_water.tif'), 'slope',
                                       format='MEM').ReadAsArray()
            water = depth != -9999
            inside = water.copy()
            for rows in (-1, 0, 1):
                for cols in (-1, 0, 1):
                    inside &= np.roll(water, (rows, cols), (0, 1))
            row, col = np.nonzero(inside)
            pick = np.random.default_rng(1).choice(row.size, 12, replace=False)
            steep = np.argsort(-slope[row, col])[:3]
            to_lonlat = pyproj.Transformer.from_crs(crs, 'EPSG:4326', always_xy=True)
            for k in (*pick, *steep):
                lon, lat = to_lonlat.transform(*(transform * (col[k] + 0.5, row[k] + 0.5)))
                answer = subprocess.run([PROGRAM, 'explain', plan, '--at', f'{lon:.8f},{lat:.8f}',
                                         '--json'], check=True, capture_output=True, text=True)
                found = json.loads(answer.stdout)['slope_deg']
                # the grid's scale (0.9996 to 1.0007 here) and float maps make the rest
                self.assertAlmostEqual(found, slope[row[k], col[k]],
                                       delta=1e-3 * slope[row[k], col[k]] + 1e-3)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

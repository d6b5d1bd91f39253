#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""A model's sea surface temperature on its own bent grid: curvilinear_test.py PROGRAM SOURCE_DIR

The program's temperature at places between the pixels is held against scipy: the column and row of
a place by a root finder in the quadrilateral of pixel centres around it, the value bilinear there.
"""
import csv
import io
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import netCDF4
import numpy as np
import rasterio
from rasterio.transform import from_origin
from scipy.optimize import fsolve

PROGRAM = Path(sys.argv[1]).resolve()
SOURCE = Path(sys.argv[2]).resolve()
REAL = Path(os.environ.get('TIDELOT_REAL_DATA', SOURCE / 'build' / 'real-data'))
BOXES = [(-40.0, 30.0), (-20.0, -15.0), (150.0, 20.0), (-160.0, 45.0), (20.1, -40.0)]

PLAN = '''title = "bent grid"
[area]
bounds = [{west}, {south}, {east}, {north}]
cell_m = 2000
[depth]
file = "depth.tif"
positive = "down"
datum = "MLLW"
[water.temperature]
file = "bipolar_sst.nc"
variable = "tos"
[water.salinity]
constant = 30
[water.light]
constant = 0.3
[water.nitrogen]
constant = 10
unit = "umol/L"
[water.current]
constant = 0.2
[run]
allow = ["outside"]
[crop]
profile = "warm-red-alga"
[farm]
outplant = "06-01"
last_haul = "06-03"
'''


def temperature(folder, lon, lat):
    words = [PROGRAM, 'explain', folder / 'plan.toml', '--at', f'{lon},{lat}', '--csv']
    done = subprocess.run([str(w) for w in words], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return float(next(csv.DictReader(io.StringIO(done.stdout)))['temperature'])


def expected(lon, lat, sst, place):
    """Bilinear in the quadrilateral that holds the place; None where it lacks a value."""
    near = (lon - place[0] + 180) % 360 - 180
    for row, col in np.argwhere((np.abs(near) < 4) & (np.abs(lat - place[1]) < 4)):
        if row + 1 >= lon.shape[0] or col + 1 >= lon.shape[1]:
            continue
        x, y = near[row:row + 2, col:col + 2], lat[row:row + 2, col:col + 2] - place[1]
        if np.ptp(x) > 90:
            continue

        def at(z, uv):
            u, v = uv
            return (z[0, 0] * (1 - u) + z[0, 1] * u) * (1 - v) + (z[1, 0] * (1 - u) + z[1, 1] * u) * v
        (u, v), _, good, _ = fsolve(lambda uv: [at(x, uv), at(y, uv)], [0.5, 0.5], full_output=True)
        if good == 1 and 0 <= u <= 1 and 0 <= v <= 1:
            values = sst[row:row + 2, col:col + 2]
            return None if np.ma.is_masked(values) else float(at(np.asarray(values), (u, v)))
    return None


class BentGrid(unittest.TestCase):

    def test_temperature_between_the_pixels(self):
        subprocess.run([SOURCE / 'tests' / 'real' / 'fetch.sh', REAL], check=True)
        with netCDF4.Dataset(REAL / 'bipolar_sst.nc') as d:
            lon, lat = (np.asarray(d[name][:], float) for name in ('lon', 'lat'))
            sst = d['tos'][0].astype(float) - 273.15
        compared = 0
        for west, south in BOXES:
            with tempfile.TemporaryDirectory() as name:
                folder = Path(name)
                os.symlink(REAL / 'bipolar_sst.nc', folder / 'bipolar_sst.nc')
                east, north = west + 0.6, south + 0.6
                (folder / 'plan.toml').write_text(PLAN.format(**locals()))
                with rasterio.open(folder / 'depth.tif', 'w', driver='GTiff', width=20, height=20,
                                   count=1, dtype='float32', crs='EPSG:4326',
                                   transform=from_origin(west - 0.2, north + 0.2, 0.05, 0.05)) as r:
                    r.write(np.full((20, 20), 8, 'float32'), 1)
                for share in (0.2, 0.5, 0.8):
                    at = (west + 0.6 * share, south + 0.6 * (1 - share))
                    want = expected(lon, lat, sst, at)
                    if want is None:
                        continue
                    # the program answers for the middle of a 2 km cell
                    self.assertAlmostEqual(temperature(folder, *at), want, delta=0.03, msg=at)
                    compared += 1
        self.assertGreaterEqual(compared, 9)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

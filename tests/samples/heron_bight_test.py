#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""The sample data: heron_bight_test.py PROGRAM SOURCE_DIR

The script that makes Heron Bight still writes what is committed, byte for byte, twice over (the
bytes hang on the versions of GDAL, numpy and scipy: compared where those are Debian 12's), and the
files are what their README says.
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import tomllib
import unittest
from pathlib import Path
import numpy as np
import rasterio
import rasterio.warp
import rasterio.windows
import scipy
from osgeo import gdal, ogr

gdal.UseExceptions()
ogr.UseExceptions()
SOURCE = Path(sys.argv[2]) if len(sys.argv) > 2 else Path(__file__).resolve().parents[2]
FOLDER = SOURCE / 'data-samples' / 'heron-bight'
BY_HAND = {'README.md', 'plan.toml', 'plan-kelp.toml', 'plan-rules.toml'}
DEBIAN_12 = gdal.__version__.startswith('3.6.') and (np.__version__, scipy.__version__) == (
    '1.24.2', '1.10.1')
BOUNDS = -30.10, 41.00, -30.02, 41.06


def files(folder):
    return {f.name: f.read_bytes() for f in folder.iterdir() if f.name not in BY_HAND}


def make(folder, **environment):
    subprocess.run([SOURCE / 'scripts' / 'make-heron-bight', folder], check=True,
                   env={**os.environ, **environment})
    return files(folder)


class Made(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.first = make(Path(cls.folder.name, 'first'))
        cls.second = make(Path(cls.folder.name, 'second'), TZ='Asia/Tokyo', OMP_NUM_THREADS='1')

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def same(self, a, b):
        self.assertEqual(sorted(a), sorted(b))
        self.assertEqual([], [name for name in a if a[name] != b[name]])

    def test_twice_the_same_bytes(self):
        self.same(self.first, self.second)

    @unittest.skipUnless(DEBIAN_12, 'the bytes are those of Debian 12')
    def test_the_bytes_that_are_committed(self):
        self.same(self.first, files(FOLDER))

    def test_made_anew_over_an_older_one(self):
        self.same(self.first, make(Path(self.folder.name, 'second')))


class Committed(unittest.TestCase):
    def test_small(self):
        total = sum(f.stat().st_size for f in (SOURCE / 'data-samples').rglob('*') if f.is_file())
        self.assertLess(total, 5e6)

    def test_every_file_is_in_the_readme(self):
        text = (FOLDER / 'README.md').read_text()
        stems = [Path(n).suffix if n.startswith('growing_area') else
                 'kd_01.tif … kd_12.tif' if n.startswith('kd_') else n for n in files(FOLDER)]
        self.assertEqual([], [name for name in stems if name not in text])

    def test_rasters_are_what_the_readme_says(self):
        wanted = {'depth.tif': (4326, 1e-4, 1, 'm'), 'salinity.tif': (32626, 250, 12, 'psu'),
                  'nitrogen.tif': (4326, 1e-3, 12, 'mg/L as N'),
                  'current.tif': (32626, 50, 1, 'cm/s'),
                  **{f'kd_{m:02d}.tif': (4326, 1e-3, 1, '1/m') for m in range(1, 13)}}
        for name, (epsg, step, bands, unit) in wanted.items():
            with self.subTest(name), rasterio.open(FOLDER / name) as raster:
                self.assertEqual((epsg, bands), (raster.crs.to_epsg(), raster.count))
                self.assertEqual(-9999, raster.nodata)
                np.testing.assert_allclose(raster.res, step, rtol=1e-9)
                self.assertEqual({unit}, set(raster.units))
                self.assertIn('invented', raster.tags()['TIFFTAG_IMAGEDESCRIPTION'])

    def test_layers_cover_the_bounds(self):
        for name in (n for n in files(FOLDER) if n.endswith('.tif')):
            with self.subTest(name), rasterio.open(FOLDER / name) as raster:
                west, south, east, north = rasterio.warp.transform_bounds(
                    'EPSG:4326', raster.crs, *BOUNDS)
                self.assertTrue(raster.bounds.left < west and raster.bounds.bottom < south)
                self.assertTrue(raster.bounds.right > east and raster.bounds.top > north)

    def test_the_bay_is_a_bay(self):
        """Land and water in fair shares, a bed of 0 to 15 m at low water, a few deeper places."""
        with rasterio.open(FOLDER / 'depth.tif') as raster:
            window = rasterio.windows.from_bounds(*BOUNDS, raster.transform)
            depth = -raster.read(1, window=window) - 1.1
        water = depth > 0
        self.assertTrue(0.25 < water.mean() < 0.6, water.mean())
        self.assertTrue(0.001 < (depth > 15).mean() < 0.08, (depth > 15).mean())
        self.assertTrue(15 < depth.max() < 24, depth.max())
        self.assertGreater((depth[water] > 3.2).mean(), 0.4)

    def test_temperature_is_packed_kelvin_with_a_time_axis(self):
        raster = gdal.Open(f'NETCDF:"{FOLDER / "temperature.nc"}":sst')
        band, tags = raster.GetRasterBand(1), raster.GetMetadata()
        self.assertEqual((12, 'K', 0.01, 285.0), (raster.RasterCount, band.GetUnitType(),
                                                  band.GetScale(), band.GetOffset()))
        self.assertEqual('days since 2019-01-01 00:00:00', tags['time#units'])
        self.assertIn('"EPSG","4326"', raster.GetProjection())
        celsius = np.stack([raster.GetRasterBand(m + 1).ReadAsArray() * 0.01 + 285 - 273.15
                            for m in range(12)])
        self.assertTrue(-1 < celsius.min() < 5 and 22 < celsius.max() < 26)
        self.assertIn(int(celsius.mean((1, 2)).argmax()), (6, 7))

    def test_nitrogen_is_known_on_water_but_for_the_west_creek(self):
        with rasterio.open(FOLDER / 'nitrogen.tif') as raster, \
                rasterio.open(FOLDER / 'depth.tif') as depth:
            fine = depth.read(1).reshape(raster.height, 10, raster.width, 10)
            known = raster.read_masks(8) > 0
        wet = (fine < 0).mean((1, 3)) > 0.5
        unknown = np.argwhere(wet & ~known)
        self.assertTrue(0.3 < known.mean() < 0.9)
        self.assertTrue(10 < len(unknown) < 100, len(unknown))
        self.assertLess(unknown[:, 1].max(), 0.2 * raster.width)

    def test_vectors_are_what_the_readme_says(self):
        wanted = {('closed.gpkg', 'eelgrass'): (32626, 6), ('closed.gpkg', 'channel'): (32626, 1),
                  ('closed.gpkg', 'moorings'): (32626, 1), ('closed.gpkg', 'leases'): (32626, 2),
                  ('rules.gpkg', 'growing_areas'): (32626, 4),
                  ('rules.gpkg', 'crossings'): (32626, 2), ('rules.gpkg', 'seasonal'): (32626, 2),
                  ('rules.gpkg', 'beach'): (32626, 1),
                  ('outfall.geojson', 'outfall'): (4326, 1),
                  ('growing_area.shp', 'growing_area'): (3857, 1)}
        for (name, layer), (epsg, count) in wanted.items():
            with self.subTest(layer):
                source = gdal.OpenEx(str(FOLDER / name), gdal.OF_VECTOR | gdal.OF_READONLY)
                found = source.GetLayerByName(layer)
                self.assertEqual(str(epsg), found.GetSpatialRef().GetAuthorityCode(None))
                self.assertEqual(count, found.GetFeatureCount())
                self.assertTrue(all(f.GetGeometryRef().IsValid() for f in found))

    def test_the_plans_name_files_that_are_there(self):
        for plan_file in ('plan.toml', 'plan-kelp.toml', 'plan-rules.toml'):
            with self.subTest(plan_file):
                plan = tomllib.loads((FOLDER / plan_file).read_text())
                self.assertEqual(BOUNDS, tuple(plan['area']['bounds']))
                rules = [*plan['closed'], *plan.get('near', [])]
                named = [plan['depth'], *plan['water'].values(), *rules]
                for name in (row['file'] for row in named):
                    self.assertTrue(Path(FOLDER, name.replace('{month}', '07')).is_file(), name)
                self.assertTrue(all('invented rule' in rule['rule'] for rule in rules))

    def test_the_plan_of_rules_shows_each_kind_at_work(self):
        """Coarser, and the best estimate only, for the time it takes."""
        with tempfile.TemporaryDirectory() as folder:
            folder = Path(folder)
            for file in FOLDER.iterdir():
                if file.suffix != '.toml':
                    shutil.copy(file, folder)
            text = (FOLDER / 'plan-rules.toml').read_text()
            plan = tomllib.loads(text)
            (folder / 'plan.toml').write_text(text.replace('cell_m = 10', 'cell_m = 20')
                                              + '\n[uncertainty]\ndraws = 0\n')
            done = subprocess.run([sys.argv[1], 'scout', folder / 'plan.toml', '--out',
                                   folder / 'out'], capture_output=True, text=True)
            self.assertEqual(0, done.returncode, done.stderr)
            record = json.loads((folder / 'out' / 'run.json').read_text())
        closed = record['counts']['water_cells_closed_by']
        for name in ('too deep for the gear', 'waves too high for the gear',
                     'current too strong for the gear', 'cable and pipe', 'spawning ground',
                     'eelgrass beds', 'outfall zone'):
            self.assertGreater(closed[name], 0, name)
        # Of winter months, for food only, open or not known by status, and a caution: none closes.
        for name in ('winter haul-out', 'growing areas, food', 'growing areas by class',
                     'neighbours to be heard'):
            self.assertNotIn(name, closed)
        reasons = record['counts']['cells_by_reason']
        self.assertGreater(reasons['not known: growing areas by class'], 0)
        self.assertGreater(reasons['waves higher than wanted'], 0)
        self.assertGreater(record['counts']['open'], 1000)
        self.assertEqual(plan['sites']['count'], record['counts']['sites'])
        self.assertEqual({'close', 'caution'}, {test['effect'] for test in record['near']['S01']})
        self.assertIn('maps/waves.tif', record['outputs'])
        self.assertEqual({'growth', 'depth', 'current', 'waves', 'access', 'slope'},
                         set(plan['criteria']))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

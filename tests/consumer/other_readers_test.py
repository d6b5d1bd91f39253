# SPDX-License-Identifier: Apache-2.0
"""The maps and the sites as GDAL, rasterio, geopandas and R open them: each must see the same
numbers, places and words.

R reads with its package terra, which has its own reader of rasters and of shapes.

usage: other_readers_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import subprocess
import sys
import unittest
from pathlib import Path

import geopandas
import numpy as np
import rasterio
from osgeo import gdal, ogr
from pyproj import Geod

sys.path.insert(0, str(Path(__file__).parents[1] / 'cli'))
from bay import Bay, main  # noqa: E402

gdal.UseExceptions()
MAPS = ('suitability', 'yield', 'nitrogen', 'season', 'depth_low_water', 'coverage', 'confidence',
        'closed', 'reason')
# What R says of one file a line, tab between. Sums in double; NA where the map knows nothing.
R_MAPS = r'''
suppressMessages(library(terra))
for (file in commandArgs(TRUE)) {
  map <- rast(file)
  for (band in seq_len(nlyr(map))) {
    values <- values(map[[band]])
    cat(names(map)[band], nrow(map), ncol(map), res(map)[1], ext(map)$xmin, ext(map)$ymax,
        crs(map, describe = TRUE)$code, sum(!is.na(values)),
        format(sum(values, na.rm = TRUE), digits = 17), sep = "\t")
    cat("\n")
  }
}
'''
R_SITES = r'''
suppressMessages(library(terra))
sites <- suppressWarnings(vect(commandArgs(TRUE)[1], layer = "sites"))
cat(paste(sites$name, format(sites$nitrogen_kg, digits = 17), format(expanse(sites), digits = 12),
          crs(sites, describe = TRUE)$code, sep = "\t"), sep = "\n")
'''


def asked_of_r(script, *files):
    done = subprocess.run(['Rscript', '--vanilla', '-e', script, *map(str, files)],
                          capture_output=True, text=True)
    if done.returncode != 0:
        raise AssertionError(done.stderr)
    return [line.split('\t') for line in done.stdout.splitlines()]


class OtherReaders(Bay):
    def setUp(self):
        super().setUp()
        result, self.out = self.scout(self.plan())
        self.assertEqual(result.returncode, 0, result.stderr)
        self.maps = [self.out / 'maps' / f'{name}.tif' for name in MAPS]
        self.assertEqual(sorted(self.maps), sorted((self.out / 'maps').glob('*.tif')))

    def test_maps(self):
        from_r = iter(asked_of_r(R_MAPS, *self.maps))
        for path in self.maps:
            of_gdal = gdal.Open(str(path))
            west, cell, _, north, _, _ = of_gdal.GetGeoTransform()
            with rasterio.open(path) as map_file:
                self.assertEqual((map_file.width, map_file.height, map_file.count),
                                 (of_gdal.RasterXSize, of_gdal.RasterYSize, of_gdal.RasterCount))
                self.assertEqual(map_file.crs.to_epsg(), 32625)
                self.assertEqual(map_file.transform.to_gdal(), of_gdal.GetGeoTransform())
                self.assertTrue(map_file.overviews(1) or max(map_file.shape) <= 512, path)
                masked = map_file.read(masked=True)
                names = map_file.descriptions
            for number, (band, name) in enumerate(zip(masked, names), 1):
                said = next(from_r)
                with self.subTest(path.name, band=number):
                    raw = of_gdal.GetRasterBand(number).ReadAsArray()
                    np.testing.assert_array_equal(raw[~band.mask], band.compressed())
                    self.assertEqual(said[0], name)
                    self.assertEqual([float(word) for word in said[1:6]],
                                     [*band.shape, cell, west, north])
                    self.assertEqual(said[6], '32625')
                    self.assertEqual(int(said[7]), band.count())
                    np.testing.assert_allclose(float(said[8]), band.compressed().sum(dtype='f8'),
                                               rtol=1e-12)
        self.assertEqual(list(from_r), [])

    def test_sites(self):
        with (self.out / 'sites.csv').open(newline='') as table:
            rows = [row for row in csv.DictReader(table)]
        self.assertGreater(len(rows), 2)
        package = geopandas.read_file(self.out / 'sites.gpkg', layer='sites')
        text = geopandas.read_file(self.out / 'sites.geojson')
        of_gdal = ogr.Open(str(self.out / 'sites.gpkg'))
        from_r = asked_of_r(R_SITES, self.out / 'sites.gpkg')
        names = [row['name'] for row in rows]
        self.assertEqual([list(frame['name']) for frame in (package, text)], [names, names])
        self.assertEqual([feature['name'] for feature in of_gdal.GetLayerByName('sites')], names)
        self.assertEqual([said[0] for said in from_r], names)
        self.assertEqual((package.crs.to_epsg(), {said[3] for said in from_r}), (4326, {'4326'}))
        for i, row in enumerate(rows):
            nitrogen = float(row['nitrogen_kg'])
            self.assertAlmostEqual(package.nitrogen_kg[i], nitrogen, delta=5e-4 * nitrogen)
            self.assertAlmostEqual(float(from_r[i][1]), package.nitrogen_kg[i], places=12)
            self.assertTrue(package.geometry[i].equals_exact(text.geometry[i], 1e-9))
            area, _ = Geod(ellps='WGS84').geometry_area_perimeter(package.geometry[i])
            self.assertAlmostEqual(abs(area) / 1e4, float(row['area_ha']), delta=6e-5)
            self.assertAlmostEqual(float(from_r[i][2]), abs(area), delta=1e-6 * abs(area))


if __name__ == '__main__':
    main()

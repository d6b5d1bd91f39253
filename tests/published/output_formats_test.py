# SPDX-License-Identifier: Apache-2.0
"""Every file of a run, by readers that are not tidelot's: GDAL's validators of Cloud Optimized
GeoTIFFs and of GeoPackages (OGC 12-128r), rasterio, numpy, SQLite, python's json, csv and XML
readers, and GeographicLib's Planimeter (Karney 2013) for the areas. Heron Bight, 10 m cells.

usage: output_formats_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import hashlib
import json
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import numpy as np
import rasterio

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
PLAN = SOURCE / 'data-samples' / 'heron-bight' / 'plan.toml'
MAPS = ['closed', 'confidence', 'coverage', 'depth_low_water', 'nitrogen', 'reason', 'season',
        'suitability', 'yield']
PYTHON = '/usr/bin/python3'


def scout(out, threads):
    subprocess.run([PROGRAM, 'scout', str(PLAN), '--out', str(out), '--threads', str(threads),
                    '--quiet'], check=True, capture_output=True)


def validator(module, path, *words):
    return subprocess.run([PYTHON, '-m', f'osgeo_utils.samples.{module}', *words, str(path)],
                          capture_output=True, text=True, timeout=60)


def planimeter(corners):
    """Area in m2 of (lon, lat) corners with geodesic edges."""
    lines = ''.join(f'{lat:.6f} {lon:.6f}\n' for lon, lat in corners)
    answer = subprocess.run(['Planimeter', '-r', '-p', '6'], input=lines, capture_output=True,
                            text=True, check=True, timeout=60)
    return abs(float(answer.stdout.split()[2]))


class Outputs(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        cls.out = cls.folder / 'out'
        scout(cls.out, 2)
        with (cls.out / 'sites.csv').open(newline='') as file:
            cls.sites = list(csv.DictReader(file))

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder, ignore_errors=True)

    def test_nothing_stands_beside_the_files(self):
        names = sorted(str(path.relative_to(self.out)) for path in self.out.rglob('*')
                       if path.is_file())
        self.assertEqual(names, sorted(
            [f'maps/{name}.{end}' for name in MAPS for end in ('tif', 'sld')] +
            ['load.csv', 'sites.csv', 'sites.geojson', 'sites.gpkg', 'sites.gpx', 'sites.sld',
             'report.html', 'field_sheet.html', 'field_readings.csv', 'sheets.html', 'run.json']))

    def test_maps_are_cloud_optimized(self):
        for name in MAPS:
            with self.subTest(name):
                answer = validator('validate_cloud_optimized_geotiff',
                                   self.out / 'maps' / f'{name}.tif', '--full-check=yes')
                text = answer.stdout + answer.stderr
                self.assertEqual(answer.returncode, 0, text)
                self.assertIn('is a valid cloud optimized GeoTIFF', text)
                self.assertNotIn('arning', text)

    def test_maps_share_one_grid_and_describe_themselves(self):
        grids = set()
        for name in MAPS:
            with self.subTest(name), rasterio.open(self.out / 'maps' / f'{name}.tif') as file:
                grids.add((file.crs.to_epsg(), tuple(file.transform), file.shape))
                self.assertEqual(file.tags()['TITLE'], 'Heron Bight, summer')
                self.assertTrue(all(file.descriptions), file.descriptions)
                self.assertIsNotNone(file.nodata)
        self.assertEqual(len(grids), 1, grids)
        self.assertEqual(next(iter(grids))[0], 32625)

    def test_statistics_are_those_of_the_cells(self):
        for name in MAPS:
            with rasterio.open(self.out / 'maps' / f'{name}.tif') as file:
                for band in file.indexes:
                    cells = file.read(band)
                    known = cells[cells != cells.dtype.type(file.nodata)].astype(np.float64)
                    tags = file.tags(band)
                    with self.subTest(name, band=band):
                        self.assertGreater(known.size, 0)
                        self.assertEqual(float(tags['STATISTICS_MINIMUM']), known.min())
                        self.assertEqual(float(tags['STATISTICS_MAXIMUM']), known.max())
                        self.assertAlmostEqual(float(tags['STATISTICS_MEAN']), known.mean(),
                                               delta=1e-9 * max(1.0, abs(known.mean())))
                        self.assertAlmostEqual(float(tags['STATISTICS_STDDEV']), known.std(),
                                               delta=1e-9 * max(1.0, known.std()))

    def test_every_reason_has_a_name(self):
        with rasterio.open(self.out / 'maps' / 'reason.tif') as file:
            tags = file.tags(1)
            for code in np.unique(file.read(1)):
                self.assertIn(f'CATEGORY_{code}', tags)

    def test_the_geopackage_is_valid_and_whole(self):
        path = self.out / 'sites.gpkg'
        answer = validator('validate_gpkg', path)
        self.assertEqual((answer.returncode, answer.stdout, answer.stderr), (0, '', ''))
        with sqlite3.connect(f'file:{path}?mode=ro', uri=True) as database:
            self.assertEqual(database.execute('PRAGMA integrity_check').fetchall(), [('ok',)])
            rows = database.execute('SELECT name, area_ha, yield_t_p10 FROM sites').fetchall()
        self.assertEqual(rows, [(site['name'], float(site['area_ha']), float(site['yield_t_p10']))
                                for site in self.sites])

    def test_the_geopackage_holds_the_gear(self):
        with sqlite3.connect(f'file:{self.out / "sites.gpkg"}?mode=ro', uri=True) as database:
            layers = [row[0] for row in database.execute(
                'SELECT table_name FROM gpkg_contents ORDER BY table_name')]
            count = {name: database.execute(f'SELECT count(*) FROM {name}').fetchone()[0]
                     for name in layers}
        self.assertEqual(layers, ['anchors', 'gear_box', 'lines', 'markers', 'sites'])
        lines = sum(int(site['lines']) for site in self.sites)
        self.assertGreater(lines, 0)
        self.assertEqual(count['gear_box'], len(self.sites))
        self.assertEqual(count['lines'], lines)
        self.assertEqual(count['anchors'], 2 * lines)
        self.assertGreaterEqual(count['markers'], 4 * len(self.sites))

    def test_line_ends_lie_as_far_apart_as_the_line_is_long(self):
        answer = subprocess.run(['ogr2ogr', '-f', 'GeoJSON', '/vsistdout/',
                                 str(self.out / 'sites.gpkg'), 'lines'],
                                capture_output=True, text=True, check=True)
        usable = {site['name']: float(site['usable_line_m']) for site in self.sites}
        for line in json.loads(answer.stdout)['features']:
            (a, b) = line['geometry']['coordinates']
            told = subprocess.run(['GeodSolve', '-i', '-p', '3'], input=f'{a[1]} {a[0]} {b[1]} {b[0]}',
                                  capture_output=True, text=True, check=True).stdout.split()
            # Rounding moves each end by 7 cm at most.
            self.assertAlmostEqual(float(told[2]), usable[line['properties']['site']], delta=0.15)

    def test_waypoints_are_short_unique_and_hold_the_anchors(self):
        root = ElementTree.parse(self.out / 'sites.gpx').getroot()
        space = '{http://www.topografix.com/GPX/1/1}'
        names = [point.find(f'{space}name').text for point in root.findall(f'{space}wpt')]
        self.assertEqual(len(names), len(set(names)))
        self.assertTrue(all(re.fullmatch('[A-Z0-9]{1,10}', name) for name in names))
        anchors = [name for name in names if re.fullmatch(r'S\d\dL\d\d[AB]', name)]
        self.assertEqual(len(anchors), 2 * sum(int(site['lines']) for site in self.sites))

    def test_areas_are_those_of_the_corners_as_printed(self):
        self.assertGreater(len(self.sites), 0)
        for site in self.sites:
            corners = [tuple(map(float, corner.split())) for corner in site['corners'].split(';')]
            self.assertEqual(len(corners), 4)
            self.assertAlmostEqual(float(site['area_ha']), planimeter(corners) / 1e4, delta=5.1e-5)

    def test_geojson_and_gpx_hold_the_same_sites(self):
        features = json.loads((self.out / 'sites.geojson').read_text())['features']
        self.assertEqual([feature['properties']['name'] for feature in features],
                         [site['name'] for site in self.sites])
        root = ElementTree.parse(self.out / 'sites.gpx').getroot()
        self.assertEqual(root.tag, '{http://www.topografix.com/GPX/1/1}gpx')
        routes = root.findall('{http://www.topografix.com/GPX/1/1}rte')
        self.assertEqual(len(routes), len(self.sites))

    def test_another_run_with_other_threads_gives_the_same_bytes(self):
        other = self.folder / 'other'
        scout(other, 1)
        for path in self.out.rglob('*'):
            if path.is_file() and path.name != 'run.json':
                name = path.relative_to(self.out)
                with self.subTest(str(name)):
                    self.assertEqual(hashlib.sha256(path.read_bytes()).hexdigest(),
                                     hashlib.sha256((other / name).read_bytes()).hexdigest())


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

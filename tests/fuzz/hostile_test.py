# SPDX-License-Identifier: Apache-2.0
"""Inputs that are whole but hostile or absurd: each ends with the status it is due, quickly, in one
line, and touches nothing that it reads. The harness is mutate_test's.

Environment: TIDELOT_FUZZ_STEP (one in so many pairs of key and value, 5), TIDELOT_FUZZ_ONLY (tests).
"""
import gzip
import json
import os
import resource
import shutil
import sys
import tempfile
import unittest
import zipfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import rasterio
from affine import Affine

from mutate_test import limit, verdict  # which finds tests/support, too
from little_bay import PLAN, collection, make_bay, square, write_shapes, write_tif

DEPTH = np.full((25, 30), 6, 'float32')


def raster(**more):
    """A case that replaces depth.tif by DEPTH with other metadata."""
    values = more.pop('values', DEPTH)
    return lambda bay: write_tif(bay / 'depth.tif', values, **more)


def turned(bay):
    write_tif(bay / 'depth.tif', DEPTH, transform=Affine(0.0008, 0.0006, -30.03, 0.0006, -0.0008, 41.01))


def sparse(bay):
    with rasterio.open(bay / 'depth.tif', 'w', driver='GTiff', width=50000, height=50000, count=1,
                       dtype='float32', crs='EPSG:4326', sparse_ok=True, tiled=True, bigtiff='yes',
                       compress='deflate', transform=Affine(1e-6, 0, -30.035, 0, -1e-6, 41.03)):
        pass


def bomb(bay):
    zeros = np.full((6000, 6000), 6, 'uint8')
    write_tif(bay / 'depth.tif', zeros, compress='deflate', step=4e-6, blockysize=6000)


def many_bands(bay):
    write_tif(bay / 'salinity.tif', np.full((4000, 2, 2), 28, 'uint8'), step=0.02)


def zipped(bay):
    with zipfile.ZipFile(bay / 'd.zip', 'w') as archive:
        archive.write(bay / 'depth.tif', 'depth.tif')
    os.replace(bay / 'd.zip', bay / 'depth.tif')


def gzipped(bay):
    (bay / 'depth.tif').write_bytes(gzip.compress((bay / 'depth.tif').read_bytes()))


def virtual(bay):
    (bay / 'depth.tif').write_text(
        '<VRTDataset rasterXSize="9" rasterYSize="9"><VRTRasterBand dataType="Float32" band="1">'
        '<SimpleSource><SourceFilename>/etc/hostname</SourceFilename></SimpleSource>'
        '</VRTRasterBand></VRTDataset>')


def geojson(*geometries):
    return lambda bay: (bay / 'outfall.geojson').write_text(collection(*geometries))


def text(name, written):
    return lambda bay: (bay / name).write_text(written)


def polygon(ring):
    return {'type': 'Polygon', 'coordinates': [ring]}


def circle(count):
    turn = np.linspace(0, 2 * np.pi, count)
    ring = np.stack([-30.01 + 0.002 * np.cos(turn), 41.007 + 0.002 * np.sin(turn)], 1)
    ring[-1] = ring[0]
    return ring.tolist()


def comb(teeth):
    """A ring that crosses itself at every tooth."""
    ring = [[-30.018 + 0.016 * (i * 7919 % teeth) / teeth, 41.002 + 0.01 * (i % 2)] for i in range(teeth)]
    return ring + ring[:1]


def gpkg(*shapes):
    def write(bay):
        (bay / 'closed.gpkg').unlink()
        write_shapes(bay / 'closed.gpkg', 'GPKG', shapes)
    return write


def no_prj(bay):
    (bay / 'area.prj').unlink()


def no_index(bay):
    (bay / 'area.shx').unlink()


def side_car(bay):
    (bay / 'depth.tif.aux.xml').write_text(
        '<PAMDataset><SRS>EPSG:3857</SRS><GeoTransform>1,2,3,4,5,6</GeoTransform></PAMDataset>')


def plan(*edits):
    def write(bay):
        written = PLAN
        for old, new in edits:
            assert old in written, old
            written = written.replace(old, new, 1)
        (bay / 'plan.toml').write_bytes(written.encode('utf-8', 'surrogatepass'))
    return write


def name(written):
    return plan(('name = "outfall"', f'name = {json.dumps(written)}'))


def raw_plan(data):
    return lambda bay: (bay / 'plan.toml').write_bytes(data)


def replaced(path, make):
    def write(bay):
        (bay / path).unlink()
        make(bay / path)
    return write


GOOD, PLAN_FAULT, INPUT, ANY = (0,), (2,), (3,), (0, 2, 3)
SQUARE = square(-30.008, 41.001)
CASES = [
    ('one pixel', raster(values=DEPTH[:1, :1], step=0.03), GOOD),
    ('one pixel, small', raster(values=DEPTH[:1, :1], step=0.001), INPUT),
    ('turned grid', turned, ANY),
    ('no data at all', raster(values=DEPTH * np.nan), ANY),
    ('infinite', raster(values=DEPTH * np.inf), ANY),
    ('some infinite', raster(values=np.where(np.eye(25, 30) > 0, -np.inf, DEPTH).astype('f4')), ANY),
    ('huge numbers', raster(values=np.full((25, 30), 3e38, 'float32')), INPUT),
    ('float64 beyond float32', raster(values=np.full((25, 30), 1e300)), ANY),
    ('complex numbers', raster(values=DEPTH.astype('complex64')), INPUT),
    ('no reference system', raster(crs=None), INPUT),
    ('no place', raster(transform=Affine.identity()), INPUT),
    ('pixel without width', raster(transform=Affine(0, 0, -30.02, 0, -0.001, 41.02)), INPUT),
    ('place is NaN', raster(transform=Affine(np.nan, 0, -30.02, 0, -0.001, 41.02)), INPUT),
    ('place is huge', raster(transform=Affine(1e300, 0, -1e308, 0, -1e300, 1e308)), INPUT),
    ('swapped axes', raster(transform=Affine(0.001, 0, 41.0, 0, -0.001, -30.0)), INPUT),
    ('longitude of the other sign', raster(west=30.0), INPUT),
    ('longitude from 0 to 360', raster(west=360 - 30.025), GOOD),
    ('south up', raster(transform=Affine(0.001, 0, -30.025, 0, 0.001, 40.995)), GOOD),
    ('metres called degrees', raster(transform=Affine(100, 0, 583000, 0, -100, 4540000)), INPUT),
    ('nodata is NaN', raster(nodata=float('nan')), GOOD),
    ('nodata is the value', raster(nodata=6), ANY),
    ('sparse, 50,000 x 50,000', sparse, ANY),
    ('compression bomb', bomb, ANY),
    ('4000 bands', many_bands, INPUT),
    ('zip called tif', zipped, INPUT),
    ('gzip called tif', gzipped, INPUT),
    ('virtual raster that reads elsewhere', virtual, INPUT),
    ('foreign side-car', side_car, ANY),
    ('folder for a raster', replaced('depth.tif', Path.mkdir), INPUT),
    ('pipe for a raster', replaced('depth.tif', os.mkfifo), INPUT),
    ('device for a raster', replaced('depth.tif', lambda p: p.symlink_to('/dev/zero')), INPUT),
    ('loop of links', replaced('depth.tif', lambda p: p.symlink_to(p)), INPUT),
    ('pipe for a shapefile part', replaced('area.dbf', os.mkfifo), INPUT),
    ('pipe beside a raster', lambda bay: os.mkfifo(bay / 'depth.tif.aux.xml'), INPUT),
    ('pipe for an overview', lambda bay: os.mkfifo(bay / 'depth.tif.ovr'), INPUT),
    ('pipe for a mask', lambda bay: os.mkfifo(bay / 'depth.tif.msk'), INPUT),
    ('pipe for a journal', lambda bay: os.mkfifo(bay / 'closed.gpkg-journal'), INPUT),
    ('pipe for a log', lambda bay: os.mkfifo(bay / 'closed.gpkg-wal'), INPUT),
    ('broken journal', text('closed.gpkg-journal', 'nonsense'), ANY),
    ('no features', geojson(), ANY),
    ('empty layer', gpkg(), ANY),
    ('null and empty geometries', gpkg(('mapped', None), ('mapped', 'POLYGON EMPTY'),
                                       ('mapped', 'MULTIPOLYGON EMPTY'), ('mapped', 'POINT EMPTY'),
                                       ('mapped', 'GEOMETRYCOLLECTION EMPTY')), ANY),
    ('curves', gpkg(('mapped', 'CURVEPOLYGON(CIRCULARSTRING(-30.01 41.005,-30.012 41.007,-30.01 41.005))')), ANY),
    ('heights and measures', gpkg(('mapped', 'POINT ZM(-30.01 41.005 3 4)')), GOOD),
    ('bow tie', geojson(polygon([[-30.01, 41.0], [-30.0, 41.01], [-30.0, 41.0], [-30.01, 41.01], [-30.01, 41.0]])), GOOD),
    ('comb of 40 teeth', geojson(polygon(comb(40))), ANY),
    ('100,000 vertices', geojson(polygon(circle(100_000))), GOOD),
    ('one-point ring', geojson(polygon([[-30.01, 41.0]] * 4)), ANY),
    ('open ring', geojson(polygon(SQUARE[:-1])), ANY),
    ('spike', geojson(polygon(SQUARE[:2] + [[-30.0, 41.2], SQUARE[1]] + SQUARE[2:])), ANY),
    ('vertices off the earth', geojson(polygon([[1e9, 1e9], [2e9, 1e9], [2e9, 2e9], [1e9, 1e9]])), ANY),
    ('vertex is NaN', text('outfall.geojson', collection(polygon(SQUARE)).replace('41.001', 'NaN')), ANY),
    ('vertex is infinite', text('outfall.geojson', collection(polygon(SQUARE)).replace('41.001', '1e999')), ANY),
    ('the whole earth', geojson(polygon([[-180, -90], [180, -90], [180, 90], [-180, 90], [-180, -90]])), ANY),
    ('mixed kinds', geojson(polygon(SQUARE), {'type': 'Point', 'coordinates': SQUARE[0]}, None), ANY),
    ('nested collections', geojson(json.loads('{"type":"GeometryCollection","geometries":[' * 40 + ']}' * 40)), ANY),
    ('brackets 200,000 deep', text('outfall.geojson', '[' * 200_000), ANY),
    ('features 200,000 deep', text('outfall.geojson', '{"type":"FeatureCollection","features":' * 100_000), INPUT),
    ('20,000 points', geojson(*[{'type': 'Point', 'coordinates': [-30.02 + i * 1e-6, 41.003]} for i in range(20_000)]), GOOD),
    ('shapefile without a reference system', no_prj, INPUT),
    ('shapefile without its index', no_index, ANY),
    ('filter that ends the query', plan(("status = 'mapped'", "1=1; DROP TABLE shapes")), ANY),
    ('filter that loads code', plan(("status = 'mapped'", "load_extension('/tmp/x') IS NULL")), INPUT),
    ('filter with a query inside', plan(("status = 'mapped'", "fid IN (SELECT fid FROM shapes)")), INPUT),
    ('filter that never ends', plan(("status = 'mapped'", "(WITH RECURSIVE c(x) AS (SELECT 1 UNION ALL SELECT x+1 FROM c) SELECT count(*) FROM c) > 0")), INPUT),
    ('filter of 100,000 brackets', plan(("status = 'mapped'", '(' * 100_000)), ANY),
    ('script in a name', name('<script>alert(1)</script>'), ANY),
    ('formula in a name', name('=cmd|" /C calc"!A0'), ANY),
    ('NUL in a name', name('a\x00b'), ANY),
    ('line end in a name', name('a\r\nb'), ANY),
    ('escape sequence in a name', name('\x1b[31mred'), ANY),
    ('four bytes of UTF-8 in a name', plan(('name = "outfall"', 'name = "𝒐utfall 🦭"')), ANY),
    ('text turned round in a name', name('\u202efdp.exe'), ANY),
    ('long name', name('x' * 100_000), ANY),
    ('names alike', name('eelgrass'), PLAN_FAULT),
    ('empty name', name(''), ANY),
    ('NUL in a path', plan(('"depth.tif"', r'"depth.tif\u0000.png"')), (2, 3)),
    ('path of 100,000 letters', plan(('"depth.tif"', '"' + 'd' * 100_000 + '"')), (2, 3)),
    ('path up and away', plan(('"depth.tif"', '"' + '../' * 50 + 'etc/passwd"')), PLAN_FAULT),
    ('path over the network', plan(('"depth.tif"', '"/vsicurl/http://localhost:9/d.tif"')), PLAN_FAULT),
    ('path with a driver', plan(('"depth.tif"', '"NETCDF:depth.tif:x"')), PLAN_FAULT),
    ('path with a shell word', plan(('"depth.tif"', '"$(touch hacked).tif"')), INPUT),
    ('month out of place', plan(('"kd.tif"', '"{month}{month}.tif"')), INPUT),
    ('empty plan', raw_plan(b''), PLAN_FAULT),
    ('plan is zeros', raw_plan(b'\0' * 1000), PLAN_FAULT),
    ('plan in UTF-16', raw_plan(PLAN.encode('utf-16')), PLAN_FAULT),
    ('plan with a byte order mark', raw_plan(b'\xef\xbb\xbf' + PLAN.encode()), ANY),
    ('plan with Windows line ends', raw_plan(PLAN.replace('\n', '\r\n').encode()), GOOD),
    ('plan not UTF-8', raw_plan(PLAN.replace('Little', 'L\udcff').encode('utf-8', 'surrogateescape')), PLAN_FAULT),
    ('brackets 100,000 deep in the plan', raw_plan(b'x = ' + b'[' * 100_000), PLAN_FAULT),
    ('tables 100,000 deep in the plan', raw_plan(b'x' + b'.x' * 100_000 + b' = 1'), PLAN_FAULT),
    ('header 100,000 deep in the plan', raw_plan(b'[x' + b'.x' * 100_000 + b']'), PLAN_FAULT),
    ('20 MB of comments in the plan', raw_plan(PLAN.encode() + b'# ' + b'x' * 20_000_000), ANY),
    ('100,000 keys in the plan', raw_plan(PLAN.encode() + b''.join(b'k%d = 1\n' % i for i in range(100_000))), PLAN_FAULT),
    ('2,000 closed areas', raw_plan(PLAN.encode() + b''.join(b'[[closed]]\nname = "n%d"\nfile = "area.shp"\n' % i for i in range(2000))), PLAN_FAULT),
    ('curve of 50,000 points', raw_plan(PLAN.encode() + b'[criteria.depth]\nweight = 1\ncurve = [' + b','.join(b'[%d,1]' % i for i in range(50_000)) + b']'), ANY),
    ('plan is a folder', replaced('plan.toml', Path.mkdir), PLAN_FAULT),
    ('plan is a pipe', replaced('plan.toml', os.mkfifo), PLAN_FAULT),
    ('plan is /dev/zero', replaced('plan.toml', lambda p: p.symlink_to('/dev/zero')), PLAN_FAULT),
    ('plan is /dev/null', replaced('plan.toml', lambda p: p.symlink_to('/dev/null')), PLAN_FAULT),
    ('plan is not there', replaced('plan.toml', lambda p: None), PLAN_FAULT),
]
POISON = ['nan', '-inf', '1e308', '-1', '0', '9223372036854775807', '1e-300', '""', '[]', '{}', 'true',
          '"\\u0000"', '1979-05-27', '[[1,1],[1,0]]']
KEYS = '''area.cell_m area.bounds area.crs depth.unit depth.datum depth.low_water_m depth.tidal_range_m
depth.lowest_tide_m water.salinity.error water.salinity.unit water.light.measure water.nitrogen.constant
water.nitrogen.nh4_share water.current.constant season.gear_in season.daily sun.sunshine crop.profile
farm.line_depth_m farm.line_gap_m farm.margin_m farm.scope farm.sag_m farm.hang_m farm.clearance_m
farm.stocking_g_per_m farm.bundle_m farm.harvest_days farm.outplant farm.last_haul farm.use
criteria.depth sites.count sites.area_ha sites.length_to_width sites.gap_m sites.min_suitability
sites.landing sites.shape uncertainty.seed report.marker_gap_m report.units report.waterbody'''.split()


def poisoned(key, value):
    """Sets one key of the plan to a value."""
    table, last = key.rsplit('.', 1)
    def write(bay):
        lines, out, done = PLAN.splitlines(), [], False
        for line in lines:
            if out and f'[{table}]' in out and line.startswith(f'{last} = '):
                continue
            out.append(line)
            if line == f'[{table}]':
                out.append(f'{last} = {value}')
                done = True
        if not done:
            out += [f'[{table}]', f'{last} = {value}']
        (bay / 'plan.toml').write_text('\n'.join(out))
    return write


class Hostile(unittest.TestCase):
    def run_cases(self, cases):
        with tempfile.TemporaryDirectory(prefix='tidelot-hostile-') as top:
            bay = Path(top) / 'bay'
            make_bay(bay)

            def try_one(numbered):
                number, (what, change, allowed) = numbered
                folder = Path(top) / f'h{number}'
                shutil.copytree(bay, folder)
                change(folder)
                found = verdict(folder, allowed=allowed)
                shutil.rmtree(folder)
                shutil.rmtree(f'{folder}-out', ignore_errors=True)
                return found and f'{what}: {found}'

            with ThreadPoolExecutor(2) as pool:
                broken = [b for b in pool.map(try_one, enumerate(cases)) if b]
            self.assertEqual(broken, [], f'{len(broken)} of {len(cases)}:\n' + '\n'.join(broken))

    def test_hostile_inputs(self):
        self.run_cases(CASES)

    def one_run(self, **words):
        with tempfile.TemporaryDirectory(prefix='tidelot-hostile-') as top:
            make_bay(Path(top) / 'bay')
            self.assertIsNone(verdict(Path(top) / 'bay', **words))
            return sorted(p.name for p in Path(top).iterdir())

    def test_fewer_threads_than_wished_for_are_enough(self):
        self.one_run(threads=1024, allowed=(0,))      # their stacks do not fit into the memory

    def test_a_file_grown_too_large_is_a_failed_write(self):
        left = self.one_run(allowed=(4,), more_limits=[limit(resource.RLIMIT_FSIZE, 10_000)])
        self.assertEqual(left, ['bay'])

    def test_poisoned_keys(self):
        self.run_cases([(f'{key} = {value}', poisoned(key, value), ANY)
                        for i, key in enumerate(KEYS) for j, value in enumerate(POISON)
                        if (i + j) % POISON_STEP == 0])


POISON_STEP = int(os.environ.get('TIDELOT_FUZZ_STEP', '5'))

if __name__ == '__main__':
    unittest.main(argv=[sys.argv[0], *os.environ.get('TIDELOT_FUZZ_ONLY', '').split()], verbosity=1)

# SPDX-License-Identifier: Apache-2.0
"""Setbacks against three outside ways to the same distance.

GEOS (through OGR): buffers of the shapes in an azimuthal equidistant projection about the middle of
the area, and which cells a shape itself touches. GeographicLib's GeodSolve (C. Karney's own
program; tidelot uses PROJ's C code): geodesics on WGS 84 from cell centres to a shape's edge. SciPy's
distance_transform_edt, the exact Euclidean one: distances to points that lie on cell centres.

What tidelot states: edges are densified so that they stray less than 0.05 m, and one scale holds
for the whole grid, so a distance is off by its largest scale error, which these tests measure from the
projection itself. A cell whose distance differs from the setback by less than both may fall either
way; every other one must agree, and hardly any may be left undecided.

setback_distance_test.py PROGRAM SOURCE_DIR"""
import json
import math
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import numpy as np
import rasterio
from osgeo import ogr
from pyproj import CRS, Proj, Transformer
from scipy.ndimage import distance_transform_edt
from scipy.spatial import cKDTree

ogr.UseExceptions()
PROGRAM = sys.argv[1]
EDGE = 0.05           # m, by which a densified edge may stray
CELL = 20.0
LON, LAT, HALF = -30.05, 41.03, 2000.0
LOCAL = f'+proj=aeqd +lon_0={LON} +lat_0={LAT} +datum=WGS84 +units=m'
TO_LOCAL = Transformer.from_crs('EPSG:4326', LOCAL, always_xy=True)
SETBACKS = {'areas': 45.0, 'lines': 120.0, 'points': 600.0}


def degrees(points):
    lon, lat = TO_LOCAL.transform(*np.asarray(points, float).T, direction='INVERSE')
    return [list(p) for p in zip(lon.tolist(), lat.tolist())]


def star(x, y, radius, corners, seed):
    rng = np.random.default_rng(seed)
    angle = np.linspace(0, 2 * math.pi, corners, endpoint=False)
    r = radius * rng.uniform(0.4, 1.0, corners)
    ring = np.stack([x + r * np.cos(angle), y + r * np.sin(angle)], 1)
    return np.concatenate([ring, ring[:1]])


# In metres of the local projection: a polygon with a hole; two, one less than a cell; one over it.
AREAS = [[[star(-700, 500, 500, 9, 1), star(-700, 500, 120, 7, 2)[::-1]]],
         [[star(900, 800, 400, 11, 3)], [star(-1400, -1300, 6, 5, 5)]],
         [[star(1000, 600, 350, 8, 4)]]]
LINES = [np.array([(-1700, -300), (-200, -900), (300, -200), (1600, -1500)], float),
         np.array([(1200, 1700), (1500, 300)], float)]
POINTS = np.array([(-400, -1500), (900, -700), (-1900, 1900)], float)


def written(folder):
    """The shapes as GeoJSON, and as OGR geometries in the local projection."""
    shapes = {
        'areas': [{'type': 'MultiPolygon',
                   'coordinates': [[degrees(ring) for ring in part] for part in area]}
                  for area in AREAS],
        'lines': [{'type': 'LineString', 'coordinates': degrees(line)} for line in LINES],
        'points': [{'type': 'MultiPoint', 'coordinates': degrees(POINTS)}]}
    local = {}
    for name, geometries in shapes.items():
        (folder / f'{name}.geojson').write_text(json.dumps(
            {'type': 'FeatureCollection', 'features': [
                {'type': 'Feature', 'properties': {}, 'geometry': g} for g in geometries]}))
        local[name] = [projected(g) for g in geometries]
    return local


def projected(geometry):
    """In the local projection. Edges are straight in degrees, as the file has them: densified."""
    shape = ogr.CreateGeometryFromJson(json.dumps(geometry))
    shape.Segmentize(1e-4)                       # 11 m: strays by microns
    def walk(part):
        for i in range(part.GetGeometryCount()):
            walk(part.GetGeometryRef(i))
        for i in range(part.GetPointCount()):
            x, y = TO_LOCAL.transform(part.GetX(i), part.GetY(i))
            part.SetPoint_2D(i, x, y)
    walk(shape)
    return shape


def plan(crs, rules, box):
    text = f'''
title = "setbacks"
[area]
bounds = {list(box)}
cell_m = {CELL}
crs = "{crs}"
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
[uncertainty]
draws = 0
[report]
what_if = "no"
'''
    for name, setback in rules.items():
        text += f'''[[closed]]
name = "{name}"
file = "{name}.geojson"
setback_m = {setback}
rule = "made for a test"
'''
    return text


def closed_bits(folder, crs, rules, half=HALF):
    """closed.tif by the program, with its transform and reference system."""
    corners = degrees([(-half, -half), (half, half)])
    box = *corners[0], *corners[1]
    with rasterio.open(folder / 'depth.tif', 'w', driver='GTiff', width=4, height=4, count=1,
                       dtype='float32', crs='EPSG:4326',
                       transform=rasterio.transform.from_bounds(
                           box[0] - 0.05, box[1] - 0.05, box[2] + 0.05, box[3] + 0.05, 4,
                           4)) as file:
        file.write(np.full((1, 4, 4), 8, 'float32'))
    (folder / 'plan.toml').write_text(plan(crs, rules, box))
    done = subprocess.run([PROGRAM, 'scout', folder / 'plan.toml', '--out', folder / 'out'],
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    with rasterio.open(folder / 'out' / 'maps' / 'closed.tif') as file:
        return file.read(1), file.transform, file.crs


def largest_scale_error(crs, lon, lat):
    """Of lengths kept with the one scale of the grid's middle: from the projection itself."""
    factors = Proj(crs).get_factors(lon, lat)
    scale = np.sqrt(factors.areal_scale)
    middle = scale[scale.shape[0] // 2, scale.shape[1] // 2]
    return float(np.max(np.abs(np.stack([factors.meridional_scale, factors.parallel_scale]) / middle
                               - 1)))


def edge_points(shape, step=1.0):
    """Points along every edge of a shape, in the local projection."""
    out = []
    def walk(part):
        for i in range(part.GetGeometryCount()):
            walk(part.GetGeometryRef(i))
        xy = [(part.GetX(i), part.GetY(i)) for i in range(part.GetPointCount())]
        out.extend(xy[:1])
        for (x0, y0), (x1, y1) in zip(xy, xy[1:]):
            n = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / step))
            t = np.arange(1, n + 1) / n
            out.extend(zip(x0 + t * (x1 - x0), y0 + t * (y1 - y0)))
    walk(shape)
    return np.array(out)


def geodesics(a, b):
    """m by GeodSolve between places (lon, lat)."""
    lines = '\n'.join(f'{p[1]:.12f} {p[0]:.12f} {q[1]:.12f} {q[0]:.12f}' for p, q in zip(a, b))
    done = subprocess.run(['GeodSolve', '-i', '-p', '6'], input=lines, capture_output=True,
                          text=True, check=True)
    return np.array([float(line.split()[2]) for line in done.stdout.splitlines()])


class Setbacks(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.holder = tempfile.TemporaryDirectory()
        folder = Path(cls.holder.name)
        cls.local = written(folder)
        cls.grids = {}
        # In its own zone, near its edge, lengths on the grid are 0.035 % too long; nine degrees from
        # the middle of another zone they are more than 0.6 % too long, and change over the area.
        for crs in ('auto', 'EPSG:32624'):
            closed, transform, system = closed_bits(folder, crs, SETBACKS)
            rows, cols = np.indices(closed.shape)
            x = transform.c + (cols + 0.5) * transform.a
            y = transform.f + (rows + 0.5) * transform.e
            lon, lat = Transformer.from_crs(system, 'EPSG:4326', always_xy=True).transform(x, y)
            cls.grids[crs] = dict(
                closed=closed, transform=transform, system=system, lon=lon, lat=lat,
                local=np.stack(TO_LOCAL.transform(lon, lat), -1),
                error=largest_scale_error(CRS(system.to_wkt()), lon, lat))

    @classmethod
    def tearDownClass(cls):
        cls.holder.cleanup()

    def touched(self, grid, name):
        """Cells that a shape itself meets, by GEOS, the shape brought into the grid's system."""
        to_grid = Transformer.from_crs(LOCAL, CRS(grid['system'].to_wkt()), always_xy=True)
        t, out = grid['transform'], np.zeros(grid['closed'].shape, bool)
        for shape in self.local[name]:
            there = shape.Clone()
            def walk(part):
                for i in range(part.GetGeometryCount()):
                    walk(part.GetGeometryRef(i))
                for i in range(part.GetPointCount()):
                    part.SetPoint_2D(i, *to_grid.transform(part.GetX(i), part.GetY(i)))
            walk(there)
            west, east, south, north = there.GetEnvelope()
            for row in range(max(0, int((t.f - north) / t.a)), int((t.f - south) / t.a) + 1):
                for col in range(max(0, int((west - t.c) / t.a)), int((east - t.c) / t.a) + 1):
                    if row < out.shape[0] and col < out.shape[1] and not out[row, col]:
                        w, n = t.c + col * t.a, t.f + row * t.e
                        out[row, col] = there.Intersects(ogr.CreateGeometryFromWkt(
                            f'POLYGON(({w} {n},{w + t.a} {n},{w + t.a} {n - t.a},{w} {n - t.a},'
                            f'{w} {n}))'))
        return out

    def compare(self, found, expected, off, name, crs, setback):
        """Every cell but those whose distance is within the stated error of the setback."""
        tolerance = EDGE + setback * self.grids[crs]['error']
        decided = np.abs(off) > tolerance
        wrong = decided & (found != expected)
        self.assertEqual(wrong.sum(), 0, f'{name} in {crs}: off by {off[wrong][:5]} m')
        at_edge = np.abs(off) < CELL
        self.assertGreater(at_edge.sum(), 100)
        self.assertLess((~decided).sum(), 0.08 * at_edge.sum(), f'{name} in {crs}: too few decided')

    def by_geos(self, name, setback, local):
        """Every cell's distance, and whether a buffer holds it. The distance is asked of GEOS where
        it comes near the setback; elsewhere that to points along the edges is near enough to it."""
        distance, within = np.full(local.shape[:2], np.inf), np.zeros(local.shape[:2], bool)
        for shape in self.local[name]:
            away, _ = cKDTree(edge_points(shape)).query(local)
            inside = shape.CreatePreparedGeometry()
            buffer = shape.Buffer(setback, 200).CreatePreparedGeometry()
            point = ogr.Geometry(ogr.wkbPoint)
            point.AddPoint_2D(0, 0)
            for index in np.ndindex(away.shape):
                point.SetPoint_2D(0, *local[index])
                if inside.Contains(point):
                    away[index] = 0.0
                elif abs(away[index] - setback) < 2 * CELL:
                    away[index] = shape.Distance(point)
                within[index] |= buffer.Contains(point)
            distance = np.minimum(distance, away)
        return distance, within

    def test_cells_against_geos(self):
        for crs, grid in self.grids.items():
            for bit, (name, setback) in enumerate(SETBACKS.items(), 8):
                with self.subTest(name, crs=crs):
                    found = (grid['closed'] >> bit) & 1 == 1
                    touched = self.touched(grid, name)
                    distance, within = self.by_geos(name, setback, grid['local'])
                    off = np.where(touched, np.inf, distance - setback)
                    self.compare(found, within | touched, off, name, crs, setback)

    def test_cells_at_the_edge_against_geodesics(self):
        for crs, grid in self.grids.items():
            for bit, (name, setback) in enumerate(SETBACKS.items(), 8):
                with self.subTest(name, crs=crs):
                    found = (grid['closed'] >> bit) & 1 == 1
                    points = np.concatenate([edge_points(s) for s in self.local[name]])
                    flat, which = cKDTree(points).query(grid['local'], k=3)
                    edge = (np.abs(flat[..., 0] - setback) < 1.5 * CELL) & ~self.touched(grid, name)
                    if name == 'areas':                    # inside of an area it is not the edge's
                        inside = np.array([any(shape.Contains(ogr.CreateGeometryFromWkt(
                            f'POINT({x} {y})')) for shape in self.local[name])
                            for x, y in grid['local'][edge]])
                        edge[edge] = ~inside
                    here = np.stack([grid['lon'][edge], grid['lat'][edge]], -1)
                    least = np.full(len(here), np.inf)
                    for k in range(min(3, len(points))):
                        there = np.array(degrees(points[which[edge][:, k]]))
                        least = np.minimum(least, geodesics(here, there))
                    self.compare(found[edge], least <= setback, least - setback, name, crs, setback)

    def test_areas_against_geos_buffers(self):
        """Hectares closed, against the buffer's own area within the grid."""
        for crs, grid in self.grids.items():
            scale = Proj(CRS(grid['system'].to_wkt())).get_factors(grid['lon'], grid['lat']).areal_scale
            cell_m2 = CELL ** 2 / scale
            frame = ogr.Geometry(ogr.wkbLinearRing)
            ring = np.concatenate([grid['local'][0], grid['local'][:, -1], grid['local'][-1, ::-1],
                                   grid['local'][::-1, 0]])
            for x, y in np.concatenate([ring, ring[:1]]):
                frame.AddPoint_2D(x, y)
            window = ogr.Geometry(ogr.wkbPolygon)
            window.AddGeometry(frame)
            for bit, (name, setback) in enumerate(SETBACKS.items(), 8):
                with self.subTest(name, crs=crs):
                    union = self.local[name][0].Buffer(setback, 200)
                    for shape in self.local[name][1:]:
                        union = union.Union(shape.Buffer(setback, 200))
                    wanted = union.Intersection(window.Buffer(0)).Area()
                    found = cell_m2[(grid['closed'] >> bit) & 1 == 1].sum()
                    # Counting centres errs at random along the edge, and by half a cell at the frame.
                    slack = 0.6 * CELL * 4 * 2 * HALF * 0.05 + 2 * CELL * math.sqrt(
                        union.Boundary().Length() * CELL)
                    self.assertAlmostEqual(found, wanted, delta=slack)
                    self.assertLess(slack, 0.08 * wanted)


class Exact(unittest.TestCase):
    def test_distances_to_points_on_cell_centres(self):
        """In a system whose scale is 1 here, the distance is that of the raster: SciPy's exact one."""
        crs = f'+proj=tmerc +lon_0={LON} +lat_0={LAT} +k=1 +datum=WGS84 +units=m'
        back = Transformer.from_crs(crs, 'EPSG:4326', always_xy=True)
        rng = np.random.default_rng(7)
        half = 900.0
        columns = rng.integers(-40, 40, (60, 2))
        lon, lat = back.transform((columns[:, 0] + 0.5) * CELL, (columns[:, 1] + 0.5) * CELL)
        for setback in (31.0, 75.0, 133.0, 261.0):
            with self.subTest(setback), tempfile.TemporaryDirectory() as folder:
                folder = Path(folder)
                (folder / 'marks.geojson').write_text(json.dumps(
                    {'type': 'Feature', 'properties': {}, 'geometry': {
                        'type': 'MultiPoint',
                        'coordinates': [list(p) for p in zip(lon.tolist(), lat.tolist())]}}))
                closed, t, _ = closed_bits(folder, crs, {'marks': setback}, half)
                far = np.ones(closed.shape, bool)
                far[np.rint((t.f - CELL / 2 - (columns[:, 1] + 0.5) * CELL) / CELL).astype(int),
                    np.rint(((columns[:, 0] + 0.5) * CELL - t.c - CELL / 2) / CELL).astype(int)] = False
                distance = CELL * distance_transform_edt(far)
                self.assertGreater(np.abs(distance - setback).min(), 0.01)
                np.testing.assert_array_equal((closed >> 8) & 1 == 1, distance <= setback)
                self.assertTrue(0.05 < (distance <= setback).mean() < 0.999)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

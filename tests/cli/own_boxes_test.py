# SPDX-License-Identifier: Apache-2.0
"""Boxes of the plan's own beside the sites that are found, against the written maps: what lies under
a box is overlaid with every cell by OGR.

own_boxes_test.py PROGRAM SOURCE_DIR"""
import csv
import json
import math
import re
import unittest

import numpy
from bay import SAMPLES, Bay, main, run
from osgeo import gdal, ogr, osr

gdal.UseExceptions()
ogr.UseExceptions()

GAP_M, SETBACK_M, MARGIN_M, SCOPE, LINE_GAP_M = 100, 30, 15, 3, 6
ROUNDING_M = 0.08


def ring_of(points):
    ring = ogr.Geometry(ogr.wkbLinearRing)
    for x, y in [*points, points[0]]:
        ring.AddPoint_2D(float(x), float(y))
    polygon = ogr.Geometry(ogr.wkbPolygon)
    polygon.AddGeometry(ring)
    return polygon


def corners_of(row):
    return [tuple(map(float, corner.split())) for corner in row['corners'].split(';')]


def largest_rectangle(points, steps=240):
    """Length and width of the largest rectangle in a convex ring along one of its sides, by trying."""
    best = (0, 0, 0)
    for k in range(4):
        way = numpy.subtract(points[(k + 1) % 4], points[k])
        u = way / numpy.hypot(*way)
        turned = [(numpy.dot(p, u), numpy.dot(p, (-u[1], u[0]))) for p in points]
        low, high = min(y for _, y in turned), max(y for _, y in turned)
        heights = numpy.linspace(low, high, steps + 1)
        left, right = numpy.full(steps + 1, numpy.inf), numpy.full(steps + 1, -numpy.inf)
        for a, b in zip(turned, turned[1:] + turned[:1]):
            for i, y in enumerate(heights):
                if min(a[1], b[1]) - 1e-9 <= y <= max(a[1], b[1]) + 1e-9:
                    xs = (a[0], b[0]) if abs(a[1] - b[1]) < 1e-6 else \
                        (a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]),)
                    left[i], right[i] = min(left[i], *xs), max(right[i], *xs)
        for i in range(steps):
            wide = numpy.minimum(right[i], right[i + 1:]) - numpy.maximum(left[i], left[i + 1:])
            areas = wide * (heights[i + 1:] - heights[i])
            j = int(numpy.argmax(areas))
            if areas[j] > best[0]:
                best = (areas[j], wide[j], heights[i + 1 + j] - heights[i])
    return max(best[1:]), min(best[1:])


class Overlay:
    """The maps of a run."""

    def __init__(self, out):
        self.out = out
        file = gdal.Open(str(out / 'maps' / 'suitability.tif'))
        self.x0, self.cell, _, self.y0, _, _ = file.GetGeoTransform()
        degrees, grid = osr.SpatialReference(), osr.SpatialReference()
        degrees.ImportFromEPSG(4326)
        degrees.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        grid.ImportFromWkt(file.GetProjection())
        grid.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        self.to_grid = osr.CoordinateTransformation(degrees, grid)
        self.to_degrees = osr.CoordinateTransformation(grid, degrees)
        self.shape = file.RasterYSize, file.RasterXSize

    def map(self, name, band=1):
        file = gdal.Open(str(self.out / 'maps' / name))
        return file.GetRasterBand(band).ReadAsArray()

    def on_grid(self, corners):
        return [self.to_grid.TransformPoint(*corner)[:2] for corner in corners]

    def shares(self, points):
        """Of every cell the share that a ring covers."""
        polygon = ring_of(points)
        west, east, south, north = polygon.GetEnvelope()
        out = numpy.zeros(self.shape)
        for row in range(int((self.y0 - north) // self.cell), int((self.y0 - south) // self.cell) + 1):
            for col in range(int((west - self.x0) // self.cell), int((east - self.x0) // self.cell) + 1):
                x, y = self.x0 + col * self.cell, self.y0 - row * self.cell
                square = ring_of([(x, y), (x + self.cell, y), (x + self.cell, y - self.cell),
                                  (x, y - self.cell)])
                out[row, col] = square.Intersection(polygon).GetArea() / self.cell ** 2
        return out

    def score(self, points):
        shares = self.shares(points)
        return (shares * self.map('suitability.tif') * self.map('yield.tif'))[shares > 0].sum()


class OwnBoxes(Bay):
    what_if = True

    def outcome(self, plan, *words):
        result, out = self.scout(plan, *words)
        self.assertEqual(result.returncode, 0, result.stderr)
        with open(out / 'sites.csv', newline='') as file:
            rows = list(csv.DictReader(file))
        return result.stdout, out, rows, json.loads((out / 'run.json').read_text())

    def with_boxes(self, *boxes):
        value = ', '.join('[' + ', '.join(f'[{lon}, {lat}]' for lon, lat in box) + ']' for box in boxes)
        return (r'^gap_m .*$', f'gap_m = {GAP_M}\nown_corners = [{value}]')

    def boxes(self):
        """A trapezoid inside a site that the search finds, and a box about a cell of eelgrass."""
        _, out, rows, record = self.outcome(self.plan())
        a, b, c, d = corners_of(rows[1])
        trapezoid = [a, b, c, tuple(numpy.add(d, 0.35 * numpy.subtract(c, d)).round(9))]
        overlay = Overlay(out)
        eelgrass = numpy.argwhere((overlay.map('closed.tif') & 1 << 8 != 0) &
                                  (overlay.map('closed.tif') < 2 ** 31))
        row, col = eelgrass[len(eelgrass) // 2]
        x, y = overlay.x0 + (col + .4) * overlay.cell, overlay.y0 - (row + .3) * overlay.cell
        closed = [overlay.to_degrees.TransformPoint(x + dx, y + dy)[:2]
                  for dx, dy in ((-120, -50), (-110, 60), (130, 55), (120, -45))]
        return trapezoid, closed, rows, record

    def test_a_trapezoid_is_ranked_by_what_lies_under_it(self):
        trapezoid, closed, before, _ = self.boxes()
        text, out, rows, record = self.outcome(self.plan(self.with_boxes(trapezoid, closed)))
        overlay = Overlay(out)
        own = next(row for row in rows if row['name'] == 'OWN1')
        points = overlay.on_grid(trapezoid)
        shares = overlay.shares(points)
        for column, values, within in (('suitability', overlay.map('suitability.tif'), 2e-4),
                                       ('yield_kg_per_m', overlay.map('yield.tif'), 2e-4),
                                       ('nitrogen_g_per_m', overlay.map('nitrogen.tif'), 2e-4)):
            mean = (shares * values)[shares > 0].sum() / shares.sum()
            self.assertAlmostEqual(float(own[column]) / mean, 1, delta=within)
        self.assertEqual(sorted(corners_of(own)),
                         sorted((round(lon, 6), round(lat, 6)) for lon, lat in trapezoid))
        # The rank, by the scores of all.
        scores = [overlay.score(overlay.on_grid(corners_of(row))) for row in rows]
        self.assertEqual(scores, sorted(scores, reverse=True))
        for i, row in enumerate(rows):
            self.assertEqual(row['rank'], str(i + 1))
            self.assertIn(row['name'], (f'S{i + 1:02}', 'OWN1'))
        self.assertEqual(len(rows), len(before) + 1)
        self.assertEqual(record['counts']['sites'], len(rows))
        # The layout in the largest rectangle; the grid is off true lengths by 4 in 10,000.
        length, width = largest_rectangle(points)
        self.assertAlmostEqual(float(own['length_m']) * float(own['width_m']) / (length * width), 1,
                               delta=5e-3)
        deep = float(own['depth_high_max_m'])
        usable = float(own['length_m']) - 2 * MARGIN_M - 2 * SCOPE * deep
        lines = int((float(own['width_m']) - 2 * MARGIN_M) // LINE_GAP_M) + 1
        self.assertEqual(int(own['lines']), lines)
        self.assertAlmostEqual(float(own['line_m']), lines * usable, delta=0.2)
        self.assertAlmostEqual(float(own['yield_without_t']),
                               float(own['line_m']) * float(own['yield_kg_per_m']) / 1000, delta=0.002)
        # What is found keeps the gap.
        for row in rows:
            if row['name'] != 'OWN1':
                apart = ring_of(overlay.on_grid(corners_of(row))).Distance(ring_of(points))
                self.assertGreater(apart, GAP_M * 0.999)
        self.assertRegex(text, rf'\n *{own["rank"]} OWN1 ')
        self.assertIn(f'Your own box OWN1 ranks {own["rank"]} of {len(rows)}.', text)
        self.gear_lies_inside(out, own, ring_of(points), overlay)

    def gear_lies_inside(self, out, own, boundary, overlay):
        file = ogr.Open(str(out / 'sites.gpkg'))
        ends = 0
        for feature in file.GetLayerByName('anchors'):
            if feature.GetField(0) == 'OWN1':
                point = feature.GetGeometryRef().Clone()
                x, y = overlay.to_grid.TransformPoint(point.GetX(), point.GetY())[:2]
                place = ogr.CreateGeometryFromWkt(f'POINT ({x} {y})')
                self.assertTrue(boundary.Contains(place))
                self.assertGreater(boundary.Boundary().Distance(place), MARGIN_M - 0.2)
                ends += 1
        self.assertEqual(ends, 2 * int(own['lines']))

    def test_a_box_in_a_closed_area_is_listed_apart_with_what_forbids_it(self):
        trapezoid, closed, before, _ = self.boxes()
        text, out, rows, record = self.outcome(self.plan(self.with_boxes(closed)))
        overlay = Overlay(out)
        bits = overlay.map('closed.tif')
        shares = overlay.shares(overlay.on_grid(closed))
        part = 100 * shares[(bits & 1 << 8 != 0) & (bits < 2 ** 31)].sum() / shares.sum()
        told = re.search(r'Your own box OWN1 is listed apart: closed by eelgrass beds over (\d+) % of it\.',
                         text)
        self.assertIsNotNone(told, text)
        self.assertIn(int(told[1]), {math.ceil(part - 0.02), math.ceil(part + 0.02)})
        source = ogr.Open(str(SAMPLES / 'closed.gpkg'))
        layer = source.GetLayerByName('eelgrass')
        layer.SetAttributeFilter("status = 'mapped'")
        system = layer.GetSpatialRef().Clone()
        system.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        grid = osr.SpatialReference()
        grid.ImportFromWkt(gdal.Open(str(out / 'maps' / 'closed.tif')).GetProjection())
        box = ring_of(overlay.on_grid(closed)).Buffer(-ROUNDING_M)
        apart = math.inf
        for feature in layer:
            shape = feature.GetGeometryRef().Clone()
            shape.Transform(osr.CoordinateTransformation(system, grid))
            apart = min(apart, shape.Distance(box))
        missing = re.search(r'OWN1 is listed apart: within the setback of eelgrass beds by ([0-9.]+) m', text)
        self.assertAlmostEqual(float(missing[1]), SETBACK_M - apart, delta=0.15)
        # Nothing else has changed: the search takes no notice of it.
        self.assertEqual([row['corners'] for row in rows], [row['corners'] for row in before])
        self.assertEqual(record['counts']['sites'], len(before))
        self.assertIn('OWN1', record['draw_down'])
        page = (out / 'report.html').read_text()
        self.assertIn('Your own box OWN1, listed apart', page)
        self.assertIn('closed by eelgrass beds over', page)
        self.assertIn('OWN1 C1', (out / 'field_readings.csv').read_text())
        self.assertIn('Your own box OWN1 (listed apart: ', (out / 'field_sheet.html').read_text())

    def test_every_file_holds_the_box_and_is_the_same_at_any_thread_count(self):
        trapezoid, closed, _, _ = self.boxes()
        plan = self.plan(self.with_boxes(trapezoid, closed))
        files = {}
        for threads in ('1', '2'):
            _, out, rows, record = self.outcome(plan, '--threads', threads)
            for path in sorted(out.rglob('*')):
                if path.is_file() and path.name != 'run.json':
                    files.setdefault(path.name, []).append(path.read_bytes())
            del record['seconds'], record['threads'], record['memory']
            files.setdefault('run.json', []).append(record)
        for name, both in files.items():
            self.assertEqual(both[0], both[1], name)
        for name in ('sites.csv', 'load.csv', 'sites.geojson', 'sites.gpx', 'sites.gpkg', 'report.html',
                     'field_sheet.html', 'field_readings.csv', 'sheets.html'):
            self.assertIn(b'OWN1', files[name][0], name)
        self.assertIn(b'Plan view, site OWN1', files['sheets.html'][0])
        given = files['run.json'][0]['plan']['keys']['sites.own_corners']['value']
        self.assertEqual(given, [list(map(list, trapezoid)), list(map(list, closed))])
        own = next(row for row in rows if row['name'] == 'OWN1')
        self.assertNotEqual(own['chance_best'], '')
        self.assertNotEqual(own['yield_with_neighbours_t'], '')

    def test_moved_limits_leave_the_boxes_where_they_are(self):
        trapezoid, _, _, _ = self.boxes()
        plan = self.plan(self.with_boxes(trapezoid))
        _, _, rows, record = self.outcome(plan)
        found = next(row for row in rows if row['name'] != 'OWN1')
        table = record['what_if']
        self.assertAlmostEqual(table['best_site_yield_without_t'], float(found['yield_without_t']),
                               delta=0.001)
        key = next(k for k in table['keys'] if k['key'] == 'closed[0].setback_m')
        plan.write_text(plan.read_text().replace('setback_m = 30', 'setback_m = 37.5'))
        _, _, rows, _ = self.outcome(plan)
        self.assertIn('OWN1', [row['name'] for row in rows])
        moved = next(row for row in rows if row['name'] != 'OWN1')
        self.assertAlmostEqual(key['more']['best_site_yield_without_t'],
                               float(moved['yield_without_t']), delta=0.001)

    def test_a_target_is_reached_by_sites_that_are_found(self):
        """With boxes on top of count, the search for more sites still ends where no more fit."""
        trapezoid, _, _, _ = self.boxes()
        one = self.plan(self.with_boxes(trapezoid), (r'^count .*$', 'count = 2'), name='one.toml')
        two = self.plan((r'^title .*$', 'title = "Another"'), (r'^count .*$', 'count = 2'),
                        name='two.toml')
        out = self.folder / 'compared'
        result = run('compare', one, two, '--out', out, '--target-kg', '40')
        self.assertEqual(result.returncode, 0, result.stderr)
        bays = json.loads((out / 'compare.json').read_text())['estuaries']
        self.assertEqual([len(bay['sites']) for bay in bays], [3, 2])

    def test_a_box_beyond_the_area_is_refused(self):
        box = [(-30.11, 41.03), (-30.09, 41.031), (-30.09, 41.03), (-30.11, 41.029)]
        self.refused(self.plan(self.with_boxes(box)), 2, 'plan.toml:', 'corner 1 of box 1',
                     'outside of area.bounds')


if __name__ == '__main__':
    main()

#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""Soundings against SciPy: scipy_delaunay_test.py PROGRAM SOURCE_FOLDER

The same scattered soundings are given to the program and to scipy.interpolate.LinearNDInterpolator
(its own Delaunay triangulation, its own barycentric weights, double precision), in the grid's
metres, counted from a point of the area so that its double precision is not spent on the distance
from the equator. Points at random have one Delaunay triangulation, so every cell has to agree; the
maps are float32, so to 1e-6 of 20 m. Positions are written with millimetres.
"""
import csv
import sys
import unittest
from pathlib import Path

import numpy as np
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / 'cli'))
import depth_bay

TOLERANCE = 2e-5  # m


def interpolated(x, y, z, cells_x, cells_y):
    x0, y0 = x.mean(), y.mean()
    return LinearNDInterpolator(np.c_[x - x0, y - y0], z)(cells_x - x0, cells_y - y0)


class Soundings(depth_bay.DepthBay):
    def points(self, count, seed=7, grow=300.0):
        rng = np.random.default_rng(seed)
        west, south, east, north = self.square(grow)
        x = np.round(rng.uniform(west, east, count), 3)
        y = np.round(rng.uniform(south, north, count), 3)
        z = np.round(8 + 4 * np.sin(x / 300) * np.cos(y / 240) + rng.normal(0, 0.3, count), 3)
        return x, y, z

    def depth(self, file, more=''):
        return f'''[depth]
file = "{file}"
positive = "down"
datum = "MLLW"
crs = "{depth_bay.CRS}"
{more}'''

    def write(self, name, x, y, z, head='', apart=' '):
        (self.folder / name).write_text(
            head + ''.join(f'{a:.3f}{apart}{b:.3f}{apart}{c:.3f}\n' for a, b, c in zip(x, y, z)))

    def expect(self, found, wanted):
        self.assertEqual((np.isnan(found) != np.isnan(wanted)).sum(), 0)
        off = np.nanmax(np.abs(found - wanted))
        print(f'{np.isfinite(wanted).sum()} cells, largest difference {off:.2e} m')
        self.assertLess(off, TOLERANCE)

    def test_every_cell(self):
        x, y, z = self.points(4000)
        self.write('bay.xyz', x, y, z)
        found, cx, cy, _ = self.scout(self.depth('bay.xyz', 'longest_edge_m = 100000'))
        self.assertTrue(np.isfinite(found).all())
        self.expect(found, interpolated(x, y, z, cx, cy))

    def test_the_longest_edge_bounds_the_triangles(self):
        x, y, z = self.points(500)
        hole = np.hypot(x - x.mean(), y - y.mean()) < 350
        x, y, z = x[~hole], y[~hole], z[~hole]
        self.write('bay.csv', x, y, z, 'easting,northing,depth\n', ',')
        found, cx, cy, _ = self.scout(self.depth('bay.csv', 'longest_edge_m = 250'))
        mesh = Delaunay(np.c_[x, y] - [x.mean(), y.mean()])
        corners = np.c_[x, y][mesh.simplices]
        edges = np.linalg.norm(corners - np.roll(corners, 1, 1), axis=2).max(1)
        wanted = interpolated(x, y, z, cx, cy)
        simplex = mesh.find_simplex(np.stack([cx - x.mean(), cy - y.mean()], -1))
        wanted[(simplex < 0) | (edges[simplex] > 250)] = np.nan
        self.assertTrue(np.isnan(wanted).any() and np.isfinite(wanted).any())
        self.expect(found, wanted)

    def test_in_degrees_with_names_and_another_order(self):
        """Linear in the grid's metres, wherever the positions come from."""
        x, y, z = self.points(3000, 11)
        lon, lat = (np.round(v, 9) for v in depth_bay.TO_DEGREES.transform(x, y))
        with open(self.folder / 'bay.csv', 'w', newline='') as file:
            rows = csv.writer(file)
            rows.writerow(['id', 'lat', 'sounding', 'lon'])
            rows.writerows(zip(range(x.size), lat, z, lon))
        plan = self.depth('bay.csv', 'field = "sounding"\nlongest_edge_m = 5000')
        found, cx, cy, _ = self.scout(plan.replace(depth_bay.CRS, 'EPSG:4326'))
        x, y = depth_bay.TO_METRES.transform(lon, lat)
        self.expect(found, interpolated(x, y, z, cx, cy))

    def test_threads_change_no_byte(self):
        x, y, z = self.points(2000, 3)
        self.write('bay.xyz', x, y, z)
        bytes_of = []
        for threads in '1', '4':
            self.scout(self.depth('bay.xyz'), '--threads', threads)
            bytes_of.append((self.folder / 'out' / 'maps' / 'depth_low_water.tif').read_bytes())
        self.assertEqual(*bytes_of)

    def test_the_default_edge_is_said(self):
        x, y, z = self.points(2000, 3)
        self.write('bay.xyz', x, y, z)
        _, _, _, said = self.scout(self.depth('bay.xyz'))
        mesh = Delaunay(np.c_[x, y] - [x.mean(), y.mean()])
        corners = np.c_[x, y][mesh.simplices]
        median = np.median(np.linalg.norm(corners - np.roll(corners, 1, 1), axis=2))
        told = float(' '.join(said.split()).split('edges of up to ')[1].split()[0])
        self.assertLess(abs(told / (5 * median) - 1), 0.011)

    def test_the_shallowest_of_two_at_one_place(self):
        x, y, z = self.points(1000, 5)
        self.write('bay.xyz', np.r_[x, x], np.r_[y, y], np.r_[z + 1, z])
        found, cx, cy, said = self.scout(self.depth('bay.xyz', 'longest_edge_m = 5000'))
        self.assertIn('1000 points lie where another lies', ' '.join(said.split()))
        self.expect(found, interpolated(x, y, z, cx, cy))


if __name__ == '__main__':
    depth_bay.main()

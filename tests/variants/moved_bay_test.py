# SPDX-License-Identifier: Apache-2.0
"""The same bay with other rules and other grids: moved_bay_test.py PROGRAM SOURCE_DIR

What must hold of whole runs, whatever the bay: a rule more or a wider setback opens nothing and
raises no score, the order of rules does not count, and a cell has the same score whatever else lies
on the grid.
"""
import json
import shutil
import tempfile
import unittest
from pathlib import Path

import numpy as np

from same_bay_test import Bay, BOUNDS, Lattice

MAPS = ('suitability', 'closed', 'yield', 'nitrogen', 'depth_low_water', 'season')
NODATA = -9999
NOT_WATER = 0xFFFFFFFF
CELL_M = 25.0
# Shares of the bay's width and height.
SHAPES = {'channel': [(0.2, -0.1), (0.7, 1.1)],
          'beds': [(0.1, 0.1), (0.4, 0.2), (0.3, 0.5), (0.1, 0.1)],
          'anchorage': [(0.6, 0.5), (0.95, 0.55), (0.9, 0.9), (0.55, 0.8), (0.6, 0.5)],
          'moorings': [(0.5, 0.5), (0.8, 0.2)]}


def place(share):
    west, south, east, north = BOUNDS
    return [west + share[0] * (east - west), south + share[1] * (north - south)]


def geometry(points):
    points = [place(p) for p in points]
    if points[0] == points[-1]:
        return {'type': 'Polygon', 'coordinates': [points]}
    return {'type': 'LineString', 'coordinates': points}


class MovedBay(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.bay = Bay(cls.folder.name, Lattice())
        for name, points in SHAPES.items():
            cls.bay.path(name + '.geojson').write_text(json.dumps({
                'type': 'FeatureCollection',
                'features': [{'type': 'Feature', 'properties': {}, 'geometry': geometry(points)}]}))
        cls.planned = cls.run_with({'channel': 60, 'beds': 0, 'anchorage': 30})

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    @classmethod
    def run_with(cls, rules, bounds=BOUNDS):
        """The maps with these rules, name: setback in metres."""
        tables = dict(cls.bay.tables)
        for name, setback in rules.items():
            # a table of tables as the last lines of the one before
            cls.bay.tables['water.current'] += (
                f'\n[[closed]]\nname = "{name}"\nfile = "{name}.geojson"\n'
                f'setback_m = {setback}\neffect = "close"\nrule = "invented"')
        shutil.rmtree(cls.bay.path('out'), ignore_errors=True)
        found = cls.bay.maps(MAPS, bounds)
        cls.bay.tables = tables
        return found

    def opens_nothing(self, found):
        """Nothing that the planned rules close is open, and no score is higher; something closes."""
        before, after = self.planned, found
        water = before['closed'] != NOT_WATER
        self.assertTrue((after['closed'][~water] == NOT_WATER).all())
        self.assertFalse(((before['closed'] != 0) & (after['closed'] == 0)).any())
        self.assertFalse((after['suitability'][water] > before['suitability'][water]).any())
        self.assertTrue(((before['closed'] == 0) & (after['closed'] != 0)).any())

    def test_the_bay_has_open_and_closed_water(self):
        closed = self.planned['closed']
        self.assertTrue((closed == 0).any())
        for bit in 8, 9, 10:
            self.assertTrue((closed >> bit & 1)[closed != NOT_WATER].any(), bit)

    def test_an_area_more_opens_nothing(self):
        self.opens_nothing(self.run_with({'channel': 60, 'beds': 0, 'anchorage': 30,
                                          'moorings': 20}))

    def test_a_wider_setback_opens_nothing(self):
        self.opens_nothing(self.run_with({'channel': 60.1, 'beds': 100, 'anchorage': 30}))

    def test_a_wider_setback_is_found_out_where_it_is_less(self):
        with self.assertRaises(AssertionError):
            self.opens_nothing(self.run_with({'channel': 40, 'beds': 100, 'anchorage': 30}))

    def test_the_order_of_rules_does_not_count(self):
        other = self.run_with({'anchorage': 30, 'channel': 60, 'beds': 0})
        for name in MAPS:
            if name != 'closed':
                self.assertTrue((other[name] == self.planned[name]).all(), name)
        turned = self.planned['closed']
        bits = [turned >> bit & 1 for bit in (8, 9, 10)]  # channel, beds, anchorage
        there = other['closed']
        water = turned != NOT_WATER
        for bit, asked in zip((9, 10, 8), bits):
            self.assertTrue(((there >> bit & 1) == asked)[water].all(), bit)

    def test_a_cell_is_the_same_on_another_grid(self):
        """Cut off and shifted by whole cells: the grid lies on multiples of the cell."""
        west, south, east, north = BOUNDS
        part = west + 0.0031, south + 0.0017, east + 0.001, north - 0.0023
        other = self.run_with({'channel': 60, 'beds': 0, 'anchorage': 30}, part)
        col, row = ((other['corner'][0] - self.planned['corner'][0]) / CELL_M,
                    (self.planned['corner'][1] - other['corner'][1]) / CELL_M)
        self.assertEqual((col, row), (round(col), round(row)))
        self.assertTrue(col > 0 and row > 0)
        rows, cols = self.planned['closed'].shape
        here = {name: self.planned[name][int(row):, int(col):] for name in MAPS}
        both = [min(a, b) for a, b in zip(here['closed'].shape, other['closed'].shape)]
        here = {name: values[:both[0], :both[1]] for name, values in here.items()}
        there = {name: other[name][:both[0], :both[1]] for name in MAPS}
        inside = (here['depth_low_water'] != NODATA) & (there['depth_low_water'] != NODATA)
        self.assertGreater(inside.sum(), 0.5 * rows * cols)
        for name in 'closed', 'depth_low_water', 'season':
            self.assertTrue((here[name] == there[name])[inside].all(), name)
        # The sun is interpolated between the latitudes of a tile, which is cut anew: the last place
        # of a float, and now and then the last of the binary digits that a map keeps.
        difference = {name: np.abs(here[name] - there[name])[inside] for name in MAPS}
        self.assertLessEqual(difference['suitability'].max(), 3e-7)
        for name in 'yield', 'nitrogen':
            self.assertGreater((difference[name] == 0).mean(), 0.99, name)
            self.assertLessEqual(difference[name].max(), 2.0 ** -11 * here[name][inside].max(), name)


if __name__ == '__main__':
    unittest.main(argv=['moved_bay_test'])

# SPDX-License-Identifier: Apache-2.0
"""Text that a stranger's file brings along steers no terminal, forges no second line, and leaves
files that other programs take: cells of a table, attributes of a NetCDF, labels, titles."""
import json
import re
import shutil
import sys
import unittest
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import netCDF4

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import LittleBay  # noqa: E402

EVIL = 'x\x1b[31m\x07\x85\u2028y'    # ESC, BEL, the C1 line end, a separator of lines
CONTROL = re.compile('[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029]')
TITLE = 'title = "a \ufffe\uffff b"\n'
PLACES = 'lon,lat,date,value\n'


def with_table(folder, text):
    """The salinity from a table of stations that holds this text."""
    (folder / 's.csv').write_text(text, encoding='utf-8')
    plan = folder / 'plan.toml'
    plan.write_text(plan.read_text().replace('file = "salinity.tif"',
                                             'stations = "s.csv"\nunit = "psu"'))


def with_attribute(folder, variable, name, text):
    """Another attribute of the temperature, as a string of NetCDF-4."""
    shutil.move(folder / 'plan4.toml', folder / 'plan.toml')
    with netCDF4.Dataset(folder / 'temperature4.nc', 'a') as file:
        file[variable].setncattr_string(name, text)


class ForeignText(LittleBay):
    def told(self, command, *more):
        """What a command prints, which is to be free of what steers; its status."""
        done = self.tidelot(command, *more, text=False)
        text = (done.stdout + done.stderr).decode('utf-8')
        found = CONTROL.search(text)
        self.assertIsNone(found, found and repr(text[max(0, found.start() - 60):found.end() + 9]))
        return text, done.returncode

    def refuses(self, said):
        for command in ('check', 'scout'):
            text, status = self.told(command)
            self.assertEqual(status, 3, text)
            self.assertIn(said, text)

    def test_a_cell_that_is_refused(self):
        with_table(self.bay, PLACES + f'-30.01,41.005,"{EVIL}",20\n')
        self.refuses('is not a day')

    def test_a_header_that_is_listed(self):
        with_table(self.bay, f'lon,lat,date,"{EVIL}"\n-30.01,41.005,2021-07-04,20\n')
        self.refuses('has no column value')

    def test_a_qualifier_that_a_warning_lists(self):
        with_table(self.bay, PLACES.replace('\n', ',qualifier\n')
                   + f'-30.01,41.005,2021-07-04,28,"{EVIL}"\n')
        text, status = self.told('check')
        self.assertEqual(status, 0, text)
        self.assertIn('qualifiers', text)

    def test_a_unit_that_is_refused(self):
        with_attribute(self.bay, 'sst', 'units', EVIL)
        self.refuses('unit')

    def test_a_time_unit_that_is_refused(self):
        with_attribute(self.bay, 'time', 'units', f'days since {EVIL}')
        self.refuses('time')

    def test_a_calendar_that_is_refused(self):
        with_attribute(self.bay, 'time', 'calendar', EVIL)
        self.refuses('calendar')

    def test_a_word_of_the_command_line(self):
        text, status = self.told('scout', '--\x1b[31mred')
        self.assertEqual(status, 2, text)

    def test_names_that_the_plan_gives(self):
        plan = self.bay / 'plan.toml'
        whole = plan.read_text()
        for letter in EVIL[1:-1].replace('[31m', ''):
            plan.write_text(whole.replace('"outfall"', json.dumps(f'a{letter}b')), encoding='utf-8')
            for command in ('check', 'scout'):
                text, status = self.told(command)
                self.assertEqual(status, 2, text)
                self.assertIn('holds a control character or a line break', text)

    def test_a_title_without_a_place_in_xml(self):
        plan = self.bay / 'plan.toml'
        plan.write_text(re.sub('title = .*\n', TITLE, plan.read_text()), encoding='utf-8')
        out = self.bay.parent / 'out'
        text, status = self.told('scout', '--out', str(out))
        self.assertEqual(status, 0, text)
        read = [p for p in out.rglob('*') if p.suffix in ('.gpx', '.sld', '.svg', '.kml', '.xml')]
        self.assertTrue(any(p.suffix == '.gpx' for p in read), read)
        for path in read:
            ElementTree.parse(path)


if __name__ == '__main__':
    unittest.main(argv=[sys.argv[0]], verbosity=1)

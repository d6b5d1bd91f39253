# SPDX-License-Identifier: Apache-2.0
"""Every page of equations says of each symbol what it is, its unit, range and source.

usage: science_pages_test.py PROGRAM SOURCE_FOLDER
"""
import sys
import unittest
from pathlib import Path

SCIENCE = Path(sys.argv[2]) / 'docs' / 'science'
NO_EQUATIONS = {'README.md', 'assumptions.md', 'calibration.md'}
HEADING = ['symbol', 'what', 'unit', 'range', 'source']


def rows(page):
    """The cells of each row of the page's table of symbols; a page has one."""
    lines = page.read_text(encoding='utf-8').splitlines()
    start = [i for i, line in enumerate(lines) if cells(line) == HEADING]
    if len(start) != 1:
        return []
    found = []
    for line in lines[start[0] + 2:]:
        if not line.startswith('|'):
            break
        found.append(cells(line))
    return found


def cells(line):
    return [cell.strip() for cell in line.strip().strip('|').split('|')]


class Symbols(unittest.TestCase):
    def test_every_page_has_its_symbols(self):
        for page in SCIENCE.glob('*.md'):
            if page.name not in NO_EQUATIONS:
                self.assertGreater(len(rows(page)), 2, page.name)

    def test_every_symbol_has_all_four(self):
        blank = [(page.name, row[0]) for page in SCIENCE.glob('*.md') for row in rows(page)
                 if len(row) != len(HEADING) or not all(row)]
        self.assertEqual(blank, [])


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

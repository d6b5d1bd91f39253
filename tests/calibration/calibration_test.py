# SPDX-License-Identifier: Apache-2.0
"""The committed calibration tables are what the model gives now, and the figures are those tables'.

usage: calibration_test.py CALIBRATION_PROGRAM SOURCE_FOLDER
"""
import csv
import subprocess
import sys
import unittest
from pathlib import Path

from figure import figure

PROGRAM, SCIENCE = sys.argv[1], Path(sys.argv[2]) / 'docs' / 'science'
ANEW = 'run scripts/calibration and look at what changed'


class Calibration:
    crop = name = ''

    def setUp(self):
        self.table = (SCIENCE / f'{self.name}.csv').read_text(encoding='utf-8')
        self.rows = list(csv.DictReader(self.table.splitlines()))

    def test_table_is_of_this_model(self):
        answer = subprocess.run([PROGRAM, self.crop], capture_output=True, text=True, timeout=300)
        self.assertEqual(answer.returncode, 0, answer.stderr)
        self.assertEqual(answer.stdout, self.table, ANEW)

    def test_figure_is_of_this_table(self):
        drawn = (SCIENCE / f'{self.name}.svg').read_text(encoding='utf-8')
        self.assertEqual(figure(self.crop, self.table), drawn, ANEW)

    def test_page_counts_the_misses(self):
        page = (SCIENCE / 'calibration.md').read_text(encoding='utf-8')
        inside = sum(row['predicted_is'] == 'inside' for row in self.rows)
        self.assertIn(f'{inside} of {len(self.rows)} figures', page)


class Alga(Calibration, unittest.TestCase):
    crop, name = 'alga', 'calibration'


class Kelp(Calibration, unittest.TestCase):
    crop, name = 'kelp', 'calibration-kelp'


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

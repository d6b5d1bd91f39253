# SPDX-License-Identifier: Apache-2.0
"""The figures of docs/science are drawn from the curves that the program has now.

usage: figures_test.py CURVES_PROGRAM TIDELOT SOURCE_FOLDER
"""
import subprocess
import sys
import unittest
from pathlib import Path

from figure import figure

CURVES, TIDELOT, SOURCE = sys.argv[1], sys.argv[2], Path(sys.argv[3])
PLAN = SOURCE / 'data-samples' / 'heron-bight' / 'plan.toml'
PLACE = '-30.064044,41.028523'  # as in scripts/science-figures


def said(*words):
    return subprocess.run(list(map(str, words)), capture_output=True, text=True, check=True,
                          timeout=300).stdout


class Figures(unittest.TestCase):
    def drawn(self, name):
        return (SOURCE / 'docs' / 'science' / name).read_text(encoding='utf-8')

    def test_responses(self):
        curves = said(CURVES)
        for crop, name in (('alga', 'responses.svg'), ('kelp', 'responses-kelp.svg')):
            self.assertEqual(figure(crop, curves), self.drawn(name), 'run scripts/science-figures')

    def test_season(self):
        season = said(TIDELOT, 'explain', PLAN, '--at', PLACE, '--csv')
        self.assertEqual(figure('season', season), self.drawn('season-of-a-cell.svg'),
                         'run scripts/science-figures')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

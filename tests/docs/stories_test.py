# SPDX-License-Identifier: Apache-2.0
"""docs/user/stories.md comes out as it is told: stories_test.py PROGRAM SOURCE_FOLDER

The page is followed; then every figure that an HTML comment names is read from its file, rounded as
it is written, and looked for in the paragraph above the comment:
  <!-- 3.9 = FILE.csv ROW COLUMN -->      the row whose first column is ROW ("_" for a blank)
  <!-- 94 = 100 x FILE.csv ROW COLUMN --> a share as a percentage
  <!-- 343 = FILE.json a/b/1/c -->        keys, and places in lists
"""
import csv
import json
import re
import sys
import unittest

from pages import SOURCE, Folder, missing

USER = SOURCE / 'docs' / 'user'
FIGURE = re.compile(r'<!-- ([\d.,]+) = (100 x )?(\S+\.(?:csv|json)) (.+?) -->')


def value_in(file, where):
    if file.suffix == '.json':
        value = json.loads(file.read_text())
        for key in where.split('/'):
            value = value[int(key) if isinstance(value, list) else key]
        return float(value)
    name, column = where.split()
    with file.open(newline='') as table:
        for row in csv.DictReader(table):
            if next(iter(row.values())) == name.replace('_', ' '):
                return float(row[column])
    raise AssertionError(f'{file.name} has no row {name}')


def written(value, like):
    """A value with as many decimals as the page's text has, and its commas."""
    decimals = len(like.partition('.')[2])
    return f'{value:,.{decimals}f}' if ',' in like else f'{value:.{decimals}f}'


def figures(text):
    """(paragraph, figure, factor, file, where) of each comment."""
    for part in text.split('\n\n'):
        prose = re.sub(r'<!--.*?-->', '', part)
        for figure, percent, file, where in FIGURE.findall(part):
            yield prose, figure, 100 if percent else 1, file, where


class Stories(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Folder().__enter__()
        cls.addClassCleanup(cls.folder.__exit__, None, None, None)
        cls.folder.follow('stories.md', 'my-alder/plan.toml')
        cls.text = (USER / 'stories.md').read_text(encoding='utf-8')

    def test_figures_of_the_prose(self):
        found = list(figures(self.text))
        self.assertEqual(len(found), self.text.count('<!-- ') - self.text.count('<!-- ends'),
                         'a comment that is no figure')
        self.assertGreater(len(found), 20)
        for prose, figure, factor, file, where in found:
            with self.subTest(figure=figure, of=f'{file} {where}'):
                value = factor * value_in(self.folder.path / file, where)
                self.assertEqual(written(value, figure), figure)
                self.assertRegex(prose, rf'(?<![\d.,]){re.escape(figure)}(?!\d|[.,]\d)')

    def test_table_of_the_page_on_comparing(self):
        page = (USER / 'compare.md').read_text(encoding='utf-8')
        table = re.search(r'(?ms)^```\n(place .*?)^```$', page)[1]
        self.folder.sh('tidelot compare data-samples/heron-bight/plan.toml '
                       'data-samples/tern-sound/plan.toml data-samples/alder-mouth/plan.toml '
                       '--out bays')
        self.assertIsNone(missing(self.folder.printed, table))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

# SPDX-License-Identifier: Apache-2.0
"""The index of docs/science leads somewhere: every file and every function that it names exists.

usage: science_index_test.py SOURCE_FOLDER
"""
import re
import sys
import unittest
from pathlib import Path

SOURCE = Path(sys.argv[1])
SCIENCE = SOURCE / 'docs' / 'science'


class Index(unittest.TestCase):
    def setUp(self):
        self.text = (SCIENCE / 'README.md').read_text(encoding='utf-8')

    def test_files_exist(self):
        files = re.findall(r'`((?:src|tests)/[^`]*\.\w+)`', self.text)
        self.assertGreater(len(files), 30)
        self.assertEqual([name for name in files if not (SOURCE / name).is_file()], [])

    def test_pages_exist(self):
        pages = set(re.findall(r'\]\(([\w-]+\.md)\)', self.text))
        self.assertEqual({name for name in pages if not (SCIENCE / name).is_file()}, set())

    def test_functions_stand_in_the_file_beside_them(self):
        named = re.findall(r'`(src/[^`]*)`, `(\w+)`(?:, `(\w+)`)?', self.text)
        self.assertGreater(len(named), 5)
        for file, *functions in named:
            code = (SOURCE / file).read_text(encoding='utf-8')
            for function in filter(None, functions):
                self.assertIn(f' {function}(', code, file)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

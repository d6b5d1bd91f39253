# SPDX-License-Identifier: Apache-2.0
"""docs/user/first-bay.md does what it says: first_bay_test.py PROGRAM SOURCE_FOLDER"""
import sys
import unittest

from pages import Folder, blocks


class FirstBay(unittest.TestCase):
    def test_the_page_followed_to_its_end(self):
        with Folder() as folder:
            folder.follow('first-bay.md', 'my-bay/plan.toml')
            out = folder.path / 'my-bay' / 'plan-out'
            self.assertTrue((out / 'report.html').is_file())
            self.assertIn('My bay, a first look', (out / 'report.html').read_text())

    def test_the_page_has_what_is_followed(self):
        languages = [language for language, _, _ in blocks('first-bay.md')]
        self.assertGreaterEqual(languages.count('sh'), 5)
        self.assertGreaterEqual(languages.count('toml'), 4)
        self.assertGreaterEqual(languages.count('text'), 4)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

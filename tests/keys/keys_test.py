# SPDX-License-Identifier: Apache-2.0
"""docs/user/keys.md is what the program's table of keys says now, and says something of every key.

usage: keys_test.py KEY_TABLE_PROGRAM SOURCE_FOLDER
"""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

from keys_page import page

PRINTED = subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout
SOURCE = Path(sys.argv[2])


class KeysPage(unittest.TestCase):
    def setUp(self):
        self.text = (SOURCE / 'docs' / 'user' / 'keys.md').read_text(encoding='utf-8')

    def test_page_is_of_this_table(self):
        self.assertEqual(page(PRINTED), self.text, 'run scripts/keys-page and look at what changed')

    def test_every_key_has_a_row(self):
        keys = [key for key in json.loads(PRINTED)['keys']
                if key['name'] != '*' and key['kind'] not in ('table', 'list of tables', 'later')]
        rows = [line for line in self.text.splitlines() if line.startswith('| `')]
        self.assertEqual(len(rows), len(keys))

    def test_every_key_means_something(self):
        dumb = [line for line in self.text.splitlines() if re.match(r'\| `\w+` \| +\|', line)]
        self.assertEqual(dumb, [], 'say it beside the key in src/plan/starter.cpp, or with meant() '
                                   'in src/plan/key_list.cpp; where a key of that name says it in '
                                   'another table, name that in ALSO_IN of tests/keys/keys_page.py')

    def test_every_score_says_of_what(self):
        # The comment of a criterion's table in the starter goes on after "score of the".
        odd = [line for line in self.text.splitlines()
               if re.search(r'score of the (?![a-z]{3,}[ ,])', line)]
        self.assertEqual(odd, [], 'name the measure before its unit in src/plan/starter.cpp')
        self.assertRegex(self.text, 'score of the speed of the current, m/s')

    def test_every_default_has_its_basis(self):
        keys = json.loads(PRINTED)['keys']
        self.assertEqual([key for key in keys if key['default'] and not key['basis']], [])


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

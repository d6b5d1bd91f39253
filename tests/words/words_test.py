# SPDX-License-Identifier: Apache-2.0
"""The page of commands and the completions are what the program's own words make of them, and bash
completes with them.

usage: words_test.py CLI_WORDS_PROGRAM SOURCE_FOLDER
"""
import shutil
import subprocess
import sys
import unittest
from pathlib import Path

from words_files import files

PRINTED = subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout
SOURCE = Path(sys.argv[2])
COMPLETIONS = SOURCE / 'scripts' / 'completions'


def completed(*words):
    """What bash offers for the last of the words."""
    script = (f'. "{COMPLETIONS / "tidelot.bash"}"; COMP_WORDS=({" ".join(map(repr, words))}); '
              f'COMP_CWORD={len(words) - 1}; _tidelot; printf "%s\\n" "${{COMPREPLY[@]}}"')
    done = subprocess.run(['bash', '-c', script], capture_output=True, text=True, cwd=SOURCE)
    return done.stdout.split()


class Words(unittest.TestCase):
    def test_files_are_of_these_words(self):
        for name, text in files(PRINTED).items():
            self.assertEqual((SOURCE / name).read_text(encoding='utf-8'), text,
                             f'{name}: run scripts/command-files and look at what changed')

    def test_bash_completes(self):
        self.assertEqual(completed('tidelot', 'sc'), ['scout'])
        self.assertEqual(completed('tidelot', 'explain', 'plan.toml', '--cs'), ['--csv'])
        self.assertIn('docs', completed('tidelot', 'scout', 'plan.toml', '--out', 'do'))
        self.assertIn('README.md', completed('tidelot', 'check', 'READ'))
        self.assertEqual(completed('tidelot', 'scout', '--threads', ''), [])

    def test_shells_can_read_them(self):
        for shell, file in (('bash', 'tidelot.bash'), ('zsh', '_tidelot'), ('fish', 'tidelot.fish')):
            if shutil.which(shell):
                done = subprocess.run([shell, '-n', COMPLETIONS / file], capture_output=True, text=True)
                self.assertEqual(done.returncode, 0, done.stderr)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

# SPDX-License-Identifier: Apache-2.0
"""The page of commands and the completions are what the program's own words make of them, and bash,
zsh and fish complete with them.

usage: words_test.py CLI_WORDS_PROGRAM SOURCE_FOLDER
"""
import os
import re
import subprocess
import sys
import tempfile
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


def completed_by_zsh(typed, folder):
    """What stands on the line of an interactive zsh once the tabulator was pressed."""
    script = rf'''
zmodload zsh/zpty
zpty shell zsh -f -i
hear() {{ while zpty -r shell heard "*$1*"; do [[ $heard == *$1* ]] && return; done }}
zpty -w shell 'PS1= PS2= ; unsetopt prompt_sp zle_bracketed_paste 2>/dev/null; stty -echo'
zpty -w shell 'fpath=({COMPLETIONS} $fpath); autoload -Uz compinit; compinit -u -d {folder}/dump'
zpty -w shell 'report() {{ print -r -- "[LINE:$BUFFER]" }}; zle -N report; bindkey "^X" report'
zpty -w shell 'print -r -- RE""ADY'
hear READY
zpty -w -n shell {typed!r}
zpty -w -n shell $'\t\C-x'
hear ']'
print -r -- "$heard"
zpty -d shell
'''
    done = subprocess.run(['zsh', '-f', '-c', script], capture_output=True, text=True, cwd=SOURCE,
                          stdin=subprocess.DEVNULL, timeout=60)
    return re.findall(r'\[LINE:([^]]*)\]', done.stdout)


def completed_by_fish(typed, folder):
    done = subprocess.run(
        ['fish', '--no-config', '-c', f'source "{COMPLETIONS}/tidelot.fish"; complete -C "{typed}"'],
        capture_output=True, text=True, cwd=SOURCE, env={**os.environ, 'HOME': str(folder)})
    return [line.split('\t')[0] for line in done.stdout.splitlines()]


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

    def test_zsh_completes(self):
        with tempfile.TemporaryDirectory() as folder:
            self.assertEqual(completed_by_zsh('tidelot sc', folder), ['tidelot scout '])
            self.assertEqual(completed_by_zsh('tidelot explain plan.toml --cs', folder),
                             ['tidelot explain plan.toml --csv '])
            self.assertEqual(completed_by_zsh('tidelot check READ', folder),
                             ['tidelot check README.md '])

    def test_fish_completes(self):
        with tempfile.TemporaryDirectory() as folder:
            self.assertEqual(completed_by_fish('tidelot sc', folder), ['scout'])
            self.assertEqual(completed_by_fish('tidelot explain plan.toml --cs', folder), ['--csv'])
            self.assertEqual(completed_by_fish('tidelot check READ', folder), ['README.md'])
            self.assertIn('docs/', completed_by_fish('tidelot scout plan.toml --out do', folder))

    def test_shells_can_read_them(self):
        for shell, file in (('bash', 'tidelot.bash'), ('zsh', '_tidelot'), ('fish', 'tidelot.fish')):
            done = subprocess.run([shell, '-n', COMPLETIONS / file], capture_output=True, text=True)
            self.assertEqual(done.returncode, 0, done.stderr)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

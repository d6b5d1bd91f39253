# SPDX-License-Identifier: Apache-2.0
"""Runs what a page tells its reader to type, and holds the page to what then happens.

Of a page of Markdown the fenced blocks count, in their order:
  sh    every line is run, in a folder that holds data-samples; `tidelot` is this build
  toml  goes into the plan of the page: each table in place of the one of its name, or at the end
  text  lines that the commands before it printed, in this order; "..." stands for some left out;
        how many blanks stand between words does not count
An HTML comment `<!-- ends with N -->` before a block of sh says that its last line ends so.
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

PROGRAM, SOURCE = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()


def blocks(page):
    """(language, text, status) of the fenced blocks of a page of docs/user."""
    text = (SOURCE / 'docs' / 'user' / page).read_text(encoding='utf-8')
    return [(found[2], found[3], int(found[1] or 0)) for found in re.finditer(
        r'(?ms)^(?:<!-- ends with (\d+) -->\n)?```(sh|toml|text)\n(.*?)^```$', text)]


def tables(toml):
    """A plan in pieces, each from the line of a table's header on: [(header or "", lines)]."""
    pieces = [('', [])]
    for line in toml.splitlines():
        if line.startswith('['):
            pieces.append((line.split(']')[0], []))
        pieces[-1][1].append(line)
    return pieces


def put_into(plan, fragment):
    """The text of a plan with a fragment's tables and its keys of the top in their places."""
    pieces = tables(plan)
    for name, lines in tables(fragment):
        if name == '':
            for line in filter(str.strip, lines):
                key = line.split('=')[0].strip()
                pieces[0][1][:] = [line if re.match(rf'{key}\s*=', old) else old
                                   for old in pieces[0][1]]
        elif name.startswith('[[') or name not in [old for old, _ in pieces]:
            pieces.append((name, lines))
        else:
            pieces[[old for old, _ in pieces].index(name)] = (name, lines)
    return '\n'.join(line for _, lines in pieces for line in lines) + '\n'


def squeezed(text):
    return [' '.join(line.split()) for line in text.splitlines() if line.strip()]


def missing(printed, expected):
    """The first line of a text block that was not printed where it should be; else None."""
    lines, at = squeezed(printed), 0
    for want in squeezed(expected):
        if want == '...':
            continue
        found = [i for i in range(at, len(lines)) if lines[i].startswith(want.removesuffix(' ...'))]
        if not found:
            return want
        at = found[0] + 1
    return None


class Folder:
    """A folder of its own in which a page is followed; `with Folder() as folder`."""

    def __enter__(self):
        self.path = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        os.symlink(SOURCE / 'data-samples', self.path / 'data-samples')
        (self.path / 'bin').mkdir()
        os.symlink(PROGRAM, self.path / 'bin' / 'tidelot')
        self.environment = {**os.environ, 'LC_ALL': 'C.UTF-8',
                            'PATH': f'{self.path / "bin"}:{os.environ["PATH"]}'}
        self.printed = ''
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.path, ignore_errors=True)

    def sh(self, text, status=0):
        """Runs a block; the last line must end with the status, those before it well."""
        self.printed = ''
        lines = [line for line in text.splitlines() if line.strip()]
        for i, line in enumerate(lines):
            done = subprocess.run(['bash', '-c', line], cwd=self.path, env=self.environment,
                                  capture_output=True, text=True)
            self.printed += done.stdout + done.stderr
            wanted = status if i == len(lines) - 1 else 0
            if done.returncode != wanted:
                raise AssertionError(f'{line}: ended with {done.returncode}, the page says '
                                     f'{wanted}:\n{done.stdout}{done.stderr}')

    def follow(self, page, plan=None):
        """Does what a page says, from its first block to its last."""
        for language, text, status in blocks(page):
            if language == 'sh':
                self.sh(text, status)
            elif language == 'toml':
                file = self.path / plan
                file.write_text(put_into(file.read_text(), text))
            elif (line := missing(self.printed, text)) is not None:
                raise AssertionError(f'{page}: "{line}" is not printed (or not there):\n'
                                     f'{self.printed}')

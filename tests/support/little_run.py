# SPDX-License-Identifier: Apache-2.0
"""What the tests that run the little bay share: the program, ways to call it, what it left."""
import collections
import hashlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

from build_cache import patience, traced
from little_bay import PLAN, make_bay

PROGRAM, SOURCE = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
sys.dont_write_bytecode = True
CALL = re.compile(r'(\d+) +(\w+)\((.*)')


def called(word, plan, *more, before=(), timeout=300, **how):
    """A command of the program on a plan; `before`: what runs it, as a tracer does."""
    how = {'text': True, **how}
    if before:
        how['env'] = traced(how.get('env'))
    return subprocess.run([*map(str, before), str(PROGRAM), word, str(plan), *map(str, more)],
                          capture_output=True, timeout=timeout * patience(PROGRAM), **how)


def errors(stderr):
    """Lines of stderr that are no warnings."""
    return [line for line in stderr.splitlines() if not line.startswith('warning: ')]


def state(folder, times=()):
    """Every file with the sum of its bytes; those named in `times`, which tell times, by being there."""
    return {str(p.relative_to(folder)):
            '' if p.name in times else hashlib.sha256(p.read_bytes()).hexdigest()
            for p in sorted(folder.rglob('*')) if p.is_file()}


def may_trace():
    return subprocess.run(['strace', '-o', '/dev/null', 'true'], capture_output=True).returncode == 0


def calls_touching(folder, trace, names):
    """(call, which of its kind in its process) of each of these calls that writes in a folder, in what
    `strace -f -y` noted."""
    counted, found = collections.Counter(), set()
    for line in trace.read_text(errors='replace').splitlines():
        call = CALL.match(line)
        if call and call[2] in names:
            counted[call[1], call[2]] += 1
            reads = call[2] == 'openat' and not re.search(r'O_(WRONLY|RDWR|CREAT)', call[3])
            if str(folder) in call[3] and not reads:
                found.add((call[2], counted[call[1], call[2]]))
    return sorted(found)


class LittleBay(unittest.TestCase):
    """Each test has a folder `top` with a little bay in `bay`, which is made once."""

    @classmethod
    def setUpClass(cls):
        cls.made = Path(tempfile.mkdtemp(prefix='tidelot-little-'))
        cls.addClassCleanup(shutil.rmtree, cls.made, ignore_errors=True)
        make_bay(cls.made / 'bay')

    def setUp(self):
        self.top = Path(tempfile.mkdtemp(prefix='tidelot-little-')).resolve()
        self.addCleanup(shutil.rmtree, self.top, ignore_errors=True)
        self.bay = self.top / 'bay'
        shutil.copytree(self.made / 'bay', self.bay)

    def plan(self, *edits):
        """Writes the plan with (old, new) edits; each must change something."""
        text = PLAN
        for old, new in edits:
            assert old in text, old
            text = text.replace(old, new, 1)
        (self.bay / 'plan.toml').write_text(text)

    def tidelot(self, word, *more, plan=None, **how):
        return called(word, plan or self.bay / 'plan.toml', *more, **how)

    def scouted(self, plan=None, **how):
        """Runs scout, which must end well; the folder of its results."""
        out = self.top / 'out'
        result = self.tidelot('scout', '--out', out, plan=plan, **how)
        self.assertEqual(result.returncode, 0, result.stderr)
        return out

    def refused(self, status, *fragments, **how):
        """scout ends with the status, in one line that holds the fragments, and leaves nothing."""
        out = self.top / 'refused'
        result = self.tidelot('scout', '--out', out, **how)
        lines = errors(result.stderr)
        self.assertEqual(result.returncode, status, result.stderr)
        self.assertEqual(len(lines), 1, result.stderr)
        for fragment in fragments:
            self.assertIn(fragment, lines[0])
        self.assertFalse(out.exists())
        return lines[0]

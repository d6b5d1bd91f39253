# SPDX-License-Identifier: Apache-2.0
"""What the tests of the command line share: Heron Bight with coarser cells, and ways to run tidelot."""
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from build_cache import patience  # noqa: E402

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
SAMPLES = SOURCE / 'data-samples' / 'heron-bight'
UNCHANGED = {}   # of unchanged(), by the plan


def run(*words, **more):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True,
                          timeout=120 * patience(PROGRAM), **more)


class Bay(unittest.TestCase):
    """A folder of its own with the sample's layers and a plan at 40 m with few members; the table of
    moved limits only where what_if says so."""
    draws = 4
    what_if = False

    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)
        for file in SAMPLES.iterdir():
            if file.suffix != '.toml' and file.suffix != '.md':
                shutil.copy(file, self.folder)
        self.plan_text = re.sub(r'(?m)^cell_m = .*$', 'cell_m = 40',
                                (SAMPLES / 'plan.toml').read_text())
        self.plan_text = self.plan_text.replace('[crop]', f'[uncertainty]\ndraws = {self.draws}\n\n[crop]')
        if not self.what_if:
            self.plan_text = self.plan_text.replace('[report]', '[report]\nwhat_if = "no"')

    def plan(self, *edits, name='plan.toml'):
        """Writes the plan with (pattern, replacement) edits; each must change something."""
        text = self.plan_text
        for pattern, replacement in edits:
            changed = re.sub(pattern, replacement, text, count=1, flags=re.M)
            self.assertNotEqual(changed, text, f'edit {pattern} changed nothing')
            text = changed
        path = self.folder / name
        path.write_text(text)
        return path

    def scout(self, plan, *words):
        out = self.folder / 'out'
        result = run('scout', plan, '--out', out, *words)
        return result, out

    def unchanged(self):
        """What a run of the plan as it is says and leaves; run once, to be read only."""
        if self.plan_text not in UNCHANGED:
            result, out = self.scout(self.plan())
            self.assertEqual(result.returncode, 0, result.stderr)
            kept = tempfile.TemporaryDirectory(prefix='tidelot-test-')
            out.rename(Path(kept.name) / 'out')
            UNCHANGED[self.plan_text] = kept, result
        kept, result = UNCHANGED[self.plan_text]
        return result, Path(kept.name) / 'out'

    def refused(self, plan, status, *fragments):
        """scout ends with the status, one line that holds the fragments, and leaves nothing."""
        result, out = self.scout(plan)
        lines = [line for line in result.stderr.splitlines() if not line.startswith('warning: ')]
        self.assertEqual(result.returncode, status, result.stderr)
        self.assertEqual(len(lines), 1, result.stderr)
        for fragment in fragments:
            self.assertIn(fragment, lines[0])
        self.assertFalse(out.exists(), f'{out} was left behind')


def main():
    unittest.main(argv=sys.argv[:1], verbosity=1)

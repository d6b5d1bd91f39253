# SPDX-License-Identifier: Apache-2.0
"""What the browser tests share: a run of Heron Bight, and what look.js saw of its pages.

looking.py PROGRAM SOURCE makes the run in the folder TIDELOT_BROWSER_RUN, to be read only; ctest does
so before the first of these tests. A test that is run without it makes its own."""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, SOURCE = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
HERE = SOURCE / 'tests' / 'browser'
BAY = SOURCE / 'data-samples' / 'heron-bight'
TOOLS = PROGRAM.parent.parent / 'browser'
COARSE = 'cell_m = 10', 'cell_m = 40'   # for what does not hang on the maps


def fetch():
    subprocess.run([HERE / 'fetch.sh', TOOLS], check=True, timeout=300)


def made_run(folder):
    """Heron Bight as it is: its results in out, its sheets for print in print, what it said in said."""
    folder.mkdir()
    result = subprocess.run([PROGRAM, 'scout', BAY / 'plan.toml', '--out', folder / 'out', '--quiet',
                             '--sheets', folder / 'print'], capture_output=True, text=True, timeout=500)
    assert result.returncode == 0, result.stderr
    (folder / 'said').write_text(result.stdout)
    return folder


def shared_run(folder):
    """The run that ctest had made, or one in the folder."""
    ready = os.environ.get('TIDELOT_BROWSER_RUN')
    return Path(ready) if ready else made_run(folder)


def scout(plan, out):
    """Runs a plan; the run's folder."""
    result = subprocess.run([PROGRAM, 'scout', plan, '--out', out, '--quiet'],
                            capture_output=True, text=True, timeout=300)
    assert result.returncode == 0, result.stderr
    return Path(out)


def compare(plans, out, *words):
    """Compares plans; the comparison's page."""
    result = subprocess.run([PROGRAM, 'compare', *plans, '--out', out, '--quiet', *words],
                            capture_output=True, text=True, timeout=500)
    assert result.returncode == 0, result.stderr
    return Path(out) / 'compare.html'


def changed_plan(folder, changes, name='plan.toml', bay=BAY):
    """A sample's plan with texts replaced, in a folder of its own beside copies of its layers."""
    text = (bay / 'plan.toml').read_text()
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    folder.mkdir(exist_ok=True)
    for file in bay.iterdir():
        if file.name != 'plan.toml' and not (folder / file.name).exists():
            shutil.copy(file, folder)
    (folder / name).write_text(text)
    return folder / name


class Looking(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        fetch()
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-browser-'))
        cls.out = shared_run(cls.folder / 'run') / 'out'
        cls.report = cls.out / 'report.html'

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder, ignore_errors=True)

    def look(self, task, page=None, *words, quiet=True):
        """What look.js saw: no line on the console (quiet), no request but for the page itself."""
        page = page or self.report
        result = subprocess.run(['node', HERE / 'look.js', task, page, *words], text=True,
                                capture_output=True, timeout=300,
                                env=dict(os.environ, NODE_PATH=str(TOOLS / 'node_modules')))
        self.assertEqual(result.returncode, 0, result.stderr[-2000:])
        seen = json.loads(result.stdout)
        if quiet:
            self.assertEqual(seen['console'], [])
        self.assertEqual([r for r in seen['requests'] if not r.startswith('file:')], [])
        return seen


def main():
    unittest.main(argv=sys.argv[:1], module='__main__')


if __name__ == '__main__':
    fetch()
    shutil.rmtree(os.environ['TIDELOT_BROWSER_RUN'], ignore_errors=True)
    made_run(Path(os.environ['TIDELOT_BROWSER_RUN']))

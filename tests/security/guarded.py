# SPDX-License-Identifier: Apache-2.0
"""What the tests of the guards share: the little bay of the fuzz tests, and a web server that says
what it was asked."""
import shutil
import subprocess
import sys
import tempfile
import threading
import unittest
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

PROGRAM, SOURCE = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
sys.dont_write_bytecode = True
sys.path.insert(0, str(SOURCE / 'tests' / 'fuzz'))
from little_bay import PLAN, make_bay  # noqa: E402

OUTSIDE = ('[crop]', '[run]\nallow = ["outside"]\n[crop]')


class Guarded(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.made = Path(tempfile.mkdtemp(prefix='tidelot-guard-'))
        cls.addClassCleanup(shutil.rmtree, cls.made, ignore_errors=True)
        make_bay(cls.made / 'bay')

    def setUp(self):
        self.top = Path(tempfile.mkdtemp(prefix='tidelot-guard-')).resolve()
        self.addCleanup(shutil.rmtree, self.top, ignore_errors=True)
        self.bay = self.top / 'bay'
        shutil.copytree(self.made / 'bay', self.bay)

    def plan(self, *edits):
        text = PLAN
        for old, new in edits:
            assert old in text, old
            text = text.replace(old, new, 1)
        (self.bay / 'plan.toml').write_text(text)

    def tidelot(self, word, *more, plan=None, **how):
        return subprocess.run([PROGRAM, word, plan or self.bay / 'plan.toml', *map(str, more)],
                              capture_output=True, text=True, timeout=240, **how)

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
        lines = [line for line in result.stderr.splitlines() if not line.startswith('warning: ')]
        self.assertEqual(result.returncode, status, result.stderr)
        self.assertEqual(len(lines), 1, result.stderr)
        for fragment in fragments:
            self.assertIn(fragment, lines[0])
        self.assertFalse(out.exists())
        return lines[0]


class Listener:
    """A web server on this machine that has nothing; `asked` is every request that reached it."""

    def __enter__(self):
        asked = self.asked = []

        class Answer(BaseHTTPRequestHandler):
            def do_GET(self):
                asked.append(f'{self.command} {self.path}')
                self.send_error(404)

            do_HEAD = do_POST = do_GET

            def log_message(self, *_):
                pass

        self.server = ThreadingHTTPServer(('127.0.0.1', 0), Answer)
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.address = f'http://127.0.0.1:{self.server.server_port}'
        return self

    def __exit__(self, *_):
        self.server.shutdown()
        self.server.server_close()

# SPDX-License-Identifier: Apache-2.0
"""The report in headless Chromium, from a file: its script runs, no message is written to the
console, and every sheet prints."""
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
FLAGS = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
         '--disable-background-networking', '--disable-component-update', '--disable-sync',
         '--enable-logging=stderr', '--virtual-time-budget=4000']


class Report(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-browser-'))
        plan = SOURCE / 'data-samples' / 'heron-bight' / 'plan.toml'
        cls.out = cls.folder / 'out'
        subprocess.run([PROGRAM, 'scout', plan, '--out', cls.out, '--quiet'], check=True,
                       capture_output=True, timeout=300)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder, ignore_errors=True)

    def chromium(self, *words):
        with tempfile.TemporaryDirectory() as profile:
            return subprocess.run(['chromium', *FLAGS, f'--user-data-dir={profile}', *words],
                                  capture_output=True, text=True, timeout=180)

    def page(self, name, *words):
        result = self.chromium(*words, '--dump-dom', (self.out / name).as_uri())
        self.assertEqual(result.returncode, 0, result.stderr[-2000:])
        console = [line for line in result.stderr.splitlines() if 'CONSOLE' in line]
        self.assertEqual(console, [])
        return result.stdout

    def test_the_script_runs_and_shows_one_quantity(self):
        dom = self.page('report.html', '--window-size=1280,900')
        pressed = re.findall(r'<button[^>]*aria-pressed="true"[^>]*>([^<]*)', dom)
        self.assertEqual(pressed, ['Suitability'])
        self.assertEqual(len(re.findall(r'<article[^>]*id="site-S\d+"', dom)), 5)

    def test_every_sheet_prints(self):
        sheet = self.folder / 'report.pdf'
        self.chromium(f'--print-to-pdf={sheet}', (self.out / 'report.html').as_uri())
        pages = len(re.findall(rb'/Type\s*/Page[^s]', sheet.read_bytes()))
        self.assertGreaterEqual(pages, 3 + 5)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

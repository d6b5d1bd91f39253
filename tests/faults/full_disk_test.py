# SPDX-License-Identifier: Apache-2.0
"""Disks of some sizes, from one page to one page too small: status 4 that names the file and nothing left;
one that is large enough holds the results.

Environment: TIDELOT_DISKS (how many sizes, 6).

usage: full_disk_test.py PROGRAM SOURCE_FOLDER
"""
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import LittleBay, errors  # noqa: E402

DISKS = int(os.environ.get('TIDELOT_DISKS', '6'))
PAGE = 4096


def may_mount():
    with tempfile.TemporaryDirectory(prefix='tidelot-disk-') as there:
        if subprocess.run(['mount', '-t', 'tmpfs', 'tmpfs', there], capture_output=True).returncode:
            return False
        return subprocess.run(['umount', there], capture_output=True).returncode == 0


@unittest.skipUnless(may_mount(), 'only the superuser may mount a disk of a chosen size')
class FullDisk(LittleBay):
    def setUp(self):
        super().setUp()
        self.disk = self.top / 'disk'
        self.disk.mkdir()

    def scout(self, pages):
        """Status, lines of stderr, and the files on a disk of so many pages, with the pages of those."""
        subprocess.run(['mount', '-t', 'tmpfs', '-o', f'size={pages * PAGE}', 'tmpfs', self.disk],
                       check=True)
        try:
            done = self.tidelot('scout', '--out', self.disk / 'out', '--quiet', '--threads', 1)
            files = [p for p in self.disk.rglob('*') if p.is_file()]
            held = sum(-(-p.stat().st_size // PAGE) for p in files)
            return done.returncode, errors(done.stderr), files, held
        finally:
            subprocess.run(['umount', self.disk], check=True)

    def test_sizes(self):
        status, lines, files, held = self.scout(20_000)
        self.assertEqual((status, lines), (0, []))
        self.assertIn('run.json', [p.name for p in files])
        for step in range(DISKS):
            pages = 1 + (held - 2) * step // max(1, DISKS - 1)
            with self.subTest(pages=pages, of=held):
                status, lines, files, _ = self.scout(pages)
                self.assertEqual(status, 4, lines)
                self.assertEqual(len(lines), 1, lines)
                self.assertTrue(lines[0].startswith(f'tidelot: {self.disk}'), lines)
                self.assertIn('No space left', lines[0])
                self.assertEqual(files, [])


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

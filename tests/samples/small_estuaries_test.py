#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""The two small samples: small_estuaries_test.py PROGRAM SOURCE_DIR

The script that makes them still writes what is committed, byte for byte (compared where GDAL and
numpy are Debian 12's), and their plans measure as Heron Bight's does.
"""
import subprocess
import sys
import tempfile
import tomllib
import unittest
from pathlib import Path

import numpy as np
from osgeo import gdal

gdal.UseExceptions()
SOURCE = Path(sys.argv[2]) if len(sys.argv) > 2 else Path(__file__).resolve().parents[2]
SAMPLES = SOURCE / 'data-samples'
NAMES = 'tern-sound', 'alder-mouth'
BY_HAND = {'README.md', 'plan.toml'}
DEBIAN_12 = gdal.__version__.startswith('3.6.') and np.__version__ == '1.24.2'


def files(top):
    return {f'{name}/{f.name}': f.read_bytes() for name in NAMES for f in (top / name).iterdir()
            if f.name not in BY_HAND}


def plan(name):
    return tomllib.loads((SAMPLES / name / 'plan.toml').read_text())


class SmallEstuaries(unittest.TestCase):
    @unittest.skipUnless(DEBIAN_12, 'the bytes are those of Debian 12')
    def test_the_bytes_that_are_committed(self):
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([SOURCE / 'scripts' / 'make-small-estuaries', folder], check=True)
            made, kept = files(Path(folder)), files(SAMPLES)
        self.assertEqual(sorted(made), sorted(kept))
        self.assertEqual([], [name for name in made if made[name] != kept[name]])

    def test_small_and_told_in_their_readme(self):
        for name in NAMES:
            folder = SAMPLES / name
            self.assertLess(sum(f.stat().st_size for f in folder.iterdir()), 1e6)
            text = (folder / 'README.md').read_text()
            self.assertIn('invented', text)
            self.assertEqual([], [f.name for f in folder.iterdir()
                                  if f.name not in BY_HAND and f.name not in text])

    def test_measured_as_heron_bight(self):
        for name in NAMES:
            for key in ('crop', 'farm', 'money', 'season'):
                self.assertEqual(plan(name)[key], plan('heron-bight')[key], f'{name}: {key}')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

# SPDX-License-Identifier: Apache-2.0
"""Installs this build, builds a project on it with find_package(tidelot), and scouts Heron Bight
with it: the answer must be the program's.

usage: consumer_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import hashlib
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from build_cache import cached  # noqa: E402

PROGRAM, SOURCE = Path(sys.argv[1]), Path(sys.argv[2])
BUILD = PROGRAM.parent.parent
PLAN = SOURCE / 'data-samples' / 'heron-bight' / 'plan.toml'


def call(*words):
    answer = subprocess.run([str(word) for word in words], capture_output=True, text=True)
    if answer.returncode != 0:
        raise AssertionError(f'{words}: {answer.stdout}{answer.stderr}')
    return answer.stdout


class Consumer(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def build(self, *options):
        sanitizers = cached(PROGRAM, 'TIDELOT_SANITIZE')
        call('cmake', '-S', SOURCE / 'tests' / 'consumer', '-B', self.folder / 'build', '-G',
             cached(PROGRAM, 'CMAKE_GENERATOR'),
             f'-DCMAKE_CXX_COMPILER={cached(PROGRAM, "CMAKE_CXX_COMPILER")}',
             *([f'-DCMAKE_CXX_FLAGS=-fsanitize={sanitizers}'] if sanitizers else []), *options)
        call('cmake', '--build', self.folder / 'build')
        return self.folder / 'build' / 'consumer'

    def test_installed(self):
        call('cmake', '--install', BUILD, '--prefix', self.folder / 'installed')
        consumer = self.build(f'-DCMAKE_PREFIX_PATH={self.folder / "installed"}')
        said = call(consumer, PLAN, self.folder / 'out')
        call(PROGRAM, 'scout', PLAN, '--out', self.folder / 'program', '--quiet')
        with (self.folder / 'program' / 'sites.csv').open(newline='') as file:
            sites = [site for site in csv.DictReader(file) if site['rank']]
        self.assertIn(f'{len(sites)} sites, the first {sites[0]["area_ha"]} ha', said)
        for name in ['sites.csv', 'maps/suitability.tif']:
            self.assertEqual(*[hashlib.sha256((self.folder / out / name).read_bytes()).hexdigest()
                               for out in ('out', 'program')], name)

    def test_the_installed_program_runs_from_anywhere(self):
        call('cmake', '--install', BUILD, '--prefix', self.folder / 'elsewhere')
        self.assertIn('warm-red-alga', call(self.folder / 'elsewhere' / 'bin' / 'tidelot', 'crops'))

    def test_as_a_folder_of_a_project(self):
        # Configuring finds every wrong path and target; the sources were compiled already.
        call('cmake', '-S', SOURCE / 'tests' / 'consumer', '-B', self.folder / 'build', '-G',
             cached(PROGRAM, 'CMAKE_GENERATOR'), f'-DTIDELOT_SOURCE={SOURCE}')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

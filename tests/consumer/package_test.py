# SPDX-License-Identifier: Apache-2.0
"""cpack makes Debian packages that say what they need, and the program in one of them runs.

usage: package_test.py PROGRAM SOURCE_FOLDER
"""
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from build_cache import is_sanitized  # noqa: E402

BUILD = Path(sys.argv[1]).resolve().parent.parent
SOURCE = Path(sys.argv[2]).resolve()


def call(*words):
    return subprocess.run(list(map(str, words)), capture_output=True, text=True, check=True,
                          timeout=500).stdout


@unittest.skipUnless(shutil.which('dpkg-shlibdeps'), 'needs dpkg-dev')
@unittest.skipIf(is_sanitized(sys.argv[1]), 'a package is made of a release')
class Packages(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        cls.addClassCleanup(shutil.rmtree, cls.folder, True)
        call('cpack', '-G', 'DEB', '-B', cls.folder, '--config', BUILD / 'CPackConfig.cmake')
        cls.packages = {call('dpkg-deb', '-f', file, 'Package').strip(): file
                        for file in cls.folder.glob('*.deb')}

    def test_two_packages(self):
        self.assertEqual(sorted(self.packages), ['libtidelot-dev', 'tidelot'])

    def test_what_the_program_needs(self):
        needs = call('dpkg-deb', '-f', self.packages['tidelot'], 'Depends')
        for library in ('libgdal', 'libproj', 'libc6', 'proj-data'):
            self.assertIn(library, needs)

    def test_what_stands_where(self):
        root = self.folder / 'root'
        call('dpkg-deb', '-x', self.packages['tidelot'], root)
        for name in ('share/bash-completion/completions/tidelot', 'share/doc/tidelot/copyright',
                     'share/zsh/vendor-completions/_tidelot',
                     'share/fish/vendor_completions.d/tidelot.fish',
                     'share/doc/tidelot/examples/tern-sound/plan.toml'):
            self.assertTrue((root / 'usr' / name).is_file(), name)
        self.assertIn('warm-red-alga', call(root / 'usr' / 'bin' / 'tidelot', 'crops'))
        self.assertIn('ready', call(root / 'usr' / 'bin' / 'tidelot', 'check',
                                    root / 'usr/share/doc/tidelot/examples/tern-sound/plan.toml'))

    def test_the_library_has_headers_and_a_package_of_cmake(self):
        listed = call('dpkg-deb', '-c', self.packages['libtidelot-dev'])
        for name in ('include/tidelot/run.hpp', 'libtidelot_run.a', 'tidelot-config.cmake'):
            self.assertIn(name, listed)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

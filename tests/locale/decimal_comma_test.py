# SPDX-License-Identifier: Apache-2.0
"""The units of core and plan, and the command line, where decimals have commas and clocks are odd.

German locale (made with localedef for this test where the machine has none) and a time zone of
twelve and three quarters of an hour.

usage: decimal_comma_test.py PROGRAM SOURCE_FOLDER UNIT_TEST_PROGRAM...
"""
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, SOURCE, UNITS = sys.argv[1], Path(sys.argv[2]), sys.argv[3:]
LOCALE = 'de_DE.UTF-8'
TIME_ZONE = 'ODD-12:45'


class DecimalComma(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.mkdtemp(prefix='tidelot-test-')
        cls.addClassCleanup(shutil.rmtree, cls.folder)
        cls.environment = {**os.environ, 'LC_ALL': LOCALE, 'TZ': TIME_ZONE}
        if cls.decimal_point() != ',':
            cls.make_locale()
        if cls.decimal_point() != ',':
            raise AssertionError(f'{LOCALE} is neither installed nor can it be made: this test has '
                                 'not run. Install the package "locales"')

    @classmethod
    def decimal_point(cls):
        """What C programs find."""
        answer = subprocess.run(['locale', 'decimal_point'], capture_output=True, text=True,
                                env=cls.environment)
        return answer.stdout.strip()

    @classmethod
    def make_locale(cls):
        # localedef ends with 1 where it only warns, so what counts is what C programs find then.
        if shutil.which('localedef'):
            subprocess.run(['localedef', '-i', 'de_DE', '-f', 'UTF-8', f'{cls.folder}/{LOCALE}'],
                           capture_output=True)
        cls.environment['LOCPATH'] = cls.folder

    def passes(self, *command):
        answer = subprocess.run([str(word) for word in command], capture_output=True, text=True,
                                env=self.environment)
        self.assertEqual(answer.returncode, 0, answer.stdout[-4000:] + answer.stderr[-4000:])

    def test_units(self):
        self.assertTrue(UNITS)
        for unit in UNITS:
            with self.subTest(Path(unit).name):
                self.passes(unit)

    def test_command_line(self):
        """One test of each way to read and write numbers; the others read and write no other. That
        the bytes of all results are the same under such a locale, tests/cli/scout_test.py holds."""
        for name in ('explain', 'stations', 'wind_series', 'field'):
            script = SOURCE / 'tests' / 'cli' / f'{name}_test.py'
            with self.subTest(script.name):
                self.passes(sys.executable, script, PROGRAM, SOURCE)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

# SPDX-License-Identifier: Apache-2.0
"""The same bay gives the same bytes however it is run: at every number of threads, in parts, under a
ceiling of memory, in another language, time zone and folder, with files made in another order and the
plan's tables turned round. run.json, which tells times and the machine, may differ.

Environment: TIDELOT_WAYS (how many of the 72, 6), TIDELOT_WAYS_SEED (which of them, and the rest, 1).

usage: same_bytes_test.py PROGRAM SOURCE_FOLDER
"""
import itertools
import os
import random
import re
import shutil
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import LittleBay, state  # noqa: E402

WAYS = int(os.environ.get('TIDELOT_WAYS', '6'))
SEED = int(os.environ.get('TIDELOT_WAYS_SEED', '1'))
THREADS, PARTS, SPARE_MIB = (1, 2, 3, 4, 8, 16), (1, 2, 3, 5), (None, 256, 0)
ZONES = ('UTC', 'ODD-12:45', 'Pacific/Chatham', 'America/St_Johns')
LANGUAGE = 'de_DE.UTF-8'
TIMES = ('run.json',)


class SameBytes(LittleBay):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        # With a comma for decimals, made for this test where the machine has none.
        subprocess.run(['localedef', '-i', 'de_DE', '-f', 'UTF-8', str(cls.made / LANGUAGE)],
                       capture_output=True)
        cls.commas = {'LC_ALL': LANGUAGE, 'LOCPATH': str(cls.made)}
        point = subprocess.run(['locale', 'decimal_point'], capture_output=True, text=True,
                               env={**os.environ, **cls.commas}).stdout.strip()
        assert point == ',', 'install the package "locales"'

    def setUp(self):
        super().setUp()
        self.plan(('cell_m = 100', 'cell_m = 10'))   # tiles enough for every thread and part

    def turned(self, dice, number):
        """The bay's files copied in a drawn order into another folder, the plan's tables likewise."""
        folder = self.top / f'folder {number} ü'
        folder.mkdir()
        files = sorted(p.name for p in self.bay.iterdir())
        dice.shuffle(files)
        for name in files:
            shutil.copyfile(self.bay / name, folder / name)
        text = (self.bay / 'plan.toml').read_text()
        head, *tables = re.split(r'(?m)^(?=\[)', text)
        rules = [t for t in tables if t.startswith('[[')]   # their order is that of their codes
        plain = [t for t in tables if not t.startswith('[[')]
        dice.shuffle(plain)
        (folder / 'plan.toml').write_text(head + ''.join(plain + rules))
        return folder

    def run_in(self, folder, words, environment, out, part=None):
        more = [] if part is None else ['--part', part]
        done = self.tidelot('scout', '--out', out, '--quiet', *words, *more, plan='plan.toml',
                            cwd=folder, env=environment)
        return done

    def least_memory(self, folder, words, environment):
        """What --memory must allow with these words, in MiB."""
        refused = self.run_in(folder, [*words, '--memory', '16M'], environment, self.top / 'none')
        return int(re.search(r'the run needs (\d+) MiB', refused.stderr)[1])

    def way(self, number, threads, parts, spare_mib, dice):
        """The files that one way leaves."""
        folder, out = self.turned(dice, number), self.top / f'out{number}'
        environment = {**os.environ, 'TZ': dice.choice(ZONES), **dice.choice(({}, self.commas))}
        words = ['--threads', threads]
        if spare_mib is not None:
            least = self.least_memory(folder, words, environment)
            words += ['--memory', f'{least + 4 + spare_mib}M']
        for part in range(1, parts + 1):
            done = self.run_in(folder, words, environment, out,
                               None if parts == 1 else f'{part}/{parts}')
            self.assertEqual(done.returncode, 0, done.stderr)
        if parts > 1:
            done = self.tidelot('join', '--out', out, '--quiet', *words, plan=folder / 'plan.toml',
                                env=environment)
            self.assertEqual(done.returncode, 0, done.stderr)
        left = state(out, TIMES)
        shutil.rmtree(out)
        shutil.rmtree(folder)
        return left

    def test_every_way(self):
        expected = state(self.scouted(), TIMES)
        dice = random.Random(SEED)
        ways = list(itertools.product(THREADS, PARTS, SPARE_MIB))
        drawn = dice.sample(ways, min(WAYS, len(ways)))
        for number, (threads, parts, spare_mib) in enumerate(drawn):
            with self.subTest(threads=threads, parts=parts, spare_mib=spare_mib):
                self.assertEqual(self.way(number, threads, parts, spare_mib, dice), expected)
        print(len(drawn), 'ways of', len(ways), 'seed', SEED)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

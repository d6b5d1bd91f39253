# SPDX-License-Identifier: Apache-2.0
"""The power goes off at instants drawn by a seed: afterwards the folder holds the results of the
older run or those of the newer one, whole, or none that could be taken for results, and the next run
ends well: one that can write nothing brings back the older ones.

The calls of one run are recorded; power_cut.py says what a disk may hold of them.

Environment: TIDELOT_CUTS (how many, 24), TIDELOT_FAULT_SEED (1).

usage: power_cut_test.py PROGRAM SOURCE_FOLDER
"""
import collections
import os
import random
import resource
import shutil
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import PROGRAM, LittleBay, may_trace, state  # noqa: E402
from power_cut import Disk, traced, written  # noqa: E402

CUTS = int(os.environ.get('TIDELOT_CUTS', '24'))
SEED = int(os.environ.get('TIDELOT_FAULT_SEED', '1'))
TIMES = ('run.json',)
WORK = '.tidelot-work-'


def seen(files):
    return {name: sum_ for name, sum_ in files.items() if not name.startswith(WORK)}


@unittest.skipUnless(may_trace(), 'strace may not trace here')
class PowerCut(LittleBay):
    def record(self, earlier):
        """The calls of a run that replaces the results of an earlier plan, or makes the first ones."""
        self.results, self.older = self.top / 'out', self.top / 'older'
        if earlier:
            self.plan(('"Little bay"', '"Little bay, before"'))
            self.scouted()
        else:
            self.results.mkdir()
        shutil.copytree(self.results, self.older)
        self.plan()
        self.calls = traced([PROGRAM, 'scout', self.bay / 'plan.toml', '--out', self.results,
                             '--threads', 1, '--quiet'], self.top / 'trace')
        self.before, self.after = state(self.older, TIMES), state(self.results, TIMES)
        self.assertNotEqual(self.before, self.after)
        disk = self.disk()
        self.instants = [i for i, call in enumerate(self.calls, 1) if disk.step(*call)]

    def disk(self):
        shutil.rmtree(self.results)
        shutil.copytree(self.older, self.results)
        return Disk(self.results)

    def cut(self, instant, one_journal, dice):
        """What a disk holds, written where the results lie."""
        disk = self.disk()
        for call in self.calls[:instant]:
            disk.step(*call)
        shutil.rmtree(self.results)
        written(disk.after_a_cut(dice, one_journal), self.results, dice)

    def next_run(self, *words, most_bytes=None):
        limit = None if most_bytes is None else lambda: resource.setrlimit(
            resource.RLIMIT_FSIZE, (most_bytes, most_bytes))
        return self.tidelot('scout', '--out', self.results, '--threads', 1, '--quiet', *words,
                            preexec_fn=limit)

    def judge(self, resume):
        """Which results stand there, and that the next run ends well."""
        found = seen(state(self.results, TIMES))
        which = 'none yet' if 'run.json' not in found else 'older' if found == self.before else 'newer'
        if which == 'newer':
            wrong = {name for name, sum_ in self.after.items() if found.get(name) != sum_}
            self.assertEqual(wrong, set(), 'not of the newer run')
        if which == 'none yet' and not resume:
            refused = self.next_run(most_bytes=10_000)
            self.assertEqual(refused.returncode, 4, refused.stderr)
            self.assertEqual(state(self.results, TIMES) if self.results.exists() else {}, self.before)
        if resume:
            done = self.next_run('--resume')
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertEqual(state(self.results, TIMES), self.after)
        return which

    def cuts(self, count):
        dice, ends = random.Random(SEED), collections.Counter()
        late = [i for i in self.instants if self.calls[i - 1][0] in ('rename', 'fsync', 'unlink',
                                                                     'unlinkat', 'mkdir')]
        for number in range(count):
            instant = dice.choice(late if number % 4 else self.instants)
            one_journal = number % 2 == 0
            with self.subTest(instant=instant, call=self.calls[instant - 1][0],
                              one_journal=one_journal):
                self.cut(instant, one_journal, dice)
                ends[self.judge(resume=number % 3 == 0)] += 1
        print('cuts', count, 'seed', SEED, 'of', len(self.instants), 'instants:', dict(ends))
        return set(ends)

    def test_results_are_the_older_or_the_newer(self):
        self.record(earlier=True)
        self.assertEqual(self.cuts(CUTS - CUTS // 4), {'older', 'none yet', 'newer'})

    def test_first_results_are_whole_or_none(self):
        self.record(earlier=False)
        self.assertEqual(self.cuts(CUTS // 4), {'none yet', 'newer'})


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

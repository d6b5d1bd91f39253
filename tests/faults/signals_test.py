# SPDX-License-Identifier: Apache-2.0
"""Signals at any instant, and a reader of stdout that goes away: the run ends within two seconds by
the status of the signal and leaves nothing to be seen, or it has ended well; a run that goes on with
it ends with the bytes of an undisturbed one.

Environment: TIDELOT_SIGNALS (how many of each kind, 2), TIDELOT_FAULT_SEED (1).

usage: signals_test.py PROGRAM SOURCE_FOLDER
"""
import collections
import os
import random
import shutil
import signal
import subprocess
import sys
import time
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import PROGRAM, LittleBay, errors, state  # noqa: E402

SIGNALS = int(os.environ.get('TIDELOT_SIGNALS', '2'))
SEED = int(os.environ.get('TIDELOT_FAULT_SEED', '1'))
SECONDS = 2.0
TIMES = ('run.json',)
# So many cells that tiles take a good part of the run.
FINE = (('cell_m = 100', 'cell_m = 20'), ('draws = 4', 'draws = 16'))


class Signals(LittleBay):
    def setUp(self):
        super().setUp()
        self.plan(*FINE)
        begin = time.monotonic()
        out = self.scouted()
        self.seconds = time.monotonic() - begin
        self.whole = state(out, TIMES)
        self.out = self.top / 'stopped'
        self.ends, self.slowest = collections.Counter(), 0.0

    def start(self, stdout=subprocess.PIPE, **how):
        return subprocess.Popen([PROGRAM, 'scout', self.bay / 'plan.toml', '--out', self.out, '--quiet',
                                 '--threads', '2'], stdout=stdout, stderr=subprocess.PIPE, text=True,
                                **how)

    def ended(self, process):
        begin = time.monotonic()
        said = process.communicate(timeout=60)[1]
        self.slowest = max(self.slowest, time.monotonic() - begin)
        self.ends[process.returncode] += 1
        return said

    def nothing_to_be_seen(self):
        seen = list(self.out.iterdir()) if self.out.exists() else []
        self.assertEqual([p for p in seen if not p.name.startswith('.tidelot-work-')], [])

    def goes_on(self):
        done = self.tidelot('scout', '--out', self.out, '--resume', '--quiet')
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(state(self.out, TIMES), self.whole)
        shutil.rmtree(self.out)

    def stopped(self, number, after):
        process = self.start()
        time.sleep(after)
        process.send_signal(number)
        said = errors(self.ended(process))
        # Before the program minds signals, one ends it as it ends any.
        if process.returncode == -number:
            self.assertLess(after, 0.2, 'signals are minded too late')
            self.nothing_to_be_seen()
        elif process.returncode == 0:
            self.assertEqual(state(self.out, TIMES), self.whole)
        else:
            self.assertEqual(process.returncode, 128 + number, said)
            self.assertRegex('\n'.join(said), r'^tidelot: stopped by a signal; [^\n]*$')
            self.nothing_to_be_seen()
        self.goes_on()

    def test_at_any_instant(self):
        draw = random.Random(SEED)
        for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            for _ in range(SIGNALS):
                after = draw.uniform(0.0, 1.05 * self.seconds)
                with self.subTest(number=number, after=after):
                    self.stopped(number, after)
        print('signals', 3 * SIGNALS, 'seed', SEED, 'status:', dict(self.ends), 'slowest end',
              f'{self.slowest:.2f} s of a run of {self.seconds:.2f} s')
        # Of those, some met the run in its midst.
        self.assertTrue([end for end in self.ends if end > 128], self.ends)
        self.assertLess(self.slowest, max(SECONDS, self.seconds / 2))   # a busy machine is slow at all

    def test_one_that_was_not_minded_from_the_start_is_not_minded(self):
        """So nohup, and shells that start a program in the background, ask for it."""
        for number in (signal.SIGINT, signal.SIGHUP):
            with self.subTest(number=number):
                process = self.start(preexec_fn=lambda: signal.signal(number, signal.SIG_IGN))
                time.sleep(0.5 * self.seconds)
                process.send_signal(number)
                said = errors(self.ended(process))
                self.assertEqual((process.returncode, said), (0, []))
                self.assertEqual(state(self.out, TIMES), self.whole)
                shutil.rmtree(self.out)

    def test_nobody_reads_stdout(self):
        draw = random.Random(SEED)
        for turn in range(SIGNALS):
            minds, after = turn % 2 == 0, draw.uniform(0.0, self.seconds)
            with self.subTest(minds=minds, after=after):
                process = self.start(restore_signals=minds)  # else the signal is switched off
                time.sleep(after)
                process.stdout.close()
                process.stdout = None
                said = errors(self.ended(process))
                self.assertEqual(process.returncode, -signal.SIGPIPE if minds else 4, said)
                self.assertEqual(len(said), 0 if minds else 1, said)
                self.assertEqual(state(self.out, TIMES), self.whole)
                self.goes_on()
        print('closed', SIGNALS, 'seed', SEED, 'status:', dict(self.ends))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

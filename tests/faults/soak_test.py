# SPDX-License-Identifier: Apache-2.0
"""Runs of drawn plans, one after the other, for as long as is asked: each plan comes again and again,
with the results of its first time; none holds more memory or more files open than it did, and none
leaves anything in the folders for what is in passing, in its own or beside its inputs.

Environment: TIDELOT_SOAK_SECONDS (how long, 10), TIDELOT_SOAK_SEED (1).

usage: soak_test.py PROGRAM SOURCE_FOLDER
"""
import os
import random
import shutil
import statistics
import subprocess
import sys
import threading
import time
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import PROGRAM, LittleBay, errors, state  # noqa: E402

SECONDS = float(os.environ.get('TIDELOT_SOAK_SECONDS', '10'))
SEED = int(os.environ.get('TIDELOT_SOAK_SEED', '1'))
PLANS = 6
LEAST = 2 * PLANS      # runs, however slow the machine is: without a second time nothing is compared
TIMES = ('run.json',)
MIB = 1 << 20


def drawn(dice):
    """Edits of the plan."""
    return (('cell_m = 100', f'cell_m = {dice.choice((25, 40, 60, 100))}'),
            ('constant = 12', f'constant = {dice.randint(1, 30)}'),
            ('constant = 0.15', f'constant = {dice.uniform(0.02, 0.6):.3f}'),
            ('setback_m = 30', f'setback_m = {dice.randint(0, 300)}'),
            ('draws = 4', f'draws = {dice.choice((0, 2, 4, 8))}\nseed = {dice.randint(1, 999)}'),
            ('"warm-red-alga"', dice.choice(('"warm-red-alga"', '"sugar-kelp"'))))


class Watched:
    """A run; the most files that it held open at once, and the most memory."""

    def __init__(self, words, folder):
        self.process = subprocess.Popen([str(word) for word in words], stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE, text=True, cwd=folder,
                                        env={**os.environ, 'TMPDIR': str(folder.parent / 'passing')})
        self.files, self.over = 0, False
        watcher = threading.Thread(target=self.watch)
        watcher.start()
        with self.process.stdout as told, self.process.stderr as said:
            self.said = said.read()   # what it tells at its end fits into the pipe
            told.read()
        _, status, used = os.wait4(self.process.pid, 0)
        self.over = True
        watcher.join()
        self.status = self.process.returncode = os.waitstatus_to_exitcode(status)
        self.memory = used.ru_maxrss * 1024

    def watch(self):
        while not self.over:
            try:
                self.files = max(self.files, len(os.listdir(f'/proc/{self.process.pid}/fd')))
            except OSError:
                return
            time.sleep(0.01)


class Soak(LittleBay):
    def once(self, number, words):
        out = self.top / 'out'
        run = Watched([PROGRAM, 'scout', f'plan{number}.toml', '--out', out, *words], self.bay)
        self.assertEqual((run.status, errors(run.said)), (0, []))
        left = state(out, TIMES)
        self.assertEqual([n for n in left if n.startswith('.')], [])
        return run, left

    def test_runs_do_not_grow(self):
        dice, first, memory, files = random.Random(SEED), {}, {}, {}
        for number in range(PLANS):
            self.plan(*drawn(dice))
            (self.bay / 'plan.toml').rename(self.bay / f'plan{number}.toml')
        inputs, passing, shared = state(self.bay), self.top / 'passing', set(os.listdir('/dev/shm'))
        passing.mkdir()
        begin, runs = time.monotonic(), 0
        while runs < LEAST or time.monotonic() - begin < SECONDS:
            number = runs % PLANS
            run, left = self.once(number, ['--threads', 2])
            self.assertEqual(left, first.setdefault(number, left), f'plan {number}, run {runs}')
            memory.setdefault(number, []).append(run.memory)
            files.setdefault(number, []).append(run.files)
            if dice.random() < 0.5:
                shutil.rmtree(self.top / 'out')     # else the next one replaces it
            runs += 1
        self.assertEqual(state(self.bay), inputs)
        self.assertEqual(list(passing.iterdir()), [])
        self.assertEqual([n for n in set(os.listdir('/dev/shm')) - shared if 'tidelot' in n], [])
        self.assertEqual({p.name for p in self.top.iterdir()} - {'out'}, {'bay', 'passing'})
        growth = max(statistics.median(m[len(m) // 2:]) - statistics.median(m[:len(m) // 2])
                     for m in memory.values())
        print(f'soak of {time.monotonic() - begin:.0f} s, {runs} runs of {PLANS} plans, seed {SEED}: '
              f'the later half of a plan\'s runs holds at most {growth / MIB:+.1f} MiB more than the earlier '
              f'one, most {max(map(max, memory.values())) / MIB:.0f} MiB, '
              f'{max(map(max, files.values()))} files open')
        self.assertLess(growth, 8 * MIB)
        self.assertLess(max(map(max, files.values())), 64)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

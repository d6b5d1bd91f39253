# SPDX-License-Identifier: Apache-2.0
"""Runs that are killed at any instant, and at the calls that write, sync, move and remove: what is to
be seen are the results that were there before, or the whole new ones, or none; a run that goes on ends
with the bytes of an undisturbed one and leaves nothing else. Some are killed again while they go on.

Environment: TIDELOT_KILLS (how many runs, 8), TIDELOT_FAULT_SEED (1).

usage: kills_test.py PROGRAM SOURCE_FOLDER
"""
import collections
import json
import os
import random
import shutil
import subprocess
import sys
import time
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
import little_run  # noqa: E402
from little_run import PROGRAM, LittleBay  # noqa: E402

KILLS = int(os.environ.get('TIDELOT_KILLS', '8'))
SEED = int(os.environ.get('TIDELOT_FAULT_SEED', '1'))
CALLS = ('openat', 'ftruncate', 'fallocate', 'pwrite64', 'write', 'fsync', 'fdatasync', 'close', 'mkdir',
         'rename', 'renameat', 'renameat2', 'unlink', 'unlinkat', 'rmdir')
IN_A_ROW = (1, 1, 1, 2, 3)
AT_A_CALL = 0.4


def state(folder):
    return little_run.state(folder, times=('run.json',)) if folder.exists() else {}


class Kills(LittleBay):
    def setUp(self):
        super().setUp()
        # So many cells, and so little else to do, that tiles take a good part of the run.
        fine = (('cell_m = 100', 'cell_m = 20'), ('draws = 4', 'draws = 24\n[sites]\ncount = 1'))
        self.plan(*fine, ('"Little bay"', '"Little bay, before"'))
        self.older = self.scouted().rename(self.top / 'older')
        self.before = state(self.older)
        self.plan(*fine)
        begin = time.monotonic()
        self.newer = self.scouted()
        self.seconds = time.monotonic() - begin
        self.whole = state(self.newer)
        self.assertNotEqual(self.before, self.whole)
        self.calls = self.calls_of_a_run() if little_run.may_trace() else []
        self.told = collections.Counter()

    def calls_of_a_run(self):
        shutil.rmtree(self.newer)
        shutil.copytree(self.older, self.newer)
        trace = self.top / 'trace'
        done = self.tidelot('scout', '--out', self.newer, '--quiet', '--threads', '2',
                            before=('strace', '-f', '-y', '-o', trace))
        self.assertEqual(done.returncode, 0, done.stderr)
        return little_run.calls_touching(self.newer, trace, CALLS)

    def killed_at_an_instant(self, out, words, draw):
        process = subprocess.Popen([PROGRAM, 'scout', self.bay / 'plan.toml', '--out', out, *words],
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(draw.uniform(0.0, 1.1 * self.seconds))
        process.kill()
        return 'instant' if process.wait() != 0 else 'ended before'

    def killed_at_a_call(self, out, words, draw):
        call, nth = draw.choice(self.calls)
        done = self.tidelot('scout', '--out', out, *words,
                            before=('strace', '-f', '--seccomp-bpf', '-o', '/dev/null', '-e',
                                    f'trace={call}', '-e', f'inject={call}:signal=SIGKILL:when={nth}'))
        # A process that decodes has calls of its own: its death is a refusal.
        return {0: 'not reached', 3: 'decoder'}.get(done.returncode, call)

    def killed(self, out, again, draw):
        words = ('--quiet', '--threads', str(draw.choice((1, 2))), *(('--resume',) if again else ()))
        at_a_call = draw.random() < AT_A_CALL and self.calls
        self.told[(self.killed_at_a_call if at_a_call else self.killed_at_an_instant)(out, words, draw)] += 1

    def judged(self, out, before):
        """What is seen after a kill: all that was, all that is new, or no whole set."""
        seen = {name: sum_ for name, sum_ in state(out).items() if not name.startswith('.')}
        self.assertTrue(seen in (before, self.whole) or 'run.json' not in seen, sorted(seen))
        self.told['seen: ' + ('before' if seen == before else 'new' if seen == self.whole else 'no set')] += 1

    def goes_on(self, out):
        done = self.tidelot('scout', '--out', out, '--resume', '--quiet')
        self.assertEqual((done.returncode, little_run.errors(done.stderr)), (0, []))
        self.assertEqual(state(out), self.whole)
        self.told['tiles kept'] += json.loads((out / 'run.json').read_text())['kept_cells'] > 0

    def test_each(self):
        draw = random.Random(SEED)
        for turn in range(KILLS):
            out = self.top / f'out{turn}'
            before = self.before if draw.random() < 0.5 else {}
            if before:
                shutil.copytree(self.older, out)
            with self.subTest(turn=turn, older=bool(before)):
                for again in range(draw.choice(IN_A_ROW)):
                    self.killed(out, again > 0, draw)
                    self.judged(out, before)
                self.goes_on(out)
            shutil.rmtree(out, ignore_errors=True)
        print(KILLS, 'runs, seed', SEED, dict(self.told))
        self.assertGreater(self.told['tiles kept'], 0)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

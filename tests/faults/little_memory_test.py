# SPDX-License-Identifier: Apache-2.0
"""Address space that is too small, at ceilings drawn by a seed: the results are those of a run that
had enough, or there are none, one line says that memory is short, and no library ends the process.

Environment: TIDELOT_CEILINGS (how many, 8), TIDELOT_FAULT_SEED (1).

usage: little_memory_test.py PROGRAM SOURCE_FOLDER
"""
import collections
import os
import random
import resource
import shutil
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from build_cache import WHY, is_sanitized  # noqa: E402
from little_run import PROGRAM, LittleBay, called, errors, state  # noqa: E402

CEILINGS = int(os.environ.get('TIDELOT_CEILINGS', '8'))
SEED = int(os.environ.get('TIDELOT_FAULT_SEED', '1'))
MIB = 1 << 20
TIMES = ('run.json',)


def least():
    """The ceiling, to 4 MiB, under which the system can just load the program."""
    low, high = 0, 1024
    while high - low > 4:
        middle = (low + high) // 2
        ended = subprocess.run([PROGRAM, '--version'], capture_output=True, timeout=60,
                               preexec_fn=lambda: resource.setrlimit(
                                   resource.RLIMIT_AS, (middle * MIB, middle * MIB)))
        low, high = (low, middle) if ended.returncode == 0 else (middle, high)
    return high


@unittest.skipIf(is_sanitized(PROGRAM), WHY)
class LittleMemory(LittleBay):
    def under(self, mib, out):
        return called('scout', self.bay / 'plan.toml', '--out', out, '--quiet', '--threads', 2,
                      preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS,
                                                            (mib * MIB, mib * MIB)))

    def test_ceilings(self):
        self.plan()
        expected = state(self.scouted(), TIMES)
        draw = random.Random(SEED)
        floor = least()
        out, ends = self.top / 'short', collections.Counter()
        for _ in range(CEILINGS):
            mib = floor + draw.randrange(160)
            with self.subTest(mib=mib):
                result = self.under(mib, out)
                ends[result.returncode] += 1
                if result.returncode == 0:
                    self.assertEqual(state(out, TIMES), expected)
                else:
                    self.assertIn(result.returncode, (2, 3, 4), result.stderr)
                    lines = [e for e in errors(result.stderr) if 'Assertion' not in e]  # PROJ's
                    self.assertEqual(len(lines), 1, result.stderr)
                    seen = [p for p in out.glob('*') if not p.name.startswith('.tidelot-work')]
                    self.assertEqual(seen, [])
            shutil.rmtree(out, ignore_errors=True)
        print('ceilings', CEILINGS, 'seed', SEED, 'from', floor, 'MiB; status:', dict(ends))
        self.assertGreater(len(ends), 1, 'the ceilings are all too high or all too low')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

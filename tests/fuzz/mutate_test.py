# SPDX-License-Identifier: Apache-2.0
"""Broken and hostile inputs, by a seeded generator: tidelot ends with a designed status within ten
seconds and one line, leaves nothing behind on 2 and 3, and never touches what it reads.

Environment: TIDELOT_FUZZ_SEED (default 1), TIDELOT_FUZZ_ROUNDS (how many mutants of each file, 3).
"""
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from build_cache import is_sanitized  # noqa: E402
from little_bay import make_bay  # noqa: E402
from little_run import PROGRAM, called, errors, state  # noqa: E402

SEED = int(os.environ.get('TIDELOT_FUZZ_SEED', '1'))
ROUNDS = int(os.environ.get('TIDELOT_FUZZ_ROUNDS', '3'))
SECONDS = 10       # of processor time; of a busy machine's clock, twelve times that
MEMORY = 4 << 30   # a decoder that asks for more than this has believed a header
CEILINGS = {resource.RLIMIT_CPU: (SECONDS, SECONDS + 1)}
if not is_sanitized(PROGRAM):   # else it maps terabytes, and is told the most of one request
    CEILINGS[resource.RLIMIT_AS] = (MEMORY, MEMORY)


def limit(kind, most):
    return lambda: resource.setrlimit(kind, (most, most))


def limits(*more):
    """What a child sets for itself before it becomes the program."""
    def set_all():
        for kind, ceiling in CEILINGS.items():
            resource.setrlimit(kind, ceiling)
        for each in more:
            each()
    return set_all


def verdict(folder, plan='plan.toml', allowed=(0, 2, 3), threads=1, more_limits=(), before=()):
    """Runs scout on the folder; says what broke the promise, None where nothing did. `before`: what
    runs it, as a tracer does."""
    inputs = state(folder)
    out = folder.parent / (folder.name + '-out')
    try:
        result = called('scout', folder / plan, '--out', out, '--threads', threads, text=False,
                        before=before, timeout=12 * SECONDS, stdin=subprocess.DEVNULL,
                        preexec_fn=limits(*more_limits))
    except subprocess.TimeoutExpired:
        return 'waited for something that never came'
    if result.returncode == -signal.SIGXCPU:
        return f'ran longer than {SECONDS} s'
    try:
        text = result.stderr.decode()
    except UnicodeDecodeError:
        return f'stderr is not UTF-8: {result.stderr!r}'
    lines = errors(text)
    if result.returncode not in allowed:
        return f'status {result.returncode}: {text[-400:]}'
    if result.returncode != 0 and (len(lines) != 1 or not lines[0].startswith('tidelot: ')):
        return f'not one line: {text[-400:]}'
    if result.returncode != 0 and lines[0].startswith('tidelot: unexpected: '):
        return f'an exception nobody expected: {text[-400:]}'
    if result.returncode == 0 and lines:
        return f'lines beside the warnings: {text[-400:]}'
    if re.search(r'[\x00-\x09\x0b-\x1f\x7f]', text):
        return f'control characters on stderr: {text[-400:]!r}'
    if result.returncode in (2, 3) and out.exists():
        return f'{out} was left behind'
    if state(folder) != inputs:
        return 'the inputs were changed'
    return None


def flip_bits(data, dice):
    data = bytearray(data)
    end = dice.choice([64, 512, len(data)])
    for _ in range(dice.choice([1, 2, 8, 64])):
        data[dice.randrange(min(end, len(data)))] ^= 1 << dice.randrange(8)
    return bytes(data)


def truncate(data, dice):
    return data[:dice.choice([0, 1, 7, 100, len(data) - 1, dice.randrange(len(data))])]


def overwrite(data, dice):
    begin = dice.randrange(min(dice.choice([256, len(data)]), len(data)))
    filling = dice.choice([b'\xff', b'\x00', b'\x80']) * dice.choice([4, 16])
    return data[:begin] + filling + data[begin + 4:]


def repeat_part(data, dice):
    begin = dice.randrange(len(data))
    return data[:begin] + data[begin // 2:begin] * 3 + data[begin:]


class Mutants(unittest.TestCase):
    """Damaged files: the container's bytes, not its meaning."""

    def test_damaged_files(self):
        dice = random.Random(SEED)
        with tempfile.TemporaryDirectory(prefix='tidelot-fuzz-') as top:
            bay = Path(top) / 'bay'
            make_bay(bay)
            for plan in ('plan.toml', 'plan4.toml'):
                self.assertIsNone(verdict(bay, plan, allowed=(0,)), 'the whole bay must run')
                shutil.rmtree(Path(top) / 'bay-out')
            files = {p.name: p.read_bytes() for p in sorted(bay.iterdir()) if p.suffix != '.toml'}
            jobs = []
            for name, data in files.items():
                for change in (flip_bits, truncate, overwrite, repeat_part):
                    for _ in range(ROUNDS):
                        jobs.append((name, change.__name__, change(data, dice)))
                other = files[dice.choice(sorted(files))]
                cut = dice.choice([8, 64, 512])
                jobs.append((name, 'splice', other[:cut] + data[cut:]))

            def try_one(number_and_job):
                number, (name, change, data) = number_and_job
                folder = Path(top) / f'm{number}'
                shutil.copytree(bay, folder)
                (folder / name).write_bytes(data)
                found = verdict(folder, 'plan4.toml' if name == 'temperature4.nc' else 'plan.toml')
                if found and (keep := os.environ.get('TIDELOT_FUZZ_KEEP')):
                    shutil.copytree(folder, Path(keep) / f'{SEED}-{number}-{name}-{change}',
                                    dirs_exist_ok=True)
                shutil.rmtree(folder)
                shutil.rmtree(f'{folder}-out', ignore_errors=True)
                return found and f'seed {SEED}, mutant {number}, {change} of {name}: {found}'

            with ThreadPoolExecutor(2) as pool:
                broken = [b for b in pool.map(try_one, enumerate(jobs)) if b]
            self.assertEqual(broken, [], f'{len(broken)} of {len(jobs)}:\n' + '\n'.join(broken))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

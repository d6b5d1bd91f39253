# SPDX-License-Identifier: Apache-2.0
"""Are the tests of the scoring sharp? One operator, bound or number of it is changed at a time; the
unit tests of its room, the published checks or the golden results must fail. Prints who survives, for somebody to look at.

The mutants are drawn by a seed, each from another place. They are made in a copy of the sources with
a build of its own, in the work folder.

usage: mutants.py SOURCE_FOLDER WORK_FOLDER COUNT SEED
"""
import collections
import os
import random
import re
import resource
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from scratch_build import ScratchBuild, run  # noqa: E402

SECONDS = 120   # a mutant that has not ended by then never will
# What scores a cell, and the tests that hold it.
FILES = {
    'unit_core': ['src/core/curve.cpp', 'src/core/wind.cpp', 'src/core/geometry.cpp'],
    'unit_criteria': [f'src/criteria/{name}.cpp' for name in (
        'closed_mask', 'member_verdict', 'row_runs', 'scorer', 'slope', 'suitability', 'wave_climate',
        'waves', 'wind', 'fetch')],
    'unit_growth': [f'src/growth/{name}.cpp' for name in (
        'alga_day', 'farm_box', 'limits', 'line', 'mass_transfer', 'temperature_fit')],
}
SWAPS = {' < ': ' <= ', ' <= ': ' < ', ' > ': ' >= ', ' >= ': ' > ', ' == ': ' != ', ' != ': ' == ',
         ' + ': ' - ', ' - ': ' + ', ' * ': ' / ', ' / ': ' * ', ' && ': ' || ', ' || ': ' && ',
         'std::min(': 'std::max(', 'std::max(': 'std::min(', ' += ': ' -= ', ' -= ': ' += '}
NUMBER = re.compile(r'(?<![\w.])(\d+\.\d+(?:e-?\d+)?|\d+)(?![\w.])')
NO_CODE = re.compile(r'^\s*(//|#|static_assert|template)|\[\[')


def other_number(text):
    """A bound moved by one, a constant by a tenth."""
    if '.' not in text:
        return str(int(text) + 1)
    return '0.1' if float(text) == 0.0 else repr(float(text) * 1.1)


def places_in(line):
    """(first, end, what is put there) of every change of a line."""
    code = line.split('//')[0]
    if NO_CODE.match(line) or '"' in code:
        return
    for old, new in SWAPS.items():
        for found in re.finditer(re.escape(old), code):
            yield found.start(), found.end(), new
    for found in NUMBER.finditer(code):
        yield found.start(), found.end(), other_number(found[0])


def mutants_of(path):
    """(line number, its mutated text) of every one."""
    for number, line in enumerate(path.read_text().splitlines()):
        for first, end, new in places_in(line):
            yield number, line[:first] + new + line[end:]


def drawn(scratch, count, seed):
    every = [(target, file, number, line) for target, files in FILES.items() for file in files
             for number, line in mutants_of(scratch.source / file)]
    return random.Random(seed).sample(every, min(count, len(every))), len(every)


def little_time():
    """Of the processor, so that a busy machine lets nobody live or die."""
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))


def fails(command, environment=None):
    try:
        return run(command, timeout=1800, env=environment, preexec_fn=little_time).returncode != 0
    except subprocess.TimeoutExpired:
        return True


def killed_by(scratch, target):
    """What notices, or None."""
    good, _ = scratch.made(target)
    if not good:
        return 'compiler'
    if fails([scratch.build / 'tests' / target, '--abort']):
        return 'unit tests'
    if not scratch.made('bin/tidelot', 'published')[0]:
        return 'compiler'
    if fails([scratch.build / 'tests' / 'published', '--abort']):
        return 'published checks'
    golden = scratch.source / 'tests' / 'golden' / 'golden_test.py'
    environment = {**os.environ, 'PYTHONDONTWRITEBYTECODE': '1'}
    return 'golden results' if fails([sys.executable, golden, scratch.program, scratch.source],
                                     environment) else None


def tried(scratch, mutant):
    """Puts one in, and takes it out again."""
    target, file, number, line = mutant
    path = scratch.source / file
    whole = path.read_text()
    lines = whole.splitlines()
    before, lines[number] = lines[number], line
    path.write_text('\n'.join(lines) + '\n')
    try:
        found = killed_by(scratch, target)
    finally:
        path.write_text(whole)
    print(f'{found or "SURVIVES":16} {file}:{number + 1}: {before.strip()}  ->  {line.strip()}',
          flush=True)
    return found


def main(source, work, count, seed):
    scratch = ScratchBuild(source, work)
    good, said = scratch.made(*FILES, 'bin/tidelot', 'published')
    if not good:
        raise SystemExit(said)
    if any(fails([scratch.build / 'tests' / target]) for target in FILES):
        raise SystemExit('the tests fail on the program as it is')
    begin, ends = time.monotonic(), collections.Counter()
    mutants, places = drawn(scratch, count, seed)
    for mutant in mutants:
        ends[tried(scratch, mutant)] += 1
    ran = len(mutants) - ends['compiler']
    print(f'{ran} mutants of {places} places, seed {seed}, in {time.monotonic() - begin:.0f} s: {dict(ends)}')
    return 0 if ends[None] <= 0.05 * ran else 1


if __name__ == '__main__':
    sys.exit(main(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])))

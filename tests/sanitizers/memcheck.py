# SPDX-License-Identifier: Apache-2.0
"""Each command of the program once under valgrind's memcheck, on the little bay: reads of what was
never written, which no sanitizer of the compiler sees, besides reads beyond the end and leaks.

A command must end as it is due, and memcheck must report nothing but what memcheck.supp names.

usage: memcheck.py PROGRAM SOURCE_FOLDER FOLDER_FOR_REPORTS
"""
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / 'support'))
from little_bay import PLAN, make_bay  # noqa: E402

PROGRAM, SOURCE, REPORTS = (Path(word).resolve() for word in sys.argv[1:4])
# The processes that decode a file first are forks of the program: memcheck goes with them, and since
# they may write no file it reports to a pipe.
MEMCHECK = ('valgrind', '--leak-check=full', '--errors-for-leak-kinds=definite',
            '--show-leak-kinds=definite', '--num-callers=40', '--gen-suppressions=all',
            f'--suppressions={HERE / "memcheck.supp"}')
SUMMARY = re.compile(r'ERROR SUMMARY: (\d+) errors .*suppressed: (\d+)')


def bays(top):
    """Two plans on a bay with cells so large that memcheck, thirty times slower, is done soon."""
    make_bay(top / 'bay')
    coarse = PLAN.replace('cell_m = 100', 'cell_m = 200').replace('draws = 4', 'draws = 2')
    assert coarse.count('cell_m = 200') == coarse.count('draws = 2') == 1
    (top / 'bay' / 'plan.toml').write_text(coarse)
    other = coarse.replace('constant = 12', 'constant = 9')
    assert other != coarse
    (top / 'bay' / 'other.toml').write_text(other)
    return top / 'bay' / 'plan.toml', top / 'bay' / 'other.toml'


def commands(top):
    """(name, its words, its exit status)."""
    plan, other = bays(top)
    broken = top / 'bay' / 'broken.toml'
    broken.write_text(PLAN.replace('"depth.tif"', '"kd.tif.gone"'))
    parts = ('scout', plan, '--out', top / 'parts', '--quiet', '--threads', 1)
    return [
        ('version', ('--version',), 0),
        ('crops', ('crops',), 0),
        ('start', ('start', top / 'started'), 0),
        ('check', ('check', plan), 0),
        ('refused', ('check', broken), 3),
        ('scout', ('scout', plan, '--out', top / 'out', '--quiet', '--threads', 2), 0),
        ('explain', ('explain', plan, '--at=-30.004,41.009'), 0),
        ('part-1', (*parts, '--part', '1/2'), 0),
        ('part-2', (*parts, '--part', '2/2'), 0),
        ('join', ('join', plan, '--out', top / 'parts', '--quiet', '--threads', 1), 0),
        ('compare', ('compare', plan, other, '--out', top / 'compared'), 0),
    ]


def checked(name, words, due):
    """What is wrong with one command; says what was found."""
    log, began = REPORTS / f'{name}.log', time.monotonic()
    ended = subprocess.run([*MEMCHECK, str(PROGRAM), *map(str, words)], capture_output=True,
                           text=True)
    log.write_text(ended.stderr)
    found = SUMMARY.findall(ended.stderr)
    errors, suppressed = (sum(int(pair[i]) for pair in found) for i in (0, 1))
    print(f'{name:8}  status {ended.returncode}  {len(found)} processes  {errors} errors  '
          f'{suppressed} suppressed  {time.monotonic() - began:.0f} s', flush=True)
    if ended.returncode != due:
        return f'{name}: status {ended.returncode}, {due} is due: {ended.stderr[-600:]}'
    if not found:
        return f'{name}: no summary in {log}'
    return f'{name}: {errors} errors in {log}' if errors else None


def main():
    REPORTS.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix='tidelot-memcheck-') as top:
        wrong = [said for command in commands(Path(top)) if (said := checked(*command))]
    print('\n'.join(wrong))
    return 1 if wrong else 0


if __name__ == '__main__':
    sys.exit(main())

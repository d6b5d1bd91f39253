#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""The whole job against the ordinary way, both in one run: whole_job.py PROGRAM [--sizes ...]

For each size an invented bay of N x N cells (tests/bench/peer/make_inputs.py) is done in turn by
the peer at full resolution (numpy), by the peer on its coarse lattice, and by the program, so many
rounds; what is told are ratios of medians, with the least and the greatest ratio of one round. The
maps are compared once with those of the peer at exact coordinates. Prints Markdown.
"""
import argparse
import json
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

PEER = Path(__file__).resolve().parent / 'peer'
MIB = 1024.0


def timed(words):
    """Wall and processor seconds and the largest resident size (MiB) of one process."""
    before = time.perf_counter()
    child = subprocess.Popen([str(w) for w in words], stdin=subprocess.DEVNULL,
                             stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    out, err = child.communicate()
    wall = time.perf_counter() - before
    if child.returncode != 0:
        raise SystemExit(f'{" ".join(map(str, words))}: status {child.returncode}\n{err[-2000:]}')
    return wall, out


def program(words):
    """The same for the program: a process of its own, so that its largest size is its own."""
    code = ('import resource,subprocess,sys,json;'
            'd=subprocess.run(sys.argv[1:],stdin=subprocess.DEVNULL,stdout=subprocess.DEVNULL,'
            'stderr=subprocess.PIPE,text=True);u=resource.getrusage(resource.RUSAGE_CHILDREN);'
            'print(json.dumps([d.returncode,d.stderr,u.ru_utime+u.ru_stime,u.ru_maxrss]))')
    wall, out = timed([sys.executable, '-c', code, *words])
    status, err, cpu, size = json.loads(out)
    if status != 0:
        raise SystemExit(f'{" ".join(map(str, words))}: status {status}\n{err[-2000:]}')
    return dict(wall=wall, cpu=cpu, mib=size / MIB)


class Bay:
    """One size: its inputs, its plans, and what each way of doing it took."""

    def __init__(self, folder, exe, size, procs):
        self.folder, self.exe, self.size, self.procs = Path(folder) / str(size), exe, size, procs
        timed([sys.executable, '-B', PEER / 'make_inputs.py', '--size', size, '--out', self.folder])
        plan = (self.folder / 'plan.toml').read_text()
        (self.folder / 'deflate.toml').write_text(plan + '\n[run]\ncodec = "deflate"\n')
        for draws in (200,):
            (self.folder / f'draws{draws}.toml').write_text(
                re.sub(r'draws = 0', f'draws = {draws}', plan))
        self.taken = {}

    def keep(self, name, figures):
        self.taken.setdefault(name, []).append(figures)

    def peer(self, engine, *more):
        out = self.folder / f'peer-{engine}'
        wall, text = timed([sys.executable, '-B', PEER / 'peer.py', '--inputs', self.folder,
                            '--out', out, '--engine', engine, '--procs', self.procs, *more])
        seen = json.loads(text)
        stages = seen['stages']
        growth = sum(stages[s]['cpu_s'] for s in ('water', 'season') if s in stages)
        return dict(wall=wall, cpu=seen['total']['cpu_s'], mib=seen['total']['peak_rss_mib'],
                    growth_cpu=growth)

    def ours(self, plan='plan', threads=None):
        out = self.folder / f'ours-{plan}'
        found = program([self.exe, 'scout', self.folder / f'{plan}.toml', '--out', out, '--quiet',
                         '--threads', threads or self.procs])
        seconds = json.loads((out / 'run.json').read_text())['seconds']
        found['growth'] = seconds['growing and scoring']
        found['before'] = seconds['opening layers']
        return found

    def compared(self):
        """The largest differences from the peer at exact coordinates."""
        self.peer('numpy', '--et', 0)
        done = subprocess.run([sys.executable, '-B', PEER / 'compare.py',
                               self.folder / 'ours-deflate', self.folder / 'peer-numpy'],
                              capture_output=True, text=True)
        return done.returncode == 0, json.loads(done.stdout)

    def median(self, name, what):
        return statistics.median(each[what] for each in self.taken[name])

    def ratio(self, over, under, what='wall'):
        """Median over median, and the least and the greatest of the rounds."""
        pairs = [a[what] / b[what] for a, b in zip(self.taken[over], self.taken[under])]
        return (self.median(over, what) / self.median(under, what), min(pairs), max(pairs))


def told(ratio):
    return f'{ratio[0]:.1f} ({ratio[1]:.1f} to {ratio[2]:.1f})'


def row(*cells):
    print('| ' + ' | '.join(str(c) for c in cells) + ' |')


def measure(bay, rounds):
    for _ in range(rounds):
        bay.keep('numpy', bay.peer('numpy'))
        bay.keep('deflate', bay.ours('deflate'))
        bay.keep('coarse', bay.peer('coarse'))
        bay.keep('own', bay.ours('plan'))
        bay.keep('one', bay.ours('plan', 1))


def table(bays):
    print('\nWall seconds (peak memory, MiB), medians:\n')
    row('way', *(f'{b.size}²' for b in bays))
    row('---', *('---' for _ in bays))
    for name, words in (('numpy', 'peer, numpy'), ('coarse', 'peer, coarse'),
                        ('deflate', 'tidelot, deflate'), ('own', 'tidelot, zstd'),
                        ('one', 'tidelot, zstd, 1 thread')):
        row(words, *(f'{b.median(name, "wall"):.2f} ({b.median(name, "mib"):.0f})' for b in bays))
    print('\nRatios of medians (least to greatest of one round):\n')
    row('ratio', *(f'{b.size}²' for b in bays))
    row('---', *('---' for _ in bays))
    for words, over, under, what in (
            ('numpy peer over tidelot, both DEFLATE: wall', 'numpy', 'deflate', 'wall'),
            ('the same, tidelot with its own codec', 'numpy', 'own', 'wall'),
            ('coarse peer over tidelot, own codec', 'coarse', 'own', 'wall'),
            ('peak memory, numpy peer over tidelot', 'numpy', 'deflate', 'mib'),
            ('1 thread over 2, growth', 'one', 'own', 'growth'),
            ('1 thread over 2, whole job', 'one', 'own', 'wall')):
        row(words, *(told(b.ratio(over, under, what)) for b in bays))
    row('growth, processor time: numpy peer over tidelot', *(
        f'{b.median("numpy", "growth_cpu") / b.median("one", "growth"):.1f}' for b in bays))
    row('start-up before computing, s', *(f'{b.median("own", "before"):.2f}' for b in bays))
    row('wall per million cells, s',
        *(f'{b.median("own", "wall") / b.size ** 2 * 1e6:.3f}' for b in bays))


def processor():
    for line in Path('/proc/cpuinfo').read_text().splitlines():
        if line.startswith('model name'):
            return line.split(':', 1)[1].strip()
    return platform.processor()


def commit():
    done = subprocess.run(['git', '-C', PEER, 'describe', '--always', '--dirty'],
                          capture_output=True, text=True)
    return done.stdout.strip() or 'not known'


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument('program')
    ask.add_argument('--sizes', default='1000,2000,4000')
    ask.add_argument('--rounds', type=int, default=5)
    ask.add_argument('--procs', type=int, default=min(2, os.cpu_count()))
    ask.add_argument('--folder', help='where the bays are made; a temporary folder otherwise')
    a = ask.parse_args()
    print(f'{date.today()}, commit {commit()}; {processor()}, {os.cpu_count()} cores, '
          f'{a.procs} used; {a.rounds} rounds; load before {os.getloadavg()[0]:.2f}')
    with tempfile.TemporaryDirectory(dir=a.folder) as folder:
        bays = [Bay(folder, Path(a.program).resolve(), int(n), a.procs)
                for n in a.sizes.split(',')]
        for bay in bays:
            measure(bay, a.rounds)
        table(bays)
        print('\nThe maps beside those of the peer (largest relative difference):\n')
        row('map', *(f'{b.size}²' for b in bays))
        row('---', *('---' for _ in bays))
        found = [bay.compared() for bay in bays]
        for name in ('yield', 'nitrogen', 'depth_low_water'):
            row(name, *(f'{each[1][name]["max"]:.1e}' for each in found))
        largest = bays[-1]
        draws = largest.ours('draws200')
        exact = largest.median('own', 'wall')
        print(f'\n200 draws at {largest.size}² over one exact run, growth: '
              f'{draws["growth"] / largest.median("own", "growth"):.2f}; whole job: '
              f'{draws["wall"] / exact:.2f}, so that they add {draws["wall"] / exact - 1:.2f} of it')
        if not all(good for good, _ in found):
            raise SystemExit('the maps differ by more than compare.py allows')


if __name__ == '__main__':
    main()

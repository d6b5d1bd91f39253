#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""The maps beside those of the ordinary way: peer_agreement_test.py PROGRAM SOURCE_DIR

Invents a bay of 1000 x 1000 cells, grows it with tests/bench/peer (GDAL's command line and numpy,
an independent program) and with the program, and compares depth, yield and nitrogen cell by cell.
Tolerances and their reasons: tests/bench/peer/README.md.
"""
import os
import subprocess
import sys
import tempfile
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
PEER = Path(__file__).resolve().parent / 'peer'
SIZE = '1000'


def run(*words, **options):
    return subprocess.run([str(w) for w in words], text=True, stdin=subprocess.DEVNULL, **options)


def script(name, *words, **options):
    return run(sys.executable, '-B', PEER / name, *words, **options)


def need(what, done):
    if done.returncode != 0:
        print(done.stdout or '', done.stderr or '', sep='\n')
        raise SystemExit(f'FAILED: {what} ended with status {done.returncode}')


def main():
    quiet, procs = dict(capture_output=True), os.cpu_count()
    with tempfile.TemporaryDirectory() as folder:
        bay, ours, peer = (Path(folder, name) for name in ('bay', 'ours', 'peer'))
        need('make_inputs.py', script('make_inputs.py', '--size', SIZE, '--out', bay, **quiet))
        need('peer.py', script('peer.py', '--inputs', bay, '--out', peer, '--et', 0,
                               '--procs', procs, **quiet))
        need('tidelot scout', run(PROGRAM, 'scout', bay / 'plan.toml', '--out', ours, '--threads',
                                  procs, '--quiet', **quiet))
        found = script('compare.py', ours, peer, **quiet)
        print(found.stdout)
        need('compare.py, the maps differ:', found)


if __name__ == '__main__':
    main()

# SPDX-License-Identifier: Apache-2.0
"""Calls that write, sync, rename, close or make a file fail, one after the other, as strace makes
them fail: the old results stand byte for byte, or the new ones do and are whole; the file is named.

Faults are drawn by a seed among all calls of an undisturbed run that touch the results folder.
A control makes the program blind to renames that fail: the same check must then find fault.

Environment: TIDELOT_FAULTS (how many, 16), TIDELOT_FAULT_SEED (1).

usage: write_faults_test.py PROGRAM SOURCE_FOLDER
"""
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
import little_run  # noqa: E402
from little_bay import make_bay  # noqa: E402

FAULTS = int(os.environ.get('TIDELOT_FAULTS', '16'))
SEED = int(os.environ.get('TIDELOT_FAULT_SEED', '1'))
ERRORS = {
    **dict.fromkeys(('write', 'pwrite64', 'writev', 'pwritev', 'fallocate', 'ftruncate',
                     'copy_file_range'), ('ENOSPC', 'EDQUOT', 'EIO')),
    **dict.fromkeys(('fsync', 'fdatasync', 'msync', 'close'), ('EIO', 'ENOSPC')),
    **dict.fromkeys(('openat', 'mkdir', 'rename', 'renameat', 'renameat2', 'link', 'linkat'),
                    ('ENOSPC', 'EACCES', 'EROFS')),
}
BLIND = r'''
#define _GNU_SOURCE
#include <dlfcn.h>
/* A file that could not be moved is called moved. */
int rename(const char* from, const char* to) {
  int (*real)(const char*, const char*) = dlsym(RTLD_NEXT, "rename");
  (void)real(from, to);
  return 0;
}
'''


def state(folder):
    return little_run.state(folder, times=('run.json',))


class Bay:
    """The little bay with results of an older plan; what a run makes of it in place of them."""

    def __init__(self, top):
        self.top = top
        make_bay(top / 'bay')
        self.older = top / 'older'
        plan = top / 'bay' / 'plan.toml'
        text = plan.read_text()
        plan.write_text(text.replace('"Little bay"', '"Little bay, before"'))
        self.run(self.older)
        plan.write_text(text)
        self.before = state(self.older)
        self.newer = self.copy('newer')
        trace = top / 'trace'
        self.run(self.newer, 'strace', '-f', '-y', '-o', trace)
        self.after = state(self.newer)
        assert self.before != self.after and set(self.before) == set(self.after)
        self.calls = little_run.calls_touching(self.newer, trace, ERRORS)

    def copy(self, name):
        shutil.copytree(self.older, self.top / name)
        return self.top / name

    def run(self, out, *before, allowed=(0,), **more):
        done = little_run.called('scout', self.top / 'bay' / 'plan.toml', '--out', out, '--threads', 1,
                                 '--quiet', before=before, **more)
        if allowed and done.returncode not in allowed:
            raise AssertionError(f'{before}: status {done.returncode}: {done.stderr}')
        return done

    def wrong(self, number, fault, env=None):
        """What broke the promise under this fault, or None."""
        (call, nth), error, onward = fault
        out = self.copy(f'out{number}')
        done = self.run(out, 'strace', '-f', '--seccomp-bpf', '-o', '/dev/null', '-e', f'trace={call}', '-e',
                        f'inject={call}:error={error}:when={nth}{"+" if onward else ""}',
                        allowed=(), env=env)
        mute = call == 'write' and onward  # that to stderr fails, too
        found = self.judged(done, out, mute)
        if call in ('fsync', 'fdatasync') and done.returncode == 0:
            found = 'a sync that failed was taken for done'   # nothing else shows that it was not
        shutil.rmtree(out)
        return found and f'{call} number {nth}{" and later" if onward else ""}, {error}: {found}'

    def judged(self, done, out, mute):
        left = state(out)
        seen = {name: sum_ for name, sum_ in left.items() if not name.startswith('.')}
        lines = little_run.errors(done.stderr)
        if done.returncode == 0:
            return None if left == self.after else 'status 0, and the results are not those of a run'
        if 'the next run puts them back' in done.stderr and 'run.json' not in seen:
            return self.brought_back(out)
        if seen != self.before:
            return f'status {done.returncode}, and the older results changed: {done.stderr[-300:]}'
        if left != seen:
            return f'left behind: {sorted(set(left) - set(seen))}'
        if done.returncode not in (3, 4):
            return f'status {done.returncode}: {done.stderr[-300:]}'
        if not (mute and not lines) and (len(lines) != 1 or not lines[0].startswith('tidelot: ')):
            return f'not one line: {done.stderr[-300:]}'
        return None

    def brought_back(self, out):
        """After moves that could not be undone: another run, which may write no file, puts all back."""
        refused = self.run(out, allowed=(4,), preexec_fn=lambda: resource.setrlimit(
            resource.RLIMIT_FSIZE, (10_000, 10_000)))
        return None if state(out) == self.before else f'not brought back: {refused.stderr[-300:]}'


@unittest.skipUnless(little_run.may_trace(), 'strace may not trace here')
class WriteFaults(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-faults-'))
        cls.addClassCleanup(shutil.rmtree, cls.folder, ignore_errors=True)
        cls.bay = Bay(cls.folder)

    def found(self, faults, **more):
        with ThreadPoolExecutor(2) as pool:
            jobs = [pool.submit(self.bay.wrong, number, fault, **more)
                    for number, fault in enumerate(faults)]
            return [job.result() for job in jobs if job.result()]

    def drawn(self, count, kinds=ERRORS):
        """Every kind of call has its turn before one has its second."""
        dice = random.Random(SEED)
        of_kind = {kind: [c for c in self.bay.calls if c[0] == kind] for kind in kinds}
        kinds = [kind for kind, calls in of_kind.items() if calls]
        self.assertTrue(kinds)
        out = []
        for number in range(count):
            kind = kinds[number % len(kinds)]
            # A folder that cannot be opened any more cannot be cleared either.
            onward = kind != 'openat' and dice.random() < 0.3
            out.append((dice.choice(of_kind[kind]), dice.choice(ERRORS[kind]), onward))
        return out

    def test_no_fault_loses_or_halves_results(self):
        faults = self.drawn(FAULTS)
        print(f'{len(faults)} faults among {len(self.bay.calls)} calls, seed {SEED}')
        self.assertEqual(self.found(faults), [])

    def test_control_a_program_blind_to_failed_renames_is_found_out(self):
        source, library = self.folder / 'blind.c', self.folder / 'blind.so'
        source.write_text(BLIND)
        subprocess.run(['cc', '-shared', '-fPIC', '-o', library, source, '-ldl'], check=True)
        faults = [(call, 'EACCES', False) for call in self.bay.calls if call[0] == 'rename'][-3:]
        env = {**os.environ, 'LD_PRELOAD': str(library)}
        self.assertEqual(len(self.found(faults, env=env)), len(faults))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

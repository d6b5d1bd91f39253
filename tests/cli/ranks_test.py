# SPDX-License-Identifier: Apache-2.0
"""A run whose tiles the processes of an MPI job share: the bytes of one process, and how it ends."""
import json
import os
import signal
import subprocess
import time
import unittest
from pathlib import Path

from bay import PROGRAM, Bay, main, run   # which finds tests/support, too
from build_cache import patience, without_leaks

HAS_MPI = b'MPI_Init_thread' in Path(PROGRAM).read_bytes()
WORK = '.tidelot-work-'
# Open MPI unloads its parts before the process ends, and with them the names of what they leaked.
ROOT = {**without_leaks(), 'OMPI_ALLOW_RUN_AS_ROOT': '1', 'OMPI_ALLOW_RUN_AS_ROOT_CONFIRM': '1'}
PATIENCE = patience(PROGRAM)


def outputs(folder):
    """Bytes of every file of a finished run but run.json."""
    return {str(p.relative_to(folder)): p.read_bytes()
            for p in folder.rglob('*') if p.is_file() and p.name != 'run.json'}


def mpirun(ranks, *words):
    return ['mpirun', '--oversubscribe', '-n', str(ranks), PROGRAM, *map(str, words)]


def own_lines(text):
    return [line for line in text.splitlines() if line.startswith('tidelot: ')]


def processes_of(text):
    """Ids of the running programs whose command line and parent hold these."""
    found = []
    for proc in Path('/proc').iterdir():
        try:
            command = (proc / 'cmdline').read_bytes().split(b'\0')
            environment = (proc / 'environ').read_bytes().split(b'\0')
        except (OSError, ValueError):
            continue
        if command[0] == str(PROGRAM).encode() and str(text).encode() in command:
            rank = [e for e in environment if e.startswith(b'OMPI_COMM_WORLD_RANK=')]
            found.append((int(rank[0].split(b'=')[1]), int(proc.name)))
    return dict(found)


@unittest.skipUnless(HAS_MPI, 'this build is without MPI (-DTIDELOT_MPI=ON)')
class Ranks(Bay):
    draws = 64   # a run must last long enough for a process of it to die
    what_if = True

    def job(self, ranks, *words):
        return subprocess.run(mpirun(ranks, *words), capture_output=True, text=True,
                              timeout=120 * PATIENCE, env=ROOT)

    def started(self, out):
        """Three processes that have some tiles done, and more before them; by rank."""
        bay = self.plan((r'^cell_m = .*$', 'cell_m = 15'))
        job = subprocess.Popen(mpirun(3, 'scout', bay, '--out', out, '--quiet'), text=True,
                               stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=ROOT)
        deadline = time.monotonic() + 100 * PATIENCE
        while job.poll() is None and time.monotonic() < deadline:
            ledgers = list(out.glob(f'{WORK}*/unfinished/tiles'))
            if ledgers and ledgers[0].read_bytes().count(b'\n') > 2:
                return bay, job, processes_of(out)
            time.sleep(0.002)
        self.fail(f'no tile was finished in time {job.communicate()}')

    def test_any_number_of_processes_leaves_the_same_bytes(self):
        bay = self.plan()
        alone = self.folder / 'alone'
        said = run('scout', bay, '--out', alone)
        self.assertEqual(said.returncode, 0, said.stderr)
        for ranks, words in ((1, ()), (2, ()), (3, ('--threads', 2))):
            out = self.folder / f'out{ranks}'
            result = self.job(ranks, 'scout', bay, '--out', out, *words)
            self.assertEqual(result.returncode, 0, result.stderr)
            self.assertEqual(result.stdout.count('Results in'), 1)
            self.assertEqual(result.stderr, said.stderr)   # each warning once
            self.assertEqual(outputs(out), outputs(alone))

    def test_a_process_that_dies_ends_the_job_and_resume_goes_on(self):
        out = self.folder / 'out'
        bay, job, ranks = self.started(out)
        self.assertEqual(sorted(ranks), [0, 1, 2])
        os.kill(ranks[2], signal.SIGKILL)
        job.communicate(timeout=60 * PATIENCE)
        self.assertNotEqual(job.returncode, 0)
        self.assertEqual(processes_of(out), {})
        self.assertFalse((out / 'run.json').exists())
        result = self.job(2, 'scout', bay, '--out', out, '--resume')
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertGreater(json.loads((out / 'run.json').read_text())['kept_cells'], 0)
        alone = self.folder / 'alone'
        self.assertEqual(run('scout', bay, '--out', alone).returncode, 0)
        self.assertEqual(outputs(out), outputs(alone))

    def test_a_signal_to_the_first_process_ends_the_job_with_its_line(self):
        out = self.folder / 'out'
        _, job, ranks = self.started(out)
        os.kill(ranks[0], signal.SIGTERM)
        _, said = job.communicate(timeout=60 * PATIENCE)
        self.assertEqual(job.returncode, 128 + signal.SIGTERM, said)
        self.assertEqual(len(own_lines(said)), 1, said)
        self.assertIn('--resume goes on there', own_lines(said)[0])
        self.assertTrue(list(out.glob(f'{WORK}*/unfinished/tiles')))

    def test_what_is_wrong_is_said_once_with_its_status(self):
        bay = self.plan((r'^cell_m = .*$', 'cell_m = -1'))
        result = self.job(3, 'scout', bay, '--out', self.folder / 'out')
        self.assertEqual(result.returncode, 2, result.stderr)
        self.assertEqual(len(own_lines(result.stderr)), 1, result.stderr)
        for words in (('scout', bay, '--part', '1/2'), ('join', bay)):
            result = self.job(2, *words)
            self.assertEqual(result.returncode, 2, result.stderr)
            self.assertIn('is for one process', result.stderr)

    def test_a_process_with_other_inputs_is_refused(self):
        bay, other = self.plan(), self.plan((r'(?m)^line_gap_m .*$', 'line_gap_m = 7'),
                                            name='other.toml')
        words = ['scout', None, '--out', self.folder / 'out']
        job = mpirun(1, *words[:1], bay, *words[2:]) + [':'] + mpirun(1, 'scout', other)[2:]
        result = subprocess.run(job, capture_output=True, text=True, timeout=120 * PATIENCE,
                                env=ROOT)
        self.assertEqual(result.returncode, 3, result.stderr)
        self.assertIn('process 1 of the job reads another plan', result.stderr)


@unittest.skipIf(HAS_MPI, 'this build is with MPI')
class WithoutMpi(Bay):
    def test_a_launcher_is_told_that_it_is_missing(self):
        result = run('scout', self.plan(), env={**os.environ, 'OMPI_COMM_WORLD_SIZE': '2'})
        self.assertEqual(result.returncode, 2, result.stderr)
        self.assertIn('built without MPI', result.stderr)


if __name__ == '__main__':
    main()

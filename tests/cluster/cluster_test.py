# SPDX-License-Identifier: Apache-2.0
"""scripts/cluster: its commands run by hand, and its jobs run by a scheduler of one node."""
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
SAMPLES = SOURCE / 'data-samples' / 'heron-bight'
SCRIPT = SOURCE / 'scripts' / 'cluster'
DAEMONS = ('munged', 'slurmctld', 'slurmd')
PATH = os.environ.get('PATH', '') + ':/usr/sbin:/sbin'
MISSING = [name for name in (*DAEMONS, 'sbatch') if shutil.which(name, path=PATH) is None]

CONF = """ClusterName=one
SlurmctldHost={host}(127.0.0.1)
SlurmctldPort={ports[0]}
SlurmdPort={ports[1]}
SlurmUser=root
AuthType=auth/munge
AuthInfo=socket={folder}/munge.socket
CredType=cred/munge
StateSaveLocation={folder}/state
SlurmdSpoolDir={folder}/spool
SlurmctldPidFile={folder}/slurmctld.pid
SlurmdPidFile={folder}/slurmd.pid
SlurmctldLogFile={folder}/slurmctld.log
SlurmdLogFile={folder}/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SchedulerType=sched/builtin
SwitchType=switch/none
MpiDefault=none
ReturnToService=2
MinJobAge=300
NodeName={host} NodeAddr=127.0.0.1 CPUs=1 State=UNKNOWN
PartitionName=all Nodes={host} Default=YES MaxTime=INFINITE State=UP
"""


def outputs(folder):
    """Bytes of every file of a finished run but run.json."""
    return {str(p.relative_to(folder)): p.read_bytes()
            for p in folder.rglob('*') if p.is_file() and p.name != 'run.json'}


def free_ports(count):
    sockets = [socket.socket() for _ in range(count)]
    for each in sockets:
        each.bind(('127.0.0.1', 0))
    ports = [each.getsockname()[1] for each in sockets]
    for each in sockets:
        each.close()
    return ports


class Cluster(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)
        self.folder.chmod(0o755)
        self.bay = self.folder / 'a bay'   # a blank must do no harm
        self.bay.mkdir()
        for file in SAMPLES.iterdir():
            if file.suffix != '.toml' and file.suffix != '.md':
                shutil.copy(file, self.bay)
        self.plan = self.bay / 'plan.toml'
        self.plan.write_text(re.sub(r'(?m)^cell_m = .*$', 'cell_m = 80',
                                    (SAMPLES / 'plan.toml').read_text()))
        self.env = {**os.environ, 'TIDELOT': PROGRAM, 'PATH': PATH}
        alone = self.folder / 'alone'
        subprocess.run([PROGRAM, 'scout', self.plan, '--out', alone], check=True,
                       capture_output=True)
        self.expected = outputs(alone)

    def script(self, *words):
        return subprocess.run([SCRIPT, *map(str, words)], capture_output=True, text=True,
                              env=self.env, timeout=60)

    def test_its_commands_by_hand(self):
        out = self.folder / 'out'
        printed = self.script('--print', self.plan, out, 2)
        self.assertEqual(printed.returncode, 0, printed.stderr)
        commands = printed.stdout.splitlines()
        self.assertEqual(len(commands), 3)
        for command in commands:
            subprocess.run(command, shell=True, check=True, capture_output=True)
        self.assertEqual(outputs(out), self.expected)

    def test_words_that_are_wrong(self):
        for words in ((), (self.plan, self.folder / 'out'), (self.plan, self.folder / 'out', 0)):
            result = self.script(*words)
            self.assertEqual(result.returncode, 2)
            self.assertIn('scripts/cluster PLAN DIR PARTS', result.stderr)
        self.assertFalse((self.folder / 'out').exists())

    def scheduler(self):
        """Starts a scheduler of one node; skips the test where it does not come up."""
        if MISSING:
            self.skipTest(f'not installed: {", ".join(MISSING)}')
        if os.getuid() != 0:
            self.skipTest('the daemons of a scheduler start as root only')
        top = self.folder / 'slurm'
        (top / 'state').mkdir(parents=True)
        (top / 'spool').mkdir()
        (top / 'slurm.conf').write_text(CONF.format(
            host=socket.gethostname().split('.')[0], ports=free_ports(2), folder=top))
        (top / 'munge.key').write_bytes(os.urandom(128))
        (top / 'munge.key').chmod(0o400)
        self.env['SLURM_CONF'] = str(top / 'slurm.conf')
        self.daemons = []
        self.addCleanup(self.end_daemons)
        self.start('munged', '--foreground', '--force', f'--socket={top}/munge.socket',
                   f'--key-file={top}/munge.key', f'--pid-file={top}/munge.pid',
                   f'--log-file={top}/munge.log', f'--seed-file={top}/munge.seed')
        self.start('slurmctld', '-D')
        self.start('slurmd', '-D')
        deadline = time.monotonic() + 30
        while time.monotonic() < deadline:
            state = subprocess.run(['sinfo', '-h', '-o', '%T'], capture_output=True, text=True,
                                   env=self.env)
            if state.stdout.strip() == 'idle':
                return
            time.sleep(0.2)
        logs = [log.read_text()[-600:] for log in top.glob('slurm*.log')]
        self.skipTest(f'no scheduler can be started here: {state.stdout}{state.stderr} {logs}')

    def start(self, *words):
        self.daemons.append(subprocess.Popen(words, env=self.env, stdout=subprocess.DEVNULL,
                                             stderr=subprocess.DEVNULL))

    def end_daemons(self):
        for daemon in reversed(self.daemons):
            daemon.terminate()
            try:
                daemon.wait(timeout=20)
            except subprocess.TimeoutExpired:
                daemon.kill()
                daemon.wait()

    def test_its_jobs_under_a_scheduler(self):
        self.scheduler()
        out = self.bay / 'out'
        result = self.script(self.plan, out, 2)
        self.assertEqual(result.returncode, 0, result.stderr)
        deadline = time.monotonic() + 120
        while not (out / 'run.json').exists() and time.monotonic() < deadline:
            time.sleep(0.2)
        said = {log.name: log.read_text() for log in self.bay.glob('out-*.log')}
        self.assertTrue((out / 'run.json').exists(), said)
        self.assertEqual(sorted(said), ['out-join.log', 'out-part-1.log', 'out-part-2.log'])
        self.assertIn('Part 2 of 2', said['out-part-2.log'])
        while list(out.glob('.tidelot-*')) and time.monotonic() < deadline:
            time.sleep(0.2)   # run.json stands a moment before the parts go
        self.assertEqual(outputs(out), self.expected)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

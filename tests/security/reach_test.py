# SPDX-License-Identifier: Apache-2.0
"""What a run of a hostile input reaches, by its calls: no address on any network, no other program,
and no file to write outside of the folder of its results. The inputs are those of
tests/fuzz/hostile_test.py, where each also ends as it is due.

Environment: TIDELOT_REACH (how many of them, 16), TIDELOT_REACH_SEED (which, 1).

usage: reach_test.py PROGRAM SOURCE_FOLDER
"""
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'fuzz'))
from hostile_test import ANY, CASES, GOOD, name, plan, text  # noqa: E402
from mutate_test import verdict  # noqa: E402
from little_bay import make_bay  # noqa: E402
from little_run import may_trace  # noqa: E402

REACH = int(os.environ.get('TIDELOT_REACH', '16'))
SEED = int(os.environ.get('TIDELOT_REACH_SEED', '1'))
CALLS = 'socket,connect,sendto,execve,open,openat,creat,rename,renameat,renameat2,unlink,unlinkat,mkdir'
TEXT = re.compile(r'"((?:[^"\\]|\\.)*)"')
WRITES = re.compile(r'O_(WRONLY|RDWR|CREAT|TRUNC)')
# Besides those of the other test: names of places on a network, wherever a name may stand.
ADDRESSES = ('http://127.0.0.1:9/x', 'https://127.0.0.1:9/x.tif', 'ftp://127.0.0.1:9/x',
             '/vsicurl/http://127.0.0.1:9/x.tif', '/vsis3/bucket/x.tif', '/vsigzip//vsicurl/http://127.0.0.1:9/x',
             'WMS:http://127.0.0.1:9/', 'file://127.0.0.1/x.tif', '\\\\\\\\127.0.0.1\\\\share\\\\x.tif',
             'smb://127.0.0.1/x', 'postgresql://127.0.0.1:9/x', 'PG:host=127.0.0.1')
OF_NETWORK = [(f'{old} is {address}', plan((f'"{old}"', f'"{address}"')), (2, 3))
              for old in ('depth.tif', 'temperature.nc', 'outfall.geojson') for address in ADDRESSES]
OF_NETWORK += [(f'system is {address}', text('area.prj', address), ANY) for address in ADDRESSES[:3]]
OF_NETWORK += [(f'area.crs is {address}', plan(('cell_m = 100', f'cell_m = 100\ncrs = "{address}"')), (2, 3))
               for address in ADDRESSES[:3]]
LINKED = '{"type": "FeatureCollection", "crs": {"type": "link", "properties": {"href": "%s"}}, "features": []}'
OF_NETWORK += [(f'system of a GeoJSON is {address}', text('outfall.geojson', LINKED % address), (3,))
               for address in ADDRESSES[:2]]
OF_NETWORK += [('address in a name', name(ADDRESSES[0]), GOOD)]


def beyond(trace, folder):
    """Calls that reach further than the folder above the inputs."""
    found, started = [], 0
    for line in trace.read_text(errors='replace').splitlines():
        call = re.sub(r'^\d+ +', '', line)
        paths = TEXT.findall(call)
        if call.startswith('execve('):
            started += 1
        elif re.match(r'(socket|connect|sendto)\(.*(AF_INET|AF_PACKET)', call):
            found.append(call)
        elif 'EEXIST' not in call and (call.startswith(('rename', 'unlink', 'mkdir', 'creat')) or (
                call.startswith('open') and WRITES.search(call))):
            found += [call for path in paths
                      if path.startswith('/') and not path.startswith((str(folder), '/dev/null'))]
    return found + (['another program was started'] if started > 1 else [])


@unittest.skipUnless(may_trace(), 'strace may not trace here')
class Reach(unittest.TestCase):
    def setUp(self):
        self.top = Path(tempfile.mkdtemp(prefix='tidelot-reach-')).resolve()
        self.addCleanup(shutil.rmtree, self.top, ignore_errors=True)
        make_bay(self.top / 'bay')

    def reached(self, number, case):
        what, change, allowed = case
        folder, trace = self.top / f'h{number}', self.top / f'trace{number}'
        shutil.copytree(self.top / 'bay', folder)
        change(folder)
        wrong = verdict(folder, allowed=allowed, before=('strace', '-f', '--seccomp-bpf', '-s', '4096', '-e',
                                                         f'trace={CALLS}', '-o', trace))
        found = [wrong] if wrong else []
        found += beyond(trace, self.top)
        shutil.rmtree(folder)
        shutil.rmtree(f'{folder}-out', ignore_errors=True)
        trace.unlink()
        return [f'{what}: {each}' for each in found]

    def test_hostile_inputs_reach_nothing(self):
        cases = [*CASES, *OF_NETWORK]
        drawn = random.Random(SEED).sample(cases, min(REACH, len(cases)))
        found = [each for number, case in enumerate(drawn) for each in self.reached(number, case)]
        print(len(drawn), 'inputs of', len(cases), 'seed', SEED)
        self.assertEqual(found, [], f'{len(found)} calls')

    def test_a_call_that_reaches_further_is_seen(self):
        trace = self.top / 'trace'
        for program in ("import socket; socket.socket()", "open('/var/tmp/tidelot-reach', 'w')",
                        "import subprocess; subprocess.run('true')"):
            subprocess.run(['strace', '-f', '-e', f'trace={CALLS}', '-o', trace, sys.executable, '-B', '-c',
                            program], check=True)
            self.assertTrue(beyond(trace, self.top), program)
        Path('/var/tmp/tidelot-reach').unlink()


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

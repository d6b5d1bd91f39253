# SPDX-License-Identifier: Apache-2.0
"""The memory of a run: predicted, kept to, and without a trace in the results."""
import json
import re
import resource
import subprocess
import unittest

from bay import PROGRAM, Bay, main, run   # which finds tests/support, too
from build_cache import WHY, is_sanitized

MIB = 1 << 20


def outputs(folder):
    """Bytes of every file of a finished run but run.json."""
    return {str(p.relative_to(folder)): p.read_bytes()
            for p in folder.rglob('*') if p.is_file() and p.name != 'run.json'}


def told(folder):
    return json.loads((folder / 'run.json').read_text())['memory']


class Memory(Bay):
    what_if = True

    def held(self, plan, name, *words, **options):
        out = self.folder / name
        result = subprocess.run([PROGRAM, 'scout', plan, '--out', out, '--quiet', '--threads', '2',
                                 *words], capture_output=True, text=True, **options)
        return out, result

    def fine(self):
        """A plan with more cells than the rest of the bay's tests have."""
        return self.plan((r'^cell_m = .*$', 'cell_m = 8'))

    @unittest.skipIf(is_sanitized(PROGRAM), WHY)
    def test_a_ceiling_changes_no_byte_and_is_kept(self):
        plan = self.fine()
        free, result = self.held(plan, 'free')
        self.assertEqual(result.returncode, 0, result.stderr)
        need = told(free)
        self.assertIsNone(need['ceiling_mib'])
        self.assertLessEqual(need['peak_mib'], need['predicted_mib'])
        out, result = self.held(plan, 'none', '--memory', '64M')
        ceiling = int(re.search(r'the run needs (\d+) MiB', result.stderr)[1]) + 4
        self.assertLess(ceiling, need['predicted_mib'] - 40)
        held, result = self.held(plan, 'held', '--memory', f'{ceiling}M')
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual(told(held)['ceiling_mib'], ceiling)
        self.assertLessEqual(told(held)['predicted_mib'], ceiling)
        self.assertLessEqual(told(held)['peak_mib'], ceiling)
        self.assertEqual(outputs(held), outputs(free))

    @unittest.skipIf(is_sanitized(PROGRAM), WHY)
    def test_the_system_may_hold_it_to_what_is_predicted(self):
        plan = self.fine()
        free, result = self.held(plan, 'free')
        self.assertEqual(result.returncode, 0, result.stderr)
        # Of its own the process may have what is predicted without the pages of files.
        most = told(free)['predicted_mib'] * MIB
        held, result = self.held(plan, 'held', preexec_fn=lambda: resource.setrlimit(
            resource.RLIMIT_DATA, (most, most)))
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual(outputs(held), outputs(free))

    def test_what_does_not_fit_is_refused_before_anything_is_written(self):
        out, result = self.held(self.plan(), 'none', '--memory', '64M')
        self.assertEqual(result.returncode, 2)
        self.assertRegex(result.stderr, r'--memory: the run needs \d+ MiB with 2 threads, and '
                                        r'64 MiB are allowed; .*fewer --threads')
        self.assertFalse(out.exists())

    def test_a_size_is_a_number_with_its_unit(self):
        for size in ('7', 'G', '-1G', '1T', '1GB', '0M', '1e30G', 'nanG', ' 1 G'):
            out, result = self.held(self.plan(), 'none', f'--memory={size}')
            self.assertEqual(result.returncode, 2, size)
            self.assertIn('--memory', result.stderr)
            self.assertFalse(out.exists())
        out, result = self.held(self.plan(), 'some', '--memory', '1.5G')
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual(told(out)['ceiling_mib'], 1536)

    def test_check_tells_it(self):
        plan = self.plan()
        result = run('check', plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        most = int(re.search(r'^Memory: .* up to (\d+) MiB', result.stdout, re.M)[1])
        as_json = json.loads(run('check', plan, '--json').stdout)
        self.assertAlmostEqual(as_json['memory_bytes'] / MIB, most, delta=most / 20)

    def test_nothing_is_left_beside_the_results(self):
        out, result = self.held(self.fine(), 'free', '--memory', '1G')
        self.assertEqual(result.returncode, 0, result.stderr)
        named = set(json.loads((out / 'run.json').read_text())['outputs'])
        self.assertEqual({str(p.relative_to(out)) for p in out.rglob('*') if p.is_file()}, named)


if __name__ == '__main__':
    main()

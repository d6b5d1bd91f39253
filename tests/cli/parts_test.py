# SPDX-License-Identifier: Apache-2.0
"""A run that several processes compute in parts, joined to the results of one."""
import re
import subprocess
import unittest

from bay import PROGRAM, Bay, main, run

WHOLE = []   # of whole()


def outputs(folder):
    """Bytes of every file of a finished run but run.json."""
    return {str(p.relative_to(folder)): p.read_bytes()
            for p in folder.rglob('*') if p.is_file() and p.name != 'run.json'}


class Parts(Bay):
    what_if = True

    def setUp(self):
        super().setUp()
        self.bay = self.plan()
        self.out = self.folder / 'out'

    def whole(self):
        """What one process leaves; run once."""
        if not WHOLE:
            out = self.folder / 'whole'
            result = run('scout', self.bay, '--out', out)
            self.assertEqual(result.returncode, 0, result.stderr)
            WHOLE.append(outputs(out))
        return WHOLE[0]

    def part(self, part):
        result = run('scout', self.bay, '--out', self.out, '--part', part, '--threads', 1)
        self.assertEqual(result.returncode, 0, result.stderr)
        return result.stdout

    def file(self, number, of):
        return self.out / f'.tidelot-part-{number}-of-{of}'

    def join(self):
        return run('join', self.bay, '--out', self.out)

    def join_refused(self, *fragments):
        result = self.join()
        self.assertEqual(result.returncode, 3, result.stderr)
        self.assertEqual(len(result.stderr.splitlines()), 1, result.stderr)
        for fragment in fragments:
            self.assertIn(str(fragment), result.stderr)
        return result.stderr

    def test_parts_at_once_are_joined_to_the_bytes_of_one_run(self):
        expected = self.whole()
        started = [subprocess.Popen([PROGRAM, 'scout', self.bay, '--out', self.out, '--part',
                                     f'{k}/3', '--threads', str(k)],
                                    stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
                   for k in (1, 2, 3)]
        said = [process.communicate() for process in started]
        for process, (_, wrong) in zip(started, said):
            self.assertEqual(process.returncode, 0, wrong)
        tiles = [list(map(int, re.search(r': (\d+) of (\d+) tiles', told).groups()))
                 for told, _ in said]
        self.assertEqual(sum(some for some, _ in tiles), tiles[0][1])
        self.assertTrue(any('All parts stand' in told for told, _ in said))
        command = re.search(r'tidelot (join .*)$', said[0][0], re.M).group(1)
        joined = run(*command.split())
        self.assertEqual(joined.returncode, 0, joined.stderr)
        self.assertIn('open report.html', joined.stdout)
        self.assertEqual(outputs(self.out), expected)   # and so the parts are gone

    def test_what_stands_in_the_way_is_named_with_the_command_that_helps(self):
        self.join_refused('holds no part', '--part 1/2')
        self.part('2/2')
        said = self.join_refused(self.file(1, 2), 'is missing')
        again = re.search(r'tidelot (scout .*)$', said).group(1)
        self.assertEqual(run(*again.split()).returncode, 0)
        self.part('1/3')
        self.join_refused('different divisions', self.file(1, 2), self.file(1, 3))
        self.file(1, 3).unlink()
        whole = self.file(2, 2).read_bytes()
        self.file(2, 2).write_bytes(whole[:-100])
        self.join_refused(self.file(2, 2), 'not whole', '--part 2/2')
        self.assertEqual(sorted(p.name for p in self.out.iterdir()),
                         [self.file(1, 2).name, self.file(2, 2).name])
        self.file(2, 2).write_bytes(whole)
        self.bay.write_text(re.sub(r'(?m)^line_gap_m .*$', 'line_gap_m = 7', self.bay.read_text()))
        self.join_refused(self.file(1, 2), 'another plan', '--part 1/2')

    def test_an_earlier_result_stands_until_the_parts_are_joined(self):
        expected = self.whole()
        self.assertEqual(run('scout', self.bay, '--out', self.out).returncode, 0)
        before = (self.out / 'run.json').read_bytes()
        self.assertIn('All parts stand', self.part('1/1'))
        self.assertEqual((self.out / 'run.json').read_bytes(), before)
        self.assertEqual(self.join().returncode, 0)
        self.assertEqual(outputs(self.out), expected)

    def test_more_parts_than_tiles(self):
        self.plan((r'^cell_m = .*$', 'cell_m = 150'))
        whole = self.folder / 'whole'
        self.assertEqual(run('scout', self.bay, '--out', whole).returncode, 0)
        first = self.part('1/9')
        tiles = int(re.search(r'of (\d+) tiles', first).group(1))
        self.assertLess(tiles, 5)
        self.assertIn('Missing: 2, 3', first)
        self.file(1, 9).unlink()
        for k in range(1, tiles + 2):
            self.part(f'{k}/{tiles + 1}')
        self.assertEqual(self.join().returncode, 0)
        self.assertEqual(outputs(self.out), outputs(whole))

    def test_parts_that_are_none(self):
        for part in ('0/3', '4/3', '1', '1/', '/2', 'a/b', '1/3x', '+1/3', '1/99999', '-1/-1',
                     '1 /3', ''):
            result = run('scout', self.bay, '--out', self.out, f'--part={part}')
            self.assertEqual(result.returncode, 2, part)
            self.assertEqual(len(result.stderr.splitlines()), 1, result.stderr)
            self.assertIn('--part', result.stderr)
        for other in (('--resume',), ('--sheets', self.folder)):
            self.assertEqual(run('scout', self.bay, '--part', '1/2', *other).returncode, 2)
        self.assertFalse(self.out.exists())


if __name__ == '__main__':
    main()

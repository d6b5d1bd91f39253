# SPDX-License-Identifier: Apache-2.0
"""Runs that are stopped among their tiles, and runs that go on with them; tests/faults/kills_test.py
stops them anywhere."""
import json
import re
import signal
import subprocess
import time
import unittest

from bay import PROGRAM, Bay, main, run   # which finds tests/support, too
from build_cache import patience

WORK = '.tidelot-work-'
PATIENCE = patience(PROGRAM)
WHOLE = []   # of whole()


def outputs(folder):
    """Bytes of every file of a finished run but run.json."""
    return {str(p.relative_to(folder)): p.read_bytes()
            for p in folder.rglob('*') if p.is_file() and p.name != 'run.json'}


def visible(folder):
    return [p for p in folder.iterdir() if not p.name.startswith(WORK)] if folder.exists() else []


class Resume(Bay):
    draws = 64   # a run must last long enough to be stopped, above all in its tiles

    def setUp(self):
        super().setUp()
        self.bay = self.plan((r'^cell_m = .*$', 'cell_m = 20'), (r'^count .*$', 'count = 1'))

    def start(self, out, *words):
        return subprocess.Popen([PROGRAM, 'scout', self.bay, '--out', out, '--quiet', *words],
                                stderr=subprocess.PIPE, stdout=subprocess.PIPE, text=True)

    def whole(self):
        """What an undisturbed run leaves; run once."""
        if not WHOLE:
            out = self.folder / 'whole'
            result = run('scout', self.bay, '--out', out)
            self.assertEqual(result.returncode, 0, result.stderr)
            WHOLE.append(outputs(out))
        return WHOLE[0]

    def wait_for_tiles(self, process, out, tiles):
        """Until so many tiles are noted."""
        deadline = time.monotonic() + 100 * PATIENCE
        while process.poll() is None and time.monotonic() < deadline:
            ledgers = list(out.glob(f'{WORK}*/unfinished/tiles'))
            if ledgers and ledgers[0].read_bytes().count(b'\n') > tiles:
                return
            time.sleep(0.002)
        self.fail('no tile was finished in time')

    def resumed(self, out):
        result = run('scout', self.bay, '--out', out, '--resume', '--threads', 1)
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual(list(out.glob(f'{WORK}*')), [])
        return result.stdout, json.loads((out / 'run.json').read_text())['kept_cells']

    def test_stopped_by_a_signal_it_says_so_and_goes_on(self):
        expected = self.whole()
        for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            out = self.folder / f'out{int(number)}'
            process = self.start(out, '--threads', '1')
            self.wait_for_tiles(process, out, 2)
            begin = time.monotonic()
            process.send_signal(number)
            _, said = process.communicate(timeout=60 * PATIENCE)
            self.assertLess(time.monotonic() - begin, 30)
            self.assertEqual(process.returncode, 128 + number, said)
            self.assertRegex(said, r'^tidelot: stopped by a signal; .* --resume goes on there\n$')
            self.assertEqual(visible(out), [])
            told, kept = self.resumed(out)
            self.assertGreater(kept, 0)
            self.assertIn('Went on with a stopped run', told)
            self.assertEqual(outputs(out), expected)

    def test_an_earlier_result_stays_when_a_later_run_is_killed(self):
        out = self.folder / 'out'
        self.assertEqual(run('scout', self.bay, '--out', out).returncode, 0)
        before = {p: p.read_bytes() for p in out.rglob('*') if p.is_file()}
        process = self.start(out, '--threads', '1')
        self.wait_for_tiles(process, out, 2)
        process.kill()
        process.communicate(timeout=60 * PATIENCE)
        self.assertEqual({p: p.read_bytes() for p in before}, before)
        self.assertGreater(self.resumed(out)[1], 0)

    def test_torn_tiles_are_computed_again(self):
        expected = self.whole()
        out = self.folder / 'out'
        process = self.start(out, '--threads', '1')
        self.wait_for_tiles(process, out, 4)
        process.kill()
        process.communicate(timeout=60 * PATIENCE)
        cells = next(out.glob(f'{WORK}*/unfinished/cells'))
        ledger = next(out.glob(f'{WORK}*/unfinished/tiles'))
        raw = bytearray(cells.read_bytes())
        raw[0] ^= 1                       # the first cell of the first tile
        cells.write_bytes(raw)
        ledger.write_bytes(ledger.read_bytes()[:-3])   # the last line cut off
        self.resumed(out)
        self.assertEqual(outputs(out), expected)

    def test_spoilt_tiles_are_computed_again(self):
        """Every fourth byte of a page in three: one bit in a cell that is not shown would prove little."""
        expected = self.whole()
        out = self.folder / 'out'
        process = self.start(out, '--threads', '1')
        self.wait_for_tiles(process, out, 4)
        process.kill()
        process.communicate(timeout=60)
        cells = next(out.glob(f'{WORK}*/unfinished/cells'))
        raw = bytearray(cells.read_bytes())
        for page in range(0, len(raw), 3 * 4096):
            raw[page + 2:page + 4096:4] = bytes(b ^ 0x55 for b in raw[page + 2:page + 4096:4])
        cells.write_bytes(raw)
        self.resumed(out)
        self.assertEqual(outputs(out), expected)

    def test_what_another_plan_left_is_not_taken(self):
        out = self.folder / 'out'
        process = self.start(out, '--threads', '1')
        self.wait_for_tiles(process, out, 2)
        process.kill()
        process.communicate(timeout=60 * PATIENCE)
        self.bay.write_text(re.sub(r'(?m)^line_gap_m .*$', 'line_gap_m = 7',
                                   self.bay.read_text()))
        told, kept = self.resumed(out)
        self.assertEqual(kept, 0)
        self.assertIn('everything was computed', told)

    def test_nothing_to_go_on_with_is_said(self):
        told, kept = self.resumed(self.folder / 'out')
        self.assertEqual(kept, 0)
        self.assertIn('No stopped run', told)

    def test_without_resume_what_was_left_goes_away(self):
        out = self.folder / 'out'
        process = self.start(out, '--threads', '1')
        self.wait_for_tiles(process, out, 2)
        process.kill()
        process.communicate(timeout=60 * PATIENCE)
        result = run('scout', self.bay, '--out', out)
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertEqual(list(out.glob(f'{WORK}*')), [])
        self.assertIsNone(json.loads((out / 'run.json').read_text())['kept_cells'])


def outputs_but_work(folder):
    return {name: raw for name, raw in outputs(folder).items() if not name.startswith(WORK)}


if __name__ == '__main__':
    main()

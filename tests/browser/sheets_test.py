# SPDX-License-Identifier: Apache-2.0
"""The sheets for print in headless Chromium and on paper: a page a sheet, scales that hold, no text on
another, and hatches that a black-and-white copy keeps.

usage: sheets_test.py PROGRAM SOURCE_FOLDER
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from html import unescape
from pathlib import Path

import numpy as np
from osgeo import gdal

from looking import BAY, PROGRAM, shared_run

gdal.UseExceptions()
PLAN = BAY / 'plan.toml'
DPI = 300
PT_PER_MM = 72 / 25.4


def same_place(a, b):
    """A text with a white rim is drawn twice in one place, the boxes of unlike height; it is one
    word."""
    return (a[0] == b[0] and abs(a[1] - b[1]) < 0.1 and abs(a[3] - b[3]) < 0.1
            and abs(a[2] + a[4] - b[2] - b[4]) < 0.4)


def words(pdf):
    """Per page: (text, left, top, right, bottom) of every word, mm."""
    xml = subprocess.run(['pdftotext', '-bbox', pdf, '-'], check=True, capture_output=True,
                         text=True).stdout
    pages = []
    for page in re.split(r'<page ', xml)[1:]:
        found = re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">'
                           r'(.*?)</word>', page)
        page_words = []
        for *box, text in found:
            word = (text, *(float(v) / PT_PER_MM for v in box))
            if not any(same_place(word, other) for other in page_words):
                page_words.append(word)
        pages.append(page_words)
    return pages


def copy_of(pdf, page, folder):
    """A page as a copier without grey gives it: True is ink."""
    png = folder / f'page-{page}'
    subprocess.run(['pdftoppm', '-r', str(DPI), '-f', str(page), '-l', str(page), '-gray',
                    '-singlefile', '-png', pdf, png], check=True, timeout=300)
    grey = gdal.Open(f'{png}.png').ReadAsArray()
    return (grey if grey.ndim == 2 else grey[0]) < 128


def look(ink):
    """What tells a hatch: its share of ink, and how it looks shifted along four directions."""
    shares = [ink.mean()]
    for down, right in ((0, 6), (6, 0), (6, 6), (6, -6)):
        shifted = np.roll(np.roll(ink, down, 0), right, 1)
        shares.append((ink & shifted).mean())
    return np.array(shares)


def plan_with(folder, draws, *changes):
    """Heron Bight with coarse cells, for what does not hang on its maps."""
    folder.mkdir()
    for file in PLAN.parent.iterdir():
        if file != PLAN:
            shutil.copy(file, folder)
    text = re.sub(r'(?m)^cell_m = .*$', 'cell_m = 60', PLAN.read_text())
    for old, new in ((r'[load]', f'[uncertainty]\ndraws = {draws}\n[load]'), *changes):
        assert old in text, old
        text = text.replace(old, new, 1)
    plan = folder / 'plan.toml'
    plan.write_text(text)
    return plan


EVIL = '</script><img src=x onerror=alert(1)>\\"\'&<!--'


def crowded_plan(folder, paper):
    """Twenty rules and twenty sites, all names long, some without a space, some hostile; five marks,
    markers every 15 m."""
    names = ('the north-eastern small-craft anchorage and storm refuge off Lower Heron Point',
             f'{EVIL} channel', 'Ungebrochenerlangernameeinesschutzgebiets' * 2)
    rules = ''.join(f"""
[[closed]]
name = "{i} {names[i % 3]}"
file = "closed.gpkg"
layer = "{('eelgrass', 'channel', 'moorings', 'leases')[i % 4]}"
setback_m = {10 + i}
effect = "{('close', 'caution')[i % 2]}"
months = [5, 6, 7]
sheet = "{('uses', 'habitat')[i % 5 == 0]}"
rule = "{'An authority, a section, a paragraph and a date, as they come from counsel. ' * 3}"
""" for i in range(13))
    marks = ''.join(f'\n[[report.marks]]\nname = "beacon {i} at the head of the {names[0]}"\n'
                    f'at = [-30.05{i}, 41.03]\n' for i in range(3))
    return plan_with(
        folder, 4, ('[crop]', f'{rules}\n[crop]'),
        ('title = "Heron Bight, summer"', f'title = "The whole bight from the mouth to the upper '
         f'bridge, with the western creek, second submission {EVIL}"'),
        ('waterbody = "Heron Bight"', f'waterbody = "The bight, its western and eastern arms, the '
         f'creek and the river {EVIL}"\napplicant = "The Cooperative of Seaweed Growers of Upper and '
         f'Lower Heron Bight, and Neighbours {EVIL}"\ndate = "2026-06-14"\npaper = "{paper}"\n'
         'marker_gap_m = 15'),
        ('count           = 5', 'count           = 20'),
        ('"harbour light"', f'"harbour light on the {names[0]} {EVIL}"'),
        ('at   = [-30.0480, 41.0020]\n', f'at   = [-30.0480, 41.0020]\n{marks}'))


class OnPaper(unittest.TestCase):
    """What holds of every page of a PDF; width and height in mm."""

    def inside(self, pages, width, height):
        for number, page in enumerate(pages, 1):
            for word, left, top, right, bottom in page:
                self.assertGreater(top, 25.4, (number, word))
                self.assertLess(bottom, height - 5, (number, word))
                self.assertGreater(left, 12, (number, word))
                self.assertLess(right, width - 12, (number, word))

    def apart(self, pages):
        for number, page in enumerate(pages, 1):
            for i, (one, l1, t1, r1, b1) in enumerate(page):
                for other, l2, t2, r2, b2 in page[i + 1:]:
                    # A font's box is taller than its letters: a fifth off above and below.
                    o1, o2 = 0.2 * (b1 - t1), 0.2 * (b2 - t2)
                    across = min(r1, r2) - max(l1, l2)
                    down = min(b1 - o1, b2 - o2) - max(t1 + o1, t2 + o2)
                    self.assertFalse(across > 0.25 and down > 0.25, (number, one, other, across, down))


class Crowded(OnPaper):
    """Many rules, sites and markers, long and hostile names: nothing runs into the foot, off the
    paper, or is cut off."""

    def on(self, paper, width, height):
        with tempfile.TemporaryDirectory(prefix='tidelot-crowded-') as name:
            folder = Path(name)
            plan = crowded_plan(folder / 'bay', paper)
            subprocess.run([PROGRAM, 'scout', plan, '--out', folder / 'out', '--quiet', '--sheets',
                            folder / 'print'], capture_output=True, text=True, check=True,
                           timeout=500)
            html = (folder / 'out' / 'sheets.html').read_text()
            pages = words(folder / 'print' / 'sheets.pdf')
            xml = subprocess.run(['pdftotext', folder / 'print' / 'sheets.pdf', '-'], check=True,
                                 capture_output=True, text=True).stdout
        sheets = html.count('<section class="sheet">')
        self.assertEqual(len(pages), sheets)
        self.assertEqual(sheets, 14 + 2, 'twenty sites take three sheets')
        self.inside(pages, width, height)
        self.apart(pages)
        self.assertNotIn('<img', html)
        for sheet, text in zip(re.split(r'<section class="sheet">', html)[1:], xml.split('\f')):
            drawn = ' '.join(re.sub(r'\s+', ' ', text).split())
            for item in re.findall(r'<li>.*?<span>(.*?)</span></li>|<p>(.*?)</p>', sheet, re.S):
                said = unescape(re.sub(r'<[^>]+>', '', ''.join(item))).split()
                self.assertIn(said[-1], drawn)  # the last word of each is on the paper

    def test_on_letter(self):
        self.on('letter', 215.9, 279.4)

    def test_on_a4(self):
        self.on('A4', 210.0, 297.0)


class Sheets(OnPaper):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-sheets-'))
        run = shared_run(cls.folder / 'run')
        cls.out, cls.pdf = run / 'out', run / 'print' / 'sheets.pdf'
        cls.said = (run / 'said').read_text()
        cls.quick = plan_with(cls.folder / 'bay', 0)
        cls.html = (cls.out / 'sheets.html').read_text()
        cls.pages = words(cls.pdf)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder, ignore_errors=True)

    def test_a_page_a_sheet_on_the_paper_that_was_asked_for(self):
        sheets = len(re.findall(r'<section class="sheet">', self.html))
        self.assertEqual(len(self.pages), sheets)
        self.assertIn(f'{sheets} sheets for print', self.said)
        info = subprocess.run(['pdfinfo', self.pdf], check=True, capture_output=True, text=True).stdout
        self.assertRegex(info, r'Page size: +612 x 792')
        for number, page in enumerate(self.pages, 1):
            text = ' '.join(word for word, *_ in page)
            self.assertIn(f'Sheet {number} of {sheets}', text)

    def test_an_inch_is_clear_at_the_top_and_no_word_leaves_the_paper(self):
        self.inside(self.pages, 215.9, 279.4)

    def test_no_word_stands_on_another(self):
        self.apart(self.pages)

    def test_the_scale_that_is_said_holds_in_the_drawing(self):
        bars = 0
        for svg in re.findall(r'<svg class="drawing" width="([\d.]+)mm" height="([\d.]+)mm" '
                              r'viewBox="0 0 ([\d.]+) ([\d.]+)"(.*?)</svg>', self.html, re.S):
            self.assertEqual(svg[:2], svg[2:4])  # a unit is a millimetre
            said = re.search(r'(?:Scale|Along:|Across:) 1 : ([\d ]+)', svg[4])
            self.assertIsNotNone(said) if 'scale-bar' in svg[4] else None
            for bar in re.findall(r'<g class="scale-bar">(.*?)</g>', svg[4], re.S):
                metres = re.search(r'>([\d,]+) (m|km)<', bar)
                length = float(metres[1].replace(',', '')) * (1000 if metres[2] == 'km' else 1)
                widths = [float(w) for w in re.findall(r'<rect [^>]*? width="([\d.]+)"', bar)][:4]
                scale = float(said[1].replace(' ', ''))
                self.assertAlmostEqual(sum(widths), length * 1000 / scale, delta=0.03)
                feet = re.search(r'>([\d,]+) ft<', bar)
                widths = [float(w) for w in re.findall(r'<rect [^>]*? width="([\d.]+)"', bar)][4:]
                self.assertAlmostEqual(sum(widths),
                                       float(feet[1].replace(',', '')) * 0.3048 * 1000 / scale,
                                       delta=0.03)
                bars += 1
        self.assertGreaterEqual(bars, 14)

    def test_corners_on_paper_are_as_far_apart_as_the_site_is_long(self):
        plan = re.search(r'<svg class="drawing"[^>]*aria-label="Plan view of site S01">(.*?)</svg>',
                         self.html, re.S)[1]
        scale = float(re.search(r'Scale 1 : ([\d ]+)', plan)[1].replace(' ', ''))
        ring = re.search(r'class="casing" d="(M[^"]*Z)" stroke-width="1.3"', plan)[1]
        spots = np.array([[float(v) for v in p.split()] for p in re.findall(r'[ML]([^MLZ]*)', ring)])
        import csv
        site = next(csv.DictReader((self.out / 'sites.csv').read_text().splitlines()))
        sides = [float(v) for v in re.split(r'[; ]+', site['sides_m'])]
        for i, side in enumerate(sides):
            drawn = np.hypot(*(spots[(i + 1) % 4] - spots[i])) * scale / 1000
            self.assertAlmostEqual(drawn, side, delta=0.1 + 0.0005 * side)

    def test_a_copy_without_grey_keeps_the_hatches_apart(self):
        """Squares of every pattern in one place, printed, and taken to one bit."""
        names = re.findall(r'<pattern id="([a-z0-9-]+)"', self.html)
        patterns = re.search(r'<svg class="patterns".*?</svg>', self.html, re.S)[0]
        style = re.search(r'<style>(.*?)</style>', self.html, re.S)[1]
        boxes = ''.join(f'<rect x="{20 * (i % 6) + 2}" y="{20 * (i // 6) + 2}" width="16" height="16" '
                        f'fill="url(#{name})"/>' for i, name in enumerate(names))
        page = self.folder / 'hatches.html'
        page.write_text(f'<!DOCTYPE html><meta charset="utf-8"><style>{style}</style>{patterns}'
                        f'<section class="letter"><svg class="drawing" width="140mm" height="100mm" '
                        f'viewBox="0 0 140 100" style="position:absolute;left:0;top:0">'
                        f'<g stroke="none">{boxes}</g></svg></section>')
        pdf = self.folder / 'hatches.pdf'
        subprocess.run(['chromium', '--headless', '--no-sandbox', '--disable-gpu',
                        f'--user-data-dir={self.folder / "profile"}', '--no-pdf-header-footer',
                        f'--print-to-pdf={pdf}', page.as_uri()], check=True, capture_output=True,
                       timeout=180)
        ink = copy_of(pdf, 1, self.folder)
        mm = DPI / 25.4
        looks = {}
        for i, name in enumerate(names):
            x, y = (20 * (i % 6) + 4) * mm, (20 * (i // 6) + 4) * mm
            looks[name] = look(ink[int(y):int(y + 12 * mm), int(x):int(x + 12 * mm)])
        steps = [looks[f'step-{i}'][0] for i in range(5)]
        for less, more in zip(steps, steps[1:]):
            self.assertGreater(more, less + 0.05, steps)
        groups = [[n for n in names if n.startswith('class')],
                  [n for n in names if n.startswith('step')] + ['land', 'unknown', 'closed']]
        for group in groups:
            for i, one in enumerate(group):
                for other in group[i + 1:]:
                    self.assertGreater(np.abs(looks[one] - looks[other]).max(), 0.03, (one, other))

    def test_the_page_asks_for_nothing_and_runs_nothing(self):
        self.assertIn("default-src 'none'", self.html)
        self.assertNotRegex(self.html, r'(?i)<script|(src|href)\s*=\s*["\']?\s*https?:')
        self.assertLess(len(self.html), 3_000_000)

    def test_without_a_browser_it_says_how(self):
        result = subprocess.run([PROGRAM, 'scout', self.quick, '--out', self.folder / 'bare', '--quiet',
                                 '--sheets', self.folder / 'bare-print'], capture_output=True,
                                text=True, timeout=500, env={**os.environ, 'PATH': '/nowhere'})
        self.assertEqual(result.returncode, 0, result.stderr)
        self.assertIn('No PDF of the sheets: none of chromium', result.stdout)
        self.assertFalse((self.folder / 'bare-print').exists())

    def test_a_pdf_that_cannot_be_is_an_output_error(self):
        taken = self.folder / 'taken'
        taken.write_text('a file')
        result = subprocess.run([PROGRAM, 'scout', self.quick, '--out', self.folder / 'none', '--quiet',
                                 '--sheets', taken], capture_output=True, text=True, timeout=500)
        self.assertEqual(result.returncode, 4)
        self.assertIn('is no folder', result.stderr)
        self.assertFalse((self.folder / 'none').exists())

    def test_a_browser_that_fails_is_an_output_error(self):
        broken = self.folder / 'bin'
        broken.mkdir()
        (broken / 'chromium').write_text('#!/bin/sh\nexit 7\n')
        (broken / 'chromium').chmod(0o755)
        result = subprocess.run([PROGRAM, 'scout', self.quick, '--out', self.folder / 'kept', '--quiet',
                                 '--sheets', self.folder / 'broken'], capture_output=True, text=True,
                                timeout=500, env={**os.environ, 'PATH': f'{broken}:/usr/bin:/bin'})
        self.assertEqual(result.returncode, 4, result.stderr)
        self.assertIn('failed to print the sheets', result.stderr)
        self.assertTrue((self.folder / 'kept' / 'sheets.html').exists())
        self.assertEqual(list((self.folder / 'broken').iterdir()), [])


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

# SPDX-License-Identifier: Apache-2.0
"""compare.html in Chromium and on paper, with one crop and with two: it asks for nothing, fits a
phone and the paper, can be read by everybody, and every word of it comes from the table of labels."""
import json
import re
import shutil
import subprocess
import tempfile
from pathlib import Path

from good_pages_test import EVIL, RULES, STRANGE
from labels_test import MARK, NO_WORD, TABLE, marked
from looking import BAY, TOOLS, Looking, changed_plan, compare, fetch, main

CROPS = '--crops', 'warm-red-alga,sugar-kelp'
COARSE = re.compile(r'(?m)^cell_m = \d+')
NAMES = 'heron-bight', 'tern-sound', 'alder-mouth'


class ComparePage(Looking):
    @classmethod
    def setUpClass(cls):
        fetch()
        cls.folder = Path(tempfile.mkdtemp(prefix='tidelot-browser-'))
        cls.plans = [cls.plan(name) for name in NAMES]
        cls.one = compare(cls.plans, cls.folder / 'one')
        cls.two = compare(cls.plans, cls.folder / 'two', *CROPS)
        cls.pages = cls.one, cls.two

    @classmethod
    def plan(cls, name, changes=(), folder=None):
        """A sample at 40 m with few members and sites, in a folder of its own."""
        sample = BAY.parent / name
        cell = COARSE.search((sample / 'plan.toml').read_text())[0]
        return changed_plan(cls.folder / (folder or name), [
            (cell, 'cell_m = 40'), ('count           = 5', 'count           = 2'), ('[sites]', '[uncertainty]\ndraws = 4\n\n[sites]'),
            *changes], bay=sample)

    def test_html_validate(self):
        config = self.folder / 'html-validate.json'
        config.write_text(json.dumps(RULES))
        result = subprocess.run([TOOLS / 'node_modules' / '.bin' / 'html-validate', '-c', config,
                                 '--formatter', 'text', *self.pages], capture_output=True, text=True)
        self.assertEqual((result.returncode, result.stdout[-3000:]), (0, ''))

    def test_vnu(self):
        jar = TOOLS / 'node_modules' / 'vnu-jar' / 'build' / 'dist' / 'vnu.jar'
        result = subprocess.run(['java', '-jar', jar, '--errors-only', '--filterpattern', STRANGE,
                                 *self.pages], capture_output=True, text=True)
        self.assertEqual((result.returncode, result.stderr[-3000:]), (0, ''))

    def test_axe(self):
        for page in self.pages:
            seen = self.look('axe', page)
            self.assertEqual(seen['violations'], {'desktop': [], 'phone': []}, page.parent.name)
            self.assertIn('color-contrast', seen['passed'])

    def test_it_runs_nothing_and_asks_for_nothing(self):
        for page in self.pages:
            text = page.read_text()
            self.assertIn("script-src 'none'\"", text)
            self.assertIsNone(re.search(r'(?i)<script|(src|href)\s*=\s*["\']?\s*https?:', text))
            seen = self.look('rules', page)
            self.assertEqual(seen['markup']['scripts'], 0)
            self.assertEqual(seen['markup']['strange'], [])

    def test_it_fits_every_screen(self):
        for page in self.pages:
            seen = self.look('fits', page)
            self.assertEqual(set(seen['sideways'].values()), {0}, page.parent.name)
            for size, found in seen['overlaps'].items():
                self.assertEqual(found, [], f'{page.parent.name}, {size}')

    def pages_on(self, paper, page):
        pdf = self.folder / f'{page.parent.name}-{paper}.pdf'
        self.look('print', page, f'{pdf}|{paper}')
        info = subprocess.run(['pdfinfo', pdf], check=True, capture_output=True, text=True).stdout
        text = subprocess.run(['pdftotext', '-layout', pdf, '-'], check=True, capture_output=True,
                              text=True).stdout
        return int(re.search(r'Pages: +(\d+)', info)[1]), text.split('\f')

    def test_three_estuaries_take_a_page_a_sheet_on_either_paper(self):
        for paper in ('Letter', 'A4'):
            for page, sheets in ((self.one, 2), (self.two, 3)):
                count, texts = self.pages_on(paper, page)
                self.assertEqual(count, sheets, (paper, page.parent.name))
                for number in range(sheets):
                    self.assertIn(f'sheet {number + 1} of {sheets}', texts[number])
                    self.assertIn('not for navigation', texts[number])
                self.assertIn('Go and look before you decide', texts[sheets - 1])

    def test_two_estuaries_take_two_pages(self):
        page = compare(self.plans[1:], self.folder / 'pair')
        for paper in ('Letter', 'A4'):
            self.assertEqual(self.pages_on(paper, page)[0], 2, paper)

    def test_hostile_names_stay_text(self):
        plans = [self.plan('tern-sound', [
            ('title = "Tern Sound, summer"', f'title = "{EVIL} title"'),
            ('waterbody = "Tern Sound"', f'waterbody = "{EVIL} water"'),
            ('"ferry route"', f'"{EVIL} route"'),
            ('"the whole sound"', f'"{EVIL} segment"'),
        ], 'hostile'), self.plans[2]]
        page = compare(plans, self.folder / 'hostile-out', *CROPS)
        seen = self.look('rules', page)
        self.assertEqual(seen['markup']['strange'], [])
        self.assertEqual(seen['markup']['scripts'], 0)
        shown = EVIL.replace('\\', '')
        for field in ('water', 'route', 'segment'):
            self.assertTrue(f'{shown} {field}' in seen['text'], field)
        self.assertTrue(seen['markup']['titles'].startswith('Estuaries side by side'))

    def test_every_text_is_a_label(self):
        labels = self.folder / 'marked.toml'
        labels.write_text(marked(TABLE.read_text()))
        plans, outside = [], ''
        for name in NAMES:
            shutil.rmtree(self.folder / f'marked-{name}', ignore_errors=True)
            plan = self.plan(name, [('[report]', '[report]\nlabels = "marked.toml"')],
                             f'marked-{name}')
            shutil.copy(labels, plan.parent)
            plans.append(plan)
            outside += plan.read_text()
        page = compare(plans, self.folder / 'marked-out', *CROPS, '--target-kg', '12')
        texts = self.look('texts', page)['texts']
        outside += ' sugar-kelp P10 S01'

        def from_outside(text):
            text = re.sub(r'\b[SA]\d\d\b|[NSEW]\b', '', text)
            return all(word in outside for word in re.findall(r'[^\W\d_]{2,}', text))

        left = [text for text in texts if MARK not in text and not NO_WORD.match(text)
                and not from_outside(text)]
        self.assertEqual(sorted(set(left))[:40], [])
        self.assertGreater(sum(MARK in text for text in texts), 300)


if __name__ == '__main__':
    main()

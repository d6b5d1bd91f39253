# SPDX-License-Identifier: Apache-2.0
"""The pages are good HTML (html-validate, vnu), can be read by everybody (axe-core, contrast of 4.5
or more included), and no text from outside becomes markup."""
import json
import subprocess

from looking import COARSE, TOOLS, Looking, changed_plan, main, scout

RULES = {
    'extends': ['html-validate:recommended'],
    'root': True,
    # The frame of the map tells the style sheet how wide and high the bay is.
    'rules': {'no-inline-style': ['error', {'allowedProperties': ['--w', '--h']}]},
}
# SVG 2 properties that vnu's list of CSS properties lacks.
STRANGE = '.*(vector-effect|paint-order).*'
EVIL = '</script><img src=x onerror=alert(1)>\\"\'&<!--'


class GoodPages(Looking):
    def pages(self):
        return [self.report, self.out / 'field_sheet.html', self.out / 'sheets.html']

    def test_html_validate(self):
        config = self.folder / 'html-validate.json'
        config.write_text(json.dumps(RULES))
        result = subprocess.run([TOOLS / 'node_modules' / '.bin' / 'html-validate', '-c', config,
                                 '--formatter', 'text', *self.pages()], capture_output=True,
                                text=True)
        self.assertEqual((result.returncode, result.stdout[-3000:]), (0, ''))

    def test_vnu(self):
        jar = TOOLS / 'node_modules' / 'vnu-jar' / 'build' / 'dist' / 'vnu.jar'
        result = subprocess.run(['java', '-jar', jar, '--errors-only', '--filterpattern', STRANGE,
                                 *self.pages()], capture_output=True, text=True)
        self.assertEqual((result.returncode, result.stderr[-3000:]), (0, ''))

    def test_axe(self):
        for page in self.pages():
            seen = self.look('axe', page)
            self.assertEqual(seen['violations'], {'desktop': [], 'phone': []}, page.name)
            self.assertIn('color-contrast', seen['passed'])

    def test_hostile_names_stay_text(self):
        plan = changed_plan(self.folder / 'hostile', [
            COARSE,
            ('title = "Heron Bight, summer"', f'title = "{EVIL} title"'),
            ('waterbody = "Heron Bight"', f'waterbody = "{EVIL} water"\napplicant = "{EVIL} who"'),
            ('"eelgrass beds"', f'"{EVIL} beds"'),
            ('"harbour light"', f'"{EVIL} light"'),
        ])
        text = plan.read_text()
        first = text.index('rule      = "')
        plan.write_text(text[:first] + f'rule = "{EVIL} rule"' + text[text.index('\n', first):])
        out = scout(plan, self.folder / 'hostile-out')
        for name in ('report.html', 'field_sheet.html', 'sheets.html'):
            seen = self.look('rules', out / name)
            self.assertEqual(seen['markup']['strange'], [])
            self.assertEqual(seen['markup']['scripts'], 2 if name == 'report.html' else 0)
            shown = EVIL.replace('\\', '')
            fields = ['title', 'water', 'who']
            for field in fields + ([] if name == 'field_sheet.html' else ['beds', 'light', 'rule']):
                self.assertTrue(f'{shown} {field}' in seen['text'], f'{field} in {name}')


if __name__ == '__main__':
    main()

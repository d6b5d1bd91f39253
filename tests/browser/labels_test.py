# SPDX-License-Identifier: Apache-2.0
"""Every word of the report, the sheets for print and the field sheet comes from the table of labels:
with each label marked, a text on a page is marked, a figure, or something that the plan and its
layers say."""
import html
import re
import tomllib

from looking import BAY, COARSE, SOURCE, Looking, changed_plan, main, scout

MARK = '¤'
TABLE = SOURCE / 'src' / 'plan' / 'labels.toml'
NO_WORD = re.compile(r'^[\W\d_]*$')


def marked(text):
    """The table with every text marked, after each place too, as markup may stand there; a letter
    that stands for a direction stays one letter."""
    lines = []
    for line in text.splitlines():
        name, _, value = line.partition(' = ')
        if name in ('north_south', 'east_west', 'lang') or not value:
            lines.append(line)
        else:
            lines.append(f'{name} = "{MARK}' + re.sub(r'(\{\d\})(?=.)', r'\1' + MARK, value[1:-1]) + '"')
    return '\n'.join(lines)


class Words(Looking):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        (cls.folder / 'marked').mkdir()
        (cls.folder / 'marked' / 'marked.toml').write_text(marked(TABLE.read_text()))
        plan = changed_plan(cls.folder / 'marked', [
            COARSE, ('[report]', '[report]\nlabels = "marked.toml"')])
        cls.marked = scout(plan, cls.folder / 'marked-out')
        cls.report = cls.marked / 'report.html'
        cls.outside = BAY.joinpath('plan.toml').read_text()

    def from_outside(self, text):
        """Is every word of it in the plan, or a site's or a file's name?"""
        text = re.sub(r'\b[SA]\d\d(L\d\d[AB]?|M\d\d)?\b|\bM\d\d\b|\bC[1-4]\b|P[159]0|[NSEW]\b', '',
                      text)
        text = re.sub(r'WGS 84( / UTM zone \d+N( \(EPSG:\d+\))?)?', '', text)
        return all(word in self.outside for word in re.findall(r'[^\W\d_]{2,}', text))

    def test_every_text_is_a_label(self):
        for name, least in (('report.html', 500), ('sheets.html', 350), ('field_sheet.html', 500)):
            texts = self.look('texts', self.marked / name)['texts']
            left = [text for text in texts if MARK not in text and not NO_WORD.match(text)
                    and not self.from_outside(text)]
            self.assertEqual(sorted(set(left))[:40], [], name)
            self.assertGreater(sum(MARK in text for text in texts), least, name)

    def test_a_label_stands_on_some_page(self):
        """A label that no page shows is a leftover; those of other plans and places are few."""
        shown = ''.join((self.marked / name).read_text() for name in
                        ('report.html', 'sheets.html', 'field_sheet.html'))
        pieces = {}
        for group, labels in tomllib.loads(TABLE.read_text()).items():
            for name, text in labels.items():
                longest = max(re.split(r'\{\d\}', text), key=len)
                pieces[f'{group}.{name}'] = html.escape(longest).replace('&#x27;', '&#39;')
        missing = [name for name in pieces if name.startswith(('field.', 'meeting.'))
                   and MARK + pieces[name] not in shown]
        self.assertLess(len(missing), 20, missing)

    def test_a_caution_keeps_its_english(self):
        seen = self.look('rules')
        table = tomllib.loads(TABLE.read_text())['cautions']
        self.assertEqual(len(table), 25)
        for name, text in table.items():
            if name != 'title':
                self.assertIn(f'{MARK}{text} ({text})', seen['text'].replace('\n', ' '))


if __name__ == '__main__':
    main()

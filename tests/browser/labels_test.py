# SPDX-License-Identifier: Apache-2.0
"""Every word of the report comes from the table of labels: with each label marked, a text on the
page is marked, a figure, or something that the plan and its layers say."""
import re
import tomllib

from looking import BAY, SOURCE, Looking, changed_plan, main, scout

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
            ('[report]', '[report]\nlabels = "marked.toml"')])
        cls.report = scout(plan, cls.folder / 'marked-out') / 'report.html'
        cls.outside = BAY.joinpath('plan.toml').read_text()

    def from_outside(self, text):
        """Is every word of it in the plan, or a site's or a file's name?"""
        text = re.sub(r'\b[SA]\d\d(L\d\d[AB]?|M\d\d)?\b|\bC[1-4]\b|P[159]0|[NSEW]\b', '', text)
        text = re.sub(r'WGS 84( / UTM zone \d+N( \(EPSG:\d+\))?)?', '', text)
        return all(word in self.outside for word in re.findall(r'[^\W\d_]{2,}', text))

    def test_every_text_is_a_label(self):
        seen = self.look('texts')
        left = [text for text in seen['texts'] if MARK not in text and not NO_WORD.match(text)
                and not self.from_outside(text)]
        self.assertEqual(sorted(set(left))[:40], [])
        self.assertGreater(sum(MARK in text for text in seen['texts']), 500)

    def test_a_caution_keeps_its_english(self):
        seen = self.look('rules')
        table = tomllib.loads(TABLE.read_text())['cautions']
        self.assertEqual(len(table), 25)
        for name, text in table.items():
            if name != 'title':
                self.assertIn(f'{MARK}{text} ({text})', seen['text'].replace('\n', ' '))


if __name__ == '__main__':
    main()

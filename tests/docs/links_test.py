# SPDX-License-Identifier: Apache-2.0
"""Every link between the pages leads somewhere, to its heading: links_test.py PROGRAM SOURCE_FOLDER"""
import re
import subprocess
import sys
import unittest
from pathlib import Path

SOURCE = Path(sys.argv[2]).resolve()


def pages():
    """The Markdown files that are kept (those of the working tree where there is no git)."""
    listed = subprocess.run(['git', '-C', SOURCE, 'ls-files', '-co', '--exclude-standard', '*.md'],
                            capture_output=True, text=True)
    if listed.returncode == 0 and listed.stdout:
        return [SOURCE / name for name in listed.stdout.split('\n') if name]
    return [file for file in SOURCE.rglob('*.md') if 'build' not in file.relative_to(SOURCE).parts]


def without_code(text):
    return re.sub(r'`[^`\n]*`', '', re.sub(r'(?ms)^```.*?^```$', '', text))


def anchors(page):
    """What headings can be linked by: lower case, blanks as hyphens, without punctuation."""
    text = re.sub(r'(?ms)^```.*?^```$', '', page.read_text(encoding='utf-8'))
    names = set()
    for heading in re.findall(r'(?m)^#+ +(.*?) *$', text):
        plain = re.sub(r'\[([^]]*)\]\([^)]*\)', r'\1', heading).replace('`', '')
        name = re.sub(r'[^\w\- ]', '', plain.lower()).replace(' ', '-')
        names.add(name if name not in names else f'{name}-1')
    return names


def links(page):
    text = without_code(page.read_text(encoding='utf-8'))
    return re.findall(r'\]\(<?([^)\s>]+)>?(?: "[^"]*")?\)', text)


def fault(page, link):
    """What is wrong with a relative link; None where it leads somewhere."""
    path, _, anchor = link.partition('#')
    target = (page.parent / path).resolve() if path else page
    if not target.exists():
        return 'no such file'
    if not target.is_relative_to(SOURCE):
        return 'leads out of the project'
    if anchor and target.suffix == '.md' and anchor not in anchors(target):
        return 'no such heading'
    return None


class Links(unittest.TestCase):
    def test_every_relative_link(self):
        relative = [(page, link) for page in pages() for link in links(page)
                    if not re.match(r'[a-z]+:', link)]
        self.assertGreater(len(relative), 80)
        self.assertEqual([], [f'{page.relative_to(SOURCE)}: {link}: {fault(page, link)}'
                              for page, link in relative if fault(page, link)])

    def test_every_page_of_the_user_is_linked(self):
        linked = {(page.parent / link.partition('#')[0]).resolve()
                  for page in pages() for link in links(page)}
        self.assertEqual([], [page.name for page in (SOURCE / 'docs').rglob('*.md')
                              if page.resolve() not in linked])


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

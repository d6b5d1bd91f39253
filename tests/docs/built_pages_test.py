# SPDX-License-Identifier: Apache-2.0
"""scripts/docs makes a page of HTML and a manual page of every page, and their links lead somewhere.

usage: built_pages_test.py PROGRAM SOURCE_FOLDER
"""
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from html.parser import HTMLParser
from pathlib import Path

SOURCE = Path(sys.argv[2]).resolve()


class Page(HTMLParser):
    def __init__(self, file):
        super().__init__()
        self.links, self.names = [], set()
        self.feed(file.read_text(encoding='utf-8'))

    def handle_starttag(self, _, attributes):
        of = dict(attributes)
        self.links += [of[name] for name in ('href', 'src') if name in of]
        self.names.add(of.get('id'))


@unittest.skipUnless(shutil.which('pandoc'), 'needs pandoc')
class Built(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.out = Path(tempfile.mkdtemp(prefix='tidelot-test-'))
        cls.addClassCleanup(shutil.rmtree, cls.out, True)
        subprocess.run([SOURCE / 'scripts' / 'docs', cls.out], check=True, capture_output=True)

    def test_links_of_html(self):
        pages = {file: Page(file) for file in (self.out / 'html').rglob('*.html')}
        dead = []
        for file, page in pages.items():
            for link in page.links:
                path, _, name = link.partition('#')
                if re.match(r'[a-z]+:', link):
                    continue
                target = (file.parent / path).resolve() if path else file
                if not target.is_file() or (name and name not in pages[target].names):
                    dead.append(f'{file.name}: {link}')
        self.assertEqual(dead, [])

    def test_a_page_of_each(self):
        sources = [*(SOURCE / 'docs' / 'user').glob('*.md'),
                   *(SOURCE / 'docs' / 'science').glob('*.md')]
        self.assertEqual(len(list((self.out / 'html').rglob('*.html'))), len(sources) + 1)
        self.assertEqual(len(list((self.out / 'man').rglob('*.?'))), len(sources))

    def test_no_picture_or_script_from_elsewhere(self):
        for file in (self.out / 'html').rglob('*.html'):
            self.assertNotRegex(file.read_text(encoding='utf-8'), r'(src|href)="https?:')

    @unittest.skipUnless(shutil.which('groff'), 'needs groff')
    def test_manual_pages_can_be_set(self):
        for file in (self.out / 'man').rglob('*.?'):
            done = subprocess.run(['groff', '-man', '-t', '-Kutf8', '-Tutf8', '-wall', '-ww', '-z',
                                   file], capture_output=True, text=True)
            self.assertEqual(done.returncode, 0, done.stderr)
        text = subprocess.run(['groff', '-man', '-t', '-Kutf8', '-Tutf8', '-P-cbou',
                               self.out / 'man' / 'man1' / 'tidelot.1'],
                              capture_output=True, text=True).stdout
        self.assertIn('tidelot scout', text)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])

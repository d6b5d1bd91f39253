# SPDX-License-Identifier: Apache-2.0
"""What a plan, its labels, its files or its shapes are called stays text in all that a run leaves:
pages, sheets, comparison, tables, GPX, styles, the GeoPackage and what is printed.

Environment: TIDELOT_PAYLOADS (how many of the 60 more texts, 6), TIDELOT_PAYLOADS_SEED (which, 1).
"""
import csv
import io
import json
import os
import random
import re
import shutil
import sqlite3
import sys
import unittest
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

sys.path.insert(0, str(Path(__file__).resolve().parent))
from guarded import Guarded  # noqa: E402
from little_bay import PLAN, collection, square  # noqa: E402

MARKUP = ['<script>alert(1)</script> "><img src=x onerror=alert(1)> <!--', "' onmouseover='alert(1) {0}&amp;<b>",
          '</title></style></script><svg onload=alert(1)> ]]><![CDATA[ <a href=javascript:alert(1)>x</a>']
FORMULAS = ['=HYPERLINK("http://x/","y");=1', '+1+cmd|x', '-2+3;@SUM(A1)', '\uff1d1+1']
# Whoever adds one keeps it in UTF-8 that TOML can spell.
PAYLOADS = [
    '<script>x</script>', '<SCRIPT SRC=//x.y/z.js></SCRIPT>', '<scr<script>ipt>', '<img src=x onerror=x>',
    '<svg/onload=x>', '<iframe srcdoc=x>', '<base href=//x/>', '<meta http-equiv=refresh content=0>',
    '<link rel=stylesheet href=//x>', '<style>*{display:none}</style>', '<form action=//x><button>y',
    '<a href="javascript:x">y</a>', '<a href=data:text/html,x>y', '<math><mtext><x>', '<!--', '-->', '<![CDATA[',
    ']]>', '<?php x ?>', '<!DOCTYPE x [<!ENTITY y SYSTEM "file:///etc/hostname">]>&y;', '&lt;b&gt;', '&#60;b&#62;',
    '&amp;amp;', '"autofocus onfocus=x y="', "'style='x:y", '`x`', '${7*7}', '{{7*7}}', '</script>', '</textarea>',
    '</title>', '\\u003cscript\\u003e', '=1+1', '+1+1', '-1+1', '@SUM(1)', '\t=1+1', ' =1+1', '=cmd|x!A1',
    ';=1+1', '",=1+1', '"', '""', "'", "';DROP TABLE sites;--", '%s%n%x', '{0}{1}', '$(x)', '`x`;x', '../../x',
    'C:\\x', '\x1b[31mx', '\x1b]0;x\x07', '\x9b31m', 'a\u2028b', '\u202ex', '\ufeffx', 'a\u200bb', '\ufffe',
    '\U0001f9adx' + 'y' * 3000]
COUNT = int(os.environ.get('TIDELOT_PAYLOADS', '6'))
SEED = int(os.environ.get('TIDELOT_PAYLOADS_SEED', '1'))
STEERS = re.compile('[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029]')
FORMULA = re.compile(r'(^|;)[=+@\t\r\n\uff1d\uff0b\uff0d\uff20-]')
NUMBERS = re.compile(r'^-?\d+(\.\d+)?( -?\d+(\.\d+)?)?(;-?\d+(\.\d+)?( -?\d+(\.\d+)?)?)*$')
PAGES = ('report.html', 'field_sheet.html', 'sheets.html')
TABLES = ('sites.csv', 'load.csv', 'field_readings.csv')
LABELS = '[answer]\ntitle = {0}\n[words]\nreport = {0}\nnot_for = {0}\n[field]\ntitle = {0}\n' \
         '[compare]\nnot_uncertain = {0}\nnot_alike = {0}\n'


def quoted(text):
    return json.dumps(text, ensure_ascii=False)


class Seen(HTMLParser):
    """Every element with its attributes' names, and all text that is no script or style."""

    def __init__(self, text):
        super().__init__()
        self.kinds, self.attributes, self.text, self.inside = set(), [], '', ''
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.inside = tag
        self.kinds.add((tag, tuple(sorted(name for name, _ in attrs))))
        self.attributes += attrs

    def handle_endtag(self, tag):
        self.inside = ''

    def handle_comment(self, data):
        self.kinds.add(('comment', data))

    def handle_data(self, data):
        if self.inside not in ('script', 'style'):
            self.text += data


class Escaped(Guarded):
    def write_plan(self, words, folder):
        """The little bay with the words wherever a text goes that somebody prints."""
        name = lambda i: quoted(f'{words} {i}' if words.startswith(tuple('=+-@')) else f'{words}{i}')
        text = PLAN
        for old, new in (('"Little bay"', quoted(words)), ('datum = "MLLW"', f'datum = {quoted(words)}\nlow_water_m = 0'),
                         ('name = "eelgrass"', f'name = {name(1)}\nrule = {quoted(words)}'),
                         ('name = "outfall"', f'name = {name(2)}\nrule = {quoted(words)}\neffect = "caution"'),
                         ('name = "growing area"', f'name = {name(3)}')):
            assert old in text, old
            text = text.replace(old, new, 1)
        text += f'''[[near]]
name = {name(4)}
file = "outfall.geojson"
distance_m = 3000
rule = {quoted(words)}
[load]
nitrogen_kg_per_year = 5000
kind = {quoted(words)}
segment = {quoted(words)}
period = {quoted(words)}
[report]
applicant = {quoted(words)}
waterbody = {quoted(words)}
date = "2026-01-02"
labels = "words.toml"
[[report.marks]]
name = {name(5)}
at = [-30.01, 41.01]
[sites]
area_ha = 0.5
min_suitability = 0.0
'''
        (folder / 'plan.toml').write_text(text)
        (folder / 'words.toml').write_text(LABELS.format(quoted(re.sub(r'[<>&]|\{0\}', '', words))))
        shapes = json.loads(collection({'type': 'Polygon', 'coordinates': [square(-30.008, 41.001)]}))
        shapes['features'][0]['properties'] = {'name': words}
        (folder / 'outfall.geojson').write_text(json.dumps(shapes))

    def run_of(self, words, name):
        folder = self.top / name
        shutil.copytree(self.made / 'bay', folder)
        self.write_plan(words, folder)
        out = self.top / f'{name}-out'
        done = self.tidelot('scout', '--out', out, plan=folder / 'plan.toml')
        self.assertEqual(done.returncode, 0, done.stderr)
        both = self.top / f'{name}-both'
        twin = folder / 'twin.toml'
        twin.write_text((folder / 'plan.toml').read_text().replace('area_ha = 0.5', 'area_ha = 0.6'))
        done = self.tidelot('compare', twin, '--out', both, '--allow-different',
                            plan=folder / 'plan.toml')
        self.assertEqual(done.returncode, 0, done.stderr)
        return [out / page for page in PAGES] + [both / 'compare.html'], out, both

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.plain = None

    def plain_kinds(self):
        """The elements of the same pages under an innocent name."""
        if Escaped.plain is None:
            pages, out, _ = self.run_of('heron', 'plain')
            Escaped.plain = [Seen(page.read_text()).kinds for page in pages]
            Escaped.plain_xml = self.xml_kinds(out)
            rows = list(csv.DictReader((out / 'sites.csv').read_text().splitlines()))
            self.assertTrue(rows, 'no site, so hardly a word of the plan is printed')
        return Escaped.plain

    def xml_kinds(self, out):
        files = [out / 'sites.gpx', *out.glob('*.sld'), *(out / 'maps').glob('*.sld')]
        self.assertGreater(len(files), 3)
        return {(e.tag, tuple(sorted(e.attrib))) for f in files for e in ElementTree.parse(f).iter()}

    def test_markup_stays_text(self):
        plain = self.plain_kinds()
        for number, words in enumerate(MARKUP):
            with self.subTest(words):
                pages, out, _ = self.run_of(words, f'markup{number}')
                for page, known in zip(pages, plain):
                    seen = Seen(page.read_text())
                    self.assertEqual(seen.kinds - known, set(), page.name)
                    self.assertIn(words, seen.text, page.name)
                    for name, value in seen.attributes:
                        self.assertFalse(name.startswith('on') or name == 'style', (name, value))
                        if name in ('src', 'href', 'xlink:href'):
                            self.assertRegex(value, r'^(#|data:image/png;base64,)', page.name)
                self.assertEqual(self.xml_kinds(out) - Escaped.plain_xml, set())

    def test_the_pages_data_cannot_end_its_script(self):
        pages, *_ = self.run_of(MARKUP[2], 'data')
        data = re.search(r'<script type="application/json"[^>]*>(.*?)</script>', pages[0].read_text(), re.S)
        self.assertNotRegex(data[1], r'[<>&]')
        self.assertIn(MARKUP[2], json.dumps(json.loads(data[1])))

    def no_formula(self, tables):
        for table in tables:
            for row in csv.reader(io.StringIO(table.read_bytes().decode(), newline='')):
                for cell in row:
                    self.assertTrue(NUMBERS.match(cell) or not FORMULA.search(cell), f'{table.name}: {cell}')
                    yield cell

    def payload(self, words, name, plain):
        """One text in pages, tables, the GeoPackage and on the terminal; it is refused, or stays text."""
        folder, out = self.top / name, self.top / f'{name}-out'
        shutil.copytree(self.made / 'bay', folder)
        self.write_plan(words, folder)
        done = self.tidelot('scout', '--out', out, plan=folder / 'plan.toml', text=False)
        for said in (done.stdout.decode(), done.stderr.decode()):
            self.assertNotRegex(said, STEERS)
        if done.returncode != 0:
            self.assertEqual((done.returncode, done.stderr.count(b'\n')), (2, 1), done.stderr)
            return
        for page, known in zip(PAGES, plain):
            seen = Seen((out / page).read_text())
            self.assertEqual(seen.kinds - known, set(), page)
            for attribute, value in seen.attributes:
                if attribute in ('src', 'href', 'xlink:href'):
                    self.assertRegex(value, r'^(#|data:image/png;base64,)', page)
        for _ in self.no_formula(out / table for table in TABLES):
            pass
        with sqlite3.connect(out / 'sites.gpkg') as package:
            self.assertEqual(package.execute('PRAGMA integrity_check').fetchall(), [('ok',)])
            self.assertGreater(package.execute('SELECT count(*) FROM sites').fetchone()[0], 0)
        package.close()
        self.assertEqual(self.xml_kinds(out) - Escaped.plain_xml, set())
        json.loads((out / 'run.json').read_text())
        shutil.rmtree(out)

    def test_payloads(self):
        plain = self.plain_kinds()
        self.assertEqual(len(set(PAYLOADS)), 60)
        drawn = random.Random(SEED).sample(PAYLOADS, min(COUNT, len(PAYLOADS)))
        for number, words in enumerate(drawn):
            with self.subTest(words):
                self.payload(words, f'payload{number}', plain)
        print(len(drawn), 'payloads seed', SEED)

    def test_no_cell_of_a_table_is_a_formula(self):
        for number, words in enumerate(FORMULAS):
            with self.subTest(words):
                _, out, both = self.run_of(words, f'formula{number}')
                found = 0
                for cell in self.no_formula([out / name for name in TABLES] + [both / 'compare.csv']):
                    found += re.sub(';([=@])', r";'\1", words) in cell
                self.assertGreater(found, 5)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

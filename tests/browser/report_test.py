# SPDX-License-Identifier: Apache-2.0
"""The report in headless Chromium, opened from a file with the network off: every quantity, the
mouse, the keyboard, fingers, a place held against the GeoTIFFs, and paper."""
import json
import re
import subprocess

import numpy as np
from osgeo import gdal, osr

from looking import Looking, main

gdal.UseExceptions()
osr.UseExceptions()


def box(view):
    return [float(part) for part in view.split()]


class Report(Looking):
    def cells(self, name):
        """The first band of a map."""
        return gdal.Open(str(self.out / 'maps' / name)).ReadAsArray(band_list=[1])

    def test_one_quantity_is_shown_at_a_time(self):
        quantities = self.look('quantities')['quantities']
        self.assertEqual([q['key'] for q in quantities], ['suitability', 'confidence', 'yield',
                                                          'nitrogen', 'depth', 'season', 'reason'])
        for each in quantities:
            self.assertEqual(len(each['pressed']), 1)
            self.assertEqual(each['legends'], 1)
            self.assertEqual(each['clear'], 0, 'the whole bounds are mapped')
            self.assertGreater(each['colours'], 8)

    def test_a_place_reads_as_the_geotiffs_hold_it(self):
        reason = self.cells('reason.tif')
        rows, cols = reason.shape
        rng = np.random.default_rng(1)
        cells = []  # a few places of every reason, each with a margin to the cell's edge
        for code in np.unique(reason):
            found = np.argwhere(reason == code)
            cells += [tuple(cell) for cell in found[rng.integers(len(found), size=3)]]
        at = [[(col + 0.5) / cols, (row + 0.5) / rows] for row, col in cells]
        places = self.look('places', None, json.dumps(at))['places']
        table = gdal.Open(str(self.out / 'maps' / 'reason.tif'))
        names = table.GetRasterBand(1).GetMetadata()
        closed = self.cells('closed.tif')
        maps = {'Depth at low water': ('depth_low_water.tif', 0.09),
                'Yield': ('yield.tif', 0.02), 'Nitrogen': ('nitrogen.tif', 0.08),
                'Suitability': ('suitability.tif', 0.008), 'Confidence': ('confidence.tif', 0.008)}
        arrays = {title: self.cells(file) for title, (file, _) in maps.items()}
        compared = dict.fromkeys(maps, 0)
        for place in places:
            row, col = (int(share * count) for share, count in
                        zip(place['clicked'][::-1], (rows, cols)))
            self.assertEqual(place['sample'], row * cols + col)
            self.assertEqual(place['reason'], names[f'CATEGORY_{reason[row, col]}'] + '.')
            bits = int(closed[row, col])
            rules = bin(bits).count('1') if bits < 0xFFFFFFFE else 0
            self.assertEqual(len(place['rules']), rules, place)
            for title, (_, close) in maps.items():
                shown = re.match(r'-?\d+(\.\d+)?', place['values'][title])
                if shown:
                    self.assertAlmostEqual(float(shown.group()), arrays[title][row, col],
                                           delta=close, msg=title)
                    compared[title] += 1
        self.assertGreater(min(compared.values()), 5)
        self.assertGreater(sum(len(place['rules']) > 1 for place in places), 0)

    def test_positions_are_those_of_the_grid(self):
        source = gdal.Open(str(self.out / 'maps' / 'reason.tif'))
        west, size, _, north, _, _ = source.GetGeoTransform()
        to = osr.SpatialReference()
        to.ImportFromEPSG(4326)
        to.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        change = osr.CoordinateTransformation(source.GetSpatialRef(), to)
        at = [[u, v] for u in (0.1, 0.5, 0.9) for v in (0.1, 0.5, 0.9)]
        for place in self.look('places', None, json.dumps(at))['places']:
            u, v = place['clicked']
            lon, lat, _ = change.TransformPoint(west + u * source.RasterXSize * size,
                                                north - v * source.RasterYSize * size)
            shown = re.search(r'(-?\d+\.\d{5}), (-?\d+\.\d{5})', place['read'])
            self.assertAlmostEqual(float(shown.group(1)), lat, delta=2e-5)
            self.assertAlmostEqual(float(shown.group(2)), lon, delta=2e-5)

    def test_the_mouse(self):
        seen = self.look('mouse')
        whole, unasked, near, moved, again = map(box, seen['views'])
        self.assertEqual(unasked, whole, 'a wheel scrolls the page until the map is asked')
        self.assertLess(near[2], whole[2] * 0.6)
        self.assertEqual(seen['before'], seen['after'], 'the place under the pointer stays')
        self.assertAlmostEqual(moved[0] - near[0], 0.1 * near[2], delta=0.01 * near[2])
        self.assertAlmostEqual(moved[1], near[1], delta=0.01 * near[2])
        self.assertEqual(again, whole)
        self.assertEqual(len(seen['bars']), 2)
        self.assertRegex(seen['bars'][0], r'^\d+ k?m$')
        self.assertRegex(seen['bars'][1], r'^[\d,]+ (ft|mi)$')

    def test_the_keyboard_alone(self):
        seen = self.look('keys')
        self.assertEqual(seen['pressed'], ['Nitrogen'])
        whole, two, four, left, up, back, all_again = map(box, seen['views'])
        self.assertAlmostEqual(two[2], whole[2] / 2)
        self.assertAlmostEqual(four[2], whole[2] / 4)
        self.assertLess(left[0], four[0])
        self.assertLess(up[1], left[1])
        self.assertAlmostEqual(back[2], whole[2] / 2)
        self.assertEqual(all_again, whole)
        self.assertIn('Depth at low water', seen['why'])
        self.assertEqual(seen['site'], 'on-map-S01')
        self.assertEqual(seen['outline'], '4.5px', 'one sees where the focus is')
        self.assertEqual(seen['sheet'], '#site-S01')
        self.assertEqual(seen['back'], 'on-map-S01')

    def test_fingers_on_a_phone(self):
        seen = self.look('touch')
        self.assertEqual(seen['sideways'], 0)
        self.assertEqual(seen['small'], 0, 'buttons are as large as a finger')
        self.assertEqual(seen['pressed'], ['Confidence'])
        self.assertIn('Depth at low water', seen['why'])
        whole, near, moved = map(box, seen['views'])
        self.assertLess(near[2], whole[2] / 3)
        self.assertGreater(moved[0], near[0])
        self.assertEqual(seen['overlaps'], [])

    def test_script_and_style_of_strangers_have_no_effect(self):
        text = self.report.read_text()
        stranger = ('<script>document.title = "taken"</script><style>h1 { display: none }</style>'
                    '<p id="stranger" style="position:fixed;top:0" onclick="document.title = \'taken\'">'
                    'x</p>')
        for policy, title, hidden in ((True, 'Heron Bight, summer', False), (False, 'taken', True)):
            page = self.folder / 'stranger.html'
            page.write_text(re.sub('' if policy else '<meta http-equiv[^>]*>', '', text, count=1)
                            .replace('<main id="top">', '<main id="top">' + stranger, 1))
            seen = self.look('strangers', page, quiet=False)
            self.assertEqual((seen['title'], seen['hidden'], seen['clicked']), (title, hidden, title))
            self.assertEqual(seen['ready'], 1)
            refused = [line for line in seen['console'] if 'Content Security Policy' in line]
            self.assertEqual(len(refused) >= 4, policy, seen['console'])

    def test_no_text_lies_over_another(self):
        seen = self.look('overlaps')
        for size in ('desktop', 'phone', 'projector'):
            self.assertEqual(seen['overlaps'][size], [], size)
            self.assertEqual(seen['sideways'][size], 0, size)

    def test_every_sheet_prints(self):
        sheet = self.folder / 'report.pdf'
        self.look('print', None, str(sheet))
        pages = len(re.findall(rb'/Type\s*/Page[^s]', sheet.read_bytes()))
        # The answer, the map, the other maps, four pages a site, and what stands behind them.
        self.assertGreaterEqual(pages, 3 + 4 * 5 + 3)
        self.assertLessEqual(pages, 3 + 4 * 5 + 8)
        page = self.folder / 'map'
        subprocess.run(['pdftoppm', '-r', '50', '-f', '2', '-l', '2', '-png', '-singlefile', sheet,
                        page], check=True)
        colours = gdal.Open(f'{page}.png').ReadAsArray()[:3].reshape(3, -1).T
        self.assertGreater(len(np.unique(colours, axis=0)), 200, 'the map is on the paper')

    def test_the_field_sheet_takes_two_pages_a_site(self):
        paper = self.folder / 'field.pdf'
        self.look('print', self.out / 'field_sheet.html', str(paper))
        text = subprocess.run(['pdftotext', paper, '-'], check=True, capture_output=True,
                              text=True).stdout
        pages = text.split('\f')[:-1]
        self.assertEqual(len(pages), 2 + 2 * 5)  # cautions, the sites, what to type in
        for site in range(1, 6):
            here = [page for page in pages if f'Field sheet: Site {site}' in page]
            self.assertEqual(len(here), 2)
            self.assertTrue(all('not for navigation' in page for page in here))

    def test_site_sheets_are_folded_and_open_where_they_are_asked_for(self):
        paper = self.folder / 'folds.pdf'
        seen = self.look('folds', None, str(paper))
        self.assertEqual(seen['atFirst'], ['site-S01'])
        self.assertEqual(seen['clicked'], ['site-S01', 'site-S03'])
        self.assertLess(abs(seen['top']), 60, 'the page goes to the sheet')
        self.assertRegex(seen['said'], r'Site 2 of 5\s+[\d.]+ t .* of fresh weight, .* of nitrogen')
        self.assertEqual(seen['byKey'], ['site-S01', 'site-S02', 'site-S03'])
        self.assertEqual(seen['bySpace'], ['site-S01', 'site-S03'])
        self.assertEqual(seen['printed'], seen['bySpace'], 'printing leaves the folds as they were')
        self.assertTrue(seen['addressed'])
        self.assertLess(seen['folded'], 0.6 * seen['unfolded'])
        self.assertGreaterEqual(min(seen['fingers']), 44)
        text = subprocess.run(['pdftotext', paper, '-'], check=True, capture_output=True,
                              text=True).stdout
        self.assertEqual(text.count('Margin to the edge'), 5, 'paper shows every sheet')


if __name__ == '__main__':
    main()

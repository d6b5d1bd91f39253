# SPDX-License-Identifier: Apache-2.0
"""The styles beside the maps, as another reader of Styled Layer Descriptors 1.0.0 (OGC 02-070)
finds them (geostyler-sld-parser), held against the maps, their own colour tables, and the page."""
import json
import subprocess
import unittest
import xml.etree.ElementTree as ET

import numpy as np
import rasterio
from osgeo import ogr
from rasterio.enums import ColorInterp

from looking import COARSE, HERE, TOOLS, Looking, changed_plan, main, scout

ogr.UseExceptions()
SLD = '{http://www.opengis.net/sld}'
NOT_KNOWN = 4294967294


def colour(text):
    return tuple(int(text[i:i + 2], 16) for i in (1, 3, 5))


class Styles(Looking):
    def read(self, *files):
        """What the other reader finds in each file."""
        result = subprocess.run(['node', HERE / 'sld.js', TOOLS, *files], capture_output=True,
                                text=True, timeout=60)
        self.assertEqual(result.returncode, 0, result.stderr[-2000:])
        seen = [json.loads(line) for line in result.stdout.splitlines()]
        for file, each in zip(files, seen):
            self.assertEqual(each['errors'], [], file)
            self.assertIsNone(each['unsupported'], file)
        return [each['style'] for each in seen]

    def entries(self, name, out=None):
        style, = self.read((out or self.out) / 'maps' / f'{name}.sld')
        self.assertEqual(style['name'], name)
        symbol, = style['rules'][0]['symbolizers']
        self.assertEqual(symbol['channelSelection'], {'grayChannel': {'sourceChannelName': '1'}})
        return symbol['colorMap']['colorMapEntries']

    def test_every_map_has_a_style_that_covers_its_values(self):
        maps = sorted((self.out / 'maps').glob('*.tif'))
        self.assertGreater(len(maps), 8)
        for path in maps:
            with self.subTest(path.stem):
                steps = [entry['quantity'] for entry in self.entries(path.stem)]
                self.assertEqual(steps, sorted(set(steps)))
                with rasterio.open(path) as file:
                    values = file.read(1, masked=True).compressed()
                self.assertLessEqual(steps[0], values.min())
                self.assertGreaterEqual(steps[-1], values.max())

    def test_codes_look_as_in_the_maps_own_colour_table(self):
        entries = {int(entry['quantity']): entry for entry in self.entries('reason')}
        with rasterio.open(self.out / 'maps' / 'reason.tif') as file:
            self.assertEqual(file.colorinterp, (ColorInterp.palette,))
            table, words, nodata = file.colormap(1), file.tags(1), file.nodata
            codes = [int(code) for code in np.unique(file.read(1))]
        self.assertGreater(len(codes), 8)
        for code in codes:
            entry = entries[code]
            self.assertEqual(table[code][:3], colour(entry['color']))
            self.assertEqual(entry['label'], words[f'CATEGORY_{code}'])
            self.assertEqual(entry['opacity'], 0 if code == nodata else 1)
        for path in (self.out / 'maps').glob('*.tif'):
            if path.stem not in ('reason', 'depth_source'):
                with self.subTest(path.stem), rasterio.open(path) as file:
                    self.assertNotIn(ColorInterp.palette, file.colorinterp)

    def test_a_closed_cell_is_painted_and_an_open_one_is_not(self):
        entries = {entry['quantity']: entry for entry in self.entries('closed')}
        self.assertEqual(entries[0]['opacity'], 0)
        self.assertEqual(entries[1]['color'], entries[NOT_KNOWN - 1]['color'])
        self.assertNotEqual(entries[1]['color'], entries[NOT_KNOWN]['color'])
        self.assertEqual({entries[1]['opacity'], entries[NOT_KNOWN]['opacity']}, {1})

    def test_lightness_rises_or_falls_all_along_a_ramp(self):
        for name in ('yield', 'nitrogen', 'depth_low_water', 'season', 'confidence', 'coverage'):
            light = [np.dot(colour(entry['color']), (0.2126, 0.7152, 0.0722))
                     for entry in self.entries(name)]
            self.assertGreater(len(light), 1)
            steps = np.diff(light)
            self.assertTrue((steps > 0).all() or (steps < 0).all(), name)

    def test_the_layers_of_the_geopackage_are_styled_by_name(self):
        tree = ET.parse(self.out / 'sites.sld')
        styled = [layer.findtext(f'{SLD}Name') for layer in tree.iter(f'{SLD}NamedLayer')]
        package = ogr.Open(str(self.out / 'sites.gpkg'))
        self.assertEqual(sorted(styled),
                         sorted(package.GetLayer(i).GetName() for i in range(package.GetLayerCount())))
        kinds = {'sites': ['PolygonSymbolizer', 'TextSymbolizer'], 'gear_box': ['PolygonSymbolizer'],
                 'lines': ['LineSymbolizer'], 'anchors': ['PointSymbolizer'],
                 'markers': ['PointSymbolizer']}
        for layer in tree.iter(f'{SLD}NamedLayer'):
            found = [each.tag.removeprefix(SLD) for each in layer.iter()
                     if each.tag.endswith('Symbolizer')]
            self.assertEqual(found, kinds[layer.findtext(f'{SLD}Name')])
        self.read(self.out / 'sites.sld')

    def test_a_name_from_the_plan_stays_text(self):
        evil = '</Rule>\\"\'&<!-- beds'
        plan = changed_plan(self.folder / 'names', [COARSE, ('"eelgrass beds"', f'"{evil}"')])
        out = scout(plan, self.folder / 'names-out')
        tree = ET.parse(out / 'maps' / 'reason.sld')
        labels = [entry.get('label') for entry in tree.iter(f'{SLD}ColorMapEntry')]
        self.assertIn('closed: ' + evil.replace('\\', ''), labels)


if __name__ == '__main__':
    main()

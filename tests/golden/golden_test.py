# SPDX-License-Identifier: Apache-2.0
"""Thirty plans of the little bay against what they gave when somebody last looked: a change of any
result shows here, and is either a mistake or has its reason in the commit that writes golden.json
anew (TIDELOT_GOLDEN=write, then read the difference).

Of each map the sum of its pixels, rounded to four decimals, and their mean, which tells a reader how
far a change went; of each table the sum of its bytes. The last places of a float differ on a processor
that cannot fuse a product and a sum, so there a pixel may round the other way: the test is left out.

usage: golden_test.py PROGRAM SOURCE_FOLDER
"""
import hashlib
import json
import os
import shutil
import sys
import unittest
from pathlib import Path

import numpy as np
import rasterio

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import SOURCE, LittleBay  # noqa: E402

KEPT = SOURCE / 'tests' / 'golden' / 'golden.json'
WRITE = os.environ.get('TIDELOT_GOLDEN') == 'write'
TABLES = ('sites.csv', 'sites.geojson')
DECIMALS = 4
FUSES = ' fma ' in Path('/proc/cpuinfo').read_text()


def after(line, more):
    return line, f'{line}\n{more}'


def table(lines):
    """One more table, before that of the members."""
    return '[uncertainty]', f'{lines}\n[uncertainty]'


KELP = ('"warm-red-alga"', '"sugar-kelp"')
FARM = '[farm]\n'
SCENARIOS = {
    'as it is': (),
    'cells of 50 m': (('cell_m = 100', 'cell_m = 50'),),
    'cells of 37 m': (('cell_m = 100', 'cell_m = 37'),),
    'another system': (after('cell_m = 100', 'crs = "EPSG:32626"'),),
    'beyond the data': (('bounds = [-30.02,', 'bounds = [-30.03,'), after('cell_m = 100', 'edge = "any"')),
    'feet': (('unit = "m"', 'unit = "ft"'),),
    'another low water': (('datum = "MLLW"', 'datum = "MSL"\nlow_water_m = -1.2'),),
    'large tides': (after('datum = "MLLW"', 'tidal_range_m = 6\nlowest_tide_m = -1.5'),),
    'little nitrogen': (('constant = 12', 'constant = 1.5'),),
    'all nitrogen is ammonium': (after('constant = 12', 'nh4_share = 1.0'),),
    'Secchi depths': (('measure = "kd"', 'measure = "secchi"'), ('unit = "1/m"', 'unit = "m"')),
    'still water': (('constant = 0.15', 'constant = 0.02'),),
    'mass transfer': (after('profile = "warm-red-alga"', 'boundary_layer = "mass_transfer"'),),
    'kelp': (KELP,),
    'kelp in cold months': (KELP, table('[season]\ngear_in = "12-20"\ngear_out = "04-15"')),
    'kelp, little light': (KELP, table('[sun]\nsunshine = 0.2')),
    'a permit of the summer': (table('[season]\ngear_in = "06-15"\ngear_out = "09-30"'),),
    'joined months': (table('[season]\ndaily = "linear"'),),
    'little sun': (table('[sun]\nsunshine = 0.25'),),
    'deep lines': (table(FARM + 'line_depth_m = 1.5\nsag_m = 0.6\nclearance_m = 2'),),
    'fixed lines': (table(FARM + 'line = "fixed"\nline_depth_m = 0.5'),),
    'seldom harvested': (table(FARM + 'harvest_days = 40\nstocking_g_per_m = 60'),),
    'what gear bears': (table(FARM + 'max_depth_m = 6\nmax_current_m_s = 0.5'),),
    'wide setbacks': (('setback_m = 30', 'setback_m = 250'),),
    'a rule to be asked about': (after('name = "outfall"', 'effect = "caution"'),),
    'a rule of the winter': (after('name = "growing area"', 'months = [12, 1, 2]'),),
    'the lowest score': (table('[criteria]\ncombine = "minimum"'),),
    'many small sites': (table('[sites]\ncount = 8\narea_ha = 1\ngap_m = 50\nmin_suitability = 0.0'),),
    'other members': (('draws = 4', 'draws = 16\nseed = 7'),),
    'no members': (('draws = 4', 'draws = 0'),),
}


def digest(data):
    return hashlib.sha256(data).hexdigest()[:16]


def told_of_map(path):
    """The sum of its rounded pixels and the mean of those that are known."""
    with rasterio.open(path) as file:
        values, nothing = file.read(1), file.nodata
    known = values[values != nothing] if nothing is not None else values
    rounded = np.round(values.astype('float64'), DECIMALS) + 0.0   # no negative nought
    mean = float(np.nanmean(known.astype('float64'))) if np.isfinite(known).any() else None
    return [digest(rounded.tobytes()), None if mean is None else round(mean, DECIMALS)]


class Golden(LittleBay):
    def told(self, edits):
        """What a plan gives."""
        self.plan(*edits)
        out = self.scouted()
        maps = {p.stem: told_of_map(p) for p in sorted((out / 'maps').glob('*.tif'))}
        tables = {name: digest((out / name).read_bytes()) for name in TABLES}
        shutil.rmtree(out)
        return {'maps': maps, 'tables': tables}

    @unittest.skipUnless(FUSES, 'this processor fuses no product and sum')
    def test_scenarios(self):
        kept = json.loads(KEPT.read_text()) if KEPT.exists() else {}
        found = {}
        for name, edits in SCENARIOS.items():
            with self.subTest(name):
                found[name] = self.told(edits)
                if not WRITE:
                    self.assertEqual(found[name], kept.get(name))
        if WRITE:
            lines = [f'{json.dumps(name)}: {json.dumps(each)}' for name, each in found.items()]
            KEPT.write_text('{\n' + ',\n'.join(lines) + '\n}\n')
        self.assertEqual(len(SCENARIOS), 30)
        self.assertEqual(found.keys(), SCENARIOS.keys())

    def test_plans_differ(self):
        """Else a hash would hold whatever the plan says."""
        seen = {}
        for name, each in json.loads(KEPT.read_text()).items():
            seen.setdefault(json.dumps(each), []).append(name)
        self.assertEqual([names for names in seen.values() if len(names) > 1], [])


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

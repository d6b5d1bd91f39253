# SPDX-License-Identifier: Apache-2.0
"""Amounts per kilogram of seawater against the Gibbs seawater toolbox (TEOS-10; python3-gsw).

usage: teos10_test.py PROGRAM SOURCE_FOLDER

A plan of constants with nitrogen in umol/kg: what `explain --csv` prints in umol/L is that times the
density in kg/L. The program's density is EOS-80's, which TEOS-10 matches to a few parts in a million.
"""
import csv
import io
import sys
import unittest
from pathlib import Path

import gsw

sys.path.insert(0, str(Path(__file__).parents[1] / 'cli'))
import bay  # noqa: E402


class PerKilogram(bay.Bay):
    def nitrogen(self, unit, salinity, temperature):
        plan = self.plan(
            (r'(?s)\[water\.temperature\].*?(?=\n\[)', f'[water.temperature]\nconstant = {temperature}\n'),
            (r'(?s)\[water\.salinity\].*?(?=\n\[)', f'[water.salinity]\nconstant = {salinity}\n'),
            (r'(?s)\[water\.nitrogen\].*?(?=\n\[)', f'[water.nitrogen]\nconstant = 1000\nunit = "{unit}"\n'))
        result = bay.run('explain', plan, '--at', '-30.06,41.03', '--csv')
        self.assertEqual(result.returncode, 0, result.stderr)
        rows = list(csv.DictReader(io.StringIO(result.stdout)))
        return float(rows[0]['nitrogen'])

    def test_density_at_one_atmosphere(self):
        for salinity, temperature in ((30, 20), (25, 24), (20, 15)):
            absolute = gsw.SA_from_SP(salinity, 0, -30.06, 41.03)
            density = gsw.rho_t_exact(absolute, temperature, 0)
            ratio = self.nitrogen('umol/kg', salinity, temperature) / 1000
            self.assertAlmostEqual(ratio, density / 1000, delta=2e-5, msg=(salinity, temperature))

    def test_per_litre_is_left_alone(self):
        self.assertAlmostEqual(self.nitrogen('umol/L', 30, 20), 1000, delta=1e-3)


if __name__ == '__main__':
    bay.main()

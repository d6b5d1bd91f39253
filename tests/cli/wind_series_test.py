# SPDX-License-Identifier: Apache-2.0
"""Winds from a NetCDF series against the same winds as a rose counted here.

wind_series_test.py PROGRAM SOURCE_DIR"""
import json
import math
import unittest

import netCDF4
import numpy as np
from bay import Bay, main, run

YEARS, STEPS = 12, 8      # a day


class WindSeries(Bay):
    def series(self, years, names=('eastward_wind', 'northward_wind'), places=1, unit='m s-1'):
        rng = np.random.default_rng(3)
        n = years * 365 * STEPS
        speed, self.from_deg = 7 * rng.weibull(2, n), rng.uniform(0, 360, n)
        self.speed = np.float32(speed).astype(float)
        toward = np.radians(self.from_deg + 180)
        values = ((speed * np.sin(toward), speed * np.cos(toward))
                  if names[0] == 'eastward_wind' else (speed, self.from_deg))
        with netCDF4.Dataset(self.folder / 'winds.nc', 'w') as out:
            out.createDimension('time', n)
            out.createDimension('place', places)
            time = out.createVariable('time', 'f8', ('time',))
            time.units, time.calendar = 'hours since 2001-01-01 00:00:00', 'noleap'
            time[:] = np.arange(n) * 24 / STEPS
            for number, (name, each) in enumerate(zip(names, values)):
                made = out.createVariable(f'w{number}', 'f4', ('time', 'place'))
                made.standard_name = name
                made.units = 'degree' if name.endswith('direction') else unit
                made[:] = np.repeat(each[:, None], places, 1)

    def rose(self, with_maxima):
        """The same winds counted here, as the CSV that the program also reads."""
        sector = np.rint(self.from_deg / 22.5).astype(int) % 16
        year = np.arange(len(self.speed)) // (365 * STEPS)
        rows = ['direction,speed,share,speed_1y,speed_50y']
        for s in range(16):
            high = ','
            if with_maxima:
                top = [self.speed[(sector == s) & (year == y)].max() for y in range(YEARS)]
                spread = np.std(top, ddof=1) * math.sqrt(6) / math.pi
                mode = np.mean(top) - 0.5772156649 * spread
                high = f'{mode:.6f},{mode + spread * math.log(50):.6f}'
            here = self.speed[sector == s]
            for c in np.unique(np.floor(here)):
                part = here[np.floor(here) == c]
                share = len(part) / len(self.speed)
                rows.append(f'{22.5 * s},{part.mean():.8f},{share:.10f},{high}')
        (self.folder / 'rose.csv').write_text('\n'.join(rows) + '\n')

    def waves(self, winds):
        import rasterio
        plan = self.plan((r'^\[sites\]$', f'[waves]\nwinds = "{winds}"\nopen_km = 7\n\n[sites]'))
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        with rasterio.open(out / 'maps/waves.tif') as file:
            bands = file.read()
        layers = json.loads((out / 'run.json').read_text())['layers']
        return bands, next(row for row in layers if row['key'] == 'waves.winds')

    def same(self, years, names):
        self.series(years, names)
        found, row = self.waves('winds.nc')
        self.rose(years >= 10)
        expected, _ = self.waves('rose.csv')
        np.testing.assert_allclose(found, expected, rtol=2e-3, atol=2e-4)
        self.assertGreater(expected[0].max(), 0.1)
        return row

    def test_twelve_years_by_yearly_maxima(self):
        row = self.same(YEARS, ('eastward_wind', 'northward_wind'))
        self.assertIn('Gumbel', row['verdict'])
        self.assertIn('12 full years', row['verdict'])
        self.assertEqual(row['times'], '2001-01-01 to 2012-12-31')

    def test_three_years_by_the_classes(self):
        row = self.same(3, ('wind_speed', 'wind_from_direction'))
        self.assertIn('Weibull', row['verdict'])
        self.assertIn('3 full years', row['verdict'])

    def test_what_is_no_series_of_winds(self):
        where = (r'^\[sites\]$', '[waves]\nwinds = "winds.nc"\n\n[sites]')
        self.series(1, ('sea_surface_height', 'northward_wind'))
        self.refused(self.plan(where), 3, 'waves.winds: winds.nc', 'eastward_wind')
        self.series(1, places=2)
        self.refused(self.plan(where), 3, 'waves.winds: winds.nc', '2 places')
        self.series(1, unit='furlong')
        self.refused(self.plan(where), 3, 'waves.winds: winds.nc', 'furlong')
        (self.folder / 'winds.nc').write_text('no NetCDF')
        self.refused(self.plan(where), 3, 'winds.nc')


if __name__ == '__main__':
    main()

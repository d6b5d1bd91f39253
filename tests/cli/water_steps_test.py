# SPDX-License-Identifier: Apache-2.0
"""Water properties from time axes, levels and curved grids: the program against numpy and netCDF4."""
import csv
import io
import json
import math
import re

import netCDF4
import numpy as np

import bay

LON = np.linspace(-30.16, -29.96, 11)
LAT = np.linspace(40.94, 41.12, 10)
PLACE = (-30.06, 41.03)


class WaterSteps(bay.Bay):

    def file(self, name, stamps, values, units='days since 1990-01-01', calendar='standard',
             lon=LON, levels=None, bounds=None, variable='sst', unit='degC', more=None):
        """values: step (, level), row, column; rows from the south."""
        with netCDF4.Dataset(self.folder / name, 'w') as d:
            for key, size in (('time', None), ('lat', len(LAT)), ('lon', len(lon))):
                d.createDimension(key, size)
            t = d.createVariable('time', 'f8', ('time',))
            t.units, t.calendar, t[:] = units, calendar, stamps
            for key, axis, u in (('lat', LAT, 'degrees_north'), ('lon', lon, 'degrees_east')):
                v = d.createVariable(key, 'f8', (key,))
                v.units, v[:] = u, axis
            dims = ('time', 'lat', 'lon')
            if levels is not None:
                d.createDimension('depth', len(levels))
                z = d.createVariable('depth', 'f8', ('depth',))
                z.units, z.positive, z[:] = 'm', 'down', levels
                dims = ('time', 'depth', 'lat', 'lon')
            if bounds is not None:
                d.createDimension('nv', 2)
                t.bounds = 'time_bnds'
                d.createVariable('time_bnds', 'f8', ('time', 'nv'))[:] = bounds
            for key, data in {variable: values, **(more or {})}.items():
                v = d.createVariable(key, 'f4', dims, fill_value=-1e10)
                v.units = unit
                v[:] = data
        return name

    def with_temperature(self, name, *more, extra=''):
        return self.plan((r'(?s)\[water\.temperature\].*?(?=\n\[)',
                          f'[water.temperature]\nfile = "{name}"\nvariable = "sst"\n{extra}\n'),
                         *more)

    def days(self, plan):
        """Temperature by day of the year from explain."""
        result = bay.run('explain', plan, '--at', f'{PLACE[0]},{PLACE[1]}', '--csv')
        self.assertEqual(result.returncode, 0, result.stderr)
        rows = csv.DictReader(io.StringIO(result.stdout))
        return {row['date']: float(row['temperature']) for row in rows}, result

    def checked(self, plan):
        result = bay.run('check', plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        return re.sub(r'\n {2,}', ' ', result.stdout)  # its broken lines made whole

    @staticmethod
    def season(day):
        return 18.0 - 8.0 * np.cos(2 * np.pi * (np.asarray(day) - 40.0) / 365.25)

    def grown(self, series):
        """The series everywhere, a little warmer to the east."""
        return series[:, None, None] + 0.5 * np.arange(len(LON))[None, None, :] / 10 \
            + 0.0 * LAT[None, :, None]

    def here(self, field):
        """Bilinear at the middle of the cell is within a hundredth: the field is linear in lon."""
        return float(np.interp(PLACE[0], LON, field[len(LAT) // 2]))

    def test_several_years_of_days_become_months(self):
        stamps = np.arange(1124, 1124 + 3 * 365 + 40)  # 29 January 1993 on
        dates = netCDF4.num2date(stamps, 'days since 1990-01-01')
        rng = np.random.default_rng(3)
        series = self.season(stamps) + rng.normal(0, 1, len(stamps))
        values = self.grown(series)
        plan = self.with_temperature(self.file('t.nc', stamps, values),
                                     (r'\[season\]', '[season]\ndaily = "linear"'))
        means = np.zeros(12)
        for month in range(12):
            years = {}
            for date, value in zip(dates, values[:, len(LAT) // 2, :]):
                if date.month == month + 1:
                    years.setdefault(date.year, []).append(np.interp(PLACE[0], LON, value))
            full = [np.mean(v) for v in years.values() if len(v) >= 14]
            means[month] = np.mean(full)
        days, _ = self.days(plan)
        # daily = linear: the day nearest to a month's middle has its mean, but for half a day
        for month, (date, span) in enumerate((('01-16', 31), ('02-15', 28), ('03-16', 31),
                                              ('04-16', 30), ('05-16', 31), ('06-16', 30),
                                              ('07-16', 31), ('08-16', 31), ('09-16', 30),
                                              ('10-16', 31), ('11-16', 30), ('12-16', 31))):
            if date in days:
                self.assertAlmostEqual(days[date], means[month], delta=0.1, msg=date)
        self.assertGreater(len(days), 60)
        text = self.checked(plan)
        self.assertRegex(text, r'water\.temperature: .*; 1993 to 1996, 4 years: 1124 steps to twelve')
        self.assertRegex(text, r'water\.temperature: .*longest gap 1 day;')
        self.assertIn('11 steps at the ends of the series are left out', text)

    def test_one_year_of_days_is_used_day_by_day(self):
        for calendar, count in (('standard', 365), ('360_day', 360), ('noleap', 365)):
            with self.subTest(calendar=calendar):
                stamps = np.arange(count) + 0.5
                rng = np.random.default_rng(7)
                series = self.season((stamps + 0.5) / count * 365) + rng.normal(0, 0.5, count)
                plan = self.with_temperature(self.file(
                    'd.nc', stamps, self.grown(series), units='days since 2019-01-01',
                    calendar=calendar))
                days, _ = self.days(plan)
                self.assertIn('used day by day', self.checked(plan))
                offset = 0.5 * (PLACE[0] - LON[0]) / (LON[-1] - LON[0])
                for date in list(days)[5:-5]:
                    month, day = map(int, date.split('-'))
                    if calendar == '360_day':
                        if day > 30:
                            continue
                        n = (np.datetime64(f'2019-{date}') - np.datetime64('2019-01-01')).astype(int)
                        want = [series[i] for i in range(360)
                                if int((i + 0.5) / 360 * 365) == n]
                        if not want:
                            continue
                        self.assertAlmostEqual(days[date], want[0] + offset, delta=0.02)
                    else:
                        n = (np.datetime64(f'2019-{date}') - np.datetime64('2019-01-01')).astype(int)
                        self.assertAlmostEqual(days[date], series[n] + offset, delta=0.02, msg=date)

    def test_monthly_on_demand_and_scout_takes_both(self):
        stamps = np.arange(365) + 0.5
        name = self.file('d.nc', stamps, self.grown(self.season(stamps)),
                         units='days since 2019-01-01')
        outs = []
        for extra in ('', 'steps = "monthly"'):
            plan = self.with_temperature(name, extra=extra)
            result, out = self.scout(plan)
            self.assertEqual(result.returncode, 0, result.stderr)
            record = json.loads((out / 'run.json').read_text())
            layer = next(x for x in record['layers'] if x['key'] == 'water.temperature')
            outs.append((layer, record['counts']))
        self.assertIn('2019: 365 steps used day by day', json.dumps(outs[0][0]))
        self.assertIn('365 steps to twelve monthly means', json.dumps(outs[1][0]))

    def test_levels_around_the_line(self):
        stamps = np.arange(12) * 30.4 + 15
        level = np.array([0.0, 2.0, 5.0])
        series = self.season(stamps)
        values = self.grown(series)[:, None] - level[None, :, None, None]
        flat = self.grown(series) - 1.0
        deep = self.with_temperature(self.file('z.nc', stamps, values, levels=level))
        text = self.checked(deep)
        self.assertIn('between the levels at 0 and 2 m for the line at 1 m', text)
        days, _ = self.days(deep)
        same, _ = self.days(self.with_temperature(self.file('f.nc', stamps, flat)))
        self.assertEqual(days.keys(), same.keys())
        for date in days:
            self.assertAlmostEqual(days[date], same[date], delta=1e-4)

    def test_longitudes_from_0_to_360_and_kelvin(self):
        stamps = np.arange(12) * 30.4 + 15
        values = self.grown(self.season(stamps))
        days, _ = self.days(self.with_temperature(self.file('a.nc', stamps, values)))
        east, _ = self.days(self.with_temperature(
            self.file('b.nc', stamps, values + 273.15, lon=LON + 360, unit='K')))
        self.assertEqual(days.keys(), east.keys())
        for date in days:
            self.assertAlmostEqual(days[date], east[date], delta=1e-4)

    CURRENT = r'(?s)\[water\.current\].*?(?=\n\[)'

    def tide(self, bearing):
        """Two parts of an hourly tide of 0.3 m/s along a bearing, with a drift, over a year."""
        hours = np.arange(365 * 24)
        angle = math.radians(bearing)
        swing = 0.3 * np.cos(2 * np.pi * hours / 12.42)
        ones = np.ones((1, len(LAT), len(LON)))
        east = (0.05 + swing * math.sin(angle))[:, None, None] * ones
        north = (swing * math.cos(angle))[:, None, None] * ones
        self.file('uv.nc', hours / 24.0, east, units='days since 2019-01-01', variable='uo',
                  unit='m s-1', more={'vo': north})
        return east[:, 0, 0], north[:, 0, 0]

    def test_the_speed_of_two_parts_and_sites_along_their_axis(self):
        east, north = self.tide(63.0)
        plan = self.plan((self.CURRENT, '[water.current]\nfile = "uv.nc"\neastward = "uo"\n'
                                        'northward = "vo"\nsteps = "monthly"\n'))
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        layer = next(x for x in json.loads((out / 'run.json').read_text())['layers']
                     if x['key'] == 'water.current')
        self.assertIn('8760 steps to twelve monthly means', layer['steps'])
        speed = np.hypot(east, north)
        self.assertAlmostEqual((layer['low'] + layer['high']) / 2, speed.mean(), delta=0.01)
        self.assertGreater(layer['low'], 1.5 * np.hypot(east.mean(), north.mean()))
        rows = list(csv.DictReader(io.StringIO((out / "sites.csv").read_text())))
        self.assertTrue(rows)
        for row in rows:
            self.assertAlmostEqual(float(row['axis_deg']), 63.0, delta=0.1)
            # angle_deg is counted from grid north, which is within two degrees of true north here
            self.assertAlmostEqual(float(row['angle_deg']), 63.0, delta=2.1)
        text = bay.run('explain', plan, '--at', f'{PLACE[0]},{PLACE[1]}').stdout
        self.assertIn('runs along 63 degrees from true north', text)

    def test_a_direction_in_the_plan(self):
        plan = self.plan((self.CURRENT, '[water.current]\nconstant = 0.15\ndirection = 210\n'))
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        for row in csv.DictReader(io.StringIO((out / "sites.csv").read_text())):
            self.assertAlmostEqual(float(row['axis_deg']), 30.0, delta=0.01)
        self.assertIn('from true north, to and fro', (out / 'report.html').read_text())

    def test_directions_and_parts_that_do_not_fit_are_refused(self):
        for table, fragment in (('constant = 0.1\ndirection = 400', 'direction'),
                                ('constant = 0.1\neastward = "u"', 'eastward'),
                                ('constant = 0.1\neastward = "u"\nnorthward = "v"', 'eastward'),
                                ('constant = 0.1\nsteps = "daily"', 'steps')):
            self.refused(self.plan((self.CURRENT, f'[water.current]\n{table}\n')), 2, fragment)

    def test_a_month_without_a_step_is_refused(self):
        stamps = np.arange(200)
        plan = self.with_temperature(self.file('s.nc', stamps, self.grown(self.season(stamps))))
        self.refused(plan, 3, 's.nc', 'none in Aug, Sep, Oct, Nov, Dec')

    def test_more_steps_than_can_be_read_are_refused(self):
        stamps = np.arange(32769) / 24.0
        with netCDF4.Dataset(self.folder / 'many.nc', 'w') as d:
            for key, size in (('time', len(stamps)), ('lat', 2), ('lon', 2)):
                d.createDimension(key, size)
            t = d.createVariable('time', 'f8', ('time',))
            t.units, t[:] = 'days since 2015-01-01', stamps
            for key, values, u in (('lat', (40.9, 41.2), 'degrees_north'),
                                   ('lon', (-30.2, -29.9), 'degrees_east')):
                v = d.createVariable(key, 'f8', (key,))
                v.units, v[:] = u, values
            d.createVariable('sst', 'f4', ('time', 'lat', 'lon')).units = 'degC'
        self.refused(self.with_temperature('many.nc'), 3, '32769 steps', 'daily or monthly means')

    def test_a_curvilinear_grid_gives_what_its_regular_twin_gives(self):
        stamps = np.arange(12) * 30.4 + 15
        values = self.grown(self.season(stamps))
        regular, _ = self.days(self.with_temperature(self.file('r.nc', stamps, values)))
        turn = math.radians(25)
        j, i = np.meshgrid(np.arange(24), np.arange(26), indexing='ij')
        x, y = (i - 13) * 0.012 + 0.0001 * j ** 2 / 24, (j - 12) * 0.012
        lon = PLACE[0] + x * math.cos(turn) - y * math.sin(turn)
        lat = PLACE[1] + x * math.sin(turn) + y * math.cos(turn)
        with netCDF4.Dataset(self.folder / 'c.nc', 'w') as d:
            for key, size in (('time', 12), ('j', 24), ('i', 26)):
                d.createDimension(key, size)
            t = d.createVariable('time', 'f8', ('time',))
            t.units, t[:] = 'days since 1990-01-01', stamps
            for key, data, u in (('lon', lon, 'degrees_east'), ('lat', lat, 'degrees_north')):
                v = d.createVariable(key, 'f8', ('j', 'i'))
                v.units, v[:] = u, data
            v = d.createVariable('sst', 'f4', ('time', 'j', 'i'))
            v.units, v.coordinates = 'degC', 'lon lat'
            east = 0.5 * (lon - LON[0]) / (LON[-1] - LON[0])
            v[:] = self.season(stamps)[:, None, None] + east[None]
        curved, _ = self.days(self.with_temperature('c.nc'))
        self.assertEqual(regular.keys(), curved.keys())
        for date in regular:
            self.assertAlmostEqual(regular[date], curved[date], delta=2e-4)



if __name__ == "__main__":
    bay.main()

# SPDX-License-Identifier: Apache-2.0
"""The same bay in other clothes: same_bay_test.py PROGRAM SOURCE_DIR

An analytic bay is written once plainly and then in every dress in which users bring their layers:
another sign, unit, reference system, format, row order, longitude convention, tiling, packing. The
maps must be those of the plain one to 3e-4 of their largest value. (Fine pixels, so that bilinear
values of one system differ from those of another by less than that.)

Environment: TIDELOT_BAY_SEED (another bay of its kind; none for the plain one).
"""
import os
import random
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import netCDF4
import numpy as np
import rasterio
from pyproj import Transformer

PROGRAM = sys.argv[1]
BOUNDS = -30.020, 41.000, -30.000, 41.015
PIXEL = 0.00015  # degrees
MARGIN = 0.002
TOLERANCE = 3e-4
# In drawn bays one cell of so many may differ by so much. Supposed: where the water reaches a bound of
# the season on a day to the last digit, another rounding of it makes the season a day longer.
A_FEW, A_DAY = 500, 0.01
MAPS = ('depth_low_water', 'yield', 'nitrogen', 'suitability')
DICE = random.Random(os.environ['TIDELOT_BAY_SEED']) if 'TIDELOT_BAY_SEED' in os.environ else None


def about(value, share=0.25):
    """The value, or one near it in a drawn bay."""
    return value if DICE is None else value * DICE.uniform(1 - share, 1 + share)


DEEP, WAVE, ACROSS, ALONG = about(5.2, 0.1), about(1.6, 0.4), about(220.0), about(260.0)
# Clearer water than that bends more from pixel to pixel as a Secchi depth than as an attenuation.
MURK = about(0.9, 0.12)
COLD, WARM, SALT, RICH, FAST = about(4.0), about(23.0, 0.1), about(29.0, 0.1), about(7.0), about(0.18)


def depth(x, y):
    return DEEP + WAVE * np.sin((x + 30.01) * ACROSS) * np.cos((y - 41.0075) * ALONG)


def year(low, high, month):
    return low + (high - low) * 0.5 * (1.0 - np.cos(2.0 * np.pi * (month - 0.5) / 12.0))


def temperature(x, y, month):
    return year(COLD, WARM, month) + 20.0 * (x + 30.01)


def salinity(x, y, month):
    return SALT - year(0.0, 2.0, month) + 50.0 * (y - 41.0)


def kd(x, y, month):
    return MURK + 0.5 * np.cos((x + 30.0) * 150.0) + 0.02 * month


def nitrogen(x, y, month):
    return RICH - year(0.0, 4.0, month) + 150.0 * (x + 30.02)


def current(x, y):
    return FAST + 3.0 * (y - 41.0075)


def monthly(function):
    return lambda x, y: np.stack([function(x, y, m) for m in range(1, 13)])


class Lattice:
    """Pixel centres of a raster in some reference system, with their degrees."""

    def __init__(self, crs='EPSG:4326'):
        self.crs = crs
        west, south, east, north = BOUNDS
        west, south, east, north = west - MARGIN, south - MARGIN, east + MARGIN, north + MARGIN
        if crs == 'EPSG:4326':
            step = PIXEL
        else:
            to = Transformer.from_crs('EPSG:4326', crs, always_xy=True)
            west, south, east, north = to.transform_bounds(west, south, east, north)
            step = 15.0
        cols, rows = int((east - west) / step) + 1, int((north - south) / step) + 1
        self.transform = rasterio.transform.from_origin(west, north, step, step)
        x = west + step * (np.arange(cols) + 0.5)
        y = north - step * (np.arange(rows) + 0.5)
        self.x, self.y = x, y
        gx, gy = np.meshgrid(x, y)
        if crs != 'EPSG:4326':
            gx, gy = Transformer.from_crs(crs, 'EPSG:4326', always_xy=True).transform(gx, gy)
        self.lon, self.lat = gx, gy


def write_tif(path, lattice, values, south_up=False, **more):
    values = np.atleast_3d(values.T).T if values.ndim == 2 else values
    transform = lattice.transform
    if south_up:
        values = values[:, ::-1, :]
        t = transform
        transform = rasterio.Affine(t.a, 0, t.c, 0, -t.e, t.f + t.e * values.shape[1])
    kind = more.pop('dtype', 'float32')
    with rasterio.open(path, 'w', driver=more.pop('driver', 'GTiff'), count=values.shape[0],
                       height=values.shape[1], width=values.shape[2], dtype=kind,
                       crs=lattice.crs, transform=transform, **more) as file:
        file.write(values.astype(kind))


def write_packed(path, lattice, values, scale, offset):
    values = np.atleast_3d(values.T).T if values.ndim == 2 else values
    packed = np.round((values - offset) / scale)
    write_tif(path, lattice, packed, dtype='int32', nodata=-2147483648)
    with rasterio.open(path, 'r+') as file:
        file.scales = [scale] * file.count
        file.offsets = [offset] * file.count


def write_nc(path, lattice, name, values, unit, standard_name, shift=0.0, times=None, south_up=True,
             fill=None):
    """A CF file; rows from the south unless told otherwise."""
    with netCDF4.Dataset(path, 'w') as nc:
        order = slice(None, None, -1) if south_up else slice(None)
        nc.createDimension('lat', lattice.y.size)
        nc.createDimension('lon', lattice.x.size)
        lat = nc.createVariable('lat', 'f8', ('lat',))
        lon = nc.createVariable('lon', 'f8', ('lon',))
        lat.units, lon.units = 'degrees_north', 'degrees_east'
        lat.standard_name, lon.standard_name = 'latitude', 'longitude'
        lat[:], lon[:] = lattice.y[order], lattice.x + shift
        dimensions = ('lat', 'lon')
        if times is not None:
            nc.createDimension('time', len(times[1]))
            time = nc.createVariable('time', 'f8', ('time',))
            time.units, time.calendar = times[0], times[2]
            time[:] = times[1]
            dimensions = ('time', 'lat', 'lon')
        variable = nc.createVariable(name, 'f4', dimensions, fill_value=fill)
        variable.units, variable.standard_name = unit, standard_name
        variable[:] = values[..., order, :]


class Bay:
    """A folder with plain layers and a plan; what is given replaces a table of it."""

    def __init__(self, folder, lattice):
        self.folder, self.lattice = Path(folder), lattice
        self.tables = {
            'depth': 'file = "depth.tif"\npositive = "down"\nunit = "m"\ndatum = "MLLW"',
            'water.temperature': 'file = "temperature.tif"\nunit = "degC"',
            'water.salinity': 'file = "salinity.tif"',
            'water.light': 'file = "kd.tif"\nunit = "1/m"',
            'water.nitrogen': 'file = "nitrogen.tif"\nunit = "umol/L"',
            'water.current': 'file = "current.tif"\nunit = "m/s"',
        }
        for name, function in (('depth', depth), ('temperature', monthly(temperature)),
                               ('salinity', monthly(salinity)), ('kd', monthly(kd)),
                               ('nitrogen', monthly(nitrogen)), ('current', current)):
            write_tif(self.path(name + '.tif'), lattice, self.values(function))

    def path(self, name):
        return self.folder / name

    def values(self, function):
        return function(self.lattice.lon, self.lattice.lat)

    def maps(self, names=MAPS, bounds=BOUNDS):
        """The maps of a run, and where the grid begins."""
        text = f'title = "The same bay"\n[area]\nbounds = {list(bounds)}\ncell_m = 25\n'
        text += 'crs = "EPSG:32626"\n'
        for table, lines in self.tables.items():
            text += f'[{table}]\n{lines}\n'
        text += '[crop]\nprofile = "warm-red-alga"\n[sites]\ncount = 2\n'
        text += '[uncertainty]\ndraws = 0\n[report]\nwhat_if = "no"\n'  # no map of these
        self.path('plan.toml').write_text(text)
        out = self.path('out')
        run = subprocess.run([PROGRAM, 'scout', self.path('plan.toml'), '--out', out, '--quiet'],
                             capture_output=True, text=True)
        if run.returncode != 0:
            raise AssertionError(run.stderr)
        found = {}
        for name in names:
            with rasterio.open(out / 'maps' / (name + '.tif')) as file:
                found[name] = file.read(1)
                found['corner'] = file.transform.c, file.transform.f
        return found


class SameBay(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with tempfile.TemporaryDirectory() as folder:
            cls.plain = Bay(folder, Lattice()).maps()
        for name in MAPS:  # the comparison below means something
            values = cls.plain[name]
            assert (values != -9999).all(), name
            assert values.max() > 1.05 * values.min() > 0, (name, values.min(), values.max())

    def same(self, dress, crs='EPSG:4326'):
        with tempfile.TemporaryDirectory() as folder:
            bay = Bay(folder, Lattice(crs))
            dress(bay)
            found = bay.maps()
        for name in MAPS:
            off = np.sort(np.abs(found[name] - self.plain[name]).ravel()) / self.plain[name].max()
            few = 0 if DICE is None else off.size // A_FEW
            self.assertLessEqual(off[-1 - few], TOLERANCE, name)
            self.assertLessEqual(off[-1], TOLERANCE if DICE is None else A_DAY, name)

    def test_the_comparison_can_fail(self):
        def off(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, 1.001 * bay.values(depth))
        with self.assertRaises(AssertionError):
            self.same(off)

    def test_sign_elevations(self):
        def dress(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, -bay.values(depth))
            bay.tables['depth'] = bay.tables['depth'].replace('down', 'up')
        self.same(dress)

    def test_zero_at_mean_sea_level(self):
        def dress(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, bay.values(depth) + 1.1)
            bay.tables['depth'] = bay.tables['depth'].replace(
                '"MLLW"', '"mean sea level"\nlow_water_m = -1.1')
        self.same(dress)

    def test_units_feet_kelvin_knots_milligrams(self):
        def dress(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, bay.values(depth) / 0.3048)
            write_tif(bay.path('temperature.tif'), bay.lattice,
                      bay.values(monthly(temperature)) + 273.15)
            write_tif(bay.path('current.tif'), bay.lattice, bay.values(current) / (1852 / 3600))
            write_tif(bay.path('nitrogen.tif'), bay.lattice,
                      bay.values(monthly(nitrogen)) * 0.014007)
            for table, before, after in (('depth', '"m"', '"ft"'), ('water.temperature', 'degC', 'K'),
                                         ('water.current', 'm/s', 'knot'),
                                         ('water.nitrogen', 'umol/L', 'mg/L as N')):
                bay.tables[table] = bay.tables[table].replace(before, after)
        self.same(dress)

    def test_units_fathoms_and_fahrenheit(self):
        def dress(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, bay.values(depth) / 1.8288)
            write_tif(bay.path('temperature.tif'), bay.lattice,
                      bay.values(monthly(temperature)) * 1.8 + 32.0)
            bay.tables['depth'] = bay.tables['depth'].replace('"m"', '"fathom"')
            bay.tables['water.temperature'] = 'file = "temperature.tif"\nunit = "degF"'
        self.same(dress)

    def test_secchi_depths(self):
        def dress(bay):
            write_tif(bay.path('kd.tif'), bay.lattice, 1.44 / bay.values(monthly(kd)))
            bay.tables['water.light'] = 'file = "kd.tif"\nmeasure = "secchi"\nunit = "m"'
        self.same(dress)

    def test_reference_system_utm(self):
        self.same(lambda bay: None, 'EPSG:32626')

    def test_reference_system_web_mercator(self):
        self.same(lambda bay: None, 'EPSG:3857')

    def test_reference_system_equal_area(self):
        self.same(lambda bay: None, '+proj=laea +lat_0=40 +lon_0=-31 +datum=WGS84 +units=m')

    def test_rows_from_the_south(self):
        def dress(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, bay.values(depth), south_up=True)
            write_tif(bay.path('kd.tif'), bay.lattice, bay.values(monthly(kd)), south_up=True)
        self.same(dress)

    def test_tiles_compression_and_big_endian(self):
        def dress(bay):
            write_tif(bay.path('depth.tif'), bay.lattice, bay.values(depth), tiled=True,
                      blockxsize=16, blockysize=16, compress='deflate', predictor=3)
            write_tif(bay.path('kd.tif'), bay.lattice, bay.values(monthly(kd)), compress='lzw',
                      interleave='pixel', ENDIANNESS='BIG')
        self.same(dress)

    def test_packed_whole_numbers(self):
        def dress(bay):
            write_packed(bay.path('depth.tif'), bay.lattice, bay.values(depth), 1e-5, 5.0)
            write_packed(bay.path('salinity.tif'), bay.lattice, bay.values(monthly(salinity)), 1e-5,
                         20.0)
        self.same(dress)

    def test_twelve_files(self):
        def dress(bay):
            for month in range(1, 13):
                write_tif(bay.path(f'kd_{month:02}.tif'), bay.lattice,
                          kd(bay.lattice.lon, bay.lattice.lat, month))
            bay.tables['water.light'] = 'file = "kd_{month}.tif"\nunit = "1/m"'
        self.same(dress)

    def netcdf(self, shift, times, south_up=True, fill=None):
        def dress(bay):
            write_nc(bay.path('temperature.nc'), bay.lattice, 'thetao',
                     bay.values(monthly(temperature)) + 273.15, 'K', 'sea_water_temperature', shift,
                     times, south_up, fill)
            write_nc(bay.path('depth.nc'), bay.lattice, 'deptho', bay.values(depth), 'm',
                     'sea_floor_depth_below_geoid', shift, None, south_up, fill)
            bay.tables['water.temperature'] = 'file = "temperature.nc"'
            bay.tables['depth'] = ('file = "depth.nc"\npositive = "down"\ndatum = "MLLW"')
        self.same(dress)

    def test_netcdf_rows_from_the_south_and_longitudes_to_360(self):
        self.netcdf(360.0, ('days since 2019-01-01', [15 + 30.4 * m for m in range(12)], 'standard'))

    def test_netcdf_rows_from_the_north_year_of_360_days(self):
        self.netcdf(0.0, ('days since 2019-01-01', [15 + 30 * m for m in range(12)], '360_day'),
                    south_up=False, fill=-1e34)

    def test_netcdf_hours_year_without_leap_days(self):
        self.netcdf(0.0, ('hours since 2019-01-01', [24 * (14 + 30.4 * m) for m in range(12)],
                          'noleap'))


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)

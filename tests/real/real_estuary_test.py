#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""A real estuary, end to end: real_estuary_test.py PROGRAM SOURCE_DIR

Real depth (mesh A), real monthly temperature and real monthly radiation, out of Debian packages;
salinity, light and nitrogen are synthetic (make_inputs.py says why). The program's maps are held,
cell by cell, against reference.py, which shares no code and no GDAL with it.

Tables: computed once with an independent rasteriser and interpolator (numpy, pyproj) from the same
packages; the reference has to give them again before it may judge.
"""
import csv
import io
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path
import numpy as np
import pyproj
import rasterio

HERE = Path(__file__).resolve().parent
sys.dont_write_bytecode = True
sys.path.insert(0, str(HERE))
import reference as ref

PROGRAM = Path(sys.argv[1]).resolve()
SOURCE = Path(sys.argv[2]).resolve()
REAL = Path(os.environ.get('TIDELOT_REAL_DATA', SOURCE / 'build' / 'real-data'))
CASES = 'whole_500', 'whole_250', 'part_270'
LONLAT = pyproj.Transformer.from_crs(ref.CRS, 'EPSG:4326', always_xy=True)


def run(*words):
    return subprocess.run([str(w) for w in words], capture_output=True, text=True,
                          stdin=subprocess.DEVNULL)


def succeed(*words):
    done = run(*words)
    if done.returncode != 0:
        line = f'FAILED: {" ".join(map(str, words))} ended with status {done.returncode}'
        raise SystemExit(f'{line}\n{done.stdout}{done.stderr}')
    return done.stdout


class Case:
    """The maps of one plan, the reference at the same cell centres, and how they differ."""

    def __init__(self, folder, name):
        self.plan, self.out = folder / f'{name}.toml', folder / f'{name}-maps'
        succeed(PROGRAM, 'scout', self.plan, '--out', self.out, '--threads', os.cpu_count(),
                '--quiet')
        with rasterio.open(self.out / 'maps' / 'depth_low_water.tif') as raster:
            self.transform, self.crs, self.cell = raster.transform, raster.crs, raster.res[0]
            self.depth = self.read('depth_low_water')[0]
            self.rows, self.columns = raster.shape
        self.yields, self.nitrogen = self.read('yield')[0], self.read('nitrogen')[0]
        self.outplant, self.last_haul, self.harvests = self.read('season')
        self.expect(folder, 'depth_500.npz' if name.endswith('500') else 'depth_250.npz')

    def read(self, name):
        with rasterio.open(self.out / 'maps' / f'{name}.tif') as raster:
            return raster.read(masked=True).astype(float).filled(np.nan).reshape(raster.count, -1)

    def expect(self, folder, depth):
        row, column = np.divmod(np.arange(self.rows * self.columns), self.columns)
        x, y = self.transform * (column + 0.5, row + 0.5)
        self.ref_depth = ref.read_lattice(folder / depth).at(x, y)[0]
        water = np.flatnonzero(self.ref_depth > 0)
        lon, lat = LONLAT.transform(x[water], y[water])
        layer = {name: ref.read_lattice(folder / f'{name}.npz').at(lon, lat)
                 for name in ('salinity', 'kd', 'nitrogen')}
        self.temperature = ref.read_climatology(
            REAL / 'coads_climatology.cdf', 'SST', 'COADSX', 'COADSY').at(lon, lat)
        radiation = None
        if 'FSR' in self.plan.read_text():
            radiation = 0.0864 * ref.read_climatology(
                REAL / 'esku_heat_budget.cdf', 'FSR', 'ESKUX', 'ESKUY').at(lon, lat)
        first, last, grows = ref.season(self.temperature)
        cells = ref.Cells(lat, self.temperature, layer['salinity'], layer['kd'],
                          layer['nitrogen'] / 14.007e-3, radiation)
        found = ref.grow(cells, first, last, grows, ref.Job())
        whole = np.full((5, self.rows * self.columns), np.nan)
        whole[:, water] = *found, first, last
        whole[3:, water[~grows]] = np.nan
        whole[:, np.isnan(whole[0])] = np.nan              # not known: on no map
        self.ref_yield, self.ref_nitrogen, self.ref_hauls, self.ref_first, self.ref_last = whole
        self.water, self.lon, self.lat, self.grows = water, lon, lat, grows

    def same_season(self):
        return (self.outplant == self.ref_first) & (self.last_haul == self.ref_last)

    def off(self, ours, theirs):
        """Relative differences where both know and the season is the same."""
        both = np.isfinite(ours) & np.isfinite(theirs) & self.same_season()
        a, b = ours[both], theirs[both]
        return np.abs(a - b) / np.maximum(np.abs(b), 0.01 * np.abs(b).max())


class TheReference(unittest.TestCase):
    """The judge is judged first."""

    @classmethod
    def setUpClass(cls):
        cls.mesh = ref.read_mesh(REAL / 'mesh-a.nc')
        cls.extent = ref.extent_of(cls.mesh)
        cls.depth = {cell: ref.rasterise(cls.mesh, cls.extent, cell) for cell in (500, 250)}
        row, column = np.nonzero(np.isfinite(cls.depth[500]))
        lon, lat = LONLAT.transform(cls.extent[0] + (column + 0.5) * 500,
                                    cls.extent[3] - (row + 0.5) * 500)
        cls.temperature = ref.read_climatology(
            REAL / 'coads_climatology.cdf', 'SST', 'COADSX', 'COADSY').at(lon, lat)

    def test_mesh_rasterised(self):
        """Cells, km3 and mean depth; to the printed digits."""
        self.assertAlmostEqual(13247.383, ref.mesh_area(self.mesh) / 1e6, 3)
        for cell, shape, cells, km3, mean in ((500, (664, 312), 53018, 112.54068, 8.4908),
                                              (250, (1328, 624), 211965, 112.50857, 8.4926)):
            depth = self.depth[cell]
            self.assertEqual((shape, cells), (depth.shape, np.isfinite(depth).sum()))
            self.assertAlmostEqual(km3, np.nansum(depth) * cell ** 2 / 1e9, 5)
            self.assertAlmostEqual(mean, np.nanmean(depth), 4)

    def test_temperature_of_each_month(self):
        wanted = (7.930, 6.617, 8.098, 11.386, 16.104, 21.223, 24.668, 25.627, 23.910, 19.674,
                  15.432, 11.513)
        np.testing.assert_allclose(self.temperature.mean(1), wanted, rtol=0, atol=5.1e-4)

    def test_months_between_15_and_30_degrees(self):
        months = ((self.temperature >= 15) & (self.temperature <= 30)).sum(0)
        self.assertEqual({5: 1757, 6: 6971, 7: 44290},
                         dict(zip(*(x.tolist() for x in np.unique(months, return_counts=True)))))
        depth = self.depth[500][np.isfinite(self.depth[500])]
        for low, high, cells in (3, 8, 19698), (4, 10, 20310):
            self.assertEqual(cells, ((depth >= low) & (depth <= high) & (months >= 6)).sum())

    def test_daily_series_keep_the_months_means(self):
        rng = np.random.default_rng(1)
        means = rng.random((12, 50)) * 30
        daily = ref.daily_from_means() @ means
        np.testing.assert_allclose(ref.month_means(daily), means, rtol=1e-12)

    def test_model(self):
        """docs/science/growth.md, one change at a time: 41 N, 140 days from day 152 (computed there
        by another program, in double precision)."""
        for T, S, kd, nh4, no3, current, fresh, nitrogen in (
                (22, 28, 0.8, 2, 3, 0.15, 1880.680, 5.4375),
                (12, 28, 0.8, 2, 3, 0.15, 45.238, 0.3638),
                (33, 28, 0.8, 2, 3, 0.15, -67.128, -0.1021),
                (22, 18, 0.8, 2, 3, 0.15, 684.236, 2.4463),
                (22, 28, 3.0, 2, 3, 0.15, 267.201, 1.1730),
                (22, 28, 0.8, 0.1, 0.1, 0.15, 615.363, 0.7068),
                (22, 28, 0.8, 2, 3, 0.01, 1151.231, 2.0234),
                (25, 28, 0.8, 15, 20, 0.3, 2224.586, 7.0608)):
            one = [np.full((12, 1), float(v)) for v in (T, S, kd, nh4 + no3)]
            job = ref.Job(current=current, nh4_share=nh4 / (nh4 + no3), sunshine=0.5)
            got = ref.grow(ref.Cells(np.array([41.0]), *one), np.array([152]), np.array([291]),
                           np.array([True]), job)
            self.assertAlmostEqual(fresh, got[0][0] * 1000, delta=5.1e-4)
            self.assertAlmostEqual(nitrogen, got[1][0], delta=5.1e-5)


class TheProgram(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.temporary = tempfile.TemporaryDirectory()
        folder = Path(cls.temporary.name)
        succeed(sys.executable, '-B', HERE / 'make_inputs.py', REAL, folder)
        cls.cases = {name: Case(folder, name) for name in CASES}

    @classmethod
    def tearDownClass(cls):
        cls.temporary.cleanup()

    def test_grid(self):
        for name, west, north, columns, rows in (('whole_500', 297000, 4386500, 312, 664),
                                                 ('whole_250', 297000, 4386500, 624, 1328),
                                                 ('part_270', 345600, 4363200, 240, 240)):
            case, transform = self.cases[name], self.cases[name].transform
            self.assertEqual(ref.CRS, str(case.crs))
            self.assertEqual((west, north, columns, rows),
                             (transform.c, transform.f, case.columns, case.rows))

    def test_depth(self):
        """The program reads the mesh itself for the whole, a raster of it for the part. Float maps
        of up to 35 m: 1e-5 m is their rounding."""
        for name, case in self.cases.items():
            with self.subTest(name):
                self.assertEqual(0, (np.isfinite(case.depth) != np.isfinite(case.ref_depth)).sum())
                self.assertLess(np.nanmax(np.abs(case.depth - case.ref_depth)), 1e-5)

    def test_water_and_depth_bands_come_near_the_mesh(self):
        """km2. Water: the mesh's 13,247.383, rasters within 0.1 and 0.01 %. Bands: of each triangle
        divided 24-fold, rasters within 0.2 and 0.1 %."""
        bands = {(3, 8): 5124.22, (4, 10): 5214.14, (3, 15): 9119.84}
        for name, water, band in ('whole_500', 1e-3, 2e-3), ('whole_250', 1e-4, 1e-3):
            case = self.cases[name]
            km2 = case.cell ** 2 / 1e6
            self.assertLess(abs((case.depth > 0).sum() * km2 / 13247.383 - 1), water)
            for (low, high), wanted in bands.items():
                found = ((case.depth >= low) & (case.depth <= high)).sum() * km2
                self.assertLess(abs(found / wanted - 1), band, (name, low, high))

    def test_season(self):
        """A day may tip over where the ten-day mean meets a threshold to within float rounding.
        Where the yield is not known, nor is the season."""
        for name, case in self.cases.items():
            with self.subTest(name):
                known = np.isfinite(case.ref_first)
                self.assertEqual(0, (np.isfinite(case.outplant) & ~known).sum())
                differs = known & ~case.same_season()
                self.assertLess(differs.sum(), 1e-4 * known.sum())
                for ours, theirs in ((case.outplant, case.ref_first),
                                     (case.last_haul, case.ref_last)):
                    self.assertLessEqual(np.abs(ours - theirs)[differs].max(initial=0), 1)
                same = known & case.same_season() & np.isfinite(case.ref_yield)
                unlike = (case.harvests != case.ref_hauls) & same
                self.assertLess(unlike.sum(), 1e-4 * same.sum())

    def test_yield_and_nitrogen(self):
        """Bounds: p99.9, and anywhere, of the difference relative to the value, or to 1 % of the
        largest where that is more. The program grows in float, the reference in double: 1e-5
        anywhere on the whole, 1.1e-4 on the part, where the crop hardly gains. The maps are then
        rounded to 13 binary digits, 1.2e-4."""
        for name, case in self.cases.items():
            with self.subTest(name):
                for what, ours, theirs in (('yield', case.yields, case.ref_yield),
                                           ('nitrogen', case.nitrogen, case.ref_nitrogen)):
                    off = case.off(ours, theirs)
                    self.assertGreater(off.size, 1000)
                    most, nearly = off.max(), np.quantile(off, 0.999)
                    print(json.dumps(dict(case=name, map=what, cells=off.size, p99_9=nearly,
                                          max=most, largest=np.nanmax(theirs))))
                    self.assertLess(nearly, 2e-4)
                    self.assertLess(most, 4e-4)

    def test_unknown_where_the_reference_does_not_know(self):
        """Only the radiation has holes over water: too far from a valid cell of its lattice."""
        for name, case in self.cases.items():
            with self.subTest(name):
                water = case.ref_depth > 0
                unknown = water & ~np.isfinite(case.ref_yield)
                self.assertEqual(name == 'part_270', unknown.any())
                differs = np.isfinite(case.yields) != np.isfinite(case.ref_yield)
                self.assertLessEqual(differs[water].sum(), 1e-4 * water.sum())

    def test_resolutions_agree(self):
        """Means over the water, 500 against 250 m."""
        coarse, fine = self.cases['whole_500'], self.cases['whole_250']
        for what in 'yields', 'nitrogen', 'depth':
            a, b = (np.nanmean(getattr(case, what)) for case in (coarse, fine))
            print(json.dumps(dict(mean_of=what, at_500=a, at_250=b)))
            self.assertLess(abs(a / b - 1), 2e-3, what)

    def test_explained_place_by_place(self):
        """The day-by-day series of a cell: its temperature, and harvests that make the yield."""
        case = self.cases['whole_500']
        daily = ref.daily_from_means() @ case.temperature
        months = 100 * np.arange(1, 13).repeat(ref.MONTH_DAYS)
        dates = months + np.concatenate([np.arange(1, n + 1) for n in ref.MONTH_DAYS])
        grown = np.flatnonzero(case.grows & (case.ref_depth[case.water] > 4))
        for k in grown[[len(grown) // 7, len(grown) // 2, 6 * len(grown) // 7]]:
            place = f'{case.lon[k]:.7f},{case.lat[k]:.7f}'
            table = succeed(PROGRAM, 'explain', case.plan, '--at', place, '--csv')
            rows = list(csv.DictReader(io.StringIO(table)))
            days = [dates.tolist().index(int(row['date'].replace('-', ''))) for row in rows]
            temperatures = [float(row['temperature']) for row in rows]
            np.testing.assert_allclose(temperatures, daily[days, k], rtol=0, atol=2e-3)
            harvest = sum(float(row['harvest_g_per_m'] or 0) for row in rows)
            wanted = case.ref_yield[case.water[k]] * 1000 + ref.Job.stocking
            np.testing.assert_allclose(harvest, wanted, rtol=1e-4, atol=0.05)

    def test_the_second_crop_grows_here_too(self):
        """Kelp over the winter, at 1 km: wherever the summer crop's water is known, a season over
        the new year or a reason; the map's yield is what the place's own days make; and it lies in
        what farms have published (0.2 to 18 kg per metre) where the best of it grows."""
        case = self.cases['whole_500']
        plan = case.plan.with_name('kelp.toml')
        plan.write_text(re.sub(r'(?m)^cell_m = .*$', 'cell_m = 1000', case.plan.read_text())
                        .replace('warm-red-alga', 'sugar-kelp')
                        .replace('[report]', '[uncertainty]\ndraws = 0\n[report]\nwhat_if = "no"'))
        out = case.plan.with_name('kelp-maps')
        succeed(PROGRAM, 'scout', plan, '--out', out, '--quiet')
        read = {}
        for name in 'depth_low_water', 'yield', 'season':
            with rasterio.open(out / 'maps' / f'{name}.tif') as raster:
                transform = raster.transform
                read[name] = raster.read(masked=True).astype(float).filled(np.nan)
        water, fresh = read['depth_low_water'][0] > 0, read['yield'][0]
        outplant, last_haul = read['season'][:2]
        grows = np.isfinite(outplant)
        self.assertGreater((grows & water).sum(), 0.9 * water.sum())
        self.assertTrue((outplant[grows] > last_haul[grows]).all())
        self.assertTrue(np.isfinite(fresh[water]).all())
        best = np.unravel_index(np.nanargmax(fresh), fresh.shape)
        self.assertTrue(0.2 < fresh[best] < 18, fresh[best])
        back = pyproj.Transformer.from_crs(ref.CRS, 'EPSG:4326', always_xy=True)
        lon, lat = back.transform(*(transform * (best[1] + 0.5, best[0] + 0.5)))
        table = succeed(PROGRAM, 'explain', plan, '--at', f'{lon:.7f},{lat:.7f}', '--csv')
        rows = list(csv.DictReader(io.StringIO(table)))
        hauled = sum(float(row['harvest_g_per_m'] or 0) for row in rows) / 1000
        self.assertAlmostEqual(hauled, fresh[best], delta=0.02 * fresh[best])

    def test_sites_lie_on_water_and_measure_what_they_say(self):
        """Hectares from the printed corners, on the ellipsoid (Karney's method, PROJ's)."""
        case, geod = self.cases['whole_500'], pyproj.Geod(ellps='WGS84')
        there = pyproj.Transformer.from_crs('EPSG:4326', ref.CRS, always_xy=True)
        with open(case.out / 'sites.csv', encoding='utf-8') as text:
            sites = list(csv.DictReader(text))
        self.assertTrue(1 <= len(sites) <= 5, len(sites))
        for site in sites:
            lon, lat = np.array([c.split() for c in site['corners'].split(';')], float).T
            self.assertAlmostEqual(abs(geod.polygon_area_perimeter(lon, lat)[0]) / 1e4,
                                   float(site['area_ha']), 3)
            x, y = there.transform(lon.mean(), lat.mean())
            column, row = (int(v) for v in ~case.transform * (x, y))
            depth = case.ref_depth[row * case.columns + column]
            self.assertTrue(float(site['depth_min_m']) - 0.01 <= depth
                            <= float(site['depth_max_m']) + 0.01, depth)


if __name__ == '__main__':
    succeed(HERE / 'fetch.sh', REAL)
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])

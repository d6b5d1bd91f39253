#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""Layers of depth in the formats that people hold: depth_formats_test.py PROGRAM SOURCE_FOLDER

Every file is made here: by GDAL, netCDF4 or as text. The chart is a real S-57 file, written by
GDAL's own driver. What a cell should get is worked out by numpy.
"""
import sys
from pathlib import Path

import netCDF4
import numpy as np
from osgeo import gdal, ogr, osr

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parent))
import depth_bay

gdal.UseExceptions()
ogr.UseExceptions()


def inside(x, y, box):
    """Is it in a box along the axes?"""
    (west, south), (east, north) = np.min(box, 0), np.max(box, 0)
    return (x >= west) & (x < east) & (y >= south) & (y < north)


def slope(x, y):
    return 5 + (x - 249000) / 500 + 0 * y


def depth(file, more='', positive='down', datum='MLLW'):
    return f'[depth]\nfile = "{file}"\npositive = "{positive}"\ndatum = "{datum}"\n{more}\n'


class Grids(depth_bay.DepthBay):
    def ascii_grid(self, name):
        values = self.raster('x.tif', slope)
        west, south, east, north = self.square()
        west, north = np.floor(west / 25) * 25, np.ceil(north / 25) * 25
        rows, columns = values.shape
        lines = [f'ncols {columns}', f'nrows {rows}', f'xllcorner {west}',
                 f'yllcorner {north - rows * 25}', 'cellsize 25', 'NODATA_value -9999']
        lines += [' '.join(f'{v:.6f}' for v in row) for row in values]
        (self.folder / name).write_text('\n'.join(lines) + '\n')

    def reference(self, code):
        system = osr.SpatialReference()
        system.ImportFromEPSG(code)
        return system

    def test_ascii_grid(self):
        self.ascii_grid('bay.asc')
        self.refused(depth('bay.asc'), 3, 'bay.asc', 'no reference system', 'crs = "EPSG:n"')
        self.refused(depth('bay.asc', 'crs = "EPSG:nonsense"'), 2, 'depth.crs')
        found, x, y, said = self.scout(depth('bay.asc', f'crs = "{depth_bay.CRS}"'))
        np.testing.assert_allclose(found, slope(x, y), rtol=0, atol=2e-6)
        self.assertIn('reference system from the plan', ' '.join(said.split()))
        (self.folder / 'bay.prj').write_text(
            self.reference(32626).ExportToWkt(['FORMAT=WKT1_ESRI']))
        found, x, y, _ = self.scout(depth('bay.asc'))
        np.testing.assert_allclose(found, slope(x, y), rtol=0, atol=2e-6)
        found, x, y, _ = self.scout(depth('bay.asc', f'crs = "{depth_bay.CRS}"'))
        self.refused(depth('bay.asc', 'crs = "EPSG:32625"'), 3, 'bay.asc', '32625')

    def test_bag(self):
        self.raster('bed.tif', lambda x, y: -slope(x, y))
        two = gdal.GetDriverByName('MEM').CreateCopy('', gdal.Open(str(self.folder / 'bed.tif')))
        two.AddBand(gdal.GDT_Float32)
        two.GetRasterBand(1).SetNoDataValue(1e6)
        two.GetRasterBand(2).SetNoDataValue(1e6)
        system = osr.SpatialReference()
        system.SetCompoundCS('both', self.reference(32626), self.reference(5714))
        two.SetProjection(system.ExportToWkt())
        gdal.GetDriverByName('BAG').CreateCopy(str(self.folder / 'bay.bag'), two)
        said_zero = 'low_water_m = -1.1'
        found, x, y, said = self.scout(depth('bay.bag', said_zero, 'up', 'MSL'))
        np.testing.assert_allclose(found, slope(x, y) - 1.1, rtol=0, atol=2e-6)
        self.assertIn('the vertical part of its reference system (MSL height) is not applied',
                      ' '.join(said.split()))
        self.refused(depth('bay.bag', said_zero, 'down', 'MSL'), 3, 'depth.positive',
                     'positive is up')

    def netcdf(self, name, values_of=slope, **attributes):
        west, south, east, north = self.square()
        x, y = np.arange(west, east, 25.0), np.arange(south, north, 25.0)
        with netCDF4.Dataset(self.folder / name, 'w') as data:
            for axis, values, word in (('x', x, 'projection_x_coordinate'),
                                       ('y', y, 'projection_y_coordinate')):
                data.createDimension(axis, values.size)
                made = data.createVariable(axis, 'f8', axis)
                made[:] = values
                made.units, made.standard_name = 'm', word
            mapping = data.createVariable('utm', 'i4')
            mapping.crs_wkt = mapping.spatial_ref = self.reference(32626).ExportToWkt()
            mapping.grid_mapping_name = 'transverse_mercator'
            bed = data.createVariable('bed', 'f4', ('y', 'x'))
            bed.setncatts(dict(units='m', grid_mapping='utm', **attributes))
            bed[:] = values_of(x[None, :], y[:, None])

    def test_cf_names_of_the_bed(self):
        def height(x, y):
            return -slope(x, y)
        for name in 'sea_floor_depth_below_geoid', 'sea_floor_depth_below_mean_sea_level':
            self.netcdf('bed.nc', standard_name=name)
            self.scout(depth('bed.nc', 'low_water_m = -1', 'down', 'MSL'))
            self.refused(depth('bed.nc', 'low_water_m = -1', 'up', 'MSL'), 3, 'depth.positive')
            _, _, _, said = self.scout(depth('bed.nc'))
            self.assertIn('not low water', ' '.join(said.split()))
        for name in 'altitude', 'surface_altitude', 'height_above_mean_sea_level':
            self.netcdf('bed.nc', height, standard_name=name)
            found, x, y, _ = self.scout(depth('bed.nc', 'low_water_m = -1', 'up', 'MSL'))
            np.testing.assert_allclose(found, slope(x, y) - 1, rtol=0, atol=1e-5)
            self.refused(depth('bed.nc', 'low_water_m = -1', 'down', 'MSL'), 3, 'depth.positive',
                         'positive is up')

    def test_the_attribute_comes_before_the_name(self):
        self.netcdf('bed.nc', standard_name='sea_floor_depth_below_geoid', positive='up')
        self.refused(depth('bed.nc'), 3, 'depth.positive')

    def test_depth_below_the_moving_surface_is_said(self):
        self.netcdf('bed.nc', standard_name='sea_floor_depth_below_sea_surface')
        _, _, _, said = self.scout(depth('bed.nc'))
        self.assertIn('moves with the tide', ' '.join(said.split()))

    def test_a_ballpark_operation_only_where_the_plan_allows_it(self):
        """A system on an unnamed datum: nothing ties it to WGS 84 but taking it over as it is."""
        self.raster('old.tif', slope, crs='+proj=utm +zone=26 +ellps=clrk66 +units=m +no_defs',
                    box=self.square(1000))
        self.refused(depth('old.tif'), 3, 'depth: no known coordinate operation',
                     'allow = ["ballpark"]')
        self.refused(depth('old.tif') + '[run]\nallow = ["guess"]', 2, 'run.allow', 'ballpark')
        found, _, _, said = self.scout(depth('old.tif') + '[run]\nallow = ["ballpark"]')
        self.assertTrue(np.isfinite(found).all())
        self.assertIn('depth: no known operation ties', ' '.join(said.split()))
        run = (self.folder / 'out' / 'run.json').read_text()
        self.assertIn('hundreds of metres', run)
        self.assertIn('"run.allow"', run)
        self.raster('new.tif', slope)
        _, _, _, said = self.scout(depth('new.tif') + '[run]\nallow = ["ballpark"]')
        self.assertNotIn('hundreds of metres', ' '.join(said.split()))

    def test_text_on_a_lattice_is_a_raster(self):
        values = self.raster('x.tif', slope)
        west, south, east, north = self.square()
        west, north = np.floor(west / 25) * 25, np.ceil(north / 25) * 25
        with open(self.folder / 'bay.xyz', 'w') as file:
            for (row, col), v in np.ndenumerate(values):
                file.write(f'{west + 12.5 + 25 * col} {north - 12.5 - 25 * row} {v:.6f}\n')
        found, x, y, _ = self.scout(depth('bay.xyz', f'crs = "{depth_bay.CRS}"'))
        np.testing.assert_allclose(found, slope(x, y), rtol=0, atol=2e-6)
        self.assertIn('XYZ raster', self.run_plan(depth('bay.xyz', f'crs = "{depth_bay.CRS}"'),
                                                  command='check').stdout)


class Points(depth_bay.DepthBay):
    """A plane through the points: linear in every triangle, whichever they are."""

    def setUp(self):
        super().setUp()
        west, south, east, north = self.square(400)
        rng = np.random.default_rng(2)
        self.x, self.y = rng.uniform(west, east, 900), rng.uniform(south, north, 900)
        self.z = 4 + (self.x - west) / 400 + (self.y - south) / 500
        self.plane = lambda x, y: 4 + (x - west) / 400 + (y - south) / 500

    def layer(self, name, driver, solid, field, code=32626):
        system = osr.SpatialReference()
        system.ImportFromEPSG(code)
        system.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        made = ogr.GetDriverByName(driver).CreateDataSource(str(self.folder / name))
        layer = made.CreateLayer('soundings', system, ogr.wkbPoint25D if solid else ogr.wkbPoint)
        layer.CreateField(ogr.FieldDefn(field, ogr.OFTReal))
        x, y = (self.x, self.y) if code != 4326 else depth_bay.TO_DEGREES.transform(self.x, self.y)
        for a, b, z in zip(x, y, self.z):
            point = ogr.Geometry(ogr.wkbPoint25D if solid else ogr.wkbPoint)
            point.AddPoint(a, b, z) if solid else point.AddPoint_2D(a, b)
            feature = ogr.Feature(layer.GetLayerDefn())
            feature.SetField(0, z if not solid else 0.0)
            feature.SetGeometry(point)
            layer.CreateFeature(feature)

    def test_points_of_shape_files(self):
        for name, driver, solid, field, code, more in (
                ('a.gpkg', 'GPKG', False, 'sounding', 32626, 'field = "sounding"'),
                ('b.gpkg', 'GPKG', True, 'other', 32626, ''),
                ('c.shp', 'ESRI Shapefile', False, 'DEPTH', 32626, ''),
                ('d.geojson', 'GeoJSON', False, 'depth', 4326, '')):
            with self.subTest(name):
                self.layer(name, driver, solid, field, code)
                found, x, y, _ = self.scout(depth(name, 'longest_edge_m = 2000\n' + more))
                self.assertTrue(np.isfinite(found).all())
                near = 2e-5 if driver != 'GeoJSON' else 1e-3  # seven decimals of a degree
                np.testing.assert_allclose(found, self.plane(x, y), rtol=0, atol=near)

    def test_the_field_must_be_clear(self):
        self.layer('a.gpkg', 'GPKG', False, 'sounding')
        self.refused(depth('a.gpkg'), 3, 'a.gpkg', 'set field', 'sounding')
        self.refused(depth('a.gpkg', 'field = "soundin"'), 3, '("sounding"?)')

    def text(self, content, more=''):
        (self.folder / 'bay.xyz').write_text(content)
        return depth('bay.xyz', f'crs = "{depth_bay.CRS}"\n{more}')

    def test_text_that_is_not_understood(self):
        good = ''.join(f'{a:.2f} {b:.2f} {c:.2f}\n' for a, b, c in zip(self.x, self.y, self.z))
        self.scout(self.text('# a survey\n\nx y depth\n' + good))
        (self.folder / 'bay.xyz').write_text(good)
        self.refused(depth('bay.xyz'), 3, 'states no reference system', 'crs = "EPSG:n"')
        self.refused(self.text(good + '1,5 2,5 3,5\n'), 3, 'line 901')
        self.refused(self.text('lon lat name\n' + good), 3, 'set field')
        self.refused(self.text(good, 'field = "z"'), 3, 'field means nothing')
        self.refused(self.text(good.replace('-', '')[:40] + '\n'), 3, 'bay.xyz')
        far = ''.join(f'{a:.2f} {b + 5e5:.2f} 5\n' for a, b in zip(self.x, self.y))
        self.refused(self.text(far), 3, 'bay.xyz')
        row = ''.join(f'{a:.2f} {self.y[0]:.2f} 5\n' for a in self.x)
        self.refused(self.text(row), 3, 'make no triangle')
        self.refused(self.text('\n'.join(f'{a:.2f} {b:.2f} 99998' for a, b in
                                         zip(self.x, self.y))), 3, 'cannot be depth')

    def test_a_bound_on_edges_belongs_to_points(self):
        self.raster('bay.tif', slope)
        self.refused(depth('bay.tif', 'longest_edge_m = 100'), 2, 'depth.longest_edge_m')


class Meshes(depth_bay.DepthBay):
    """The same triangles in each way of writing them; a node's value is a plane's, and one node is
    lifted, so that a wrong triangle shows."""

    def setUp(self):
        super().setUp()
        west, south, east, north = self.square(300)
        gx, gy = np.meshgrid(np.linspace(west, east, 9), np.linspace(south, north, 8))
        rng = np.random.default_rng(4)
        self.x = gx.ravel() + rng.uniform(-60, 60, gx.size)
        self.y = gy.ravel() + rng.uniform(-60, 60, gx.size)
        self.z = np.round(5 + (self.x - west) / 600 + rng.uniform(0, 3, gx.size), 4)
        self.lon, self.lat = depth_bay.TO_DEGREES.transform(self.x, self.y)
        corner = (np.arange(7)[:, None] * 9 + np.arange(8)[None, :]).ravel()
        self.faces = np.r_[np.c_[corner, corner + 1, corner + 10],
                           np.c_[corner, corner + 10, corner + 9]]
        self.faces = self.faces[rng.permutation(len(self.faces))][:-9]  # with holes

    def expected(self, x, y):
        out = np.full(x.shape, np.nan)
        for a, b, c in self.faces:
            m = np.array([[self.x[a], self.x[b], self.x[c]], [self.y[a], self.y[b], self.y[c]],
                          [1, 1, 1]])
            w = np.linalg.solve(m, np.stack([x.ravel(), y.ravel(), np.ones(x.size)]))
            here = (w >= 0).all(0)
            out.ravel()[here] = (w.T @ self.z[[a, b, c]])[here]
        return out

    def write(self, faces, degrees=True, ugrid=False, start=None, across=False, extra=()):
        with netCDF4.Dataset(self.folder / 'mesh.nc', 'w') as data:
            data.createDimension('node', self.x.size)
            data.createDimension('face', len(faces))
            data.createDimension('three', faces.shape[1])
            axes = (('lon', self.lon, 'degrees_east', 'longitude'),
                    ('lat', self.lat, 'degrees_north', 'latitude')) if degrees else (
                        ('x', self.x, 'm', 'projection_x_coordinate'),
                        ('y', self.y, 'm', 'projection_y_coordinate'))
            for name, values, unit, word in axes:
                made = data.createVariable(name, 'f8', 'node')
                made[:] = values
                made.units, made.standard_name = unit, word
            shape = ('three', 'face') if across else ('face', 'three')
            table = data.createVariable('ele', 'i4', shape)
            table[:] = faces.T if across else faces
            if start is not None:
                table.start_index = np.int32(start)
            for name in ('h', *extra):
                bed = data.createVariable(name, 'f8', 'node')
                bed[:] = self.z
                bed.units, bed.positive = 'm', 'down'
            if ugrid:
                mesh = data.createVariable('mesh', 'i4')
                mesh.cf_role, mesh.topology_dimension = 'mesh_topology', np.int32(2)
                mesh.node_coordinates = ' '.join(a[0] for a in axes)
                mesh.face_node_connectivity = 'ele'

    def test_every_way_to_write_it(self):
        for way in (dict(start=0), dict(start=1), dict(), dict(across=True),
                    dict(ugrid=True, start=1), dict(ugrid=True, start=0, across=True),
                    dict(degrees=False), dict(count=1), dict(count=1, across=True)):
            count = way.pop('count', way.get('start', 0))
            with self.subTest(way):
                self.write(self.faces + count, **way)
                more = '' if way.get('degrees', True) else f'crs = "{depth_bay.CRS}"'
                found, x, y, said = self.scout(depth('mesh.nc', more))
                wanted = self.expected(x, y)
                self.assertTrue(np.isnan(wanted).any())
                np.testing.assert_array_equal(np.isnan(found), np.isnan(wanted))
                self.assertLess(np.nanmax(np.abs(found - wanted)), 1e-5)

    def test_what_is_not_clear_is_refused(self):
        self.write(self.faces, extra=('wet',))
        self.refused(depth('mesh.nc'), 3, 'set variable', 'h, wet')
        self.scout(depth('mesh.nc', 'variable = "wet"'))
        self.refused(depth('mesh.nc', 'variable = "wett"'), 3, '("wet"?)')
        self.refused(depth('mesh.nc', 'variable = "h"', 'up'), 3, 'depth.positive')
        inner = self.faces[((self.faces > 0) & (self.faces < self.x.size - 1)).all(1)]
        self.write(inner)
        self.refused(depth('mesh.nc'), 3, 'from 0 or from 1', 'start_index')
        self.write(self.faces + 2, start=1)
        self.refused(depth('mesh.nc'), 3, 'mesh.nc')
        self.write(self.faces, degrees=False)
        self.refused(depth('mesh.nc'), 3, 'crs = "EPSG:n"')
        quads = np.c_[self.faces, self.faces[:, 0] * 0 + np.arange(len(self.faces)) % 60]
        self.write(quads, ugrid=True, start=0)
        self.refused(depth('mesh.nc'), 3, 'only triangles')
        self.lat += 3
        self.write(self.faces)
        self.refused(depth('mesh.nc'), 3, 'does not overlap the area')


class Charts(depth_bay.DepthBay):
    """An S-57 file: a depth area of 5 to 10 m, a shallower one over a part of it, soundings."""

    DEEP = [(-29.99, 40.99), (-29.99, 41.02), (-29.965, 41.02), (-29.965, 40.99)]
    SHALLOW = [(-29.975, 41.003), (-29.975, 41.009), (-29.97, 41.009), (-29.97, 41.003)]
    NODE, CONNECTED, EDGE = 110, 120, 130

    def chart(self):
        made = ogr.GetDriverByName('S57').CreateDataSource(
            str(self.folder / 'bay.000'), options=['S57_SDAT=12'])

        def add(name, shape=None, lists=(), **fields):
            layer = made.GetLayerByName(name)
            feature = ogr.Feature(layer.GetLayerDefn())
            for key, value in fields.items():
                feature.SetField(key, value)
            for key, value in lists:
                feature.SetFieldIntegerList(feature.GetFieldIndex(key), [value])
            if shape:
                feature.SetGeometry(ogr.CreateGeometryFromWkt(shape))
            layer.CreateFeature(feature)

        def points_to(kind, number, turn):
            return [('NAME_RCNM', kind), ('NAME_RCID', number), ('ORNT', turn), ('USAG', turn),
                    ('MASK', 255)]

        rng = np.random.default_rng(6)
        lon, lat = rng.uniform(-29.99, -29.95, 300), rng.uniform(40.99, 41.025, 300)
        self.soundings = np.round(np.c_[lon, lat], 7), np.round(rng.uniform(2, 9, 300), 1)
        text = ','.join(f'{a:.7f} {b:.7f} {z:.1f}' for (a, b), z in zip(*self.soundings))
        add('IsolatedNode', f'MULTIPOINT Z({text})', RCNM=self.NODE, RCID=1, RVER=1, RUIN=1)
        for number, (ring, low) in enumerate(((self.DEEP, 5.0), (self.SHALLOW, 2.0)), 1):
            start = f'{ring[0][0]} {ring[0][1]}'
            add('ConnectedNode', f'POINT({start})', RCNM=self.CONNECTED, RCID=number, RVER=1,
                RUIN=1)
            line = ','.join(f'{a} {b}' for a, b in ring[1:])
            ends = {f'{key}_{end}': value for end in (0, 1) for key, value in dict(
                NAME_RCNM=self.CONNECTED, NAME_RCID=number, ORNT=255, USAG=255, TOPI=end + 1,
                MASK=255).items()}
            add('Edge', f'LINESTRING({line})', RCNM=self.EDGE, RCID=number, RVER=1, RUIN=1, **ends)
            add('DEPARE', None, points_to(self.EDGE, number, 1), RCID=number, PRIM=3, GRUP=1,
                OBJL=42, RVER=1, AGEN=540, FIDN=number, FIDS=1, DRVAL1=low, DRVAL2=low + 5)
        add('SOUNDG', None, points_to(self.NODE, 1, 255), RCID=9, PRIM=1, GRUP=2, OBJL=129, RVER=1,
            AGEN=540, FIDN=9, FIDS=1)

    def test_depth_areas_give_their_shallow_limit(self):
        self.chart()
        found, x, y, _ = self.scout(depth('bay.000', 'layer = "DEPARE"'))
        lon, lat = depth_bay.TO_DEGREES.transform(x, y)
        wanted = np.where(inside(lon, lat, self.SHALLOW), 2.0,
                          np.where(inside(lon, lat, self.DEEP), 5.0, np.nan))
        self.assertEqual({2.0, 5.0}, set(np.unique(wanted[np.isfinite(wanted)])))
        np.testing.assert_array_equal(found, wanted)
        told = ' '.join(self.run_plan(depth('bay.000', 'layer = "DEPARE"'),
                                      command='check').stdout.split())
        self.assertIn('S57 depth areas, 2 near the area', told)
        run = (self.folder / 'out' / 'run.json').read_text()
        for words in 'DRVAL1, the shallow limit', 'mean lower low water (code 12)':
            self.assertIn(words, run)

    def test_soundings(self):
        from scipy.interpolate import LinearNDInterpolator
        self.chart()
        found, x, y, _ = self.scout(depth('bay.000', 'layer = "SOUNDG"\nlongest_edge_m = 9000'))
        (places, values) = self.soundings
        at = np.c_[depth_bay.TO_METRES.transform(places[:, 0], places[:, 1])]
        zero = at.mean(0)
        wanted = LinearNDInterpolator(at - zero, values)(x - zero[0], y - zero[1])
        np.testing.assert_allclose(found, wanted, rtol=0, atol=2e-5)

    def test_a_chart_counts_down(self):
        self.chart()
        self.refused(depth('bay.000', 'layer = "DEPARE"', 'up'), 3, 'depth.positive',
                     'positive is down')
        self.refused(depth('bay.000'), 3, 'set layer', 'DEPARE')

    def test_soundings_where_there_are_some_depth_areas_elsewhere(self):
        """The usual pair: detail from soundings, screened with areas below them."""
        self.chart()
        found, x, y, _ = self.scout(
            '[depth]\npositive = "down"\ndatum = "MLLW"\n'
            '[[depth.sources]]\nname = "soundings"\nfile = "bay.000"\nlayer = "SOUNDG"\n'
            'longest_edge_m = 150\n'
            '[[depth.sources]]\nname = "areas"\nfile = "bay.000"\nlayer = "DEPARE"\n')
        which, _, _ = self.map('depth_source')
        self.assertEqual({0.0, 1.0}, set(np.unique(which[np.isfinite(which)])))
        areas = found[which == 1]
        self.assertTrue(set(np.unique(areas)) <= {2.0, 5.0})


if __name__ == '__main__':
    depth_bay.main()

# SPDX-License-Identifier: Apache-2.0
"""An invented bay of 2 km, small enough to be run some hundred times: every kind of file once."""
import json

import netCDF4
import numpy as np
import rasterio
from osgeo import ogr, osr
from rasterio.transform import from_origin
from scipy.io import netcdf_file

WEST, SOUTH, EAST, NORTH = -30.02, 41.00, -30.00, 41.015
PLAN = '''title = "Little bay"
[area]
bounds = [-30.02, 41.00, -30.00, 41.015]
cell_m = 100
[depth]
file = "depth.tif"
positive = "down"
unit = "m"
datum = "MLLW"
[water.temperature]
file = "temperature.nc"
variable = "sst"
[water.salinity]
file = "salinity.tif"
[water.light]
measure = "kd"
file = "kd.tif"
unit = "1/m"
[water.nitrogen]
constant = 12
unit = "umol/L"
[water.current]
constant = 0.15
[crop]
profile = "warm-red-alga"
[[closed]]
name = "eelgrass"
file = "closed.gpkg"
where = "status = 'mapped'"
setback_m = 30
[[closed]]
name = "outfall"
file = "outfall.geojson"
[[closed]]
name = "growing area"
file = "area.shp"
[uncertainty]
draws = 4
'''


def write_tif(path, bands, west=WEST - 0.005, north=NORTH + 0.005, step=0.001, **more):
    bands = np.asarray(bands)
    bands = bands if bands.ndim == 3 else bands[None]
    profile = {'driver': 'GTiff', 'width': bands.shape[2], 'height': bands.shape[1],
               'count': bands.shape[0], 'dtype': bands.dtype, 'crs': 'EPSG:4326',
               'transform': from_origin(west, north, step, step), **more}
    with rasterio.open(path, 'w', **profile) as file:
        file.write(bands)


def months(mean, swing):
    return mean - swing * np.cos((np.arange(12) - 0.5) * np.pi / 6)


def write_temperature(path):
    with netcdf_file(path, 'w') as file:
        for name, values in (('time', np.arange(12) * 30.4 + 15), ('lat', np.linspace(40.98, 41.03, 6)),
                             ('lon', np.linspace(-30.04, -29.98, 7))):
            file.createDimension(name, len(values))
            file.createVariable(name, 'd', (name,))[:] = values
        file.variables['time'].units = 'days since 2001-01-01'
        file.variables['lat'].units = 'degrees_north'
        file.variables['lon'].units = 'degrees_east'
        sst = file.createVariable('sst', 'f', ('time', 'lat', 'lon'))
        sst.units = 'degC'
        sst[:] = months(15, 9)[:, None, None] + np.zeros((12, 6, 7))


def write_temperature4(path):
    """The same in NetCDF-4, packed and with strings of changing length, which HDF5 decodes."""
    with netcdf_file(path.with_name('temperature.nc'), mmap=False) as classic, \
            netCDF4.Dataset(path, 'w') as file:
        for name, length in classic.dimensions.items():
            file.createDimension(name, length)
        for name, variable in classic.variables.items():
            copy = file.createVariable(name, variable.data.dtype.newbyteorder('='),
                                       variable.dimensions, zlib=name == 'sst')
            copy[:] = variable.data
            copy.setncattr_string('units', variable.units.decode())


def write_shapes(path, driver, shapes, layer='shapes'):
    """`shapes` is a list of (status, WKT or None)."""
    wgs = osr.SpatialReference()
    wgs.ImportFromEPSG(4326)
    wgs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    source = ogr.GetDriverByName(driver).CreateDataSource(str(path))
    rows = source.CreateLayer(layer, wgs, ogr.wkbUnknown if driver == 'GPKG' else ogr.wkbPolygon)
    rows.CreateField(ogr.FieldDefn('status', ogr.OFTString))
    for status, wkt in shapes:
        row = ogr.Feature(rows.GetLayerDefn())
        row['status'] = status
        if wkt is not None:
            row.SetGeometry(ogr.CreateGeometryFromWkt(wkt))
        rows.CreateFeature(row)
    source = rows = None


def square(west, south, side=0.002):
    east, north = west + side, south + side
    return [[west, south], [east, south], [east, north], [west, north], [west, south]]


def wkt(ring):
    return 'POLYGON((' + ','.join(f'{x} {y}' for x, y in ring) + '))'


def collection(*geometries):
    return json.dumps({'type': 'FeatureCollection', 'features': [
        {'type': 'Feature', 'properties': {}, 'geometry': g} for g in geometries]})


def make_bay(folder):
    folder.mkdir(parents=True)
    (folder / 'plan.toml').write_text(PLAN)
    rows, cols = np.mgrid[0:25, 0:30]
    depth = (rows * 0.5 - 1 + cols * 0.1).astype('float32')
    write_tif(folder / 'depth.tif', depth, nodata=-9999, compress='deflate')
    write_tif(folder / 'salinity.tif', np.full((12, 5, 6), 28, 'float32'), step=0.005)
    write_tif(folder / 'kd.tif', np.full((12, 5, 6), 0.6, 'float32'), step=0.005, compress='lzw')
    write_temperature(folder / 'temperature.nc')
    write_temperature4(folder / 'temperature4.nc')
    (folder / 'plan4.toml').write_text(PLAN.replace('temperature.nc', 'temperature4.nc'))
    write_shapes(folder / 'closed.gpkg', 'GPKG',
                 [('mapped', wkt(square(-30.015, 41.003))), ('old', wkt(square(-30.01, 41.01)))])
    write_shapes(folder / 'area.shp', 'ESRI Shapefile', [('x', wkt(square(-30.005, 41.005)))])
    (folder / 'outfall.geojson').write_text(
        collection({'type': 'Polygon', 'coordinates': [square(-30.008, 41.001)]}))

#!/usr/bin/python3
# SPDX-License-Identifier: Apache-2.0
"""Mesh A as rasters, water to go with it, and plans: make_inputs.py REAL_DATA OUT

REAL_DATA is what fetch.sh left. Depth is the real mesh, as it is and rasterised at 500 and 250 m;
temperature and sun are read by the program straight from the climatologies. No salinity, light attenuation or
nitrogen of this estuary is to be had: those layers are SYNTHETIC, smooth in space, and say so.
"""
import sys
from pathlib import Path
import numpy as np
import pyproj
import rasterio
from rasterio.transform import from_origin
import reference

NODATA, STEP = -9999.0, 0.05
WATER_BOX = -77.6, 36.4, -75.3, 39.9
SYNTHETIC = 'SYNTHETIC: made for a test, not measured'
MONTHS = np.arange(12)


def write(path, values, west, north, step, crs, note):
    """A GeoTIFF, and the same numbers beside it for the reference, which links no GDAL."""
    values = values.astype(np.float32)
    with rasterio.open(path, 'w', driver='GTiff', dtype='float32', crs=crs, nodata=NODATA,
                       count=values.shape[0], height=values.shape[1], width=values.shape[2],
                       transform=from_origin(west, north, step, step), compress='deflate') as out:
        out.write(np.where(np.isfinite(values), values, np.float32(NODATA)))
        out.update_tags(note=note)
    np.savez(path.with_suffix('.npz'), values=values, lonlat=crs == 'EPSG:4326',
             place=[west + step / 2, step, north - step / 2, -step])


def write_depth(folder, mesh, extent, cell):
    depth = reference.rasterise(mesh, extent, cell)
    write(folder / f'depth_{cell}.tif', depth[None], extent[0], extent[3], float(cell),
          reference.CRS, 'depth of mesh A, m, positive down, linear in each triangle')


def write_water(folder):
    """Fresher, more turbid and richer in nitrogen towards the north, most so in spring."""
    west, south, east, north = WATER_BOX
    columns, rows = round((east - west) / STEP), round((north - south) / STEP)
    lat = (north - STEP * (np.arange(rows) + 0.5))[None, :, None]
    lon = (west + STEP * (np.arange(columns) + 0.5))[None, None, :]
    up = np.clip((lat - 36.6) / 3.0, 0, 1.1) + 0.06 * np.sin(9 * lon) * np.cos(7 * lat)
    wave = {peak: np.cos(2 * np.pi * (MONTHS - peak) / 12)[:, None, None]
            for peak in (0.5, 3.3, 6.5)}
    for name, values in dict(
            salinity=31 - 22 * up - 2 * up * wave[3.3],
            kd=0.5 + 1.1 * np.abs(up) * (1 + 0.2 * wave[3.3]) + 0.03 * wave[6.5],
            nitrogen=0.014007 * (4 + 22 * np.abs(up)) * (1 + 0.55 * wave[0.5])).items():
        write(folder / f'{name}.tif', values, west, north, STEP, 'EPSG:4326', SYNTHETIC)


def bounds_that_fill(extent, cell):
    """Degrees whose outline, in the grid's system, reaches half into the outermost cells."""
    there = pyproj.Transformer.from_crs('EPSG:4326', reference.CRS, always_xy=True)
    wanted = np.array(extent) + np.array([1, 1, -1, -1]) * cell / 2
    bounds = np.array(there.transform_bounds(*wanted, direction='INVERSE'))
    for _ in range(60):
        short = wanted - there.transform_bounds(*bounds, densify_pts=33)
        bounds += short / np.tile([88000.0, 111000.0], 2)
    assert np.abs(wanted - there.transform_bounds(*bounds, densify_pts=201)).max() < cell / 20
    return bounds


def write_plan(folder, real, name, extent, cell, depth, sun, more=''):
    bounds = ', '.join(f'{b:.9f}' for b in bounds_that_fill(extent, cell))
    (folder / f'{name}.toml').write_text(f'''title = "A real estuary, {cell} m, synthetic water"
[area]
bounds = [{bounds}]
cell_m = {cell}
crs    = "{reference.CRS}"
[depth]
{depth}
positive    = "down"
unit        = "m"
datum       = "not stated by the mesh"
low_water_m = 0.0
tidal_range_m = 0.6
lowest_tide_m = -0.3
[water.temperature]
file     = "{real / 'coads_climatology.cdf'}"
variable = "SST"
unit     = "degC"
[water.salinity]
file = "salinity.tif"
[water.light]
measure = "kd"
file    = "kd.tif"
[water.nitrogen]
file = "nitrogen.tif"
unit = "mg/L as N"
[water.current]
constant = {reference.Job.current}
[sun]
{sun}
[run]
allow = ["outside"]
[season]
daily = "mean"
[crop]
profile = "warm-red-alga"
[sites]
count   = 5
area_ha = 100.0
gap_m   = 2000.0
[report]
waterbody = "a real estuary"
{more}''')


def main():
    real, folder = Path(sys.argv[1]).resolve(), Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    mesh = reference.read_mesh(real / 'mesh-a.nc')
    extent = reference.extent_of(mesh)
    write_water(folder)
    quick = 'what_if = "no"\n[uncertainty]\ndraws = 0\n'  # one of the three shows the rest
    for cell in 500, 250:
        write_depth(folder, mesh, extent, cell)
        write_plan(folder, real, f'whole_{cell}', extent, cell,
                   f'file = "{real}/mesh-a.nc"\nvariable = "depth"',
                   f'sunshine = {reference.Job.sunshine}', quick if cell == 250 else '')
    # A part in cells that share no centre with the raster, so that depth has to be interpolated.
    # The radiation ends within it: too far from a cell of its lattice it is not known.
    sun, part = real / 'esku_heat_budget.cdf', np.array([320, 3980, 380, 4040]) * 1080.0
    write_plan(folder, real, 'part_270', part, 270, 'file = "depth_250.tif"',
               f'file = "{sun}"\nvariable = "FSR"\nunit = "W m-2"', quick)


if __name__ == '__main__':
    main()

# SPDX-License-Identifier: Apache-2.0
"""The main job again, in numpy, pyproj and netCDF4: no GDAL, no code of the program's.

Everything is in double precision and over all cells at once. Equations: docs/science/growth.md. The
rules on sampling, on monthly to daily and on the season are those that the user's guide states.
"""
from dataclasses import dataclass
import netCDF4
import numpy as np
import pyproj

CRS = 'EPSG:32618'
MONTH_DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
FIRST_DAY = np.cumsum([0, *MONTH_DAYS[:-1]])              # days of the year before each month
MID_MONTH = FIRST_DAY + MONTH_DAYS / 2
DAYS = 365


# The mesh -----------------------------------------------------------------------------------------

@dataclass
class Mesh:
    x: np.ndarray          # m, in CRS
    y: np.ndarray
    depth: np.ndarray      # m, positive down
    triangles: np.ndarray  # (n, 3), 0-based


def read_mesh(path):
    with netCDF4.Dataset(path) as data:
        lon, lat, depth = (np.asarray(data[name][:], float) for name in ('lon', 'lat', 'depth'))
        triangles = np.asarray(data['ele'][:]) - 1
    x, y = pyproj.Transformer.from_crs('EPSG:4326', CRS, always_xy=True).transform(lon, lat)
    return Mesh(x, y, depth, triangles)


def mesh_area(mesh):
    """m2 in CRS."""
    (x0, x1, x2), (y0, y1, y2) = mesh.x[mesh.triangles].T, mesh.y[mesh.triangles].T
    return np.abs((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)).sum() / 2


def extent_of(mesh, step=500.0):
    """West, south, east, north: whole steps, the same for every cell size that divides step."""
    return (np.floor(mesh.x.min() / step) * step, np.floor(mesh.y.min() / step) * step,
            np.ceil(mesh.x.max() / step) * step, np.ceil(mesh.y.max() / step) * step)


def rasterise(mesh, extent, cell):
    """Depth at the cell centres, linear in each triangle; NaN outside the mesh."""
    west, south, east, north = extent
    depth = np.full((round((north - south) / cell), round((east - west) / cell)), np.nan)
    for triangle in mesh.triangles:
        (x0, x1, x2), (y0, y1, y2), z = mesh.x[triangle], mesh.y[triangle], mesh.depth[triangle]
        left = max(0, int(np.ceil((min(x0, x1, x2) - west) / cell - 0.5)))
        right = int(np.floor((max(x0, x1, x2) - west) / cell - 0.5)) + 1
        top = max(0, int(np.ceil((north - max(y0, y1, y2)) / cell - 0.5)))
        bottom = int(np.floor((north - min(y0, y1, y2)) / cell - 0.5)) + 1
        if left >= right or top >= bottom:
            continue
        x = west + (np.arange(left, right) + 0.5)[None, :] * cell
        y = north - (np.arange(top, bottom) + 0.5)[:, None] * cell
        double = (y1 - y2) * (x0 - x2) + (x2 - x1) * (y0 - y2)
        a = ((y1 - y2) * (x - x2) + (x2 - x1) * (y - y2)) / double
        b = ((y2 - y0) * (x - x2) + (x0 - x2) * (y - y2)) / double
        inside = (a >= -1e-12) & (b >= -1e-12) & (a + b <= 1 + 1e-12)
        part = depth[top:bottom, left:right]
        part[inside] = (a * z[0] + b * z[1] + (1 - a - b) * z[2])[inside]
    return depth


# Sampling -----------------------------------------------------------------------------------------

@dataclass
class Lattice:
    """Values at the crossings of evenly spaced x and y; NaN where there are none."""
    values: np.ndarray     # (bands, y, x)
    x0: float              # of the first column
    dx: float
    y0: float              # of the first row
    dy: float
    lonlat: bool = True    # else in CRS

    def at(self, x, y):
        """(bands, points): bilinear between the four around; those without a value are left out,
        and the rest make a value where their weights reach one half."""
        if self.lonlat:
            x = (x - self.x0 + self.dx / 2) % 360 + self.x0 - self.dx / 2
        column, row = (x - self.x0) / self.dx, (y - self.y0) / self.dy
        rows, columns = self.values.shape[1:]
        c, r = np.floor(column).astype(int), np.floor(row).astype(int)
        total = np.zeros((self.values.shape[0], x.size))
        weights = np.zeros_like(total)
        for down in 0, 1:
            for right in 0, 1:
                weight = np.abs(1 - right - (column - c)) * np.abs(1 - down - (row - r))
                y_at, x_at = np.clip(r + down, 0, rows - 1), np.clip(c + right, 0, columns - 1)
                there, value = (y_at == r + down) & (x_at == c + right), self.values[:, y_at, x_at]
                good = np.isfinite(value) & there
                total += np.where(good, weight * value, 0)
                weights += np.where(good, weight, 0)
        return np.where(weights >= 0.5, total / np.maximum(weights, 0.5), np.nan)


def read_climatology(path, variable, x, y):
    """A twelve-month variable of a netCDF file; x and y name its axes."""
    with netCDF4.Dataset(path) as data:
        values = np.ma.filled(data[variable][:].astype(float), np.nan)
        (x0, x1), (y0, y1) = data[x][:2], data[y][:2]
    return Lattice(values, x0, x1 - x0, y0, y1 - y0)


def read_lattice(path):
    """What make_inputs.py kept beside each GeoTIFF."""
    with np.load(path) as data:
        return Lattice(data['values'].astype(float), *data['place'], bool(data['lonlat']))


# From months to days ------------------------------------------------------------------------------

def day_weights():
    """(365, 12): a day's value from the values at mid-months, on the straight line between them;
    day J is taken at its noon, J - 0.5."""
    weights = np.zeros((DAYS, 12))
    middles = np.concatenate([[MID_MONTH[-1] - DAYS], MID_MONTH, [MID_MONTH[0] + DAYS]])
    for day in range(DAYS):
        later = np.searchsorted(middles, day + 0.5, side='right')
        share = (day + 0.5 - middles[later - 1]) / (middles[later] - middles[later - 1])
        weights[day, (later - 2) % 12] += 1 - share
        weights[day, (later - 1) % 12] += share
    return weights


def month_means(daily):
    """(365, ...) -> (12, ...)."""
    return np.stack([daily[first:first + days].mean(0)
                     for first, days in zip(FIRST_DAY, MONTH_DAYS)])


def daily_from_means():
    """(365, 12): a daily series whose months have the given means exactly (Killworth 1996, J. Phys.
    Oceanogr. 26:1141-1154): straight lines between mid-month values that are solved for."""
    lines = day_weights()
    return lines @ np.linalg.inv(month_means(lines))


# The season and the crop --------------------------------------------------------------------------

def season(monthly_temperature):
    """First and last day of growth (1..; both grow) of each column, and whether there are any."""
    parts = np.array_split(monthly_temperature, max(1, monthly_temperature.shape[1] // 8192), 1)
    return tuple(np.concatenate(column) for column in zip(*map(season_of_some, parts)))


def season_of_some(monthly_temperature, start=15.0, stop=13.0):
    daily = daily_from_means() @ monthly_temperature
    mean = sum(np.roll(daily, back, 0) for back in range(10)) / 10
    cells = np.arange(mean.shape[1])
    warmest = mean.argmax(0)
    grows = mean[warmest, cells] >= start
    first, last = warmest.copy(), warmest.copy()
    for _ in range(DAYS):
        earlier = grows & (mean[(first - 1) % DAYS, cells] >= start) & (warmest - first < DAYS - 1)
        later = grows & (mean[(last + 1) % DAYS, cells] >= stop) & (last - first < DAYS - 1)
        if not (earlier.any() or later.any()):
            break
        first, last = first - earlier, last + later
    return first + 1, last + 1, grows


# docs/science/growth.md, the modes of the constants' ranges
MU_MAX, T_MIN, T_OPT, T_MAX = 0.140, 8.0, 25.0, 34.05
SALINITY = (10, 20, 25, 33, 45), (0, 0.7, 1, 1, 0)
IK, REF_HOURS, REF_LIGHT = 100.0, 16.0, 120.0
V_NH4, K_NH4, V_NO3, K_NO3, K_INHIBITION, NITROGEN = 23.8, 1.6, 9.7, 2.5, 2.0, 14.007e-6
Q_MIN, Q_MAX, Q_START, DRY, W_MAX = 0.008, 0.045, 0.025, 0.10, 4000.0
R20, Q10, LOSS = 0.012, 2.0, 0.008
SHADE, WIDTH, HEIGHT, U0 = 0.010, 0.5, 0.5, 0.03
NODES, GAUSS = np.polynomial.legendre.leggauss(3)
NODES, GAUSS = (NODES + 1) / 2, GAUSS / 2                  # on 0..1


def temperature_factor(t):
    top = (t - T_MAX) * (t - T_MIN) ** 2
    low, high = T_OPT - T_MIN, T_OPT - T_MAX
    response = top / (low * (low * (t - T_OPT) - high * (T_OPT + T_MIN - 2 * t)))
    return np.where((t > T_MIN) & (t < T_MAX), response, 0)


@dataclass
class SunDay:
    """FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), equations 21-25 and 34."""
    hours: np.ndarray      # of daylight
    above: np.ndarray      # MJ m-2 d-1, outside the atmosphere


def sun_of_day(latitude, day):
    phi, year = np.radians(latitude), 2 * np.pi * day / DAYS
    tilt = 0.409 * np.sin(year - 1.39)
    dusk = np.arccos(np.clip(-np.tan(phi) * np.tan(tilt), -1, 1))
    above = 24 * 60 / np.pi * 0.0820 * (1 + 0.033 * np.cos(year)) * (
        dusk * np.sin(phi) * np.sin(tilt) + np.cos(phi) * np.cos(tilt) * np.sin(dusk))
    return SunDay(24 * dusk / np.pi, above)


def light_factor(radiation, hours, kd, fresh, line_depth):
    """radiation: global, MJ m-2 d-1; fresh: g/m."""
    par = 0.94 * 0.45 * 4.57 * radiation                  # mol m-2 d-1 just below the surface
    noon = np.pi / 2 * par * 1e6 / (3600 * hours)
    shade, total = kd + SHADE * (fresh * DRY / WIDTH) / HEIGHT, 0.0
    for x, weight_x in zip(NODES * HEIGHT, GAUSS):
        light = noon * np.exp(-kd * max(0.0, line_depth - HEIGHT / 2) - shade * x)
        for arc, weight_t in zip(np.sin(np.pi / 2 * NODES), GAUSS):
            total = total + weight_x * weight_t * np.tanh(light * arc / IK)
    return hours * total / (REF_HOURS * np.tanh(REF_LIGHT / IK))


def one_day(W, Q, T, S, kd, din, radiation, hours, job):
    """Fresh weight and nitrogen reserve at the end of a day."""
    growth = (MU_MAX * temperature_factor(T) * np.interp(S, *SALINITY)
              * light_factor(radiation, hours, kd, W, job.line_depth)
              * (1 - Q_MIN / Q) / (1 - Q_MIN / Q_MAX) * np.maximum(0, 1 - W / W_MAX))
    m = growth - R20 * Q10 ** ((T - 20) / 10)
    nh4, no3 = job.nh4_share * din, (1 - job.nh4_share) * din
    v = (V_NH4 * nh4 / (K_NH4 + nh4)
         + V_NO3 * no3 / (K_NO3 + no3) * K_INHIBITION / (K_INHIBITION + nh4)
         ) * NITROGEN * 24 * -np.expm1(-job.current / U0)
    a = v / (Q_MAX - Q_MIN)
    s = a + m
    small = np.abs(s) < 1e-12
    s = np.where(small, 1.0, s)
    settled = a * Q_MAX / s
    Q = np.where(small, Q + a * Q_MAX, settled + (Q - settled) * np.exp(-s))
    return W * np.exp(m - LOSS), np.clip(Q, Q_MIN, Q_MAX)


@dataclass
class Job:
    line_depth: float = 1.0
    current: float = 0.2           # m/s
    sunshine: float = 0.55         # share of possible sunshine, without a radiation layer
    nh4_share: float = 0.4
    stocking: float = 100.0
    harvest_days: int = 14


@dataclass
class Cells:
    """Where the crop grows: monthly means (12, cells)."""
    latitude: np.ndarray
    temperature: np.ndarray          # degC
    salinity: np.ndarray
    kd: np.ndarray                   # 1/m
    nitrogen: np.ndarray             # umol/L
    radiation: np.ndarray = None     # MJ m-2 d-1


def grow(cells, first, last, grows, job):
    """Net fresh yield (kg/m), net nitrogen (g/m) and hauls above 0; 0 where nothing grows."""
    daily, count = daily_from_means(), first.size
    W, Q = np.full(count, job.stocking), np.full(count, Q_START)
    fresh, nitrogen, hauls = np.zeros(count), np.zeros(count), np.zeros(count, int)
    for day in range(first[grows].min(), last[grows].max() + 1):
        now = np.flatnonzero(grows & (first <= day) & (day <= last))
        weights = daily[(day - 1) % DAYS]
        sun = sun_of_day(cells.latitude[now], (day - 1) % DAYS + 1)
        T, S, kd, din = (weights @ layer[:, now] for layer in (
            cells.temperature, cells.salinity, cells.kd, cells.nitrogen))
        radiation = ((0.25 + 0.50 * job.sunshine) * sun.above if cells.radiation is None
                     else weights @ cells.radiation[:, now])
        W[now], Q[now] = one_day(W[now], Q[now], T, S, kd, din, radiation, sun.hours, job)
        end = last[now] == day
        due = end | ((day - first[now] + 1) % job.harvest_days == 0)
        cut = np.where(due, np.maximum(W[now] - np.where(end, 0, job.stocking), 0), 0)
        fresh[now] += cut
        nitrogen[now] += cut * DRY * Q[now]
        hauls[now] += cut > 0
        W[now] -= cut
    fresh, nitrogen = fresh - job.stocking, nitrogen - job.stocking * DRY * Q_START
    return np.where(grows, fresh / 1000, 0), np.where(grows, nitrogen, 0), hauls

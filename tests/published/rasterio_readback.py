# SPDX-License-Identifier: Apache-2.0
"""Reads a map with rasterio and compares it with what rasterio_test.cpp says it wrote.

usage: rasterio_readback.py MAP KIND, KIND is float, bits or codes. Prints nothing and ends with 0
when all agrees.
"""
import sys

import numpy as np
import rasterio

COLS, ROWS = 700, 600


def expected(kind):
    index = np.arange(COLS * ROWS, dtype=np.int64).reshape(ROWS, COLS)
    if kind == "float":
        values = (index % 1000 * 0.25).astype(np.float32)
        values[index % 7 == 0] = -9999.0
        return values, -9999.0
    if kind == "bits":
        return (index * 2654435761 % 2**32).astype(np.uint32), 4294967295.0
    return (index % 256).astype(np.uint8), 0.0


def main():
    path, kind = sys.argv[1:]
    values, nodata = expected(kind)
    with rasterio.open(path) as file:
        assert file.crs.to_epsg() == 32626, file.crs
        assert file.transform == rasterio.Affine(10, 0, 250000, 0, -10, 4540000), file.transform
        assert file.count == 1 and file.dtypes == (values.dtype.name,), file.dtypes
        assert file.nodata == nodata, file.nodata
        assert file.descriptions == ("a band",), file.descriptions
        assert file.units == ("kg/m",), file.units
        assert file.tags()["TITLE"] == "Heron Bight", file.tags()
        found = file.read(1)
        assert np.array_equal(found, values), "cells differ"
        known = values[values != values.dtype.type(nodata)].astype(np.float64)
        tags = file.tags(1)
        assert float(tags["STATISTICS_MINIMUM"]) == known.min(), tags
        assert float(tags["STATISTICS_MAXIMUM"]) == known.max(), tags
        assert np.isclose(float(tags["STATISTICS_MEAN"]), known.mean(), rtol=1e-12), tags
        assert np.isclose(float(tags["STATISTICS_STDDEV"]), known.std(), rtol=1e-9), tags
        assert abs(float(tags["STATISTICS_VALID_PERCENT"]) - 100.0 * known.size / values.size) < 1e-4
        assert file.overviews(1), "no overviews"


main()

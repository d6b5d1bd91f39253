#!/usr/bin/env bash
# SPDX-License-Identifier: Apache-2.0
# Takes four files of real data out of two Debian packages: fetch.sh [FOLDER]
#   mesh-a.nc              a real estuary's bathymetry mesh            (libncarg-data)
#   coads_climatology.cdf  monthly sea surface temperature, 2 degrees  (ferret-datasets)
#   bipolar_sst.nc         one month of sea surface temperature on a bent grid (libncarg-data)
#   esku_heat_budget.cdf   monthly solar radiation, 5 x 4 degrees      (ferret-datasets)
# Nothing is installed, nothing is kept but the files; a second call finds them. Not for committing:
# the packages state no licence for each data file.
set -euo pipefail

folder=${1:-$(dirname "$0")/../../build/real-data}
sums='20eb742b3b06003fa7b991234002d2518823900e98ae5e4e0ec256ebdc0778e8  mesh-a.nc
b94f55034d13d63f33e2153afddc0c5e00347076c35ab3e34937aec38ce9c4c1  coads_climatology.cdf
42e9a5d26ba36a7ef92d381ac12fdf30c74883ea7fde6830ba4899df2dc75600  esku_heat_budget.cdf
d391c1621ad055c524eca98e7ec3d60ae551515b1dc4f77e68f5f10835fbf65d  bipolar_sst.nc'

mkdir -p "$folder"
cd "$folder"
here() { sha256sum --check --status --strict - <<<"$sums" 2>/dev/null; }
if here; then
  exit 0
fi

work=$(mktemp -d "$PWD/fetch.XXXXXX")
trap 'rm -rf "$work"' EXIT
cd "$work"
if ! apt-get -q=2 download libncarg-data ferret-datasets 2>messages; then
  cat messages >&2
  echo "fetch.sh: could not download libncarg-data and ferret-datasets; try apt-get update first" >&2
  exit 1
fi
dpkg-deb -x libncarg-data_*.deb .
dpkg-deb -x ferret-datasets_*.deb .
mv usr/share/ncarg/data/cdf/ctcbay.nc mesh-a.nc
mv usr/share/ncarg/data/nug/tos_ocean_bipolar_grid.nc bipolar_sst.nc
mv usr/share/ferret-vis/data/{coads_climatology,esku_heat_budget}.cdf .
mv mesh-a.nc bipolar_sst.nc coads_climatology.cdf esku_heat_budget.cdf ..
cd ..
if ! here; then
  echo "fetch.sh: the packages hold other data than the tests were written for" >&2
  exit 1
fi

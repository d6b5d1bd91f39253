# SPDX-License-Identifier: Apache-2.0
# Shared by the scripts; sourced, not run.
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

# What the program needs, what its tests need besides, and what looks at the report.
build_packages=(g++ cmake ninja-build libgdal-dev libproj-dev proj-data libboost-dev
  libtomlplusplus-dev libcli11-dev libfmt-dev nlohmann-json3-dev libhwy-dev libssl-dev
  libpng-dev libhdf5-dev librandom123-dev libxxhash-dev)
test_packages=(catch2 librapidcheck-dev python3 python3-numpy python3-scipy python3-rasterio python3-gdal
  python3-pyproj python3-netcdf4 python3-ephem python3-gsw gdal-bin proj-bin geographiclib-tools libbenchmark-dev
  locales chromium poppler-utils default-jre-headless pandoc groff
  shellcheck clang-format dpkg-dev file libopenmpi-dev openmpi-bin
  munge slurm-client slurmctld slurmd r-cran-terra python3-geopandas zsh fish strace)
# Node from Debian, unless the machine has another one: the two do not go together.
command -v npm >/dev/null || test_packages+=(nodejs npm)
# Only for scripts/fuzz.
fuzz_packages=(clang-16 libclang-rt-16-dev)

# ccache is used where it is installed.
launcher=()
if command -v ccache >/dev/null; then
  launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
fi

# install PACKAGE...: only what is missing, as root or through sudo.
install() {
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
      missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then
    return 0
  fi
  local as=()
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "missing: ${missing[*]}; run this as root, or install sudo, or install them yourself" >&2
      exit 1
    fi
    as=(sudo)
  fi
  echo "installing ${missing[*]}"
  "${as[@]}" apt-get update -qq
  "${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
    "${missing[@]}" >/dev/null
}

# build TARGET...: configure and build into build/.
build() {
  cmake -S "$root" -B "$root/build" -G Ninja "${launcher[@]}" "${configure[@]}" >/dev/null
  cmake --build "$root/build" --target "$@"
}

#!/usr/bin/env bash
# SPDX-License-Identifier: Apache-2.0
# Gets what looks at the report from the npm registry, in the versions of package-lock.json:
# fetch.sh [FOLDER]. A second call finds it. Nothing of it is for committing or for the program.
set -euo pipefail

here=$(cd "$(dirname "$0")" && pwd)
folder=${1:-$here/../../build/browser}
mkdir -p "$folder"
exec 9>"$folder/lock"
flock 9
if cmp -s "$here/package-lock.json" "$folder/installed.json"; then
  exit 0
fi
cp "$here/package.json" "$here/package-lock.json" "$folder"
cd "$folder"
npm ci --ignore-scripts --no-audit --no-fund --loglevel=error >/dev/null
cp package-lock.json installed.json

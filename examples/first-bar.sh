#!/bin/sh
# From nothing to the first weighed recipe: installs what is missing, builds barwright, and finds
# the invented workshop's first bar from its shelf. Use: sh examples/first-bar.sh
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
# shellcheck disable=SC2086
need_packages $build_packages

cmake -S . -B .build/first-bar -DCMAKE_BUILD_TYPE=Release -DBARWRIGHT_TESTS=OFF -DBARWRIGHT_PRECOMPILE=ON >/dev/null
cmake --build .build/first-bar -j "$(nproc)"
echo
exec .build/first-bar/barwright blend examples/firmer-bar.yaml

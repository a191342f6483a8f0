#!/bin/sh
# Installs what is missing, builds, and runs every test. Use: sh tests/run.sh [ctest options]
# PRESET=asan (see tests/presets) builds and runs them so.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
# shellcheck disable=SC2086
need_packages $build_packages $test_packages

preset=${PRESET:-default}
cmake -S tests/presets --preset "$preset" >/dev/null
cmake --build ".build/$preset" -j "$(nproc)"
ctest --test-dir ".build/$preset" -j "$(nproc)" --output-on-failure "$@"

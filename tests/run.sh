#!/bin/sh
# Installs what is missing, builds, and runs every test. Use: sh tests/run.sh [ctest options]
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
# shellcheck disable=SC2086
need_packages $build_packages $test_packages

cmake -S tests/presets --preset default >/dev/null
cmake --build .build/default -j "$(nproc)"
ctest --test-dir .build/default -j "$(nproc)" --output-on-failure "$@"

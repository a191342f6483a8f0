#!/bin/sh
# Installs what is missing, builds, and runs every test. Use: sh tests/run.sh [ctest options]
# PRESET=asan (see tests/presets) builds and runs them so; LAYERS="core oils" these layers' tests alone.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
preset=${PRESET:-default}
# shellcheck disable=SC2086
need_packages $build_packages $test_packages
# shellcheck disable=SC2086
if [ "$preset" = asan ]; then need_packages $clang_packages; fi

programs=
names=
for layer in ${LAYERS:-}; do
  programs="$programs --target tests_$layer"
  names="$names|$layer:"
done
cmake -S tests/presets --preset "$preset" >/dev/null
# shellcheck disable=SC2086
cmake --build ".build/$preset" -j "$(nproc)" $programs
if [ -n "$names" ]; then set -- -R "^(${names#|})" "$@"; fi
ctest --test-dir ".build/$preset" -j "$(nproc)" --output-on-failure "$@"

#!/bin/sh
# Every test once more under AddressSanitizer and UBSan, which halt at the first fault.
# Use: sh tests/sanitizers.sh [ctest options]
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
# shellcheck disable=SC2086
need_packages $build_packages $test_packages
cmake -S tests/presets --preset asan >/dev/null
cmake --build .build/asan -j "$(nproc)"
ctest --test-dir .build/asan -j "$(nproc)" --output-on-failure "$@"

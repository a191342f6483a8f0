#!/bin/sh
# Installs a build, builds a small project outside against it, and makes the Debian packages; where lintian is, it
# looks at them. Use: sh tests/package/check.sh [build folder]; without one a release build is made.
set -eu
cd "$(dirname "$0")/../.."
. tests/setup.sh
# shellcheck disable=SC2086
need_packages $build_packages
build=${1:-.build/package/build}
work=.build/package
mkdir -p "$work"
if [ ! -f "$build/cmake_install.cmake" ]; then
  cmake -S . -B "$build" -DCMAKE_BUILD_TYPE=Release -DBARWRIGHT_TESTS=OFF -DBARWRIGHT_PRECOMPILE=ON >/dev/null
  cmake --build "$build" -j "$(nproc)" >/dev/null
fi
build=$(cd "$build" && pwd)
work=$(cd "$work" && pwd)

rm -rf "$work/installed" "$work/consumer"
cmake --install "$build" --prefix "$work/installed" >/dev/null
for made in bin/barwright share/man/man1/barwright.1.gz share/bash-completion/completions/barwright \
  share/zsh/site-functions/_barwright share/fish/vendor_completions.d/barwright.fish; do
  [ -s "$work/installed/$made" ] || {
    echo "not installed: $made" >&2
    exit 1
  }
done
"$work/installed/bin/barwright" --version

cmake -S tests/package -B "$work/consumer" -DCMAKE_PREFIX_PATH="$work/installed" >/dev/null
cmake --build "$work/consumer" >/dev/null
ctest --test-dir "$work/consumer" --output-on-failure

rm -f "$work"/*.deb
(cd "$work" && cpack -G DEB --config "$build/CPackConfig.cmake" >/dev/null)
for deb in "$work"/*.deb; do
  dpkg-deb --field "$deb" Package Version Depends Maintainer
  if command -v lintian >/dev/null 2>&1; then lintian --fail-on error "$deb"; fi
done

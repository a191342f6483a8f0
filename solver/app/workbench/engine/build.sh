#!/bin/sh
# Builds the engine as WebAssembly: .build/page/barwright.js and barwright.wasm. Installs by name what is
# missing, and fetches the sources of yaml-cpp and NLopt from Debian. Use: sh solver/app/workbench/engine/build.sh
set -eu
cd "$(dirname "$0")/../../../.."
. tests/setup.sh
jobs=${JOBS:-$(nproc)}
out=.build/page
sources=$PWD/$out/sources
# shellcheck disable=SC2086
need_packages $build_packages emscripten ninja-build dpkg-dev

# Where node is not Debian's own, it does not look where Debian puts the modules that emcc's last step needs.
export NODE_PATH=/usr/share/nodejs

# Debian's sources of what it has compiled for this machine only; named apart, the machine's own lists stay.
source_of() {
  [ -d "$sources/$2" ] && return 0
  mkdir -p "$sources/lists" "$sources/archives"
  echo "deb-src http://deb.debian.org/debian bookworm main" >"$sources/bookworm.list"
  set -- "$1" "$2" -o Dir::Etc::SourceList="$sources/bookworm.list" -o Dir::Etc::SourceParts=- \
    -o Dir::State::Lists="$sources/lists" -o APT::Sandbox::User=root
  package=$1 folder=$2
  shift 2
  apt-get "$@" -qq update
  (cd "$sources/archives" && apt-get "$@" -qq source --download-only "$package")
  dpkg-source --no-check -x "$sources/archives/$package"_*.dsc "$sources/$folder.part" >/dev/null 2>&1
  mv "$sources/$folder.part" "$sources/$folder"
}
source_of yaml-cpp yaml-cpp
source_of nlopt nlopt

# Headers alone: /usr/include as a whole would put this machine's C library before emscripten's.
mkdir -p "$sources/headers"
for name in eigen3 fmt CLI nlohmann; do
  [ -e "$sources/headers/$name" ] || cp -r "/usr/include/$name" "$sources/headers/$name"
done

# The library's trees are written by the program's own reader, built for this machine.
[ -f $out/host/build.ninja ] ||
  cmake -S . -B $out/host -G Ninja -DCMAKE_BUILD_TYPE=Release -DBARWRIGHT_TESTS=OFF >/dev/null
cmake --build $out/host -j "$jobs" --target barwright_embed

[ -f $out/wasm/build.ninja ] ||
  cmake -S solver/app/workbench/engine -B $out/wasm -G Ninja -DCMAKE_BUILD_TYPE=Release \
    -DCMAKE_TOOLCHAIN_FILE=/usr/share/emscripten/cmake/Modules/Platform/Emscripten.cmake \
    -DSOURCES="$sources" -DBARWRIGHT_EMBED="$PWD/$out/host/oils/barwright_embed" \
    ${EXCEPTIONS:+-DEXCEPTIONS=$EXCEPTIONS} >/dev/null
cmake --build $out/wasm -j "$jobs" --target engine
cp $out/wasm/barwright.js $out/wasm/barwright.wasm $out/
ls -l $out/barwright.js $out/barwright.wasm

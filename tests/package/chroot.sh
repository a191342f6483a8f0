#!/bin/sh
# Installs the packages in a bare Debian 12 (debootstrap, minbase) and does the main job there, with nothing else
# installed but what the packages ask for. By hand, as root: sh tests/package/chroot.sh [FOLDER with the .deb files]
set -eu
cd "$(dirname "$0")/../.."
. tests/setup.sh
need_packages debootstrap
debs=${1:-.build/package}
mirror=http://deb.debian.org/debian
bare=$(mktemp -d)
chmod 755 "$bare"
trap 'rm -rf "$bare"' EXIT
debootstrap --variant=minbase bookworm "$bare" "$mirror" >/dev/null
mkdir "$bare/debs"
cp "$debs"/*.deb "$bare/debs/"
chroot "$bare" sh -eu -c '
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  apt-get install -qq -y /debs/barwright_*.deb >/dev/null 2>&1
  barwright --version
  barwright new /yard >/dev/null
  barwright blend /yard/firmer-bar.yaml >/yard/answer
  head -12 /yard/answer
  man -w barwright 2>/dev/null || ls /usr/share/man/man1/barwright.1.gz
  ls /usr/share/bash-completion/completions/barwright
  ldd /usr/bin/barwright | grep "not found" && exit 1
  apt-get install -qq -y /debs/libbarwright-dev_*.deb >/dev/null 2>&1
  ls -d /usr/include/barwright /usr/lib/cmake/barwright
  apt-get remove -qq -y barwright >/dev/null 2>&1
  test ! -e /usr/bin/barwright
'
echo "installed, run and removed in a bare Debian 12"

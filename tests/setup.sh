# Sourced by examples/first-bar.sh and tests/run.sh: installs what is missing with apt, by name.
# need_packages NAME...: nothing is asked of apt when every package is there already.
need_packages() {
  missing=""
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q "ok installed" ||
      missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null 2>&1 || {
      echo "These packages are missing:$missing" >&2
      echo "Run this script as root, or install them and run it again." >&2
      exit 1
    }
    as_root=sudo
  fi
  echo "Installing:$missing"
  $as_root apt-get update -qq
  # shellcheck disable=SC2086  # a list of names, split on purpose
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
    $missing >/dev/null
}

build_packages="g++ make cmake libeigen3-dev libyaml-cpp-dev libfmt-dev libcli11-dev libnlopt-dev libnlopt-cxx-dev nlohmann-json3-dev libcpp-httplib-dev"
test_packages="ninja-build catch2 pkg-config coinor-libcbc-dev libglpk-dev chromium locales"
clang_packages="clang libclang-rt-14-dev"

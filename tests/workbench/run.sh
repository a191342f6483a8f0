#!/bin/sh
# Tries the workbench in Debian's chromium, each form that is there: the page by itself (.build/page/workbench.html,
# see examples/page.sh) and 'barwright serve'. Installs what is missing with apt and npm, by name.
# Use: sh tests/workbench/run.sh [PROGRAM [PAGE]] [-- test files]
set -eu
from=$PWD
cd "$(dirname "$0")"
root=$(cd ../.. && pwd)
. ../setup.sh
if command -v node >/dev/null 2>&1 && command -v npm >/dev/null 2>&1; then
  need_packages chromium
else
  need_packages chromium nodejs npm
fi
full() { case $1 in /*) printf %s "$1" ;; *) printf %s "$from/$1" ;; esac; }
program=$root/.build/default/barwright/barwright
page=$root/.build/page/workbench.html
if [ $# -gt 0 ] && [ "$1" != -- ]; then program=$(full "$1"); shift; fi
if [ $# -gt 0 ] && [ "$1" != -- ]; then page=$(full "$1"); shift; fi
if [ $# -gt 0 ]; then shift; fi
if [ $# -eq 0 ]; then set -- ./*_test.mjs; fi

[ -d node_modules ] || npm ci --no-audit --no-fund --silent
node_modules/.bin/tsc -p ../../solver/app/workbench/tsconfig.json
node_modules/.bin/tsc -p tsconfig.json

tried=no
if "$program" serve --help >/dev/null 2>&1; then
  echo "served by $program"
  FORM=served PROGRAM=$program node --test --test-concurrency=1 "$@"
  tried=yes
fi
if [ -f "$page" ]; then
  echo "by itself: $page"
  FORM=file PAGE=$page node --test --test-concurrency=1 "$@"
  tried=yes
fi
[ $tried = yes ] || { echo "Neither form was built: nothing was tried." >&2; exit 1; }

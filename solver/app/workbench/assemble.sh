#!/bin/sh
# Joins the page's files into one: sh assemble.sh OUT [LOADER.js ENGINE.wasm]
# With the engine the page works by itself; without it, over 'barwright serve', which puts its token in place of
# @TOKEN@. Scripts and styles are allowed by their hashes alone.
set -eu
export LC_ALL=C
here=$(cd "$(dirname "$0")" && pwd)
out=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

hash_of() { # 'sha256-...' of a file, as a policy wants it
  printf "'sha256-%s'" "$(env printf "$(sha256sum <"$1" | cut -c1-64 | sed 's/../\\x&/g')" | base64)"
}

# One script of all modules, each before those that use it; their import and export lines are for the checker. So a
# name means one thing in all of them, and none is imported by another name.
modules='words dom numbers wishes engine bench rail loaf oil_rule weigh nothing workshop_file folder draft file_window keeping oil_rows own_files first room swap explore rooms main'
if grep -n '^import .* as ' "$here"/*.js; then exit 1; fi
{
  printf '(() => {\n"use strict";\n'
  for module in $modules; do
    sed -e '/^import .*;$/d' -e '/^export {.*};$/d' -e 's/^export //' "$here/$module.js"
  done
  printf '})();\n'
} >"$work/script"
cat "$here/style.css" "$here/rails.css" "$here/rooms.css" "$here/print.css" >"$work/style"

if [ $# -ge 3 ]; then
  {
    printf '<script type="text/plain" id="engine-loader">'
    cat "$2"
    printf '</script>\n<script type="text/plain" id="engine-worker">'
    cat "$here/engine_worker.js"
    printf '</script>\n<script type="application/octet-stream" id="engine-wasm">'
    gzip -9nc "$3" | base64 -w0
    printf '</script>\n'
  } >"$work/data"
  connect="'none'"
else
  : >"$work/data"
  connect="'self'"
fi

policy="default-src 'none'; script-src $(hash_of "$work/script") 'wasm-unsafe-eval'; style-src $(hash_of "$work/style"); \
worker-src blob:; connect-src $connect; img-src data:; base-uri 'none'; form-action 'none'"

# The parts go in whole, one after the other, so that nothing in them is taken for a mark.
part() { # prints the skeleton from one mark to the next
  awk -v from="$1" -v to="$2" '
    { text = text $0 "\n" }
    END {
      if (from != "") text = substr(text, index(text, from) + length(from))
      if (to != "") text = substr(text, 1, index(text, to) - 1)
      printf "%s", text
    }' "$here/page.html"
}
{
  part '' @CSP@
  printf '%s' "$policy"
  part @CSP@ @STYLE@
  cat "$work/style"
  part @STYLE@ @DATA@
  cat "$work/data"
  part @DATA@ @SCRIPT@
  cat "$work/script"
  part @SCRIPT@ ''
} >"$out"

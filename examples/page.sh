#!/bin/sh
# Makes workbench.html from nothing: the whole program as one page that works offline in a browser.
# Use: sh examples/page.sh   ->   .build/page/workbench.html
set -eu
cd "$(dirname "$0")/.."
sh solver/app/workbench/engine/build.sh
page=.build/page/workbench.html
sh solver/app/workbench/assemble.sh $page .build/page/barwright.js .build/page/barwright.wasm
echo
echo "$page: $(wc -c <$page) bytes. Double-click it, or open it with a browser."

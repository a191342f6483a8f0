#!/bin/sh
# Fuzzes every reader (or those named) with libFuzzer under AddressSanitizer and UBSan, SECONDS_EACH=60 each, from the
# examples and fixtures: sh tests/fuzz/run.sh [READER...]. Wants clang and libclang-rt-14-dev. What crashes a reader
# lands in tests/fuzz/found/READER: keep it there, tests replay it.
set -eu
cd "$(dirname "$0")/../.."
out=.build/fuzz
[ -f $out/build.ninja ] || cmake -G Ninja -S . -B $out -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ \
  -DCMAKE_BUILD_TYPE=None "-DCMAKE_CXX_FLAGS=-O1 -g1" -DBARWRIGHT_TESTS=OFF -DBARWRIGHT_FUZZ=ON >/dev/null
cmake --build $out -j2 --target barwright_fuzz
[ $# -gt 0 ] || set -- recipe notes brief swap explore batch shelf journal record lots lists columns costs label slips wish edit program
seeds=$out/seeds
mkdir -p $seeds
find examples tests/targets/fixtures tests/app/fixtures tests/oldest oils/data tests/oils -maxdepth 3 \
  \( -name '*.yaml' -o -name '*.csv' -o -name '*.columns' \) -size -20k -exec cp -f {} $seeds/ \;
# Words of the notation, so that the fuzzer need not guess them.
cat $seeds/* | LC_ALL=C grep -oE '[A-Za-z][A-Za-z0-9-]{2,24}:?' | sort | uniq -c | sort -rn | head -600 |
  sed 's/^ *[0-9]* \(.*\)$/"\1"/' >$out/words.dict
for reader in "$@"; do
  mkdir -p tests/fuzz/found/"$reader" $out/corpus/"$reader"
  echo "== $reader"
  READER=$reader nice $out/tests/fuzz/barwright_fuzz -max_total_time="${SECONDS_EACH:-60}" -max_len=6000 -timeout=20 \
    -rss_limit_mb=4096 -dict=$out/words.dict -artifact_prefix=tests/fuzz/found/"$reader"/ -print_final_stats=1 \
    $out/corpus/"$reader" $seeds 2>&1 | grep -E "stat::number_of_executed_units|ERROR|SUMMARY|Test unit|what\(\)|terminate" || true
  rmdir tests/fuzz/found/"$reader" 2>/dev/null || true
done

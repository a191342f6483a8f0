#!/bin/sh
# CPU seconds of the largest books, and of half as much: near-linear is twice. sh tests/bench/limits.sh PROGRAM
set -eu
program=$(realpath "${1:?the program}")
here=$(mktemp -d)
trap 'rm -rf "$here"' EXIT
cd "$here"
took() { # WHAT N COMMAND...
  what=$1 n=$2
  shift 2
  bash -c 'TIMEFORMAT="%U %S"; time "$@" >out 2>&1' - "$@" 2>&1 |
    awk -v what="$what" -v n="$n" '{printf "%-44s %6d  %.2f s\n", what, n, $1 + $2}'
}
for n in 5000 10000; do
  lots() { awk -v n="$n" 'BEGIN {for (i = 0; i < n; ++i) printf "  - {oil: olive, have: 1 kg, lot: L-%d}\n", i}'; }
  { printf 'shelf: s\ncurrency: EUR\nstock:\n'; lots; } >lots-shelf.yaml
  printf 'shelf: s\ncurrency: EUR\nstock:\n  - {oil: olive, have: 100 kg, lot: X}\n' >rows-shelf.yaml
  awk -v n="$n" 'BEGIN {print "# oil: oil\n# pack: pack\n# price: price\n# lot: lot\noil,pack,price,lot"
    for (i = 0; i < n; ++i) printf "olive,1 kg,5.00,L-%d\n", i}' >rows.csv
  cp rows-shelf.yaml batches-shelf.yaml
  awk -v n="$n" 'BEGIN {print "date,event,batch,part,what,lot,grams,asked,bars,money,until,note"
    for (i = 0; i < n; ++i) printf "2027-01-01,made,b%d,,,,1000,,10,,2027-02-16,y.yaml\n2027-01-01,poured,b%d,bar,,,1000,900,,,,\n2027-01-01,drawn,b%d,bar,olive,X,10,,,,,\n", i, i, i}' >batches-shelf-journal.csv
  awk -v n="$n" 'BEGIN {print "name: x"; for (i = 0; i < 4 * n; ++i) printf "k%d: 1\n", i}' >keys.yaml
  took "rows received (--from)" "$n" "$program" shelf receive --from rows.csv --shelf rows-shelf.yaml
  took "a lot into a shelf of lots" "$n" "$program" shelf receive olive "1 kg" --lot NEW --shelf lots-shelf.yaml
  took "the week beside a journal of batches" "$n" "$program" shelf --shelf batches-shelf.yaml
  took "keys of one block" "$((4 * n))" "$program" weigh keys.yaml
  rm -rf *
done
for n in 2500 5000; do
  mkdir oils
  awk -v n="$n" 'BEGIN {for (i = 0; i < n; ++i) {f = sprintf("oils/o%d.yaml", i)
    printf "oil: quay oil %d\ninci: Quay Oil\nonce-saponified: Sodium Quayate\nname-status: formed by analogy\ntags: [vegan]\nsolid-at-25C: no\nunsaponifiable: {typical: 0.8, source: mill, mark: certificate}\nkind: triglyceride\nunits: {unsaponifiable: \"%% of fat\", acids: \"%% of fatty acids\", saponification-value: mg KOH/g, iodine-value: g I2/100 g}\nsources: {mill: \"an invented mill\"}\nacids:\n  from: {source: mill, mark: certificate}\n  C16:0: {typical: 12}\n  C18:0: {typical: 3}\n  C18:1: {typical: 74}\n  C18:2: {typical: 11}\nsaponification-value: {typical: 189.5, source: mill, mark: certificate}\niodine-value: {typical: 83, source: mill, mark: certificate}\n", i > f; close(f)}}'
  took "oils of a library of one's own" "$n" "$program" oils "quay oil 1" --library oils
  rm -rf oils
done

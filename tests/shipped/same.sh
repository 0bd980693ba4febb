#!/usr/bin/env bash
# Two programs published from one source say the same: every kind of command over the demo, byte by byte, and how it ended.
# tests/shipped/same.sh PROGRAM PROGRAM. Ends with 1 where they differ.
set -euo pipefail
programs=("$(realpath "$1")" "$(realpath "$2")")
cd "$(dirname "$0")/../../catalog-demo"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

round() { # round PROGRAM FOLDER: every command in a new home
  mkdir -p "$2/home"
  local fresh=(env -i HOME="$2/home" PATH=/usr/bin:/bin CABLECATALOG_FILE= "$1") commands=0
  while read -r -a command; do
    commands=$((commands + 1))
    local status=0
    "${fresh[@]}" "${command[@]//@/$2}" >"$2/$commands.out" 2>"$2/$commands.err" </dev/null || status=$?
    printf '%s: %s\n' "${command[*]}" "$status" >>"$2/ended"
    sed -Ei "s#$2#FOLDER#g; s/[0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9:.]+( ?UTC|Z)/TIME/g; s/(r[0-9]+)-[0-9a-f]{15}/\1-ETAG/g; s/(\"watchToken\": )\"[^\"]*/\1\"TOKEN/" "$2/$commands.out" "$2/$commands.err"
  done
  rm -r "$2"/home "$2"/*.backup "$2"/two.db* # the times of writing are in them
}

commands() {
  for installation in dunlin-shift dunlin-throttle plover-deflector plover-stern-station plover-routes plover-options; do
    echo "compare $installation.yaml"
    echo "rig $installation.yaml --output json"
    echo "route $installation.yaml --output csv"
    echo "explain $installation.yaml --grade jade --units si"
    echo "weigh $installation.yaml --output csv"
  done
  for test in dunlin-shift dunlin-throttle plover-before stern-station; do
    echo "diagnose weight-tests/$test.yaml --report @/$test.html"
    echo "diagnose weight-tests/$test.yaml --output csv"
  done
  cat <<'LIST'
compare plover-deflector.yaml --tests weight-tests/plover-before.yaml --output json
verify weight-tests/plover-before.yaml weight-tests/plover-after.yaml --report @/proof.html
plan plover-deflector.yaml
route plover-routes.yaml --propose --report @/routes.html
rig dunlin-shift.yaml --report @/rigging.html
grades list
grades list --output json
grades list --filter friction.likely<0.1 --order-by id --output csv
grades show jade
grades export @/grades.yaml
grades edit marble friction=0.11
grades edit marble friction=much
grades remove cobble
grades remove cobble
grades import @/grades.yaml
prices import autumn prices/autumn.csv
prices show autumn --output json
prices list
quote plover-options.yaml --prices autumn --date 2026-11-01 --report @/quote.html
batch season.csv --prices autumn --date 2026-11-01 --pages @/quotes
keys create till --role price-editor --expires 2000-01-01
keys list
backup @/one.backup
restore @/one.backup --catalog @/two.db
grades list --catalog @/two.db --output csv
compare nowhere.yaml
compare grades.yaml
compare plover-deflector.yaml --rank colour
compare plover-deflector.yaml --server http://127.0.0.1:1
completion bash
--help
compare --help
LIST
}

for number in 0 1; do
  commands | round "${programs[number]}" "$folder/$number"
done
diff -r "$folder/0" "$folder/1"
echo "shipped: $(wc -l <"$folder/0/ended") commands, the same of both"

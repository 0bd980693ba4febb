#!/usr/bin/env bash
# A new user's first round with the program as it is shipped: compare, serve, ask, tell it to end.
# tests/shipped/round.sh PROGRAM. Ends with 1 on any surprise.
set -euo pipefail
program=$(realpath "$1")
demo=$(realpath "$(dirname "$0")/../../catalog-demo")
folder=$(mktemp -d)
server=
trap 'kill $server 2>/dev/null || :; wait; rm -rf "$folder"' EXIT

surprise() { # surprise WHAT: tells it, with what was said
  echo "shipped: $1" >&2
  cat "$folder/out" "$folder/err" >&2
  exit 1
}

# A home with nothing in it, and no variables but what every login has.
fresh=(env -i HOME="$folder/home" PATH=/usr/bin:/bin ${DOTNET_ROOT:+DOTNET_ROOT="$DOTNET_ROOT"} "$program")
run() { "${fresh[@]}" "$@" >"$folder/out" 2>"$folder/err"; }

mkdir "$folder/home"
cd "$folder"
catalog=home/.local/share/cablecatalog/catalog.db

run --version || surprise "--version failed"
grep -Eqx '[0-9]+\.[0-9]+\.[0-9]+.*' out || surprise "no version"
run compare "$demo/plover-deflector.yaml" || surprise "compare failed"
grep -q '^Best buy: ' out || surprise "no best buy"
grep -q 'They are invented' err || surprise "it does not say that the grades are invented"
run grades list --output csv || surprise "grades list failed"
mv out inside

: >served
"${fresh[@]}" serve --port 0 >served 2>err &
server=$!
for _ in $(seq 600); do
  address=$(sed -n 's/^Serving 11 grades at \(http:[^ ]*\) .*/\1/p' served)
  [ -z "$address" ] || break
  kill -0 "$server" || surprise "serve has ended"
  sleep 0.1
done
[ -n "$address" ] || surprise "serve does not say where it is"
[ -e "$catalog.holder" ] || surprise "serve does not say that it holds the catalogue"
run grades list --output csv --server "$address" || surprise "grades list of the service failed"
cmp --silent inside out || surprise "the service lists other grades"

kill -TERM "$server" || surprise "serve has ended by itself"
status=0
wait "$server" || status=$?
server=
[ "$status" -eq 0 ] || surprise "serve ended with $status"
[ ! -e "$catalog.holder" ] || surprise "serve left its note that it holds the catalogue"
echo "shipped: as expected"

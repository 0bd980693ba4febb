#!/usr/bin/env bash
# The service asked with curl alone: a list, a grade, a score from a file; a misspelt field and a change without a
# key, which must be refused.
# Invented: no real boat. Ends with 1 on any surprise. CABLECATALOG_DLL names another build of the program.
set -euo pipefail
cd "$(dirname "$0")"
program=${CABLECATALOG_DLL:-../../client/bin/Debug/net10.0/cablecatalog.dll}
folder=$(mktemp -d)
server=
trap 'kill $server 2>/dev/null; wait; rm -rf "$folder"' EXIT

surprise() { # surprise WHAT: tells it, with the last answer
  echo "curl: $1" >&2
  cat "$folder/answer" >&2
  exit 1
}

ask() { # ask STATUS PATH CURL-OPTIONS...: the answer in $folder/answer, which must have come with that HTTP status
  local status=$1 path=$2 found
  shift 2
  found=$(curl --silent --show-error --max-time 30 --output "$folder/answer" --write-out '%{http_code}' "$@" "$json$path")
  [ "$found" = "$status" ] || surprise "$path: $status was expected, found $found"
}

holds() { grep -Eq -- "$1" "$folder/answer" || surprise "no $1 in the answer"; }

touch "$folder/answer" "$folder/said"
dotnet "$program" serve --port 0 --json-port 0 --catalog "$folder/catalog.db" --create-catalog demo >"$folder/said" &
server=$!
for _ in $(seq 300); do
  json=$(sed -n 's/^JSON at \(http:[^,]*\),.*/\1/p' "$folder/said")
  [ -z "$json" ] || break
  kill -0 "$server" || surprise "serve has ended"
  sleep 0.1
done
[ -n "$json" ] || surprise "serve does not say where JSON is"

ask 200 /health/ready
holds '"status":"Healthy"'
ask 200 '/v1/grades?pageSize=2'
holds '"totalSize":11'
holds '"nextPageToken":"[^"]'
ask 200 /v1/grades/jade
holds '"name":"grades/jade"'
cp "$folder/answer" "$folder/jade"
ask 404 /v1/grades/unheard-of
holds '"code":5'

ask 200 /v1/installations:score --header 'Content-Type: application/json' --data @score.json
[ "$(grep -o '"grade":"grades/' "$folder/answer" | wc -l)" -ge 3 ] || surprise "fewer than three grades"
holds '"verdict":"BUY_VERDICT_CHEAPEST_THAT_MEETS_LIMIT"'

sed 's/gripRadiusM/gripRadiusMm/' score.json >"$folder/misspelt.json"
ask 400 /v1/installations:score --header 'Content-Type: application/json' --data "@$folder/misspelt.json"
holds 'installation\.helm\.gripRadiusMm'
holds 'perhaps \\"gripRadiusM\\" is meant'
ask 401 /v1/grades/jade --request PATCH --header 'Content-Type: application/json' --data '{"displayName":"x"}'
ask 200 /v1/grades/jade
cmp --silent "$folder/answer" "$folder/jade" || surprise "a change without a key has changed a grade"

ask 200 /openapi.json
holds '"/v1/installations:score"'
echo "curl: as expected"

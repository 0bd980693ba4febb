#!/usr/bin/env bash
# Lints the contract, then holds it against proto/released/v1.binpb: nothing that was released may change on the wire or in JSON.
# Needs "npm ci" here and "dotnet restore" before: what the contract imports comes with a NuGet package.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$here/../..
version=$(sed -n 's/.*"Google.Api.CommonProtos" Version="\([^"]*\)".*/\1/p' "$root/Directory.Packages.props")
imports=${NUGET_PACKAGES:-$HOME/.nuget/packages}/google.api.commonprotos/$version/content/protos
workspace=$(mktemp -d)
trap 'rm -rf "$workspace"' EXIT
mkdir "$workspace/contract" "$workspace/google"
cp -r "$root/proto/cablecatalog" "$workspace/contract"
cp -r "$imports/google" "$workspace/google"
cp "$here/buf.yaml" "$workspace"
cd "$workspace"
buf=$here/node_modules/.bin/buf
"$buf" lint contract
"$buf" breaking contract --against "$root/proto/released/v1.binpb"
echo "The contract is in order, and compatible with what is released."

#!/usr/bin/env bash
# Generates the code anew and compares it with what is committed, byte for byte. Needs Java and npm.
set -euo pipefail
cd "$(dirname "$0")"
fresh=$(mktemp -d)
trap 'rm -rf "$fresh"' EXIT
./regenerate.sh "$fresh"
diff -r "$fresh" ../src/Wain.Grammar/Generated
echo "generated code is that of the grammars"

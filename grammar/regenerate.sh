#!/usr/bin/env bash
# Writes src/Wain.Grammar/Generated (or the folder given) from the two grammars. Needs Java and npm; a plain build needs neither.
set -euo pipefail
cd "$(dirname "$0")"
out=${1:-../src/Wain.Grammar/Generated}
mkdir -p "$out"
out=$(cd "$out" && pwd)
tool=${WAIN_ANTLR_TOOL:-${TMPDIR:-/tmp}/wain-antlr}
jar=$(find "$tool" -name 'antlr4-*-complete.jar' 2>/dev/null | head -n 1 || true)
if [ -z "$jar" ]; then
    mkdir -p "$tool"
    npm install --silent --no-save --prefix "$tool" antlr4ng-cli@2.0.0 >/dev/null
    jar=$(find "$tool" -name 'antlr4-*-complete.jar' | head -n 1)
fi
# The grammar's path stands in the generated header, so it is always given from this folder.
java -jar "$jar" -Dlanguage=CSharp -no-visitor -no-listener -Werror -package Wain.Grammar -o "$out" WainLexer.g4
java -jar "$jar" -Dlanguage=CSharp -no-visitor -no-listener -Werror -package Wain.Grammar -lib "$out" -o "$out" WainParser.g4
rm -f "$out"/*.interp "$out"/*.tokens
cat WainLexer.g4 WainParser.g4 | sha256sum | cut -d' ' -f1 > "$out/grammar.sha256"

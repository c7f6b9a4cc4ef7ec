#!/usr/bin/env bash
# The referee of the workbooks: a spreadsheet program recalculates every xlsx below the given folders, and each formula cell must come out as the
# program's own figure, which stands in the file as the cached value: numbers within 1e-9 of their size, texts and errors exactly.
#   tests/workbook-referee.sh FOLDER...
# Needs soffice and python3; installs the former by apt if it is missing.
set -euo pipefail
[ $# -gt 0 ] || { echo "usage: $0 FOLDER..." >&2; exit 2; }
if ! command -v soffice >/dev/null; then
    sudo=; [ "$(id -u)" = 0 ] || sudo=sudo
    $sudo apt-get update -q
    $sudo apt-get install -y -q --no-install-recommends libreoffice-calc
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# A profile of its own that always recalculates on load (0); the usual setting would show the cached values, and the check could not fail.
mkdir -p "$work/profile/user"
cat > "$work/profile/user/registrymodifications.xcu" <<'XCU'
<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
XCU

status=0 count=0
while IFS= read -r -d '' book; do
    count=$((count + 1))
    rm -rf "$work/in" "$work/csv"
    mkdir -p "$work/in" "$work/csv"
    # The check value is moved away first, so that a program that does not recalculate is caught.
    python3 "$(dirname "$0")/workbook-referee.py" spoil "$book" "$work/in/book.xlsx"
    timeout 300 soffice -env:UserInstallation="file://$work/profile" --headless --convert-to \
        'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1' --outdir "$work/csv" "$work/in/book.xlsx" >"$work/log" 2>&1 \
        || { cat "$work/log" >&2; echo "$book: could not be recalculated" >&2; status=1; continue; }
    python3 "$(dirname "$0")/workbook-referee.py" compare "$book" "$work/csv" || status=1
done < <(find "$@" -name '*.xlsx' -type f -print0 | sort -z)
[ "$count" -gt 0 ] || { echo "no workbook below $*" >&2; exit 1; }
exit "$status"

"""Reads the formula cells of a workbook and compares them with a recalculation. Called by workbook-referee.sh.

spoil BOOK COPY     writes a copy in which every cached value is wrong, so that only a true recalculation can agree
compare BOOK FOLDER holds each formula cell's cached value in BOOK against the CSV of its sheet in FOLDER (one file a sheet, raw numbers)
"""
import csv
import math
import pathlib
import re
import sys
import xml.etree.ElementTree as xml
import zipfile

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
REL = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"


def sheets(book):
    """Name and part of each sheet, in order."""
    targets = {r.get("Id"): r.get("Target") for r in xml.fromstring(book.read("xl/_rels/workbook.xml.rels"))}
    for sheet in xml.fromstring(book.read("xl/workbook.xml")).iter(MAIN + "sheet"):
        target = targets[sheet.get(REL)]
        yield sheet.get("name"), target.lstrip("/") if target.startswith("/") else "xl/" + target


def formulas(book, part):
    """Address, row, column (from 0), type and cached text of each formula cell."""
    for cell in xml.fromstring(book.read(part)).iter(MAIN + "c"):
        if cell.find(MAIN + "f") is None:
            continue
        letters, row = re.fullmatch("([A-Z]+)([0-9]+)", cell.get("r")).groups()
        column = 0
        for letter in letters:
            column = column * 26 + ord(letter) - 64
        value = cell.find(MAIN + "v")
        yield cell.get("r"), int(row) - 1, column - 1, cell.get("t", "n"), None if value is None else value.text or ""


def spoil(source, target):
    with zipfile.ZipFile(source) as book, zipfile.ZipFile(target, "w") as copy:
        parts = {part for _, part in sheets(book)}
        for item in book.infolist():
            data = book.read(item)
            if item.filename in parts:
                tree = xml.fromstring(data)
                for cell in tree.iter(MAIN + "c"):
                    if cell.find(MAIN + "f") is not None:
                        cell.attrib.pop("t", None)
                        value = cell.find(MAIN + "v")
                        if value is not None:
                            value.text = "987654321.5"
                data = xml.tostring(tree)
            copy.writestr(item.filename, data)


# How the recalculating program writes an error that has no name in its CSV.
ERRORS = {"#NUM!": {"#NUM!", "Err:502", "Err:503"}, "#DIV/0!": {"#DIV/0!"}, "#N/A": {"#N/A"}, "#VALUE!": {"#VALUE!"}}


def agree(kind, expected, found):
    if kind == "str":
        return expected == found
    if kind == "e":
        return found in ERRORS.get(expected, {expected})
    try:
        # A cell formatted as a percentage is written as one, even where raw numbers are asked for.
        want, have = float(expected), float(found.removesuffix("%")) / (100 if found.endswith("%") else 1)
    except ValueError:
        return False
    return math.isfinite(have) and abs(want - have) <= 1e-9 * max(abs(want), abs(have), 1e-300)


def compare(source, folder):
    wrong = total = 0
    with zipfile.ZipFile(source) as book:
        for name, part in sheets(book):
            cells = list(formulas(book, part))
            if not cells:
                continue
            file = pathlib.Path(folder) / f"book-{name}.csv"
            with open(file, encoding="utf-8", newline="") as text:
                rows = list(csv.reader(text))
            for address, row, column, kind, expected in cells:
                total += 1
                found = rows[row][column] if row < len(rows) and column < len(rows[row]) else ""
                if expected is None or not agree(kind, expected, found):
                    wrong += 1
                    print(f"{source}: {name}!{address}: the program says {expected!r}, the recalculation {found!r}")
    print(f"{source}: {total} formula cells, {wrong} differ")
    return wrong == 0 and total > 0


if __name__ == "__main__":
    if sys.argv[1] == "spoil":
        spoil(sys.argv[2], sys.argv[3])
    else:
        sys.exit(0 if compare(sys.argv[2], sys.argv[3]) else 1)

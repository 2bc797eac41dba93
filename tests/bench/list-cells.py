#!/usr/bin/env python3
"""Lists every cell of a workbook, for a program that writes the same ones.

    list-cells.py FILE.xlsx LIST

LIST gets records that end with a NUL, each a letter and its fields, which a unit separator (0x1f)
keeps apart; rows and columns count from 0:

    W name                              a sheet, whose cells follow
    S row column style text             a text
    N row column style value            a number
    B row column style                  an empty cell with a style
    F row column style formula value    a formula that gives a number
    T row column style formula text     a formula that gives a text
"""

import html
import pathlib
import re
import sys
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "workbook"))
import xlsx  # noqa: E402

CELL = re.compile(r'<c r="([A-Z]+)([0-9]+)"(?: s="([0-9]+)")?(?: t="(\w+)")?(?:/>|>(.*?)</c>)',
                  re.DOTALL)
INSIDE = re.compile(r"(?:<f>(.*?)</f>)?(?:<v>(.*?)</v>|<is><t[^>]*>(.*?)</t></is>)?", re.DOTALL)


def column_of(letters):
  number = 0
  for letter in letters:
    number = number * 26 + ord(letter) - ord("A") + 1
  return number - 1


def record(match):
  letters, row, style, kind, inside = match.groups()
  formula, value, text = INSIDE.match(inside or "").groups()
  at = (str(int(row) - 1), str(column_of(letters)), style or "0")
  if formula is not None:
    return ("T" if kind == "str" else "F", *at, "=" + html.unescape(formula),
            html.unescape(value or ""))
  if kind == "inlineStr":
    return "S", *at, html.unescape(text or "")
  return ("B", *at) if value is None else ("N", *at, value)


def main():
  book = xlsx.Book(sys.argv[1])
  with open(sys.argv[2], "w", encoding="utf-8", newline="") as out, \
       zipfile.ZipFile(sys.argv[1]) as archive:
    for sheet, part in book.parts.items():
      out.write(f"W{sheet}\0")
      for match in CELL.finditer(archive.read(part).decode("utf-8")):
        kind, *fields = record(match)
        out.write(kind + "\x1f".join(fields) + "\0")


if __name__ == "__main__":
  main()

#!/usr/bin/python3
"""A kitchen started from a spreadsheet of 60 ingredients and 8 recipes, by keyboard alone. What it
costs is reckoned here from the same rows.

    from-a-sheet.py CROUSTADE CROUSTADE-CLI
"""

import json
import subprocess
import sys
import tempfile
import zipfile
from fractions import Fraction
from xml.sax.saxutils import escape

from session import Session, until

REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PRICES = {f"Thing {i:02}": Fraction(137 + 29 * i, 100) for i in range(60)}  # a kilogram
RECIPES = {f"Plate {r}": [(f"Thing {(7 * r + 5 * i) % 60:02}", 10 + r + i) for i in range(6)]
           for r in range(6)}
PREPARATIONS = {"Stock (2 kg)": [("Thing 01", 500), ("Thing 02", 250)],
                "Gel (400 g)": [("Thing 03", 30), ("Stock", 100)]}


def cell(value):
  if isinstance(value, str):
    return f'<c t="inlineStr"><is><t>{escape(value)}</t></is></c>'
  return f"<c><v>{float(value)}</v></c>" if value is not None else "<c/>"


def sheet(rows):
  body = "".join("<row>" + "".join(map(cell, row)) + "</row>" for row in rows)
  return f"<worksheet><sheetData>{body}</sheetData></worksheet>"


def relationships(*links):
  return ("<Relationships>" + "".join(f'<Relationship Id="{i}" Type="{REL}/{kind}" Target="{target}"/>'
                                      for i, kind, target in links) + "</Relationships>")


def write_workbook(path):
  prices = [["Prices of the quay", None, None], ["Ingredient", "Unit", "Price"]]
  prices += [[name, "kg", price] for name, price in PRICES.items()]
  recipes = [["Recipe", "Takes", "Quantity", "Unit", "Portions"]]
  for name, lines in {**RECIPES, **PREPARATIONS}.items():
    for i, (item, grams) in enumerate(lines):
      recipes.append([name if i == 0 else None, item, grams, "g",
                      12 if i == 0 and name in RECIPES else None])
  recipes.append([None, "Gel", 60, "g", None])  # of the last recipe: a circle, left out
  recipes.append(["Plate 0", "Gel", 60, "g", None])
  with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
    package.writestr("_rels/.rels", relationships(("b", "officeDocument", "xl/workbook.xml")))
    package.writestr("xl/_rels/workbook.xml.rels", relationships(
      ("p", "worksheet", "p.xml"), ("r", "worksheet", "r.xml")))
    package.writestr("xl/workbook.xml", f'<workbook xmlns:r="{REL}"><sheets><sheet name="Prices" '
                     'r:id="p"/><sheet name="Recipes" r:id="r"/></sheets></workbook>')
    package.writestr("xl/p.xml", sheet(prices))
    package.writestr("xl/r.xml", sheet(recipes))


def batch(lines, made):
  return sum(grams * made.get(item, PRICES.get(item, 0) / 1000) for item, grams in lines)


def expected():
  made = {"Stock": batch(PREPARATIONS["Stock (2 kg)"], {}) / 2000}
  made["Gel"] = batch(PREPARATIONS["Gel (400 g)"], made) / 400
  return {name: batch(lines + ([("Gel", 60)] if name == "Plate 0" else []), made) / 12
          for name, lines in RECIPES.items()}


def costs(cli, book):
  done = subprocess.run([cli, "cost", book, "--json"], capture_output=True, text=True, check=False)
  return {plate["name"]: plate["cost_per_guest"] for plate in json.loads(done.stdout)["plates"]}


def main(program, cli):
  with tempfile.TemporaryDirectory() as folder:
    path = f"{folder}/kitchen.xlsx"
    write_workbook(path)
    with Session(program, path) as s:
      s.watch_focus()  # the window beneath keeps one of its own
      s.reads("60 new ingredients, 60 prices")
      s.press("Return")
      s.reads("Undo import of kitchen.xlsx")
      s.start(program, path)  # into the book that is open
      s.reads("60 prices")
      s.go("Tab", "button", "Sheet")
      # The list takes keys once it has the focus.
      s.press("space")
      until(lambda: s.focused().role == "list item", "the sheets")
      s.step("Down")
      s.press("Return")
      s.reads("6 plates, 2 preparations; 1 row is left out")
      s.focus_is("button", "Import")
      s.leave("Return")
      book = f"{s.home}/kitchen.croustade"
      until(lambda: "Plate 0" in costs(cli, book), "the plates")
      found = costs(cli, book)
      for name, cost in expected().items():
        assert abs(found[name] - float(cost)) < 1e-9, (name, found[name], float(cost))
      s.press("ctrl+z")
      until(lambda: not costs(cli, book), "undo")


if __name__ == "__main__":
  main(*sys.argv[1:])

#!/usr/bin/env python3
"""What Gnumeric makes of the workbook: types, formats, names, sheets, print set-up, limits.

    second-reader.py CROUSTADE-CLI DEMO-FOLDER

It is another implementation than the one that recompute.py asks, and computes every formula anew
as well. Without it the test is skipped.
"""

import csv
import datetime
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
import zipfile
import xml.etree.ElementTree as ElementTree

import gnumeric
import layout as where
import office
import xlsx

CLI = DEMO = ""
MONTH, DAY, BEFORE = "2026-10", "2026-10-31", "2026-09"

# Every spreadsheet has these: OpenFormula 1.2 names them for its small group of functions, and
# SUMPRODUCT for its medium one (from memory). None is volatile.
FUNCTIONS = {"ABS", "AND", "COUNT", "COUNTIF", "IF", "INT", "MAX", "MIN", "OR", "ROUND", "SUM",
             "SUMPRODUCT"}

# Office Open XML leaves names of sheets to programs; these limits are those of the most common.
MOST_NAME_UNITS = 31
FORBIDDEN_IN_NAMES = set("[]:*?/\\'")

STRING = re.compile(r'"(?:[^"]|"")*"')
QUOTED_SHEET = re.compile(r"'(?:[^']|'')+'!")
FUNCTION = re.compile(r"([A-Za-z][A-Za-z0-9._]*)\(")
RANGE = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]*):\$?([A-Z]{0,3})\$?([0-9]*)")

# Names and codes that a spreadsheet would like to take for something else.
TRAPS = ["=1+1", "+dill", "-ice", "@kelp", "'quoted'", "00712", "1e5", "2026-01-02", "TRUE", "3/4",
         "th\u200bin", "7 %", "{=SUM(1)}", "#REF!", "A1", "R1C1"]
# Names of plates that no sheet can have, or not twice.
SHEETS = ["Summary", "summary", "History", "a/b\\c:d*e?f[g]", "'apostrophes'", "Ewe's cheese",
          "An uncommonly long name of a plate, the first", "An uncommonly long name of a plate, the other",
          "海老と海苔の小さなタルト、柚子の皮と山椒の葉を添えて、塩の花", "Дилл", "שמיר", "𝄞" * 40,
          "tart & <leek>", "Plate #1", "plate", "PLATE"]


def run(*arguments):
  result = subprocess.run([CLI, *map(str, arguments)], capture_output=True, encoding="utf-8",
                          check=False, timeout=300)
  if result.returncode not in (0, 1):
    raise AssertionError(f"{arguments[0]}: exit status {result.returncode}: {result.stderr}")
  return result.stdout


def write(folder, **tables):
  for name, rows in tables.items():
    with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
      out = csv.DictWriter(file, rows[0].keys())
      out.writeheader()
      out.writerows(rows)


def plates_of(names, ingredients, currency):
  """Tables of a book: every ingredient costs 4 a kg, every plate takes one of them."""
  offers = [{"ingredient": name, "supplier": "The market", "code": name, "pack_count": 1,
             "pack_size": 1, "pack_unit": "kg"} for name in ingredients]
  return {
    "book": [{"key": "currency", "value": currency}, {"key": "target_pct", "value": 30}],
    "ingredients": [{"name": name, "unit": "g"} for name in ingredients],
    "suppliers": [{"name": "The market"}],
    "offers": offers,
    "prices": [{"ingredient": row["ingredient"], "supplier": row["supplier"], "code": row["code"],
                "from": "2026-01-01", "price": 4} for row in offers],
    "plates": [{"name": name, "makes": 10, "price": 12} for name in names],
    "lines": [{"into": "plate", "parent": name, "position": 1,
               "item": ingredients[place % len(ingredients)], "amount": 100 + place, "unit": "g"}
              for place, name in enumerate(names)],
  }


class Written:
  """A workbook as it was written, beside what the second reader makes of it."""

  def __init__(self, folder, work, month=MONTH, tables=None):
    work = pathlib.Path(work)
    self.book, self.path = work / "book.croustade", work / f"{month}.xlsx"
    if tables:
      folder = work / "folder"
      folder.mkdir()
      write(folder, **tables)
    run("load", self.book, folder, *(["--replace"] if self.book.exists() else []))
    run("dump", self.book, work / "dump")
    run("workbook", self.book, "--month", month, "-o", self.path)
    self.file = xlsx.Book(self.path)
    self.layout = where.Layout(self.file, where.read_tables(work / "dump"), DAY)
    self.read = gnumeric.Book(self.path)


class Case(unittest.TestCase):
  maxDiff = None
  tables = None

  @classmethod
  def setUpClass(cls):
    cls.scratch = tempfile.TemporaryDirectory()
    cls.addClassCleanup(cls.scratch.cleanup)
    cls.work = pathlib.Path(cls.scratch.name)
    cls.written = Written(DEMO, cls.work, tables=cls.tables)
    cls.layout = cls.written.layout


class Everywhere:
  """What holds of every workbook."""

  def test_every_cell_is_of_the_type_it_was_written_with(self):
    for sheet in self.written.file.parts:
      cells = self.written.read.sheets[sheet].cells
      for place, cell in self.written.file[sheet].items():
        if cell.formula is None and cell.value in (None, ""):
          continue
        with self.subTest(sheet=sheet, place=place):
          self.assertIn(place, cells)
          got = cells[place]
          if cell.formula is not None:
            self.assertIsNone(got.kind, "a formula is a formula")
            self.assertNotRegex(got.text, r"^error\(", "a formula that is understood")
          elif isinstance(cell.value, str):
            self.assertEqual(got, (gnumeric.TEXT, cell.value))
          else:
            self.assertIn(got.kind, (gnumeric.INTEGER, gnumeric.FLOAT))
            self.assertAlmostEqual(float(got.text), cell.value, delta=1e-12 * abs(cell.value))

  def test_it_computes_what_was_written(self):
    target = self.work / "computed.xlsx"
    stripped = self.work / "stripped.xlsx"
    self.written.file.write_copy(stripped)
    status, said = office.gnumeric(stripped, target, "--recalc")
    self.assertEqual(status, 0, said)
    computed = xlsx.Book(target)
    for sheet, place, cell in self.written.file.formulas():
      got = computed.at(sheet, place)
      with self.subTest(sheet=sheet, place=place, formula=cell.formula):
        self.assertIsNone(got.error)
        if isinstance(cell.value, float) and isinstance(got.value, float):
          # What cancels is held to the size of money; recompute.py is more exact.
          delta = 1e-9 * max(1, abs(cell.value))
          if where.is_rounded_fraction(sheet, place):
            delta = where.LAST_DIGIT
          self.assertAlmostEqual(got.value, cell.value, delta=delta)
        else:
          self.assertEqual(got.value or "", cell.value or "")

  def test_names_of_sheets_are_legal_and_differ(self):
    names = list(self.written.file.parts)
    self.assertEqual(list(self.written.read.sheets), names)
    self.assertEqual(len({name.casefold() for name in names}), len(names))
    for name in names:
      with self.subTest(name=name):
        self.assertLessEqual(len(name.encode("utf-16-le")) // 2, MOST_NAME_UNITS)
        self.assertFalse(FORBIDDEN_IN_NAMES & set(name))
        self.assertFalse(name.casefold() == "history")

  def test_formulas_keep_to_plain_functions_and_direct_references(self):
    last_rows = {sheet: max((xlsx.column_and_row(place)[1] for place in cells), default=0)
                 for sheet, cells in ((sheet, self.written.file[sheet])
                                      for sheet in self.written.file.parts)}
    most = max(last_rows.values())
    for sheet, place, cell in self.written.file.formulas():
      formula = QUOTED_SHEET.sub("", STRING.sub("", cell.formula))
      with self.subTest(sheet=sheet, place=place, formula=cell.formula):
        self.assertLessEqual(set(FUNCTION.findall(formula)), FUNCTIONS)
        self.assertNotIn("[", formula, "no other file")
        for _, first, _, last in RANGE.findall(formula):
          self.assertTrue(first and last, "no whole column or row")
          # One beyond the last, so that a range is never empty.
          self.assertLessEqual(int(last), most + 1)

  def test_there_is_no_macro_and_no_other_file(self):
    with zipfile.ZipFile(self.written.path) as archive:
      for name in archive.namelist():
        self.assertNotRegex(name, r"vba|macro|externalLink|activeX|embeddings")

  def test_defined_names_lead_to_their_figures(self):
    file, layout = self.written.file, self.layout
    self.assertEqual(set(self.written.read.names) & set(file.names), set(file.names))
    for name, reference in file.names.items():
      with self.subTest(name=name):
        # The shape of a cell ("A1", "R1C1") would be taken for one.
        self.assertRegex(name, r"^[^\W\d]\w*$")
        sheet, place = self._place_of(reference)
        self.assertTrue(file.at(sheet, place).formula is not None or name.startswith(("wage", "book")))
    self.assertEqual(self._place_of(file.names["wage_per_hour"]), (where.SUMMARY, "B4"))
    self.assertEqual(self._place_of(file.names["book_tax"]), (where.SUMMARY, "B5"))
    self.assertEqual(self._place_of(file.names["book_target"]), (where.SUMMARY, "B6"))
    things = [("plate", name) for name in layout.plate_rows] + [("menu", name) for name in layout.menu_rows]
    for prefix, kinds in (("bite_", ("plate",)), ("guest_", ("plate", "menu")),
                          ("food_cost_pct_", ("plate", "menu"))):
      n_named = sum(name.startswith(prefix) for name in file.names)
      self.assertEqual(n_named, sum(kind in kinds for kind, _ in things), prefix)

  def _place_of(self, reference):
    target = xlsx.target_of(xlsx.Cell(formula=reference), "")
    self.assertIsNotNone(target, reference)
    self.assertIn(target[0], self.written.file.parts)
    return target

  def test_links_lead_to_what_they_name(self):
    n_links = 0
    for sheet, reference, location in self._links():
      n_links += 1
      text = self.written.file.at(sheet, reference).value
      with self.subTest(sheet=sheet, place=reference, location=location):
        target_sheet, target = self._place_of(location)
        there = self.written.file.at(target_sheet, target).value
        # What it names; or, on the way back from a card, the plate's row.
        plate = self.written.file.at(sheet, f"A{xlsx.column_and_row(reference)[1]}").value
        self.assertTrue(there in (plate, text) or there in text or target_sheet == where.TOTALS,
                        f"it leads to {there!r}")
    self.assertTrue(n_links)

  def _links(self):
    with zipfile.ZipFile(self.written.path) as archive:
      for sheet, part in self.written.file.parts.items():
        for _, element in ElementTree.iterparse(archive.open(part)):
          if element.tag == f"{xlsx.MAIN}hyperlink":
            yield sheet, element.get("ref"), element.get("location")

  def test_control_totals_tie(self):
    row = where.FIRST
    while self.layout.text(where.TOTALS, "A", row):
      with self.subTest(total=self.layout.text(where.TOTALS, "A", row)):
        self.assertEqual(self.layout.at(where.TOTALS, "F", row).value, 0)
      row += 1
    self.assertGreater(row, where.FIRST)

  def test_pages_are_set_up_for_print(self):
    for name, sheet in self.written.read.sheets.items():
      with self.subTest(sheet=name):
        self.assertEqual(sheet.print.findtext(f"{gnumeric.GNM}paper"), "iso_a4")
        scale = sheet.print.find(f"{gnumeric.GNM}Scale")
        # A page's width, or 8 points of 11 and as many pages beside each other as that takes.
        is_scaled = scale.get("type") == "percentage"
        self.assertEqual(scale.get("percentage") if is_scaled else scale.get("cols"), "75" if is_scaled else "1")
        footer = sheet.print.find(f"{gnumeric.GNM}Footer")
        self.assertIn("&[PAGE]", footer.get("Right"))
        if is_scaled:
          self.assertRegex(sheet.titles or "", r"\$A\$?[0-9]*:\$A\$?[0-9]*$", "names are repeated")
        elif name not in (where.NOTES, where.CARDS):
          self.assertRegex(sheet.titles or "", r"\$[0-9]+:\$?[A-Z]*\$[0-9]+$", "heads are repeated")
        if name in where.FIXED - {where.NOTES}:
          row = where.FIRST_PLATE if name == where.SUMMARY else where.FIRST
          self.assertEqual(sheet.unfrozen, f"B{row}", "heads stay in sight")


class Demo(Everywhere, Case):
  """The restaurant of the demo."""

  def test_formats_say_what_a_number_is(self):
    summary = self.written.read.sheets[where.SUMMARY]
    for row in self.layout.plate_rows.values():
      with self.subTest(row=row):
        self.assertRegex(summary.format("D", row), r"#,##0\.00(?!0)")
        self.assertIn("%", summary.format("K", row))
    prices = self.written.read.sheets[where.PRICES]
    self.assertEqual(prices.format("D", where.FIRST).lower(), "yyyy-mm-dd")
    self.assertEqual(prices.format("C", where.FIRST), "@")
    self.assertIn("%", prices.format("G", where.FIRST))
    ingredients = self.written.read.sheets[where.INGREDIENTS]
    for row in self.layout.offers.values():
      self.assertEqual(ingredients.format("J", row), "@")
      self.assertIn("%", ingredients.format("O", row))

  def test_dates_are_days(self):
    newest = max(row["from"] for row in self.layout.tables["prices"] if row["from"] <= DAY)
    days = [cell.value for place, cell in self.written.file[where.PRICES].items()
            if place.startswith("D") and isinstance(cell.value, float)]
    day = datetime.date(1899, 12, 30) + datetime.timedelta(days=max(days))
    self.assertEqual(day.isoformat(), newest)

  def test_what_is_incomplete_says_at_least_and_why(self):
    costs = json.loads(run("cost", self.written.book, "--on", DAY, "--json"))
    summary = self.written.read.sheets[where.SUMMARY]
    n_incomplete = 0
    for plate in costs["plates"]:
      row = self.layout.plate_rows[plate["name"]]
      missing = self.layout.text(where.SUMMARY, "P", row)
      with self.subTest(plate=plate["name"]):
        self.assertEqual(bool(missing), bool(plate["missing"]))
        self.assertEqual('"' in summary.format("D", row), bool(plate["missing"]))
      n_incomplete += bool(plate["missing"])
    self.assertTrue(n_incomplete, "the demo misses a price on purpose")

  def test_lines_can_be_folded_away(self):
    levels = self.written.read.sheets[where.PREPARATIONS].levels
    for name, row in self.layout.batches.items():
      for place in range(len(self.layout.lines.get(("preparation", name), []))):
        self.assertEqual(levels.get(row + 1 + place), 1, name)
      self.assertNotIn(row, levels)

  def test_a_card_has_a_chart_and_the_file_says_what_it_is(self):
    with zipfile.ZipFile(self.written.path) as archive:
      charts = [name for name in archive.namelist() if name.startswith("xl/charts/chart")]
      core = archive.read("docProps/core.xml").decode("utf-8")
    # Of the month: theoretical against actual, and the sales mix.
    self.assertEqual(len(charts), len(self.layout.cards) + 2)
    self.assertIn("Saltmarsh Rooms", core)
    self.assertIn(DAY, core)

  def test_names_hold_in_another_month(self):
    with tempfile.TemporaryDirectory() as work:
      other = Written(DEMO, work, month=BEFORE)
    self.assertEqual(set(other.file.names), set(self.written.file.names))

  def test_a_name_does_not_depend_on_what_else_the_book_holds(self):
    tables = where.read_tables(self.work / "dump")
    names = set(self.written.file.names)
    tables["plates"].insert(0, {**tables["plates"][0], "name": "Aaa, first of all"})
    with tempfile.TemporaryDirectory() as work:
      more = Written(None, work, tables={name: rows for name, rows in tables.items() if rows})
    self.assertLess(names, set(more.file.names))
    for name in names:
      sheet, place = self._place_of(self.written.file.names[name])
      other = self._place_of(more.file.names[name])
      self.assertEqual(more.file.at(*other).value, self.written.file.at(sheet, place).value, name)


class Traps(Everywhere, Case):
  """Texts that a spreadsheet would take for formulas, numbers or days; names no sheet can have."""

  tables = plates_of(SHEETS + TRAPS, TRAPS, "KWD")

  def test_names_and_codes_stay_text(self):
    cells = self.written.read.sheets[where.INGREDIENTS].cells
    for name, row in self.layout.ingredients.items():
      self.assertEqual(cells[f"A{row}"], (gnumeric.TEXT, name))
    for (_, _, code), row in self.layout.offers.items():
      self.assertEqual(cells[f"J{row}"], (gnumeric.TEXT, code))
    self.assertEqual({code for _, _, code in self.layout.offers}, set(TRAPS))

  def test_every_plate_has_a_card_that_bears_its_name(self):
    self.assertEqual(len({sheet for sheet, _ in self.layout.cards.values()}), len(SHEETS + TRAPS))

  def test_money_has_the_digits_of_its_currency(self):
    # Three for the dinar of Kuwait: ISO 4217, list one.
    row = self.layout.plate_rows["Дилл"]
    self.assertRegex(self.written.read.sheets[where.SUMMARY].format("D", row), r"#,##0\.000(?!0)")


class Many(Everywhere, Case):
  """2,000 plates: one sheet holds all cards, and nothing breaks."""

  tables = plates_of([f"Plate {number}" for number in range(2000)], ["Leek", "Salt"], "EUR")

  def test_one_sheet_holds_all_cards(self):
    self.assertEqual({sheet for sheet, _ in self.layout.cards.values()}, {where.CARDS})
    self.assertEqual(set(self.written.file.parts), where.FIXED | {where.CARDS})

  def test_the_last_card_is_as_right_as_the_first(self):
    costs = json.loads(run("cost", self.written.book, "--on", DAY, "--json"))
    for plate in costs["plates"][::399] + costs["plates"][-1:]:
      row = self.layout.plate_rows[plate["name"]]
      self.assertAlmostEqual(self.layout.at(where.SUMMARY, "D", row).value, plate["cost_per_guest"],
                             delta=1e-9 * plate["cost_per_guest"])


if __name__ == "__main__":
  office.need("ssconvert")
  CLI, DEMO = sys.argv.pop(1), sys.argv.pop(1)
  unittest.main()

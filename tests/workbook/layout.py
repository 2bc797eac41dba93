"""Where a workbook has what was entered and what comes out, as cro-workbook.h lays it down.

A sheet's rows are walked in the order of the tables that the book was dumped to: they say how
many lines and outputs a block has.
"""

import csv
import pathlib

import xlsx

SUMMARY, PREPARATIONS, INGREDIENTS, PRICES = "Summary", "Preparations", "Ingredients", "Prices"
UNITS, TOTALS, NOTES, CARDS = "Units", "Control totals", "Notes", "Cards"
# Of a month in which something is recorded.
MONTH = {"Statement", "Questions", "Theoretical and actual", "By category", "Sold", "Sales mix", "Ingredients used",
         "Purchases", "Stock counts", "Adjustments", "Price movements", "Journal"}
FIXED = {SUMMARY, PREPARATIONS, INGREDIENTS, PRICES, UNITS, TOTALS, NOTES} | MONTH

FIRST = 5
FIRST_PLATE = 10
CARD_LINES = 11
CARD_ROWS = CARD_LINES + 6

# What `cost --json` calls a figure, its column in the summary, and how many of it make one of
# the program's.
FIGURES = {
  "cost_per_guest": ("D", 1), "labour_per_guest": ("E", 1), "disposables_per_guest": ("F", 1),
  "net_price": ("J", 1), "food_cost_pct": ("K", 100), "target_pct": ("L", 100),
}

# Fractions of a minor unit (S of cards, T of a menu's plates) are rounded to six digits: where the
# next one is a five, the last may fall either way.
LAST_DIGIT = 1.01e-6


def is_rounded_fraction(sheet, place):
  return place.startswith("T") if sheet == SUMMARY else sheet not in FIXED and place.startswith("S")


def read_tables(folder):
  """Every table of a folder, as a list of dicts."""
  tables = {}
  for path in pathlib.Path(folder).glob("*.csv"):
    with path.open(encoding="utf-8-sig", newline="") as file:
      tables[path.stem] = list(csv.DictReader(file))
  return tables


class Layout:
  def __init__(self, book, tables, day):
    self.book = book
    self.tables = tables
    self.day = day        # that it is costed on, as ISO 8601 writes it
    self.lines = {}       # (into, parent) -> its rows of lines.csv in order
    for row in sorted(tables.get("lines", []), key=lambda row: float(row["position"])):
      self.lines.setdefault((row["into"], row["parent"]), []).append(row)
    self.outputs = {}     # preparation -> its rows of outputs.csv, main first
    for row in sorted(tables.get("outputs", []), key=lambda row: row["role"] != "main"):
      self.outputs.setdefault(row["preparation"], []).append(row)
    self.ingredients = {}   # name -> row
    self.offers = {}        # (ingredient, supplier, code) -> row
    self.batches = {}       # preparation -> row of its head
    self.output_rows = {}   # output -> row
    self.cards = {}         # plate -> (sheet, row of its name)
    self.plate_rows = {}    # plate -> row of the summary
    self.menu_rows = {}     # menu -> row of the summary
    self.serving_rows = {}  # (menu, plate, choice) -> row of the summary
    self.way_rows = {}      # menu -> row of its cheapest way; its dearest stands below
    self._walk_ingredients()
    self._walk_preparations()
    self._walk_cards()
    self._walk_summary()

  def at(self, sheet, column, row):
    return self.book.at(sheet, f"{column}{row}")

  def text(self, sheet, column, row):
    value = self.at(sheet, column, row).value
    return value if isinstance(value, str) else ""

  def source(self, sheet, place):
    """The input behind a cell: what its formula refers to, as long as it does nothing else."""
    while (target := xlsx.target_of(self.book.at(sheet, place), sheet)) is not None:
      sheet, place = target
    return sheet, place

  def _walk_ingredients(self):
    names = {row["name"] for row in self.tables["ingredients"]}
    offered = {(row["ingredient"], row["supplier"], row["code"])
               for row in self.tables.get("offers", [])}
    row, ingredient = FIRST, None
    while name := self.text(INGREDIENTS, "A", row):
      key = (ingredient, name, self.text(INGREDIENTS, "J", row))
      if self.text(INGREDIENTS, "M", row):
        assert key in offered, f"{INGREDIENTS}!A{row}: nobody offers {key}"
        self.offers[key] = row
      else:
        assert name in names, f"{INGREDIENTS}!A{row}: no ingredient is named {name!r}"
        ingredient = name
        self.ingredients[name] = row
      row += 1
    assert len(self.ingredients) == len(names), "ingredients are left out"
    assert len(self.offers) == len(offered), "offers are left out"

  def _walk_preparations(self):
    row = FIRST
    while name := self.text(PREPARATIONS, "A", row):
      lines = self.lines.get(("preparation", name), [])
      outputs = self.outputs[name]
      self.batches[name] = row
      self._check_lines(PREPARATIONS, row + 1, lines)
      first = row + 3 + len(lines)
      for place, output in enumerate(outputs):
        found = self._output_of(name, first + place)
        assert (place == 0) == (found["role"] == "main"), f"{found['item']}: main stands first"
        self.output_rows[found["item"]] = first + place
      row = first + len(outputs) + 1
    assert len(self.batches) == len(self.tables.get("preparations", [])), "batches are left out"

  def _output_of(self, preparation, row):
    name = self.text(PREPARATIONS, "A", row)
    for output in self.outputs[preparation]:
      if output["item"] == name:
        return output
    raise AssertionError(f"{PREPARATIONS}!A{row}: {preparation} has no output {name!r}")

  def _check_lines(self, sheet, row, lines):
    for place, line in enumerate(lines):
      assert self.text(sheet, "A", row + place) == line["item"], \
        f"{sheet}!A{row + place}: expected {line['item']!r}"
      assert self.text(sheet, "C", row + place) == line["unit"], \
        f"{sheet}!C{row + place}: expected {line['unit']!r}"

  def _walk_cards(self):
    for sheet in self.book.parts:
      row = 1
      while sheet not in FIXED and (name := self.text(sheet, "A", row)):
        lines = self.lines.get(("plate", name), [])
        self.cards[name] = sheet, row
        self._check_lines(sheet, row + CARD_LINES, lines)
        row += CARD_ROWS + len(lines)
    assert self.cards.keys() == {row["name"] for row in self.tables.get("plates", [])}, \
      "plates have no card"

  def _walk_summary(self):
    row = FIRST_PLATE
    while name := self.text(SUMMARY, "A", row):
      self.plate_rows[name] = row
      row += 1
    assert self.plate_rows.keys() == self.cards.keys(), "plates are left out of the summary"
    menus = {entry["name"] for entry in self.tables.get("menus", [])}
    row, menu = row + 2, None
    while name := self.text(SUMMARY, "A", row):
      if isinstance(self.at(SUMMARY, "B", row).value, float):
        choice = self.text(SUMMARY, "P", row).partition(": ")[2]
        self.serving_rows[menu, name, choice] = row
      elif self.at(SUMMARY, "J", row).value is None:
        self.way_rows.setdefault(menu, row)
      else:
        assert name in menus, f"{SUMMARY}!A{row}: no menu is named {name!r}"
        menu = name
        self.menu_rows[menu] = row
      row += 1
    assert self.menu_rows.keys() == menus, "menus are left out"
    assert self.serving_rows.keys() == {(entry["menu"], entry["plate"], entry["choice"]) for entry
                                        in self.tables.get("menu_plates", [])}, "plates of menus"

  def figures(self):
    """(list of the report, name, key) -> (sheet, place, how many of it make one of the report)."""
    found = {}
    for name, row in self.ingredients.items():
      found["items", name, "unit_cost"] = INGREDIENTS, f"G{row}", 1
    for name, row in self.output_rows.items():
      found["items", name, "unit_cost"] = PREPARATIONS, f"I{row}", 1
    for part, rows in (("plates", self.plate_rows), ("menus", self.menu_rows)):
      for name, row in rows.items():
        for key, (column, times) in FIGURES.items():
          found[part, name, key] = SUMMARY, f"{column}{row}", times
    for name, row in self.way_rows.items():
      found["menus", name, "range from"] = SUMMARY, f"D{row}", 1
      found["menus", name, "range to"] = SUMMARY, f"D{row + 1}", 1
    for name, row in self.plate_rows.items():
      found["plates", name, "cost_per_bite"] = SUMMARY, f"C{row}", 1
    return found

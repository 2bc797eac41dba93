"""Changes that a person would make in the workbook, each beside the same change in the tables.

Which offer of an ingredient is used is no formula in the workbook (it says where another one
has become cheaper), so prices, rates and packs are moved the way that leaves the choice alone.
"""

import collections

import layout as where

# row: of the table, changed in place; column: its column; cell: (sheet, place) of the workbook;
# per: how many of the table's make one of the cell's; move: gives the new text from the old.
Change = collections.namedtuple("Change", "kind table row column cell per move")

HUNDRED = 100


def _decimal(number):
  return f"{number:.6f}".rstrip("0").rstrip(".")


def by(factor, empty=""):
  """Moves what is set; what is not set becomes `empty`, and stays as it is where that is empty."""
  def move(field):
    return _decimal(float(field) * factor) if field else empty
  return move


def to(value):
  return lambda field: value


def within(low, high, move):
  def bounded(field):
    field = move(field)
    return field and _decimal(min(max(float(field), low), high))
  return bounded


class Changes:
  def __init__(self, layout):
    self.layout = layout
    self.tables = layout.tables
    self.found = []
    self.entered = []   # rows of prices for someone to fill in
    self._book()
    self._market()
    self._preparations()
    self._plates()
    self._menus()

  def _add(self, kind, table, row, column, cell, move, per=1):
    """cell may hold a formula: a plate's tax, where the plate has none, is read from the book's."""
    if move(row[column]) not in (row[column], ""):
      self.found.append(Change(kind, table, row, column, cell, per, move))

  def _book(self):
    settings = {row["key"]: row for row in self.tables["book"]}
    for kind, key, line, move, per in (
        ("wage", "wage_per_hour", 4, by(1.17, "13.5"), 1),
        ("book's tax", "tax_pct", 5, by(1.1, "9.5"), HUNDRED),
        ("book's target", "target_pct", 6, by(0.9, "29"), HUNDRED)):
      row = settings.get(key)
      if row is None:
        row = {"key": key, "value": ""}
        self.tables["book"].append(row)
      self._add(kind, "book", row, "value", (where.SUMMARY, f"B{line}"), move, per)

  def _market(self):
    layout, sheet = self.layout, where.INGREDIENTS
    for row in self.tables["ingredients"]:
      at = layout.ingredients[row["name"]]
      self._add("trim yield", "ingredients", row, "trim_yield_pct", (sheet, f"F{at}"),
                within(1, 1000, by(0.93, "88")), HUNDRED)
      # A little: packs are converted with these too, and another offer must not take over.
      self._add("density", "ingredients", row, "density_g_per_ml", (sheet, f"D{at}"), by(1.0001))
      self._add("piece weight", "ingredients", row, "piece_g", (sheet, f"E{at}"), by(1.0001))
    prices = {}
    for row in sorted(self.tables.get("prices", []), key=lambda row: row["from"]):
      prices.setdefault((row["ingredient"], row["supplier"], row["code"]), []).append(row)
    self.prices = {key: [row for row in rows if row["from"] <= layout.day]
                   for key, rows in prices.items()}
    for row in self.tables.get("offers", []):
      self._offer(row)
    newest = {}
    for row in self.tables.get("rates", []):
      if row["from"] <= layout.day:
        newest[row["currency"]] = max(row, newest.get(row["currency"], row),
                                      key=lambda row: row["from"])
    at = where.FIRST
    while currency := layout.text(where.UNITS, "E", at):
      if currency in newest:
        self._add("rate", "rates", newest[currency], "rate", (where.UNITS, f"F{at}"), by(1.0001),
                  float(newest[currency]["per"] or 1))
      at += 1

  def _offer(self, row):
    layout, sheet = self.layout, where.INGREDIENTS
    key = row["ingredient"], row["supplier"], row["code"]
    at = layout.offers[key]
    # What is used may only become cheaper.
    if f"U{at}" not in (layout.at(sheet, "G", layout.ingredients[key[0]]).formula or ""):
      return
    prices = self.prices.get(key, [])
    self._add("net part", "offers", row, "net_pct", (sheet, f"O{at}"),
              within(1, 100, by(1.05)), HUNDRED)
    if prices and not any(price["price"] for price in prices):
      # Not to be had, and never was: a price is entered in the row that says so.
      self._add("missing price", "prices", prices[-1], "price", layout.source(sheet, f"P{at}"),
                to("21.4"))
      return
    if not prices:
      # Nothing is known of it yet: a price is entered where the offer stands.
      entered = {**dict.fromkeys(self.tables["prices"][0], ""), "ingredient": key[0],
                 "supplier": key[1], "code": key[2], "from": layout.day}
      self.tables["prices"].append(entered)
      self.entered.append(entered)
      self._add("missing price", "prices", entered, "price", (sheet, f"P{at}"), to("21.4"))
      return
    # Both stand among the prices, and are read from there.
    price, is_last = self._price_that_serves(row, prices)
    self._add("last price" if is_last else "price", "prices", price, "price",
              layout.source(sheet, f"P{at}"), by(0.81))
    self._add("tax included", "prices", price, "tax_included_pct",
              layout.source(sheet, f"Q{at}"), by(1.2, "7.5"), HUNDRED)
    if not price["pack_count"]:
      self._add("pack", "offers", row, "pack_count", (sheet, f"K{at}"), by(1.5))

  def _price_that_serves(self, offer, prices):
    """The newest price on the day itself, else that of the last day on which the offer had one."""
    until = offer["until"]
    has_left = until and until < self.layout.day
    if prices[-1]["price"] and not has_left:
      return prices[-1], False
    return [row for row in prices if row["price"] and (not until or row["from"] <= until)][-1], True

  def _sold(self, table, row, price, tax):
    """What it is sold for: its own price and tax, or what a dated price says instead.
    price, tax: (cell, move)."""
    dated = sorted((of for of in self.tables.get("selling_prices", [])
                    if of["name"] == row["name"] and of["from"] <= self.layout.day),
                   key=lambda of: of["from"])[-1:]
    noun = table.removesuffix("s")
    if dated:
      self._add(f"{noun}'s dated price", "selling_prices", dated[0], "price", *price)
    else:
      self._add(f"{noun}'s price", table, row, "price", *price)
    if dated and dated[0]["tax_pct"]:
      self._add(f"{noun}'s dated tax", "selling_prices", dated[0], "tax_pct", *tax, HUNDRED)
    else:
      self._add(f"{noun}'s tax", table, row, "tax_pct", *tax, HUNDRED)

  def _lines(self, into, parent, sheet, first):
    for place, row in enumerate(self.layout.lines.get((into, parent), [])):
      at = first + place
      self._add("amount", "lines", row, "amount", (sheet, f"B{at}"), by(1.37))
      # What is weighed whole has none.
      self._add("line's yield", "lines", row, "yield_pct", (sheet, f"E{at}"),
                within(1, 1000, by(0.9, "" if row["weighed"] == "whole" else "77")), HUNDRED)
      self._add("recovered part", "lines", row, "recovered_pct", (sheet, f"F{at}"),
                by(0.8, "12.5"), HUNDRED)

  def _preparations(self):
    layout, sheet = self.layout, where.PREPARATIONS
    for row in self.tables.get("preparations", []):
      at = layout.batches[row["name"]]
      n_lines = len(layout.lines.get(("preparation", row["name"]), []))
      self._lines("preparation", row["name"], sheet, at + 1)
      self._add("batch's minutes", "preparations", row, "active_minutes",
                (sheet, f"B{at + 1 + n_lines}"), by(1.25, "17"))
    for row in self.tables.get("outputs", []):
      at = layout.output_rows[row["item"]]
      self._add("finished amount", "outputs", row, "amount", (sheet, f"B{at}"), by(1.13))
      self._add("yield of a batch", "outputs", row, "yield_pct", (sheet, f"E{at}"),
                within(1, 1000, by(0.94)), HUNDRED)
      self._add("lost part", "outputs", row, "lost_pct", (sheet, f"F{at}"),
                within(0, 99, by(0.8, "12.5")), HUNDRED)
      self._add("by-product's value", "outputs", row, "value", (sheet, f"R{at}"), by(0.7, "1.25"))
      self._add("output's density", "outputs", row, "density_g_per_ml", (sheet, f"S{at}"),
                by(1.03, "1.02"))
      self._add("output's piece weight", "outputs", row, "piece_g", (sheet, f"T{at}"),
                by(1.03, "21"))

  def _plates(self):
    for row in self.tables.get("plates", []):
      sheet, at = self.layout.cards[row["name"]]
      self._lines("plate", row["name"], sheet, at + where.CARD_LINES)
      for kind, column, down, move, per in (
          ("makes", "makes", 2, by(1.5), 1),
          ("bites per guest", "per_guest", 3, by(2, "2"), 1),
          ("allowance", "allowance_pct", 4, by(1.4, "3"), HUNDRED),
          ("plate's minutes", "active_minutes", 5, by(1.2, "4"), 1),
          ("plate's target", "target_pct", 8, by(0.9, "25"), HUNDRED)):
        self._add(kind, "plates", row, column, (sheet, f"B{at + down}"), move, per)
      self._sold("plates", row, ((sheet, f"B{at + 6}"), by(1.05, "14")),
                 ((sheet, f"B{at + 7}"), by(0.8, "12")))

  def _menus(self):
    layout, sheet = self.layout, where.SUMMARY
    for row in self.tables.get("menus", []):
      at = layout.menu_rows[row["name"]]
      self._sold("menus", row, ((sheet, f"H{at}"), by(1.05, "75")),
                 ((sheet, f"I{at}"), by(0.8, "12")))
      self._add("menu's target", "menus", row, "target_pct", (sheet, f"L{at}"), by(0.9, "27"),
                HUNDRED)
    for row in self.tables.get("menu_plates", []):
      at = layout.serving_rows[row["menu"], row["plate"], row["choice"]]
      self._add("servings", "menu_plates", row, "servings", (sheet, f"B{at}"), by(2, "2"))
      # What one alternative leaves goes to those that say nothing.
      others = [other for other in self.tables["menu_plates"] if row["choice"]
                and (other["menu"], other["choice"]) == (row["menu"], row["choice"])]
      if row["share_pct"] and any(not other["share_pct"] for other in others):
        self._add("share of a choice", "menu_plates", row, "share_pct", (sheet, f"C{at}"),
                  by(0.5), HUNDRED)


def make(changes):
  """Makes changes in the rows of the tables; returns them as the workbook's cells."""
  cells = {}
  for change in changes:
    text = change.move(change.row[change.column])
    change.row[change.column] = text
    cells[change.cell] = float(text) / change.per
  return cells

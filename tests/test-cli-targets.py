#!/usr/bin/env python3
"""Whoever takes the shown figure keeps the target.

    test-cli-targets.py CROUSTADE-CLI DEMO-FOLDER

Every plate of the demo and of random books (oracle/generate.py) is set to the price that its card
shows as meeting the target, and ingredients to their shown ceilings, by the base unit and by the
pack: none is over its target then. Cards are read as a person reads them.
"""

import csv
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "oracle"))
import generate  # noqa: E402

CLI = DEMO = ""
DAY = "2026-11-25"
# What a sanitizer sees in three books it sees in the others.
SEEDS = range(3 if "CROUSTADE_TEST_SANITIZED" in os.environ else 12)
MOST_CEILINGS = 6
MONEY = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
SUPPLIER = "Test hand"


def run(*arguments):
  environment = {**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""}
  done = subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                        env=environment)
  assert done.returncode in (0, 1), (arguments, done.stderr)
  return done


def read(path):
  with open(path, encoding="utf-8-sig", newline="") as file:
    return list(csv.DictReader(file))


def write(path, rows, columns):
  with open(path, "w", encoding="utf-8", newline="") as file:
    writer = csv.DictWriter(file, columns, restval="")
    writer.writeheader()
    writer.writerows(rows)


class Book:
  """A folder of tables, changed and costed again."""

  def __init__(self, tables, day, work):
    self.day, self.work = day, pathlib.Path(work)
    self.path = self.work / "book.croustade"
    run("load", self.path, tables)
    self.dumped = self.work / "dumped"
    run("dump", self.path, self.dumped)

  def rows(self, table):
    return read(self.dumped / f"{table}.csv")

  def tax_of(self, plate):
    """That of its newest dated selling price, or its own."""
    path = self.dumped / "selling_prices.csv"
    dated = [row for row in (read(path) if path.exists() else [])
             if row["name"] == plate["name"] and row["from"] <= self.day]
    newest = max(dated, key=lambda row: row["from"], default={})
    return newest.get("tax_pct") or plate["tax_pct"]

  def with_tables(self, changes):
    """The same book with some tables replaced; their rows."""
    folder, path = self.work / "changed", self.work / "changed.croustade"
    changes = {table: rows for table, rows in changes.items()
               if (self.dumped / f"{table}.csv").exists()}
    shutil.rmtree(folder, ignore_errors=True)
    path.unlink(missing_ok=True)
    shutil.copytree(self.dumped, folder)
    for table, rows in changes.items():
      columns = list(dict.fromkeys([*read_columns(folder / f"{table}.csv"),
                                    *(name for row in rows for name in row)]))
      write(folder / f"{table}.csv", rows, columns)
    run("load", path, folder)
    return path

  def over(self, path):
    """Names of what is over its target."""
    done = run("cost", path, "--on", self.day)
    return [line.split(": over its target")[0] for line in done.stderr.splitlines()
            if ": over its target" in line]

  def card(self, name):
    return run("cost", self.path, "--on", self.day, "--plate", name).stdout


def read_columns(path):
  with open(path, encoding="utf-8-sig", newline="") as file:
    return next(csv.reader(file))


def price_for_target(card):
  found = re.search(r"^Price that meets the target, with tax +(?:at least |\? )?([0-9.]+)$", card,
                    re.MULTILINE)
  return found and found[1]


def ceilings(card):
  """Name, per base unit and per pack as shown, of the ingredients that have both."""
  rows, name = [], ""
  lines = card.split("What moves it", 1)[-1].split("“ceiling”")[0].splitlines()[1:]
  for line in lines:
    plain = line.replace("\u00a0", " ").replace("\u2212", "-")
    found = re.search(r"^(.*?) +\S+ (?:g|kg|ml|l|pc) .* (?:≤ )?(-?[0-9.]+)(/kg|/l| each)\*?"
                      r"(?: · .*?)? +(?:≤ )?(-?[0-9.]+)(?: [A-Z]{3})?$", " " + plain)
    if found:
      rows.append(((found[1].strip() or name), found[2], found[3], found[4]))
    name = line.strip()
  return rows


class Targets(unittest.TestCase):
  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.work = folder.name

  def expect_prices(self, book):
    plates, prices = book.rows("plates"), {}
    for plate in plates:
      price = price_for_target(book.card(plate["name"]))
      if price is not None:
        prices[plate["name"]] = price
    for plate in plates:
      plate["price"] = prices.get(plate["name"], plate["price"])
      plate["tax_pct"] = book.tax_of(plate)
    over = book.over(book.with_tables({"plates": plates, "selling_prices": []}))
    self.assertEqual([name for name in over if name in prices], [],
                     f"set to the price that is shown to meet the target: {prices}")
    return len(prices)

  def expect_ceiling(self, book, plate, ingredient, changes):
    over = book.over(book.with_tables(changes))
    self.assertNotIn(plate, over, f"{ingredient} at its shown ceiling: {changes['prices'][-1]}")

  def expect_ceilings(self, book, plate):
    """One supplier's pack at the ceiling is all that there is of the ingredient."""
    card = book.card(plate)
    known = {row["name"]: row["unit"] for row in book.rows("ingredients")}
    n = 0
    possible = [row for row in ceilings(card) if float(row[1]) >= 0]
    for name, unit_price, unit, pack_price in possible[:MOST_CEILINGS]:
      offers = [row for row in book.rows("offers") if row["ingredient"] == name]
      if name not in known or not offers:
        continue
      sizes = {"/kg": ("1", "kg"), "/l": ("1", "l"), " each": ("1", "each")}
      size, pack_unit = sizes[unit]
      others = [row for row in book.rows("offers") if row["ingredient"] != name]
      prices = [row for row in book.rows("prices") if row["ingredient"] != name]
      own = {"ingredient": name, "supplier": SUPPLIER, "pack_count": "1", "pack_size": size,
             "pack_unit": pack_unit}
      price = {"ingredient": name, "supplier": SUPPLIER, "from": book.day, "price": unit_price}
      suppliers = [*book.rows("suppliers"), {"name": SUPPLIER}]
      self.expect_ceiling(book, plate, name, {"suppliers": suppliers, "offers": [*others, own],
                                              "prices": [*prices, price]})
      n += 1
      if len(offers) == 1 and float(pack_price) >= 0:
        old = [row for row in book.rows("prices") if row["ingredient"] == name]
        newest = max((row for row in old if row["from"] <= book.day), key=lambda row: row["from"])
        self.expect_ceiling(book, plate, name,
                            {"prices": [*prices, {**newest, "price": pack_price}]})
        n += 1
    return n

  def expect_book(self, book):
    prices = self.expect_prices(book)
    plates = [row["name"] for row in book.rows("plates") if row["price"]]
    return prices, sum(self.expect_ceilings(book, name) for name in plates[:6])

  def test_the_demo(self):
    prices, n_ceilings = self.expect_book(Book(DEMO, DAY, self.work))
    self.assertGreaterEqual(prices, 14)
    self.assertGreaterEqual(n_ceilings, 20)

  def test_random_books(self):
    prices = n_ceilings = 0
    for seed in SEEDS:
      with self.subTest(seed=seed):
        work = pathlib.Path(self.work) / str(seed)
        work.mkdir()
        day = generate.generate(seed, work / "tables")
        try:
          found = self.expect_book(Book(work / "tables", str(day), work))
        finally:
          shutil.rmtree(work)
        prices, n_ceilings = prices + found[0], n_ceilings + found[1]
    self.assertGreater(prices, len(SEEDS), "enough was tried to mean something")
    self.assertGreater(n_ceilings, len(SEEDS))


if __name__ == "__main__":
  CLI, DEMO = os.path.abspath(sys.argv[1]), sys.argv[2]
  unittest.main(argv=sys.argv[:1] + sys.argv[3:])

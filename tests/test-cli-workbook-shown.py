#!/usr/bin/env python3
"""What the workbook's cells show: nothing that is missing as 0, nothing bare that rests on it, and
the digits of the program.

    test-cli-workbook-shown.py CROUSTADE-CLI DEMO-FOLDER
"""

import csv
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "workbook"))
import layout as where  # noqa: E402
import shown  # noqa: E402
import xlsx  # noqa: E402

CLI = DEMO = ""
MONTH, DAY = "2026-10", "2026-10-31"


def call(*arguments):
  done = subprocess.run([CLI, *map(str, arguments)], capture_output=True, encoding="utf-8",
                        check=False, timeout=120,
                        env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""})
  assert done.returncode in (0, 1), f"{arguments}: {done.stderr}"
  return done.stdout


def write(folder, tables):
  folder.mkdir()
  for name, rows in tables.items():
    columns = list(dict.fromkeys(column for row in rows for column in row))
    with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
      out = csv.DictWriter(file, columns)
      out.writeheader()
      out.writerows(rows)


def line(into, parent, item, amount, unit="g", **more):
  return {"into": into, "parent": parent, "item": item, "amount": amount, "unit": unit, **more}


def small_book(**more):
  """Leek at 4 a kg, dulse without a price, and a plate of leek at 10: 4 % of the net price."""
  tables = {
    "book": [{"key": "currency", "value": "EUR"}],
    "ingredients": [{"name": name, "unit": "g"} for name in ("Leek", "Dulse")],
    "suppliers": [{"name": "The market"}],
    "offers": [{"ingredient": "Leek", "supplier": "The market", "code": "1", "pack_count": 1,
                "pack_size": 1, "pack_unit": "kg"}],
    "prices": [{"ingredient": "Leek", "supplier": "The market", "code": "1", "from": "2026-01-01",
                "price": 4}],
    "plates": [{"name": "Broth", "makes": 1, "per_guest": 1, "price": 10}],
    "lines": [line("plate", "Broth", "Leek", 100)],
  }
  for name, rows in more.items():
    tables[name] = tables.get(name, []) + rows
  for position, row in enumerate(tables["lines"], 1):
    row["position"] = position
  return tables


class Case(unittest.TestCase):
  maxDiff = None

  def write_book(self, tables):
    """Has self.cell and self.row tell what its workbook shows."""
    scratch = tempfile.TemporaryDirectory()
    self.addCleanup(scratch.cleanup)
    folder = pathlib.Path(scratch.name)
    if isinstance(tables, dict):
      write(folder / "tables", tables)
      tables = folder / "tables"
    self.book, path = folder / "book.croustade", folder / "office.xlsx"
    call("load", self.book, tables)
    call("dump", self.book, folder / "dump")
    call("workbook", self.book, "--month", MONTH, "-o", path)
    file = xlsx.Book(path)
    self.layout = where.Layout(file, where.read_tables(folder / "dump"), DAY)
    self.cells = shown.Shown(file)

  def summary(self, row, columns):
    return self.cells.row(where.SUMMARY, row, columns)

  def card(self, plate, row, columns):
    sheet, top = self.layout.cards[plate]
    return self.cells.row(sheet, top + row, columns)

  def line_of_card(self, plate, item, columns):
    lines = [row["item"] for row in self.layout.lines["plate", plate]]
    return self.card(plate, where.CARD_LINES + lines.index(item), columns)


def market(**prices):
  """Ingredients by the gram, bought by the kg at a price each; None: it has none."""
  offered = {"ingredient": "", "supplier": "The market", "code": "1"}
  return {
    "ingredients": [{"name": name, "unit": "g"} for name in prices],
    "offers": [{**offered, "ingredient": name, "pack_count": 1, "pack_size": 1, "pack_unit": "kg"}
               for name in prices],
    "prices": [{**offered, "ingredient": name, "from": "2026-01-01", "price": price}
               for name, price in prices.items() if price is not None],
  }


class WhatIsMissing(Case):
  """costing.md §7: whatever rests on something missing is marked wherever it stands, and nothing that
  is not known shows a 0."""

  def test_a_card_of_the_demo(self):
    self.write_book(DEMO)
    plate = "Crab croustade"
    self.assertEqual(self.line_of_card(plate, "Sea purslane", "ILOPR"), ["?"] * 5)
    self.assertEqual(self.line_of_card(plate, "Trout roe", "OPR"), ["0.19", "at most 23.6%", "4.57"])
    # There is none of the food in it, whatever is missing.
    self.assertEqual(self.line_of_card(plate, "Paper cup", "OPR"), ["0.00", "0.0%", "1.01"])
    # Seasoning of 3 % is 3 of 103, whatever is missing of both.
    below = where.CARD_LINES + len(self.layout.lines["plate", plate])
    self.assertEqual(self.card(plate, below, "LMOPR"),
                     ["at least 0.57", "0.03", "at least 0.02", "2.9%", "at least 0.60"])
    self.assertEqual(self.card(plate, below + 2, "LMNR"),
                     ["at least 19.42", "1.10", "28.02", "at least 20.52"])
    control = next(place[1:] for place, cell in self.cells.book["Control totals"].items()
                   if place[0] == "A" and "all plates" in str(cell.value))
    self.assertEqual({text.split("\u00a0")[0][:9] for text in self.cells.row("Control totals", control, "BCG")},
                     {"at least "})

  def test_a_menu_of_the_demo(self):
    self.write_book(DEMO)
    row = self.layout.menu_rows["Tide"]
    self.assertEqual(self.summary(row, "DEFGKMNOS"),
                     ["at least 24.71", "16.09", "0.16", "at least 40.80", "at least 28.6%",
                      "at most 1.19", "at least 90.62", "incomplete", "at least 24.71"])
    self.assertEqual(self.summary(self.layout.serving_rows["Tide", "Crab croustade", ""], "DEFGS"),
                     ["at least 0.81", "1.17", "0.05", "at least 1.98", "at least 0.81"])
    self.assertEqual(self.summary(self.layout.plate_rows["Crab croustade"], "CDEFG"),
                     ["at least 0.81", "at least 0.81", "1.17", "0.05", "at least 1.98"])

  def test_what_is_missing_decides_on_the_verdict(self):
    """Leek for 0.40 a guest of 2 or 1 net, and dulse: at least 20 % and 40 % for a target of 30 %."""
    prices = {"Within": 2, "Over": 1}
    self.write_book(small_book(
      book=[{"key": "target_pct", "value": 30}],
      plates=[{"name": name, "makes": 1, "per_guest": 1, "price": price}
              for name, price in prices.items()],
      lines=[line("plate", name, item, 100) for name in prices for item in ("Leek", "Dulse")]))
    for name, says in (("Within", "incomplete"), ("Over", "over target")):
      with self.subTest(name=name):
        self.assertEqual(self.summary(self.layout.plate_rows[name], "O"), [says])
        self.assertEqual(self.card(name, 5, "L"), [says])
    self.assertEqual(self.summary(self.layout.plate_rows["Broth"], "O"), ["within target"])

  def test_a_credit_may_lower_what_is_over(self):
    """Bones at a credit of 1 from fish without a price and leek for 4: over 30 % of 10, for now."""
    self.write_book(small_book(
      book=[{"key": "target_pct", "value": 30}], **market(Fish=None),
      preparations=[{"name": "Filleting", "by_products": "credit"}],
      outputs=[{"item": "Fillet", "preparation": "Filleting", "role": "main", "amount": 1, "unit": "kg"},
               {"item": "Bones", "preparation": "Filleting", "role": "by-product", "amount": 1,
                "unit": "kg", "value": 1}],
      plates=[{"name": "Plaice", "makes": 1, "per_guest": 1, "price": 10}],
      lines=[line("preparation", "Filleting", "Fish", 1000),
             line("preparation", "Filleting", "Leek", 1250),
             line("plate", "Plaice", "Fillet", 1000)]))
    row = self.layout.plate_rows["Plaice"]
    self.assertEqual(self.summary(row, "DKO"), ["incomplete 4.00", "incomplete 40.0%", "incomplete"])
    self.assertEqual(self.line_of_card("Plaice", "Fillet", "ILOPR"),
                     ["incomplete 0.004000", "incomplete 4.00", "incomplete 4.00",
                      "incomplete 100.0%", "incomplete 4.00"])

  def test_a_batch_and_what_it_gives(self):
    """A paste of leek and dulse costs at least 4 a kg; a powder of dulse alone is not known; what a
    gel comes to is not, though its batch costs 4."""
    names = ("Paste", "Powder", "Gel")
    self.write_book(small_book(
      preparations=[{"name": name} for name in names],
      outputs=[{"item": name, "preparation": name, "role": "main", "unit": "g",
                "amount": "" if name == "Gel" else 1000} for name in names],
      plates=[{"name": "Tart", "makes": 2, "per_guest": 1, "price": 10}],
      lines=[line("preparation", "Paste", "Leek", 1000), line("preparation", "Paste", "Dulse", 1000),
             line("preparation", "Powder", "Dulse", 1000), line("preparation", "Gel", "Leek", 1000),
             line("plate", "Tart", "Leek", 100)] + [line("plate", "Tart", name, 100) for name in names]))
    for name, in_batch, out in (("Paste", "at least 4.00", "at least 0.004000"), ("Powder", "?", "?"),
                                ("Gel", "4.00", "?")):
      with self.subTest(name=name):
        sums = self.layout.output_rows[name] - 1
        self.assertEqual(self.cells.at(where.PREPARATIONS, f"L{sums}"), in_batch)
        self.assertEqual(self.cells.at(where.PREPARATIONS, f"I{sums + 1}"), out)
        self.assertEqual(self.cells.row(where.PREPARATIONS, sums, "MN"), ["0.00", "0.00"])
    self.assertEqual(self.cells.at(where.PREPARATIONS, f"G{self.layout.output_rows['Gel']}"), "?")
    self.assertEqual(self.line_of_card("Tart", "Leek", "LOPR"), ["0.40", "0.20", "at most 50.0%", "0.40"])
    self.assertEqual(self.line_of_card("Tart", "Paste", "LOPR"),
                     ["at least 0.40", "at least 0.20", "incomplete 50.0%", "at least 0.40"])
    for name in ("Powder", "Gel"):
      self.assertEqual(self.line_of_card("Tart", name, "LOPR"), ["?"] * 4, name)
    # No seasoning: there is nothing of it to miss.
    self.assertEqual(self.card("Tart", where.CARD_LINES + 4, "LMOPR"),
                     ["0.00", "0.00", "0.00", "0.0%", "0.00"])
    # Of how much gel there is hangs its labour; a disposable stands nowhere below.
    self.assertEqual(self.summary(self.layout.plate_rows["Tart"], "EF"), ["?", "0.00"])

  def test_a_part_of_next_to_nothing_is_not_shown_as_0(self):
    """0.00002 of 0.40 and 0.40 of 20000: 0.005 % and 0.002 %, counted by hand."""
    tables = small_book(plates=[{"name": "Dear", "makes": 1, "per_guest": 1, "price": 20000}],
                        lines=[line("plate", "Dear", "Leek", 100), line("plate", "Dear", "Salt", 1, "mg"),
                               line("plate", "Broth", "Salt", 1, "mg"), line("plate", "Broth", "Dulse", 1)])
    for table, rows in market(Salt=20).items():
      tables[table] += rows
    self.write_book(tables)
    self.assertEqual(self.line_of_card("Dear", "Salt", "OP"), ["0.00", "0.005%"])
    self.assertEqual(self.line_of_card("Broth", "Salt", "OP"), ["0.00", "at most 0.005%"])
    self.assertEqual(self.summary(self.layout.plate_rows["Dear"], "K"), ["0.002%"])

  def test_no_variance_of_a_price_that_there_is_not(self):
    """Dulse has no price: what was paid for it is no variance, of a price or on what was bought."""
    ends = ("2026-09-30", "2026-10-31")
    self.write_book(small_book(
      plates=[{"name": "Cup", "makes": 1, "per_guest": 1, "price": 10}], lines=[line("plate", "Cup", "Dulse", 100)],
      sales=[{"date": "2026-10-06", "kind": "plate", "name": name, "sold": 10} for name in ("Broth", "Cup")],
      counts=[{"date": day, "item": item, "amount": 1, "unit": "kg"} for day in ends for item in ("Leek", "Dulse")],
      purchases=[{"date": "2026-10-05", "ingredient": "Dulse", "amount": 1, "unit": "kg", "net_value": 17}]))
    month = "Theoretical and actual"
    rows = {cell.value: place[1:] for place, cell in self.cells.book[month].items() if place[0] == "A"}
    self.assertEqual(self.cells.row(month, rows["Dulse"], "DEF"), ["?", "?", "incomplete 17.00"])
    # 1 kg of leek should have gone, and none did.
    self.assertEqual(self.cells.row(month, rows["Leek"], "DEF"), ["0.00", "-4.00", "-4.00"])
    used = "Ingredients used"
    rows = {cell.value: place[1:] for place, cell in self.cells.book[used].items() if place[0] == "A"}
    self.assertEqual(self.cells.at(used, "G" + rows["Dulse"]), "?")

  def test_what_cannot_be_converted(self):
    self.write_book(small_book(plates=[{"name": "Cup", "makes": 1, "per_guest": 1, "price": 10}],
                               lines=[line("plate", "Cup", "Leek", 1, "each")]))
    self.assertEqual(self.line_of_card("Cup", "Leek", "DGILOPR"),
                     ["?", "?", "0.004000", "?", "?", "?", "?"])

  def test_labour_without_a_wage(self):
    self.write_book(small_book(
      plates=[{"name": "Cup", "makes": 1, "per_guest": 1, "price": 10, "active_minutes": 5}],
      lines=[line("plate", "Cup", "Leek", 100)]))
    self.assertEqual(self.card("Cup", where.CARD_LINES + 2, "N"), ["?"])
    self.assertEqual(self.summary(self.layout.plate_rows["Cup"], "EF"), ["?", "0.00"])
    self.assertEqual(self.summary(self.layout.plate_rows["Broth"], "EF"), ["0.00", "0.00"])

  def test_a_disposable_without_a_price(self):
    self.write_book(small_book(
      ingredients=[{"name": "Skewer", "unit": "each", "kind": "disposable"}],
      plates=[{"name": "Cup", "makes": 1, "per_guest": 1, "price": 10}],
      lines=[line("plate", "Cup", "Leek", 100), line("plate", "Cup", "Skewer", 1, "each")]))
    self.assertEqual(self.summary(self.layout.plate_rows["Cup"], "EF"), ["0.00", "?"])
    self.assertEqual(self.line_of_card("Cup", "Skewer", "JMR"), ["?"] * 3)

  def test_ways_through_choices(self):
    self.write_book(small_book(
      plates=[{"name": "Cup", "makes": 1, "per_guest": 1}],
      lines=[line("plate", "Cup", item, 200) for item in ("Leek", "Dulse")],
      menus=[{"name": "Tide", "price": 20}],
      menu_plates=[{"menu": "Tide", "plate": name, "choice": "First", "position": place}
                   for place, name in enumerate(("Broth", "Cup"), 1)]))
    row = self.layout.way_rows["Tide"]
    self.assertEqual(self.summary(row, "DK"), ["0.40", "2.0%"])  # a way that takes no dulse
    self.assertEqual(self.summary(row + 1, "DK"), ["at least 0.80", "at least 4.0%"])
    self.assertEqual(self.summary(self.layout.serving_rows["Tide", "Broth", "First"], "DKW"),
                     ["0.20", "1.0%", "at most 33.3%"])


class WhatIsSet(Case):
  """0 is a number, and a dash stands for what is not set."""

  def test_tax_of_the_book(self):
    for tax, says in (("0", "0.0%"), ("10", "10.0%"), ("5.5", "5.5%"), (None, "–")):
      with self.subTest(tax=tax):
        book = [{"key": "tax_pct", "value": tax}] if tax is not None else []
        self.write_book(small_book(book=book, menus=[{"name": "Tide", "price": 20}],
                                   menu_plates=[{"menu": "Tide", "plate": "Broth", "position": 1}]))
        self.assertEqual(self.summary(self.layout.plate_rows["Broth"], "I"), [says])
        self.assertEqual(self.summary(self.layout.menu_rows["Tide"], "I"), [says])
        self.assertEqual(self.card("Broth", 7, "B"), [says])

  def test_own_tax_in_a_book_that_has_one(self):
    tables = small_book(book=[{"key": "tax_pct", "value": 10}],
                        plates=[{"name": "Untaxed", "makes": 1, "per_guest": 1, "price": 10,
                                 "tax_pct": 0}],
                        lines=[line("plate", "Untaxed", "Leek", 100)],
                        menus=[{"name": "Tide", "price": 20, "tax_pct": 0}],
                        menu_plates=[{"menu": "Tide", "plate": "Broth", "position": 1}])
    self.write_book(tables)
    self.assertEqual(self.summary(self.layout.plate_rows["Untaxed"], "HIJ"),
                     ["10.00", "0.0%", "10.00"])
    self.assertEqual(self.summary(self.layout.plate_rows["Broth"], "HIJ"), ["10.00", "10.0%", "9.09"])
    self.assertEqual(self.summary(self.layout.menu_rows["Tide"], "IJ"), ["0.0%", "20.00"])

  def test_a_price_of_0_is_one(self):
    self.write_book(small_book(plates=[{"name": "Gift", "makes": 1, "per_guest": 1, "price": 0},
                                       {"name": "Open", "makes": 1, "per_guest": 1}],
                               lines=[line("plate", "Gift", "Leek", 100),
                                      line("plate", "Open", "Leek", 100)]))
    self.assertEqual(self.summary(self.layout.plate_rows["Gift"], "HJ"), ["0.00", "0.00"])
    self.assertEqual(self.summary(self.layout.plate_rows["Open"], "HJ"), ["–", "–"])


class HowTheHouseSpeaks(Case):
  """costing.md §6: gross profit % = 100 - food-cost %, coefficient = net price / food cost. Of plates of
  leek for 0.4: at 10 net 4 %, 96 % and 25; at 1 net 40 %, 60 % and 2.5; the target is 30 %, 70 % and
  3.33."""

  def write_house(self, speaks):
    plates = [{"name": "Broth", "makes": 1, "per_guest": 1, "price": 10},
              {"name": "Cheap", "makes": 1, "per_guest": 1, "price": 1},
              {"name": "Open", "makes": 1, "per_guest": 1, "price": 10},
              {"name": "Unknown", "makes": 1, "per_guest": 1, "price": 10}]
    tables = small_book(
      book=[{"key": "target_pct", "value": 30}, {"key": "speaks", "value": speaks}],
      lines=[line("plate", "Cheap", "Leek", 100), line("plate", "Open", "Leek", 100),
             line("plate", "Open", "Dulse", 10), line("plate", "Unknown", "Dulse", 10)],
      menus=[{"name": "Garden", "price": 10}],
      menu_plates=[{"menu": "Garden", "plate": "Broth", "position": 1}])
    tables["plates"] = plates
    self.write_book(tables)

  def test_what_is_shown(self):
    for speaks, title, target, shown, below in (
        ("gross-profit", "Gross-profit %", "70.0%",
         {"Broth": "96.0%", "Cheap": "60.0%", "Open": "at most 96.0%", "Unknown": "?"},
         "below target"),
        ("coefficient", "Coefficient: net price ÷ food cost", "3.33",
         {"Broth": "25.00", "Cheap": "2.50", "Open": "at most 25.00", "Unknown": ""},
         "below target"),
        ("food-cost", "Food-cost %", "30.0%",
         {"Broth": "4.0%", "Cheap": "40.0%", "Open": "at least 4.0%", "Unknown": "?"},
         "over target")):
      with self.subTest(speaks=speaks):
        self.write_house(speaks)
        self.assertEqual(self.summary(where.FIRST_PLATE - 1, "K"), [title])
        for plate, says in shown.items():
          self.assertEqual(self.summary(self.layout.plate_rows[plate], "KL"), [says, target], plate)
          self.assertEqual(self.card(plate, 5, "EI"), [title, says], plate)
        self.assertEqual(self.summary(self.layout.menu_rows["Garden"], "KL"), [shown["Broth"], target])
        self.assertEqual(self.summary(self.layout.plate_rows["Cheap"], "O"), [below])
        self.assertEqual(self.card("Cheap", 5, "L"), [below])

  def test_names_are_of_food_cost(self):
    """Links from other files go on to hold a food-cost percentage, and what a plate takes of its menu's
    net price is one."""
    for speaks in ("food-cost", "gross-profit", "coefficient"):
      with self.subTest(speaks=speaks):
        self.write_house(speaks)
        file = self.cells.book
        found = {}
        for name, place in file.names.items():
          if name.startswith("food_cost_pct_"):
            sheet, cell = place.replace("$", "").rsplit("!", 1)
            found[name.split("_")[3]] = file.at(sheet.strip("'"), cell).value
        self.assertAlmostEqual(found["Broth"], 0.04)
        self.assertAlmostEqual(found["Cheap"], 0.4)
        self.assertAlmostEqual(found["Garden"], 0.04)
        column = "K" if speaks == "food-cost" else "X"
        row = self.layout.serving_rows["Garden", "Broth", ""]
        self.assertEqual(self.summary(row, column), ["4.0%"])

  def test_target_is_entered_as_food_cost(self):
    self.write_house("coefficient")
    self.assertEqual(self.summary(6, "AB"), ["Target food cost %", "30.0%"])
    self.assertEqual(self.card("Cheap", 8, "AB"), ["Target food cost %", "30.0%"])
    self.assertEqual(self.card("Cheap", 9, "AB"), ["Target coefficient", "3.33"])


class Digits(Case):
  """As many as the program prints."""

  def printed(self, option, name):
    """What the head of a cost card says: {label: figure}."""
    card = call("cost", self.book, "--on", DAY, option, name)
    found = re.findall(r"(?m)^(Food-cost percentage|Target) {2,}(.*)$", card)
    return {label: text.replace("\u00a0%", "%").replace("? ", "incomplete ") for label, text in found}

  def test_percentages_of_the_demo(self):
    self.write_book(DEMO)
    compared = 0
    for option, rows in (("--plate", self.layout.plate_rows), ("--menu", self.layout.menu_rows)):
      for name, row in rows.items():
        printed = self.printed(option, name)
        if printed:
          compared += 1
          with self.subTest(name=name):
            self.assertEqual(self.summary(row, "KL"), [printed["Food-cost percentage"],
                                                       printed["Target"]])
    self.assertGreater(compared, 10)

  def test_percentages_next_to_their_target(self):
    """Leek for 0.4 a guest: 4.04 % and 4.000004 % are over a target of 4 %, and say so."""
    prices = {"Near": "9.90099", "Nearer": "9.99999", "Met": "10"}
    plates = [{"name": name, "makes": 1, "per_guest": 1, "price": price, "target_pct": 4}
              for name, price in prices.items()]
    menus = [{"name": f"Menu {name}", "price": price, "target_pct": 4}
             for name, price in prices.items()]
    self.write_book(small_book(
      plates=plates, menus=menus, lines=[line("plate", name, "Leek", 100) for name in prices],
      menu_plates=[{"menu": f"Menu {name}", "plate": "Broth", "position": 1} for name in prices]))
    for name, says in (("Near", "4.04%"), ("Nearer", "4.000004%"), ("Met", "4.0%")):
      with self.subTest(name=name):
        self.assertEqual(self.summary(self.layout.plate_rows[name], "KL"), [says, "4.0%"])
        self.assertEqual(self.summary(self.layout.menu_rows[f"Menu {name}"], "KL"), [says, "4.0%"])
        self.assertEqual(self.printed("--plate", name)["Food-cost percentage"], says)

  def test_small_prices_can_be_multiplied_out(self):
    names = {"Skewer": "11.3", "Pick": "1.2", "Tray": "250", "Lid": "1234.5678"}
    self.write_book(small_book(
      ingredients=[{"name": name, "unit": "each", "kind": "disposable"} for name in names],
      offers=[{"ingredient": name, "supplier": "The market", "code": name, "pack_count": 1000,
               "pack_size": 1, "pack_unit": "each"} for name in names],
      prices=[{"ingredient": name, "supplier": "The market", "code": name, "from": "2026-01-01",
               "price": price} for name, price in names.items()]))
    for name, says in (("Skewer", "0.0113"), ("Pick", "0.0012"), ("Tray", "0.25"), ("Lid", "1.23"),
                       ("Leek", "4.00"), ("Dulse", "")):
      with self.subTest(name=name):
        row = self.layout.ingredients[name]
        self.assertEqual(self.cells.at(where.INGREDIENTS, f"H{row}"), says)

  def test_yields_stand_as_they_were_entered(self):
    tables = small_book()
    tables["ingredients"][0]["trim_yield_pct"] = "62.345"
    self.write_book(tables)
    self.assertEqual(self.line_of_card("Broth", "Leek", "E"), ["62.345%"])
    self.assertEqual(self.cells.at(where.INGREDIENTS, f"F{self.layout.ingredients['Leek']}"),
                     "62.345%")


class GivenWithAMenu(Case):
  """costing.md §6: a plate without a price of its own shows what it takes of each menu's net price
  and cost, and has no price that meets a target."""

  def test_no_price_for_a_target(self):
    names = ("Carried", "Alone", "Sold")
    plates = [{"name": name, "makes": 1, "per_guest": 1} for name in names]
    plates[2]["price"] = 10
    self.write_book(small_book(
      book=[{"key": "target_pct", "value": 40}], plates=plates,
      lines=[line("plate", name, "Leek", 100) for name in names], menus=[{"name": "Tide", "price": 20}],
      menu_plates=[{"menu": "Tide", "plate": name, "position": place}
                   for place, name in enumerate(("Carried", "Sold"), 1)]))
    # 0.40 for 40 %.
    for name, says in (("Carried", ""), ("Alone", "1.00"), ("Sold", "1.00")):
      with self.subTest(name=name):
        self.assertEqual(self.summary(self.layout.plate_rows[name], "N"), [says])
        self.assertEqual(self.card(name, 6, "I"), [says])

  def parts_printed(self, plate):
    """What its cost card says: {menu: (part of net price, part of cost)}."""
    card = " ".join(call("cost", self.book, "--on", DAY, "--plate", plate).split("\n"))
    found = re.findall(r"In ([^(),]*)[^()]* \(food cost [^)]*\): (.*?) of its net price, (.*?) of its cost",
                       card)
    return {menu: tuple(part.replace("\u00a0%", "%") for part in parts) for menu, *parts in found}

  def test_parts_of_a_menu(self):
    self.write_book(DEMO)
    compared = 0
    for (menu, plate, _), row in self.layout.serving_rows.items():
      printed = self.parts_printed(plate)[menu]
      compared += 1
      with self.subTest(menu=menu, plate=plate):
        self.assertEqual(tuple(self.summary(row, "KW")),
                         tuple(part.replace("? ", "incomplete ") for part in printed))
    self.assertGreater(compared, 10)

  def test_parts_of_a_choice_are_as_often_as_it_is_taken(self):
    """A third of the guests take leek for 0.40, two thirds for 0.80: a fifth of the cost, and 0.1333
    of 4."""
    names = {"Little": 100, "Much": 200}
    self.write_book(small_book(
      plates=[{"name": name, "makes": 1, "per_guest": 1} for name in names],
      lines=[line("plate", name, "Leek", grams) for name, grams in names.items()],
      menus=[{"name": "Tide", "price": 4}],
      menu_plates=[{"menu": "Tide", "plate": "Little", "choice": "First", "position": 1,
                    "share_pct": "33.333333"},
                   {"menu": "Tide", "plate": "Much", "choice": "First", "position": 2}]))
    self.assertEqual(self.summary(self.layout.serving_rows["Tide", "Little", "First"], "CKW"),
                     ["33.333333%", "3.3%", "20.0%"])
    self.assertEqual(self.parts_printed("Little"), {"Tide": ("3.3%", "20.0%")})
    self.assertEqual(self.summary(self.layout.serving_rows["Tide", "Much", "First"], "CKW"),
                     ["66.666667%", "13.3%", "80.0%"])
    self.assertEqual(self.summary(self.layout.way_rows["Tide"], "W"), [""])


if __name__ == "__main__":
  CLI, DEMO = map(os.path.abspath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

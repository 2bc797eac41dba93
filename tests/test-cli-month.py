#!/usr/bin/env python3
"""croustade-cli month: the accountant's statement.

    test-cli-month.py CROUSTADE-CLI DEMO-FOLDER

Figures of random books are held to exact fractions by the oracle, published examples by test-cli-published.py; here
are a book and the demo's October worked by hand from their tables, and what must not move.
"""

import csv
import html
import json
import os
import pathlib
import re
import sqlite3
import sys
import unittest
import zipfile
from decimal import Decimal

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parent / name) for name in ("support", "workbook")]
import loaded  # noqa: E402
import xlsx  # noqa: E402
from months import DEMO, TABLES, Case, call  # noqa: E402

class Statement(Case):
  def test_of_a_small_book(self):
    self.load()
    got = self.month()
    # Leek: 4/kg. Melted leek: 4 of 500 g, 20 % lost: 0.01/g used. Cream 0.006/ml, egg 0.30.
    # A tart: (2 + 3) / 10 = 0.50. A custard: (2.40 + 1.20) / 4 = 0.90. Tide: 1.40.
    self.assertMoney(got["theoretical_cost"], 18 * 0.5 + 10 * 1.4)
    # Net: tart 10, Tide 20, the refund 5 less.
    self.assertMoney(got["net_sales_costed"], 180 + 200 - 5)
    self.assertMoney(got["net_sales"], 375 + 90)
    self.assertMoney(got["opening_stock"], 4 + 12 + 9)
    # 500 g of leek 2, cream 6, 18 eggs 5.40, 100 g of melted leek of which 20 g will be lost 0.80.
    self.assertMoney(got["closing_stock"], 2 + 6 + 5.4 + 0.8)
    self.assertEqual(got["purchases"]["food"], 24.6)
    self.assertEqual(got["purchases"]["other"], 7)
    self.assertMoney(got["adjustments"]["staff-meal"], 0.6)
    self.assertMoney(got["adjustments"]["waste"], 0.6)
    self.assertEqual(got["adjustments"]["transfer-in"], 3)
    self.assertMoney(got["actual_cost"], 25 + 24.6 + 3 - 14.2 - 0.6)
    self.assertMoney(got["over"], got["actual_cost"] - 23)
    self.assertEqual((got["missing"], got["recipes_on"], got["state"]), ([], "2025-10-31", "open"))
    leek = next(row for row in got["ingredients"] if row["name"] == "Leek")
    # 28 tarts of 20 g of melted leek, each of 2.5 g of leek; 80 g of it in stock hold 200 g of leek.
    self.assertMoney(leek["theoretical_quantity"], 28 * 20 * 2.5)
    self.assertMoney(leek["actual_quantity"], 1000 + 3000 - 500 - 200)
    # What the staff ate is not what plates used; what was wasted is.
    egg, cream = (next(row for row in got["ingredients"] if row["name"] == name) for name in ("Egg", "Cream"))
    self.assertMoney(egg["actual_quantity"], 30 - 18 - 2)
    self.assertMoney(egg["actual_cost"], 9 - 5.4 - 0.6)
    self.assertMoney(cream["actual_quantity"], 2000 + 2000 - 1000)
    self.assertEqual(call("month", self.book, "2025-10").returncode, 0)

  def test_weighted_average_is_a_control(self):
    """Periodic weighted average: OpenStax, Principles of Accounting 1, chapter 10 (from memory): 150 at 21,
    225 at 27 and 210 at 33 are 27.62 each."""
    self.load(
      ingredients="name,unit\nEgg,each\nCream,ml\nLeek,g\n",
      prices="ingredient,supplier,from,price\nLeek,The market,2025-01-01,4\n"
             "Cream,The market,2025-01-01,6\nEgg,The market,2025-01-01,630\nEgg,The market,2025-10-31,990\n",
      counts="date,item,amount,unit\n2025-09-30,Egg,150,each\n2025-10-31,Egg,120,each\n",
      purchases="date,ingredient,amount,unit,net_value\n2025-10-02,Egg,225,each,6075\n"
                "2025-10-09,Egg,210,each,6930\n", adjustments="date,kind\n", months="month\n")
    got = self.month()
    egg = next(row for row in got["ingredients"] if row["name"] == "Egg")
    self.assertEqual(round(egg["weighted_average"], 2), 27.62)
    self.assertEqual((egg["counted_quantity"], egg["counted_value"]), (120, 120 * 33))
    self.assertMoney(got["stock_control"]["at_weighted_average"], 120 * 16155 / 585)
    self.assertIn("3960.00 at the cost of the count, 3313.85 at weighted average cost",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))

  def test_what_was_not_known_at_closing_stays_a_bound(self):
    """A count without a value adds to the stock of the month after it, whether that before it is closed or not."""
    self.load(ingredients=TABLES["ingredients"] + "Saffron,,g\n",
              counts=TABLES["counts"] + "2025-09-30,Saffron,3,g\n2025-10-31,Saffron,2,g\n",
              purchases=TABLES["purchases"] + "2025-10-05,The market,3,Saffron,food,5,g,40\n")
    said = []
    for month in ("2025-09", "2025-10", None):
      text = " ".join(call("month", self.book, "2025-10").stdout.split())
      said.append(re.search(r"Control: .*?average cost", text)[0])
      if month is not None:
        self.assertEqual(call("close", self.book, month).returncode, 1, "incomplete, and closed")
    self.assertRegex(said[0], r"are worth at least [0-9.]+ at the cost of the count, at least [0-9.]+ at")
    self.assertEqual(said, said[:1] * 3)

  def test_a_difference_to_the_ledger_tells_of_the_estimate(self):
    self.load(months="month,ledger_purchases,late_estimate\n2025-10,31.6,150\n")
    self.assertIn("+150.00 difference, of which the estimate 150.00",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))
    # What an estimate explains is no question; other differences come first of all.
    self.assertFalse([q for q in self.month()["questions"] if q["about"] == "ledger"])
    self.load(self.path("apart.croustade"), months="month,till_net_revenue,ledger_purchases\n2025-10,1000,30\n")
    asked = self.month(book=self.path("apart.croustade"))["questions"]
    sales = self.month(book=self.path("apart.croustade"))["net_sales"]
    self.assertEqual([(q["about"], q["what"]) for q in asked[:2]],
                     [("till", f"net sales differ by {sales - 1000:.2f}"), ("ledger", "purchases differ by 1.60")])

  def test_what_ingredients_tell_of_leads_to_the_difference(self):
    self.load()
    over = self.month()["over"]
    text = call("month", self.book, "2025-10").stdout
    rest, all_of_it = (float(re.search(name + r".*?(−?\d+\.\d\d)$", text, re.MULTILINE).group(1).replace("−", "-"))
                       for name in ("without an ingredient, an amount or a count", "Actual less theoretical"))
    total = re.search(r"(?m)^Total .*?(−?\d+\.\d\d)$", text[text.index("Where it went"):]).group(1)
    self.assertAlmostEqual(all_of_it, round(over, 2), places=6)
    self.assertAlmostEqual(float(total.replace("−", "-")) + rest, all_of_it, places=6)

  def test_what_no_plate_takes_was_used_too(self):
    """Truffle is on no plate: what was bought and is gone is usage. Saffron is on one and has no price: neither of
    its variances is shown, and none of them is in the sum below."""
    none = "".join(f"2025-{day},{name},0,g\n" for day in ("09-30", "10-31") for name in ("Truffle", "Saffron"))
    self.load(ingredients=TABLES["ingredients"] + "Truffle,Dry goods,g\nSaffron,Dry goods,g\n",
              lines=TABLES["lines"] + "plate,Custard,3,Saffron,1,g\n", counts=TABLES["counts"] + none,
              purchases=TABLES["purchases"] + "2025-10-05,,,Truffle,food,200,g,210\n2025-10-05,,,Saffron,food,3,g,40\n")
    text = call("month", self.book, "2025-10").stdout
    went = [re.split(" {2,}", line) for line in text[text.index("Where it went"):].splitlines()[1:7]]
    self.assertEqual(went[0], ["Truffle", "0.00", "210.00", "210.00"])
    self.assertIn(["Saffron", "?", "?", "≤ 40.00"], went)
    rows = [[Decimal(re.sub("[?≥≤] ?", "", cell).replace("−", "-") or "0") for cell in row[1:]] for row in went]
    self.assertEqual(went[-1][0], "Total")
    self.assertEqual([sum(column) for column in zip(*rows[:-1])], rows[-1])

  def test_without_a_count_there_is_no_actual_cost(self):
    self.load(counts="date,item,amount,unit\n2025-10-31,Leek,1,kg\n")
    got = self.month()
    self.assertEqual((got["opening_stock"], got["actual_cost"], got["over"]), (None, None, None))
    done = call("month", self.book, "2025-10")
    self.assertEqual(done.returncode, 1)
    self.assertIn("not known yet", done.stdout)
    self.assertIn("entered at its beginning", done.stderr)
    self.assertNotIn("entered at its end", done.stderr)

  def test_a_year_in_one_call(self):
    self.load()
    done = call("month", self.book, "2025", "--json")
    self.assertEqual([row["month"] for row in json.loads(done.stdout)], ["2025-09", "2025-10"])
    self.assertIn("2025-09 is incomplete", done.stderr)

  def test_in_every_locale(self):
    self.load()
    lines = [call("month", self.book, "2025-10", "--json", LC_ALL=locale).stdout
             for locale in ("C", "C.UTF-8", "fr_FR.UTF-8")]
    self.assertEqual(lines[0], lines[1])
    self.assertEqual(lines[0], lines[2])
    self.assertIn("375.00", call("month", self.book, "2025-10", LC_ALL="C").stdout)

  def test_refusals(self):
    self.load()
    for arguments in (["2025-13"], ["9998-01"], ["October"], ["2025-10", "--against", "2025-09"],
                      ["2025", "--against", "2025-09"], ["2025-10", "--against", "2025-10"]):
      done = call("month", self.book, *arguments)
      self.assertEqual((done.returncode, done.stdout), (2, ""), arguments)
      self.assertTrue(done.stderr.strip())


class Demo(Case):
  """By hand from the tables of the demo."""

  def test_october(self):
    loaded.load(call, self.book, DEMO)
    done = call("month", self.book, "2026-10", "--json")
    got = json.loads(done.stdout)
    shown = {"net_sales": 45919.09, "opening_stock": 2267.11, "closing_stock": 1917.86,
             "theoretical_cost": 13182.18, "over": 367.51}
    self.assertEqual({name: round(got[name], 2) for name in shown}, shown)
    self.assertAlmostEqual(got["actual_cost"], 13549.69, delta=0.01)
    self.assertEqual(got["purchases"]["food"], 13450.38)
    self.assertEqual(round(got["adjustments"]["waste"], 2), 13.94)
    self.assertEqual(got["missing"], ["price Sea purslane"])
    self.assertEqual(done.returncode, 1)
    self.assertIn("Sea purslane", done.stderr)

  def test_printed_lines_add_up(self):
    loaded.load(call, self.book, DEMO)
    text = call("month", self.book, "2026-10").stdout
    line = {name: float(money.replace("−", "-")) for name, money in re.findall(
      r"(?m)^(\w[^−≥≤\d\n]*?(?:\d{4}-\d\d-\d\d)?) +[≥≤]? ?(−?\d+\.\d\d)(?: |$)", text)}
    used = line["Stock on 2026-09-30"] + line["Food bought"] + line["Stock on 2026-10-31"]
    self.assertAlmostEqual(used, line["Food used"], places=6)
    actual = used + line["transferred in"] + line["transferred out"] + line["staff meals"]
    self.assertAlmostEqual(actual, line["Actual food cost"], places=6)
    self.assertAlmostEqual(actual - line["Theoretical food cost"], line["Over"], places=6)
    self.assertEqual(line["Actual food cost"], 13549.69)


  def test_a_year_has_its_total(self):
    """November runs: it has no actual cost yet, and what the other months came to stands beside all of them."""
    loaded.load(call, self.book, DEMO)
    told = call("month", self.book, "2026")
    # In July nothing but the stock of its last day was counted: it has no statement, and lacks nothing.
    self.assertNotIn("July 2026, open", told.stdout)
    self.assertNotIn("2026-07", told.stderr)
    months, total = told.stdout.split("\n\n")[-2:]
    of_months, of_total = ([[Decimal(money) for money in re.findall(r"(?<![\d.])\d+\.\d\d(?!\d)", line)]
                            for line in block.splitlines()] for block in (months, total))
    of_months, (everything, counted) = [row for row in of_months if row], [row for row in of_total if row]
    self.assertEqual(sorted(map(len, of_months)), [2, 4, 4, 4])
    self.assertEqual(everything, [sum(row[column] for row in of_months) for column in (0, 1)])
    self.assertEqual(counted, [sum(row[column] for row in of_months if len(row) == 4) for column in range(4)])
    self.assertEqual(counted[2] - counted[1], counted[3])

  def test_a_row_is_rounded_once(self):
    """Tables, the year's and the workbook's rows are the same to the cent, and add up."""
    loaded.load(call, self.book, DEMO)
    text, path = call("month", self.book, "2026-10").stdout, self.path("month.xlsx")
    call("workbook", self.book, "--month", "2026-10", "-o", path)
    book, money = xlsx.Book(path), r"[≥≤]? ?(−?\d+\.\d\d)"
    # What by-products at a value take off is named, with its figure, and is nothing without an ingredient.
    for of in json.loads(call("month", self.book, "2026-10", "--json").stdout)["by_products"]:
      told = re.findall(rf"(?m)^by-product: {of['name']} +{money}$", text)
      self.assertEqual([Decimal(one.replace("−", "-")) for one in told],
                       [-round(Decimal(of["cost"]), 2), round(Decimal(of["cost"]), 2)])
      self.assertEqual(Spreadsheet.rows(book, "Theoretical and actual", "C")[f"by-product: {of['name']}"],
                       [round(float(of["cost"]), 2)])
    # Nor is what they take off what was counted.
    self.assertRegex(text, r"by-products in stock; without an ingredient or count +\? ")

    def printed(title, columns):
      block = next(block for block in text.split("\n\n") if block.startswith(title))
      found = {name: [float(cell.replace("−", "-")) for cell in cells] for name, *cells in
               re.findall(rf"(?m)^(\S.*?) +{' +'.join(columns)}$", block)}
      self.assertGreater(len(found), 5, block)
      return found

    self.assertIn(text[text.index("Where it went"):], call("month", self.book, "2026").stdout)
    sold = Spreadsheet.rows(book, "Sold", "EF")
    for name, got in printed("Plates and menus", [r"[\d.]+", money, money]).items():
      self.assertEqual(got, sold[name], name)
    measured = Spreadsheet.rows(book, "Theoretical and actual", "DEF")
    for name, got in printed("Where it went", [money, money, money]).items():
      if name != "others":
        self.assertEqual(got, measured[name], name)
    used = Spreadsheet.rows(book, "Ingredients used", "E")
    for name, got in Spreadsheet.rows(book, "Theoretical and actual", "C").items():
      if name in used and name != "Total":
        self.assertEqual(got, used[name], name)
    groups = Spreadsheet.rows(book, "By category", "B")
    got = printed("Categories", [money, money])
    for name in set(got) & set(groups) - {"Total"}:
      self.assertEqual(got[name][0], groups[name][0], name)
    self.assertAlmostEqual(sum(got[name][0] for name in set(got) & set(groups) - {"Total"}), got["Total"][0])


class Spreadsheet(Case):
  """The month's sheets before the model. Their formulas are recomputed in workbook/recompute.py."""

  def workbook(self, *arguments, month="2025-10", status=0, **environment):
    path = self.path(f"{len(os.listdir(self.folder.name))}.xlsx")
    done = call("workbook", self.book, "--month", month, "-o", path, *arguments, **environment)
    self.assertEqual(done.returncode, status, done.stderr)
    return path

  @staticmethod
  def rows(book, sheet, columns):
    """What stands beside each text of column A, the first of equal ones."""
    found = {}
    for row in range(1, 400):
      name = book.at(sheet, f"A{row}").value
      if isinstance(name, str) and name:
        found.setdefault(name, [book.at(sheet, f"{column}{row}").value for column in columns])
    return found

  def test_says_what_the_statement_says(self):
    self.load()
    got, book = self.month(), xlsx.Book(self.workbook())
    rows = self.rows(book, "Statement", "B")
    for name, key in (("Net sales", "net_sales"), ("of plates and menus", "net_sales_costed"),
                      ("Stock on 2025-09-30", "opening_stock"), ("Actual food cost", "actual_cost"),
                      ("Theoretical food cost", "theoretical_cost"), ("Actual less theoretical", "over")):
      self.assertAlmostEqual(rows[name][0], round(got[key], 2), delta=0.011, msg=name)
    self.assertEqual(rows["Stock on 2025-10-31"], [-14.2])
    self.assertEqual(rows["known waste explains"], [0.6])
    self.assertEqual(rows["without a plate"], [90])
    for sheet, column, total in (("Sold", "E", 465), ("Sold", "F", 23), ("Ingredients used", "E", 23),
                                 ("Purchases", "J", 31.6), ("Stock counts", "E", 14.2)):
      self.assertAlmostEqual(self.rows(book, sheet, column)["Total"][0], total, places=9, msg=sheet)
      top = [book.at(sheet, f"{column}{row}") for row in range(5, 40)]
      values = [cell.value for cell in top if cell.formula is None and cell.value is not None]
      self.assertAlmostEqual(sum(values), total, places=9, msg=f"{sheet}: parts")
    self.assertEqual({row: (book.at("Control totals", f"E{row}").value, book.at("Control totals", f"F{row}").value)
                      for row in range(15, 22)}, dict.fromkeys(range(15, 22), ("agrees", 0)))

  def test_a_closed_month_is_the_same_file_for_ever(self):
    self.load()
    opened = self.workbook()
    self.assertEqual(call("close", self.book, "2025-10").returncode, 0)
    before = self.workbook()
    self.assertEqual(xlsx.Book(opened).parts.keys(), xlsx.Book(before).parts.keys())
    with open(before, "rb") as file:
      written = file.read()
    self.add(prices="ingredient,supplier,from,price\nLeek,The market,2025-10-01,40\n",
             lines="into,parent,position,item,amount,unit\nplate,Leek tart,2,Cream,900,ml\n",
             plates="name,course,makes,price\nLeek tart,Main,3,99\nSoup,Starter,1,4\n",
             ingredients="name,category,unit\nCream,Other,ml\n", book="key,value\nname,Other Rooms\ncurrency,JPY\n",
             purchases="date,net_value\n2025-10-09,500\n")
    for locale in ("C", "C.UTF-8", "fr_FR.UTF-8", "de_DE.UTF-8"):
      with open(self.workbook(LC_ALL=locale), "rb") as file:
        self.assertEqual(file.read(), written, locale)
    # A book that came with the month closed knows it as it came.
    out = self.path("out")
    call("dump", self.book, out)
    self.book = self.path("again.croustade")
    self.assertEqual(call("load", self.book, out).returncode, 0)
    with open(self.workbook(), "rb") as file:
      loaded = file.read()
    self.add(book="key,value\nname,Third Rooms\n")
    with open(self.workbook(), "rb") as file:
      self.assertEqual(file.read(), loaded)

  @staticmethod
  def shown(path, book, sheet, place):
    """How a number is written: the words before it in its format."""
    with zipfile.ZipFile(path) as package:
      styles = package.read("xl/styles.xml").decode()
    formats = dict(re.findall(r'<numFmt numFmtId="([0-9]+)" formatCode="([^"]*)"', styles))
    used = re.findall(r'<xf numFmtId="([0-9]+)"', styles.split("<cellXfs")[1])
    text = html.unescape(formats.get(used[book.at(sheet, place).style], ""))
    return next((words for words in ("at least", "at most") if words in text), "?" if '"?"' in text else "")

  def test_each_part_says_how_much_of_it_is_known(self):
    """Cream has no price: what takes it costs at least its sum and leaves at most that; its sales are whole."""
    self.load(prices="ingredient,supplier,from,price\nLeek,The market,2025-01-01,4\nEgg,The market,2025-01-01,9\n")
    text = call("month", self.book, "2025-10").stdout
    self.assertRegex(text, r"(?m)^Leek tart +18 +\S+ +≥ ")
    self.assertRegex(text, r"(?m)^menus +10 +\S+ +≥ ")
    path = self.workbook(status=1)
    book = xlsx.Book(path)
    rows = {book.at("By category", f"A{row}").value: row for row in range(1, 40)}
    for name in ("menus", "Starter", "Total"):
      marks = [self.shown(path, book, "By category", f"{column}{rows[name]}") for column in "BCD"]
      self.assertEqual(marks, ["", "at least", "at most"], name)
    rows = {book.at("Ingredients used", f"A{row}").value: row for row in range(5, 9)}
    for name, mark in (("Leek", ""), ("Cream", "?")):
      self.assertEqual(self.shown(path, book, "Ingredients used", f"E{rows[name]}"), mark, name)

  def test_only_what_the_month_lacks_is_incomplete(self):
    """What no sale and no stock leads to is no part of it."""
    self.load(plates=TABLES["plates"] + "Soup,Starter,1,4\n")
    self.workbook()
    self.load(self.path("open.croustade"), counts="date,item,amount,unit\n")
    self.book = self.path("open.croustade")
    self.workbook(status=1)

  def test_the_journal(self):
    self.load()
    accounts = self.path("accounts.csv")
    with open(accounts, "w", encoding="utf-8") as file:
      file.write("credit,entry,debit\n6031,opening-stock,6037\n6471,STAFF-MEAL,641\n")
    done = call("month", self.book, "2025-10", "--journal", "-", "--accounts", accounts, LC_ALL="fr_FR.UTF-8")
    self.assertEqual(done.returncode, 0, done.stderr)
    rows = list(csv.DictReader(done.stdout.splitlines()))
    self.assertEqual(list(rows[0]), ["date", "entry", "account", "text", "debit", "credit", "known"])
    sides = [sum(Decimal(row[side] or 0) for row in rows) for side in ("debit", "credit")]
    self.assertEqual(sides, [Decimal("25.00") + Decimal("14.20") + 3 + Decimal("0.60")] * 2)
    self.assertEqual([(row["entry"], row["account"], row["debit"], row["credit"]) for row in rows if row["account"]],
                     [("opening-stock", "6037", "25.00", ""), ("opening-stock", "6031", "", "25.00"),
                      ("staff-meal", "641", "0.60", ""), ("staff-meal", "6471", "", "0.60")])
    book = xlsx.Book(self.workbook("--accounts", accounts))
    self.assertEqual([book.at("Journal", f"B{row}").value for row in (5, 6, 7)], ["6037", "6031", None])
    total = 5 + len(rows)
    self.assertEqual([book.at("Journal", f"{column}{total}").value for column in "EF"], [42.8, 42.8])
    head = "entry,debit,credit\n"
    for text, row in (("entry,debit\nopening-stock,1\n", 1), (head + "stock,1,2\n", 2),
                      (head + "other,1,2\n\nOther,1,2\n", 4), ("", None), (head, 1), (head + "other,1,2,3\n", 2),
                      (head + "other,1,\n", 2), (head + "other,1\n", 2), (head + ",1,2\n", 2),
                      (head + "other,1\x1b[31m,2\n", 2), (head + "other,1,\u202e2\n", 2),
                      (head + 'other,1,"2\n3"\n', 2), (head + 'other,1,"2\npromotion,3,4\n', 2),
                      (head + "other,1,%s\n" % ("é" * 65), 2), (head + "promotion,1,%s\nother,=1,2\n" % ("é" * 64), 3),
                      (head + "other,+1,2\n", 2), (head + "other,1,-2\n", 2), (head + "other,1,@2\n", 2)):
      with open(accounts, "w", encoding="utf-8") as file:
        file.write(text)
      for command in (("month", self.book, "2025-10", "--journal", "-"),
                      ("workbook", self.book, "--month", "2025-10", "-o", self.path("no.xlsx"))):
        done = call(*command, "--accounts", accounts)
        self.assertEqual((done.returncode, done.stdout), (2, ""), text)
        self.assertIn("accounts.csv:%d: " % row if row else "accounts.csv", done.stderr)
    self.assertFalse(os.path.exists(self.path("no.xlsx")))
    with open(accounts, "w", encoding="utf-8") as file:
      file.write(head + "other,1,2\n")
    link = self.path("link.csv")
    os.symlink(accounts, link)
    for path in (accounts, link, os.path.join(os.path.dirname(accounts), ".", "accounts.csv")):
      for command in (("month", self.book, "2025-10", "--journal"),
                      ("workbook", self.book, "--month", "2025-10", "-o")):
        done = call(*command, path, "--accounts", accounts)
        self.assertEqual((done.returncode, done.stdout), (2, ""), path)
        self.assertIn("the table of accounts itself", done.stderr)
    with open(accounts, encoding="utf-8") as file:
      self.assertEqual(file.read(), head + "other,1,2\n")

  def test_a_journal_without_a_count_says_so(self):
    """What is not known of one day's stock is no 0 beside the other's."""
    for counts, untold, told, known in (("2025-09-30,Egg,30,each\n", "closing", "opening", ""),
                                        ("2025-10-31,Egg,30,each\n", "opening", "closing", "at-least")):
      self.book = self.path(untold + ".croustade")
      self.load(self.book, counts="date,item,amount,unit\n" + counts)
      done = call("month", self.book, "2025-10", "--journal", "-")
      self.assertEqual(done.returncode, 1, done.stderr)
      rows = [row for row in csv.DictReader(done.stdout.splitlines()) if row["entry"].endswith("stock")]
      self.assertEqual([(row["entry"], row["debit"] or row["credit"], row["known"]) for row in rows],
                       sorted([(told + "-stock", "9.00", known)] * 2 + [(untold + "-stock", "", "nothing")] * 2,
                              reverse=True))
      self.assertIn(", neither counted nor entered: ", next(row["text"] for row in rows if row["known"]))
      path = self.workbook(status=1)
      book = xlsx.Book(path)
      at = {book.at("Journal", f"C{row}").value: row for row in range(5, 9)}
      row = at[untold.capitalize() + " stock, neither counted nor entered"]
      self.assertEqual([self.shown(path, book, "Journal", f"{column}{row - 1}") for column in "EF"], ["?", ""])

  def test_no_page_is_printed_below_8_points(self):
    """Of 11 points, as the standard font has; columns as wide as where a wider font stands for it."""
    loaded.load(call, self.book, DEMO)
    path = self.workbook(month="2026-10", status=1)
    areas = {}
    with zipfile.ZipFile(path) as package:
      for index, area in re.findall(r'Print_Area" localSheetId="([0-9]+)">[^<]*\$([A-Z])\$[0-9]+<',
                                    package.read("xl/workbook.xml").decode()):
        areas[int(index)] = ord(area) - ord("A") + 1
      names = list(xlsx.Book(path).parts)
      for index, name in enumerate(names):
        text = package.read(f"xl/worksheets/sheet{index + 1}.xml").decode()
        setup = re.search("<pageSetup[^>]*>", text).group()
        widths = [9 * float(width) for column, width, rest in
                  re.findall(r'<col min="([0-9]+)" max="[0-9]+" width="([0-9.]+)"([^>]*)/>', text)
                  if int(column) <= areas.get(index, 26) and "hidden" not in rest]
        scale = re.search('scale="([0-9]+)"', setup)
        if scale:
          self.assertGreaterEqual(int(scale.group(1)) * 11, 800, name)
          breaks = [int(column) for column in re.findall('<brk id="([0-9]+)"', text)]
          ends = list(zip([0, *breaks], [*breaks, len(widths)]))
          self.assertTrue(all(widths[0] * (start > 0) + sum(widths[start:end]) < 1290 for start, end in ends), name)
        else:
          self.assertLess(sum(widths), 1290 if "landscape" in setup else 900, name)
        if name in ("Stock counts", "By category"):
          self.assertNotIn("landscape", setup, name)
      for name in ("Preparations", "Ingredients", "Prices", "Units"):
        self.assertRegex(package.read("xl/workbook.xml").decode(),
                         rf'localSheetId="{names.index(name)}">[^<]*\$A\$1:\$[A-Z]\$3<', name)

  def test_in_french(self):
    self.load()
    book = xlsx.Book(self.workbook("--language", "fr"))
    self.assertEqual(len(book.parts), len(xlsx.Book(self.workbook()).parts))


class AsItStood(Case):
  def test_a_price_of_later_does_not_move_it(self):
    self.load()
    before = self.month()
    self.add(selling_prices="name,from,price\nTide,2025-11-05,44\nLeek tart,2025-11-05,30\n",
             prices="ingredient,supplier,from,price\nLeek,The market,2025-11-01,8\n")
    self.assertEqual(self.month(), before)
    self.add(prices="ingredient,supplier,from,price\nLeek,The market,2025-10-10,8\n")
    self.assertNotEqual(self.month()["closing_stock"], before["closing_stock"])

  def test_a_recipe_of_later_does_not_move_it(self):
    self.load()
    self.backdate("2025-09-01")
    before = self.month()
    self.assertEqual(before["questions"], [])
    self.add(lines="into,parent,position,item,amount,unit\nplate,Leek tart,2,Cream,900,ml\n",
             plates="name,makes,price\nLeek tart,5,99\n", outputs="item,preparation,role,lost_pct\n"
             "Melted leek,Melted leek,main,50\n")
    self.assertEqual(self.month(), before)
    # A correction can: it asks for the recipes of a later day.
    with sqlite3.connect(self.book) as book:
      day = book.execute("SELECT max (day) FROM act").fetchone()[0]
    book.close()
    self.add(months=f"month,recipes_on\n2025-10,{day}\n")
    self.assertGreater(self.month()["theoretical_cost"], before["theoretical_cost"] + 1)

  def test_what_was_taken_back_never_was(self):
    self.load()
    self.backdate("2025-09-01")
    before = self.month()
    self.add(lines="into,parent,position,item,amount,unit\nplate,Leek tart,2,Cream,900,ml\n")
    self.backdate("2025-10-15", 2)
    self.assertNotEqual(self.month(), before)
    self.assertEqual(call("undo", self.book).returncode, 0)
    self.assertEqual(self.month(), before)

  def test_a_plate_of_later_counts_as_it_first_stood(self):
    self.load()
    self.backdate("2025-09-01")
    self.add(plates="name,makes,price\nSoup,1,5.5\n",
             lines="into,parent,position,item,amount,unit\nplate,Soup,1,Leek,500,g\n",
             sales="date,kind,name,sold\n2025-10-30,plate,Soup,1\n")
    self.backdate("2025-11-03", 2)
    self.add(lines="into,parent,position,item,amount,unit\nplate,Soup,1,Leek,900,g\n")
    got = self.month()
    soup = next(thing for thing in got["things"] if thing["name"] == "Soup")
    self.assertMoney(soup["theoretical_cost"], 2)
    self.assertIn(("Soup", "costed as it first stood, on 2025-11-03"),
                  [(row["about"], row["what"]) for row in got["questions"]])

  def test_what_is_gone_keeps_its_prices(self):
    self.load()
    self.backdate("2025-09-01")
    before = self.month()
    folder = self.tables("changed", {
      **TABLES, "ingredients": TABLES["ingredients"].replace("Leek", "Onion"),
      "offers": TABLES["offers"].replace("Leek", "Onion"),
      "prices": TABLES["prices"].replace("Leek", "Onion"),
      "lines": TABLES["lines"].replace(",Leek,1,kg", ",Onion,1,kg"),
      "counts": TABLES["counts"].replace("Leek,1,kg", "Onion,1,kg").replace("31,Leek", "31,Onion"),
      "purchases": TABLES["purchases"].replace(",Leek,", ",Onion,")})
    self.assertEqual(call("load", self.book, folder, "--replace").returncode, 0)
    self.assertMoney(self.month()["theoretical_cost"], before["theoretical_cost"])


class Questions(Case):
  def asked(self, **changes):
    self.load(**changes)
    self.backdate("2025-09-01")
    return {(row["about"], row["what"]): row["explains"] for row in self.month()["questions"]}

  def test_what_was_not_counted(self):
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l\n", "")
    # All that was there and bought: 12 and 12.60.
    self.assertEqual(self.asked(counts=counts), {("Cream", "not counted on 2025-10-31"): 24.6})
    done = call("month", self.book, "2025-10")
    self.assertEqual(done.returncode, 1)
    self.assertIn("Actual food cost", done.stdout)
    self.assertRegex(done.stdout, "Over +≤")
    # Of what was counted as none, and neither bought nor brought in, none is there.
    self.book = self.path("none.croustade")
    counts = counts.replace("2025-09-30,Egg,30", "2025-09-30,Egg,0").replace("2025-10-31,Egg,18,each\n", "")
    self.assertEqual(self.asked(counts=counts), {("Cream", "not counted on 2025-10-31"): 24.6})

  def test_what_was_transferred_in_and_not_counted(self):
    """As what was bought: 1 l of cream for 5.00, eggs at 0.30, and saffron at its own 40, which nobody bought."""
    counts = TABLES["counts"].replace("2025-09-30,Egg,30", "2025-09-30,Egg,0")
    for row in ("2025-10-31,Cream,1,l\n", "2025-10-31,Egg,18,each\n"):
      counts = counts.replace(row, "")
    came = ("2025-10-15,transfer-in,Saffron,5,g,40,\n2025-10-15,transfer-in,Egg,10,each,,\n"
            "2025-10-15,transfer-in,Cream,1,l,5,\n")
    asks = {"Cream": 29.6, "Egg": 3, "Saffron": 40}
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n", counts=counts,
                       adjustments=TABLES["adjustments"] + came)
    self.assertEqual(asked, {(name, "not counted on 2025-10-31"): money for name, money in asks.items()})
    self.assertRegex(call("month", self.book, "2025-10").stdout, r"(?s)Actual food cost +≤.*Over +≤")
    for closed in (False, True):
      if closed:
        self.assertEqual(call("close", self.book, "2025-10").returncode, 1)
      # Nothing else is counted in November.
      self.assertEqual({row["about"]: row["explains"] for row in self.month("2025-11")["questions"]},
                       {name: -money for name, money in asks.items()})

  def test_what_was_not_counted_is_not_known_where_it_opens(self):
    """The month after it may have used it: its stock opens with at least what was counted, as its closing said."""
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l\n", "")
    counts += "2025-11-30,Leek,100,g\n2025-11-30,Cream,1,l\n2025-11-30,Egg,1,each\n2025-11-30,Melted leek,0,g\n"
    sales = TABLES["sales"] + "2025-11-03,plate,Leek tart,2,\n"
    self.load(counts=counts, sales=sales)
    self.backdate("2025-09-01")
    for status in (None, 1):
      if status is not None:
        self.assertEqual(call("close", self.book, "2025-10").returncode, status)
      done, month = call("month", self.book, "2025-11"), self.month("2025-11")
      self.assertEqual({(row["about"], row["what"]): row["explains"] for row in month["questions"]},
                       {("Cream", "not counted on 2025-10-31"): -24.6})
      self.assertEqual(done.returncode, 1)
      self.assertRegex(done.stdout, r"(?s)Stock on 2025-10-31 +≥.*Actual food cost +≥.*Over +≥")
      self.assertIn("“Cream” was not counted at its beginning", done.stderr)
      cream = next(row for row in month["ingredients"] if row["name"] == "Cream")
      self.assertEqual((cream["actual_known"], cream["weighted_average"]), ("at-least", None))
    # What is counted, of which none was there, is known.
    self.load(self.path("none.croustade"), counts=counts + "2025-10-31,Cream,0,l\n", sales=sales)
    self.assertRegex(call("month", self.path("none.croustade"), "2025-11").stdout, r"Actual food cost +\d")

  def known(self, month, *names):
    """Of a month how much is known of its figures of those names, and of that of an ingredient: "Leek"."""
    rows = {row["name"]: row["actual_known"] for row in month["ingredients"]}
    return [rows[name] if name in rows else month[f"{name}_known"] for name in names]

  def test_what_is_forgotten_twice_is_not_known_where_it_is_counted_again(self):
    """Eggs, 30 at 0.30 on 30 September, are counted at no end of October and November: what may be there at both ends
    of November, in which none came, is used there or it is not. What opens December may be all of them."""
    counts = TABLES["counts"].replace("2025-10-31,Egg,18,each\n", "") + "".join(
      f"{day},Leek,100,g\n{day},Cream,1,l\n{day},Melted leek,0,g\n" for day in ("2025-11-30", "2025-12-31"))
    purchases = TABLES["purchases"] + "2025-12-02,The market,4,Egg,food,30,each,9\n"
    self.load(counts=counts + "2025-12-31,Egg,18,each\n", purchases=purchases,
              sales=TABLES["sales"] + "2025-11-03,plate,Leek tart,2,\n2025-12-03,plate,Custard,2,\n")
    self.backdate("2025-09-01")
    figures = ("opening_stock", "closing_stock", "actual", "over")
    for closed in (None, "2025-10", "2025-11"):
      if closed:
        self.assertEqual(call("close", self.book, closed).returncode, 1)
      november, december = self.month("2025-11"), self.month("2025-12")
      asked = [[(row["about"], row["what"], row["explains"]) for row in month["questions"]]
               for month in (november, december)]
      self.assertEqual(asked, [[("Egg", "not counted on 2025-10-31", -9), ("Egg", "not counted on 2025-11-30", 9)],
                               [("Egg", "not counted on 2025-11-30", -9)]], closed)
      self.assertEqual(self.known(november, *figures), ["at-least", "at-least", "at-least", "at-least"])
      self.assertEqual(self.known(december, *figures, "Egg"), ["at-least", "whole", "at-least", "at-least", "at-least"])
      self.assertRegex(call("month", self.book, "2025-11").stdout, r"Food used +≥")
      egg = next(row for row in december["ingredients"] if row["name"] == "Egg")
      self.assertEqual((egg["counted_known"], egg["weighted_average"]), ("whole", None))
    # A stock that nobody counted in between hides nothing.
    self.book = self.path("between.croustade")
    self.load(counts="".join(row for row in (counts + "2025-12-31,Egg,18,each\n").splitlines(True)
                             if not row.startswith("2025-10-31")),
              purchases=purchases + "2025-10-05,The market,5,Egg,other,6,each,1.8\n",
              adjustments=TABLES["adjustments"] + "2025-09-30,transfer-in,Egg,100,each,,\n")
    def of_egg():
      return [row["explains"] for row in self.month("2025-12")["questions"] if row["about"] == "Egg"]

    self.assertEqual(of_egg(), [-9])
    # That of a closed month was counted last; what came since may be there, 3.00 at the end of the next, and none of
    # what came by then, or was thrown away.
    call("close", self.book, "2025-09")
    self.assertEqual(of_egg(), [-9])
    self.add(adjustments="date,kind,item,amount,unit\n2025-10-31,transfer-in,Egg,10,each\n"
                         "2025-11-30,waste,Egg,5,each\n")
    self.assertEqual(of_egg(), [-12])
    # What was bought meanwhile may be there too, and nothing bounds what was used.
    self.book = self.path("bought.croustade")
    self.load(counts=counts, purchases=TABLES["purchases"] + "2025-11-02,The market,4,Egg,food,30,each,9\n")
    november = self.month("2025-11")
    self.assertEqual(self.known(november, *figures), ["at-least", "at-least", "in-part", "in-part"])
    self.assertEqual([row["explains"] for row in november["questions"]], [18, -9])

  def test_what_was_made_and_not_counted(self):
    """100 g of melted leek are 250 g of leek, of which the leeks that were used may be so much less."""
    counts = (TABLES["counts"].replace("2025-10-31,Melted leek", "2025-09-30,Melted leek")
              + "2025-11-30,Leek,100,g\n2025-11-30,Cream,1,l\n2025-11-30,Egg,1,each\n2025-11-30,Melted leek,0,g\n")
    self.load(counts=counts, sales=TABLES["sales"] + "2025-11-03,plate,Leek tart,2,\n")
    for _ in ("open", "closed"):
      for month, known in (("2025-10", "at-most"), ("2025-11", "at-least")):
        self.assertEqual(self.known(self.month(month), "actual", "Leek", "Cream", "Egg"),
                         [known, known, "whole", "whole"])
      says = call("month", self.book, "2025-10").stdout
      self.assertRegex(says, r"(?m)^Leek .*≤ \S+$")
      # The rest is what came from the bar, without an ingredient: known to the cent.
      self.assertRegex(says, r"(?m)^without an ingredient, an amount or a count +3\.00$")
      call("close", self.book, "2025-10")

  def test_what_was_counted_some_morning_after(self):
    counts = TABLES["counts"].replace("2025-10-31,Egg", "2025-11-01,Egg")
    self.assertEqual(self.asked(counts=counts), {("Egg", "not counted on 2025-10-31: counted on 2025-11-01"): 9})
    for month in ("2025-10", "2025-11"):
      self.assertIn("“Egg” was not counted on 2025-10-31, but on 2025-11-01. Is that the stock of 2025-10-31?",
                    " ".join(call("month", self.book, month).stdout.split()))
    self.book = self.path("all.croustade")
    asks = ("stock", "neither counted nor entered at the end of the month, counted on 2025-11-03")
    self.assertIn(asks, self.asked(counts=TABLES["counts"].replace("2025-10-31", "2025-11-03")))
    self.assertIn(asks, [(row["about"], row["what"]) for row in self.month("2025-11")["questions"]])
    self.assertIn("a stock was counted on 2025-11-03. Is that the stock of 2025-10-31?",
                  " ".join(call("month", self.book, "2025-11").stdout.split()))
    self.book = self.path("late.croustade")
    self.assertNotIn("stock", {about for about, _ in self.asked(counts=TABLES["counts"].replace("10-31", "11-04"))})

  def test_a_tax_that_nobody_has_set(self):
    """As the costs of plates say it; a tax of 0 is set, and what was entered without tax needs none."""
    untaxed = TABLES["book"].replace("tax_pct,10\n", "")
    entered = "date,kind,name,sold,net_revenue\n2025-10-03,plate,Leek tart,20,200\n"
    zero = untaxed + "tax_pct,0\n"
    for name, tables, is_asked in (("none", {"book": untaxed}, True), ("zero", {"book": zero}, False),
                                   ("entered", {"book": untaxed, "sales": entered}, False)):
      self.book = self.path(f"{name}.croustade")
      self.assertEqual(("tax", "not set, counted as 0") in self.asked(**tables), is_asked, name)
      path, says = self.path(f"{name}.xlsx"), "no tax is set in the book: where a plate or menu has none of its own"
      self.assertEqual(says in " ".join(call("month", self.book, "2025-10").stdout.split()), is_asked)
      call("workbook", self.book, "--month", "2025-10", "-o", path)
      with zipfile.ZipFile(path) as file:
        self.assertEqual(any(says in file.read(part).decode() for part in file.namelist()), is_asked)

  def test_what_no_plate_takes_adds_up_too(self):
    """Saffron, on no plate, is all variance; what was not measured is the rest."""
    self.load(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
              purchases=TABLES["purchases"] + "2025-10-05,The market,3,Saffron,food,5,g,40\n",
              counts=TABLES["counts"] + "2025-10-31,Saffron,0,g\n")
    month = self.month()
    rows = {row["name"]: row for row in month["ingredients"]}
    self.assertEqual((rows["Saffron"]["usage_variance"], rows["Saffron"]["variance"]), (None, 40))
    # What came from the bar, 3, has no ingredient.
    self.assertMoney(sum(row["variance"] for row in rows.values()) + 3, month["over"])

  def test_the_same_row_twice(self):
    rows = TABLES["purchases"] + "2025-10-09,The market,2,Cream,food,2,l,12.6\n"
    self.assertEqual(self.asked(purchases=rows)["Cream", "the same purchase twice on 2025-10-09"], 12.6)

  def test_far_from_its_price(self):
    """A quarter more, 15 for 12, is not far."""
    rows = TABLES["purchases"].replace("12.6", "126").replace("3,kg,12\n", "3,kg,15\n")
    asked = self.asked(purchases=rows)
    self.assertNotIn(("Leek", "bought far from its price on 2025-10-02"), asked)
    self.assertMoney(asked["Cream", "bought far from its price on 2025-10-09"], 114)

  def test_beyond_the_others_of_its_kind(self):
    """A sound GTIN-8 (its check digit by the GS1 General Specifications) is asked about at once, another number
    where it is a thousand times what is usual."""
    sales = TABLES["sales"] + "2025-10-11,plate,Leek tart,96385074,90\n2025-10-12,plate,Leek tart,12,90\n"
    counts = TABLES["counts"] + "2025-10-31,Leek,96385074,g\n"
    asked = self.asked(sales=sales, counts=counts)
    for about in (("Leek tart", "far beyond the others on 2025-10-11: sales sold 96385074"),
                  ("Leek", "far beyond the others on 2025-10-31: counts amount 96385074")):
      self.assertIn(about, asked)
    self.assertEqual(sum("far beyond" in what for _, what in asked), 2)
    says = " ".join(call("month", self.book, "2025-10").stdout.split())
    asks = "“Leek tart” on 2025-10-11: sold 96385074. Is that a bar code?"
    self.assertIn(asks, says)
    # It is asked once more where the month is closed, and frozen with it.
    self.assertIn(asks, " ".join(call("close", self.book, "2025-10").stdout.split()))
    self.assertIn(asks, " ".join(call("month", self.book, "2025-10").stdout.split()))

    self.book = self.path("few.croustade")
    few = "".join(f"2025-10-{day:02},other,Wine {day},1,{day}\n" for day in range(1, 9))
    asked = self.asked(sales=TABLES["sales"] + few + "2025-10-20,other,Room,1,70000\n")
    self.assertEqual([row for row in asked if "far beyond" in row[1]],
                     [("Room", "far beyond the others on 2025-10-20: sales net_revenue 70000")])
    self.assertIn("net sales 70000, far beyond the others. Is that right?",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))
    # One of 13 digits, which a table may hold as any number.
    self.book = self.path("thirteen.croustade")
    asked = self.asked(sales=TABLES["sales"] + "2025-10-11,plate,Leek tart,2900640004179,90\n")
    self.assertIn(("Leek tart", "far beyond the others on 2025-10-11: sales sold 2900640004179"), asked)

  def test_more_than_was_there(self):
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,5,l")
    asked = self.asked(counts=counts)
    self.assertMoney(asked["Cream", "more counted than was there on 2025-10-31"], -6)
    # A litre came from the bar.
    self.book = self.path("came.croustade")
    asked = self.asked(counts=counts, adjustments=TABLES["adjustments"] + "2025-10-31,transfer-in,Cream,1,l,5,\n")
    self.assertNotIn(("Cream", "more counted than was there on 2025-10-31"), asked)
    # Of what has no price nothing is known.
    self.book = self.path("unpriced.croustade")
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
                       counts=TABLES["counts"] + "2025-10-31,Saffron,3,g\n2025-10-31,Saffron,3,g\n"
                                                 "2025-09-30,Saffron,1,g\n")
    self.assertIsNone(asked["Saffron", "more counted than was there on 2025-10-31"])
    self.assertIsNone(asked["Saffron", "the same count twice on 2025-10-31"])
    self.book = self.path("gone.croustade")
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
                       counts=TABLES["counts"] + "2025-09-30,Saffron,1,g\n")
    self.assertIsNone(asked["Saffron", "not counted on 2025-10-31"])
    # What was bought meanwhile for 40 is known, at the close and where it opens, open or closed.
    self.book = self.path("bought.croustade")
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
                       counts=TABLES["counts"] + "2025-09-30,Saffron,1,g\n",
                       purchases=TABLES["purchases"] + "2025-10-05,The market,3,Saffron,food,5,g,40\n")
    self.assertEqual(asked["Saffron", "not counted on 2025-10-31"], 40)
    for _ in ("open", "closed"):
      self.assertIn(("Saffron", -40), [(row["about"], row["explains"]) for row in self.month("2025-11")["questions"]])
      call("close", self.book, "2025-10")

  def test_a_stock_entered_as_one_sum_beside_a_count(self):
    """The count is worth 14.20 (Statement.test_of_a_small_book)."""
    asks = "the stock is entered as one sum and counted on 2025-10-31: "
    saffron = {"ingredients": TABLES["ingredients"] + "Saffron,Dry goods,g\n",
               "counts": TABLES["counts"] + "2025-10-31,Saffron,3,g\n"}
    none = {**saffron, "counts": saffron["counts"].replace("Saffron,3", "Saffron,0")}
    only = {**saffron, "counts": "date,item,amount,unit\n2025-10-31,Saffron,3,g\n"}
    for entered, tables, what, explains, words in (
        ("10", {}, "10.00 entered, 14.20 counted, 4.20 difference", 4.2, "is worth 14.20: a difference of 4.20."),
        ("20", {}, "20.00 entered, 14.20 counted, 5.80 difference", -5.8, "is worth 14.20: a difference of 5.80."),
        ("10", none, "10.00 entered, 14.20 counted, 4.20 difference", 4.2, "is worth 14.20: a difference of 4.20."),
        ("14.2", {}, None, None, None),
        ("10", saffron, "10.00 entered, at least 14.20 counted, at least 4.20 difference", None,
         "is worth at least 14.20: a difference of at least 4.20."),
        ("20", saffron, "20.00 entered, at least 14.20 counted", None, "is worth at least 14.20. Which"),
        ("20", only, "20.00 entered", None, "and was counted too, with no price known. Which")):
      self.book = self.path(f"{entered}-{len(tables)}-{words}.croustade")
      asked = self.asked(months=f"month,closing_stock_value\n2025-10,{entered}\n", **tables)
      stock = {asked_of: money for asked_of, money in asked.items() if asked_of[0] == "stock"}
      self.assertEqual([what_is for _, what_is in stock], [asks + what] if what else [])
      self.assertEqual([money and round(money, 9) for money in stock.values()], [explains] if what else [])
      if words:
        for _ in ("open", "closed"):
          self.assertIn(words, " ".join(call("month", self.book, "2025-10").stdout.split()))
          done = call("close", self.book, "2025-10")
          self.assertTrue(done.returncode == 2 or words in " ".join(done.stdout.split()), done.stdout)

  def test_a_till_that_says_its_total_with_tax_alone(self):
    """18 tarts at 11, 10 Tides at 22, and with their tax of 10 % a refund of 5 and wine of 90: 511.50."""
    months = "month,till_gross_revenue\n2025-10,"
    for number, (total, asked, note) in enumerate((
        ("511.5", [], "sales with tax 511.50: agrees"),
        ("500", [("till", "sales with tax differ by 11.50")], "sales with tax 511.50: +11.50 "
         "difference; sold without a plate: 90.00 net, at the tax of the book (0 where none is set)"))):
      self.book = self.path(f"{number}.croustade")
      self.load(months=months + total + "\n")
      for status in (None, 0):
        if status is not None:
          self.assertEqual(call("close", self.book, "2025-10").returncode, status)
        month = self.month()
        self.assertMoney(month["sales_with_tax"], 511.5)
        self.assertEqual((month["till"], month["till_with_tax"]), (None, float(total)))
        self.assertEqual([(row["about"], row["what"]) for row in month["questions"] if row["about"] == "till"], asked)
        says = " ".join(call("month", self.book, "2025-10").stdout.split())
        self.assertIn(f"till, with tax {float(total):.2f} {note}", says)
        self.assertIs("sales with tax are not the till’s: +11.50 difference" in says, bool(asked))
    self.book = self.path("unpriced.croustade")
    self.load(months=months + "500\n", plates=TABLES["plates"] + "Broth,Starter,1,\n",
              sales=TABLES["sales"] + "2025-10-22,plate,Broth,2,\n")
    self.assertIn("sales with tax are not known of all that was sold",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))
    self.assertIsNone(self.month()["sales_with_tax"])

  def test_a_till_with_tax_is_not_held_against_one_without(self):
    self.load(months="month,till_net_revenue,till_gross_revenue\n2025-09,400,\n2025-10,,511.5\n",
              sales=TABLES["sales"] + "2025-09-03,plate,Leek tart,20,400\n")
    for month in ("2025-09", "2025-10"):
      call("close", self.book, month)
    path = self.path("till.xlsx")
    call("workbook", self.book, "--month", "2025-10", "-o", path)
    rows = Spreadsheet.rows(xlsx.Book(path), "Statement", "BF")
    self.assertEqual((rows["till, with tax"], rows["till"]), ([511.5, None], [None, 400]))

  def test_a_till_with_less_tax_than_none(self):
    asks = ("till", "the total with tax is below the one without by 65.00")
    for net, gross, is_asked in ((465, 400, True), (465, 465, False), (465, 511.5, False)):
      self.book = self.path(f"{gross}.croustade")
      asked = self.asked(months=f"month,till_net_revenue,till_gross_revenue\n2025-10,{net},{gross}\n")
      self.assertEqual(asks in asked, is_asked)
    self.book = self.path("alone.croustade")
    self.assertNotIn(asks, self.asked(months="month,till_gross_revenue\n2025-10,400\n"))

  def test_none_costs_nothing_whatever_it_costs(self):
    """Saffron and Broth have no price: what was taken back, and what was neither there nor bought nor left, is 0."""
    none = "2025-10-20,plate,Broth,2,\n2025-10-20,plate,Broth,-2,\n"
    tables = {
      "ingredients": TABLES["ingredients"] + "Saffron,Dry goods,g\n",
      "plates": TABLES["plates"] + "Broth,Starter,1,\n", "lines": TABLES["lines"] + "plate,Broth,1,Saffron,1,g\n",
      "counts": TABLES["counts"] + "2025-10-31,Saffron,0,g\n",
      "adjustments": TABLES["adjustments"] + "2025-10-12,staff-meal,Saffron,0,g,,\n"}
    self.load(**tables, sales=TABLES["sales"].replace("2025-10-21", none + "2025-10-21"))
    done, month = call("month", self.book, "2025-10"), self.month()
    self.assertNotRegex(done.stdout, "[≥≤?] ?[0-9]")
    self.assertEqual([row["actual_known"] for row in month["ingredients"] if row["name"] == "Saffron"], ["whole"])
    self.assertEqual({row["net_revenue_known"] for row in month["things"]}, {"whole"})
    # It is missing all the same, as what a row lacks.
    self.assertEqual((done.returncode, month["missing"]), (1, ["price Saffron", "selling Broth"]))
    # One of two days, which may have had two prices, is no such thing.
    self.book = self.path("days.croustade")
    apart = none.replace("20,plate,Broth,-2", "22,plate,Broth,-2")
    self.load(**tables, sales=TABLES["sales"] + apart)
    self.assertRegex(call("month", self.book, "2025-10").stdout, r"Net sales +\? 465\.00")

  def test_what_was_taken_back_without_a_price_leaves_less(self):
    """Two Broths taken back leave at most what the others took; of a cost below 0 more sales leave a part nearer 0."""
    tables = {"plates": TABLES["plates"] + "Broth,Starter,1,\n",
              "lines": TABLES["lines"] + "plate,Broth,1,Egg,1,each\n"}
    self.load(**tables, sales=TABLES["sales"] + "2025-10-22,plate,Broth,-2,\n")
    for _ in ("open", "closed"):
      text = call("month", self.book, "2025-10").stdout
      self.assertRegex(text, r"Net sales +≤ 465\.00\n")
      self.assertRegex(text, r"(?m)^Starter .* ≤ ")
      call("close", self.book, "2025-10")
    self.book = self.path("below.croustade")
    self.load(**tables, sales=TABLES["sales"] + "2025-10-22,plate,Broth,2,\n",
              counts=TABLES["counts"].replace("31,Egg,18", "31,Egg,1800"))
    self.assertRegex(call("month", self.book, "2025-10").stdout, "Actual food cost +−[0-9.]+ +≥ −[0-9.]+\u00a0%")

  def test_a_unit_that_explains(self):
    # 28 tarts of 50 ml and 10 custards of 100 ml take 2.4 l: 1.6 l of 4 l are left, not 1.6 ml.
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,1.6,ml")
    asked = self.asked(counts=counts)
    about = "Cream", "the amount would explain in another unit on 2025-10-31: l"
    self.assertIn(about, asked)
    self.assertAlmostEqual(asked[about], 9.6, delta=0.1)

  def test_what_another_unit_takes_off_is_of_its_row(self):
    """A purchase costs what was paid, whatever its amount; a stock counts at the value of its day."""
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,1.6,l")
    about = "Cream", "the amount would explain in another unit on {}: l"
    asked = self.asked(counts=counts, purchases=TABLES["purchases"].replace("Cream,food,2,l", "Cream,food,2,ml"))
    self.assertIsNone(asked[about[0], about[1].format("2025-10-09")])
    self.book = self.path("opening.croustade")
    asked = self.asked(counts=counts.replace("2025-09-30,Cream,2,l", "2025-09-30,Cream,2,ml"),
                       prices=TABLES["prices"] + "Cream,The market,2025-10-02,12\n")
    self.assertAlmostEqual(asked[about[0], about[1].format("2025-09-30")], -1.998 * 6, places=6)

  def test_what_brought_no_goods_is_not_counted(self):
    """A credit of price alone, and what went back."""
    for back in ("0,g,-5", "-10,g,-5"):
      self.book = self.path(f"{back}.croustade")
      asked = self.asked(ingredients=TABLES["ingredients"] + "Bay,Herbs,g\n",
                         purchases=TABLES["purchases"] + f"2025-10-20,The market,3,Bay,food,{back}\n")
      self.assertFalse([about for about, _ in asked if about == "Bay"])
      self.assertNotIn("Bay", str(self.month("2025-11")["questions"]))

  def test_a_unit_that_nobody_writes(self):
    # 3.38 US pints are the 1.6 l that are left, but the house has none.
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,3.38,l")
    self.assertFalse([what for _, what in self.asked(counts=counts) if "another unit" in what])


class Against(Case):
  def test_effects_add_up_in_displayed_cents(self):
    loaded.load(call, self.book, DEMO)
    for month in ("2026-09", "2026-10"):
      call("close", self.book, month)
    got = json.loads(call("month", self.book, "2026-10", "--against", "2026-09", "--json").stdout)
    effects = ("volume", "mix", "price", "recipe")
    self.assertAlmostEqual(sum(got[name] for name in effects), got["to"] - got["from"], places=2)
    for rows in (got["ingredients"], got["things"]):
      for name in effects:
        self.assertAlmostEqual(sum(row[name] for row in rows), got[name], places=9)
    self.assertIn("price Sea purslane", got["missing"])
    text = call("month", self.book, "2026-10", "--against", "2026-09").stdout
    self.assertRegex(" ".join(text.split()), r"to ≥ ?\d+\.\d\d:")
    # Both months lack something: words say so of the change, signs of what moved it, as in the tables; an effect that
    # is larger than all is no part of it.
    self.assertRegex(" ".join(text.split("\n\n")[0].split()), r": \? [+−]\d+\.\d\d\. Volume \? [+−]\d+\.\d\d, most ")
    first, word, change = re.search(r": ([+−]\d+\.\d\d) of what is known.*\. (Most of it|The largest effect) .*?"
                                    r": \? ([+−]\d+\.\d\d)\.", " ".join(text.split("\n\n")[0].split())).groups()
    sizes = [float(size.replace("−", "-")) for size in (first, change)]
    self.assertEqual(word == "Most of it", 0 < sizes[1] / sizes[0] <= 1 and 2 * abs(sizes[1]) > abs(sizes[0]))
    for block in text.split("\n\n")[1:3]:
      rows = [[float(cell.replace("−", "-")) for cell in re.findall(r"[+−]?\d+\.\d\d", line)]
              for line in block.splitlines()[1:]]
      rows = [row for row in rows if row]
      for column in range(5):
        self.assertAlmostEqual(sum(row[column] for row in rows[:-1]), rows[-1][column], places=6)
      self.assertAlmostEqual(sum(rows[-1][:4]), rows[-1][4], places=6)
      self.assertEqual(rows[-1][4], float(first.replace("−", "-")))
      self.assertIn(float(change.replace("−", "-")), rows[-1][:4])

  def test_each_effect_alone(self):
    same = {"counts": "date,item,amount,unit\n", "purchases": "date,net_value\n",
            "adjustments": "date,kind\n", "months": "month\n"}
    sales = "date,kind,name,sold\n2025-09-10,plate,Leek tart,10\n2025-10-10,plate,Leek tart,{}\n"
    prices = TABLES["prices"] + "Cream,The market,2025-10-01,12\n"
    for changes, expected in (
        ({"sales": sales.format(30)}, {"volume": 10}),
        # 50 ml of cream in each of 10, 0.30 dearer.
        ({"sales": sales.format(10), "prices": prices}, {"price": 3})):
      self.book = self.load(self.path(f"{list(expected)[0]}.croustade"), **same, **changes)
      for month in ("2025-09", "2025-10"):
        call("close", self.book, month)
      got = json.loads(call("month", self.book, "2025-10", "--against", "2025-09", "--json").stdout)
      for name in ("volume", "mix", "price", "recipe"):
        self.assertAlmostEqual(got[name], expected.get(name, 0), places=6)

  def test_what_was_taken_back_at_another_price_is_no_effect(self):
    """10 tarts at 0.50 and 10 taken back at 0.80, as cream was dearer then: no effect of what 10 custards cost, and
    none of what they are made of."""
    self.load(counts="date,item,amount,unit\n", purchases="date,net_value\n", adjustments="date,kind\n",
              months="month\n", prices=TABLES["prices"] + "Cream,The market,2025-09-15,12\n",
              sales="date,kind,name,sold\n2025-09-10,plate,Leek tart,10\n2025-09-20,plate,Leek tart,-10\n"
                    "2025-09-20,plate,Custard,10\n2025-10-20,plate,Custard,10\n")
    for month in ("2025-09", "2025-10"):
      call("close", self.book, month)
    got = json.loads(call("month", self.book, "2025-10", "--against", "2025-09", "--json").stdout)
    self.assertMoney(got["to"] - got["from"], 3)
    self.assertMoney(got["taken_back"], 3)
    self.assertEqual([got[name] for name in ("volume", "mix", "price", "recipe")], [0] * 4)
    says = " ".join(call("month", self.book, "2025-10", "--against", "2025-09").stdout.split())
    self.assertIn(": +3.00. Sold and taken back at another price, so that none is left: +3.00. Ingredients", says)
    self.assertRegex(says, r"taken back at another price \+3\.00 Total (0\.00 ){4}\+3\.00")


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

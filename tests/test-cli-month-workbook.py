#!/usr/bin/env python3
"""croustade-cli workbook --month, month --journal: what the office gets of a month.

    test-cli-month-workbook.py CROUSTADE-CLI DEMO-FOLDER
"""

import csv
import html
import json
import os
import pathlib
import re
import sys
import unittest
import zipfile
from decimal import Decimal

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parent / name) for name in ("support", "workbook")]
import loaded  # noqa: E402
import xlsx  # noqa: E402
from months import DEMO, TABLES, Case, call  # noqa: E402


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

  def test_a_till_with_tax_is_not_held_against_one_without(self):
    self.load(months="month,till_net_revenue,till_gross_revenue\n2025-09,400,\n2025-10,,511.5\n",
              sales=TABLES["sales"] + "2025-09-03,plate,Leek tart,20,400\n")
    for month in ("2025-09", "2025-10"):
      call("close", self.book, month)
    path = self.path("till.xlsx")
    call("workbook", self.book, "--month", "2025-10", "-o", path)
    rows = Spreadsheet.rows(xlsx.Book(path), "Statement", "BF")
    self.assertEqual((rows["till, with tax"], rows["till"]), ([511.5, None], [None, 400]))

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
    found = (words for words in ("at least", "at most", "incomplete") if words in text)
    return next(found, "?" if '"?"' in text else "")

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

  def test_a_batch_without_an_amount_is_no_difference(self):
    """Nothing comes out of it, so that it is no complete batch; what it takes of leek and of stock is not known, nor
    what the stock's tops are."""
    self.load(preparations="name,by_products\nMelted leek,\nStock,credit\n",
              lines=TABLES["lines"] + "preparation,Melted leek,2,Stock,100,g\npreparation,Stock,1,Cream,1,l\n"
                    "plate,Leek tart,3,Stock,500,g\n",
              outputs="item,preparation,role,amount,unit,value\nMelted leek,Melted leek,main,,g,\n"
                      "Stock,Stock,main,2,kg,\nTops,Stock,by-product,0.1,kg,2\n")
    path = self.workbook(status=1)
    book = xlsx.Book(path)
    self.assertEqual([book.at("Control totals", f"E{row}").value for row in range(5, 22)], ["agrees"] * 17)
    rows = {book.at("Ingredients used", f"A{row}").value: row for row in range(5, 9)}
    for name, marks in (("Leek", ["?", "?"]), ("Egg", ["", ""]), ("Tops", ["incomplete"] * 2)):
      self.assertEqual([self.shown(path, book, "Ingredients used", f"{column}{rows[name]}") for column in "DE"], marks)

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


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

#!/usr/bin/env python3
"""croustade-cli close, check and reopen: closed months that another program altered.

    test-cli-close-altered.py CROUSTADE-CLI
"""

import csv
import hashlib
import os
import pathlib
import re
import shutil
import sys
import unittest
from decimal import Decimal

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parent / name) for name in ("support", "workbook")]
import xlsx  # noqa: E402
from months import TABLES, Case, call  # noqa: E402


class Altered(Case):
  def test_rows_add_up_to_the_statement(self):
    """Whoever reckons the hash anew has to change more than one figure."""
    self.load()
    self.close("2025-10")
    for number, (kind, column, status) in enumerate((
        ("purchase", "cost", 2), ("count", "cost", 2), ("adjustment", "cost", 2), ("plate", "net_revenue", 2),
        ("plate", "cost", 2), ("purchase", "note", 0))):
      out = self.path(f"out-{number}")
      call("dump", self.book, out)
      with open(os.path.join(out, "month_rows.csv"), encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
      row = next(row for row in rows if row["kind"] == kind and not row["part"])
      row[column] = "5000"
      with open(os.path.join(out, "month_rows.csv"), "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys())
        writer.writeheader()
        writer.writerows(rows)
      with open(os.path.join(out, "months.csv"), encoding="utf-8") as file:
        months = file.read()
      with open(os.path.join(out, "months.csv"), "w", encoding="utf-8") as file:
        file.write(re.sub("[0-9a-f]{64}", self.hash_of(rows), months))
      done = call("load", self.path(f"{number}.croustade"), out)
      self.assertEqual(done.returncode, status, (kind, column, done.stderr))

  @staticmethod
  def hash_of(rows):
    columns = ("kind", "name", "part_kind", "part", "number", "date", "sold", "net_revenue", "price", "unit",
               "quantity", "cost", "cost_per_1000", "supplier", "document", "category", "row_kind", "note")
    micro = ("number", "sold", "net_revenue", "price", "quantity", "cost", "cost_per_1000")
    texts = ["".join((str(int(Decimal(row[column]) * 10**6)) if column in micro and row[column] else row[column])
                     + "\x1f" for column in columns) for row in rows]
    return hashlib.sha256("".join(sorted(texts)).encode("utf-8")).hexdigest()

  def test_what_closing_froze_is_verified(self):
    self.load()
    self.close("2025-10")
    self.assertEqual(call("check", self.book).returncode, 0)
    out = self.path("out")
    call("dump", self.book, out)
    for table, column in (("months", "hash"), ("month_rows", "net_revenue")):
      changed = self.path(f"changed-{table}")
      shutil.copytree(out, changed)
      path = os.path.join(changed, f"{table}.csv")
      with open(path, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
      row = next(row for row in rows if row[column])
      row[column] = "0" if column == "net_revenue" else row[column][::-1]
      with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys())
        writer.writeheader()
        writer.writerows(rows)
      again = self.path(f"{table}.croustade")
      done = call("load", again, changed)
      self.assertEqual(done.returncode, 2)
      self.assertRegex(done.stderr, r"months\.csv:2: hash: .*2025-10")
      self.assertFalse(os.path.exists(again))
    # A loaded book: its journal does not know single rows.
    self.book = self.path("loaded.croustade")
    self.assertEqual(call("load", self.book, out).returncode, 0)
    self.assertEqual(call("check", self.book).returncode, 0)
    self.tamper("cost_micro = cost_micro + 1 WHERE name = 'over'")
    done = call("check", self.book)
    self.assertEqual(done.returncode, 1)
    self.assertIn("2025-10", done.stderr)
    self.assertIn("NO   does not hold: A closed month is as closing left it (1 fault)", done.stdout)

  def test_what_was_altered_is_said_wherever_it_is_believed(self):
    self.load(sales=TABLES["sales"] + "2025-11-03,plate,Leek tart,1,\n")
    self.close("2025-10")
    for month in ("2025-10", "2025-11"):
      self.assertIsNone(self.month(month)["altered"])
    self.tamper("cost_micro = cost_micro + 1 WHERE name = 'over'")
    says = "October 2025 is not as closing left it"
    for month in ("2025-10", "2025-11"):
      done = call("month", self.book, month)
      self.assertEqual((done.returncode, self.month(month)["altered"]), (1, "2025-10"))
      self.assertIn(says, done.stderr)
      self.assertIn(says, " ".join(done.stdout.split()))
    path = self.path("office.xlsx")
    self.assertIn(says, call("workbook", self.book, "--month", "2025-10", "-o", path).stderr)
    book = xlsx.Book(path)
    self.assertTrue(any(str(cell.value).startswith(says) for sheet in book.parts
                        for cell in book[sheet].values()), "the workbook does not say so")
    self.assertIn("2025-10, closed, altered since, recipes of", str(book.at("Statement", "A2").value))
    done = call("month", self.book, "2025")
    self.assertEqual(done.stderr.count(says), 1)
    self.assertRegex(done.stdout, "October 2025, closed, altered since, recipes of")
    self.assertRegex(done.stdout, "November 2025, open, recipes of")
    self.assertEqual(" ".join(done.stdout[done.stdout.rindex("Total"):].split()).count(says), 1)
    self.assertIn(says, " ".join(call("month", self.book, "2025-10", "--matrix").stdout.split()))
    # In the workbook of the month after: under the title, over the column, and first of all questions.
    call("workbook", self.book, "--month", "2025-11", "-o", path)
    book = xlsx.Book(path)
    self.assertIn("; 2025-10 is not as closing left it", str(book.at("Statement", "A2").value))
    self.assertIn("2025-10, altered since", [cell.value for cell in book["Statement"].values()])
    self.assertTrue(any(str(cell.value).startswith(says) for cell in book["Questions"].values()))
    self.assertIn("2025-10 is not as closing left it", call("dump", self.book, self.path("out")).stderr)
    self.assertIn(says, self.close("2025-11", status=1).stderr)

  # What is altered, and whether a book that came filled, with tables that were closed, says it too.
  ALTERED = (
    ("UPDATE month SET closed_at = '2026-13-45'", True), ("UPDATE month SET recipes_on = '9999-12-31'", True),
    ("UPDATE month SET hash = '0'", True), ("UPDATE month SET closed_at = NULL", True),
    ("UPDATE month SET hash = NULL", False), ("UPDATE month SET closed_at = '2025-11-02T10:00:00Z'", False),
    ("UPDATE month_row SET part_kind = NULL WHERE part IS NOT NULL", True),
    ("DELETE FROM month_row WHERE kind = 'statement'", True),
    ("UPDATE month_row SET cost_micro = -cost_micro WHERE kind = 'plate'", True),
    ("INSERT INTO month_row (month, kind, name, sold_micro) VALUES (1, 'plate', 'Tart', 1)", True),
    # What was entered stands in the statement too.
    ("UPDATE month SET till_gross_revenue_micro = 1000000, ledger_purchases_micro = 1000000,"
     " late_estimate_micro = 500000000", True),
    ("UPDATE month SET till_net_revenue_micro = 1", True), ("UPDATE month SET closing_stock_value_micro = 0", True))

  def test_what_was_altered_is_as_closing_leaves_it_once_reopened_and_closed(self):
    """One thing, and all of them but those that take away what the next one is about."""
    self.load(months="month,ledger_purchases\n2025-10,41.5\n")
    self.close("2025-10")
    closed, out, loaded = self.month(), self.path("out"), self.path("loaded.croustade")
    call("dump", self.book, out)
    call("load", loaded, out)
    whole = self.book
    several = [how for how, _ in self.ALTERED if "NULL" not in how or "part" in how]
    for number, (book, hows) in enumerate((
        [(book, [how]) for how, both in self.ALTERED for book in (whole, loaded)[:both + 1]]
        # Where nothing tells the day of its recipes or what was entered any more, it stays as it is.
        + [(whole, several), (loaded, [how for how in several if "recipes_on" not in how and "_micro =" not in how
                                       or "kind = 'plate'" in how])])):
      with self.subTest(hows=hows, loaded=book == loaded):
        self.book = shutil.copy(book, self.path(f"altered-{number}.croustade"))
        for how in hows:
          self.tamper(how)
        self.assertEqual((self.month()["altered"], call("check", self.book).returncode), ("2025-10", 1))
        if number not in (0, 1, 2, 3, 6, 18, 19) and len(hows) == 1:
          continue
        self.assertEqual(call("undo", self.book).returncode, 2)
        done = call("reopen", self.book, "2025-10", "--reason", "altered in the file")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.close("2025-10")
        done = call("check", self.book)
        self.assertEqual(done.returncode, 0, done.stderr + done.stdout)
        self.assertEqual({**self.month(), "hash": ""}, {**closed, "hash": ""})

  def test_rows_that_changed_places_are_back_once_reopened_and_closed(self):
    """Their hash is the same, so the month is as closing left it; the journal tells which row is which."""
    self.load()
    self.close("2025-10")
    closed, whole = self.month(), self.book
    for number, hows in enumerate((
        ["id = id + 100000"], ["id = 100000 WHERE id = (SELECT min (id) FROM month_row WHERE kind = 'count')"],
        # The other way round, so that each but the one in the middle has the contents of another.
        ["id = -id", "id = (SELECT max (-id) + min (-id) FROM month_row) + id"])):
      with self.subTest(hows=hows):
        self.book = shutil.copy(whole, self.path(f"moved-{number}.croustade"))
        for how in hows:
          self.tamper(how)
        self.assertEqual((self.month()["altered"], call("check", self.book).returncode), (None, 1))
        done = call("reopen", self.book, "2025-10", "--reason", "changed places")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.close("2025-10")
        done = call("check", self.book)
        self.assertEqual(done.returncode, 0, done.stderr + done.stdout)
        self.assertEqual({**self.month(), "hash": ""}, {**closed, "hash": ""})

  def test_a_closed_month_under_another_name_is_not_as_closing_left_it(self):
    """The journal tells its name, or, of a book that came filled, the days of its counts and purchases do."""
    self.load(sales=TABLES["sales"] + "2025-11-03,plate,Leek tart,1,\n")
    self.close("2025-10")
    out, loaded = self.path("out"), self.path("loaded.croustade")
    call("dump", self.book, out)
    call("load", loaded, out)
    gone, before = (shutil.copy(self.book, self.path(f"{name}.croustade")) for name in ("gone", "before"))
    for book in (self.book, loaded):
      with self.subTest(book=book):
        self.book = book
        self.tamper("UPDATE month SET month = '2025-07'")
        self.assertEqual(self.month("2025-07")["altered"], "2025-07")
        self.says_gone("2025-10")
        self.says_gone("2025-11", "2025-10")
        done = call("check", self.book)
        self.assertEqual((done.returncode, done.stderr.count("A closed month is as closing left it: 2025-")), (1, 2))
        # Reopened in the file: without a time, a hash and frozen rows.
        self.tamper("UPDATE month SET month = '2025-10', closed_at = NULL, hash = NULL")
        self.says_gone("2025-10")
    # Without the journal, days of two months tell neither.
    self.assertEqual(self.book, loaded)
    self.tamper("date = '2025-09-04' WHERE id = (SELECT min (id) FROM month_row WHERE kind = 'purchase')")
    for month in ("2025-09", "2025-10"):
      self.assertEqual((self.month(month)["state"], self.month(month)["altered"]), ("open", None), month)
    self.assertNotIn("A closed month is as closing left it: 2025-", call("check", self.book).stderr)
    # Right before others that are closed: what was bought in the month that it was is late there, and says so.
    self.book = before
    self.add(purchases="date,supplier,document,kind,net_value\n2025-09-08,The market,8,food,10\n")
    self.close("2025-09", status=1)
    self.tamper("UPDATE month SET month = '2025-08' WHERE month = '2025-10'")
    month = self.month("2025-09")
    self.assertEqual((month["state"], month["altered"]), ("closed", None))
    self.says_gone("2025-10")
    # What is gone altogether the journal still tells of, whether the row of the month stands or not.
    self.book = gone
    self.tamper("UPDATE month SET closed_at = NULL, hash = NULL")
    self.tamper("DELETE FROM month_row")
    self.says_gone("2025-10")
    self.tamper("DELETE FROM month")
    done = call("check", self.book)
    self.assertEqual(done.returncode, 1)
    self.assertIn("of month is not what the journal says", done.stderr)
    self.says_gone("2025-10")
    self.says_gone("2025-11", "2025-10")

  def says_gone(self, month, gone=None):
    """Of a month that was closed and is not in the file as closed, and of one that rests on it."""
    done, got = call("month", self.book, month), self.month(month)
    self.assertEqual((done.returncode, got["state"], got["altered"]), (1, "open", gone or month))
    for text in (done.stderr, " ".join(done.stdout.split())):
      self.assertIn("October 2025 was closed, and its closing is no longer in the file", text)

  def test_an_open_month_that_was_altered_is_closed_as_it_is_shown(self):
    self.load()
    self.add(months="month,ledger_purchases\n2025-10,41.5\n")
    self.tamper("UPDATE month SET ledger_purchases_micro = 41600000")
    self.assertEqual(call("check", self.book).returncode, 1)
    shown = self.month()
    self.close("2025-10")
    done = call("check", self.book)
    self.assertEqual(done.returncode, 0, done.stderr)
    closed = self.month()
    self.assertEqual((closed["altered"], closed["ledger"]), (None, shown["ledger"]))

  def test_lines_that_do_not_add_up_are_not_smeared(self):
    self.load()
    self.close("2025-10")
    before = call("month", self.book, "2025-10").stdout
    self.assertNotIn("do not add up", before)
    self.tamper("cost_micro = cost_micro + 5000000 WHERE name = 'actual'")
    after = call("month", self.book, "2025-10").stdout
    self.assertIn("do not add up", after)
    line = re.compile(r"(?m)^(Stock on|Food bought|staff meals|transferred in|Theoretical|Over).*")
    self.assertEqual([m.group() for m in line.finditer(after)], [m.group() for m in line.finditer(before)])
    self.assertRegex(after, r"Actual food cost +42\.80")


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

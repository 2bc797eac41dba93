#!/usr/bin/env python3
"""croustade-cli close and month: documents that come late, and estimates of them.

    test-cli-close-late.py CROUSTADE-CLI
"""

import csv
import pathlib
import re
import sys
import time
import unittest
from decimal import Decimal

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parent / name) for name in ("support", "workbook")]
import xlsx  # noqa: E402
from months import TABLES, Case, call  # noqa: E402


class Late(Case):
  def journal(self, month):
    """What its journal reverses of estimates: debited to invoices not received."""
    done = call("month", self.book, month, "--journal", "-")
    rows = list(csv.DictReader(done.stdout.splitlines()))
    return sum(Decimal(row["debit"] or 0) * (-1 if "purchases" in row["text"] else 1)
               for row in rows if row["entry"] == "not-invoiced-reversed"), done.stdout

  def three_months(self):
    dates = [f"{month}-28" for month in ("2025-08", "2025-09", "2025-10")]
    self.load(purchases="date,supplier,document,kind,net_value\n"
                        + "".join(f"{date},The market,{date},food,10\n" for date in dates),
              sales="date,kind,name,sold,net_revenue\n2025-10-03,plate,Leek tart,20,\n")

  def test_late_documents_are_booked_in_the_first_open_month(self):
    self.load()
    self.close("2025-10", "--estimate", "50")
    before = self.month()
    self.assertAlmostEqual(before["actual_cost"], 37.8 + 50, places=5)
    # What was estimated is taken off again, even before anything came.
    self.assertEqual(self.month("2025-11")["purchases"]["earlier"], -50)
    self.add(purchases="date,supplier,document,kind,net_value\n2025-10-30,The market,9,food,80\n")
    self.assertEqual(self.month(), before)
    november = self.month("2025-11")
    self.assertEqual(november["purchases"]["earlier"], 30)
    self.assertEqual(november["purchases"]["food"], 0)
    # Once booked it is booked.
    self.add(counts="date,item,amount,unit\n2025-11-30,Leek,0,g\n")
    self.close("2025-11", status=1)
    self.assertEqual(self.month("2025-12")["purchases"]["earlier"], 0)
    self.assertEqual(self.month("2025-11")["opening_stock"], before["closing_stock"])
    # What is given back of it later is booked as well.
    self.add(purchases="date,supplier,document,kind,net_value\n2025-10-29,The market,10,food,-8\n")
    self.assertEqual(self.month("2025-12")["purchases"]["earlier"], -8)

  def test_late_documents_are_named_after_their_month(self):
    self.three_months()
    self.close("2025-08", status=1)
    self.close("2025-09", status=1)
    self.add(purchases="date,supplier,document,kind,net_value\n2025-08-30,The market,9,food,80\n")
    self.assertIn("belongs to August 2025", self.text())
    self.close("2025-10")
    self.add(purchases="date,supplier,document,kind,net_value\n2025-09-30,The market,12,food,8\n")
    november = call("month", self.book, "2025-11").stdout
    self.assertIn("belongs to September 2025\n", november)
    # One by one in the workbook, with what was taken back beside; the total is the statement's.
    call("reopen", self.book, "2025-10", "--reason", "a count")
    self.close("2025-10", "--estimate", "12")
    self.add(purchases="date,supplier,document,kind,net_value\n2025-10-30,The market,13,food,9.50\n"
                       "2025-10-30,The market,13,other,4\n2025-11-05,The market,14,food,1\n")
    path = self.path("late.xlsx")
    call("workbook", self.book, "--month", "2025-11", "-o", path)
    book = xlsx.Book(path)
    rows = [tuple(book.at("Purchases", f"{column}{row}").value for column in "CJ") for row in range(5, 12)]
    self.assertEqual([row for row in rows if row[1] is not None],
                     [("14", 1), ("13", 9.5), ("13", 4), ("estimates reversed", -12), (None, 2.5)])

  def test_what_a_closed_month_booked_is_not_booked_again_in_one_that_is_reopened(self):
    """Common practice of accruals, no source: over all months, each document is booked once."""
    self.three_months()

    def booked():
      months = [self.month(f"2025-{month:02}")["purchases"] for month in (8, 9, 10, 11, 12)]
      self.assertAlmostEqual(sum(of["food"] + of["other"] + of["earlier"] for of in months), self.bought, places=6)
      return [round(of["earlier"], 2) for of in months]

    def add(*rows):
      self.add(purchases="date,supplier,document,kind,net_value\n" + "".join(
        f"2025-{date},The market,L-{date}{kind}{value},{kind},{value}\n" for date, kind, value in rows))
      self.bought += sum(value for _, _, value in rows)

    self.bought = 30
    self.close("2025-08", status=1)
    self.close("2025-09", status=1)
    add(("09-30", "food", 22), ("09-30", "other", -4), ("08-30", "food", 5))
    self.assertEqual(booked(), [0, 0, 23, 0, 0])
    self.close("2025-10")
    october = self.text()
    call("reopen", self.book, "2025-09", "--reason", "an invoice")
    # Of August it has none, of its own all is taken off; nothing is taken back in the month after.
    self.assertEqual(booked(), [0, -18, 23, 0, 0])
    september = self.month("2025-09")
    self.assertEqual(september["purchases"]["booked_later"], 18)
    question, = [q for q in september["questions"] if "later" in q["what"]]
    self.assertEqual((question["about"], question["what"]),
                     ("2025-10", "booked in a later month that is closed, and taken off here: food 22.00, other -4.00"))
    text = call("month", self.book, "2025-09").stdout
    self.assertRegex(text, r"Food booked in later months +−22\.00\s+booked already in October 2025\n")
    self.assertIn("food 22.00, other −4.00 of this month is booked in 2025-10",
                  " ".join(text.replace("\xa0", " ").split()))
    # There is no estimate that the month after would take off.
    self.assertNotIn("estimate", self.close("2025-09", status=1).stdout)
    self.assertEqual((booked(), self.text()), ([0, -18, 23, 0, 0], october))
    add(("09-29", "food", 8))
    self.assertEqual(booked(), [0, -18, 23, 8, 0])
    self.assertIn("belongs to September 2025", call("month", self.book, "2025-11").stdout)
    for month in ("2025-10", "2025-09"):
      call("reopen", self.book, month, "--reason", "in order")
    self.assertEqual(booked(), [0, 5, 0, 0, 0])

  def test_a_month_in_which_the_house_was_shut_books_what_came_late(self):
    """Common practice of accruals, no source: each document is booked once, and each estimate taken off once."""
    dates = [f"{month}-28" for month in ("2025-07", "2025-09")]
    self.load(purchases="date,supplier,document,kind,net_value\n"
                        + "".join(f"{date},The market,{date},food,10\n" for date in dates),
              sales="date,kind,name,sold,net_revenue\n2025-07-03,plate,Leek tart,20,\n"
                    "2025-09-03,plate,Leek tart,20,\n", counts=TABLES["counts"].split("\n")[0] + "\n",
              adjustments=TABLES["adjustments"].split("\n")[0] + "\n",
              months="month,closing_stock_value\n2025-06,10\n2025-07,10\n2025-09,10\n")
    asked = "Is 2025-08 to be closed first?"

    def listed():
      return re.findall(r"(?m)^(\w+) 2025$", call("month", self.book, "2025").stdout)

    def closed_september():
      said = " ".join(call("close", self.book, "2025-09").stdout.split())
      call("reopen", self.book, "2025-09", "--reason", "once more")
      return said

    # Nothing came late: there is no such month.
    self.close("2025-07")
    self.assertNotIn("August", listed())
    self.assertEqual(call("close", self.book, "2025-08").returncode, 2)
    self.assertNotIn(asked, closed_september())
    # An estimate alone is taken off there, and the invoice booked.
    call("reopen", self.book, "2025-07", "--reason", "an estimate")
    self.close("2025-07", "--estimate", "100")
    self.assertIn("August", listed())
    self.assertIn(asked, closed_september())
    self.add(purchases="date,supplier,document,kind,net_value\n2025-07-30,The market,L,food,95\n")
    self.assertIn("August", listed())
    year = call("month", self.book, "2025").stdout
    self.assertRegex(year, r"August 2025\n +open, with late documents")
    self.assertIn(asked, closed_september())
    # With a stock of its own, too.
    self.add(months="month,closing_stock_value\n2025-08,10\n")
    self.assertIn(asked, closed_september())
    self.close("2025-08")
    self.assertEqual(self.month("2025-08")["purchases"]["earlier"], -5)
    self.assertNotIn(asked, closed_september())
    self.assertEqual(self.month("2025-09")["purchases"]["earlier"], 0)

  def test_what_is_of_earlier_and_of_later_months_stands_apart(self):
    """Common practice of accruals, no source: each document is booked once, and told of with its own month."""
    self.three_months()
    self.close("2025-08", status=1)
    self.add(purchases="date,supplier,document,kind,net_value\n2025-08-30,The market,L1,food,20\n"
                       "2025-08-30,The market,L1,disposable,3\n")
    self.close("2025-09", status=1)
    self.add(purchases="date,supplier,document,kind,net_value\n2025-09-30,The market,L2,food,14.42\n"
                       "2025-09-30,The market,L2,disposable,-14\n")
    self.close("2025-10")
    call("reopen", self.book, "2025-09", "--reason", "a count")

    def tell():
      text = call("month", self.book, "2025-09").stdout.replace("\u00a0", " ")
      for line in (r"Food of earlier months +20\.00\s+belongs to August 2025\n",
                   r"Food booked in later months +−14\.42\s+booked already in October 2025\n",
                   r"Disposables of earlier months +3\.00\s+belongs to August 2025\n",
                   r"Disposables booked in later months\s+14\.00\s+booked already in October 2025\n",
                   r"All purchases +33\.00", r"food 14\.42, disposable −14\.00 of this month is\s+booked in 2025-10"):
        self.assertRegex(text, line)
      bought = self.month("2025-09")["purchases"]
      self.assertEqual([bought[name] for name in ("food", "earlier_food", "booked_later_food", "disposable", "earlier",
                                                  "booked_later")], [24.42, 5.58, 14.42, -14, 22.58, 0.42])
      path = self.path("apart.xlsx")
      call("workbook", self.book, "--month", "2025-09", "-o", path)
      book = xlsx.Book(path)
      cells = {book.at(sheet, f"{name}{row}").value: book.at(sheet, f"{money}{row}").value
               for sheet, name, money in (("Statement", "A", "B"), ("Purchases", "C", "J")) for row in range(4, 40)}
      self.assertEqual([cells[name] for name in ("Food of earlier months", "Food booked in later months",
                                                 "Disposables booked in later months", "All purchases")],
                       [20, -14.42, 14, 33])

    tell()
    # Closed again it tells the same; what the later month booked is of this one still.
    time.sleep(1.1)
    self.close("2025-09", status=1)
    tell()
    self.assertNotIn("of earlier months", call("month", self.book, "2025-11").stdout)
    # Opened again, the later one books it as what came late; nothing is asked any more.
    call("reopen", self.book, "2025-10", "--reason", "in order")
    self.assertEqual(self.month("2025-10")["purchases"]["earlier"], 0.42)
    self.assertIn("belongs to September 2025", call("month", self.book, "2025-10").stdout)
    self.assertNotIn("booked in 2025-10", call("month", self.book, "2025-09").stdout)

  def test_an_estimate_is_reversed_where_its_statement_says_so(self):
    """Common practice of accruals, no source: what one month's end books, the first one after it takes back."""
    self.three_months()
    self.close("2025-08", status=1)
    self.assertIn("2025-09 is open", self.close("2025-10").stdout)
    october, asked = self.text().split("\nQuestions\n")[0], self.journal("2025-10")[1]
    self.assertIn("Is 2025-09 to be closed first?", self.text())
    self.assertIn("2025-10 was closed first", self.close("2025-09", "--estimate", "120.50", status=1).stdout)
    # Nothing is asked once more that was done; the figures stay.
    self.assertEqual((self.text().split("\nQuestions\n")[0], self.journal("2025-10")[1]), (october, asked))
    self.assertNotIn("to be closed first", self.text())
    self.assertEqual((self.journal("2025-10")[0], self.journal("2025-11")[0]), (0, Decimal("120.50")))
    november = self.month("2025-11")["purchases"]
    self.assertEqual((november["earlier"], november["reversed"]), (-120.5, 120.5))
    # In order: October takes it back, and says so for ever, whatever becomes of September.
    call("reopen", self.book, "2025-10", "--reason", "September first")
    self.assertNotIn("2025-09", self.close("2025-10").stdout)
    october = self.text(), self.journal("2025-10")[1]
    self.assertIn("of which estimates reversed −120.50", october[0])
    self.assertIn("closed, recipes", october[0])
    self.assertEqual((self.journal("2025-10")[0], self.journal("2025-11")[0]), (Decimal("120.50"), 0))
    call("reopen", self.book, "2025-09", "--reason", "more is to come")
    self.assertEqual((self.text(), self.journal("2025-10")[1]), october)
    self.close("2025-09", "--estimate", "200", status=1)
    self.assertEqual((self.text(), self.journal("2025-10")[1]), october)
    self.assertEqual((self.journal("2025-11")[0], self.month("2025-11")["purchases"]["earlier"]),
                     (Decimal("79.50"), -79.5))

  def test_an_estimate_is_reversed_once_while_its_month_stands_reopened(self):
    """Common practice of accruals, no source: over all months, what was booked is taken back once."""
    self.three_months()
    self.add(purchases="date,supplier,document,kind,net_value\n2025-11-28,The market,11,food,10\n")

    def reversed_in(months):
      return [self.month(f"2025-{month:02}")["purchases"]["reversed"] for month in months]

    self.close("2025-08", "--estimate", "120.50", status=1)
    listed = call("month", self.book).stdout
    self.assertNotIn("documents came since", listed)
    self.close("2025-09", "--estimate", "30", status=1)
    call("reopen", self.book, "2025-08", "--reason", "an invoice")
    self.assertEqual(reversed_in((9, 10)), [120.5, 30])
    self.close("2025-10", status=0)
    self.assertEqual(self.month("2025-10")["purchases"]["earlier"], -30)
    call("reopen", self.book, "2025-09", "--reason", "an invoice")
    self.assertEqual(reversed_in((10, 11)), [30, 0])
    self.close("2025-09", "--estimate", "30", status=1)
    self.close("2025-08", "--estimate", "120.50", status=1)
    self.assertEqual(reversed_in((8, 9, 10, 11)), [0, 0, 30, 120.5])
    self.close("2025-11", status=1)
    self.assertEqual(reversed_in((8, 9, 10, 11, 12)), [0, 0, 30, 120.5, 0])
    # One that stands open between the two takes nothing off that a later one did.
    call("reopen", self.book, "2025-10", "--reason", "a count")
    self.assertEqual(reversed_in((8, 9, 10, 11, 12)), [0, 0, 30, 120.5, 0])

  def test_an_estimate_goes_from_both_months_when_its_own_is_reopened(self):
    """Common practice of accruals, no source: both months together are what they would be without it."""
    self.three_months()

    def booked():
      october, november = (self.month(f"2025-{month}")["purchases"] for month in (10, 11))
      return october["estimate"], november["reversed"], november["earlier"]

    self.close("2025-10", "--estimate", "200")
    self.assertEqual(booked(), (200, 200, -200))
    call("reopen", self.book, "2025-10", "--reason", "a count")
    self.assertEqual(booked(), (None, 0, 0))
    self.assertNotIn("estimate", self.close("2025-10").stdout)
    self.assertEqual(booked(), (None, 0, 0))
    # What a closed month took off stays, no more than that; a month that is closed with it says so.
    call("reopen", self.book, "2025-10", "--reason", "in order")
    self.close("2025-09", "--estimate", "120.50", status=1)
    self.close("2025-10")
    call("reopen", self.book, "2025-09", "--reason", "more to come")
    self.close("2025-09", "--estimate", "200", status=1)
    self.assertEqual(booked(), (None, 79.5, -79.5))
    call("reopen", self.book, "2025-09", "--reason", "less to come")
    self.assertEqual((self.month("2025-09")["purchases"]["estimate"], booked()), (120.5, (None, 0, 0)))
    self.assertIn("estimate that it had stays, 120.50", self.close("2025-09", status=1).stdout)
    call("reopen", self.book, "2025-09", "--reason", "none")
    self.close("2025-09", "--estimate", "0", status=1)
    self.assertEqual((self.month("2025-09")["purchases"]["estimate"], booked()), (None, (None, -120.5, 120.5)))

  def test_an_estimate_is_asked_about_where_it_leaves_a_difference(self):
    """Common practice of accruals, no source: what one month took off is what the other was closed with."""
    self.three_months()
    self.close("2025-09", "--estimate", "12.34", status=1)
    self.close("2025-10")
    for estimate, left in ((None, 0), ("0", -12.34), ("20", 7.66)):
      done = call("reopen", self.book, "2025-09", "--reason", "a count")
      self.assertIn("2025-09 is open again.\n", done.stdout)
      if estimate != "20":
        self.assertIn("closed with, 12.34, stays", done.stdout)
      done = self.close("2025-09", *(["--estimate", estimate] if estimate is not None else []), status=1)
      self.assertEqual("2025-10 was closed first" in done.stdout, left != 0)
      self.assertEqual(self.month("2025-11")["purchases"]["reversed"], left)
    # Once that month was opened again, nothing is asked.
    self.assertIn("Is 2025-10 to be reopened?", " ".join(call("month", self.book, "2025-09").stdout.split()))
    call("reopen", self.book, "2025-10", "--reason", "in order")
    self.assertNotIn("closed first: the first", call("month", self.book, "2025-09").stdout)
    done = call("reopen", self.book, "2025-09", "--reason", "an invoice")
    self.assertIn("closed with, 20.00, is no longer booked", " ".join(done.stdout.split()))

  def test_months_closed_before_reversals_were_noted(self):
    """Their journals stand as they stood: the estimate of the month before, where that was closed first."""
    self.three_months()
    self.close("2025-09", "--estimate", "120.50", status=1)
    self.close("2025-10")
    self.tamper("name = 'unknown' WHERE name = 'reversed'")
    self.assertEqual((self.journal("2025-10")[0], self.journal("2025-11")[0]), (Decimal("120.50"), 0))


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

#!/usr/bin/env python3
"""croustade-cli close and reopen: what must not move, and what is carried into the next month.

    test-cli-close.py CROUSTADE-CLI
"""

import csv
import json
import os
import pathlib
import re
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from months import TABLES, Case, call  # noqa: E402


class Closing(Case):
  def test_a_closed_month_never_changes(self):
    self.load()
    opened = self.month()
    self.assertIn(" 1 question left open.\n", self.close("2025-10").stdout)
    before, closed = self.text(), self.month()
    self.assertEqual(closed["state"], "closed")
    for name in ("net_sales", "theoretical_cost", "actual_cost", "over", "closing_stock"):
      self.assertAlmostEqual(closed[name], opened[name], places=5)
    self.add(prices="ingredient,supplier,from,price\nLeek,The market,2025-10-01,40\n",
             lines="into,parent,position,item,amount,unit\nplate,Leek tart,2,Cream,900,ml\n",
             plates="name,course,makes,price\nLeek tart,Main,3,99\n",
             ingredients="name,category,unit\nCream,Other,ml\n",
             selling_prices="name,from,price\nTide,2025-10-01,1\n",
             book="key,value\ntax_pct,20\nname,Other Rooms\n")
    after = self.text().replace("Other Rooms", "Saltmarsh Rooms")
    self.assertEqual(after, before)
    out = self.path("out")
    self.assertEqual(call("dump", self.book, out).returncode, 0)
    again = self.path("again.croustade")
    self.assertEqual(call("load", again, out).returncode, 0)
    self.assertEqual(call("month", again, "2025-10", "--json").stdout,
                     call("month", self.book, "2025-10", "--json").stdout)
    self.assertEqual(call("check", self.book).returncode, 0)

  def test_the_next_month_opens_with_what_was_closed(self):
    """With what is known of it, and each count at its frozen value, whatever it is called since."""
    self.load(ingredients=TABLES["ingredients"] + "Salt,Dry goods,g\n",
              counts=TABLES["counts"] + "2025-10-31,Salt,1,kg\n2025-11-30,Leek,0,g\n2025-11-30,Cream,0,l\n"
                                        "2025-11-30,Egg,0,each\n2025-11-30,Salt,0,g\n2025-11-30,Melted leek,0,g\n")
    before = call("month", self.book, "2025-10").stdout
    self.assertRegex(before, r"Stock on 2025-10-31 +≤ −14\.20")
    self.assertRegex(before, r"Food used +≤ 35\.40")
    self.close("2025-10", status=1)
    self.add(prices="ingredient,supplier,from,price\nCream,The market,2025-10-01,60\n"
                    "Leek,The market,2025-10-01,40\n")
    got = self.month("2025-11")
    cost = {row["name"]: row["actual_cost"] for row in got["ingredients"]}
    # Of 100 g of melted leek at 0.80, as it was frozen; 500 g of leek at 2.
    self.assertEqual({name: round(value, 6) for name, value in cost.items()},
                     {"Leek": 2.8, "Cream": 6, "Egg": 5.4, "Salt": 0})
    text = call("month", self.book, "2025-11").stdout
    self.assertRegex(text, r"Stock on 2025-10-31 +≥ 14\.20")
    self.assertRegex(text, r"Actual food cost +≥ 14\.20")

  def test_undo_does_not_cross_it(self):
    self.load()
    self.add(prices="ingredient,supplier,from,price\nLeek,The market,2025-10-01,40\n")
    self.close("2025-10")
    done = call("undo", self.book)
    self.assertEqual(done.returncode, 2)
    self.assertIn("2025-10 was closed; reopen it first", done.stderr)
    # What came late is no row of the closed month, and may go again.
    before = self.text("2025-11")
    self.add(purchases="date,supplier,document,kind,net_value\n2025-10-30,The market,9,food,80\n")
    self.assertNotEqual(self.text("2025-11"), before)
    self.assertEqual(call("undo", self.book).returncode, 0)
    self.assertEqual(self.text("2025-11"), before)
    call("reopen", self.book, "2025-10", "--reason", "a late count")
    done = call("undo", self.book)
    self.assertEqual(done.returncode, 2)
    self.assertIn("2025-10 was opened again", done.stderr)

  def test_what_cannot_be_kept_is_not_closed(self):
    """A bar code among numbers sold, and a sum beyond what a column holds, which is shown all the same."""
    many = "2025-10-10,The market,,Leek,food,1,kg,9000000000000\n"
    for number, tables in enumerate((
        {"sales": TABLES["sales"] + "2025-10-10,plate,Leek tart,2900640004179,\n"},
        {"purchases": TABLES["purchases"] + many * 2})):
      self.book = self.path(f"{number}.croustade")
      self.load(**tables)
      month = self.month()
      said = self.close("2025-10", status=2).stderr
      self.assertIn("larger than a book can keep; correct what is a slip", said)
      self.assertRegex(said, ("“Leek tart” on .*10.*: sold .*2.?900.?640.?004.?179",
                              "“Leek” on .*10.*: .*9.?000.?000")[number])
      if number == 1:
        self.assertAlmostEqual(month["purchases"]["food"], 18000000000024.6, places=1)
      self.assertEqual(call("check", self.book).returncode, 0)

  def test_what_is_known_of_each_figure_is_frozen(self):
    """Saffron has no price: what it cost, and what is left of it is worth, has a bound on one side or none."""
    self.load(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
              lines=TABLES["lines"] + "plate,Custard,3,Saffron,1,g\n",
              counts=TABLES["counts"] + "2025-09-30,Saffron,3,g\n2025-10-31,Saffron,1,g\n",
              purchases=TABLES["purchases"] + "2025-10-04,The market,3,Saffron,food,10,g,61.2\n")
    for status in (None, 1):
      if status is not None:
        self.close("2025-10", status=status)
      month, text = self.month(), call("month", self.book, "2025-10").stdout
      known = {row["name"]: (row["theoretical_known"], row["actual_known"]) for row in month["ingredients"]}
      self.assertEqual((known["Saffron"], known["Egg"]), (("nothing", "in-part"), ("whole", "whole")))
      self.assertEqual(month["stock_control"]["known"], "at-least")
      self.assertRegex(text, r"(?m)^Saffron +\? +\? +\? 61\.20$")
      self.assertRegex(text, r"(?m)^Dry goods +\? +\? 61\.20$")
      self.assertIn("worth at least", " ".join(text.split()))
      classes = {row["name"]: row["class_is_certain"] for row in month["matrix"]["plates"]["rows"]}
      self.assertEqual(set(classes.values()), {True})

  def test_a_till_that_sales_of_an_unknown_price_go_beyond_is_at_least_so_far_off(self):
    self.load(plates=TABLES["plates"] + "Toast,Starter,1,\n", sales=TABLES["sales"] + "2025-10-05,plate,Toast,5,\n",
              months="month,till_net_revenue\n2025-10,456.5\n")
    for close in (False, True):
      if close:
        self.assertIn("till’s: at least +8.50 difference", self.close("2025-10", status=1).stdout)
      question = next(q for q in self.month()["questions"] if q["about"] == "till")
      self.assertEqual(question["what"], "net sales differ by at least 8.50")
      text = " ".join(call("month", self.book, "2025-10").stdout.split())
      self.assertIn("net sales are not the till’s: at least +8.50 difference", text)

  def test_reopening(self):
    self.load()
    before = self.month()
    self.close("2025-10")
    self.assertEqual(call("reopen", self.book, "2025-10").returncode, 2)
    for reason, says in (("a late\ncount", "line break"), ("a \033[2Jcount", "U+001B")):
      done = call("reopen", self.book, "2025-10", "--reason", reason)
      self.assertEqual((done.returncode, self.month()["state"]), (2, "closed"))
      self.assertIn(says, done.stderr)
    self.assertEqual(call("reopen", self.book, "2025-10", "--reason", "a late count").returncode, 0)
    self.assertEqual(self.month(), before)
    out = self.path("out")
    call("dump", self.book, out)
    with open(os.path.join(out, "months.csv"), encoding="utf-8", newline="") as file:
      row = next(csv.DictReader(file))
    self.assertEqual((row["reason"], row["closed_at"], row["recipes_on"]),
                     ("a late count", "", "2025-10-31"))
    with open(os.path.join(out, "month_rows.csv"), encoding="utf-8", newline="") as file:
      self.assertEqual(list(csv.DictReader(file)), [])
    self.close("2025-10")
    self.close("2025-10", status=2)

  def test_another_closing_stock_is_a_question_in_the_next_month(self):
    self.load(counts=TABLES["counts"] + "2025-11-30,Leek,0,g\n2025-11-30,Cream,0,ml\n"
                                        "2025-11-30,Egg,0,each\n2025-11-30,Melted leek,0,g\n")
    self.close("2025-10")
    self.close("2025-11")
    self.assertEqual(self.month("2025-11")["questions"], [])
    closed = self.text("2025-11")
    call("reopen", self.book, "2025-10", "--reason", "eggs")
    asked = "2025-11 is closed, and opened with a stock of 14.20: that is not what this month has on 2025-10-31"
    # What a change brings up is said at once, and once.
    for table, text, opened, said in (("counts",
                                       "date,item,amount,unit,place\n2025-10-31,Egg,10,each,cold room\n", 1, 1),
                                      ("months", "month,closing_stock_value\n2025-10,14.20\n", 0, 0),
                                      ("months", "month,closing_stock_value\n2025-10,14.21\n", 1, 1),
                                      ("months", "month,closing_stock_value\n2025-10,\n", 1, 0)):
      done = call("add", self.book, self.tables(f"in-{len(os.listdir(self.folder.name))}", {table: text}))
      self.assertEqual((done.returncode, done.stderr.count(asked)), (0, said))
      got = [question["what"] for question in self.month()["questions"] if question["about"] == "2025-11"]
      self.assertEqual(got, ["closed, and opened with another stock than that of 2025-10-31: 14.20"] * opened)
      checked = call("check", self.book)
      self.assertEqual((checked.returncode, checked.stderr.count(f"2025-10: {asked}")), (0, opened))
      self.assertEqual(self.text("2025-11"), closed)
    self.assertIn(asked, " ".join(self.close("2025-10").stdout.split()))
    self.assertIn("2025-11: 2025-10 was closed since, with another stock", call("check", self.book).stderr)
    question, = self.month("2025-11")["questions"]
    self.assertEqual((question["about"], question["what"]),
                     ("2025-10", "closed since with another stock on 2025-10-31"))
    self.assertAlmostEqual(question["explains"], -3, places=5)

  def test_no_stock_is_another_than_one(self):
    """Two figures of one stock are told where one of them is none, once the earlier month is closed too."""
    self.load(counts="".join(line for line in TABLES["counts"].splitlines(True) if "2025-10-31" not in line)
                     + "2025-11-30,Egg,0,each\n")

    def close_anew(value):
      call("reopen", self.book, "2025-10", "--reason", "its stock")
      self.add(months=f"month,closing_stock_value\n2025-10,{value}\n")
      call("close", self.book, "2025-10")
      call("close", self.book, "2025-11")
      told = re.findall("2025-11: 2025-10 was closed since, (.*)", call("check", self.book).stderr)
      return told, [question["what"] for question in self.month("2025-11")["questions"]
                    if question["about"] == "2025-10"]

    again = "Is this month to be reopened too?"
    self.assertEqual(close_anew(""), ([], []))
    self.assertEqual(close_anew("14.20"),
                     ([f"with a stock of 14.20 on 2025-10-31: this month opened without one. {again}"],
                      ["closed since with another stock on 2025-10-31: 14.20"]))
    call("reopen", self.book, "2025-11", "--reason", "its opening")
    self.assertEqual(close_anew("14.20"), ([], []))
    self.assertEqual(close_anew(""),
                     ([f"without a stock on 2025-10-31: this month opened with one. {again}"],
                      ["closed since with another stock on 2025-10-31"]))

  def test_history_tells_how_many_rows_were_frozen(self):
    self.load()
    self.close("2025-10")
    call("reopen", self.book, "2025-10", "--reason", "a late count")
    done = call("history", self.book)
    self.assertEqual(done.returncode, 0, done.stderr)
    reopened, closed = re.split(r"(?m)^(?=\d)", done.stdout)[1:3]
    self.assertRegex(reopened.splitlines()[1], "reason.*a late count")
    for act in (reopened, closed):
      self.assertRegex(act, r"(?m)^  month_rows: \d+ rows of what closing froze$")
      self.assertLess(act.count("\n"), 12)
    acts = json.loads(call("history", self.book, "--json").stdout)
    self.assertGreater(sum(change["table"] == "month_rows" for change in acts[0]["changes"]), 20)

  def test_refusals(self):
    self.load()
    for arguments in (["9998-01"], ["2025-07"], ["2025-10", "--estimate", "-1"], ["2025-10", "--estimate", "12.345"]):
      self.close(*arguments, status=2)
    far = call("close", self.book, "2025-10", "--estimate", "4006381333931")
    self.assertEqual((far.returncode, far.stderr), (2, "--estimate must be below 1000000000000\n"))
    self.assertEqual(call("reopen", self.book, "2025-10", "--reason", "x").returncode, 2)


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

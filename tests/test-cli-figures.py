#!/usr/bin/env python3
"""Figures at their ends: what is too large to be stated, any number of threads, and every kind of
sale on its way through the tables.

    test-cli-figures.py CROUSTADE-CLI DEMO-FOLDER
"""

import csv
import importlib
import json
import os
import subprocess
import sys
import unittest
import zipfile

cli = importlib.import_module("test-cli")
DAY = cli.DAY


def chain(length):
  """Each preparation takes as much as a field holds of the one before, and gives next to nothing:
  a cost grows some 9e15 times at each."""
  names = range(length)
  return {
    "preparations": "name\n" + "".join(f"P{i}\n" for i in names),
    "outputs": "item,preparation,role,amount,unit\n"
               + "".join(f"O{i},P{i},main,0.000001,g\n" for i in names),
    "plates": "name,makes,price\nLeek bite,10,1\nSound,10,1\n",
    "menus": "name,price\nTide,50\n", "menu_plates": "menu,plate\nTide,Leek bite\n",
    "lines": "into,parent,position,item,amount,unit\npreparation,P0,1,Leek,1000,kg\n"
             + "".join(f"preparation,P{i},1,O{i - 1},9000000000,g\n" for i in names[1:])
             + f"plate,Leek bite,1,O{length - 1},1,kg\nplate,Sound,1,Salt,1,g\n",
  }


class Extremes(cli.Case):
  def fill(self, length):
    self.silent("load", self.book, self.tables(chain(length)))
    return self.path("office.xlsx")

  def refuse_texts(self, office):
    says = "cost too large to show"
    for asked in (("--plate", "Leek bite"), ("--menu", "Tide"), ()):
      self.refused("cost", self.book, *asked, says=says)
      self.refused("cost", self.book, "--json", *asked, says=says)
    for json_or_not in ((), ("--json",)):
      self.refused("plan", self.book, "--covers", "Leek bite=1", *json_or_not, says="too large to show")
    self.refused("workbook", self.book, "--month", "2026-11", "-o", office, says=says)
    self.assertFalse(os.path.exists(office))
    self.expect(0, "cost", self.book, "--plate", "Sound")

  def test_what_no_money_can_be_is_refused_in_print(self):
    """For a program as for people, and before the first byte; so is a plan of it."""
    self.refuse_texts(self.fill(3))
    # The sums hold; what is too large is told where it begins, and once.
    done = self.expect(0, "check", self.book)
    self.assertRegex(done.stderr.strip(),
                     r"\AP\d: cost too large to show; .*\nand \d more costs? (is|are) too large to show\Z")

  def test_a_number_of_hundreds_of_digits_ends_nothing(self):
    self.refuse_texts(self.fill(19))
    self.expect(0, "check", self.book)

  def test_what_is_no_number_is_refused_everywhere(self):
    self.refuse_texts(self.fill(25))
    done = self.expect(1, "check", self.book)
    # Each takes 9e9 of the one before and gives a millionth: with leeks of some euros the second one's gram is the
    # first to cost more than 9e12.
    self.assertRegex(done.stderr, r"\AP\d: cost too large to show; .*\nand 2\d more costs are too large to show\n\Z")
    self.assertIn("–    All ingredients add up to all plates (not checked)\n", done.stdout)
    self.assertRegex(done.stdout, r"yes  A batch costs as much as its outputs together \(\d+, not checked: \d+\)\n")
    self.assertNotIn("NO", done.stdout)

  def test_what_is_sold_for_nothing_is_over_its_target(self):
    """It has no percentage, and all of its cost is more than the price leaves for it."""
    plates = cli.SOUND["plates"].replace("Leek bite,10,1", "Leek bite,10,0")
    self.silent("load", self.book, self.tables({"plates": plates}))
    done = self.expect(1, "cost", self.book, "--json")
    plate = json.loads(done.stdout)["plates"][0]
    self.assertEqual((plate["net_price"], plate["food_cost_pct"], plate["target_pct"]), (0, None, 30))
    self.assertIn("Leek bite: over its target: its price is 0", done.stderr)
    self.assertIn("per guest over target", self.expect(1, "cost", self.book).stdout)
    self.assertRegex(self.expect(1, "cost", self.book, "--plate", "Leek bite").stdout, "over target")
    self.expect(1, "workbook", self.book, "--month", "2026-11", "-o", self.path("office.xlsx"))


class Threads(cli.Case):
  def on(self, processors, *arguments):
    """As on a machine of so many processors."""
    mine = sorted(os.sched_getaffinity(0))[:processors]
    return subprocess.run([cli.CLI, *arguments], capture_output=True, check=False,
                          preexec_fn=lambda: os.sched_setaffinity(0, mine))

  def test_two_threads_write_what_one_writes(self):
    if len(os.sched_getaffinity(0)) < 2:
      print("skipped: there is one processor")
      self.skipTest("there is one processor")
    self.silent("load", self.book, cli.DEMO)
    for command in (("cost", self.book, "--on", DAY, "--json"), ("cost", self.book, "--on", DAY),
                    ("check", self.book), ("workbook", self.book, "--month", "2026-11", "-o", "-")):
      one, two = self.on(1, *command), self.on(2, *command)
      self.assertEqual((one.returncode, one.stderr), (two.returncode, two.stderr), command)
      self.assertTrue(one.stdout == two.stdout, f"{command[0]}: other bytes")
      self.assertGreater(len(one.stdout), 100)


class Sales(cli.Case):
  ROWS = [["2026-05-01", "plate", "Leek bite", "12", "54.5"],
          ["2026-05-01", "plate", "Leek bite", "-2", ""],
          ["2026-05-02", "plate", "Leek bite", "0", "-4.5"],
          ["2026-05-02", "other", "Wine by the glass", "31", "217.25"],
          ["2026-05-03", "menu", "Tide", "3", ""]]

  def sales(self, rows):
    text = "date,kind,name,sold,net_revenue\n" + "".join(",".join(row) + "\n" for row in rows)
    return self.tables({"sales": text, "menus": "name,price\nTide,50\n",
                        "menu_plates": "menu,plate\nTide,Leek bite\n"})

  def test_voids_refunds_and_other_sales_come_back_as_they_went_in(self):
    self.silent("load", self.book, self.sales(self.ROWS))
    first = self.dumped(self.book)
    rows = list(csv.reader(first["sales.csv"].splitlines()))[1:]
    self.assertEqual(sorted(rows), sorted(self.ROWS))
    self.silent("load", self.path("again.croustade"), self.path("dumped"))
    self.assertEqual(self.dumped(self.path("again.croustade"), "twice"), first)

  def test_what_says_no_revenue_where_it_must_is_refused(self):
    for row in (["2026-05-02", "plate", "Leek bite", "0", ""],
                ["2026-05-02", "other", "Wine by the glass", "31", ""]):
      self.refused("load", self.path("none.croustade"), self.sales([row]),
                   says="sales.csv:2: net_revenue")


CREDITED = {
  "ingredients": "name,unit,kind,allergens\nLeek,g,food,none\nSalt,g,food,none\nShell,g,food,none\n"
                 "Weed,g,food,none\nPin,each,disposable,none\n",
  "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\nLeek,The market,1,1,kg\n"
            "Shell,The market,1,1,kg\nPin,The market,1,1,each\n",
  "prices": "ingredient,supplier,from,price\nLeek,The market,2026-01-01,4\n"
            "Shell,The market,2026-01-01,10\nPin,The market,2026-01-01,0.05\n",
  "preparations": "name,by_products\nBisque,credit\n",
  "outputs": "item,preparation,role,amount,unit,value\nBisque,Bisque,main,1000,g,\n"
             "Oil,Bisque,by-product,100,g,{value}\n",
  "plates": "name,makes,price,target_pct\nWhole,10,5,30\nOpen,10,5,30\nEmpty,10,5,30\n",
  "menus": "name,price,target_pct\nTide,30,30\nEbb,10,30\n", "menu_plates": "menu,plate\nTide,Whole\nTide,Open\n",
}
LINES = ("into,parent,position,item,amount,unit,weighed\n{batch}plate,Whole,1,Bisque,200,g,\n"
         "plate,Open,1,Leek,100,g,whole\nplate,Open,2,Weed,50,g,whole\nplate,Open,3,Pin,10,each,\n")


class Marks(cli.Case):
  """What is known of a figure, and of what nothing is."""

  def told(self, batch, value="0.02"):
    tables = {**CREDITED, "lines": LINES.format(batch=batch),
              "outputs": CREDITED["outputs"].format(value=value)}
    self.silent("load", self.book, self.tables(tables))
    rows = json.loads(self.expect(1, "cost", self.book, "--json", "--on", "2026-05-01").stdout)
    return {row["name"]: row["missing"] for row in rows["plates"] + rows["menus"]}

  def test_a_credit_counts_on_the_way_from_what_is_missing(self):
    missing = self.told("preparation,Bisque,1,Shell,2,kg,whole\n")
    self.assertEqual(missing["Whole"], [])
    self.assertEqual(missing["Tide"], ["price Weed"])
    said = self.expect(1, "cost", self.book, "--on", "2026-05-01").stdout
    self.assertEqual(said.count("at least: no price for Weed"), 2, "Open and Tide")
    self.assertNotIn("incomplete", said)

  def test_how_much_of_a_by_product_there_is_hangs_on_what_cannot_be_counted(self):
    """A gel of bisque, in one case without a finished amount: more bisque may be taken, which leaves more oil."""
    for amount, known, mark in (("50", "whole", "−"), ("", "in-part", r"\? −")):
      self.book = self.path(f"gel{amount}.croustade")
      self.silent("load", self.book, self.tables({
        **CREDITED, "preparations": CREDITED["preparations"] + "Gel,\n",
        "outputs": CREDITED["outputs"].format(value="0.02") + f"Gel,Gel,main,{amount},g,\n",
        "lines": LINES.format(batch="preparation,Bisque,1,Shell,2,kg,whole\npreparation,Gel,1,Bisque,100,g,\n"
                                    "plate,Whole,2,Gel,10,g,\n")}))
      figures = json.loads(self.expect(1, "cost", self.book, "--json", "--on", "2026-05-01").stdout)
      self.assertEqual([of["known"] for row in figures["plates"] if row["name"] == "Whole"
                        for of in row["by_products"]], [known])
      said = self.expect(1 if mark[0] == "\\" else 0, "cost", self.book, "--plate", "Whole", "--on",
                         "2026-05-01").stdout
      self.assertRegex(said, rf"Oil \(assigned value\)\s+{mark}[0-9.]+ g +\S+ +{mark}")

  def test_a_credit_exceeds_what_is_known_alone(self):
    missing = self.told("preparation,Bisque,1,Salt,2,kg,whole\n")
    self.assertEqual(missing["Whole"], ["price Salt"])
    said = self.expect(1, "cost", self.book, "--on", "2026-05-01").stdout
    self.assertIn("incomplete: no price for Salt", said)

  def test_a_credit_that_exceeds_what_is_known_is_told(self):
    self.assertEqual(self.told("preparation,Bisque,1,Shell,2,kg,whole\n", value="0.5")["Whole"],
                     ["credit Bisque"])

  def test_disposables_are_whole_where_food_is_missing(self):
    self.told("preparation,Bisque,1,Shell,2,kg,whole\n")
    card = self.expect(1, "cost", self.book, "--plate", "Open", "--on", "2026-05-01").stdout
    self.assertRegex(card, r"(?m)^Disposables +0\.05$")

  def test_a_menu_without_plates_is_open(self):
    missing = self.told("preparation,Bisque,1,Shell,2,kg,whole\n")
    self.assertEqual((missing["Ebb"], missing["Empty"]), (["lines Ebb"], ["lines Empty"]))
    for asked in (("--menu", "Ebb"), ("--plate", "Empty")):
      card = self.expect(1, "cost", self.book, *asked, "--on", "2026-05-01").stdout
      self.assertIn("not stated", card)
      self.assertNotIn("none of the 14", card)
    self.assertRegex(self.expect(1, "cost", self.book, "--on", "2026-05-01").stdout, r"(?m)^Ebb +\? +\?")
    office = self.path("office.xlsx")
    self.expect(1, "workbook", self.book, "--month", "2026-05", "-o", office)
    with zipfile.ZipFile(office) as sheets:
      summary = sheets.read("xl/worksheets/sheet1.xml").decode()
    self.assertIn("no plates in Ebb", summary)
    self.assertIn("not known", summary.split("no plates in Ebb")[-1][:200])


if __name__ == "__main__":
  cli.CLI, cli.DEMO = map(os.path.abspath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

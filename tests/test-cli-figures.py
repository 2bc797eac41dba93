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
    self.expect(0, "check", self.book)

  def test_a_number_of_hundreds_of_digits_ends_nothing(self):
    self.refuse_texts(self.fill(19))
    self.expect(0, "check", self.book)

  def test_what_is_no_number_is_refused_everywhere(self):
    self.refuse_texts(self.fill(25))
    done = self.expect(1, "check", self.book)
    self.assertIn("P24", done.stderr + done.stdout)

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


if __name__ == "__main__":
  cli.CLI, cli.DEMO = map(os.path.abspath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

"""A small book of the accountant's, and the commands on it, for the tests of months.

A test that imports it is called with CROUSTADE-CLI and, where it needs that, DEMO-FOLDER.
"""

import json
import os
import sqlite3
import subprocess
import sys
import tempfile
import unittest

import loaded

CLI, DEMO = (os.path.abspath(path) for path in (sys.argv + ["", ""])[1:3])

# A plate of two ingredients and one that is made, sold in October 2025, counted at both its ends.
TABLES = {
  "book": "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\ntax_pct,10\n",
  "ingredients": "name,category,unit\nLeek,Vegetables,g\nCream,Dairy,ml\nEgg,Dairy,each\n",
  "suppliers": "name\nThe market\n",
  "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n"
            "Leek,The market,1,1,kg\nCream,The market,1,1,l\nEgg,The market,30,1,each\n",
  "prices": "ingredient,supplier,from,price\nLeek,The market,2025-01-01,4\n"
            "Cream,The market,2025-01-01,6\nEgg,The market,2025-01-01,9\n",
  "preparations": "name\nMelted leek\n",
  "outputs": "item,preparation,role,amount,unit,lost_pct\nMelted leek,Melted leek,main,500,g,20\n",
  "plates": "name,course,makes,price\nLeek tart,Starter,10,11\nCustard,Dessert,4,5.5\n",
  "menus": "name,price\nTide,22\n",
  "menu_plates": "menu,plate\nTide,Leek tart\nTide,Custard\n",
  "lines": "into,parent,position,item,amount,unit\n"
           "preparation,Melted leek,1,Leek,1,kg\n"
           "plate,Leek tart,1,Melted leek,200,g\nplate,Leek tart,2,Cream,500,ml\n"
           "plate,Custard,1,Cream,400,ml\nplate,Custard,2,Egg,4,each\n",
  "sales": "date,kind,name,sold,net_revenue\n2025-10-03,plate,Leek tart,20,\n"
           "2025-10-03,menu,Tide,10,\n2025-10-20,plate,Leek tart,-2,\n2025-10-20,plate,Custard,0,-5\n"
           "2025-10-21,other,Wine,3,90\n",
  "counts": "date,item,amount,unit\n2025-09-30,Leek,1,kg\n2025-09-30,Cream,2,l\n2025-09-30,Egg,30,each\n"
            "2025-10-31,Leek,500,g\n2025-10-31,Cream,1,l\n2025-10-31,Egg,18,each\n"
            "2025-10-31,Melted leek,100,g\n",
  "purchases": "date,supplier,document,ingredient,kind,amount,unit,net_value\n"
               "2025-10-02,The market,1,Leek,food,3,kg,12\n2025-10-02,The market,1,,other,,,7\n"
               "2025-10-09,The market,2,Cream,food,2,l,12.6\n",
  "adjustments": "date,kind,item,amount,unit,net_value,note\n2025-10-12,staff-meal,Egg,2,each,,\n"
                 "2025-10-13,waste,Cream,100,ml,,\n2025-10-14,transfer-in,,,,3,from the bar\n",
  "months": "month,till_net_revenue,ledger_purchases\n2025-10,465,31.6\n",
}


def call(*arguments, **environment):
  return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                        env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "", **environment})


class Case(unittest.TestCase):
  def setUp(self):
    self.folder = tempfile.TemporaryDirectory()
    self.addCleanup(self.folder.cleanup)
    self.book = self.path("book.croustade")

  def path(self, name):
    return os.path.join(self.folder.name, name)

  def tables(self, name, tables):
    folder = self.path(name)
    os.makedirs(folder, exist_ok=True)
    for table, text in tables.items():
      with open(os.path.join(folder, f"{table}.csv"), "w", encoding="utf-8") as file:
        file.write(text)
    return folder

  def load(self, into=None, **changes):
    folder = self.tables(f"in-{len(os.listdir(self.folder.name))}", {**TABLES, **changes})
    done = loaded.load(call, into or self.book, folder)
    self.assertEqual(done.returncode, 0, done.stderr)
    return into or self.book

  def add(self, **tables):
    done = call("add", self.book, self.tables(f"add-{len(os.listdir(self.folder.name))}", tables))
    self.assertEqual(done.returncode, 0, done.stderr)

  def month(self, month="2025-10", book=None):
    done = call("month", book or self.book, month, "--json")
    self.assertIn(done.returncode, (0, 1), done.stderr)
    return json.loads(done.stdout)

  def backdate(self, day, act=None):
    """As if an act, or all acts, had been made on that day."""
    with sqlite3.connect(self.book) as book:
      if act is None:
        book.execute("UPDATE act SET day = ?", (day,))
      else:
        book.execute("UPDATE act SET day = ? WHERE id >= ?", (day, act))
    book.close()

  def text(self, month="2025-10"):
    return call("month", self.book, month).stdout + call("month", self.book, month, "--json").stdout

  def close(self, *arguments, status=0):
    done = call("close", self.book, *arguments)
    self.assertEqual(done.returncode, status, done.stderr)
    return done

  def tamper(self, how):
    """What another program does to a closed month: past the rules of its columns and the triggers, which are as
    they were after."""
    with sqlite3.connect(self.book) as book:
      book.execute("PRAGMA ignore_check_constraints = ON")
      triggers = book.execute("SELECT name, sql FROM sqlite_master"
                              " WHERE type = 'trigger' AND tbl_name IN ('month', 'month_row')").fetchall()
      for name, _ in triggers:
        book.execute(f'DROP TRIGGER "{name}"')
      book.execute(how if how.split()[0].isupper() else "UPDATE month_row SET " + how)
      for _, sql in triggers:
        book.execute(sql)
    book.close()

  def assertMoney(self, got, expected):
    self.assertAlmostEqual(got, expected, places=9)

#!/usr/bin/env python3
"""croustade-cli add: what rows change, what is asked about them, and history and undo of it.

    test-cli-add.py CROUSTADE-CLI DEMO-FOLDER
"""

import json
import os
import pathlib
import shutil
import socket
import sqlite3
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from sound import DEMO, Case  # noqa: E402


class Added(Case):
  """What a folder changes and adds in a book that holds something."""

  def setUp(self):
    super().setUp()
    self.silent("load", self.book, self.tables({
      "sales": "date,kind,name,sold,net_revenue\n2026-05-01,plate,Leek bite,3,\n"
               "2026-05-01,plate,Leek bite,3,\n"}))
    self.before = self.dumped(self.book)

  def folder_of(self, **tables):
    folder = self.path("more")
    shutil.rmtree(folder, ignore_errors=True)
    os.mkdir(folder)
    for table, text in tables.items():
      with open(os.path.join(folder, table + ".csv"), "w", encoding="utf-8") as file:
        file.write(text)
    return folder

  def history(self, *arguments):
    return json.loads(self.expect(0, "history", self.book, "--json", *arguments).stdout)

  def test_rows_are_changed_and_added_by_key_and_none_removed(self):
    folder = self.folder_of(
      prices="ingredient,supplier,from,price\nLeek,The market,2026-01-01,5\n"
             "Leek,The market,2026-06-01,6\n",
      ingredients="name,unit,allergens\nChive,g,\nSalt,g,\n",
      plates="name,note\nLeek bite,new\n")
    tried = self.expect(0, "add", self.book, folder, "--dry-run")
    self.assertEqual(self.dumped(self.book), self.before, "a dry run changes nothing")
    done = self.expect(0, "add", self.book, folder)
    self.assertEqual(done.stdout, tried.stdout, "and says what would change")
    self.assertIn("nothing was changed", tried.stderr)
    for line in ("prices: Leek,The market,,2026-01-01: price 4 → 5",
                 "ingredients: Salt: allergens none → –", "plates: Leek bite: note – → new",
                 "new in ingredients: Chive"):
      self.assertIn(line, done.stdout)
    after = self.dumped(self.book)
    changed = {name for name in after if after[name] != self.before[name]}
    self.assertEqual(changed, {"prices.csv", "ingredients.csv", "plates.csv"})
    self.assertIn("Salt,,food,g,,,100,", after["ingredients.csv"], "an absent column keeps, an empty cell clears")
    self.assertIn("Leek bite,,10,", after["plates.csv"], "what a folder does not say stays")
    self.assertEqual(len(self.history()), 2, "it is one act")
    again = self.expect(0, "add", self.book, folder)
    self.assertIn("has all of this already", again.stderr)
    self.assertEqual(again.stdout, "")
    self.assertEqual(len(self.history()), 2, "what changes nothing is no act")

  def test_what_has_no_date_and_moves_the_past_is_said(self):
    for tables, said in (({"plates": "name,price\nLeek bite,9\n"}, ["plates: Leek bite: price "]),
                         ({"book": "key,value\ntax_pct,7\n"}, ["book: tax_pct: value "]),
                         ({"selling_prices": "name,from,price\nLeek bite,2026-05-01,8\n"}, []),
                         ({"plates": "name,note\nLeek bite,new\n"}, [])):
      done = self.expect(0, "add", self.book, self.folder_of(**tables))
      self.assertEqual([line.split("has no date")[0] for line in done.stderr.splitlines()], said)

  def test_what_is_probably_not_meant_is_asked_about(self):
    # 4006381333931 is a sound GTIN-13 by the check digit of the GS1 General Specifications.
    bar_code = "“Leek bite” on 2026-05-02: sold 4006381333931. Is that a bar code?"
    till = {"sales": "date,kind,name,sold,net_revenue\n2026-05-02,plate,Leek bite,4006381333931,\n"}
    tried = self.expect(0, "add", self.book, self.folder_of(**till), "--dry-run")
    self.assertEqual(tried.stderr.splitlines(), ["dry run; nothing was changed", bar_code])
    done = self.expect(0, "add", self.book, self.folder_of(**till))
    self.assertEqual(done.stderr.splitlines(), [bar_code])
    done = self.expect(0, "add", self.book, self.folder_of(
      sales="date,kind,name,sold,net_revenue\n2026-05-03,plate,Leek bite,4,\n"))
    self.assertEqual(done.stderr, "", "a day that nothing was added to is not asked about again")
    done = self.expect(0, "add", self.book, self.folder_of(
      plates="name,target_pct\nLeek bite,0.3\n", book="key,value\ntarget_pct,30\n"))
    self.assertEqual(len(done.stderr.splitlines()), 1)
    self.assertIn("0.3", done.stderr)
    done = self.expect(0, "add", self.book, self.folder_of(plates="name,note\nLeek bite,new\n"))
    self.assertEqual(done.stderr, "", "what was asked before is not asked again")
    other = self.path("other.croustade")
    self.expect(0, "dump", self.book, self.path("all"))
    self.assertIn(bar_code, self.expect(0, "load", other, self.path("all")).stderr.splitlines())

  def test_what_is_no_folder_is_refused_in_plain_words(self):
    file, pipe, unix, loop = (self.path(name) for name in ("file", "pipe", "unix", "loop"))
    with open(file, "w", encoding="utf-8") as to:
      to.write("x")
    os.mkfifo(pipe)
    os.symlink("loop", loop)
    with socket.socket(socket.AF_UNIX) as bound:
      bound.bind(unix)
    there = sorted(os.listdir(self.path("")))
    for path in ("/dev/null", file, pipe, unix, os.path.join(file, "in")):
      for arguments in (("dump", self.book, path), ("load", self.path("new.croustade"), path),
                        ("add", self.book, path)):
        self.refused(*arguments, says=f"{path}: a folder is needed here, and this path is, or leads through, a file")
    prices = ("--supplier", "The market", "--from", "2026-05-01")
    for path in (pipe, unix, "/dev/null"):
      self.refused("prices", self.book, path, *prices, says=f"{path}: this is not a file but a pipe or a device")
      self.refused("check", path, says=f"{path}: this is not a file but a pipe or a device")
    self.refused("prices", self.book, self.path(""), *prices, says="this is a folder; name a file")
    self.refused("prices", self.book, loop, *prices, says="this link leads back to itself")
    for command in ("check", "cost"):
      self.refused(command, loop, says="this link leads back to itself")
      self.refused(command, self.path("n" * 300), says="this name is too long")
    self.assertEqual(sorted(os.listdir(self.path(""))), there, "nothing is left half done")

  def test_equal_rows_are_told_and_not_added(self):
    sale = "2026-05-01,plate,Leek bite,3,\n"
    folder = self.folder_of(sales="date,kind,name,sold,net_revenue\n" + 3 * sale
                                  + "2026-05-02,plate,Leek bite,1,\n")
    done = self.expect(0, "add", self.book, folder)
    self.assertEqual([line.split(": ")[0] for line in done.stderr.splitlines()],
                     ["sales.csv:2", "sales.csv:3"], "as many as the book has are passed over")
    self.assertEqual(self.dumped(self.book)["sales.csv"].count("2026-05-01"), 3)
    done = self.expect(0, "add", self.book, folder, "--again")
    self.assertEqual(done.stderr, "")
    self.assertEqual(self.dumped(self.book)["sales.csv"].count("2026-05-01"), 6)

  def test_faults_are_all_told_and_nothing_is_changed(self):
    folder = self.folder_of(
      prices="ingredient,supplier,from,price\nKale,The market,2026-01-01,5\n",
      plates="name,note\nOther bite,no makes\n",
      lines="into,parent,position,item,amount,unit\nplate,Leek bite,1,Leek,480,pinch\n",
      ingredients="name,trim_yield_pct\nLeek,0\n")
    done = self.refused("add", self.book, folder, says="4 errors; nothing was changed")
    for place in ("prices.csv:2: ingredient: ", "plates.csv:2: makes: ", "lines.csv:2: unit: ",
                  "ingredients.csv:2: trim_yield_pct: "):
      self.assertIn(place, done.stderr)
    self.assertEqual(self.dumped(self.book), self.before)
    self.refused("add", self.path("none.croustade"), folder, says="no such file")
    done = self.refused("add", self.book, self.path("none"), says="no such file or folder")
    self.assertEqual(done.stderr.count(self.path("none")), 1, "the path is said once")

  def test_a_book_added_to_itself_changes_nothing(self):
    self.silent("load", self.path("demo.croustade"), DEMO)
    self.book = self.path("demo.croustade")
    before = self.dumped(self.book)
    for folder in (DEMO, self.path("dumped")):
      done = self.expect(0, "add", self.book, folder)
      self.assertEqual(done.stdout, "", folder)
    self.assertEqual(self.dumped(self.book, "after"), before)

  def test_history_tells_tables_keys_and_texts(self):
    self.expect(0, "add", self.book, self.folder_of(
      lines="into,parent,position,item,amount,unit\nplate,Leek bite,1,Leek,0.5,kg\n"))
    self.expect(0, "add", self.book, self.folder_of(book="key,value\ntarget_pct,27.5\n"))
    newest, before, first = self.history()
    self.assertEqual(newest["changes"], [{"table": "book", "key": "target_pct", "column": "value",
                                          "from": "30", "to": "27.5"}])
    self.assertEqual(before["changes"],
                     [{"table": "lines", "key": "plate,Leek bite,1", "column": "amount",
                       "from": "480", "to": "0.5"},
                      {"table": "lines", "key": "plate,Leek bite,1", "column": "unit",
                       "from": "g", "to": "kg"}])
    self.assertEqual((newest["act"], before["act"], first["act"]), (3, 2, 1), "newest first")
    self.assertEqual(first["changes"], [], "a filled book keeps no rows")
    self.assertRegex(newest["at"], r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$")
    self.assertEqual((newest["label"], newest["undone_by"]), ("tables added from more", None))
    self.assertEqual([act["act"] for act in self.history("--last", "1")], [3])
    self.assertIn("book: target_pct: value 30 → 27.5", self.expect(0, "history", self.book).stdout)

  def test_history_keeps_names_as_they_were(self):
    self.expect(0, "add", self.book, self.folder_of(plates="name,note\nLeek bite,old\n"))
    book = sqlite3.connect(self.book)
    book.execute("INSERT INTO act (label, desk, verb, first_change)"
                 " SELECT 'Rename', 'x', 'do', max (id) + 1 FROM change")
    book.execute("UPDATE thing SET name = 'Leek, fried' WHERE name = 'Leek bite'")
    book.execute("UPDATE act SET at = '2099-01-01T00:00:00Z' WHERE at IS NULL")
    book.commit()
    book.close()
    renamed, noted, _ = self.history()
    self.assertEqual(renamed["changes"], [{"table": "plates", "key": "Leek, fried", "column": "name",
                                           "from": "Leek bite", "to": "Leek, fried"}])
    self.assertEqual(noted["changes"][0]["key"], "Leek bite")

  def test_undo_takes_back_the_last_or_a_named_act(self):
    for price in (5, 6):
      self.expect(0, "add", self.book, self.folder_of(
        prices=f"ingredient,supplier,from,price\nLeek,The market,2026-01-01,{price}\n"))
    done = self.refused("undo", self.book, "2", says="act 3, “tables added from more”, has changed "
                                                     "this since; undo that first")
    self.assertEqual(done.stderr.count("\n"), 1)
    done = self.expect(0, "undo", self.book)
    self.assertIn("prices: Leek,The market,,2026-01-01: price 6 → 5", done.stdout)
    self.expect(0, "undo", self.book, "2")
    self.assertEqual(self.dumped(self.book), self.before)
    acts = self.history()
    self.assertEqual([(a["act"], a["undone_by"]) for a in acts],
                     [(5, None), (4, None), (3, 4), (2, 5), (1, None)])
    self.expect(0, "undo", self.book, "5")
    self.assertIn("2026-01-01,5", self.dumped(self.book)["prices.csv"], "an undo is taken back too")
    self.refused("undo", self.book, "3", says="no act 3, or it is undone already")
    self.refused("undo", self.book, "77", says="no act 77")
    self.refused("undo", self.book, "two", says="not the number of an act")
    self.refused("undo", self.book, "1", says="the filling of an empty book cannot be undone")

  def test_a_tills_name_goes_with_what_undo_takes_back(self):
    self.expect(0, "add", self.book, self.folder_of(menus="name,price\nEbb,50\n"))
    self.expect(0, "add", self.book, self.folder_of(
      till_names="name,kind,sold_as\nEB,menu,Ebb\nLB,plate,Leek bite\n"))
    self.expect(0, "undo", self.book, "2")
    dumped = self.dumped(self.book)
    self.assertEqual(dumped["till_names.csv"], "name,kind,sold_as\nLB,plate,Leek bite\n")
    self.silent("load", self.path("second.croustade"), self.path("dumped"))
    self.assertEqual(self.dumped(self.path("second.croustade"), "again"), dumped)

  def test_undo_does_not_cross_a_closed_month(self):
    self.expect(0, "add", self.book, self.folder_of(
      sales="date,kind,name,sold\n2026-06-01,plate,Leek bite,7\n"))
    self.expect(0, "add", self.book, self.folder_of(
      months="month,closed_at\n2026-06,2026-07-01T08:00:00Z\n"))
    self.refused("undo", self.book, "2", says="2026-06 was closed")


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

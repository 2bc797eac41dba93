#!/usr/bin/env python3
"""The contract of croustade-cli: commands, exit statuses, what goes to which stream.

    test-cli.py CROUSTADE-CLI DEMO-FOLDER

Exit status: 0 done, 1 done and incomplete or over a limit, 2 refused with nothing changed,
3 the system failed with nothing changed.
"""

import errno
import json
import os
import pathlib
import resource
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import unittest
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from sound import CLI, DAY, DEMO, SOUND, Case, call  # noqa: E402

COMMANDS = ("new", "load", "dump", "add", "cost", "plan", "history", "undo", "workbook", "check")


def full_disk():
  """No file may grow: writes fail as on a full disk, as long as the signal is ignored."""
  resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))


class Usage(Case):
  def test_help_is_a_result(self):
    done = self.expect(0, "--help")
    self.assertEqual(done.stderr, "")
    for command in COMMANDS:
      self.assertRegex(done.stdout, rf"(?m)^  {command} ", "help names every command")

  def test_each_command_has_help(self):
    for command in COMMANDS:
      done = self.expect(0, command, "--help")
      self.assertIn("BOOK", done.stdout)
      self.assertEqual(done.stderr, "")

  def test_version_is_one_line(self):
    self.assertRegex(self.expect(0, "--version").stdout, r"\Acroustade-cli \d+\.\d+\.\d+\n\Z")

  def test_wrong_usage_is_refused(self):
    for arguments in ((), ("bogus",), ("--bogus",), ("cost",), ("cost", "--bogus", self.book),
                      ("load", self.book), ("dump", self.book), ("new",),
                      ("new", self.book, "more"), ("check", self.book, "more")):
      self.refused(*arguments)
    self.assertFalse(os.path.exists(self.book), "a wrong use makes no book")

  def test_wrong_usage_says_what_lacks(self):
    for arguments, says in ((("dump", self.book), "FOLDER is missing."), (("check",), "BOOK is missing."),
                            (("month", self.book), "YYYY-MM is missing."),
                            (("undo", self.book, "1", "2"), "Unexpected argument “2”")):
      self.refused(*arguments, says=says)


class Books(Case):
  def test_new_makes_an_empty_book(self):
    self.silent("new", self.book)
    self.expect(0, "check", self.book)
    self.expect(0, "cost", self.book)

  def test_new_leaves_what_is_there(self):
    with open(self.book, "w", encoding="utf-8") as file:
      file.write("mine")
    self.refused("new", self.book)
    with open(self.book, encoding="utf-8") as file:
      self.assertEqual(file.read(), "mine")

  def test_what_is_not_a_book_is_refused(self):
    foreign, text = self.path("foreign"), self.path("text")
    with sqlite3.connect(foreign) as other:
      other.execute("CREATE TABLE line (id INTEGER)")
    other.close()
    with open(text, "w", encoding="utf-8") as file:
      file.write("Leeks, 2 kg\n" * 500)
    for path in (foreign, text):
      with open(path, "rb") as file:
        before = file.read()
      for arguments in (("cost", path), ("check", path), ("dump", path, self.path("out")),
                        ("load", path, self.tables())):
        self.refused(*arguments, says="not a book")
      with open(path, "rb") as file:
        self.assertEqual(file.read(), before, "what is not a book is left as it was")

  def test_a_book_that_is_not_there_is_refused(self):
    for arguments in (("cost", self.book), ("check", self.book),
                      ("dump", self.book, self.path("out"))):
      self.refused(*arguments)
    self.assertFalse(os.path.exists(self.book))

  def test_a_truncated_book_is_told(self):
    self.begin()
    with open(self.book, "r+b") as file:
      file.truncate(os.path.getsize(self.book) // 2)
    for command in ("cost", "check"):
      done = call(command, self.book)
      self.assertIn(done.returncode, (1, 3), "half a book is not costed as if it were whole")
      self.assertNotEqual(done.stderr, "")

  def test_a_folder_is_no_book_and_a_book_needs_a_folder(self):
    for command in ("cost", "check"):
      self.refused(command, self.folder, says="this is a folder, not a book")
    self.refused("load", self.folder, self.tables(), says="this is a folder, not a book")
    for path in (self.path("no/book"), os.path.join(self.tables(), "book.csv", "book")):
      for arguments in (("new", path), ("load", path, self.tables()), ("cost", path)):
        done = self.refused(*arguments, says="no such file or folder")
        self.assertEqual(done.stderr.count(path), 1, "the path is said once")

  def test_a_result_that_cannot_be_written_is_a_failure(self):
    self.begin()
    for arguments in (("cost", self.book), ("cost", self.book, "--json"), ("check", self.book),
                      ("--help",)):
      with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run([CLI, *arguments], stdout=full, stderr=subprocess.PIPE, check=False)
      self.assertEqual(done.returncode, 3, " ".join(arguments))

  def test_a_change_that_cannot_be_told_is_done(self):
    self.begin()
    more = self.tables(dict.fromkeys(SOUND), "more")
    with open(os.path.join(more, "plates.csv"), "w", encoding="utf-8") as file:
      file.write("name,makes,price\nLeek bite,12,1\n")
    for changes, arguments in ((False, ("add", self.book, more, "--dry-run")),
                               (True, ("add", self.book, more)), (True, ("undo", self.book))):
      before = self.dumped(self.book)
      with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run([CLI, *arguments], stdout=full, stderr=subprocess.PIPE, encoding="utf-8",
                              env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""}, check=False)
      self.assertEqual(self.dumped(self.book) != before, changes, arguments)
      self.assertEqual(done.returncode, 1 if changes else 3, "3 says that nothing is changed")
      self.assertEqual("The change itself is done" in done.stderr, changes)

  def test_no_file_replaces_a_book(self):
    self.begin()
    names = ("other.croustade", "hidden.xlsx", "hidden.pdf", "hidden.csv")
    for name in names:
      shutil.copy(self.book, self.path(name))
    before = pathlib.Path(self.book).read_bytes()
    for arguments in (("workbook", self.book, "--month", "2026-01", "-o"), ("card", self.book, "--all", "-o"),
                      ("allergens", self.book, "-o"),
                      ("plan", self.book, "--covers", "Leek bite=10", "-o")):
      for name in (*names, "new.croustade"):
        self.refused(*arguments, self.path(name))
    self.assertFalse(os.path.exists(self.path("new.croustade")))
    for name in names:
      self.assertEqual(pathlib.Path(self.path(name)).read_bytes(), before, name)
    self.refused("workbook", self.book, "--month", "2026-01", "-o", self.path("hidden.xlsx"),
                 says="this names a book; name another file")

  def test_a_full_disk_is_told_of_cards(self):
    self.begin()
    # cairo 1.18 keeps what it could not write.
    environment = {**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "",
                   "ASAN_OPTIONS": os.environ.get("ASAN_OPTIONS", "") + ":detect_leaks=0"}
    for path in ("cards", "cards.pdf"):
      done = subprocess.run([CLI, "card", self.book, "--all", "-o", self.path(path)], capture_output=True,
                            encoding="utf-8", env=environment, check=False, restore_signals=False,
                            preexec_fn=full_disk)
      self.assertEqual(done.returncode, 3)
      self.assertIn(os.strerror(errno.EFBIG), done.stderr, "the system's own reason")

  def test_a_disk_that_fills_says_which_cards_are_there(self):
    self.silent("load", self.book, self.tables({"plates": "name,makes,price\nLeek bite,10,1\nEnd,10,1000\n",
      "lines": SOUND["lines"] + "".join(f"plate,End,{n},Salt,{n},g\n" for n in range(1, 300))}))
    names = ("--plate", "Leek bite", "--plate", "End")
    self.expect(0, "card", self.book, *names, "-o", self.path("whole"))
    small, large = sorted(os.path.getsize(os.path.join(self.path("whole"), name))
                          for name in os.listdir(self.path("whole")))
    limit = (small + large) // 2
    done = subprocess.run([CLI, "card", self.book, *names, "-o", self.path("cards")], capture_output=True,
                          encoding="utf-8", env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""}, check=False,
                          restore_signals=False,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)))
    self.assertEqual(done.returncode, 3, done.stderr)
    self.assertIn("the first 1 of 2 cards is in the folder", done.stderr)
    self.assertEqual(len(os.listdir(self.path("cards"))), 1)

  def test_a_reader_that_goes_away_leaves_no_file(self):
    self.begin()
    os.mkdir(self.path("passing"))
    for arguments in (("workbook", self.book, "--month", "2026-01", "-o", "-"),
                      ("card", self.book, "--all", "-o", "-"), ("cost", self.book, "--json"),
                      ("history", self.book), ("check", self.book)):
      reader, writer = os.pipe()
      os.close(reader)
      done = subprocess.run([CLI, *arguments], stdout=writer, stderr=subprocess.DEVNULL, check=False,
                            env={**os.environ, "TMPDIR": self.path("passing")})
      os.close(writer)
      self.assertEqual(done.returncode, -signal.SIGPIPE)
      self.assertEqual(os.listdir(self.path("passing")), [])
      self.assertEqual([name for name in os.listdir(os.path.dirname(self.book)) if name.endswith(("-wal", "-shm"))], [])

  def test_a_full_disk_is_the_systems_failure(self):
    self.begin()
    before = self.dumped(self.book)
    other = self.tables({"plates": "name,makes,price\nLeek bite,12,1\n"}, "other")

    for arguments in (("load", self.book, other, "--replace"),
                      ("load", self.path("second.croustade"), other),
                      ("new", self.path("third.croustade")),
                      ("dump", self.book, self.path("out"))):
      done = subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8",
                            check=False, restore_signals=False, preexec_fn=full_disk)
      self.assertEqual(done.returncode, 3, f"{arguments}: {done.stderr}")
      self.assertNotEqual(done.stderr, "")
    self.assertEqual(self.dumped(self.book), before, "a full disk changes nothing")


class Tables(Case):
  def test_a_dump_loads_into_an_equal_book(self):
    self.begin(DEMO)
    first = self.dumped(self.book)
    self.silent("load", self.path("second.croustade"), self.path("dumped"))
    self.assertEqual(self.dumped(self.path("second.croustade"), "again"), first)
    self.assertIn("ingredients.csv", first)

  def test_load_into_what_holds_something_wants_replace(self):
    self.begin()
    before = self.dumped(self.book)
    other = self.tables({"plates": "name,makes,price\nLeek bite,12,1\n"}, "other")
    self.refused("load", self.book, other, says="--replace")
    self.assertEqual(self.dumped(self.book), before, "a refused load changes nothing")
    self.silent("load", self.book, other, "--replace")
    self.assertIn("Leek bite,,12", self.dumped(self.book)["plates.csv"])

  def test_load_fills_an_empty_book(self):
    self.silent("new", self.book)
    self.begin()
    self.expect(0, "cost", self.book)

  def test_every_fault_is_told_with_its_place(self):
    folder = self.tables({
      "ingredients": "name,unit,trim_yield_pct\nLeek,g,eighty\nSalt,pinch,100\n",
      "prices": "ingredient,supplier,from,price\nLeek,The market,2026-13-01,4\n"
                "Kelp,The market,2026-01-01,4\n",
    })
    done = self.refused("load", self.book, folder)
    places = [line.split(": ")[:2] for line in done.stderr.splitlines()[:-1]]
    for place in (["ingredients.csv:2", "trim_yield_pct"], ["ingredients.csv:3", "unit"],
                  ["prices.csv:2", "from"], ["prices.csv:3", "ingredient"]):
      self.assertIn(place, places)
    for line in done.stderr.splitlines()[:-1]:
      self.assertRegex(line, r"\A\w+\.csv:\d+: (\w+: )?\S")
    self.assertRegex(done.stderr.splitlines()[-1], r"\A\d+ errors; nothing was changed\Z")
    self.assertFalse(os.path.exists(self.book), "a refused load makes no book")

  def test_a_table_that_is_no_comma_separated_utf8_is_told_once(self):
    semicolons = SOUND["ingredients"].replace(",", ";")
    for text, codec, says in (
        (semicolons, "utf-8", "the columns are separated by semicolons; save the table with commas"),
        (semicolons.replace("name", '"name"'), "utf-8-sig", "semicolons"),
        (semicolons.replace(";", "\t"), "utf-8", "the columns are separated by tabs"),
        (SOUND["ingredients"], "utf-16", "this is UTF-16 text; save the table as UTF-8"),
        (SOUND["ingredients"], "utf-16-le", "UTF-16"), (SOUND["ingredients"], "utf-16-be", "UTF-16"),
    ):
      folder = self.tables()
      with open(os.path.join(folder, "ingredients.csv"), "w", encoding=codec) as file:
        file.write(text)
      done = self.refused("load", self.book, folder, says=says)
      self.assertEqual(done.stderr.splitlines()[1:], ["1 error; nothing was changed"])

  def test_a_semicolon_in_a_field_is_text(self):
    self.silent("load", self.book, self.tables({"suppliers": "name\nQuay; and sons\n"
                                                             "The market\n"}))

  def test_many_faults_are_counted(self):
    bad = "name,unit\n" + "".join(f"Herb {i},pinch\n" for i in range(3345))
    done = self.refused("load", self.book, self.tables({
        "ingredients": bad, "offers": None, "prices": None, "plates": None, "lines": None}))
    lines = done.stderr.splitlines()
    self.assertEqual(len(lines), 1002)
    self.assertEqual(lines[1000:], ["and 2345 more", "3345 errors; nothing was changed"])

  def test_faults_leave_a_book_as_it_was(self):
    self.begin()
    before = self.dumped(self.book)
    folder = self.tables({"suppliers": "name,colour\nThe market,blue\n"}, "other")
    self.refused("load", self.book, folder, "--replace", says="suppliers.csv:1: colour: ")
    self.assertEqual(self.dumped(self.book), before)

  def test_unknown_tables_and_folders_are_refused(self):
    self.refused("load", self.book, self.tables({"guests": "name\nA\n"}), says="guests.csv")
    self.refused("load", self.book, self.path("nowhere"))
    self.assertFalse(os.path.exists(self.book))

  def test_preparations_that_go_round_are_refused_by_name(self):
    folder = self.tables({
      "preparations": "name\nGel\nInfusion\n",
      "outputs": "item,preparation,role,amount,unit\nGel,Gel,main,100,g\n"
                 "Infusion,Infusion,main,100,g\n",
      "lines": "into,parent,position,item,amount,unit\npreparation,Gel,1,Infusion,50,g\n"
               "preparation,Infusion,1,Gel,50,g\nplate,Leek bite,1,Gel,50,g\n",
    })
    self.assertRegex(self.refused("load", self.book, folder).stderr, r"(Gel|Infusion) → ")


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


class Names(Case):
  def test_a_name_that_looks_empty_is_none(self):
    for name in ("\u200b", "\u2060\ufeff", "\u00a0\u200b"):
      self.refused("load", self.book, self.tables({"suppliers": f"name\nThe market\n{name}\n"}),
                   says="suppliers.csv:3")
    self.silent("load", self.book,
                self.tables({"suppliers": "name\n\u200bThe market\ufeff\n"}))


class Damaged(Case):
  """What no book can hold, written by another program."""

  def write_raw(self, sql):
    db = sqlite3.connect(self.book, isolation_level=None)
    db.executescript("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; BEGIN;"
                     "INSERT INTO act (label, desk, verb, first_change)"
                     " SELECT 'raw', 'raw', 'do', ifnull (max (id), 0) + 1 FROM change;" + sql
                     + "; UPDATE act SET at = '2026-01-01T00:00:00Z' WHERE at IS NULL; COMMIT")
    db.close()

  def test_no_workbook_is_made_of_prices_that_no_book_can_hold(self):
    older = "INSERT INTO price (offer, from_date, price_micro, pack_unit) VALUES "
    for sql in (older + "(1, '2020-99-99', 1, NULL)", older + "(77, '2020-01-01', 1, NULL)",
                older + "(1, '2020-01-01', -1, NULL)", older + "(1, '2020-01-01', 1, 'jar')"):
      if os.path.exists(self.book):
        os.unlink(self.book)
      self.begin()
      self.write_raw(sql)
      done = self.expect(3, "workbook", self.book, "--month", "2026-11", "-o",
                         self.path("w.xlsx"))
      self.assertIn("damaged", done.stderr)
      self.assertFalse(os.path.exists(self.path("w.xlsx")))

  def workbook_of(self, status, sql):
    """The sheets of the workbook of the demo book, changed by sql; None where none is made."""
    for path in (self.book, self.path("w.xlsx")):
      if os.path.exists(path):
        os.unlink(path)
    self.begin(DEMO)
    self.write_raw(sql)
    done = self.expect(status, "workbook", self.book, "--month", "2026-10", "-o", self.path("w.xlsx"))
    if not os.path.exists(self.path("w.xlsx")):
      self.assertIn("too large", done.stderr)
      return None
    with zipfile.ZipFile(self.path("w.xlsx")) as package:
      return "".join(package.read(name).decode() for name in package.namelist()
                     if name.startswith("xl/worksheets/"))

  def test_control_totals_agree_whatever_the_money(self):
    """Or no workbook is made, where amounts are none that anybody means."""
    sheets = self.workbook_of(1, "UPDATE price SET price_micro = 9000000000000000")
    self.assertIn("<v>agrees</v>", sheets)
    self.assertNotIn("<v>does not agree</v>", sheets)
    self.assertIsNone(self.workbook_of(2, "UPDATE recipe_line SET amount_micro = 9000000000000000"))

  def test_a_path_is_said_once(self):
    self.begin()
    done = call("dump", self.book, "/dev/null")
    self.assertNotEqual(done.returncode, 0)
    self.assertEqual(done.stderr.count("/dev/null"), 1, done.stderr)

  def test_a_full_disk_is_told_as_one(self):
    self.begin()
    more = self.tables({"suppliers": "name\nThe market\nThe quay\n"}, name="more")
    done = subprocess.run([CLI, "add", self.book, more], capture_output=True, encoding="utf-8",
                          check=False, restore_signals=False, preexec_fn=full_disk)
    self.assertEqual(done.returncode, 3)
    self.assertIn("full", done.stderr)

  def test_a_full_disk_leaves_no_log(self):
    """What reads and what fails to write leaves the folder as it was."""
    self.begin()
    more = self.tables({"suppliers": "name\nThe market\nThe quay\n"}, name="more")
    before = sorted(os.listdir(self.folder))
    for status, *arguments in ((0, "check", self.book), (0, "cost", self.book),
                               (3, "add", self.book, more), (3, "undo", self.book)):
      done = subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                            restore_signals=False, preexec_fn=full_disk)
      self.assertEqual(done.returncode, status, done.stderr)
      self.assertEqual(sorted(os.listdir(self.folder)), before, arguments[0])

  def test_a_name_that_is_a_logs_is_refused(self):
    for ending in ("-wal", "-shm", "-journal"):
      path = self.book + ending
      for arguments in (("new", path), ("load", path, self.tables())):
        self.refused(*arguments, says="ends in -wal, -shm or -journal")
      self.silent("load", self.path("sound.croustade"), self.tables())
      os.rename(self.path("sound.croustade"), path)
      for command in ("check", "cost"):
        self.refused(command, path, says="ends in -wal, -shm or -journal")
      os.unlink(path)

  def test_a_dump_asks_for_a_folder_of_its_own(self):
    self.begin()
    home = self.path("home")
    os.makedirs(os.path.join(home, "pictures"))
    self.refused("dump", self.book, home, says="holds other things")
    self.refused("dump", self.book, "/", says="holds other things")
    self.assertEqual(os.listdir(home), ["pictures"])
    for name, make in (("link", lambda path: os.symlink("/nowhere", path)), ("folder", os.mkdir)):
      os.mkdir(self.path(name))
      make(os.path.join(self.path(name), "lines.csv"))
      self.refused("dump", self.book, self.path(name), says="“lines.csv” in this folder is not a file")
      self.assertEqual(os.listdir(self.path(name)), ["lines.csv"])
    self.silent("dump", self.book, self.tables(name="there"))

  def test_an_empty_argument_is_refused(self):
    self.begin()
    for arguments in (("load", self.book, ""), ("load", "", self.tables()), ("new", ""),
                      ("dump", self.book, ""), ("check", ""), ("undo", self.book, "")):
      self.refused(*arguments, says="An argument is empty")

  def test_what_follows_two_hyphens_is_an_argument(self):
    """In every command, before what looks like an option and what does not."""
    os.chdir(self.folder)
    self.addCleanup(os.chdir, "/")
    self.tables(name="-t")
    for name in ("book", "-book"):
      self.silent("load", "--", name, "-t")
      self.silent("new", "--", name + "2")
      self.silent("dump", "--", name, "-out")
      self.expect(0, "add", "--", name, "-t")
      self.expect(0, "cost", "--json", "--", name)
      self.expect(0, "--", "cost", "--", name)
      self.expect(0, "plan", "--covers", "Leek bite=2", "--", name)
      self.expect(0, "history", "--", name)
      self.expect(0, "check", "--", name)
      self.expect(0, "workbook", "--month", "2026-03", "-o", name + ".xlsx", "--", name)
      self.refused("undo", "--", name, "7", says="there is no act 7")
      self.refused("undo", "--", name, "--", says="is not the number of an act")
      self.refused("cost", "--", name, "--json", says="Usage: croustade-cli cost BOOK")

  def test_no_name_of_a_file_moves_the_cursor(self):
    """Nor does it turn text, begin a line, or stand there in bytes that are no text."""
    self.begin()
    for name, shown in (("a\x1b[31mb", "a\\x1B[31mb"), ("a\u202eb", "a\\u202Eb"),
                        ("a\nb", "a\\nb"), ("a\rb", "a\\x0Db"), ("a\udc9bb", "a\\x9Bb"),
                        ("été", "été")):
      for arguments in (("cost", name), ("load", self.book, name), ("check", name), (name,),
                        ("cost", self.book, "--on", name), ("undo", self.book, name)):
        done = subprocess.run([CLI, *arguments], capture_output=True, check=False)
        self.assertEqual(done.returncode, 2, arguments)
        told = b"not UTF-8" if "\udc9b" in name and "--on" in arguments else shown.encode()
        self.assertIn(told, done.stderr, arguments)
        self.assertNotIn(os.fsencode(name) if shown != name else b"\x1b", done.stderr, arguments)

  def test_a_way_on_is_told(self):
    """The newest whole copy is named; what can be read is saved."""
    self.begin()
    shutil.copy(self.book, self.path("kept.croustade"))
    self.write_raw("UPDATE recipe_line SET unit = 'jar' WHERE id = 1")
    done = self.expect(3, "cost", self.book)
    self.assertIn(self.path("kept.croustade"), done.stderr)
    os.unlink(self.path("kept.croustade"))
    done = self.expect(3, "cost", self.book)
    self.assertIn("--salvage", done.stderr)
    done = self.expect(1, "dump", self.book, self.path("saved"), "--salvage")
    self.assertIn("lines: plate, Leek bite, 1: unit: this value cannot be read", done.stderr)
    self.refused("dump", self.book, self.path("saved"), "--salvage", says="this folder is not empty")
    self.silent("load", self.path("again.croustade"), self.path("saved"))
    self.assertNotIn("Leek bite,1,", self.dumped(self.path("again.croustade"))["lines.csv"])


class Locales(Case):
  """Arguments and output are UTF-8, whatever the locale."""

  def test_names_and_files_may_have_accents_in_any_locale(self):
    folder = self.tables({"plates": "name,makes,price\nPoireau frisé,10,1\n",
                          "lines": SOUND["lines"].replace("Leek bite", "Poireau frisé")}, "été")
    book = self.path("carnet d’été.croustade")
    texts = []
    for locale in ("C", "POSIX", "C.UTF-8"):
      if os.path.exists(book):
        os.unlink(book)
      self.expect(0, "load", book, folder, LC_ALL=locale)
      text = self.expect(0, "cost", book, "--on", DAY, "--plate", "Poireau frisé", LC_ALL=locale)
      self.assertIn("Poireau frisé", text.stdout)
      wrong = call("cost", book, "--plate", "Crème brûlée", LC_ALL=locale)
      self.assertIn("there is no plate “Crème brûlée”", wrong.stderr)
      self.expect(0, "dump", book, self.path("déchargé"), LC_ALL=locale)
      history = self.expect(0, "history", book, "--json", LC_ALL=locale)
      self.assertEqual(json.loads(history.stdout)[0]["label"], "tables loaded from été")
      texts.append((text.stdout, wrong.stderr))
    self.assertEqual(texts[0], texts[1])
    self.assertEqual(texts[0], texts[2], "the same bytes in every locale")


class Interrupted(Case):
  """A command that is cut short leaves what was, or says so."""

  def setUp(self):
    super().setUp()
    lines = "".join(f"plate,Leek bite,{i},Leek,480,g\n" for i in range(3, 4000))
    self.silent("load", self.book, self.tables({"lines": SOUND["lines"] + lines}))
    self.whole = self.dumped(self.book, "whole")

  def cut_short(self, number, *arguments):
    """The command, stopped by a signal at a moment that moves from its start to its end. With a sanitizer, which
    runs longer, at half of the moments: what stays of a file is asked at each without one."""
    for part in range(0, 8, 2 if "CROUSTADE_TEST_SANITIZED" in os.environ else 1):
      process = subprocess.Popen([CLI, *arguments], stdout=subprocess.DEVNULL,
                                 stderr=subprocess.PIPE, encoding="utf-8")
      time.sleep(part * 0.015)
      process.send_signal(number)
      process.communicate()
      yield process.returncode

  def texts(self, folder):
    texts = {}
    for name in os.listdir(folder):
      with open(os.path.join(folder, name), encoding="utf-8") as file:
        texts[name] = file.read()
    return texts

  def test_an_interrupted_dump_leaves_what_was(self):
    there, new = self.tables(name="there"), self.path("new")
    with open(os.path.join(there, "mine.txt"), "w", encoding="utf-8") as file:
      file.write("mine")
    before = self.texts(there)
    for number in (signal.SIGINT, signal.SIGTERM):
      for status in self.cut_short(number, "dump", self.book, there):
        now = self.texts(there)
        if status == 0:
          self.assertEqual(now, {**self.whole, "mine.txt": "mine"})
          for name, text in before.items():
            with open(os.path.join(there, name), "w", encoding="utf-8") as file:
              file.write(text)
          for name in set(now) - set(before):
            os.unlink(os.path.join(there, name))
        else:
          self.assertEqual(now, before, "nothing was changed, and nothing is left behind")
      for status in self.cut_short(number, "dump", self.book, new):
        if status == 0:
          self.assertEqual(self.texts(new), self.whole)
          shutil.rmtree(new)
        else:
          self.assertFalse(os.path.exists(new), "a new folder is whole or not there")
      self.assertEqual([n for n in os.listdir(self.folder) if n.startswith(".")], [])

  def test_a_killed_dump_is_no_book(self):
    there, new = self.tables(name="there"), self.path("new")
    for folder in (there, new):
      for _ in self.cut_short(signal.SIGKILL, "dump", self.book, folder):
        if not os.path.exists(folder):
          continue
        done = call("load", self.path("again.croustade"), folder)
        if done.returncode == 2:
          self.assertIn("cut short", done.stderr)
        else:
          self.assertIn(len(self.texts_of_tables(folder)), (len(SOUND), len(self.whole)))
          os.unlink(self.path("again.croustade"))
      self.silent("dump", self.book, folder)
      self.assertEqual(self.texts(folder), self.whole, "the next dump clears what was left")
      self.assertEqual([n for n in os.listdir(self.folder) if n.startswith(".")], [])

  def texts_of_tables(self, folder):
    return [name for name in os.listdir(folder) if name.endswith(".csv")]

  def test_a_dump_clears_what_another_left(self):
    left, other = self.path(".dump-old-abcdef"), self.path(".dump-other")
    for folder, file in ((left, ".unfinished"), (other, "mine.txt")):
      os.mkdir(folder)
      with open(os.path.join(folder, file), "w", encoding="utf-8"):
        pass
    self.silent("dump", self.book, self.path("fresh"))
    self.assertFalse(os.path.exists(left))
    self.assertEqual(os.listdir(other), ["mine.txt"])

  def test_what_never_ends_is_no_table(self):
    zero = self.tables(name="zero")
    os.unlink(os.path.join(zero, "lines.csv"))
    os.symlink("/dev/zero", os.path.join(zero, "lines.csv"))
    pipe = self.tables({"lines": None}, name="pipe")
    os.mkfifo(os.path.join(pipe, "lines.csv"))
    for folder in (zero, pipe):
      for arguments in (("load", self.path("new.croustade"), folder), ("add", self.book, folder),
                        ("load", self.book, folder, "--replace")):
        done = subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8",
                              check=False, timeout=60)
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertIn("lines.csv", done.stderr)

  def test_a_second_signal_does_not_wait(self):
    # Nobody reads the pipe that it writes its changes into: it cannot come to where it could stop.
    with open(os.path.join(self.tables(name="more"), "lines.csv"), "a", encoding="utf-8") as file:
      file.write("".join(f"plate,Leek bite,{i},Leek,480,g\n" for i in range(4000, 8000)))
    process = subprocess.Popen([CLI, "add", self.book, self.path("more"), "--dry-run"],
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    with process:
      self.assertNotEqual(process.stdout.read(1), b"")
      time.sleep(0.2)
      for _ in range(2):
        process.send_signal(signal.SIGTERM)
        time.sleep(0.2)
      try:
        self.assertEqual(process.wait(60), -signal.SIGTERM)
      finally:
        process.kill()

  def test_a_half_written_folder_is_refused(self):
    folder = self.tables(name="half")
    with open(os.path.join(folder, ".unfinished"), "w", encoding="utf-8"):
      pass
    for arguments in (("load", self.path("new.croustade"), folder),
                      ("load", self.book, folder, "--replace")):
      self.refused(*arguments, says="a dump into this folder was cut short; dump the book again")
    self.silent("dump", self.book, folder)
    self.silent("load", self.path("new.croustade"), folder)

  def test_an_interrupted_load_leaves_what_was(self):
    before = self.dumped(self.book)
    other = self.tables(name="other")
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGKILL):
      for status in self.cut_short(number, "load", self.book, other, "--replace"):
        now = self.dumped(self.book)
        self.assertTrue(now == before or status == 0 or number == signal.SIGKILL)
        if now != before:
          self.silent("load", self.book, self.path("whole"), "--replace")

  def test_an_interrupted_add_adds_all_or_nothing(self):
    more = self.path("more")
    os.mkdir(more)
    with open(os.path.join(more, "lines.csv"), "w", encoding="utf-8") as file:
      file.write("into,parent,position,amount\n"
                 + "".join(f"plate,Leek bite,{i},481\n" for i in range(3, 1000)))
    other = self.path("other.croustade")
    self.silent("load", other, self.path("whole"))
    self.expect(0, "add", other, more)
    before, after = self.dumped(self.book), self.dumped(other)
    self.assertNotEqual(before, after)
    cut = 0
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGKILL):
      for status in self.cut_short(number, "add", self.book, more):
        self.expect(0, "check", self.book)
        now = self.dumped(self.book)
        self.assertIn(now, (before, after), "an act is there as a whole, or not at all")
        self.assertTrue(now == after if status == 0 else now == before or number == signal.SIGKILL)
        cut += now == before
        if now != before:
          self.silent("load", self.book, self.path("whole"), "--replace")
    self.assertGreater(cut, 0, "one of them came before the end")

  def test_a_full_disk_leaves_no_half_folder(self):
    there = self.tables(name="there")
    before = self.texts(there)
    for folder in (there, self.path("new")):
      done = subprocess.run([CLI, "dump", self.book, folder], capture_output=True,
                            encoding="utf-8", check=False, restore_signals=False,
                            preexec_fn=full_disk)
      self.assertEqual(done.returncode, 3, done.stderr)
    self.assertEqual(self.texts(there), before)
    self.assertFalse(os.path.exists(self.path("new")))


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

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
import re
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
import unicodedata
import unittest
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

import loaded  # noqa: E402

CLI = DEMO = ""
DAY = "2026-11-25"

COMMANDS = ("new", "load", "dump", "add", "cost", "plan", "history", "undo", "workbook", "check")

# Two ingredients and a plate: complete, at 25 % of its net price.
SOUND = {
  "book": "key,value\ncurrency,EUR\ntarget_pct,30\n",
  "ingredients": "name,unit,trim_yield_pct,allergens\nLeek,g,80,none\nSalt,g,100,none\n",
  "suppliers": "name\nThe market\n",
  "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n"
            "Leek,The market,1,1,kg\nSalt,The market,1,1,kg\n",
  "prices": "ingredient,supplier,from,price\nLeek,The market,2026-01-01,4\n"
            "Salt,The market,2026-01-01,1\n",
  "plates": "name,makes,price\nLeek bite,10,1\n",
  "lines": "into,parent,position,item,amount,unit\n"
           "plate,Leek bite,1,Leek,480,g\nplate,Leek bite,2,Salt,100,g\n",
}


def call(*arguments, **environment):
  return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                        env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "", **environment})


def full_disk():
  """No file may grow: writes fail as on a full disk, as long as the signal is ignored."""
  resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))


class Case(unittest.TestCase):
  maxDiff = None

  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.folder = folder.name
    self.book = self.path("book.croustade")

  def path(self, name):
    return os.path.join(self.folder, name)

  def tables(self, changes=None, name="tables"):
    """Writes the sound tables, some of them replaced, and gives their folder."""
    folder = self.path(name)
    shutil.rmtree(folder, ignore_errors=True)
    os.mkdir(folder)
    for table, text in {**SOUND, **(changes or {})}.items():
      if text is not None:
        with open(os.path.join(folder, table + ".csv"), "w", encoding="utf-8") as file:
          file.write(text)
    return folder

  def expect(self, status, *arguments, **environment):
    done = call(*arguments, **environment)
    self.assertEqual(done.returncode, status,
                     f"{' '.join(arguments)}\n{done.stdout}{done.stderr}")
    return done

  def silent(self, *arguments):
    done = self.expect(0, *arguments)
    self.assertEqual(done.stdout + done.stderr, "", "a thing done says nothing")

  def begin(self, tables=None):
    """The sound tables are the book, or others that many tests begin with."""
    done = loaded.load(call, self.book, tables or self.tables())
    self.assertEqual((done.returncode, done.stdout + done.stderr), (0, ""), "a thing done says nothing")

  def refused(self, *arguments, says=""):
    done = self.expect(2, *arguments)
    self.assertEqual(done.stdout, "", "a refusal gives no result")
    self.assertIn(says, done.stderr)
    self.assertNotEqual(done.stderr.strip(), "", "a refusal says why")
    return done

  def dumped(self, book, name="dumped"):
    folder = self.path(name)
    shutil.rmtree(folder, ignore_errors=True)
    self.silent("dump", book, folder)
    texts = {}
    for entry in os.listdir(folder):
      with open(os.path.join(folder, entry), encoding="utf-8") as file:
        texts[entry] = file.read()
    return texts


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
      self.refused(command, self.folder, says="not a book")
    self.refused("load", self.folder, self.tables(), says="not a book")
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
    self.assertEqual(done.returncode, 1, done.stderr)
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
    done = self.refused("add", self.book, self.path("none"), says="No such file")
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


class Costs(Case):
  def cost(self, status, changes=None, *options):
    self.silent("load", self.book, self.tables(changes))
    done = self.expect(status, "cost", self.book, "--on", DAY, "--json", *options)
    return done, json.loads(done.stdout)

  def test_a_complete_book_is_done(self):
    done, figures = self.cost(0)
    self.assertEqual(done.stderr, "")
    self.assertEqual((figures["on"], figures["currency"]), (DAY, "EUR"))
    plate, = figures["plates"]
    # 480 g of leek at 4 a kg and 80 % trimmed, 100 g of salt at 1 a kg, for ten bites
    self.assertAlmostEqual(plate["cost_per_guest"], (2.40 + 0.10) / 10, places=15)
    self.assertAlmostEqual(plate["food_cost_pct"], 25, places=12)
    self.assertEqual(plate["missing"], [])

  def test_a_missing_price_is_named_and_counted(self):
    done, figures = self.cost(1, {"prices": "ingredient,supplier,from,price\n"
                                            "Leek,The market,2026-01-01,4\n"})
    self.assertEqual(figures["plates"][0]["missing"], ["price Salt"])
    self.assertIn("Salt", done.stderr)
    self.assertIn("Leek bite", done.stderr)

  def test_over_its_target_is_named(self):
    done, figures = self.cost(1, {"plates": "name,makes,price\nLeek bite,10,0.8\n"})
    self.assertEqual(figures["plates"][0]["missing"], [])
    self.assertIn("Leek bite", done.stderr)
    self.assertIn("31.3", done.stderr)  # 31.25, half away from zero

  def test_at_its_very_target_a_plate_is_within_it(self):
    plates, lines = "name,makes,price\n", "into,parent,position,item,amount,unit\n"
    for n in range(1, 101):
      # 3 n g of salt at 1 a kg are 30 % of n / 100, which doubles miss for some.
      plates += f"Bite {n},1,{n / 100}\n"
      lines += f"plate,Bite {n},1,Salt,{3 * n},g\n"
    self.cost(0, {"plates": plates, "lines": lines})

  def test_a_price_counts_from_its_day(self):
    prices = SOUND["prices"] + "Leek,The market,2026-11-26,8\n"
    self.silent("load", self.book, self.tables({"prices": prices}))
    costs = []
    for day in (DAY, "2026-11-26"):
      done = call("cost", self.book, "--on", day, "--json")
      costs.append(json.loads(done.stdout)["plates"][0]["cost_per_guest"])
    self.assertAlmostEqual(costs[1] - costs[0], 0.24, places=15)

  def test_one_plate_may_be_asked_for(self):
    self.begin(DEMO)
    done = self.expect(0, "cost", self.book, "--on", DAY, "--json", "--plate", "Salted chocolate",
                       "--plate", "Brown crab on toast")
    self.assertEqual({p["name"] for p in json.loads(done.stdout)["plates"]},
                     {"Salted chocolate", "Brown crab on toast"})
    self.refused("cost", self.book, "--plate", "Salted", says="Salted")

  def test_names_like_the_one_asked_for_are_offered(self):
    self.begin(DEMO)
    done = self.refused("cost", self.book, "--plate", "crab")
    first, second = done.stderr.splitlines()
    self.assertEqual(first, "there is no plate “crab”")
    self.assertIn("“Brown crab on toast”", second)
    many = self.refused("cost", self.book, "--plate", "c").stderr.splitlines()[1]
    self.assertTrue(2 <= many.count("“") <= 5, many)
    with open(os.path.join(DEMO, "menus.csv"), encoding="utf-8") as file:
      menu = file.read().splitlines()[1].split(",")[0]
    done = self.refused("cost", self.book, "--menu", menu.split()[0].upper())
    self.assertIn(f"“{menu}”", done.stderr.splitlines()[1])
    for text in ("Brown crab croustade", "Brwn crab on toast", "toast crab"):
      done = self.refused("cost", self.book, "--plate", text)
      self.assertIn("“Brown crab on toast”", done.stderr.splitlines()[1])
    done = self.refused("cost", self.book, "--plate", "zzzz")
    self.assertEqual(done.stderr.splitlines(), ["there is no plate “zzzz”"])

  def disposables(self, priced, cups="plate,Leek bite,2,Cup,10,each"):
    """What the card of a plate says of its disposables, where only priced things have a price."""
    price = {"Leek": "4", "Cup": "0.05"}
    rows = "".join(f"{name},The market,2026-01-01,{price[name]}\n" for name in priced)
    folder = self.tables({
      "ingredients": "name,unit,kind\nLeek,g,food\nCup,each,disposable\n",
      "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n"
                "Leek,The market,1,1,kg\nCup,The market,1,1,each\n",
      "prices": "ingredient,supplier,from,price\n" + rows,
      "lines": "into,parent,position,item,amount,unit\n"
               f"plate,Leek bite,1,Leek,480,g\n{cups}\n",
    })
    self.expect(0, "load", self.book, folder, "--replace")
    card = call("cost", self.book, "--plate", "Leek bite").stdout
    return re.search(r"^Disposables +(.*)$", card, re.MULTILINE).group(1).strip()

  def test_disposables_that_lack_a_price_are_not_0(self):
    self.assertEqual(self.disposables(("Leek", "Cup")), "0.05")
    self.assertEqual(self.disposables(("Leek",)), "?")
    self.assertEqual(self.disposables(("Cup",)), "0.05")
    self.assertEqual(self.disposables(()), "?")
    self.assertEqual(self.disposables((), cups="plate,Leek bite,2,Leek,1,g"), "0.00")

  def test_a_menu_has_a_card(self):
    changes = {
      "menus": "name,price,tax_pct,target_pct\nTide,12,20,30\nOther,5,0,30\n",
      "plates": "name,makes,price\nLeek bite,10,1\nSalt bite,1,\n",
      "lines": SOUND["lines"] + "plate,Salt bite,1,Salt,1000,g\n",
      "menu_plates": "menu,plate,choice,servings,position,share_pct\nTide,Leek bite,,2,1,\n"
                     "Tide,Leek bite,last,1,2,75\nTide,Salt bite,last,1,3,25\n"
                     "Other,Leek bite,,1,1,\n",
    }
    self.silent("load", self.book, self.tables(changes))
    card = self.expect(0, "cost", self.book, "--on", DAY, "--menu", "Tide")
    words = " ".join(card.stdout.split())
    # By hand: a leek bite (480 / 0.8 × 0.004 + 100 × 0.001) / 10 = 0.25, a salt bite 1.00;
    # 2 × 0.25 + 0.75 × 0.25 + 0.25 × 1.00 = 0.9375 of a net price of 10.
    for text in ("Food cost per guest 0.94", "By choice 0.75 to 1.50", "Net price 10.00",
                 "Food-cost percentage 9.4 %", "Target 30.0 %", "Price that meets the target",
                 "Leek bite 2 0.50", "choice “last”, taken by 75.0 %", "taken by 25.0 %",
                 "Leek", "Allergens entered: none"):
      self.assertIn(text, words)
    self.assertNotIn("Other", words)
    figures = json.loads(self.expect(0, "cost", self.book, "--on", DAY, "--menu", "Tide",
                                     "--json").stdout)
    self.assertEqual([m["name"] for m in figures["menus"]], ["Tide"])
    self.assertEqual(figures["plates"], [])
    self.assertAlmostEqual(figures["menus"][0]["cost_per_guest"], 0.9375)
    # What one way lacks is not lacking of the other.
    changes["ingredients"] = SOUND["ingredients"] + "Dulse,g,,\n"
    changes["lines"] += "plate,Salt bite,2,Dulse,10,g\n"
    self.expect(0, "load", self.book, self.tables(changes), "--replace")
    words = " ".join(self.expect(1, "cost", self.book, "--on", DAY, "--menu", "Tide").stdout.split())
    self.assertIn("Food cost per guest at least 0.94 By choice 0.75 to at least 1.50, 7.5 % to at least 15.0 %",
                  words)

  def test_no_line_is_wider_than_a_terminal(self):
    names = ("An ingredient that nobody ever meant to be set upon one line of eighty characters",
             "海苔" * 30, "Ouroboros" * 12, "two lines, and colour")
    rows = {"ingredients": "name,unit,allergens\n", "plates": "name,makes,price\n",
            "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n",
            "prices": "ingredient,supplier,from,price\n",
            "lines": "into,parent,position,item,amount,unit\n"}
    for name in names:
      rows["ingredients"] += f'"{name}",g,\n'
      rows["plates"] += f'"{name}",1,1200000\n'
      rows["offers"] += f'"{name}",The market,1,1,kg\n'
      rows["prices"] += f'"{name}",The market,2026-01-01,500000\n'
      for position, item in enumerate(names):
        rows["lines"] += f'plate,"{name}",{position},"{item}",333,g\n'
    rows["book"] = f'key,value\nname,"{names[0]}"\ncurrency,IDR\ntarget_pct,30\n'
    self.silent("load", self.book, self.tables(rows))
    cards = [argument for name in names for argument in ("--plate", name)]
    for arguments in ((), cards):
      text = self.expect(1, "cost", self.book, "--on", DAY, *arguments).stdout
      for line in text.split("\n"):
        self.assertLessEqual(sum(2 if unicodedata.east_asian_width(c) in "WF" else 1
                                 for c in line), 80, line)
        self.assertNotIn("Cc", [unicodedata.category(c) for c in line], repr(line))

  def test_ceilings_name_every_menu_they_keep(self):
    changes = {"plates": "name,makes\nLeek bite,10\nSalt bite,10\n",
               "lines": SOUND["lines"] + "plate,Salt bite,1,Salt,9000,g\n",
               "menus": "name,price\nSmall,1\nSalty,4\n",
               "menu_plates": "menu,plate\nSmall,Leek bite\nSalty,Leek bite\nSalty,Salt bite\n"}
    self.silent("load", self.book, self.tables(changes))
    done = self.expect(0, "cost", self.book, "--on", DAY, "--plate", "Leek bite")
    # 0.05 is to spare in Small; in Salty 0.05 as well, and 91 times the salt: leek is kept by Small, which
    # comes first, and salt by Salty: 1 + 0.05 / 0.91 a kg
    text = " ".join(done.stdout.split())
    self.assertIn("going over the target of Small, or of the plate or menu named beside it;", text)
    self.assertRegex(text, r"Leek 60 g .* 4\.83/kg 4\.83 Salt 10 g")
    self.assertIn("1.05/kg · Salty 1.05", text)

  def set_acts(self, *times):
    """Makes the acts those of these times, in UTC."""
    book = sqlite3.connect(self.book)
    for act, at in enumerate(times, 1):
      book.execute("UPDATE act SET at = ?, day = NULL WHERE id = ?", (at, act))
    book.commit()
    book.close()

  def test_the_book_as_it_stood(self):
    self.expect(0, "load", self.book, self.tables())
    self.expect(0, "load", self.book, "--replace", self.tables({
      "lines": SOUND["lines"].replace("480", "960"),
      "prices": SOUND["prices"] + "Leek,The market,2026-03-01,8\n"}))
    self.set_acts("2026-02-01T12:00:00Z", "2026-04-01T12:00:00Z")

    def leek(*arguments):
      figures = json.loads(call("cost", self.book, "--json", *arguments, TZ="UTC").stdout)
      return figures["on"], figures["as_of"], figures["plates"][0]["ingredients"][0]["cost"]

    self.assertEqual(leek("--on", "2026-03-01"), ("2026-03-01", None, 0.96),
                     "today's recipes at the prices of a day")
    self.assertEqual(leek("--as-of", "2026-03-31"), ("2026-03-31", "2026-03-31", 0.24),
                     "the book as it stood: neither line nor price was entered yet")
    self.assertEqual(leek("--as-of", "2026-04-01", "--on", "2026-02-28"),
                     ("2026-02-28", "2026-04-01", 0.48), "both")
    for arguments, says in ((("--on", "2026-03-01"), ", prices of 2026-03-01, EUR"),
                            (("--as-of", "2026-03-01"), ", the book of 2026-03-01, EUR"),
                            (("--as-of", "2026-03-01", "--on", "2026-02-28"),
                             ", the book of 2026-03-01, prices of 2026-02-28, EUR")):
      for plate in ((), ("--plate", "Leek bite")):
        text = call("cost", self.book, *plate, *arguments, TZ="UTC").stdout
        self.assertIn(says.lstrip(", "), text, "it is said which question is answered")
    done = self.refused("cost", self.book, "--as-of", "2026-01-31",
                        says="the book begins on 2026-02-01; choose that day or a later one")
    self.assertEqual(done.stderr.count("\n"), 1)
    self.refused("cost", self.book, "--as-of", "9998-12-31", says="9998-12-31 has not come yet")

  def test_a_wrong_date_is_refused(self):
    self.begin()
    for day in ("2026-02-30", "25.11.2026", "today", ""):
      self.refused("cost", self.book, "--on", day, says=day)

  def test_figures_do_not_follow_the_locale(self):
    self.begin()
    plain = self.expect(0, "cost", self.book, "--on", DAY, "--json").stdout
    for locale in ("de_DE.UTF-8", "C"):
      other = self.expect(0, "cost", self.book, "--on", DAY, "--json", LC_ALL=locale).stdout
      self.assertEqual(other, plain)

  def test_what_is_printed_names_every_plate(self):
    self.begin(DEMO)
    done = self.expect(1, "cost", self.book, "--on", DAY)
    with open(os.path.join(DEMO, "plates.csv"), encoding="utf-8") as file:
      names = re.findall(r'(?m)^(?:"([^"]*)"|([^,]*)),', file.read())[1:]
    for quoted, plain in names:
      self.assertIn(quoted or plain, done.stdout)
    self.assertIn("Sea purslane", done.stderr)

  def test_costing_changes_nothing(self):
    self.begin()
    before = self.dumped(self.book)
    os.chmod(self.book, 0o444)
    self.expect(0, "cost", self.book)
    self.expect(0, "check", self.book)
    self.assertEqual(self.dumped(self.book), before)

  def test_check_of_a_sound_book_finds_nothing(self):
    self.begin(DEMO)
    done = self.expect(0, "check", self.book)
    self.assertEqual(done.stderr, "")
    # No month of the demo is closed.
    self.assertEqual([line for line in done.stdout.splitlines() if not line.startswith("yes ")],
                     ["–    A closed month is as closing left it (none in this book)"])

  def test_history_of_less_than_one_act_is_refused(self):
    self.begin()
    for last in ("-1", "0", "-2"):
      self.refused("history", self.book, "--last", last, says="--last must be 1 or more")
    self.assertEqual(call("history", self.book).stdout, call("history", self.book, "--last", "1").stdout)

  def test_check_says_what_does_not_hold(self):
    self.begin()
    book = sqlite3.connect(self.book)
    book.execute("CREATE VIEW strange AS SELECT 1")
    book.commit()
    book.close()
    done = self.expect(1, "check", self.book)
    self.assertIn("NO   does not hold: The file is intact and every reference valid (1 fault)\n", done.stdout)
    self.assertEqual(done.stderr.count("does not hold: "), 1)
    self.assertIn("strange", done.stderr)

  def test_check_of_an_empty_book_says_what_it_did_not_find(self):
    folder = self.tables(dict.fromkeys(SOUND))
    with open(os.path.join(folder, "book.csv"), "w", encoding="utf-8") as file:
      file.write("key,value\ncurrency,EUR\n")
    self.silent("load", self.book, folder)
    done = self.expect(0, "check", self.book)
    self.assertIn("yes  The file is intact and every reference valid (1)", done.stdout)
    self.assertIn("–    Every preparation has one main output (none in this book)", done.stdout)
    self.assertNotIn("(0)", done.stdout)


if __name__ == "__main__":
  CLI, DEMO = map(os.path.abspath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

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
import sqlite3
import subprocess
import sys
import unittest
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from sound import CLI, DAY, DEMO, SOUND, Case, call, full_disk, on_a_full_disk  # noqa: E402

COMMANDS = ("new", "load", "dump", "add", "cost", "plan", "history", "undo", "workbook", "check")


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
    for path in ("cards", "cards.pdf"):
      done = subprocess.run([CLI, "card", self.book, "--all", "-o", self.path(path)], capture_output=True,
                            encoding="utf-8", env=on_a_full_disk(), check=False, restore_signals=False,
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
                          encoding="utf-8", env=on_a_full_disk(), check=False, restore_signals=False,
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

  def test_names_of_a_table_that_is_not_read_are_no_faults(self):
    folder = self.tables({"ingredients": SOUND["ingredients"].replace("name", "nom", 1)})
    done = self.refused("load", self.book, folder, says="ingredients.csv:1: name: ")
    self.assertNotIn("there is no ingredient", done.stderr)
    os.remove(os.path.join(folder, "ingredients.csv"))
    os.mkdir(os.path.join(folder, "ingredients.csv"))
    done = self.refused("load", self.book, folder, says="ingredients.csv:1: -: this is not a file")
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


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

#!/usr/bin/env python3
"""`croustade-cli workbook`: exit statuses, and that the old file stands until the new one is whole.

    test-cli-workbook.py CROUSTADE-CLI DEMO-FOLDER

What stands in the workbook is held against spreadsheet programs in workbook/.
"""

import datetime
import os
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "workbook"))
import layout as where  # noqa: E402
import xlsx  # noqa: E402

CLI = DEMO = ""
DAY = min(datetime.date(2026, 11, 30), datetime.date.today()).isoformat()
MONTH = "2026-11"
OLD = b"what stood there"


def environment(**changes):
  return {**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "", **changes}


def call(*arguments, **options):
  return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                        env=environment(), **options)


class Workbooks(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    folder = tempfile.TemporaryDirectory()
    cls.addClassCleanup(folder.cleanup)
    cls.book = os.path.join(folder.name, "demo.croustade")
    done = call("load", cls.book, DEMO)
    assert done.returncode == 0, done.stderr

  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.folder = folder.name
    self.path = os.path.join(folder.name, "office.xlsx")

  def test_movements_name_their_currency(self):
    """Far Bank is paid in pounds: its prices stand in them, and in euros at the demo's rates of both days."""
    done = self.workbook("--month", "2026-10", "-o", self.path)
    self.assertIn(done.returncode, (0, 1), done.stderr)
    book, name = xlsx.Book(self.path), "Price movements"
    rows = [[book.at(name, f"{column}{row}").value for column in "CEFGHIJK"] for row in range(5, 60)]
    pounds = [row for row in rows if row[0] == "Far Bank Fish and Meat" and row[3] is not None]
    self.assertTrue(pounds)
    self.assertEqual({row[4] for row in pounds}, {"GBP"})
    for _, before, now, change, _, before_in, now_in, change_in in pounds:
      self.assertTrue(1 < before_in / before < 1.4 and 1 < now_in / now < 1.4)
      self.assertAlmostEqual(change, now / before - 1)
      self.assertAlmostEqual(change_in, now_in / before_in - 1)
    self.assertEqual({row[4] for row in rows if row[0] == "Mill Lane Dry Goods"}, {"EUR"})

  def workbook(self, *arguments, **options):
    return call("workbook", self.book, *arguments, **options)

  def put_old(self):
    with open(self.path, "wb") as file:
      file.write(OLD)

  def assert_old(self):
    with open(self.path, "rb") as file:
      self.assertEqual(file.read(), OLD)
    self.assertEqual(os.listdir(self.folder), [os.path.basename(self.path)])

  def assert_whole(self):
    """Every part of it can be read to its end."""
    with zipfile.ZipFile(self.path) as package:
      for name in package.namelist():
        ElementTree.fromstring(package.read(name))
    self.assertEqual(os.listdir(self.folder), [os.path.basename(self.path)])

  def assert_refused(self, done, says):
    self.assertEqual(done.returncode, 2, done.stderr)
    self.assertIn(says, done.stderr)
    self.assertEqual(done.stdout, "")

  def test_it_is_written_and_says_what_is_incomplete(self):
    self.put_old()
    done = self.workbook("--month", MONTH, "-o", self.path)
    self.assertEqual(done.returncode, 1, "the demo lacks a price on purpose")
    self.assertIn("2026-11 is incomplete: no price for Sea purslane", done.stderr)
    self.assertNotIn("%\r", done.stderr, "progress is for a terminal")
    self.assert_whole()

  def test_it_says_which_day_recipes_are_of(self):
    self.workbook("--month", MONTH, "-o", self.path)
    with zipfile.ZipFile(self.path) as book:
      words = "".join(book.read(name).decode() for name in book.namelist() if name.endswith(".xml"))
    self.assertIn("as it stood when the month was closed", words)

  def test_a_dash_is_standard_output(self):
    self.workbook("--month", MONTH, "-o", self.path)
    sent = subprocess.run([CLI, "workbook", self.book, "--month", MONTH, "-o", "-"], check=False,
                          capture_output=True, cwd=self.folder,
                          env=environment(TMPDIR=self.folder))
    self.assertEqual(sent.returncode, 1, sent.stderr)
    with open(self.path, "rb") as file:
      self.assertEqual(sent.stdout, file.read())
    self.assert_whole()
    with open("/dev/full", "wb") as full:
      done = subprocess.run([CLI, "workbook", self.book, "--month", MONTH, "-o", "-"], check=False,
                            stdout=full, stderr=subprocess.PIPE, env=environment())
    self.assertEqual(done.returncode, 3, done.stderr)

  def test_it_needs_a_month_that_has_begun_and_a_file(self):
    later = datetime.date.today() + datetime.timedelta(days=40)
    self.assert_refused(self.workbook("-o", self.path), "--month is needed")
    self.assert_refused(self.workbook("--month", "2026-13", "-o", self.path), "is not a month")
    self.assert_refused(self.workbook("--month", later.strftime("%Y-%m"), "-o", self.path),
                        "has not begun")
    self.assert_refused(self.workbook("--month", MONTH), "-o")
    self.assertEqual(os.listdir(self.folder), [])

  def test_a_dash_is_standard_output(self):
    self.workbook("--month", MONTH, "-o", self.path)
    done = subprocess.run([CLI, "workbook", self.book, "--month", MONTH, "-o", "-"], cwd=self.folder,
                          capture_output=True, check=False, env=environment())
    self.assertEqual(done.returncode, 1)
    with open(self.path, "rb") as file:
      self.assertEqual(done.stdout, file.read())
    self.assert_whole()
    with open("/dev/full", "wb") as full:
      done = subprocess.run([CLI, "workbook", self.book, "--month", MONTH, "-o", "-"], stdout=full,
                            stderr=subprocess.DEVNULL, check=False, env=environment())
    self.assertEqual(done.returncode, 3)

  def test_where_no_file_can_be_is_refused(self):
    pipe = os.path.join(self.folder, "pipe")
    os.mkfifo(pipe)
    for path in (self.folder, pipe, "/dev/full", "/dev/null"):
      self.assert_refused(self.workbook("--month", MONTH, "-o", path), "a folder, a pipe or a device")
    os.unlink(pipe)
    self.assert_refused(self.workbook("--month", MONTH, "-o", ""), "name the file")
    self.assert_refused(self.workbook("--month", MONTH, "-o", os.path.join(self.folder, "a", "b")),
                        "no such file")

  def test_the_book_is_not_written_over(self):
    link = os.path.join(self.folder, "link.xlsx")
    os.symlink(self.book, link)
    self.assert_refused(self.workbook("--month", MONTH, "-o", self.book), "the book itself")
    self.assert_refused(self.workbook("--month", MONTH, "-o", link), "the book itself")
    self.assertEqual(call("check", self.book).returncode, 0)

  def test_a_program_is_not_written_over(self):
    """Not even the one that runs, where whoever runs it may write it."""
    program, script = os.path.join(self.folder, "program"), os.path.join(self.folder, "script")
    shutil.copy(CLI, program)
    with open(script, "wb") as file:
      file.write(b"#!/bin/sh\n")
    os.symlink(program, os.path.join(self.folder, "link.xlsx"))
    for name in ("program", "script", "link.xlsx"):
      self.assert_refused(self.workbook("--month", MONTH, "-o", os.path.join(self.folder, name)), "this is a program")
    with open(CLI, "rb") as file, open(program, "rb") as copy:
      self.assertEqual(file.read(), copy.read())

  def test_on_a_full_disk_the_old_file_stands(self):
    """Wherever room for a file ends, the new one is whole or the old one stands."""
    n_failed = 0
    self.workbook("--month", MONTH, "-o", self.path)
    with zipfile.ZipFile(self.path) as package:
      largest = max(part.file_size for part in package.infolist())
    # The last rooms are too small for the last bytes of the largest part alone.
    for room in (0, 4096, 65536, 200000, 262144, 300000, 1 << 24,
                 largest - 10, largest - 100, largest - 500, largest - 1000, largest - 2000):
      self.put_old()

      def limit(room=room):
        resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))

      done = self.workbook("--month", MONTH, "-o", self.path, preexec_fn=limit,
                           restore_signals=False)
      if done.returncode == 3:
        n_failed += 1
        self.assert_old()
      else:
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assert_whole()
    self.assertGreater(n_failed, 2, "the disk was never full")

  def test_without_permission_the_old_file_stands(self):
    if os.geteuid() == 0:
      print("skipped: nothing is forbidden to root")
      self.skipTest("root")
    self.put_old()
    os.chmod(self.path, 0o444)
    self.assertEqual(self.workbook("--month", MONTH, "-o", self.path).returncode, 3)
    os.chmod(self.folder, 0o555)
    self.addCleanup(os.chmod, self.folder, 0o755)
    self.assertEqual(self.workbook("--month", MONTH, "-o", self.path).returncode, 3)
    self.assert_old()

  def interrupted(self):
    """The exit status of a run that was sent an interrupt as soon as it had begun to write."""
    with subprocess.Popen([CLI, "workbook", self.book, "--month", MONTH, "-o", self.path],
                          stderr=subprocess.PIPE, env=environment()) as process:
      while process.poll() is None and len(os.listdir(self.folder)) < 2:
        pass
      process.send_signal(signal.SIGINT)
      process.stderr.read()
    return process.returncode

  def test_an_interrupt_leaves_the_old_file(self):
    """On a busy machine it may come too late: then the file is whole, and it is sent again."""
    for _ in range(20):
      self.put_old()
      status = self.interrupted()
      if status == 2:
        self.assert_old()
        return
      self.assertEqual(status, 1)
      self.assert_whole()
    self.fail("no interrupt came in time")

  def test_parts_show_the_cents_of_the_card_and_add_up(self):
    """Of every plate and menu, what the workbook shows is what `cost` prints."""
    self.workbook("--month", MONTH, "-o", self.path)
    tables = os.path.join(self.folder, "tables")
    call("dump", self.book, tables)
    book = xlsx.Book(self.path)
    layout = where.Layout(book, where.read_tables(tables), DAY)
    entries = layout.tables["menu_plates"]
    for menu, row in layout.menu_rows.items():
      rows = [at for (name, _, _), at in layout.serving_rows.items() if name == menu]
      self.assertEqual(len(rows), sum(entry["menu"] == menu for entry in entries))
      self.compare(book, where.SUMMARY, sorted(rows), row, "--menu", menu)
    for plate, (sheet, top) in layout.cards.items():
      n_lines = len(layout.lines.get(("plate", plate), []))
      first = top + where.CARD_LINES
      self.compare(book, sheet, range(first, first + n_lines + 1), first + n_lines + 2, "--plate",
                   plate)

  def compare(self, book, sheet, rows, total, option, name):
    column = "S" if sheet == where.SUMMARY else "R"
    shown = [round(100 * book.at(sheet, f"{column}{row}").value) for row in rows]
    all_shown = round(100 * book.at(sheet, f"{column}{total}").value)
    self.assertEqual(sum(shown), all_shown, name)
    card = call("cost", self.book, "--on", DAY, option, name).stdout
    table = card[card.index("Made of"):].split("\n\n")[0]
    # A long name has its figures in the row below.
    table = re.sub(r"\n(\S(?:\S| (?! ))*)\n +(?=\S+(?: \S+)? +[0-9])", r"\n\1  ", table)
    costs = [round(100 * float(cost)) for cost in
             re.findall(r"(?m)^\S.*?  .*?(-?[0-9]+\.[0-9]{2})(?:  +(?:at \w+ |\? )?[0-9.]+\s%)?$", table)]
    # What costs nothing has a row in one of them alone: no seasoning stands on a card as 0.
    self.assertEqual([cents for cents in costs if cents], [cents for cents in shown if cents]
                     + [all_shown], f"{name}\n{table}")


if __name__ == "__main__":
  CLI, DEMO = map(os.path.abspath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

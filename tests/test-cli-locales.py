#!/usr/bin/env python3
"""Files are the same bytes in every locale, and whenever they are written: dump, workbooks, PDFs and JSON.

    test-cli-locales.py CROUSTADE-CLI DEMO-FOLDER

Under a decimal comma the C library writes 19,5, which a spreadsheet takes for something else.
Locales are those that the build has made.
"""

import filecmp
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time
import unittest
import zipfile
import zlib

CLI = DEMO = ""
LOCALES = ["fr_FR", "de_DE"]
DAY = "2026-11-25"
PLATE = "Crab croustade"
PLANNED = ("--covers", "Tide=20", "--have", "Crab butter=0.2 kg", "--on", DAY)


def unpacked(stream):
  try:
    return zlib.decompressobj().decompress(stream)
  except zlib.error:  # a font's
    return b""


class Locales(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    folder = tempfile.TemporaryDirectory()
    cls.addClassCleanup(folder.cleanup)
    cls.folder = pathlib.Path(folder.name)
    cls.locales = pathlib.Path(os.environ["CROUSTADE_TEST_LOCALES"])
    cls.plain = cls.write("C.UTF-8")

  @classmethod
  def call(cls, locale, *arguments, language="en"):
    environment = {**os.environ, "LC_ALL": locale, "LANGUAGE": language,
                   "LOCPATH": str(cls.locales)}
    if locale.startswith("C"):
      del environment["LOCPATH"]
    return subprocess.run([CLI, *arguments], capture_output=True, check=False, env=environment)

  def need(self, locale):
    if not (self.locales / f"{locale}.UTF-8").exists():
      print(f"skipped: the locale {locale} is not there and could not be made")
      self.skipTest(locale)

  @classmethod
  def write(cls, locale, language="en"):
    """All files that are written, in a folder of the locale."""
    folder = cls.folder / f"files-{locale}-{language}"
    folder.mkdir()
    book = folder / "book.croustade"
    for arguments in (("load", book, DEMO), ("dump", book, folder / "tables"),
                      ("workbook", book, "--month", "2026-11", "-o", folder / "office.xlsx"),
                      ("plan", book, *PLANNED, "-o", folder / "service.xlsx"),
                      ("card", book, "--plate", PLATE, "--on", DAY, "-o", folder / "cost-card.pdf"),
                      ("card", book, "--menu", "Tide", "--kitchen", "--on", DAY, "-o", folder / "kitchen-card.pdf"),
                      *(("allergens", book, "--on", DAY, "-o", folder / f"allergens.{kind}")
                        for kind in ("pdf", "xlsx", "csv")),
                      ("month", book, "2026-10", "--journal", folder / "journal.csv")):
      done = cls.call(locale, *arguments, language=language)
      assert done.returncode in (0, 1), (arguments, done.stderr)
    (folder / "list.csv").write_text("Code,Price\nD16,32.5\n", encoding="utf-8")
    for name, arguments in (("cost", ("--on", DAY)), ("plan", PLANNED), ("month", ("2026-10",)),
                            ("allergens", ("--on", DAY)),
                            ("prices", (folder / "list.csv", "--supplier", "Mill Lane Dry Goods", "--from", DAY,
                                        "--dry-run"))):
      done = cls.call(locale, name, book, *arguments, "--json", language=language)
      assert done.returncode in (0, 1), (name, done.stderr)
      (folder / f"{name}.json").write_bytes(done.stdout)
    return folder

  def test_the_locale_changes_no_byte(self):
    for name in LOCALES:
      with self.subTest(name):
        self.need(name)
        written = self.write(f"{name}.UTF-8", language=name[:2])
        tables = sorted(entry.name for entry in (self.plain / "tables").iterdir())
        _, unequal, absent = filecmp.cmpfiles(self.plain / "tables", written / "tables", tables,
                                              shallow=False)
        self.assertEqual((unequal, absent), ([], []))
        files = [path.name for path in written.iterdir() if path.suffix in (".json", ".xlsx", ".pdf", ".csv")]
        self.assertEqual(len(files), 14)
        for name_of_file in files:
          self.assertEqual((written / name_of_file).read_bytes(),
                           (self.plain / name_of_file).read_bytes(), name_of_file)

  def in_french(self, locale):
    path = self.folder / f"french-{locale}.xlsx"
    self.call(locale, "workbook", self.plain / "book.croustade", "--month", "2026-11", "-o", path,
              "--language", "fr")
    return path

  def test_a_language_is_asked_for_and_changes_no_number(self):
    path = self.in_french("C")
    for locale in ("C.UTF-8", "de_DE.UTF-8"):
      self.assertEqual(self.in_french(locale).read_bytes(), path.read_bytes())
    with zipfile.ZipFile(path) as french, zipfile.ZipFile(self.plain / "office.xlsx") as plain:
      self.assertIn("Préparations".encode(), french.read("xl/workbook.xml"))
      self.assertIn("Preparations".encode(), plain.read("xl/workbook.xml"))
      self.assertEqual(french.namelist(), plain.namelist())
      for name in plain.namelist():
        if name.startswith("xl/worksheets/sheet"):
          numbers = [re.findall(rb'<c r="[A-Z]+[0-9]+"(?: s="[0-9]+")?><v>([^<]*)</v>',
                                archive.read(name)) for archive in (french, plain)]
          self.assertEqual(*numbers, name)
          self.assertTrue(all(b"," not in number for number in numbers[0]), name)

  def test_the_language_of_the_file_is_not_that_of_messages(self):
    locales = {"en": "C.UTF-8", "fr": "fr_FR.UTF-8"}
    self.need("fr_FR")
    said = {language: [self.call(locales[language], "workbook", self.plain / "book.croustade",
                                 "--month", "2026-11", "-o", self.folder / "said.xlsx", "--language", of_file,
                                 language=language).stderr for of_file in ("en", "fr")]
            for language in ("en", "fr")}
    for language, messages in said.items():
      self.assertEqual(*messages, language)
    self.assertNotEqual(said["en"], said["fr"])
    self.assertIn(b"incomplete: no price for", said["en"][0])

  def test_names_of_months_are_of_the_sentences_language(self):
    for locale, month in (("C", "October 2026"), ("de_DE", "October 2026"), ("fr_FR", "octobre 2026")):
      with self.subTest(locale):
        if locale != "C":
          self.need(locale)
        said = self.call(f"{locale}.UTF-8", "month", self.plain / "book.croustade", "2026-10", language=locale[:2])
        self.assertIn(month.encode(), said.stdout)

  def test_names_are_quoted_as_the_language_does(self):
    self.need("fr_FR")
    said = self.call("fr_FR.UTF-8", "cost", self.plain / "book.croustade", "--plate", "Crab croustad", language="fr")
    self.assertIn("«\u00a0Crab croustade\u00a0»".encode(), said.stderr)
    self.assertNotIn("“".encode(), said.stderr)

  def test_only_a_language_of_the_program_is_taken(self):
    for language in ("xx", "", "../fr", "fr:de"):
      done = self.call("C.UTF-8", "workbook", self.plain / "book.croustade", "--month", "2026-11",
                       "-o", self.folder / "none.xlsx", "--language", language)
      self.assertEqual((done.returncode, (self.folder / "none.xlsx").exists()), (2, False))

  def test_a_desk_is_one_in_all_languages(self):
    self.need("fr_FR")
    book = self.folder / "desk.croustade"
    shutil.copy(self.plain / "book.croustade", book)
    more = self.folder / "more"
    more.mkdir()
    (more / "menus.csv").write_text("name,price\nEbb,90\n", encoding="utf-8")
    self.call("fr_FR.UTF-8", "add", book, more, language="fr")
    acts = [json.loads(self.call(locale, "history", book, "--json", language=language).stdout)
            for locale, language in (("C.UTF-8", "en"), ("fr_FR.UTF-8", "fr"))]
    self.assertEqual(*acts)
    self.assertEqual(len({act["by"] for act in acts[0]}), 1)
    self.assertIn(b" sur ", self.call("fr_FR.UTF-8", "history", book, language="fr").stdout)
    undone = self.call("C.UTF-8", "undo", book)
    self.assertEqual((undone.returncode, undone.stderr), (0, b""))

  def test_a_month_has_one_workbook(self):
    """Written again it is the same file: the time it says it was made is its month's."""
    again = self.plain / "again.xlsx"
    self.call("C.UTF-8", "workbook", self.plain / "book.croustade", "--month", "2026-11",
              "-o", again)
    self.assertEqual(again.read_bytes(), (self.plain / "office.xlsx").read_bytes())
    with zipfile.ZipFile(again) as archive:
      self.assertIn(b"2026-11-01T00:00:00Z", archive.read("docProps/core.xml"))

  def test_a_pdf_is_of_its_day_and_not_of_the_clock(self):
    """What says when it was made tells seconds: that of a second later would differ."""
    for name in ("cost-card.pdf", "kitchen-card.pdf", "allergens.pdf"):
      # Of two versions of Cairo one leaves out the "D:", which may be left out (ISO 32000-1, 7.9.4, from memory), and
      # one packs what says so (7.5.7, from memory).
      page = (self.plain / name).read_bytes()
      packed = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", page, re.DOTALL)
      made = re.findall(rb"/CreationDate ?\((?:D:)?([0-9]*)", b"".join([page, *map(unpacked, packed)]))
      self.assertEqual(made, [b"20261125000000"], name)
    again = self.plain / "again.pdf"
    time.sleep(1)
    self.call("C.UTF-8", "card", self.plain / "book.croustade", "--plate", PLATE, "--on", DAY, "-o", again)
    self.assertEqual(again.read_bytes(), (self.plain / "cost-card.pdf").read_bytes())


if __name__ == "__main__":
  CLI, DEMO = os.path.abspath(sys.argv[1]), sys.argv[2]
  unittest.main(argv=sys.argv[:1] + sys.argv[3:])

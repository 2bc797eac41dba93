"""Cases of croustade-cli beside a small book that is complete.

A test that imports it is called with CROUSTADE-CLI and DEMO-FOLDER.
"""

import os
import resource
import shutil
import subprocess
import sys
import tempfile
import unittest

import loaded

CLI, DEMO = (os.path.abspath(path) for path in (sys.argv + ["", ""])[1:3])
DAY = "2026-11-25"

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


def on_a_full_disk():
  """The environment of a program that draws there: cairo 1.18 keeps what it could not write."""
  return {**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "",
          "ASAN_OPTIONS": os.environ.get("ASAN_OPTIONS", "") + ":detect_leaks=0"}


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

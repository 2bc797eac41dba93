#!/usr/bin/env python3
"""A command of croustade-cli that is cut short: by a signal, a kill, or a full disk.

    test-cli-interrupted.py CROUSTADE-CLI DEMO-FOLDER
"""

import os
import pathlib
import shutil
import signal
import subprocess
import sys
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from sound import CLI, SOUND, Case, call, full_disk  # noqa: E402


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

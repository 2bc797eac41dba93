#!/usr/bin/env python3
"""Manual pages and completions say what the program does, no less and no more.

    test-manuals.py CROUSTADE-CLI SOURCE-FOLDER

What the program says of itself is its help, the headers of the tables that it dumps and the units that it would take.
"""

import csv
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

CLI = SOURCE = ""


def run(*command):
  return subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout


def read(*path):
  with open(os.path.join(SOURCE, "packaging", *path), encoding="utf-8") as file:
    return file.read()


def commands():
  return re.findall(r"(?m)^  ([a-z]+) BOOK", run(CLI, "--help"))


def options(command):
  return set(re.findall(r"--([a-z-]+)", run(CLI, command, "--help").split("Options:")[1]))


class Manuals(unittest.TestCase):
  def test_every_command_and_option_is_in_the_manual(self):
    page = read("croustade-cli.1")
    self.assertEqual(re.findall(r"(?m)^\.It Cm ([a-z]+) Ar BOOK", page.replace(
      ".It Xo\n.Cm cost", ".It Cm cost")), commands())
    self.assertEqual(list(dict.fromkeys(re.findall(r"(?m)^\.Nm\n\.Cm ([a-z]+)$", page))), commands())
    known = {o for command in commands() for o in options(command)} | {"help", "version"}
    self.assertEqual(set(re.findall(r"Fl -([a-z-]+)", page)) | {"version"}, known)

  def test_the_synopsis_of_a_command_has_its_options(self):
    """An option stands where its command does, and not just anywhere on the page; -o is --output."""
    told = {command: set() for command in commands()}
    for command, body in re.findall(r"(?ms)^\.Nm\n\.Cm ([a-z]+)\n(.*?)(?=^\.Nm$|^\.Sh )", read("croustade-cli.1")):
      told[command] |= {"output" if option == "o" else option for option in re.findall(r"Fl -?([a-z-]+)", body)}
    self.assertEqual(told, {command: options(command) - {"help"} for command in commands()})

  def test_every_table_and_column_is_in_the_manual(self):
    described = {}
    for section in re.split(r"(?m)^\.Ss ", read("croustade-tables.5"))[1:]:
      body = section.split("\n.Sh ")[0]
      described[body.split("\n")[0]] = re.findall(r"(?m)^\.It Cm ([a-z0-9_]+)", body)
    with tempfile.TemporaryDirectory() as folder:
      book, out = os.path.join(folder, "b"), os.path.join(folder, "out")
      run(CLI, "load", book, os.path.join(SOURCE, "data", "demo"))
      # Of a table that few books have rows of there is no file: one row more.
      os.mkdir(out)
      with open(os.path.join(SOURCE, "data", "demo", "offers.csv"), encoding="utf-8", newline="") as file:
        offer = next(csv.DictReader(file))
      with open(os.path.join(out, "price_answers.csv"), "w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([["ingredient", "supplier", "code", "from", "price"],
                                    [offer["ingredient"], offer["supplier"], offer["code"], "2026-11-01", "1"]])
      run(CLI, "add", book, out)
      run(CLI, "dump", book, out)
      dumped = {}
      for name in os.listdir(out):
        with open(os.path.join(out, name), encoding="utf-8", newline="") as file:
          dumped[name[:-4]] = next(csv.reader(file))
    self.assertEqual(described, dumped)

  def test_every_unit_is_in_the_manual(self):
    body = re.sub(r"(?m)^\..*", "", read("croustade-tables.5").split(".Sh UNITS\n")[1].split("\n.Sh ")[0])
    with tempfile.TemporaryDirectory() as folder:
      for name, rows in (("ingredients", "name,unit\nCockles,g\n"),
                         ("counts", "date,item,amount,unit\n2026-01-01,Cockles,1,no unit\n")):
        with open(os.path.join(folder, f"{name}.csv"), "w", encoding="utf-8") as file:
          file.write(rows)
      done = subprocess.run([CLI, "load", os.path.join(folder, "b"), folder], capture_output=True, encoding="utf-8",
                            check=False)
    self.assertEqual(body.split(), re.search("use one of: (.*)", done.stderr).group(1).split(", "))

  def test_pages_are_sound(self):
    for page in ("croustade-cli.1", "croustade-tables.5"):
      done = subprocess.run(["mandoc", "-T", "lint", "-W", "warning",
                             os.path.join(SOURCE, "packaging", page)],
                            capture_output=True, encoding="utf-8", check=False)
      self.assertEqual(done.stdout + done.stderr, "")


class Completions(unittest.TestCase):
  def path(self, shell):
    return os.path.join(SOURCE, "packaging", "completions", f"croustade-cli.{shell}")

  def completed(self, *words):
    """What bash offers for the last word."""
    line = " ".join(f"'{word}'" for word in words)
    script = (f"source '{self.path('bash')}'; COMP_WORDS=({line}); "
              f"COMP_CWORD={len(words) - 1}; compopt () {{ :; }}; _croustade_cli; "
              "printf '%s\\n' \"${COMPREPLY[@]}\"")
    return set(run("bash", "-c", script).split())

  def test_bash_offers_commands_and_options(self):
    self.assertEqual(self.completed("croustade-cli", ""),
                     set(commands()) | {"--help", "--version"})
    self.assertEqual(self.completed("croustade-cli", "co"), {"cost"})
    for command in commands():
      self.assertEqual(self.completed("croustade-cli", command, "--"),
                       {f"--{option}" for option in options(command)})

  def test_fish_offers_commands_and_options(self):
    for command in commands():
      offered = run("fish", "--no-config", "-c",
                    f"source '{self.path('fish')}'; complete -C 'croustade-cli {command} --'")
      self.assertEqual(set(re.findall(r"(?m)^--([a-z-]+)", offered)), options(command))
    offered = run("fish", "--no-config", "-c",
                  f"source '{self.path('fish')}'; complete -C 'croustade-cli '")
    self.assertLessEqual(set(commands()), set(re.findall(r"(?m)^[a-z]+", offered)))

  def test_zsh_knows_commands_and_options(self):
    run("zsh", "-n", self.path("zsh"))
    text = read("completions", "croustade-cli.zsh")
    self.assertEqual(re.findall(r"(?m)^  '([a-z]+):", text), commands())
    for command in commands():
      body = re.search(rf"(?ms)^  (?:new \| )?{command}(?: \| check)?\)(.*?);;", text).group(1)
      self.assertEqual(set(re.findall(r"--([a-z-]+)", body)), options(command))


if __name__ == "__main__":
  CLI, SOURCE = map(os.path.abspath, sys.argv[1:3])
  for tool in ("mandoc", "bash", "fish", "zsh"):
    assert shutil.which(tool), f"{tool} is not there"
  unittest.main(argv=sys.argv[:1], verbosity=2)

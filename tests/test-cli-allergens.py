#!/usr/bin/env python3
"""`allergens`: who carries what, what a guest avoids, exit statuses, and sheets as files.

    test-cli-allergens.py CROUSTADE-CLI DEMO-FOLDER
"""

import csv
import io
import json
import os
import subprocess
import sys
import tempfile
import unittest

CLI = DEMO = ""


class Allergens(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    cls.folder = tempfile.TemporaryDirectory()
    cls.book = os.path.join(cls.folder.name, "b.croustade")
    subprocess.run([CLI, "load", cls.book, DEMO], check=True, capture_output=True)

  @classmethod
  def tearDownClass(cls):
    cls.folder.cleanup()

  def run_cli(self, *arguments):
    return subprocess.run([CLI, "allergens", self.book, "--on", "2026-11-28", *arguments],
                          capture_output=True, check=False)

  def groups(self, *arguments):
    answer = json.loads(self.run_cli("--json", *arguments).stdout)
    found = {}
    for plate in answer["plates"]:
      found.setdefault(plate["group"], []).append(plate["name"])
    return answer, found

  def test_a_guest_avoids_molluscs(self):
    answer, found = self.groups("--avoids", "molluscs", "--menu", "Slack water")
    self.assertEqual((answer["on"], answer["list"], answer["menu"], answer["avoids"]),
                     ("2026-11-28", "eu", "Slack water", ["molluscs"]))
    self.assertIn("Hake, potatoes and mussels", found["contains"])
    self.assertEqual(found["not-known"], ["Beetroot, smoked curd and dulse"])
    self.assertTrue(any("cross-contact" in caution for caution in answer["cautions"]))

  def test_the_way_of_milk_into_a_croustade(self):
    answer, _ = self.groups()
    plate = next(p for p in answer["plates"] if p["name"] == "Crab croustade")
    milk = next(a for a in plate["allergens"] if a["code"] == "milk")
    self.assertEqual(milk["held"], "contains")
    self.assertEqual(milk["contains"][0], {"name": "Crab butter", "bought": ["Butter, unsalted"],
                                           "in": ["Dressed white crab", "Brown crab cream"]})

  def test_wheat_is_not_told_by_gluten(self):
    answer, found = self.groups("--list", "us", "--avoids", "wheat")
    self.assertEqual(len(answer["plates"][0]["allergens"]), 9)
    self.assertNotIn("contains", found)
    self.assertIn("Barley bread and cultured butter", found["not-known"])

  def test_what_nobody_said_is_a_status(self):
    done = self.run_cli()
    self.assertEqual(done.returncode, 1)
    self.assertIn(b"allergens not stated for Dulse flakes", done.stderr)
    self.assertEqual(self.run_cli("--menu", "Tide").returncode, 0)

  def test_refusals(self):
    for arguments in (("--avoids", "shellfish"), ("--avoids", ""), ("--avoids", " , "), ("--list", "uk"),
                      ("--menu", "Nowhere"), ("--json", "-o", "x.pdf"), ("-o", "x.txt"), ("--avoids", "wheat")):
      with self.subTest(arguments):
        done = self.run_cli(*arguments)
        self.assertEqual((done.returncode, done.stdout), (2, b""))
        self.assertTrue(done.stderr)

  def test_sheets(self):
    for name, begins in (("a.pdf", b"%PDF-"), ("a.xlsx", b"PK"), ("a.csv", b"group,Plate,gluten")):
      path = os.path.join(self.folder.name, name)
      self.assertEqual(self.run_cli("--menu", "Tide", "-o", path).returncode, 0)
      with open(path, "rb") as file:
        self.assertEqual(file.read(len(begins)), begins)
    rows = list(csv.reader(io.StringIO(self.run_cli("--menu", "Tide", "-o", "-").stdout.decode())))
    self.assertEqual({len(row) for row in rows}, {17})
    self.assertIn("Crab croustade", [row[1] for row in rows])


if __name__ == "__main__":
  CLI, DEMO = os.path.abspath(sys.argv[1]), sys.argv[2]
  unittest.main(argv=sys.argv[:1])

#!/usr/bin/env python3
"""The shortcuts window lists every key that the window binds, and none that it does not.

    test-shortcuts.py SOURCE-FOLDER
"""

import glob
import os
import re
import sys
import unittest
import xml.etree.ElementTree as ElementTree

SOURCE = ""

# What the toolkit binds by itself: the menu, a field's Enter.
TOOLKIT = {"F10", "Return"}

MODIFIERS = {"GDK_CONTROL_MASK": "<Control>", "GDK_SHIFT_MASK": "<Shift>", "GDK_ALT_MASK": "<Alt>"}


def listed():
  tree = ElementTree.parse(os.path.join(SOURCE, "ui-definitions", "help-overlay.ui"))
  keys = []
  for part in tree.iter("property"):
    if part.get("name") == "accelerator":
      for key in part.text.split():
        span = re.fullmatch(r"(.*)(\d)\.\.\.(\d)", key)
        keys += ([f"{span[1]}{n}" for n in range(int(span[2]), int(span[3]) + 1)] if span else [key])
  return keys


def spelt(key, modifiers):
  """Keys of the numeric pad count as their twins."""
  key = {"KP_Enter": "Return", "KP_Up": "Up", "KP_Down": "Down"}.get(key, key)
  return "".join(MODIFIERS[name] for name in re.findall(r"GDK_\w+_MASK", modifiers)) + key


def bound():
  keys = set()
  for path in glob.glob(os.path.join(SOURCE, "app", "workbench", "*", "*.c")):
    with open(path, encoding="utf-8") as file:
      text = file.read()
    for key, places, modifiers in re.findall(
        r"GDK_KEY_(\w+)( \+ place)?,\s*((?:GDK_\w+_MASK(?: \| )?)+|0)[,\s]", text):
      keys |= ({spelt(str(n), modifiers) for n in range(1, 6)} if places
               else {spelt(key, modifiers)})
    if "GDK_KEY_0 + (guint) pictures[i].digit, GDK_CONTROL_MASK" in text:
      keys |= {spelt(digit, "GDK_CONTROL_MASK") for digit in re.findall(r"\{ (\d), CRO_\w+ \}", text)}
    for accelerators in re.findall(r"_keys\[\] = \{ ((?:\"[^\"]+\", )+)NULL", text):
      keys |= set(re.findall(r'"([^"]+)"', accelerators))
  return keys


class Shortcuts(unittest.TestCase):
  def test_every_key_is_listed(self):
    self.assertGreater(len(bound()), 20)
    self.assertEqual(bound() - set(listed()), set())

  def test_every_key_listed_is_there(self):
    self.assertEqual(set(listed()) - bound() - TOOLKIT, set())


if __name__ == "__main__":
  SOURCE = sys.argv.pop()
  unittest.main(verbosity=2)

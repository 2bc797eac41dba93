#!/usr/bin/env python3
"""The template holds every text of the sources, and every language has all of them.

    test-translations.py SOURCE-FOLDER BUILD-FOLDER
"""

import glob
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest

SOURCE = BUILD = ""

# The keywords that meson's preset for GLib adds to those of C.
KEYWORDS = ("_", "N_", "C_:1c,2", "NC_:1c,2", "g_dcgettext:2", "g_dngettext:2,3",
            "g_dpgettext2:2c,3")


def read_list(name):
  with open(os.path.join(SOURCE, "po", name), encoding="utf-8") as file:
    return [line.strip() for line in file if line.strip() and not line.startswith("#")]


def built():
  """What the programs are built from: sources that are compiled, the window's descriptions, and
  what the desktop reads of it."""
  with open(os.path.join(BUILD, "compile_commands.json"), encoding="utf-8") as file:
    paths = {os.path.relpath(os.path.join(entry["directory"], entry["file"]), SOURCE)
             for entry in json.load(file)}
  if any(path.startswith("app/workbench/") for path in paths):
    paths |= {os.path.relpath(path, SOURCE)
              for pattern in ("ui-definitions/*.ui", "data/*.in")
              for path in glob.glob(os.path.join(SOURCE, pattern))}
  return {path for path in paths if path.startswith(("app/", "ui-definitions/", "data/"))}


def has_texts(path):
  if path.startswith("data/"):
    return True
  with open(os.path.join(SOURCE, path), encoding="utf-8") as file:
    return re.search(r'\bglib/gi18n|translatable="(yes|true)"', file.read()) is not None


def texts(path):
  """Texts of a catalogue, with their plurals."""
  with open(path, encoding="utf-8") as file:
    catalogue = file.read()
  found = re.findall(r'(?m)^msgid ((?:".*"\n)+)(?:msgid_plural ((?:".*"\n)+))?', catalogue)
  joined = {tuple("".join(re.findall(r'"(.*)"', part)) for part in pair) for pair in found}
  return joined - {("", "")}


def sentences(path):
  """Of a catalogue: every text, plurals apart, and every translation, both without escapes."""
  with open(path, encoding="utf-8") as file:
    catalogue = file.read()
  parts = {"msgid": [], "msgstr": []}
  for kind, lines in re.findall(r'(?m)^(msgid|msgstr)(?:_plural|\[\d\])? ((?:".*"\n)+)', catalogue):
    text = "".join(re.findall(r'"(.*)"', lines))
    parts[kind].append(text.replace('\\n', "\n").replace('\\"', '"'))
  return parts["msgid"][1:], parts["msgstr"][1:]


# What French does not write. A mark that opens a text stands for an unknown, and a % before a
# letter is a place for a value, so neither follows a space that must not break.
NOT_FRENCH = {
    "a plain space before : ; ? ! » or %":
        r" (?:[:;?!](?=[\s\u00a0.,)…]|\Z)|»|%%|%(?!(?:[0-9]+\$)?[-+#0-9.]*(?:hh?|ll?|z|j)?[A-Za-z]))",
    # "○?" is a sign of the allergens' table.
    "a mark without its space": r"[^\s\u00a0○](?:[?!»]|[;:](?=\s)|:\Z)",
    "« without its space": r"«(?!\u00a0)",
    "a straight quote": r"['\"]",
    "“ or ”": r"[“”]",
    "the familiar you": r"(?i)\b(?:tu|toi|ton|tes|t’\w+)\b",
}


class Translations(unittest.TestCase):
  maxDiff = None

  def test_the_template_is_that_of_the_sources(self):
    with tempfile.TemporaryDirectory() as folder:
      fresh = os.path.join(folder, "fresh.pot")
      subprocess.run(["xgettext", "--from-code=UTF-8", f"--files-from={SOURCE}/po/POTFILES",
                      f"--directory={SOURCE}", f"--output={fresh}",
                      *(f"--keyword={word}" for word in KEYWORDS)], check=True)
      self.assertEqual(texts(os.path.join(SOURCE, "po", "croustade.pot")), texts(fresh))

  def test_files_with_texts_are_listed_in_order(self):
    self.assertEqual(read_list("POTFILES"), sorted(path for path in built() if has_texts(path)))

  def test_every_language_is_complete(self):
    self.assertIn("fr", read_list("LINGUAS"))
    for language in read_list("LINGUAS"):
      done = subprocess.run(["msgfmt", "--check", "--statistics", "--output-file=/dev/null",
                             os.path.join(SOURCE, "po", language + ".po")],
                            capture_output=True, encoding="utf-8", check=False,
                            env={**os.environ, "LC_ALL": "C"})
      self.assertEqual(done.returncode, 0, done.stderr)
      self.assertRegex(done.stderr, r"\A\d+ translated messages\.\n\Z", language)
      self.assertEqual(texts(os.path.join(SOURCE, "po", language + ".po")),
                       texts(os.path.join(SOURCE, "po", "croustade.pot")), language)

  def test_names_stand_in_curly_quotes(self):
    texts_of_sources, _ = sentences(os.path.join(SOURCE, "po", "croustade.pot"))
    self.assertEqual([text for text in texts_of_sources
                      if re.search(r"""(?<!\w)['"](?=\w)|"\w""", text)], [])

  def test_colons_stand_in_sentences_that_are_translated(self):
    """French has a space before them. What is not a sentence: places of tables, and errors of the system."""
    places = ("cro-left-out-words.c", "cro-words-fault.c", "cro-dump-folder.c")
    faults = []
    for path in sorted(glob.glob(os.path.join(SOURCE, "app", "kitchen", "**", "*.c"), recursive=True)
                       + glob.glob(os.path.join(SOURCE, "app", "workbench", "**", "*.c"), recursive=True)):
      with open(path, encoding="utf-8") as file:
        found = re.findall(r'printf \((?:\w+, )?"[^"\n]*%s[:?!] ', file.read())
      if found and os.path.basename(path) not in places:
        faults.append(f"{os.path.relpath(path, SOURCE)}: {found[0]}")
    self.assertEqual(faults, [])

  def test_french_is_written_as_french(self):
    _, french = sentences(os.path.join(SOURCE, "po", "fr.po"))
    self.assertTrue(french)
    for name, pattern in NOT_FRENCH.items():
      with self.subTest(name):
        self.assertEqual([text for text in french if re.search(pattern, text)], [])


if __name__ == "__main__":
  SOURCE, BUILD = map(os.path.realpath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

#!/usr/bin/python3
"""Whatever keys come, in whatever order: the window neither ends nor warns, and answers after them.

    random-keys.py CROUSTADE CLI DEMO CATALOGUES [--seeds A:B] [--keys N] [--hours H]

Keys follow from the seed alone. By turns they go to the demo, to the demo in French, to an empty
book, and to the demo from right to left. A failure says the seed and the last keys before it.
--hours goes on from the first seed for as long.
"""

import argparse
import os
import random
import re
import subprocess
import sys
import tempfile
import time

import french
from session import Session, until

# A key as often as it stands here. What asks another program, or closes the window, is left out.
KEYS = (
  ["Tab"] * 14 + ["shift+Tab"] * 4 + ["Return"] * 8 + ["Escape"] * 5 + ["Down"] * 8 + ["Up"] * 5
  + ["F6"] * 5 + ["shift+F6"] * 2 + [f"alt+{place}" for place in range(1, 6)] * 2
  + ["ctrl+z"] * 3 + ["ctrl+shift+z", "ctrl+Return", "ctrl+Return"]
  + [f"ctrl+{letter}" for letter in "adfhikmn"] + ["ctrl+comma", "ctrl+question"]
  + ["alt+Left", "alt+Delete", "alt+Up", "alt+Down", "alt+Return", "F9", "F10", "Menu"]
  + ["space", "BackSpace", "Delete", "Home", "End", "Left", "Right", "Page_Down"])
TEXTS = (
  "- ", "1,5", "12", "25 g butter 9.20/kg", "+5 %", "-0.40", "=", "-", "2*3", "1/3 kg", "loss 20 %",
  "x", "0", "2026-11-20", "crab", "100 %", "1e9", "50 % comes back", "3 l", "* salt", "2026-13-40",
  "kg", "1.000 g", "%", "GBP", "5 kg")

# How much of the time a text is typed in place of a key.
TYPED = 0.25

# Sent by one call: what comes after the key that ended the program reaches nothing.
AT_ONCE = 6

SOURCE = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))


def speaking_french(_, catalogues):
  return french.environment(catalogues)


def mirrored(folder, _):
  """The toolkit turns for languages that a program has: one is made, of the English sentences."""
  messages = f"{folder}/ar/LC_MESSAGES"
  os.makedirs(messages)
  try:
    subprocess.run(["msgen", "--lang=ar", "-o", f"{folder}/ar.po", f"{SOURCE}/po/croustade.pot"],
                   check=True, capture_output=True)
    subprocess.run(["msgfmt", "-o", f"{messages}/croustade.mo", f"{folder}/ar.po"], check=True,
                   capture_output=True)
  except (FileNotFoundError, subprocess.CalledProcessError):
    return {}
  return {"LANGUAGE": "ar", "CROUSTADE_LOCALE_DIR": folder}


def plain(*_):
  return {}


# How the program speaks, and whether the book holds the demo.
TURNS = ((plain, True), (speaking_french, True), (plain, False), (mirrored, True))


def warnings(home):
  with open(f"{home}/log", encoding="utf-8", errors="replace") as log:
    return [line.strip() for line in log
            if re.search(r"\b(Croustade-|Gtk-|Adwaita-|GLib|Pango-).*(WARNING|CRITICAL|ERROR)"
                         r"|ERROR: \w+Sanitizer|runtime error", line)]


def look(s, seed, sent):
  said = warnings(s.home)
  if s.program.poll() is None and not said:
    return
  said.append(f"seed {seed}, after {len(sent)} keys: {' '.join(sent[-16:])}")
  if s.program.poll() is not None:
    said.append(f"the program ended with {s.program.returncode}")
  raise AssertionError("\n".join(said))


def choose(seed, n):
  """Keys, and texts in quotation marks."""
  choice = random.Random(seed)
  return [f'"{choice.choice(TEXTS)}"' if choice.random() < TYPED else choice.choice(KEYS)
          for _ in range(n)]


def send(s, keys):
  command = ["xdotool"]
  for key in keys:
    command += (["type", "--delay", "12", "--args", "1", "--", key.strip('"')] if key.startswith('"')
                else ["key", "--delay", "30", key])
  s.tool(*command)


def run_seed(program, book, seed, n, more):
  with Session(program, book, environment=more) as s:
    until(lambda: s.all("label", "Plates|Assiettes"), "the book")
    keys = choose(seed, n)
    for at in range(0, n, AT_ONCE):
      send(s, keys[at:at + AT_ONCE])
      look(s, seed, keys[:at + AT_ONCE])
    # It still answers, and a person's keys still go somewhere.
    s.press("Escape", "Escape", "Escape", "alt+1")
    until(s.focused, f"a focus after all keys of seed {seed}")
    look(s, seed, keys)
  return 0


def run_alone(arguments, seed):
  """One session a process: see session.py."""
  language, has_demo = TURNS[seed % len(TURNS)]
  with tempfile.TemporaryDirectory() as folder:
    book = f"{folder}/keys.croustade"
    subprocess.run([arguments.cli, "load", book, arguments.demo] if has_demo
                   else [arguments.cli, "new", book], check=True, capture_output=True)
    return run_seed(arguments.program, book, seed, arguments.keys,
                    language(folder, arguments.catalogues))


def main():
  parser = argparse.ArgumentParser(description=__doc__)
  for name in ("program", "cli", "demo", "catalogues"):
    parser.add_argument(name)
  parser.add_argument("--seeds", default="0:4")
  parser.add_argument("--keys", type=int, default=72)
  parser.add_argument("--hours", type=float, default=0)
  parser.add_argument("--alone", type=int)
  arguments = parser.parse_args()
  if arguments.alone is not None:
    return run_alone(arguments, arguments.alone)
  first, last = map(int, arguments.seeds.split(":"))
  end = time.monotonic() + 3600 * arguments.hours
  while first < last or time.monotonic() < end:
    done = subprocess.run([sys.executable, os.path.abspath(__file__), *sys.argv[1:],
                           "--alone", str(first)], check=False).returncode
    if done != 0:
      return done
    first += 1
  return 0


if __name__ == "__main__":
  sys.exit(main())

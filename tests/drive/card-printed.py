#!/usr/bin/python3
"""A kitchen card for 48 bites is saved as PDF, and all plates' cards into a folder, by keys alone.

    card-printed.py CROUSTADE
"""

import glob
import os
import shutil
import subprocess
import sys

from session import Session, until


def says(path, words):
  """Where a reader of PDF files is there, what it finds."""
  if shutil.which("pdftotext") is None:
    return True
  text = subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True,
                        encoding="utf-8").stdout
  return all(word in text for word in words)


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    # The card of what stands on the bench: its kind, for how many bites, and to a file.
    s.press("ctrl+p")
    s.focus_is("button", "Kind of card")
    # The list takes keys once it has the focus.
    s.press("Return")
    until(lambda: s.focused().role == "list item", "the kinds of cards")
    s.step("Down")
    s.press("Return")
    s.focus_is("button", "Kind of card")
    s.go("Tab", "text", "Bites, guests or batches")
    s.write("48")
    s.press("Return")
    s.find("image", "Card of Crab croustade, page 1 / 2")
    s.go("Tab", "button", "Save as PDF…")
    s.press("Return")
    path = f"{s.home}/card.pdf"
    s.choose("Save a Card as PDF", path)
    until(lambda: os.path.exists(path) and os.path.getsize(path) > 1000, "the card")
    with open(path, "rb") as card:
      assert card.read(5) == b"%PDF-"
    assert says(path, ["Bites: 48", "Dressed white crab", "480 g", "Order first"])
    s.leave("Escape")

    # All plates' cards, each a file of its own.
    s.press("alt+1", "Home", "ctrl+4")
    s.go("Tab", "button", "Save in a Folder…")
    folder = f"{s.home}/cards"
    os.mkdir(folder)
    s.press("Return")
    s.choose("Save Cards in a Folder", folder)
    until(lambda: len(glob.glob(f"{folder}/*.pdf")) == 16, "a card of each plate")
    until(lambda: s.find("button", "Save in a Folder…").has("sensitive"), "the end of it")
    assert all(name.endswith(".pdf") for name in os.listdir(folder))


if __name__ == "__main__":
  main(*sys.argv[1:])

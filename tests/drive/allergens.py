#!/usr/bin/python3
"""A guest avoids molluscs: which plates contain them, and who carries them in; then what nobody has said is
said, and the sheet is printed to a file. All by keys.

    allergens.py CROUSTADE
"""

import os
import sys

from session import Session, until


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    # The key of the view leads to what a guest avoids; three letters tell which, and plates that contain
    # it come first. Names of what has the focus come fast; reading the whole screen does not.
    s.press("alt+1", "Home", "ctrl+2")
    s.focus_is("text", "A guest avoids: type an allergen")
    s.write("mol")
    s.press("Return")
    s.reads("Not among those entered: molluscs .*")
    s.go("Tab", "table cell", "Fish soup, rouille and toast, molluscs: contains", most=6)
    s.press("Down", "Left")
    s.focus_is("table cell", "Hake, potatoes and mussels, lupin: not among those entered")
    s.reads("Hake, potatoes and mussels, lupin: not among those entered\\. It is no “free from” claim\\.")
    # A letter on a sign begins what else is avoided.
    s.write("fi")
    s.focus_is("text", "A guest avoids: type an allergen")
    s.press("Return")
    s.go("Tab", "table cell", "Crab croustade, fish: contains", most=6)

    # The sheet.
    s.go("shift+Tab", "button", "Print.*", most=6)
    s.pick("As PDF…")
    path = f"{s.home}/allergens.pdf"
    s.choose("Save the Sheet of Allergens", path)
    until(lambda: os.path.exists(path) and os.path.getsize(path) > 1000, "the printed sheet")
    with open(path, "rb") as sheet:
      assert sheet.read(5) == b"%PDF-"

    # What nobody has said: dulse is the first of all ingredients. Mustard by two letters and a blank, crustaceans
    # that the label warns of by two capitals; Enter keeps both as one act and goes on.
    s.press("alt+3", "Home", "ctrl+2")
    s.focus_is("table cell", "Dulse flakes: not stated\\. gluten: not known")
    s.write("mu")
    s.press("space", "shift+c", "shift+r", "Return")
    s.focus_is("table cell", "Butter, unsalted: milk\\. .*")
    s.reads("Undo allergens of Dulse flakes")
    s.press("Up")
    s.focus_is("table cell", "Dulse flakes: mustard; may contain crustaceans\\. gluten: .*")
    s.press("ctrl+z")
    s.reads("Not stated for 1 of 84 ingredients\\.")


if __name__ == "__main__":
  main(*sys.argv[1:])

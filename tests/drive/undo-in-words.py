#!/usr/bin/python3
"""Undo is the field's while it holds text of its own, and else the book's, in words.

    undo-in-words.py CROUSTADE
"""

import sys

from session import Session, until


def first_amount(s):
  return s.find("text", "amount of Rice-flour cup per batch")


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.focus_is("button", "\\? no price for Sea purslane")

    # F6 leads from part to part, and to the lines.
    s.go("F6", "text", "amount of Rice-flour cup per batch")

    # Typing previews; what is not kept is the field's to undo.
    s.press("ctrl+a")
    s.write("48")
    s.reads("at least 0\\.86 per guest.*")
    s.press("ctrl+z")
    until(lambda: first_amount(s).text != "48", "the field's own undo")
    s.press("Escape")
    s.reads("at least 0\\.84 per guest.*")
    assert first_amount(s).text == "24 pc", first_amount(s).text

    # What is kept is an act, with its words.
    s.enter("48")
    s.reads("at least 0\\.86 per guest.*")
    s.reads("Undo amount of Rice-flour cup")
    s.press("ctrl+z")
    s.reads("at least 0\\.84 per guest.*")
    s.reads("Redo amount of Rice-flour cup")
    s.press("ctrl+shift+z")
    s.reads("at least 0\\.86 per guest.*")
    assert s.focused() is not None, "the focus was lost"

    # The history tells it from one value to the other.
    s.press("ctrl+h")
    s.reads("amount of Rice-flour cup")
    for _ in range(8):
      s.press("Tab")
      if s.all("label", "24 → 48"):
        break
      s.press("Return")
    s.reads("24 → 48")
    s.press("Escape")
    until(lambda: not s.all("label", "24 → 48"), "the end of the history")

    # Ctrl+Enter opens what a line takes, Alt+Left comes back to the same cell.
    s.go("F6", "text", "amount of Rice-flour cup per batch")
    s.press("ctrl+Return")
    until(lambda: s.all("text", "Preparation"), "the preparation's bench")
    s.press("alt+Left")
    s.focus_is("text", "amount of Rice-flour cup per batch")

    # Up and Down stay in the column; a cost opens as its sum, and the focus comes back.
    s.press("Down")
    s.focus_is("text", "amount of Dressed white crab per batch")
    s.press("Tab", "Down")
    s.focus_is("text", "amount of Brown crab cream per bite")
    s.press("ctrl+i")
    s.focus_is("button", ".*/kg")
    s.press("Escape")
    s.focus_is("text", "amount of Brown crab cream per bite")
    s.press("alt+Down", "alt+Down")
    s.reads("Undo position of Brown crab cream")
    s.press("Up")
    s.focus_is("text", "amount of Trout roe per bite")


if __name__ == "__main__":
  main(*sys.argv[1:])

#!/usr/bin/python3
"""An ingredient that ten recipes take is replaced everywhere, and the whole is undone, by keys alone.

    replaced.py CROUSTADE
"""

import re
import sys

from session import Session


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    s.press("ctrl+k")
    s.write("butter, uns")
    s.press("Return")
    s.reads("9\\.20/kg.*")
    s.go("F6", "text", "Ingredient")
    s.go("Tab", "button", ".*uplicate, change or remove.*", most=30)
    s.pick("Replace or Merge…")
    s.focus_is("text", "Replace by", window="Replace .*")
    s.write("cultured butter")
    s.press("Return")

    # What plates come to is told before anything is kept.
    s.reads("11\\.72 → 11\\.79")
    s.focus_is("button", "Replace in \\d+ Recipes")
    assert int(re.search(r"\d+", s.focused().name).group()) >= 10, s.focused().name
    s.leave("Return")
    s.reads("Undo replacement of Butter, unsalted by Cultured butter")
    s.press("ctrl+z")
    s.reads("Redo replacement of Butter, unsalted by Cultured butter")
    assert s.focused() is not None, "the focus was lost"


if __name__ == "__main__":
  main(*sys.argv[1:])

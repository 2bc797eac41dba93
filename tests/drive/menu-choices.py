#!/usr/bin/python3
"""A choice of a menu is made, shared, named, moved and dissolved by keys alone, and undone in words.

    menu-choices.py CROUSTADE
"""

import sys

from session import Session, until

MULLET = "Grey mullet, beurre blanc and samphire"
LAMB = "Salt-marsh lamb, celeriac and sea beet"


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    s.press("ctrl+k")
    s.write("tide")
    s.press("Return")
    s.go("F6", "text", "Menu")
    s.go("Tab", "text", f"choice of {MULLET}", most=60)
    s.enter("main")
    s.reads("guests %")
    s.go("Tab", "text", f"choice of {LAMB}")
    s.enter("main")
    s.reads("one of 2:")
    s.reads("taken equally")
    s.reads("Per guest by choice: at least .*%")

    # What is left of the guests is said, and undone in words.
    s.go("shift+Tab", "text", f"share of guests, % of {MULLET}", most=20)
    s.enter("40")
    s.reads("60.% left for 1 other")
    s.reads(f"Undo share of guests, % of {MULLET}")

    # The name over the plates is that of the choice.
    s.go("shift+Tab", "text", "name of the choice", most=20)
    s.press("ctrl+a")
    s.enter("fish or meat")
    s.reads("Undo choice of Tide")
    s.go("Tab", "text", f"choice of {LAMB}", most=20)
    assert s.focused().text == "fish or meat", s.focused().text

    # A plate is moved in the order served, and keeps the focus.
    s.press("alt+Up")
    s.reads(f"Undo position of {LAMB}")
    s.focus_is("text", f"choice of {LAMB}")
    s.press("ctrl+z")

    s.go("shift+Tab", "text", "name of the choice", most=20)
    s.press("ctrl+a", "Delete")
    s.press("Return")
    until(lambda: not s.all("label", "one of 2:"), "the end of the choice")
    s.press("ctrl+z")
    s.reads("one of 2:")
    assert s.focused() is not None, "the focus was lost"


if __name__ == "__main__":
  main(*sys.argv[1:])

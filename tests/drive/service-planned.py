#!/usr/bin/python3
"""A service is planned with crab butter in the house already, and its sheets are printed to a file.

    service-planned.py CROUSTADE
"""

import os
import sys

from session import Session, until


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    # Nothing is asked before the first covers. The demo has covers of some days: those here differ.
    s.press("alt+1", "Home", "ctrl+3")
    s.focus_is("text", "Add a plate or menu")
    s.write("ti")
    s.press("Return")
    s.focus_is("text", "covers of Tide")
    s.write("21")
    s.press("Return")
    s.focus_is("text", "Add a plate or menu")
    s.go("Tab", "text", "In stock already")
    s.write("30 hake")
    s.press("Return")
    s.reads("30 of what\\? Hake has no weight of one piece\\.")
    s.press("ctrl+a")
    s.write("150 g crab butter")
    s.press("Return")
    s.reads("Undo stock of Crab butter")

    s.go("shift+Tab", "button", "Print.*", most=20)
    s.pick("As PDF…")
    path = f"{s.home}/sheets.pdf"
    s.choose("Save the Sheets of a Service", path)
    until(lambda: os.path.exists(path) and os.path.getsize(path) > 1000, "the printed sheets")
    with open(path, "rb") as sheets:
      assert sheets.read(5) == b"%PDF-"


if __name__ == "__main__":
  main(*sys.argv[1:])

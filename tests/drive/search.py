#!/usr/bin/python3
"""Anything of the book is found from anywhere by parts of its name.

    search.py CROUSTADE
"""

import sys

from session import Session, until


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")

    # Words in any order, accents or none; from Months to an ingredient.
    s.press("alt+5")
    until(lambda: s.find("list item", "Months").has("selected"), "the months")
    s.press("ctrl+k")
    s.focus_is("text", "Search the book")
    s.write("fraiche creme")
    s.reads("Crème fraîche")
    s.reads("ingredient")
    s.press("Return")
    s.reads("6\\.60/kg as bought.*")
    s.focus_is("list item", "Crème fraîche, .*")

    # Escape leads back to where one was, at once.
    s.press("ctrl+k")
    s.focus_is("text", "Search the book")
    s.write("zzz")
    s.reads("No name matches\\.")
    s.press("Escape")
    s.focus_is("list item", "Crème fraîche, .*")

    # Pages of the window are found as things are.
    s.press("ctrl+k")
    s.focus_is("text", "Search the book")
    s.write("exchange rates")
    s.press("Return")
    s.focus_is("list item", "Exchange rates.*")
    s.press("alt+3")

    # In a list the first that fits is opened at once, and Down leads into it.
    s.press("ctrl+f")
    until(lambda: s.focused().name == "Search this list", "the list's search")
    s.write("butter")
    s.press("Return")
    s.reads("9\\.20/kg as bought.*")
    s.press("Down")
    s.focus_is("list item", "Butter, unsalted, .*")


if __name__ == "__main__":
  main(*sys.argv[1:])

#!/usr/bin/python3
"""A trial of a plate by keyboard alone: an amount and the price of crab, kept from tomorrow in one act,
and undone.

    trial.py CROUSTADE
"""

import datetime
import sys

from session import Session


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    s.press("ctrl+t")
    s.focus_is("text", "amount of Rice-flour cup per batch")
    s.enter("48")
    s.reads("at least 0\\.86 per guest.*")

    s.press("ctrl+2")
    s.go("Tab", "text", "price of Brown crab", most=20)
    s.enter("15.80")
    s.reads("Upper figures: the book\\. 2 changes: .*66\\.00 → 79\\.00.*")

    s.go("F6", "button", "Hold the Target.*")
    s.go("Tab", "button", "Keep…")
    s.press("Return")
    s.focus_is("text", "First day of the prices")
    s.enter((datetime.date.today() + datetime.timedelta(days=1)).isoformat())

    # Amounts are today's, the price is tomorrow's.
    s.reads("Undo trial of Crab croustade")
    s.reads("at least 0\\.86 per guest.*")
    s.press("ctrl+z")
    s.reads("at least 0\\.84 per guest.*")
    s.reads("Redo trial of Crab croustade")


if __name__ == "__main__":
  main(*sys.argv[1:])

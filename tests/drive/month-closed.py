#!/usr/bin/python3
"""October of the demo is opened, read, closed by keys; prices move, its page does not; its spreadsheet is
written.

    month-closed.py CROUSTADE
"""

import os
import sys

from session import Session, until


def statement(s):
  """What the rows of the page say, as they are read out."""
  rows = s.find("list", "Statement; Enter opens what a line is made of")
  return [seen.name for seen in s.walk(rows.node) if seen.role == "list item"]


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    # The months beside their pages: the first row is all of them, then the newest.
    s.press("alt+5")
    s.focus_is("list item", "All months, .*")
    s.press("Down", "Down")
    s.focus_is("list item", "October 2026, open · 2 questions")
    s.press("F6", "F6")
    s.focus_is("list item", "1  Net sales, October 2026 45919\\.09.*")
    rows = statement(s)
    for said in ("13450.38", "2267.11", "1917.86", "≥ 13182.18", "13549.69", "≤ 367.51"):
      assert any(said in row for row in rows), (said, rows)
    s.reads("1  no price for Sea purslane")

    # A line opens to its sheet in the page, and Escape leads back to it.
    s.press("Return")
    s.focus_is("text", ".*")
    s.press("Escape")
    s.focus_is("list item", "1  Net sales.*")

    # Closed: what it freezes is said, and what stays open.
    s.find("button", "Close…").press()
    s.focus_is("text", "Estimate of food delivered whose invoice is still to come")
    s.reads("2 questions stay open\\. .*")
    s.press("Return")
    s.focus_is("button", "Close October 2026")
    s.press("Return")
    s.find("button", "Reopen…")
    closed = statement(s)
    assert not s.all("button", "Set Price: .*")
    assert s.all("button", "“Close October 2026” is not undone: .*")

    # The price that was missing, from the page of a month that is open: that of a closed one stays, row for row.
    s.press("alt+5", "Down")
    s.find("button", "Set Price: no price for Sea purslane").press()
    s.focus_is("text", ".*")
    s.enter("12")
    s.reads("Undo .*price.*")
    s.press("alt+5", "Down", "Down")
    s.find("button", "Reopen…")
    assert statement(s) == closed

    s.find("button", "Spreadsheet…").press()
    until(lambda: len(s.top_windows()) > 1, "where the spreadsheet is to be written")
    path = f"{s.home}/october.xlsx"
    s.enter(path)
    until(lambda: os.path.exists(path) and os.path.getsize(path) > 10000, "the spreadsheet")
    with open(path, "rb") as sheet:
      assert sheet.read(2) == b"PK"


if __name__ == "__main__":
  main(*sys.argv[1:])

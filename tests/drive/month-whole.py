#!/usr/bin/python3
"""A month is entered, tied, asked about, closed, printed, written, compared, reopened, by keys alone: July of
the demo, which has a count of its last day and nothing else. Prices move afterwards, its page does not.

    month-whole.py CROUSTADE
"""

import os
import re
import shutil
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../workbook"))
import xlsx
from session import Session, until

TILL = """Day,Name,Qty,Net sales
2026-07-03,TIDE,20,1700
2026-07-10,SLACK WATER,30,1200
2026-07-18,White wine,1,450
Total,,51,3350
"""
# Opening, bought, closing of the demo's count; what the staff ate is valued by the program.
ENTERED = {"Net sales": "3680.00", "of plates and menus": "3230.00", "without a plate": "450.00",
           "Stock on 2026-06-30": "2200.00", "Food bought": "1450.00", "Stock on 2026-07-31": "−3087.48",
           "Food used": "562.52", "Disposables bought": "60.00", "Other purchases": "35.00",
           "All purchases": "1545.00"}


def statement(s):
  """What the rows of the page say, as they are read out; the focus is on one of them."""
  return [seen.name for seen in s.focused().parent.read(("list item",)).walk() if seen.role == "list item"]


def near(s, name, levels=12):
  """A text on the page that has the focus: to look through the whole window takes seconds."""
  def look():
    above = s.focused()
    for _ in range(levels):
      above = above.parent
      seen = next((seen for seen in above.read(("label", "button")).walk() if seen.role in ("label", "button")
                   and re.fullmatch(name, seen.name)), None)
      if seen is not None:
        return seen
    return None
  return until(look, f"the text {name!r} on the page")


def fields(s, *texts):
  """From field to field, the last one entered."""
  for at, text in enumerate(texts):
    if at > 0:
      s.press("Tab")
    s.write(text)
  s.press("Return")


def line(s, name):
  s.go("Down", "list item", name + ".*", most=30)


def back(s, name):
  """Done with a sheet: the focus is on the row that opened it."""
  s.press("Escape", "Escape")
  s.focus_is("list item", name + ".*")


def save(s, title, path):
  s.choose(title, path)
  until(lambda: os.path.exists(path) and os.path.getsize(path) > 5000, path)


def enter(s):
  """Sales by hand and of a till, a stock as one sum, a document, what the staff ate; till and ledger agree."""
  s.press("Return")
  s.focus_is("text", "Date")
  for _ in range(2):
    fields(s, "12", "crab cr", "44", "330")
    s.focus_is("text", "Plate or menu")
    s.press("shift+Tab")
  back(s, "1  Net sales, July 2026 660\\.00")
  near(s, "3  the same sale of “Crab croustade” is entered twice on 2026-07-12 .*")
  s.press("ctrl+z")
  s.focus_is("list item", "1  Net sales, July 2026 330\\.00")
  s.press("Return")
  s.go("shift+Tab", "button", "Till File…")
  s.press("Return")
  s.choose("Sales", f"{s.home}/till.csv")
  s.focus_is("text", "Which plate or menu is White wine")
  s.press("Tab", "Return")
  s.focus_is("button", "Enter 3 Rows")
  s.press("Return")
  s.focus_is("text", "Date")
  s.press("F2")
  s.focus_is("text", "Till total, without tax")
  fields(s, "3680")
  near(s, "entered: 3680\\.00 \\(450\\.00 without a plate\\) · agrees ✓")
  back(s, "1  Net sales, July 2026 3680\\.00")

  line(s, "2  Stock on 2026-06-30")
  s.press("F2")
  s.focus_is("text", "Value of the stock, where nobody counted")
  fields(s, "2200")
  back(s, "2  Stock on 2026-06-30")
  line(s, "3  Food bought")
  s.press("Return")
  s.focus_is("text", "Delivered")
  fields(s, "5", "quay", "Q1", "", "1450", "60", "35", "145", "1690")
  s.focus_is("text", "Supplier")
  s.press("F2")
  s.focus_is("text", "Ledger total")
  fields(s, "1545")
  back(s, "3  Food bought, July 2026 1450\\.00")
  line(s, "5  Adjustments")
  s.press("Return")
  s.focus_is("text", "Date")
  s.write("20")
  s.press("Tab", "Tab")
  fields(s, "hake", "1.5 kg")
  s.focus_is("text", "Item")
  back(s, "5  Adjustments")


def close(s, month):
  """What it freezes is said before; Enter in the estimate leads to the button alone."""
  s.go("shift+Tab", "button", "Close…")
  s.press("Return")
  s.focus_is("text", "Estimate of food delivered whose invoice is still to come")
  s.press("Return")
  s.focus_is("button", f"Close {month}")


def check_files(s):
  s.go("shift+Tab", "button", "Print.*")
  s.pick("As PDF…")
  save(s, "Save as PDF", f"{s.home}/july.pdf")
  s.go("Tab", "button", "Spreadsheet…")
  s.press("Return")
  save(s, "Save the Month’s Spreadsheet", f"{s.home}/july.xlsx")
  with open(f"{s.home}/july.pdf", "rb") as pdf:
    assert pdf.read(5) == b"%PDF-"
  if shutil.which("pdftotext") is not None:
    text = subprocess.run(["pdftotext", "-layout", f"{s.home}/july.pdf", "-"], check=True,
                          capture_output=True, text=True).stdout
    for name, money in ENTERED.items():
      if name != "without a plate":
        assert re.search(rf"{name}\b.* {re.escape(money)}(?!\d)", text), (name, text)
    assert text.rstrip().endswith("1/1"), text
  cells = xlsx.Book(f"{s.home}/july.xlsx")["Statement"].values()
  numbers = {cell.value for cell in cells if isinstance(cell.value, float)}
  for money in (3680, 3230, 450, 2200, 1450, 562.52, 1545):
    assert money in numbers, (money, numbers)


def main(program):
  with Session(program, size="1366x768") as s:
    with open(f"{s.home}/till.csv", "w", encoding="utf-8") as till:
      till.write(TILL)
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    # The months beside their pages: the first row is all of them, then the newest.
    s.press("alt+5", "Down", "Down")
    s.focus_is("list item", "October 2026, open, 2 questions")
    s.press("F6", "F6")
    s.focus_is("list item", "1  Net sales, October 2026 45919\\.09.*")
    rows = statement(s)
    for said in ("13450.38", "2267.11", "1917.86", "≥ 13182.18", "13549.69", "≤ 367.51"):
      assert any(said in row for row in rows), (said, rows)
    s.press("alt+5", "End")
    s.focus_is("list item", "July 2026, count only")
    s.press("F6", "F6")
    s.focus_is("list item", "1  Net sales, no sales entered")
    enter(s)
    rows = statement(s)
    for name, money in ENTERED.items():
      assert any(name in row and f" {money}" in row for row in rows), (name, rows)
    for tie in ("till", "ledger"):
      assert any(row.startswith(f"{tie}, agrees, ") for row in rows), rows

    close(s, "July 2026")
    near(s, "4 plates, menus and other sales · .* · 79 counts of the closing stock · 3 purchases · 1 adjustment")
    near(s, "2 questions stay open\\. .*")
    s.press("Return")
    s.focus_is("list item", "1  Net sales.*")
    closed = statement(s)
    near(s, "Reopen…", levels=16)
    buttons = {seen.name for seen in s.read(("button",)).walk() if seen.role == "button"}
    assert "Set Price: no price for Sea purslane" not in buttons
    assert any(name.startswith("“Close July 2026” is not undone: ") for name in buttons), buttons
    check_files(s)

    # The price that is missing, by the question of a month that is open: the closed page stays, row for row.
    s.press("alt+5", "Up")
    s.focus_is("list item", "August 2026, open.*")
    s.press("F6", "F6", "F6")
    s.focus_is("button", "Set Price: no price for Sea purslane")
    s.press("Return")
    s.focus_is("text", ".*")
    s.enter("12")
    s.reads("Undo .*price.*")
    s.press("alt+5", "End", "Up")
    s.focus_is("list item", "July 2026, closed.*")
    s.press("F6", "F6")
    s.focus_is("list item", "1  Net sales.*")
    # June has its closing stock from here, and stands beside it now.
    assert [re.sub(", June 2026 .*", "", row) for row in statement(s)] == closed

    # Why it changed; a closing is not undone but reopened, with a reason.
    s.press("alt+5", "Up", "F6", "F6")
    s.focus_is("list item", "1  Net sales, August 2026.*")
    close(s, "August 2026")
    s.press("Return")
    s.focus_is("list item", "1  Net sales, August 2026.*")
    s.press("ctrl+2")
    s.reads("From July 2026 to August 2026 theoretical food cost went from .*")
    s.press("ctrl+1")
    s.focus_is("list item", "1  Net sales, August 2026.*")
    s.press("ctrl+z")
    s.reads("“Close August 2026” is not undone: on the month’s page it is closed and opened again")
    s.go("shift+Tab", "button", "Reopen…")
    s.press("Return")
    s.focus_is("text", "Reason to reopen the month")
    fields(s, "late invoice")
    near(s, "Close…", levels=16)


if __name__ == "__main__":
  main(*sys.argv[1:])

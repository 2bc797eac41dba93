#!/usr/bin/python3
"""Undo is the field's while it holds text of its own, and else the book's, in words.

    undo-in-words.py CROUSTADE
"""

import re
import sys

from session import Session, comes, until


def first_amount(s):
  return s.find("text", "amount of Rice-flour cup per batch")


def ask_about(s, name, field, price, answer):
  """Opens it, enters a price that nobody means, and goes into the bubble of its question."""
  s.press("ctrl+k")
  s.focus_is("text", "Search the book")
  s.write(name)
  s.press("Return")
  s.focus_is("list item")
  s.go("F6", "text", "Ingredient|Menu")
  s.go("Tab", "text", field, most=20)
  s.enter(price)
  until(lambda: s.focused().name != field, "the field behind the price")
  s.go("shift+Tab", "text", field)
  s.press("F2")
  s.focus_is("button", answer)


def keys_from_a_bubble(s, name, field, prices, answer, keys):
  """Every key of the window means in a question's bubble what it means beside it."""
  before, after = prices

  ask_about(s, name, field, after, answer)
  for key, text in (("ctrl+z", before), ("ctrl+shift+z", after)):
    s.press(key)
    until(lambda: s.focus_is("text", field).text == text, f"{text} by {key} in a bubble")
    s.press("F2")
    if key == "ctrl+shift+z":
      s.focus_is("button", answer)
  for key, roles in keys:
    s.press(key)
    until(lambda: re.fullmatch(roles, s.focused().role) and s.focused().name != answer,
          f"what {key} does in the bubble of {name}")
    if key == "ctrl+k":
      s.press("Escape")
    if key != keys[-1][0]:
      ask_about(s, name, field, after, answer)


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

    # What is typed over it and taken back leaves the next key to the book.
    s.go("F6", "text", "amount of Rice-flour cup per batch")
    s.press("ctrl+a")
    s.write("30")
    s.reads("at least 0\\.8[45] per guest.*")
    for _ in range(3):
      if first_amount(s).text == "48 pc":
        break
      s.press("ctrl+z")
      comes(lambda: first_amount(s).text == "48 pc", 1)
    assert first_amount(s).text == "48 pc", first_amount(s).text
    s.press("ctrl+z")
    until(lambda: first_amount(s).text == "24 pc", "the book's own undo")
    s.reads("Redo amount of Rice-flour cup")
    s.press("ctrl+shift+z")
    until(lambda: first_amount(s).text == "48 pc", "the book's own redo")

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

    s.watch_focus()
    keys_from_a_bubble(s, "brown crab", "price of Brown crab from Quay Shellfish", ("66.00", "0.66"), "Set 66\\.00",
                       [*((f"alt+{place}", "list item") for place in (1, 2, 4, 5)), ("ctrl+k", "text"),
                        ("F6", "image"), ("ctrl+n", "text")])
    keys_from_a_bubble(s, "slack water", "Price with tax", ("44.00", "4.40"), "Set 44\\.00",
                       [("ctrl+1", "image"), ("alt+3", "list item")])


if __name__ == "__main__":
  main(*sys.argv[1:])

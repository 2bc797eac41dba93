#!/usr/bin/python3
"""Every control in every place has a name of its own, and keys alone lead through each place.

    named.py CROUSTADE

A widget without a name is told by its type's, "GtkButton".
"""

import sys

from session import Session, until

CONTROLS = {"button", "check box", "text", "combo box", "table", "tree table", "list",
            "list item", "table cell", "menu button", "progress bar", "slider", "spin button", "switch",
            "radio button", "link"}
# GTK 4.8 tells of the pages of a stack that were never shown, where these have no text yet.
UNSEEN = ("'CroFigureView'", "'CroUsedInView'")
PLACES = {"1": "Plates", "2": "Preparations", "3": "Larder", "4": "Market", "5": "Months"}


def is_unnamed(name):
  return not name.strip() or name.startswith(("Gtk", "Cro", "Adw"))


def unnamed(seen, path=()):
  """Ways to the controls that are on the screen and have no name."""
  for child in seen.children:
    here = path + (f"{child.role} {child.name!r}",)
    if child.role in CONTROLS and is_unnamed(child.name) and not any(step.endswith(UNSEEN) for step in path[-2:]):
      yield " > ".join(here[-4:])
    yield from unnamed(child, here)


def main(program):
  faults = []
  with Session(program) as s:
    s.reads("What does one bite cost\\?")
    faults += [("welcome", way) for way in unnamed(s.read())]
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()
    for key, place in PLACES.items():
      s.press("alt+" + key)
      until(lambda: s.find("list item", place).has("selected"), place)
      faults += [(place, way) for way in unnamed(s.read())]
      # Around the place: no field holds the focus fast.
      passed = []
      for _ in range(12):
        s.step("Tab")
        seen = s.focused()
        passed.append((seen.role, seen.name))
        if is_unnamed(seen.name):
          faults.append((place, f"the focus on {seen.role} {seen.name!r} after {passed[-2:]}"))
      assert len(set(passed)) > 3, f"{place}: Tab leads only to {set(passed)}"
  assert not faults, "\n".join(f"{place}: {way}" for place, way in faults)


if __name__ == "__main__":
  main(*sys.argv[1:])

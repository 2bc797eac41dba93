#!/usr/bin/python3
"""The crab croustade of the demo, built from an empty book by keyboard alone.

    crab-croustade.py CROUSTADE CROUSTADE-CLI DEMO-FOLDER

What is typed is read from the demo's tables, and its prices from the demo's costs; at the end
both books say the same of a guest.
"""

import csv
import json
import os
import subprocess
import sys
import tempfile

from session import Session, until

PLATE = "Crab croustade"
DAY = "2026-11-25"
RULES = {"weight": "by weight", "value": "by value", "credit": "at an assigned value"}
# What the window calls a unit otherwise than tables do.
SHOWN = {"each": "pc"}
BASE = {"g": ("kg", 1000), "ml": ("l", 1000), "each": ("each", 1)}


class Demo:
  def __init__(self, folder, costs):
    def table(name):
      with open(os.path.join(folder, name + ".csv"), encoding="utf-8") as file:
        return list(csv.DictReader(file))
    self.ingredients = {row["name"]: row for row in table("ingredients")}
    self.preparations = {row["name"]: row for row in table("preparations")}
    self.plates = {row["name"]: row for row in table("plates")}
    self.outputs = table("outputs")
    self.lines = sorted(table("lines"), key=lambda row: float(row["position"]))
    self.maker = {row["item"]: row["preparation"] for row in self.outputs}
    self.costs = {item["name"]: item for item in costs["items"]}

  def lines_of(self, kind, parent):
    return [row for row in self.lines if row["into"] == kind and row["parent"] == parent]

  def outputs_of(self, preparation, wanted):
    """The main output first; by-products that something takes, or that bear a value."""
    rows = [row for row in self.outputs if row["preparation"] == preparation]
    return ([row for row in rows if row["role"] == "main"]
            + [row for row in rows
               if row["role"] != "main" and (row["item"] in wanted or row["value"])])

  def preparations_below(self, kind, parent, order):
    for line in self.lines_of(kind, parent):
      maker = self.maker.get(line["item"])
      if maker is not None and maker not in order:
        self.preparations_below("preparation", maker, order)
        order.append(maker)
    return order

  def price(self, name):
    """ 13.2/kg, as it is typed behind a name; nothing where the demo has none."""
    unit, size = BASE[self.ingredients[name]["unit"]]
    cost = self.costs[name]["unit_cost"]
    return "" if cost is None else f" {round(cost * size, 6):.6f}".rstrip("0").rstrip(".") + f"/{unit}"


class Hands:
  """What a person does, by keys alone."""

  def __init__(self, session, demo):
    self.s, self.demo = session, demo
    self.made = set()

  def choose(self, name, entry):
    """An entry of the drop-down of that name, read from the top down."""
    self.s.go("Tab", "button", name, most=40)
    self.s.press("space")
    until(lambda: self.s.focused().role == "list item", "the entries of " + name)
    self.s.step("Home")
    for _ in range(40):
      if [seen.name for seen in self.s.focused().read(("label",)).walk()
          if seen.role == "label"][:1] == [entry]:
        self.s.press("Return")
        self.s.focus_is("button", name)
        return
      self.s.step("Down")
    raise AssertionError(f"there is no {entry} in {name}")

  def fill(self, name, text):
    """What is entered leads on to the next field: that is awaited, or a key too many follows."""
    self.s.go("Tab", "text", name, most=40)
    self.s.press("ctrl+a")
    self.s.write(text)
    self.s.step("Return")

  def mend_ingredient(self, name):
    """Opens what was placed last, enters what a price does not tell, and comes back."""
    row = self.demo.ingredients[name]
    trimmed = row["trim_yield_pct"] not in ("", "100")
    if row["kind"] != "disposable" and not trimmed:
      return
    self.s.press("ctrl+Return")
    until(lambda: self.s.focused().name != "Next line", "the bench of " + name)
    if row["kind"] == "disposable":
      self.choose("Kind", "disposable")
    if trimmed:
      self.fill("Trim yield %", row["trim_yield_pct"])
    self.s.press("alt+Left")
    self.s.focus_is("text", "Next line")

  def type_line(self, line):
    item = line["item"]
    is_new = item in self.demo.ingredients and item not in self.made
    price = self.demo.price(item) if is_new else ""
    self.s.write(f"{line['amount']} {line['unit']} {item}{price}")
    self.s.press("Return")
    until(lambda: self.s.focused().text == "", "a place for the next line")
    if is_new:
      self.made.add(item)
      self.mend_ingredient(item)
    if line["recovered_pct"]:
      self.s.go("shift+Tab", "button", f"details of {item}", most=12)
      self.s.press("space")
      self.fill(f"part of {item} that comes back", line["recovered_pct"])
      self.s.go("Tab", "text", "Next line", most=20)

  def fill_output(self, row):
    """Unit, amount or yield, and value, in the order of their fields."""
    item = row["item"]
    if row["amount"]:
      self.fill(f"Amount of {item}", row["amount"])
    if row["unit"] not in ("", "g"):
      self.choose(f"unit of {item}", SHOWN.get(row["unit"], row["unit"]))
    if row["yield_pct"]:
      self.fill(f"or yield % of {item}", row["yield_pct"])
    if row["value"]:
      self.fill(f"Value per unit of {item}", f"{row['value']}/{row['unit'] or 'g'}")

  def make_preparation(self, name, wanted):
    rows = self.demo.outputs_of(name, wanted)
    self.s.press("alt+2")
    self.s.press("ctrl+n")
    self.s.focus_is("text", "Preparation")
    self.s.enter(name)
    self.s.go("Tab", "text", "Next line")
    for line in self.demo.lines_of("preparation", name):
      self.type_line(line)
    for row in rows[1:]:
      self.s.go("Tab", "text", "Name of a new by-product", most=60)
      self.s.enter(row["item"])
      self.s.focus_is("text", f"Amount of {row['item']}")
    main = rows[0]["item"]
    self.s.go("shift+Tab", "text", "Next line", most=80)
    if main != name:
      self.fill("Main output of .*", main)
      self.s.step("shift+Tab")
    for row in rows:
      self.fill_output(row)
    if len(rows) > 1 and self.demo.preparations[name]["by_products"] != "free":
      self.choose("By-products", RULES[self.demo.preparations[name]["by_products"]])


def costs_of(cli, book, *options):
  done = subprocess.run([cli, "cost", book, "--json", *options], capture_output=True, text=True,
                        check=False)
  assert done.returncode in (0, 1), done.stderr
  return json.loads(done.stdout)


def plate_of(costs):
  return next(plate for plate in costs["plates"] if plate["name"] == PLATE)


def build(s, demo):
  hands = Hands(s, demo)
  plate = demo.plates[PLATE]
  lines = demo.lines_of("plate", PLATE)
  first = next(line for line in lines if line["item"] in demo.ingredients)
  wanted = {line["item"] for line in demo.lines}

  s.focus_is("text", "First line")
  s.write(f"{first['amount']} {first['unit']} {first['item']}{demo.price(first['item'])}")
  s.press("Return")
  s.focus_is("text", "Next line")
  s.watch_focus()
  hands.made.add(first["item"])
  for preparation in demo.preparations_below("plate", PLATE, []):
    hands.make_preparation(preparation, wanted)
  s.press("alt+1")
  s.go("Tab", "text", "Plate", most=20)
  s.enter(PLATE)
  hands.fill("Makes", plate["makes"])
  hands.fill("Seasoning and handling %", plate["allowance_pct"])
  s.go("Tab", "text", "Next line", most=40)
  for line in lines:
    if line is not first:
      hands.type_line(line)


def main(program, cli, folder):
  with tempfile.TemporaryDirectory() as there:
    book = os.path.join(there, "demo.croustade")
    subprocess.run([cli, "load", book, folder], check=True)
    costs = costs_of(cli, book, "--on", DAY)
  demo = Demo(folder, costs)
  with Session(program) as s:
    build(s, demo)
    expected, found = plate_of(costs), plate_of(costs_of(cli, f"{s.home}/Book.croustade"))
    assert found["missing"] == expected["missing"], found["missing"]
    for key in ("cost_per_guest", "disposables_per_guest"):
      # Prices are typed with six decimals.
      assert abs(found[key] / expected[key] - 1) < 1e-6, (key, found[key], expected[key])
    # What follows a comma in a typed line is a note, so a new ingredient has the name before it.
    parts = {part["name"].partition(",")[0]: part["quantity"] for part in expected["ingredients"]}
    for part in found["ingredients"]:
      assert abs(part["quantity"] / parts[part["name"]] - 1) < 1e-9, part
    assert len(found["ingredients"]) == len(parts)
    s.reads("at least 0\\.84 per guest.*")


if __name__ == "__main__":
  main(*sys.argv[1:])

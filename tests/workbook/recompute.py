#!/usr/bin/env python3
"""A spreadsheet program computes the workbook anew and comes to the engine's figures.

    recompute.py CROUSTADE-CLI DEMO-FOLDER [--seeds FIRST:END] [--keep FOLDER]

Books are the demo and random ones (oracle/generate.py), incomplete ones among them. Of each:
  - every formula, its cached value taken away, comes to the value that the writer had given it;
  - the figures are those of `cost --json` on the day that the workbook's prices are of, and the demo's month is that of
    `month --json`, in three locales;
  - inputs changed in the workbook come to what the program says of a book whose tables were
    changed the same way: few kinds of change at a time for the demo, all kinds at once for the
    others.

LibreOffice starts once, as starting takes longer than computing. Without it the test is skipped.
"""

import argparse
import calendar
import collections
import csv
import datetime
import json
import pathlib
import random
import subprocess
import sys
import tempfile

import changes as inputs
import layout as where
import office
import xlsx

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "oracle"))
import generate  # noqa: E402

TOLERANCE = 1e-9

# Of a plate or menu whose verdict follows: as many as a formula counts.
MOST_UNPRICED = 8

# Of the largest term of a figure: how far sums of doubles in another order may be apart.
LAST_OF_SUMS = 1e-12
DEMO_MONTH = datetime.date(2026, 10, 1)

# Where a comma is the decimal point, and where a point parts thousands.
OTHER_LOCALES = ("fr-FR", "de-DE")
STATEMENT = "Statement"
LINES = {"Net sales": "net_sales", "of plates and menus": "net_sales_costed", "Actual food cost": "actual_cost",
         "Theoretical food cost": "theoretical_cost", "Actual less theoretical": "over"}

# Columns that hold the difference of two figures: it may cancel, and is then held to their size.
# Of control totals, of a batch what it costs less what its outputs bear, and of a plate what is
# to spare (of the net price) and printed parts less printed total.
DIFFERENCES = {where.TOTALS: {"D": "BC"}, where.PREPARATIONS: {"X": "L", "Y": "M", "Z": "N"},
               where.SUMMARY: {"M": "JD", "R": "D"}}

# What the demo's copies are changed in: one after the other, so that a fault says where it is.
GROUPS = (
  ("wage", "batch's minutes", "plate's minutes", "makes", "bites per guest", "servings", "share of a choice"),
  ("price", "missing price", "last price"), ("tax included", "net part", "pack", "rate"),
  ("trim yield", "density", "piece weight", "line's yield", "recovered part"),
  ("amount",),
  ("finished amount", "yield of a batch", "by-product's value", "lost part", "output's density",
   "output's piece weight", "allowance"),
  ("book's tax", "book's target", "plate's price", "plate's tax", "plate's target",
   "menu's price", "menu's tax", "menu's target"),
  ("plate's dated price", "plate's dated tax", "menu's dated price", "menu's dated tax"),
)
RULES = {"free", "weight", "value", "credit"}
KINDS = {kind for group in GROUPS for kind in group}


def run(cli, *arguments, expect=(0, 1)):
  result = subprocess.run([cli, *map(str, arguments)], capture_output=True, encoding="utf-8",
                          check=False, timeout=300)
  if result.returncode not in expect:
    sys.exit(f"{arguments[0]}: exit status {result.returncode}: {result.stderr.strip()}")
  return result.stdout


def write_tables(folder, tables):
  folder.mkdir()
  for name, rows in tables.items():
    if rows:
      with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
        out = csv.DictWriter(file, rows[0].keys())
        out.writeheader()
        out.writerows(rows)


def month_and_day(on):
  """The month of a day, none that has not begun, and the day of its prices: its last, or today."""
  today = datetime.date.today()
  on = min(on, today)
  last = on.replace(day=calendar.monthrange(on.year, on.month)[1])
  return f"{on:%Y-%m}", min(last, today).isoformat()


class Case:
  """A book, its workbook, and copies of it under a name each, changed or not."""

  def __init__(self, cli, name, folder, on, work):
    self.cli, self.name, self.work = cli, name, work
    month, self.day = month_and_day(on)
    book, self.dump = work / f"{name}.croustade", work / f"{name}.tables"
    self.path = work / f"{name}.xlsx"
    run(cli, "load", book, folder)
    run(cli, "dump", book, self.dump)
    run(cli, "workbook", book, "--month", month, "-o", self.path)
    self.costs = self._cost(book)
    self.written = xlsx.Book(self.path)
    self.layout = where.Layout(self.written, where.read_tables(self.dump), self.day)
    self.copies = {"as written": (self._copy("0", {}), self.costs)}
    self.kinds = collections.Counter()
    self.n_verdicts = 0     # that followed a price filled in
    self.overtaken = None   # a copy, and the cell that must say that another offer is cheaper

  def _cost(self, book):
    return json.loads(run(self.cli, "cost", book, "--on", self.day, "--json"))

  def _copy(self, suffix, cells):
    path = self.work / "stripped" / f"{self.name}-{suffix}.xlsx"
    self.written.write_copy(path, cells)
    return path

  def change(self, name, pick):
    """Changes what pick chooses of all possible changes, in a copy and in the tables alike."""
    layout = where.Layout(self.written, where.read_tables(self.dump), self.day)
    possible = inputs.Changes(layout)
    picked = pick(possible.found)
    if not picked:
      return
    self.kinds.update({change.kind for change in picked})
    suffix = str(len(self.copies))
    copy = self._copy(suffix, inputs.make(picked))
    folder, book = self.work / f"{self.name}-{suffix}.tables", self.work / f"{self.name}-{suffix}.croustade"
    # Rows that nothing was entered in are none.
    open_rows = {id(row) for row in possible.entered if not row["price"]}
    write_tables(folder, {**layout.tables,
                          "book": [row for row in layout.tables["book"] if row["value"]],
                          "prices": [row for row in layout.tables["prices"]
                                     if id(row) not in open_rows]})
    run(self.cli, "load", book, folder)
    self.copies[name] = copy, self._cost(book)

  def overtake(self):
    """Makes an offer in use dearer than another one: which is used stays, but it is told of."""
    for name, row in self.layout.ingredients.items():
      offers = [at for (ingredient, _, _), at in self.layout.offers.items() if ingredient == name]
      costs = {at: self.layout.at(where.INGREDIENTS, "U", at).value for at in offers}
      priced = [at for at in offers if isinstance(costs[at], float) and costs[at] > 0]
      used = [at for at in priced if costs[at] == self.layout.at(where.INGREDIENTS, "G", row).value]
      if len(priced) > 1 and used and not self.layout.text(where.INGREDIENTS, "W", row):
        price = self.layout.source(where.INGREDIENTS, f"P{used[0]}")
        dearer = 1000 * self.written.at(*price).value
        self.overtaken = self._copy("overtaken", {price: dearer}), f"W{row}"
        return

  def faults(self, folder):
    """What differs, as sentences, once all copies are recalculated into folder."""
    for name, (path, costs) in self.copies.items():
      computed = xlsx.Book(folder / path.name)
      # A what-if is no fault of what was written, and is told.
      said = [computed.at(where.TOTALS, f"{column}3").value for column in "AB"]
      if said[0] != "All control totals agreed when this file was written.":
        yield f"{self.name}, {name}: control totals say {said[0]!r}"
      if name in ("as written", "amount") and (said[1] == "Nothing was changed since.") == (name == "amount"):
        yield f"{self.name}, {name}: control totals say {said[1]!r}"
      if name == "as written":
        yield from (f"{self.name}: {fault}" for fault in self._cached(computed))
      elif costs == self.costs:
        yield f"{self.name}, {name}: the change moves no figure"
      yield from (f"{self.name}, {name}: {fault}" for fault in self._named(computed, costs))
      yield from (f"{self.name}, {name}: {fault}" for fault in self._verdicts(computed, costs))

    if self.overtaken is not None:
      path, place = self.overtaken
      if not xlsx.Book(folder / path.name).at(where.INGREDIENTS, place).value:
        yield f"{self.name}: {place} does not say that another offer has become cheaper"

  def files(self):
    overtaken = [] if self.overtaken is None else [self.overtaken[0]]
    return [path for path, _ in self.copies.values()] + overtaken

  def rules_in_use(self):
    for row in self.layout.tables.get("preparations", []):
      if len(self.layout.outputs[row["name"]]) > 1:
        yield row["by_products"] or "free"

  def _cached(self, computed):
    """Every formula beside the value that it was written with."""
    n_formulas = 0
    for sheet, place, cell in self.written.formulas():
      n_formulas += 1
      got = computed.at(sheet, place)
      if not same(cell.value, got, self._size(sheet, place)):
        yield (f"{sheet}!{place}: written {cell.value!r}, computed {got.error or got.value!r} "
               f"by {cell.formula}")
    if n_formulas == 0:
      yield "there is no formula in it"

  def month_faults(self, computed):
    """Every formula once more, and the month as the engine has it; each line is rounded so that others add up."""
    yield from self._cached(computed)
    got = json.loads(run(self.cli, "month", self.work / f"{self.name}.croustade", self.day[:7], "--json"))
    rows = {computed.at(STATEMENT, f"A{row}").value: computed.at(STATEMENT, f"B{row}").value for row in range(5, 40)}
    for line, key in LINES.items():
      if not isinstance(rows.get(line), float) or abs(rows[line] - got[key]) > 0.0101:
        yield f"{STATEMENT}: {line} is {got[key]!r}, computed {rows.get(line)!r}"

  def _size(self, sheet, place):
    letters, row = xlsx.column_and_row(place)
    if where.is_rounded_fraction(sheet, place):
      # Less the whole units a cost keeps the digits that it has: those of a double, but for sums.
      units = self.written.at(sheet, f"{'V' if sheet == where.SUMMARY else 'U'}{row}").value
      return max(where.LAST_DIGIT, LAST_OF_SUMS * units) / TOLERANCE
    sides = DIFFERENCES.get(sheet, {}).get(letters, "")
    values = [self.written.at(sheet, f"{side}{row}").value for side in sides]
    return max((abs(value) for value in values if isinstance(value, float)), default=0)

  def _named(self, computed, costs):
    rows = {(part, row["name"]): row for part in ("items", "plates", "menus") for row in costs[part]}
    for row in costs["menus"]:
      row |= {f"range {end}": value for end, value in (row["range"] or {}).items()}
    for (part, name, key), (sheet, place, times) in self.layout.figures().items():
      expected, got = rows[part, name][key], computed.at(sheet, place)
      if expected is None and not got.error and got.value in (None, "", 0):
        continue
      if expected is None or not same(expected / times, got, 0):
        yield (f"{sheet}!{place}: {key} of {name!r} is {expected and expected / times!r}, "
               f"computed {got.error or got.value!r}")


  def _verdicts(self, computed, costs):
    """Where prices alone were missing the verdict follows when they are filled in."""
    for part, rows in (("plates", self.layout.plate_rows), ("menus", self.layout.menu_rows)):
      before = {row["name"]: row["missing"] for row in self.costs[part]}
      for row in costs[part]:
        missing, pct, target = before[row["name"]], row["food_cost_pct"], row["target_pct"]
        if not missing or len(missing) > MOST_UNPRICED or row["missing"] or not pct or not target \
            or not all(cause.startswith("price ") for cause in missing) or abs(pct - target) < 1e-6:
          continue
        self.n_verdicts += 1
        expected = "over target" if pct > target else "within target"
        got = computed.at(where.SUMMARY, f"O{rows[row['name']]}").value
        if got != expected:
          yield f"{row['name']!r} is {expected}, and the workbook says {got!r}"


def same(expected, got, size):
  if got.error:
    return False
  if isinstance(expected, float) and isinstance(got.value, float):
    return abs(expected - got.value) <= TOLERANCE * max(abs(expected), abs(got.value), size)
  return (expected or "") == (got.value or "") if not isinstance(got.value, float) else False


def some_of(kinds, most, rng):
  """Picks at most `most` of each of some kinds, no two of one cell."""
  def pick(found):
    by_kind = collections.defaultdict(list)
    for change in found:
      if change.kind in kinds:
        by_kind[change.kind].append(change)
    picked, cells = [], set()
    for _, possible in sorted(by_kind.items()):
      for change in rng.sample(possible, min(most, len(possible))):
        if change.cell not in cells:
          cells.add(change.cell)
          picked.append(change)
    return picked
  return pick


def demo_case(cli, folder, work):
  case = Case(cli, "demo", folder, DEMO_MONTH, work)
  for group in GROUPS:
    case.change(", ".join(group), some_of(group, 12, random.Random(group[0])))
  case.overtake()
  assert case.overtaken is not None, "no ingredient of the demo has two offers with prices"
  return case


def random_case(cli, seed, work):
  folder = work / f"seed-{seed}.drawn"
  on = generate.generate(seed, folder)
  case = Case(cli, f"seed-{seed}", folder, on, work)
  case.change("changed", some_of(KINDS, 4, random.Random(seed)))
  return case


def main():
  parser = argparse.ArgumentParser()
  parser.add_argument("cli")
  parser.add_argument("demo")
  parser.add_argument("--seeds", default="0:10")
  parser.add_argument("--keep", type=pathlib.Path)
  options = parser.parse_args()
  office.need("soffice")

  with tempfile.TemporaryDirectory() as scratch:
    work = options.keep or pathlib.Path(scratch)
    (work / "stripped").mkdir(parents=True)
    cases = [demo_case(options.cli, options.demo, work)]
    cases += [random_case(options.cli, seed, work)
              for seed in range(*map(int, options.seeds.split(":")))]
    files = [path for case in cases for path in case.files()]
    office.convert(files, work / "computed", "xlsx")
    kinds, n_faults = collections.Counter(), 0
    written = cases[0].files()[0]
    for locale in OTHER_LOCALES:
      office.convert([written], work / locale, "xlsx", locale=locale)
    for folder in ("computed", *OTHER_LOCALES):
      for fault in cases[0].month_faults(xlsx.Book(work / folder / written.name)):
        n_faults += 1
        print(f"{folder}: {fault}")
    for case in cases:
      kinds.update(case.kinds)
      for fault in case.faults(work / "computed"):
        n_faults += 1
        print(fault)
  shared = {rule for case in cases for rule in case.rules_in_use()}
  for rule in sorted(RULES - shared):
    n_faults += 1
    print(f"{rule}: no book has by-products under this rule")
  if not any(case.n_verdicts for case in cases):
    n_faults += 1
    print("no verdict followed a price that was filled in")
  for kind in sorted(KINDS - kinds.keys()):
    n_faults += 1
    print(f"{kind}: changed in no book")
  print(f"{len(files)} workbooks, changes of {len(kinds)} kinds: {n_faults} faults")
  return 1 if n_faults else 0


if __name__ == "__main__":
  sys.exit(main())

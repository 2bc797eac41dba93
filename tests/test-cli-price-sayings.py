#!/usr/bin/env python3
"""What a list of prices says of tax, of a currency and of what a price is for, and what croustade-cli makes of it.

    test-cli-price-sayings.py CROUSTADE-CLI DEMO-FOLDER [all|LINE…]

Each line of price-sayings.tsv is put into a small list of prices, which is read and not posted: a saying is
obeyed, asked of every price, or holds nothing up, as the line says that a careful purchasing manager would have
it. A price that would be posted against it is a fault, whatever else is right. The sayings are common practice, no
source; the figures are worked here, in exact decimals: a price with r % tax in it is the net one × (1 + r / 100).
LINE, a number of a line of that file, shows what becomes of it. One in two is tried, where a sanitizer slows all
one in eight, and with “all” each.
"""

import csv
import decimal
import io
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

D = decimal.Decimal
CLI = DEMO = ""
LINES = []
STEP = 8 if "CROUSTADE_TEST_SANITIZED" in os.environ else 2
SAYINGS = pathlib.Path(__file__).resolve().parent / "price-sayings.tsv"
DAY = "2026-12-01"
# Of a message a line before, after or among the prices, or what stands for the price; of a table the same, the
# heading of the prices, and columns beside them.
IN_MESSAGES = ("message", "below", "between", "row")
PLACES = (*IN_MESSAGES, "note", "under", "middle", "cell", "heading", "column")

# Goods of two suppliers, as the demo has them and with more: what is in the pack, what the last price is and which
# tax is in it, and the net price of the list. A price of 9.60 is as near to the last 10.00 for the pack of 1.1 kg as
# it is for 1 kg, 10.56 for the pack: whichever it is taken for, nothing else holds it up. Two always have the same
# price, near to the last one with its tax and near to it without: if a list is read wrongly, one of them is posted.
GOODS = {
  "Mill Lane Dry Goods": [("Brandy", "1 × 1 l", None, "24.20", 21, "20.50"),
                          ("Sea fudge", "1 × 1 kg", "1", "24.20", 21, "20.50"),
                          ("Sugar", "10 × 1 kg", "10", "12.60", 0, "12.90"),
                          ("Nettle", "1 × 1.1 kg", "1.1", "10.00", 0, "9.60"),
                          ("Gorse jelly", "1 × 1 kg", "1", "24.20", 21, "24.80"),
                          ("Rosehip paste", "1 × 1 kg", "1", "24.20", 21, "20.50")],
  "Far Bank Fish and Meat": [("Hake", "1 × 10 kg", "10", "112.00", 0, "115.00"),
                             ("Ling", "1 × 1.1 kg", "1.1", "10.00", 0, "9.60"),
                             ("Oyster butter", "1 × 1 kg", "1", "24.20", 21, "20.50")],
}
FIXED = ("Gorse jelly", "Rosehip paste")
MILL, FAR = GOODS
CURRENCY = {MILL: "EUR", FAR: "GBP"}
ADDED = {
  "ingredients": ({"kind": "food", "unit": "g", "trim_yield_pct": "100", "allergens": "none"},
                  ("name",), (("Sea fudge",), ("Nettle",), ("Gorse jelly",), ("Rosehip paste",), ("Ling",),
                              ("Oyster butter",))),
  "offers": ({"pack_count": "1", "pack_unit": "kg"}, ("ingredient", "supplier", "code", "pack_size", "currency"),
             (("Sea fudge", MILL, "Q91", "1", ""), ("Nettle", MILL, "Q92", "1.1", ""),
              ("Gorse jelly", MILL, "Q95", "1", ""), ("Rosehip paste", MILL, "Q96", "1", ""),
              ("Ling", FAR, "Q93", "1.1", "GBP"), ("Oyster butter", FAR, "Q94", "1", "GBP"))),
  "prices": ({"from": "2026-11-09"}, ("ingredient", "supplier", "code", "price", "tax_included_pct"),
             (("Sea fudge", MILL, "Q91", "24.2", "21"), ("Nettle", MILL, "Q92", "10", ""),
              ("Gorse jelly", MILL, "Q95", "24.2", "21"), ("Rosehip paste", MILL, "Q96", "24.2", "21"),
              ("Ling", FAR, "Q93", "10", ""), ("Oyster butter", FAR, "Q94", "24.2", "21"))),
}
# Kilograms; the pound is 0.45359237 kg (international yard and pound agreement of 1959).
MEASURES = {"per kg": D(1), "per 100 g": D("0.1"), "per lb": D("0.45359237"), "per g": D("0.001"),
            "per 5 kg": D(5)}
POSTED = ("new", "changed", "unchanged")


class Reading:
  """One way to take a list: which tax is in its prices, their currency, and what one is for; or that it asks."""

  def __init__(self, supplier, words):
    self.supplier, self.asks, self.may_ask, self.is_other_pack = supplier, False, False, False
    self.tax, self.currency = "nothing", CURRENCY[supplier]
    self.measure = "per kg" if supplier == FAR else "pack"
    for word in words:
      if word == "ask":
        self.asks = True
      elif word == "may ask":
        self.may_ask = True
      elif word in ("with", "without") or word.startswith("with "):
        self.tax = word
      elif word in MEASURES or word == "pack":
        self.measure = word
      elif len(word) == 3 and word.isupper():
        self.currency = word
      elif word == "other pack":
        self.is_other_pack = True
      elif word != "nothing":
        raise ValueError(word)

  def rate(self, last_rate):
    """The tax in a price, %; None: it has one, and which is open."""
    if self.tax == "nothing":
      return last_rate
    if self.tax == "without":
      return 0
    return D(self.tax[5:]) if self.tax != "with" else last_rate or None

  def number(self, goods):
    """What stands in the list."""
    name, _, held, _, last_rate, net = goods
    price = D(net) if name in FIXED else D(net) * (1 + D(self.rate(last_rate) or 0) / 100)
    if self.asks or self.measure == "pack" or held is None:
      return round(price, 2)
    if D(held) == D("1.1") and self.measure == "per kg":
      return round(price, 2)
    return round(price * MEASURES[self.measure] / D(held), 4 if self.measure == "per g" else 2)

  def fault(self, goods, number, line, per_pound):
    """What is wrong with the row, or None."""
    name, pack, held, last, last_rate, _ = goods
    is_posted = line is not None and line["state"] in POSTED
    if name in FIXED and not is_posted:
      return None
    if self.asks:
      return f"{name} is posted at {line['price']}" if is_posted else None
    rate = self.rate(last_rate)
    if rate is None:
      return f"{name} is posted, and at what rate nothing says" if is_posted else None
    is_far = self.currency not in CURRENCY.values()  # no rate is known
    if self.currency != CURRENCY[self.supplier]:
      if is_posted or not self.may_ask and (line is None or line["currency"] != self.currency):
        return f"{name} is not in {self.currency}"
      if line is None or line["currency"] != self.currency:
        return None
    elif not is_posted:
      return None if self.may_ask else f"{name} is held up"
    if self.is_other_pack != (line["pack"] != pack):
      return f"{name} is for {line['pack']}"
    if self.is_other_pack:
      return None
    price = number if self.measure == "pack" or held is None else number * D(held) / MEASURES[self.measure]
    if abs(D(line["price"]) - price) > D("0.001"):
      return f"{name} costs {line['price']} and not {price}"
    was = D(last) / (1 + D(last_rate) / 100) * (1 + D(rate) / 100)
    was *= {"EURGBP": 1 / per_pound, "GBPEUR": per_pound}.get(CURRENCY[self.supplier] + self.currency, 1)
    if line["last"] is None:
      return None if is_far else f"{name} is compared with nothing"
    if abs(D(line["last"]) - was) > D("0.001"):
      return f"{name} is compared with {line['last']} and not {was:.2f}"
    return None


class Saying:
  def __init__(self, number, where, words, expected):
    self.number, self.words, self.expected = number, words, expected
    where, _, far = where.partition("@")
    self.supplier = FAR if far == "far" else MILL
    self.where = where.split("+")
    parts = self.words.replace("\\n", "\n").replace("\\u00a0", "\u00a0").replace("\\u202f", "\u202f").split(" || ")
    if len(parts) != len(self.where) or any(place not in PLACES for place in self.where):
      raise ValueError(f"line {number}: {words}")
    self.said = dict(zip(self.where, parts))
    ways = [[]]
    for part in self.expected.split(";"):
      words = [word.strip() for word in part.split("|")]
      known = [word for word in words if word != "ask"]
      ways = [[*way, *(["may ask"] if known != words else []), word] for way in ways for word in known or ["ask"]]
    self.ways = [Reading(self.supplier, way) for way in ways]

  def goods(self):
    """Goods by volume stand in no list that speaks of weights."""
    by_weight = self.ways[0].measure != "pack" or any(word in self.words for word in ("{kg}", "{g}", "{less"))
    return [goods for goods in GOODS[self.supplier] if goods[2] is not None or not by_weight]

  def rows(self):
    """The list and the number of each of its goods."""
    rows = [(goods, self.ways[0].number(goods)) for goods in self.goods()]
    cell = self.said.get("cell", self.said.get("row", "{}"))
    told = [(goods[0], cell.replace("{}", str(number))) for goods, number in rows]
    return rows, told

  def file(self):
    """Its name and text."""
    rows, told = self.rows()
    if any(place in IN_MESSAGES for place in self.where):
      lines = [f"{name} {price}" for name, price in told]
      if "between" in self.said:
        lines.insert(2, self.said["between"])
      text = "\n".join([*self.said.get("message", "").splitlines(), *lines,
                        *self.said.get("below", "").splitlines()])
      return "list.txt", text + "\n"
    heads, cells = [], []
    for column in self.said["column"].split("\n") if "column" in self.said else []:
      head, _, cell = column.partition("=")
      heads.append(head)
      cells.append(cell)
    table = [["Item", self.said.get("heading", "Price"), *heads]]
    for (goods, number), (name, price) in zip(rows, told):
      held = D(goods[2] or 1)
      values = {"{kg}": held, "{g}": held * 1000, "{less}": held * D("0.9"), "{lessg}": held * 900,
                "{gross}": round(number * D("1.21"), 2), "{tax}": round(number * D("0.21"), 2),
                "{taxin}": round(number - number / D("1.21"), 2)}
      line = [name, price]
      for cell in cells:
        for word, value in values.items():
          cell = cell.replace(word, format(value.normalize(), "f"))
        line.append(cell)
      table.append(line)
    if "middle" in self.said:
      table.insert(3, [self.said["middle"]])
    notes = [row.split("|") for row in self.said.get("note", "").splitlines()]
    under = [row.split("|") for row in self.said.get("under", "").splitlines()]
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([*notes, *table, *under])
    return "list.csv", text.getvalue()

  def faults(self, lines, per_pound):
    """Those of the way that has fewest; whether all was asked; no fault where the list is taken so."""
    rows, _ = self.rows()
    found = {line["ingredient"]: line for line in lines if line["ingredient"] is not None}
    faults = [[fault for goods, number in rows
               if (fault := way.fault(goods, number, found.get(goods[0]), per_pound)) is not None]
              for way in self.ways]
    is_asked = not any(line["state"] in POSTED for line in found.values())
    return min(faults, key=len), is_asked


class Sayings(unittest.TestCase):
  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.folder = pathlib.Path(folder.name)
    tables = self.folder / "tables"
    tables.mkdir()
    for table in ("book", "ingredients", "suppliers", "offers", "prices", "rates"):
      shutil.copy(os.path.join(DEMO, f"{table}.csv"), tables)
    for table, (fixed, columns, rows) in ADDED.items():
      path = tables / f"{table}.csv"
      with path.open(encoding="utf-8", newline="") as file:
        reader = csv.DictReader(file)
        known, names = list(reader), reader.fieldnames
      with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, names, restval="")
        writer.writeheader()
        writer.writerows([*known, *({**fixed, **dict(zip(columns, row))} for row in rows)])
    with (tables / "rates.csv").open(encoding="utf-8", newline="") as file:
      self.per_pound = max((row["from"], D(row["rate"])) for row in csv.DictReader(file)
                           if row["currency"] == "GBP" and row["from"] <= DAY)[1]
    self.book = self.folder / "book.croustade"
    done = self.call("load", self.book, tables)
    self.assertLess(done.returncode, 2, done.stderr)

  def call(self, *arguments):
    return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                          env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""})

  def test_each_is_obeyed_or_asked(self):
    sayings = [Saying(i, where, words, expected)
               for i, line in enumerate(SAYINGS.read_text(encoding="utf-8").splitlines(), 1)
               if line and not line.startswith("#")
               for places, words, expected in [line.split("\t")] for where in places.split(",")]
    if LINES:
      sayings = [saying for saying in sayings if saying.number in LINES]
    sayings = sayings[::STEP]
    told = {"asked": [], "half asked": [], "WRONG": []}
    for saying in sayings:
      name, text = saying.file()
      path = self.folder / name
      path.write_text(text, encoding="utf-8")
      done = self.call("prices", self.book, path, "--supplier", saying.supplier, "--from", DAY, "--dry-run", "--json")
      lines = json.loads(done.stdout)["lines"] if done.returncode < 2 and done.stdout else []
      faults, is_asked = saying.faults(lines, self.per_pound)
      if LINES:
        print(text, json.dumps(lines, ensure_ascii=False, indent=1), done.stderr, sep="\n")
      if faults:
        what = "asked" if is_asked else "half asked" if all(fault.endswith("held up") for fault in faults) else "WRONG"
        told[what].append(f"{saying.number}: {what}: {'+'.join(saying.where)}: {saying.words} -> {saying.expected}: "
                          + "; ".join(faults))
    counts = ", ".join(f"{len(lines)} {what}" for what, lines in told.items())
    told = [line for lines in told.values() for line in lines]
    print(f"{len(sayings)} sayings: {len(sayings) - len(told)} right; {counts}")
    self.assertFalse(told, "\n".join(["", *told]))


if __name__ == "__main__":
  CLI, DEMO = sys.argv[1:3]
  LINES = [int(line) for line in sys.argv[3:] if line != "all"]
  STEP = 1 if sys.argv[3:] else STEP
  unittest.main(argv=sys.argv[:1])

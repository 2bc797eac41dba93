#!/usr/bin/env python3
"""croustade-cli month --json and workbook --month against published examples.

    test-cli-published.py CROUSTADE-CLI

One book, an example a month. Inputs and results are the sources'; the same rows stand in test-engine-variance.c,
test-engine-matrix.c and test-engine-plate.c for the arithmetic alone. A tie at a threshold and the order of
deductions are rules: their amounts are ours.
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "workbook"))
import xlsx  # noqa: E402

CLI = ""

# Opening, bought, closing, adjustments, and what was used, in the order of deductions, and is left at the end.
STOCK = {
  # S1: Basic Kitchen and Food Service Management (BCcampus 2015), Example 25.
  "2024-02": (10000, 7500, 9000, {}, [8500], 8500),
  # S2: introductory accounting notes, chapter 5.
  "2024-04": (47000, 62200, 17000, {}, [92200], 92200),
  # S3: Dittmer and Keefe, Principles of Food, Beverage, and Labor Cost Controls, 9th edition, chapter 8: issued,
  # transferred in, transferred out, promotion, others, and last what the staff ate. Amounts that show the order.
  "2024-06": (100000, 20000, 3000,
              {"staff-meal": .08, "other": .7, "promotion": 6, "transfer-out": 50, "transfer-in": 400},
              [117000, 117400, 117350, 117344, 117343.3, 117343.22], 117343.22),
  # S4: an exercise's text: staff 5,000, out 2,000, in 2,500, of sales of 75,000: 30 %.
  "2024-08": (24000, 21000, 18000, {"staff-meal": 5000, "transfer-out": 2000, "transfer-in": 2500},
              [27000, 29500, 27500, 22500], 22500),
}
USED = ["Food used", "transferred in", "transferred out", "complimentary", "other adjustments", "staff meals"]

# Name: unit, standard price and quantity, bought, paid, left; price and usage variance, above 0 unfavourable, and the
# price variance on what was bought where that is what the source has.
VARIED = "2024-10"
VARIANCES = {
  # An exercise of the type of Warren, Exercise 23-5.
  "V1": ("each", 6.90, 430, 450, 2925, 0, -180, 138, None),
  # A textbook's exercise: 183,200 at 5.80 for 185,000 at 6.00.
  "V2": ("each", 6, 185000, 183200, 1062560, 0, -36640, -10800, None),
  # Jake's Cheese exercise: price on the 160,000 that were bought, usage on the 145,000 that were used.
  "V4": ("each", 8, 135000, 160000, 1200000, 15000, None, 80000, -80000),
  # Case 11-55 (cookie): of two materials only the difference in quantity is given, which is what counts.
  "V5 first": ("each", .15, 1125000, 1330000, 266000, 0, 66500, 30750, None),
  "V5 second": ("each", .02, 500000, 575000, 11500, 0, 0, 1500, None),
  "V5 third": ("each", .50, 200000, 215000, 107500, 0, 0, 7500, None),
  # A lecture's example, Mix and Yield.
  "V6 first": ("kg", 2, 500, 600, 1200, 0, 0, 200, None),
  "V6 second": ("kg", 4, 500, 900, 3600, 0, 0, 1600, None),
  # CollegeHive, management accounting notes, a sweet: the sums fit flour 150, sugar 40, ghee 400; what was paid for
  # each is not given, 738.50 together.
  "V8 flour": ("kg", 150, 1, 1, 150, 0, 0, 0, None),
  "V8 sugar": ("kg", 40, 2, 2.1, 84, 0, 0, 4, None),
  "V8 ghee": ("kg", 400, 1, 1.2, 504.5, 0, 24.5, 80, None),
}
# Together: V5 as the case adds up; of V6 the mix is 300 and the yield 1,500, of V8 36.75 and 47.25.
GROUPS = {"V5": (66500, 39750), "V6": (0, 300 + 1500), "V8": (24.5, 36.75 + 47.25)}

# Sold, cost, price; class.
SOLD = {
  # M3: AHLEI, The Power of Menu Engineering, part 2: 33 % leave 2.00, 50 % leave 2.50.
  "2024-01": [(10, 1, 3, "plowhorse"), (10, 2.5, 5, "star")],
  # M1, M4, M5: George's Restaurant exercise; thresholds as Dittmer and Keefe have them, chapter 11.
  "2024-11": [(73, 6.50, 18.90, "star"), (90, 3.90, 12.75, "plowhorse"), (55, 7.00, 20.35, "puzzle"),
              (92, 5.90, 18.50, "star"), (85, 4.50, 15.65, "plowhorse"), (92, 3.00, 12.00, "plowhorse"),
              (77, 6.70, 18.50, "star"), (65, 6.50, 18.75, "star")],
  # M2: Kasavana in the same article: greater than or equal to. Both at the mean, one at 70 % of a half.
  "2024-12": [(35, 2.5, 5, "star"), (65, 2.5, 5, "star")],
}


def tables():
  months = {month: "" for month in ("2024-01", "2024-03", "2024-05", "2024-07")}
  sales, purchases, adjusted, counts = [], [], [], []
  ingredients, offers, prices = ["Leek,,g"], ["Leek,Quay,1,1,kg"], ["Leek,Quay,2023-01-01,4"]
  plates, lines = [], []
  for (month, (opening, bought, closing, kinds, _, _)), before in zip(STOCK.items(), list(months)):
    months[before], months[month] = opening, closing
    purchases.append(f"{month}-09,,,,{bought}")
    adjusted += [f"{month}-20,{kind},{value}" for kind, value in kinds.items()]
  sales.append("2024-08-03,plate,S4,1,75000")
  plates.append("S4,1,1")
  lines.append("plate,S4,1,Leek,1,g")
  for name, (unit, price, due, bought, paid, left, *_) in VARIANCES.items():
    ingredients.append(f"{name},{name.split()[0]},{'each' if unit == 'each' else 'g'}")
    offers.append(f"{name},Quay,1,{'1000,each' if unit == 'each' else '1,kg'}")
    prices.append(f"{name},Quay,2023-01-01,{price * 1000 if unit == 'each' else price:g}")
    plates.append(f"{name},1,1")
    lines.append(f"plate,{name},1,{name},1,{unit}")
    sales.append(f"{VARIED}-02,plate,{name},{due},1")
    counts += [f"2024-09-30,{name},0,{unit}", f"{VARIED}-31,{name},{left},{unit}"]
    purchases.append(f"{VARIED}-02,{name},{bought},{unit},{paid}")
  for month, rows in SOLD.items():
    for number, (sold, cost, price, _) in enumerate(rows):
      plates.append(f"{month} {number},1,{price}")
      lines.append(f"plate,{month} {number},1,Leek,{cost * 250:g},g")
      sales.append(f"{month}-10,plate,{month} {number},{sold},")
  rows = {
    "book": ["key,value", "currency,USD"], "suppliers": ["name", "Quay"],
    "ingredients": ["name,category,unit", *ingredients],
    "offers": ["ingredient,supplier,pack_count,pack_size,pack_unit", *offers],
    "prices": ["ingredient,supplier,from,price", *prices], "plates": ["name,makes,price", *plates],
    "lines": ["into,parent,position,item,amount,unit", *lines],
    "sales": ["date,kind,name,sold,net_revenue", *sales],
    "purchases": ["date,ingredient,amount,unit,net_value", *purchases],
    "adjustments": ["date,kind,net_value", *adjusted], "counts": ["date,item,amount,unit", *counts],
    "months": ["month,closing_stock_value", *(f"{month},{value}" for month, value in months.items())],
  }
  return {name: "\n".join(text) + "\n" for name, text in rows.items()}


class Published(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    folder = tempfile.TemporaryDirectory()
    cls.addClassCleanup(folder.cleanup)
    cls.folder = pathlib.Path(folder.name)
    cls.book = cls.folder / "book.croustade"
    for name, text in tables().items():
      (cls.folder / f"{name}.csv").write_text(text, encoding="utf-8")
    done = cls.call("load", cls.book, cls.folder)
    assert done.returncode == 0, done.stderr
    cls.months = {month["month"]: month for month in json.loads(cls.call("month", cls.book, "2024", "--json").stdout)}

  @staticmethod
  def call(*arguments):
    return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                          env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""})

  def sheets(self, month):
    path = self.folder / f"{month}.xlsx"
    self.assertIn(self.call("workbook", self.book, "--month", month, "-o", path).returncode, (0, 1))
    return xlsx.Book(path)

  @staticmethod
  def rows(book, sheet, columns):
    """Cells beside each text of column A, in their order."""
    found = {}
    for row in range(5, 80):
      name = book.at(sheet, f"A{row}").value
      if isinstance(name, str) and name:
        found[name] = [book.at(sheet, f"{column}{row}").value for column in columns]
    return found

  def test_food_used(self):
    for month, (opening, bought, closing, kinds, used, actual) in STOCK.items():
      got, rows = self.months[month], self.rows(self.sheets(month), "Statement", "BC")
      with self.subTest(month):
        self.assertEqual((got["opening_stock"], got["purchases"]["food"], got["closing_stock"]),
                         (opening, bought, closing))
        self.assertEqual({kind: got["adjustments"][kind] for kind in kinds}, kinds)
        self.assertAlmostEqual(got["actual_cost"], actual, places=9)
        self.assertEqual(rows["Actual food cost"][0], actual)
        # Each line after what was used leaves the next of the sums.
        lines = [name for name in rows if name in USED]
        self.assertEqual(lines, USED)
        sums = [round(sum(rows[name][0] for name in lines[:end]), 2) for end in range(1, len(lines) + 1)]
        self.assertEqual([total for i, total in enumerate(sums) if i == 0 or total != sums[i - 1]], used)
    # 22,500 of sales of 75,000.
    self.assertEqual(100 * got["actual_cost"] / got["net_sales"], 30)
    self.assertEqual(rows["Actual food cost"], [22500, 0.3])
    self.assertRegex(self.call("month", self.book, "2024-08").stdout, r"Actual food cost +22500\.00 +30\.0\s%")

  def test_variances(self):
    got = {row["name"]: row for row in self.months[VARIED]["ingredients"]}
    book = self.sheets(VARIED)
    measured, used = self.rows(book, "Theoretical and actual", "CDEG"), self.rows(book, "Ingredients used", "G")
    for name, (_, standard, due, _, paid, left, price, usage, on_bought) in VARIANCES.items():
      with self.subTest(name):
        self.assertEqual((measured[name][0], measured[name][3]), (round(due * standard, 2), paid - left * standard))
        for shown, key, expected in ((measured[name][1], "price_variance", price),
                                     (measured[name][2], "usage_variance", usage),
                                     (used[name][0], "price_variance_on_bought", on_bought)):
          if expected is not None:
            self.assertAlmostEqual(got[name][key], expected, places=6)
            self.assertEqual(shown, expected)
    groups = self.rows(book, "By category", "CD")
    for category, expected in GROUPS.items():
      rows = [row for row in got.values() if row["category"] == category]
      self.assertEqual(tuple(groups[category]), expected, category)
      for key, total in zip(("price_variance", "usage_variance"), expected):
        self.assertAlmostEqual(sum(row[key] for row in rows), total, places=6)

  def test_sales_mix(self):
    for month, plates in SOLD.items():
      got, book = self.months[month]["matrix"]["plates"], self.sheets(month)
      mix, sold = self.rows(book, "Sales mix", "BCDF"), self.rows(book, "Sold", "DEFGH")
      number = sum(row[0] for row in plates)
      with self.subTest(month):
        self.assertAlmostEqual(got["sold_from"] / number, 0.7 / len(plates), places=12)
        for row in got["rows"]:
          of = plates[int(row["name"].split()[1])]
          self.assertEqual((row["sold"], row["class"]), (of[0], of[3]))
          self.assertAlmostEqual(row["contribution"], of[2] - of[1], places=9)
          self.assertEqual([mix[row["name"]][0], mix[row["name"]][3]], [of[0], of[3]])
          self.assertAlmostEqual(mix[row["name"]][1], of[0] / number, places=12)
          self.assertAlmostEqual(mix[row["name"]][2], of[2] - of[1], places=9)
          self.assertAlmostEqual(sold[row["name"]][4], of[1] / of[2], places=6)
    # As the sources print them.
    self.assertEqual([round(100 * self.rows(self.sheets("2024-01"), "Sold", "H")[f"2024-01 {i}"][0])
                      for i in range(2)], [33, 50])
    george, rows = self.months["2024-11"], self.rows(self.sheets("2024-11"), "Sold", "EFH")
    self.assertEqual(rows["Total"][:2], [10425.95, 3350.20])
    self.assertAlmostEqual(george["net_sales"] - george["theoretical_cost"], 7075.75, places=9)
    self.assertEqual(round(100 * george["theoretical_cost"] / george["net_sales"], 3), 32.133)
    limits = george["matrix"]["plates"]
    self.assertEqual((round(limits["sold_from"], 4), round(limits["contribution_from"], 6)), (55.0375, 11.249205))
    self.assertIn("Sells: from 8.75 % of all sold, 70 % of an equal share. Earns: from 11.25, the mean.",
                  [name.replace("\u00a0", " ") for name in self.rows(self.sheets("2024-11"), "Sales mix", "B")])
    self.assertRegex(self.call("month", self.book, "2024-11", "--matrix").stdout,
                     r"2024-11 2 +55 +8\.7\s% +13\.35 +earns, sells little")


if __name__ == "__main__":
  CLI = os.path.abspath(sys.argv[1])
  unittest.main(argv=sys.argv[:1], verbosity=2)

#!/usr/bin/env python3
"""croustade-cli month: the accountant's statement.

    test-cli-month.py CROUSTADE-CLI DEMO-FOLDER

Figures of random books are held to exact fractions by the oracle, published examples by test-cli-published.py; here
are a book and the demo's October worked by hand from their tables, and what must not move.
"""

import json
import pathlib
import re
import sqlite3
import sys
import unittest
from decimal import Decimal

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

import loaded  # noqa: E402
from months import DEMO, TABLES, Case, call  # noqa: E402


class Statement(Case):
  def test_of_a_small_book(self):
    self.load()
    got = self.month()
    # Leek: 4/kg. Melted leek: 4 of 500 g, 20 % lost: 0.01/g used. Cream 0.006/ml, egg 0.30.
    # A tart: (2 + 3) / 10 = 0.50. A custard: (2.40 + 1.20) / 4 = 0.90. Tide: 1.40.
    self.assertMoney(got["theoretical_cost"], 18 * 0.5 + 10 * 1.4)
    # Net: tart 10, Tide 20, the refund 5 less.
    self.assertMoney(got["net_sales_costed"], 180 + 200 - 5)
    self.assertMoney(got["net_sales"], 375 + 90)
    self.assertMoney(got["opening_stock"], 4 + 12 + 9)
    # 500 g of leek 2, cream 6, 18 eggs 5.40, 100 g of melted leek of which 20 g will be lost 0.80.
    self.assertMoney(got["closing_stock"], 2 + 6 + 5.4 + 0.8)
    self.assertEqual(got["purchases"]["food"], 24.6)
    self.assertEqual(got["purchases"]["other"], 7)
    self.assertMoney(got["adjustments"]["staff-meal"], 0.6)
    self.assertMoney(got["adjustments"]["waste"], 0.6)
    self.assertEqual(got["adjustments"]["transfer-in"], 3)
    self.assertMoney(got["actual_cost"], 25 + 24.6 + 3 - 14.2 - 0.6)
    self.assertMoney(got["over"], got["actual_cost"] - 23)
    self.assertEqual((got["missing"], got["recipes_on"], got["state"]), ([], "2025-10-31", "open"))
    leek = next(row for row in got["ingredients"] if row["name"] == "Leek")
    # 28 tarts of 20 g of melted leek, each of 2.5 g of leek; 80 g of it in stock hold 200 g of leek.
    self.assertMoney(leek["theoretical_quantity"], 28 * 20 * 2.5)
    self.assertMoney(leek["actual_quantity"], 1000 + 3000 - 500 - 200)
    # What the staff ate is not what plates used; what was wasted is.
    egg, cream = (next(row for row in got["ingredients"] if row["name"] == name) for name in ("Egg", "Cream"))
    self.assertMoney(egg["actual_quantity"], 30 - 18 - 2)
    self.assertMoney(egg["actual_cost"], 9 - 5.4 - 0.6)
    self.assertMoney(cream["actual_quantity"], 2000 + 2000 - 1000)
    self.assertEqual(call("month", self.book, "2025-10").returncode, 0)

  def test_weighted_average_is_a_control(self):
    """Periodic weighted average: OpenStax, Principles of Accounting 1, chapter 10 (from memory): 150 at 21,
    225 at 27 and 210 at 33 are 27.62 each."""
    self.load(
      ingredients="name,unit\nEgg,each\nCream,ml\nLeek,g\n",
      prices="ingredient,supplier,from,price\nLeek,The market,2025-01-01,4\n"
             "Cream,The market,2025-01-01,6\nEgg,The market,2025-01-01,630\nEgg,The market,2025-10-31,990\n",
      counts="date,item,amount,unit\n2025-09-30,Egg,150,each\n2025-10-31,Egg,120,each\n",
      purchases="date,ingredient,amount,unit,net_value\n2025-10-02,Egg,225,each,6075\n"
                "2025-10-09,Egg,210,each,6930\n", adjustments="date,kind\n", months="month\n")
    got = self.month()
    egg = next(row for row in got["ingredients"] if row["name"] == "Egg")
    self.assertEqual(round(egg["weighted_average"], 2), 27.62)
    self.assertEqual((egg["counted_quantity"], egg["counted_value"]), (120, 120 * 33))
    self.assertMoney(got["stock_control"]["at_weighted_average"], 120 * 16155 / 585)
    self.assertIn("3960.00 at the cost of the count, 3313.85 at weighted average cost",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))

  def test_what_was_not_known_at_closing_stays_a_bound(self):
    """A count without a value adds to the stock of the month after it, whether that before it is closed or not."""
    self.load(ingredients=TABLES["ingredients"] + "Saffron,,g\n",
              counts=TABLES["counts"] + "2025-09-30,Saffron,3,g\n2025-10-31,Saffron,2,g\n",
              purchases=TABLES["purchases"] + "2025-10-05,The market,3,Saffron,food,5,g,40\n")
    said = []
    for month in ("2025-09", "2025-10", None):
      text = " ".join(call("month", self.book, "2025-10").stdout.split())
      said.append(re.search(r"Control: .*?average cost", text)[0])
      if month is not None:
        self.assertEqual(call("close", self.book, month).returncode, 1, "incomplete, and closed")
    self.assertRegex(said[0], r"are worth at least [0-9.]+ at the cost of the count, at least [0-9.]+ at")
    self.assertEqual(said, said[:1] * 3)

  def test_a_difference_to_the_ledger_tells_of_the_estimate(self):
    self.load(months="month,ledger_purchases,late_estimate\n2025-10,31.6,150\n")
    self.assertIn("+150.00 difference, of which the estimate 150.00",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))
    # What an estimate explains is no question; other differences come first of all.
    self.assertFalse([q for q in self.month()["questions"] if q["about"] == "ledger"])
    self.load(self.path("apart.croustade"), months="month,till_net_revenue,ledger_purchases\n2025-10,1000,30\n")
    asked = self.month(book=self.path("apart.croustade"))["questions"]
    sales = self.month(book=self.path("apart.croustade"))["net_sales"]
    self.assertEqual([(q["about"], q["what"]) for q in asked[:2]],
                     [("till", f"net sales differ by {sales - 1000:.2f}"), ("ledger", "purchases differ by 1.60")])

  def test_what_ingredients_tell_of_leads_to_the_difference(self):
    self.load()
    over = self.month()["over"]
    text = call("month", self.book, "2025-10").stdout
    rest, all_of_it = (float(re.search(name + r".*?(−?\d+\.\d\d)$", text, re.MULTILINE).group(1).replace("−", "-"))
                       for name in ("without an ingredient, an amount or a count", "Actual less theoretical"))
    total = re.search(r"(?m)^Total .*?(−?\d+\.\d\d)$", text[text.index("Where it went"):]).group(1)
    self.assertAlmostEqual(all_of_it, round(over, 2), places=6)
    self.assertAlmostEqual(float(total.replace("−", "-")) + rest, all_of_it, places=6)

  def test_a_part_above_the_whole_is_explained(self):
    """A credit without an amount is in what was bought, and in none of the amounts."""
    self.load()
    self.assertNotIn("taken off", call("month", self.book, "2025-10").stdout)
    book = self.path("credited.croustade")
    self.load(book, purchases=TABLES["purchases"] + "2025-10-05,,,,food,,,-20\n")
    self.assertRegex(" ".join(call("month", book, "2025-10").stdout.split()),
                     r"in amounts: [0-9.]+ % of the food bought, from which credits without an amount are taken off\.")

  def test_what_no_plate_takes_was_used_too(self):
    """Truffle is on no plate: what was bought and is gone is usage. Saffron is on one and has no price: neither of
    its variances is shown, and none of them is in the sum below."""
    none = "".join(f"2025-{day},{name},0,g\n" for day in ("09-30", "10-31") for name in ("Truffle", "Saffron"))
    self.load(ingredients=TABLES["ingredients"] + "Truffle,Dry goods,g\nSaffron,Dry goods,g\n",
              lines=TABLES["lines"] + "plate,Custard,3,Saffron,1,g\n", counts=TABLES["counts"] + none,
              purchases=TABLES["purchases"] + "2025-10-05,,,Truffle,food,200,g,210\n2025-10-05,,,Saffron,food,3,g,40\n")
    text = call("month", self.book, "2025-10").stdout
    went = [re.split(" {2,}", line) for line in text[text.index("Where it went"):].splitlines()[1:7]]
    self.assertEqual(went[0], ["Truffle", "0.00", "210.00", "210.00"])
    self.assertIn(["Saffron", "?", "?", "≤ 40.00"], went)
    rows = [[Decimal(re.sub("[?≥≤] ?", "", cell).replace("−", "-") or "0") for cell in row[1:]] for row in went]
    self.assertEqual(went[-1][0], "Total")
    self.assertEqual([sum(column) for column in zip(*rows[:-1])], rows[-1])

  def test_without_a_count_there_is_no_actual_cost(self):
    self.load(counts="date,item,amount,unit\n2025-10-31,Leek,1,kg\n")
    got = self.month()
    self.assertEqual((got["opening_stock"], got["actual_cost"], got["over"]), (None, None, None))
    done = call("month", self.book, "2025-10")
    self.assertEqual(done.returncode, 1)
    self.assertIn("not known yet", done.stdout)
    self.assertIn("entered at its beginning", done.stderr)
    self.assertNotIn("entered at its end", done.stderr)

  def test_a_year_in_one_call(self):
    self.load()
    done = call("month", self.book, "2025", "--json")
    self.assertEqual([row["month"] for row in json.loads(done.stdout)], ["2025-09", "2025-10"])
    self.assertIn("2025-09 is incomplete", done.stderr)

  def test_in_every_locale(self):
    self.load()
    lines = [call("month", self.book, "2025-10", "--json", LC_ALL=locale).stdout
             for locale in ("C", "C.UTF-8", "fr_FR.UTF-8")]
    self.assertEqual(lines[0], lines[1])
    self.assertEqual(lines[0], lines[2])
    self.assertIn("375.00", call("month", self.book, "2025-10", LC_ALL="C").stdout)

  def test_refusals(self):
    self.load()
    for arguments in (["2025-13"], ["9998-01"], ["October"], ["2025-10", "--against", "2025-09"],
                      ["2025", "--against", "2025-09"], ["2025-10", "--against", "2025-10"]):
      done = call("month", self.book, *arguments)
      self.assertEqual((done.returncode, done.stdout), (2, ""), arguments)
      self.assertTrue(done.stderr.strip())


class Demo(Case):
  """By hand from the tables of the demo."""

  def test_october(self):
    loaded.load(call, self.book, DEMO)
    done = call("month", self.book, "2026-10", "--json")
    got = json.loads(done.stdout)
    shown = {"net_sales": 45919.09, "opening_stock": 2267.11, "closing_stock": 1917.86,
             "theoretical_cost": 13182.18, "over": 367.51}
    self.assertEqual({name: round(got[name], 2) for name in shown}, shown)
    self.assertAlmostEqual(got["actual_cost"], 13549.69, delta=0.01)
    self.assertEqual(got["purchases"]["food"], 13450.38)
    self.assertEqual(round(got["adjustments"]["waste"], 2), 13.94)
    self.assertEqual(got["missing"], ["price Sea purslane"])
    self.assertEqual(done.returncode, 1)
    self.assertIn("Sea purslane", done.stderr)

  def test_printed_lines_add_up(self):
    loaded.load(call, self.book, DEMO)
    text = call("month", self.book, "2026-10").stdout
    line = {name: float(money.replace("−", "-")) for name, money in re.findall(
      r"(?m)^(\w[^−≥≤\d\n]*?(?:\d{4}-\d\d-\d\d)?) +[≥≤]? ?(−?\d+\.\d\d)(?: |$)", text)}
    used = line["Stock on 2026-09-30"] + line["Food bought"] + line["Stock on 2026-10-31"]
    self.assertAlmostEqual(used, line["Food used"], places=6)
    actual = used + line["transferred in"] + line["transferred out"] + line["staff meals"]
    self.assertAlmostEqual(actual, line["Actual food cost"], places=6)
    self.assertAlmostEqual(actual - line["Theoretical food cost"], line["Over"], places=6)
    self.assertEqual(line["Actual food cost"], 13549.69)

  def test_a_year_has_its_total(self):
    """November runs: it has no actual cost yet, and what the other months came to stands beside all of them."""
    loaded.load(call, self.book, DEMO)
    told = call("month", self.book, "2026")
    # In July nothing but the stock of its last day was counted: it has no statement, and lacks nothing.
    self.assertNotIn("July 2026, open", told.stdout)
    self.assertNotIn("2026-07", told.stderr)
    months, total = told.stdout.split("\n\n")[-2:]
    of_months, of_total = ([[Decimal(money) for money in re.findall(r"(?<![\d.])\d+\.\d\d(?!\d)", line)]
                            for line in block.splitlines()] for block in (months, total))
    of_months, (everything, counted) = [row for row in of_months if row], [row for row in of_total if row]
    self.assertEqual(sorted(map(len, of_months)), [2, 4, 4, 4])
    self.assertEqual(everything, [sum(row[column] for row in of_months) for column in (0, 1)])
    self.assertEqual(counted, [sum(row[column] for row in of_months if len(row) == 4) for column in range(4)])
    self.assertEqual(counted[2] - counted[1], counted[3])


class AsItStood(Case):
  def test_a_price_of_later_does_not_move_it(self):
    self.load()
    before = self.month()
    self.add(selling_prices="name,from,price\nTide,2025-11-05,44\nLeek tart,2025-11-05,30\n",
             prices="ingredient,supplier,from,price\nLeek,The market,2025-11-01,8\n")
    self.assertEqual(self.month(), before)
    self.add(prices="ingredient,supplier,from,price\nLeek,The market,2025-10-10,8\n")
    self.assertNotEqual(self.month()["closing_stock"], before["closing_stock"])

  def test_a_recipe_of_later_does_not_move_it(self):
    self.load()
    self.backdate("2025-09-01")
    before = self.month()
    self.assertEqual(before["questions"], [])
    self.add(lines="into,parent,position,item,amount,unit\nplate,Leek tart,2,Cream,900,ml\n",
             plates="name,makes,price\nLeek tart,5,99\n", outputs="item,preparation,role,lost_pct\n"
             "Melted leek,Melted leek,main,50\n")
    self.assertEqual(self.month(), before)
    # A correction can: it asks for the recipes of a later day.
    with sqlite3.connect(self.book) as book:
      day = book.execute("SELECT max (day) FROM act").fetchone()[0]
    book.close()
    self.add(months=f"month,recipes_on\n2025-10,{day}\n")
    self.assertGreater(self.month()["theoretical_cost"], before["theoretical_cost"] + 1)

  def test_what_was_taken_back_never_was(self):
    self.load()
    self.backdate("2025-09-01")
    before = self.month()
    self.add(lines="into,parent,position,item,amount,unit\nplate,Leek tart,2,Cream,900,ml\n")
    self.backdate("2025-10-15", 2)
    self.assertNotEqual(self.month(), before)
    self.assertEqual(call("undo", self.book).returncode, 0)
    self.assertEqual(self.month(), before)

  def test_a_plate_of_later_counts_as_it_first_stood(self):
    self.load()
    self.backdate("2025-09-01")
    self.add(plates="name,makes,price\nSoup,1,5.5\n",
             lines="into,parent,position,item,amount,unit\nplate,Soup,1,Leek,500,g\n",
             sales="date,kind,name,sold\n2025-10-30,plate,Soup,1\n")
    self.backdate("2025-11-03", 2)
    self.add(lines="into,parent,position,item,amount,unit\nplate,Soup,1,Leek,900,g\n")
    got = self.month()
    soup = next(thing for thing in got["things"] if thing["name"] == "Soup")
    self.assertMoney(soup["theoretical_cost"], 2)
    self.assertIn(("Soup", "costed as it first stood, on 2025-11-03"),
                  [(row["about"], row["what"]) for row in got["questions"]])

  def test_what_is_gone_keeps_its_prices(self):
    self.load()
    self.backdate("2025-09-01")
    before = self.month()
    folder = self.tables("changed", {
      **TABLES, "ingredients": TABLES["ingredients"].replace("Leek", "Onion"),
      "offers": TABLES["offers"].replace("Leek", "Onion"),
      "prices": TABLES["prices"].replace("Leek", "Onion"),
      "lines": TABLES["lines"].replace(",Leek,1,kg", ",Onion,1,kg"),
      "counts": TABLES["counts"].replace("Leek,1,kg", "Onion,1,kg").replace("31,Leek", "31,Onion"),
      "purchases": TABLES["purchases"].replace(",Leek,", ",Onion,")})
    self.assertEqual(call("load", self.book, folder, "--replace").returncode, 0)
    self.assertMoney(self.month()["theoretical_cost"], before["theoretical_cost"])


class Against(Case):
  def test_effects_add_up_in_displayed_cents(self):
    loaded.load(call, self.book, DEMO)
    for month in ("2026-09", "2026-10"):
      call("close", self.book, month)
    got = json.loads(call("month", self.book, "2026-10", "--against", "2026-09", "--json").stdout)
    effects = ("volume", "mix", "price", "recipe")
    self.assertAlmostEqual(sum(got[name] for name in effects), got["to"] - got["from"], places=2)
    for rows in (got["ingredients"], got["things"]):
      for name in effects:
        self.assertAlmostEqual(sum(row[name] for row in rows), got[name], places=9)
    self.assertIn("price Sea purslane", got["missing"])
    text = call("month", self.book, "2026-10", "--against", "2026-09").stdout
    self.assertRegex(" ".join(text.split()), r"to ≥ ?\d+\.\d\d:")
    # Both months lack something: words say so of the change, signs of what moved it, as in the tables; an effect that
    # is larger than all is no part of it.
    self.assertRegex(" ".join(text.split("\n\n")[0].split()),
                     r": \? [+−]\d+\.\d\d\. Volume \? [+−]\d+\.\d\d, of what is known most ")
    first, word, change = re.search(r": ([+−]\d+\.\d\d) of what is known.*\. (Most of it|The largest effect) .*?"
                                    r": \? ([+−]\d+\.\d\d)\.", " ".join(text.split("\n\n")[0].split())).groups()
    sizes = [float(size.replace("−", "-")) for size in (first, change)]
    self.assertEqual(word == "Most of it", 0 < sizes[1] / sizes[0] <= 1 and 2 * abs(sizes[1]) > abs(sizes[0]))
    for block in text.split("\n\n")[1:3]:
      rows = [[float(cell.replace("−", "-")) for cell in re.findall(r"[+−]?\d+\.\d\d", line)]
              for line in block.splitlines()[1:]]
      rows = [row for row in rows if row]
      for column in range(5):
        self.assertAlmostEqual(sum(row[column] for row in rows[:-1]), rows[-1][column], places=6)
      self.assertAlmostEqual(sum(rows[-1][:4]), rows[-1][4], places=6)
      self.assertEqual(rows[-1][4], float(first.replace("−", "-")))
      self.assertIn(float(change.replace("−", "-")), rows[-1][:4])

  def test_each_effect_alone(self):
    same = {"counts": "date,item,amount,unit\n", "purchases": "date,net_value\n",
            "adjustments": "date,kind\n", "months": "month\n"}
    sales = "date,kind,name,sold\n2025-09-10,plate,Leek tart,10\n2025-10-10,plate,Leek tart,{}\n"
    prices = TABLES["prices"] + "Cream,The market,2025-10-01,12\n"
    for changes, expected in (
        ({"sales": sales.format(30)}, {"volume": 10}),
        # 50 ml of cream in each of 10, 0.30 dearer.
        ({"sales": sales.format(10), "prices": prices}, {"price": 3})):
      self.book = self.load(self.path(f"{list(expected)[0]}.croustade"), **same, **changes)
      for month in ("2025-09", "2025-10"):
        call("close", self.book, month)
      got = json.loads(call("month", self.book, "2025-10", "--against", "2025-09", "--json").stdout)
      for name in ("volume", "mix", "price", "recipe"):
        self.assertAlmostEqual(got[name], expected.get(name, 0), places=6)

  def test_what_was_taken_back_at_another_price_is_no_effect(self):
    """10 tarts at 0.50 and 10 taken back at 0.80, as cream was dearer then: no effect of what 10 custards cost, and
    none of what they are made of."""
    self.load(counts="date,item,amount,unit\n", purchases="date,net_value\n", adjustments="date,kind\n",
              months="month\n", prices=TABLES["prices"] + "Cream,The market,2025-09-15,12\n",
              sales="date,kind,name,sold\n2025-09-10,plate,Leek tart,10\n2025-09-20,plate,Leek tart,-10\n"
                    "2025-09-20,plate,Custard,10\n2025-10-20,plate,Custard,10\n")
    for month in ("2025-09", "2025-10"):
      call("close", self.book, month)
    got = json.loads(call("month", self.book, "2025-10", "--against", "2025-09", "--json").stdout)
    self.assertMoney(got["to"] - got["from"], 3)
    self.assertMoney(got["taken_back"], 3)
    self.assertEqual([got[name] for name in ("volume", "mix", "price", "recipe")], [0] * 4)
    says = " ".join(call("month", self.book, "2025-10", "--against", "2025-09").stdout.split())
    self.assertIn(": +3.00. Sold and taken back at another price, so that none is left: +3.00. Ingredients", says)
    self.assertRegex(says, r"taken back at another price \+3\.00 Total (0\.00 ){4}\+3\.00")


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

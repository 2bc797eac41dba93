#!/usr/bin/env python3
"""croustade-cli month: what the statement asks about, and what it cannot know before that is answered.

    test-cli-month-questions.py CROUSTADE-CLI

Figures are worked by hand from the tables of the small book.
"""

import json
import pathlib
import sys
import unittest
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from months import TABLES, Case, call  # noqa: E402


class Questions(Case):
  def asked(self, **changes):
    self.load(**changes)
    self.backdate("2025-09-01")
    return {(row["about"], row["what"]): row["explains"] for row in self.month()["questions"]}

  def test_what_was_not_counted(self):
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l\n", "")
    # All that was there and bought: 12 and 12.60.
    self.assertEqual(self.asked(counts=counts), {("Cream", "not counted on 2025-10-31"): 24.6})
    done = call("month", self.book, "2025-10")
    self.assertEqual(done.returncode, 1)
    self.assertIn("Actual food cost", done.stdout)
    self.assertRegex(done.stdout, "Over +≤")
    # Of what was counted as none, and neither bought nor brought in, none is there.
    self.book = self.path("none.croustade")
    counts = counts.replace("2025-09-30,Egg,30", "2025-09-30,Egg,0").replace("2025-10-31,Egg,18,each\n", "")
    self.assertEqual(self.asked(counts=counts), {("Cream", "not counted on 2025-10-31"): 24.6})

  def test_what_was_transferred_in_and_not_counted(self):
    """As what was bought: 1 l of cream for 5.00, eggs at 0.30, and saffron at its own 40, which nobody bought."""
    counts = TABLES["counts"].replace("2025-09-30,Egg,30", "2025-09-30,Egg,0")
    for row in ("2025-10-31,Cream,1,l\n", "2025-10-31,Egg,18,each\n"):
      counts = counts.replace(row, "")
    came = ("2025-10-15,transfer-in,Saffron,5,g,40,\n2025-10-15,transfer-in,Egg,10,each,,\n"
            "2025-10-15,transfer-in,Cream,1,l,5,\n")
    asks = {"Cream": 29.6, "Egg": 3, "Saffron": 40}
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n", counts=counts,
                       adjustments=TABLES["adjustments"] + came)
    self.assertEqual(asked, {(name, "not counted on 2025-10-31"): money for name, money in asks.items()})
    self.assertRegex(call("month", self.book, "2025-10").stdout, r"(?s)Actual food cost +≤.*Over +≤")
    for closed in (False, True):
      if closed:
        self.assertEqual(call("close", self.book, "2025-10").returncode, 1)
      # Nothing else is counted in November.
      self.assertEqual({row["about"]: row["explains"] for row in self.month("2025-11")["questions"]},
                       {name: -money for name, money in asks.items()})

  def test_what_was_not_counted_is_not_known_where_it_opens(self):
    """The month after it may have used it: its stock opens with at least what was counted, as its closing said."""
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l\n", "")
    counts += "2025-11-30,Leek,100,g\n2025-11-30,Cream,1,l\n2025-11-30,Egg,1,each\n2025-11-30,Melted leek,0,g\n"
    sales = TABLES["sales"] + "2025-11-03,plate,Leek tart,2,\n"
    self.load(counts=counts, sales=sales)
    self.backdate("2025-09-01")
    for status in (None, 1):
      if status is not None:
        self.assertEqual(call("close", self.book, "2025-10").returncode, status)
      done, month = call("month", self.book, "2025-11"), self.month("2025-11")
      self.assertEqual({(row["about"], row["what"]): row["explains"] for row in month["questions"]},
                       {("Cream", "not counted on 2025-10-31"): -24.6})
      self.assertEqual(done.returncode, 1)
      self.assertRegex(done.stdout, r"(?s)Stock on 2025-10-31 +≥.*Actual food cost +≥.*Over +≥")
      self.assertIn("“Cream” was not counted at its beginning", done.stderr)
      cream = next(row for row in month["ingredients"] if row["name"] == "Cream")
      self.assertEqual((cream["actual_known"], cream["weighted_average"]), ("at-least", None))
    # What is counted, of which none was there, is known.
    self.load(self.path("none.croustade"), counts=counts + "2025-10-31,Cream,0,l\n", sales=sales)
    self.assertRegex(call("month", self.path("none.croustade"), "2025-11").stdout, r"Actual food cost +\d")

  def known(self, month, *names):
    """Of a month how much is known of its figures of those names, and of that of an ingredient: "Leek"."""
    rows = {row["name"]: row["actual_known"] for row in month["ingredients"]}
    return [rows[name] if name in rows else month[f"{name}_known"] for name in names]

  def test_what_is_forgotten_twice_is_not_known_where_it_is_counted_again(self):
    """Eggs, 30 at 0.30 on 30 September, are counted at no end of October and November: what may be there at both ends
    of November, in which none came, is used there or it is not. What opens December may be all of them."""
    counts = TABLES["counts"].replace("2025-10-31,Egg,18,each\n", "") + "".join(
      f"{day},Leek,100,g\n{day},Cream,1,l\n{day},Melted leek,0,g\n" for day in ("2025-11-30", "2025-12-31"))
    purchases = TABLES["purchases"] + "2025-12-02,The market,4,Egg,food,30,each,9\n"
    self.load(counts=counts + "2025-12-31,Egg,18,each\n", purchases=purchases,
              sales=TABLES["sales"] + "2025-11-03,plate,Leek tart,2,\n2025-12-03,plate,Custard,2,\n")
    self.backdate("2025-09-01")
    figures = ("opening_stock", "closing_stock", "actual", "over")
    for closed in (None, "2025-10", "2025-11"):
      if closed:
        self.assertEqual(call("close", self.book, closed).returncode, 1)
      november, december = self.month("2025-11"), self.month("2025-12")
      asked = [[(row["about"], row["what"], row["explains"]) for row in month["questions"]]
               for month in (november, december)]
      self.assertEqual(asked, [[("Egg", "not counted on 2025-10-31", -9), ("Egg", "not counted on 2025-11-30", 9)],
                               [("Egg", "not counted on 2025-11-30", -9)]], closed)
      self.assertEqual(self.known(november, *figures), ["at-least", "at-least", "at-least", "at-least"])
      self.assertEqual(self.known(december, *figures, "Egg"), ["at-least", "whole", "at-least", "at-least", "at-least"])
      self.assertRegex(call("month", self.book, "2025-11").stdout, r"Food used +≥")
      egg = next(row for row in december["ingredients"] if row["name"] == "Egg")
      self.assertEqual((egg["counted_known"], egg["weighted_average"]), ("whole", None))
    # A stock that nobody counted in between hides nothing.
    self.book = self.path("between.croustade")
    self.load(counts="".join(row for row in (counts + "2025-12-31,Egg,18,each\n").splitlines(True)
                             if not row.startswith("2025-10-31")),
              purchases=purchases + "2025-10-05,The market,5,Egg,other,6,each,1.8\n",
              adjustments=TABLES["adjustments"] + "2025-09-30,transfer-in,Egg,100,each,,\n")
    def of_egg():
      return [row["explains"] for row in self.month("2025-12")["questions"] if row["about"] == "Egg"]

    self.assertEqual(of_egg(), [-9])
    # That of a closed month was counted last; what came since may be there, 3.00 at the end of the next, and none of
    # what came by then, or was thrown away.
    call("close", self.book, "2025-09")
    self.assertEqual(of_egg(), [-9])
    self.add(adjustments="date,kind,item,amount,unit\n2025-10-31,transfer-in,Egg,10,each\n"
                         "2025-11-30,waste,Egg,5,each\n")
    self.assertEqual(of_egg(), [-12])
    # What was bought meanwhile may be there too, and nothing bounds what was used.
    self.book = self.path("bought.croustade")
    self.load(counts=counts, purchases=TABLES["purchases"] + "2025-11-02,The market,4,Egg,food,30,each,9\n")
    november = self.month("2025-11")
    self.assertEqual(self.known(november, *figures), ["at-least", "at-least", "in-part", "in-part"])
    self.assertEqual([row["explains"] for row in november["questions"]], [18, -9])

  def test_what_was_made_and_not_counted(self):
    """100 g of melted leek are 250 g of leek, of which the leeks that were used may be so much less."""
    counts = (TABLES["counts"].replace("2025-10-31,Melted leek", "2025-09-30,Melted leek")
              + "2025-11-30,Leek,100,g\n2025-11-30,Cream,1,l\n2025-11-30,Egg,1,each\n2025-11-30,Melted leek,0,g\n")
    self.load(counts=counts, sales=TABLES["sales"] + "2025-11-03,plate,Leek tart,2,\n")
    for _ in ("open", "closed"):
      for month, known in (("2025-10", "at-most"), ("2025-11", "at-least")):
        self.assertEqual(self.known(self.month(month), "actual", "Leek", "Cream", "Egg"),
                         [known, known, "whole", "whole"])
      says = call("month", self.book, "2025-10").stdout
      self.assertRegex(says, r"(?m)^Leek .*≤ \S+$")
      # The rest is what came from the bar, without an ingredient: known to the cent.
      self.assertRegex(says, r"(?m)^without an ingredient, an amount or a count +3\.00$")
      call("close", self.book, "2025-10")

  def test_what_was_counted_some_morning_after(self):
    counts = TABLES["counts"].replace("2025-10-31,Egg", "2025-11-01,Egg")
    self.assertEqual(self.asked(counts=counts), {("Egg", "not counted on 2025-10-31: counted on 2025-11-01"): 9})
    for month in ("2025-10", "2025-11"):
      self.assertIn("“Egg” was not counted on 2025-10-31, but on 2025-11-01. Is that the stock of 2025-10-31?",
                    " ".join(call("month", self.book, month).stdout.split()))
    self.book = self.path("all.croustade")
    asks = ("stock", "neither counted nor entered at the end of the month, counted on 2025-11-03")
    self.assertIn(asks, self.asked(counts=TABLES["counts"].replace("2025-10-31", "2025-11-03")))
    self.assertIn(asks, [(row["about"], row["what"]) for row in self.month("2025-11")["questions"]])
    self.assertIn("a stock was counted on 2025-11-03. Is that the stock of 2025-10-31?",
                  " ".join(call("month", self.book, "2025-11").stdout.split()))
    self.book = self.path("late.croustade")
    self.assertNotIn("stock", {about for about, _ in self.asked(counts=TABLES["counts"].replace("10-31", "11-04"))})

  def test_a_tax_that_nobody_has_set(self):
    """As the costs of plates say it; a tax of 0 is set, and what was entered without tax needs none."""
    untaxed = TABLES["book"].replace("tax_pct,10\n", "")
    entered = "date,kind,name,sold,net_revenue\n2025-10-03,plate,Leek tart,20,200\n"
    zero = untaxed + "tax_pct,0\n"
    for name, tables, is_asked in (("none", {"book": untaxed}, True), ("zero", {"book": zero}, False),
                                   ("entered", {"book": untaxed, "sales": entered}, False)):
      self.book = self.path(f"{name}.croustade")
      self.assertEqual(("tax", "not set, counted as 0") in self.asked(**tables), is_asked, name)
      path, says = self.path(f"{name}.xlsx"), "no tax is set in the book: where a plate or menu has none of its own"
      self.assertEqual(says in " ".join(call("month", self.book, "2025-10").stdout.split()), is_asked)
      call("workbook", self.book, "--month", "2025-10", "-o", path)
      with zipfile.ZipFile(path) as file:
        self.assertEqual(any(says in file.read(part).decode() for part in file.namelist()), is_asked)

  def test_what_no_plate_takes_adds_up_too(self):
    """Saffron, on no plate, is all variance; what was not measured is the rest."""
    self.load(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
              purchases=TABLES["purchases"] + "2025-10-05,The market,3,Saffron,food,5,g,40\n",
              counts=TABLES["counts"] + "2025-10-31,Saffron,0,g\n")
    month = self.month()
    rows = {row["name"]: row for row in month["ingredients"]}
    self.assertEqual((rows["Saffron"]["usage_variance"], rows["Saffron"]["variance"]), (None, 40))
    # What came from the bar, 3, has no ingredient.
    self.assertMoney(sum(row["variance"] for row in rows.values()) + 3, month["over"])

  def test_the_same_row_twice(self):
    rows = TABLES["purchases"] + "2025-10-09,The market,2,Cream,food,2,l,12.6\n"
    self.assertEqual(self.asked(purchases=rows)["Cream", "the same purchase twice on 2025-10-09"], 12.6)

  def test_far_from_its_price(self):
    """A quarter more, 15 for 12, is not far."""
    rows = TABLES["purchases"].replace("12.6", "126").replace("3,kg,12\n", "3,kg,15\n")
    asked = self.asked(purchases=rows)
    self.assertNotIn(("Leek", "bought far from its price on 2025-10-02"), asked)
    self.assertMoney(asked["Cream", "bought far from its price on 2025-10-09"], 114)

  def test_beyond_the_others_of_its_kind(self):
    """A sound GTIN-8 (its check digit by the GS1 General Specifications) is asked about at once, another number
    where it is a thousand times what is usual."""
    sales = TABLES["sales"] + "2025-10-11,plate,Leek tart,96385074,90\n2025-10-12,plate,Leek tart,12,90\n"
    counts = TABLES["counts"] + "2025-10-31,Leek,96385074,g\n"
    asked = self.asked(sales=sales, counts=counts)
    for about in (("Leek tart", "far beyond the others on 2025-10-11: sales sold 96385074"),
                  ("Leek", "far beyond the others on 2025-10-31: counts amount 96385074")):
      self.assertIn(about, asked)
    self.assertEqual(sum("far beyond" in what for _, what in asked), 2)
    says = " ".join(call("month", self.book, "2025-10").stdout.split())
    asks = "“Leek tart” on 2025-10-11: sold 96385074. Is that a bar code?"
    self.assertIn(asks, says)
    # It is asked once more where the month is closed, and frozen with it.
    self.assertIn(asks, " ".join(call("close", self.book, "2025-10").stdout.split()))
    self.assertIn(asks, " ".join(call("month", self.book, "2025-10").stdout.split()))

    self.book = self.path("few.croustade")
    few = "".join(f"2025-10-{day:02},other,Wine {day},1,{day}\n" for day in range(1, 9))
    asked = self.asked(sales=TABLES["sales"] + few + "2025-10-20,other,Room,1,70000\n")
    self.assertEqual([row for row in asked if "far beyond" in row[1]],
                     [("Room", "far beyond the others on 2025-10-20: sales net_revenue 70000")])
    self.assertIn("net sales 70000, far beyond the others. Is that right?",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))
    # One of 13 digits, which a table may hold as any number.
    self.book = self.path("thirteen.croustade")
    asked = self.asked(sales=TABLES["sales"] + "2025-10-11,plate,Leek tart,2900640004179,90\n")
    self.assertIn(("Leek tart", "far beyond the others on 2025-10-11: sales sold 2900640004179"), asked)

  def test_more_than_was_there(self):
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,5,l")
    asked = self.asked(counts=counts)
    self.assertMoney(asked["Cream", "more counted than was there on 2025-10-31"], -6)
    # A litre came from the bar.
    self.book = self.path("came.croustade")
    asked = self.asked(counts=counts, adjustments=TABLES["adjustments"] + "2025-10-31,transfer-in,Cream,1,l,5,\n")
    self.assertNotIn(("Cream", "more counted than was there on 2025-10-31"), asked)
    # Of what has no price nothing is known.
    self.book = self.path("unpriced.croustade")
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
                       counts=TABLES["counts"] + "2025-10-31,Saffron,3,g\n2025-10-31,Saffron,3,g\n"
                                                 "2025-09-30,Saffron,1,g\n")
    self.assertIsNone(asked["Saffron", "more counted than was there on 2025-10-31"])
    self.assertIsNone(asked["Saffron", "the same count twice on 2025-10-31"])
    self.book = self.path("gone.croustade")
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
                       counts=TABLES["counts"] + "2025-09-30,Saffron,1,g\n")
    self.assertIsNone(asked["Saffron", "not counted on 2025-10-31"])
    # What was bought meanwhile for 40 is known, at the close and where it opens, open or closed.
    self.book = self.path("bought.croustade")
    asked = self.asked(ingredients=TABLES["ingredients"] + "Saffron,Dry goods,g\n",
                       counts=TABLES["counts"] + "2025-09-30,Saffron,1,g\n",
                       purchases=TABLES["purchases"] + "2025-10-05,The market,3,Saffron,food,5,g,40\n")
    self.assertEqual(asked["Saffron", "not counted on 2025-10-31"], 40)
    for _ in ("open", "closed"):
      self.assertIn(("Saffron", -40), [(row["about"], row["explains"]) for row in self.month("2025-11")["questions"]])
      call("close", self.book, "2025-10")

  def test_a_stock_entered_as_one_sum_beside_a_count(self):
    """The count is worth 14.20 (Statement.test_of_a_small_book)."""
    asks = "the stock is entered as one sum and counted on 2025-10-31: "
    saffron = {"ingredients": TABLES["ingredients"] + "Saffron,Dry goods,g\n",
               "counts": TABLES["counts"] + "2025-10-31,Saffron,3,g\n"}
    none = {**saffron, "counts": saffron["counts"].replace("Saffron,3", "Saffron,0")}
    only = {**saffron, "counts": "date,item,amount,unit\n2025-10-31,Saffron,3,g\n"}
    for entered, tables, what, explains, words in (
        ("10", {}, "10.00 entered, 14.20 counted, 4.20 difference", 4.2, "is worth 14.20: a difference of 4.20."),
        ("20", {}, "20.00 entered, 14.20 counted, 5.80 difference", -5.8, "is worth 14.20: a difference of 5.80."),
        ("10", none, "10.00 entered, 14.20 counted, 4.20 difference", 4.2, "is worth 14.20: a difference of 4.20."),
        ("14.2", {}, None, None, None),
        ("10", saffron, "10.00 entered, at least 14.20 counted, at least 4.20 difference", None,
         "is worth at least 14.20: a difference of at least 4.20."),
        ("20", saffron, "20.00 entered, at least 14.20 counted", None, "is worth at least 14.20. Which"),
        ("20", only, "20.00 entered", None, "and was counted too, with no price known. Which")):
      self.book = self.path(f"{entered}-{len(tables)}-{words}.croustade")
      asked = self.asked(months=f"month,closing_stock_value\n2025-10,{entered}\n", **tables)
      stock = {asked_of: money for asked_of, money in asked.items() if asked_of[0] == "stock"}
      self.assertEqual([what_is for _, what_is in stock], [asks + what] if what else [])
      self.assertEqual([money and round(money, 9) for money in stock.values()], [explains] if what else [])
      if words:
        for _ in ("open", "closed"):
          self.assertIn(words, " ".join(call("month", self.book, "2025-10").stdout.split()))
          done = call("close", self.book, "2025-10")
          self.assertTrue(done.returncode == 2 or words in " ".join(done.stdout.split()), done.stdout)

  def test_a_till_that_says_its_total_with_tax_alone(self):
    """18 tarts at 11, 10 Tides at 22, and with their tax of 10 % a refund of 5 and wine of 90: 511.50."""
    months = "month,till_gross_revenue\n2025-10,"
    for number, (total, asked, note) in enumerate((
        ("511.5", [], "sales with tax 511.50: agrees"),
        ("500", [("till", "sales with tax differ by 11.50")], "sales with tax 511.50: +11.50 "
         "difference; sold without a plate: 90.00 net, at the tax of the book (0 where none is set)"))):
      self.book = self.path(f"{number}.croustade")
      self.load(months=months + total + "\n")
      for status in (None, 0):
        if status is not None:
          self.assertEqual(call("close", self.book, "2025-10").returncode, status)
        month = self.month()
        self.assertMoney(month["sales_with_tax"], 511.5)
        self.assertEqual((month["till"], month["till_with_tax"]), (None, float(total)))
        self.assertEqual([(row["about"], row["what"]) for row in month["questions"] if row["about"] == "till"], asked)
        says = " ".join(call("month", self.book, "2025-10").stdout.split())
        self.assertIn(f"till, with tax {float(total):.2f} {note}", says)
        self.assertIs("sales with tax are not the till’s: +11.50 difference" in says, bool(asked))
    self.book = self.path("unpriced.croustade")
    self.load(months=months + "500\n", plates=TABLES["plates"] + "Broth,Starter,1,\n",
              sales=TABLES["sales"] + "2025-10-22,plate,Broth,2,\n")
    self.assertIn("sales with tax are not known of all that was sold",
                  " ".join(call("month", self.book, "2025-10").stdout.split()))
    self.assertIsNone(self.month()["sales_with_tax"])

  def test_a_till_with_less_tax_than_none(self):
    asks = ("till", "the total with tax is below the one without by 65.00")
    for net, gross, is_asked in ((465, 400, True), (465, 465, False), (465, 511.5, False)):
      self.book = self.path(f"{gross}.croustade")
      asked = self.asked(months=f"month,till_net_revenue,till_gross_revenue\n2025-10,{net},{gross}\n")
      self.assertEqual(asks in asked, is_asked)
    self.book = self.path("alone.croustade")
    self.assertNotIn(asks, self.asked(months="month,till_gross_revenue\n2025-10,400\n"))

  def test_none_costs_nothing_whatever_it_costs(self):
    """Saffron and Broth have no price: what was taken back, and what was neither there nor bought nor left, is 0."""
    none = "2025-10-20,plate,Broth,2,\n2025-10-20,plate,Broth,-2,\n"
    tables = {
      "ingredients": TABLES["ingredients"] + "Saffron,Dry goods,g\n",
      "plates": TABLES["plates"] + "Broth,Starter,1,\n", "lines": TABLES["lines"] + "plate,Broth,1,Saffron,1,g\n",
      "counts": TABLES["counts"] + "2025-10-31,Saffron,0,g\n",
      "adjustments": TABLES["adjustments"] + "2025-10-12,staff-meal,Saffron,0,g,,\n"}
    self.load(**tables, sales=TABLES["sales"].replace("2025-10-21", none + "2025-10-21"))
    done, month = call("month", self.book, "2025-10"), self.month()
    self.assertNotRegex(done.stdout, "[≥≤?] ?[0-9]")
    self.assertEqual([row["actual_known"] for row in month["ingredients"] if row["name"] == "Saffron"], ["whole"])
    self.assertEqual({row["net_revenue_known"] for row in month["things"]}, {"whole"})
    # It is missing all the same, as what a row lacks.
    self.assertEqual((done.returncode, month["missing"]), (1, ["price Saffron", "selling Broth"]))
    # One of two days, which may have had two prices, is no such thing.
    self.book = self.path("days.croustade")
    apart = none.replace("20,plate,Broth,-2", "22,plate,Broth,-2")
    self.load(**tables, sales=TABLES["sales"] + apart)
    self.assertRegex(call("month", self.book, "2025-10").stdout, r"Net sales +\? 465\.00")

  def test_what_a_batch_without_an_amount_takes_is_more_than_is_counted(self):
    """Melted leek, of leek and cream, gives nobody knows how much: it cannot be weighed either, as Cream has no
    density. All of its ingredients are marked, not Cream alone; Egg is in no batch."""
    outputs = TABLES["outputs"].replace("lost_pct", "yield_pct")
    for i, output in enumerate((outputs.replace("500,g,20", ",g,"), outputs.replace("500,g,20", ",g,60"))):
      self.book = self.path(f"{i}.croustade")
      self.load(outputs=output, lines=TABLES["lines"] + "preparation,Melted leek,2,Cream,100,ml\n",
                counts=TABLES["counts"] + "2025-09-30,Melted leek,100,g\n")
      self.backdate("2025-09-01")
      month = self.month()
      known = {row["name"]: [row[f"{of}_known"] for of in ("theoretical", "variance", "counted")]
               for row in month["ingredients"]}
      self.assertEqual(known, {"Leek": ["nothing", "in-part", "at-least"], "Cream": ["at-least", "in-part", "at-least"],
                               "Egg": ["whole", "whole", "whole"]})
      self.assertEqual(month["stock_control"]["known"], "at-least")
      text = call("month", self.book, "2025-10").stdout
      self.assertRegex(text, r"(?m)^Leek +\? +\? +\? \S+\n(.*\n)*^Total +\? \S+ +\? \S+ +\? \S+$")
      self.assertRegex(text, r"(?m)^Vegetables +\? +.*\n(.*\n)*^Total +≥ \S+ ")

  def test_what_comes_of_a_batch_that_cannot_be_counted(self):
    """Leek tops, at 2 a kg, come of the stock that tarts take, and melted leek, of which nobody knows how much is
    made; water, which goes into both, is 0 however much of it that is."""
    lines = TABLES["lines"] + "preparation,Melted leek,2,Stock,100,g\npreparation,Stock,1,Leek,1,kg\n"
    lines += "plate,Leek tart,3,Stock,500,g\nplate,Leek tart,4,Water,1,l\npreparation,Melted leek,3,Water,1,l\n"
    head = "item,preparation,role,amount,unit,value\n"
    for amount, value, mark, known, moved in (("500", "2", "", "whole", "whole"),
                                              ("", "2", r"\? ", "in-part", "in-part"),
                                              ("500", "", None, None, "nothing")):
      self.book = self.path(f"{amount}-{value}.croustade")
      self.load(preparations="name,by_products\nMelted leek,\nStock,credit\n", lines=lines,
                ingredients=TABLES["ingredients"] + "Water,,ml\n",
                offers=TABLES["offers"] + "Water,The market,1,1,l\n",
                prices=TABLES["prices"] + "Water,The market,2025-01-01,0\n",
                sales=TABLES["sales"] + "2025-09-10,plate,Leek tart,10,\n",
                outputs=f"{head}Melted leek,Melted leek,main,{amount},g,\nStock,Stock,main,2,kg,\n"
                        f"Leek tops,Stock,by-product,0.1,kg,{value}\n")
      done = call("month", self.book, "2025-10")
      self.assertEqual([of["known"] for of in self.month()["by_products"]], [known] * (known is not None))
      if known is not None:
        self.assertRegex(done.stdout, rf"(?m)^by-product: Leek tops +{mark}[−0-9.]+$")
      for month in ("2025-09", "2025-10"):
        call("close", self.book, month)
      bridge = json.loads(call("month", self.book, "2025-10", "--against", "2025-09", "--json").stdout)
      rows = {row["name"]: row["known"] for row in bridge["ingredients"]}
      self.assertEqual((rows["Leek tops"], rows["Water"], rows["Egg"]), (moved, "whole", "whole"))

  def test_what_was_taken_back_without_a_price_leaves_less(self):
    """Two Broths taken back leave at most what the others took; of a cost below 0 more sales leave a part nearer 0."""
    tables = {"plates": TABLES["plates"] + "Broth,Starter,1,\n",
              "lines": TABLES["lines"] + "plate,Broth,1,Egg,1,each\n"}
    self.load(**tables, sales=TABLES["sales"] + "2025-10-22,plate,Broth,-2,\n")
    for _ in ("open", "closed"):
      text = call("month", self.book, "2025-10").stdout
      self.assertRegex(text, r"Net sales +≤ 465\.00\n")
      self.assertRegex(text, r"(?m)^Starter .* ≤ ")
      call("close", self.book, "2025-10")
    self.book = self.path("below.croustade")
    self.load(**tables, sales=TABLES["sales"] + "2025-10-22,plate,Broth,2,\n",
              counts=TABLES["counts"].replace("31,Egg,18", "31,Egg,1800"))
    self.assertRegex(call("month", self.book, "2025-10").stdout, "Actual food cost +−[0-9.]+ +≥ −[0-9.]+\u00a0%")

  def test_a_unit_that_explains(self):
    # 28 tarts of 50 ml and 10 custards of 100 ml take 2.4 l: 1.6 l of 4 l are left, not 1.6 ml.
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,1.6,ml")
    asked = self.asked(counts=counts)
    about = "Cream", "the amount would explain in another unit on 2025-10-31: l"
    self.assertIn(about, asked)
    self.assertAlmostEqual(asked[about], 9.6, delta=0.1)

  def test_what_another_unit_takes_off_is_of_its_row(self):
    """A purchase costs what was paid, whatever its amount; a stock counts at the value of its day."""
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,1.6,l")
    about = "Cream", "the amount would explain in another unit on {}: l"
    asked = self.asked(counts=counts, purchases=TABLES["purchases"].replace("Cream,food,2,l", "Cream,food,2,ml"))
    self.assertIsNone(asked[about[0], about[1].format("2025-10-09")])
    self.book = self.path("opening.croustade")
    asked = self.asked(counts=counts.replace("2025-09-30,Cream,2,l", "2025-09-30,Cream,2,ml"),
                       prices=TABLES["prices"] + "Cream,The market,2025-10-02,12\n")
    self.assertAlmostEqual(asked[about[0], about[1].format("2025-09-30")], -1.998 * 6, places=6)

  def test_what_brought_no_goods_is_not_counted(self):
    """A credit of price alone, and what went back."""
    for back in ("0,g,-5", "-10,g,-5"):
      self.book = self.path(f"{back}.croustade")
      asked = self.asked(ingredients=TABLES["ingredients"] + "Bay,Herbs,g\n",
                         purchases=TABLES["purchases"] + f"2025-10-20,The market,3,Bay,food,{back}\n")
      self.assertFalse([about for about, _ in asked if about == "Bay"])
      self.assertNotIn("Bay", str(self.month("2025-11")["questions"]))

  def test_a_unit_that_nobody_writes(self):
    # 3.38 US pints are the 1.6 l that are left, but the house has none.
    counts = TABLES["counts"].replace("2025-10-31,Cream,1,l", "2025-10-31,Cream,3.38,l")
    self.assertFalse([what for _, what in self.asked(counts=counts) if "another unit" in what])


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

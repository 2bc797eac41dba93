#!/usr/bin/env python3
"""croustade-cli plan: what is asked, what is answered, what is refused.

    test-cli-plan.py CROUSTADE-CLI DEMO-FOLDER

Figures are held to exact fractions by the oracle; here a few are worked by hand.
"""

import json
import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import unicodedata
import unittest
import zipfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "workbook"))
import xlsx  # noqa: E402

CLI = DEMO = ""

# Two plates of one preparation that is made in halves, and one supplier with terms. A batch of
# leek takes 1 kg and gives 500 g.
TABLES = {
  "book": "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\nwage_per_hour,18\n",
  "ingredients": "name,unit,density_g_per_ml\nLeek,g,\nCream,ml,\nSalt = fine,g,\n",
  "suppliers": "name,minimum_order,delivery_charge\nThe market,40,4.5\n",
  "offers": "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
            "Leek,The market,L,1,3,kg\nSalt = fine,The market,,1,1,kg\n",
  "prices": "ingredient,supplier,code,from,price\nLeek,The market,L,2026-01-01,9\n"
            "Leek,The market,L,2026-06-01,12\nSalt = fine,The market,,2026-01-01,1\n",
  "preparations": "name,smallest_part,active_minutes\nMelted leek,0.5,30\n",
  "outputs": "item,preparation,role,amount,unit\nMelted leek,Melted leek,main,500,g\n",
  "plates": "name,makes\nLeek bite,10\nSoup=hot,1\n",
  "menus": "name,price\nTide,50\n",
  "menu_plates": "menu,plate,servings\nTide,Leek bite,2\n",
  "lines": "into,parent,position,item,amount,unit\n"
           "preparation,Melted leek,1,Leek,1,kg\n"
           "plate,Leek bite,1,Melted leek,100,g\nplate,Leek bite,2,Salt = fine,10,g\n"
           "plate,Soup=hot,1,Melted leek,200,g\nplate,Soup=hot,2,Cream,100,ml\n",
  "services": "date,service,name,covers\n2026-03-14,dinner,Tide,20\n2026-07-01,dinner,Tide,20\n"
              "2026-03-15,dinner,Soup=hot,0\n",
  "service_stock": "date,service,item,amount,unit\n2026-03-14,dinner,Melted leek,150,g\n",
}


def call(*arguments, preexec_fn=None, **environment):
  return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                        preexec_fn=preexec_fn, restore_signals=preexec_fn is None,
                        env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "", **environment})


def sheets_of(path):
  with zipfile.ZipFile(path) as package:
    text = package.read("xl/workbook.xml").decode("utf-8")
  return [part.split('"')[0] for part in text.split('<sheet name="')[1:]]


class Plans(unittest.TestCase):
  maxDiff = None

  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.folder = folder.name
    self.book = self.load(TABLES)

  def load(self, tables, name="book"):
    folder, book = (os.path.join(self.folder, name + end) for end in ("", ".croustade"))
    os.mkdir(folder)
    for table, text in tables.items():
      with open(os.path.join(folder, table + ".csv"), "w", encoding="utf-8") as file:
        file.write(text)
    self.assertEqual(call("load", book, folder).stderr, "")
    return book

  def plan(self, status, *arguments, **environment):
    done = call("plan", self.book, *arguments, **environment)
    self.assertEqual(done.returncode, status, done.stdout + done.stderr)
    return done

  def figures(self, status, *arguments, **environment):
    return json.loads(self.plan(status, *arguments, "--json", **environment).stdout)

  def refused(self, *arguments, says):
    done = self.plan(2, *arguments)
    self.assertEqual(done.stdout, "", "a refusal gives no result")
    self.assertIn(says, done.stderr)

  def test_a_menu_is_planned(self):
    # 20 guests, two servings of a bite each: four times ten bites, 400 g of leek: 0.8 batches.
    plan = self.figures(0, "--covers", "Tide=20", "--on", "2026-03-14")
    self.assertEqual(plan["missing"], [])
    leek, = plan["make"]
    self.assertEqual((leek["preparation"], leek["needed_batches"], leek["batches"],
                      leek["minutes"]), ("Melted leek", 0.8, 1, 30))
    self.assertEqual(leek["left"], [{"item": "Melted leek", "unit": "g", "amount": 100,
                                     "cost": 0.6, "known": "whole", "cost_known": "whole"}])
    self.assertEqual([(row["ingredient"], row["supplier"], row["code"], row["unit"], row["needed"],
                       row["packs"], row["cost"], row["left"]) for row in plan["buy"]],
                     [("Leek", "The market", "L", "g", 1000, 1, 9, 2000),
                      ("Salt = fine", "The market", "", "g", 40, 1, 1, 960)])
    self.assertEqual(plan["orders"], [{"supplier": "The market", "cost": 10, "minimum_order": 40,
                                       "short": 30, "delivery_charge": 4.5}])
    self.assertEqual((plan["cost"], plan["on"]), (10, "2026-03-14"))
    self.assertAlmostEqual(plan["theoretical_cost"], 0.8 * 9 / 3 + 0.04, places=12)
    self.assertIsNone(plan["range"], "nobody chooses")

  def test_what_is_in_the_house_is_taken_off(self):
    plan = self.figures(0, "--covers", "Tide=20", "--have", "Melted leek=0.15 kg", "--have",
                        " Salt = fine =1kg")
    leek, = plan["make"]
    self.assertEqual((leek["needed_batches"], leek["batches"]), (0.5, 0.5))
    self.assertEqual([row["ingredient"] for row in plan["buy"]], ["Leek"])
    # As fields have it, whatever the locale; what could be another number is refused.
    for said in ("½ kg", "2 x 250 g", "0,5 kg", "1/2 kg"):
      written = self.figures(0, "--covers", "Tide=20", "--have", f"Leek={said}")
      self.assertEqual(written, self.figures(0, "--covers", "Tide=20", "--have", "Leek=0.5 kg"), said)
    self.refused("--covers", "Tide=20", "--have", "Leek=1,300 kg", says="1,300 kg")
    for said in "20 covers", "20 couverts":
      self.assertEqual(self.figures(0, "--covers", f"Tide={said}"), self.figures(0, "--covers", "Tide=20"), said)
    # A unit by the word that a refusal offers; of what has no weight of one piece that is said.
    plan = self.figures(1, "--covers", "Tide=20", "--have", "Leek=3 pc")
    self.assertEqual(plan["missing"], ["piece Leek"])

  def test_a_service_of_the_book_is_planned_at_its_own_day(self):
    plan = self.figures(0, "--service", "2026-03-14/ dinner")
    self.assertEqual((plan["on"], plan["make"][0]["needed_batches"], plan["buy"][0]["cost"]),
                     ("2026-03-14", 0.5, 9))
    self.assertEqual(self.figures(0, "--service", "2026-07-01/dinner")["buy"][0]["cost"], 12)
    plan = self.figures(0, "--service", "2026-07-01/dinner", "--on", "2026-03-14")
    self.assertEqual((plan["on"], plan["buy"][0]["cost"]), ("2026-03-14", 9))

  def test_nobody_expected_is_nothing_to_do(self):
    plan = self.figures(0, "--service", "2026-03-15/dinner")
    self.assertEqual((plan["make"], plan["buy"], plan["cost"]), ([], [], 0))

  def test_what_is_missing_is_named_and_counted(self):
    done = self.plan(1, "--covers", "Soup=hot=3", "--json")
    plan = json.loads(done.stdout)
    self.assertEqual(plan["missing"], ["price Cream"])
    self.assertIn("Cream", done.stderr)
    cream = plan["buy"][-1]
    self.assertEqual((cream["ingredient"], cream["needed"]), ("Cream", 300))
    self.assertEqual([cream[key] for key in ("supplier", "code", "packs", "cost", "left")],
                     [None] * 5)
    text = self.plan(1, "--covers", "Soup=hot=3").stdout
    self.assertIn("at least", text)
    self.assertIn("300 ml", text)

  def test_what_is_needed_in_an_unknown_amount_stands_there(self):
    """Brine without a density cannot be bought by what a plate weighs of it: not 0, and not left out of the lists; in
    figures for scripts, which know no bounds, it stands among what is missing."""
    self.book = self.load({
      **{name: TABLES[name] for name in ("book", "suppliers")}, "ingredients": "name,unit\nBrine,ml\n",
      "offers": "ingredient,supplier,code,pack_count,pack_size,pack_unit\nBrine,The market,B,1,1,l\n",
      "prices": "ingredient,supplier,code,from,price\nBrine,The market,B,2026-01-01,2\n",
      "lines": "into,parent,position,item,amount,unit\nplate,Toast,1,Brine,10,g\n",
      "plates": "name,makes\nToast,1\n"}, "brine")
    plan = self.figures(1, "--covers", "Toast=4", "--on", "2026-03-14")
    self.assertEqual(plan["buy"], [])
    self.assertEqual((plan["make_not_known"], plan["buy_not_known"]), ([], ["Brine"]))
    self.assertIn("Brine", json.dumps(plan["missing"]))
    text = self.plan(1, "--covers", "Toast=4", "--on", "2026-03-14").stdout
    self.assertRegex(text, r"(?m)^Brine +\? +\? +\? ")
    self.assertNotIn("? 0", text)

  def test_minutes_of_an_unknown_number_of_batches_are_at_least_those_of_the_others(self):
    """A toast takes 2 l of stock of 10 minutes a litre, and brine of 5 minutes a batch by its weight."""
    self.book = self.load({
      **{name: TABLES[name] for name in ("book", "suppliers")}, "ingredients": "name,unit\nLeek,g\nSalt,g\n",
      "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\nLeek,The market,1,1,kg\n",
      "prices": "ingredient,supplier,from,price\nLeek,The market,2026-01-01,2\n",
      "preparations": "name,active_minutes\nStock,10\nBrine,5\n",
      "outputs": "item,preparation,role,amount,unit\nStock,Stock,main,1,l\nBrine,Brine,main,1,l\n",
      "lines": "into,parent,position,item,amount,unit\nplate,Toast,1,Stock,2,l\nplate,Toast,2,Brine,10,g\n"
               "plate,Cup,1,Brine,10,g\npreparation,Stock,1,Leek,1,kg\npreparation,Brine,1,Leek,1,kg\n",
      "plates": "name,makes\nToast,1\nCup,1\n"}, "minutes")
    for asked, minutes, known, shown in (("Toast", 20, "at-least", "≥ 20"), ("Cup", 0, "nothing", r"\?")):
      plan = self.figures(1, "--covers", f"{asked}=1", "--on", "2026-03-14")
      self.assertEqual((plan["minutes"], plan["minutes_known"]), (minutes, known))
      self.assertEqual(plan["make_not_known"], ["Brine"])
      self.assertEqual([make["known"] for make in plan["make"]], ["whole"] * len(plan["make"]))
      text = self.plan(1, "--covers", f"{asked}=1", "--on", "2026-03-14").stdout
      self.assertRegex(text, rf"(?m)^Total +{shown}$")

  def test_what_is_left_of_batches_of_which_there_may_be_more(self):
    """A gel without a finished amount takes more mussels than are known: so much more of their liquor is left. Of a
    broth whose weed has no price there is as much as is told, and it costs at least that."""
    self.book = self.load({
      **{name: TABLES[name] for name in ("book", "suppliers")}, "ingredients": "name,unit\nMussels,g\nWeed,g\n",
      "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\nMussels,The market,1,1,kg\n",
      "prices": "ingredient,supplier,from,price\nMussels,The market,2026-01-01,2\n",
      "preparations": "name,by_products,smallest_part\nOpened,free,\nGel,,\nBroth,,1\n",
      "outputs": "item,preparation,role,amount,unit\nBroth,Broth,main,1,kg\nMeat,Opened,main,1,kg\n"
                 "Liquor,Opened,by-product,800,ml\n"
                 "Gel,Gel,main,,g\n",
      "lines": "into,parent,position,item,amount,unit\npreparation,Opened,1,Mussels,3,kg\n"
               "preparation,Broth,1,Mussels,1,kg\npreparation,Broth,2,Weed,10,g\nplate,Toast,3,Broth,100,g\n"
               "preparation,Gel,1,Meat,300,g\nplate,Toast,1,Meat,100,g\nplate,Toast,2,Liquor,10,ml\n"
               "plate,Cup,1,Gel,20,g\n", "plates": "name,makes\nToast,1\nCup,1\n"}, "mussels")
    covers = ("--covers", "Toast=15", "--covers", "Cup=10", "--on", "2026-03-14")
    left = {row["item"]: (row["known"], row["cost_known"]) for make in self.figures(1, *covers)["make"]
            for row in make["left"]}
    self.assertEqual((left["Liquor"][0], left["Broth"]), ("at-least", ("whole", "at-least")))
    self.assertRegex(self.plan(1, *covers).stdout, r"Liquor: ≥ 1\.2 l, left ≥ 1\.05 l")

  def test_wrong_questions_are_refused(self):
    covers = ("--covers", "Tide=20")
    self.refused(says="--covers")
    self.refused(*covers, "--service", "2026-03-14/dinner", says="--service")
    self.refused("--service", "2026-03-14/dinner", "--have", "Leek=1 kg", says="--have")
    self.refused("--have", "Leek=1 kg", says="--covers")
    for text in ("Tide", "Tide=", "=20", "Tide=-1", "Tide=1e3", "Tide=1,5", "Tide=twenty"):
      self.refused("--covers", text, says=text)
    self.refused("--covers", "Tide=99999999999999", says="“Tide=99999999999999” is too large; the most are 9")
    self.assertIn("not a whole number", self.plan(0, "--covers", "Tide=24.5", "--on", "2026-03-14").stderr)
    self.refused("--covers", "Tide=-3", says="“Tide=-3” is out of range; covers are 0 or more")
    self.refused("--covers", "Tide=1.2345678", says="more than six decimals")
    self.refused(*covers, *covers, says="twice")
    self.refused("--covers", "Leek=20", says="no plate or menu")
    self.refused("--covers", "tide=20", says="Tide")
    for text in ("Leek=1", "Leek=kg", "Leek=1 pinch", "Leek", "Leek=-1 kg", "Leek=1 kg kg"):
      self.refused(*covers, "--have", text, says=text)
    self.refused(*covers, "--have", "Tide=1 kg", says="no ingredient or preparation")
    self.refused(*covers, "--have", "Leek=1 kg", "--have", "Leek=2 kg", says="twice")
    self.refused(*covers, "--on", "tomorrow", says="tomorrow")
    for text in ("dinner", "2026-03-14", "2026-03-14/", "2026-03-14/ "):
      self.refused("--service", text, says=f"“{text}” is not a service (DATE/NAME")
    # As every option that takes a date says it.
    for day in ("2026-02-30", "14.3.2026", ""):
      self.refused("--service", f"{day}/dinner", says=f"“{day}” is not a date (YYYY-MM-DD, years")
    self.refused("--service", "2026-03-14/brunch", says="brunch")

  def test_a_bar_code_is_asked_about(self):
    # 4006381333931 is a sound GTIN-13 by the check digit of the GS1 General Specifications.
    for text, is_asked in (("4006381333931", True), ("4006381333932", False), ("4006381333931.5", False),
                           ("20", False)):
      done = call("plan", self.book, "--covers", f"Tide={text}")
      self.assertEqual(f"“Tide={text}”: is that a bar code?" in done.stderr, is_asked, done.stderr)
      self.assertIn("Tide", done.stdout)
    done = call("plan", self.book, "--covers", "Tide=20", "--have", "Leek=4006381333931 g")
    self.assertIn("“Leek=4006381333931 g”: is that a bar code?", done.stderr)

  def test_numbers_too_large_are_refused(self):
    rows = {"preparations": "name\n", "outputs": "item,preparation,role,amount,unit\n",
            "lines": "into,parent,position,item,amount,unit\nplate,Whole,1,P29,9000000000000,kg\n"
                     "preparation,P0,1,Leek,9000000000000,kg\n"}
    for n in range(30):
      rows["preparations"] += f"P{n}\n"
      rows["outputs"] += f"P{n},P{n},main,0.000001,mg\n"
      rows["lines"] += f"preparation,P{n},2,P{n - 1},9000000000000,kg\n" if n else ""
    self.book = self.load({**{name: TABLES[name] for name in ("book", "ingredients")}, **rows,
                           "plates": "name,makes\nWhole,1\n"}, "large")
    self.refused("--covers", "Whole=1000", "--json", says="too large")

  def test_figures_do_not_follow_the_locale_and_nothing_is_changed(self):
    with open(self.book, "rb") as file:
      before = file.read()
    texts = {self.plan(0, "--covers", "Tide=20", "--on", "2026-03-14", "--json",
                       LC_ALL=name).stdout for name in ("C", "C.UTF-8", "fr_FR.UTF-8")}
    self.assertEqual(len(texts), 1)
    with open(self.book, "rb") as file:
      self.assertEqual(before, file.read())

  def test_the_text_names_everything_within_a_terminal(self):
    book = os.path.join(self.folder, "demo.croustade")
    self.assertEqual(call("load", book, DEMO).returncode, 0)
    self.book = book
    asked = ("--covers", "Tide=20", "--covers", "Slack water=8", "--have", "Crab butter=200 g",
             "--on", "2026-11-25")
    text = self.plan(1, *asked).stdout
    plan = self.figures(1, *asked)
    for row in plan["make"]:
      self.assertIn(row["preparation"], text)
    for row in plan["buy"]:
      self.assertIn(row["ingredient"], text)
    for line in text.split("\n"):
      self.assertLessEqual(sum(2 if unicodedata.east_asian_width(c) in "WF" else 1
                               for c in line), 80, line)

  def test_parts_of_the_sums_add_up(self):
    self.book = os.path.join(self.folder, "demo.croustade")
    self.assertEqual(call("load", self.book, DEMO).returncode, 0)
    plan = self.figures(1, "--covers", "Tide=20", "--on", "2026-11-25")
    self.assertAlmostEqual(sum(row["cost"] or 0 for row in plan["buy"]), plan["cost"], places=9)
    self.assertAlmostEqual(sum(row["cost"] for row in plan["orders"]), plan["cost"], places=9)
    self.assertAlmostEqual(sum(row["minutes"] for row in plan["make"]), plan["minutes"], places=9)

  def test_orders_are_texts_to_send(self):
    done = self.plan(0, "--service", "2026-03-14/dinner", "--orders")
    # It is no text for the supplier.
    self.assertEqual(done.stderr, "plan: The market: minimum order 40.00: 30.00 short\n")
    text = done.stdout
    self.assertEqual(text, "The market\nOrder for: dinner, 2026-03-14\n"
                           "1 × Leek, 1 × 3 kg, code L\n1 × Salt = fine, 1 × 1 kg\n")
    # 12 for 3 kg as a bill says it: 4 for a kilogram, by which nobody orders.
    bill = TABLES["prices"].replace("Leek,The market,L,2026-06-01,12\n", "Leek,The market,L,2026-06-01,4,1,1,kg\n")
    bill = "".join(line + (",,,\n" if line.count(",") == 4 else "\n") for line in bill.splitlines())
    bill = bill.replace("price,,,", "price,pack_count,pack_size,pack_unit")
    self.book = self.load({**TABLES, "prices": bill}, "bill")
    self.assertIn("\n1 × Leek, 1 × 3 kg, code L\n", self.plan(0, "--service", "2026-07-01/dinner", "--orders").stdout)
    self.assertEqual([row["packs"] for row in self.figures(0, "--service", "2026-07-01/dinner")["buy"]], [1, 1])
    # What is in no order is told behind them: a cream that nobody sells, and salt of the house's own pans.
    tables = {**TABLES,
              "prices": TABLES["prices"].replace("fine,The market,,2026-01-01,1", "fine,Own pans,,2026-01-01,0"),
              "offers": TABLES["offers"].replace("fine,The market", "fine,Own pans"),
              "suppliers": TABLES["suppliers"] + "Own pans,,\n"}
    self.book = self.load(tables, "own")
    text = self.plan(1, "--covers", "Soup=hot=3", "--covers", "Leek bite=3", "--orders").stdout
    self.assertEqual(text, "The market\n1 × Leek, 1 × 3 kg, code L\n\nNo pack to order: Cream, 300 ml\n"
                           "No order, costs nothing (Own pans): 1 × Salt = fine, 1 × 1 kg\n")
    text = self.plan(1, "--covers", "Soup=hot=3", "--covers", "Leek bite=3").stdout
    self.assertEqual(text.count("No order: these packs cost nothing"), 1)

  def test_sheets_say_what_the_plan_does(self):
    path = os.path.join(self.folder, "service.xlsx")
    done = self.plan(0, "--service", "2026-03-14/dinner", "-o", path)
    self.assertEqual(done.stdout, "")
    self.assertEqual(sheets_of(path), ["Mise en place", "The market"])
    book = xlsx.Book(path)

    def row(sheet, number):
      return [book.at(sheet, f"{column}{number}").value for column in "BCDEFGHI"]
    self.assertEqual(row("Mise en place", 5), ["Melted leek", 0.5, 0.5, None, None, 15, None, None])
    self.assertEqual(row("Mise en place", 6)[:5], ["Leek", None, None, 500, "g"])
    self.assertEqual(row("Mise en place", 7)[:5], ["= Melted leek", None, None, 250, "g"])
    self.assertEqual(row("The market", 5)[:7], [1, "Leek", "1 × 3 kg", "L", 9, 500, "g"])
    self.assertEqual(row("The market", 6)[:5], [1, "Salt = fine", "1 × 1 kg", None, 1])
    self.assertEqual([row("The market", n)[1:5:3] for n in (7, 8, 9, 10)],
                     [["Total", 10], ["Minimum order", 40], ["Short of the minimum order", 30],
                      ["Delivery charge, not in the total", 4.5]])

  def test_what_is_missing_has_a_sheet_and_marks(self):
    path = os.path.join(self.folder, "service.xlsx")
    self.plan(1, "--covers", "Soup=hot=3", "-o", path)
    book = xlsx.Book(path)
    self.assertEqual(sheets_of(path), ["Mise en place", "The market", "Missing"])
    self.assertEqual([book.at("Missing", f"A{n}").value for n in (4, 5)],
                     ["no price for Cream", "Cream: no pack to order, needed 300 ml"])

  def test_sheets_are_the_same_bytes_everywhere(self):
    files = []
    for name in ("C", "fr_FR.UTF-8", "C.UTF-8"):
      path = os.path.join(self.folder, f"{name}.xlsx")
      self.plan(0, "--service", "2026-03-14/dinner", "-o", path, LC_ALL=name)
      with open(path, "rb") as file:
        files.append(file.read())
    self.assertEqual(files[0], files[1])
    self.assertEqual(files[0], files[2])

  def test_a_dash_is_standard_output(self):
    path = os.path.join(self.folder, "service.xlsx")
    asked = (CLI, "plan", self.book, "--service", "2026-03-14/dinner", "-o")
    subprocess.run([*asked, path], check=True)
    sent = subprocess.run([*asked, "-"], check=True, capture_output=True, cwd=self.folder,
                          env={**os.environ, "TMPDIR": self.folder})
    with open(path, "rb") as file:
      self.assertEqual(sent.stdout, file.read())
    self.assertEqual([name for name in os.listdir(self.folder) if not name.startswith("book")],
                     ["service.xlsx"], "nothing is left beside it")

  def test_what_stands_there_stands_until_the_new_file_is_whole(self):
    folder = os.path.join(self.folder, "sheets")
    os.mkdir(folder)
    path = os.path.join(folder, "service.xlsx")
    asked = ("--service", "2026-03-14/dinner", "-o")
    with open(path, "wb") as file:
      file.write(b"old")

    def full():
      resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
    done = call("plan", self.book, *asked, path, preexec_fn=full)
    self.assertEqual(done.returncode, 3, done.stderr)
    with open(path, "rb") as file:
      self.assertEqual(file.read(), b"old")
    self.assertEqual(os.listdir(folder), ["service.xlsx"])
    self.refused(*asked, self.book, says="the book itself")
    self.refused(*asked, path, "--json", says="-o")
    self.refused(*asked, path, "--language", "tlh", says="tlh")
    self.refused(*asked, self.folder, says="folder")


if __name__ == "__main__":
  CLI, DEMO = map(os.path.abspath, sys.argv[1:3])
  unittest.main(argv=sys.argv[:1], verbosity=2)

#!/usr/bin/env python3
"""Cards on paper say what `cost --json` says, and what to weigh.

    test-cli-cards.py CROUSTADE-CLI DEMO-FOLDER

Skipped where the reader of PDF files (pdftotext, pdfinfo) is not there.
"""

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

CLI = DEMO = ""
DAY = "2026-11-28"
CRAB = "Crab croustade"


def cli(*arguments, **environment):
  return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8",
                        env=dict(os.environ, **environment))


def text_of(path, *options):
  return subprocess.run(["pdftotext", *(options or ("-layout",)), path, "-"], check=True,
                        capture_output=True, encoding="utf-8").stdout


def info_of(path):
  lines = subprocess.run(["pdfinfo", path], check=True, capture_output=True,
                         encoding="utf-8").stdout.splitlines()
  return {key: value.strip() for key, _, value in (line.partition(":") for line in lines)}


class Cards(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    cls.home = tempfile.TemporaryDirectory()
    cls.book = os.path.join(cls.home.name, "b.croustade")
    assert cli("load", cls.book, DEMO).returncode == 0
    cls.costs = json.loads(cli("cost", cls.book, "--on", DAY, "--json").stdout)

  @classmethod
  def tearDownClass(cls):
    cls.home.cleanup()

  def path(self, name):
    return os.path.join(self.home.name, name)

  def card(self, *arguments, status=None, name="card.pdf"):
    done = cli("card", self.book, "--on", DAY, "-o", self.path(name), *arguments)
    if status is not None:
      self.assertEqual(done.returncode, status, done.stderr)
    return text_of(self.path(name))

  def figure(self, kind, name):
    return next(one for one in self.costs[kind] if one["name"] == name)

  # --- The cost card -------------------------------------------------------------------------

  def test_figures_are_those_of_cost(self):
    card = self.card("--plate", CRAB, status=1)
    crab, tide = self.figure("plates", CRAB), self.figure("menus", "Tide")
    self.assertIn(f"at least {crab['cost_per_guest']:.2f}", card)
    self.assertIn(f"at least {crab['cost_per_guest'] + crab['labour_per_guest']:.2f}", card)
    self.assertIn(f"at least {tide['food_cost_pct']:.1f} %", card)
    self.assertIn("Incomplete: no price for Sea purslane", card)
    for allergen in crab["allergens"]:
      self.assertIn(allergen, card)
    self.assertIn("It is no “free from” claim", card)

  def test_costs_add_up(self):
    """Rows of depth 0 are those with a share, and what is not known; they add up to the total."""
    for plate in self.costs["plates"]:
      card = self.card("--plate", plate["name"])
      body = card[card.index("Made of, for"):]
      tops = [float(cost) for cost in re.findall(r"(\d+\.\d\d) +(?:≤ )?[\d.]+ %$", body, re.M)]
      total = re.search(r"^Total\b.*?(\d+\.\d\d)$", body, re.M)
      self.assertAlmostEqual(sum(tops), float(total[1]), places=6, msg=plate["name"])

  def test_whole_cards_end_with_0(self):
    self.card("--plate", "Brown crab on toast", status=0)
    card = self.card("--preparation", "Crab butter", status=0)
    self.assertIn("A batch gives:", card)
    self.assertIn("Made of, for one batch", card)

  def test_menus_are_their_plates(self):
    card = self.card("--menu", "Tide", status=1)
    tide = self.figure("menus", "Tide")
    self.assertIn(f"at least {tide['cost_per_guest']:.2f}", card)
    body = card[card.index("Made of, per guest"):]
    rows = re.findall(r"(\d+\.\d\d) +(?:at most |\? )?[\d.]+ %$", body, re.M)
    self.assertAlmostEqual(sum(map(float, rows)), round(tide["cost_per_guest"], 2), places=6)

  def test_bands_say_that_they_include_seasoning(self):
    self.assertRegex(self.card("--plate", CRAB), r"Bands include seasoning and handling, 3(\.0)?\s%\.")

  # --- The kitchen card ----------------------------------------------------------------------

  def test_kitchen_card_is_scaled(self):
    once, twice = (self.card("--plate", CRAB, "--kitchen", "--bites", n) for n in ("24", "48"))
    # By hand from the tables: 10 g a bite of dressed white crab, 7.5 g of brown crab cream.
    self.assertRegex(once, r"Dressed white crab +240 g")
    self.assertRegex(twice, r"Dressed white crab +480 g")
    self.assertRegex(twice, r"Brown crab cream +360 g")
    self.assertIn("Brown crab 1.789 kg", twice.replace("\u00a0", " "))
    self.assertIn("Sea purslane 48 g (no price)", twice.replace("\u00a0", " "))

  def test_a_bite_is_what_scales_weigh(self):
    """60 bites of 7.5 g are the 450 g of the batch: a bite under 10 g is weighed in quarters of one."""
    bite = self.card("--plate", CRAB, "--kitchen").replace("\u00a0", " ")
    bite = " ".join(bite[bite.index("To the bite"):].split())
    self.assertIn("Brown crab cream 7.5 g", bite)
    self.assertIn("Dill 0.75 g", bite)

  def test_an_oil_that_comes_back_is_ordered_as_its_batch_takes_it(self):
    """60 cups are 1.25 batches of 48, each fried in 1.5 l: 1.875 l stand in the batch and in the order."""
    card = self.card("--plate", CRAB, "--kitchen", "--bites", "60").replace("\u00a0", " ")
    self.assertEqual(re.findall(r"Rapeseed oil +([\d.]+ m?l)", card), ["1.875 l"] * 2)

  def test_amounts_are_what_scales_weigh(self):
    for plate in self.costs["plates"]:
      card = self.card("--plate", plate["name"], "--kitchen", "--bites", "37")
      body = card[card.index("To the bite"):]
      body = body[body.index("\n", body.index("\n\n")):] if "\n\n" in body else body
      for number, unit in re.findall(r" ([\d.]+) (g|ml)$", body, re.M):
        amount = float(number)
        digits = 0 if amount >= 25 else 1 if amount >= 2.5 else 2 if amount >= 0.25 else 3
        self.assertEqual(amount, round(amount, digits), f"{plate['name']}: {number} {unit}")

  def test_pieces_are_what_a_cook_can_take(self):
    """Quarters that are no less than what is needed; what they do not make is weighed where a piece has a
    weight: 1.7 eggs of 60 g are 102 g."""
    self.assertRegex(self.card("--plate", CRAB, "--kitchen", "--bites", "30"), r"Egg +102 g")
    self.assertRegex(self.card("--plate", CRAB, "--kitchen", "--bites", "1"), r"Egg +3\.4 g")
    for bites in "1", "7", "30":
      card = self.card("--plate", CRAB, "--kitchen", "--bites", bites)
      body = card[card.index("To the bite"):]
      for number, unit in re.findall(r" {2,}([\d.]+) (pc|tbsp|tsp|US tbsp)$", body, re.M):
        self.assertEqual(float(number) * 4 % 1, 0, f"{bites}: {number} {unit}")
        self.assertGreaterEqual(float(number), 0.25)

  def test_preparations_stand_in_the_order_of_making(self):
    self.card("--plate", CRAB, "--kitchen")
    text = text_of(self.path("card.pdf"), "-raw")
    self.assertLess(text.index("also gives Crab shells"), text.index("\nCrab butter "),
                    "the butter is made of the shells")
    # By the name that what follows takes it by; what is called as its preparation is named once.
    picked = text[text.index("Brown crab, cooked"):text.index("\nCrab butter ")].replace("\u00a0", " ")
    self.assertRegex(" ".join(picked.split()), r"picked ([\d.]+ k?g) .* gives White crab meat \1 also gives ")
    self.assertNotIn("gives Crab butter", text)

  def test_no_money_unless_asked(self):
    plain = self.card("--plate", CRAB, "--kitchen")
    with_money = self.card("--plate", CRAB, "--kitchen", "--money")
    self.assertNotRegex(plain, r"(?m)\d\.\d\d$|Food cost")
    self.assertIn("Food cost per guest: at least 0.84", with_money)
    self.assertGreater(len(re.findall(r"· (?:at least )?\d+\.\d\d$", with_money, re.M)), 3)

  def test_no_preparation_is_split(self):
    """Each heading stands on the page of all its lines: 60 bites to 6,000, on both papers."""
    for paper in "a4", "letter":
      self.card("--plate", CRAB, "--kitchen", "--bites", "6000", "--paper", paper)
      pages = text_of(self.path("card.pdf")).split("\f")
      page = next(p for p in pages if re.search(r"Crab butter +\d", p) and "Tomato paste" in p)
      for line in "Butter, unsalted", "Crab shells", "Tomato paste", "Shallot", "Brandy":
        self.assertIn(line, page)

  # --- Paper ---------------------------------------------------------------------------------

  def test_sizes_titles_and_pages(self):
    for paper, size in ("a4", "595.276 x 841.89 pts (A4)"), ("letter", "612 x 792 pts (letter)"):
      card = self.card("--plate", CRAB, "--paper", paper)
      self.assertIn(f"Cost card · prices of {DAY}", card)
      info = info_of(self.path("card.pdf"))
      self.assertEqual(info["Page size"], size)
      self.assertEqual(info["Title"], CRAB)
      self.assertRegex(card, f"{info['Pages']} ?/ ?{info['Pages']}")

  def test_folder(self):
    folder = self.path("cards")
    self.assertEqual(cli("card", self.book, "--all", "-o", folder).returncode, 1)
    names = os.listdir(folder)
    self.assertIn(f"{CRAB}, cost card.pdf", names)
    self.assertIn("Tide, cost card.pdf", names)
    self.assertIn("Crab butter, cost card.pdf", names)
    self.assertFalse([name for name in names if not name.endswith(".pdf")])

  def test_same_words_in_every_locale(self):
    there, here = self.path("there.pdf"), self.path("here.pdf")
    cli("card", self.book, "--on", DAY, "--plate", CRAB, "-o", there, LC_ALL="fr_FR.UTF-8")
    cli("card", self.book, "--on", DAY, "--plate", CRAB, "-o", here, LC_ALL="C")
    clock = re.compile(r"printed \S+ \S+")
    self.assertEqual(clock.sub("", text_of(there)), clock.sub("", text_of(here)))

  # --- What is refused -----------------------------------------------------------------------

  def test_refusals(self):
    out = self.path("refused.pdf")
    for arguments, said in (
        ((), "nothing to print"),
        (("--plate", "Crab"), "there is no plate"),
        (("--preparation", CRAB), "there is no preparation"),
        (("--plate", CRAB, "--bites", "10"), "--bites goes with --kitchen"),
        (("--plate", CRAB, "--kitchen", "--bites", "0"), "--bites must be"),
        (("--plate", CRAB, "--kitchen", "--bites", "ten"), "--bites must be"),
        (("--plate", CRAB, "--kitchen", "--bites", "-3"), "--bites must be a number above 0"),
        (("--plate", CRAB, "--kitchen", "--bites", "4006381333931"), "--bites must be below 1000000000000\n"),
        (("--plate", CRAB, "--kitchen", "--bites", "1.1234567"), "--bites must have six decimals at most"),
        (("--plate", CRAB, "--paper", "a5"), "--paper must be"),
        (("--plate", CRAB, "--language", "xx"), "No translation into “xx”"),
        (("--plate", CRAB, "--on", "2026-13-01"), "not a date")):
      done = cli("card", self.book, "-o", out, *arguments)
      self.assertEqual(done.returncode, 2, arguments)
      self.assertIn(said, done.stderr)
      self.assertFalse(os.path.exists(out))
    self.assertEqual(cli("card", self.book, "--plate", CRAB).returncode, 2)
    self.assertEqual(cli("card", self.book, "--plate", CRAB, "-o", self.book).returncode, 2)

  def test_a_file_appears_whole_or_not_at_all(self):
    self.assertIn(cli("card", self.book, "--plate", CRAB, "-o", "/nowhere/card.pdf").returncode, (2, 3))
    whole = self.path("whole.pdf")
    with subprocess.Popen([CLI, "card", self.book, "--all", "--kitchen", "-o", whole],
                          stderr=subprocess.PIPE) as process:
      time.sleep(0.15)
      process.send_signal(signal.SIGINT)
      process.communicate()
    # Stopped as it wrote, or before it began; or it was faster.
    self.assertIn(process.returncode, (2, -signal.SIGINT, 1))
    self.assertEqual(os.path.exists(whole), process.returncode == 1)
    self.assertFalse([name for name in os.listdir(self.home.name) if name.startswith(".")])


# A plate over its target even if the butter were free; nobody entered minutes, or allergens of the turbot.
UNTIMED = {
  "book": "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\ntarget_pct,30\n",
  "ingredients": "name,unit,kind,allergens\nTurbot,g,food,\nButter,g,food,none\nOyster,each,food,molluscs\n"
                 "Leaf,each,food,none\nCream,ml,food,milk\n"
                 "Xanthan,g,food,\nSalt,g,food,\nSaffron,g,food,\nAgar,g,food,\n"
                 "Cup,each,disposable,\nLid,each,disposable,\nStick,each,disposable,\n",
  "suppliers": "name\nQuay\n",
  "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\nTurbot,Quay,1,1,kg\nButter,Quay,1,1,kg\n",
  "prices": "ingredient,supplier,from,price\nTurbot,Quay,2026-01-01,30\nButter,Quay,2026-01-01,10\n",
  "preparations": "name,by_products\nGel,\n",
  "outputs": "item,preparation,role,amount,unit\nGel,Gel,main,400,g\n",
  "plates": "name,makes,price,allowance_pct\nTurbot,4,20,2\nLeek,24,,\nTo go,1,,\n",
  "lines": "into,parent,position,item,amount,unit,weighed\nplate,Turbot,1,Turbot,1000,g,whole\n"
           "plate,Turbot,2,Butter,100,g,whole\nplate,Leek,1,Oyster,14,each,whole\n"
           "plate,Leek,2,Leaf,2,dozen,whole\nplate,Leek,3,Cream,200,ml,whole\n"
           "preparation,Gel,1,Xanthan,0.36,g,whole\npreparation,Gel,2,Salt,130,mg,whole\n"
           "preparation,Gel,3,Saffron,1.12,g,whole\npreparation,Gel,4,Agar,7.4,g,whole\n"
           "preparation,Gel,5,Butter,112.5,g,whole\npreparation,Gel,6,Leaf,1.3,each,whole\n"
           "plate,To go,1,Leaf,1,each,whole\nplate,To go,2,Cup,1,each,whole\n"
           "plate,To go,3,Lid,1,each,whole\nplate,To go,4,Stick,1,each,whole\n",
}


class Small(unittest.TestCase):
  """Cards of one plate, or of its batch, of a book of a few rows."""

  tables = {}

  def setUp(self):
    self.home = tempfile.TemporaryDirectory()
    self.addCleanup(self.home.cleanup)
    self.book = os.path.join(self.home.name, "b.croustade")
    for name, text in self.tables.items():
      with open(os.path.join(self.home.name, f"{name}.csv"), "w", encoding="utf-8") as file:
        file.write(text)
    loaded = cli("load", self.book, self.home.name)
    self.assertEqual(loaded.returncode, 0, loaded.stderr)

  def card(self, *arguments, of=("--plate", "Turbot")):
    path = os.path.join(self.home.name, "card.pdf")
    cli("card", self.book, "--on", DAY, *of, "-o", path, *arguments)
    return " ".join(text_of(path, "-raw").split())


class Untimed(Small):
  """What is not there is said, and is no figure."""

  tables = UNTIMED

  def test_what_is_not_there_is_said(self):
    cost = self.card()
    self.assertIn("Butter over even as a gift (Turbot)", cost)
    self.assertNotRegex(cost, r"Butter [−-]")
    self.assertIn("no minutes of work entered", cost)
    self.assertIn("Allergens entered: known for 1 of 2 ingredients, with none of the 14", cost)
    # Disposables have no allergens entered either: they are among those that are counted.
    self.assertIn("Allergens entered: known for 1 of 4 ingredients, with none of the 14",
                  cli("cost", self.book, "--on", DAY, "--plate", "To go").stdout.replace("\n", " "))
    shown = cli("cost", self.book, "--on", DAY, "--plate", "Turbot").stdout
    self.assertRegex(shown, r"(?ms)^Labour +–$.*^no minutes of work entered$")

  def test_what_is_counted_is_pieces_of_a_bite_and_whole_ones_to_order(self):
    """By hand: two dozen leaves for 24 are one each, 14 oysters 14/24; for 26 bites 15.17 are bought as 16."""
    card = self.card("--kitchen", "--bites", "26", of=("--plate", "Leek")).replace("\u00a0", " ")
    self.assertIn("Oyster 0.583 pc · Leaf 1 pc · Cream 8.3 ml", card)
    self.assertIn("Oyster 16 pc", card)

  def test_a_tax_that_is_not_set_is_said(self):
    """20 is the price with a tax that nobody has set: not 20 "without tax"."""
    self.assertIn("20.00 (tax not set: counted as 0)", self.card())
    self.assertIn("tax not set: counted as 0", cli("cost", self.book, "--on", DAY, "--plate", "Turbot").stdout)
    self.assertIn("No tax is set in the book:", cli("cost", self.book, "--on", DAY).stdout)

  def test_what_was_typed_is_printed_as_typed(self):
    """Of one batch; of two and a half what is scaled stays within 2 %: 0.9, 0.325, 2.8, 18.5 and 281.25 g."""
    card = self.card("--kitchen", of=("--preparation", "Gel")).replace("\u00a0", " ")
    for line in "Xanthan 0.36 g", "Salt 0.13 g", "Saffron 1.12 g", "Agar 7.4 g", "Butter 112.5 g", "Leaf 1.3 pc":
      self.assertIn(line, card)
    card = self.card("--kitchen", "--bites", "2.5", of=("--preparation", "Gel")).replace("\u00a0", " ")
    for line in "Xanthan 0.9 g", "Salt 0.33 g", "Saffron 2.8 g", "Agar 18.5 g", "Butter 281 g", "Leaf 3.25 pc":
      self.assertIn(line, card)
    # A quarter of a leaf would be nearly twice a tenth of 1.3.
    card = self.card("--kitchen", "--bites", "0.1", of=("--preparation", "Gel")).replace("\u00a0", " ")
    self.assertIn("Leaf 0.13 pc", card)

  def test_both_sheets_name_what_seasoning_and_handling_adds(self):
    self.assertIn("Without seasoning and handling, 2.0", self.card("--kitchen"))
    plan = cli("plan", self.book, "--covers", "Turbot=4", "--on", DAY).stdout
    self.assertIn("With seasoning and handling, 2\u00a0%", plan)
    self.assertNotRegex(plan, r"(?m)^Total +0$")


class Unrated(Small):
  """What has a price in a currency without a rate is not told as without a price."""

  tables = {**UNTIMED, "offers": "ingredient,supplier,pack_count,pack_size,pack_unit,currency\n"
                                 "Turbot,Quay,1,1,kg,USD\nButter,Quay,1,1,kg,\n"}

  def test_the_rate_is_what_lacks(self):
    shown = cli("cost", self.book, "--on", DAY, "--plate", "Turbot").stdout
    self.assertIn("Turbot: no exchange rate", shown)
    cost = self.card()
    self.assertIn("Turbot 1 kg no exchange rate", cost)
    self.assertIn("no exchange rate)", self.card("--kitchen"))
    self.assertNotIn("no price", shown + cost)


# Eggs of 4.00 a batch, 10 minutes of it at 18 an hour; the whites have no value, and a case holds no minutes.
UNVALUED = {
  "book": "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\ntarget_pct,30\nwage_per_hour,18\n",
  "ingredients": "name,unit,kind,allergens\nEgg,each,food,eggs\nCase,each,disposable,none\n",
  "suppliers": "name\nQuay\n",
  "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\nEgg,Quay,1,1,each\nCase,Quay,1,1,each\n",
  "prices": "ingredient,supplier,from,price\nEgg,Quay,2026-01-01,0.40\nCase,Quay,2026-01-01,0.10\n",
  "preparations": "name,by_products,active_minutes\nCustard,credit,10\n",
  "outputs": "item,preparation,role,amount,unit\nCustard,Custard,main,1000,g\nWhites,Custard,by-product,400,g\n",
  "plates": "name,makes,price\nTartlet,1,20\n",
  "lines": "into,parent,position,item,amount,unit,weighed\npreparation,Custard,1,Egg,10,each,whole\n"
           "plate,Tartlet,1,Custard,250,g,whole\nplate,Tartlet,2,Case,1,each,\n",
}


class Unvalued(Small):
  """A value that lacks leaves open what the main output costs, and not what its batch does."""

  tables = UNVALUED
  batch = ("--preparation", "Custard")

  def test_a_credit_without_a_value_is_no_0(self):
    shown = cli("cost", self.book, "--on", DAY, "--plate", "Tartlet").stdout
    self.assertRegex(shown, r"credited: Whites +100 g +\?\n")
    self.assertIn("Custard: ? 4.00/kg = (4.00 − ? Whites) ÷ 1 kg", shown)
    self.assertRegex(shown, r"Labour +0\.75\nPrime cost \(food and labour\) +\? 1\.75\nDisposables +0\.10\n")
    self.assertIn("credited: Whites 100 g ? Case", self.card(of=("--plate", "Tartlet")))

  def test_a_batch_is_known_whole_on_every_sheet(self):
    sheet = self.card(of=self.batch)
    self.assertIn("4.00 food per batch", sheet)
    self.assertIn("Custard: ? 4.00 per batch, ? 4.00/kg", sheet)
    self.assertIn("7.00 prime cost", sheet)
    self.assertNotIn("? 7.00", sheet)
    kitchen = self.card("--kitchen", "--money", of=self.batch)
    self.assertIn("Food cost per batch: 4.00", kitchen)
    self.assertIn("1 kg · ? 4.00", kitchen)


if __name__ == "__main__":
  if shutil.which("pdftotext") is None or shutil.which("pdfinfo") is None:
    print("skipped: there is no pdftotext")
    sys.exit(77)
  CLI, DEMO = sys.argv[1:3]
  unittest.main(argv=sys.argv[:1])

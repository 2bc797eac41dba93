#!/usr/bin/env python3
"""A cost card is recomputed with nothing but the digits that stand on it.

    test-cli-card.py CROUSTADE-CLI DEMO-FOLDER

Sums are read from left to right, × and ÷ before + and −, as any pocket calculator with parentheses
does.
"""

import csv
import os
import re
import subprocess
import sys
import tempfile
import unittest

CLI = DEMO = ""
DAY = "2026-11-25"

UNITS = {"kg": 1000, "g": 1, "mg": 0.001, "l": 1000, "ml": 1, "cl": 10, "dl": 100, "pc": 1, "%": 0.01}
WORDS = re.compile(r" *(?:of the batch|food|disposables|thrown away|net weight|tax included|"
                   r"exchange rate|[A-Z]{3})(?= |$|\))")
NUMBER = re.compile(r" *(-?[0-9.]+) ?((?:kg|g|mg|ml|cl|dl|l|pc)\b|%)?(/kg|/l| each)?")

TABLES = {
  "book": "key,value\ncurrency,EUR\ntarget_pct,30\n",
  "ingredients": "name,unit,density_g_per_ml,trim_yield_pct\nLeek,g,,100\nSyrup,g,0.95,100\n",
  "suppliers": "name\nThe market\n",
  "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n"
            "Leek,The market,1,1,kg\nSyrup,The market,1,1,kg\n",
  "prices": "ingredient,supplier,from,price\nLeek,The market,2026-01-01,25.51\n"
            "Syrup,The market,2026-01-01,4\n",
}


def run(*arguments):
  return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                        env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""})


class Calculator:
  """Reads a sum from a place in a text, as far as it goes."""

  def __init__(self, text, at=0):
    self.text, self.at, self.depth = text, at, 0

  def take(self, signs):
    found = re.compile(" *([" + re.escape(signs) + "])").match(self.text, self.at)
    if found:
      self.at = found.end()
    return found and found[1]

  def number(self):
    if self.take("("):
      self.depth += 1
      value = self.sum()
      self.depth -= 1
      assert self.take(")")
      return value
    found = NUMBER.match(self.text, self.at)
    self.at = found.end()
    value = float(found[1]) * UNITS.get(found[2], 1)
    # Within parentheses a number may bear the name of a by-product.
    word = (re.compile(r"[^()×÷+−0-9]*") if self.depth else WORDS).match(self.text, self.at)
    if word:
      self.at = word.end()
    return value / (1000 if found[3] in ("/kg", "/l") else 1)

  def product(self):
    value = self.number()
    while sign := self.take("×÷"):
      other = self.number()
      value = value * other if sign == "×" else value / other
    return value

  def sum(self):
    value = self.product()
    while sign := self.take("+−"):
      other = self.product()
      value = value + other if sign == "+" else value - other
    return value


class Card(unittest.TestCase):
  maxDiff = None

  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.folder = folder.name
    self.book = os.path.join(self.folder, "book.croustade")

  def load(self, folder):
    done = run("load", self.book, folder)
    self.assertEqual(done.returncode, 0, done.stdout + done.stderr)

  def tables(self, **changes):
    for name, text in {**TABLES, **changes}.items():
      with open(os.path.join(self.folder, name + ".csv"), "w", encoding="utf-8") as file:
        file.write(text)
    self.load(self.folder)

  def card(self, name):
    done = run("cost", self.book, "--on", DAY, "--plate", name)
    self.assertLessEqual(done.returncode, 1, done.stderr)
    return done.stdout.replace("\u00a0", " ")

  def demo_cards(self):
    self.load(DEMO)
    with open(os.path.join(DEMO, "plates.csv"), encoding="utf-8") as file:
      names = [row["name"] for row in csv.DictReader(file)]
    return {name: self.card(name) for name in names}

  def test_unit_costs_are_recomputed(self):
    texts, n = "", 0
    for name, card in self.demo_cards().items():
      text = " ".join(card.split("\nBatches\n")[-1].split("\nAllergens")[0].split())
      for found in re.finditer(r"([0-9.]+)(/kg|/l| each) = ", text):
        digits = len(found[1].partition(".")[2])
        got = Calculator(text, found.end()).sum() * (1 if found[2] == " each" else 1000)
        self.assertAlmostEqual(got, float(found[1]), delta=0.5000001 * 10 ** -digits,
                               msg=f"{name}: {text[found.start():found.start() + 90]}")
        n += 1
      texts += text
    self.assertGreater(n, 60)
    for word in ("net weight", "tax included", "exchange rate", "of the batch", "of what goes in",
                 "by-products: by value", "by-products: carry no cost"):
      self.assertIn(word, texts)

  def test_prime_cost_is_the_sum_that_is_shown(self):
    n = 0
    for name, card in self.demo_cards().items():
      food = re.search(r"^Food cost per guest +(?:at least )?([0-9.]+)$", card, re.M)
      labour = re.search(r"^Labour +([0-9.]+)$", card, re.M)
      prime = re.search(r"^Prime cost .*?([0-9.]+)(?: = ([0-9.]+) \+ ([0-9.]+))?$", card, re.M)
      terms = prime[2] and float(prime[2]) + float(prime[3])
      above = float(food[1]) + float(labour[1])
      self.assertAlmostEqual(terms or above, float(prime[1]), delta=0.005001, msg=name)
      # What adds up needs no more digits.
      self.assertEqual(terms is None, abs(above - float(prime[1])) < 0.001, name)
      n += terms is not None
    self.assertGreater(n, 0)

  def test_shares_of_what_is_incomplete_are_marked(self):
    self.load(DEMO)
    made_of = self.card("Crab croustade").split("\nMade of")[1].split("\n\n")[0]
    shares = re.findall(r"^(\S.*?)  .*?((?:at most )?[0-9.]+ %)$", made_of, re.M)
    self.assertGreater(len(shares), 5)
    for name, share in shares:
      # Seasoning is a part of whatever it comes to.
      self.assertEqual(share.startswith("at most "), not name.startswith("Seasoning"), (name, share))

  def test_shares_add_up(self):
    """Three thirds are 33.4, 33.3 and 33.3: the tenth left goes to the largest fraction, as a cent does."""
    self.tables(plates="name,makes\nLeek bite,1\nLeek roast,1\n",
                lines="into,parent,position,item,amount,unit\n"
                      + "".join(f"plate,Leek bite,{i},Leek,100,g\n" for i in (1, 2, 3))
                      + "plate,Leek roast,1,Leek,10,kg\nplate,Leek roast,2,Leek,1,g\n")
    made_of = self.card("Leek bite").split("\nMade of")[1].split("\n\n")[0]
    tenths = [int(share.replace(".", "")) for share in re.findall(r"([0-9.]+) %$", made_of, re.M)]
    self.assertEqual(sorted(tenths), [333, 333, 334])
    # A ten-thousandth is no tenth, and not nothing.
    made_of = self.card("Leek roast").split("\nMade of")[1].split("\n\n")[0].replace("\xa0", " ")
    self.assertEqual(re.findall(r"(?:< )?[0-9.]+ %$", made_of, re.M), ["100.0 %", "< 0.1 %"])

  def test_what_moves_it_multiplies(self):
    """597.4 g × 25.51 a kg are 15.24, and 597 g of it 15.23."""
    self.tables(plates="name,makes\nLeek bite,1\n",
                lines="into,parent,position,item,amount,unit\nplate,Leek bite,1,Leek,597.4,g\n")
    card = self.card("Leek bite")
    self.assertRegex(card, r"(?m)^Leek +597\.4 g +25\.51/kg +15\.24 ")
    # Without a price too: 15.239674 / 30 %, rounded up.
    self.assertRegex(card, r"(?m)^Price that meets the target, with tax +50\.80$")

  def test_amounts_are_told_as_they_were_written(self):
    self.tables(plates="name,makes\nLeek bite,1\n",
                preparations="name,by_products\nGlaze,free\n",
                outputs="item,preparation,role,amount,unit\nGlaze,Glaze,main,500,g\n",
                lines="into,parent,position,item,amount,unit\nplate,Leek bite,1,Syrup,300,ml\n"
                      "plate,Leek bite,2,Glaze,100,g\npreparation,Glaze,1,Syrup,3,us-fl-oz\n"
                      "plate,Leek bite,3,Leek,0.5,kg\n")
    card = self.card("Leek bite")
    self.assertRegex(card, r"(?m)^Syrup +285 g .*\n  entered as 300 ml · density 0.95 g/ml$")
    self.assertRegex(card, r"(?m)^    entered as 3 US fl oz per batch · density 0.95 g/ml$")
    self.assertEqual(card.count("entered as"), 2, "kg and g are read alike")

  def test_two_choices_of_a_menu_are_told_apart(self):
    self.tables(plates="name,makes\nLeek bite,1\nOther bite,1\n",
                menus="name,price\nTide,40\n",
                menu_plates="menu,plate,choice,servings,position,share_pct\n"
                            "Tide,Leek bite,first,1,1,25\nTide,Other bite,first,1,2,75\n"
                            "Tide,Leek bite,last,1,3,\nTide,Other bite,last,1,4,\n",
                lines="into,parent,position,item,amount,unit\nplate,Leek bite,1,Leek,100,g\n"
                      "plate,Other bite,1,Leek,50,g\n")
    card = " ".join(self.card("Leek bite").split())
    self.assertNotIn("Price that meets the target", card, "the menu has the price")
    table = " ".join(run("cost", self.book, "--on", DAY).stdout.replace("\u00a0", " ").split())
    for text in ("Tide, choice “first”, taken by 25.0 %", "Tide, choice “last”, taken by 50.0 %"):
      self.assertIn("In " + text + " (food cost ", card)
      self.assertIn("in " + text + ": ", table)


if __name__ == "__main__":
  CLI, DEMO = sys.argv[1:3]
  unittest.main(argv=sys.argv[:1])

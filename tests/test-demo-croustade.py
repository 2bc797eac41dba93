#!/usr/bin/env python3
"""The demo's crab croustade, reckoned by hand beside what the program says.

    test-demo-croustade.py CROUSTADE-CLI DEMO-FOLDER

Every step below is plain arithmetic on numbers written out from the demo's tables, in the
order in which the bite is made: no table is read and no graph is walked here. Each number
says where it stands. The rules are those of the costing model: trim yields divide, what comes
back is not charged, by-products carry what their batch's rule gives them. The one price that
is missing on purpose, sea purslane's, adds nothing.
"""

import json
import os
import subprocess
import sys
import tempfile
from fractions import Fraction as F

DAY = "2026-11-25"
PLATE = "Crab croustade"
MISSING = ["price Sea purslane"]


# ---------------------------------------------------------------- bought, EUR per g, ml or each
# offers.csv gives the pack, prices.csv its newest price from a date up to the day.

CRAB = F(66) / 5000                        # Brown crab 101: 1 x 5 kg, 66 from 2026-11-24
BUTTER = F(46) / 5000                      # Butter, unsalted 301 (preferred): 1 x 5 kg, 46
TOMATO_PASTE = F("20.16") / (6 * 800)      # Tomato paste D22: 6 x 800 g
SHALLOT = F("14.25") / 5000                # Shallot 204: 1 x 5 kg
BRANDY = F("24.2") / F("1.21") / 1000      # Brandy V07: 1 l, the price includes 21 % tax
LEMON = F("21.6") / 60                     # Lemon 202 (preferred): 60 each
CHIVES = F("11.5") / (10 * 50)             # Chives 220: 10 x 50 g
FLAKE_SALT = F("57.6") / (4 * 1500)        # Flake salt D09: 4 x 1.5 kg
CREME_FRAICHE = F("29.7") / 4500           # Crème fraîche 303: the price's own pack, 4.5 kg
EGG = F("61.2") / (6 * 30)                 # Egg 306 (preferred): 6 x 30 each
MUSTARD = F("13.25") / 2500                # Mustard D21: 2.5 kg
CUCUMBER = F("10.2") / (12 * 350)          # Cucumber 201: 12 each; ingredients.csv: 350 g a piece
JUNIPER = F("9.5") / 250                   # Juniper berries D11: 250 g
SUGAR = F("12.6") / (10 * 1000)            # Sugar D06: 10 x 1 kg
SEA_SALT = F(16) / 10000                   # Sea salt D08: 10 kg
WATER = F(0)                               # Water: costs nothing
AGAR = F(31) / 500                         # Agar D16: 500 g
RICE_FLOUR = F(13) / 5000                  # Rice flour D01: 5 kg
RAPESEED_OIL = F("23.5") / 10000           # Rapeseed oil V01: 10 l
TROUT_ROE = F("49.2") * F("1.148") / 600   # Trout roe R05: 6 x 100 g for 49.20 GBP from
                                           # 2026-11-19; rates.csv: 1.148 from 2026-11-23
SAMPHIRE = F("17.2") / 1000                # Samphire 230: 1 kg
DILL = F(11) / (10 * 50)                   # Dill 221: 10 x 50 g


def croustade():
  """Food of one bite, and the part of it that is crab."""

  # Brown crab, cooked and picked: 5 kg bought whole. By value (outputs.csv): of 5 kg, white is
  # 20 % at 60 a kg, brown 15 % at 20 a kg, shells 45 % at 0: they carry nothing.
  batch = 5000 * CRAB                                         # 66.00
  assert batch == F(66)
  white_worth, brown_worth = 1 * F(60), F("0.75") * 20        # 60 and 15, of 75
  white_crab = batch * white_worth / (white_worth + brown_worth) / 1000
  brown_crab = batch * brown_worth / (white_worth + brown_worth) / 750
  shells = F(0)
  assert white_crab == F("0.0528") and brown_crab == F("0.0176")

  # Crab butter: gives 900 g. Shallots are trimmed, at 85 %.
  crab_butter = (1000 * BUTTER
                 + 1200 * shells
                 + 60 * TOMATO_PASTE
                 + 60 / F("0.85") * SHALLOT
                 + 150 * BRANDY) / 900

  # Eggs, separated: 30 eggs give 540 g of yolk at 0.017 a g and 990 g of white at 0.0012 a g:
  # 9.18 and 1.188 of 10.368, by value.
  yolk_worth, white_of_egg_worth = 540 * F("0.017"), 990 * F("0.0012")
  egg_yolk = 30 * EGG * yolk_worth / (yolk_worth + white_of_egg_worth) / 540
  egg_white = 30 * EGG * white_of_egg_worth / (yolk_worth + white_of_egg_worth) / 990

  # Lemons, zested and pressed: 10 lemons give 420 ml of juice; the zest is free.
  lemon_juice = 10 * LEMON / 420

  # Dressed white crab: gives 805 g. Chives are trimmed, at 94 %.
  dressed_crab = (600 * white_crab
                  + 165 * crab_butter
                  + 25 * lemon_juice
                  + 25 / F("0.94") * CHIVES
                  + 4 * FLAKE_SALT) / 805

  # Brown crab cream: gives 810 g. The tablespoon is 15 ml.
  crab_cream = (300 * brown_crab
                + 240 * crab_butter
                + 200 * CREME_FRAICHE
                + 60 * egg_yolk
                + 15 * MUSTARD
                + 15 * lemon_juice) / 810

  # Cucumber-juniper infusion: gives 2 l; the pulp is free. Cucumbers are trimmed, at 92 %.
  infusion = (2500 / F("0.92") * CUCUMBER
              + 20 * JUNIPER
              + 500 * WATER
              + 40 * SUGAR
              + 10 * SEA_SALT) / 2000

  # Cucumber-juniper gel: three quarters of a litre of it, set; gives 760 g. The teaspoon is 5 ml.
  gel = (750 * infusion + 9 * AGAR + 5 * lemon_juice) / 760

  # Rice-flour cups: gives 48. Of 1.5 l of oil 90 % come back. Parchment is no food.
  cup = (180 * RICE_FLOUR
         + 90 * egg_white
         + 240 * WATER
         + 3 * SEA_SALT
         + 1500 * F("0.1") * RAPESEED_OIL) / 48

  # Crab croustade: makes 24, one a guest. Samphire is trimmed, at 86 %, dill at 60 %.
  # Sea purslane has no price and adds nothing; the paper cups are no food.
  purslane = F(0)
  made = (24 * cup
          + 240 * dressed_crab
          + 180 * crab_cream
          + 120 * gel
          + 48 * TROUT_ROE
          + 24 / F("0.86") * SAMPHIRE
          + 24 * purslane
          + 18 / F("0.6") * DILL)
  bite = F("1.03") * made / 24                                # 3 % for seasoning and handling

  crab = F("1.03") / 24 * (240 * 600 * white_crab / 805 + 180 * 300 * brown_crab / 810)
  return bite, crab


def run(*arguments, status):
  done = subprocess.run(arguments, capture_output=True, encoding="utf-8",
                        env={**os.environ, "LC_ALL": "C.UTF-8"})
  assert done.returncode == status, \
    f"{' '.join(arguments)}: exit status {done.returncode}, not {status}\n{done.stderr}"
  return done


def near(says, figure, exact):
  """The model's own bound: 1e-12 of the exact value."""
  assert abs(F(figure) - exact) <= abs(exact) * F(1, 10**12), \
    f"{says}: {figure!r}, by hand {float(exact)!r}"


def check_json(text, bite, crab):
  book = json.loads(text)
  plate = next(p for p in book["plates"] if p["name"] == PLATE)

  near("a guest's croustade costs what the arithmetic says", plate["cost_per_guest"], bite)
  near("one bite is one guest's", plate["cost_per_bite"], bite)

  parts = plate["ingredients"] + plate["by_products"]
  near("ingredients and by-products add up to the cost", sum(F(p["cost"]) for p in parts), bite)
  share = next(p for p in plate["ingredients"] if p["name"] == "Brown crab")
  near("the crab's share is white and brown meat alone", share["cost"], crab)
  assert not [p["name"] for p in plate["by_products"] if p["quantity"] != 0], \
    "nothing below it is credited, so that what is known is the least it can cost"

  assert plate["missing"] == MISSING, f"{PLATE} lacks {plate['missing']}"
  assert plate["allergens_not_known"] == []
  lacking = {c for kind in ("plates", "menus") for t in book[kind] for c in t["missing"]}
  assert lacking == set(MISSING), f"the demo lacks {sorted(lacking)}"


def check_printed(done, bite):
  shown = f"{float(bite):.2f}"
  assert shown == "0.84"
  assert shown in done.stdout, f"{shown} is not printed:\n{done.stdout}"
  assert "at least: no price for Sea purslane" in done.stdout, f"it may cost less:\n{done.stdout}"
  assert "Sea purslane" in done.stderr, f"the missing price is not named:\n{done.stderr}"


def main():
  cli, demo = sys.argv[1:3]
  bite, crab = croustade()

  with tempfile.TemporaryDirectory() as folder:
    book = os.path.join(folder, "Saltmarsh Rooms.croustade")
    run(cli, "load", book, demo, status=0)
    check_json(run(cli, "cost", book, "--on", DAY, "--json", status=1).stdout, bite, crab)
    check_printed(run(cli, "cost", book, "--on", DAY, "--plate", PLATE, status=1), bite)


if __name__ == "__main__":
  main()

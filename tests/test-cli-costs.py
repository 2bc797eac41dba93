#!/usr/bin/env python3
"""croustade-cli cost: its exit status, what is named of a book and what its figures are.

    test-cli-costs.py CROUSTADE-CLI DEMO-FOLDER
"""

import contextlib
import json
import os
import pathlib
import re
import sqlite3
import sys
import unicodedata
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from sound import DAY, DEMO, SOUND, Case, call  # noqa: E402


class Costs(Case):
  def cost(self, status, changes=None, *options):
    self.silent("load", self.book, self.tables(changes))
    done = self.expect(status, "cost", self.book, "--on", DAY, "--json", *options)
    return done, json.loads(done.stdout)

  def test_a_complete_book_is_done(self):
    done, figures = self.cost(0)
    self.assertEqual(done.stderr, "")
    self.assertEqual((figures["on"], figures["currency"]), (DAY, "EUR"))
    plate, = figures["plates"]
    # 480 g of leek at 4 a kg and 80 % trimmed, 100 g of salt at 1 a kg, for ten bites
    self.assertAlmostEqual(plate["cost_per_guest"], (2.40 + 0.10) / 10, places=15)
    self.assertAlmostEqual(plate["food_cost_pct"], 25, places=12)
    self.assertEqual(plate["missing"], [])

  def test_a_missing_price_is_named_and_counted(self):
    done, figures = self.cost(1, {"prices": "ingredient,supplier,from,price\n"
                                            "Leek,The market,2026-01-01,4\n"})
    self.assertEqual(figures["plates"][0]["missing"], ["price Salt"])
    self.assertIn("Salt", done.stderr)
    self.assertIn("Leek bite", done.stderr)

  def test_over_its_target_is_named(self):
    done, figures = self.cost(1, {"plates": "name,makes,price\nLeek bite,10,0.8\n"})
    self.assertEqual(figures["plates"][0]["missing"], [])
    self.assertIn("Leek bite", done.stderr)
    self.assertIn("31.3", done.stderr)  # 31.25, half away from zero

  def test_at_its_very_target_a_plate_is_within_it(self):
    plates, lines = "name,makes,price\n", "into,parent,position,item,amount,unit\n"
    for n in range(1, 101):
      # 3 n g of salt at 1 a kg are 30 % of n / 100, which doubles miss for some.
      plates += f"Bite {n},1,{n / 100}\n"
      lines += f"plate,Bite {n},1,Salt,{3 * n},g\n"
    self.cost(0, {"plates": plates, "lines": lines})

  def test_a_price_counts_from_its_day(self):
    prices = SOUND["prices"] + "Leek,The market,2026-11-26,8\n"
    self.silent("load", self.book, self.tables({"prices": prices}))
    costs = []
    for day in (DAY, "2026-11-26"):
      done = call("cost", self.book, "--on", day, "--json")
      costs.append(json.loads(done.stdout)["plates"][0]["cost_per_guest"])
    self.assertAlmostEqual(costs[1] - costs[0], 0.24, places=15)

  def test_one_plate_may_be_asked_for(self):
    self.begin(DEMO)
    done = self.expect(0, "cost", self.book, "--on", DAY, "--json", "--plate", "Salted chocolate",
                       "--plate", "Brown crab on toast")
    self.assertEqual({p["name"] for p in json.loads(done.stdout)["plates"]},
                     {"Salted chocolate", "Brown crab on toast"})
    self.refused("cost", self.book, "--plate", "Salted", says="Salted")

  def test_names_like_the_one_asked_for_are_offered(self):
    self.begin(DEMO)
    done = self.refused("cost", self.book, "--plate", "crab")
    first, second = done.stderr.splitlines()
    self.assertEqual(first, "there is no plate “crab”")
    self.assertIn("“Brown crab on toast”", second)
    many = self.refused("cost", self.book, "--plate", "c").stderr.splitlines()[1]
    self.assertTrue(2 <= many.count("“") <= 5, many)
    with open(os.path.join(DEMO, "menus.csv"), encoding="utf-8") as file:
      menu = file.read().splitlines()[1].split(",")[0]
    done = self.refused("cost", self.book, "--menu", menu.split()[0].upper())
    self.assertIn(f"“{menu}”", done.stderr.splitlines()[1])
    for text in ("Brown crab croustade", "Brwn crab on toast", "toast crab"):
      done = self.refused("cost", self.book, "--plate", text)
      self.assertIn("“Brown crab on toast”", done.stderr.splitlines()[1])
    done = self.refused("cost", self.book, "--plate", "zzzz")
    self.assertEqual(done.stderr.splitlines(), ["there is no plate “zzzz”"])

  def disposables(self, priced, cups="plate,Leek bite,2,Cup,10,each"):
    """What the card of a plate says of its disposables, where only priced things have a price."""
    price = {"Leek": "4", "Cup": "0.05"}
    rows = "".join(f"{name},The market,2026-01-01,{price[name]}\n" for name in priced)
    folder = self.tables({
      "ingredients": "name,unit,kind\nLeek,g,food\nCup,each,disposable\n",
      "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n"
                "Leek,The market,1,1,kg\nCup,The market,1,1,each\n",
      "prices": "ingredient,supplier,from,price\n" + rows,
      "lines": "into,parent,position,item,amount,unit\n"
               f"plate,Leek bite,1,Leek,480,g\n{cups}\n",
    })
    self.expect(0, "load", self.book, folder, "--replace")
    card = call("cost", self.book, "--plate", "Leek bite").stdout
    return re.search(r"^Disposables +(.*)$", card, re.MULTILINE).group(1).strip()

  def test_disposables_that_lack_a_price_are_not_0(self):
    self.assertEqual(self.disposables(("Leek", "Cup")), "0.05")
    self.assertEqual(self.disposables(("Leek",)), "?")
    self.assertEqual(self.disposables(("Cup",)), "0.05")
    self.assertEqual(self.disposables(()), "?")
    self.assertEqual(self.disposables((), cups="plate,Leek bite,2,Leek,1,g"), "0.00")

  # 480 g at 80 % for ten bites are 60 g a guest, and three leeks more that have no weight.
  def test_what_can_be_counted_of_an_ingredient_is_at_least(self):
    self.silent("load", self.book, self.tables({
      "lines": "into,parent,position,item,amount,unit\nplate,Leek bite,1,Leek,480,g\nplate,Leek bite,2,Leek,3,each\n",
    }))
    card = call("cost", self.book, "--plate", "Leek bite", "--on", DAY).stdout
    self.assertRegex(card, r"\nLeek +≥ 60 g +4\.00/kg +≥ 0\.24 +\? 100")

  def test_what_is_taken_of_more_has_no_ceiling_below_0(self):
    """Over its target even without leek, of which three more have no weight: the more there is, the nearer to 0 is
    what it would have to bring. What is wholly counted may cost so much less at most. Without its price, the amount is
    what it is."""
    rows = {"lines": "into,parent,position,item,amount,unit\nplate,Leek bite,1,Leek,480,g\n"
                     "plate,Leek bite,2,Leek,3,each\nplate,Leek bite,3,Salt,9000,g\n"}
    for prices, leek in ((SOUND["prices"], r"4\.00/kg +≥ 0\.24 +\? [0-9.]+\u00a0% +\? +\?"),
                         (SOUND["prices"].replace("Leek,The market,2026-01-01,4\n", ""), r"\? +\? +\?")):
      self.silent("load", self.book, self.tables({**rows, "prices": prices}), "--replace")
      card = call("cost", self.book, "--plate", "Leek bite", "--on", DAY).stdout
      self.assertRegex(card, rf"\nLeek +≥ 60 g +{leek}")
      self.assertRegex(card, r"\nSalt +900 g +1\.00/kg +0\.90 ")

  def test_a_menu_has_a_card(self):
    changes = {
      "menus": "name,price,tax_pct,target_pct\nTide,12,20,30\nOther,5,0,30\n",
      "plates": "name,makes,price\nLeek bite,10,1\nSalt bite,1,\n",
      "lines": SOUND["lines"] + "plate,Salt bite,1,Salt,1000,g\n",
      "menu_plates": "menu,plate,choice,servings,position,share_pct\nTide,Leek bite,,2,1,\n"
                     "Tide,Leek bite,last,1,2,75\nTide,Salt bite,last,1,3,25\n"
                     "Other,Leek bite,,1,1,\n",
    }
    self.silent("load", self.book, self.tables(changes))
    card = self.expect(0, "cost", self.book, "--on", DAY, "--menu", "Tide")
    words = " ".join(card.stdout.split())
    # By hand: a leek bite (480 / 0.8 × 0.004 + 100 × 0.001) / 10 = 0.25, a salt bite 1.00;
    # 2 × 0.25 + 0.75 × 0.25 + 0.25 × 1.00 = 0.9375 of a net price of 10.
    for text in ("Food cost per guest 0.94", "By choice 0.75 to 1.50", "Net price 10.00",
                 "Food-cost percentage 9.4 %", "Target 30.0 %", "Price that meets the target",
                 "Leek bite 2 0.50", "choice “last”, taken by 75.0 %", "taken by 25.0 %",
                 "Leek", "Allergens entered: none"):
      self.assertIn(text, words)
    self.assertNotIn("Other", words)
    figures = json.loads(self.expect(0, "cost", self.book, "--on", DAY, "--menu", "Tide",
                                     "--json").stdout)
    self.assertEqual([m["name"] for m in figures["menus"]], ["Tide"])
    self.assertEqual(figures["plates"], [])
    self.assertAlmostEqual(figures["menus"][0]["cost_per_guest"], 0.9375)
    # What one way lacks is not lacking of the other.
    changes["ingredients"] = SOUND["ingredients"] + "Dulse,g,,\n"
    changes["lines"] += "plate,Salt bite,2,Dulse,10,g\n"
    self.expect(0, "load", self.book, self.tables(changes), "--replace")
    words = " ".join(self.expect(1, "cost", self.book, "--on", DAY, "--menu", "Tide").stdout.split())
    self.assertIn("Food cost per guest at least 0.94 By choice 0.75 to at least 1.50, 7.5 % to at least 15.0 %",
                  words)

  def test_no_line_is_wider_than_a_terminal(self):
    names = ("An ingredient that nobody ever meant to be set upon one line of eighty characters",
             "海苔" * 30, "Ouroboros" * 12, "two lines, and colour")
    rows = {"ingredients": "name,unit,allergens\n", "plates": "name,makes,price\n",
            "offers": "ingredient,supplier,pack_count,pack_size,pack_unit\n",
            "prices": "ingredient,supplier,from,price\n",
            "lines": "into,parent,position,item,amount,unit\n"}
    for name in names:
      rows["ingredients"] += f'"{name}",g,\n'
      rows["plates"] += f'"{name}",1,1200000\n'
      rows["offers"] += f'"{name}",The market,1,1,kg\n'
      rows["prices"] += f'"{name}",The market,2026-01-01,500000\n'
      for position, item in enumerate(names):
        rows["lines"] += f'plate,"{name}",{position},"{item}",333,g\n'
    rows["book"] = f'key,value\nname,"{names[0]}"\ncurrency,IDR\ntarget_pct,30\n'
    self.silent("load", self.book, self.tables(rows))
    cards = [argument for name in names for argument in ("--plate", name)]
    for arguments in ((), cards):
      text = self.expect(1, "cost", self.book, "--on", DAY, *arguments).stdout
      for line in text.split("\n"):
        self.assertLessEqual(sum(2 if unicodedata.east_asian_width(c) in "WF" else 1
                                 for c in line), 80, line)
        self.assertNotIn("Cc", [unicodedata.category(c) for c in line], repr(line))

  def test_ceilings_name_every_menu_they_keep(self):
    changes = {"plates": "name,makes\nLeek bite,10\nSalt bite,10\n",
               "lines": SOUND["lines"] + "plate,Salt bite,1,Salt,9000,g\n",
               "menus": "name,price\nSmall,1\nSalty,4\n",
               "menu_plates": "menu,plate\nSmall,Leek bite\nSalty,Leek bite\nSalty,Salt bite\n"}
    self.silent("load", self.book, self.tables(changes))
    done = self.expect(0, "cost", self.book, "--on", DAY, "--plate", "Leek bite")
    # 0.05 is to spare in Small; in Salty 0.05 as well, and 91 times the salt: leek is kept by Small, which
    # comes first, and salt by Salty: 1 + 0.05 / 0.91 a kg
    text = " ".join(done.stdout.split())
    self.assertIn("going over the target of Small, or of the plate or menu named beside it;", text)
    self.assertRegex(text, r"Leek 60 g .* 4\.83/kg 4\.83 Salt 10 g")
    self.assertIn("1.05/kg · Salty 1.05", text)

  def set_acts(self, *times):
    """Makes the acts those of these times, in UTC."""
    book = sqlite3.connect(self.book)
    for act, at in enumerate(times, 1):
      book.execute("UPDATE act SET at = ?, day = NULL WHERE id = ?", (at, act))
    book.commit()
    book.close()

  def test_the_book_as_it_stood(self):
    self.expect(0, "load", self.book, self.tables())
    self.expect(0, "load", self.book, "--replace", self.tables({
      "lines": SOUND["lines"].replace("480", "960"),
      "prices": SOUND["prices"] + "Leek,The market,2026-03-01,8\n"}))
    self.set_acts("2026-02-01T12:00:00Z", "2026-04-01T12:00:00Z")

    def leek(*arguments):
      figures = json.loads(call("cost", self.book, "--json", *arguments, TZ="UTC").stdout)
      return figures["on"], figures["as_of"], figures["plates"][0]["ingredients"][0]["cost"]

    self.assertEqual(leek("--on", "2026-03-01"), ("2026-03-01", None, 0.96),
                     "today's recipes at the prices of a day")
    self.assertEqual(leek("--as-of", "2026-03-31"), ("2026-03-31", "2026-03-31", 0.24),
                     "the book as it stood: neither line nor price was entered yet")
    self.assertEqual(leek("--as-of", "2026-04-01", "--on", "2026-02-28"),
                     ("2026-02-28", "2026-04-01", 0.48), "both")
    for arguments, says in ((("--on", "2026-03-01"), ", prices of 2026-03-01, EUR"),
                            (("--as-of", "2026-03-01"), ", the book of 2026-03-01, EUR"),
                            (("--as-of", "2026-03-01", "--on", "2026-02-28"),
                             ", the book of 2026-03-01, prices of 2026-02-28, EUR")):
      for plate in ((), ("--plate", "Leek bite")):
        text = call("cost", self.book, *plate, *arguments, TZ="UTC").stdout
        self.assertIn(says.lstrip(", "), text, "it is said which question is answered")
    done = self.refused("cost", self.book, "--as-of", "2026-01-31",
                        says="the book begins on 2026-02-01; choose that day or a later one")
    self.assertEqual(done.stderr.count("\n"), 1)
    self.refused("cost", self.book, "--as-of", "9998-12-31", says="9998-12-31 has not come yet")
    # A change of a row that was never there.
    book = sqlite3.connect(self.book)
    book.execute("UPDATE change SET row = 9999 WHERE id = (SELECT max (id) FROM change WHERE act = 2)")
    book.commit()
    book.close()
    done = call("cost", self.book, "--as-of", "2026-03-31", TZ="UTC")
    self.assertEqual(done.returncode, 3, done.stderr)
    self.assertIn("“croustade-cli check” names the place", done.stderr)

  def test_a_wrong_date_is_refused(self):
    self.begin()
    for day in ("2026-02-30", "25.11.2026", "today", ""):
      self.refused("cost", self.book, "--on", day, says=day)

  def test_figures_do_not_follow_the_locale(self):
    self.begin()
    plain = self.expect(0, "cost", self.book, "--on", DAY, "--json").stdout
    for locale in ("de_DE.UTF-8", "C"):
      other = self.expect(0, "cost", self.book, "--on", DAY, "--json", LC_ALL=locale).stdout
      self.assertEqual(other, plain)

  def test_what_is_printed_names_every_plate(self):
    self.begin(DEMO)
    done = self.expect(1, "cost", self.book, "--on", DAY)
    with open(os.path.join(DEMO, "plates.csv"), encoding="utf-8") as file:
      names = re.findall(r'(?m)^(?:"([^"]*)"|([^,]*)),', file.read())[1:]
    for quoted, plain in names:
      self.assertIn(quoted or plain, done.stdout)
    self.assertIn("Sea purslane", done.stderr)

  def test_costing_changes_nothing(self):
    self.begin()
    before = self.dumped(self.book)
    os.chmod(self.book, 0o444)
    self.expect(0, "cost", self.book)
    self.expect(0, "check", self.book)
    self.assertEqual(self.dumped(self.book), before)

  def test_check_of_a_sound_book_finds_nothing(self):
    self.begin(DEMO)
    done = self.expect(0, "check", self.book)
    self.assertEqual(done.stderr, "")
    # No month of the demo is closed.
    self.assertEqual([line for line in done.stdout.splitlines() if not line.startswith("yes ")],
                     ["–    A closed month is as closing left it (none in this book)"])

  def test_history_of_less_than_one_act_is_refused(self):
    self.begin()
    for last in ("-1", "0", "-2"):
      self.refused("history", self.book, "--last", last, says="--last must be 1 or more")
    self.assertEqual(call("history", self.book).stdout, call("history", self.book, "--last", "1").stdout)

  def test_check_says_what_does_not_hold(self):
    self.begin()
    book = sqlite3.connect(self.book)
    book.execute("CREATE VIEW strange AS SELECT 1")
    book.commit()
    book.close()
    done = self.expect(1, "check", self.book)
    self.assertIn("NO   does not hold: The file is intact and every reference valid (1 fault)\n", done.stdout)
    self.assertEqual(done.stderr.count("does not hold: "), 1)
    self.assertIn("strange", done.stderr)

  def test_check_names_the_row_that_breaks_a_rule(self):
    self.begin()
    with contextlib.closing(sqlite3.connect(self.book)) as book:
      triggers = book.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
      book.execute("PRAGMA ignore_check_constraints = ON")
      for name, _ in triggers:
        book.execute(f'DROP TRIGGER "{name}"')
      book.execute("INSERT INTO price (offer, from_date, price_micro) SELECT offer, '2099-01-01', 1 FROM price"
                   " WHERE id = 1")
      book.execute("UPDATE price SET price_micro = -1 WHERE offer = (SELECT offer FROM price WHERE id = 1)")
      book.execute("UPDATE recipe_line SET item = 999 WHERE id = 1")
      for _, sql in triggers:
        book.execute(sql)
      book.commit()
    done = self.expect(1, "check", self.book)
    places = re.findall(r"prices: (?:Leek|Salt), The market, \d{4}-\d\d-\d\d \(row \d+\): a value is missing,"
                        " out of range or of the wrong", done.stderr)
    # Two prices of one pack are two lines.
    self.assertEqual(len(set(places)), 2, done.stderr)
    self.assertRegex(done.stderr, r"lines: Leek bite.* \(row 1\): this row names an entry of the table ingredients")
    self.assertNotRegex(done.stderr, "constraint|recipe_line|_micro")

  def test_check_of_an_empty_book_says_what_it_did_not_find(self):
    folder = self.tables(dict.fromkeys(SOUND))
    with open(os.path.join(folder, "book.csv"), "w", encoding="utf-8") as file:
      file.write("key,value\ncurrency,EUR\n")
    self.silent("load", self.book, folder)
    done = self.expect(0, "check", self.book)
    self.assertIn("yes  The file is intact and every reference valid (1)", done.stdout)
    self.assertIn("–    Every preparation has one main output (none in this book)", done.stdout)
    self.assertNotIn("(0)", done.stdout)


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

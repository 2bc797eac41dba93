#!/usr/bin/env python3
"""croustade-cli prices: the columns and headings of tables.

    test-cli-price-columns.py CROUSTADE-CLI

Figures are worked by hand beside each case.
"""

import decimal
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from prices import Case, xlsx  # noqa: E402


class PriceColumns(Case):
  def test_headings_and_numbers_are_french_too(self):
    said = self.json("mercuriale.csv", "Référence;Désignation;Prix HT\n102;Moules;22,40 €\n105;Huîtres;rupture\n")
    self.assertEqual(self.states(said), ["changed", "not-to-be-had"])
    self.assertEqual(said["lines"][0]["price"], "22.4")

  def test_names_of_articles_are_asked_once(self):
    # The lemons' words are their pack; what is known to be of prices is asked of its own row.
    for name, text in (("list.csv", "Code,Name,Price\n102,Mussels bouchot,21.50\n301,Butter demi-sel motte,71\n"
                                    "202,Lemon x60,18.20\n203,Lemon 140ct promo,40\n"),
                       ("list.txt", "102 Mussels bouchot 21.50\n301 Butter motte 71\n202 Lemon 18.20\n"
                                    "203 Lemon promo 40\n")):
      said = self.json(name, text, "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in said], ["doubtful", "doubtful", "changed", "doubtful"])
      self.assertEqual(said[0]["why"], said[1]["why"])
      self.assertIn("“Mussels bouchot / Butter ", said[0]["why"][0])
      self.assertIn("promo” stands beside the price", said[3]["why"][0])
      said = self.json(name, text, "--dry-run", "--accept", str(said[1]["line"]), status=1)
      self.assertEqual(self.states(said), ["changed", "changed", "changed", "doubtful"])

  def test_an_error_of_a_formula_takes_no_goods_away(self):
    for error, state in (("#N/A", "doubtful"), ("#REF!", "doubtful"), ("n/a", "not-to-be-had")):
      said = self.json("list.csv", f"Name,Price\nMussels,{error}\nButter,71\n", "--dry-run",
                       status=int(state == "doubtful"))
      self.assertEqual(self.states(said), [state, "changed"], error)

  def test_a_unit_is_what_a_price_is_for_and_no_pack(self):
    for text in ("Code;Unit;Price\n102;kg;4,30\n", "Code;Pack;Price\n102;kg;4,30\n",
                 "Code;Unit;Price\n102;5 kg;21,50\n"):
      with self.subTest(text):
        line = self.json("list.csv", text, "--dry-run")["lines"][0]
        self.assertEqual([line["pack"], line["price"], line["last"]], ["1 × 5 kg", "21.5", "21"])

  def test_a_unit_beside_the_pack_may_be_what_the_price_is_for(self):
    for cells in ("102,5 kg,4.30,kg", "102,5 kg,21.50,kg", "102,5,4.30,kg"):
      line = self.json("list.csv", f"Code,Pack,Price,Unit\n{cells}\n", "--dry-run")["lines"][0]
      self.assertEqual([line["pack"], line["price"], line["state"]], ["1 × 5 kg", "21.5", "changed"])

  def test_headings_say_for_how_much_a_price_is(self):
    # Mussels are 5 kg for 21.00: 4.30 a kilogram are 21.50; hake of the far bank 10 kg for 110.00.
    for headings, cells in (("UOM;Price", "KG;4.30"), ("Price/100g", "0.43"), ("Prix aux 100 g", "0,43"),
                            ("Weight;Price", "5 kg;21.50"), ("€/kg", "4.30"),
                            ("Price per 100 g (EUR);Pack", "0.43;5 kg"),
                            ("Price", "0.43/100 g"), ("Price/kg ex VAT", "4.30"), ("Prix au kg HT", "4,30"),
                            ("EUR per kg (ex VAT)", "4.30"), ("Price/100g ex VAT", "0.43"),
                            ("Poids net (kg);Prix", "5;21,50"), ("weight kg;Price", "5;21.50")):
      with self.subTest(headings):
        line = self.json("list.csv", f"Code;{headings}\n102;{cells}\n", "--dry-run")["lines"][0]
        self.assertEqual([line["pack"], line["price"], line["state"]], ["1 × 5 kg", "21.5", "changed"])
    # The weight of 20 × 250 g is no other pack.
    said = self.json("list.csv", "Code,Weight (kg),Price\n301,5,72\n", "--dry-run")["lines"][0]
    self.assertEqual(said["pack"], "20 × 250 g")
    # A pack of several under "Size" is one.
    said = self.json("list.csv", "Code,Name,Size,Price\n301,Butter,10 x 250 g,35\n", "--dry-run")["lines"][0]
    self.assertEqual(said["pack"], "10 × 250 g")
    said = self.json("list.csv", "Code,£/kg\nM20,11.50\n", "--dry-run", supplier="Far bank")["lines"][0]
    self.assertEqual([said["pack"], said["price"]], ["1 × 10 kg", "115"])

  def test_a_pack_may_be_in_words(self):
    # Mussels are sold in packs of 5 kg for 21.00; tinned ones may be other goods.
    for pack, code, price, state in (("5kg bag", "", "21.50", "changed"), ("2.5 kg bag", "", "10.75", "changed"),
                                     ("2.5 kg tin", "", "10.75", "doubtful"), ("boîte 2,5 kg", "", "10.75", "doubtful"),
                                     ("2.5 kg tin", "102", "10.75", "changed")):
      with self.subTest(pack):
        line = self.json("list.csv", f"Code;Product;Pack;Price\n{code};Mussels;{pack};{price}\n", "--dry-run",
                         status=1 if state == "doubtful" else 0)["lines"][0]
        self.assertEqual([line["pack"], line["state"]], ["1 × 5 kg" if pack[0] == "5" else "1 × 2.5 kg", state])
    # Butter is sold as 20 × 250 g for 70.00, one for 3.50.
    line = self.json("message.txt", "Butter 250 g tin 3.60\n", "--dry-run")["lines"][0]
    self.assertEqual([line["last"], line["state"]], ["3.5", "changed"])

  def test_tax_in_the_price_stays_in_it(self):
    said = self.json("list.csv", "Code,Price\nX1,37.51\n")
    self.assertEqual([said["lines"][0][key] for key in ("price", "last")], ["37.51", "36.3"])
    self.assertEqual([row["tax_included_pct"] for row in self.table("prices") if row["ingredient"] == "Paper cup"],
                     ["21", "21"])

  def test_a_list_that_speaks_of_tax_is_obeyed(self):
    # The cup's last price is 36.30 with 21 %: 30.00 without.
    for heading in ("Prix HT", "Price excl. VAT", "Price (ex tax)", "P.U. H.T.", "Price + VAT",
                    "Prix, TVA non comprise", "Price (VAT not included)"):
      with self.subTest(heading):
        line = self.json("list.csv", f"Code;{heading}\nX1;31,00\n", "--dry-run")["lines"][0]
        self.assertEqual([line["price"], line["last"], line["state"]], ["31", "30", "changed"])
    for heading in ("Prix TTC", "Price incl. VAT"):
      with self.subTest(heading):
        said = self.json("list.csv", f"Code;{heading}\nX1;37,51\n102;25,41\n", "--dry-run", status=1)
        self.assertEqual([said["lines"][0]["price"], said["lines"][0]["last"]], ["37.51", "36.3"])
        self.assertEqual(self.states(said), ["changed", "doubtful"])
        self.assertIn("at what rate", said["lines"][1]["why"][0])
    said = self.json("list.csv", "Code,What,Price\nX1,Cups,31\n\nPrices exclude tax,,\n")
    self.assertEqual(said["lines"][0]["last"], "30")
    taxes = sorted(row["tax_included_pct"] for row in self.table("prices") if row["ingredient"] == "Paper cup")
    self.assertEqual(taxes, ["", "21"])

  def test_tax_beside_a_price_tells_whether_the_price_has_it(self):
    # 36.30 with 21 % is 30.00 without; 31.00 and 6.51 are 37.51. Of a rate alone nothing tells.
    for headings, cells, last in (("Price,VAT,Total", "31,6.51,37.51", "30"), ("Price,VAT", "31,6.51", "30"),
                                  ("Price,VAT", "37.51,6.51", "36.3"), ("Price,VAT %,Due", "31,21,37.51", "30"),
                                  ("Prix,TVA", "31,0", "30"), ("Price", "37.51", "36.3")):
      with self.subTest(headings):
        line = self.json("list.csv", f"Code,{headings}\nX1,{cells}\n", "--dry-run")["lines"][0]
        self.assertEqual([line["price"], line["last"]], [cells.split(",")[0], last])
    said = self.json("list.csv", "Code,Price,VAT %\nX1,31,21\n102,21.50,21\n", "--dry-run", status=1)["lines"]
    self.assertEqual([line["state"] for line in said], ["doubtful", "changed"])
    self.assertIn("“VAT %” leaves open", said[0]["why"][0])
    # 21 % on top of 100.00 is 21.00, which a rate is not.
    for price in ("100", "121"):
      said = self.json("list.csv", f"Code,Price,VAT rate\nX1,{price},21\n", "--dry-run", status=1)["lines"][0]
      self.assertEqual((said["state"], decimal.Decimal(said["price"])), ("doubtful", int(price)))
      self.assertIn("leaves open", said["why"][0])
    # Over the headings a comma makes two cells of a note.
    for text in ("List of 2 March, ex VAT\nCode,Name,Price\nX1,Cup,31\n",
                 "Code,Name,Price\nX1,Cup,31\nAll prices,ex VAT\n"):
      self.assertEqual(self.json("list.csv", text, "--dry-run")["lines"][0]["last"], "30")

  def test_headings_say_what_a_column_has_of_tax(self):
    # 31.00 and 21 % are 37.51; the cup's last price is 36.30 with 21 %, 30.00 without.
    for headings, cells in (("Prix;TVA 21%;TTC", "31;6,51;37,51"), ("Prix;TTC", "31;37,51"),
                            ("HT;TVA;TTC", "31;6,51;37,51"),
                            ("Price;Gross price", "31.00;37.51"), ("Net;VAT;Gross", "31.00;6.51;37.51"),
                            ("Price;Total incl. VAT", "31.00;37.51"), ("Price;Total", "31.00;37.51"),
                            ("Price;VAT EUR", "31.00;6.51"), ("Price;VAT amount;VAT code", "31.00;6.51;S")):
      with self.subTest(headings):
        line = self.json("list.csv", f"Code;Product;{headings}\nX1;Cup;{cells}\n", "--dry-run")["lines"][0]
        self.assertEqual([line["price"], line["last"], line["state"]], ["31", "30", "changed"])
    # What leaves it open is asked: a code, a rate, yes or no, a gross price that is none with that tax.
    for headings, cells in (("Price;VAT code", "31.00;S"), ("Price;Code TVA", "31.00;S"), ("Price;VAT code", "31.00;1"),
                            ("Price;Price incl. VAT last week", "31.00;36.30"),
                            ("Price;Gross price", "31.00;35.00"),
                            ("Price;VAT rate", "31.00;6.51")):
      with self.subTest(headings):
        said = self.json("list.csv", f"Product;{headings}\nPaper cup;{cells}\nMussels;21.50;{cells[6:]}\n", "--dry-run",
                         status=1)["lines"]
        self.assertEqual([line["state"] for line in said], ["doubtful", "changed"])
        self.assertIn(f"“{headings[6:]}” leaves open", said[0]["why"][0])
    # What says so is read; mussels have no rate.
    for headings, cells in (("VAT included", "yes"), ("VAT", "included"), ("TVA", "incluse")):
      said = self.json("list.csv", f"Product;Price;{headings}\nPaper cup;37.51;{cells}\nMussels;21.50;{cells}\n",
                       "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in said], ["changed", "doubtful"])
      self.assertEqual(said[0]["last"], "36.3")
    for headings, cells in (("VAT included", "no"), ("VAT", "excl."), ("TVA", "en sus")):
      said = self.json("list.csv", f"Product;Price;{headings}\nPaper cup;31.00;{cells}\nMussels;21.50;{cells}\n",
                       "--dry-run")["lines"]
      self.assertEqual(said[0]["last"], "30")
    # Before a discount, and a sum of two: nothing of tax.
    for headings, cells in (("Gross price;Discount %;Net price", "40;6.2;37.51"), ("Price;Total", "37.51;75.02")):
      line = self.json("list.csv", f"Code;{headings}\nX1;{cells}\n", "--dry-run")["lines"][0]
      self.assertEqual([line["price"], line["last"]], ["37.51", "36.3"])

  PAID = ["Price last week;Price this week", "Old price;New price", "List price;Net price", "Price incl. VAT;Price",
          "Prix TTC;Prix HT", "Prix catalogue;Prix net", "Price per kg;Price per case", "Last week;Price"]

  def test_of_two_prices_the_one_to_pay_is_taken(self):
    for headings in self.PAID:
      for order in ((0, 1), (1, 0)):
        # One that is per kg has to agree with the pack of 5 kg.
        both, prices = headings.split(";"), ("4,30" if "per kg" in headings else "19,00", "21,50")
        text = ("Code;" + ";".join(both[i] for i in order) + "\n102;" + ";".join(prices[i] for i in order) + "\n")
        with self.subTest(text):
          self.assertEqual(self.json("list.csv", text, "--dry-run")["lines"][0]["price"], "21.5")
    said = self.json("list.csv", "Code;Prix;Remise %;Prix net\n102;25,00;14;21,50\n", "--dry-run")
    self.assertEqual(said["lines"][0]["price"], "21.5")

  def test_where_nothing_tells_which_price_it_is_asked(self):
    for headings in ("Price A;Price B", "Price 2 March;Price 9 March", "Price;Discount %"):
      with self.subTest(headings):
        said = self.json("list.csv", f"Code;{headings}\n102;21,50;10\n", status=2)
        self.assertIn(headings.replace(";", ", "), said["refused"])
        self.assertEqual(self.states(said), ["doubtful"])
    self.assertEqual(self.price("Mussels"), [])

  def test_short_headings_are_understood_and_others_told(self):
    for text in ("ITEM;DESC;PRICE EUR\n102;Mussels;21,50\n", "Réf.;Désignation;Cond.;P.U. HT\n102;Moules;5 kg;21,50\n"):
      with self.subTest(text):
        line = self.json("list.csv", text, "--dry-run")["lines"][0]
        self.assertEqual([line["code"], line["price"]], ["102", "21.5"])
    said = self.json("list.csv", "Art.-No;Descr. of goods;Pack;Price/pack (EUR) excl.;Remarks\nSHELLFISH;;;;\n"
                     "102;MUSSELS;5 kg;21,-;\nX1;Cups;;31.--;\n", "--dry-run")
    self.assertEqual([(line["code"], line["price"], line["last"]) for line in said["lines"]],
                     [("102", "21", "21"), ("X1", "31", "30")])

  def test_a_table_of_other_headings_is_no_message(self):
    for name, text, why in (("list.csv", "Foo;Bar;Baz\n102;Mussels;21.50\n",
                             "not understood: Foo, Bar, Baz; wanted are"),
                            ("pasted.txt", "Foo\tBar\tBaz\n102\tMussels\t21.50\n", "not understood: Foo, Bar, Baz"),
                            ("list.csv", "Foo,Goods\n21.50,Mussels\n", "which column has the prices: Foo, Goods"),
                            ("list.csv", "Foo,Price\nMussels,21.50\n", "what the prices are of: Foo, Price"),
                            ("list.xlsx", xlsx([["Foo", "Bar"], ["Mussels", "21.50"]]), "not understood: Foo, Bar"),
                            ("list.xlsx", xlsx([["Mussels", "21.50"]]), "no row of headings")):
      with self.subTest(text):
        said = self.json(name, text, status=2)
        self.assertEqual(said["lines"], [])
        self.assertIn(why, said["refused"])
    said = self.json("m.txt", "Hi, all, chefs\nMussels 21,50\nButter 71,00\n", "--dry-run", status=1)
    self.assertEqual(self.states(said), ["unmatched", "changed", "changed"])
    # A line of words ends in a colon often, and is followed by one here.
    told = self.prices("m.txt", "Hi, all, chefs :\nMussels 21,50\n", "--dry-run", status=1).stderr
    self.assertIn("line 1: Hi, all, chefs: not posted (not found)", told)

  def test_a_code_may_stand_before_the_name(self):
    said = self.json("list.csv", "Product,Price\n102 Mussels,22.00\n7 Sea snails,9\n", status=1)
    self.assertEqual([(line["code"], line["state"]) for line in said["lines"]],
                     [("102", "changed"), (None, "unmatched")])

  def test_prices_on_another_sheet_than_the_first_are_found(self):
    cover, other = [["Upriver weekly list"], ["valid until further notice"]], [["Terms", "Delivery on weekdays"]]
    prices = [["Code", "Price"], ["102", "21.50"]]
    self.assertIn("sheet “List 3” of 3", self.prices("list.xlsx", xlsx(cover, other, prices)).stderr)
    self.assertEqual(self.price("Mussels"), ["21.5"])
    self.assertNotIn("sheet", self.prices("list.xlsx", xlsx(prices)).stderr)
    self.assertIn("no row of headings", self.json("list.xlsx", xlsx(cover, cover), status=2)["refused"])

  def test_formats_of_numbers_are_read_with_them(self):
    # Mussels are sold by 5 kg at 21.00 EUR; what a sheet shows is in the format of its cells.
    for pack, code, state, price, currency in (
        ("5 kg", '"£"0.00', "doubtful", "21.5", "GBP"), ("5 kg", "[$£-809]#,##0.00", "doubtful", "21.5", "GBP"),
        ("5 kg", '_-[$€-40C]* #,##0.00_-', "changed", "21.5", "EUR"), ("5 kg", "0.00", "changed", "21.5", "EUR"),
        ((5, '0" kg"'), '0.00" €"', "changed", "21.5", "EUR"), ((10, '0\\ "kg"'), "0.00", "doubtful", "21.5", "EUR"),
        ("5 kg", '0.00" €/kg"', "doubtful", "107.5", "EUR"), ("5 kg", '0.00" HT /box"', "changed", "21.5", "EUR"),
        ("5 kg", '0.00" TTC"', "doubtful", "21.5", "EUR"), ("5 kg", '0.00" ct"', "doubtful", "21.5", "EUR"),
        ("5 kg", '0.00" /100 g"', "doubtful", "1075", "EUR"), ("5 kg", '0.00"?"', "doubtful", "21.5", "EUR"),
        ("5 kg", '"~"0.00', "doubtful", "21.5", "EUR"), ("5 kg", '0.00" ↑"', "doubtful", "21.5", "EUR"),
        ("5 kg", '0.00" (-5%)"', "doubtful", "21.5", "EUR"), ("5 kg", ";;;", "doubtful", "21.5", "EUR"),
        ("5 kg", "_(* #,##0.00_);_(* (#,##0.00)", "changed", "21.5", "EUR")):
      data = xlsx([["Name", "Pack", "Price"], ["Mussels", pack, (21.5, code)]])
      line = self.json("list.xlsx", data, "--dry-run", status=int(state == "doubtful"))["lines"][0]
      self.assertEqual([line["state"], line["price"], line["currency"]], [state, price, currency], code)
      self.assertEqual(line["pack"], "1 × 10 kg" if pack[0] == 10 else "1 × 5 kg", pack)

    # A size that its format shows as more than a unit is as one in words.
    for heading, size, state in (("Size", (4, '0"kg box"'), "doubtful"), ("Weight", (4, '0" x 1 kg"'), "doubtful"),
                                 ("Format", (12, '0" x 500 g"'), "doubtful"), ("Size", (2, '0" x 5 kg"'), "doubtful"),
                                 ("Format", (2, '"5 kg x "0'), "doubtful"), ("Size", (2, '"x"0'), "doubtful"),
                                 ("Size", (5, '0"kg box"'), "changed"), ("Format", (5, '0" x 1 kg"'), "changed"),
                                 ("Weight", (5, '0" kg"'), "changed"), ("Size", (5, '0" net"'), "changed")):
      data = xlsx([["Name", heading, "Price"], ["Mussels", size, (21.5, "0.00")]])
      line = self.json("list.xlsx", data, "--dry-run", status=int(state == "doubtful"))["lines"][0]
      self.assertEqual(line["state"], state, (heading, size))

  def test_a_row_that_is_hidden_is_asked(self):
    rows = [["Name", "Price"], ["Mussels", (21.5, "0.00")], ["Paper cup", (37.51, "0.00")]]
    for how in ({"hidden": [1]}, {"flat": [1]}, {"struck": [0]}):
      lines = self.json("list.xlsx", xlsx(rows, **how), "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in lines], ["doubtful", "changed"], how)
      self.assertEqual(lines[0]["why"], ["The spreadsheet hides this price, or strikes it out. Does it hold?"])

  def test_a_package_under_unit_is_what_a_price_is_for(self):
    # Far bank prices per kg, and sells hake by 10 kg at 110.00.
    for unit, price in (("KG", 11.5), ("BOX", 115), ("CS", 115), ("", 11.5)):
      line = self.json("list.csv", f"Code,Item,Unit,Price\nM20,Hake,{unit},{price}\n", "--dry-run",
                       supplier="Far bank")["lines"][0]
      self.assertEqual((line["state"], line["price"]), ("changed", "115"), unit)

  def test_the_name_of_a_sheet_is_heeded(self):
    rows = [["Name", "Price"], ["Mussels", "21.50"], ["Paper cup", "37.51"]]
    for name, is_asked in (("November 1999", True), ("DRAFT", True), ("incl. VAT", True), ("Shellfish", False),
                           ("Prices", False), ("Sheet1", False), ("Feuil1", False), ("Price list", False)):
      lines = self.json("list.xlsx", xlsx(rows, names=[name]), "--dry-run", status=int(is_asked))["lines"]
      self.assertEqual(lines[0]["state"] == "doubtful", is_asked, name)

  def test_a_formula_without_a_value_is_no_empty_cell(self):
    rows = [["Name", "Price", "Total"], ["Mussels", "=20*1.1", "=B2*2"], ["Paper cup", "37.51", "=B3*2"]]
    lines = self.json("list.xlsx", xlsx(rows), "--dry-run", status=1)["lines"]
    self.assertEqual([line["state"] for line in lines], ["doubtful", "changed"])
    self.assertEqual(lines[0]["why"], ["“=20*1.1” is not a price."])


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

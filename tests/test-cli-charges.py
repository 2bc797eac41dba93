#!/usr/bin/env python3
"""croustade-cli prices: charges on the whole of an invoice, left, spread or booked.

    test-cli-charges.py CROUSTADE-CLI

Figures are worked by hand beside each case.
"""

import contextlib
import pathlib
import shutil
import sqlite3
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from prices import Case, ubl, ubl_line  # noqa: E402


class Charges(Case):
  def test_charges_on_the_whole_are_told_and_not_spread(self):
    whole = ("<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:Amount>7.50</b:Amount>"
             "</a:AllowanceCharge>")
    done = self.prices("invoice.xml", ubl(ubl_line("102", "20", "KGM", "84.00", "4.20"), whole=whole))
    self.assertIn("charges of 7.50 on the whole document", done.stderr)
    self.assertEqual([row["net_value"] for row in self.table("purchases")], ["84"])
    done = self.prices("invoice.xml", ubl(ubl_line("102", "20", "KGM", "84.00", "4.20"), whole=whole), status=2)
    self.assertRegex(done.stderr, "booked already\ncharges of 7.50 .*\nuse --charges")

  # 84.00 + 70.00 of goods, 9.01 of carriage on all of it: 84 ÷ 154 × 9.01 = 4.914…, the rest 4.10. By hand.
  def test_charges_on_the_whole_are_spread_or_booked(self):
    whole = ("<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:Amount>9.01</b:Amount>"
             "</a:AllowanceCharge>")
    text = ubl(ubl_line("102", "20", "KGM", "84.00", "4.20"), ubl_line("301", "1", "XBX", "70.00", "70.00"),
               whole=whole)
    self.prices("i.xml", text, "--charges", "perhaps", status=2)
    said = self.prices("i.xml", text, "--charges", "book", "--dry-run").stderr
    self.assertIn("booked as other purchases: 9.01\nbooked 163.01 of 163.01", said)
    self.assertIn("booked 154.00 of 163.01", self.prices("i.xml", text, "--dry-run").stderr)
    said = self.json("i.xml", text, "--charges", "spread")
    self.assertEqual([line["price"] for line in said["lines"]], ["4.2", "70"])
    self.assertEqual(sorted(row["net_value"] for row in self.table("purchases")), ["74.1", "88.91"])
    for how in ([], ["--charges", "spread"]):
      self.assertIn("booked already", self.json("i.xml", text, *how, status=2)["refused"])

  # 1.00 over 7.10, 0.93 and 2.13 is 0.6988…, 0.0915… and 0.2096…: the largest fractions take the cents that are left.
  # By hand. −5 kg of mussels at 4.20 take none. The second invoice bills
  # 1.00/kg more, and carriage that was spread before hides none of it.
  def test_parts_of_charges_go_to_goods_delivered_alone(self):
    whole = "<a:AllowanceCharge><b:ChargeIndicator>%s</b:ChargeIndicator><b:Amount%s>%s</b:Amount></a:AllowanceCharge>"
    goods = [ubl_line("102", amount, "KGM", net, "4.00") for amount, net in (("1.775", "7.10"), ("0.2325", "0.93"),
                                                                           ("0.5325", "2.13"))]
    text = ubl(*goods, ubl_line("102", "-5", "KGM", "-21.00", "4.20"), whole=whole % ("true", "", "1.00"))
    said = self.prices("i.xml", text, "--charges", "spread").stderr
    self.assertIn("booked −9.84 of −9.84", said)
    self.assertEqual(sorted(row["net_value"] for row in self.table("purchases")), ["-21", "1.02", "2.34", "7.8"])
    total = "<a:LegalMonetaryTotal><b:TaxExclusiveAmount>85.00</b:TaxExclusiveAmount></a:LegalMonetaryTotal>"
    text = ubl(ubl_line("102", "5", "KGM", "25.00", "5.00"), whole=whole % ("true", "", "10.00") + total, number="G-1")
    said = self.prices("j.xml", text, "--charges", "spread", "--dry-run", status=1)
    self.assertIn("quoted 21.00, billed 25.00, 4.00 to reclaim", said.stdout)
    self.assertIn("comes to 85.00 without tax, and it adds up to 35.00", said.stderr)
    for part, reason in ((("true", "", "NaN"), "“NaN” cannot be read"),
                         (("perhaps", "", "9.00"), "“perhaps” does not say"),
                         (("true", " currencyID='USD'", "9.00"), "in USD"),
                         (("false", "", "60.01"), "−60.01, more than"), (("true", "", "0.505"), "0.505")):
      text = ubl(*goods, whole=whole % part, number="G-2")
      self.assertIn(reason, self.prices("k.xml", text, "--charges", "spread", status=2).stderr)
    text = ubl(ubl_line("102", "-5", "KGM", "-21.00", "4.20"), whole=whole % ("true", "", "9.00"), number="G-2")
    self.assertIn("no goods were delivered", self.prices("k.xml", text, "--charges", "spread", status=2).stderr)
    # 5 kg that are free: there is nothing by which to spread, and nothing to accept.
    text = ubl(ubl_line("102", "5", "KGM", "0.00", "0"), whole=whole % ("true", "", "6.00"), number="G-2")
    said = self.json("k.xml", text, "--charges", "spread", status=2)
    self.assertIn("6.00, and the goods cost nothing", said["refused"])
    self.assertEqual((self.states(said), said["lines"][0]["why"][-1]), (["doubtful"], said["refused"]))
    self.prices("k.xml", text, "--accept", "1", "--charges", "book", "--dry-run")
    self.assertEqual(len(self.table("purchases")), 4)

  # 13.20 over 90.00 of cups, which no food cost has, and 42.00 of mussels are a tenth of each. By hand.
  def test_disposables_have_their_part_of_charges(self):
    cups = ubl_line("X1", "3", "XBX", "90.00", "30.00")
    text = ubl(cups, ubl_line("102", "10", "KGM", "42.00", "4.20"),
               ubl_line("D", "1", "XBX", "5.00", "5.00", "Box deposit"), whole=self.CHARGE % "13.20")
    said = self.json("i.xml", text, "--charges", "spread")
    self.assertEqual([(line["booked"], line["price"]) for line in said["lines"]],
                     [("99", "30"), ("46.2", "4.2"), ("5", None)])
    self.json("j.xml", ubl(cups, whole=self.CHARGE % "3.00", number="Q-8"), "--charges", "spread")
    self.assertEqual(sorted(row["net_value"] for row in self.table("purchases")), ["46.2", "5", "93", "99"])

  # 42.00 + 70.00 + 20.00 of goods, 13.20 of charges: 4.20, 7.00, 2.00. By hand. Two lines were posted before.
  def test_charges_can_be_said_after_the_lines_are_booked(self):
    for how in ("spread", "book"):
      lines = [ubl_line("102", "10", "KGM", "42.00", "4.20"), ubl_line("301", "1", "XBX", "70.00", "70.00"),
               ubl_line(how, "1", "XBX", "20.00", "20.00", "Sea snails")]
      with self.subTest(how):
        text = ubl(*lines, whole=self.CHARGE % "13.20", number=f"Q-{how}")
        self.assertIn("use --charges to spread them", self.prices("i.xml", text, status=1).stderr)
        first = self.json("i.xml", text, "--charges", how, status=1)
        self.assertEqual([line["booked"] for line in first["lines"][3:]],
                         ["4.2", "7"] if how == "spread" else ["13.2"])
        again = self.json("i.xml", text, "--charges", how, "--is", "3=Butter", "--holds", "3=2 kg", "--accept-all")
        self.assertEqual(sum(float(line["booked"]) for line in again["lines"]), 145.2)
        self.assertIn("booked already", self.json("i.xml", text, status=2)["refused"])
        other = "book" if how == "spread" else "spread"
        self.assertIn("other amounts", self.json("i.xml", text, "--charges", other, status=2)["refused"])
    self.assertEqual([(row["ingredient"], row["amount"], row["net_value"]) for row in self.table("purchases")
                      if row["document"] == "Q-spread"],
                     [("Butter", "0", "7"), ("Butter", "2", "22"), ("Butter", "5000", "70"), ("Mussels", "0", "4.2"),
                      ("Mussels", "10", "42")])

  # What was answered before is not answered again. 50 oysters at 0.92 are 46.00, the mussels 88.00; of 13.40 of charges
  # they take 4.60 and 8.80, a tenth. A box of 50 would be 2500 of them. By hand.
  def test_a_line_that_was_answered_is_booked_once(self):
    for how, parts in (("spread", ["4.6", "46", "8.8", "88"]), ("book", ["13.4", "46", "88"])):
      lines = (ubl_line("105", "50", "EA", "46.00", "0.92"), ubl_line("102", "20", "KGM", "88.00", "4.40"))
      text = ubl(*lines, whole=self.CHARGE % "13.40", number=f"Q-{how}")
      self.prices("i.xml", text, "--holds", "1=1 pc")
      self.assertIn("booked 147.40 of 147.40", self.prices("i.xml", text, "--charges", how).stderr)
      self.assertEqual(sorted(row["net_value"] for row in self.table("purchases") if row["document"] == f"Q-{how}"),
                       parts)
      self.assertIn("booked already", self.json("i.xml", text, "--charges", how, status=2)["refused"])
    # A pack that was said, of which nothing asks: its money is known again.
    text = ubl(ubl_line("301", "1", "XBX", "70.00", "70.00"), ubl_line("?", "1", "XBX", "5.00", "5.00", "Snails"))
    self.prices("i.xml", text, "--holds", "1=6 kg", status=1)
    self.assertEqual(self.json("i.xml", text, "--is", "2=other")["lines"][0]["booked"], "70")

  # 0.22 over 10, 10 and 180: 0.01, 0.01, 0.20. By hand.
  def test_charges_said_later_come_to_the_same(self):
    lines = [ubl_line("102", "2", "KGM", "10.00", "5.00"), ubl_line("301", "1", "KGM", "10.00", "10.00"),
             ubl_line("X1", "6", "XBX", "180.00", "30.00")]
    text = ubl(*lines, whole=self.CHARGE % "0.22")
    self.prices("i.xml", text, "--accept-all")
    self.prices("i.xml", text, "--accept-all", "--charges", "spread")
    self.assertEqual(sorted(row["net_value"] for row in self.table("purchases")),
                     ["0.01", "0.01", "0.2", "10", "10", "180"])
    text = ubl(*[ubl_line("M20", "1", "KGM", net, net) for net in ("9.43", "3.11", "7.77")],
               whole=self.CHARGE % "6.40", currency="GBP")
    # 20.31 and 6.40 GBP at 1.2 are 32.052. Which of three prices is right is said again with the charges.
    for how in ("book", "spread"):
      for steps in ([[how]], [[], [how]]):
        copy, sums = shutil.copy(self.book, self.path("copy.croustade")), {}
        for step in steps:
          options = ["--charges", *step] if step else []
          self.call("prices", copy, self.file("i.xml", text), "--supplier", "Far bank", "--from", "2026-03-02",
                    "--accept", "1", "--accept-all", *options)
        with contextlib.closing(sqlite3.connect(copy)) as book:
          sums = book.execute("SELECT sum (net_value_micro) FROM purchase WHERE ingredient = "
                              "(SELECT id FROM item WHERE name = 'Hake') OR kind = 'other'").fetchone()[0]
        self.assertEqual(sums, 32_050_000, (how, steps))

  # 10.00 over 42.00 and 63.00 are 4.00 and 6.00; what is no goods has no part. By hand.
  def test_a_line_that_waits_may_still_be_no_goods(self):
    for answer, booked in (("2=other", ["46", "6", "63"]), ("2=return", ["46", "6"])):
      number = f"Q-{answer[2:]}"
      text = ubl(ubl_line("102", "10", "KGM", "42.00", "4.20"), ubl_line(number, "1", "XBX", "63.00", "63.00", number),
                 whole=self.CHARGE % "10.00", number=number)
      self.prices("i.xml", text, "--charges", "spread", status=1)
      self.prices("i.xml", text, "--charges", "spread", "--is", answer, status=0 if answer == "2=other" else 1)
      self.assertEqual(sorted(row["net_value"] for row in self.table("purchases") if row["document"] == number),
                       booked)
    # What was called other is known again, though its code is an ingredient's.
    text = ubl(ubl_line("102", "10", "KGM", "42.00", "4.20"), ubl_line("301", "1", "XBX", "99.00", "99.00", "Butter"))
    self.prices("i.xml", text, "--is", "2=other")
    said = self.prices("i.xml", text, "--is", "2=Butter", status=2).stderr
    self.assertIn("undo takes that back", said)
    self.assertIn("booked already", self.json("i.xml", text, status=2)["refused"])

  def test_what_becomes_of_charges_is_said_as_it_is(self):
    lines = (ubl_line("102", "10", "KGM", "42.00", "4.20"),
             ubl_line("?", "1", "XBX", "42.00", "42.00", "Sea snails"))
    text = ubl(*lines, whole=self.CHARGE % "10.00")
    for options, status, says in ((["--charges", "spread"], 1, "over its goods: 10.00, of it 5.00 on lines that wait"),
                                  (["--charges", "leave"], 1, "charges of 10.00 on the whole document are left out"),
                                  (["--charges", "book", "--is", "3=disposable"], 1, "booked as disposables: 10.00"),
                                  (["--is", "1=return"], 1, "−42.00 of 94.00, 84.00 less for what is given back")):
      self.assertIn(says, self.prices("i.xml", text, "--dry-run", *options, status=status).stderr)
    text = ubl(lines[0], whole=self.CHARGE % "10.00", currency="SEK")
    self.assertIn("which wait: 10.00 SEK", self.prices("i.xml", text, "--charges", "book", status=1).stderr)

  # 4.205 + 4.205 + 3.00 are 11.41, and so are the rows.
  def test_parts_of_a_cent_are_rounded_once(self):
    text = ubl(ubl_line("102", "1", "KGM", "4.205", "4.205"), ubl_line("102", "1", "KGM", "4.205", "4.205"),
               whole=self.CHARGE % "3.00")
    self.assertIn("booked 11.41 of 11.41", self.prices("i.xml", text, "--charges", "book").stderr)
    self.assertEqual(sorted(row["net_value"] for row in self.table("purchases")), ["3", "4.2", "4.21"])
    self.assertIn("booked already", self.json("i.xml", text, "--charges", "book", status=2)["refused"])


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

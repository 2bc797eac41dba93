#!/usr/bin/env python3
"""croustade-cli prices: what goes back, and what is credited of a price.

    test-cli-credits.py CROUSTADE-CLI

Figures are worked by hand beside each case.
"""

import os
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from prices import Case, cii, ubl, ubl_line  # noqa: E402


class Credits(Case):
  # The invoice that a credit note is of.
  NAMES = ("<a:BillingReference><a:InvoiceDocumentReference><b:ID>%s</b:ID></a:InvoiceDocumentReference>"
           "</a:BillingReference>")

  def test_a_credit_note_never_posts_a_price(self):
    said = self.json("credit.xml", ubl(ubl_line("102", "5", "KGM", "21.00", "4.20"), kind="381"))
    self.assertEqual(self.states(said), ["return"])
    self.assertEqual(self.price("Mussels"), [])
    self.assertEqual([(row["amount"], row["net_value"]) for row in self.table("purchases")], [("-5", "-21")])

  # 12.4 kg at 4.25, less 0.05 for each: 0.62, and the goods stay. At 4.25 or at the list's 4.20 they go back. By hand.
  def test_a_credit_is_of_goods_or_of_their_price(self):
    self.json("i.xml", ubl(ubl_line("102", "12.4", "KGM", "52.70", "4.25"), number="U-1"))
    credit = ubl(ubl_line("102", "12.4", "KGM", "0.62", "0.05"), number="C-1", kind="381")
    asked = self.prices("c.xml", credit, status=1).stderr
    self.assertIn("is 0.05 for 1 kg, the price was 4.25: do the goods go back, or a part of the price?", asked)
    self.assertIn("1=return, goods; 1=price, a part of the price", asked)
    for answer, status in (("--accept-all", 1), ("--accept=1", 2), ("--is=1=return", 0)):
      self.prices("c.xml", credit, answer, "--dry-run", status=status)
    said = self.json("c.xml", credit, "--is", "102=price")
    self.assertEqual((self.states(said), said["lines"][0]["booked"]), (["return"], "-0.62"))
    self.assertIn("the goods and the price in the book stay", said["lines"][0]["why"][-1])
    self.assertEqual([(row["amount"], row["net_value"]) for row in self.table("purchases")],
                     [("0", "-0.62"), ("12.4", "52.7")])
    self.assertIn("booked already", self.prices("c.xml", credit, status=2).stderr)
    self.assertIn("other amounts", self.prices("c.xml", credit, "--is", "1=return", status=2).stderr)
    self.assertEqual(self.price("Mussels"), ["4.25"])
    for number, price in (("C-2", "4.25"), ("C-3", "4.20")):
      back = ubl(ubl_line("102", "2", "KGM", f"{2 * float(price):.2f}", price), number=number, kind="381")
      self.assertEqual(self.states(self.json("c.xml", back)), ["return"])
      self.assertIn("other amounts", self.prices("c.xml", back, "--is", "1=price", status=2).stderr)
    # More than the price is no part of it, and is told; so is a credit of what was never billed.
    asked = self.prices("c.xml", ubl(ubl_line("102", "2", "KGM", "24.20", "12.10"), number="C-5", kind="381"),
                        "--dry-run", status=1).stderr
    self.assertIn("is 12.10 for 1 kg, more than the price, which was 4.2", asked)
    asked = self.prices("c.xml", ubl(ubl_line("203", "60", "C62", "3.00", "0.05"), number="C-6", kind="381"),
                        "--dry-run", status=1).stderr
    self.assertIn("neither a price nor a purchase: do the goods go back", asked)
    # What is in a box is no question of its price; what an invoice asks for gives no price back.
    self.json("c.xml", ubl(ubl_line("102", "1", "XBX", "0.50", "0.50"), number="C-4", kind="381"), "--is", "1=price")
    goods = ubl(ubl_line("102", "1", "KGM", "4.20", "4.20"), number="U-2")
    self.assertIn("cannot be said of a line", self.prices("i.xml", goods, "--is", "1=price", status=2).stderr)
    # What is no ingredient has no price that is credited, whichever is said first, or was said of it before.
    knife = ubl(ubl_line("K", "1", "C62", "6.00", "6.00", "Oyster knife"), number="C-5", kind="381")
    for is_it in (["1=price", "1=other"], ["1=other", "1=price"]):
      both = [f"--is={answer}" for answer in is_it]
      self.assertIn(f"“{is_it[1]}” cannot be said of a line", self.prices("c.xml", knife, *both, status=2).stderr)
    self.prices("c.xml", knife, "--is", "1=other")
    again = self.prices("c.xml", knife.replace("C-5", "C-6"), "--is", "1=price", "--dry-run")
    self.assertNotIn("price credited", again.stdout)

  # 10 kg for 42.00 were bought, and 2.00 without an amount; 2 pieces for 2.00 more. 40 kg at 4.20 are 168.00.
  def test_what_has_no_amount_hides_no_return(self):
    back = ubl(ubl_line("102", "40", "KGM", "168.00", "4.20"), number="C-1", kind="381")
    head = "date,supplier,document,kind,ingredient,amount,unit,net_value\n"
    bought = "2026-02-02,The quay,T-1,food,Mussels,10,kg,42\n"
    for row, asks in (("2026-02-03,The quay,T-2,food,Mussels,,,-2\n", "40 kg goes back, and of what was bought 10 kg"),
                      ("2026-02-03,The quay,T-2,food,Mussels,,,2\n",
                       "168.00 EUR goes back, and of what was bought 44.00 EUR has"),
                      ("2026-02-03,The quay,T-2,food,Mussels,2,each,2\n", "168.00 EUR goes back, and of what")):
      folder = self.path(f"bought{len(os.listdir(self.folder.name))}")
      os.mkdir(folder)
      pathlib.Path(folder, "purchases.csv").write_text(head + bought + row, encoding="utf-8")
      self.assertEqual(self.call("add", self.book, folder).returncode, 0)
      self.assertIn(asks, self.prices("c.xml", back, "--dry-run", status=1).stderr)
      less = back.replace("40</b:I", "9</b:I").replace("168.00", "37.80")
      self.prices("c.xml", less, "--dry-run")
      self.assertEqual(self.call("undo", self.book).returncode, 0)

  # 10 kg at 11.00 GBP are 110.00, at 1.5 of the day 165.00 EUR; 120.00 GBP are 180.00.
  def test_money_of_the_book_is_named_beside_another(self):
    goods = ubl(ubl_line("M20", "10", "KGM", "110.00", "11.00"), number="U-1", currency="GBP")
    self.json("i.xml", goods.replace("Date>2026-03-02", "Date>2026-03-04"), supplier="Far bank")
    credit = ubl(ubl_line("M20", "10", "KGM", "120.00", "12.00"), number="C-1", kind="381", currency="GBP")
    asked = self.prices("c.xml", credit.replace("Date>2026-03-02", "Date>2026-03-04"), "--is", "1=price",
                        supplier="Far bank", status=1).stderr
    self.assertIn("180.00 EUR of the price is credited, and of what was billed 165.00 EUR is not credited yet", asked)

  # 10 kg were bought with U-1 and 30 with U-2: of U-1 11 kg cannot go back, nor 43.00 of its price; of both 11 can.
  def test_a_credit_is_held_against_the_invoice_that_it_names(self):
    for number, kilograms in (("U-1", 10), ("U-2", 30)):
      self.json("i.xml", ubl(ubl_line("102", f"{kilograms}", "KGM", f"{4.2 * kilograms:.2f}", "4.20"), number=number))
    back = ubl_line("102", "11", "KGM", "46.20", "4.20")
    for of, asks in ((("u-1",), "11 kg goes back, and of what was bought 10 kg (u-1) has not"),
                     (("U-1", "U-1"), "10 kg (U-1)"), (("U-2",), None), (("U-1", "U-2"), None), (("U-9",), None)):
      whole = "".join(self.NAMES % number for number in of)
      credit = ubl(back, number="C-1", kind="381", whole=whole)
      done = self.prices("c.xml", credit, "--dry-run", status=int(asks is not None))
      self.assertIn(asks or "", done.stderr)
    price = ubl(ubl_line("102", "10", "KGM", "43.00", "4.30"), number="C-2", kind="381", whole=self.NAMES % "U-1")
    asked = self.prices("c.xml", price, "--is", "1=price", "--dry-run", status=1).stderr
    self.assertIn("of what was billed 42.00 (U-1) is not credited yet", asked)

  # 10 kg were bought with U-1 at 4.20, and 10 with U-2 at 4.30. Credits have numbers of their own: 3 and 7 kg of U-1
  # are all of it, and leave those of U-2, told apart by their price. Butter was not on U-1.
  def test_credits_of_one_invoice_are_added_up(self):
    for number, price in (("U-1", "4.20"), ("U-2", "4.30")):
      self.json("i.xml", ubl(ubl_line("102", "10", "KGM", f"{10 * float(price):.2f}", price), number=number))
    for number, of, kilograms, price, left in (
        ("C-1", "U-1", 3, "4.20", None),
        ("C-2", "U-1", 8, "4.20", "8 kg goes back, and of what was bought 7 kg (U-1)"),
        ("C-3", "U-1", 7, "4.20", None), ("C-4", "U-1", 1, "4.20", "what was bought 0 kg (U-1)"),
        ("C-5", "U-2", 9, "4.30", None), ("C-6", "U-2", 2, "4.30", "what was bought 1 kg (U-2)")):
      credit = ubl(ubl_line("102", f"{kilograms}", "KGM", f"{kilograms * float(price):.2f}", price), number=number,
                   kind="381", whole=self.NAMES % of)
      asked = ["--dry-run"] if left is not None else []
      self.assertIn(left or "", self.prices("c.xml", credit, *asked, status=int(left is not None)).stderr)
    self.json("i.xml", ubl(ubl_line("301", "1", "XBX", "60.00", "60.00"), number="U-3"))
    butter = ubl(ubl_line("301", "1", "XBX", "60.00", "60.00"), number="C-7", kind="381", whole=self.NAMES % "U-1")
    self.assertIn("(U-1) has not", self.prices("c.xml", butter, "--dry-run", status=1).stderr)
    self.prices("c.xml", butter.replace(">U-1<", ">U-3<"), "--dry-run")

  # 10 kg each of U-1 and U-2 at one price, where no credit tells of which it is: they are held against both together,
  # and of 20 kg 8 leave 12, of which no more than its own 10 go back of U-1.
  def test_credits_at_one_price_are_held_against_all_that_have_it(self):
    for number in ("U-1", "U-2"):
      self.json("i.xml", ubl(ubl_line("102", "10", "KGM", "42.00", "4.20"), number=number))
    for number, of, kilograms, left in (("C-1", "U-2", 8, None), ("C-2", "U-1", 11, "10 kg (U-1)"),
                                        ("C-3", "U-1", 5, None), ("C-4", "U-1", 8, "7 kg (U-1)")):
      credit = ubl(ubl_line("102", f"{kilograms}", "KGM", f"{kilograms * 4.2:.2f}", "4.20"), number=number, kind="381",
                   whole=self.NAMES % of)
      asked = ["--dry-run"] if left is not None else []
      self.assertIn(left or "", self.prices("c.xml", credit, *asked, status=int(left is not None)).stderr)

  # 10 boxes for 460.00 with U-1 and 2 for 92.00 with U-2: of the price of U-1 no more than 460.00 comes back, and of
  # both 552.00, which holds what names none, both, or one that the book lacks. What a box holds is no matter.
  def test_no_more_of_the_price_of_a_box_is_credited_than_was_billed(self):
    for number, boxes in (("U-1", 10), ("U-2", 2)):
      box = ubl_line("105", f"{boxes}", "XBX", f"{46 * boxes}.00", "46.00")
      self.json("i.xml", ubl(box, number=number), "--holds", "1=50 pc")
    for of, money, left in ((("U-1",), 460, None), (("U-1",), 461, "460.00 (U-1)"), (("U-2",), 93, "92.00 (U-2)"),
                            ((), 552, None), ((), 553, "552.00"), (("U-1", "U-2"), 553, "552.00"),
                            (("U-9",), 553, "552.00")):
      credit = ubl(ubl_line("105", "2", "XBX", f"{money}.00", f"{money / 2}"), number="C-1", kind="381",
                   whole="".join(self.NAMES % number for number in of))
      done = self.prices("c.xml", credit, "--is", "1=price", "--dry-run", status=int(left is not None))
      if left is not None:
        self.assertIn(f"{money}.00 of the price is credited, and of what was billed {left} is not", done.stderr)
        self.assertNotIn("--holds", done.stderr)
        self.prices("c.xml", credit, "--is", "1=price", "--accept", "1", "--dry-run")
    names = "<m:InvoiceReferencedDocument><m:IssuerAssignedID>U-1</m:IssuerAssignedID></m:InvoiceReferencedDocument>"
    other = cii("2", "XBX", "461.00", "105").replace(">380<", ">381<").replace("<m:InvoiceC", names + "<m:InvoiceC")
    asked = self.prices("c.xml", other, "--is", "105=price", "--dry-run", status=1).stderr
    self.assertIn("of what was billed 460.00 (U-1) is not credited yet", asked)

  # Of a box of 50 five are dead: how many a box holds is asked before how many boxes that is.
  def test_what_a_number_counts_is_asked_before_how_many_there_were(self):
    self.json("i.xml", ubl(ubl_line("105", "1", "XBX", "46.00", "46.00"), number="U-1"))
    credit = ubl(ubl_line("105", "5", "C62", "4.60", "0.92"), number="C-1", kind="381")
    asked = self.prices("c.xml", credit, "--dry-run", status=1).stderr
    self.assertIn("--holds", asked)
    self.assertNotIn("goes back", asked)
    self.prices("c.xml", credit, "--holds", "1=1 pc", "--dry-run")

  # 5 kg at 3.50 GBP are 17.50, at 1.2 of the day of delivery 21.00 EUR. By hand.
  def test_what_goes_back_in_another_currency_posts_no_price(self):
    lines = (ubl_line("102", "-5", "KGM", "-17.50", "3.50"), ubl_line("301", "1", "XBX", "0.00", "0"))
    said = self.json("i.xml", ubl(*lines, currency="GBP"))
    self.assertEqual([line["booked"] for line in said["lines"]], ["-21", "0"])
    self.assertEqual([self.price(name) for name in ("Mussels", "Butter")], [[], []])

  # An invoice puts a line of its own right: 5 kg were billed at 4.40 instead of 4.20. By hand.
  def test_what_a_document_asks_for_itself_goes_back(self):
    text = ubl(ubl_line("102", "-5", "KGM", "-22.00", "4.40"), ubl_line("102", "5", "KGM", "22.00", "4.40"))
    self.json("i.xml", text)
    self.assertEqual([row["amount"] for row in self.table("purchases")], ["-5", "5"])

  # 10.00 over three times 21.00: the odd cent is the first line's, there and back. By hand.
  def test_what_is_given_back_has_the_parts_that_were_asked_for(self):
    goods, back = [[ubl_line("102", f"{sign}5", "KGM", f"{sign}21.00", "4.20") for _ in range(3)] for sign in ("", "-")]
    parts = ["24.34", "24.33", "24.33"]
    for text, sign in ((ubl(*goods, whole=self.CHARGE % "10.00"), ""),
                       (ubl(*goods, whole=self.CHARGE % "10.00", number="Q-8", kind="381"), "-"),
                       (ubl(*back, whole=self.CHARGE % "-10.00", number="Q-9"), "-"),
                       (ubl(*back, whole=(self.CHARGE % "-10.00").replace("true", "false"), number="Q-10"), None)):
      # From the third on more goes back than came, which asks.
      said = self.json("i.xml", text, "--charges", "spread", "--accept-all")
      # An allowance that is taken back asks for 10.00 of it again.
      self.assertEqual([line["booked"] for line in said["lines"]],
                       ["-17.66", "-17.67", "-17.67"] if sign is None else [sign + part for part in parts])


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

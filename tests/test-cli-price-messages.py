#!/usr/bin/env python3
"""croustade-cli prices: messages, and what stands around a price.

    test-cli-price-messages.py CROUSTADE-CLI

Figures are worked by hand beside each case.
"""

import datetime
import decimal
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "support"))

from prices import Case  # noqa: E402


class PriceMessages(Case):
  def test_a_rate_that_is_added_is_no_tax(self):
    for note in ("All prices +3 %", "Fuel +3 %", "Plus 3 % energy surcharge on all prices", "Orders below 80: +10 %"):
      for text in (f"{note}\nMussels 4.30/kg ex VAT\n", f"Mussels 4.30/kg\n{note}\n"):
        lines = self.json("message.txt", text, "--dry-run", status=1)["lines"]
        why = [line["why"] for line in lines if line["ingredient"] == "Mussels"]
        self.assertEqual(why, [[f"“{note}” may change the prices of the list. Do they hold as they stand?"]])
    lines = self.json("message.txt", "Prices + 10 % VAT\nX1 31.00\n", "--dry-run")["lines"]
    self.assertEqual([(line["state"], line["last"]) for line in lines], [("changed", "30")])

  def test_what_is_of_orders_leaves_no_tax_open(self):
    # The cup's last price is 36.30 with 21 %: 30.00 without.
    for note in ("Prix HT, franco à partir de 60 €", "Prices ex VAT. Min order 60.",
                 "Prices exclude VAT. Delivery free over 100."):
      lines = self.json("message.txt", f"{note}\nX1 31.00\n", "--dry-run", status=1)["lines"]
      self.assertEqual([(line["state"], line["last"]) for line in lines[1:]], [("changed", "30")], note)
    for note in ("Prices ex VAT, spirits 20 more", "Prices ex VAT, order by 5, spirits incl. VAT",
                 "Prices ex VAT, orders under 60 add 5 a box", "Prix HT, sauf commande 60"):
      lines = self.json("message.txt", f"{note}\nX1 31.00\n", "--dry-run", status=1)["lines"]
      self.assertEqual(lines[-1]["state"], "doubtful", note)

  def test_what_is_said_of_all_is_asked_once_and_can_be_accepted(self):
    for note in ("All prices net", "prix nets", "Veg this week, all per box:", "prices are per box unless I say kg"):
      text = f"Mussels 21.50\nX1 {'31' if 'net' in note else '37.51'}\n{note}\n"
      lines = self.json("message.txt", text, "--dry-run", status=1)["lines"]
      self.assertEqual([line["why"] for line in lines[:2]],
                       [[f"“{note}” may change the prices of the list. Do they hold as they stand?"]] * 2)
      lines = self.json("message.txt", text, "--dry-run", "--accept=1", status=1)["lines"]
      # The cup's last price is 36.30 with 21 %: net prices are without, 30.00.
      self.assertEqual([(line["state"], line["last"]) for line in lines[:2]],
                       [("changed", "21"), ("changed", "30" if "net" in note else "36.3")], note)

  def test_tax_that_is_left_open_is_answered_once_for_all(self):
    # The cup's last price is 36.30 with 21 %: 30.00 without.
    above, below = "{}\nMussels 21.50\nX1 31\n", "Mussels 21.50\nX1 31\n{}\n"
    table = "Item,Price\nMussels,21.50\nPaper cup,31.00\n{}\n"
    for note, text in (("Veg is zero-rated", above), ("VAT not charged", below), ("No VAT on food", table),
                       ("VAT 20 %", above), ("Prices ex VAT on all we sell", table)):
      name, text = "list.csv" if text == table else "message.txt", text.format(note)
      lines = self.json(name, text, "--dry-run", status=1)["lines"]
      priced = [line for line in lines if line["ingredient"] is not None]
      self.assertEqual([line["why"] for line in priced],
                       [[f"“{note}” leaves open whether the prices have tax in them. Are all of the list without "
                         "tax?"]] * 2)
      lines = self.json(name, text, "--dry-run", f"--accept={priced[0]['line']}", status=1)["lines"]
      self.assertEqual([(line["state"], line["last"]) for line in lines if line["ingredient"] is not None],
                       [("changed", "21"), ("changed", "30")], note)
    # Which goods have tax in them nobody can answer for all.
    for note in ("Spirits incl. VAT", "Prices are no longer ex VAT", "Prices incl. VAT 5.5 % and 20 %"):
      text = f"{note}\nMussels 21.50\nX1 31\n"
      lines = self.json("message.txt", text, "--dry-run", "--accept-all", status=1)["lines"]
      self.assertEqual([line["state"] for line in lines if line["ingredient"] is not None], ["doubtful"] * 2, note)

  def test_what_is_said_of_one_is_asked_of_that_alone(self):
    for note in ("mussels are each", "mussels per kg", "mussels tomorrow", "mussels gone", "mussels w/e only"):
      lines = self.json("message.txt", f"Mussels 21.50\nX1 37.51\n{note}\n", "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in lines[:2]], ["doubtful", "changed"], note)
    for note in ("mussels per kg, the rest per box", "mussels are each, others in bags"):
      lines = self.json("message.txt", f"Mussels 21.50\nX1 37.51\n{note}\n", "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in lines[:2]], ["doubtful"] * 2, note)
    # 4.30 per kg is 21.50 for 5 kg.
    for note, mussels in (("Price per kg except butter each", ("changed", "21.5")),
                          ("Price per kg except game each", ("doubtful", "4.3"))):
      lines = self.json("message.txt", f"{note}\nMussels 4.30\nButter 72\n", "--dry-run", status=1)["lines"]
      self.assertEqual([(line["state"], line["price"]) for line in lines[1:]], [mussels, ("doubtful", "72")], note)

  def test_tomorrow_is_so_for_who_reads(self):
    today = datetime.date.today()
    for day, state in ((0, "doubtful"), (1, "changed"), (2, "doubtful")):
      for text in ("Prices for tomorrow", "Prices from tomorrow", "Prix de demain", "Tarifs dès demain"):
        since = (today + datetime.timedelta(day)).isoformat()
        said = self.json("message.txt", f"{text}\nMussels 21.50\nPaper cup n/c\n", "--dry-run", since=since, status=1)
        self.assertEqual(self.states(said)[1:], [state, "unchanged"], (text, day))

  def test_a_message_is_read_in_any_order(self):
    said = self.json("message.txt", "102 mussels 21.75\n- £/€: €71 butter\noysters: none today\n"
                     "22.40 lobsters?\n", "--dry-run", status=1)
    self.assertEqual(self.states(said)[0], "changed")
    self.assertEqual(said["lines"][0]["price"], "21.75")
    said = self.json("message.txt", "Mussels 4,35/kg\n€71.50 butter\nrock oysters none today\n105 50 x 1 pc 47.-\n",
                     status=1)
    self.assertEqual([line["price"] for line in said["lines"]][:2], ["21.75", "71.5"])
    self.assertEqual(self.states(said)[2:], ["doubtful"] * 2)

  def test_a_message_is_read_in_what_it_was_saved_in(self):
    text = "beurre d’été de la maison\n102 mussels 21,75 €\n"
    for charset in ("utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252"):
      with self.subTest(charset):
        said = self.json("message.txt", text.encode(charset), "--dry-run", status=1)
        self.assertIn("beurre d’été", said["lines"][0]["name"])
        self.assertEqual(said["lines"][1]["price"], "21.75")

  def test_a_number_of_per_cents_is_no_price(self):
    last = decimal.Decimal(self.json("message.txt", "102 mussels =\n", "--dry-run")["lines"][0]["price"])
    said = self.json("message.txt", "102 mussels up 10 %\n", "--dry-run", status=1)
    self.assertEqual(self.states(said), ["changed"])
    self.assertEqual(decimal.Decimal(said["lines"][0]["price"]), last * decimal.Decimal("1.1"))
    for name, text in (("message.txt", "102 mussels 10 %\n"), ("list.csv", "Code,Price\n102,10 %\n")):
      said = self.json(name, text, status=1)
      self.assertEqual(self.states(said), ["doubtful"], text)

  def test_pounds_are_money_or_asked(self):
    # The far bank states prices in GBP per kg, of a pack of 10 kg at 110.00.
    for text, price in (("Hake 11 pounds 50", None), ("Hake 5 pounds 20", None), ("M20 hake 11 pounds 50", None),
                        ("Hake 11.50 pounds", "115"), ("Hake 11.50 pounds a kilo", "115"), ("Hake 5 lb 26.00", "26"),
                        ("Hake 5 pounds 26.00", "26")):
      with self.subTest(text):
        line = self.json("message.txt", text + "\n", "--dry-run", supplier="Far bank", status=1 if price is None else 0)
        self.assertEqual([line["lines"][0]["state"] == "doubtful", line["lines"][0]["price"]], [price is None, price])

  def test_a_message_that_speaks_of_tax_is_obeyed(self):
    # Words are common practice, no source. They are no part of the name, wherever they stand beside the price.
    without = ["31.00 ex VAT", "31.00 excl. VAT", "31 excluding VAT", "31.00 net of VAT", "31.00 + VAT", "31+VAT",
               "31.00 HT", "31.00 plus VAT", "31,00 H.T.", "31,00 hors taxe", "31,00 hors taxes", "31 (ex VAT)",
               "HT 31,00", "ex VAT 31", "31 € HT", "31 HT €", "31,00 TVA non comprise"]
    with_tax = ["37.51 incl. VAT", "37.51 inc VAT", "37,51 TTC", "37,51 T.T.C.", "37.51 (VAT included)", "TTC 37.51"]
    for i, price in enumerate(without + with_tax):
      line = f"{'Paper cup' if i % 4 == 0 else 'X1'} {price}"
      with self.subTest(line):
        row = self.json("message.txt", line + "\n", "--dry-run")["lines"][0]
        self.assertEqual([row["price"], row["last"], row["state"]],
                         ["37.51", "36.3", "changed"] if price in with_tax else ["31", "30", "changed"])
    # A change is of the last price as it was, which has 21 % in it, whatever is said of all: 36.30 × 1.1.
    row = self.json("message.txt", "All prices ex VAT\nX1 up 10 %\n", "--dry-run")["lines"][0]
    self.assertEqual([row["price"], row["last"], row["state"]], ["39.93", "36.3", "changed"])
    # A line of its own is of all.
    for i, words in enumerate(("ex VAT", "hors taxes", "VAT not included", "(ex VAT)", "Excl. VAT:",
                               "Prices plus 21% VAT", "TVA 21 % en sus", "Tarif HT 27/02", "VAT to be added",
                               "List of 1 March, ex VAT", "prices exclude VAT",
                               "The quay: prices of 2nd March ex VAT")):
      text = "\n".join((words, "X1 31")[::1 - 2 * (i % 2)]) + "\n"
      self.assertEqual([line["last"] for line in self.json("message.txt", text, "--dry-run")["lines"]], ["30"], text)
    for words in ("Prices include VAT", "incl. VAT 21%", "TTC"):
      line = self.json("message.txt", f"{words}\nX1 37.51\n", "--dry-run")["lines"][0]
      self.assertEqual([line["price"], line["last"]], ["37.51", "36.3"])
    # Among other words, with a number, it is asked of all. What negates, a second rate, or one said elsewhere too.
    said = self.json("message.txt", "Morning, our prices ex VAT of 2/3 but for gifts\nX1 31\n102 21.50\n",
                     "--dry-run", status=1)["lines"]
    self.assertEqual([line["state"] for line in said[1:3]], ["doubtful", "doubtful"])
    self.assertIn("leaves open whether the prices have tax", said[1]["why"][0])
    for words in ("VAT included: no", "Prices are no longer ex VAT", "Price 31.- HT",
                  "Les prix ne sont plus HT", "Prices include VAT but not delivery", "All net",
                  "Prices incl. VAT 5.5 % and 20 %", "Prices excl. VAT, order by 5 pm", "Not all prices include VAT"):
      said = self.json("message.txt", f"{words}\nX1 37.51\n102 21.50\n", "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in said if line["ingredient"] is not None], ["doubtful"] * 2, words)
    # A sentence is read whole, though it is wrapped.
    for words in ("Prices do not\ninclude VAT", "Nos prix ne comprennent pas\nla TVA", "No VAT included"):
      said = self.json("message.txt", f"{words}\nX1 31\n102 21.50\n", "--dry-run")["lines"]
      self.assertEqual([line["last"] for line in said][:1], ["30"], words)
    # Of one line alone: a price, whatever stands before it. Not of prices.
    for words in ("31 ex VAT", "saffron 4.20 ex VAT", "VAT invoice before Friday"):
      said = self.json("message.txt", f"{words}\nX1 37.51\n", "--dry-run", status=1)["lines"]
      self.assertEqual(said[1]["last"], "36.3")
    text = "VAT invoice before Friday\nCode,Name,Price\nX1,Cup,37.51\n"
    self.assertEqual(self.json("list.csv", text, "--dry-run")["lines"][0]["last"], "36.3")
    # In a cell of a table it is said better than in its heading.
    self.assertEqual([(line["price"], line["last"]) for price in ("31,00 HT", "37,51 € TTC") for line in
                      self.json("list.csv", f"Code;Prix\nX1;{price}\n", "--dry-run")["lines"]],
                     [("31", "30"), ("37.51", "36.3")])
    # At what rate nobody said; a price that is both; one as last, which is what the last one is.
    for line in ("102 25.41 TTC", "X1 31 HT TTC"):
      self.assertEqual(self.states(self.json("message.txt", line + "\n", "--dry-run", status=1)), ["doubtful"])
    row = self.json("message.txt", "X1 same as last ex VAT\n", "--dry-run")["lines"][0]
    self.assertEqual([row["price"], row["last"]], ["36.3", "36.3"])
    # Of all lines that do not say it themselves.
    for text in ("All prices ex VAT\nX1 31.00\n", "X1 31.00\nNos prix sont HT.\n"):
      self.assertEqual([line["last"] for line in self.json("message.txt", text, "--dry-run")["lines"]], ["30"])
    self.json("message.txt", "X1 31.00 ex VAT\n")
    taxes = sorted(row["tax_included_pct"] for row in self.table("prices") if row["ingredient"] == "Paper cup")
    self.assertEqual(taxes, ["", "21"])

  def test_what_stands_around_a_price_is_asked(self):
    # Mussels were 21.00 in euros. Words and signs are common practice, no source.
    for text in ("Mussels 21.50\u00a0£", "Mussels (£) 21.50", "£ Mussels 21.50", "Mussels ❌ 21.50", "~~Mussels 21.50~~",
                 "Mussels 21.50++", "Hi\n> Mussels 21.50", "On Mon, The quay wrote:\nMussels 21.50",
                 "Prices in GBP, order by 5 pm\nMussels 21.50", "All prices less 10 %\nMussels 4.30/kg",
                 "Mussels 21.50 £ €", "Mussels EUR 21.50 GBP", "GBP, 30 days\nMussels 4.30/kg",
                 "New list tomorrow!\nFrom: The quay\nSent: Monday\nMussels 21.50", "Last week:\nMussels 21.50",
                 "Hi\n| Mussels 21.50", "Mussels 21.50*", "Energy surcharge 1.50 per case\nMussels 21.50"):
      said = self.json("message.txt", text + "\n", "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in said if line["ingredient"] is not None], ["doubtful"], text)
    for headings, cells in (("Price,Unit", "21.50,£/kg"), ("Price,Unit", "21.50,GBP/kg"),
                            ("Price,Remark", "21.50,in £"),
                            ("Price,Available", "21.50,no"), ("Price,Status", "21.50,discontinued"),
                            ("Price,Supplier", "21.50,Marsh Farm"), ("Price,Note", "21.50,less 10 %"),
                            ("Price/2", "21.50"), ("Price 1-10 kg", "21.50")):
      said = self.json("list.csv", f"Code,Name,{headings}\n102,Mussels,{cells}\n", "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in said], ["doubtful"], headings)
    for headings in ("Price,Your price", "List price,Offer", "Price,Net", "Price,Rem. %"):
      done = self.prices("list.csv", f"Code,Name,{headings}\n102,Mussels,21.50,20\n", "--dry-run", status=2)
      self.assertIn("which column has the price to pay is not clear", done.stderr)
    # What only lists a line is none of it; blanks of any kind are blanks.
    for text in ("1. Mussels 21.50\n2. X1 37.51", "1. Mussels 21.50\n1. X1 37.51", "(1) Mussels 21.50\n(2) X1 37.51",
                 "2.Mussels 21.50\n4.X1 37.51", "1 - Mussels 21.50\n2 - X1 37.51",
                 "24/02/2026, 06:12 - The quay: Mussels 21.50\n24/02/2026, 06:13 - The quay: X1 37.51",
                 "06:12 Mussels 21.50\n06:13 X1 37.51", "✓ Mussels *21.50*\n➡️ X1 **37.51**",
                 "🦪 Mussels 21.50\n▪ _X1_ 37.51",
                 "[24/02, 06:12] The quay: Mussels 21.50\nX1 37.51",
                 "Mussels\u00a021,50\u202f€\nX1\u00a037,51"):
      self.assertEqual(self.states(self.json("message.txt", text + "\n", "--dry-run")), ["changed", "changed"], text)
    # What was written on a day far from that of the list, in a conversation or a mail; of the next stamp no more.
    for stamp, states in (("24/03/2025, 06:12 - The quay: ", "doubtful"),
                          ("[24/03/2025, 06:12] The quay: ", "doubtful"),
                          ("2026-04-02 06:12 - The quay: ", "doubtful"),
                          ("Sent: Mon 24 March 2025 06:12\n", "doubtful"),
                          ("Envoyé : lundi 24 mars 2025\n", "doubtful"), ("Sent: 4 March 2026 06:12\n", "changed"),
                          ("24/03/2025, 06:12 - The quay: Hi\n02/03/2026, 06:12 - The quay: ", "changed")):
      said = self.json("message.txt", f"{stamp}Mussels 21.50\n", "--dry-run",
                       status=int("\n" in stamp or states == "doubtful"))["lines"]
      self.assertEqual(said[-1]["state"], states, stamp)
    # A price with its stroke left out, which no pack of the supplier's is.
    for text, price in (("Mussels 4.30 kg", "21.5"), ("Mussels 4.3 kilo", "21.5"), ("Mussels 4.30/kg", "21.5")):
      line = self.json("message.txt", f"{text}\n", "--dry-run", status=int("/" not in text))["lines"][0]
      self.assertEqual([line["state"], line["price"]], ["changed" if "/" in text else "doubtful", price])
    # A line that takes back what one above it says of the same goods; other goods take nothing back.
    for text in ("sorry, mussels 22.80", "Correction: mussels 22.80", "mussels 22.80 sorry", "No mussels after all",
                 "Sorry mussels should be 22.80", "I meant mussels 22.80", "mussels not 21.50 but 22.80",
                 "mussels off, sorry", "forget the mussels", "Again: mussels 22.80", "Smoked mussels 9.50",
                 "Mussels, smoked 9.50"):
      said = self.json("message.txt", f"Mussels 21.50\nX1 37.51\n{text}\n", "--dry-run", status=1)
      state = "changed" if "moked" in text else "doubtful"
      self.assertEqual(self.states(said), [state, "changed", "unmatched"], text)
    # The head of a mail that has nothing before it is none of a reply.
    said = self.json("message.txt", "From: The quay\nSent: Monday\nMussels 21.50\n", "--dry-run", status=1)
    self.assertEqual(self.states(said)[2:], ["changed"])
    # So many "each" is a price where no other is; a number with cents counts nothing.
    said = self.json("message.txt", "X1 1 each\n", "--dry-run", status=1)["lines"][0]
    self.assertEqual(said["price"], "1000")
    # Another supplier of the book, whose list it may be.
    for note in ("Far bank", "From: Far bank", "Prices from Far Bank", "Tarif Far Bank"):
      said = self.json("message.txt", f"{note}\nMussels 21.50\n", "--dry-run", status=2)
      self.assertIn("the list is headed “Far bank”, another supplier", said["refused"])
    # Below prices its name is talk; a discount in a line is of that line.
    said = self.json("message.txt", "Mussels 21.50\nFar Bank is shut\nX1 17 less 5 %\n", "--dry-run", status=1)
    self.assertEqual(self.states(said)[0], "changed")
    said = self.json("message.txt", "Far Bank is shut today\nMussels 21.50\n", "--dry-run", status=1)
    self.assertEqual(self.states(said)[1:], ["changed"])
    said = self.json("message.txt", "Far bank\nMussels 21.50\n", "--dry-run", "--accept-seller", status=1)
    self.assertEqual(self.states(said)[1:], ["changed"])
    # What reads as headings above the lines of a message.
    said = self.json("list.txt", "Item, price\nMussels 21.50\n", "--dry-run", status=1)
    self.assertEqual(self.states(said)[1:], ["changed"])
    # "It is right" answers a note of all prices, and no line that leaves its price open: why is said.
    self.assertEqual(self.states(self.json("message.txt", "Valid from 7 March\nMussels 21.50\n", "--dry-run",
                                           "--accept-all", status=1))[1:], ["changed"])
    done = self.prices("message.txt", "Mussels 21.50 ✅\n", "--dry-run", "--accept=1", status=2)
    self.assertIn("line “1” cannot be accepted as it stands\n“✅” leaves the price open.\nwrite the line without “✅”",
                  done.stderr)
    # What stands beside a price can be said to be right; whose list it is too.
    line = "Code,Name,Price,Note\n102,Mussels,21.50,less 10 %\n"
    self.assertEqual(self.states(self.json("list.csv", line, "--dry-run", "--accept-all")), ["changed"])
    line = "Far bank\nCode,Name,Price\n102,Mussels,21.50\n"
    self.assertIn("--accept-seller", self.prices("list.csv", line, "--dry-run", status=2).stderr)
    self.assertIn("the list is headed", self.prices("list.csv", line, "--dry-run", "--accept-seller").stderr)
    # What most rows say alike is asked of all, and answered once.
    line = "Code,Name,Price,Valid from\n102,Mussels,21.50,03/04/2027\nX1,Cup,37.51,03/04/2027\n"
    self.assertEqual(self.states(self.json("list.csv", line, "--dry-run", status=1)), ["doubtful", "doubtful"])
    self.assertEqual(self.states(self.json("list.csv", line, "--dry-run", "--accept=2")), ["changed", "changed"])
    # The day of a whole list is told, a day of one row asked.
    done = self.prices("list.csv", "Code,Price,Valid from\n102,21.50,2026-12-07\nX1,37.51,2026-12-07\n", "--dry-run")
    self.assertIn("the list says that its prices hold from", done.stderr)
    said = self.json("list.csv", "Code,Price,Valid from\n102,21.50,2026-12-07\nX1,37.51,\n102,21.5,\n", "--dry-run")
    self.assertEqual(self.states(said)[1], "changed")

  def test_what_is_said_of_tax_is_asked_and_never_lost(self):
    # The cup's last price is 36.30 with 21 %, 30.00 without; mussels have none. Words are common practice, no source.
    for words in ("Prices do not include VAT", "All ex-VAT this week!", "Wk 10 ex-VAT", "VAT is extra"):
      line = self.json("message.txt", f"{words}\nX1 31\n", "--dry-run")["lines"][0]
      self.assertEqual([line["price"], line["last"]], ["31", "30"], words)
    # A line of tax or of a currency without goods that is not understood is asked of what it touches.
    for words, state in (("The quay – net prices", "doubtful"), ("VAT as usual", "doubtful"),
                         ("Prices ex VAT except cups", "doubtful"), ("In pounds or so", "doubtful"),
                         ("Prices ex VAT, any questions ring 06 12 34 56 78", "doubtful"),
                         ("VAT no. FR 12", "changed")):
      said = self.json("message.txt", f"{words}\nX1 37.51\n", "--dry-run", status=1)["lines"]
      self.assertEqual([said[0]["state"], said[1]["state"]], ["unmatched", state], words)
    # So is one of a table, above, below and in its heading; a column that is no total may be another price.
    # 36.00 and 21 % are 43.56.
    for text in ("Prices partly include VAT\nCode,What,Price\nX1,Cup,36\n",
                 "Code,What,Price\nX1,Cup,36\nPrices partly include VAT,,\n", "Code,Price TTC / HT\nX1,36\n",
                 "Code,Price,RRP\nX1,36.00,43.56\n"):
      said = self.json("list.csv", text, "--dry-run", status=1)["lines"]
      self.assertEqual([line["state"] for line in said if line["ingredient"] is not None], ["doubtful"], text)
    # 33.00 for 36.30 is as near to 30.00 without tax, 10 % more, as to a fall to a tenth less; 34.00 is nearer to that.
    for price, state in (("31", "doubtful"), ("33", "doubtful"), ("34", "changed"), ("21", "doubtful")):
      line = self.json("message.txt", f"X1 {price}\n", "--dry-run", status=int(state != "changed"))["lines"][0]
      self.assertEqual(line["state"], state)
    self.assertIn("Is 21 % tax in it, as in the last price?", self.json(
      "message.txt", "X1 31\n", "--dry-run", status=1)["lines"][0]["why"][0])
    # The day from which they hold is not lost with the tax.
    said = self.json("message.txt", "Prices from 7 March, ex VAT\nX1 31\n", "--dry-run", status=1)["lines"]
    self.assertEqual([(line["state"], line["price"], line["last"]) for line in said],
                     [("unmatched", None, None), ("doubtful", "31", "30")])
    self.assertIn("By “Prices from 7 March, ex VAT” the prices may not hold from this day.", said[1]["why"][0])

  def test_a_list_may_say_at_what_rate_tax_is_in_a_price(self):
    # 21.00 for the mussels without tax are 23.10 with 10 %.
    for name, text in (("message.txt", "102 23.65 TTC 10 %\n"), ("message.txt", "102 23.65 (TVA 10 % incluse)\n"),
                       ("message.txt", "102 23.65 TTC dont 10 % de TVA\n"),
                       ("message.txt", "102 23.65 TTC (TVA 10 %)\n"),
                       ("message.txt", "102 23.65 incl. VAT @ 10%\n"), ("message.txt", "102 23.65 incl VAT of 10 %\n"),
                       ("message.txt", "All prices incl. 10% VAT\n102 23.65\n"),
                       ("list.csv", "Code;Price incl. VAT;VAT %\n102;23.65;10\n"),
                       ("list.csv", "Code;Price\n102;23.65 incl. 10 % VAT\n"),
                       ("list.csv", "Code;Prix TTC (10 %)\n102;23,65\n")):
      line = self.json(name, text, "--dry-run")["lines"][0]
      self.assertEqual([line["price"], line["last"], line["state"]], ["23.65", "23.1", "changed"], text)
    # Without it the rate is no other price; of two rates none is passed over, and what to write is said.
    for text in ("102 21,50 HT + TVA 10 %\n", "102 21,50 HT TVA 10 %\n"):
      line = self.json("message.txt", text, "--dry-run")["lines"][0]
      self.assertEqual([line["price"], line["last"], line["state"]], ["21.5", "21", "changed"], text)
    for text in ("102 21,50 HT, 23,65 TTC\n", "102 23.65 TTC 10 % dont TVA 5.5 %\n"):
      said = self.json("message.txt", text, "--dry-run", status=1)["lines"][0]
      self.assertIn("Write one, as “9.20/kg”", said["why"][0])
    self.json("message.txt", "102 23.65 TTC 10 %\n")
    self.assertEqual([(row["price"], row["tax_included_pct"]) for row in self.table("prices")
                      if row["ingredient"] == "Mussels"], [("21", ""), ("23.65", "10")])

  def test_a_number_may_be_too_large(self):
    said = self.json("message.txt", "102 1000000000000000/kg\n", "--dry-run", status=1)["lines"][0]
    self.assertEqual(said["why"], ["An amount is too large."])

  def test_not_available_twice_is_said_once(self):
    said = self.json("m.txt", "102 Mussels 5 kg not available\n102 Mussels not available\n")
    self.assertEqual(self.states(said), ["not-to-be-had", "not-to-be-had"])
    self.assertEqual(self.price("Mussels"), [""])

  def test_later_prices_stay_in_force_and_that_is_said(self):
    said = "In the past: from 2026-01-02. Prices entered for a later day stay in force from that day."
    self.prices("message.txt", "102 mussels 21.50\n", since="2026-01-04")
    self.assertIn(said, self.prices("message.txt", "102 mussels 21.20\n", since="2026-01-02").stderr)
    self.assertNotIn("later day", self.prices("message.txt", "301 butter 71\n", since="2026-01-02").stderr)


if __name__ == "__main__":
  unittest.main(argv=sys.argv[:1], verbosity=2)

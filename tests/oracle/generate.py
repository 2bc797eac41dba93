#!/usr/bin/env python3
"""Writes random books as folders of tables.

A seed settles everything. Four seeds in ten make books in which, credits aside, nothing is
missing, so that their figures are whole; the others leave things out at a rate of their own.

generate.py SEED FOLDER writes one book and prints the day it is to be costed on.
"""

import csv
import datetime
import pathlib
import random
import sys
import unicodedata

import model

DIMENSIONS = {base: [unit for unit, (of, _) in model.UNITS.items() if of == base]
              for base in ("g", "ml", "each")}
ALLERGENS = ("gluten crustaceans eggs fish peanuts soybeans milk nuts celery mustard sesame "
             "sulphites lupin molluscs").split()
RULES = ["free", "weight", "value", "credit"]
WORDS = ["Oyster", "oyster", "Crème fraîche", "Beurre \"noisette\"", "Salt, flaked", "Jalapeño",
         "Samphire's tips", "Ångström rye", "=butter", "+dill oil", "-ice", "@kelp", "Œufs",
         "Šafrán", "Ünagi  glaze", "海苔", "Дилл", "ẹfọ́", "Tuile; black", "50 % cream",
         "𝄞 foam", "Cockle broth", "'Quoted'", "Pain d'épices", "שמיר", "None", "null", "0"]
DAY = datetime.timedelta(days=1)


class Writer:
    """Collects rows, and writes them the way different hands would."""

    def __init__(self, rng):
        self.rng = rng
        self.tables = {}

    def add(self, table, **row):
        self.tables.setdefault(table, []).append(
            {column.rstrip("_"): field for column, field in row.items()})

    def write(self, folder):
        folder = pathlib.Path(folder)
        folder.mkdir(parents=True, exist_ok=True)
        for table, rows in self.tables.items():
            columns = list(rows[0])
            if self.rng.random() < 0.5:
                columns = [name for name in columns
                           if name in ("piece_g", "code") or any(row[name] for row in rows)]
            self.rng.shuffle(columns)
            self.rng.shuffle(rows)
            encoding = "utf-8-sig" if self.rng.random() < 0.2 else "utf-8"
            with (folder / f"{table}.csv").open("w", encoding=encoding, newline="") as file:
                out = csv.DictWriter(
                    file, columns, extrasaction="ignore",
                    lineterminator=self.rng.choice(["\r\n", "\r\n", "\n"]),
                    quoting=self.rng.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]))
                out.writeheader()
                out.writerows(rows)


class Thing:
    """What a line can take: its name, base unit, and the dimensions that reach it."""

    def __init__(self, name, base, density, piece, disposable=False):
        self.name = name
        self.base = base
        self.disposable = disposable
        self.reach = {base}
        if density and base in ("g", "ml") or density and piece:
            self.reach |= {"g", "ml"}
        if piece and base in ("g", "each") or density and piece:
            self.reach |= {"g", "each"}
        self.incomplete = False


class Generator:
    def __init__(self, seed):
        self.rng = random.Random(seed)
        self.gap = 0 if self.rng.random() < 0.4 else self.rng.uniform(0.01, 0.25)
        self.medium = self.rng.random() < 0.15
        self.on = datetime.date(2026, 1, 1) + self.rng.randrange(365) * DAY
        self.names = set()
        self.things = []
        self.out = Writer(self.rng)

    # Small pieces of chance

    def chance(self, probability):
        return self.rng.random() < probability

    def lacks(self, factor=1):
        return self.rng.random() < self.gap * factor

    def count(self, small, medium):
        return self.rng.randint(*(medium if self.medium else small))

    def number(self, low, high, zero=0.0):
        """A decimal, mostly short as people write, at times with all six digits."""
        if self.chance(zero):
            return "0"
        digits = self.rng.choice([0, 0, 0, 1, 1, 2, 2, 3, 6])
        field = f"{self.rng.uniform(low, high):.{digits}f}"
        return field if float(field) >= low and float(field) > 0 else f"{low:.6f}"

    def maybe(self, probability, field):
        return field if self.chance(probability) else ""

    def name(self, kind=""):
        while True:
            name = self.rng.choice(WORDS)
            if self.chance(0.7):
                name += f" {kind}{self.rng.randrange(1000)}"
            name = unicodedata.normalize("NFC", name)
            if name not in self.names:
                self.names.add(name)
                return name

    def spell(self, name):
        """The same name as another keyboard or another hand would enter it."""
        if self.chance(0.2):
            name = unicodedata.normalize("NFD", name)
        return f" {name} " if self.chance(0.05) else name

    def label(self):
        """What groups or names a row: on one line, unlike a note."""
        return " ".join(self.note().split())

    def note(self):
        return self.maybe(0.1, self.rng.choice(["à part", "two\nlines", 'so "called"', "a, b"]))

    def gtin(self):
        """A number with its check digit (GS1 General Specifications), leading zeros kept."""
        digits = f"{self.rng.randrange(10 ** 11):012d}"
        weighted = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(digits))
        return self.maybe(0.2, f"{digits}{-weighted % 10}")

    def day(self, before, after):
        return self.on + self.rng.randint(-before, after) * DAY

    def unit(self, dimension):
        return dimension if self.chance(0.3) else self.rng.choice(DIMENSIONS[dimension])

    def unit_of(self, thing):
        """A unit for an amount of a thing: one that converts, unless something may lack."""
        reach = set(DIMENSIONS) if self.lacks(0.5) else thing.reach
        return self.unit(self.rng.choice(sorted(reach)))

    def amount_in(self, unit, zero=0.02):
        high = {"kg": 3, "lb": 3, "l": 3, "us-gal": 1, "imp-gal": 1, "us-qt": 2, "imp-qt": 2,
                "each": 20, "dozen": 3, "mg": 90000, "g": 900, "ml": 900}.get(unit, 20)
        return self.number(0.001, high, zero)

    # Tables

    def settings(self):
        self.currency = self.rng.choice(["EUR", "GBP", "JPY", "KWD"])
        self.with_labour = self.chance(0.6)
        settings = {"name": "Saltmarsh Rooms", "currency": self.currency}
        if self.with_labour and not self.lacks(3):
            settings["wage_per_hour"] = self.number(8, 40, 0.03)
        if self.chance(0.6):
            settings["tax_pct"] = self.number(4, 25)
        if self.chance(0.6):
            settings["target_pct"] = self.number(18, 40)
        if self.chance(0.5):
            self.stale = self.rng.randint(10, 120)
            settings["stale_after_days"] = str(self.stale)
        else:
            self.stale = 60
        for key, value in settings.items():
            self.out.add("book", key=key, value=value)

    def rates(self):
        self.currencies = [code for code in ["EUR", "GBP", "USD", "CHF"] if code != self.currency]
        for code in self.currencies:
            if self.lacks(2):
                continue
            days = {self.day(300, 0)} | {self.day(200, 60) for _ in range(self.rng.randrange(4))}
            if self.lacks():
                days = {self.day(-1, 60)}
            for day in sorted(days):
                self.out.add("rates", currency=code, from_=day, rate=self.number(0.4, 180),
                             per=self.maybe(0.4, self.rng.choice(["1", "100", "10"])))

    def suppliers(self):
        self.supplier_names = [self.name("s") for _ in range(self.rng.randint(1, 5))]
        for name in self.supplier_names:
            self.out.add("suppliers", name=self.spell(name), contact=self.label(),
                         quotes=self.rng.choice(["", "pack", "base unit"]),
                         minimum_order=self.maybe(0.2, self.number(20, 300)),
                         delivery_charge=self.maybe(0.2, self.number(1, 20, 0.2)))

    def ingredients(self):
        for _ in range(self.count((2, 12), (20, 45))):
            base = self.rng.choice(["g", "g", "g", "ml", "each"])
            density = self.maybe(0.5, self.number(0.3, 1.6))
            piece = self.maybe(0.5, self.number(2, 400))
            disposable = self.chance(0.12)
            thing = Thing(self.name("i"), base, density, piece, disposable)
            kind = "disposable" if disposable else self.rng.choice(["", "food"])
            said = " ".join(self.rng.sample(ALLERGENS, self.rng.randint(1, 3)))
            self.out.add("ingredients", name=self.spell(thing.name), category=self.label(),
                         kind=kind, unit=base, density_g_per_ml=density, piece_g=piece,
                         trim_yield_pct=self.maybe(0.5, self.number(20, 120)),
                         allergens=self.rng.choice(["", "none", said, said]),
                         may_contain=self.rng.choice(["", "", "none", said]), note=self.note())
            self.offers(thing)
            self.things.append(thing)

    def offers(self, thing):
        if self.lacks():
            return
        packs = []
        for index in range(self.rng.randint(1, 4)):
            supplier = self.rng.choice(self.supplier_names)
            code = self.rng.choice(["", "A1", "007", "b,2", "Ä"])
            if (supplier, code) in packs:
                continue
            packs.append((supplier, code))
            # The first offer always serves, unless something may lack.
            sound = index == 0 and not self.lacks()
            self.offer(thing, supplier, code, sound)

    def offer(self, thing, supplier, code, sound):
        unit = self.unit_of(thing) if sound or self.gap == 0 else self.unit(
            self.rng.choice(sorted(DIMENSIONS)))
        foreign = self.chance(0.25) and (self.gap or self.currencies)
        currency = self.rng.choice(self.currencies) if foreign else self.maybe(0.5, self.currency)
        # One that is sound had a price on a day; it may be gone since, or not to be had.
        first = self.day(300, 0)
        until = "" if sound or self.chance(0.5) else self.day(60, 60)
        if sound and self.chance(0.2):
            until = first + self.rng.randrange(120) * DAY
        if until and self.chance(0.2):
            until = self.on
        keys = {"ingredient": self.spell(thing.name), "supplier": self.spell(supplier),
                "code": code}
        self.out.add("offers", **keys, pack_count=self.rng.choice(["1", "1", "6", "12", "2.5"]),
                     pack_size=self.rng.choice(["1", "1", "5", "0.25", self.amount_in(unit, 0)]),
                     pack_unit=unit, net_pct=self.maybe(0.2, self.number(40, 100)),
                     currency=currency, preferred=self.rng.choice(["", "no", "no", "yes"]),
                     until=until, gtin=self.gtin(), position=self.maybe(0.3, str(self.rng.randint(1, 90))))
        days = {self.day(200, 100) for _ in range(self.rng.randint(0, 4))}
        if sound:
            days.add(first)
        if self.chance(0.2):
            days.add(self.rng.choice([self.on, self.on - self.stale * DAY,
                                      self.on - (self.stale + 1) * DAY]))
        for day in sorted(days):
            pack = ["", "", ""]
            if self.chance(0.15):
                own = self.unit_of(thing)
                pack = [self.rng.choice(["1", "10"]), self.amount_in(own, 0), own]
            elif self.chance(0.05):
                pack[0] = "3"
            none = self.chance(0.15) and not (sound and day == first)
            self.out.add("prices", **keys, from_=day,
                         price="" if none else self.number(0.5, 90, 0.03),
                         tax_included_pct=self.maybe(0.2, self.number(1, 25, 0.1)),
                         pack_count=pack[0], pack_size=pack[1], pack_unit=pack[2])

    def lines(self, into, parent, things):
        """Writes a parent's lines; says whether their mass can be formed."""
        formed, weighty = True, False
        for position in self.rng.sample(range(1, 40), 0 if self.lacks(0.5) else
                                        self.rng.randint(1, 5 if self.medium else 7)):
            # The latest are taken more often, so that graphs grow deep.
            thing = self.rng.choice(things[-6:] if self.chance(0.4) else things)
            unit = self.unit_of(thing)
            whole = self.chance(0.2)
            amount = self.amount_in(unit)
            if not thing.disposable:
                formed = formed and ("g" in thing.reach or unit in DIMENSIONS["g"])
                weighty = weighty or float(amount) > 0
            self.out.add("lines", into=into, parent=self.spell(parent), position=str(position),
                         item=self.spell(thing.name), amount=amount, unit=unit,
                         weighed="whole" if whole else self.rng.choice(["", "trimmed"]),
                         yield_pct="" if whole else self.maybe(0.3, self.number(30, 150)),
                         recovered_pct=self.maybe(0.15, self.number(1, 95, 0.1)),
                         note=self.note())
        return formed and weighty

    def minutes(self):
        return self.number(1, 90, 0.1) if self.with_labour and self.chance(0.6) else ""

    def preparations(self):
        for _ in range(self.count((0, 6), (8, 18))):
            main = self.name("o")
            preparation = main if self.chance(0.5) else self.name("p")
            rule = self.rng.choice(RULES)
            self.out.add("preparations", name=self.spell(preparation),
                         by_products=rule if rule != "free" or self.chance(0.5) else "",
                         active_minutes=self.minutes(),
                         smallest_part=self.rng.choice(["", "0", "0.5", "1", "0.25"]),
                         note=self.note())
            things = [thing for thing in self.things if self.gap or not thing.incomplete]
            formed = self.lines("preparation", preparation, things)
            self.outputs(preparation, main, rule, formed)

    def outputs(self, preparation, main, rule, formed):
        alike = self.chance(0.5)
        common = self.rng.choice(["g", "ml"])
        made = []
        for index in range(self.rng.choice([1, 1, 1, 2, 2, 3, 4])):
            base = common if alike else self.rng.choice(sorted(DIMENSIONS))
            whole = rule == "weight" and not alike and not self.lacks()
            density = self.number(0.3, 1.6) if whole else self.maybe(0.4, self.number(0.3, 1.6))
            piece = self.number(2, 400) if whole else self.maybe(0.4, self.number(2, 400))
            thing = Thing(self.name("o") if index else main, base, density, piece)
            unit, amount, share = self.unit(base), "", ""
            if base == "g" and self.chance(0.4) and (formed or self.lacks(3)):
                share = self.number(10, 160)
                unit = unit if self.chance(0.5) else ""
            elif rule == "free" and index and self.chance(0.2):
                thing.incomplete = True
            elif not self.lacks():
                amount = self.amount_in(unit, 0)
            self.out.add("outputs", item=self.spell(thing.name),
                         preparation=self.spell(preparation),
                         role="by-product" if index else "main", amount=amount, unit=unit,
                         yield_pct=share, value=self.value(rule, index, unit),
                         density_g_per_ml=density, piece_g=piece,
                         lost_pct=self.maybe(0.3, self.number(0, 99)))
            made.append(thing)
        self.things += made

    def value(self, rule, index, unit):
        if rule == "value" and not self.lacks():
            return self.number(0.1, 60, 0.3 if self.gap else 0)
        if rule == "credit" and index and not self.lacks():
            # Mostly modest, so that credits seldom exceed what the batch costs.
            high = 30 if self.chance(0.15) else 2 if unit in ("kg", "l", "lb") else 0.01
            return self.number(0.000001, high, 0.05)
        return self.maybe(0.1, self.number(0.1, 60))

    def plates(self):
        self.names = set()
        self.plate_names, self.menu_names = [], []
        things = [thing for thing in self.things if self.gap or not thing.incomplete]
        for _ in range(self.count((1, 5), (5, 12))):
            name = self.name("b")
            self.plate_names.append(name)
            self.out.add("plates", name=self.spell(name), course=self.label(),
                         makes=self.rng.choice(["1", "1", "10", "24", "2.5"]),
                         per_guest=self.maybe(0.4, self.rng.choice(["1", "2", "3", "0.5"])),
                         price=self.maybe(0.7, self.number(3, 60, 0.03)),
                         tax_pct=self.maybe(0.3, self.number(1, 25, 0.2)),
                         target_pct=self.maybe(0.3, self.number(15, 100)),
                         allowance_pct=self.maybe(0.4, self.number(1, 12, 0.1)),
                         active_minutes=self.minutes(), note=self.note())
            self.lines("plate", name, things)

    def menus(self):
        for _ in range(self.count((0, 3), (1, 4))):
            name = self.name("m")
            self.menu_names.append(name)
            self.out.add("menus", name=self.spell(name),
                         price=self.maybe(0.7, self.number(30, 250)),
                         tax_pct=self.maybe(0.3, self.number(1, 25, 0.2)),
                         target_pct=self.maybe(0.3, self.number(15, 60)), note=self.note())
            served = self.rng.sample(self.plate_names, self.rng.randint(
                0 if self.chance(0.1) else 1, len(self.plate_names)))
            choices = self.choices(len(served))
            for position, (plate, (choice, share)) in enumerate(zip(served, choices), 1):
                self.out.add("menu_plates", menu=self.spell(name), plate=self.spell(plate),
                             choice=choice,
                             servings=self.rng.choice(["", "1", "2", "0.5", "0"]),
                             position=self.maybe(0.8, str(position)), share_pct=share)

    def choices(self, n):
        """(choice, share) of each of n plates of a menu: shares of a choice come to 100, or leave
        something to those that have none."""
        rows = [("", "")] * n
        if n < 1 or self.chance(0.5):
            return rows
        for choice in self.rng.sample(["fish", "Meat", "0", "pré-dessert"], self.rng.randint(1, 2)):
            free = [index for index, row in enumerate(rows) if row == ("", "")]
            members = self.rng.sample(free, self.rng.randint(0, len(free)))
            left = 100_000_000
            for index in members[:-1]:
                share = "" if self.chance(0.4) else self.rng.randrange(left + 1)
                left -= share or 0
                rows[index] = (choice, share and f"{share / 1000000:.6f}")
            if members:
                open_ones = any(rows[index][1] == "" for index in members[:-1])
                last = "" if self.chance(0.5) else left
                if last and open_ones and self.chance(0.5):
                    last = self.rng.randrange(left + 1)
                rows[members[-1]] = (choice, "" if last == "" else f"{last / 1000000:.6f}")
        return rows

    def selling(self):
        for name in self.plate_names + self.menu_names:
            for day in sorted({self.day(60, 40) for _ in range(self.rng.choice([0, 0, 1, 3]))}):
                none = self.chance(0.2)
                self.out.add("selling_prices", name=self.spell(name), from_=day,
                             price="" if none else self.number(3, 250, 0.03),
                             tax_pct="" if none else self.maybe(0.3, self.number(1, 25, 0.2)))

    def services(self):
        names = self.rng.sample(self.plate_names + self.menu_names, 1)
        for name in names if self.chance(0.3) else []:
            self.out.add("services", date=self.day(2, 9), service="dinner", name=self.spell(name),
                         covers=str(self.rng.randint(0, 90)))
            thing = self.rng.choice(self.things)
            unit = self.unit(thing.base)
            self.out.add("service_stock", date=self.day(2, 9), service="late lunch",
                         item=self.spell(thing.name), amount=self.amount_in(unit), unit=unit)

    def dinner(self):
        """A service on the day the book is costed on; one in eight without anybody expected."""
        names = self.plate_names + self.menu_names
        for name in self.rng.sample(names, self.rng.randint(1, min(4, len(names)))):
            self.out.add("services", date=self.on, service="dinner of the day",
                         name=self.spell(name),
                         covers="0" if self.chance(0.12) else self.number(1, 120))
        for thing in self.rng.sample(self.things, self.rng.randint(0, min(4, len(self.things)))):
            unit = self.unit_of(thing)
            self.out.add("service_stock", date=self.on, service="dinner of the day",
                         item=self.spell(thing.name), amount=self.amount_in(unit), unit=unit)

    def ledgers(self):
        """Tables that costing does not read, for the way in and out."""
        if self.chance(0.5):
            return
        ingredients = self.out.tables["ingredients"]
        for index in range(self.rng.randrange(4)):
            thing = self.rng.choice(self.things)
            test = f"T{index}, {self.rng.randrange(99)}"
            self.out.add("yield_tests", test=test, item=self.spell(thing.name),
                         date=self.day(90, 0), purchased_g="1000.5", usable_g="612",
                         note=self.note())
            outputs = self.out.tables.get("outputs")
            if outputs and self.chance(0.5):
                self.out.add("yield_test_parts", test=test,
                             output=self.rng.choice(outputs)["item"], weight_g="12.25")
        for _ in range(self.rng.randrange(6)):
            kind, names = self.rng.choice([("plate", self.plate_names), ("menu", self.menu_names)])
            if names:
                self.out.add("sales", date=self.day(40, 0), kind=kind,
                             name=self.spell(self.rng.choice(names)),
                             sold=str(self.rng.choice([-1, 1, 60])),
                             net_revenue=self.maybe(0.5, self.number(10, 900)))
            if self.chance(0.5):
                self.out.add("sales", date=self.day(40, 0), kind="other", name=self.name("x"),
                             sold=str(self.rng.randint(0, 9)), net_revenue="-" + self.number(1, 9))
        for _ in range(self.rng.randrange(6)):
            thing = self.rng.choice(self.things)
            unit = self.unit(thing.base)
            self.out.add("counts", date=self.day(40, 0), item=self.spell(thing.name),
                         amount=self.amount_in(unit), unit=unit, place=self.label())
        for _ in range(self.rng.randrange(6)):
            row = self.rng.choice(ingredients)
            unit = self.unit(row["unit"])
            self.out.add("purchases", date=self.day(40, 0),
                         document_date=self.rng.choice(["", self.day(50, 0)]),
                         supplier=self.spell(self.rng.choice(self.supplier_names)),
                         document=self.label(), ingredient=row["name"], category="",
                         kind=row["kind"], amount=self.amount_in(unit, 0), unit=unit,
                         net_value=self.number(1, 400))
        for _ in range(self.rng.randrange(6)):
            thing = self.rng.choice(self.things)
            unit = self.unit(thing.base)
            self.out.add("adjustments", date=self.day(40, 0),
                         kind=self.rng.choice(["staff-meal", "promotion", "waste", "transfer-in",
                                               "transfer-out", "other"]),
                         item=self.spell(thing.name), amount=self.amount_in(unit, 0), unit=unit,
                         net_value=self.maybe(0.5, self.number(1, 90)), note=self.note())

    def run(self, folder):
        self.settings()
        self.rates()
        self.currencies = [code for code in self.currencies if self.gap or any(
            row["currency"] == code for row in self.out.tables.get("rates", []))]
        self.suppliers()
        self.ingredients()
        self.preparations()
        self.plates()
        self.menus()
        self.selling()
        self.services()
        self.ledgers()
        self.dinner()
        self.out.write(folder)
        return self.on


def generate(seed, folder):
    """Writes the book of a seed into a folder; returns the day to cost it on."""
    return Generator(seed).run(folder)


if __name__ == "__main__":
    print(generate(int(sys.argv[1]), sys.argv[2]))

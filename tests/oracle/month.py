#!/usr/bin/env python3
"""The statement of a month in exact fractions: a second reading of costing.md, section 11, for a
book that was loaded in one act, so that its recipes are those of any month.

month.py FOLDER YYYY-MM prints what `month --json` must print of the folder.
"""

import argparse
import csv
import datetime
import json
import random
from collections import defaultdict
from fractions import Fraction

import book as tables
import model
from model import Figure

DAY = datetime.timedelta(days=1)

# A month that has begun whenever the tests run.
LATEST = datetime.date(2026, 10, 1)

# With what sign a kind of adjustment enters the actual cost: waste explains, and is not deducted.
SIGNS = {"staff-meal": -1, "promotion": -1, "waste": 0, "transfer-in": 1, "transfer-out": -1,
         "other": -1}


class Sum:
    """A figure that grows, with the absolute terms that entered it."""

    def __init__(self):
        self.value, self.terms = Fraction(0), 0.0

    def add(self, value, terms=None):
        self.value += value
        self.terms += float(abs(value)) if terms is None else terms

    def figure(self):
        return Figure(self.value, self.terms)


def last_day(first):
    return (first + 31 * DAY).replace(day=1) - DAY


class Month:
    def __init__(self, book, first):
        self.book, self.first, self.last = book, first, last_day(first)
        self.models = {}
        self.missing = set()
        self.things, self.credits = {}, defaultdict(lambda: (Sum(), Sum()))
        # By ingredient: standard, opening, bought, adjusted, closing; each a quantity and a value.
        self.used = defaultdict(lambda: {name: (Sum(), Sum()) for name in (
            "standard", "opening", "bought", "adjusted", "closing")})
        self.broken = set()         # ingredients of which some quantity is not known
        self.closing_items = set()
        self.questions = set()
        self.is_whole = True
        self.net_sales, self.net_sales_costed = Sum(), Sum()
        self.theoretical = Sum()
        self.adjustments = {kind: Sum() for kind in SIGNS}
        self.purchases = {kind: Sum() for kind in ("food", "disposable", "other")}
        self.stock = {}
        self._sales()
        self._stock()
        self._purchases()
        self._adjustments()
        self._ask()

    def on(self, day):
        if day not in self.models:
            self.models[day] = model.Model(self.book, day)
        return self.models[day]

    def _within(self, rows):
        return [row for row in rows if self.first <= row.date <= self.last]

    def _causes(self, day, causes):
        """Those of food: a month's cost has no wages and no disposables in it."""
        items = self.on(day).ingredients
        food = {cause for cause in causes if cause != "wage" and not (
            cause.partition(" ")[2] in items
            and items[cause.partition(" ")[2]].kind == "disposable")}
        self.missing |= food
        self.is_whole = self.is_whole and not food

    # Sales

    def _thing(self, row):
        key = row.kind, row.name
        if key not in self.things:
            self.things[key] = Sum(), Sum(), Sum()
        return self.things[key]

    def _revenue(self, row, net):
        if row.net_revenue is not None:
            return Figure(row.net_revenue)
        if net is None:
            self.missing.add(f"selling {row.name}")
            self.is_whole = False
            return Figure(0)
        return Figure(row.sold * net.value, float(abs(row.sold)) * net.terms)

    def _sales(self):
        for row in self._within(self.book.sales):
            sold, revenue, cost = self._thing(row)
            sold.add(row.sold)
            net = None
            if row.kind != "other":
                on = self.on(row.date)
                whole = getattr(on, row.kind)(row.name)
                net = on.figures((on.plates | on.menus)[row.name], whole)["net_price"]
                food = on.money(whole.cost, "food", "value")
                cost.add(row.sold * food.value, float(abs(row.sold)) * food.terms)
                self.theoretical.add(row.sold * food.value, float(abs(row.sold)) * food.terms)
                if row.sold:
                    self._causes(row.date, whole.missing)
                self._take(on, whole.cost, row.sold)
            money = self._revenue(row, net)
            for total in [revenue, self.net_sales] + [self.net_sales_costed] * (row.kind != "other"):
                total.add(money.value, money.terms)

    def _take(self, on, cost, sold):
        for source, quantity in cost.quantity.items():
            terms = cost.terms[source] * float(abs(sold))
            rate = on.rate_of(source)
            if source[0] == "food":
                of, money = self.used[source[1]]["standard"]
            elif source[0] == "value":
                of, money = self.credits[source[1]]
            else:
                continue
            of.add(sold * quantity, terms)
            money.add(sold * quantity * rate, terms * float(abs(rate)))

    # Stock, purchases, adjustments

    def _carry(self, on, name, amount, into, sign=1, value=None):
        """An amount of an item as amounts of what it is bought as; value: money of its own."""
        cost = on.item(name).cost
        for source, quantity in (cost.quantity if cost else {}).items():
            if source[0] != "food":
                continue
            of, money = self.used[source[1]][into]
            of.add(sign * quantity * amount, cost.terms[source] * float(abs(amount)))
            worth = quantity * amount * on.rate_of(source) if value is None else value
            money.add(sign * worth)

    def _amount(self, row, name):
        on = self.on(row.date)
        item = on.items[name]
        if row.amount is None:
            return None, set()
        factor, lacks = model.conversion(item, row.unit, item.base)
        return None if factor is None else row.amount * factor, lacks

    def _is_food(self, name):
        return not self.on(self.last).is_disposable(name)

    def _counts(self, day, into):
        rows = [row for row in self.book.counts if row.date == day]
        total = Sum()
        counted = defaultdict(Fraction)
        for row in rows:
            if not self._is_food(row.item):
                continue
            amount, lacks = self._amount(row, row.item)
            # What cannot be converted was there all the same.
            counted[row.item] += 0 if amount is not None else row.amount
            if amount is None:
                self._causes(day, lacks)
                self.broken.add(row.item)
                continue
            on = self.on(day)
            item = on.item(row.item)
            kept = on.kept(row.item)
            if item.cost:
                worth = on.money(item.cost, "food", "value")
                total.add(amount * kept * worth.value, float(amount * kept) * worth.terms)
            counted[row.item] += amount
            if amount:
                self._causes(day, item.missing)
            self._carry(on, row.item, amount * kept, into)
        return (total.figure() if rows else None), counted

    def _stock(self):
        self.stock["opening"], self.opened = self._counts(self.first - DAY, "opening")
        self.stock["closing"], self.closed = self._counts(self.last, "closing")

    def _purchases(self):
        self.bought = set()
        self.came = set()
        for row in self._within(self.book.purchases):
            self.purchases[row.kind].add(row.net_value)
            if row.kind != "food" or not row.ingredient:
                continue
            amount, _ = self._amount(row, row.ingredient)
            if row.amount > 0 if row.amount is not None else row.net_value > 0:
                self.bought.add(row.ingredient)
            of, money = self.used[row.ingredient]["bought"]
            money.add(row.net_value)
            if amount is None:
                self.broken.add(row.ingredient)
            else:
                of.add(amount)

    def _adjustments(self):
        for row in self._within(self.book.adjustments):
            if row.item and not self._is_food(row.item):
                continue
            on = self.on(row.date)
            amount, lacks = self._amount(row, row.item) if row.item else (None, set())
            worth = Figure(row.net_value or 0)
            if row.net_value is None and amount is None:
                self.is_whole = False
                self._causes(row.date, lacks)
            elif row.net_value is None:
                item = on.item(row.item)
                cost = on.money(item.cost, "food", "value") if item.cost else Figure(0)
                worth = Figure(amount * cost.value, float(amount) * cost.terms)
                if amount:
                    self._causes(row.date, item.missing)
            self.adjustments[row.kind].add(worth.value, worth.terms)
            self._adjust(on, row, amount)

    def _adjust(self, on, row, amount):
        if not row.item or not SIGNS[row.kind]:
            return
        if SIGNS[row.kind] > 0:
            self.came.add(row.item)
        if amount is None:
            self.broken.add(row.item)
        else:
            own = row.net_value if row.item in on.ingredients else None
            self._carry(on, row.item, amount, "adjusted", -SIGNS[row.kind], own)

    def _ask(self):
        self.not_counted = set()
        if self.closed:
            self.not_counted = {name for name in self.bought | self.came | {
                name for name, amount in self.opened.items() if amount}
                if self._is_food(name) and name not in self.closed}
        self.is_whole = self.is_whole and not self.not_counted

    # What it says

    def _actual(self):
        if self.stock["opening"] is None or self.stock["closing"] is None:
            self.is_whole = False
            return None
        total = Sum()
        parts = [(1, self.stock["opening"]), (1, self.purchases["food"]), (-1, self.stock["closing"])]
        for sign, part in parts + [(SIGNS[kind], part) for kind, part in self.adjustments.items()]:
            total.add(sign * part.value, abs(sign) * part.terms)
        return total

    def _ingredient(self, name):
        used = self.used[name]
        row = {"name": name, "unit": self.on(self.last).items[name].base,
               "theoretical_quantity": used["standard"][0].figure(),
               "theoretical_cost": used["standard"][1].figure(),
               "actual_quantity": None, "actual_cost": None}
        if self.opened and self.closed and name in self.closed and name not in self.broken:
            for index, column in enumerate(("actual_quantity", "actual_cost")):
                total = Sum()
                for sign, part in ((1, "opening"), (1, "bought"), (-1, "closing"), (-1, "adjusted")):
                    total.add(sign * used[part][index].value, used[part][index].terms)
                row[column] = total.figure()
        return row

    def report(self):
        actual = self._actual()
        over = None
        if actual:
            over = Figure(actual.value - self.theoretical.value,
                          actual.terms + self.theoretical.terms)
        purchases = {kind: part.figure() for kind, part in self.purchases.items()}
        return {
            "month": self.first.isoformat()[:7], "state": "open",
            "recipes_on": self.last.isoformat(), "currency": self.book.settings.get("currency"),
            "net_sales": self.net_sales.figure(),
            "net_sales_costed": self.net_sales_costed.figure(), "till": None, "ledger": None,
            "purchases": purchases | {"earlier": Figure(0)},
            "opening_stock": self.stock["opening"], "closing_stock": self.stock["closing"],
            "adjustments": {kind: part.figure() for kind, part in self.adjustments.items()},
            "actual_cost": actual and actual.figure(),
            "theoretical_cost": self.theoretical.figure(), "over": over, "missing": self.missing,
            "things": [{"name": f"{kind} {name}", "kind": kind, "sold": sold.figure(),
                        "net_revenue": revenue.figure(),
                        "theoretical_cost": None if kind == "other" else cost.figure()}
                       for (kind, name), (sold, revenue, cost) in self.things.items()],
            "ingredients": [row for row in map(self._ingredient, self.used)
                            if row["theoretical_quantity"].value or row["actual_quantity"]],
            "by_products": [{"name": name, "unit": self.on(self.last).items[name].base,
                             "quantity": quantity.figure(), "cost": cost.figure()}
                            for name, (quantity, cost) in self.credits.items() if quantity.value],
        }

    def exit_status(self):
        return 0 if self.is_whole and self._actual() else 1


def named(got):
    """A plate and other sales may bear one name: their kind tells them apart. Rows whose quantity
    cancels to rounding may be listed or not."""
    for thing in got["things"]:
        thing["name"] = f"{thing['kind']} {thing['name']}"
    got["ingredients"] = [row for row in got["ingredients"]
                          if abs(row["theoretical_quantity"]) > 1e-9
                          or row["actual_quantity"] is not None]
    got["by_products"] = [row for row in got["by_products"] if abs(row["quantity"]) > 1e-9]
    return got


def _append(folder, table, columns, rows):
    path = folder / f"{table}.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        out = csv.writer(file)
        out.writerow(columns)
        out.writerows(rows)


def furnish(seed, folder, on):
    """Writes a month's records into a folder in place of what it has; returns its first day."""
    rng = random.Random(seed * 7919 + 1)
    book = tables.read(folder)
    first = min((on - 20 * DAY).replace(day=1), LATEST)
    last = last_day(first)
    items = [row.name for row in book.ingredients] + [row.item for row in book.outputs]
    units = {row.name: row.unit for row in book.ingredients}
    units |= {row.item: row.unit for row in book.outputs}
    things = [("plate", row.name) for row in book.plates] + [
        ("menu", row.name) for row in book.menus]

    # Few days, as each is the whole model anew.
    days = [first, last] + [first + rng.randrange((last - first).days + 1) * DAY for _ in range(2)]

    def day():
        return rng.choice(days)

    def amount():
        return rng.choice(["0", "1", "2.5", "12.25", "0.001", f"{rng.randrange(1, 3000)}"])

    def money():
        return f"{rng.uniform(0.01, 900):.2f}"

    def unit(name):
        return units[name] if rng.random() < 0.8 else rng.choice(["g", "kg", "ml", "l", "each", "dozen"])

    sales = []
    for kind, name in things:
        for _ in range(rng.randrange(4)):
            sold = rng.choice(["-1", "0", "1", "4", "25", "0.5"])
            sales.append([day(), kind, name, sold,
                          f"-{money()}" if sold == "0" else rng.choice(["", "", money()])])
    if rng.random() < 0.5:
        sales.append([day(), "other", "Wine", "3", money()])
    counts, purchases, adjustments = [], [], []
    for date, most in ((first - DAY, 0.9), (last, 0.85)):
        if rng.random() < 0.15:
            continue
        counts += [[date, name, amount(), unit(name), rng.choice(["", "cellar"])]
                   for name in items if rng.random() < most for _ in range(rng.choice([1, 1, 2]))]
    for row in book.ingredients:
        for _ in range(rng.randrange(3)):
            is_whole = rng.random() < 0.9
            purchases.append([day(), row.name, row.kind if rng.random() < 0.9 else "other",
                              amount() if is_whole else "", unit(row.name) if is_whole else "",
                              rng.choice(["", "-"]) + money()])
    purchases.append([day(), "", "food", "", "", money()])
    for _ in range(rng.randrange(8)):
        name = rng.choice(items + [""])
        has_amount = name and rng.random() < 0.8
        adjustments.append([day(), rng.choice(list(SIGNS)), name, amount() if has_amount else "",
                            unit(name) if has_amount else "",
                            "" if has_amount and rng.random() < 0.6 else money()])
    _append(folder, "sales", ["date", "kind", "name", "sold", "net_revenue"], sales)
    _append(folder, "counts", ["date", "item", "amount", "unit", "place"], counts)
    _append(folder, "purchases", ["date", "ingredient", "kind", "amount", "unit", "net_value"],
            purchases)
    _append(folder, "adjustments", ["date", "kind", "item", "amount", "unit", "net_value"],
            adjustments)
    return first


def main():
    parser = argparse.ArgumentParser(description="The statement of a month, exactly.")
    parser.add_argument("folder")
    parser.add_argument("month")
    options = parser.parse_args()
    month = Month(tables.read(options.folder), datetime.date.fromisoformat(f"{options.month}-01"))
    print(json.dumps(model.plain(month.report()), indent=2, ensure_ascii=False))


if __name__ == "__main__":
    main()

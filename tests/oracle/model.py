#!/usr/bin/env python3
"""The costing model in exact rational arithmetic: a second reading of its description.

Every cost is kept as a linear combination of its sources: quantities of ingredients, minutes of
work and assigned values. Costs, sensitivities and layers are all read off that combination, so
nothing here is differentiated and nothing is rounded.

model.py FOLDER --on DATE prints what `cost --json` must print for the folder.
"""

import argparse
import datetime
import functools
import itertools
import json
import math
import types
from collections import defaultdict
from fractions import Fraction

import book as tables

ONE = Fraction(1)
HUNDRED = Fraction(100)

# Exact factors to g, ml and each. NIST SP 811 App. B.8 and Handbook 44 App. C for avoirdupois and
# US measures (gallon = 231 cubic inches); Weights and Measures Act 1985 Sch. 1 for imperial ones.
UNITS = {name: (base, Fraction(factor)) for base, factors in {
    "g": {"mg": "0.001", "g": "1", "kg": "1000", "oz": "28.349523125", "lb": "453.59237"},
    "ml": {"ml": "1", "cl": "10", "dl": "100", "l": "1000",
           "tsp": "5", "tbsp": "15", "metric-cup": "250",
           "us-tsp": "4.92892159375", "us-tbsp": "14.78676478125", "us-fl-oz": "29.5735295625",
           "us-cup": "236.5882365", "us-pt": "473.176473", "us-qt": "946.352946",
           "us-gal": "3785.411784", "imp-fl-oz": "28.4130625", "imp-pt": "568.26125",
           "imp-qt": "1136.5225", "imp-gal": "4546.09"},
    "each": {"each": "1", "dozen": "12"},
}.items() for name, factor in factors.items()}

# What ties a dimension to grams, as causes call it.
LINKS = {"ml": "density", "each": "piece"}


class Figure:
    """A number of the report, and the sum of the absolute terms that entered it.

    Doubles lose digits where terms cancel, so a figure is compared against its terms."""

    def __init__(self, value, terms=None):
        self.value = Fraction(value)
        self.terms = float(abs(self.value) if terms is None else terms)


class Cost:
    """Quantities by source, a source being (kind, name) with the kinds food, disposable, value
    and minutes. Beside each quantity stands the sum of its absolute terms."""

    def __init__(self, source=None):
        self.quantity = defaultdict(Fraction)
        self.terms = defaultdict(float)
        if source:
            self.add_source(source, ONE)

    def add_source(self, source, quantity):
        self.quantity[source] += quantity
        self.terms[source] += float(abs(quantity))

    def add(self, other, factor):
        scale = float(abs(factor))
        for source, quantity in other.quantity.items():
            self.quantity[source] += quantity * factor
            self.terms[source] += other.terms[source] * scale

    def times(self, factor):
        product = Cost()
        product.add(self, factor)
        return product


def conversion(item, unit, base):
    """(base units per written unit or None, what the item lacks for it)."""
    written, factor = UNITS[unit]
    if written == base:
        return factor, set()
    grams = {"g": ONE, "ml": item.density_g_per_ml, "each": item.piece_g}
    lacks = {f"{LINKS[dimension]} {item.name}" for dimension in (written, base)
             if grams[dimension] is None}
    return (None if lacks else factor * grams[written] / grams[base]), lacks


class Model:
    """A book on a day. `prices` and `values` override unit costs and assigned values per base
    unit, for asking what would be."""

    def __init__(self, book, on, prices=None, values=None):
        self.book = book
        self.on = on
        self.prices = prices or {}
        self.values = values or {}
        self.currency = book.settings.get("currency")
        outputs = [types.SimpleNamespace(**vars(row), name=row.item, base=UNITS[row.unit][0])
                   for row in book.outputs]
        self.ingredients = {row.name: types.SimpleNamespace(**vars(row), base=row.unit)
                            for row in book.ingredients}
        self.items = self.ingredients | {output.name: output for output in outputs}
        self.preparations = {row.name: row for row in book.preparations}
        self.plates = {row.name: row for row in book.plates}
        self.menus = {row.name: row for row in book.menus}
        self.outputs_of = self._grouped(outputs, "preparation")
        self.lines_of = self._grouped(book.lines, "into", "parent")
        self.offers_of = self._grouped(book.offers, "ingredient")
        self.prices_of = self._grouped(book.prices, "ingredient", "supplier", "code")
        self.selling_of = self._grouped(book.selling_prices, "name")
        self.plates_of = self._grouped(book.menu_plates, "menu")
        self.taken = {row.item for row in book.lines}
        self.served = self._served()
        self.wage = self._setting("wage_per_hour")
        # Results are kept per model: the graph is walked once however often a part is taken.
        self.price = functools.lru_cache(None)(self.price)
        self.batch = functools.lru_cache(None)(self.batch)
        self.item = functools.lru_cache(None)(self.item)
        self.plate = functools.lru_cache(None)(self.plate)

    @staticmethod
    def _grouped(rows, *columns):
        groups = defaultdict(list)
        for row in rows:
            key = tuple(getattr(row, column) for column in columns)
            groups[key if len(key) > 1 else key[0]].append(row)
        return groups

    def _served(self):
        """The items that reach some plate."""
        served = set()
        parents = [("plate", name) for name in self.plates]
        while parents:
            for line in self.lines_of[parents.pop()]:
                if line.item not in served:
                    served.add(line.item)
                    if line.item not in self.ingredients:
                        parents.append(("preparation", self.items[line.item].preparation))
        return served

    def _setting(self, key):
        return self.book.settings.get(key)

    # What an ingredient costs as purchased

    def _newest(self, rows, day=None):
        known = [row for row in rows if getattr(row, "from") <= (day or self.on)]
        return max(known, key=lambda row: getattr(row, "from"), default=None)

    def _rate(self, currency):
        if currency is None or currency == self.currency:
            return ONE
        row = self._newest([row for row in self.book.rates if row.currency == currency])
        return row and row.rate / row.per

    def _rows(self, offer):
        return self.prices_of[offer.ingredient, offer.supplier, offer.code]

    def _last_day(self, offer):
        """The latest day until now, within the offer's own, whose newest row has a price."""
        day = self.on if offer.until is None else min(self.on, offer.until)
        row = self._newest(self._rows(offer), day)
        while row is not None and row.price is None:
            day = getattr(row, "from") - datetime.timedelta(days=1)
            row = self._newest(self._rows(offer), day)
        return row and day

    def _unit_cost(self, offer, price):
        """(unit cost and base units in a pack, or None, {what lacks: causes}) of a row of prices
        that has one."""
        ingredient = self.ingredients[offer.ingredient]
        count = offer.pack_count if price.pack_count is None else price.pack_count
        size = offer.pack_size if price.pack_size is None else price.pack_size
        factor, lacks = conversion(ingredient, price.pack_unit or offer.pack_unit, ingredient.base)
        rate = self._rate(offer.currency)
        if rate is None:
            return None, None, {f"rate {offer.currency}"}
        if lacks:
            return None, None, lacks
        net_of_tax = price.price * rate / (1 + price.tax_included_pct / HUNDRED)
        pack = count * size * factor * offer.net_pct / HUNDRED
        return net_of_tax / pack, pack if (count, size) != (1, 1) else self._own_pack(offer) or pack, set()

    def _own_pack(self, offer):
        """Base units in the offer's own pack, or None. A price of one kilogram, litre or piece is one per
        unit, which nobody orders by."""
        ingredient = self.ingredients[offer.ingredient]
        factor, lacks = conversion(ingredient, offer.pack_unit, ingredient.base)
        return None if lacks else offer.pack_count * offer.pack_size * factor * offer.net_pct / HUNDRED

    def offer_in_use(self, name):
        """(the offer with its cost and pack or None, causes, since when it is its last price)."""
        ever, available = [], []
        for offer in sorted(self.offers_of[name], key=lambda row: (row.supplier, row.code)):
            day = self._last_day(offer)
            if day is None:
                continue
            row = self._newest(self._rows(offer), day)
            cost, pack, lacks = self._unit_cost(offer, row)
            entry = types.SimpleNamespace(offer=offer, day=day, cost=cost, pack=pack, lacks=lacks,
                                          age=(self.on - getattr(row, "from")).days)
            ever.append(entry)
            if day == self.on and cost is not None:
                available.append(entry)
        days = self._setting("stale_after_days")
        if available:
            fresh = [entry for entry in available if days is not None and entry.age <= days]
            return self._cheapest(fresh or available), frozenset(), None
        costed = [entry for entry in ever if entry.cost is not None]
        if costed:
            last = max(entry.day for entry in costed)
            return (self._cheapest([entry for entry in costed if entry.day == last]),
                    frozenset(), last + datetime.timedelta(days=1))
        return None, frozenset(ever[0].lacks if ever else {f"price {name}"}), None

    def price(self, name):
        """(unit cost as purchased or None, causes, since when it is its last price)."""
        if name in self.prices:
            return self.prices[name], frozenset(), None
        entry, causes, since = self.offer_in_use(name)
        return entry and entry.cost, causes, since

    @staticmethod
    def _cheapest(entries):
        preferred = [entry for entry in entries if entry.offer.preferred]
        return min(preferred or entries,
                   key=lambda entry: (entry.cost, entry.offer.supplier, entry.offer.code))

    # Lines, batches and items

    def is_disposable(self, name):
        return name in self.ingredients and self.ingredients[name].kind == "disposable"

    def _is_assumed(self, line):
        return (line.item in self.ingredients and line.weighed == "trimmed"
                and UNITS[line.unit][0] != "each" and line.yield_pct is None
                and self.ingredients[line.item].trim_yield_pct is None)

    def yield_of(self, line):
        if line.yield_pct is not None:
            return line.yield_pct / HUNDRED
        if (line.item in self.ingredients and line.weighed == "trimmed"
                and UNITS[line.unit][0] != "each"):
            return (self.ingredients[line.item].trim_yield_pct or HUNDRED) / HUNDRED
        return ONE

    def lines(self, into, parent):
        """The sum of a parent's lines, with everything reachable below them."""
        total = types.SimpleNamespace(cost=Cost(), missing=set(), ingredients=set(), assumed=set(),
                                      doubts=set())
        rows = self.lines_of[into, parent]
        if not rows:
            total.missing.add(f"lines {parent}")
        for line in rows:
            part = self.item(line.item)
            total.missing |= part.missing
            total.ingredients |= part.ingredients
            total.assumed |= part.assumed
            total.doubts |= part.doubts
            if self._is_assumed(line):
                total.assumed.add(line.item)
            item = self.items[line.item]
            factor, lacks = conversion(item, line.unit, item.base)
            total.missing |= lacks
            if factor is not None and part.cost is not None:
                kept = 1 - line.recovered_pct / HUNDRED
                total.cost.add(part.cost, line.amount * factor * kept / self.yield_of(line))
        return total

    def _mass(self, preparation):
        """(grams of a batch's food lines less what is recovered, lacks)."""
        grams, lacking = Fraction(0), set()
        for line in self.lines_of["preparation", preparation]:
            if self.is_disposable(line.item):
                continue
            factor, lacks = conversion(self.items[line.item], line.unit, "g")
            lacking |= lacks
            if factor is not None:
                grams += line.amount * factor * (1 - line.recovered_pct / HUNDRED)
        return (None if lacking else grams), lacking

    def _finished(self, output):
        """(finished amount in base units or None, causes)."""
        if output.amount is not None:
            return output.amount * UNITS[output.unit][1], set()
        if output.yield_pct is None:
            return None, {f"amount {output.name}"}
        grams, lacks = self._mass(output.preparation)
        if not grams:
            return None, lacks | {f"amount {output.name}"}
        return grams * output.yield_pct / HUNDRED, set()

    @staticmethod
    def _kept(output):
        return 1 - output.lost_pct / HUNDRED

    def kept(self, name):
        """What of an item in stock will be used: of what is made, less what is lost first."""
        return ONE if name in self.ingredients else self._kept(self.items[name])

    def _value(self, output):
        """Money per base unit."""
        if output.name in self.values:
            return self.values[output.name]
        return None if output.value is None else output.value / UNITS[output.unit][1]

    def _shares(self, rule, outputs):
        """({output: weight of one base unit in the sharing} or None, causes) of weight, value."""
        causes, weights = set(), {}
        units = {output.base for output in outputs}
        for output in outputs:
            if rule == "value":
                weight = self._value(output)
                lacks = {f"value {output.name}"} if weight is None else set()
            elif units in ({"g"}, {"ml"}):
                weight, lacks = ONE, set()
            else:
                weight, lacks = conversion(output, output.base, "g")
            causes |= lacks
            weights[output.name] = weight
        return (None if causes else weights), causes

    def batch(self, name):
        """One batch: what its lines and minutes cost, and each output's cost per base unit."""
        preparation = self.preparations[name]
        outputs = self.outputs_of[name]
        main = next(output for output in outputs if output.role == "main")
        rest = [output for output in outputs if output is not main]
        batch = self.lines("preparation", name)
        # A wage, or a credit further down, leaves what goes in known as it is.
        batch.is_cost_known = all(cause == "wage" or cause.startswith("credit ")
                                  for cause in batch.missing)
        if preparation.active_minutes:
            batch.cost.add_source(("minutes", ""), preparation.active_minutes)
            if self.wage is None:
                batch.missing.add("wage")
        finished = {output.name: self._finished(output) for output in outputs}
        batch.amounts = {output: amount for output, (amount, _) in finished.items()}
        # Of Q what is used, Q(1 - l): it bears the cost of what is lost.
        batch.used = {output.name: None if batch.amounts[output.name] is None else
                      batch.amounts[output.name] * self._kept(output) for output in outputs}
        unserved = {output.name for output in outputs if output.name not in self.served}
        if preparation.by_products != "free" and len(unserved) < len(outputs):
            batch.doubts |= {f"nothing takes {output}" for output in unserved}
        batch.unit_costs = dict.fromkeys(batch.amounts)
        batch.own_missing = {output.name: set() for output in outputs}
        if preparation.by_products in ("weight", "value"):
            self._share(batch, preparation.by_products, outputs, finished)
        else:
            self._charge_main(batch, preparation.by_products, main, rest, finished)
        return batch

    def _share(self, batch, rule, outputs, finished):
        weights, causes = self._shares(rule, outputs)
        for _, lacks in finished.values():
            causes |= lacks
        if not causes:
            whole = sum(weights[output] * amount for output, amount in batch.amounts.items())
            if whole:
                for output in outputs:
                    share = weights[output.name] / whole / self._kept(output)
                    batch.unit_costs[output.name] = batch.cost.times(share)
            else:
                # Any one value would do: the main output's stands for them.
                causes = {f"value {output.name}" for output in outputs if output.role == "main"}
        batch.missing |= causes

    def _charge_main(self, batch, rule, main, rest, finished):
        remaining = batch.cost.times(ONE)
        for output in rest:
            amount, lacks = finished[output.name]
            if rule == "free":
                batch.unit_costs[output.name] = Cost()
                if output.name in self.taken:
                    batch.own_missing[output.name] |= lacks
                continue
            batch.missing |= lacks
            if self._value(output) is None:
                batch.missing.add(f"value {output.name}")
                continue
            source = ("value", output.name)
            batch.unit_costs[output.name] = Cost(source)
            if amount is not None:
                remaining.add_source(source, -batch.used[output.name])
        amount, lacks = finished[main.name]
        batch.own_missing[main.name] |= lacks
        # A batch without credits of its own passes a negative cost on; the cause stands below.
        left = self.money(remaining, "food", "value").value
        if batch.is_cost_known and left < 0 and left < self.money(batch.cost, "food", "value").value:
            batch.missing.add(f"credit {main.name}")
        if amount is not None:
            batch.unit_costs[main.name] = remaining.times(1 / batch.used[main.name])

    def item(self, name):
        """Cost per base unit (None where nothing is known) and what is reachable below."""
        if name in self.ingredients:
            kind = self.ingredients[name].kind
            return types.SimpleNamespace(
                cost=Cost((kind, name)), missing=self.price(name)[1], ingredients={name},
                assumed=set(), doubts=set())
        batch = self.batch(self.items[name].preparation)
        return types.SimpleNamespace(
            cost=batch.unit_costs[name], missing=batch.missing | batch.own_missing[name],
            ingredients=batch.ingredients, assumed=batch.assumed, doubts=batch.doubts)

    # Money

    def rate_of(self, source):
        """What one unit of a source costs; 0 where it is not known."""
        kind, name = source
        if kind == "minutes":
            return (self.wage or 0) / Fraction(60)
        if kind == "value":
            return self._value(self.items[name])
        return self.price(name)[0] or Fraction(0)

    def money(self, cost, *kinds):
        value, terms = Fraction(0), 0.0
        for source, quantity in cost.quantity.items():
            if source[0] in kinds:
                rate = self.rate_of(source)
                value += quantity * rate
                terms += cost.terms[source] * float(abs(rate))
        return Figure(value, terms)

    # Plates and menus

    def plate(self, name):
        """A plate's figures per guest before money is put on them."""
        row = self.plates[name]
        whole = self.lines("plate", name)
        allowance = 1 + row.allowance_pct / HUNDRED
        guest = Cost()
        for source, quantity in whole.cost.quantity.items():
            factor = ONE if source[0] == "minutes" else allowance
            guest.quantity[source] = quantity * factor
            guest.terms[source] = whole.cost.terms[source] * float(factor)
        if row.active_minutes:
            guest.add_source(("minutes", ""), row.active_minutes)
            if self.wage is None:
                whole.missing.add("wage")
        whole.bite = guest.times(1 / row.makes)
        whole.cost = whole.bite.times(row.per_guest)
        return whole

    def shares(self, name):
        """How often each of a menu's plates is taken by a guest, in the order of its rows."""
        rows = self.plates_of[name]
        shares = []
        for row in rows:
            others = [other for other in rows if other.choice and other.choice == row.choice]
            said = [other.share_pct for other in others if other.share_pct is not None]
            if not row.choice:
                shares.append(ONE)
            elif row.share_pct is not None:
                shares.append(row.share_pct / HUNDRED)
            else:
                shares.append((HUNDRED - sum(said)) / (len(others) - len(said)) / HUNDRED)
        return shares

    def _range(self, name):
        """Cheapest and dearest way through the choices, found by walking all of them where they
        are few; None without a choice."""
        choices = defaultdict(list)
        for index, row in enumerate(self.plates_of[name]):
            cost = self.money(self.plate(row.plate).cost, "food", "value")
            choices[row.choice or index].append(
                Figure(cost.value * row.servings, cost.terms * float(row.servings)))
        if not any(row.choice for row in self.plates_of[name]):
            return None
        terms = sum(max(cost.terms for cost in costs) for costs in choices.values())
        if math.prod(map(len, choices.values())) <= 1000:
            ways = [sum(cost.value for cost in way) for way in itertools.product(*choices.values())]
            ends = min(ways), max(ways)
        else:
            ends = [sum(end(cost.value for cost in costs) for costs in choices.values())
                    for end in (min, max)]
        return {"from": Figure(ends[0], terms), "to": Figure(ends[1], terms)}

    def menu(self, name):
        total = types.SimpleNamespace(cost=Cost(), missing=set(), ingredients=set(), assumed=set(),
                                      doubts=set())
        if not self.plates_of[name]:
            total.missing.add(f"lines {name}")
        for row, share in zip(self.plates_of[name], self.shares(name)):
            plate = self.plate(row.plate)
            total.cost.add(plate.cost, row.servings * share)
            total.doubts |= plate.doubts
            total.missing |= plate.missing
            total.ingredients |= plate.ingredients
            total.assumed |= plate.assumed
        return total

    def _own_or_book(self, row, key):
        own = getattr(row, key)
        return self._setting(key) if own is None else own

    def _selling(self, row):
        """(gross price, tax %) on the day: of the newest dated row, else the undated ones."""
        dated = self._newest(self.selling_of[row.name])
        tax = self._own_or_book(row, "tax_pct")
        if dated is None:
            return row.price, tax
        return dated.price, tax if dated.tax_pct is None else dated.tax_pct

    def figures(self, row, total):
        """FIGURES of the contract for a plate or menu."""
        food = self.money(total.cost, "food", "value")
        price, tax = self._selling(row)
        net = None if price is None else price / (1 + (tax or 0) / HUNDRED)
        target = self._own_or_book(row, "target_pct")
        said = {name: self.ingredients[name].allergens for name in total.ingredients}
        return {
            "name": row.name,
            "cost_per_guest": food,
            "labour_per_guest": self.money(total.cost, "minutes"),
            "disposables_per_guest": self.money(total.cost, "disposable"),
            "net_price": None if net is None else Figure(net),
            "food_cost_pct": (Figure(food.value / net * 100, food.terms / float(net) * 100)
                              if net else None),
            "target_pct": None if target is None else Figure(target),
            "allergens": {code for codes in said.values() for code in codes or ()},
            "allergens_not_known": {name for name, codes in said.items() if codes is None},
            "missing": set(total.missing),
            "assumed": set(total.assumed),
            "allergens_may_contain": {code for name in total.ingredients
                                      for code in self.ingredients[name].may_contain or ()},
            "doubts": set(total.doubts),
            "range": self._range(row.name) if row.name in self.menus else None,
            "last_price": [{"name": name, "since": self.price(name)[2].isoformat()}
                           for name in sorted(total.ingredients) if self.price(name)[2]],
            "ingredients": [
                self._sensitivity(total.cost, source, food, net, target)
                for source, quantity in total.cost.quantity.items()
                if source[0] == "food" and quantity],
            "by_products": [
                self._assigned(total.cost, source)
                for source, quantity in total.cost.quantity.items()
                if source[0] == "value" and quantity],
        }

    def _sensitivity(self, cost, source, food, net, target):
        quantity = Figure(cost.quantity[source], cost.terms[source])
        # What cancels in the quantity weighs on everything that divides by it.
        spread = quantity.terms / float(abs(quantity.value))
        unit_cost = self.rate_of(source)
        part = quantity.value * unit_cost
        row = {"name": source[1], "unit": self.items[source[1]].base, "quantity": quantity,
               "unit_cost": Figure(unit_cost), "cost": Figure(part, float(abs(part)) * spread),
               "elasticity": None, "ceiling": None}
        if food.value:
            ratio = part / food.value
            row["elasticity"] = Figure(
                ratio, float(abs(ratio)) * (spread + food.terms / float(abs(food.value))))
        if net is not None and target is not None:
            room = target / HUNDRED * net - food.value
            terms = (float(target / HUNDRED * net) + food.terms) * spread
            row["ceiling"] = Figure(unit_cost + room / quantity.value,
                                    float(unit_cost) + terms / float(abs(quantity.value)))
        return row

    def _assigned(self, cost, source):
        quantity = Figure(cost.quantity[source], cost.terms[source])
        value = self.rate_of(source)
        return {"name": source[1], "unit": self.items[source[1]].base, "quantity": quantity,
                "value": Figure(value),
                "cost": Figure(quantity.value * value, quantity.terms * float(abs(value)))}

    def _item_report(self, name):
        item = self.item(name)
        if name in self.ingredients:
            known = self.price(name)[0]
            unit_cost = None if known is None else Figure(known)
        else:
            unit_cost = None if item.cost is None else self.money(item.cost, "food", "value")
        since = self.price(name)[2] if name in self.ingredients else None
        return {"name": name, "unit": self.items[name].base, "unit_cost": unit_cost,
                "missing": set(item.missing), "last_price": since and since.isoformat()}

    def report(self):
        """The object of `cost --json`: numbers are Figures, lists of names are sets."""
        plates = []
        for row in self.book.plates:
            figures = self.figures(row, self.plate(row.name))
            figures["cost_per_bite"] = self.money(self.plate(row.name).bite, "food", "value")
            plates.append(figures)
        return {"on": self.on.isoformat(), "currency": self.currency,
                "items": [self._item_report(name) for name in self.items],
                "plates": plates,
                "menus": [self.figures(row, self.menu(row.name)) for row in self.book.menus]}


def exit_status(report):
    """1 where a plate or menu is incomplete or above its target."""
    for row in report["plates"] + report["menus"]:
        net, target, cost = row["net_price"], row["target_pct"], row["cost_per_guest"]
        if row["missing"] or (net and target and HUNDRED * cost.value > target.value * net.value):
            return 1
    return 0


def plain(value):
    """A report as JSON knows it."""
    if isinstance(value, Figure):
        return float(value.value)
    if isinstance(value, set):
        return sorted(value)
    if isinstance(value, list):
        return [plain(entry) for entry in value]
    if isinstance(value, dict):
        return {key: plain(entry) for key, entry in value.items()}
    return value


def main():
    parser = argparse.ArgumentParser(description="Costs a folder of tables exactly.")
    parser.add_argument("folder")
    parser.add_argument("--on", type=datetime.date.fromisoformat, default=datetime.date.today())
    options = parser.parse_args()
    report = Model(tables.read(options.folder), options.on).report()
    print(json.dumps(plain(report), indent=1, ensure_ascii=False))
    return exit_status(report)


if __name__ == "__main__":
    raise SystemExit(main())

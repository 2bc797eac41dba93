#!/usr/bin/env python3
"""The plan for a service in exact fractions: a second reading of its description.

Needs are taken from plates to what they are made of, a preparation when everything that may take
its outputs has been looked at. Nothing is rounded but batches and packs, which are counted.

plan.py FOLDER DATE/NAME prints what `plan --service DATE/NAME --json` must print for the folder.
"""

import argparse
import datetime
import functools
import json
import math
from collections import defaultdict
from fractions import Fraction

import book as tables
import model as costing

# What is allowed for before a count goes up: of a smallest part of a batch, of a pack, and of what
# does not come to one pack.
ALLOWED = Fraction(1, 10**9)


def whole(count):
    return Fraction(math.ceil(count))


class Plan:
    """What to make and buy for covers, a dict of names of plates and menus; have is a dict of
    items to (amount, unit)."""

    def __init__(self, costed, covers, have=None):
        self.model = costed
        self.covers = {name: number for name, number in covers.items() if number > 0}
        self.have, self.missing, unknown = {}, set(), {}
        for item, (amount, unit) in (have or {}).items():
            thing = costed.items[item]
            factor, lacks = costing.conversion(thing, unit, thing.base)
            self.have[item] = Fraction(0) if lacks else amount * factor
            unknown[item] = lacks
        self.need = defaultdict(Fraction)
        self.pan = defaultdict(Fraction)
        # The sum of the terms that entered a need or a number of batches, for comparing doubles.
        self.need_terms = defaultdict(float)
        self.reached = set()
        self.runs, self.batches, self.run_terms = {}, {}, {}
        for plate, times in self._served().items():
            self._take("plate", plate, times, float(times))
            self.missing |= costed.plate(plate).missing
        for name in sorted(costed.preparations, key=self._height, reverse=True):
            self._run(name)
        for item in self.reached & unknown.keys():
            self.missing |= unknown[item]

    def _served(self):
        """How often the lines of each plate are taken."""
        guests = defaultdict(Fraction)
        for name, number in self.covers.items():
            if name in self.model.plates:
                guests[name] += number
            else:
                rows = zip(self.model.plates_of[name], self.model.shares(name))
                for row, share in rows:
                    guests[row.plate] += number * row.servings * share
        rows = self.model.plates
        return {name: number * rows[name].per_guest / rows[name].makes
                * (1 + rows[name].allowance_pct / 100) for name, number in guests.items() if number}

    @functools.lru_cache(None)
    def _height(self, preparation):
        """Whoever takes an output of a preparation is higher than it."""
        parts = [self.model.items[line.item].preparation
                 for line in self.model.lines_of["preparation", preparation]
                 if line.item not in self.model.ingredients]
        return 1 + max(map(self._height, parts), default=0)

    def _take(self, into, parent, times, terms, pan=0):
        filled = defaultdict(Fraction)
        for line in self.model.lines_of[into, parent]:
            self.reached.add(line.item)
            thing = self.model.items[line.item]
            factor, _ = costing.conversion(thing, line.unit, thing.base)
            if factor is None:
                continue
            bought = line.amount * factor / self.model.yield_of(line)
            charged = bought * (1 - line.recovered_pct / 100)
            self.need[line.item] += times * charged
            self.need_terms[line.item] += terms * float(charged)
            filled[line.item] += bought
        for item, amount in filled.items():
            self.pan[item] = max(self.pan[item], pan * amount)

    def lacking(self, item):
        return max(self.need[item] - self.have.get(item, 0), Fraction(0))

    def _run(self, name):
        outputs = self.model.outputs_of[name]
        used = self.model.batch(name).used
        runs, terms = Fraction(0), 0.0
        for output in outputs:
            if used[output.name]:
                runs = max(runs, self.lacking(output.name) / used[output.name])
                terms = max(terms, self.need_terms[output.name] / float(used[output.name]))
        part = self.model.preparations[name].smallest_part
        batches = max(whole(runs / part - ALLOWED), 0) * part if part else runs
        self.runs[name], self.batches[name] = runs, batches
        self.run_terms[name] = max(terms, float(batches))
        if batches or any(output.name in self.reached for output in outputs):
            self._take("preparation", name, batches, self.run_terms[name],
                       min(runs, 1) if batches else 0)

    @staticmethod
    def _left(there, needed, terms):
        left = there - needed
        return costing.Figure(left if left > ALLOWED * there else 0, terms)

    def _made(self, name):
        used = self.model.batch(name).used
        rows = []
        for output in self.model.outputs_of[name]:
            if used[output.name] is None:
                continue
            terms = (self.run_terms[name] * float(used[output.name])
                     + self.need_terms[output.name])
            rows.append({"name": output.name, "unit": output.base,
                         "amount": self._left(self.batches[name] * used[output.name],
                                              self.lacking(output.name), terms)})
        return {"name": name,
                "needed_batches": costing.Figure(self.runs[name], self.run_terms[name]),
                "batches": costing.Figure(self.batches[name], self.run_terms[name]),
                "left": rows}

    def _bought(self, name):
        ingredient = self.model.ingredients[name]
        needed = max(max(self.need[name], self.pan[name]) - self.have.get(name, 0), Fraction(0))
        terms = max(self.need_terms[name], float(self.pan[name]))
        row = {"name": name, "unit": ingredient.base, "needed": costing.Figure(needed, terms),
               "supplier": None, "code": None, "packs": None, "cost": None, "left": None}
        entry, _, since = self.model.offer_in_use(name)
        if entry is None or since is not None:
            self.missing |= {f"price {name}"} if since else set()
            return row
        packs = whole(needed / entry.pack - ALLOWED * min(needed / entry.pack, 1))
        cost = packs * entry.pack * entry.cost
        there = packs * entry.pack
        row.update(supplier=entry.offer.supplier, code=entry.offer.code,
                   packs=costing.Figure(packs), cost=costing.Figure(cost),
                   left=self._left(there, needed, float(there) + terms))
        return row

    def _theoretical(self):
        value, terms = Fraction(0), 0.0
        for name, number in self.covers.items():
            plate = name in self.model.plates
            cost = (self.model.plate(name) if plate else self.model.menu(name)).cost
            money = self.model.money(cost, "food", "value", "disposable")
            value += number * money.value
            terms += float(number) * money.terms
        return costing.Figure(value, terms)

    def _per_serving(self, plate):
        return self.model.money(self.model.plate(plate).cost, "food", "value", "disposable")

    def _range(self):
        """Each choice at its cheapest and at its dearest plate; None without a choice."""
        ends, terms, chosen = [Fraction(0), Fraction(0)], 0.0, False
        for name, number in self.covers.items():
            rows = self.model.plates_of[name] if name in self.model.menus else None
            groups = defaultdict(list)
            for index, row in enumerate(rows or ()):
                money = self._per_serving(row.plate)
                groups[row.choice or index].append((row.servings * money.value,
                                                    float(row.servings) * money.terms))
                chosen = chosen or bool(row.choice)
            if rows is None:
                money = self._per_serving(name)
                groups[name].append((money.value, money.terms))
            for costs in groups.values():
                values = [value for value, _ in costs]
                ends = [ends[0] + number * min(values), ends[1] + number * max(values)]
                terms += float(number) * max(term for _, term in costs)
        return {"from": costing.Figure(ends[0], terms),
                "to": costing.Figure(ends[1], terms)} if chosen else None

    def report(self):
        """The object of `plan --json`, rows by name; numbers are Figures, causes a set."""
        make = [self._made(name) for name in self.model.preparations if self.runs[name]]
        buy = [self._bought(name) for name in self.model.ingredients
               if max(self.need[name], self.pan[name]) > self.have.get(name, 0)]
        cost = sum((row["cost"].value for row in buy if row["cost"]), Fraction(0))
        return {"make": make, "buy": buy, "cost": costing.Figure(cost),
                "theoretical_cost": self._theoretical(), "range": self._range(), "missing": self.missing}

    def misplaced(self, names):
        """A preparation that stands before one whose output it takes, or None."""
        for place, name in enumerate(names):
            for line in self.model.lines_of["preparation", name]:
                if line.item not in self.model.ingredients:
                    if self.model.items[line.item].preparation in names[place:]:
                        return name
        return None


def of_service(costed, day, service):
    """The plan of a service of a book."""
    of_day = {"date": day, "service": service}

    def rows(table):
        return [row for row in table if all(getattr(row, key) == value
                                            for key, value in of_day.items())]
    covers = {row.name: row.covers for row in rows(costed.book.services)}
    have = {row.item: (row.amount, row.unit) for row in rows(costed.book.service_stock)}
    return Plan(costed, covers, have)


def named(printed):
    """What the program printed, with rows that bear the name of what they are about."""
    if isinstance(printed, list):
        return [named(entry) for entry in printed]
    if not isinstance(printed, dict):
        return printed
    names = {"preparation": "name", "ingredient": "name", "item": "name"}
    return {names.get(key, key): named(value) for key, value in printed.items()}


def main():
    parser = argparse.ArgumentParser(description="Plans a service exactly.")
    parser.add_argument("folder")
    parser.add_argument("service", metavar="DATE/NAME")
    options = parser.parse_args()
    day, service = options.service.split("/", 1)
    day = datetime.date.fromisoformat(day)
    costed = costing.Model(tables.read(options.folder), day)
    print(json.dumps(costing.plain(of_service(costed, day, service).report()), indent=1,
                     ensure_ascii=False))


if __name__ == "__main__":
    main()

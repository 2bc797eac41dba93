"""What must hold of the model itself: its invariants on random books, and worked examples.

Every property is exact: the model knows no rounding.
"""

import copy
import datetime
import pathlib
import tempfile
import types
from fractions import Fraction

import book as tables
import generate
import model
import plan

FOOD = ("food", "value")
LAYERS = (FOOD, ("disposable",), ("minutes",))


def money_is_conserved(costed, rows):
    """Under every rule the outputs of a batch carry its cost, layer by layer: Σ Q(1 − ℓ)·u = C."""
    for name in costed.preparations:
        batch = costed.batch(name)
        carried = [(batch.used[output], cost) for output, cost in batch.unit_costs.items()
                   if cost is None or cost.quantity]
        if any(amount is None or cost is None for amount, cost in carried):
            continue
        for layer in LAYERS:
            total = sum(amount * costed.money(cost, *layer).value for amount, cost in carried)
            if total != costed.money(batch.cost, *layer).value:
                yield f"{name}: outputs carry {float(total)} of another cost"


def parts_make_the_cost(costed, rows):
    """The costs of ingredients and assigned values add up to the food cost."""
    for row in rows:
        parts = sum(entry["cost"].value for entry in row["ingredients"] + row["by_products"])
        if parts != row["cost_per_guest"].value:
            yield f"{row['name']}: parts of {float(parts)}"


def elasticities_make_one(costed, rows):
    """Without assigned values a cost moves in proportion to all prices together."""
    for row in rows:
        if row["cost_per_guest"].value and not row["by_products"]:
            total = sum(entry["elasticity"].value for entry in row["ingredients"])
            if total != 1:
                yield f"{row['name']}: elasticities add up to {float(total)}"


def _again(costed, name, **overrides):
    """What is said of one plate or menu, costed anew."""
    again = model.Model(costed.book, costed.on, **overrides)
    for rows, total in (costed.book.plates, again.plate), (costed.book.menus, again.menu):
        for row in rows:
            if row.name == name:
                return again.figures(row, total(name))
    raise LookupError(name)


def ceiling_meets_the_target(costed, rows):
    """Costed again with one ingredient at its ceiling, food-cost percentage is the target."""
    for row in rows:
        for entry in row["ingredients"][:3]:
            if entry["ceiling"] is None or not row["net_price"].value:
                continue
            again = _again(costed, row["name"], prices={entry["name"]: entry["ceiling"].value})
            if again["food_cost_pct"].value != row["target_pct"].value:
                yield f"{row['name']}: {entry['name']} at its ceiling misses the target"


def cost_is_affine(costed, rows):
    """Costed again with one rate moved, the cost moves by the quantity times that."""
    step = Fraction(7, 3)
    for row in rows:
        for column, key, rate in (("ingredients", "prices", "unit_cost"),
                                  ("by_products", "values", "value")):
            for entry in row[column][:3]:
                again = _again(costed, row["name"],
                               **{key: {entry["name"]: entry[rate].value + step}})
                moved = again["cost_per_guest"].value - row["cost_per_guest"].value
                if moved != entry["quantity"].value * step:
                    yield f"{row['name']}: {entry['name']} moves the cost otherwise"


def size_of_a_batch_is_free(costed, rows):
    """A batch written three times as large costs the same per unit of its outputs."""
    book = copy.deepcopy(costed.book)
    for row in book.lines:
        row.amount *= 3 if row.into == "preparation" else 1
    for row in book.outputs:
        row.amount = row.amount and row.amount * 3
    for row in book.preparations:
        row.active_minutes *= 3
    again = model.Model(book, costed.on).report()
    if model.plain(again["plates"]) != model.plain(costed.report()["plates"]):
        yield "plates: cost something else from larger batches"


def nothing_missing_below_is_nothing_missing(costed, rows):
    """A menu lacks exactly what its plates lack, or has none, and a plate at least what its items lack."""
    missing = {row["name"]: row["missing"] for row in costed.report()["plates"]}
    for row in costed.book.menus:
        served = [entry.plate for entry in costed.book.menu_plates if entry.menu == row.name]
        of_plates = set().union(*(missing[name] for name in served))
        if costed.menu(row.name).missing != (of_plates if served else {f"lines {row.name}"}):
            yield f"{row.name}: lacks something else than its plates"
    for line in costed.book.lines:
        if line.into == "plate" and not costed.item(line.item).missing <= missing[line.parent]:
            yield f"{line.parent}: does not say what {line.item} lacks"


def what_adds_nothing_is_named(costed, rows):
    """A line that cannot be converted or costed leaves a cause on its parent."""
    for line in costed.book.lines:
        item = costed.items[line.item]
        linked = model.UNITS[line.unit][0] == item.base or all(
            {"g": True, "ml": item.density_g_per_ml, "each": item.piece_g}[dimension]
            for dimension in (model.UNITS[line.unit][0], item.base))
        known = costed.item(line.item).cost is not None and (
            line.item not in costed.ingredients or costed.price(line.item)[0] is not None)
        parent = (costed.plate if line.into == "plate" else costed.batch)(line.parent)
        named = parent.missing & {f"density {line.item}", f"piece {line.item}"}
        if not linked and not named or not known and not parent.missing:
            yield f"{line.parent}: {line.item} adds nothing in silence"


def a_menu_is_its_plates(costed, rows):
    """A menu's figures are the sums of its plates in their servings."""
    figures = {row["name"]: row for row in rows}
    for row in costed.book.menus:
        served = [entry for entry in costed.book.menu_plates if entry.menu == row.name]
        shares = costed.shares(row.name)
        for key in ("cost_per_guest", "labour_per_guest", "disposables_per_guest"):
            total = sum(figures[entry.plate][key].value * entry.servings * share
                        for entry, share in zip(served, shares))
            if total != figures[row.name][key].value:
                yield f"{row.name}: {key} is not that of its plates"


def shares_of_a_choice_make_one(costed, rows):
    """Of each choice a guest takes one, and the mean lies between the cheapest and the dearest."""
    figures = {row["name"]: row for row in rows}
    for row in costed.book.menus:
        served = [entry for entry in costed.book.menu_plates if entry.menu == row.name]
        taken = {}
        for entry, share in zip(served, costed.shares(row.name)):
            if entry.choice:
                taken[entry.choice] = taken.get(entry.choice, 0) + share
        if any(total != 1 for total in taken.values()):
            yield f"{row.name}: shares do not add up"
        ends, cost = figures[row.name]["range"], figures[row.name]["cost_per_guest"].value
        if (ends is None) != (not taken):
            yield f"{row.name}: has a range without a choice, or none with one"
        if ends and not ends["from"].value <= cost <= ends["to"].value:
            yield f"{row.name}: costs less than its cheapest way or more than its dearest"


def what_no_plate_pays_is_doubted(costed, rows):
    """What all plates pay of a batch, and what is doubted of it, is what it costs.

    Plates pay shares of a batch's cost: with one batch made for what plates take of each output,
    money is absorbed unless an output that carries cost reaches none."""
    for name, preparation in costed.preparations.items():
        outputs = [row.item for row in costed.book.outputs if row.preparation == name]
        doubted = {doubt.removeprefix("nothing takes ") for doubt in costed.batch(name).doubts}
        doubted &= set(outputs)
        served = set(outputs) & costed.served
        if doubted and (preparation.by_products == "free" or not served or doubted & served):
            yield f"{name}: doubts what is served, or free, or altogether unused"
        if not doubted and preparation.by_products != "free" and served not in (set(), set(outputs)):
            yield f"{name}: does not doubt what nothing takes"


def allowance_is_on_goods(costed, rows):
    """An allowance raises food and disposables by itself and leaves labour alone."""
    book = copy.deepcopy(costed.book)
    for row in book.plates:
        row.allowance_pct = Fraction(0)
    bare = {row["name"]: row for row in model.Model(book, costed.on).report()["plates"]}
    for row in costed.book.plates:
        raised = next(entry for entry in rows if entry["name"] == row.name)
        for key, factor in (("cost_per_guest", 1 + row.allowance_pct / 100),
                            ("disposables_per_guest", 1 + row.allowance_pct / 100),
                            ("labour_per_guest", 1)):
            if raised[key].value != bare[row.name][key].value * factor:
                yield f"{row.name}: {key} bears another allowance"


PROPERTIES = [money_is_conserved, parts_make_the_cost, elasticities_make_one,
              ceiling_meets_the_target, cost_is_affine, size_of_a_batch_is_free,
              nothing_missing_below_is_nothing_missing, what_adds_nothing_is_named,
              a_menu_is_its_plates, shares_of_a_choice_make_one, what_no_plate_pays_is_doubted,
              allowance_is_on_goods]


# Worked examples from print. One ingredient is bought, one batch broken down.

def _row(table, **fields):
    """A row as the reader would make it, from the text of its fields."""
    row = {}
    for name, (read, default) in tables.TABLES[table].items():
        field = fields.get(name, "")
        row[name] = read(field) if field else default
    return types.SimpleNamespace(**row)


def _breakdown(price, amount, unit, rule, outputs, **line):
    """A book with a batch that takes `amount` of an ingredient whose `amount` costs `price`."""
    base = model.UNITS[unit][0]
    rows = {name: [] for name in tables.TABLES}
    rows["ingredients"] = [_row("ingredients", name="whole", unit=base)]
    rows["suppliers"] = [_row("suppliers", name="market")]
    rows["offers"] = [_row("offers", ingredient="whole", supplier="market", pack_count="1",
                           pack_size=amount, pack_unit=unit)]
    rows["prices"] = [_row("prices", ingredient="whole", supplier="market", price=price,
                           **{"from": "2026-01-01"})]
    rows["preparations"] = [_row("preparations", name="breakdown", by_products=rule)]
    rows["lines"] = [_row("lines", into="preparation", parent="breakdown", position="1",
                          item="whole", amount=amount, unit=unit, **line)]
    for index, (name, fields) in enumerate(outputs.items()):
        rows["outputs"].append(_row("outputs", item=name, preparation="breakdown",
                                    role="by-product" if index else "main", **fields))
    return model.Model(types.SimpleNamespace(**rows, settings={}), datetime.date(2026, 1, 1))


def _unit_cost(costed, item, unit):
    return costed.money(costed.item(item).cost, *FOOD).value * model.UNITS[unit][1]


def _total(costed, item):
    amount = costed.batch("breakdown").amounts[item]
    return costed.money(costed.item(item).cost, *FOOD).value * amount


def _lb(pounds, ounces=0):
    return {"amount": str(float(pounds + Fraction(ounces, 16))), "unit": "lb"}


def _served(costed, item, amount, unit):
    """The same book with a plate that takes so much of an item."""
    book = types.SimpleNamespace(**vars(costed.book))
    book.plates = [_row("plates", name="portion", makes="1")]
    book.lines = book.lines + [_row("lines", into="plate", parent="portion", position="1",
                                    item=item, amount=amount, unit=unit)]
    return model.Model(book, costed.on)


# (what must hold, book, exact figure wanted, figure of the book). Figures in binary fractions of
# a pound are exact as decimals.
def worked_examples():
    # Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, ch. 6 exercise:
    # rib of beef, 38 lb 12 oz at 3.19, by-products at their own values, 22 lb ready.
    rib = _breakdown("123.6125", "38.75", "lb", "credit", {
        "ready": _lb(22), "fat": _lb(6, 8) | {"value": "0"}, "bones": _lb(4, 4) | {"value": "0.32"},
        "short ribs": _lb(3, 4) | {"value": "1.49"}, "chopped": _lb(2, 8) | {"value": "1.59"}})
    yield ("credits of 10.1775 leave 113.435 on the rib", _total(rib, "ready"),
           Fraction("113.435"))
    yield ("the rib costs 5.15614 a pound", round(_unit_cost(rib, "ready", "lb"), 5),
           Fraction("5.15614"))
    # Managerial accounting solution 9.36: joint cost 80,000 by sales value.
    joint = _breakdown("80000", "1", "kg", "value", {
        name: {"amount": "1", "unit": "each", "value": value}
        for name, value in (("X", "80000"), ("Y", "70000"), ("Z", "50000"))})
    for name, share in (("X", 32000), ("Y", 28000), ("Z", 20000)):
        yield f"{name} bears {share} of a joint cost by value", _total(joint, name), share
    # Horngren, Cost Accounting, 16-30: 20,000 cups of butter, 80,000 of buttermilk, cost 20,000.
    cups = {"butter": {"amount": "20000", "unit": "us-cup", "value": "1"},
            "buttermilk": {"amount": "80000", "unit": "us-cup", "value": "0.375"}}
    by_measure = _breakdown("20000", "10000", "us-gal", "weight", cups)
    by_value = _breakdown("20000", "10000", "us-gal", "value", cups)
    yield "buttermilk bears 16,000 by measure", _total(by_measure, "buttermilk"), 16000
    yield "butter bears 8,000 by sales value", _total(by_value, "butter"), 8000
    # BC Cook Articulation Committee, Basic Kitchen and Food Service Management (BCcampus 2015),
    # Yield Testing: 1 kg of carrots leaves 800 g.
    carrots = _breakdown("1", "1000", "g", "", {"trimmed": {"yield_pct": "80"}})
    yield "1 kg of carrots at 80 % costs 1.25 a kilogram", _unit_cost(carrots, "trimmed", "kg"), \
        Fraction("1.25")
    # Class slides, As Purchased and Edible Portion: 4 kg of rack at 250, trimmed by 5 %, grilled
    # by 7 % of the rest: losses multiply.
    rack = _breakdown("1000", "4", "kg", "", {"grilled": {"yield_pct": "88.35"}})
    yield "trimmed and grilled rack costs 282.97", round(_unit_cost(rack, "grilled", "kg"), 2), \
        Fraction("282.97")
    # Vancouver Community College Learning Centre, Recipe Costing: 10 lb of apples 5.60, yield 75 %.
    apples = _breakdown("5.60", "10", "lb", "", {"peeled": _lb(10)}, yield_pct="75")
    yield "10 lb of peeled apples cost 5.60 / 0.75", _total(apples, "peeled"), \
        Fraction("5.60") / Fraction("0.75")
    # holt.blue, MTH 81, ch. 8: 200 portions of 4 oz of asparagus at 56 %: 1428.571 oz (printed
    # 1428.27, a misprint) are 89.29 lb, bought by the pound.
    asparagus = _served(_breakdown("1", "1", "lb", "", {"trimmed": _lb(1)}, yield_pct="56"),
                        "trimmed", "4", "oz")
    bought, = plan.Plan(asparagus, {"portion": Fraction(200)}).report()["buy"]
    pound = model.UNITS["lb"][1]
    yield "200 portions of asparagus take 89.29 lb", round(bought["needed"].value / pound, 2), \
        Fraction("89.29")
    yield "for which 90 are bought", bought["packs"].value, 90


def check(seeds):
    """Prints what fails; returns how many checks passed and failed."""
    passed = failed = 0
    for says, got, wanted in worked_examples():
        passed += got == wanted
        failed += got != wanted
        if got != wanted:
            print(f"{says}: expected {float(wanted)!r}, got {float(got)!r}")
    for seed in seeds:
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            on = generate.generate(seed, folder)
            costed = model.Model(tables.read(folder), on)
        report = costed.report()
        found = [f"{holds.__doc__.split(':')[0]} {sentence}" for holds in PROPERTIES
                 for sentence in holds(costed, report["plates"] + report["menus"])]
        passed += not found
        failed += bool(found)
        for sentence in found:
            print(f"seed {seed}: {sentence}")
    return passed, failed

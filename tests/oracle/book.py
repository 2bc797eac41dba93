"""Reads a folder of tables into plain rows.

Every table of the contract is described once, in TABLES: a column names how its text is read
and what stands for an empty field. Rows are namespaces, one attribute per column; numbers are
exact fractions, percentages stay percentages, names are trimmed and in Unicode NFC.

The reader trusts its input: faults are the program's to find, not the oracle's.
"""

import csv
import datetime
import pathlib
import types
import unicodedata
from fractions import Fraction


def text(field):
    return unicodedata.normalize("NFC", field.strip())


def number(field):
    return Fraction(field.strip())


def date(field):
    return datetime.date.fromisoformat(field.strip())


def flag(field):
    return field.strip() == "yes"


def codes(field):
    """Allergens: None where nobody has said, an empty tuple for `none`."""
    return tuple(sorted(code for code in field.split() if code != "none"))


def _columns(**columns):
    """Maps a column to (reader, what an empty field means). A bare reader means None for empty."""
    return {name: column if isinstance(column, tuple) else (column, None)
            for name, column in columns.items()}


# `from` and `yield` are no attribute names in Python: rows are read with getattr or vars.
TABLES = {
    "book": _columns(key=text, value=text),
    "ingredients": _columns(
        name=text, category=text, kind=(text, "food"), unit=text, density_g_per_ml=number,
        piece_g=number, trim_yield_pct=number, allergens=codes, may_contain=codes,
        note=text),
    "suppliers": _columns(
        name=text, contact=text, quotes=text, minimum_order=number, delivery_charge=number),
    "offers": _columns(
        ingredient=text, supplier=text, code=(text, ""), pack_count=number, pack_size=number,
        pack_unit=text, net_pct=(number, Fraction(100)), currency=text, preferred=(flag, False),
        until=date, gtin=text, position=number),
    "prices": _columns(
        ingredient=text, supplier=text, code=(text, ""), **{"from": date}, price=number,
        tax_included_pct=(number, Fraction(0)), pack_count=number, pack_size=number,
        pack_unit=text),
    "price_answers": _columns(
        ingredient=text, supplier=text, code=(text, ""), price=number, answered_on=date,
        pack_count=number, pack_size=number, pack_unit=text, currency=text, **{"from": date}),
    "rates": _columns(
        currency=text, **{"from": date}, rate=number, per=(number, Fraction(1))),
    "preparations": _columns(
        name=text, by_products=(text, "free"), active_minutes=(number, Fraction(0)),
        smallest_part=(number, Fraction(0)), note=text, picture=text),
    "outputs": _columns(
        item=text, preparation=text, role=text, amount=number, unit=(text, "g"),
        yield_pct=number, value=number, density_g_per_ml=number, piece_g=number,
        lost_pct=(number, Fraction(0))),
    "lines": _columns(
        into=text, parent=text, position=number, item=text, amount=number, unit=text,
        weighed=(text, "trimmed"), yield_pct=number, recovered_pct=(number, Fraction(0)),
        note=text),
    "plates": _columns(
        name=text, course=text, makes=number, per_guest=(number, Fraction(1)), price=number,
        tax_pct=number, target_pct=number, allowance_pct=(number, Fraction(0)),
        active_minutes=(number, Fraction(0)), note=text, picture=text),
    "menus": _columns(name=text, price=number, tax_pct=number, target_pct=number, note=text),
    "menu_plates": _columns(
        menu=text, plate=text, choice=(text, ""), servings=(number, Fraction(1)),
        position=number, share_pct=number),
    "selling_prices": _columns(name=text, **{"from": date}, price=number, tax_pct=number),
    "services": _columns(date=date, service=text, name=text, covers=number),
    "service_stock": _columns(date=date, service=text, item=text, amount=number, unit=text),
    "yield_tests": _columns(
        test=text, item=text, date=date, purchased_g=number, usable_g=number, note=text),
    "yield_test_parts": _columns(test=text, output=text, weight_g=number),
    "sales": _columns(date=date, kind=text, name=text, sold=number, net_revenue=number),
    "till_names": _columns(name=text, kind=text, sold_as=text),
    "counts": _columns(date=date, item=text, amount=number, unit=text, place=text),
    "purchases": _columns(
        date=date, document_date=date, supplier=text, document=text, ingredient=text, category=text,
        kind=(text, "food"), amount=number, unit=text, net_value=number),
    "adjustments": _columns(
        date=date, kind=text, item=text, amount=number, unit=text, net_value=number, note=text),
}


def _read_table(path, columns):
    rows = []
    if not path.exists():
        return rows
    with path.open(encoding="utf-8-sig", newline="") as file:
        for record in csv.DictReader(file, strict=True):
            row = {}
            for name, (read, default) in columns.items():
                field = record.get(name) or ""
                row[name] = read(field) if field.strip() else default
            rows.append(types.SimpleNamespace(**row))
    return rows


def read(folder):
    """The tables of a folder: a namespace with a list of rows per table, and `settings`."""
    folder = pathlib.Path(folder)
    book = types.SimpleNamespace(**{name: _read_table(folder / f"{name}.csv", columns)
                                    for name, columns in TABLES.items()})
    for row in book.book:
        if row.key not in ("name", "currency", "speaks", "till_with_tax", "price_steps"):
            row.value = number(row.value)
    book.settings = {row.key: row.value for row in book.book}
    return book


def differences(one, other):
    """Names of the tables in which two books differ, the order of rows left aside."""
    def rows(book, name):
        return sorted(repr(sorted(vars(row).items())) for row in getattr(book, name))
    return [name for name in TABLES if rows(one, name) != rows(other, name)]

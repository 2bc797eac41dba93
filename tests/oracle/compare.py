#!/usr/bin/env python3
"""Holds the command line to the exact model on random books.

For every seed a folder of tables is loaded, costed and dumped by the program under test:
  - each figure of `cost --json` lies within rounding of the exact one, lists name the same things;
  - `plan` for a service of the day says what to make and buy as the exact plan does;
  - `month` states what the exact statement does, of a month's records made for the book;
  - the exit status says whether something is incomplete or over its target;
  - what was dumped says what was loaded, a book made from the dump dumps the same bytes;
  - `check` finds nothing wrong.

compare.py CLI [--seeds FIRST:END] [--keep DIR] compares; compare.py --self-test asks the model
for its own invariants, without a program.
"""

import argparse
import concurrent.futures
import filecmp
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
from fractions import Fraction

import book as tables
import generate
import model
import month
import plan
import properties

# The contract asks for agreement to 1e-12 of the largest term that enters a figure. A Figure
# carries the sum of its absolute terms, which credits cannot cancel: it bounds the largest term
# from above by the number of terms at most, and is the figure itself where nothing cancels.
# Every figure is a sum of such terms, so no absolute floor is needed: without terms it must be 0.
TOLERANCE = 1e-12


class Refused(Exception):
    """The program under test did not do what it was asked."""


def _refuse_constant(name):
    raise Refused(f"{name} is no JSON number")


def _name_of(entry):
    return entry.get("name") if isinstance(entry, dict) else None


def _negligible(entry):
    """True for a row whose quantity cancels to rounding: it may be listed or not."""
    quantity = entry.get("quantity")
    return (isinstance(quantity, model.Figure)
            and abs(float(quantity.value)) <= TOLERANCE * quantity.terms)


def compare(expected, got, path):
    """Differences between a report of the model and parsed JSON, as sentences."""
    if isinstance(expected, model.Figure):
        if isinstance(got, bool) or not isinstance(got, (int, float)):
            return [f"{path}: expected {float(expected.value)!r}, got {got!r}"]
        if abs(Fraction(got) - expected.value) > TOLERANCE * expected.terms:
            return [f"{path}: expected {float(expected.value)!r}, got {got!r} "
                    f"(terms {expected.terms!r})"]
        return []
    if isinstance(expected, set):
        if not isinstance(got, list) or len(set(got)) != len(got) or set(got) != expected:
            return [f"{path}: expected {sorted(expected)!r}, got {got!r}"]
        return []
    if isinstance(expected, list):
        return _compare_rows(expected, got, path)
    if isinstance(expected, dict):
        if not isinstance(got, dict):
            return [f"{path}: expected an object, got {got!r}"]
        found = []
        for key, value in expected.items():
            if key not in got:
                found.append(f"{path}.{key}: absent")
            else:
                found += compare(value, got[key], f"{path}.{key}")
        return found
    return [] if got == expected else [f"{path}: expected {expected!r}, got {got!r}"]


def _compare_rows(expected, got, path):
    if not isinstance(got, list):
        return [f"{path}: expected a list, got {got!r}"]
    theirs = {_name_of(entry): entry for entry in got}
    ours = {entry["name"]: entry for entry in expected}
    found = []
    if len(theirs) != len(got):
        found.append(f"{path}: a name stands twice in {[_name_of(entry) for entry in got]!r}")
    for name in theirs.keys() - ours.keys():
        found.append(f"{path}[{name}]: expected nothing, got {theirs[name]!r}")
    for name, entry in ours.items():
        if name in theirs:
            found += compare(entry, theirs[name], f"{path}[{name}]")
        elif not _negligible(entry):
            found.append(f"{path}[{name}]: expected {model.plain(entry)!r}, got nothing")
    return found


def run(command, *arguments, expect=(0,)):
    result = subprocess.run([command, *map(str, arguments)], capture_output=True, timeout=120)
    if result.returncode not in expect:
        raise Refused(f"{arguments[0]}: exit status {result.returncode}, expected "
                      f"{' or '.join(map(str, expect))}: "
                      f"{result.stderr.decode(errors='replace').strip()}")
    return result


def _check_costs(command, path, book, on):
    expected = model.Model(book, on).report()
    status = model.exit_status(expected)
    result = run(command, "cost", path, "--on", on, "--json", expect=(0, 1))
    got = json.loads(result.stdout.decode("utf-8"), parse_constant=_refuse_constant)
    found = compare(expected, got, "$")
    if result.returncode != status:
        found.append(f"exit status of cost: expected {status}, got {result.returncode}")
    if result.returncode == 1 and not result.stderr.strip():
        found.append("standard error: expected what is incomplete, got nothing")
    return found


def _check_plan(command, path, book, on):
    service = "dinner of the day"
    expected = plan.of_service(model.Model(book, on), on, service)
    report = expected.report()
    status = 1 if report["missing"] else 0
    result = run(command, "plan", path, "--service", f"{on}/{service}", "--json", expect=(0, 1))
    got = plan.named(json.loads(result.stdout.decode("utf-8"), parse_constant=_refuse_constant))
    found = compare(report, got, "plan")
    if result.returncode != status:
        found.append(f"exit status of plan: expected {status}, got {result.returncode}")
    early = expected.misplaced([_name_of(entry) for entry in got["make"]])
    return found + ([f"plan.make: {early} stands before what it takes"] if early else [])


def _check_round_trip(command, folder, work):
    first, second = work / "first", work / "second"
    run(command, "dump", work / "book.croustade", first)
    run(command, "load", work / "second.croustade", first)
    run(command, "dump", work / "second.croustade", second)
    found = [f"dump, {name}.csv: says something else than what was loaded"
             for name in tables.differences(tables.read(folder), tables.read(first))]
    names = {entry.name for dump in (first, second) for entry in dump.iterdir()}
    _, unequal, absent = filecmp.cmpfiles(first, second, names, shallow=False)
    return found + [f"dump, {name}: a dump of its load is not the same bytes"
                    for name in sorted(unequal + absent)]


def _check_month(command, seed, folder, work, on):
    """A month's records in place of those of the folder."""
    first = month.furnish(seed, folder, on)
    path = work / "month.croustade"
    run(command, "load", path, folder)
    expected = month.Month(tables.read(folder), first)
    report = expected.report()
    result = run(command, "month", path, report["month"], "--json", expect=(0, 1))
    got = month.named(json.loads(result.stdout.decode("utf-8"), parse_constant=_refuse_constant))
    not_counted = {row["about"] for row in got["questions"] if row["what"].startswith("not counted")}
    found = compare(report, got, "month") + compare(expected.not_counted, sorted(not_counted),
                                                    "month.questions")
    if result.returncode != expected.exit_status():
        found.append(f"exit status of month: expected {expected.exit_status()}, "
                     f"got {result.returncode}")
    return found


def check_seed(command, seed, work):
    """What the program under test does wrong with the book of a seed, as sentences."""
    folder = work / "folder"
    try:
        on = generate.generate(seed, folder)
        path = work / "book.croustade"
        run(command, "load", path, folder)
        found = _check_costs(command, path, tables.read(folder), on)
        found += _check_plan(command, path, tables.read(folder), on)
        found += _check_round_trip(command, folder, work)
        run(command, "check", path)
        found += _check_month(command, seed, folder, work, on)
        return found
    except (Refused, json.JSONDecodeError, UnicodeDecodeError, OSError,
            subprocess.TimeoutExpired) as error:
        return [str(error)]


def compare_seeds(command, seeds, keep):
    """Runs all seeds, prints what differs, keeps the folders of failed seeds if asked to."""
    passed = 0
    with tempfile.TemporaryDirectory() as scratch:
        root = pathlib.Path(keep or scratch)

        def one(seed):
            work = root / f"seed-{seed}"
            shutil.rmtree(work, ignore_errors=True)
            work.mkdir(parents=True)
            found = check_seed(command, seed, work)
            if not (found and keep):
                shutil.rmtree(work)
            return found

        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            for seed, found in zip(seeds, pool.map(one, seeds)):
                passed += not found
                for sentence in found:
                    print(f"seed {seed}: {sentence}")
    return passed, len(seeds) - passed


def _seeds(field):
    first, end = map(int, field.split(":"))
    return range(first, end)


def main():
    parser = argparse.ArgumentParser(description="Compares a command line with the exact model.")
    parser.add_argument("cli", nargs="?", help="the program under test")
    parser.add_argument("--seeds", type=_seeds, default=range(300), metavar="FIRST:END",
                        help="seeds to try, END left out (default 0:300)")
    parser.add_argument("--keep", metavar="DIR", help="keep the books of failed seeds here")
    parser.add_argument("--self-test", action="store_true",
                        help="check the model's own invariants instead")
    options = parser.parse_args()
    if options.self_test:
        passed, failed = properties.check(options.seeds)
    elif options.cli:
        passed, failed = compare_seeds(options.cli, options.seeds, options.keep)
    else:
        parser.error("a program to compare is needed, or --self-test")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())

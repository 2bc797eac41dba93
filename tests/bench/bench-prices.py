#!/usr/bin/env python3
"""A supplier's list of 100 thousand prices, posted by the command: read, matched, posted as one act,
and what it does to plates printed. Then one in which every price waits for an answer, and all are accepted.

Beside   The sqlite3 shell's .import --csv of the same file into a table without a key, which finds
         nothing, checks nothing and keeps no journal. What waits stands beside the list that does not.
Counted  From the start of each program to its end, by the clock, and its processor time. Every row has
         a new price, and nothing else is in the book.

Usage: bench-prices.py CROUSTADE-CLI [SQLITE3]
"""

import csv
import os
import pathlib
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

N_ROWS = 100_000
ROUNDS = 3
GOAL = 2.0
GOAL_OF_ANSWERS = 1.5
SKIPPED = 77


def name(i):
  return f"Ingredient {i:06d}"


def tables():
  rows = range(N_ROWS)
  yield "book", [("key", "value"), ("currency", "EUR")]
  yield "suppliers", [("name",), ("The quay",)]
  yield "ingredients", [("name", "unit"), *((name(i), "g") for i in rows)]
  yield "offers", [("ingredient", "supplier", "code", "pack_count", "pack_size", "pack_unit"),
                   *((name(i), "The quay", f"Q-{i:06d}", 1, 5, "kg") for i in rows)]
  yield "prices", [("ingredient", "supplier", "code", "from", "price"),
                   *((name(i), "The quay", f"Q-{i:06d}", "2026-01-01", 10 + i % 90) for i in rows)]


def write(path, rows):
  with open(path, "w", newline="", encoding="utf-8") as file:
    csv.writer(file).writerows(rows)


def run(*command):
  """Seconds by the clock, and of processor time."""
  start, before = time.monotonic(), os.times()
  done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
  after = os.times()
  if done.returncode != 0:
    sys.exit(f"{command[0]}: {done.stderr}")
  return (time.monotonic() - start,
          after.children_user - before.children_user + after.children_system - before.children_system)


def show(what, ours, beside, reference, ratio, goal=GOAL):
  print(f"{what:30} {ours * 1e3:10.4f}   {beside:30} {reference * 1e3:10.4f} {ratio:7.3f} {goal:7.2f}",
        "met" if ratio <= goal else "missed")


def main(cli, shell):
  with tempfile.TemporaryDirectory() as parent:
    folder = pathlib.Path(parent)
    full, book = folder / "full.croustade", folder / "book.croustade"
    listed, slipped = folder / "list.csv", folder / "slipped.csv"
    (folder / "tables").mkdir()
    for table, rows in tables():
      write(folder / "tables" / f"{table}.csv", rows)
    write(listed, [("Code", "Product", "Price"), *((f"Q-{i:06d}", name(i), 11 + i % 90) for i in range(N_ROWS))])
    write(slipped, [("Code", "Product", "Price"),
                    *((f"Q-{i:06d}", name(i), 10 * (10 + i % 90)) for i in range(N_ROWS))])
    run(cli, "load", full, folder / "tables")
    ours, answered, reference = [], [], []
    for _ in range(ROUNDS):
      for times, file, answer in (ours, listed, ()), (answered, slipped, ("--accept-all",)):
        shutil.copy(full, book)
        times.append(run(cli, "prices", book, file, "--supplier", "The quay", "--from", "2026-02-01", *answer))
      copy = folder / "copy.sqlite"
      copy.unlink(missing_ok=True)
      reference.append(run(shell, copy, ".mode csv", f".import '{listed}' list"))
    print(f"\n{N_ROWS // 1000} thousand prices")
    print(f"{'what':30} {'ms':>10}   {'beside':30} {'ms':>10} {'ratio':>7} {'goal':>7}")
    show("prices, posted and printed", statistics.median(t[0] for t in ours), ".import --csv",
         statistics.median(t[0] for t in reference), statistics.median(a[0] / b[0] for a, b in zip(ours, reference)))
    least = min(t[1] for t in ours), min(t[1] for t in reference)
    show("  processor time, best round", least[0], "  processor time, best round", least[1], least[0] / least[1])
    answers = min(t[1] for t in answered)
    show("ten times as much, accepted", answers, "the list before", least[0], answers / least[0], GOAL_OF_ANSWERS)


if __name__ == "__main__":
  if len(sys.argv) < 3:
    print("sqlite3, the shell, is not there to compare with", file=sys.stderr)
    sys.exit(SKIPPED)
  main(*sys.argv[1:3])

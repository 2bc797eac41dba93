#!/usr/bin/env python3
"""Seconds that a spreadsheet program takes to compute every formula of a workbook anew.

    recalculate.py FILE.xlsx

It opens the workbook in turns once told to compute all formulas, and once told to keep the values
that they carry; each time it writes the first sheet as plain text and ends. The medians' difference
is printed, and the second median. Where the program is not there, the exit status is 77.
"""

import pathlib
import statistics
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "workbook"))
import office  # noqa: E402

N_ROUNDS = 3


def seconds_of(path, recalculation):
  with tempfile.TemporaryDirectory() as folder:
    start = time.monotonic()
    office.convert([path], folder, "csv", recalculation)
    return time.monotonic() - start


def main():
  office.need("soffice")
  path = sys.argv[1]
  seconds_of(path, office.NEVER)
  anew, kept = [], []
  for _ in range(N_ROUNDS):
    anew.append(seconds_of(path, office.ALWAYS))
    kept.append(seconds_of(path, office.NEVER))
  kept = statistics.median(kept)
  print(f"{statistics.median(anew) - kept:.3f} {kept:.3f}")


if __name__ == "__main__":
  main()

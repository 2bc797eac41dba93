#!/usr/bin/env python3
"""Adds up gcovr's table of files (--csv, on standard input) into a line for each layer."""

import csv
import os
import sys
from collections import Counter


def main():
  lines, covered = Counter(), Counter()

  for row in csv.DictReader(sys.stdin):
    layer = os.path.dirname(row["filename"])
    lines[layer] += int(row["line_total"])
    covered[layer] += int(row["line_covered"])
  for layer in sorted(lines):
    share = 100 * covered[layer] / lines[layer] if lines[layer] else 0
    print(f"{layer:<14} {share:5.1f} % of {lines[layer]} lines")


if __name__ == "__main__":
  main()

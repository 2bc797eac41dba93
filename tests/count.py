#!/usr/bin/env python3
"""Counts what meson's logs of tests say, and closes a run with it: what failed and what was skipped,
with the reason it gave, stands in the last lines. What leaves out a part of itself and passes prints
"skipped: WHY" in a line of its own, and stands there too.

    count.py BUILDS UNBUILT PART...

UNBUILT parts of the run could not be built: each counts as one failure. Each PART has its build
in the folder BUILDS; one that ran no test is a failure too.
"""

import json
import os
import re
import sys

PASSED = {"OK", "EXPECTEDFAIL"}
SKIPPED = {"SKIP"}


def why_skipped(test):
  """What a test said last before it gave up; its log has it in standard output."""
  said = (test.get("stdout") or "").strip().splitlines()
  return said[-1].removeprefix("skipped: ") if said else "it did not say why"


def parts_skipped(test):
  """What a test that passed has left out, each once: why it said so, or which case of it said nothing."""
  said = (test.get("stdout") or "").splitlines()
  whys = {}

  for before, line in zip(["", *said], said):
    if line.startswith("skipped: "):
      whys[line.removeprefix("skipped: ")] = None
    elif re.fullmatch(r"\[  SKIPPED \] test_\w+", line) and not before.startswith("skipped: "):
      whys.setdefault(f"{line.split()[-1]} did not say why")
  return list(whys)


def main():
  failed, passed, skipped = int(sys.argv[2]), 0, 0
  names = []
  left_out = []

  for part in sys.argv[3:]:
    path = os.path.join(sys.argv[1], part, "meson-logs", "testlog.json")
    try:
      with open(path, encoding="utf-8") as log:
        results = [json.loads(line) for line in log]
    except FileNotFoundError:
      results = []
    if not results:
      names.append(f"{part}: no test was run")
    for test in results:
      if test["result"] in PASSED:
        passed += 1
        left_out += (f"{part}: {test['name']}, a part of it: {why}" for why in parts_skipped(test))
      elif test["result"] in SKIPPED:
        skipped += 1
        left_out.append(f"{part}: {test['name']}: {why_skipped(test)}")
      else:
        names.append(f"{part}: {test['name']}: {test['result']}")

  failed += len(names)
  print()
  for line in left_out:
    print(f"skipped: {line}")
  for name in names:
    print(name)
  print(f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else ""))
  return 0 if passed and not failed else 1


if __name__ == "__main__":
  sys.exit(main())

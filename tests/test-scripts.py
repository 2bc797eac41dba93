#!/usr/bin/env python3
"""Shell scripts pass shellcheck and say what they are for, Python's compile, and no line of code is too long.

    test-scripts.py SOURCE-FOLDER
"""

import glob
import itertools
import os
import subprocess
import sys

SHELL = (".ci/run", "packaging/needs", "packaging/start", "tests/run",
         "packaging/completions/croustade-cli.bash")

COLUMNS = 120

HELPS = ("packaging/needs", "packaging/start", "tests/run")


def main():
  source = os.path.abspath(sys.argv[1])
  failed = 0

  for name in SHELL:
    dialect = ["-s", "bash"] if name.endswith(".bash") else []
    failed += subprocess.run(["shellcheck", *dialect, os.path.join(source, name)],
                             check=False).returncode != 0
  for name in HELPS:
    done = subprocess.run([os.path.join(source, name), "--help"], capture_output=True, text=True, check=False)
    if done.returncode != 0 or name not in done.stdout or done.stderr:
      print(f"{name} --help: {done.returncode}, {done.stderr}")
      failed += 1
  for path in glob.glob(os.path.join(source, "**", "*.py"), recursive=True):
    with open(path, encoding="utf-8") as file:
      compile(file.read(), path, "exec")
  for folder, ending in itertools.product(("app", "tests"), ("c", "h", "py")):
    for path in glob.glob(os.path.join(source, folder, "**", f"*.{ending}"), recursive=True):
      with open(path, encoding="utf-8") as file:
        for number, line in enumerate(file, 1):
          if len(line.rstrip("\n")) > COLUMNS:
            print(f"{path}:{number}: longer than {COLUMNS} columns")
            failed += 1
  return 1 if failed else 0


if __name__ == "__main__":
  sys.exit(main())

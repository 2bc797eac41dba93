#!/usr/bin/env python3
"""Every header compiles alone, with no more in sight than its own layer has.

    test-headers.py SOURCE-FOLDER BUILD-FOLDER
"""

import glob
import json
import os
import shlex
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor


def layer_of(path):
  """The folder below app/ that a file lies in, whichever room of it."""
  return path.replace(os.sep, "/").rpartition("/app/")[2].partition("/")[0]


def commands_of(build):
  """A compiler call of each layer that is built, by its folder, without input and output."""
  commands = {}

  with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as file:
    for entry in json.load(file):
      if "/app/" not in entry["file"]:
        continue
      layer = layer_of(entry["file"])
      words = shlex.split(entry["command"])
      words = words[:words.index("-MD")] if "-MD" in words else words[:words.index("-o")]
      commands.setdefault(layer, (words, entry["directory"]))
  return commands


def check(header, words, directory):
  """What the compiler says of a header that is all of a file, twice."""
  alone = f'#include "{header}"\n#include "{header}"\n'
  done = subprocess.run([*words, "-Werror", "-fsyntax-only", "-x", "c", "-"], cwd=directory,
                        input=alone, capture_output=True, encoding="utf-8", check=False)
  return done.stderr if done.returncode != 0 else None


def main():
  source, build = map(os.path.abspath, sys.argv[1:3])
  commands = commands_of(build)
  headers = [header for layer in sorted(commands)
             for header in sorted(glob.glob(os.path.join(source, "app", layer, "**", "*.h"),
                                            recursive=True))]
  assert headers, f"no header in {source}"

  with ThreadPoolExecutor(os.cpu_count()) as pool:
    said = list(pool.map(lambda header: check(header, *commands[layer_of(header)]), headers))
  failed = [(header, errors) for header, errors in zip(headers, said) if errors is not None]
  for header, errors in failed:
    print(f"{os.path.relpath(header, source)} does not compile alone:\n{errors}")
  return 1 if failed else 0


if __name__ == "__main__":
  sys.exit(main())

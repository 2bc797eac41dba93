#!/usr/bin/env python3
"""Every header compiles alone, with no more in sight than its own layer has, and has a guard.

    test-headers.py SOURCE-FOLDER BUILD-FOLDER

What the build has shown is not asked again: a file that begins with its own header, after the build's
settings at most, was compiled with nothing before it, unless a precompiled header came first.
"""

import glob
import json
import os
import re
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


def is_guarded(header):
  """Whether a second inclusion of it would say nothing."""
  with open(header, encoding="utf-8") as file:
    return "#pragma once" in file.read()


def is_first(header):
  """Whether the file of its name includes it before all else but the build's settings."""
  try:
    with open(header.removesuffix(".h") + ".c", encoding="utf-8") as file:
      included = re.findall(r'^#include [<"](.*)[>"]', file.read(), re.MULTILINE)
  except FileNotFoundError:
    return False
  return next((name for name in included if name != "config.h"), None) == os.path.basename(header)


def check(header, words, directory):
  """What the compiler says of a header that is all of a file."""
  alone = f'#include "{header}"\n'
  done = subprocess.run([*words, "-Werror", "-fsyntax-only", "-x", "c", "-"], cwd=directory,
                        input=alone, capture_output=True, encoding="utf-8", check=False)
  return done.stderr if done.returncode != 0 else None


def main():
  source, build = map(os.path.abspath, sys.argv[1:3])
  commands = commands_of(build)
  headers = [header for layer in sorted(commands)
             for header in sorted(glob.glob(os.path.join(source, "app", layer, "**", "*.h"),
                                            recursive=True))
             if "/precompiled/" not in header]
  assert headers, f"no header in {source}"

  unshown = [header for header in headers
             if not is_first(header) or "-include" in commands[layer_of(header)][0]]
  with ThreadPoolExecutor(os.cpu_count()) as pool:
    said = list(pool.map(lambda header: check(header, *commands[layer_of(header)]), unshown))
  failed = [f"{os.path.relpath(header, source)} does not compile alone:\n{errors}"
            for header, errors in zip(unshown, said) if errors is not None]
  failed += [f"{os.path.relpath(header, source)} has no guard" for header in headers
             if not is_guarded(header)]
  for sentence in failed:
    print(sentence)
  return 1 if failed else 0


if __name__ == "__main__":
  sys.exit(main())

#!/usr/bin/env python3
"""What README.md shows is what the program prints.

    test-readme.py CROUSTADE-CLI SOURCE-FOLDER

Runs every block marked `console` in one shell, from a folder laid out as a checkout that
packaging/start has built, and compares what each command prints: standard output, then messages.
"""

import os
import re
import subprocess
import sys
import tempfile

END = "== end of a command"


def blocks(text):
  return re.findall(r"(?ms)^```console\n(.*?)^```$", text)


def steps(block):
  """(command, output) for each command; a command may go on after a backslash."""
  return re.findall(r"(?m)^\$ ((?:.*\\\n)*.*)\n((?:(?!\$ ).*\n)*)", block)


def run(commands, folder, environment):
  script = "".join(f"{{ {command}\n}} 2>messages; cat messages; echo '{END}'\n"
                   for command in commands)
  done = subprocess.run(["bash", "-c", script], cwd=folder, env=environment, check=True,
                        capture_output=True, encoding="utf-8")
  return done.stdout.split(END + "\n")[:-1]


def main():
  cli, source = map(os.path.abspath, sys.argv[1:3])
  with open(os.path.join(source, "README.md"), encoding="utf-8") as file:
    shown = [step for block in blocks(file.read()) for step in steps(block)]
  assert shown, "README.md shows no command"

  with tempfile.TemporaryDirectory() as folder:
    os.makedirs(os.path.join(folder, "build", "app"))
    os.symlink(os.path.dirname(cli), os.path.join(folder, "build", "app", "cli"))
    os.symlink(os.path.join(source, "data"), os.path.join(folder, "data"))
    printed = run([command for command, _ in shown], folder,
                  {**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""})

  differ = [(c, want, got) for (c, want), got in zip(shown, printed) if want != got]
  for command, want, got in differ:
    print(f"$ {command}\nREADME.md shows:\n{want}\nit prints:\n{got}")
  return 1 if differ or len(printed) != len(shown) else 0


if __name__ == "__main__":
  sys.exit(main())

#!/usr/bin/env python3
"""What README.md shows is what the program prints.

    test-readme.py CROUSTADE-CLI SOURCE-FOLDER

Runs every block marked `console` in one shell, from a folder laid out as a checkout that
packaging/start has built, and compares what each command prints (standard output, then messages)
and its exit status with what it prints: 0 where there are no messages, 1 where something is
incomplete or over its target, 2 where it was refused. All of it is run twice in the same folder, as
a reader may go through the steps again. The commands of the first block are there and can be run.
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


def fits(command, printed, status):
  """Whether an exit status belongs to a command and to what it printed."""
  if "2>" in command:  # what it is about stands elsewhere
    return status <= 1
  if command.startswith("diff "):
    return status == (printed != "")
  return status == status_of(printed)


def status_of(printed):
  if re.search(r"(?m)nothing was changed|^Try ", printed):
    return 2
  return 1 if re.search(r"(?m)^[^$\n]+: (incomplete|over its target): ", printed) else 0


def run(commands, folder, environment):
  script = "".join(f"{{ {command}\n}} 2>messages; status=$?; cat messages; echo '{END}' $status\n"
                   for command in commands)
  done = subprocess.run(["bash", "-c", script], cwd=folder, env=environment, check=True,
                        capture_output=True, encoding="utf-8")
  parts = re.split(f"{re.escape(END)} (\\d+)\n", done.stdout)
  return list(zip(parts[0::2], map(int, parts[1::2])))


def missing_programs(text, source):
  """What the first block names and the project has not."""
  commands = re.findall(r"(?m)^(\S+)", re.search(r"(?ms)^```sh\n(.*?)^```$", text).group(1))
  assert commands, "the first block of README.md shows no command"
  return [c for c in commands if not os.access(os.path.join(source, c), os.X_OK)]


def main():
  cli, source = map(os.path.abspath, sys.argv[1:3])
  with open(os.path.join(source, "README.md"), encoding="utf-8") as file:
    text = file.read()
  shown = [step for block in blocks(text) for step in steps(block)]
  assert shown, "README.md shows no command"

  with tempfile.TemporaryDirectory() as folder:
    os.makedirs(os.path.join(folder, "build", "app"))
    os.symlink(os.path.dirname(cli), os.path.join(folder, "build", "app", "cli"))
    os.symlink(os.path.join(source, "data"), os.path.join(folder, "data"))
    commands = [command for command, _ in shown] * 2
    printed = run(commands, folder, {**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""})

  differ = [(c, want, got, status) for (c, want), (got, status) in zip(shown * 2, printed)
            if want != got or not fits(c, want, status)]
  for command, want, got, status in differ:
    print(f"$ {command}\nREADME.md shows:\n{want}\nit prints, with status {status}:\n{got}")
  missing = missing_programs(text, source)
  for name in missing:
    print(f"README.md names {name}, which cannot be run")
  return 1 if missing or differ or len(printed) != len(commands) else 0


if __name__ == "__main__":
  sys.exit(main())

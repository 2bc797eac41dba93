#!/usr/bin/env python3
"""Shell scripts pass shellcheck and say what they are for, and build elsewhere what stands where nothing
can be written; Python's compile, and no line of code is too long.

    test-scripts.py SOURCE-FOLDER
"""

import glob
import itertools
import json
import os
import shutil
import subprocess
import sys
import tempfile

SHELL = (".ci/run", "packaging/needs", "packaging/start", "tests/run",
         "packaging/completions/croustade-cli.bash")

COLUMNS = 120

HELPS = ("packaging/needs", "packaging/start", "tests/run")

NOBODY = 65534

# In place of meson: where it was to build.
MESON = '#!/bin/sh\necho "to build: $*"\nexit 1\n'


def be_nobody():
  """Nothing is forbidden to root."""
  if os.geteuid() == 0:
    os.setgid(NOBODY)
    os.setuid(NOBODY)


def builds_elsewhere(source, folder):
  """What is wrong with the place where a source tree is built that cannot be written; "" for nothing."""
  wrong = []
  tree, cache, tools = (os.path.join(folder, name) for name in ("a tree", "a cache", "tools"))
  for path in ("packaging/start", "tests/run", "tests/count.py"):
    os.makedirs(os.path.dirname(os.path.join(tree, path)), exist_ok=True)
    shutil.copy(os.path.join(source, path), os.path.join(tree, path))
  for path, text in ((os.path.join(tree, "packaging/needs"), "#!/bin/sh\n"), (os.path.join(tools, "meson"), MESON)):
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "w", encoding="ascii") as file:
      file.write(text)
    os.chmod(path, 0o755)
  os.mkdir(cache)
  if os.geteuid() == 0:
    os.chown(cache, NOBODY, NOBODY)
  for path, _, _ in os.walk(folder):
    os.chmod(path, 0o755 if path == cache else 0o555)
  environment = {name: value for name, value in os.environ.items() if not name.startswith("CROUSTADE_")}
  environment |= {"PATH": f"{tools}:{os.environ['PATH']}", "TMPDIR": "/tmp"}
  for script, name in (("packaging/start", "build"), ("tests/run", "build-tests")):
    for home, says in ((cache, f"{cache}/croustade/{name}"), (tree, f"{tree}/croustade/{name} cannot be written")):
      done = subprocess.run([os.path.join(tree, script)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
                            check=False, preexec_fn=be_nobody, env=environment | {"XDG_CACHE_HOME": home})
      if done.returncode == 0 or says not in done.stdout or (home == cache) != ("to build" in done.stdout):
        wrong.append(f"{script} of a tree that cannot be written, cache {home}: {done.stdout}")
  for path, _, _ in os.walk(folder):
    os.chmod(path, 0o755)
  return "\n".join(wrong)


def old_book_is_told(source, folder):
  """What packaging/start does not say of a book of before that cannot be opened; "" for nothing."""
  tree, build = os.path.join(folder, "another tree"), os.path.join(folder, "another build")
  book = os.path.join(build, "saltmarsh-rooms.croustade")
  programs = {"packaging/needs": "#!/bin/sh\n", "ninja": "#!/bin/sh\n",
              os.path.join(build, "app/cli/croustade-cli"): "#!/bin/sh\necho refused >&2\nexit 2\n"}
  for path, text in programs.items():
    os.makedirs(os.path.dirname(os.path.join(tree, path)), exist_ok=True)
    with open(os.path.join(tree, path), "w", encoding="ascii") as file:
      file.write(text)
    os.chmod(os.path.join(tree, path), 0o755)
  shutil.copy(os.path.join(source, "packaging/start"), os.path.join(tree, "packaging/start"))
  for path in (book, os.path.join(build, "build.ninja")):
    with open(path, "w", encoding="ascii"):
      pass
  done = subprocess.run([os.path.join(tree, "packaging/start")], stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                        text=True, check=False,
                        env=os.environ | {"PATH": f"{tree}:{os.environ['PATH']}", "CROUSTADE_BUILD": build})
  said = "refused" in done.stdout and f"move {book} away, and the demo is loaded anew" in done.stdout
  return "" if said and done.returncode == 1 else f"packaging/start beside an old book: {done.stdout}"


# A test that passed and left something out, as cmocka and others say so.
LEFT_OUT = """[ RUN      ] test_published
skipped: no table
[  SKIPPED ] test_published
[ RUN      ] test_silent
[  SKIPPED ] test_silent
skipped: no table
[  SKIPPED ] 2 test(s), listed below:
"""


def left_out_is_told(source, folder):
  """What a run's last lines say wrongly of tests that leave out a part; "" for nothing."""
  os.makedirs(os.path.join(folder, "plain/meson-logs"))
  with open(os.path.join(folder, "plain/meson-logs/testlog.json"), "w", encoding="utf-8") as log:
    for name, said in (("whole", "done\n"), ("some", LEFT_OUT)):
      log.write(json.dumps({"name": name, "result": "OK", "stdout": said}) + "\n")
  done = subprocess.run([os.path.join(source, "tests/count.py"), folder, "0", "plain"], capture_output=True, text=True,
                        check=False)
  expected = ("skipped: plain: some, a part of it: no table\n"
              "skipped: plain: some, a part of it: test_silent did not say why\n2 passed, 0 failed")
  return "" if done.stdout.strip() == expected and done.returncode == 0 else done.stdout + done.stderr


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
  with tempfile.TemporaryDirectory(dir="/tmp") as folder:
    for tried in (left_out_is_told, builds_elsewhere, old_book_is_told):
      wrong = tried(source, folder)
      print(wrong, end="")
      failed += wrong != ""
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

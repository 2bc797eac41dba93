#!/usr/bin/env python3
"""Each layer calls nothing but what it may use, whatever happens to be linked beside it.

    test-layers.py BUILD-FOLDER SOURCE-FOLDER

Every symbol that a layer leaves to others must come from a layer that it may know, from one of
its libraries, or from the compiler's own run-time. Within a layer that has rooms, a room calls and
includes nothing of a room that its meson.build names later: so there are no circles.
"""

import glob
import os
import re
import subprocess
import sys

# What ISO C gives the engine: memory, text, sorting and mathematics; no files, no clock, no
# locale, and so neither printf nor strtod.
ISO_C = set("""
  abort bsearch calloc free malloc qsort realloc __assert_fail
  memchr memcmp memcpy memmove memset strchr strcmp strlen strncmp strspn strcspn
""".split())

# layer: layers it may know, libraries it may call; after a colon, how all that it may call of a
# library begins
LAYERS = {
  "engine": ((), ("m",)),
  "files": ((), ("c", "glib-2.0")),
  "store": (("engine", "files"), ("c", "m", "glib-2.0", "sqlite3")),
  "exchange": (("engine", "files"), ("c", "m", "glib-2.0", "csv", "json-glib-1.0", "xlsxwriter", "archive", "xml2",
                                    "z")),
  "picture": (("files", "exchange"), ("c", "m", "glib-2.0", "gobject-2.0", "gdk_pixbuf-2.0", "cairo", "pango-1.0",
                                   "pangocairo-1.0")),
  "kitchen": (("engine", "files", "store", "exchange", "picture"),
              ("c", "m", "glib-2.0", "gobject-2.0", "gio-2.0:g_list_model_", "icui18n", "icuuc")),
  "cli": (("engine", "files", "store", "exchange", "picture", "kitchen"), ("c", "m", "glib-2.0", "gobject-2.0")),
  "workbench": (("engine", "files", "store", "exchange", "picture", "kitchen"),
                ("c", "m", "glib-2.0", "gobject-2.0", "gio-2.0", "gtk-4", "adwaita-1", "pango-1.0",
                 "pangocairo-1.0", "cairo",
                 "graphene-1.0")),
}

# The compiler's run-time: 128-bit arithmetic, stack guard, thread-local and position-independent
# code, and what sanitizers and coverage add.
RUN_TIME = re.compile(r"_GLOBAL_OFFSET_TABLE_|__tls_get_addr|__stack_chk_fail|_Unwind_Resume"
                      r"|__\w+ti(\d|df)?|__(asan|ubsan|lsan|sanitizer|gcov)_\w+")


def run(*command):
  return subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout


def nm(files, *options):
  names = set()
  for line in run("nm", *options, *files).splitlines():
    fields = line.split()
    if len(fields) >= 2 and len(fields[-2]) == 1:
      names.add(fields[-1].split("@")[0])
  return names


def calls_of(files):
  return nm(files, "--undefined-only") - nm(files, "--defined-only")


def library(name):
  """What a shared library gives; that of libc.so is a linker's script, so by its other name."""
  for ending in (".so.6", ".so"):
    path = run("cc", f"-print-file-name=lib{name}{ending}").strip()
    if os.path.isabs(path):
      return nm([path], "--dynamic", "--defined-only")
  raise FileNotFoundError(f"lib{name}.so")


def objects(build, layer):
  files = glob.glob(f"{build}/app/{layer}/libcroustade-{layer}.a")
  return files or glob.glob(f"{build}/app/{layer}/croustade-{layer}.p/*.o")


def strangers(build, layer):
  layers, libraries = LAYERS[layer]
  allowed = set() if "c" in libraries else set(ISO_C)

  for name in libraries:
    name, _, beginning = name.partition(":")
    allowed |= {symbol for symbol in library(name) if symbol.startswith(beginning)}
  for name in layers:
    allowed |= nm(objects(build, name), "--defined-only")
  files = objects(build, layer)
  assert files, f"nothing was built of {layer}"
  return sorted(s for s in calls_of(files) - allowed if not RUN_TIME.fullmatch(s))


def rooms_of(source, layer):
  """The rooms of a layer, bottom to top, as its meson.build names them."""
  with open(f"{source}/app/{layer}/meson.build", encoding="utf-8") as file:
    return re.findall(r"^subdir\('([^']+)'\)", file.read(), re.MULTILINE)


def told_rooms_of(source, layer):
  """The same as DEVELOPERS.md tells them: a line that begins with the layer, and what it goes on in."""
  with open(f"{source}/DEVELOPERS.md", encoding="utf-8") as file:
    told = re.search(rf"^- `{layer}`:((?:.|\n(?=  ))*)", file.read(), re.MULTILINE)
  return re.findall(r"`([^`]+)`", told[1]) if told else []


def calls_upward(build, source, layer):
  """What a room takes of a room above it: (room, what, the room above)."""
  rooms = rooms_of(source, layer)
  files = {room: [f for f in glob.glob(f"{build}/app/{layer}/**/*.o", recursive=True)
                  if os.path.basename(f).startswith(f"{room}_")] for room in rooms}
  gives = {room: nm(files[room], "--defined-only") for room in rooms}
  headers = {room: {os.path.basename(f) for f in glob.glob(f"{source}/app/{layer}/{room}/*.h")}
             for room in rooms}

  for number, room in enumerate(rooms):
    assert files[room], f"nothing was built of {layer}/{room}"
    wants = calls_of(files[room])
    includes = set()
    for path in glob.glob(f"{source}/app/{layer}/{room}/*.[ch]"):
      with open(path, encoding="utf-8") as file:
        includes |= set(re.findall(r'^#include "([^"]+)"', file.read(), re.MULTILINE))
    for above in rooms[number + 1:]:
      for what in sorted((wants & gives[above]) | (includes & headers[above])):
        yield room, what, above


def main():
  found = 0

  for layer in LAYERS:
    if rooms_of(sys.argv[2], layer) != told_rooms_of(sys.argv[2], layer):
      print(f"DEVELOPERS.md tells other rooms of {layer} than its meson.build")
      found += 1
    for room, what, above in calls_upward(*sys.argv[1:3], layer):
      print(f"{layer}/{room} may not know {what} of {layer}/{above}")
      found += 1
    for symbol in strangers(sys.argv[1], layer):
      print(f"{layer} may not call {symbol}")
      found += 1
  return 1 if found else 0


if __name__ == "__main__":
  sys.exit(main())

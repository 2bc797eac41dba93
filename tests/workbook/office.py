"""Spreadsheet programs without a screen, which tests hold the workbook to.

LibreOffice (soffice) and Gnumeric (ssconvert) are told to compute every formula anew: copies
carry no values that they could keep (xlsx.py).
"""

import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

# What meson counts as skipped.
SKIP = 77


def need(*programs):
  """Ends the test as skipped where one of the programs is not there."""
  for program in programs:
    if shutil.which(program) is None:
      print(f"skipped: {program} is not installed")
      sys.exit(SKIP)


# How the formats that are written are called on its command line.
FILTERS = {"xlsx": "xlsx:Calc MS Excel 2007 XML", "csv": "csv"}


# Its setting for what happens to the values that formulas carry when a workbook is opened, and whose customs it has.
ALWAYS, NEVER = 0, 1
SETTING = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>{}</value></prop></item>
<item oor:path="/org.openoffice.Setup/L10N">
<prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{}</value></prop></item></oor:items>
"""


def convert(files, folder, kind, recalculation=ALWAYS, timeout=1800, locale="en-US"):
  """Lets LibreOffice open all files in one go and write them into folder, of another kind.

  It gets a home of its own: nothing of the user's is read or changed."""
  with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as home:
    settings = pathlib.Path(home) / "user" / "registrymodifications.xcu"
    settings.parent.mkdir()
    settings.write_text(SETTING.format(recalculation, locale), encoding="utf-8")
    result = subprocess.run(
      ["soffice", "--headless", "--norestore", f"-env:UserInstallation={pathlib.Path(home).as_uri()}",
       "--convert-to", FILTERS[kind], "--outdir", str(folder), *map(str, files)],
      stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8", errors="replace",
      check=False, timeout=timeout, env={**os.environ, "HOME": home, "LC_ALL": "C.UTF-8"})
  names = [pathlib.Path(path).with_suffix(f".{kind}").name for path in files]
  absent = [name for name in names if not (pathlib.Path(folder) / name).exists()]
  if absent:
    sys.exit(f"soffice did not write {len(absent)} of {len(files)} files, {absent[0]} first; "
             f"it says: {result.stdout[-2000:]}")


def gnumeric(path, target, *options):
  """Lets Gnumeric convert a workbook: an .xml gets all that it understood. Returns the exit
  status and what it said."""
  kind = {".xml": "Gnumeric_XmlIO:sax:0", ".xlsx": "Gnumeric_Excel:xlsx2"}[pathlib.Path(target).suffix]
  result = subprocess.run(
    ["ssconvert", *options, "-T", kind, str(path), str(target)],
    stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8", errors="replace",
    check=False, timeout=600, env={**os.environ, "LC_ALL": "C.UTF-8"})
  return result.returncode, result.stdout

#!/usr/bin/env python3
"""What the desktop reads of the program is as its standards ask.

    test-desktop.py DESKTOP-FILE METAINFO-FILE SOURCE-FOLDER
"""

import os
import shutil
import subprocess
import sys
import xml.dom.minidom

SKIP = 77


def faults(report):
  """Errors and warnings; that there is no page on the network to lead to is true, and no fault."""
  return [line for line in report.splitlines()
          if line.startswith(("E: ", "W: ")) and not line.endswith("url-homepage-missing")]


def main(desktop, metainfo, source):
  checks = [["desktop-file-validate", desktop], ["appstreamcli", "validate", "--no-net", metainfo]]
  missing = [command[0] for command in checks if shutil.which(command[0]) is None]
  if missing:
    print("skipped: there is no " + ", ".join(missing))
    return SKIP
  for command in checks:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode != 0 and (command[0] != "appstreamcli" or faults(done.stdout)):
      print(done.stdout + done.stderr)
      return 1
  xml.dom.minidom.parse(os.path.join(source, "data", "org.croustade.Croustade.mime.xml"))
  return 0


if __name__ == "__main__":
  sys.exit(main(*sys.argv[1:]))

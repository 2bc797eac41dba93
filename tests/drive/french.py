#!/usr/bin/python3
"""The window in French, with a comma for decimals and the point of the numeric pad.

    french.py CROUSTADE LOCALE-FOLDER

LOCALE-FOLDER holds the built catalogues, fr/LC_MESSAGES/croustade.mo.
"""

import os
import shutil
import subprocess
import sys
import tempfile

from session import SKIP, Session


def make_locale(folder):
  """French numbers and dates without touching the machine."""
  if shutil.which("localedef") is None:
    return False
  done = subprocess.run(["localedef", "-i", "fr_FR", "-f", "UTF-8", f"{folder}/fr_FR.UTF-8"],
                        capture_output=True, check=False)
  return done.returncode == 0 and os.path.isdir(f"{folder}/fr_FR.UTF-8")


def main(program, catalogues):
  with tempfile.TemporaryDirectory() as folder:
    if not make_locale(folder):
      print("skipped: the French locale cannot be made here")
      return SKIP
    french = {"LC_ALL": "fr_FR.UTF-8", "LANGUAGE": "fr", "LOCPATH": folder,
              "CROUSTADE_LOCALE_DIR": catalogues}
    with Session(program, environment=french) as s:
      s.reads("Combien coûte une bouchée\u00a0\\?")
      s.focus_is("text", "Première ligne")
      s.write("25 g beurre 9,20/kg")
      s.press("Return")
      s.reads("0,23 par couvert.*")
      s.focus_is("text", "Ligne suivante")
      s.write("1.5 kg farine 2,60/kg")
      s.press("Return")
      s.reads("4,13 par couvert.*")
      for place in ("Assiettes", "Préparations", "Denrées", "Marché", "Mois"):
        s.find("label", place)
      s.reads("Prix du jour")
      # Where digits are typed with Shift, their keys alone lead to places and pictures.
      s.tool("setxkbmap", "fr")
      s.press("ctrl+eacute")
      s.reads("Coût par couvert quand.*")
      s.press("alt+apostrophe")
      s.reads("Évolution des prix")
  return 0


if __name__ == "__main__":
  sys.exit(main(*sys.argv[1:]))

#!/usr/bin/python3
"""The window in French, with a comma for decimals and the point of the numeric pad.

    french.py CROUSTADE LOCALE-FOLDER

LOCALE-FOLDER holds the built catalogues, fr/LC_MESSAGES/croustade.mo.
"""

import os
import sys

from session import SKIP, Session


def environment(catalogues):
  """French numbers and dates as the build has made them; nothing where it could not."""
  folder = os.environ["CROUSTADE_TEST_LOCALES"]
  if not os.path.isdir(f"{folder}/fr_FR.UTF-8"):
    return {}
  return {"LC_ALL": "fr_FR.UTF-8", "LANGUAGE": "fr", "LOCPATH": folder, "CROUSTADE_LOCALE_DIR": catalogues}


def main(program, catalogues):
  french = environment(catalogues)
  if not french:
    print("skipped: the French locale could not be made here")
    return SKIP
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

#!/usr/bin/python3
"""What a bite is made of is walked to a purchase, which opens, and back to the same band, by keys alone.

    stream-walked.py CROUSTADE
"""

import sys

from session import Session


def main(program):
  with Session(program) as s:
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.watch_focus()

    # The sentence over it is its name; a letter jumps to a component, an arrow leads to what was bought.
    s.press("ctrl+1")
    s.focus_is("image", "Made of: Brown crab is 0\\.46 of at least 0\\.84; .*")
    s.press("d")
    s.focus_is("image", "Dressed white crab 0\\.45 .*")
    s.press("Right")
    crab = "Brown crab 0\\.46, Bought .*"
    s.focus_is("image", crab)

    # Enter opens it, and Back comes to the same band.
    s.press("Return")
    s.focus_is("button", "13\\.20/kg as bought, .*")
    s.press("alt+Left")
    s.focus_is("image", crab)
    s.press("Left")
    s.focus_is("image", "Dressed white crab 0\\.45 .*")

    # Over the whole bench, and back beside the lines.
    s.press("space")
    s.focus_is("image", "Made of: .*")
    s.reads("Back to the Lines")
    s.press("Escape")
    s.reads("Larger")
  return 0


if __name__ == "__main__":
  sys.exit(main(*sys.argv[1:]))

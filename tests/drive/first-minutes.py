#!/usr/bin/python3
"""From nothing to a figure with one Enter, and the demo one press away.

    first-minutes.py CROUSTADE CROUSTADE-CLI
"""

import json
import subprocess
import sys

from session import Session, until


def cost(cli, book):
  done = subprocess.run([cli, "cost", book, "--json"], capture_output=True, text=True, check=False)
  return json.loads(done.stdout)


def main(program, cli):
  with Session(program) as s:
    s.focus_is("text", "First line")
    s.reads("What does one bite cost\\?")
    s.write("25 g butter 9.20/kg")
    s.press("Return")
    s.reads("0\\.23 per guest.*")
    assert s.books() == ["Book.croustade"], s.books()
    plate = cost(cli, f"{s.home}/Book.croustade")["plates"][0]
    assert abs(plate["cost_per_guest"] - 0.23) < 1e-12, plate
    s.focus_is("text", "Next line")
    s.reads("Undo first plate")

    # A second line makes what it names, and goes on.
    s.write("3 egg 0.34 each")
    s.press("Return")
    s.reads("1\\.25 per guest.*")
    s.focus_is("text", "Next line")

    # A line that is refused is not lost to the next one, which is typed off paper without a look; it comes up again.
    s.write("600 g fennel 3.20/kg, loss 18 %")
    s.press("Return")
    s.reads("\\? 1 line not added|1 line is not added yet.*")
    s.write("1 egg")
    s.press("Return")
    s.reads("1\\.59 per guest.*")
    s.reads("\\? 1 line not added|1 line is not added yet.*")
    s.press("Escape")
    until(lambda: not s.all("button", ".*not added.*"), "the end of the line that was forgotten")

    # It reopens where it was.
    s.close_program()
    s.open_program()
    s.reads("1\\.59 per guest.*")
    s.focus_is("text", "Next line")

    # The demo, as on the first day.
    s.close_program()
    subprocess.run(["rm", "-r", f"{s.home}/state"], check=True)
    s.open_program()
    s.find("button", "Open the Demo").press()
    s.reads("at least 0\\.84 per guest.*")
    s.reads("\\? no price for Sea purslane")
    s.focus_is("button", "\\? no price for Sea purslane")
    for who in ("Chef", "Purchasing manager", "Accountant"):
      s.reads(who + ": .*")
    s.find("button", "Dismiss the note for: Chef").press()
    until(lambda: not s.all("label", "Chef: .*"), "the end of the note for the chef")
    s.close_program()
    s.open_program()
    s.reads("Accountant: .*")
    assert not s.all("label", "Chef: .*"), "a note that was dismissed came back"


if __name__ == "__main__":
  main(*sys.argv[1:])

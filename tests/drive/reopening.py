#!/usr/bin/python3
"""A book comes back where it was left, with what was typed and not kept: after it was closed, and
after the program was killed.

    reopening.py CROUSTADE CROUSTADE-CLI
"""

import os
import signal
import subprocess
import sys
import tempfile

from session import Session, until


def kill(s):
  os.killpg(s.program.pid, signal.SIGKILL)
  until(lambda: s.program.poll() is not None, "the end of the program")


def remembers(s, text):
  """Waits until the text is in the folder of the program's state."""
  path = f"{s.home}/state/croustade/state.ini"

  def there():
    if not os.path.exists(path):
      return False
    with open(path, encoding="utf-8") as state:
      return text in state.read()
  until(there, f"{text!r} in what is remembered")


def has_text(s, name, text):
  until(lambda: [seen for seen in s.all("text", name) if seen.text == text],
        f"the text {text!r} in {name!r}")


def dump(cli, book):
  with tempfile.TemporaryDirectory() as folder:
    subprocess.run([cli, "dump", book, folder], check=True, capture_output=True)
    texts = []
    for file in sorted(os.listdir(folder)):
      with open(f"{folder}/{file}", encoding="utf-8") as table:
        texts.append(table.read())
  return texts


def main(program, cli):
  with Session(program) as s:
    s.watch_focus()
    s.focus_is("text", "First line")

    # What was typed before there is a book.
    s.write("25 g butter")
    remembers(s, "25 g butter")
    kill(s)
    s.open_program()
    has_text(s, "First line", "25 g butter")
    s.focus_is("text", "First line")
    s.press("End")
    s.write(" 9.20/kg")
    s.press("Return")
    s.reads("0\\.23 per guest.*")
    s.focus_is("text", "Next line")
    book = f"{s.home}/Book.croustade"
    before = dump(cli, book)

    # The next line, half typed, and the program killed.
    s.write("12 g oyst")
    remembers(s, "12 g oyst")
    kill(s)
    s.open_program()
    s.reads("0\\.23 per guest.*")
    has_text(s, "Next line", "12 g oyst")
    s.focus_is("text", "Next line")

    # A wrong entry in a field that was left, and the program closed as usual.
    s.go("shift+Tab", "text", "amount of butter per batch")
    s.press("ctrl+a")
    s.write("a few")
    s.press("Tab")
    until(lambda: s.focused().name != "amount of butter per batch", "the focus beyond the wrong entry")
    s.close_program()
    s.open_program()
    has_text(s, "amount of butter per batch", "a few")
    has_text(s, "Next line", "12 g oyst")

    # A right one that is being typed shows its figures again, and is still kept or given back.
    s.go("shift+Tab", "text", "amount of butter per batch")
    s.press("ctrl+a")
    s.write("100")
    s.reads("0\\.92 per guest.*")
    remembers(s, "amount_micro.0=100")
    kill(s)
    s.open_program()
    s.reads("0\\.92 per guest.*")
    s.focus_is("text", "amount of butter per batch")
    assert dump(cli, book) == before, "what was not kept is in the book"
    s.press("Escape")
    s.reads("0\\.23 per guest.*")

    # Another thing on the bench, and back: what was typed here stays here.
    s.press("alt+3")
    until(lambda: s.focused().name != "amount of butter per batch", "the focus beside an ingredient")
    s.press("alt+Left")
    has_text(s, "Next line", "12 g oyst")
    s.close_program()
    assert dump(cli, book) == before, "what was not kept is in the book"


if __name__ == "__main__":
  main(*sys.argv[1:])

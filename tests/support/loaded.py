"""Books that many tests begin with: each is loaded once, and copied from then on."""

import pathlib
import shutil
import tempfile

_folder = tempfile.TemporaryDirectory()
_known = {}  # by what the tables hold: the book that they made, and what was said of it


def load(call, book, tables):
  """What call ("load", book, tables) says; the same tables make the same book again without being read."""
  held = tuple((path.relative_to(tables), path.read_bytes()) for path in sorted(pathlib.Path(tables).rglob("*"))
               if path.is_file())
  if held in _known:
    made, done = _known[held]
    shutil.copy(made, book)
    return done
  done = call("load", book, tables)
  if done.returncode < 2:
    made = pathlib.Path(_folder.name, str(len(_known)))
    shutil.copy(book, made)
    _known[held] = made, done
  return done

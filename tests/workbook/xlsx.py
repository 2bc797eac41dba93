"""Cells of an .xlsx file (ECMA-376 part 1, 18.3.1), read with nothing but what Python brings.

A copy can be written with other inputs and without the values that formulas carry. All else of
it stays byte for byte as the writer under test wrote it, so that a spreadsheet program opens
what the office would.
"""

import collections
import re
import xml.etree.ElementTree as ElementTree
import zipfile

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
WORKBOOK = "xl/workbook.xml"
STRINGS = "xl/sharedStrings.xml"

# value: None, a float, a str or a bool; an error is the str in `error`.
Cell = collections.namedtuple("Cell", "value formula error style", defaults=(None, None, None, 0))

BLANK = Cell()

# A cell as the writer's library prints it.
_CELL = re.compile(r'<c r="([A-Z]+[0-9]+)"([^>]*?)(?:/>|>(.*?)</c>)', re.DOTALL)
_FORMULA = re.compile(r"<f>.*?</f>", re.DOTALL)
_TYPE = re.compile(r' t="[a-zA-Z]+"')


def _text_of(element):
  """What a string says, its runs put together; phonetic hints are no part of it."""
  plain = element.find(f"{MAIN}t")
  if plain is not None:
    return plain.text or ""
  return "".join(run.text or "" for run in element.findall(f"{MAIN}r/{MAIN}t"))


def _cell_of(element, strings):
  kind = element.get("t", "n")
  style = int(element.get("s", 0))
  formula = element.find(f"{MAIN}f")
  formula = None if formula is None else formula.text or ""
  value = element.find(f"{MAIN}v")
  if kind == "inlineStr":
    return Cell(_text_of(element.find(f"{MAIN}is")), formula, None, style)
  if value is None or value.text is None:
    return Cell("" if kind in ("s", "str") else None, formula, None, style)
  if kind == "s":
    return Cell(strings[int(value.text)], formula, None, style)
  if kind == "str":
    return Cell(value.text, formula, None, style)
  if kind == "e":
    return Cell(None, formula, value.text, style)
  if kind == "b":
    return Cell(value.text == "1", formula, None, style)
  return Cell(float(value.text), formula, None, style)


class Book:
  """Sheets in their order, each a dict from "B4" to a Cell; parsed when first asked for."""

  def __init__(self, path):
    self.path = path
    self._sheets = {}
    with zipfile.ZipFile(path) as archive:
      root = ElementTree.fromstring(archive.read(WORKBOOK))
      targets = {entry.get("Id"): entry.get("Target") for entry in
                 ElementTree.fromstring(archive.read("xl/_rels/workbook.xml.rels"))}
      self.parts = {sheet.get("name"): "xl/" + targets[sheet.get(RELATION)].removeprefix("/xl/")
                    for sheet in root.find(f"{MAIN}sheets")}
      names = root.find(f"{MAIN}definedNames")
      self.names = {} if names is None else {
        entry.get("name"): entry.text for entry in names if not entry.get("name").startswith("_xlnm")}
      self._strings = []
      if STRINGS in archive.namelist():
        self._strings = [_text_of(entry) for entry in
                         ElementTree.fromstring(archive.read(STRINGS))]

  def __getitem__(self, sheet):
    if sheet not in self._sheets:
      with zipfile.ZipFile(self.path) as archive, archive.open(self.parts[sheet]) as part:
        self._sheets[sheet] = {element.get("r"): _cell_of(element, self._strings)
                               for _, element in ElementTree.iterparse(part)
                               if element.tag == f"{MAIN}c"}
    return self._sheets[sheet]

  def at(self, sheet, place):
    return self[sheet].get(place, BLANK)

  def formulas(self):
    """Every cell with a formula: sheet, place, Cell."""
    for sheet in self.parts:
      for place, cell in self[sheet].items():
        if cell.formula is not None:
          yield sheet, place, cell

  def write_copy(self, target, changes=None):
    """Writes a copy without cached values. changes: {(sheet, place): number}."""
    left = dict(changes or {})
    sheets = {part: sheet for sheet, part in self.parts.items()}

    with zipfile.ZipFile(self.path) as archive, \
         zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as copy:
      for entry in archive.infolist():
        content = archive.read(entry)
        if entry.filename in sheets:
          content = _edit(content.decode("utf-8"), sheets[entry.filename], left).encode("utf-8")
        copy.writestr(entry.filename, content)
    if left:
      raise KeyError(f"{self.path}: no such cells to change: {sorted(left)}")


def _edit(text, sheet, left):
  """A sheet's XML without cached values, with those changes that are its own, which leave `left`."""
  def edit(match):
    place, attributes, inside = match.groups()
    if (sheet, place) in left:
      return f'<c r="{place}"{_TYPE.sub("", attributes)}><v>{left.pop((sheet, place))!r}</v></c>'
    formula = _FORMULA.search(inside or "")
    if formula is None:
      return match.group()
    return f'<c r="{place}"{_TYPE.sub("", attributes)}>{formula.group()}</c>'

  return _CELL.sub(edit, text)


def column_and_row(place):
  """("AB", 12) of "AB12"."""
  letters = place.rstrip("0123456789")
  return letters, int(place[len(letters):])


_OR_EMPTY = re.compile(r'IF\((.+)="","",\1\)')


def target_of(cell, sheet):
  """(sheet, place) that a formula refers to and does nothing else, or None. What is empty there
  may stay empty."""
  formula = _OR_EMPTY.sub(r"\1", cell.formula or "")
  match = re.fullmatch(r"(?:'((?:[^']|'')+)'!|(\w+)!)?\$?([A-Z]+)\$?([0-9]+)", formula)
  if match is None:
    return None
  quoted, bare, letters, row = match.groups()
  return (quoted.replace("''", "'") if quoted else bare or sheet), letters + row

"""A workbook as Gnumeric understood it: its own XML, which says of each cell of which type it is."""

import collections
import pathlib
import re
import tempfile
import xml.etree.ElementTree as ElementTree

import office

# A part of the format that it passes over, and says so: marks that codes are text on purpose.
PASSED_OVER = re.compile(r"Unexpected element 'ignoredErrors' in state : \s*worksheet\s*")

GNM = "{http://www.gnumeric.org/v10.dtd}"

INTEGER, FLOAT, TEXT = "30", "40", "60"

# kind: a value's type, or None for a formula, whose text is then without its equals sign.
Cell = collections.namedtuple("Cell", "kind text")


def column_of(letters):
  number = 0
  for letter in letters:
    number = number * 26 + ord(letter) - ord("A") + 1
  return number - 1


def _place(row, column):
  letters = ""
  column += 1
  while column:
    column, rest = divmod(column - 1, 26)
    letters = chr(ord("A") + rest) + letters
  return f"{letters}{row + 1}"


def _rows_of(element):
  """The first of some rows that are alike, how many they are, and their outline level."""
  return int(element.get("No")) + 1, int(element.get("Count", 1)), element.get("OutlineLevel")


class Sheet:
  def __init__(self, element):
    self.name = element.findtext(f"{GNM}Name")
    self.cells = {}
    for cell in element.iterfind(f"{GNM}Cells/{GNM}Cell"):
      kind, text = cell.get("ValueType"), cell.text or ""
      self.cells[_place(int(cell.get("Row")), int(cell.get("Col")))] = \
        Cell(kind, text if kind else text.removeprefix("="))
    self.print = element.find(f"{GNM}PrintInformation")
    titles = [name.findtext(f"{GNM}value") for name in element.iterfind(f"{GNM}Names/{GNM}Name")
              if name.findtext(f"{GNM}name") == "Print_Titles"]
    self.titles = titles[0] if titles else None
    panes = element.find(f"{GNM}SheetLayout/{GNM}FreezePanes")
    self.unfrozen = None if panes is None else panes.get("UnfrozenTopLeft")
    self.levels = {first + down: int(level)
                   for first, count, level in map(_rows_of, element.iterfind(f"{GNM}Rows/{GNM}RowInfo"))
                   if level is not None for down in range(count)}
    self._regions = [([int(region.get(key)) for key in ("startCol", "endCol", "startRow", "endRow")],
                      region.find(f"{GNM}Style").get("Format"))
                     for region in element.iterfind(f"{GNM}Styles/{GNM}StyleRegion")]

  def format(self, letters, row):
    for (left, right, top, bottom), text in self._regions:
      if left <= column_of(letters) <= right and top <= row - 1 <= bottom:
        return text
    return None


class Book:
  """Raises ValueError where Gnumeric does not open the file, or says anything about it."""

  def __init__(self, path):
    with tempfile.TemporaryDirectory() as scratch:
      target = pathlib.Path(scratch) / "book.xml"
      status, said = office.gnumeric(path, target)
      said = PASSED_OVER.sub("", said).strip()
      if status != 0 or said:
        raise ValueError(f"Gnumeric says: {said[:2000]}")
      root = ElementTree.parse(target).getroot()
    self.sheets = {}
    for element in root.iterfind(f"{GNM}Sheets/{GNM}Sheet"):
      sheet = Sheet(element)
      self.sheets[sheet.name] = sheet
    self.names = {name.findtext(f"{GNM}name"): name.findtext(f"{GNM}value")
                  for name in root.iterfind(f"{GNM}Names/{GNM}Name")}

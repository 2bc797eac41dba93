"""What a cell shows: its number in its number format (ECMA-376 part 1, 18.8.31), of which this knows
what the writer under test uses: sections for more than 0, less and 0, or for one value and the others;
quoted text; digits; per cent.
"""

import decimal
import re
import xml.etree.ElementTree as ElementTree
import zipfile

import xlsx

_NUMBER = re.compile(r"(#,##)?0(?:\.(0*)(#*))?(%)?")


def formats(path):
  """The format of every style that a cell can have, by its number."""
  with zipfile.ZipFile(path) as archive:
    root = ElementTree.fromstring(archive.read("xl/styles.xml"))
  # Two of those that need not be written down: 18.8.30.
  named = {"0": "General", "49": "@"}
  for entry in root.iter(f"{xlsx.MAIN}numFmt"):
    named[entry.get("numFmtId")] = entry.get("formatCode")
  return [named.get(entry.get("numFmtId"), entry.get("numFmtId"))
          for entry in root.find(f"{xlsx.MAIN}cellXfs")]


def _digits(match, value):
  grouped, fixed, more, per_cent = match.groups()
  fixed, more = len(fixed or ""), len(more or "")
  value = decimal.Decimal(repr(value)) * (100 if per_cent else 1)
  value = value.quantize(decimal.Decimal(1).scaleb(-fixed - more), decimal.ROUND_HALF_UP)
  text = f"{value:,f}" if grouped else f"{value:f}"
  for _ in range(more):
    text = text.removesuffix("0")
  return text + (per_cent or "")


def number(code, value):
  """A number in a format."""
  sections = code.split(";")
  condition = re.match(r"\[=(\d+)\]", sections[0])
  if condition:
    sections[0] = sections[0][condition.end():]
    section = sections[0 if value == float(condition[1]) else 1]
  elif value == 0 and len(sections) > 2:
    section = sections[2]
  elif value < 0 and len(sections) > 1:
    section, value = sections[1], -value
  else:
    section = sections[0]
  shown = ""
  for piece in re.findall(r'"[^"]*"|[^"]+', section):
    if piece.startswith('"'):
      shown += piece.strip('"')
    elif "General" in piece:
      shown += piece.replace("General", f"{value:.12g}")
    else:
      shown += _NUMBER.sub(lambda match: _digits(match, value), piece)
  return shown


class Shown:
  """The cells of a workbook as they are seen."""

  def __init__(self, book):
    self.book, self._formats = book, formats(book.path)

  def at(self, sheet, place):
    cell = self.book.at(sheet, place)
    if isinstance(cell.value, float):
      return number(self._formats[cell.style], cell.value)
    return cell.value or ""

  def row(self, sheet, row, columns):
    return [self.at(sheet, f"{column}{row}") for column in columns]

"""A small book of prices, what suppliers send as files, and the command that reads it, for the tests of prices.

A test that imports it is called with CROUSTADE-CLI.
"""

import csv
import html
import io
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest
import zipfile

import loaded

CLI = os.path.abspath(sys.argv[1])

# One bite of 100 g mussels and 10 g butter, sold for 2.00 net at a target of 30 %: 0.42 + 0.14 = 0.56,
# 28 %.
TABLES = {
  "book": "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\ntarget_pct,30\n",
  "ingredients": "name,unit,kind\nMussels,g,food\nButter,g,food\nRock oyster,each,food\nPaper cup,each,disposable\n"
                 "Lemon,each,food\nHake,g,food\n",
  "suppliers": "name,quotes\nThe quay,pack\nFar bank,base unit\n",
  "offers": "ingredient,supplier,code,pack_count,pack_size,pack_unit,gtin,currency\n"
            "Mussels,The quay,102,1,5,kg,,\nButter,The quay,301,20,250,g,2900400004173,\n"
            "Rock oyster,The quay,105,1,50,each,,\nPaper cup,The quay,X1,20,50,each,,\n"
            "Lemon,The quay,202,1,60,each,,\nLemon,The quay,203,1,140,each,,\n"
            "Hake,Far bank,M20,1,10,kg,,GBP\n",
  "prices": "ingredient,supplier,code,from,price,tax_included_pct\n"
            "Mussels,The quay,102,2026-01-01,21,\nButter,The quay,301,2026-01-01,70,\n"
            "Rock oyster,The quay,105,2026-01-01,46,\nPaper cup,The quay,X1,2026-01-01,36.3,21\n"
            "Lemon,The quay,202,2026-01-01,18,\nHake,Far bank,M20,2026-01-01,110,\n",
  "rates": "currency,from,rate\nGBP,2026-01-01,1.2\nGBP,2026-03-04,1.5\n",
  "plates": "name,makes,price\nMussels on toast,1,2\n",
  "lines": "into,parent,position,item,amount,unit\nplate,Mussels on toast,1,Mussels,100,g\n"
           "plate,Mussels on toast,2,Butter,10,g\n",
}

UBL = "urn:oasis:names:specification:ubl:schema:xsd:"
CII = "urn:un:unece:uncefact:data:standard:"


def ubl_line(code, quantity, unit, net, price, name="Goods", gtin=None):
  standard = (f"<a:StandardItemIdentification><b:ID schemeID='0160'>{gtin}</b:ID></a:StandardItemIdentification>"
              if gtin else "")
  return (f"<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='{unit}'>{quantity}</b:InvoicedQuantity>"
          f"<b:LineExtensionAmount currencyID='EUR'>{net}</b:LineExtensionAmount><a:Item><b:Name>{name}</b:Name>"
          f"<a:SellersItemIdentification><b:ID>{code}</b:ID></a:SellersItemIdentification>{standard}</a:Item>"
          f"<a:Price><b:PriceAmount>{price}</b:PriceAmount></a:Price></a:InvoiceLine>")


def ubl(*lines, number="Q-7", kind="380", currency="EUR", whole=""):
  lines = [line.replace("currencyID='EUR'", f"currencyID='{currency}'") for line in lines]
  return (f"<x:Invoice xmlns:x='{UBL}Invoice-2' xmlns:a='{UBL}CommonAggregateComponents-2' "
          f"xmlns:b='{UBL}CommonBasicComponents-2'><b:ID>{number}</b:ID><b:IssueDate>2026-03-04</b:IssueDate>"
          f"<b:InvoiceTypeCode>{kind}</b:InvoiceTypeCode><b:DocumentCurrencyCode>{currency}</b:DocumentCurrencyCode>"
          f"<a:Delivery><b:ActualDeliveryDate>2026-03-02</b:ActualDeliveryDate></a:Delivery>{whole}"
          f"{''.join(lines)}</x:Invoice>")


def cii(quantity, unit, net, code):
  return (f"<r:CrossIndustryInvoice xmlns:r='{CII}CrossIndustryInvoice:100' "
          f"xmlns:m='{CII}ReusableAggregateBusinessInformationEntity:100' xmlns:u='{CII}UnqualifiedDataType:100'>"
          "<r:ExchangedDocument><m:ID>C-1</m:ID><m:TypeCode>380</m:TypeCode><m:IssueDateTime>"
          "<u:DateTimeString format='102'>20260304</u:DateTimeString></m:IssueDateTime></r:ExchangedDocument>"
          "<r:SupplyChainTradeTransaction><m:IncludedSupplyChainTradeLineItem><m:SpecifiedTradeProduct>"
          f"<m:SellerAssignedID>{code}</m:SellerAssignedID></m:SpecifiedTradeProduct>"
          f"<m:SpecifiedLineTradeDelivery><m:BilledQuantity unitCode='{unit}'>{quantity}</m:BilledQuantity>"
          "</m:SpecifiedLineTradeDelivery><m:SpecifiedLineTradeSettlement>"
          f"<m:SpecifiedTradeSettlementLineMonetarySummation><m:LineTotalAmount>{net}</m:LineTotalAmount>"
          "</m:SpecifiedTradeSettlementLineMonetarySummation></m:SpecifiedLineTradeSettlement>"
          "</m:IncludedSupplyChainTradeLineItem><m:ApplicableHeaderTradeSettlement>"
          "<m:InvoiceCurrencyCode>EUR</m:InvoiceCurrencyCode></m:ApplicableHeaderTradeSettlement>"
          "</r:SupplyChainTradeTransaction></r:CrossIndustryInvoice>")


def xlsx(*sheets, hidden=(), flat=(), struck=(), names=None):
  """A workbook of sheets of texts, and of numbers with their formats (ISO/IEC 29500-1, 18.8.30); rows that are hidden
  or of no height by their places (18.3.1.73), numbers that are struck out by theirs (18.8.37). A text that begins with
  "=" is a formula that nobody has computed (18.3.1.40); sheets have their names."""
  main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
  office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
  package = "http://schemas.openxmlformats.org/package/2006"
  formats = []

  def cell_of(cell):
    if isinstance(cell, str) and cell.startswith("="):
      return f"<c><f>{cell[1:]}</f></c>"
    if isinstance(cell, str):
      return f"<c t='inlineStr'><is><t>{cell}</t></is></c>"
    formats.append(html.escape(cell[1]))
    return f"<c s='{len(formats)}'><v>{cell[0]}</v></c>"

  cells = ["".join(f"<row hidden='{int(n in hidden)}' ht='{15 * (n not in flat)}'>"
                   + "".join(cell_of(cell) for cell in row) + "</row>"
                   for n, row in enumerate(rows)) for rows in sheets]
  numbers = range(1, len(sheets) + 1)
  parts = {
    "[Content_Types].xml": f"<Types xmlns='{package}/content-types'><Default Extension='rels' "
                           "ContentType='application/vnd.openxmlformats-package.relationships+xml'/></Types>",
    "_rels/.rels": f"<Relationships xmlns='{package}/relationships'><Relationship Id='r1' "
                   f"Type='{office}/officeDocument' Target='xl/workbook.xml'/></Relationships>",
    "xl/workbook.xml": f"<workbook xmlns='{main}' xmlns:r='{office}'><sheets>"
                       + "".join(f"<sheet name='{name}' sheetId='{n}' r:id='r{n}'/>"
                                 for n, name in zip(numbers, names or [f"List {n}" for n in numbers]))
                       + "</sheets></workbook>",
    "xl/_rels/workbook.xml.rels": f"<Relationships xmlns='{package}/relationships'>"
                                  + "".join(f"<Relationship Id='r{n}' Type='{office}/worksheet' "
                                            f"Target='worksheets/sheet{n}.xml'/>" for n in numbers)
                                  + f"<Relationship Id='s' Type='{office}/styles' Target='styles.xml'/>"
                                  + "</Relationships>",
    "xl/styles.xml": f"<styleSheet xmlns='{main}'><numFmts>"
                     + "".join(f"<numFmt numFmtId='{200 + n}' formatCode=\"{code}\"/>"
                               for n, code in enumerate(formats))
                     + "</numFmts>"
                     + "<fonts><font/><font><strike/></font></fonts><cellXfs><xf numFmtId='0'/>"
                     + "".join(f"<xf numFmtId='{200 + n}' fontId='{int(n in struck)}'/>"
                               for n in range(len(formats))) + "</cellXfs></styleSheet>",
  }
  for n in numbers:
    parts[f"xl/worksheets/sheet{n}.xml"] = (f"<worksheet xmlns='{main}'><sheetData>{cells[n - 1]}</sheetData>"
                                            "</worksheet>")
  data = io.BytesIO()
  with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as package_file:
    for name, text in parts.items():
      package_file.writestr(name, text)
  return data.getvalue()


class Case(unittest.TestCase):
  # A charge of so much on the whole of an invoice.
  CHARGE = ("<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:Amount>%s</b:Amount>"
            "</a:AllowanceCharge>")

  def setUp(self):
    self.folder = tempfile.TemporaryDirectory()
    self.addCleanup(self.folder.cleanup)
    tables = self.path("tables")
    os.mkdir(tables)
    for name, text in TABLES.items():
      pathlib.Path(tables, f"{name}.csv").write_text(text, encoding="utf-8")
    self.book = self.path("book.croustade")
    self.assertEqual(loaded.load(self.call, self.book, tables).returncode, 0)

  def path(self, name):
    return os.path.join(self.folder.name, name)

  def call(self, *arguments, **environment):
    return subprocess.run([CLI, *arguments], capture_output=True, encoding="utf-8", check=False,
                          env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": "", **environment})

  def file(self, name, text):
    data = text if isinstance(text, bytes) else text.encode("utf-8")
    pathlib.Path(self.path(name)).write_bytes(data)
    return self.path(name)

  def prices(self, name, text, *options, supplier="The quay", since="2026-03-02", status=0, **environment):
    done = self.call("prices", self.book, self.file(name, text), "--supplier", supplier, "--from", since,
                     *options, **environment)
    self.assertEqual(done.returncode, status, done.stdout + done.stderr)
    return done

  def json(self, name, text, *options, **keywords):
    return json.loads(self.prices(name, text, "--json", *options, **keywords).stdout)

  def states(self, said):
    return [line["state"] for line in said["lines"]]

  def folder_of(self, name, text):
    os.makedirs(self.path("folder"), exist_ok=True)
    pathlib.Path(self.path(f"folder/{name}.csv")).write_text(text, encoding="utf-8")
    return self.path("folder")

  def table(self, name):
    out = self.path("out")
    subprocess.run(["rm", "-rf", out], check=True)
    self.assertEqual(self.call("dump", self.book, out).returncode, 0)
    with open(os.path.join(out, f"{name}.csv"), encoding="utf-8", newline="") as file:
      return list(csv.DictReader(file))

  def price(self, ingredient, day="2026-03-02"):
    return [row["price"] for row in self.table("prices") if row["ingredient"] == ingredient and row["from"] == day]

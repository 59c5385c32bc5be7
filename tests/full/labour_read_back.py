"""Reads the files of pipeline/billing/examples/round_trip.rs back with other programs: FOLDER is its output.

Readers: Python's csv module, pandas, DuckDB, LibreOffice (soffice, headless). The drafts are read with lxml, and their
elements held against the order of the UBL 2.1 schema, as a table that eracun-hr 0.1.0 generated from it has it. A
program that is missing and a difference both end the script with 1.

The amounts are worked out here, with Python's decimal module, from the hours and prices alone.
"""

import csv
import importlib.util
import io
import subprocess
import sys
import tempfile
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

RATES = {"EUR": ("129.95", 2), "JPY": ("12345", 0), "KWD": ("38.935", 3)}
# Operation, text as written, quantity, unit, price (None: the currency's rate), tax category and rate.
LINES = [
    ("T", 'He said "hi", ok; 1|2', "2.3", "HUR", None, "S", "19"),
    ("K-1", "'=SUM(A1:A9) seals", "3", "C62", "12.345", "S", "7"),
    ("R", "Kupplung prüfen\nund ersetzen", "0.7", "HUR", None, "S", "19"),
    ("C", "'-5 bolts, @home +1", "1.1", "HUR", None, "E", "0"),
]
TECHNICIAN = "'=cmd|' /C calc'!A0"
TEXTS = [
    'Refuses its relearn; "again"',
    "Clutch 2 does not release: established by measurement.",
    "'+ Opened, replaced, closed.",
]
# Name: delimiter, encoding, decimal separator, header.
MAPS = {
    "default": (",", "utf-8", ".", True),
    "semicolons": (";", "cp1252", ",", True),
    "minutes": ("|", "utf-8", ".", False),
    "tabs": ("\t", "utf-16", ".", True),
    "batch": ("|", "utf-8", ".", False),
}
HEADERS = {
    "default": "job line operation description quantity hours rate net_amount tax_rate currency technician line_id".split(),
    "semicolons": ["Auftrag", "Datum", "Pos", "Art", "Nummer", "Bezeichnung", "Stunden", "Satz", "Netto", "Steuer %", "Kennung"],
    "tabs": ["Job", "Step", "What was done", "By", "Quantity", "Unit", "Net price", "Tax category", "Complaint", "Cause", "Correction", "Line id"],
}
STEPS = {"T": "teardown", "K-1": "teardown", "R": "repair", "C": "reassembly"}


def amount(currency, line):
    """The line's amount: quantity times price, rounded to the minor unit, halves away from zero."""
    rate, digits = RATES[currency]
    exact = Decimal(line[2]) * Decimal(line[4] or rate)
    return exact.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


def expected(currency, name):
    """The rows as texts; ids, which are hashes, are None."""
    sign = MAPS[name][2]
    rows = []
    for number, line in enumerate(LINES, 1):
        code, text, quantity, unit, price, category, tax = line
        labour = unit == "HUR"
        rate, digits = RATES[currency]
        price = Decimal(price or rate)
        price = str(price if -price.as_tuple().exponent >= digits else price.quantize(Decimal(1).scaleb(-digits)))
        net, hours = str(amount(currency, line)), quantity if labour else "0"
        comma = lambda value: value.replace(".", sign)
        if name == "default":
            rows.append(["R-2041", str(number), code, text, quantity, hours, price, net, tax, currency, TECHNICIAN, None])
        elif name == "semicolons":
            two = str(Decimal(hours).quantize(Decimal("0.01")))
            rows.append(["R-2041", "02.03.2026", str(number), "Lohn", code, text, comma(two), comma(price), comma(net), tax, None])
        elif name == "tabs":
            rows.append(["R-2041", STEPS[code], text, TECHNICIAN, quantity, unit, net, category, *TEXTS, None])
        elif labour:
            minutes = str((Decimal(quantity) * 60).quantize(Decimal(1)))
            rows.append([None, "1", "R-2041", code, minutes, "MIN", net, currency, None])
    return rows


def same(got, want):
    """None where the rows agree, else the first difference."""
    if len(got) != len(want):
        return f"{len(got)} rows instead of {len(want)}"
    for g, w in zip(got, want):
        if len(g) != len(w):
            return f"{len(g)} fields instead of {len(w)}: {g}"
        for a, b in zip(g, w):
            if b is not None and a != b:
                return f"{a!r} instead of {b!r}"
    return None


def by_csv(path, name):
    delimiter, encoding, _, header = MAPS[name]
    text = path.read_bytes().decode(encoding)
    rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True))
    return rows[1:] if header and rows[0] == HEADERS[name] else rows


def by_pandas(path, name):
    import pandas

    delimiter, encoding, _, header = MAPS[name]
    frame = pandas.read_csv(path, sep=delimiter, encoding=encoding, dtype=str, header=0 if header else None, keep_default_na=False)
    assert not header or list(frame.columns) == HEADERS[name], list(frame.columns)
    # Numbers are numbers to it when it guesses the types itself.
    guessed = pandas.read_csv(path, sep=delimiter, encoding=encoding, decimal=MAPS[name][2], header=0 if header else None)
    column = {"default": "net_amount", "semicolons": "Netto", "tabs": "Net price"}.get(name, 6)
    assert pandas.api.types.is_numeric_dtype(guessed[column]), f"{column} is {guessed[column].dtype}"
    return frame.values.tolist()


def by_duckdb(path, name):
    import duckdb

    delimiter, encoding, _, header = MAPS[name]
    # As installed it reads UTF-8 alone: of the others it gets a copy in UTF-8 and checks the table, not the bytes.
    with tempfile.NamedTemporaryFile(suffix=".csv") as copy:
        copy.write(path.read_bytes().decode(encoding).encode())
        copy.flush()
        table = duckdb.read_csv(copy.name, delimiter=delimiter, header=header, all_varchar=True, quotechar='"', escapechar='"')
        columns, rows = table.columns, table.fetchall()
    assert not header or columns == HEADERS[name], columns
    return [["" if v is None else v for v in row] for row in rows]


def by_libreoffice(path, name):
    """Opened as a spreadsheet, which must run none of the texts as a formula, and written out again."""
    delimiter, encoding, sign, header = MAPS[name]
    codes = {"utf-8": 76, "cp1252": 1, "utf-16": 65535}
    # Separator, quote, character set, first line, column formats, language, quoted fields as text, special numbers,
    # (four for writing), and, so that the test is strict, run what looks like a formula.
    language = 1031 if sign == "," else 1033
    options = f"{ord(delimiter)},34,{codes[encoding]},1,,{language},false,false,,,,,true"
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "in.csv"
        source.write_bytes(path.read_bytes())
        subprocess.run(
            ["soffice", "--headless", f"-env:UserInstallation=file://{folder}/profile", f"--infilter=CSV:{options}",
             "--convert-to", "fods", "--outdir", folder, str(source)],
            check=True, capture_output=True, timeout=180,
        )
        return spreadsheet(Path(folder) / "in.fods", name)


def spreadsheet(path, name):
    """The cells of a flat spreadsheet; asserts that there is no formula and that amounts are numbers."""
    from lxml import etree

    table = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
    office = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
    words = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
    rows = []
    column = {"default": 7, "semicolons": 8, "minutes": 6, "tabs": 6, "batch": 6}[name]
    for row in etree.parse(str(path)).iter(f"{table}table-row"):
        cells = []
        for cell in row.iter(f"{table}table-cell"):
            assert cell.get(f"{table}formula") is None, "a formula: " + cell.get(f"{table}formula")
            text = "\n".join("".join(p.itertext()) for p in cell.iter(f"{words}p"))
            kind = cell.get(f"{office}value-type")
            if kind == "date":
                text = text or cell.get(f"{office}date-value")
            repeat = int(cell.get(f"{table}number-columns-repeated", "1"))
            cells += [(text, kind, cell.get(f"{office}value"))] * min(repeat, 20)
        while cells and not cells[-1][0]:
            cells.pop()
        if cells:
            rows.append(cells)
    if MAPS[name][3]:
        assert [c[0] for c in rows[0]] == HEADERS[name], rows[0]
        rows = rows[1:]
    for row in rows:
        assert row[column][1] in ("float", "currency"), f"the amount is no number: {row[column]}"
    # A number's text is the sheet's own, its value what was read.
    return [[c[2] if c[1] == "float" else c[0] for c in row] for row in rows]


def as_numbers(want, sign):
    """What a spreadsheet makes of the expected texts: numbers without closing zeros."""
    def cell(text):
        try:
            number = Decimal(text.replace(sign, "."))
            return format(number.normalize(), "f")
        except Exception:
            return text
    return [[None if t is None else cell(t) for t in row] for row in want]


def ubl_order():
    """Children of each element in the order of the UBL 2.1 schema; names as lxml writes them."""
    package = importlib.util.find_spec("eracun_hr").submodule_search_locations[0]
    spec = importlib.util.spec_from_file_location("ubl_order", f"{package}/_ubl_order.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.ORDER


def check_xml(path, order):
    """The number of groups of elements in a draft; raises where one holds an unknown element or another order."""
    from lxml import etree

    groups = 0
    for element in etree.parse(str(path)).iter():
        names = [child.tag for child in element]
        if not names:
            continue
        known = order[element.tag]
        places = [known.index(name) for name in names]
        assert places == sorted(places), f"{element.tag}: {names}"
        groups += 1
    return groups


def main():
    folder = Path(sys.argv[1])
    wrong = 0
    readers = {"csv": by_csv, "pandas": by_pandas, "DuckDB": by_duckdb, "LibreOffice": by_libreoffice}
    print(f"{'file':22}" + "".join(f"{r:14}" for r in readers))
    for currency in RATES:
        for name in MAPS:
            path = folder / f"{currency}-{name}.csv"
            want = expected(currency, name)
            told = []
            for reader, read in readers.items():
                try:
                    got, wanted = read(path, name), want
                    if reader == "LibreOffice":
                        got, wanted = (as_numbers(rows, MAPS[name][2]) for rows in (got, want))
                    difference = same(got, wanted)
                except Exception as e:
                    difference = f"{type(e).__name__}: {e}"
                told.append("same" if difference is None else "DIFFERS")
                if difference is not None:
                    wrong += 1
                    print(f"  {path.name}, {reader}: {difference}", file=sys.stderr)
            print(f"{path.name:22}" + "".join(f"{t:14}" for t in told))
    order = ubl_order()
    for currency in RATES:
        path = folder / f"{currency}-invoice_draft.xml"
        try:
            print(f"{path.name}: {check_xml(path, order)} groups of elements in the schema's order")
        except Exception as e:
            wrong += 1
            print(f"{path.name}: {type(e).__name__}: {e}")
    print(f"{wrong} differences")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())

"""Spreadsheets with working formulas; the only home of ``xlsxwriter``."""

from datetime import datetime, time
from decimal import Decimal
from io import BytesIO

from xlsxwriter import Workbook
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from generator.document import Cell, Look, Spreadsheet

_AS_TEXT = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}


def workbook(sheet: Spreadsheet) -> bytes:
    """The file, the same bytes each time; what people typed stays text, whatever it begins with."""
    written = BytesIO()
    book = Workbook(written, _AS_TEXT)
    book.set_properties({"created": datetime.combine(sheet.on, time())})
    money = "#,##0" + ("." + "0" * sheet.places if sheet.places else "")
    looks = {
        Look.PLAIN: book.add_format({"valign": "top"}),
        Look.TITLE: book.add_format({"bold": True, "font_size": 16}),
        Look.HEAD: book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "bottom"}),
        Look.MONEY: book.add_format({"num_format": money, "valign": "top"}),
        Look.TO_FILL: book.add_format({"bg_color": "#f3ead2", "border": 1, "valign": "top"}),
        Look.SUM: book.add_format({"bold": True, "num_format": money, "top": 1}),
    }
    page = book.add_worksheet(sheet.name)
    for place, width in enumerate(sheet.widths):
        page.set_column(place, place, width)
    for down, row in enumerate(sheet.rows):
        for across, cell in enumerate(row):
            _write(page, (down, across), cell, looks[cell.look])
    page.fit_to_pages(1, 0)
    book.close()
    return written.getvalue()


def _write(page: Worksheet, at: tuple[int, int], cell: Cell, look: Format) -> None:
    if cell.is_formula:
        page.write_formula(*at, str(cell.value), look)
    elif isinstance(cell.value, str):
        page.write_string(*at, cell.value, look) if cell.value else page.write_blank(*at, None, look)
    else:
        page.write_number(*at, float(Decimal(cell.value)), look)

"""What the tests of papers read out of a PDF: places of lines, texts in order, codes, tags."""

from collections.abc import Iterator
from ctypes import c_float, c_ushort, create_string_buffer
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium
import zxingcpp

MM_PER_POINT = 25.4 / 72
Box = tuple[float, float, float, float]


def text_of(pdf: Path | bytes) -> str:
    """The text of all pages in reading order, in one line."""
    pages = pypdfium2.PdfDocument(pdf)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def page_sizes_mm(pdf: Path | bytes) -> list[tuple[float, float]]:
    """Width and height of each page."""
    return [
        tuple(round(side * MM_PER_POINT, 2) for side in page.get_size())
        for page in pypdfium2.PdfDocument(pdf)
    ]


def paths_mm(pdf: Path | bytes) -> list[Box]:
    """Where each drawn path of the first page lies: left, top, width, height, along the middle of its line."""
    page = pypdfium2.PdfDocument(pdf)[0]
    height = page.get_height()
    found = []
    for each in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=9):
        left, bottom, right, top = each.get_bounds()
        line = c_float(0.0)
        pdfium.FPDFPageObj_GetStrokeWidth(each, line)
        # PDFium's bounds reach one line's width beyond the middle of the line.
        wide = line.value
        sides = (left + wide, height - top + wide, right - left - 2 * wide, top - bottom - 2 * wide)
        found.append(tuple(side * MM_PER_POINT for side in sides))
    return found


def top_of_text_mm(pdf: Path | bytes, text: str) -> float:
    """How far below the upper edge of the first page the letters of a text begin."""
    page = pypdfium2.PdfDocument(pdf)[0]
    letters = page.get_textpage()
    found = letters.search(text).get_next()
    assert found is not None
    start, count = found
    tops = [letters.get_charbox(place)[3] for place in range(start, start + count)]
    return float(page.get_height() - max(tops)) * MM_PER_POINT


def letters_mm(pdf: Path | bytes, letter: str) -> list[float]:
    """The height of the ink of every such letter on the first page."""
    letters = pypdfium2.PdfDocument(pdf)[0].get_textpage()
    places = (place for place, found in enumerate(letters.get_text_range()) if found == letter)
    boxes = (letters.get_charbox(place) for place in places)
    return [(top - bottom) * MM_PER_POINT for _, bottom, _, top in boxes]


def codes_of(pdf: Path | bytes) -> list[str]:
    """Every QR code as it is read from the page at 300 dpi."""
    pages = pypdfium2.PdfDocument(pdf)
    pictures = (page.render(scale=300 / 72).to_pil() for page in pages)
    return [code.text for picture in pictures for code in zxingcpp.read_barcodes(picture)]


def tags_of(pdf: Path | bytes) -> list[str]:
    """The types of the first page's structure, parents first, as PDFium reads them."""
    document = pypdfium2.PdfDocument(pdf)
    tree = pdfium.FPDF_StructTree_GetForPage(document[0])
    count = pdfium.FPDF_StructTree_CountChildren(tree)
    roots = (pdfium.FPDF_StructTree_GetChildAtIndex(tree, place) for place in range(count))
    return [tag for root in roots for tag in _tags(root)]


def language_of(pdf: Path | bytes) -> str:
    """The language that the whole file says it is in."""
    document = pypdfium2.PdfDocument(pdf)
    length = pdfium.FPDFCatalog_GetLanguage(document, None, 0)
    written = (c_ushort * length)()
    pdfium.FPDFCatalog_GetLanguage(document, written, length)
    return bytes(written).decode("utf-16-le").rstrip("\0")


def is_tagged(pdf: Path | bytes) -> bool:
    """Whether the whole file says that it is."""
    return bool(pdfium.FPDFCatalog_IsTagged(pypdfium2.PdfDocument(pdf)))


def _tags(element: object) -> Iterator[str]:
    if not element:
        return
    length = pdfium.FPDF_StructElement_GetType(element, None, 0)
    written = create_string_buffer(length)
    pdfium.FPDF_StructElement_GetType(element, written, length)
    yield written.raw.decode("utf-16-le").rstrip("\0")
    for place in range(pdfium.FPDF_StructElement_CountChildren(element)):
        yield from _tags(pdfium.FPDF_StructElement_GetChildAtIndex(element, place))

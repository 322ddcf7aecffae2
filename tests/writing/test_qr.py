"""QR codes: read back by another program from the drawing that a page holds."""

import re

import pytest
import zxingcpp
from bs4 import BeautifulSoup
from PIL import Image, ImageDraw

from generator.writing.qr import qr_code

ADDRESS = "https://quillfern.example/safety/SS-30-r2.html"
MODULE_PX = 4
RUN = re.compile(r"M(\d+) (\d+)\.5h(\d+)")


def painted(drawing: str) -> Image.Image:
    """The drawing's dark strokes on white, as any program that knows SVG would paint them."""
    svg = BeautifulSoup(drawing, "html.parser").svg
    assert svg is not None
    side = int(str(svg["viewbox"]).split()[2])
    picture = Image.new("L", (side * MODULE_PX, side * MODULE_PX), 255)
    brush = ImageDraw.Draw(picture)
    for across, down, length in RUN.findall(str(svg.find_all("path")[1]["d"])):
        left, top = int(across) * MODULE_PX, int(down) * MODULE_PX
        right = left + int(length) * MODULE_PX
        brush.rectangle((left, top, right - 1, top + MODULE_PX - 1), fill=0)
    return picture


@pytest.mark.parametrize(
    "text",
    [ADDRESS, "https://a.example/x", "https://bücher.example/ä?a=1&b=<2>", f"{ADDRESS}?{'x' * 300}"],
    ids=["a sheet", "short", "letters of all kinds", "long"],
)
def test_a_code_says_what_was_put_into_it(text: str) -> None:
    (found,) = zxingcpp.read_barcodes(painted(qr_code(text)))

    assert (found.format, found.text) == (zxingcpp.BarcodeFormat.QRCode, text)


def test_a_code_survives_a_smudge() -> None:
    picture = painted(qr_code(ADDRESS))
    middle = picture.width // 2
    ImageDraw.Draw(picture).rectangle((middle, middle, middle + 16, middle + 16), fill=255)

    (found,) = zxingcpp.read_barcodes(picture)

    assert found.text == ADDRESS


def test_a_code_has_its_text_as_its_name_and_four_modules_of_quiet_around() -> None:
    svg = BeautifulSoup(qr_code("https://a.example/?a=1&b=<2>"), "html.parser").svg

    assert svg is not None
    assert (svg["role"], svg.title.text if svg.title else "") == ("img", "https://a.example/?a=1&b=<2>")
    starts = [(int(across), int(down)) for across, down, _ in RUN.findall(str(svg))]
    assert (min(across for across, _ in starts), min(down for _, down in starts)) == (4, 4)


def test_the_same_text_is_the_same_drawing() -> None:
    assert qr_code(ADDRESS) == qr_code(ADDRESS)

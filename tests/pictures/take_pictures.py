"""Takes the README's pictures of the example shop anew: ``python -m tests.pictures.take_pictures``.

It needs the extras ``test`` and ``browser`` and an installed Chromium. Pages are taken as a visitor sees them, and
labels as they leave the press; each picture is a small file beside this one.
"""

import io
import shutil
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Final

import pypdfium2
from PIL import Image
from playwright.sync_api import sync_playwright

from generator.cli import main
from tests.browser.conftest import ARGUMENTS
from tests.conftest import EXAMPLE

if TYPE_CHECKING:
    from playwright.sync_api import Browser

HERE: Final = Path(__file__).parent
MOST_BYTES: Final = 150_000
COLOURS: Final = 96
LABELS: Final = ("SS-30=8", "--stock", "box-99x68-a4", "--outlines")
LABEL_DPI: Final = 150
LABEL_MM: Final = (0, 0, 210, 82)
"""The part of the sheet of labels that is shown: left, top, right, bottom."""

JPEG_QUALITY: Final = 82
DRAWN: Final = (
    "Promise.all([...document.images].filter(one => one.loading !== 'lazy').map(one => one.decode()))"
)
"""Comes true when every photo in view is drawn, which may be a while after its page has loaded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One page as it is taken; in pixels."""

    name: str
    page: str
    theme: str = "netloft"
    width: int = 1200
    height: int = 860


SHOTS: Final = (
    Shot(name="catalogue.png", page="site/index.html"),
    Shot(name="candle.jpg", page="site/candles/slate-and-samphire.html", height=900),
    Shot(name="safety.png", page="site/safety/SS-30.html", width=900, height=1180),
    Shot(name="trade.png", page="workshop/trade.html", width=1280, height=820),
    Shot(name="ledger.png", page="site/index.html", theme="ledger", width=900, height=1000),
)


def take_all(folder: Path) -> None:
    """Take every picture into a folder."""
    with TemporaryDirectory() as name:
        shops = {theme: _built(Path(name) / theme, theme) for theme in ("netloft", "ledger")}
        with sync_playwright() as browsers:
            browser = browsers.chromium.launch(executable_path=shutil.which("chromium"), args=list(ARGUMENTS))
            for shot in SHOTS:
                _save(_taken(browser, shops[shot.theme], shot), folder / shot.name)
            browser.close()
        _save(_label(shops["netloft"]), folder / "label.png")


def _built(folder: Path, theme: str) -> Path:
    """The example shop printed in a theme, with a sheet of labels."""
    shutil.copytree(EXAMPLE, folder / "content")
    maker = folder / "content" / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("theme: netloft", f"theme: {theme}"), encoding="utf-8"
    )
    places = ("--content", str(folder / "content"), "--output", str(folder / "output"))
    for words in (("build",), ("papers", "labels", *LABELS)):
        if main([*words, *places]) != 0:
            raise SystemExit(f"the example shop could not be made: {' '.join(words)}")
    return folder / "output"


def _taken(browser: "Browser", output: Path, shot: Shot) -> Image.Image:
    page = browser.new_page(viewport={"width": shot.width, "height": shot.height}, color_scheme="light")
    page.goto((output / shot.page).as_uri())
    page.evaluate(DRAWN)
    picture = Image.open(io.BytesIO(page.screenshot()))
    page.close()
    return picture.convert("RGB")


def _label(output: Path) -> Image.Image:
    (sheet,) = output.glob("workshop/papers/labels/*.pdf")
    with pypdfium2.PdfDocument(sheet) as paper:
        picture: Image.Image = paper[0].render(scale=LABEL_DPI / 72).to_pil().convert("RGB")
    left, top, right, bottom = (round(edge * LABEL_DPI / 25.4) for edge in LABEL_MM)
    return picture.crop((left, top, min(right, picture.width), bottom))


def _save(picture: Image.Image, path: Path) -> None:
    """A small file: few colours where they are flat, a photograph's form where there is one."""
    if path.suffix == ".jpg":
        picture.save(path, quality=JPEG_QUALITY, optimize=True, progressive=True)
    else:
        picture.quantize(COLOURS, dither=Image.Dither.NONE).save(path, optimize=True)
    if path.stat().st_size > MOST_BYTES:
        raise SystemExit(f"{path.name} is larger than {MOST_BYTES} bytes")


if __name__ == "__main__":
    take_all(HERE)

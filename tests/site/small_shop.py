"""A small shop with something of every sort in it, a part of the example shop, to hold builds against each other."""

import csv
import io
import re
import shutil
from collections.abc import Callable, Iterable
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from PIL import Image

from generator.commands import issue, link
from generator.making.options import CommandOptions
from generator.reading.shipped import shipped
from tests.conftest import EXAMPLE, TODAY

COPIED: Final = (
    "maker.yaml",
    "collections.yaml",
    "prices.csv",
    *(f"candles/{id_}.yaml" for id_ in ("slate-and-samphire", "net-loft", "bare-comb")),
    *(f"fragrances/{id_}.yaml" for id_ in ("samphire", "twine-and-cedar")),
    *(f"waxes/{id_}.yaml" for id_ in ("soy-paraffin", "beeswax", "coconut", "soy")),
    *(f"dyes/{id_}-dye.yaml" for id_ in ("charcoal", "peat")),
    "additives/uv-absorber.yaml",
    *(f"wicks/{id_}.yaml" for id_ in ("flat-braid-12", "flat-braid-18", "flat-braid-22", "flat-braid-24")),
    *(f"wicks/{id_}.yaml" for id_ in ("square-braid-5", "paper-core-26")),
    *(f"formats/{id_}.yaml" for id_ in ("tumbler-30", "tin-22", "votive-12", "tapered-glass", "snap-bar")),
    *(f"vessels/{id_}.yaml" for id_ in ("tumbler-30", "tin-22", "votive-12", "tapered-glass", "melt-tray")),
    *("formats/stoneware-bowl.yaml", "vessels/stoneware-bowl.yaml", "vessels/hex-jar.yaml"),
    *(f"burn-tests/{test}" for test in ("SS-30.yaml", "SS-30.csv", "NL-30.yaml", "NL-30.csv")),
    *("sheets/SS-30.yaml", "sheets/SS-SB.yaml", "sheets/BC-12.yaml"),
    *("trade/buyers.yaml", "trade/terms.yaml"),
    "poured/SS-30-f2764744d07b.yaml",
    *("pages/about.md", "pages/where-to-buy.md"),
    "label-stock/round-50-a4.yaml",
)
CODES: Final = frozenset(
    ("SS-30", "SS-22", "SS-TG", "SS-SB", "NL-30", "NL-22", "NL-3W", "LR-30", "BC-HX", "BC-12")
)
PHOTOS: Final = {"ss-30-by-the-window.jpg": "slategray", "nl-22-on-the-bench.jpg": "peru"}
RECALL: Final = """\
lots: [SS-30-2026289-VXQD]
hazard: The tumbler may crack near its foot.
what_to_do: [Do not light it., Bring it back or write to us.]
remedy: A new candle or your money back.
contact: hello@quillfern.example
on: 2026-10-30
"""
DRAWING: Final = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 6"><path d="M0 0h9v6z" fill="#123456"/></svg>
"""
OWN_THEME: Final = {
    "theme.yaml": "name: mine\nextends: netloft\n",
    "styles/site.css": ":root { --paper: #f8f4ea; --ink: #211d18; }\nbody { margin: 0 auto; }\n",
    "pages/candle.html": '{% extends "netloft/pages/candle.html" %}\n'
    "{% block pictures %}<p>Seen by daylight</p>{{ super() }}{% endblock %}\n",
    "parts/always.html": "<p>Never leave it alone</p>\n",
}
OF_NETLOFT: Final = ("parts/sheet.html", "parts/buyer_line.html", "papers/safety.typ", "scripts/narrow.js")
"""Copied into the maker's own theme: they print issued sheets, sealed sheets, papers, and are published."""


@dataclass(slots=True, kw_only=True)
class TriedShop:
    """A shop's folder, in which its commands run, and what its builds are asked."""

    folder: Path
    drafts: bool = False
    issued_only: bool = False
    as_of: date | None = None
    today: date = TODAY

    @property
    def content(self) -> Path:
        return self.folder / "content"

    @property
    def theme(self) -> Path:
        """The maker's own theme."""
        return self.folder / "themes" / "mine"

    def asked(self, output: str = "output") -> CommandOptions:
        """What a build in the shop's folder, or in a copy of it elsewhere, is asked."""
        return CommandOptions(
            content=Path("content"),
            output=Path(output),
            as_of=self.as_of,
            as_data=False,
            drafts=self.drafts,
            issued_only=self.issued_only,
            today=self.today,
        )


def write_small_shop(folder: Path) -> TriedShop:
    """Three scents with a melt and an own label, sheets of which one has changed since, links, lots, a recall."""
    shop = TriedShop(folder=folder)
    for name in COPIED:
        (shop.content / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(EXAMPLE / name, shop.content / name)
    _write_rest(shop.content)
    _trim(shop.content)
    for name, text in OWN_THEME.items():
        write(shop.theme / name, text)
    for name in OF_NETLOFT:
        write(shop.theme / name, (shipped("themes") / "netloft" / name).read_text(encoding="utf-8"))
    rewrite(shop.content / "maker.yaml", "theme: netloft", "theme: mine\nlabel_languages: {EU: [de, fr]}")
    votive = shop.content / "formats" / "votive-12.yaml"
    with chdir(folder):
        assert not silently(lambda: link.run(shop.asked(), link.LinkRequest(buyer=None)))
        rewrite(votive, "to: 50 mm", "to: 49 mm")
        assert not silently(lambda: issue.run(shop.asked(), ["BC-12"], "poured lower"))
    rewrite(votive, "to: 49 mm", "to: 48 mm")
    return shop


def _write_rest(content: Path) -> None:
    for name, colour in PHOTOS.items():
        paint(content / "photos" / name, colour)
    write(content / "recalls" / "tumbler.yaml", RECALL)
    write(content / "artwork" / "SS-22.svg", DRAWING)
    rows = csv.reader(io.StringIO((EXAMPLE / "lots.csv").read_text(encoding="utf-8")))
    write(content / "lots.csv", as_csv(row for row in rows if row[1] in {"stock_code", "SS-30"}))


def _trim(content: Path) -> None:
    """Nothing is named any more that was not copied."""
    for path in content.rglob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        if path.parent.name == "candles":
            text = re.sub(r"    burn_time: burn-tests/(NL-22|BC-HX).csv\n", "", text)
            text = re.sub(r"    photos: \[bc-.*\]\n", "", text)
        if path.name == "buyers.yaml":
            text = re.sub(r"(offered|withheld): \[(.*)\]", _only_ours, text)
            text = text.replace("price_list: america", "price_list: america\n  language: de")
        path.write_text(text, encoding="utf-8")


def _only_ours(found: re.Match[str]) -> str:
    return f"{found[1]}: [{', '.join(code for code in found[2].split(', ') if code in CODES)}]"


def paint(path: Path, colour: str, size: tuple[int, int] = (64, 48)) -> None:
    """A small photo of one colour."""
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", size, colour).save(path, "JPEG")


def write(path: Path, text: str) -> None:
    """A file with its folder."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def rewrite(path: Path, old: str, new: str) -> None:
    """Change a text wherever it stands in a file."""
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{old!r} is not in {path}"
    path.write_text(text.replace(old, new), encoding="utf-8")


def as_csv(rows: Iterable[Iterable[str]]) -> str:
    """A table as entries hold it."""
    table = io.StringIO()
    csv.writer(table, lineterminator="\n").writerows(rows)
    return table.getvalue()


def silently(command: Callable[[], int]) -> int:
    """The exit code of a command whose words nobody needs."""
    with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
        return command()

"""Files of every sort changed at random: no traceback, no endless loop, no full memory, and every refusal at a place.

``WICKWRIGHT_MUTATIONS=20000`` tries so many instead of a hundred.
"""

import os
import shutil
from pathlib import Path

import pytest
from PIL import Image

from generator.cli import main
from generator.reading.shipped import shipped
from tests.conftest import EXAMPLE
from tests.site.mutations import Target, counted, tried

TRIES = int(os.environ.get("WICKWRIGHT_MUTATIONS", "100"))
OF_THE_EXAMPLE = TRIES // 10
STOCK = """\
name: Boxes
sheet: A4
label: {shape: box, width: 99.1 mm, height: 67.7 mm}
rows: 4
columns: 2
margin: {top: 13 mm, left: 4.6 mm}
pitch: {across: 101.6 mm, down: 67.7 mm}
"""
RECALL = """\
stock_codes: [WG-20]
hazard: The jar may crack.
what_to_do: [Do not light it.]
contact: hello@shop.example
on: 2026-11-01
"""
DRAWING = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 6">
<defs><g id="a"><path d="M0 0h9v6z"/></g></defs>
<use href="#a" fill="#123"/>
</svg>
"""
BUILD = (("build",),)
EXPLAINED = (*BUILD, ("explain", "WG-20"))
LABELS = (("papers", "labels", "WG-20=1", "--stock", "boxes", "--kind", "product"),)
SHEETS = (("papers", "sheets", "WG-20"),)
COMMANDS = {"content/artwork/": LABELS, "content/label-stock/": LABELS, "content/candles/": EXPLAINED}
THEME = {
    "theme.yaml": BUILD,
    "pages/candle.html": BUILD,
    "pages/base.html": BUILD,
    "parts/sheet.html": BUILD,
    "styles/site.css": BUILD,
    "papers/safety.typ": SHEETS,
    "papers/labels.typ": LABELS,
    "papers/parts/fitting.typ": LABELS,
    "papers/parts/drawings.css": SHEETS,
    "parts/pictograms/water.svg": SHEETS,
}


@pytest.fixture(name="shop")
def _shop(tmp_path: Path, shop_folder: Path) -> Path:
    """A small shop with a file of every sort and a theme of its own, built and with an issued sheet."""
    files = {
        "label-stock/boxes.yaml": STOCK,
        "artwork/WG-20.svg": DRAWING,
        "recalls/jar.yaml": RECALL,
        "trade/terms.yaml": (EXAMPLE / "trade" / "terms.yaml").read_text(encoding="utf-8"),
        "prices.csv": "stock_code,format,list,currency,price,includes_tax,from,until\n"
        "WG-20,,retail,EUR,29.00,23 %,2026-09-01,2027-03-31\n",
    }
    for name, text in files.items():
        (shop_folder / name).parent.mkdir(exist_ok=True)
        (shop_folder / name).write_text(text, encoding="utf-8")
    (shop_folder / "photos").mkdir()
    photos = {"a.jpg": "JPEG", "b.png": "PNG", "c.webp": "WEBP"}
    for name, form in photos.items():
        Image.new("RGB", (64, 48), "teal").save(shop_folder / "photos" / name, form)
    _append(shop_folder / "candles" / "wet-garden.yaml", f"    photos: [{', '.join(photos)}]\n")
    maker = shop_folder / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("theme: netloft", "theme: mine"), encoding="utf-8"
    )
    mine, netloft = tmp_path / "themes" / "mine", shipped("themes") / "netloft"
    shutil.copytree(netloft, mine)
    (mine / "theme.yaml").write_text("name: mine\nextends: netloft\n", encoding="utf-8")
    words = ("--content", str(shop_folder), "--output", str(tmp_path / "output"))
    assert main(["issue", "WG-20", "--reason", "first", *words]) == 0
    assert main(["lots", "add", "WG-20", "--made", "9", *words]) == 0
    assert main(["build", *words]) == 0
    assert main([*LABELS[0], *words]) == 0
    return tmp_path


def _append(file: Path, text: str) -> None:
    file.write_text(file.read_text(encoding="utf-8").rstrip("\n") + f"\n{text}", encoding="utf-8")


def _targets(shop: Path) -> list[Target]:
    """Each file of the entries, in turn, and now and then one of the theme."""
    content = [path for path in (shop / "content").rglob("*") if path.is_file() and path.name[0] != "."]
    names = sorted(
        path.relative_to(shop).as_posix() for path in content if "/.schema/" not in path.as_posix()
    )
    entries = [
        Target(file=name, commands=next((COMMANDS[at] for at in COMMANDS if name.startswith(at)), BUILD))
        for name in names
    ]
    theme = [Target(file=f"themes/mine/{name}", commands=commands) for name, commands in THEME.items()]
    return [*entries, *entries, *theme]


def test_whatever_a_file_of_a_small_shop_holds_a_build_ends_in_words(
    shop: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    outcomes = list(
        tried(shop, _targets(shop), range(TRIES - OF_THE_EXAMPLE), tmp_path_factory.mktemp("tried"))
    )

    counts = counted(outcomes)
    assert [each for each in outcomes if each.gave == "fault"] == []
    assert min(counts["built"], counts["refused"]) > len(outcomes) // 20, counts


def test_whatever_a_file_of_the_example_shop_holds_a_check_ends_in_words(
    built_example: Path, tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "content")
    shutil.copytree(built_example / ".store", tmp_path / "output" / ".store")
    names = sorted(
        path.relative_to(tmp_path).as_posix()
        for path in (tmp_path / "content").rglob("*.*")
        if path.is_file()
    )
    targets = [Target(file=name, commands=(("check",),)) for name in names if "/." not in name]

    outcomes = list(tried(tmp_path, targets, range(OF_THE_EXAMPLE), tmp_path_factory.mktemp("tried")))

    assert [each for each in outcomes if each.gave == "fault"] == []

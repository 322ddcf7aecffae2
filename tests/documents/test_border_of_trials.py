"""The border around what is only being tried: nothing of a trial candle reaches a public file, drafts shown or not.

Trials are planted with a name for every key that a page could print, with photos, a lot and a burn test: a candle of
its own, a size of a candle on the shelves, and one under a buyer's own label. The site is built whole in each way and
published, and every file is searched by name and byte by byte.
"""

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest
from PIL import Image

from generator.commands import publish
from generator.commands.build import build
from generator.commands.publish import How
from generator.making.options import CommandOptions
from tests.conftest import PROJECT
from tests.site.paper_tools import text_of

FIRST_SHOP = PROJECT / "generator/data/first_shop"
CANARY = "canary"
FILES = {
    "candles/canary-trial.yaml": """
        scent: Canary Nights
        collection: canary-shelf
        season: canary season
        status: trial
        scent_notes: {top: [canary top]}
        colour: {name: canary yellow, shade: "#f1e2d3"}
        description: A canary at night.
        ingredients: {canary-wax: 1000 g, wet-garden: 8 % of wax}
        sizes:
          - stock_code: CANARY-1
            kind: container
            vessel: canary-jar
            wick: canary-wick
            fill: {to: 60 mm, level: set}
            price: 18.00
            burn_time: burn-tests/CANARY-1.csv
            photos: [canary-front.jpg]
        """,
    "candles/old-rope.yaml": """
        scent: Old Rope
        collection: hearth
        ingredients: {rapeseed: 1000 g}
        sizes:
          - {stock_code: OR-20, kind: container, vessel: amber-20, wick: cotton-18, fill: {to: 60 mm, level: set},
             status: discontinued, photos: [rope.jpg]}
          - {stock_code: OR-21, kind: container, vessel: amber-20, wick: cotton-18, fill: {to: 60 mm, level: set},
             status: coming, photos: [new-rope.jpg]}
        """,
    "publish.yaml": "place: {to: folder, folder: ../place}\n",
    "lots.csv": "lot,stock_code,poured_on,made\nCANARY-1-2026305-K7QX,CANARY-1,2026-11-01,6\n",
}
SIZES = """    photos: [front.jpg]
  - {stock_code: CANARY-2, kind: container, vessel: canary-jar, wick: cotton-18, fill: {to: 50 mm, level: set},
     status: trial, photos: [canary-size.jpg]}
  - {stock_code: CANARY-3, kind: container, vessel: canary-jar, wick: cotton-18, fill: {to: 50 mm, level: set},
     made_for: canary, brand: Canary, responsible: {name: Canary, address: [Canary]}, public: [brand, responsible],
     status: trial, photos: [canary-label.jpg]}
  - {stock_code: OWN-1, kind: container, vessel: amber-20, wick: cotton-18, fill: {to: 60 mm, level: set},
     made_for: canary, brand: Canary, responsible: {name: Canary, address: [Canary]}, photos: [canary-own.jpg]}
"""
TERMS = "{lead_time: a week, payment: a month, carriage: paid, returns: none, from: 2026-01-01, until: 2026-12-31}\n"
PHOTOS = (
    "front",
    "rope",
    "new-rope",
    "canary-front",
    "canary-size",
    "canary-label",
    "canary-own",
    "canary-left",
)


@pytest.fixture(name="asked", scope="module")
def _asked(tmp_path_factory: pytest.TempPathFactory) -> CommandOptions:
    content = tmp_path_factory.mktemp("border-of-trials") / "content"
    shutil.copytree(FIRST_SHOP, content)
    for name, text in FILES.items():
        (content / name).write_text(text.replace("\n        ", "\n").lstrip(), encoding="utf-8")
    for old, new in {
        "waxes/rapeseed": "waxes/canary-wax", "vessels/amber-20": "vessels/canary-jar",
        "wicks/cotton-18": "wicks/canary-wick",
    }.items():  # fmt: skip
        text = (content / f"{old}.yaml").read_text(encoding="utf-8")
        (content / f"{new}.yaml").write_text(
            re.sub(r"(?m)^name: .*", f"name: {CANARY} {new}", text), encoding="utf-8"
        )
    shutil.copyfile(content / "burn-tests/WG-20.csv", content / "burn-tests/CANARY-1.csv")
    _add(content / "collections.yaml", "canary-shelf: {name: Canary shelf, order: 9}\n")
    _add(content / "candles/wet-garden.yaml", SIZES)
    (content / "trade").mkdir()
    _add(content / "trade/terms.yaml", TERMS)
    _add(content / "trade/buyers.yaml", "canary: {name: Canary, country: GB, currency: GBP}\n")
    (content / "photos").mkdir()
    (content.parent / "place").mkdir()
    for number, name in enumerate(PHOTOS):
        Image.new("RGB", (40, 20), (number * 30, 80, 120)).save(content / "photos" / f"{name}.jpg")
    return CommandOptions(content=content, output=content.parent / "output", as_of=None, as_data=False)


def _add(path: Path, text: str) -> None:
    with path.open("a", encoding="utf-8") as file:
        file.write(text)


@pytest.fixture(name="public", params=["build", "build --drafts", "publish"], scope="module")
def _public(request: pytest.FixtureRequest, asked: CommandOptions) -> Mapping[str, bytes]:
    """Every public file; a preview builds with drafts."""
    asked = CommandOptions(
        content=asked.content,
        output=asked.output,
        as_of=None,
        as_data=False,
        drafts="drafts" in request.param,
    )
    if request.param == "publish":
        assert publish.run(asked, "place", How(dry_run=False, rollback=False, take_over=False)) == 0
        site = asked.content.parent / "place"
    else:
        built = build(asked)
        assert built.laid is not None, [str(problem) for problem in built.problems]
        site = asked.output / "site"
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    return {
        name: path.read_bytes() + (text_of(path).encode() if path.suffix == ".pdf" else b"")
        for name, path in files.items()
    }


def telling(public: Mapping[str, bytes]) -> list[str]:
    return [
        name for name, data in public.items() if CANARY in name.lower() or CANARY.encode() in data.lower()
    ]


def test_nothing_of_a_trial_is_public(public: Mapping[str, bytes]) -> None:
    assert telling(public) == []


def test_photos_are_public_where_a_page_shows_them_and_nowhere_else(public: Mapping[str, bytes]) -> None:
    shown = {re.sub(r"-40\..*", "", name) for name in public if name.startswith("photos/")}

    assert shown == {"photos/front", "photos/rope", "photos/new-rope"}
    pages = b"".join(data for name, data in public.items() if name.startswith("candles/"))
    assert [name for name in shown if name.encode() not in pages] == []


def test_the_workshop_has_all_of_it(asked: CommandOptions, public: Mapping[str, bytes]) -> None:
    """A search that cannot find would never fail."""
    assert public
    workshop = asked.output / "workshop"
    found = {path.relative_to(workshop).as_posix(): path.read_bytes() for path in workshop.rglob("*.*")}

    assert {"facts.json", "drafts/CANARY-1.html"} <= {*telling(found)}

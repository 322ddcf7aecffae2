"""The agreed look of each kind of document: what the small shop's pages, tables and papers say, as text.

``WICKWRIGHT_ACCEPT=1 python -m pytest tests/golden`` accepts what is made today; read the difference before you
commit it.
"""

import json
import os
import shutil
from collections.abc import Callable
from difflib import unified_diff
from pathlib import Path

import pypdfium2
import pytest
from bs4 import BeautifulSoup

from generator.cli import main
from tests.conftest import PROJECT
from tests.site.paper_tools import page_sizes_mm

AGREED = Path(__file__).parent
ACCEPT = "WICKWRIGHT_ACCEPT"
FIRST_SHOP = PROJECT / "generator" / "data" / "first_shop"
STOCK = """\
name: Boxes
sheet: A4
label: {shape: box, width: 99.1 mm, height: 67.7 mm}
rows: 4
columns: 2
margin: {top: 13 mm, left: 4.6 mm}
pitch: {across: 101.6 mm, down: 67.7 mm}
"""

PAPERS = {
    "safety-sheet": (("papers", "sheets", "WG-20"), "safety/WG-20-a4.pdf"),
    "warning-label": (
        ("papers", "labels", "WG-20=1", "--stock", "boxes", "--blank-lot"),
        "labels/warning-GB-boxes.pdf",
    ),
    "product-label": (
        ("papers", "labels", "WG-20=1", "--stock", "boxes", "--kind", "product"),
        "labels/product-GB-boxes.pdf",
    ),
    "calibration-page": (("papers", "labels", "--stock", "boxes"), "labels/calibration-boxes.pdf"),
    "pour-sheet": (("papers", "pour", "WG-20=6"), "pour/6xWG-20-a4.pdf"),
    "cost-sheet": (("papers", "cost", "WG-20"), "cost/WG-20-a4.pdf"),
    "bench-sheet": (("papers", "bench", "WG-20"), "bench/WG-20-a4.pdf"),
}

BUILT = {
    "catalogue": "site/index.html",
    "candle-page": "site/candles/wet-garden.html",
    "burn-safety-page": "site/safety/WG-20-r1.html",
    "figures-page": "site/figures.html",
    "trade-page": "workshop/trade.html",
    "trade-list": "workshop/trade.csv",
    "facts": "workshop/facts.json",
}
FAULTS = "faults"
ON_A_LINE = "a, abbr, b, data, em, i, small, span, strong, sub, sup, time"


@pytest.fixture(name="run", scope="module")
def _run(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """The small shop with its sheet issued, told to do something; the folder of what it made."""
    folder = tmp_path_factory.mktemp("golden")
    shutil.copytree(FIRST_SHOP, folder / "content")
    (folder / "content" / "label-stock").mkdir()
    (folder / "content" / "label-stock" / "boxes.yaml").write_text(STOCK, encoding="utf-8")

    def run(*words: str) -> Path:
        assert main([*words, "--content", str(folder / "content"), "--output", str(folder / "output")]) == 0
        return folder / "output"

    run("issue", "WG-20", "--reason", "first")
    return run


@pytest.fixture(name="built", scope="module")
def _built(run: Callable[..., Path]) -> Path:
    return run("build", "--date", "2026-12-01")


def told(pdf: Path) -> str:
    """Size and text of each page, in reading order."""
    document = pypdfium2.PdfDocument(pdf)
    sizes = page_sizes_mm(pdf)
    pages = (
        f"page {number} of {len(document)}, {width:g} by {height:g} mm\n\n{_lines(page)}\n"
        for number, (page, (width, height)) in enumerate(zip(document, sizes, strict=True), start=1)
    )
    return "\n".join(pages)


def _lines(page: pypdfium2.PdfPage) -> str:
    lines = page.get_textpage().get_text_range().splitlines()
    return "\n".join(line.strip() for line in lines if line.strip())


def _told(made: str, suffix: str) -> str:
    if suffix == ".json":
        return f"{json.dumps(json.loads(made), indent=1, ensure_ascii=False)}\n"
    return _told_by_page(made) if suffix == ".html" else made


def _told_by_page(page: str) -> str:
    """What a page says, a line for each of its blocks."""
    soup = BeautifulSoup(page, "html.parser")
    for silent in soup.select("script, style"):
        silent.decompose()
    for within in soup.select(ON_A_LINE):
        within.unwrap()
    soup.smooth()
    return "".join(f"{' '.join(text.split())}\n" for text in soup.stripped_strings)


def assert_agreed(kind: str, today: str) -> None:
    agreed = AGREED / f"{kind}.txt"
    if os.environ.get(ACCEPT):
        agreed.write_text(today, encoding="utf-8")

    before = agreed.read_text(encoding="utf-8")
    difference = "\n".join(
        unified_diff(before.splitlines(), today.splitlines(), "agreed", "today", lineterm="")
    )

    assert today == before, f"{difference}\n\n{ACCEPT}=1 python -m pytest tests/golden accepts it"


@pytest.mark.parametrize("kind", PAPERS)
def test_a_paper_says_what_was_agreed(kind: str, run: Callable[..., Path]) -> None:
    words, path = PAPERS[kind]

    assert_agreed(kind, told(run(*words) / "workshop" / "papers" / path))


@pytest.mark.parametrize("kind", BUILT)
def test_what_is_built_says_what_was_agreed(kind: str, built: Path) -> None:
    made = (built / BUILT[kind]).read_text(encoding="utf-8-sig")

    assert_agreed(kind, _told(made, Path(BUILT[kind]).suffix))


def test_faults_are_told_as_data_as_was_agreed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(FIRST_SHOP, tmp_path / "content")
    maker = tmp_path / "content" / "maker.yaml"
    maker.write_text(f"{maker.read_text(encoding='utf-8')}shelf: oak\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    assert main(["check", "--json", "--date", "2026-06-01"]) == 1

    assert_agreed(FAULTS, capsys.readouterr().out)


def test_every_agreed_text_has_its_document() -> None:
    assert {path.stem for path in AGREED.glob("*.txt")} == {*PAPERS, *BUILT, FAULTS}

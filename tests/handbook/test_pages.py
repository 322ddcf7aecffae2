"""Every page of the handbook: in the one table, of the agreed form, linked soundly, and found."""

import json
import re
import tomllib
from html import unescape
from pathlib import Path

import pytest

from generator.document import Document
from generator.handbook.browser_pages import HANDBOOK_FOLDER, browser_pages
from generator.handbook.in_terminal import Screen, line_text, page_lines
from generator.handbook.page_text import CodeBlock, HandbookPage, page_from
from generator.handbook.search import found_in
from generator.handbook.shelf import handbook, handbook_page
from generator.handbook_pages import MADE, PAGES, page_of
from generator.reading.languages import FIRST, words_of
from generator.writing.templates import Templates
from generator.writing.themes import Theme
from tests.conftest import PROJECT

FOLDER = PROJECT / "generator" / "data" / "handbook"
SCREEN = Screen(columns=72, bold=False)
SAMPLE = """\
# Wicks

How a wick is
chosen.

An opening with `code`, **bold `key:`** and [labels](labels.md#print).

## Two of them

1. First
   goes on.
2. Second.

```sh
wickwright check
```

    content/wicks/a.yaml

| size | mm |
|---|---|
| small | 2 |
"""


def rendered(theme: str, pages: tuple[HandbookPage, ...]) -> dict[str, str]:
    """Every page by its name, as a theme prints it."""
    folders = tuple(PROJECT / "themes" / name for name in dict.fromkeys((theme, "netloft")))
    templates = Templates(Theme(name=theme, folders=folders))
    made = browser_pages(pages, words_of(FIRST)["handbook"], FIRST)
    return {
        Path(one.path).stem: templates.render(one, {}).decode() for one in made if isinstance(one, Document)
    }


@pytest.fixture(name="printed", scope="module")
def _printed() -> dict[str, str]:
    return rendered("netloft", handbook())


def test_every_file_is_a_page_and_every_page_but_one_a_file() -> None:
    assert sorted(path.stem for path in FOLDER.iterdir()) == sorted(set(PAGES) - {MADE})


def test_every_page_has_a_title_a_summary_of_one_sentence_and_sections() -> None:
    odd = [
        page.name
        for page in handbook()
        if not page.title or not re.fullmatch(r"[^.]+(?:\.[^ ][^.]*)*\.", page.summary) or not page.sections
    ]

    assert odd == []


def test_code_says_what_it_is() -> None:
    blocks = [
        (page.name, block)
        for page in handbook()
        for section in page.sections
        for block in section.blocks
        if isinstance(block, CodeBlock)
    ]

    assert [
        (name, one.language) for name, one in blocks if one.language not in ("sh", "yaml", "text", "")
    ] == []
    assert [
        (name, line)
        for name, one in blocks
        if one.language in ("", "text", "yaml")
        for line in one.lines
        if line.startswith("wickwright")
    ] == []


def test_a_page_is_read_part_by_part() -> None:
    page = page_from("wicks", SAMPLE)

    assert (page.title, page.summary) == ("Wicks", "How a wick is chosen.")
    assert [(section.title, section.anchor) for section in page.sections] == [
        ("", ""),
        ("Two of them", "two-of-them"),
    ]
    assert "\n".join(page_lines(page, SCREEN)) == "\n".join(
        (
            "Wicks\n",
            "How a wick is chosen.\n",
            "An opening with code, bold key: and labels.\n",
            "Two of them\n",
            "1. First goes on.",
            "2. Second.\n",
            "    wickwright check\n",
            "    content/wicks/a.yaml\n",
            "size   mm",
            "-----  --",
            "small  2",
        )
    )


@pytest.mark.parametrize("columns", [40, 72, 100])
def test_no_line_of_text_is_longer_than_the_terminal(columns: int) -> None:
    page = handbook_page("shops")
    lines = page_lines(page, Screen(columns=columns, bold=False))

    long = [line for line in lines if len(line) > columns and not line.startswith("    ")]

    assert long == []


def test_a_wide_table_becomes_a_list_on_a_narrow_terminal() -> None:
    narrow = "\n".join(page_lines(page_from("wicks", SAMPLE), Screen(columns=8, bold=False)))

    assert narrow.endswith("small\n    2")


def test_what_is_printed_is_text_alone_unless_bold_is_asked_for() -> None:
    page = page_from("wicks", SAMPLE)

    assert all("\033" not in line for line in page_lines(page, SCREEN))
    assert next(page_lines(page, Screen(columns=72, bold=True))) == "\033[1mWicks\033[0m"


def test_a_link_names_the_page_it_leads_to() -> None:
    (section, *_) = page_from(
        "x", "# X\n\nY.\n\nSee [how to print](labels.md), and [labels](labels.md).\n"
    ).sections

    assert line_text(section.blocks[0].line) == "See how to print (handbook labels), and labels."  # type: ignore[union-attr]


def test_words_are_found_in_the_sections_that_hold_all_of_them() -> None:
    pages = (page_from("wicks", SAMPLE),)

    assert [(one.section, one.line) for one in found_in(pages, "SECOND small")] == [
        ("Two of them", "Second.")
    ]
    assert [one.section for one in found_in(pages, "chosen")] == ["Wicks"]
    assert list(found_in(pages, "second chosen")) == []
    assert list(found_in(pages, " ")) == []


def test_no_link_is_dead(printed: dict[str, str]) -> None:
    ids = {name: set(re.findall(r' id="([^"]+)"', text)) for name, text in printed.items()}
    dead = []
    for name, text in printed.items():
        for address in map(unescape, re.findall(r'href="([^"]+)"', text)):
            if address.startswith(("data:", "https:")):
                continue
            file, _, anchor = address.partition("#")
            target = Path(file).stem or name
            if target not in ids or (anchor and anchor not in ids[target]):
                dead.append((name, address))

    assert dead == []


def test_every_page_leads_to_every_other_and_to_its_neighbours(printed: dict[str, str]) -> None:
    for name, text in printed.items():
        contents = re.findall(r'href="([a-z-]+)\.html"', text[text.index('<nav class="contents"') :])
        assert contents == list(PAGES), name
    turned = [re.findall(r'rel="(?:prev|next)" href="([a-z-]+)\.html"', printed[name]) for name in PAGES]
    assert turned == [[*PAGES[max(at - 1, 0) : at], *PAGES[at + 1 : at + 2]] for at in range(len(PAGES))]


def test_ledger_prints_them_too() -> None:
    assert "text-transform: uppercase" in rendered("ledger", (handbook_page("themes"),))["themes"]


def test_what_a_page_says_is_marked_as_english_in_a_shop_that_speaks_german() -> None:
    (page, _index) = browser_pages((handbook_page("themes"),), words_of("de")["handbook"], "de")
    assert isinstance(page, Document)

    text = Templates(Theme(name="netloft", folders=(PROJECT / "themes/netloft",))).render(page, {}).decode()

    assert '<html lang="de">' in text
    assert '<main lang="en">' in text


def test_the_search_box_knows_every_section_and_leads_to_it(printed: dict[str, str]) -> None:
    *_, index = browser_pages(handbook(), words_of(FIRST)["handbook"], FIRST)
    assert not isinstance(index, Document)
    assert index.path == f"{HANDBOOK_FOLDER}/sections.js"

    entries = json.loads(index.text.removeprefix("const SECTIONS = ").removesuffix(";\n"))

    assert len(entries) == sum(len(page.sections) for page in handbook())
    for entry in entries:
        file, _, anchor = entry["address"].partition("#")
        assert not anchor or f' id="{anchor}"' in printed[Path(file).stem], entry["address"]


@pytest.mark.parametrize(
    ("file", "page"),
    [
        ("content/burn-tests/SS-30.csv", "burn-tests"),
        ("content/maker.yaml", "keys"),
        ("/home/lots/labels/content/lots.csv", "lots"),
        ("content/label-stock/round.yaml", "labels"),
        ("themes/mine/theme.yaml", "themes"),
        ("content", None),
    ],
)
def test_a_file_has_the_page_that_speaks_of_it(file: str, page: str | None) -> None:
    assert page_of(file) == page


def test_the_wheel_holds_the_pages() -> None:
    packed = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["hatch"]["build"]

    assert "generator" in packed["targets"]["wheel"]["only-include"]
    assert "themes" in packed["targets"]["wheel"]["only-include"]
    assert FOLDER.is_relative_to(PROJECT / "generator")
    assert packed["targets"]["wheel"]["exclude"] == ["content/.*"]

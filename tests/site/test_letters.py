"""Letters from the entry to the paper: what is accepted is printed everywhere, and nothing locks a shop."""

import re
import shutil
import unicodedata
from collections.abc import Iterator
from html import unescape
from itertools import cycle, islice, product
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.cli import main
from generator.letters import unprintable
from generator.model import words
from tests.conftest import MANY, PROJECT
from tests.site.paper_tools import text_of

FIRST_SHOP = PROJECT / "generator" / "data" / "first_shop"
CANDLE = "candles/wet-garden.yaml"


def run(content: Path, *command: str, output: str = "output") -> int:
    return main([*command, "--content", str(content), "--output", str(content.parent / output)])


def read(content: Path, file: str) -> str:
    return (content / file).read_text(encoding="utf-8")


def write(content: Path, file: str, text: str) -> None:
    (content / file).write_text(text, encoding="utf-8")


def change(content: Path, file: str, old: str, new: str) -> None:
    text = read(content, file)
    assert old in text
    write(content, file, text.replace(old, new, 1))


LINE = '  - {{substance: "{substance}", share: 4 %, hazards: [Skin Sens. 1A H317]}}'
CANDLES = 8
GREEK = "αβγδεζηθικλμνξοπρστυφχψω"
STEMS = (
    "-Pinene",
    "-Caryophyllene",
    "-Damascone",
    "-Terpineol",
    "-Ionone",
    "-Cedrène",
    "-Amylzimtaldehyd",
    "₂-H₂O°",
)
CITIES = (
    *("Θεσσαλονίκη", "Ἀθῆναι", "Łódź", "Ærøskøbing", "Søndervåge", "Çeşme", "Ħal Luqa", "Đurđevac", "Ķekava"),
    *(
        "Габрово",
        "Ђурђево",
        "Їжакова",
        "Тайёр",
        "Ґанок",
        "Großräschen",
        "Œuilly",
        "Țăndărei",
        "Hội An",
        "Ýmir",
    ),
)
STREETS = (
    "οδός Ἑρμοῦ",
    "улица Роза",
    "ulica Żółta",
    "rue de l’Œuf",
    "Straße „Nord“",
    "calle Ñandú",
    "Süßweg",
    "č. p.",
)
SCENTS = (
    "Κεδρόμηλο",
    "Полынь → море",
    "Fig ♥ №",
    "Thé ½ ′ ″",
    "Pluie ± 3 °C",
    "★ Žiema",
    "Dûne €",
    "Bjørk ✓ ☀",
)


def _numbered(texts: Iterator[str], count: int) -> list[str]:
    """So many texts, each another one."""
    return [f"{text} {number}" for number, text in enumerate(islice(texts, count), start=1)]


SUBSTANCES = [f"{letter}{stem}" for letter, stem in product(GREEK, STEMS)]
NAMES = _numbered(cycle(SCENTS), CANDLES)
ADDRESSES = _numbered((f"{street}, {city}" for street, city in cycle(product(STREETS, CITIES))), 292)
VESSELS = _numbered(cycle(CITIES), CANDLES)


@pytest.fixture(name="five_hundred")
def _five_hundred(shop_folder: Path) -> Path:
    """A shop of 8 scents in jars of 8 names, with 192 substances, and 292 lines of addresses: 500 texts."""
    candle = read(shop_folder, CANDLE).replace("    burn_time: burn-tests/WG-20.csv\n", "")
    fragrance, jar = (
        read(shop_folder, "fragrances/wet-garden.yaml"),
        read(shop_folder, "vessels/amber-20.yaml"),
    )
    for file in (CANDLE, "burn-tests/WG-20.csv", "burn-tests/WG-20.yaml"):
        (shop_folder / file).unlink()
    for number, name in enumerate(NAMES):
        composed = "\n".join(
            LINE.format(substance=each) for each in SUBSTANCES[24 * number : 24 * number + 24]
        )
        write(shop_folder, f"fragrances/f-{number}.yaml", re.sub(r"  - \{substance.*", composed, fragrance))
        write(shop_folder, f"vessels/v-{number}.yaml", re.sub(r"name: 20.*", f"name: {VESSELS[number]}", jar))
        mine = candle.replace("scent: Wet Garden", f'scent: "{name}"').replace(
            "wet-garden: 8 %", f"f-{number}: 8 %"
        )
        mine = mine.replace("amber-20", f"v-{number}").replace("WG-20", f"X-{number}")
        write(shop_folder, f"candles/c-{number}.yaml", mine)
    lines = "".join(f'  - "{each}"\n' for each in ADDRESSES)
    change(
        shop_folder, "maker.yaml", "address: [2 Ferry Lane, Averness AV1 4QN]", f"address:\n{lines.rstrip()}"
    )
    return shop_folder


def bare(text: str) -> str:
    """A text without spaces and without hyphens, which a reader of pages takes for a break of the line."""
    return re.sub(r"[\s\u00ad\ufffe\x02-]+", "", unicodedata.normalize("NFKC", text))


def test_five_hundred_texts_are_issued_printed_and_read_back(five_hundred: Path) -> None:
    assert len({*SUBSTANCES, *NAMES, *VESSELS, *ADDRESSES}) == 500
    assert run(five_hundred, "check") == 0
    assert run(five_hundred, "issue", "--reason", "first") == 0
    assert run(five_hundred, "build") == 0

    safety = five_hundred.parent / "output" / "site" / "safety"
    for number in range(CANDLES):
        mine = [*SUBSTANCES[24 * number : 24 * number + 24], NAMES[number], VESSELS[number], *ADDRESSES]
        paper = bare(text_of(safety / f"X-{number}-r1-a4.pdf"))
        page = bare(unescape((safety / f"X-{number}-r1.html").read_text(encoding="utf-8")))
        assert [each for each in mine if bare(each) not in paper] == []
        assert [each for each in mine if bare(each) not in page] == []


EMOJI = "scent: Wet Garden 🌧"


@pytest.fixture(name="locked")
def _locked(shop_folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop in which a program without this check issued a sheet that no paper can print letter by letter."""
    change(shop_folder, CANDLE, "scent: Wet Garden", EMOJI)
    with monkeypatch.context() as without_check:
        without_check.setattr(words, "unprintable", lambda _: ())
        assert run(shop_folder, "issue", "--reason", "first", output="before") == 0
    assert "🌧" in read(shop_folder, "sheets/WG-20.yaml")
    return shop_folder


def test_the_entry_that_holds_it_is_told_before_anything_is_issued(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    change(shop_folder, CANDLE, "scent: Wet Garden", EMOJI)

    assert [run(shop_folder, *asked) for asked in (["check"], ["build"], ["issue", "--reason", "first"])] == [
        1,
        1,
        1,
    ]

    told = capsys.readouterr().out
    assert (
        told.count(
            f"{CANDLE}:3:8: error: scent contains '🌧' (U+1F327 cloud with rain), which no paper can print"
        )
        == 3
    )
    assert not (shop_folder / "sheets").exists()


def test_a_locked_shop_opens_again(locked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    change(locked, CANDLE, EMOJI, "scent: Wet Garden")
    capsys.readouterr()

    assert run(locked, "build") == 0

    told = capsys.readouterr().out
    told_once = (
        "sheets/WG-20.yaml:9:5: warning: revision 1 of WG-20 contains '🌧' (U+1F327 cloud with rain), which "
        "no paper can print; its printed sheet spells out the name"
    )
    assert told.count(told_once) == told.count("which no paper can print") == 1
    site = locked.parent / "output" / "site"
    assert "Wet Garden [U+1F327 cloud with rain]" in text_of(site / "safety" / "WG-20-r1-letter.pdf")
    assert "Wet Garden 🌧" in (site / "safety" / "WG-20-r1.html").read_text(encoding="utf-8")


def test_a_locked_shop_issues_publishes_and_verifies_again(locked: Path) -> None:
    change(locked, CANDLE, EMOJI, "scent: Wet Garden")
    (locked.parent / "www").mkdir()
    write(
        locked,
        "publish.yaml",
        "disk: {to: folder, folder: ../www}\n",
    )

    assert run(locked, "issue", "--reason", "without the cloud") == 0
    assert run(locked, "build") == 0
    assert run(locked, "issue", "--verify") == 0
    assert run(locked, "publish") == 0

    assert (locked.parent / "www" / "safety" / "WG-20-r1-a4.pdf").is_file()
    assert "🌧" not in text_of(locked.parent / "www" / "safety" / "WG-20-r2-a4.pdf")


ONLY_ON_PAGES = (
    (CANDLE, "after the rain has stopped.", "after the rain 🌧 has stopped."),
    (CANDLE, "season: all year", "season: 夏"),
    (CANDLE, "top: [rain]", "top: [שלום]"),
    ("collections.yaml", "name: ", "name: 🕯 "),
    ("collections.yaml", "text: ", "text: 🕯 "),
    ("maker.yaml", "kitchen table.", "kitchen table 🕯"),
    ("pages/about.md", "\n", "\n🌧\n"),
    ("vessels/amber-20.yaml", "material: glass", "material: glass\nheat_evidence: 🔥\nnotes: 🔥"),
    ("waxes/rapeseed.yaml", "melts_at", "notes: 🔥\nmelts_at"),
    ("wicks/cotton-18.yaml", "core: none", "core: none\nnotes: 🔥"),
    ("fragrances/wet-garden.yaml", "undisclosed", "notes: 🔥\nundisclosed"),
    ("burn-tests/WG-20.yaml", "tested_on", "by: 🔥\nnotes: 🔥\ntested_on"),
)


def test_what_only_pages_show_may_hold_any_character(shop_folder: Path) -> None:
    for file, old, new in ONLY_ON_PAGES:
        change(shop_folder, file, old, new)

    assert run(shop_folder, "issue", "--reason", "first") == 0
    assert run(shop_folder, "build") == 0
    for asked in (["pour", "WG-20=6"], ["cost", "WG-20"], ["bench", "WG-20"], ["sheets"]):
        assert run(shop_folder, "papers", *asked) == 0

    output = shop_folder.parent / "output"
    assert "🌧" in read(output, "site/about.html")
    assert [pdf for pdf in output.rglob("*.pdf") if "[U+" in text_of(pdf)] == []


FIELDS = (
    ("maker.yaml", "name: Ferry Lane Candles", "name: {}"),
    ("maker.yaml", "address: [2 Ferry Lane,", "address: [{},"),
    (CANDLE, "scent: Wet Garden", "scent: {}"),
    ("fragrances/wet-garden.yaml", "name: Wet garden accord", "name: {}"),
    ("fragrances/wet-garden.yaml", "substance: Linalool", "substance: {}"),
    ("vessels/amber-20.yaml", "name: 20 cl amber jar", "name: {}"),
    ("vessels/amber-20.yaml", "lid: {name: tin lid", "lid: {{name: {}"),
    ("waxes/rapeseed.yaml", "name: Rapeseed and coconut container wax", "name: {}"),
    ("wicks/cotton-18.yaml", "name: Flat cotton braid, size 18", "name: {}"),
)
LETTERS = tuple(
    letter for letter in map(chr, range(0x3000)) if letter.isprintable() and not unprintable(letter)
)
WORD = st.text(st.sampled_from(LETTERS), min_size=1, max_size=9).map(lambda word: f"a{word}z")
ANY = st.text(min_size=1, max_size=9).map(lambda text: f"a{text}z")


def quoted(text: str) -> str:
    """A text in YAML, with an escape for whatever cannot be seen in a file."""
    return '"' + "".join(each if each.isalnum() else f"\\U{ord(each):08X}" for each in text) + '"'


@settings(max_examples=max(1, MANY // 10), suppress_health_check=list(HealthCheck))
@given(said=st.lists(WORD, min_size=8, max_size=8), any_text=ANY | WORD, place=st.integers(0, 8))
def test_any_text_in_any_field_is_refused_by_check_or_printed_by_all_papers(
    tmp_path_factory: pytest.TempPathFactory, said: list[str], any_text: str, place: int
) -> None:
    content = shutil.copytree(FIRST_SHOP, tmp_path_factory.mktemp("shop") / "content")
    said.insert(place, any_text)
    for (file, old, new), text in zip(FIELDS, said, strict=True):
        change(content, file, old, new.format(quoted(text)))

    refused = run(content, "check")

    assert refused == (1 if unprintable(any_text) else 0)
    if not refused:
        assert run(content, "issue", "--reason", "first") == run(content, "build") == 0
        assert all(run(content, "papers", *each) == 0 for each in (["pour", "WG-20=6"], ["cost", "WG-20"]))
        printed = bare("\n".join(text_of(pdf) for pdf in (content.parent / "output").rglob("*-a4.pdf")))
        assert [text for text in said if bare(text) not in printed] == []

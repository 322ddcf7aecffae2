"""The recipe "add a language" of DEVELOPERS.md, followed with a language whose nouns have four forms."""

import shutil
from pathlib import Path

import pytest

from generator.commands.build import build
from generator.documents.printed import counted, hours
from generator.making.options import CommandOptions
from generator.making.report import Built
from generator.problems import is_error
from generator.reading import languages
from generator.reading.languages import FIRST, LANGUAGES, language_problems, words_of
from generator.reading.shipped import first_shop
from tests.model.test_plurals import POLISH

ADDED = "pl"
HOURS = {
    "one": "{hours} godzina",
    "few": "{hours} godziny",
    "many": "{hours} godzin",
    "other": "{hours} godziny",
}
SCENTS = {
    "one": "{scents} zapach",
    "few": "{scents} zapachy",
    "many": "{scents} zapachów",
    "other": "{scents} zapachu",
}
CANDLES = {
    "one": "{count} świeca",
    "few": "{count} świece",
    "many": "{count} świec",
    "other": "{count} świecy",
}
TRANSLATED = {"counted_hours": HOURS, "counted_scents": SCENTS, "counted_candles": CANDLES}


@pytest.fixture(autouse=True)
def added(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of all languages with one more, whose tables are the first one's and whose counts are its own."""
    folder = tmp_path / "languages"
    shutil.copytree(LANGUAGES, folder)
    shutil.copytree(folder / FIRST, folder / ADDED)
    words = folder / ADDED / "words.yaml"
    kept, _, counts = words.read_text(encoding="utf-8").partition("# Sentences with a count")
    kept = kept.replace("plurals:\n  one: i = 1 and v = 0\n", f"plurals:\n{_lines(POLISH)}")
    kept = kept.replace(
        "counted_inches:\n", 'counted_inches:\n  few: "{length} cale"\n  many: "{length} cali"\n'
    )
    words.write_text(f"{kept}{_with_forms(counts)}", encoding="utf-8")
    monkeypatch.setattr(languages, "LANGUAGES", folder)
    return folder / ADDED


def _lines(sentences: dict[str, str]) -> str:
    return "".join(f'  {category}: "{sentence}"\n' for category, sentence in sentences.items())


def _with_forms(counts: str) -> str:
    """The counted sentences with two more forms, some of them translated."""
    lines = []
    for line in f"# Sentences with a count{counts}".splitlines():
        lines.append(line)
        if line.startswith("  other: "):
            lines += [line.replace("other", category, 1) for category in ("few", "many")]
    text = "\n".join(lines) + "\n"
    for subject, sentences in TRANSLATED.items():
        before, _, after = text.partition(f"{subject}:\n")
        rest = after[after.index("counted_") :]
        text = f"{before}{subject}:\n{_lines(sentences)}{rest}"
    return text


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    content = tmp_path / "content"
    for name, data in first_shop().items():
        (content / name).parent.mkdir(parents=True, exist_ok=True)
        (content / name).write_bytes(data)
    maker = content / "maker.yaml"
    text = maker.read_text(encoding="utf-8")
    assert "\nlanguage: en " in text
    maker.write_text(text.replace("\nlanguage: en ", f"\nlanguage: {ADDED} "), encoding="utf-8")
    return content


def build_of(content: Path) -> Built:
    return build(CommandOptions(content=content, output=content.parent / "output", as_of=None, as_data=False))


@pytest.mark.parametrize(
    ("count", "said"),
    [
        ("1", "1 świeca"),
        ("2", "2 świece"),
        ("5", "5 świec"),
        ("12", "12 świec"),
        ("22", "22 świece"),
        ("25", "25 świec"),
        ("112", "112 świec"),
    ],
)
def test_a_count_takes_the_form_of_its_language(count: str, said: str) -> None:
    assert counted("counted_candles", count, words_of(ADDED)).format(count=count) == said


def test_half_hours_take_the_form_of_fractions() -> None:
    assert hours(1.5, words_of(ADDED)) == "1.5 godziny"


def test_a_shop_in_it_is_built_with_its_counts(shop: Path) -> None:
    assert language_problems(ADDED) == ()

    built = build_of(shop)

    assert [problem for problem in built.problems if is_error(problem)] == []
    page = (shop.parent / "output/site/index.html").read_text(encoding="utf-8")
    assert f'<html lang="{ADDED}"' in page
    assert "1 zapach<" in page


@pytest.mark.parametrize("table", ["law", "claims", "materials"])
def test_a_table_that_is_missing_stops_the_build(table: str, shop: Path, added: Path) -> None:
    (added / f"{table}.yaml").unlink()

    built = build_of(shop)

    missing = [problem.place.file for problem in built.problems if problem.what == "the file is missing"]
    assert built.laid is None
    assert missing == [f"generator/data/languages/{ADDED}/{table}.yaml"]


@pytest.mark.parametrize(
    ("table", "line", "lack"),
    [
        ("words", '  few: "{count} świece"\n', "counted_candles.few is missing"),
        ("law", "  Danger: Danger\n", "signal_words.Danger is missing"),
        ("claims", "  vegan:\n  - 'vegan'\n", "phrases.vegan is missing"),
        ("materials", "  glass: [glass]\n", "walls.glass is missing"),
    ],
)
def test_what_a_table_lacks_is_told_by_its_name(table: str, line: str, lack: str, added: Path) -> None:
    file = added / f"{table}.yaml"
    text = file.read_text(encoding="utf-8")
    assert line in text
    file.write_text(text.replace(line, ""), encoding="utf-8")

    assert [problem.what for problem in language_problems(ADDED)] == [lack]


def test_a_rule_that_cannot_be_read_is_told(added: Path) -> None:
    file = added / "words.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace('one: "i = 1 and v = 0"', "one: once"), encoding="utf-8")

    assert [problem.what for problem in language_problems(ADDED)] == ["'once' is not a plural rule"]

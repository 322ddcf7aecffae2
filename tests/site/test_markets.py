"""The rows of markets: that every table holds what each needs, and that a market more is everywhere or named."""

import ast
import json
import shutil
from collections.abc import Iterator, MutableMapping
from dataclasses import MISSING, fields
from pathlib import Path
from typing import cast, get_args

import pytest

from generator.cli import main
from generator.documents.printed import emergency_number
from generator.model import markets
from generator.model.markets import (
    LAWS,
    MARKETS,
    AdviceKey,
    HazardLaw,
    LawKey,
    LengthUnit,
    MarketRow,
    QuantityStyle,
    ShortfallRule,
    law_of,
    not_a_market,
)
from generator.reading import languages as words_files
from generator.reading.languages import FIRST, label_languages, languages, words_of
from generator.rules.burning.guidance import ADVICE
from generator.rules.hazards.ruleset import LIMITS_OF_LAW, rule_set
from tests.documents.sample_house import ROOT
from tests.site.paper_tools import text_of
from tests.site.test_label_orders import STOCK

PRETENDED = "AU"
ROW = MarketRow(
    countries=frozenset({PRETENDED}),
    needs_contact=True,
    law="GB CLP",
    advice="European",
    length_unit="mm",
    quantity="grams",
    letters="76/211/EEC",
    shortfall="TNE",
    parcel_unit="kg",
    dollar="AUD",
    label_language="en",
    emergency=("000", "112"),
    food_shapes=(),
    green_claims_from=None,
)
"""A row as somebody would add it; whether the law of such a place says so is invented."""

NAMED_AT_HOME = {
    "model/markets.py": "the table",
    "model/maker.py": "the keys of contacts that entries had first",
    "model/countries.py": "codes of countries",
    "rules/trade/tax_numbers.py": "codes of countries",
}


def stems() -> Iterator[tuple[str, str, bool]]:
    """Every sentence that is said for markets: its subject, its name, and whether only of those with a contact."""
    for subject, sentences in words_of(FIRST).items():
        said = {name.rpartition("_")[::2] for name in sentences}
        for stem in sorted({stem for stem, key in said if stem and key in ("GB", "EU")}):
            yield subject, stem, (stem, "US") not in said


def missing(market: str) -> list[str]:
    """Everything that a market lacks, each by the name under which it is looked for."""
    row, lacking = MARKETS[market], []
    for language in label_languages():
        words = words_of(language)
        wanted = [("markets", market)]
        wanted += [
            (subject, f"{stem}_{market}")
            for subject, stem, of_contacts in stems()
            if row.needs_contact or not of_contacts
        ]
        law = law_of(market)
        wanted += [("laws", title) for _, title in law.titles] if law else []
        lacking += [
            f"{language}: {subject}.{name}"
            for subject, name in wanted
            if subject in words and name not in words[subject]
        ]
    usual = row.label_language
    if usual is not None and usual not in label_languages():
        lacking.append(f"{usual}: labels")
    if (
        usual is not None
        and row.law is not None
        and not (words_files.LANGUAGES / usual / "law.yaml").is_file()
    ):
        lacking.append(f"{usual}: the law's sentences")
    return lacking


@pytest.mark.parametrize("market", MARKETS)
def test_a_market_has_all_its_sentences_in_every_language(market: str) -> None:
    assert missing(market) == []


def test_all_that_a_market_more_lacks_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    add_row(monkeypatch)

    spoken = ["markets.AU", "safety.call_AU", "quantities.stop_AU"]
    spoken += [f"{subject}.contact_AU" for subject in ("labels", "safety", "site")]
    wanted = [f"{language}: {name}" for language in languages() for name in spoken]
    on_labels = [one for one in label_languages() if one not in languages()]
    wanted += [f"{one}: {name}" for one in on_labels for name in ("markets.AU", "labels.contact_AU")]
    assert sorted(missing(PRETENDED)) == sorted(wanted)


def test_a_market_whose_labels_nobody_can_write_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    unspoken = {**{each.name: getattr(ROW, each.name) for each in fields(ROW)}, "label_language": "mi"}
    add_row(monkeypatch, MarketRow(**unspoken))

    assert missing(PRETENDED)[-2:] == ["mi: labels", "mi: the law's sentences"]


@pytest.mark.parametrize("row", [MarketRow, HazardLaw])
def test_no_column_may_be_left_out(row: type[MarketRow] | type[HazardLaw]) -> None:
    assert [
        each.name
        for each in fields(row)
        if each.default is not MISSING or each.default_factory is not MISSING
    ] == []


def test_every_key_of_a_column_leads_to_something() -> None:
    assert set(LAWS) == set(LIMITS_OF_LAW) == set(get_args(LawKey))
    assert set(ADVICE) == set(get_args(AdviceKey))
    for language in label_languages():
        assert {f"net_{style}" for style in get_args(QuantityStyle)} <= set(words_of(language)["labels"])


def test_a_length_unit_or_shortfall_more_is_noticed_where_one_is_asked_for_by_name() -> None:
    """Sheet, label and `is_on_labels` ask for inches, `pack_rules` and the pour sheet for each of the two rules."""
    assert set(get_args(LengthUnit)) == {"mm", "in"}
    assert set(get_args(ShortfallRule)) == {"TNE", "MAV"}


def test_no_other_module_names_a_market() -> None:
    rooms = ROOT / "generator"
    found = {
        module.relative_to(rooms).as_posix()
        for module in rooms.rglob("*.py")
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and node.value in tuple(MARKETS)
    }

    assert found == set(NAMED_AT_HOME)


def add_row(monkeypatch: pytest.MonkeyPatch, row: MarketRow = ROW) -> None:
    monkeypatch.setitem(cast("MutableMapping[str, MarketRow]", markets.MARKETS), PRETENDED, row)


@pytest.fixture(name="one_more")
def _one_more(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A market more, with its sentences in the first language."""
    add_row(monkeypatch)
    folder = tmp_path / "languages"
    shutil.copytree(words_files.LANGUAGES, folder)
    text = (folder / FIRST / "words.yaml").read_text(encoding="utf-8")
    for name, sentence in (
        ("GB", f"  {PRETENDED}: Australia"),
        ("call_GB", f'  call_{PRETENDED}: "Australia {{number}}"'),
        ("stop_GB", f"  stop_{PRETENDED}: stop {PRETENDED}"),
        ("contact_GB", f'  contact_{PRETENDED}: "{PRETENDED}: {{person}}"'),
    ):
        lines = [
            f"{line}\n{sentence}" if line.startswith(f"  {name}:") else line for line in text.split("\n")
        ]
        text = "\n".join(lines)
    (folder / FIRST / "words.yaml").write_text(text, encoding="utf-8")
    monkeypatch.setattr(words_files, "LANGUAGES", folder)
    yield
    rule_set.cache_clear()


def run(shop: Path, *words: str) -> int:
    return main([*words, "--content", str(shop), "--output", str(shop.parent / "output")])


def sell_in(shop: Path, market: str) -> None:
    """The small shop sells in one market alone, where somebody answers for its candles, and has labels to print on."""
    contact = "{name: Quai Est, address: [1 quai Est, Port-Lannec], email: there@ferry-lane.example}"
    named = f"contacts: {{{market}: {contact}}}\n" if MARKETS[market].needs_contact and market != "GB" else ""
    maker = shop / "maker.yaml"
    written = maker.read_text(encoding="utf-8").replace("markets: [GB]", f"markets: [{market}]")
    maker.write_text(f"{written}{named}", encoding="utf-8")
    (shop / "label-stock").mkdir()
    (shop / "label-stock" / "boxes.yaml").write_text(
        STOCK.replace("67.7 mm}\n", "93 mm}\n").replace("rows: 4", "rows: 2"), encoding="utf-8"
    )


def is_everywhere(shop: Path, market: str) -> None:
    """A market's figures, sentences, contact and label are in every paper that speaks of markets."""
    assert run(shop, "issue", "WG-20", "--reason", "first") == 0
    assert run(shop, "build") == 0
    made, row, words = shop.parent / "output", MARKETS[market], words_of(FIRST)
    figures = json.loads((made / "workshop" / "facts.json").read_text(encoding="utf-8"))["WG-20"]
    assert {*figures["declared"]} == {*figures["guidance"]} == {*figures["hazards"]} == {*MARKETS}
    assert figures["guidance"][market] is not None
    assert (figures["hazards"][market] is not None) == (row.law is not None)
    table = (made / "workshop" / "trade.csv").read_text(encoding="utf-8-sig")
    assert f"net_quantity_{market}" in table.split("\n", maxsplit=1)[0].split(",")
    sheet = (made / "site" / "safety" / "WG-20-r1.html").read_text(encoding="utf-8")
    number = emergency_number(market, words)
    assert words["safety"][f"call_{market}"].format(number=number) in sheet
    assert words["markets"][market] in sheet
    is_abroad = row.needs_contact and "GB" not in row.countries
    assert ("Quai Est" in sheet) == is_abroad
    assert (
        run(shop, "papers", "labels", "WG-20=1", "--stock", "boxes", "--blank-lot", "--market", market) == 0
    )
    label = text_of(made / "workshop" / "papers" / "labels" / f"warning-{market}-boxes.pdf")
    assert number in label
    assert ("Quai Est" in label) == is_abroad


@pytest.mark.parametrize("market", MARKETS)
def test_a_market_is_in_every_paper(market: str, shop_folder: Path) -> None:
    sell_in(shop_folder, market)

    is_everywhere(shop_folder, market)


@pytest.mark.usefixtures("one_more")
def test_a_market_more_is_in_every_paper(shop_folder: Path) -> None:
    sell_in(shop_folder, PRETENDED)

    is_everywhere(shop_folder, PRETENDED)


@pytest.mark.usefixtures("one_more")
def test_a_market_more_asks_for_the_contact_that_its_row_asks_for(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    maker = shop_folder / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("markets: [GB]", f"markets: [GB, {PRETENDED}]"),
        encoding="utf-8",
    )

    run(shop_folder, "check")

    told = capsys.readouterr().out
    assert "AU is a market, but there is no contacts for AU" in told
    assert "fix: contacts: {AU: {name: ..., address: [...], email: ..., phone: ...}}" in told


@pytest.mark.parametrize(
    ("market", "named", "what"),
    [("EU", "eu_contact: {CONTACT}\ncontacts: {EU: {CONTACT}}", "EU is under contacts and under eu_contact"),
     ("US", "contacts: {US: {CONTACT}}", "US needs no contact")],
)  # fmt: skip
def test_a_contact_that_no_label_can_name_is_refused(
    market: str, named: str, what: str, shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    maker = shop_folder / "maker.yaml"
    lines = named.replace("{CONTACT}", "{name: Quai Est, address: [1 quai Est]}")
    maker.write_text(f"{maker.read_text(encoding='utf-8')}{lines}\n", encoding="utf-8")

    assert run(shop_folder, "check") == 1

    told = capsys.readouterr().out
    assert f"error: {what}" in told
    assert f"fix: delete {market}" in told


@pytest.mark.parametrize("line", ["markets: [GB, XX]", "label_languages: {XX: de}", "contacts: {XX: {}}"])
def test_an_unknown_market_is_refused_in_entries(
    line: str, shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    maker = shop_folder / "maker.yaml"
    rest = [each for each in maker.read_text(encoding="utf-8").split("\n") if each[:7] != line[:7]]
    maker.write_text("\n".join([*rest, line, ""]), encoding="utf-8")

    assert run(shop_folder, "check") == 1
    assert not_a_market("XX") in capsys.readouterr().out


def test_an_unknown_market_is_refused_on_the_command_line(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sell_in(shop_folder, "GB")

    assert run(shop_folder, "papers", "labels", "WG-20=1", "--stock", "boxes", "--market", "XX") == 2
    assert f"--market {not_a_market('XX')}" in capsys.readouterr().err


def test_an_unknown_market_is_refused_in_an_issued_sheet(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(shop_folder, "issue", "WG-20", "--reason", "first")
    ledger = shop_folder / "sheets" / "WG-20.yaml"
    ledger.write_text(ledger.read_text(encoding="utf-8").replace("- GB\n", "- XX\n"), encoding="utf-8")
    capsys.readouterr()

    assert run(shop_folder, "check") == 1
    assert not_a_market("XX") in capsys.readouterr().out

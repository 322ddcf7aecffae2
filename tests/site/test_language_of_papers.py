"""In which language labels and sheets come out of the printer: that of their market, or the one that was asked for."""

from pathlib import Path

import pytest

from generator.cli import main
from generator.commands.labelled import sizes_of
from generator.documents.papers.label_layout import Printing
from generator.documents.papers.label_text import Labelled, label_paper, label_value
from generator.ledgers.sheet import sheet_value
from generator.making.presentation import language_pack
from generator.reading.languages import label_languages, words_of
from tests.conftest import TODAY
from tests.documents.sample_house import MAKER, SKIN_AND_EYES, size
from tests.documents.set_in_type import set_one
from tests.documents.test_labels import ROLL
from tests.example.trade import sell_to_the_trade
from tests.site.paper_tools import language_of, text_of
from tests.site.test_label_orders import STOCK

LABELLED = size(hazards={"GB": SKIN_AND_EYES, "EU": SKIN_AND_EYES, "US": None})
SAID = sheet_value(LABELLED.recorded, LABELLED.facts, MAKER)


def run(shop: Path, *words: str) -> int:
    return main([*words, "--content", str(shop), "--output", str(shop.parent / "output")])


def labels(shop: Path, *words: str) -> int:
    return run(shop, "papers", "labels", "WG-20=1", "--stock", "boxes", "--blank-lot", *words)


def printed(shop: Path, name: str) -> bytes:
    return (shop.parent / "output" / "workshop" / "papers" / name).read_bytes()


@pytest.fixture(name="abroad")
def _abroad(shop_folder: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """The small shop speaking German and selling in the EU too, with labels and an issued sheet."""
    maker = shop_folder / "maker.yaml"
    written = (
        maker.read_text(encoding="utf-8")
        .replace("markets: [GB]", "markets: [GB, EU]")
        .replace("language: en", "language: de")
    )
    contact = "eu_contact: {name: Quai Est, address: [1 quai Est, Port-Lannec], email: eu@ferry-lane.example}"
    maker.write_text(f"{written}{contact}\n", encoding="utf-8")
    (shop_folder / "label-stock").mkdir()
    (shop_folder / "label-stock" / "boxes.yaml").write_text(
        STOCK.replace("67.7 mm}\n", "93 mm}\n").replace("rows: 4", "rows: 2"), encoding="utf-8"
    )
    run(shop_folder, "issue", "WG-20", "--reason", "first")
    capsys.readouterr()
    return shop_folder


@pytest.mark.parametrize(("market", "language"), [("EU", "de"), ("GB", "en")])
def test_a_label_speaks_the_language_of_its_market(abroad: Path, market: str, language: str) -> None:
    assert labels(abroad, "--market", market) == 0

    data = printed(abroad, f"labels/warning-{market}-boxes.pdf")
    assert words_of(language)["labels"]["catches"] in text_of(data)
    assert language_of(data) == language


def test_the_maker_says_which_languages_a_market_reads(abroad: Path) -> None:
    maker = abroad / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8") + "label_languages: {EU: [fr, it]}\n", encoding="utf-8"
    )

    assert labels(abroad, "--market", "EU") == labels(abroad, "--market", "EU", "--language", "it") == 0

    usual, other = (printed(abroad, f"labels/warning-{one}-boxes.pdf") for one in ("EU", "EU-it"))
    assert (language_of(usual), language_of(other)) == ("fr", "it")


def test_a_sheet_is_printed_in_another_language_from_the_same_revision(abroad: Path) -> None:
    assert run(abroad, "papers", "sheets", "WG-20") == 0
    assert run(abroad, "papers", "sheets", "WG-20", "--language", "fr") == 0

    own, other = (printed(abroad, f"safety/WG-20-a4{ending}.pdf") for ending in ("", "-fr"))
    assert (language_of(own), language_of(other)) == ("de", "fr")
    assert words_of("de")["safety"]["signal_line"] in text_of(own)
    assert words_of("fr")["safety"]["flares_3"] in text_of(other)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("labels", "WG-20=1", "--stock", "boxes", "--blank-lot"),
            "there are no labels in the language 'pl'",
        ),
        (
            ("sheets",),
            "there are no sheets in the language 'pl'. No paper was written. Write one of: de, en, fr",
        ),
    ],
    ids=["labels", "sheets"],
)
def test_a_language_without_words_is_told(
    abroad: Path, words: tuple[str, ...], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(abroad, "papers", *words, "--language", "pl") == 2

    assert told in capsys.readouterr().err


def test_commands_speak_english_whatever_the_papers_speak(
    abroad: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    maker = abroad / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("language: de", "language: fr"), encoding="utf-8"
    )

    assert run(abroad, "build") == run(abroad, "explain", "WG-20") == 0

    told = capsys.readouterr().out
    assert "changes since revision 1 of 1 November 2026" in told
    assert words_of("en")["figure_labels"]["heel"] in told
    page = (abroad.parent / "output" / "workshop" / "changes.html").read_text(encoding="utf-8")
    assert "changements depuis la version 1 du 1er\u00a0novembre 2026" in page


def test_a_trade_buyer_reads_its_own_language_or_else_the_maker_s(abroad: Path) -> None:
    sell_to_the_trade(abroad)
    buyers = abroad / "trade" / "buyers.yaml"
    buyers.write_text(buyers.read_text(encoding="utf-8") + "  language: fr\n", encoding="utf-8")

    assert run(abroad, "papers", "order", "quay-stores") == run(abroad, "papers", "order", "lamp-room") == 0

    tables = abroad.parent / "output" / "workshop" / "trade"
    first, last = (
        (tables / f"{one}.csv").read_text(encoding="utf-8") for one in ("quay-stores", "lamp-room")
    )
    assert words_of("de")["trade_hours"]["untested"] in first
    assert words_of("fr")["trade_hours"]["untested"] in last


@pytest.mark.parametrize("language", label_languages())
def test_everything_on_a_label_is_in_one_language(language: str) -> None:
    speech = language_pack(language)
    wanted = Labelled(
        said=SAID,
        market="EU",
        lot="SM-30-2026305-K7QX",
        address=None,
        sizes=sizes_of(LABELLED, "EU", ROLL, TODAY),
        scented=True,
    )
    around = {"market": "EU", "title": "x", "house": "Saltmarsh", "language": language, "dated": "2026-11-01"}
    made = label_value("warning", wanted, speech)

    data = set_one(label_paper("warning", Printing(stock=ROLL), [(made, 1)], around))

    text = text_of(data)
    assert speech.wording.signal_words["Warning"] in text
    assert speech.words["labels"]["alone"] in text
    assert speech.words["labels"]["trim"].partition("{")[0] in text
    assert language_of(data) == language

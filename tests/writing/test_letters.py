"""The letters that papers have: what the tables promise is in the typefaces, and comes out of the typesetter again."""

import unicodedata
from collections.abc import Iterator, Sequence
from functools import partial
from string import whitespace

import pypdfium2
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from generator.document import Document
from generator.documents.papers.label_text import CAPITAL_EM, SMALL_LETTER_EM
from generator.letters import OF_THE_FIRST, spelled, unprintable
from generator.model.words import Text
from generator.writing.pdf import TYPEFACES, Press, press
from generator.writing.themes import Theme
from tests.conftest import MANY, PROJECT
from tests.writing.freeze_letters import faces, letters_of_all, letters_of_the_first, ranges

EVERYTHING = tuple(filter(partial(unicodedata.is_normalized, "NFC"), map(chr, range(0x110000))))
LETTERS = tuple(sorted(set(EVERYTHING) - set(unprintable("\n".join(EVERYTHING))) - set(whitespace)))
ONE_TO_A_PAGE = """
#import "parts/typeface.typ": typeface
#let value = json(bytes(sys.inputs.value))
#set document(title: "Letters")
#set page(width: 900pt, height: 40pt, margin: 5pt)
#set text(font: typeface, lang: "en", size: 10pt, weight: value.weight, hyphenate: false)
#for one in value.said { block(one) + pagebreak(weak: true) }
"""
TEXT: TypeAdapter[str] = TypeAdapter(Text)

GREEK = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩΆΈΉΊΌΎΏΪΫαβγδεζηθικλμνξοπρσςτυφχψωάέήίόύώϊϋΐΰ"
CYRILLIC = (
    "АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯабвгдежзийклмнопрстуфхцчшщъыьэюяЁёЂђЃѓЄєЅѕІіЇїЈјЉљЊњЋћЌќЎўЏџҐґЀѐЍѝ"
)
LATIN = (
    "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿĀāĂăĄąĆćĈĉĊċČčĎďĐđĒēĔĕĖėĘęĚěĜĝĞğĠġĢģĤĥĦħĨĩĪīĬĭĮįİıIJij"
    "ĴĵĶķĸĹĺĻļĽľĿŀŁłŃńŅņŇňʼnŊŋŌōŎŏŐőŒœŔŕŖŗŘřŚśŜŝŞşŠšŢţŤťŦŧŨũŪūŬŭŮůŰűŲųŴŵŶŷŸŹźŻżŽžȘșȚțẞẀẁẂẃẄẅỲỳḂḃẠạẢảẤấỆệỘộ"
)
SIGNS = "₀₁₂₃₄₅₆₇₈₉₊₋₌₍₎ₓₙ⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻ⁿ←↑→↓↔⇒♥♡★☆✓✗●○■□▲▼◆♪⚠☀°±×÷·•…–—‘’“”„«»‹›½⅓⅔¼¾⅛′″№€£$¥₽₴₺™®©§¶†‡‰µΩ∞≈≠≤≥√⌀℃ℓ℮"


def leaves(letters: Sequence[str], machine: Press, weight: int = 400) -> list[str]:
    """What is read from the page of each text, without the spaces that a reader of pages guesses at."""
    document = Document(
        path="p.pdf",
        template="papers/p.typ",
        value={"dated": "2026-11-01", "said": tuple(letters), "weight": weight},
    )
    data = machine.set(document)
    assert isinstance(data, bytes)
    return [bare(page.get_textpage().get_text_range()) for page in pypdfium2.PdfDocument(data)]


def bare(text: str) -> str:
    """A text without spaces, its ligatures in letters, as a reader of pages gives it back."""
    return "".join(unicodedata.normalize("NFKC", text).split())


@pytest.fixture(name="machine", scope="module")
def _machine(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Press]:
    folder = tmp_path_factory.mktemp("theme")
    (folder / "papers").mkdir()
    (folder / "papers" / "p.typ").write_text(ONE_TO_A_PAGE, encoding="utf-8")
    with press(Theme(name="t", folders=(folder, PROJECT / "themes" / "netloft"))) as machine:
        yield machine


def test_the_typefaces_have_every_letter_of_the_table() -> None:
    assert set(LETTERS) - letters_of_all() == set()


def test_the_first_typeface_is_asked_for_its_own_letters_but_greek() -> None:
    points = [f"\\u{{{point.lower()}}}" for point in ranges(letters_of_the_first()).replace("-", " ").split()]

    assert OF_THE_FIRST.strip("[]").replace("-", "").replace("}\\", "} \\").split() == points


@pytest.mark.parametrize("weight", [400, 700], ids=["regular", "bold"])
def test_every_letter_of_the_table_is_printed(machine: Press, weight: int) -> None:
    said = [f"a{letter}z" for letter in LETTERS]

    assert leaves(said, machine, weight) == [bare(one) for one in said]


@pytest.mark.parametrize(
    "letters", [GREEK, CYRILLIC, LATIN, SIGNS], ids=["Greek", "Cyrillic", "Latin", "signs"]
)
def test_makers_and_data_sheets_find_their_letters(letters: str) -> None:
    assert unprintable(letters) == ()


@pytest.mark.parametrize(
    "text",
    [
        *("🌧", "♥\N{VARIATION SELECTOR-16}", "漢", "שלום", "سلام", "x\N{ZERO WIDTH SPACE}", "\N{SOFT HYPHEN}"),
        *("X\N{COMBINING MACRON}", "\N{COMBINING ACUTE ACCENT}", "\u2028", "\x85", "\x07", "\ue000", "�"),
    ],
    ids=ascii,
)  # fmt: skip
def test_what_has_no_shape_of_its_own_or_no_typeface_is_refused_by_name(text: str) -> None:
    with pytest.raises(ValidationError, match=r"U\+[0-9A-F]{4,6} [a-z0-9-]+.*, which no paper can print"):
        TEXT.validate_python(f"a {text} b")


def test_a_mark_that_makes_one_letter_with_its_base_is_printed_as_that_letter(machine: Press) -> None:
    apart = unicodedata.normalize("NFD", "Ångström, Łódź, Ĝis, Ἀθῆναι, Тайёр")

    assert unprintable(apart) == ()
    assert leaves([apart], machine) == [bare(apart)]


@pytest.mark.parametrize("letters", ["αβγδ", "ЖИЗН", "₂₃₄₅", "→→→→", "⌀⌀⌀⌀"], ids=ascii)
def test_bold_comes_out_bold(machine: Press, letters: str) -> None:
    assert ink(letters, machine, 700) > 1.1 * ink(letters, machine, 400)


def ink(letters: str, machine: Press, weight: int) -> float:
    """How much of the page is covered."""
    document = Document(
        path="p.pdf",
        template="papers/p.typ",
        value={"dated": "2026-11-01", "said": (letters,), "weight": weight},
    )
    data = machine.set(document)
    assert isinstance(data, bytes)
    picture = pypdfium2.PdfDocument(data)[0].render(scale=4, grayscale=True).to_pil()
    return float(sum(255 - shade for shade in picture.tobytes()))


def test_no_typeface_is_smaller_than_the_one_that_labels_are_measured_by() -> None:
    for package in TYPEFACES:
        for name, face in faces(package):
            em, table = face["head"].unitsPerEm, face["OS/2"]
            assert table.sCapHeight / em >= CAPITAL_EM - 0.001, name
            assert table.sxHeight / em >= SMALL_LETTER_EM - 0.001, name


@settings(max_examples=MANY, suppress_health_check=[HealthCheck.too_slow])
@given(
    said=st.lists(
        st.text(min_size=1, max_size=12) | st.text(st.sampled_from(LETTERS), max_size=12), min_size=20
    )
)
@example(said=["α-Pinene", "H₂O", "♥", "→", "a\u0308\u0323b", "Ж\u0301", "x\tx", "ﬁ"])
def test_any_text_is_refused_or_printed_and_never_in_between(machine: Press, said: list[str]) -> None:
    accepted = [text for each in said if (text := _accepted(each)) is not None]

    assert leaves(accepted, machine) == [bare(text) for text in accepted] or not accepted


@settings(max_examples=MANY, suppress_health_check=[HealthCheck.too_slow])
@given(said=st.lists(st.text(min_size=1, max_size=8).filter(str.strip), min_size=1, max_size=40))
def test_any_text_at_all_is_printed_once_it_was_issued(machine: Press, said: list[str]) -> None:
    assert leaves(said, machine) == [bare(spelled(text)) for text in said]


def _accepted(text: str) -> str | None:
    try:
        return TEXT.validate_python(text)
    except ValidationError:
        return None

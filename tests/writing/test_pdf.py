"""Setting type: exact, the same bytes again, and nothing missing or cut off in silence."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from generator.document import Document, Value
from generator.writing.pdf import Press, Refused, TooLarge, press
from generator.writing.templates import TemplateFault
from generator.writing.themes import Theme
from tests.site.paper_tools import page_sizes_mm, text_of

HEAD = """
#let value = json(bytes(sys.inputs.value))
#set document(title: "A paper")
#set page(width: 50mm, height: 80mm, margin: 5mm)
#set text(font: "Atkinson Hyperlegible", lang: "en", size: 8pt)
"""


def paper(**said: Value) -> Document:
    return Document(
        path="workshop/p.pdf", template="papers/p.typ", value={"dated": "2026-11-01", "said": "Salt", **said}
    )


def theme(folder: Path, body: str, head: str = HEAD) -> Theme:
    (folder / "papers").mkdir(parents=True)
    (folder / "papers" / "p.typ").write_text(head + body, encoding="utf-8")
    return Theme(name="t", folders=(folder,))


@pytest.fixture(name="machine")
def _machine(tmp_path: Path) -> Iterator[Press]:
    with press(theme(tmp_path, "= #value.said")) as machine:
        yield machine


def test_a_paper_measures_what_its_template_says(machine: Press) -> None:
    data = machine.set(paper())

    assert isinstance(data, bytes)
    assert page_sizes_mm(data) == [(50.0, 80.0)]


def test_a_paper_says_which_standards_it_keeps_to(machine: Press) -> None:
    data = machine.set(paper())

    assert isinstance(data, bytes)
    assert b"<pdfuaid:part>1<" in data
    assert (b"<pdfaid:part>2<" in data, b"<pdfaid:conformance>A<" in data) == (True, True)


def test_the_same_value_gives_the_same_bytes_from_another_press_and_on_another_thread(tmp_path: Path) -> None:
    chosen = theme(tmp_path, "= #value.said")

    with press(chosen) as first, press(chosen) as second, ThreadPoolExecutor(2) as threads:
        made = [first.set(paper()), second.set(paper()), *threads.map(first.set, [paper()] * 4)]

    assert len(set(made)) == 1


def test_a_value_is_printed_as_it_stands_and_never_read_as_markup(machine: Press) -> None:
    data = machine.set(paper(said="#evil[] $x$ *b* @preview/x"))

    assert isinstance(data, bytes)
    assert text_of(data) == "#evil[] $x$ *b* @preview/x"


def test_a_letter_that_papers_lack_is_printed_by_its_name(machine: Press) -> None:
    data = machine.set(paper(said="Wet Garden 🌧"))

    assert isinstance(data, bytes)
    assert text_of(data) == "Wet Garden [U+1F327 cloud with rain]"


def test_a_template_that_names_one_typeface_prints_the_letters_of_the_others(machine: Press) -> None:
    data = machine.set(paper(said="α-Pinene, Жизнь → ⌀ 30"))

    assert isinstance(data, bytes)
    assert text_of(data) == "α-Pinene, Жизнь → ⌀ 30"


def test_a_part_that_has_too_little_room_is_named_with_both_measures(tmp_path: Path) -> None:
    body = '= Sheet\n#metadata((part: "SS-30", needs_mm: 41.8, has_mm: 29.9)) <too-large>'

    with press(theme(tmp_path, body)) as machine:
        refused = machine.set(paper())

    assert refused == Refused(
        path="workshop/p.pdf", too_large=(TooLarge(part="SS-30", needs_mm=41.8, has_mm=29.9),)
    )


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("= #value.missing", "missing"),
        ('= A\n#image(bytes("<svg xmlns=\'http://www.w3.org/2000/svg\'/>"), format: "svg")', "alt"),
        ('= A\n#text(font: "No Such Face")[b]', "unknown font family"),
    ],
    ids=["a key that the value lacks", "a picture without words", "a typeface that is not there"],
)
def test_a_slip_of_a_template_is_the_programs_fault(tmp_path: Path, body: str, told: str) -> None:
    with (
        press(theme(tmp_path, body)) as machine,
        pytest.raises(TemplateFault, match=rf"(?s)papers/p\.typ.*{told}"),
    ):
        machine.set(paper())


def test_a_template_may_not_fetch_anything(tmp_path: Path) -> None:
    fetching = theme(tmp_path, '#import "@preview/x:1.0.0"\n= A')

    with pytest.raises(TemplateFault, match="may not fetch packages"), press(fetching):
        pass


def test_the_nearest_theme_gives_the_template(tmp_path: Path) -> None:
    near, far = theme(tmp_path / "near", "= Near"), theme(tmp_path / "far", "= Far")

    with press(Theme(name="t", folders=near.folders + far.folders)) as machine:
        data = machine.set(paper())

    assert isinstance(data, bytes)
    assert text_of(data) == "Near"


def test_a_breakdown_of_the_typesetter_is_a_fault_of_the_template(
    machine: Press, monkeypatch: pytest.MonkeyPatch
) -> None:
    class PanicException(BaseException):
        """As the library names it."""

    class Broken:
        def compile_with_warnings(self, **_words: object) -> None:
            raise PanicException

    monkeypatch.setattr(Press, "_compiler", lambda _press, _template: Broken())

    with pytest.raises(TemplateFault, match="crashed on this template"):
        machine.set(paper())


def test_a_long_diagnosis_is_cut(tmp_path: Path) -> None:
    with press(theme(tmp_path, "#let x = )\n" * 3_000)) as machine, pytest.raises(TemplateFault) as raised:
        machine.set(paper())

    assert len(str(raised.value)) < 5_000

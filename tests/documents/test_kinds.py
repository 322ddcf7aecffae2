"""Every kind has all that its row names; one that is pretended here tells, name by name, what it would still lack."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final, cast

import pytest

from generator.commands.labelled import sizes_of
from generator.documents.house import House, SizeOf
from generator.documents.pages.candle_page import candle_page
from generator.documents.pages.catalogue import home_page
from generator.documents.pages.safety import safety_page
from generator.documents.pages.trade_sheet import trade_sheet, trade_table
from generator.documents.papers.bench_sheet import bench_papers
from generator.documents.papers.label_text import Labelled, label_value
from generator.documents.papers.officer_file import makers_file
from generator.documents.papers.printed_sheets import papers_today
from generator.facts.work_out import work_out
from generator.ledgers.record import record_of
from generator.ledgers.sheet import sheet_value
from generator.making.options import CommandOptions
from generator.model.formats import Fill
from generator.model.kinds import KINDS, Kind, KindSentences, KindTraits
from generator.model.recorded import Recorded
from generator.problems import Severity
from generator.reading.languages import FIRST, label_languages, words_of
from generator.rules.wax.geometry import height_mm
from tests.conftest import TODAY
from tests.documents.sample_house import MAKER, RECORDED, ROOT, WORDS, house, speech_in
from tests.documents.set_in_type import set_one
from tests.documents.test_labels import ROLL
from tests.loaded import loaded_shop
from tests.site.paper_tools import page_sizes_mm

PRETENDED = KindTraits(
    has_flame=True,
    takes_wick=True,
    stands_in="nothing",
    has_stop_line=False,
    core=("alone", "catches", "reach"),
    signs=("trim", "session", "draught", "dish", "snuff", "apart", "water"),
    emergencies=("flares", "topples"),
    first_aid=("smoking", "skin"),
    care=("trim", "session", "dish", "catches", "reach"),
    care_beside={"dish": "dish_beside"},
    customs_heading="3406",
    sentences=KindSentences(
        search="kind_pillar",
        inside="across",
        inside_of="across_and_high",
        plate_text="plate_text_pillar",
        description="description_pillar",
        heading="heading",
        signal_line="signal_line_pillar",
        every_time="every_time",
        advice_note="advice_note_pillar",
        no_hours="hours_unsaid",
        trouble="trouble_pillar",
        identity="identity_pillar",
        never_lit=None,
    ),
)
"""A flame without a container: what the recipe of DEVELOPERS.md begins with."""

OWN_TO_A_SUBJECT: Mapping[str, tuple[str, ...]] = {
    "catalogue": ("search",),
    "candle": ("inside", "inside_of", "plate_text"),
    "safety": ("description", "heading", "signal_line", "every_time", "advice_note"),
    "trade": ("no_hours",),
    "labels": ("trouble", "identity", "never_lit"),
}
CANDLE = replace(RECORDED, build=replace(RECORDED.build, fill=Fill(weight_g=250.0)))
MELT = replace(
    CANDLE, kind=Kind.MELT, stock_code="SM-SB", size_name="Snap bar", build=replace(CANDLE.build, wicks=())
)
FREE = replace(
    CANDLE,
    kind=Kind.PILLAR,
    stock_code="SM-PB",
    size_name="Broad",
    build=replace(CANDLE.build, container=None),
)

LACKED: Final = frozenset({
    "catalogue.kind_pillar",
    "candle.across", "candle.across_and_high", "candle.plate_text_pillar",
    "care.dish", "care.dish_beside",
    "safety.description_pillar", "safety.signal_line_pillar", "safety.advice_note_pillar", "safety.dish_sign",
    "safety.topples", "safety.topples_1", "safety.topples_2", "safety.topples_3", "safety.topples_4",
    "labels.trouble_pillar", "labels.identity_pillar", "labels.identity_pillar_unscented",
})  # fmt: skip
"""What nobody wrote for the pretended kind."""

OF_ANY_KIND: Final = frozenset({
    "burn_test_columns.vessel_max_c",
    "candle.plate_title", "candle.size_drawn",
    "figure_sources.shape",
})  # fmt: skip
"""Sentences with a vessel in them, or in the name of what is filled in, that are said of every kind."""


def sentences(kind: KindTraits) -> Iterator[tuple[str, str]]:
    """Every sentence that a row asks for, as subject and key."""
    for subject, columns in OWN_TO_A_SUBJECT.items():
        named = (getattr(kind.sentences, column) for column in columns)
        yield from ((subject, key) for key in named if key is not None)
    yield "labels", f"{kind.sentences.identity}_unscented"
    for name in kind.core:
        yield from (("safety", name), ("labels", name))
    yield from (("safety", f"{name}_sign") for name in kind.signs)
    for name in kind.emergencies:
        yield from (("safety", name), *(("safety", f"{name}_{step}") for step in range(1, 5)))
    yield from (("safety", name) for name in kind.first_aid)
    yield from (("care", name) for name in kind.care)
    yield from (("care", name) for name in kind.care_beside.values())


def lacking(kind: KindTraits) -> list[str]:
    """What a row names and nobody wrote or drew yet."""
    found = []
    for language in label_languages():
        words = words_of(language)
        found += [
            f"{language}: {subject}.{key}"
            for subject, key in sentences(kind)
            if subject in words and key not in words[subject]
        ]
    signs = dict.fromkeys((*kind.core, *kind.signs, *kind.care))
    drawn = {path.stem for path in (ROOT / "themes/netloft/parts/pictograms").glob("*.svg")}
    return [*found, *(f"{sign}.svg" for sign in signs if sign not in drawn)]


class Noting(dict[str, str]):
    """The sentences of a subject, noting which are asked for; one that is lacking reads as its key."""

    def __init__(self, subject: str, known: Mapping[str, str], noted: dict[str, str | None]) -> None:
        super().__init__(known)
        self.subject, self.noted = subject, noted

    def __getitem__(self, key: str) -> str:
        self.noted[f"{self.subject}.{key}"] = self.get(key)
        return self.get(key, key)


def sold(recorded: Recorded) -> SizeOf:
    """What is worked out of a record."""
    facts = work_out(recorded).facts
    assert facts is not None
    return SizeOf(recorded=recorded, facts=facts, key=repr(recorded))


def label_values(one: SizeOf, shop: House) -> Iterator[Mapping[str, Any]]:
    """What each sort of label says in each market, scented and not."""
    for market in MAKER.markets:
        for scented in (True, False):
            wanted = Labelled(
                said=sheet_value(one.recorded, one.facts, MAKER), market=market, lot=None, address=None,
                sizes=sizes_of(one, market, ROLL, TODAY), scented=scented,
            )  # fmt: skip
            yield label_value("warning", wanted, shop.speech)
            yield label_value("product", wanted, shop.speech)


def asked_for(*recorded: Recorded) -> Mapping[str, str | None]:
    """Every sentence that pages and papers ask for, with its words, None where it is lacking."""
    noted: dict[str, str | None] = {}
    words = {subject: Noting(subject, known, noted) for subject, known in WORDS.items()}
    one, *others = map(sold, recorded)
    shop = replace(house(one, *others), speech=speech_in(FIRST, words))
    candle_page(shop, shop.scents[0])
    home_page(shop)
    trade_sheet(shop)
    trade_table(shop)
    safety_page(shop, one)
    safety_page(replace(shop, drafts=False), one)
    makers_file(shop, one, (), {})
    tuple(bench_papers(shop, one))
    tuple(label_values(one, shop))
    tuple(papers_today(shop, one))
    return noted


def lacked(noted: Mapping[str, str | None]) -> set[str]:
    return {name for name, said in noted.items() if said is None}


@pytest.fixture(name="pretended")
def _pretended(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(cast("dict[Kind, KindTraits]", KINDS), Kind.PILLAR, PRETENDED)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: str(kind.value))
def test_a_kind_has_every_sentence_in_every_language_and_every_sign(kind: Kind) -> None:
    assert lacking(KINDS[kind]) == []


@pytest.mark.parametrize("traits", KINDS.values(), ids=[kind.value for kind in KINDS])
def test_what_a_row_says_of_flame_and_container_agrees(traits: KindTraits) -> None:
    """A stop line is advised for containers (standards.md B6)."""
    said = traits.sentences

    assert traits.has_flame == traits.takes_wick == (said.never_lit is None) == (said.advice_note is not None)
    assert not traits.has_stop_line or (traits.has_flame and traits.stands_in == "container")
    assert set(traits.care_beside) <= set(traits.care)
    assert len(traits.core) == len(KINDS[Kind.CONTAINER].core)


@pytest.mark.parametrize("recorded", [CANDLE, MELT], ids=["a candle", "a melt"])
def test_papers_ask_for_no_sentence_that_is_lacking(recorded: Recorded) -> None:
    assert lacked(asked_for(recorded)) == set()


@pytest.mark.usefixtures("pretended")
def test_the_pretended_kind_tells_all_that_is_missing_in_each_language() -> None:
    everywhere = {f"{language}: {name}" for language in ("de", "en", "fr") for name in LACKED}
    on_labels = {
        f"{language}: {name}"
        for language in ("es", "it", "nl", "sv")
        for name in LACKED
        if name.startswith("labels.")
    }

    assert set(lacking(PRETENDED)) == everywhere | on_labels | {"dish.svg"}


@pytest.mark.usefixtures("pretended")
def test_pages_and_papers_ask_for_nothing_that_its_row_does_not_name() -> None:
    assert lacked(asked_for(FREE)) == LACKED - {"care.dish_beside"}
    assert lacked(asked_for(FREE, CANDLE)) == LACKED - {"care.dish"}


@pytest.mark.usefixtures("pretended")
def test_a_candle_without_a_container_is_told_nothing_of_a_vessel() -> None:
    spoken = {name for name, said in asked_for(FREE).items() if said and "vessel" in said.lower()}

    assert spoken == OF_ANY_KIND


@pytest.mark.usefixtures("pretended")
def test_its_sheet_has_longest_burn_trim_and_cautions_and_no_stop_line() -> None:
    one = sold(FREE)
    words = {subject: Noting(subject, known, {}) for subject, known in WORDS.items()}
    page: Any = safety_page(replace(house(one), speech=speech_in(FIRST, words)), one).value

    assert [number["figure"] for number in page["numbers"]] == ["4 h", "6 mm"]
    assert [sign["sign"] for sign in page["core"]] == list(PRETENDED.core)
    assert [sign["sign"] for sign in page["signs"]] == list(PRETENDED.signs)
    assert [len(one["steps"]) for one in page["emergencies"]] == [4, 4]
    assert (page["drawing"], "Stop at" in page["advice"]["heads"]) == (None, False)
    assert page["made_as"] == "Net weight: 249 g · 8.7 oz (249 g), Flat braid 9"
    assert page["first_burn"] == safety_page(house(sold(CANDLE)), sold(CANDLE)).value["first_burn"]
    assert "about" in page["burn_hours"]


def test_its_sheet_without_a_drawing_of_a_stop_line_is_one_page(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn = replace(PRETENDED, signs=KINDS[Kind.CONTAINER].signs)
    monkeypatch.setitem(cast("dict[Kind, KindTraits]", KINDS), Kind.PILLAR, drawn)
    one = sold(FREE)
    words = {subject: Noting(subject, known, {}) for subject, known in WORDS.items()}

    data = set_one(next(iter(papers_today(replace(house(one), speech=speech_in(FIRST, words)), one))))

    assert len(page_sizes_mm(data)) == 1


@pytest.mark.usefixtures("pretended")
def test_its_record_tells_the_shape_where_no_container_does() -> None:
    free, standing = record_of(FREE)["build"], record_of(CANDLE)["build"]

    assert isinstance(free, dict)
    assert isinstance(standing, dict)
    assert ("vessel" in free, "shape" in free) == (False, True)
    assert ("vessel" in standing, "shape" in standing) == (True, False)


@pytest.mark.usefixtures("pretended")
def test_a_shop_may_write_it_once_it_has_a_row(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    """What it is poured into gives its shape and stays behind: no word of its weight, its lid or its cracks."""
    known = loaded_shop(ask(written_as(shop_folder, "pillar")))

    ((gathered, facts),) = known.facts
    assert [str(problem) for problem in known.problems] == []
    assert gathered.recorded.build.container is None
    assert (facts.container, facts.stop_depth_mm, facts.heel_g) == (None, None, 0.0)
    assert facts.shape.depth_mm == height_mm(gathered.recorded.build.shape.inside)
    assert None not in (facts.burn_hours, facts.first_burn_h, facts.session_limit_h, facts.wick)
    assert {one.stop_at for one in facts.advice.values()} == {None}


def written_as(shop: Path, kind: str) -> Path:
    """The first shop with its candle as another kind."""
    entry = shop / "candles" / "wet-garden.yaml"
    text = entry.read_text(encoding="utf-8")
    entry.write_text(
        text.replace("kind: container", f"kind: {kind}\n    looks_like_food: no"), encoding="utf-8"
    )
    return shop


@pytest.mark.parametrize(
    "kind", [kind for kind in Kind if kind not in KINDS], ids=lambda kind: str(kind.value)
)
def test_a_kind_without_a_row_is_refused_in_one_sentence(
    kind: Kind, shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    known = loaded_shop(ask(written_as(shop_folder, kind.value)))

    (error,) = (problem for problem in known.problems if problem.severity is Severity.ERROR)
    assert error.what == f"kind '{kind.value}' is not supported yet"

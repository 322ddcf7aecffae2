"""Labels: what is stuck under a candle and on its front, for one market and in one language each."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from generator.document import Document, Value
from generator.documents.hazard_labels import hazard_label
from generator.documents.house import LanguagePack, Words
from generator.documents.papers.label_layout import Printing, laid_out, on_stock, short
from generator.documents.printed import SPACE, emergency_number, measured
from generator.ledgers.sheet import Sheet, kind_of, part_of, speaker_of, text_of, texts_of
from generator.model.markets import MARKETS, Market

LabelKind = Literal["warning", "product"]

CAPITAL_EM: Final = 0.668
SMALL_LETTER_EM: Final = 0.496
"""Height of capitals and of the small x in the typeface of the papers, in em (its table OS/2; a test reads it)."""

CODE_MODULE_MM: Final = 0.3
"""The side of one module of a code, however long its address is. (CHOICE; read back at 300 dpi by a test)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSizes:
    """The least heights on one label: of capitals, of the small x where a rule names it, of figures and of signs."""

    signal_mm: float
    statement_mm: float
    other_mm: float
    hazard_small_letter_mm: float | None
    sign_mm: float
    diamond_least_mm: float
    diamond_mm: float
    quantity_mm: float
    quantity_of_small_letters: bool
    quantity_stands_low: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Labelled:
    """One stock code on one kind of label: what its sheet says, for whom, its lot, and where its code leads.

    ``lot`` is None where a field is left empty, ``address`` where the house has no site; ``is_proof`` where the label
    lacks what its market asks for, and may be looked at but not used.
    """

    said: Sheet
    market: Market
    lot: str | None
    address: str | None
    sizes: LabelSizes
    scented: bool
    artwork: str | None = None
    is_proof: bool = False


def label(kind: LabelKind, one: Labelled, speech: LanguagePack) -> Mapping[str, Value]:
    """Everything that stands on one label."""
    words = speech.words["labels"]
    shared = {
        "kind": kind,
        "name": text_of(one.said, "stock_code"),
        "quantity": _quantity(one, speech.words),
        "artwork": one.artwork,
        "proof": words["proof"] if one.is_proof else None,
    }
    return {**shared, **(_warning(one, speech) if kind == "warning" else _product(one, words))}


def label_paper(
    kind: LabelKind,
    printing: Printing,
    labels: Sequence[tuple[Mapping[str, Value], int]],
    around: Mapping[str, Value],
) -> Document:
    """Labels on their sheets, each so many times; ``around`` holds market, title, house, language and day."""
    codes = dict.fromkeys(one["code"] for one, _ in labels if kind == "warning" and one["code"] is not None)
    return Document(
        path=f"{kind}-{around['market']}-{printing.stock.id}.pdf",
        template="papers/labels.typ",
        value={
            **around,
            **on_stock(printing),
            "pages": laid_out(printing, [count for _, count in labels]),
            "labels": tuple(one for one, _ in labels),
            "codes": tuple(codes),
        },
    )


def _warning(one: Labelled, speech: LanguagePack) -> dict[str, Value]:
    words, said, sizes = speech.words["labels"], one.said, one.sizes
    sentences = kind_of(said).sentences
    small_mm = sizes.hazard_small_letter_mm
    hazard_em_mm = max(sizes.statement_mm / CAPITAL_EM, (small_mm or 0.0) / SMALL_LETTER_EM)
    return {
        "signal": words["signal"],
        "core": tuple(
            {"sign": name, "words": words[name]} for name in texts_of(part_of(said, "warnings"), "core")
        ),
        "figures": (words[sentences.never_lit],)
        if sentences.never_lit
        else tuple(_figures(one, speech.words)),
        "emergency": (words[sentences.trouble].format(number=emergency_number(one.market, speech.words)),),
        "hazards": _hazards(one, speech),
        "names": words["names"].format(
            **{key: text_of(said, key) for key in ("scent", "size", "stock_code")}
        ),
        "people": tuple(_people(one, words)),
        "lot": {"label": words["lot"], "code": one.lot},
        "code": one.address,
        "sizes": {
            "signal": short(sizes.signal_mm / CAPITAL_EM),
            "statement": short(sizes.statement_mm / CAPITAL_EM),
            "other": short(sizes.other_mm / CAPITAL_EM),
            "hazard": short(hazard_em_mm),
            "quantity": _quantity_em(one, on_front=False),
            "sign": short(sizes.sign_mm),
            "diamond": short(sizes.diamond_mm),
            "diamond_least": short(sizes.diamond_least_mm),
            "module": short(CODE_MODULE_MM),
        },
    }


def _product(one: Labelled, words: Mapping[str, str]) -> dict[str, Value]:
    identity = kind_of(one.said).sentences.identity
    other_em_mm = one.sizes.other_mm / CAPITAL_EM
    return {
        "scent": text_of(one.said, "scent"),
        "identity": words[identity if one.scented else f"{identity}_unscented"],
        "maker": speaker_of(one.said),
        "low": one.sizes.quantity_stands_low,
        "code": None,
        "sizes": {
            "scent": short(4 * other_em_mm),
            "identity": short(2.2 * other_em_mm),
            "maker": short(2.2 * other_em_mm),
            "quantity": _quantity_em(one, on_front=True),
        },
    }


def _quantity(one: Labelled, words: Words) -> str | None:
    """The net quantity where it is proven; an estimate never stands on a label."""
    quantity = text_of(part_of(one.said, "net_quantity"), one.market)
    if quantity is None or text_of(one.said, "net_quantity_basis") != "proven":
        return None
    return words["labels"][f"net_{MARKETS[one.market].quantity}"].format(quantity=measured(quantity, words))


def _quantity_em(one: Labelled, *, on_front: bool) -> str:
    """The size of the quantity's type; what repeats it under the vessel in the US has no height of its own."""
    if one.sizes.quantity_of_small_letters:
        return short(one.sizes.quantity_mm / SMALL_LETTER_EM if on_front else one.sizes.other_mm / CAPITAL_EM)
    return short(one.sizes.quantity_mm / CAPITAL_EM)


def _figures(one: Labelled, speech: Words) -> Iterator[str]:
    """How long, where to stop, how far to trim; and its lid, where that puts it out."""
    advice, words = part_of(part_of(one.said, "advice"), one.market), speech["labels"]
    if not advice:
        return
    in_inches = MARKETS[one.market].length_unit == "in"
    stop = text_of(advice, "stop_at") if in_inches else text_of(one.said, "stop")
    yield words["session"].format(session=_figure(text_of(advice, "longest_session") or "", speech))
    if stop is not None:
        yield words["stop"].format(stop=_figure(stop, speech))
    yield words["trim"].format(trim=_figure(text_of(advice, "trim") or "", speech))
    if text_of(one.said, "snuffing_lid") is not None:
        yield words["lid"]


def _figure(quantity: str, words: Words) -> str:
    """A quantity that no line breaks: a figure without its unit could be read as another."""
    return measured(quantity, words).replace(" ", SPACE)


def _hazards(one: Labelled, speech: LanguagePack) -> Mapping[str, Value] | None:
    """The hazard part, where the market knows such labels and this candle needs one."""
    found = hazard_label(one.said, speech, one.market)
    if found is None or not found["hazards"]:
        return None
    lesser = (
        found["contains"],
        *_listed(found["precautions"]),
        *_listed(found["unknown"]),
        found["identifier"],
    )
    return {
        "pictograms": found["pictograms"],
        "signal_word": found["signal_word"],
        "statements": found["hazards"],
        "lesser": tuple(each for each in lesser if each is not None),
    }


def _listed(value: Value) -> tuple[Value, ...]:
    return value if isinstance(value, tuple) else ()


def _people(one: Labelled, words: Mapping[str, str]) -> Iterator[str]:
    """The maker or who answers in the maker's place, and whoever answers for the candle in the market it goes to."""
    yield _person(part_of(one.said, "responsible") or part_of(one.said, "maker"))
    contact = part_of(part_of(one.said, "contacts"), one.market)
    if contact:
        yield words[f"contact_{one.market}"].format(person=_person(contact))


def _person(contact: Sheet) -> str:
    told = (
        text_of(contact, "name"),
        *texts_of(contact, "address"),
        (text_of(contact, "phone") or "").replace(" ", SPACE),
        text_of(contact, "email"),
    )
    return ", ".join(text for text in told if text)

"""Labels under a candle and on its front, each for one market and in one language."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from generator.document import Document, Value
from generator.documents.hazard_labels import hazard_label
from generator.documents.house import LanguagePack, Words
from generator.documents.papers.label_layout import Printing, laid_out, on_stock, short_length
from generator.documents.printed import SPACE, advised, at_least, emergency_number, measured
from generator.model.burn_safety import Answerable, Sheet
from generator.model.kinds import KINDS
from generator.model.markets import MARKETS, Market

LabelKind = Literal["warning", "product"]

CAPITAL_EM: Final = 0.668
SMALL_LETTER_EM: Final = 0.496
"""Height of capitals and of the small x in the typeface of the papers, in em (its table OS/2; a test reads it)."""

_NET: Final = {"grams": "net_grams", "ounces": "net_ounces"}
CODE_MODULE_MM: Final = 0.3
"""The side of one module of a code, for any address. (CHOICE; read back at 300 dpi by a test)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSizes:
    """The least heights on one label: of capitals, of the small x if a rule names it, of figures and of signs."""

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

    ``lot`` is None where the field is left empty, ``address`` where the house has no site; ``is_proof`` where the
    label lacks what its market requires: it may be looked at but not used.
    """

    said: Sheet
    market: Market
    lot: str | None
    address: str | None
    sizes: LabelSizes
    scented: bool
    artwork: str | None = None
    is_proof: bool = False


def label_value(kind: LabelKind, one: Labelled, speech: LanguagePack) -> Mapping[str, Value]:
    """Everything on one label."""
    words = speech.words["labels"]
    shared = {
        "kind": kind,
        "name": one.said.stock_code,
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
    """Labels on their sheets with their numbers of copies; ``around`` holds market, title, house, language and day."""
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
    sentences = KINDS[said.kind].sentences
    small_mm = sizes.hazard_small_letter_mm
    hazard_em_mm = max(sizes.statement_mm / CAPITAL_EM, (small_mm or 0.0) / SMALL_LETTER_EM)
    return {
        "signal": words["signal"],
        "core": tuple({"sign": name, "words": words[name]} for name in said.warnings.core),
        "figures": (words[sentences.never_lit],) if sentences.never_lit else tuple(_figures(one, speech)),
        "emergency": (words[sentences.trouble].format(number=emergency_number(one.market, speech.words)),),
        "hazards": hazard_label(said, speech, one.market),
        "names": words["names"].format(scent=said.scent, size=said.size, stock_code=said.stock_code),
        "people": tuple(_people(one, words)),
        "lot": {"label": words["lot"], "code": one.lot},
        "code": one.address,
        "sizes": {
            "signal": short_length(sizes.signal_mm / CAPITAL_EM),
            "statement": short_length(sizes.statement_mm / CAPITAL_EM),
            "other": short_length(sizes.other_mm / CAPITAL_EM),
            "hazard": short_length(hazard_em_mm),
            "quantity": _quantity_em(one, on_front=False),
            "sign": short_length(sizes.sign_mm),
            "diamond": short_length(sizes.diamond_mm),
            "diamond_least": short_length(sizes.diamond_least_mm),
            "module": short_length(CODE_MODULE_MM),
        },
    }


def _product(one: Labelled, words: Mapping[str, str]) -> dict[str, Value]:
    identity = KINDS[one.said.kind].sentences.identity
    other_em_mm = one.sizes.other_mm / CAPITAL_EM
    return {
        "scent": one.said.scent,
        "identity": words[identity if one.scented else f"{identity}_unscented"],
        "maker": one.said.speaker,
        "low": one.sizes.quantity_stands_low,
        "code": None,
        "sizes": {
            "scent": short_length(4 * other_em_mm),
            "identity": short_length(2.2 * other_em_mm),
            "maker": short_length(2.2 * other_em_mm),
            "quantity": _quantity_em(one, on_front=True),
        },
    }


def _quantity(one: Labelled, words: Words) -> str | None:
    """The net quantity where it is proven; an estimate is never on a label."""
    quantity = one.said.net_quantity.get(one.market)
    if quantity is None or one.said.net_quantity_basis != "proven":
        return None
    return words["labels"][_NET[MARKETS[one.market].quantity]].format(quantity=measured(quantity, words))


def _quantity_em(one: Labelled, *, on_front: bool) -> str:
    """The type size of the quantity; its repetition under the vessel in the US has no prescribed height."""
    if one.sizes.quantity_of_small_letters:
        return short_length(
            one.sizes.quantity_mm / SMALL_LETTER_EM if on_front else one.sizes.other_mm / CAPITAL_EM
        )
    return short_length(one.sizes.quantity_mm / CAPITAL_EM)


def _figures(one: Labelled, speech: LanguagePack) -> Iterator[str]:
    """How long to burn, where to stop, how far to trim; and the lid, if it puts the flame out."""
    advice, words, stop_mm = one.said.advice.get(one.market), speech.words["labels"], one.said.stop_mm
    if advice is None:
        return
    # A figure without its unit could be misread, so no line breaks between the two.
    figures = {name: text.replace(" ", SPACE) for name, text in advised(advice, speech).items()}
    yield words["session"].format(session=figures["longest_session"])
    if MARKETS[one.market].length_unit == "in" and figures["stop_at"]:
        yield words["stop"].format(stop=figures["stop_at"])
    elif stop_mm is not None:
        yield words["stop"].format(stop=at_least(stop_mm))
    yield words["trim"].format(trim=figures["trim"])
    if one.said.snuffing_lid is not None:
        yield words["lid"]


def _people(one: Labelled, words: Mapping[str, str]) -> Iterator[str]:
    """The maker or who answers in the maker's place, and who answers for the candle in its market."""
    yield _person(one.said.answers)
    contact = one.said.contacts.get(one.market)
    if contact:
        yield words[f"contact_{one.market}"].format(person=_person(contact))


def _person(who: Answerable) -> str:
    told = (who.name, *who.address, (who.phone or "").replace(" ", SPACE), who.email)
    return ", ".join(text for text in told if text)

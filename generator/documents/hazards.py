"""The hazard part of the site's papers: what the law of each market has a label say, in pictures and words."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from generator.document import Value
from generator.documents.ghs import NAMES, pictogram
from generator.documents.house import House, SizeOf, Words
from generator.documents.printed import listed, net_quantity
from generator.documents.sentences import NAMING, contains, sentence
from generator.facts.facts import Facts
from generator.facts.hazards import HazardFacts
from generator.model.maker import Market
from generator.model.statements import Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class Regime:
    """Markets whose laws have the same label say the same things, and what these are."""

    markets: tuple[Market, ...]
    hazards: HazardFacts


_Printed = tuple[str | tuple[str, ...] | None, ...]
_UFI_MARKET: Final = "EU"
"""The formula identifier is asked for there and not in Great Britain (standards.md C12, C13)."""


def regimes(facts: Facts) -> tuple[Regime, ...]:
    """The markets that know such labels, those that say the same together; the US has none as a duty."""
    found: dict[_Printed, Regime] = {}
    for market, hazards in facts.hazards.items():
        if hazards is None:
            continue
        before = found.get(_printed(hazards))
        markets = (*before.markets, market) if before else (market,)
        found[_printed(hazards)] = Regime(markets=markets, hazards=hazards)
    return tuple(found.values())


def has_label(facts: Facts) -> bool:
    """Whether any market's law has a label say something."""
    return any(hazards is not None and hazards.codes for hazards in facts.hazards.values())


def full_labels(house: House, facts: Facts) -> tuple[Mapping[str, Value], ...]:
    """Everything a label says, a block for each regime."""
    return tuple(_full(house, facts, regime) for regime in regimes(facts))


def standing(house: House, facts: Facts) -> str | None:
    """By whose rules this was worked out, and who has the last word; None where no market has such rules."""
    laws = dict.fromkeys(h.law for h in facts.hazards.values() if h is not None)
    if not laws:
        return None
    words = house.words["hazards"]
    said = words["standing"].format(laws=words["between_laws"].join(laws))
    near = any(hazards is not None and hazards.near for hazards in facts.hazards.values())
    return f"{said} {words['near']}" if near else said


def labels_before_purchase(house: House, sizes: Iterable[SizeOf]) -> Mapping[str, Value] | None:
    """What an offer must say of hazards (CLP Art. 48), each label once, with its sizes where they differ."""
    groups: dict[tuple[_Printed, ...], list[Facts]] = {}
    for size in sizes:
        found = tuple(_printed(regime.hazards) for regime in regimes(size.facts))
        groups.setdefault(found, []).append(size.facts)
    if not any(groups):
        return None
    words = house.words["hazards"]
    labelled = any(has_label(alike[0]) for alike in groups.values())
    return {
        "groups": tuple(
            {
                "sizes": listed((facts.size for facts in alike), house.words) if len(groups) > 1 else None,
                "labels": tuple(_short(house, regime) for regime in regimes(alike[0])),
            }
            for alike in groups.values()
        ),
        "read_label": words["read_label"] if labelled else None,
    }


def status_in_words(hazards: HazardFacts, words: Words) -> str | None:
    """The plain sentence that stands in the place of a label; None where there is one."""
    if hazards.codes:
        return None
    return words["hazards"][f"status_{hazards.status}"]


def market_names(markets: Iterable[Market], words: Words) -> str:
    """Markets by name, joined."""
    return words["hazards"]["between_markets"].join(words["safety"][f"market_{one}"] for one in markets)


def statements(codes: Iterable[str], hazards: HazardFacts, words: Wording | None) -> tuple[str, ...]:
    """The law's sentences; the bare codes in a language whose sentences are not known."""
    if words is None:
        return tuple(codes)
    return tuple(sentence(code, hazards.sensitisers, words) for code in codes)


def _full(house: House, facts: Facts, regime: Regime) -> Mapping[str, Value]:
    hazards, words = regime.hazards, house.words["hazards"]
    return {
        **_short(house, regime),
        "heading": words["heading"].format(markets=market_names(regime.markets, house.words)),
        "precautions": statements(hazards.p, hazards, house.wording),
        "quantity": _quantity(house, facts, regime) if hazards.codes else None,
        "codes": words["codes"].format(codes=listed(hazards.codes, house.words)) if hazards.codes else None,
        "unknown": tuple(_of_unknown_toxicity(hazards, words)),
        "identifier": _identifier(facts, regime, words),
    }


def _quantity(house: House, facts: Facts, regime: Regime) -> str:
    """The nominal quantity, which a label for the public must state (CLP Art. 17)."""
    quantity = net_quantity(facts, regime.markets[0], house.words)
    return house.words["hazards"]["quantity"].format(quantity=quantity)


def _short(house: House, regime: Regime) -> dict[str, Value]:
    """Symbols, signal word, hazards and names: what stands on every label, without the precautions."""
    hazards, wording = regime.hazards, house.wording
    return {
        "markets": market_names(regime.markets, house.words),
        "plain": status_in_words(hazards, house.words),
        "pictograms": tuple({"name": NAMES[code], "drawing": pictogram(code)} for code in hazards.pictograms),
        "signal_word": _signal_word(hazards, wording),
        "hazards": statements((*hazards.h, *hazards.euh), hazards, wording),
        "contains": _contains(hazards, wording),
    }


def _signal_word(hazards: HazardFacts, wording: Wording | None) -> str | None:
    if hazards.signal_word is None or wording is None:
        return hazards.signal_word
    return wording.signal_words[hazards.signal_word]


def _contains(hazards: HazardFacts, wording: Wording | None) -> str | None:
    """'Contains ...' with every name that EUH208 does not carry already."""
    said = hazards.sensitisers if NAMING in hazards.euh and wording is not None else ()
    names = tuple(name for name in hazards.named_substances if name not in said)
    if not names:
        return None
    return contains(names, wording) if wording is not None else ", ".join(names)


def _of_unknown_toxicity(hazards: HazardFacts, words: Mapping[str, str]) -> Iterator[str]:
    """That part of the mixture is of unknown toxicity; how much is the workshop's business."""
    if hazards.unknown_acute_percent is not None:
        yield words["unknown_acute"]
    if hazards.unknown_aquatic_percent is not None:
        yield words["unknown_aquatic"]


def _identifier(facts: Facts, regime: Regime, words: Mapping[str, str]) -> str | None:
    if facts.ufi is None or _UFI_MARKET not in regime.markets:
        return None
    return words["identifier"].format(ufi=facts.ufi)


def _printed(hazards: HazardFacts) -> _Printed:
    """All that a reader sees of a label, to tell whether two are alike."""
    return (
        hazards.status,
        hazards.pictograms,
        hazards.signal_word,
        hazards.codes,
        hazards.named_substances,
        hazards.sensitisers,
        hazards.unknown_acute_percent,
        hazards.unknown_aquatic_percent,
    )

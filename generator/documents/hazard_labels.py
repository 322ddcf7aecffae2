"""The hazard part of the site's papers: what each market's law puts on a label, in pictures and words."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from generator.document import Value
from generator.documents.house import House, LanguagePack, SizeOf, Words
from generator.documents.printed import listed, quantity_with_basis
from generator.drawing.ghs import pictogram
from generator.model.burn_safety import HazardLabel, Sheet
from generator.model.language_tables import Wording
from generator.model.markets import Market, law_of

_NAMING: Final = "EUH208"
_GAP: Final = re.compile(r"<[^>]*>")
_WITHOUT_CODES: Final = {"none": "status_none", "unknown": "status_unknown", "refused": "status_refused"}
_UNKNOWN: Final = {"acute": "unknown_acute", "aquatic": "unknown_aquatic"}


def sentence(code: str, names: Sequence[str], words: Wording) -> str:
    """One statement as printed; the names go into EUH208 only."""
    statement = words.statements[code]
    return _filled(statement.printed or statement.text, names)


def contains(names: Sequence[str], words: Wording) -> str:
    """'Contains ...' for a candle that is a sensitiser itself: the first sentence of EUH208 alone."""
    first, _, _ = words.statements[_NAMING].text.partition(">")
    return f"{_filled(f'{first}>', names)}."


def _filled(text: str, names: Sequence[str]) -> str:
    """The text with the names in its gap as written, whatever characters they contain."""
    return _GAP.sub(lambda _: ", ".join(names), text)


def texts_from_memory(codes: Iterable[str], words: Wording) -> tuple[str, ...]:
    """Codes whose wording has not yet been compared with the law's text."""
    return tuple(sorted(code for code in codes if words.statements[code].status == "MEMORY"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Regime:
    """Markets whose laws give one label the same content, and that content."""

    markets: tuple[Market, ...]
    label: HazardLabel


def regimes(said: Sheet) -> tuple[Regime, ...]:
    """The markets that have such labels, equal ones together; in the US none is a duty."""
    found: dict[HazardLabel, tuple[Market, ...]] = {}
    for market, label in said.labels.items():
        found[label] = (*found.get(label, ()), market)
    return tuple(Regime(markets=markets, label=label) for label, markets in found.items())


def full_labels(said: Sheet, speech: LanguagePack) -> tuple[Mapping[str, Value], ...]:
    """Everything a label says, a block for each regime."""
    return tuple(_full(said, speech, regime) for regime in regimes(said))


def hazard_label(said: Sheet, speech: LanguagePack, market: Market) -> Mapping[str, Value] | None:
    """One market's hazard label; None where there is no hazard to state, or the market has no such label."""
    label, words = said.hazards.get(market), speech.words["labels"]
    if label is None or not (label.h or label.euh):
        return None
    lesser = (
        _contains(label, speech),
        *_statements(label.p, label, speech),
        *_of_unknown_toxicity(label, words),
        _identifier(said.ufi, (market,), words),
    )
    return {
        **_signs(label, speech),
        "statements": _statements((*label.h, *label.euh), label, speech),
        "lesser": tuple(each for each in lesser if each is not None),
    }


def whose_rules(said: Sheet, words: Words) -> str | None:
    """Whose rules were applied, and who has the last word; None where no market has such rules."""
    laws = dict.fromkeys(label.law for label in said.labels.values())
    if not laws:
        return None
    given = words["hazards"]
    named = (words["laws"].get(law, law) for law in laws)
    told = given["standing"].format(laws=given["between_laws"].join(named))
    near = any(label.near for label in said.hazards.values())
    return f"{told} {given['near']}" if near else told


def labels_before_purchase(house: House, sizes: Iterable[SizeOf]) -> Mapping[str, Value] | None:
    """What an offer must say of hazards (CLP Art. 48), each label once, with its sizes where they differ."""
    groups: dict[tuple[HazardLabel, ...], list[tuple[SizeOf, Sheet]]] = {}
    for size in sizes:
        said = house.sheets[size.facts.stock_code].shown(drafts=house.drafts)
        groups.setdefault(tuple(one.label for one in regimes(said)), []).append((size, said))
    if not any(groups):
        return None
    labelled = any(label.codes for labels in groups for label in labels)
    return {
        "groups": tuple(
            {
                "sizes": listed((size.recorded.size_name for size, _ in alike), house.words)
                if len(groups) > 1
                else None,
                "labels": tuple(_short(house.speech, regime) for regime in regimes(alike[0][1])),
            }
            for alike in groups.values()
        ),
        "read_label": house.words["hazards"]["read_label"] if labelled else None,
    }


def market_names(markets: Iterable[Market], words: Words) -> str:
    """Markets by name, joined."""
    return words["hazards"]["between_markets"].join(words["markets"][one] for one in markets)


def _statements(codes: Iterable[str], label: HazardLabel, speech: LanguagePack) -> tuple[str, ...]:
    return tuple(sentence(code, label.sensitisers, speech.wording) for code in codes)


def _full(said: Sheet, speech: LanguagePack, regime: Regime) -> Mapping[str, Value]:
    label, words = regime.label, speech.words["hazards"]
    return {
        **_short(speech, regime),
        "heading": words["heading"].format(markets=market_names(regime.markets, speech.words)),
        "precautions": _statements(label.p, label, speech),
        "quantity": _quantity(said, regime, speech.words) if label.codes else None,
        "codes": words["codes"].format(codes=listed(label.codes, speech.words)) if label.codes else None,
        "unknown": tuple(_of_unknown_toxicity(label, speech.words["labels"])),
        "identifier": _identifier(said.ufi, regime.markets, speech.words["labels"]),
    }


def _quantity(said: Sheet, regime: Regime, words: Words) -> str:
    """The nominal quantity, which a label for the public must state (CLP Art. 17)."""
    quantity = quantity_with_basis(said.net_quantity[regime.markets[0]], said.net_quantity_basis, words)
    return words["hazards"]["quantity"].format(quantity=quantity)


@lru_cache(maxsize=1024)
def _short(speech: LanguagePack, regime: Regime) -> Mapping[str, Value]:
    """Symbols, signal word, hazards and names: what is on every label, without the precautions."""
    label, words = regime.label, speech.words
    return {
        "markets": market_names(regime.markets, words),
        "plain": None if label.codes else words["hazards"][_WITHOUT_CODES[label.status]],
        **_signs(label, speech),
        "hazards": _statements((*label.h, *label.euh), label, speech),
        "contains": _contains(label, speech),
    }


def _signs(label: HazardLabel, speech: LanguagePack) -> dict[str, Value]:
    names = speech.words["pictograms"]
    return {
        "pictograms": tuple(
            {"name": names[code], "drawing": pictogram(code, names[code])} for code in label.pictograms
        ),
        "signal_word": label.signal_word and speech.wording.signal_words[label.signal_word],
    }


def _contains(label: HazardLabel, speech: LanguagePack) -> str | None:
    """'Contains ...' with every name that is not already in EUH208."""
    told = label.sensitisers if _NAMING in label.euh else ()
    names = tuple(name for name in label.named_substances if name not in told)
    return contains(names, speech.wording) if names else None


def _of_unknown_toxicity(label: HazardLabel, words: Mapping[str, str]) -> Iterator[str]:
    """That part of the mixture is of unknown toxicity; the share stays in the workshop."""
    return (words[_UNKNOWN[toxicity]] for toxicity in label.unknown)


def _identifier(ufi: str | None, markets: Iterable[Market], words: Mapping[str, str]) -> str | None:
    laws = [law_of(market) for market in markets]
    if ufi is None or not any(law and law.formula_identifier for law in laws):
        return None
    return words["identifier"].format(ufi=ufi)

"""Forbidden praise: by law where the candle is classified, or because it is not proven.

A word counts only by itself: 'harmless-looking' says nothing of the candle, and neither does 'not harmless'.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from typing import Final, NamedTuple

from generator.model.accepted import check_of
from generator.model.candle import Candle
from generator.model.language_tables import ClaimWords
from generator.model.markets import MARKETS, Market
from generator.model.materials import Wax
from generator.model.shop import Shop
from generator.problems import Fault, Path, Severity, warning


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """A sort of praise, with words in each language: what is wrong with it, and what to write instead.

    ``only`` is what a candle must be, or hold, for the words to be wrong of it. ``check`` names what a maker may
    accept, because words are found by their look alone; what a law forbids by name has none. A ``green`` claim is an
    error from the day on which a market of the shop forbids it, but in a sentence that also denies something.
    """

    sort: str
    why: str
    fix: str
    only: str | None = None
    check: str | None = None


CLASSIFIED: Final = "classified"
GREEN: Final = "green"
_END_OF_SENTENCE: Final = re.compile(r"[.!?;:]\s|\n\s*\n")
_SHOWN: Final = "say the one thing you can show, such as: in a jar that can be refilled"
_NEUTRAL: Final = "say what it smells of, or what it is made of"
_PLAIN: Final = str.maketrans({"\u2011": "-", "\u2019": "'", "\u2082": "2"})
"""Signs of print, and those of the typewriter that the phrases are written with."""


CLAIMS: Final[tuple[Claim, ...]] = (
    Claim(
        sort="harmless",
        why="CLP Art. 25(4) forbids such words on a classified mixture and in its advertising (FOUND-2nd)",
        fix=_NEUTRAL,
        only=CLASSIFIED,
    ),
    Claim(
        sort=GREEN,
        why="since 2026-09-27 a general environmental claim is forbidden in the EU (Directive (EU) 2024/825, "
        "FOUND-2nd); elsewhere it needs proof; for a classified candle CLP Art. 25(4) forbids it (FOUND-2nd)",
        fix=_SHOWN,
    ),
    Claim(
        sort="better_for_nature",
        why="an environmental claim needs proof (Directive (EU) 2024/825, FOUND-2nd); for a classified "
        "candle CLP Art. 25(4) forbids it (FOUND-2nd)",
        fix=_SHOWN,
    ),
    Claim(
        sort="healing",
        why="a health claim needs evidence, and may make the candle a medicine in law (MEMORY)",
        fix=_NEUTRAL,
    ),
    Claim(
        sort="against_insects",
        why=(
            "a product sold against insects is a biocide and needs an authorisation "
            "(Regulation (EU) 528/2012, MEMORY)"
        ),
        fix=_NEUTRAL,
    ),
    Claim(
        sort="sootless",
        why="every flame in wax makes some soot, so this cannot be proved (PRACTICE)",
        fix="say how it was tested, or delete the words",
        check="sootless",
    ),
    Claim(
        sort="soy_alone",
        why="a buyer would think the wax is pure soy (unfair commercial practices, MEMORY)",
        fix="say soy and paraffin, as its wax is declared",
        only="paraffin",
        check="soy-alone",
    ),
    Claim(
        sort="vegan",
        why="beeswax comes from animals, so a buyer would be misled (unfair commercial practices, MEMORY)",
        fix="name the waxes",
        only="beeswax",
        check="vegan",
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spoken:
    """One text a shopper reads, its place, the candles it is about, and the traits any of them has."""

    path: Path
    text: str
    of: str
    traits: frozenset[str]


def claim_faults(shop: Shop, classified: Collection[str], languages: Sequence[ClaimWords]) -> Iterator[Fault]:
    """Every such word of any language in what a shopper reads; some market classifies the ``classified`` candles."""
    anything = "|".join(_anyone(claim.sort, languages) for claim in CLAIMS)
    hint, denial = re.compile(rf"(?<!\w)(?:{anything})"), _denial(languages)

    @cache
    def praise(text: str) -> tuple[tuple[Claim, _Found], ...]:
        plain = text.translate(_PLAIN)
        # Hardly a text holds any phrase. Beyond ASCII, letters that are not the same count as alike.
        if plain.isascii() and not hint.search(plain.lower()):
            return ()
        return tuple(
            (claim, found)
            for claim in CLAIMS
            for found in _found(_phrases(claim.sort, languages), denial, plain)
        )

    forbidden = green_claims_are_forbidden(shop.maker.markets, shop.as_of)
    for spoken in _texts(shop, _traits_of(shop, classified, languages)):
        for claim, found in praise(spoken.text):
            if claim.only is None or claim.only in spoken.traits:
                fault = _fault(spoken, claim, found.words)
                is_error = forbidden and claim.sort == GREEN and not found.beside_a_denial
                yield replace(fault, severity=Severity.ERROR) if is_error else fault


def green_claims_are_forbidden(markets: Sequence[Market], on: date) -> bool:
    """Whether any of these markets forbids general claims about the environment on such a day."""
    days = (MARKETS[market].green_claims_from for market in markets)
    return any(day is not None and on >= day for day in days)


def _anyone(sort: str, languages: Sequence[ClaimWords]) -> str:
    """Any of the phrases in any language, in lower case."""
    anyone = "|".join(_filled(phrase, each.groups) for each in languages for phrase in each.phrases[sort])
    return anyone.lower().replace(" ?", r"[\s-]?").replace(" ", r"[\s-]+").replace("*", r"\w*")


def _phrases(sort: str, languages: Sequence[ClaimWords]) -> re.Pattern[str]:
    """Any of the phrases in any language, as whole words and not negated."""
    anyone = _anyone(sort, languages)
    undenied = "".join(rf"(?<!\b{word}\s)" for each in languages for word in each.denied["before"])
    denial = "|".join(word for each in languages for word in each.denied["after"])
    return re.compile(rf"(?<![\w-])(?<!\bn'){undenied}(?:{anyone})(?![\w-]|\s(?:{denial})\b)", re.IGNORECASE)


def _filled(phrase: str, groups: Mapping[str, str]) -> str:
    for name, words in groups.items():
        phrase = phrase.replace(f"{{{name}}}", words)
    return phrase


def _denial(languages: Sequence[ClaimWords]) -> re.Pattern[str]:
    """Any word that turns praise round, wherever it stands in a sentence; ``n't`` too, which is no word of its own."""
    words = "|".join(word for each in languages for key in ("before", "after") for word in each.denied[key])
    return re.compile(rf"\b(?:{words})\b|n't\b", re.IGNORECASE)


class _Found(NamedTuple):
    """Words as first written, and whether each sentence they stand in denies something before them."""

    words: str
    beside_a_denial: bool


def _found(words: re.Pattern[str], denial: re.Pattern[str], text: str) -> Iterator[_Found]:
    """The words of a text, each once."""
    seen: dict[str, _Found] = {}
    for match in words.finditer(text):
        written = " ".join(match[0].split())
        sentence = _END_OF_SENTENCE.split(text[: match.start()])[-1]
        denied = denial.search(sentence) is not None
        first = seen.setdefault(written.casefold(), _Found(written, denied))
        seen[written.casefold()] = first._replace(beside_a_denial=first.beside_a_denial and denied)
    yield from seen.values()


def _fault(spoken: _Spoken, claim: Claim, found: str) -> Fault:
    but = {None: "", CLASSIFIED: ", which is classified as hazardous"}.get(
        claim.only, f", which contains {claim.only}"
    )
    return warning(
        path=spoken.path,
        what=f"'{found}' is claimed for {spoken.of}{but}",
        why=claim.why,
        fix=claim.fix,
        check=check_of(claim.check, found) if claim.check else None,
    )


def _traits_of(
    shop: Shop, classified: Collection[str], languages: Sequence[ClaimWords]
) -> Mapping[str, frozenset[str]]:
    """What each candle is and holds, as far as claims ask for it."""
    sorts = {id_: _sorts(wax, languages) for id_, wax in shop.waxes.items()}
    return {
        id_: _waxes(candle, sorts) | ({CLASSIFIED} if id_ in classified else set())
        for id_, candle in shop.candles.items()
    }


def _texts(shop: Shop, traits: Mapping[str, frozenset[str]]) -> Iterator[_Spoken]:
    for id_, candle in shop.candles.items():
        for keys, text in _of_candle(candle):
            yield _Spoken(path=(f"candles/{id_}.yaml", *keys), text=text, of=candle.scent, traits=traits[id_])
    for id_, collection in shop.collections.items():
        on_shelf = (name for name, candle in shop.candles.items() if candle.collection == id_)
        of, inside = f"a candle of {collection.name}", _any(traits, on_shelf)
        yield _Spoken(path=("collections.yaml", id_, "name"), text=collection.name, of=of, traits=inside)
        if collection.text is not None:
            yield _Spoken(path=("collections.yaml", id_, "text"), text=collection.text, of=of, traits=inside)
    for path, text in _of_the_house(shop):
        yield _Spoken(path=path, text=text, of="a candle of this shop", traits=_any(traits, traits))


def _of_candle(candle: Candle) -> Iterator[tuple[Path, str]]:
    yield ("scent",), candle.scent
    if candle.description is not None:
        yield ("description",), candle.description
    if candle.season is not None:
        yield ("season",), candle.season
    if candle.colour is not None:
        yield ("colour", "name"), candle.colour.name
    notes = candle.scent_notes
    for key, names in (("top", notes.top), ("heart", notes.heart), ("base", notes.base)) if notes else ():
        yield from ((("scent_notes", key, number), name) for number, name in enumerate(names))


def _of_the_house(shop: Shop) -> Iterator[tuple[Path, str]]:
    """Texts about every candle; of a page each line by its number."""
    if shop.maker.line is not None:
        yield ("maker.yaml", "line"), shop.maker.line
    for id_, format_ in shop.formats.items():
        if format_.name is not None:
            yield (f"formats/{id_}.yaml", "name"), format_.name
    for id_, page in shop.pages.items():
        yield (f"pages/{id_}.md",), page.title
        for number, line in enumerate(page.markdown.splitlines(), start=1):
            yield (f"pages/{id_}.md", number), line


def _any(traits: Mapping[str, frozenset[str]], candles: Iterable[str]) -> frozenset[str]:
    return frozenset().union(*(traits[id_] for id_ in candles))


def _waxes(candle: Candle, sorts: Mapping[str, frozenset[str]]) -> frozenset[str]:
    """The sorts of wax in a candle's formulas that claims ask for."""
    formulas = (candle.ingredients, *(size.ingredients or {} for size in candle.sizes))
    return frozenset().union(*(sorts[id_] for formula in formulas for id_ in formula if id_ in sorts))


def _sorts(wax: Wax, languages: Sequence[ClaimWords]) -> frozenset[str]:
    """The sorts that claims ask for among the names of one wax."""
    named = [name.translate(_PLAIN).casefold() for name in (wax.name, *wax.declared_as)]
    sorts = (sort for each in languages for sort in each.waxes.items())
    return frozenset(sort for sort, called in sorts if any(word in name for word in called for name in named))

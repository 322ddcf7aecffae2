"""Hours and weights typed into a description, compared with the calculated ones."""

import re
from collections.abc import Collection, Iterator
from typing import Final

from generator.model.accepted import check_of
from generator.problems import Fault, Path, warning

_NUMBER: Final = r"[0-9]{1,4}(?:[.,][0-9]{1,2})?"
_DIGIT: Final = re.compile("[0-9]")
_SENTENCE: Final = re.compile(r"(?<=[.!?;])\s+|\n\s*\n")
_HOURS: Final = re.compile(
    rf"(?<![\w.,])({_NUMBER})(?:\s*(?:-|–|to|bis|à)\s*({_NUMBER}))?[\s-]*(?:hours?|hrs?|h|stunden?|std|heures?)(?!\w)",
    re.IGNORECASE,
)
_BURNT: Final = re.compile(r"\bburn|\blasts?\b|\bbrenn|\bbrûle|\bcombustion|\bdure", re.IGNORECASE)
_AT_ONCE: Final = re.compile(
    r"\bat a time|\bat once|\bsession|\beach time|\bfirst\b|\bper\b|\bevery|\bnever|\bno longer|\bcur(?:e|ing)|\brest"
    r"|\bon end|\bauf einmal|\bam stück|\bersten|\bpro\b|\bjeweils|\bnie\b|\breif|\bhöchstens"
    r"|\bà la fois|\bd['’]affilée|\bpremi|\bpar\b|\bjamais|\bmaxim",
    re.IGNORECASE,
)
"""Words that make hours those of one burn, or of a cure."""

_WEIGHT: Final = re.compile(rf"(?<![\w.,])({_NUMBER})\s*(?:g|grams?|gramm|grammes?)(?!\w)", re.IGNORECASE)
_NET: Final = re.compile(
    r"\bnet\b|\bweigh|\bwax\b|\bcontain|\bholds\b|\bwieg|gewicht|wachs\b|\bnetto|\binhalt|\bpoids|\bpèse|\bcire\b|\bcontient",
    re.IGNORECASE,
)
_OF_A_PART: Final = re.compile(
    r"\bfragrance|\bperfume|\boil\b|\bper\b|duft|\böl\b|\bpro\b|\bparfum|\bhuile|\bpar\b", re.IGNORECASE
)
"""Words that make a weight that of an ingredient."""

NEAR_G: Final = 2.0
NEAR_PART: Final = 0.01
"""How far a typed weight may be off: what rounding and a scale's step explain (CHOICE)."""


def typed_figures(path: Path, text: str, hours: Collection[int], net_g: Collection[float]) -> Iterator[Fault]:
    """Figures in a text that no size of its candle agrees with; none where nothing is worked out."""
    for sentence in filter(_DIGIT.search, _SENTENCE.split(text)):
        if hours and _BURNT.search(sentence) and not _AT_ONCE.search(sentence):
            for found in _HOURS.finditer(sentence):
                low, high = _number(found[1]), _number(found[2] or found[1])
                if not any(low <= worked_out <= high for worked_out in hours):
                    agreed = " or ".join(f"{each} h" for each in sorted(set(hours)))
                    yield _fault(path, found[0], agreed, "typed-hours")
        if net_g and _is_net(sentence):
            for found in _WEIGHT.finditer(sentence):
                said = _number(found[1])
                if not any(abs(said - each) <= max(NEAR_G, NEAR_PART * each) for each in net_g):
                    agreed = " or ".join(dict.fromkeys(f"{each:.0f} g" for each in sorted(net_g)))
                    yield _fault(path, found[0], agreed, "typed-weight")


def _is_net(sentence: str) -> bool:
    """Whether its weights are the candle's: alone, or with a word of weight and none of an ingredient."""
    alone = _WEIGHT.fullmatch(sentence.strip(" .!;\n"))
    return alone is not None or (_NET.search(sentence) is not None and not _OF_A_PART.search(sentence))


def _number(written: str) -> float:
    return float(written.replace(",", "."))


def _fault(path: Path, said: str, agreed: str, check: str) -> Fault:
    said = " ".join(said.split())
    return warning(
        path=path,
        what=f"the text says {said}, but the papers say {agreed}",
        why="the page, label and safety sheet would contradict each other",
        fix=f"{agreed}, or delete the figure, because the page prints it anyway",
        check=check_of(check, said),
    )

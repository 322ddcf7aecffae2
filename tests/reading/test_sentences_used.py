"""Every sentence is asked for by its written-out name, so that a search for a name finds each of its uses."""

import re
from pathlib import Path

from generator.reading.languages import COUNTED, FIRST, words_of
from tests.documents.sample_house import ROOT

GENERATOR = ROOT / "generator"
THEMES = ROOT / "themes"

WHOLE = ("plurals", "laws", "months", "functions", "terms", "meanings", "pour_cautions", "burn_test_cautions")
"""Subjects that are printed whole, or asked for by the number of a month or the text of an issued sheet."""

BY_PARTS = {
    "safety": ("call", "contact"),
    "site": ("contact",),
    "labels": ("identity", "contact"),
    "figure_labels": ("fragrance", "net_weight", "declared", "rounded"),
    "quantities": ("stop", "fragrance", "lost", "burnt"),
}
"""Names that are still put together from a part and a kind, a market or a basis; each is found by the part."""

NUMBERED = r"(flares|cracks|smokes|spills)_\d|\w+_sign(_lid)?"
"""Steps and signs of the burn-safety sheet, by the emergencies and signs that `ledgers/sheet.py` names."""


OF_FIGURES = ("quantities", "figure_labels")
"""Subjects whose sentences are asked for by the name of a figure without its unit."""


def read(folder: Path, *suffixes: str) -> str:
    return "\n".join(
        path.read_text(encoding="utf-8") for path in folder.rglob("*") if path.suffix in suffixes
    )


def written_out() -> frozenset[str]:
    """The texts between quotes in the program, and the words of the templates."""
    program = re.findall(r'"([^"\n]*)"', read(GENERATOR, ".py"))
    templates = re.findall(r"\w+", read(THEMES, ".html", ".typ", ".js", ".xml"))
    return frozenset((*program, *templates))


def is_found(subject: str, name: str, literal: frozenset[str]) -> bool:
    if name in literal or name.startswith(BY_PARTS.get(subject, ("\0",))):
        return True
    if subject == "safety" and re.fullmatch(NUMBERED, name):
        return True
    return subject in OF_FIGURES and any(text.startswith(f"{name}_") for text in literal)


def test_every_sentence_is_asked_for_by_its_name() -> None:
    literal = written_out()
    words = words_of(FIRST)

    lost = [
        f"{subject}.{name}"
        for subject, sentences in words.items()
        if subject not in WHOLE and not subject.startswith(COUNTED)
        for name in sentences
        if not is_found(subject, name, literal)
    ]

    assert lost == []


def test_every_subject_is_asked_for_by_its_name() -> None:
    assert set(words_of(FIRST)) <= written_out()


def test_every_exception_is_needed() -> None:
    literal, words = written_out(), words_of(FIRST)

    needless = [
        f"{subject}.{part}"
        for subject, parts in BY_PARTS.items()
        for part in parts
        if all(name in literal for name in words[subject] if name.startswith(part))
    ]

    assert needless == []

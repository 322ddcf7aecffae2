"""What a shop is printed with: its theme, and the words of its papers' languages."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from generator.documents.house import LanguagePack, Words
from generator.memory import Remembered
from generator.model.shop import Shop
from generator.problems import Places, Problem, Stopped
from generator.reading.languages import (
    FIRST,
    earlier_words_of,
    language_problems,
    languages,
    material_words,
    wording,
    words_of,
)
from generator.reading.theme_files import theme_folders
from generator.writing.themes import Theme


@dataclass(frozen=True, slots=True, kw_only=True)
class Presentation:
    """A theme with those it extends, and the words of each language."""

    theme: Theme
    language_packs: Mapping[str, LanguagePack]


def presentation_of(
    content: Path, shop: Shop, places: Places, packs: Remembered[LanguagePack]
) -> Presentation | Problem:
    """The theme and the words, or what is wrong with the choice."""
    folders = theme_folders(content, shop.maker.theme, places.of(("maker.yaml", "theme")))
    if isinstance(folders, Problem):
        return folders
    language_packs = _language_packs(_spoken(shop), packs)
    if isinstance(language_packs, Problem):
        return language_packs
    return Presentation(theme=Theme(name=shop.maker.theme, folders=folders), language_packs=language_packs)


def _language_packs(
    spoken: Iterable[str], shelf: Remembered[LanguagePack]
) -> Mapping[str, LanguagePack] | Problem:
    """What each of these languages says, or what is wrong with the file of one."""
    spoken = sorted(spoken)
    problems = [
        problem for language in spoken if language != FIRST for problem in language_problems(language)
    ]
    if problems:
        return problems[0]
    return {language: _remembered_pack(language, shelf) for language in spoken}


def _remembered_pack(language: str, shelf: Remembered[LanguagePack]) -> LanguagePack:
    words, earlier = words_of(language), _earlier(language)
    inputs = (language, words, wording(language), earlier, *material_words())
    return shelf.remember(inputs, lambda: _pack(language, words, earlier))


@cache
def _earlier(language: str) -> Mapping[int, LanguagePack]:
    """One object for each edition, as for each language."""
    return {number: _pack(language, words, {}) for number, words in earlier_words_of(language).items()}


def _pack(language: str, words: Words, earlier: Mapping[int, LanguagePack]) -> LanguagePack:
    return LanguagePack(
        words=words,
        wording=wording(language),
        language=language,
        materials=material_words(),
        earlier=earlier,
    )


def language_pack(language: str) -> LanguagePack:
    """What one language says; raises `Stopped` where its file is at fault."""
    packs = _language_packs([language], Remembered())
    if isinstance(packs, Problem):
        raise Stopped(packs)
    return packs[language]


def _spoken(shop: Shop) -> frozenset[str]:
    """The languages of the site, of buyers' sheets and of issued sheets that there are words for."""
    wanted = {shop.maker.language}
    wanted |= {buyer.language for buyer in shop.buyers.values() if buyer.language is not None}
    wanted |= {issued.language or "" for ledger in shop.ledgers.values() for issued in ledger.revisions}
    return frozenset(wanted & set(languages()))

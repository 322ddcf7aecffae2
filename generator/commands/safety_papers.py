"""``papers sheets``: the burn-safety sheets of today, to print."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.documents.house import House
from generator.documents.papers.printed_sheets import papers_today
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import Ready, ready, unknown_codes, write_papers
from generator.making.load_shop import places_of_codes
from generator.making.offered_sheets import refusals
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed
from generator.making.presentation import load_language_packs
from generator.making.report import Refusal, refuse, tell
from generator.problems import Place, Problem
from generator.reading.languages import languages
from generator.writing.store import Store

NOTHING = "no paper was written"


def run(asked: CommandOptions, stock_codes: Sequence[str], language: str | None) -> int:
    """Exit code 0 when the sheets are written, 1 when entries stand in the way, 2 for an unknown code or language."""
    store = Store(asked.output / ".store")
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    house = _speaking(shop, language)
    if isinstance(house, Refusal):
        return refuse(house, as_json=asked.as_data)
    if unknown := unknown_codes(stock_codes, shop.sizes, NOTHING):
        return refuse(*unknown, as_json=asked.as_data)
    wanted = [shop.sizes[code] for code in dict.fromkeys(stock_codes)] or list(shop.sizes.values())
    papers = {paper.path: (size, paper) for size in wanted for paper in papers_today(house, size, language)}
    made = pressed((paper for _, paper in papers.values()), shop.presentation.theme, store)
    if made.refused:
        codes = {path: size.facts.stock_code for path, (size, _) in papers.items()}
        tell(refusals(made, codes, _places(shop)), as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    write_papers(asked, made.files)
    return 0


def _speaking(shop: Ready, language: str | None) -> House | Refusal:
    """The house with the words of a language, or why there are none."""
    if language is None:
        return shop.house
    if language not in languages():
        what = f"there are no sheets in the language '{language}'"
        return Refusal(what=what, then=NOTHING, write=f"write one of: {', '.join(languages())}")
    spoken = load_language_packs([language])
    if isinstance(spoken, Problem):
        return Refusal(what=f"{spoken.place}: {spoken.what}", then=NOTHING, write=f"write {spoken.write}")
    return replace(shop.house, language_packs={**shop.house.language_packs, **spoken})


def _places(shop: Ready) -> Mapping[str, Place]:
    return places_of_codes(shop.shop, shop.known.places)

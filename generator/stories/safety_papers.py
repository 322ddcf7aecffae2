"""The burn-safety sheets to print: those the site offers, and the command ``papers sheets``."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from generator.document import Promised
from generator.documents.house import House
from generator.documents.safety_papers import issued_papers, papers_today
from generator.problems import Place, Problem
from generator.reading.languages import languages
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT
from generator.stories.pressing import Pressed, pressed, refusal
from generator.stories.ready import Ready, ready, unknown_codes, write_papers
from generator.stories.setting import speeches_in
from generator.stories.shop import Known, places_of_codes
from generator.stories.telling import Refusal, refuse, tell
from generator.writing.output import Held
from generator.writing.store import Store
from generator.writing.themes import Theme

NOTHING = "no paper was written"


def run(asked: Asked, stock_codes: Sequence[str], language: str | None) -> int:
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
    made = pressed((paper for _, paper in papers.values()), shop.setting.theme, store)
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
    spoken = speeches_in([language])
    if isinstance(spoken, Problem):
        return Refusal(what=f"{spoken.place}: {spoken.what}", then=NOTHING, write=f"write {spoken.write}")
    return replace(shop.house, speeches={**shop.house.speeches, **spoken})


def offered_papers(house: House) -> Mapping[str, tuple[str, Promised]]:
    """Every issued revision to print, with its stock code, by path."""
    return {
        paper.path: (size.facts.stock_code, paper)
        for scent in house.scents
        for size in scent.sizes
        for paper in issued_papers(house, size)
    }


def offered_in_pdf(
    house: House, known: Known, theme: Theme, store: Store
) -> tuple[Mapping[str, bytes | Held], tuple[Problem, ...]]:
    """Every issued revision to print by its path, and what stands in the way of those that cannot be set."""
    offered = offered_papers(house)
    made = pressed((paper for _, paper in offered.values()), theme, store)
    if not made.refused or known.shop is None:
        return made.files, ()
    codes = {path: code for path, (code, _) in offered.items()}
    return {}, tuple(refusals(made, codes, places_of_codes(known.shop, known.places)))


def refusals(made: Pressed, codes: Mapping[str, str], places: Mapping[str, Place]) -> Iterator[Problem]:
    """What stands in the way of each paper that was refused."""
    for refused in made.refused:
        code = codes[refused.path]
        yield refusal(refused, code, places[code])


def _places(shop: Ready) -> Mapping[str, Place]:
    return places_of_codes(shop.shop, shop.known.places)

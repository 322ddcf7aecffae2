"""Links in the maker's own words that lead to no page of her site, which nobody could publish."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from generator.documents.pages.markdown_pages import local_links
from generator.model.shop import Shop
from generator.problems import Path, Problem
from generator.writing.link_targets import aim

if TYPE_CHECKING:
    from generator.making.load_shop import Known


def dead_links_of(known: "Known") -> Iterator[Problem]:
    """Each of them where it is written; told once nothing else is wrong, since only then all pages are known."""
    shop = known.shop
    written = tuple(_local_links(shop)) if shop is not None and known.is_sound else ()
    paths = _paths(known) if written else frozenset()
    for path, link in written:
        if aim("", link) not in paths:
            yield Problem(
                place=known.places.of(path),
                what=f"the link '{link}' leads to no page of the site",
                why="whoever follows it would find nothing, so the site is not published",
                write="[words](candles/wet-slate.html) and the like: the path of a page that is there",
            )


def _local_links(shop: Shop) -> Iterator[tuple[Path, str]]:
    for id_, page in shop.pages.items():
        lines = page.markdown.splitlines()
        for link in local_links(page.markdown):
            line = next((number for number, text in enumerate(lines, start=1) if link in text), 1)
            yield (f"pages/{id_}.md", line), link
    for id_, candle in shop.candles.items():
        for link in local_links(candle.description or ""):
            yield (f"candles/{id_}.yaml", "description"), link


def _paths(known: "Known") -> frozenset[str]:
    """Every page and paper of the site, as a build without drafts makes them."""
    # Seldom needed and slow to load, and all of it is made from what is known.
    from generator.making.offered_sheets import offered_papers  # noqa: PLC0415
    from generator.making.papers import house_of, papers_of  # noqa: PLC0415
    from generator.making.pictures import NO_PHOTOS  # noqa: PLC0415

    if known.shop is None or known.presentation is None:
        return frozenset()
    house = house_of(known.shop, known, NO_PHOTOS, known.presentation.language_packs)
    papers = (*(paper.path for paper in papers_of(house, known)), *offered_papers(house))
    return frozenset(path.removeprefix("site/") for path in papers)

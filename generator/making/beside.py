"""What is wrong with what the entries lead to: the theme, photos, drawings, targets and pages.

Libraries that print are loaded only where there is something new to check, since every command begins here.
"""

from collections.abc import Iterator
from functools import partial
from pathlib import Path as FilePath
from pathlib import PurePath

from generator.documents.pages.markdown_pages import local_links
from generator.files import PHOTO_FILE, read_file
from generator.making.loaded_shop import LoadedShop, SoundShop, sound_shop
from generator.making.presentation import Presentation
from generator.memory import digest
from generator.model.publish_targets import ObjectStoreTarget
from generator.model.shop import Shop
from generator.problems import Path, Places, Problem
from generator.reading.publish_file import PUBLISH
from generator.reading.shipped import shipped
from generator.writing.link_targets import aim
from generator.writing.paths import can_be_laid
from generator.writing.program import program_digest
from generator.writing.store import AS_IT_IS, Store
from generator.writing.themes import Theme


def problems_beside(
    content: FilePath, shop: Shop, places: Places, presentation: Presentation | Problem, store: Store
) -> Iterator[Problem]:
    """Everything that would prevent making the site, a paper or a label, or publishing the site."""
    if isinstance(presentation, Problem):
        yield presentation
    else:
        yield from _templates(presentation.theme)
    yield from _photos(content, shop, places, store)
    yield from _drawings(content, shop, places)
    yield from _targets(shop, places)


def _templates(theme: Theme) -> Iterator[Problem]:
    """The maker's own templates that cannot be read; tests check ours."""
    own = tuple(folder for folder in theme.folders if not folder.is_relative_to(shipped("themes")))
    if own:
        from generator.writing.templates import unreadable_templates  # noqa: PLC0415  (see above)

        yield from unreadable_templates(theme, own)


def _photos(content: FilePath, shop: Shop, places: Places, store: Store) -> Iterator[Problem]:
    shelf = store.shelf("photos seen", AS_IT_IS)
    for name, path in shop.photos_shown().items():
        source = read_file(content / "photos" / name, PHOTO_FILE)
        fault = shelf.remember((program_digest(), digest(source)), partial(_fault_of, source))
        if fault:
            yield Problem(
                place=places.of(path),
                what=f"photo '{name}' {fault.decode()}",
                why="the page would show an empty frame",
                fix="use a photo that opens, or delete this line",
            )


def _fault_of(photo: bytes) -> bytes:
    from generator.writing.photos import fault_of  # noqa: PLC0415  (see above)

    return (fault_of(photo) or "").encode()


def _drawings(content: FilePath, shop: Shop, places: Places) -> Iterator[Problem]:
    """Drawings for the front label of a size, or of all sizes of a scent."""
    for candle in shop.candles.values():
        for owner in (candle.id, *(size.stock_code for size in candle.sizes)):
            name = f"{owner}.svg"
            if name in shop.artwork:
                from generator.making.pictures import printable  # noqa: PLC0415  (see above)

                read = printable(content / "artwork" / name, places.shown(f"artwork/{name}"))
                if isinstance(read, Problem):
                    yield read


def _targets(shop: Shop, places: Places) -> Iterator[Problem]:
    for name, target in shop.targets.items():
        if isinstance(target, ObjectStoreTarget) or target.changes != "at once":
            continue
        if not can_be_laid(PurePath(target.folder).name):
            yield Problem(
                place=places.of((PUBLISH, name, "folder")),
                what=f"the folder of {name} is '{target.folder}', which has no name of its own",
                why="a site published all at once is a link of that name to the newest release",
                fix="folder: ... (a folder whose last part is a name)",
            )


def dead_links_of(loaded: LoadedShop) -> Iterator[Problem]:
    """Each broken link in the maker's texts; reported once nothing else is wrong and all pages are known."""
    written = () if loaded.errors else tuple(_local_links(loaded.shop))
    paths = _paths(loaded) if written else frozenset()
    for path, link in written:
        if aim("", link) not in paths:
            yield Problem(
                place=loaded.places.of(path),
                what=f"the link '{link}' is broken: the site has no such page",
                why="visitors would find nothing there, so the site is not published",
                fix="write [words](candles/wet-slate.html) or similar, with the path of a page that exists",
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


def _paths(loaded: LoadedShop) -> frozenset[str]:
    """Every page and paper of the site, as a build without drafts makes them."""
    # Seldom needed and slow to load.
    from generator.making.pages import Pages  # noqa: PLC0415
    from generator.making.pdf_papers import OfferedPapers  # noqa: PLC0415

    sound = sound_shop(loaded)
    if not isinstance(sound, SoundShop):
        return frozenset()
    house, theme = sound.house, sound.presentation.theme
    papers = (*Pages(house, loaded), *OfferedPapers(house, loaded, theme))
    return frozenset(paper.path.removeprefix("site/") for paper in papers)

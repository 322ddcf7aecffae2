"""Photos and link-preview pictures, each made only if new; and the maker's own drawings."""

from collections.abc import Iterator, Mapping
from functools import cached_property, partial
from pathlib import Path, PurePosixPath

from generator.documents.house import HOME_PAGE, House, Rendition, Scent
from generator.documents.input_keys import InputKeys
from generator.documents.pages.preview_cards import card_file, card_of_house, card_of_scent
from generator.documents.shelves import public_sizes
from generator.files import PHOTO_FILE, read_file
from generator.making.progress import Progress
from generator.making.remembered import RENDITIONS
from generator.memory import digest
from generator.model.shop import Shop
from generator.problems import Place, Problem
from generator.reading.artwork import read_artwork
from generator.writing.card_pictures import card_settings_digest, draw_card
from generator.writing.output import Layout, PlannedFile
from generator.writing.photos import BadPicture, Picture, check_embedded, develop, settings_digest
from generator.writing.program import program_digest
from generator.writing.store import Store

_ENDINGS = {"jpeg": "jpg", "webp": "webp"}


class _Photo:
    """A photo as taken, and as pages show it; developed once, if any of its files is missing."""

    def __init__(self, name: str, source: bytes) -> None:
        self._name = name
        self._source = source
        self.key = digest(settings_digest(), name, source)

    @cached_property
    def pictures(self) -> Mapping[str, Picture]:
        """Its files by their path from the site's root."""
        try:
            developed = develop(self._source)
        except BadPicture as bad:
            raise OSError(f"photo '{self._name}' has just been changed and {bad.reason}") from bad
        return {_published(self._name, picture): picture for picture in developed}

    def renditions(self) -> tuple[Rendition, ...]:
        """How pages show it."""
        return tuple(
            Rendition(path=path, width=picture.width, height=picture.height, format=picture.format)
            for path, picture in self.pictures.items()
        )

    def file(self, path: str) -> PlannedFile:
        """One of its files."""
        return PlannedFile(
            path=f"site/{path}", key=digest(self.key, path), make=lambda: self.pictures[path].data
        )


def developed(shop: Shop, content: Path, store: Store, layout: Layout) -> Mapping[str, tuple[Rendition, ...]]:
    """Every photo that pages show, at the widths a page asks for; `load_shop` has found no fault in any."""
    shelf, shown = store.shelf("photos", RENDITIONS), shop.photos_shown()
    progress = Progress("photos", len(shown))
    found: dict[str, tuple[Rendition, ...]] = {}
    for name in shown:
        photo = _Photo(name, read_file(content / "photos" / name, PHOTO_FILE))
        found[name] = shelf.remember((photo.key,), photo.renditions)
        layout.add(photo.file(rendition.path) for rendition in found[name])
        progress.step()
    progress.end()
    return found


def printable(file: Path, shown: str) -> str | Problem:
    """The drawing as written, or what is wrong with it or with an embedded picture."""
    artwork = read_artwork(file, shown)
    if isinstance(artwork, Problem):
        return artwork
    for number, picture in enumerate(artwork.pictures, start=1):
        try:
            check_embedded(picture)
        except BadPicture as bad:
            return Problem(
                place=Place(shown, 1, 1),
                what=f"picture {number} in the drawing {bad.reason}",
                why="the front label would be printed without it",
                fix="use a smaller picture in the drawing, and save it again",
            )
    return artwork.svg


def preview_pictures(house: House, keys: InputKeys) -> Iterator[PlannedFile]:
    """The link-preview pictures of the house and of each scent."""
    around = digest(program_digest(), card_settings_digest())
    of_house = card_of_house(house)
    yield PlannedFile(
        path=f"site/{card_file(HOME_PAGE).path}",
        key=digest(keys.of(of_house), around),
        make=partial(draw_card, of_house),
    )
    for scent in house.scents:
        sizes = public_sizes(scent)
        if sizes:
            about = house.about(scent)
            yield PlannedFile(
                path=f"site/{card_file(sizes[0].facts.site_path).path}",
                key=digest(keys.of(about), around),
                make=partial(_drawn, about, scent),
            )


def cards_of(house: House) -> Mapping[str, Rendition]:
    """The addresses of these pictures, by page."""
    pages = (sizes[0].facts.site_path for scent in house.scents if (sizes := public_sizes(scent)))
    return {page: card_file(page) for page in (HOME_PAGE, *pages)}


def _drawn(house: House, scent: Scent) -> bytes:
    return draw_card(card_of_scent(house, scent))


def _published(name: str, picture: Picture) -> str:
    """A name that changes with the bytes: browsers may keep the file for ever."""
    stem = PurePosixPath(name).stem.lower().replace(" ", "-")
    return f"photos/{stem}-{picture.width}.{digest(picture.data)[:8]}.{_ENDINGS[picture.format]}"

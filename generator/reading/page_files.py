"""Pages in Markdown, whose first heading is their title, and the names of photos and artwork."""

import re
from typing import Final

from generator.files import DRAWING_FILE, PHOTO_FILE
from generator.model.markdown_comments import blanked
from generator.model.shop import Page
from generator.reading.gathering import Gathering
from generator.reading.source_file import SourceFile

PAGE_FOLDER: Final = "pages"
PHOTOS: Final = "photos"
ARTWORK: Final = "artwork"
PICTURES: Final = (".avif", ".jpeg", ".jpg", ".png", ".tif", ".tiff", ".webp")
PICTURES_OF_PHONES: Final = (".heic", ".heif")
"""Found like the others, and refused when opened, with the format to save them in."""

_TITLE: Final = re.compile(r"^# +(\S.*)$", re.MULTILINE)


def read_pages(gathering: Gathering) -> dict[str, Page]:
    """Every page by its id; its Markdown with an empty line where its title was."""
    ids = (name.removesuffix(".md") for name in gathering.names(PAGE_FOLDER) if name.endswith(".md"))
    return gathering.sound("page", ((id_, gathering.read(f"{PAGE_FOLDER}/{id_}.md", _page)) for id_ in ids))


def photo_names(gathering: Gathering) -> frozenset[str]:
    """The names of the existing pictures that may be opened."""
    endings = (*PICTURES, *PICTURES_OF_PHONES)
    names = [name for name in gathering.names(PHOTOS) if name.lower().endswith(endings)]
    there = [name for name in names if gathering.may_be_read(f"{PHOTOS}/{name}", PHOTO_FILE)]
    gathering.broken |= {("photo", name) for name in names if name not in there}
    return gathering.remember((PHOTOS, *there), lambda: frozenset(there))


def artwork_names(gathering: Gathering) -> frozenset[str]:
    """The names of the existing drawings for product labels."""
    names = [name for name in gathering.names(ARTWORK) if name.endswith(".svg")]
    there = [name for name in names if gathering.may_be_read(f"{ARTWORK}/{name}", DRAWING_FILE)]
    return gathering.remember((ARTWORK, *there), lambda: frozenset(there))


def _page(file: SourceFile) -> Page | None:
    text = file.text()
    if text is None or not file.is_id(file.start, file.stem):
        return None
    text = "\n".join(text.splitlines())
    shown = blanked(text)
    title = _TITLE.search(shown)
    if title is None:
        file.note(
            file.start,
            what="the page has no title",
            why="its link and the browser tab would be empty",
            fix="write # and the title as the first line",
        )
        return None
    file.by_lines()
    start, end = title.span()
    # A comment in the title's line stays with the rest, since it may continue below.
    hidden = "".join(sign for sign, seen in zip(text[start:end], title[0], strict=True) if sign != seen)
    return Page(
        id=file.stem, title=" ".join(title[1].split()), markdown=(text[:start] + hidden + text[end:]).rstrip()
    )

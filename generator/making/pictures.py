"""Photos and link-preview pictures, each made once and kept in the store; and the maker's own drawings."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path, PurePosixPath

from generator.document import Card
from generator.documents.house import Rendition
from generator.documents.pages.preview_cards import card_file
from generator.files import PHOTO_FILE, read_file
from generator.making.progress import Progress
from generator.model.shop import Shop
from generator.problems import Place, Problem
from generator.reading.artwork import read_artwork
from generator.writing.card_pictures import card_settings_digest, draw_card
from generator.writing.photos import BadPicture, Picture, check_embedded, develop, settings_digest
from generator.writing.program import program_digest
from generator.writing.store import Store, digest

_ENDINGS = {"jpeg": "jpg", "webp": "webp"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Photos:
    """The photos that pages show: how they show them, and their files below the site."""

    renditions: Mapping[str, tuple[Rendition, ...]]
    files: Mapping[str, bytes]


def developed(shop: Shop, content: Path, store: Store) -> Photos:
    """Every photo that pages show, at the widths a page asks for; `load_shop` has found no fault in any."""
    renditions: dict[str, tuple[Rendition, ...]] = {}
    files: dict[str, bytes] = {}
    shown = shop.photos_shown()
    progress = Progress("photos", len(shown))
    for name in shown:
        try:
            pictures = _developed(read_file(content / "photos" / name, PHOTO_FILE), store)
        except BadPicture as bad:
            raise OSError(f"photo '{name}' was altered just now and {bad.reason}") from bad
        named = [(_published(name, picture), picture) for picture in pictures]
        files |= {f"site/{path_}": picture.data for path_, picture in named}
        renditions[name] = tuple(
            Rendition(path=path_, width=picture.width, height=picture.height, format=picture.format)
            for path_, picture in named
        )
        progress.step()
    progress.end()
    return Photos(renditions=renditions, files=files)


def printable(file: Path, shown: str) -> str | Problem:
    """The drawing as it is written, or what is wrong with it or with a picture embedded in it."""
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
                why="the front of the candle would be printed without it",
                write="the drawing with a smaller picture in it, saved again",
            )
    return artwork.svg


def preview_pictures(cards: Mapping[str, Card], store: Store) -> Mapping[str, bytes]:
    """The link-preview pictures by path, for the pages they stand for."""
    shelf = store.large("cards")
    return {
        f"site/{card_file(page).path}": shelf.remember(
            digest(program_digest(), card_settings_digest(), repr(card)), partial(draw_card, card)
        )
        for page, card in cards.items()
    }


def _published(name: str, picture: Picture) -> str:
    """A name that changes with the bytes, so that browsers may keep the file for ever."""
    stem = PurePosixPath(name).stem.lower().replace(" ", "-")
    return f"photos/{stem}-{picture.width}.{digest(picture.data)[:8]}.{_ENDINGS[picture.format]}"


def _developed(source: bytes, store: Store) -> tuple[Picture, ...]:
    key = digest(settings_digest(), source)
    return _unpacked(store.large("photos").remember(key, lambda: _packed(develop(source))))


def _packed(pictures: tuple[Picture, ...]) -> bytes:
    """One line that lists the pictures, then their bytes one after another."""
    listed = [[one.width, one.height, one.format, len(one.data)] for one in pictures]
    return json.dumps(listed).encode() + b"\n" + b"".join(one.data for one in pictures)


def _unpacked(packed: bytes) -> tuple[Picture, ...]:
    head, _, body = packed.partition(b"\n")
    pictures, start = [], 0
    for width, height, format_, length in json.loads(head):
        data = body[start : start + length]
        pictures.append(Picture(width=width, height=height, format=format_, data=data))
        start += length
    return tuple(pictures)

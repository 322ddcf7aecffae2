"""What belongs where below the content folder, so that nothing the maker wrote is silently ignored."""

from collections.abc import Mapping
from typing import Final

from generator.model.accepted import check_of
from generator.problems import Problem, Severity
from generator.reading.burn_test_tables import BURN_TESTS
from generator.reading.entries import COLLECTIONS, COMPOSED, FOLDERS, MAKER
from generator.reading.gathering import Gathering
from generator.reading.issued_sheets import SHEETS
from generator.reading.lot_book import LOTS, POURED
from generator.reading.meant import nearest
from generator.reading.page_files import ARTWORK, PAGE_FOLDER, PHOTOS, PICTURES, PICTURES_OF_PHONES
from generator.reading.publish_file import PUBLISH
from generator.reading.trade_files import BUYERS, LINKS, PRICES, TERMS, TRADE
from generator.reading.ufi_book import UFI_BOOK

_ENDINGS: Final[Mapping[str, tuple[str, ...]]] = {
    **{folder.name: (".yaml",) for folder in FOLDERS},
    **{folder.name: (".yaml", ".csv") for folder in COMPOSED},
    BURN_TESTS: (".csv", ".yaml"),
    PAGE_FOLDER: (".md",),
    PHOTOS: PICTURES,
    ARTWORK: (".svg",),
    SHEETS: (".yaml",),
    POURED: (".yaml",),
}
_OF_THE_TRADE: Final = tuple(file.removeprefix(f"{TRADE}/") for file in (TERMS, BUYERS, LINKS))
_KNOWN: Final = (MAKER, COLLECTIONS, LOTS, PRICES, PUBLISH, TRADE, UFI_BOOK, *_ENDINGS)


def note_unread(gathering: Gathering) -> None:
    """Note every name that no reader looks for; call this after all have read."""
    for name in gathering.names("."):
        if name not in _KNOWN:
            _unread(
                gathering,
                name,
                nearest(name, _KNOWN) or f"rename it to one of {', '.join(_KNOWN)}, or delete it",
            )
    for name in gathering.names(TRADE):
        if name not in _OF_THE_TRADE:
            near = nearest(name, _OF_THE_TRADE)
            _unread(
                gathering,
                f"{TRADE}/{name}",
                near or f"rename it to one of {', '.join(_OF_THE_TRADE)}, or delete it",
            )
    for folder in (TRADE, *_ENDINGS):
        if gathering.has(folder) and not gathering.is_folder(folder):
            gathering.note(
                gathering.places.of((folder,)),
                what=f"'{folder}' is not a folder",
                why="its entries would be missing from every paper",
                fix=f"make a folder of this name for the entries, or delete {folder}",
            )
    for folder, endings in _ENDINGS.items():
        for name in gathering.names(folder):
            _note_in_folder(gathering, f"{folder}/{name}", endings)


def _note_in_folder(gathering: Gathering, file: str, endings: tuple[str, ...]) -> None:
    stem, _, ending = file.rpartition(".")
    if gathering.is_folder(file):
        _unread(gathering, file, f"move its files into {file.partition('/')[0]}/ itself")
    elif ".yaml" in endings and ending != "yaml" and ending.lower() in ("yml", "yaml"):
        gathering.note(
            gathering.places.of((file,)),
            what=f"the file name ends in .{ending}",
            why="two files could be the same entry, and only one would be read",
            fix=f"rename it to {stem}.yaml",
        )
    elif endings is PICTURES and file.lower().endswith(PICTURES_OF_PHONES):
        pass  # Told where a candle names it.
    elif not file.lower().endswith(endings):
        _unread(gathering, file, f"rename it so that it ends in {' or '.join(endings)}, or delete it")
    elif file.endswith(".csv") and not file.startswith(BURN_TESTS) and not gathering.is_named(file):
        _unread(gathering, file, f"composition: {file.partition('/')[2]} in an entry beside it")


def _unread(gathering: Gathering, file: str, fix: str) -> None:
    """A file with keys is nearly always an entry in the wrong place: leaving it unread is never right."""
    gathering.problems.append(
        Problem(
            place=gathering.places.of((file,)),
            what=f"'{file}' is not read",
            why="its contents would be missing from every paper",
            fix=fix,
            severity=Severity.WARNING,
            check=None if file.endswith(".yaml") else check_of("unread", file),
        )
    )

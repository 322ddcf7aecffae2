"""Ids that one entry refers to and another must have."""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Final, Protocol

from generator.model.burn_tests import BurnTest, TestedAs
from generator.model.candle import Candle
from generator.model.formats import Format, Shared
from generator.model.shop import Shop
from generator.model.sizes import Like, Size
from generator.problems import Fault, Path

IsBroken = Callable[[str, str], bool]
"""Whether an entry of a kind and id exists but has faults; it is known, not missing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Folder:
    """One sort of entry: its name, where its files are, which exist, and what a missing one would spoil.

    ``ids`` maps each id to its entry's name. ``kinds`` are the words under which broken entries are known.
    """

    name: str
    where: str
    ids: Mapping[str, str]
    why: str
    kinds: tuple[str, ...] = ()
    is_broken: IsBroken = lambda _kind, _id: False

    def has(self, id_: str) -> bool:
        """Whether the id has an entry, even one with faults."""
        return id_ in self.ids or any(self.is_broken(kind, id_) for kind in self.kinds)


def reference_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Every reference to an id that does not exist, at its place."""
    folders = folders_of(shop, is_broken)
    for id_, format_ in shop.formats.items():
        yield from _shared((f"formats/{id_}.yaml",), format_, folders)
    for id_, candle in shop.candles.items():
        yield from _candle(f"candles/{id_}.yaml", candle, folders)
    for file, test in shop.burn_tests.items():
        yield from _burn_test(file, test, folders)


def folders_of(shop: Shop, is_broken: IsBroken) -> Mapping[str, Folder]:
    """Each sort of entry by its name."""
    ids: Mapping[str, Mapping[str, str]] = {
        "collection": _names(shop.collections),
        "format": {id_: each.name or id_ for id_, each in shop.formats.items()},
        "vessel": _names(shop.vessels),
        "wick": _names(shop.wicks),
        "ingredient": _names(shop.ingredients),
        "burn test": {id_: id_ for id_ in shop.burn_tests},
        "photo": {id_: id_ for id_ in shop.photos},
        "stock code": {
            size.stock_code: size.stock_code for candle in shop.candles.values() for size in candle.sizes
        },
    }
    return {
        kind: Folder(name=name, where=where, ids=ids[kind], why=why, kinds=words, is_broken=is_broken)
        for kind, (name, where, why, words) in _FOLDERS.items()
    }


class _Named(Protocol):
    @property
    def name(self) -> str: ...


def _names(entries: Mapping[str, _Named]) -> dict[str, str]:
    return {id_: each.name for id_, each in entries.items()}


_NO_WEIGHT: Final = "the candle would be printed without a net weight"
_UNTESTED: Final = "the hours would be printed as untested"
_FOLDERS: Final = {
    "collection": (
        "collection",
        "content/collections.yaml",
        "the candle would be in no collection of the catalogue",
        ("collection",),
    ),
    "format": ("format", "content/formats", _NO_WEIGHT, ("format",)),
    "vessel": ("vessel", "content/vessels", _NO_WEIGHT, ("vessel",)),
    "wick": ("wick", "content/wicks", "the burn hours depend on the wick", ("wick",)),
    "ingredient": (
        "wax, fragrance, additive or dye",
        "content/waxes, fragrances, additives or dyes",
        "the recipe's weights and warnings would lack an ingredient",
        ("wax", "fragrance", "additive", "dye"),
    ),
    "burn test": ("burn test", "content/burn-tests", _UNTESTED, ("burn-test",)),
    "stock code": ("stock code", "content/candles", _UNTESTED, ("stock-code",)),
    "photo": ("photo", "content/photos", "the page would show an empty frame", ("photo",)),
}
"""Each sort of entry: its name, where its files are, what a missing one would spoil, how a broken one is known."""


def id_faults(path: Path, written: str, folder: Folder) -> Iterator[Fault]:
    """The fault of an id without an entry."""
    if folder.has(written):
        return
    yield Fault(
        path=path,
        what=f"there is no {folder.name} '{written}' in {folder.where}",
        why=folder.why,
        fix=_offered(path, written, folder),
    )


def _offered(path: Path, written: str, folder: Folder) -> str:
    """The most similar ids, else the existing ones, after the key where one line has both."""
    ids = _nearest(written, folder.ids) or sorted(folder.ids)[:_MOST_LISTED]
    if not ids:
        kinds = {".yaml": "a key of", ".csv": "a name listed in"}
        kind = next((told for ending, told in kinds.items() if folder.where.endswith(ending)), None)
        return f"{kind or 'the name of a file in'} {folder.where}"
    in_table = str(path[0]).endswith(".csv")
    has_key = isinstance(path[-1], str) and path[-1] != written and not in_table
    return f"{path[-1]}: {', or '.join(ids)}" if has_key else ", or ".join(ids)


def _nearest(written: str, ids: Mapping[str, str]) -> list[str]:
    """The ids that are similar, or whose entry's name is, the most similar first, each once."""
    labels = {name.casefold(): id_ for id_, name in sorted(ids.items())} | {
        id_.casefold(): id_ for id_ in ids
    }
    alike = get_close_matches(written.casefold(), sorted(labels), n=_MOST_ALIKE)
    return list(dict.fromkeys(labels[label] for label in alike))


_MOST_ALIKE: Final = 2
_MOST_LISTED: Final = 5


def _shared(at: Path, shared: Shared | TestedAs, folders: Mapping[str, Folder]) -> Iterator[Fault]:
    if shared.vessel is not None:
        yield from id_faults((*at, "vessel"), shared.vessel, folders["vessel"])
    for wick in shared.wick or ():
        yield from id_faults((*at, "wick", wick), wick, folders["wick"])


def _ingredients(at: Path, ids: Collection[str], folders: Mapping[str, Folder]) -> Iterator[Fault]:
    for id_ in ids:
        yield from id_faults((*at, "ingredients", id_), id_, folders["ingredient"])


def _candle(file: str, candle: Candle, folders: Mapping[str, Folder]) -> Iterator[Fault]:
    yield from id_faults((file, "collection"), candle.collection, folders["collection"])
    yield from _ingredients((file,), candle.ingredients, folders)
    for number, size in enumerate(candle.sizes):
        yield from _size((file, "sizes", number), size, folders)


def _size(at: Path, size: Size, folders: Mapping[str, Folder]) -> Iterator[Fault]:
    if size.format is not None:
        yield from id_faults((*at, "format"), size.format, folders["format"])
    yield from _shared(at, size, folders)
    yield from _ingredients(at, size.ingredients or (), folders)
    for number, photo in enumerate(size.photos):
        yield from id_faults((*at, "photos", number), photo, folders["photo"])
    if isinstance(size.burn_time, Like):
        yield from id_faults((*at, "burn_time", "like"), size.burn_time.like, folders["stock code"])
        return
    for path, file in burn_test_files(at, size):
        yield from id_faults(path, file, folders["burn test"])


def burn_test_files(at: Path, size: Size) -> tuple[tuple[Path, str], ...]:
    """The burn tests a size names, each with the path of its name."""
    written = size.burn_time
    if written is None or isinstance(written, Like):
        return ()
    if isinstance(written, str):
        return (((*at, "burn_time"), written),)
    return tuple(((*at, "burn_time", number), file) for number, file in enumerate(written))


def _burn_test(file: str, test: BurnTest, folders: Mapping[str, Folder]) -> Iterator[Fault]:
    tested_as = test.notes.tested_as if test.notes else None
    if tested_as is None:
        return
    at = (f"{file.removesuffix('.csv')}.yaml", "tested_as")
    for fault in (*_shared(at, tested_as, folders), *_ingredients(at, tested_as.ingredients, folders)):
        yield replace(fault, why=_COUNTS, fix=_AS_TESTED)


_COUNTS: Final = "whether the test counts for a candle depends on it"
_AS_TESTED: Final = "keep an entry for what was tested, under this name; a test keeps what it was made with"


_NOTHING_SHARED: Final = Shared()


def formats_and_sizes(shop: Shop) -> Iterator[tuple[Path, Format | Size]]:
    """Everything that may have a format's keys, with its path."""
    yield from (((f"formats/{id_}.yaml",), format_) for id_, format_ in shop.formats.items())
    yield from ((at, size) for at, _, size, _ in sizes(shop))


def sizes(shop: Shop) -> Iterator[tuple[Path, Candle, Size, Shared]]:
    """Every size with its path, its candle, and the format it takes keys from."""
    for id_, candle in shop.candles.items():
        for number, size in enumerate(candle.sizes):
            yield (
                (f"candles/{id_}.yaml", "sizes", number),
                candle,
                size,
                shop.formats.get(size.format or "", _NOTHING_SHARED),
            )

"""Entries in YAML: the maker, the collections, and the folders where each file is one entry."""

from dataclasses import dataclass, replace
from typing import Any, Final, Generic, TypeVar

from generator.model.candle import Candle
from generator.model.formats import Format
from generator.model.label_stock import LabelStock
from generator.model.lots import Recall
from generator.model.maker import Collection, Maker
from generator.model.materials import Additive, Constituent, Dye, Fragrance, Wax, Wick
from generator.model.vessel import Vessel
from generator.problems import Path
from generator.reading.faults import Thing
from generator.reading.gathering import ANY, Gathering
from generator.reading.languages import label_languages, languages, note_unspoken
from generator.reading.source_file import SourceFile

MAKER: Final = "maker.yaml"
COLLECTIONS: Final = "collections.yaml"

Composed = TypeVar("Composed", Fragrance, Additive, Dye)


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryFolder(Generic[Thing]):
    """One folder of entries: its name, the word for one of them, its type."""

    name: str
    word: str
    kind: type[Thing]


WAXES: Final = EntryFolder(name="waxes", word="wax", kind=Wax)
FRAGRANCES: Final = EntryFolder(name="fragrances", word="fragrance", kind=Fragrance)
ADDITIVES: Final = EntryFolder(name="additives", word="additive", kind=Additive)
DYES: Final = EntryFolder(name="dyes", word="dye", kind=Dye)
WICKS: Final = EntryFolder(name="wicks", word="wick", kind=Wick)
VESSELS: Final = EntryFolder(name="vessels", word="vessel", kind=Vessel)
FORMATS: Final = EntryFolder(name="formats", word="format", kind=Format)
CANDLES: Final = EntryFolder(name="candles", word="candle", kind=Candle)
RECALLS: Final = EntryFolder(name="recalls", word="recall", kind=Recall)
LABEL_STOCK: Final = EntryFolder(name="label-stock", word="label-stock", kind=LabelStock)
COMPOSED: Final = (FRAGRANCES, ADDITIVES, DYES)
FOLDERS: Final[tuple[EntryFolder[Any], ...]] = (
    WAXES, *COMPOSED, WICKS, VESSELS, FORMATS, CANDLES, RECALLS, LABEL_STOCK,
)  # fmt: skip


def read_maker(gathering: Gathering) -> Maker | None:
    """The maker's entry, without which no paper could say whose candles they are."""
    if not gathering.has(MAKER):
        gathering.note(
            gathering.places.of((MAKER,)),
            what=f"{MAKER} is missing",
            why="no paper could say who made the candles",
            fix=f"create {MAKER} with the keys name, address, country, email, markets and currency",
        )
        return None
    maker = gathering.read(MAKER, _maker)
    if maker is not None:
        at, why = (MAKER, "language"), "the pages could not be printed"
        note_unspoken(gathering, at, maker.language, languages(), why)
        for market, spoken in maker.label_languages.items():
            for place, language in enumerate(spoken):
                label, why = (MAKER, "label_languages", market, place), "its labels could not be printed"
                note_unspoken(gathering, label, language, label_languages(), why)
    return maker


def read_collections(gathering: Gathering) -> dict[str, Collection]:
    """The shelves: each key is a collection's id."""
    if not gathering.has(COLLECTIONS) and gathering.names(CANDLES.name):
        gathering.note(
            gathering.places.of((COLLECTIONS,)),
            what="the file is missing",
            why="every candle is listed under a collection",
            fix="add a key for each collection your candles name, with name: and opening_order: below it",
        )
    collections = gathering.read(COLLECTIONS, _collections) if gathering.has(COLLECTIONS) else None
    if collections is None:
        gathering.broken.add(("collection", ANY))
    return gathering.sound("collection", (collections or {}).items())


def read_folder(gathering: Gathering, folder: EntryFolder[Thing]) -> dict[str, Thing]:
    """Every entry of one folder by its id, which is its file's name without the ending."""
    names = (name for name in gathering.names(folder.name) if name.lower().endswith((".yaml", ".yml")))
    read = (
        (name.rpartition(".")[0], gathering.read(f"{folder.name}/{name}", _entry, folder)) for name in names
    )
    return gathering.sound(folder.word, read)


def read_composed(gathering: Gathering, folder: EntryFolder[Composed]) -> dict[str, Composed]:
    """The entries of a folder whose composition may be in a table beside them."""
    entries = read_folder(gathering, folder)
    read = ((id_, _composed(gathering, folder.name, entry)) for id_, entry in entries.items())
    return gathering.sound(folder.word, read)


def _maker(file: SourceFile) -> Maker | None:
    data = file.yaml()
    return None if data is None else file.valid(Maker, "the maker", (MAKER,), data)


def _collections(file: SourceFile) -> dict[str, Collection] | None:
    data = file.yaml()
    if data is None:
        return None
    return file.sound("collection", ((id_, _collection(file, id_, written)) for id_, written in data.items()))


def _collection(file: SourceFile, id_: str, written: Any) -> Collection | None:
    collection = file.valid(Collection, "a collection", (COLLECTIONS, id_), written)
    return collection if file.is_id(file.places.key((COLLECTIONS, id_)), id_) else None


def is_without_id(file: SourceFile, at: Path, data: dict[str, Any]) -> bool:
    """Whether an entry leaves its id to its file name or key; notes a fault where it does not."""
    if "id" not in data:
        return True
    name = "file's name" if len(at) == 1 else "key"
    file.note(
        file.places.key((*at, "id")),
        what="'id' is written inside the entry",
        why=f"the {name} is already the id, and the two could differ",
        fix=f"delete this line; to change the id, change the {name}",
    )
    return False


def _entry(file: SourceFile, folder: EntryFolder[Thing]) -> Thing | None:
    is_named_well = file.name.endswith(".yaml") and file.is_id(file.start, file.stem)
    data = file.yaml() if is_named_well else None
    entry = None
    if data is not None and is_without_id(file, (file.name,), data):
        entry = file.valid(folder.kind, _a(folder.word), (file.name,), {**data, "id": file.stem})
    if entry is None and folder.kind is Candle:
        file.broken |= {("stock-code", code) for code in _stock_codes(data)}
    return entry


def _stock_codes(candle: dict[str, Any] | None) -> tuple[str, ...]:
    """The stock codes of a candle with faults, as far as they can be read."""
    sizes = None if candle is None else candle.get("sizes")
    if not isinstance(sizes, list):
        return (ANY,)
    codes = (size.get("stock_code") for size in sizes if isinstance(size, dict))
    return tuple(code for code in codes if isinstance(code, str))


def _composed(gathering: Gathering, folder: str, entry: Composed) -> Composed | None:
    """The entry with its composition, whose table it may name."""
    if not isinstance(entry.composition, str):
        return entry
    path = (f"{folder}/{entry.id}.yaml", "composition")
    file = f"{folder}/{entry.composition}"
    if gathering.has(file):
        gathering.stands_in(path, file)
        composition = gathering.read(file, SourceFile.table, Constituent)
        if composition is None:
            return None
        return gathering.remember((entry, composition), lambda: replace(entry, composition=composition))
    gathering.note(
        gathering.places.of(path),
        what=f"there is no table '{entry.composition}' beside this entry",
        why="without a composition the hazards are unknown and no label can be made",
        fix=f"composition: {entry.id}.csv, with that file in {folder}/",
    )
    return None


def _a(word: str) -> str:
    return f"an {word}" if word.startswith(("a", "o")) else f"a {word}"

"""What has changed since a sheet was issued: in the record, on the paper, and what follows from it."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from generator.facts.gather import Gathered
from generator.ledgers.record import record_of
from generator.ledgers.sheet import flattened, is_on_labels
from generator.ledgers.standing import SheetState, in_terms_of
from generator.model.burn_safety import Sheet, sheet_as_json
from generator.model.canonical import Plain, parsed
from generator.model.entry import entry_key
from generator.model.ledger import Issued
from generator.model.maker import contact_path
from generator.problems import Path

_OF_THE_MAKER: Final = frozenset(
    {"markets", "currency", "scale_step_g", "as_of", "prices_include_tax_percent"}
)
_OF_THE_SCENT: Final = frozenset({"scent", "collection", "added"})


def origin_of(gathered: Gathered, way: tuple[str, ...]) -> Path:
    """The path of a field of the record, such as ``("build", "vessel", "wall_mm")``, in the maker's files."""
    match way:
        case ("build", *rest):
            return _of_the_build(gathered, tuple(rest))
        case ("tests", file, "sessions"):
            return (file,)
        case ("tests", file, *rest):
            return (f"{file.rpartition('.')[0]}.yaml", *_keys(rest))
        case (field,) if field in _OF_THE_SCENT:
            return (f"candles/{gathered.recorded.candle}.yaml", field)
        case (field, *_) if field in _OF_THE_MAKER:
            return ("maker.yaml", entry_key(field))
    return gathered.origin(_keys(way))


def _of_the_build(gathered: Gathered, way: tuple[str, ...]) -> Path:
    """What is physically made: each material, the vessel and the wick have their own files."""
    match way:
        case ("formula", _, name, "amount"):
            return gathered.origin(("formula", name))
        case ("formula", folder, name, "material", *rest):
            return (f"{folder}/{name}.yaml", *_keys(rest))
        case ("wicks", name, "wick", *rest):
            return (f"wicks/{name}.yaml", *_keys(rest))
        case ("wicks", *_):
            return gathered.origin(("wick",))
        case ("cure_h",):
            return gathered.origin(("make", "cure"))
    return gathered.origin(_keys(way))


def _keys(fields: Sequence[str]) -> Path:
    return tuple(entry_key(field) for field in fields)


_Way = tuple[str, ...]

_STANDS_FOR_ALL: Final = {
    ("build", "formula"): (4, "amount"),
    ("build", "wicks"): (3, "count"),
    ("tests",): (2, "file"),
}
"""Lists of named things: how many keys lead to one, and the one text that represents it when added or removed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One text that changed; None where there was or is nothing."""

    way: _Way
    was: str | None
    now: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Statements:
    """The hazard statements added and removed in one market, by code."""

    market: str
    came: tuple[str, ...]
    went: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A sheet that differs from its revision in force.

    ``recorded`` names the fields of the record, each with the path at which a maker writes it.
    """

    stock_code: str
    issued: Issued
    recorded: tuple[tuple[Difference, Path], ...]
    printed: tuple[Difference, ...]
    statements: tuple[Statements, ...]
    labels_are_untrue: bool


def change_of(state: SheetState, gathered: Gathered) -> Change | None:
    """What changed since the revision in force; None if nothing did, or none was ever issued.

    A new edition of the words or a new name of a law is no change: it makes no label untrue.
    """
    issued = state.issued
    if issued is None or state.status == "issued":
        return None
    printed = differences(parsed(issued.said), parsed(sheet_as_json(in_terms_of(issued, state.value))))
    of_the_house = tuple(_of_the_house(printed))
    recorded = _without_the_clock(
        differences(issued.record, record_of(gathered.recorded)), explained=bool(of_the_house)
    )
    return Change(
        stock_code=gathered.recorded.stock_code,
        issued=issued,
        recorded=(
            *((each, origin_of(gathered, each.way)) for each in recorded),
            *of_the_house,
        ),
        printed=printed,
        statements=tuple(_statements(issued.value, state.value)),
        labels_are_untrue=_labels_are_untrue(issued.value, state.value, printed),
    )


def differences(was: Plain, now: Plain) -> tuple[Difference, ...]:
    """Every text that differs, in the order of its keys; a thing added or removed as a whole is listed once."""
    before, after = dict(flattened(was)), dict(flattened(now))
    found = (
        Difference(way=way, was=before.get(way), now=after.get(way))
        for way in sorted(before.keys() | after.keys())
        if before.get(way) != after.get(way)
    )
    return tuple(each for each in found if _tells(each, before.keys(), after.keys()))


def _tells(each: Difference, before: Collection[_Way], after: Collection[_Way]) -> bool:
    """Whether a difference adds information: for a thing added or removed as a whole, one text is enough."""
    for beginning, (length, telling) in _STANDS_FOR_ALL.items():
        whole = each.way[:length]
        if each.way[: len(beginning)] == beginning and len(each.way) >= length:
            there = [any(way[:length] == whole for way in ways) for ways in (before, after)]
            return all(there) or each.way[length:] == (telling,)
    return True


def _without_the_clock(found: tuple[Difference, ...], *, explained: bool) -> tuple[Difference, ...]:
    """The shop's day is listed only where nothing else explains a change."""
    rest = tuple(each for each in found if each.way != ("as_of",))
    return rest if rest or explained else found


def _of_the_house(printed: tuple[Difference, ...]) -> Iterator[tuple[Difference, Path]]:
    """What a sheet says of the maker, which is in no candle's record."""
    for each in printed:
        match each.way:
            case ("maker", key, *_) | ("language" as key,):
                yield each, ("maker.yaml", key)
            case ("contacts", market, *rest):
                yield each, ("maker.yaml", *contact_path(market), *rest)


def _labels_are_untrue(was: Sheet, now: Sheet, printed: tuple[Difference, ...]) -> bool:
    """Whether a label changes; an estimated quantity is on no label."""
    is_printed = "proven" in (was.net_quantity_basis, now.net_quantity_basis)
    return any(
        is_on_labels(each.way) and (is_printed or not each.way[0].startswith("net_quantity"))
        for each in printed
    )


def _statements(was: Sheet, now: Sheet) -> Iterator[Statements]:
    for market in sorted(was.hazards.keys() | now.hazards.keys()):
        old, new = (label.codes if (label := one.hazards.get(market)) else () for one in (was, now))
        if old != new:
            came, went = (tuple(code for code in a if code not in b) for a, b in ((new, old), (old, new)))
            yield Statements(market=market, came=came, went=went)

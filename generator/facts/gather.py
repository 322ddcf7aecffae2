"""From the shop's entries to one `Recorded` a stock code, remembering which file each part came from."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from itertools import chain
from typing import Any, TypeVar

from generator.memory import Remembered, digest
from generator.model.amounts import Amount
from generator.model.burn_tests import BurnTest, TestedAs
from generator.model.candle import Candle
from generator.model.entry import entry_key
from generator.model.formats import Format, Shared, Trade
from generator.model.kinds import KINDS, Kind
from generator.model.materials import Additive, Dye, Fragrance, Wax, Wick
from generator.model.recorded import Build, Formula, Material, Portion, Recorded, Test, WickUse
from generator.model.shop import Shop
from generator.model.sizes import BurnTime, DeclaredPair, Like, Size
from generator.model.vessel import Vessel
from generator.problems import Path
from generator.rules.references import burn_test_files

_Entry = TypeVar("_Entry", Wax, Fragrance, Additive, Dye, Vessel, Wick)
_Value = TypeVar("_Value")


@dataclass(frozen=True, kw_only=True)
class Gathered:
    """One stock code's record, and for each part of it the file and path it was written at.

    ``origins`` are found only when asked for, which is seldom.
    """

    recorded: Recorded
    origins: Callable[[], Mapping[Path, Path]] = field(compare=False, repr=False)

    @cached_property
    def key(self) -> str:
        """The digest of the record: everything its figures depend on."""
        return digest(repr(self.recorded))

    def origin(self, path: Path) -> Path:
        """Where a path of `Recorded` was written: the longest known beginning, then the rest."""
        origins = self.origins()
        for length in range(len(path), -1, -1):
            if path[:length] in origins:
                return (*origins[path[:length]], *path[length:])
        raise KeyError(path)


@dataclass(frozen=True)
class _Writing:
    """A size as written, with its format if that exists."""

    candle: Candle
    number: int
    format: Format | None

    @property
    def size(self) -> Size:
        return self.candle.sizes[self.number]

    @property
    def at(self) -> Path:
        return (f"candles/{self.candle.id}.yaml", "sizes", self.number)

    @property
    def given(self) -> Shared:
        return self.format or Shared()

    @cached_property
    def shared(self) -> Shared:
        """The keys a format gives to its sizes, each replaced where the size has its own."""
        size, given = self.size, self.given
        return Shared(
            kind=_first(size.kind, given.kind),
            vessel=_first(size.vessel, given.vessel),
            wick=_first(size.wick, given.wick),
            fill=_first(size.fill, given.fill),
            price=_first(size.price, given.price),
            trade=_first(size.trade, given.trade),
            packaging_g=_first(size.packaging_g, given.packaging_g),
            packaging_price=_first(size.packaging_price, given.packaging_price),
            labour_h=_first(size.labour_h, given.labour_h),
            cased=_first(size.cased, given.cased),
            hs=_first(size.hs, given.hs),
            looks_like_food=_first(size.looks_like_food, given.looks_like_food),
        )

    def origin(self, field: str) -> Path:
        """Where a shared key was written: in the size, else in its format, else it is missing from the size."""
        if getattr(self.size, field) is None and getattr(self.given, field) is not None:
            return (f"formats/{self.size.format}.yaml", entry_key(field))
        return (*self.at, entry_key(field))


def shared_keys(shop: Shop) -> Mapping[str, Shared]:
    """Every stock code's values for the keys a format may give, including those in no record."""
    return {
        writing.size.stock_code: writing.shared
        for candle in shop.candles.values()
        for writing in _writings(shop, candle)
    }


def _writings(shop: Shop, candle: Candle) -> tuple[_Writing, ...]:
    """Every size of a candle."""
    formats = (shop.formats.get(size.format or "") for size in candle.sizes)
    return tuple(_Writing(candle, number, format_) for number, format_ in enumerate(formats))


def _first(own: _Value | None, given: _Value | None) -> _Value | None:
    return given if own is None else own


def gather(shop: Shop, shelf: Remembered[Any] | None = None) -> Iterator[Gathered]:
    """Every stock code whose entries exist and are complete; ``rules.checks`` reports what is missing.

    With an earlier shelf, a candle whose own entry and all entries that it names are the very same objects
    gives the very same records.
    """
    shelf = shelf or Remembered()
    bearing = _without_private_keys(shop, shelf)
    written = [(candle, _writings(shop, candle)) for candle in shop.candles.values()]
    by_code = _by_code(chain.from_iterable(writings for _, writings in written))
    for candle, writings in written:
        sizes = tuple((writing, by_code.get(_borrowed(writing))) for writing in writings)
        named = chain.from_iterable(_named(bearing, *size) for size in sizes)
        each = {id(entry): entry for entry in named if entry is not None}.values()
        inputs = ("gathered", shop.maker, shop.as_of.isoformat(), candle, *each)
        yield from shelf.remember(inputs, partial(_all_gathered, bearing, sizes))


def _all_gathered(shop: Shop, sizes: Iterable[tuple[_Writing, _Writing | None]]) -> tuple[Gathered, ...]:
    return tuple(filter(None, (_gathered(shop, *size) for size in sizes)))


def _by_code(writings: Iterable[_Writing]) -> Mapping[str | None, _Writing]:
    """Where each stock code is written first."""
    first: dict[str | None, _Writing] = {}
    for writing in writings:
        first.setdefault(writing.size.stock_code, writing)
    return first


def _borrowed(writing: _Writing) -> str | None:
    """The stock code from which a size borrows its burn tests."""
    written: BurnTime | None = writing.size.burn_time
    return written.like if isinstance(written, Like) else None


def _named(shop: Shop, writing: _Writing, like: _Writing | None) -> Iterator[object]:
    """Every entry that a size's record is made from, besides its own and the maker's; None for a missing one."""
    shared = writing.shared
    yield writing.format
    yield from _named_in_build(shop, shared.vessel, shared.wick, writing.candle.ingredients)
    yield from _ingredients(shop, writing.size.ingredients or ())
    yield like and like.candle
    for _, file in _tests_of(writing, like):
        test = shop.burn_tests.get(file)
        yield test
        if test is not None and test.notes is not None and test.notes.tested_as is not None:
            tested_as = test.notes.tested_as
            yield from _named_in_build(shop, tested_as.vessel, tested_as.wick, tested_as.ingredients)


def _named_in_build(
    shop: Shop, vessel: str | None, wicks: Iterable[str] | None, ingredients: Iterable[str]
) -> Iterator[object]:
    yield shop.vessels.get(vessel or "")
    yield from map(shop.wicks.get, wicks or ())
    yield from _ingredients(shop, ingredients)


def _ingredients(shop: Shop, ids: Iterable[str]) -> Iterator[object]:
    for entries in (shop.waxes, shop.fragrances, shop.additives, shop.dyes):
        yield from map(entries.get, ids)


def _gathered(shop: Shop, writing: _Writing, like: _Writing | None) -> Gathered | None:
    """A missing or unknown kind is reported elsewhere; treated as the usual one, it hides no other fault."""
    asked = writing.shared.kind or Kind.CONTAINER
    kind = asked if asked in KINDS else Kind.CONTAINER
    build = _build(shop, writing, kind)
    if build is None:
        return None
    burn_tests = shop.burn_tests
    tests = tuple(
        (at, file) for at, file in _tests_of(writing, like) if _is_whole(shop, burn_tests.get(file), kind)
    )
    tested = tuple(_test(shop, burn_tests[file], kind) for _, file in tests)
    recorded = _recorded(shop, writing, build, kind, tested)
    return Gathered(recorded=recorded, origins=partial(_origins, writing, build.formula, tests))


def _recorded(shop: Shop, writing: _Writing, build: Build, kind: Kind, tests: tuple[Test, ...]) -> Recorded:
    candle, size, shared, maker = writing.candle, writing.size, writing.shared, shop.maker
    declared, trade = size.declared, shared.trade or Trade()
    return Recorded(
        stock_code=size.stock_code,
        candle=candle.id,
        scent=candle.scent,
        collection=candle.collection,
        size_name=(writing.format and writing.format.name) or shop.vessels[build.shape.id].name,
        kind=kind,
        status=size.status or candle.status,
        build=build,
        make=candle.make,
        weighed=size.weighed,
        declared_g=declared.g if isinstance(declared, DeclaredPair) else declared,
        declared_oz=declared.oz if isinstance(declared, DeclaredPair) else None,
        tests=tests,
        like=size.burn_time.like if isinstance(size.burn_time, Like) else None,
        claim_hours=size.claim_hours,
        longest_session_h=size.longest_session_h,
        price=shared.price,
        prices_include_tax_percent=maker.prices_include_tax_percent,
        trade_price=trade.price,
        case=trade.case,
        minimum=trade.minimum,
        packaging_g=shared.packaging_g,
        cased=shared.cased,
        barcode=size.barcode,
        ufi=size.ufi or (None if size.ingredients else candle.ufi),
        added=candle.added,
        markets=maker.markets,
        currency=maker.currency,
        scale_step_g=maker.scale_step_g,
        as_of=shop.as_of,
        own_label=size.own_label,
        hs=shared.hs,
        looks_like_food=shared.looks_like_food,
    )


def _build(shop: Shop, writing: _Writing, kind: Kind) -> Build | None:
    candle, size, shared = writing.candle, writing.size, writing.shared
    if shared.vessel is None or shared.fill is None:
        return None
    return _resolved(
        shop,
        TestedAs(
            vessel=shared.vessel,
            wick=shared.wick or {},
            fill=shared.fill,
            ingredients={**candle.ingredients, **(size.ingredients or {})},
            cure_h=candle.make.cure_h if candle.make else None,
        ),
        kind,
    )


def _resolved(shop: Shop, written: TestedAs, kind: Kind) -> Build | None:
    """Ids replaced by what they name; None where one of them is missing."""
    vessel = shop.vessels.get(written.vessel)
    if vessel is None or not all(id_ in shop.wicks for id_ in written.wick):
        return None
    formula = _formula(shop, written.ingredients)
    if formula is None:
        return None
    return Build(
        shape=vessel.wax_shape,
        container=None if KINDS[kind].stands_in == "nothing" else vessel,
        wicks=tuple(
            WickUse(wick=shop.wicks[id_], count=count) for id_, count in sorted(written.wick.items())
        ),
        fill=written.fill,
        formula=formula,
        cure_h=written.cure_h,
    )


def _formula(shop: Shop, written: Mapping[str, Amount]) -> Formula | None:
    """What is in the candle: an ingredient of which a size takes none is left out."""
    ingredients = {id_: amount for id_, amount in written.items() if amount.value}
    formula = Formula(
        waxes=_portions(shop.waxes, ingredients),
        fragrances=_portions(shop.fragrances, ingredients),
        additives=_portions(shop.additives, ingredients),
        dyes=_portions(shop.dyes, ingredients),
    )
    return formula if len(formula.portions) == len(ingredients) else None


def _portions(
    entries: Mapping[str, Material], ingredients: Mapping[str, Amount]
) -> tuple[Portion[Material], ...]:
    return tuple(
        Portion(material=entries[id_], amount=amount)
        for id_, amount in sorted(ingredients.items())
        if id_ in entries
    )


def _without_private_keys(shop: Shop, shelf: Remembered[Any]) -> Shop:
    """Notes and prices affect no figure of a candle: changing them must change no paper."""
    return replace(
        shop,
        waxes=_each_without(shop.waxes, shelf),
        fragrances=_each_without(shop.fragrances, shelf),
        additives=_each_without(shop.additives, shelf),
        dyes=_each_without(shop.dyes, shelf),
        vessels=_each_without(shop.vessels, shelf),
        wicks=_each_without(shop.wicks, shelf),
    )


def _each_without(entries: Mapping[str, _Entry], shelf: Remembered[Any]) -> Mapping[str, _Entry]:
    return {
        id_: shelf.remember(("bearing", entry), partial(_without, entry)) for id_, entry in entries.items()
    }


def _without(entry: _Entry) -> _Entry:
    return replace(entry, notes=None, price=None)


def _tests_of(writing: _Writing, like: _Writing | None) -> tuple[tuple[Path, str], ...]:
    """The burn tests of a size, its own or those of the stock code it borrows from."""
    of = writing if _borrowed(writing) is None else like
    return () if of is None else burn_test_files(of.at, of.size)


def _is_whole(shop: Shop, test: BurnTest | None, kind: Kind) -> bool:
    """Whether a test was read with everything it names; one that was not is reported separately."""
    tested_as = test.notes.tested_as if test and test.notes else None
    return test is not None and (tested_as is None or _resolved(shop, tested_as, kind) is not None)


def _test(shop: Shop, test: BurnTest, kind: Kind) -> Test:
    notes = test.notes
    tested_as = notes.tested_as if notes else None
    return Test(
        file=test.file,
        sessions=test.sessions,
        tested_as=_resolved(shop, tested_as, kind) if tested_as else None,
        inner_diameter_mm=tested_as.inner_diameter_mm if tested_as else None,
        tested_on=notes.tested_on if notes else None,
        by=notes.by if notes else None,
    )


def _origins(writing: _Writing, formula: Formula, tests: tuple[tuple[Path, str], ...]) -> Mapping[Path, Path]:
    """Where each part of a record was written, by the first steps of its path."""
    candle_file, size, at = writing.at[0], writing.size, writing.at
    origins: dict[Path, Path] = {(): at}
    for key in ("kind", "fill", "price", "trade", "packaging_g", "cased", "wick", "hs", "looks_like_food"):
        origins[entry_key(key),] = writing.origin(key)
    origins["ufi",] = (*at, "ufi") if size.ufi or size.ingredients else (candle_file, "ufi")
    origins["vessel",] = (f"vessels/{writing.shared.vessel}.yaml",)
    origins["shape",] = origins["vessel",]
    origins["vessel", "id"] = writing.origin("vessel")
    origins["own_label",] = (*at, "made_for")
    origins["own_label", "buyer"] = (*at, "made_for")
    for key in ("brand", "responsible", "public"):
        origins["own_label", key] = (*at, key)
    origins["make",] = (candle_file, "make")
    origins["formula",] = (candle_file, "ingredients")
    for id_ in size.ingredients or ():
        origins["formula", id_] = (*at, "ingredients", id_)
    for folder in ("waxes", "fragrances", "additives", "dyes"):
        for portion in getattr(formula, folder):
            origins["entry", portion.material.id] = (f"{folder}/{portion.material.id}.yaml",)
    borrowed = _borrowed(writing) is not None
    for number, (named_at, file) in enumerate(tests):
        origins["burn_time", number] = (*at, "burn_time") if borrowed else named_at
        origins["burn_time", number, "tested_as"] = (f"{file.removesuffix('.csv')}.yaml", "tested_as")
        origins["table", number] = (file,)
    return origins

"""From the shop's entries to one `Recorded` a stock code, remembering which file each part came from."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from generator.model.amounts import Amount
from generator.model.burn_tests import BurnTest, TestedAs
from generator.model.candle import BurnTime, Candle, DeclaredPair, Like, Shared, Size, Trade
from generator.model.entry import entry_key
from generator.model.kinds import KINDS, Kind
from generator.model.materials import Additive, Dye, Fragrance, Wax, Wick
from generator.model.recorded import Build, Formula, Material, Portion, Recorded, Test, WickUse
from generator.model.shop import Shop
from generator.model.vessel import Vessel
from generator.problems import Path
from generator.rules.references import burn_test_files

_Entry = TypeVar("_Entry", Wax, Fragrance, Additive, Dye, Vessel, Wick)
_Value = TypeVar("_Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """One stock code's record, and for each part of it the file and path it was written at."""

    recorded: Recorded
    origins: Mapping[Path, Path]

    def origin(self, path: Path) -> Path:
        """Where a path of `Recorded` was written: the longest known beginning, and the rest behind it."""
        for length in range(len(path), -1, -1):
            if path[:length] in self.origins:
                return (*self.origins[path[:length]], *path[length:])
        raise KeyError(path)


@dataclass(frozen=True, slots=True)
class _Writing:
    """A size with what stands around it, while its record is put together."""

    shop: Shop
    candle: Candle
    size: Size
    number: int

    @property
    def at(self) -> Path:
        return (f"candles/{self.candle.id}.yaml", "sizes", self.number)

    @property
    def format(self) -> Shared:
        return self.shop.formats.get(self.size.format or "") or Shared()

    def shared(self) -> Shared:
        """The keys a format gives to its sizes, each replaced where the size writes it anew."""
        size, given = self.size, self.format
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
        )

    def size_name(self, build: Build) -> str:
        """The format's own name, else the vessel's."""
        format_ = self.shop.formats.get(self.size.format or "")
        return (format_.name if format_ else None) or self.shop.vessels[build.shape.id].name

    def origin(self, field: str) -> Path:
        """Where a shared key was written: in the size, else in its format, else it is missing from the size."""
        if getattr(self.size, field) is None and getattr(self.format, field) is not None:
            return (f"formats/{self.size.format}.yaml", entry_key(field))
        return (*self.at, entry_key(field))


def shared_keys(shop: Shop) -> Mapping[str, Shared]:
    """What every stock code has of the keys that a format may give, those too that no record holds."""
    return {
        size.stock_code: _Writing(shop, candle, size, number).shared()
        for candle in shop.candles.values()
        for number, size in enumerate(candle.sizes)
    }


def _first(own: _Value | None, given: _Value | None) -> _Value | None:
    return given if own is None else own


def gather(shop: Shop) -> Iterator[Gathered]:
    """Every stock code whose entries are there and complete; what is missing is told by ``rules.checks``."""
    bearing = _without_private_keys(shop)
    for candle in bearing.candles.values():
        for number, size in enumerate(candle.sizes):
            gathered = _gathered(_Writing(bearing, candle, size, number))
            if gathered is not None:
                yield gathered


def _gathered(writing: _Writing) -> Gathered | None:
    """A kind that is missing or has no rules is told elsewhere; taken for the usual one, it hides no other fault."""
    shared = writing.shared()
    asked = shared.kind or Kind.CONTAINER
    kind = asked if asked in KINDS else Kind.CONTAINER
    build = _build(writing, shared, kind)
    if build is None:
        return None
    burn_tests = writing.shop.burn_tests
    tests = tuple(
        (at, file) for at, file in _tests_of(writing) if _is_whole(writing.shop, burn_tests.get(file), kind)
    )
    recorded = replace(
        _recorded(writing, shared, build, kind),
        tests=tuple(_test(writing.shop, burn_tests[file], kind) for _, file in tests),
    )
    return Gathered(recorded=recorded, origins=_origins(writing, tests))


def _recorded(writing: _Writing, shared: Shared, build: Build, kind: Kind) -> Recorded:
    candle, size, maker = writing.candle, writing.size, writing.shop.maker
    declared, trade = size.declared, shared.trade or Trade()
    return Recorded(
        stock_code=size.stock_code,
        candle=candle.id,
        scent=candle.scent,
        collection=candle.collection,
        size_name=writing.size_name(build),
        kind=kind,
        status=size.status or candle.status,
        build=build,
        make=candle.make,
        weighed=size.weighed,
        declared_g=declared.g if isinstance(declared, DeclaredPair) else declared,
        declared_oz=declared.oz if isinstance(declared, DeclaredPair) else None,
        tests=(),
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
        as_of=maker.as_of,
        own_label=size.own_label,
    )


def _build(writing: _Writing, shared: Shared, kind: Kind) -> Build | None:
    candle, size = writing.candle, writing.size
    if shared.vessel is None or shared.fill is None:
        return None
    return _resolved(
        writing.shop,
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
    """What is in the candle: an ingredient of which a size takes nothing is in it no more."""
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


def _without_private_keys(shop: Shop) -> Shop:
    """Notes and prices bear on no figure of a candle, so a change of theirs must change no paper."""
    return replace(
        shop,
        waxes=_each_without(shop.waxes),
        fragrances=_each_without(shop.fragrances),
        additives=_each_without(shop.additives),
        dyes=_each_without(shop.dyes),
        vessels=_each_without(shop.vessels),
        wicks=_each_without(shop.wicks),
    )


def _each_without(entries: Mapping[str, _Entry]) -> Mapping[str, _Entry]:
    return {id_: replace(entry, notes=None, price=None) for id_, entry in entries.items()}


def _tests_of(writing: _Writing) -> tuple[tuple[Path, str], ...]:
    """The burn tests of a size, its own or those of the stock code it borrows from."""
    written: BurnTime | None = writing.size.burn_time
    if not isinstance(written, Like):
        return burn_test_files(writing.at, writing.size)
    for candle in writing.shop.candles.values():
        for number, size in enumerate(candle.sizes):
            if size.stock_code == written.like:
                return burn_test_files((f"candles/{candle.id}.yaml", "sizes", number), size)
    return ()


def _is_whole(shop: Shop, test: BurnTest | None, kind: Kind) -> bool:
    """Whether a test was read with all that it names; one that was not is told by itself."""
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


def _origins(writing: _Writing, tests: tuple[tuple[Path, str], ...]) -> Mapping[Path, Path]:
    """Where each part of a record was written, by the first steps of its path."""
    candle_file, size, at = writing.at[0], writing.size, writing.at
    origins: dict[Path, Path] = {(): at}
    for field in ("kind", "fill", "price", "trade", "packaging_g", "cased", "wick"):
        origins[entry_key(field),] = writing.origin(field)
    origins["ufi",] = (*at, "ufi") if size.ufi or size.ingredients else (candle_file, "ufi")
    origins["vessel",] = (f"vessels/{writing.shared().vessel}.yaml",)
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
    for id_ in (*writing.candle.ingredients, *(size.ingredients or ())):
        for folder in ("waxes", "fragrances", "additives", "dyes"):
            if id_ in getattr(writing.shop, folder):
                origins["entry", id_] = (f"{folder}/{id_}.yaml",)
    borrowed = isinstance(size.burn_time, Like)
    for number, (named_at, file) in enumerate(tests):
        origins["burn_time", number] = (*at, "burn_time") if borrowed else named_at
        origins["burn_time", number, "tested_as"] = (f"{file.removesuffix('.csv')}.yaml", "tested_as")
        origins["table", number] = (file,)
    return origins

"""The shop as loaded: unreadable, with problems, or sound and as its papers see it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from generator.documents.house import House, Scent, SizeOf
from generator.documents.pages.recall_notices import recalled
from generator.facts.facts import Facts
from generator.facts.gather import Gathered
from generator.ledgers.sheet import sheet_value
from generator.ledgers.standing import SheetState, state_of
from generator.making.presentation import Presentation
from generator.memory import Remembered
from generator.model.secret import ShopSecret
from generator.model.shop import Shop
from generator.problems import Place, Places, Problem, in_reading_order, is_error
from generator.rules.entries.past import as_it_was
from generator.writing.store import Store


@dataclass(frozen=True, kw_only=True)
class _Entries:
    """Everything that is wrong with the entries, and where everything in them is written."""

    problems: tuple[Problem, ...]
    places: Places

    @property
    def errors(self) -> tuple[Problem, ...]:
        """What stops a build."""
        return tuple(filter(is_error, self.problems))

    def errors_in(self, *files: str) -> tuple[Problem, ...]:
        """The errors of these files, named from the content folder."""
        shown = set(map(self.places.shown, files))
        return tuple(problem for problem in self.errors if problem.place.file in shown)


@dataclass(frozen=True, kw_only=True)
class UnreadableShop(_Entries):
    """Entries that make no shop: a file that everything depends on cannot be read."""


@dataclass(frozen=True, kw_only=True)
class LoadedShop(_Entries):
    """The shop, its stock codes with their facts, what it is printed with, and everything that is wrong with it.

    ``presentation`` is None where the theme or a language has errors. The keys of trade links are derived from
    ``secret``, None until a link is asked for. ``store`` remembers what was worked out and printed.
    """

    shop: Shop
    facts: tuple[tuple[Gathered, Facts], ...]
    store: Store
    presentation: Presentation | None = None
    secret: ShopSecret | None = None

    @cached_property
    def sheets(self) -> Mapping[str, SheetState]:
        """Every burn-safety sheet by stock code, and what was issued of it."""
        maker, ledgers = self.shop.maker, self.shop.ledgers
        shelf: Remembered[SheetState] = self.store.shelf("sheets")

        def state(gathered: Gathered, facts: Facts) -> SheetState:
            ledger = ledgers.get(facts.stock_code)
            return shelf.remember(
                (gathered.key, maker, ledger),
                lambda: state_of(sheet_value(gathered.recorded, facts, maker), ledger),
            )

        return {facts.stock_code: state(gathered, facts) for gathered, facts in self.facts}

    @cached_property
    def places_of_codes(self) -> Mapping[str, Place]:
        """Where every stock code is written."""
        return {
            size.stock_code: self.places.of((f"candles/{id_}.yaml", "sizes", number, "stock_code"))
            for id_, candle in self.shop.candles.items()
            for number, size in enumerate(candle.sizes)
        }

    def as_it_was(self, day: date | None) -> "LoadedShop":
        """The shop on the day asked for: nothing that was issued, poured or recalled after it."""
        return self if day is None else replace(self, shop=as_it_was(self.shop, day))

    def with_problems(self, more: Iterable[Problem]) -> "LoadedShop":
        """The same with more problems."""
        return replace(self, problems=in_reading_order((*self.problems, *more)))


@dataclass(frozen=True, slots=True, kw_only=True)
class SoundShop:
    """The shop as loaded, as its papers see it, and what they are printed with."""

    loaded: LoadedShop
    house: House
    presentation: Presentation

    @property
    def shop(self) -> Shop:
        """The shop as it was recorded."""
        return self.loaded.shop

    @property
    def sizes(self) -> Mapping[str, SizeOf]:
        """Every stock code with its record and facts."""
        return {size.facts.stock_code: size for size in self.house.sizes}


def sound_shop(loaded: LoadedShop | UnreadableShop) -> SoundShop | tuple[Problem, ...]:
    """The shop as its papers see it, or its problems if one of them is an error."""
    if not isinstance(loaded, LoadedShop) or loaded.presentation is None or loaded.errors:
        return loaded.problems
    presentation = loaded.presentation
    return SoundShop(loaded=loaded, house=_house_of(loaded, presentation), presentation=presentation)


def _house_of(loaded: LoadedShop, presentation: Presentation) -> House:
    """The house without its photos, which are made for whole builds alone."""
    shop = loaded.shop
    sizes = {
        facts.stock_code: SizeOf(
            recorded=gathered.recorded,
            facts=facts,
            key=gathered.key,
        )
        for gathered, facts in loaded.facts
    }
    scents = (
        Scent(candle=candle, sizes=tuple(sizes[size.stock_code] for size in candle.sizes))
        for candle in shop.candles.values()
    )
    return House(
        maker=shop.maker,
        collections=shop.collections,
        scents=tuple(scents),
        photos={},
        speech=presentation.language_packs[shop.maker.language],
        as_of=shop.as_of,
        sheets=loaded.sheets,
        language_packs=presentation.language_packs,
        drafts=False,
        pages=tuple(shop.pages.values()),
        lots=shop.lots,
        recalls=recalled(shop.recalls.values(), shop.lots),
        terms=shop.terms,
    )

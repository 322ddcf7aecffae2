"""A shop without errors, and the house that its papers see."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.documents.house import House, Scent, SizeOf
from generator.documents.pages.recall_notices import recalled
from generator.making.load_shop import LoadedShop, UnreadableShop, load_shop
from generator.making.options import CommandOptions
from generator.making.presentation import Presentation
from generator.model.shop import Shop
from generator.problems import Problem


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
        """Every stock code with what was recorded and worked out of it."""
        return {size.facts.stock_code: size for size in self.house.sizes}


def load_sound_shop(options: CommandOptions) -> SoundShop | tuple[Problem, ...]:
    """The shop as it was on the day that was asked for, or its problems where one of them is an error."""
    loaded = load_shop(options)
    return sound_shop(loaded.as_it_was(options.as_of) if isinstance(loaded, LoadedShop) else loaded)


def sound_shop(loaded: LoadedShop | UnreadableShop) -> SoundShop | tuple[Problem, ...]:
    """The shop as its papers see it, or its problems where one of them is an error."""
    if not isinstance(loaded, LoadedShop) or loaded.presentation is None or loaded.errors:
        return loaded.problems
    presentation = loaded.presentation
    return SoundShop(loaded=loaded, house=_house_of(loaded, presentation), presentation=presentation)


def _house_of(loaded: LoadedShop, presentation: Presentation) -> House:
    """The house without its photos, which are made for whole builds alone."""
    shop = loaded.shop
    sizes = {
        facts.stock_code: SizeOf(recorded=gathered.recorded, facts=facts) for gathered, facts in loaded.facts
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
        as_of=shop.maker.as_of,
        sheets=loaded.sheets,
        language_packs=presentation.language_packs,
        drafts=False,
        pages=tuple(shop.pages.values()),
        lots=shop.lots,
        recalls=recalled(shop.recalls.values(), shop.lots),
        terms=shop.terms,
    )

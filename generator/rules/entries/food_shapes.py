"""Whether a candle could be taken for food: asked of wax that has a shape of its own, and refused where it could."""

from collections.abc import Iterator, Sequence
from datetime import date

from generator.model.formats import Shared
from generator.model.kinds import KINDS
from generator.model.markets import MARKETS, named_on
from generator.model.shop import Shop
from generator.model.sizes import Size
from generator.problems import Fault, Path
from generator.rules.references import sizes


def food_shape_faults(shop: Shop) -> Iterator[Fault]:
    """A melt or moulded candle of which nothing says whether it looks like food, and whatever does look like it.

    What is not food and looks or smells so much like it that a child may put it into its mouth may not be sold. Wax
    that stays in its container is not asked about; where it is said to look like food, as a dessert in a glass, it is
    refused too.
    Source: Directive 87/357/EEC Art. 1 (MEMORY), repealed from 2024-12-13 (FOUND) by Regulation (EU) 2023/988, whose
    Art. 6(1)(f) takes it up (MEMORY); in Great Britain the Food Imitations (Safety) Regulations 1989 (FOUND-2nd).
    Which kinds are asked: CHOICE. No law of the US was looked for.
    """
    laws = laws_of_food_shapes(shop.maker.markets, shop.as_of)
    if not laws:
        return
    told: dict[Path, Fault] = {}
    for at, _, size, given in sizes(shop):
        answer = given.looks_like_food if size.looks_like_food is None else size.looks_like_food
        if answer:
            path = _written_at("looks_like_food", at, size, given)
            told.setdefault(path, _refused(path, _named(path, size), laws))
        elif answer is None and _has_a_shape_of_its_own(size, given):
            path = _written_at("kind", at, size, given)
            told.setdefault(path, _asked(path, _named(path, size), laws))
    yield from told.values()


def laws_of_food_shapes(markets: Sequence[str], on: date) -> str:
    """The laws of these markets on a day, as a sentence names them; empty where none is known."""
    rows = ((market, MARKETS[market].food_shapes) for market in markets)
    return "; ".join(f"{market}: {named_on(laws, on)}" for market, laws in rows if laws)


def _has_a_shape_of_its_own(size: Size, given: Shared) -> bool:
    traits = KINDS.get(kind) if (kind := size.kind or given.kind) else None
    return traits is not None and traits.stands_in != "container"


def _written_at(key: str, at: Path, size: Size, given: Shared) -> Path:
    """Where a size has a key from: itself or its format."""
    from_format = getattr(size, key) is None and getattr(given, key) is not None
    return (f"formats/{size.format}.yaml", key) if from_format else (*at, key)


def _named(path: Path, size: Size) -> str:
    return f"format '{size.format}'" if str(path[0]).startswith("formats/") else size.stock_code


def _asked(path: Path, name: str, laws: str) -> Fault:
    return Fault(
        path=path,
        what=f"nothing says whether {name} looks like food",
        why=f"a melt or moulded candle that a child could mistake for food may not be sold ({laws})",
        fix="looks_like_food: no, if its shape, colour and wrapping cannot be mistaken for food, sweets or fruit",
    )


def _refused(path: Path, name: str, laws: str) -> Fault:
    return Fault(
        path=path,
        what=f"{name} looks like food",
        why=f"what a child could mistake for food and put in its mouth may not be sold ({laws})",
        fix="choose another shape, colour or wrapping, then write looks_like_food: no",
    )

"""The pour sheet: what to set out and weigh for a number of candles, and how hot, in the order of the pour."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from hashlib import sha256
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House, Words
from generator.documents.papers.workshop_papers import workshop_papers
from generator.documents.printed import SPACE, counted, listed, millimetres, number, percent
from generator.facts.pours import OUNCE_G, PouredBatch, PouredPart, Scale, Wanted, WaxGroup, pack_rules
from generator.model.quantities import FlashPoint, as_written, fahrenheit

_TEMPLATE: Final = "papers/pour.typ"
NOTICED: Final = Decimal("0.05")
"""A rounding of more than this share of an ingredient is reported (CHOICE)."""

_WORDS: Final = (
    "private", "wax_together", "to_set_out", "to_weigh", "weighed", "in_all", "poured_on", "poured_by",
    "measured", "cautions", "lot_after", "finished",
)  # fmt: skip
_HOURS_A_DAY: Final = 24
_PLACES: Final = {"teaspoons": 2, "drops": 2, "blocks": 1}
_COUNTED: Final = {"teaspoons": "counted_teaspoons", "drops": "counted_drops", "blocks": "counted_blocks"}
_LEAST_WHOLE: Final = Decimal("0.5")
_LONGEST_NAME: Final = 120
"""A file name may be 255 bytes long, and some programs allow less (CHOICE)."""


def pour_papers(house: House, groups: Sequence[WaxGroup], scale: Scale) -> Iterator[Document]:
    """The sheet on each size of paper."""
    counts = [(one.count, one.facts.stock_code) for one in _wanted(groups)]
    words = house.words
    value: dict[str, Value] = {
        "title": words["bench"]["pour_title"].format(codes=listed((code for _, code in counts), house.words)),
        "set_out": tuple(_set_out(groups, words)),
        "groups": tuple(_group(group, scale, house) for group in groups),
        "waste": _waste(scale, words),
        "scale": words["bench"]["scale"].format(step=_step(scale, words)),
        "finished": tuple(_finished(groups, words)),
        "cautions": tuple(words["pour_cautions"].values()),
    }
    return workshop_papers(house, _file_name(counts), _TEMPLATE, _WORDS, value)


def _file_name(counts: Sequence[tuple[int, str]]) -> str:
    """The candles poured; of a long list the first ones, and letters that distinguish it from other long lists."""
    all_of_it = "+".join(f"{count}x{code}" for count, code in counts)
    if len(all_of_it) <= _LONGEST_NAME:
        return all_of_it
    (count, code), *others = counts
    return f"{count}x{code}+{len(others)}-more-{sha256(all_of_it.encode()).hexdigest()[:8]}"


def both_degrees(temperature_c: float) -> str:
    """A temperature in both units, to the whole degree, as a thermometer is read."""
    return f"{temperature_c:.0f}{SPACE}°C / {fahrenheit(temperature_c):.0f}{SPACE}°F"


def _group(group: WaxGroup, scale: Scale, house: House) -> Mapping[str, Value]:
    return {
        "waxes": tuple(
            {"name": name, **_weights((grams, ounces), scale, house.words)}
            for name, grams, ounces in group.waxes
        ),
        "batches": tuple(_batch(batch, scale, house) for batch in group.batches),
    }


def _batch(batch: PouredBatch, scale: Scale, house: House) -> Mapping[str, Value]:
    words = house.words
    codes = tuple(one.facts.stock_code for one in batch.wanted)
    cure_h = batch.make.cure_h if batch.make else None
    return {
        "name": words["bench"]["batch"].format(scent=batch.scent, stock_codes=listed(codes, house.words)),
        "into": tuple(_into(one, scale, words) for one in batch.wanted),
        "parts": tuple(_part(part, scale, words) for part in batch.parts),
        "total": _weights((batch.total_g, batch.total_oz), scale, words),
        "temperatures": tuple(_temperatures(batch, words)),
        "flash": tuple(_flash(name, at, words) for name, at in batch.flash_points),
        "cure": None
        if cure_h is None
        else words["bench"]["cure"].format(days=number(f"{cure_h / _HOURS_A_DAY:g}", words)),
        "lots": tuple(
            {"label": words["bench"]["lot"].format(stock_code=code), "code": _lot(house, code)}
            for code in codes
        ),
    }


def _lot(house: House, code: str) -> str | None:
    """The lot already recorded for this day."""
    lots = [lot.lot for lot in house.lots if lot.stock_code == code and lot.poured_on == house.as_of]
    return lots[-1] if lots else None


def _into(one: Wanted, scale: Scale, words: Words) -> str:
    facts, kept = one.facts, one.recorded.build.fill
    said = words["bench"]["into"].format(
        count=one.count,
        size=one.recorded.size_name,
        stock_code=facts.stock_code,
        net=_on_scale(facts.net_weight_g, scale, words),
    )
    by_weight = kept is not None and kept.weight_g is not None
    if by_weight or facts.level_set_mm is None:
        return said
    return said + words["bench"]["line"].format(level=millimetres(facts.level_set_mm, words))


def _part(part: PouredPart, scale: Scale, words: Words) -> Mapping[str, Value]:
    exact_g = part.ingredient.grams
    rounded_off = abs(part.grams - exact_g) > NOTICED * exact_g
    counted = None
    if part.counted is not None and part.counted_in is not None:
        counted = _counted(part.counted, part.counted_in, words)
    exact = words["bench"]["exactly"].format(weight=f"{_plain(exact_g, 2, words)}{SPACE}g")
    return {
        "name": part.ingredient.material.name,
        **_weights_of(part, scale, words),
        "counted": counted,
        "exactly": exact if rounded_off else None,
    }


def _counted(count: Decimal, unit: str, words: Words) -> str:
    """A count in words: whole drops, but less than half a drop is not rounded to none."""
    places = 0 if unit == "drops" and count >= _LEAST_WHOLE else _PLACES[unit]
    told = f"{count.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP).normalize():,f}"
    return counted(_COUNTED[unit], told, words).format(count=number(told, words))


def _weights_of(part: PouredPart, scale: Scale, words: Words) -> Mapping[str, Value]:
    """What the scale shows; what it cannot show is counted, or given as less than its step."""
    if part.grams:
        return _weights((part.grams, part.ounces), scale, words)
    return {"large": None, "small": words["bench"]["under"].format(step=_step(scale, words))}


def _temperatures(batch: PouredBatch, words: Words) -> Iterator[Mapping[str, Value]]:
    make = batch.make
    for name, at_c in (
        ("heat", make.heat_to_c if make else None),
        ("stir", make.fragrance_at_c if make else None),
        ("pour", make.pour_at_c if make else None),
    ):
        if name == "stir" and not batch.flash_points:
            continue
        yield {
            "name": words["bench"][name],
            "at": words["bench"]["not_recorded"] if at_c is None else both_degrees(at_c),
        }


def _flash(name: str, at: FlashPoint | None, words: Words) -> str:
    if at is None:
        return words["bench"]["flash_unknown"].format(name=name)
    degrees = both_degrees(at.celsius)
    return words["bench"]["flash"].format(
        name=name, at=words["bench"]["flash_above"].format(at=degrees) if at.above else degrees
    )


def _set_out(groups: Sequence[WaxGroup], words: Words) -> Iterator[str]:
    """Vessels, lids and wicks, each kind once with the number the pour takes; a lid belongs to its vessel."""
    counts: Counter[tuple[str, str, str]] = Counter()
    wanted = tuple(_wanted(groups))
    packed = tuple(
        (one, container) for one in wanted if (container := one.recorded.build.container) is not None
    )
    for one, vessel in packed:
        counts["vessel", vessel.id, vessel.name] += one.count
    for one, vessel in packed:
        if vessel.lid is not None:
            lid = words["bench"]["lid"].format(name=vessel.lid.name, vessel=vessel.name)
            counts["lid", vessel.id, lid] += one.count
    for one in wanted:
        for use in one.recorded.build.wicks:
            counts["wick", use.wick.id, use.wick.name] += use.count * one.count
    for (_, _, name), count in counts.items():
        yield words["bench"]["piece"].format(count=count, name=name)


def _finished(groups: Sequence[WaxGroup], words: Words) -> Iterator[Mapping[str, Value]]:
    """How many candles to weigh once cold, and what they must weigh."""
    for one in filter(None, map(pack_rules, _wanted(groups))):
        told = [
            words["bench"]["finished_of"].format(
                sample=one.sample,
                count=one.count,
                stock_code=one.stock_code,
                average=_exactly_g(one.average_g, words),
            )
        ]
        if one.few_below_g is not None and one.none_below_g is not None:
            few, none = _exactly_g(one.few_below_g, words), _exactly_g(one.none_below_g, words)
            told.append(words["bench"]["finished_metric"].format(few=few, none=none))
        if one.us_none_below_g is not None:
            told.append(words["bench"]["finished_us"].format(none=_exactly_g(one.us_none_below_g, words)))
        yield {"told": " ".join(told), "sample": one.sample}


def _wanted(groups: Sequence[WaxGroup]) -> Iterator[Wanted]:
    return (one for group in groups for batch in group.batches for one in batch.wanted)


def _exactly_g(weight_g: Decimal, words: Words) -> str:
    return f"{_plain(weight_g, max(0, -int(weight_g.normalize().as_tuple().exponent)), words)}{SPACE}g"


def _waste(scale: Scale, words: Words) -> str:
    if scale.waste_percent is None:
        return words["bench"]["no_waste"]
    return words["bench"]["waste"].format(percent=percent(scale.waste_percent, words))


def _weights(weight: tuple[Decimal, Decimal], scale: Scale, words: Words) -> Mapping[str, Value]:
    """A weight in grams and ounces, the scale's unit first and large."""
    grams, ounces = weight
    in_grams = f"{_plain(grams, _places(scale), words)}{SPACE}g"
    in_ounces = f"{_plain(ounces, 2, words)}{SPACE}oz"
    large, small = (in_ounces, in_grams) if scale.reads_ounces else (in_grams, in_ounces)
    return {"large": large, "small": small}


def _on_scale(weight_g: float, scale: Scale, words: Words) -> str:
    step = as_written(scale.step_g)
    steps = (as_written(weight_g) / step).to_integral_value(rounding=ROUND_HALF_UP)
    if scale.reads_ounces:
        return f"{_plain(steps * step / OUNCE_G, 2, words)}{SPACE}oz"
    return f"{_plain(steps * step, _places(scale), words)}{SPACE}g"


def _step(scale: Scale, words: Words) -> str:
    return _on_scale(scale.step_g, scale, words)


def _places(scale: Scale) -> int:
    """Decimals of grams: those of the scale's step, or one beside ounces."""
    if scale.reads_ounces:
        return 1
    exponent = as_written(scale.step_g).normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def _plain(quantity: Decimal, places: int, words: Words) -> str:
    return number(f"{quantity.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP):,f}", words)

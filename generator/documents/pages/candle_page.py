"""One scent's page: the plate, the notes, each size with its figures, care, contents and derivations."""

from collections.abc import Iterator, Mapping, Sequence, Set
from typing import Final

from generator.document import Document, Value
from generator.documents.frame import FIGURES, collection_path, home_market
from generator.documents.hazard_labels import labels_before_purchase
from generator.documents.house import House, Rendition, Scent, SizeOf, Words
from generator.documents.link_previews import SharedLink, preview
from generator.documents.offer_lines import asking_price, first_day, remark
from generator.documents.outlines import UNDYED, dimensions_of, outline_of
from generator.documents.pages.markdown_pages import from_markdown
from generator.documents.pages.structured import product
from generator.documents.printed import (
    advised,
    at_least,
    counted,
    derived,
    estimates_note,
    formula,
    hours_in_words,
    listed,
    measured,
    millimetres,
    named,
    net_quantity,
)
from generator.documents.shelves import Standing, public_sizes, standing
from generator.drawing.contrast import DARK, LIGHT, text_on, tint
from generator.drawing.drawings import Caption, Outline, shelf, standing_height_mm
from generator.drawing.plates import plate
from generator.facts.facts import Facts, Figure, Input
from generator.model.candle import Candle, ScentNotes
from generator.model.kinds import KINDS

_TO_ROOT: Final = "../"

_QUOTED: Final = "stop_"
"""The prefix of lengths quoted from advice."""


def candle_page(house: House, scent: Scent) -> Document:
    """The page of a scent with all its public sizes."""
    sizes = public_sizes(scent)
    candle = scent.candle
    outlines = [outline_of(size, candle, house.speech.materials) for size in sizes]
    value = _heading(house, candle, sizes) | {
        "plate": _plate(house, sizes[0], outlines[0]),
        "photos": tuple(_photos(house, candle, sizes)),
        "sizes": tuple(_sizes(house, candle, sizes, outlines)),
        "estimates": estimates_note((size.facts for size in sizes), home_market(house), house.words),
        "care": _care(house, sizes),
        "contains": tuple(dict.fromkeys(name for size in sizes for name in size.facts.contains)),
        "hazards": labels_before_purchase(house, sizes),
        "derivations": tuple(_derivation(house, size) for size in sizes if size.facts.figures),
        "not_worked_out": _not_worked_out(house, sizes),
        "methods": FIGURES,
        "path": sizes[0].facts.site_path,
        "structured": product(house, scent),
        "preview": _preview(house, candle, sizes[0]),
    }
    return Document(path=f"site/{sizes[0].facts.site_path}", template="pages/candle.html", value=value)


def _preview(house: House, candle: Candle, size: SizeOf) -> tuple[Mapping[str, Value], ...]:
    """What a link to the page shows."""
    words = house.words["candle"]
    shared = SharedLink(
        path=size.facts.site_path,
        title=candle.scent,
        description=_described(house, candle),
        picture=house.cards.get(size.facts.site_path),
        picture_text=words["card"].format(scent=candle.scent),
        price=size.recorded.price if asking_price(house, candle, size.recorded) else None,
    )
    return preview(house.maker, shared)


def _described(house: House, candle: Candle) -> str:
    collection = house.collections[candle.collection].name
    return house.words["candle"]["described"].format(scent=candle.scent, collection=collection)


def _heading(house: House, candle: Candle, sizes: tuple[SizeOf, ...]) -> dict[str, Value]:
    words = house.words["candle"]
    collection = house.collections[candle.collection]
    shade = candle.colour.shade if candle.colour else UNDYED
    return {
        "title": words["title"].format(scent=candle.scent, house=house.maker.name),
        "description": _described(house, candle),
        "scent": candle.scent,
        "collection": {"name": collection.name, "path": collection_path(candle.collection)},
        "season": candle.season,
        "colour": {
            "name": candle.colour.name if candle.colour else None,
            "shade": shade,
            "text": text_on(shade),
            "light": tint(shade, LIGHT),
            "dark": tint(shade, DARK),
        },
        "prose": from_markdown(candle.description, to_root=_TO_ROOT) if candle.description else None,
        "notes": _notes(house, candle.scent_notes),
        "standing": _standing_in_words(house, candle, sizes),
    }


def _notes(house: House, notes: ScentNotes | None) -> tuple[Mapping[str, Value], ...]:
    if notes is None:
        return ()
    rows = (("note_top", notes.top), ("note_heart", notes.heart), ("note_base", notes.base))
    words = house.words["candle"]
    return tuple({"name": words[key], "text": listed(found, house.words)} for key, found in rows if found)


def _standing_in_words(house: House, candle: Candle, sizes: tuple[SizeOf, ...]) -> str | None:
    """What a shopper must know before the price: discontinued, coming, out of season; None when on the shelf."""
    words = house.words["candle"]
    found = {standing(size.recorded.status, candle.sold, house.as_of) for size in sizes}
    if Standing.ON_THE_SHELF in found:
        return None
    if Standing.COMING in found:
        begins = first_day(house, candle)
        return words["coming_on"].format(day=begins) if begins else words["coming"]
    return words["out_of_season" if Standing.OUT_OF_SEASON in found else "discontinued"]


def _plate(house: House, size: SizeOf, outline: Outline) -> Mapping[str, Value]:
    dimensions = dimensions_of(outline, size.recorded.build.lid, house.words)
    words = house.words["candle"]
    said = (dimensions.breadth, dimensions.depth, dimensions.height, dimensions.wax, dimensions.stop)
    caption = Caption(
        name=f"plate-{size.facts.stock_code}",
        title=words["plate_title"].format(vessel=size.object_name),
        description=listed((text for text in said if text), house.words),
    )
    return {
        "drawing": plate(outline, dimensions, caption),
        "text": words[KINDS[size.facts.kind].sentences.plate_text].format(
            vessel=size.object_name, stock_code=size.facts.stock_code
        ),
    }


def _photos(house: House, candle: Candle, sizes: tuple[SizeOf, ...]) -> Iterator[Mapping[str, Value]]:
    names = {entry.stock_code: entry.photos for entry in candle.sizes}
    for size in sizes:
        for name in names.get(size.facts.stock_code, ()):
            if renditions := house.photos.get(name):
                yield _photo(house, size, renditions)


def _photo(house: House, size: SizeOf, renditions: tuple[Rendition, ...]) -> Mapping[str, Value]:
    by_width = sorted(renditions, key=lambda one: one.width)
    webp, jpeg = ([one for one in by_width if one.format == form] for form in ("webp", "jpeg"))
    shown = jpeg[len(jpeg) // 2]
    alt = house.words["candle"]["photo"].format(scent=size.recorded.scent, vessel=size.recorded.size_name)
    return {
        "webp": tuple({"path": one.path, "width": one.width} for one in webp),
        "jpeg": tuple({"path": one.path, "width": one.width} for one in jpeg),
        "path": shown.path,
        "width": shown.width,
        "height": shown.height,
        "alt": alt,
        "text": house.words["candle"]["photo_text"].format(
            vessel=size.recorded.size_name, stock_code=size.facts.stock_code
        ),
    }


def _sizes(
    house: House, candle: Candle, sizes: tuple[SizeOf, ...], outlines: Sequence[Outline]
) -> Iterator[Mapping[str, Value]]:
    height_mm = standing_height_mm(outlines)
    for size, outline in zip(sizes, outlines, strict=True):
        drawing = _standing_drawing(house, size, outline, height_mm)
        yield _size(house, candle, size, outline) | {"drawing": drawing}


def _standing_drawing(house: House, size: SizeOf, outline: Outline, height_mm: float) -> str:
    title = house.words["candle"]["size_drawn"].format(vessel=size.recorded.size_name)
    return shelf((outline,), Caption(name=f"stand-{size.facts.stock_code}-", title=title), height_mm)


def _size(house: House, candle: Candle, size: SizeOf, outline: Outline) -> dict[str, Value]:
    facts, market = size.facts, home_market(house)
    return {
        "stock_code": facts.stock_code,
        "vessel": size.recorded.size_name,
        "price": asking_price(house, candle, size.recorded),
        "tax": house.words["candle"]["tax_included"] if house.maker.prices_include_tax_percent else None,
        "remark": remark(house, size.recorded.status),
        "rows": tuple(_rows(house, size, outline)),
        "first_burn": _first_burn(house, facts),
        "safety_path": facts.safety_path,
        "market": market,
    }


def _rows(house: House, size: SizeOf, outline: Outline) -> Iterator[Mapping[str, Value]]:
    """The panel of figures, line by line."""
    facts, words, figures = size.facts, house.words["candle"], _advised(house, size.facts)
    net_weight, *elsewhere = _net_weights(house, facts)
    stop = facts.stop_depth_mm
    yield {"key": "net_weight", "name": words["net_weight"], "text": net_weight, "further": tuple(elsewhere)}
    found = {
        "burn_hours": hours_in_words(facts.burn_hours, house.words),
        "longest_session": figures.get("longest_session"),
        "stop_at": words["wax_left"].format(depth=at_least(stop)) if stop is not None else None,
        "vessel": _container(house, facts),
        "inside": _inside(house, facts, outline),
        "wick": _wick(house, facts),
    }
    names = {"inside": KINDS[facts.kind].sentences.inside}
    for key, text in found.items():
        if text is not None:
            yield {"key": key, "name": words[names.get(key, key)], "text": text, "further": ()}


def _net_weights(house: House, facts: Facts) -> Iterator[str]:
    """The net quantity of the home market, then those of other markets where they differ."""
    words, home = house.words["candle"], home_market(house)
    yield net_quantity(facts, home, house.words)
    elsewhere: dict[str, list[str]] = {}
    for market in house.maker.markets:
        estimate = words["net_about"].format(quantity=measured(facts.estimated[market], house.words))
        declared = facts.declared[market]
        text = estimate if declared is None else measured(declared, house.words)
        elsewhere.setdefault(text, []).append(market)
    for text, markets in elsewhere.items():
        if home not in markets:
            named_markets = listed((house.words["markets"][one] for one in markets), house.words)
            yield words["in_market"].format(text=text, markets=named_markets)


def _container(house: House, facts: Facts) -> str | None:
    """The container with its material, unless its name includes it."""
    if facts.container is None:
        return None
    name, material = facts.container.name, facts.container.material
    if material.lower() in name.lower():
        return name
    return house.words["candle"]["vessel_of"].format(vessel=name, material=material)


def _inside(house: House, facts: Facts, outline: Outline) -> str:
    """Its width and depth, in the lengths of its measured drawing."""
    dimensions = dimensions_of(outline, None, house.words)
    widths = (text.removeprefix("⌀ ") for text in (dimensions.breadth, dimensions.depth) if text)
    return house.words["candle"][KINDS[facts.kind].sentences.inside_of].format(
        across=" × ".join(widths), deep=dimensions.height
    )


def _wick(house: House, facts: Facts) -> str | None:
    if facts.wick is None:
        return None
    count = facts.wick.count
    return counted("counted_wicks", str(count), house.words).format(count=count, name=facts.wick.name)


def _first_burn(house: House, facts: Facts) -> str | None:
    figures = _advised(house, facts)
    if not figures:
        return None
    return house.words["candle"]["first_burn"].format(
        first_burn=figures["first_burn"], session=figures["longest_session"]
    )


def _advised(house: House, facts: Facts) -> Mapping[str, str]:
    """The figures of the burn-safety sheet, in its words; none where nothing burns."""
    advice = facts.advice.get(home_market(house))
    return advised(advice, house.speech) if advice else {}


def _care(house: House, sizes: tuple[SizeOf, ...]) -> tuple[Mapping[str, Value], ...]:
    """The cautions with their pictograms, for every kind among the sizes."""
    words = house.words["care"]
    figures = [found for size in sizes if (found := _advised(house, size.facts))]
    trims, sessions = ({str(one[name]) for one in figures} for name in ("trim", "longest_session"))
    texts = {
        "trim": _of_all(words["trim"], trims) or words["trim_differs"],
        "session": _of_all(words["session"], sessions) or words["session_differs"],
    }
    sold = {size.facts.kind for size in sizes}
    kinds = [traits for kind, traits in KINDS.items() if kind in sold]
    if len(kinds) > 1:
        texts |= {sign: words[name] for traits in kinds for sign, name in traits.care_beside.items()}
    signs = dict.fromkeys(sign for traits in kinds for sign in traits.care)
    return tuple({"sign": sign, "text": texts.get(sign) or words[sign]} for sign in signs)


def _of_all(caution: str, figures: Set[str]) -> str | None:
    """A caution with its figure where all sizes share it; None where they must refer to their sheets."""
    return caution.format(figure=next(iter(figures))) if len(figures) == 1 else None


def _derivation(house: House, size: SizeOf) -> Mapping[str, Value]:
    """The public part of how one size's figures were worked out."""
    public = (figure for figure in size.facts.figures if figure.shown == "public")
    return {
        "stock_code": size.facts.stock_code,
        "vessel": size.recorded.size_name,
        "figures": tuple(_figure(house, figure) for figure in public),
    }


def _not_worked_out(house: House, sizes: tuple[SizeOf, ...]) -> str | None:
    """Why some sizes have no derived figures; None if none is missing."""
    missing = [
        f"{size.recorded.size_name} ({size.facts.stock_code})" for size in sizes if not size.facts.figures
    ]
    if not missing:
        return None
    return house.words["candle"]["not_worked_out"].format(sizes=listed(missing, house.words))


def _figure(house: House, figure: Figure) -> Mapping[str, Value]:
    words = house.words
    public = tuple(given for given in figure.inputs if given.shown == "public")
    return {
        "label": words["figure_labels"][figure.label],
        "name": named(figure, words),
        "value": derived(figure.value, figure.unit, words),
        "formula": formula(figure, words),
        "inputs": tuple({"name": named(given, words), "value": _given(given, words)} for given in public),
        "kept": words["candle"]["kept"] if len(public) < len(figure.inputs) else None,
        "source": words["figure_sources"][figure.source],
    }


def _given(given: Input, words: Words) -> str:
    """An input as the public sees it: a calculated length no finer than a drawing is read."""
    recorded_or_quoted = given.origin is not None or given.name.startswith(_QUOTED)
    if given.unit == "mm" and not recorded_or_quoted:
        return millimetres(given.value, words)
    return derived(given.value, given.unit, words)

"""The catalogue: every candle on its shelf, to the same scale, on the home page and by collection."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from urllib.parse import urlencode

from generator.document import Document, Value
from generator.documents.frame import FIGURES, collection_path, home_market
from generator.documents.house import HOME_PAGE, House, Scent, SizeOf
from generator.documents.link_previews import preview_of_house, site_page
from generator.documents.offer_lines import asking_price, first_day, last_day, remark
from generator.documents.outlines import outline_of
from generator.documents.pages.markdown_pages import text_without_markup
from generator.documents.pages.recall_notices import notices
from generator.documents.printed import counted, estimates_note, hours_in_words, listed, net_quantity
from generator.documents.shelves import Shelf, Standing, shelves, standing
from generator.drawing.drawings import Caption, Outline, shelf, standing_height_mm
from generator.model.candle import Candle
from generator.model.kinds import KINDS


def home_page(house: House) -> Document:
    """Everything on the shelves, then what is coming."""
    on_shelves, coming = shelves(house, Standing.ON_THE_SHELF), shelves(house, Standing.COMING)
    words, title = house.words["catalogue"], house.maker.name
    value: dict[str, Value] = {
        "title": title,
        "description": house.maker.line or words["title"].format(house=title),
        "recalls": notices(house),
        "shelves": tuple(_shelf(house, one) for one in on_shelves),
        "coming": _pieces(house, [scent for one in coming for scent in one.scents]),
        "narrowing": tuple(_narrowing(house, on_shelves, coming)),
        "count": _count(house, (*on_shelves, *coming)),
        "count_of": words["count_of"],
        **_estimates(house, (*on_shelves, *coming)),
    }
    return site_page(house, HOME_PAGE, "pages/catalogue.html", value)


def collection_page(house: House) -> Document:
    """The one shelf of a house about a single collection, then what is coming to it."""
    (one,), coming = shelves(house, Standing.ON_THE_SHELF), shelves(house, Standing.COMING)
    words, name, path = house.words["catalogue"], one.collection.name, collection_path(one.id)
    title = words["collection_title"].format(collection=name, house=house.maker.name)
    description = one.collection.text or words["title"].format(house=house.maker.name)
    ahead = [scent for other in coming for scent in other.scents]
    value: dict[str, Value] = {
        "title": title,
        "description": description,
        "preview": preview_of_house(house, path, name, description),
        "shelf": _shelf(house, one),
        "coming": _pieces(house, ahead),
        **_estimates(house, (one, *coming)),
    }
    return site_page(house, path, "pages/collection.html", value)


def _estimates(house: House, listed_shelves: Sequence[Shelf]) -> Mapping[str, Value]:
    """The note on estimates, and the page that explains them."""
    facts = (size.facts for one in listed_shelves for scent in one.scents for size in scent.sizes)
    return {"estimates": estimates_note(facts, home_market(house), house.words), "methods": FIGURES}


def _shelf(house: House, one: Shelf) -> Mapping[str, Value]:
    return {
        "id": one.id,
        "name": one.collection.name,
        "text": one.collection.text,
        "path": collection_path(one.id),
        "pieces": _pieces(house, one.scents),
    }


def _pieces(house: House, scents: Sequence[Scent]) -> tuple[Mapping[str, Value], ...]:
    """Scents on one shelf: each drawing as high as the tallest, so that they line up."""
    drawn = {scent.candle.id: _outlines(house, scent) for scent in scents}
    height_mm = max((standing_height_mm(outlines) for outlines in drawn.values()), default=0.0)
    return tuple(
        _piece(house, scent, _drawings(drawn[scent.candle.id], scent, height_mm)) for scent in scents
    )


def _piece(house: House, scent: Scent, drawings: tuple[str, ...]) -> Mapping[str, Value]:
    """One scent on the shelf: its sizes side by side, their names below."""
    candle = scent.candle
    notes = _notes(candle)
    return {
        "path": scent.sizes[0].facts.site_path,
        "scent": candle.scent,
        "drawings": drawings,
        "notes": listed(notes, house.words) if notes else None,
        "remark": _comes_or_goes(house, scent),
        "collection": candle.collection,
        "note_keys": "|".join(notes),
        "season_keys": "|".join(_seasons_sold(house, candle)),
        "vessel_keys": "|".join(dict.fromkeys(size.recorded.size_name for size in scent.sizes)),
        "words": " ".join(dict.fromkeys(_further_words(house, scent))),
        "sizes": tuple(_size(house, candle, size) for size in scent.sizes),
    }


def _further_words(house: House, scent: Scent) -> Iterator[str]:
    """The words by which a search finds a scent, besides those shown."""
    description = scent.candle.description
    if description:
        yield text_without_markup(description)
    for size in scent.sizes:
        facts = size.facts
        yield from (facts.stock_code, size.object_name, *facts.contains)
        yield house.words["catalogue"][KINDS[facts.kind].sentences.search]


def _size(house: House, candle: Candle, size: SizeOf) -> Mapping[str, Value]:
    facts = size.facts
    return {
        "stock_code": facts.stock_code,
        "vessel": size.recorded.size_name,
        "net": net_quantity(facts, home_market(house), house.words),
        "hours": hours_in_words(facts.burn_hours, house.words),
        "price": asking_price(house, candle, size.recorded),
        "remark": remark(house, size.recorded.status),
    }


def _comes_or_goes(house: House, scent: Scent) -> str | None:
    """When its sale begins or ends, in words."""
    words, candle = house.words["catalogue"], scent.candle
    if standing(scent.sizes[0].recorded.status, candle.sold, house.as_of) is Standing.COMING:
        begins = first_day(house, candle)
        return words["coming_on"].format(day=begins) if begins else words["coming"]
    ends = last_day(house, candle)
    return words["sold_until"].format(day=ends) if ends else None


def _drawings(outlines: Sequence[Outline], scent: Scent, height_mm: float) -> tuple[str, ...]:
    """One drawing for each size, so that a narrow screen can wrap them."""
    return tuple(
        shelf(
            (outline,),
            Caption(name=f"shelf-{size.facts.stock_code}-", title=size.recorded.size_name),
            height_mm,
        )
        for outline, size in zip(outlines, scent.sizes, strict=True)
    )


def _outlines(house: House, scent: Scent) -> tuple[Outline, ...]:
    return tuple(outline_of(size, scent.candle, house.speech.materials) for size in scent.sizes)


def _narrowing(
    house: House, on_shelves: Sequence[Shelf], coming: Sequence[Shelf]
) -> Iterator[Mapping[str, Value]]:
    """The filters, each with its choices; a scent note is one if several scents have it."""
    words = house.words["catalogue"]
    scents = [scent for one in (*on_shelves, *coming) for scent in one.scents]
    notes = Counter(note for scent in scents for note in set(_notes(scent.candle)))
    yield _way("collection", words["by_collection"], [(one.id, one.collection.name) for one in on_shelves])
    ways = {
        ("vessel", "by_vessel"): sorted(
            {size.recorded.size_name for scent in scents for size in scent.sizes}
        ),
        ("season", "by_season"): _in_order(
            {season for scent in scents for season in _seasons(house, scent.candle)}, words["seasons"]
        ),
        ("note", "by_note"): sorted(note for note, scents_with_it in notes.items() if scents_with_it > 1),
    }
    for (way, name), choices in ways.items():
        if choices:
            yield _way(way, words[name], [(choice, choice) for choice in choices])


def _in_order(seasons: set[str], known: str) -> list[str]:
    """Seasons as the year goes, then others by name."""
    order = known.split(", ")
    return sorted(
        seasons, key=lambda season: (order.index(season) if season in order else len(order), season)
    )


def _way(key: str, name: str, choices: Sequence[tuple[str, str]]) -> Mapping[str, Value]:
    return {
        "key": key,
        "name": name,
        "choices": tuple(
            {"value": value, "name": shown, "path": f"{HOME_PAGE}?{urlencode({key: value})}"}
            for value, shown in choices
        ),
    }


def _notes(candle: Candle) -> tuple[str, ...]:
    notes = candle.scent_notes
    return (*notes.top, *notes.heart, *notes.base) if notes else ()


def _seasons(house: House, candle: Candle) -> tuple[str, ...]:
    joined = house.words["catalogue"]["between_seasons"]
    return tuple(candle.season.split(joined)) if candle.season else ()


def _seasons_sold(house: House, candle: Candle) -> tuple[str, ...]:
    """The seasons a candle matches: every one if it is sold all year."""
    words, seasons = house.words["catalogue"], _seasons(house, candle)
    return (*words["seasons"].split(", "),) if words["all_year"] in seasons else seasons


def _count(house: House, listed_shelves: Sequence[Shelf]) -> str:
    scents = sum(len(one.scents) for one in listed_shelves)
    return counted("counted_scents", str(scents), house.words).format(scents=scents)

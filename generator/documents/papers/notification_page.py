"""What a notification to poison centres asks of one stock code, on a page to type from. It is private."""

from collections.abc import Iterator, Mapping
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House, SizeOf, Words
from generator.documents.printed import day, listed, measured, net_quantity
from generator.facts.hazard_facts import HazardFacts
from generator.facts.notification_facts import ComponentFacts, NotificationFacts

_WHO: Final = {"maker": "who_maker", "NPIS": "who_npis", "contact": "who_contact"}
"""The sentence on who notifies, by who does."""

Row = Mapping[str, Value]


def notification_page(house: House, size: SizeOf, known: NotificationFacts) -> Document:
    """One page to type from; what nobody recorded says so."""
    words, recorded = house.words["notification"], size.recorded
    value: dict[str, Value] = {
        "title": words["title"].format(
            scent=recorded.scent, size=recorded.size_name, stock_code=recorded.stock_code
        ),
        "language": house.maker.language,
        "lead": words["lead"].format(day=day(house.as_of, house.words)),
        "words": words,
        "who": (words[_WHO[known.notifier]], words["who_gb"]),
        "product": tuple(_product(house, size, known)),
        "notified": tuple(_notified(house, known)),
        "hazards": tuple(_hazards(house, known.hazards)),
        "constituents": tuple(_component(house.words, one) for one in known.constituents),
        "materials": tuple(_component(house.words, one) for one in known.materials),
        "unknown": tuple(_unknown(house.words, known)),
        "sheets": tuple(_sheets(house, known)),
        "record": known.record,
    }
    return Document(path=f"{recorded.stock_code}.html", template="pages/notification.html", value=value)


def _row(label: str, value: str) -> Row:
    return {"label": label, "value": value}


def _product(house: House, size: SizeOf, known: NotificationFacts) -> Iterator[Row]:
    words, maker = house.words["notification"], house.maker
    scent = next(one for one in house.scents if one.candle.id == size.recorded.candle)
    colour = scent.candle.colour
    yield _row(words["trade_name"], f"{maker.name} {size.recorded.scent}")
    yield _row(words["identifier"], known.ufi or words["no_identifier"])
    yield _row(
        words["supplier"], ", ".join(filter(None, (maker.name, *maker.address, maker.phone, maker.email)))
    )
    yield _row(words["emergency"], words["to_fill_in"])
    yield _row(words["category"], words["category_candles"])
    yield _row(words["use"], words["use_consumer"])
    yield _row(words["packages"], "; ".join(_packages(house, size, scent.sizes)))
    yield _row(words["colour"], colour.name if colour else words["to_fill_in"])
    yield _row(words["state"], words["state_solid"])
    yield _row(words["acidity"], words["acidity_solid"])


def _packages(house: House, size: SizeOf, sizes: tuple[SizeOf, ...]) -> Iterator[str]:
    """Every size of the same recipe, as it is packed and how much it holds."""
    formula = size.recorded.build.formula
    for one in sizes:
        if one.recorded.build.formula == formula:
            container = one.recorded.build.container
            holds = net_quantity(one.facts, one.recorded.markets[0], house.words)
            material = house.words["notification"]["package"]
            packed = container and material.format(vessel=container.name, material=container.material)
            yield f"{packed or one.recorded.size_name}, {holds}"


def _notified(house: House, known: NotificationFacts) -> Iterator[Row]:
    words, noted = house.words["notification"], known.notified
    if noted is None:
        return
    yield _row(words["notified_by"], noted.by or words["not_recorded"])
    countries = listed(noted.countries, house.words) if noted.countries else words["not_recorded"]
    yield _row(words["notified_in"], countries)
    yield _row(words["notified_on"], day(noted.on, house.words) if noted.on else words["not_recorded"])
    yield _row(words["submission"], noted.submission or words["not_recorded"])


def _hazards(house: House, found: HazardFacts | None) -> Iterator[Row]:
    words = house.words["notification"]
    if found is None:
        yield _row(words["classes"], words["no_market"])
        return
    label, none = found.label, words["none"]
    result = listed(found.classes, house.words) if found.classes else None
    yield _row(words["classes"], result or house.words["file_statuses"][label.status])
    if label.status != "classified":
        return
    signal = label.signal_word and house.speech.wording.signal_words[label.signal_word]
    yield _row(words["pictograms"], listed(label.pictograms, house.words) if label.pictograms else none)
    yield _row(words["signal"], signal or none)
    said = (*label.h, *label.euh)
    yield _row(words["statements"], listed(said, house.words) if said else none)
    yield _row(words["precautions"], listed(label.p, house.words) if label.p else none)
    yield _row(words["law"], house.words["laws"].get(label.law, label.law))


def _component(words: Words, one: ComponentFacts) -> Row:
    told = words["notification"]
    hazards = told["by_constituents"] if one.hazards is None else ", ".join(one.hazards) or told["no_class"]
    return {
        "name": one.name,
        "key": one.key,
        "share": measured(f"{one.share} %", words),
        "range": measured(f"{one.range} %", words),
        "hazards": hazards,
    }


def _unknown(words: Words, known: NotificationFacts) -> Iterator[str]:
    told = words["notification"]
    for name in known.without_composition:
        yield told["unknown_composition"].format(name=name)
    if known.unknown_percent is not None:
        yield told["unknown_share"].format(share=measured(f"{known.unknown_percent} %", words))


def _sheets(house: House, known: NotificationFacts) -> Iterator[str]:
    file_words = house.words["file"]
    for name, dated in known.sheets:
        when = (
            file_words["undated"]
            if dated is None
            else file_words["dated"].format(day=day(dated, house.words))
        )
        yield f"{name}, {when}"

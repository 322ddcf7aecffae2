"""What machines read of a candle: its schema.org description, which needs absolute addresses."""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from generator.documents.house import House, Rendition, Scent, SizeOf
from generator.documents.link_previews import absolute, plain_price
from generator.documents.pages.markdown_pages import text_without_markup
from generator.documents.shelves import Standing, public_sizes, standing
from generator.facts.facts import Facts
from generator.model.recorded import Recorded
from generator.model.sizes import Status

Described = dict[str, object]

_SCHEMA: Final = "https://schema.org"

_GRAM: Final = "GRM"
_KILOGRAM: Final = "KGM"
_MILLIMETRE: Final = "MMT"
_HOUR: Final = "HUR"
"""Unit codes of UN/ECE Recommendation 20 (MEMORY)."""

_METRIC: Final = re.compile(r"([0-9.]+)\s(g|kg)\b")
_UNIT_OF: Final = {"g": _GRAM, "kg": _KILOGRAM}
"""A net quantity is read from the text that papers print, so that the two cannot differ."""

_HOUSE_NUMBERS: Final = ("2", "02", "04")
"""Prefixes of GTINs that a house assigns itself and that mean nothing elsewhere: GS1 (MEMORY)."""

_BURN_TIMES: Final = {"tested": "burn_time_tested", "provisional": "burn_time_provisional"}
_OF_STANDING: Final = {
    Standing.COMING: "PreOrder",
    Standing.OUT_OF_SEASON: "OutOfStock",
    Standing.DISCONTINUED: "Discontinued",
}
_OF_STATUS: Final = {
    Status.CURRENT: "InStock",
    Status.MADE_TO_ORDER: "MadeToOrder",
    Status.LAST_FEW: "LimitedAvailability",
}


def product(house: House, scent: Scent) -> str | None:
    """A scent in the terms of schema.org (W8-W10): JSON that is safe inside a script element.

    One size is a Product. Several are a ProductGroup, because each has its own number, weight and price.
    """
    sizes = public_sizes(scent)
    if house.maker.web is None or not sizes:
        return None
    subject = _Subject(house=house, scent=scent, web=house.maker.web)
    described = subject.alone(sizes[0]) if len(sizes) == 1 else subject.group(sizes)
    return _inside_a_script({"@context": _SCHEMA, **described})


@dataclass(frozen=True, slots=True, kw_only=True)
class _Subject:
    """A scent to describe, in a house with a web address."""

    house: House
    scent: Scent
    web: str

    def alone(self, size: SizeOf) -> Described:
        """The only size of its scent."""
        return {**self._size(size), **self._shared_by_all((size,))}

    def group(self, sizes: tuple[SizeOf, ...]) -> Described:
        """All sizes under one name."""
        return {
            "@type": "ProductGroup",
            "productGroupID": self.scent.candle.id,
            "name": self.scent.candle.scent,
            "url": absolute(self.web, sizes[0].facts.site_path),
            **self._shared_by_all(sizes),
            "variesBy": [f"{_SCHEMA}/size"],
            "hasVariant": [_known({**self._size(size), "image": self._photos((size,))}) for size in sizes],
        }

    def _size(self, size: SizeOf) -> Described:
        """What is specific to one stock code."""
        facts = size.facts
        return _known(
            {
                "@type": "Product",
                "sku": facts.stock_code,
                "gtin": _gtin(size.recorded.barcode),
                "name": f"{size.recorded.scent}, {size.recorded.size_name}",
                "size": size.recorded.size_name,
                "url": self._address(facts),
                "material": facts.container.material if facts.container else None,
                "width": _outside_width(size),
                "weight": None if facts.gross_g is None else _quantity(round(facts.gross_g), _GRAM),
                "additionalProperty": list(_further_properties(facts, self.house.words["structured"])),
                "offers": self._offer(facts, size.recorded),
            }
        )

    def _shared_by_all(self, sizes: tuple[SizeOf, ...]) -> Described:
        candle, maker = self.scent.candle, self.house.maker
        return _known(
            {
                "description": text_without_markup(candle.description) if candle.description else None,
                "image": self._photos(sizes),
                "color": candle.colour.name if candle.colour else None,
                "brand": {"@type": "Brand", "name": maker.name},
                "manufacturer": {"@type": "Organization", "name": maker.name, "url": absolute(self.web, "")},
            }
        )

    def _photos(self, sizes: tuple[SizeOf, ...]) -> list[str] | None:
        """The addresses of these sizes' photos, or None where there are none."""
        wanted = {size.facts.stock_code for size in sizes}
        names = [
            name for size in self.scent.candle.sizes if size.stock_code in wanted for name in size.photos
        ]
        photos = [self.house.photos[name] for name in names if name in self.house.photos]
        return [absolute(self.web, _largest(photo).path) for photo in photos] or None

    def _address(self, facts: Facts) -> str:
        """The address of the size on its scent's page."""
        return f"{absolute(self.web, facts.site_path)}#size-{facts.stock_code}"

    def _offer(self, facts: Facts, recorded: Recorded) -> Described | None:
        if recorded.price is None:
            return None
        amount, currency = plain_price(recorded.price, recorded.currency)
        where = standing(recorded.status, self.scent.candle.sold, self.house.as_of)
        return {
            "@type": "Offer",
            "url": self._address(facts),
            "price": amount,
            "priceCurrency": currency,
            "availability": f"{_SCHEMA}/{_OF_STANDING.get(where) or _OF_STATUS[recorded.status]}",
            "itemCondition": f"{_SCHEMA}/NewCondition",
        }


def _further_properties(facts: Facts, words: Mapping[str, str]) -> Iterator[Described]:
    """What schema.org has no property for: wax only where proven, hours only where burnt."""
    declared = next((text for text in facts.declared.values() if text), None)
    if declared is not None and (metric := _METRIC.search(declared)):
        yield _property(words["net_weight"], float(metric[1]), _UNIT_OF[metric[2]])
    burn = facts.burn_hours
    if burn is not None and burn.claim is not None and burn.basis in _BURN_TIMES:
        yield _property(words[_BURN_TIMES[burn.basis]], burn.claim, _HOUR)
    if facts.container is not None:
        yield _property(words["inside_height"], round(facts.shape.depth_mm), _MILLIMETRE)


def _gtin(barcode: str | None) -> str | None:
    return None if barcode is None or barcode.startswith(_HOUSE_NUMBERS) else barcode


def _outside_width(size: SizeOf) -> Described | None:
    wall_mm = size.recorded.build.wall_mm
    if wall_mm is None:
        return None
    return _quantity(round(size.facts.shape.diameter_mm + 2 * wall_mm), _MILLIMETRE)


def _largest(photo: tuple[Rendition, ...]) -> Rendition:
    """The largest rendition of a photo that every program can show."""
    return max((one for one in photo if one.format == "jpeg"), key=lambda one: one.width)


def _quantity(value: float, unit_code: str) -> Described:
    return {"@type": "QuantitativeValue", "value": value, "unitCode": unit_code}


def _property(name: str, value: float, unit_code: str) -> Described:
    return {"@type": "PropertyValue", "name": name, "value": value, "unitCode": unit_code}


def _known(described: Described) -> Described:
    return {name: value for name, value in described.items() if value is not None}


def _inside_a_script(described: Described) -> str:
    """JSON that cannot end the script element around it."""
    text = json.dumps(described, ensure_ascii=False)
    for character in "<>&\u2028\u2029":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return text

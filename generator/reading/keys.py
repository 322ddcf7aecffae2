"""Why each key matters and how it is written: what messages say where a value is missing or of the wrong form."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final


@dataclass(frozen=True, slots=True)
class About:
    """What a mistake would spoil, and an example of what to write after the key."""

    why: str
    example: str


_SAFETY: Final = "the burning advice is worked out from it"
_WEIGHT: Final = "the net weight is worked out from it"
_HOURS: Final = "the burn hours are worked out from it"
_HAZARDS: Final = "the hazard label is worked out from it"
_CATALOGUE: Final = "the catalogue would show a gap"
_TRADE: Final = "the trade sheets print it"
_LABELS: Final = "labels are printed at their places by it"
_LOT: Final = "a buyer is led to the sheet of the lot by it"
_ORDERS: Final = "every buyer's sheet prints it, and orders go by it"
_OWN_LABEL: Final = "an own-label candle bears the shop's name in the maker's place"
_ANSWERABLE: Final = "every label must say who answers for the candle"

_KEYS: Final[Mapping[str, About]] = {
    "sheet": About(_LABELS, "A4, or Letter"),
    "label": About(_LABELS, "{shape: round, diameter: 50 mm}, or {shape: box, width: 70 mm, height: 37 mm}"),
    "margin": About(_LABELS, "{top: 13 mm, left: 4.6 mm}"),
    "pitch": About(_LABELS, "{across: 101.6 mm, down: 67.7 mm}"),
    "Margin.top": About(_LABELS, "13 mm"),
    "left": About(_LABELS, "4.6 mm"),
    "Pitch.across": About(_LABELS, "101.6 mm"),
    "down": About(_LABELS, "67.7 mm"),
    "width": About(_LABELS, "70 mm"),
    "name": About("every paper would show a gap in its place", "a few words"),
    "address": About(_ANSWERABLE, "[7 Ropewalk, Averness AV3 9QN]"),
    "country": About("which rules need a contact of their own depends on it", "GB"),
    "email": About(_ANSWERABLE, "hello@quillfern.example"),
    "markets": About("labels and burning advice differ by market", "[GB, EU, US]"),
    "eu_contact": About(_ANSWERABLE, "{name: a name, address: [street, town]}"),
    "gb_contact": About(_ANSWERABLE, "{name: a name, address: [street, town]}"),
    "language": About("the site and all papers are written in it", "en, de, or fr"),
    "label_languages": About("labels are written in the language of their market", "{EU: [de, fr]}"),
    "burn_charts": About("a chart on the site shows every weighing", "public, or private"),
    "currency": About("a price without its currency says nothing", "GBP"),
    "as_of": About("no clock is read, so the papers' date comes from here", "2026-11-01"),
    "density": About(_WEIGHT, "{set: 0.90 g/ml, molten: 0.80 g/ml at 75 C}"),
    "set": About(_WEIGHT, "0.90 g/ml"),
    "molten": About(_WEIGHT, "0.80 g/ml at 75 C"),
    "declared_as": About("ingredient lists print these names", "[hydrogenated soybean oil, paraffin wax]"),
    "ifra_category_12": About("the formula is held against it", "22 % of total, or no restriction"),
    "composition": About(
        _HAZARDS,
        "[{substance: Linalool, share: 5-10 %, hazards: [Skin Sens. 1B H317]}], or a table's file name",
    ),
    "substance": About("the label names the substances that call for it", "Linalool"),
    "share": About(_HAZARDS, "5-10 %"),
    "cas": About("the same substance is added up by it across all oils of a candle", "78-70-6"),
    "ec": About("the same substance is added up by it across all oils of a candle", "201-134-4"),
    "hazards": About(_HAZARDS, "[Skin Sens. 1B H317]"),
    "undisclosed": About(_HAZARDS, "0 %"),
    "own_classification": About(
        "what the supplier says is held against what section 3 leads to",
        "{at: 10 % of total, classes: [Skin Sens. 1B H317]}",
    ),
    "at": About("a classification says something only of its load", "10 % of total"),
    "classes": About(
        "what the supplier says is held against what section 3 leads to", "[Skin Sens. 1B H317]"
    ),
    "limits": About(_HAZARDS, '["Skin Sens. 1A: 0.01 %"]'),
    "m": About(_HAZARDS, "{acute: 1, chronic: 1}"),
    "ate": About(_HAZARDS, "{oral: 500 mg/kg}"),
    "core": About(
        "a core that holds lead must never burn", "none (plain cotton braid), paper, zinc, tin or wood"
    ),
    "trim": About(_SAFETY, "6 mm"),
    "material": About(_SAFETY, "glass"),
    "inside": About(_WEIGHT, "{shape: cylinder, diameter: 74 mm, height: 92 mm}"),
    "shape": About(_WEIGHT, "cylinder (or cone, rounded, square, bowl ...)"),
    "diameter": About(_WEIGHT, "74 mm"),
    "height": About(_WEIGHT, "92 mm"),
    "Cone.base": About(_WEIGHT, "46 mm"),
    "rim": About(_WEIGHT, "54 mm"),
    "corner": About(_WEIGHT, "3 mm"),
    "across": About(_WEIGHT, "70 mm"),
    "side": About(_WEIGHT, "78 mm"),
    "long": About(_WEIGHT, "90 mm"),
    "short": About(_WEIGHT, "60 mm"),
    "points": About(_WEIGHT, "[[0 mm, 50 mm], [20 mm, 62 mm], [92 mm, 77 mm]]"),
    "lid": About("the lid's weight is part of the parcel's", "{name: cork, weight: 16 g, snuffs: no}"),
    "kind": About("which rules count depends on it", "container"),
    "vessel": About(_WEIGHT, "the name of a file in vessels/, without .yaml"),
    "wick": About(_SAFETY, "the name of a file in wicks/, without .yaml, or {that name: how many}"),
    "fill": About(_WEIGHT, "{to: 68 mm, level: set}"),
    "Fill.level": About("hot wax shrinks as it sets, so the same line would mean less wax", "set"),
    "trade": About(_TRADE, "{price: 12.00, case: 6, minimum: 6}"),
    "cased": About(_TRADE, "{size: [300 mm, 200 mm, 120 mm], weight: 350 g}"),
    "size": About(_TRADE, "[300 mm, 200 mm, 120 mm]"),
    "weight": About(_TRADE, "350 g"),
    "scent": About("the candle would have no name", "Slate & Samphire"),
    "collection": About("the catalogue would not know its shelf", "a key of collections.yaml"),
    "status": About("whether it stands on the shelves depends on it", "current"),
    "sold": About("whether it stands on the shelves depends on it", "{from: 2026-09-01, until: 2027-01-31}"),
    "scent_notes": About(_CATALOGUE, "{top: [sea salt], heart: [samphire], base: [wet slate]}"),
    "top": About(_CATALOGUE, "[sea salt]"),
    "heart": About(_CATALOGUE, "[samphire]"),
    "base": About(_CATALOGUE, "[wet slate]"),
    "colour": About(_CATALOGUE, '{name: wet slate, shade: "#66727a"}'),
    "shade": About("the drawings are tinted with it", '"#66727a"'),
    "ingredients": About(
        "every figure is worked out from the formula", "{soy-paraffin: 1000 g, samphire: 85 g}"
    ),
    "make": About(
        "the pour sheet prints it", "{heat_to: 88 C, fragrance_at: 82 C, pour_at: 75 C, cure: 14 days}"
    ),
    "sizes": About("a candle without a size cannot be sold", "[{stock_code: SS-30, format: tumbler-30}]"),
    "stock_code": About("every page, sheet and label is found by it", "SS-30"),
    "declared": About("the label's net quantity is held against it", "240 g, or {g: 240, oz: 8.4}"),
    "g": About("the label's net quantity is held against it", "240"),
    "weighed": About(_WEIGHT, "[{empty: 285.2 g, full: 533.9 g}, 247.9 g]"),
    "empty": About(_WEIGHT, "285.2 g"),
    "full": About(_WEIGHT, "533.9 g"),
    "burn_time": About(_HOURS, "burn-tests/SS-30.csv, or {like: NL-30}"),
    "like": About(_HOURS, "NL-30"),
    "photos": About(_CATALOGUE, "[ss-30-front.jpg]"),
    "tested_as": About(
        "whether the test still counts depends on it",
        "{vessel: tumbler-30, wick: flat-braid-24, ingredients: {soy-paraffin: 1000 g}}",
    ),
    "piece": About(_HOURS, "A"),
    "session": About(_HOURS, "1"),
    "hours": About(_HOURS, "4"),
    "before_g": About(_HOURS, "533.9"),
    "after_g": About(_HOURS, "515.2"),
    "outcome": About(_HOURS, "ok"),
    "lot": About(_LOT, "SS-30-2026305-K7QX"),
    "lots": About("whoever has the candle must know whether it is meant", "[SS-30-2026305-K7QX]"),
    "stock_codes": About(
        "whoever has the candle must know whether it is meant", "[SS-30] for every lot of it"
    ),
    "poured_on": About(_LOT, "2026-11-01"),
    "made": About("how many there are must be known on the day of a recall", "48"),
    "sheet_revision": About(_LOT, "2"),
    "hazard": About(
        "whoever has the candle must know what it could do to them",
        "The glass can crack while the candle burns, and hot wax runs out.",
    ),
    "what_to_do": About(
        "whoever has the candle must know what to do with it",
        "[Put it outside., Write to us.]",
    ),
    "contact": About(
        "whoever has the candle must be able to ask",
        "hello@quillfern.example, or +44 1632 960188 free of charge",
    ),
    "opening_order": About(_ORDERS, "150.00"),
    "repeat_order": About(_ORDERS, "75.00"),
    "lead_time": About(_ORDERS, "10 working days"),
    "payment": About(_ORDERS, "With the order; 30 days from the second order on."),
    "carriage": About(_ORDERS, "9.00 a carton; paid by us from 300.00."),
    "returns": About(_ORDERS, "Breakages told within 3 days are replaced."),
    "Terms.from": About("a price without its dates could be claimed for ever", "2026-09-01"),
    "Terms.until": About("a price without its dates could be claimed for ever", "2027-03-31"),
    "levels": About("buyers' prices are worked out from it", "{shop: {off_retail: 50 %}}"),
    "off_retail": About("buyers' prices are worked out from it", "50 %"),
    "off_trade": About("buyers' prices are worked out from it", "10 %"),
    "rounding": About("buyers' prices are worked out from it", "to the cent"),
    "enquiry": About("the public page shows the terms that are named here", "[lead_time, payment]"),
    "level": About("the buyer's prices are worked out from it", "a key of levels in trade/terms.yaml"),
    "price_list": About("the buyer's prices come from it", "the name of a list in prices.csv"),
    "offered": About("the buyer's sheet shows these candles and no others", "[SS-30, NL-30]"),
    "withheld": About("the buyer's sheet leaves these candles out", "[SS-30]"),
    "bill_to": About(_ORDERS, "[Larder Lane Ltd, 4 Pump Street, Averness AV1 2AB]"),
    "ship_to": About(_ORDERS, "[Larder Lane Ltd, 4 Pump Street, Averness AV1 2AB]"),
    "made_for": About(_OWN_LABEL, "a key of trade/buyers.yaml"),
    "brand": About(_OWN_LABEL, "Larder Lane"),
    "responsible": About(_OWN_LABEL, "{name: Larder Lane Ltd, address: [4 Pump Street, Averness AV1 2AB]}"),
    "public": About(
        "the safety page shows nothing of the shop that is not named here", "[brand, responsible]"
    ),
    "list": About("whose price it is depends on it", "retail"),
    "price": About(_TRADE, "24.00"),
    "includes_tax": About("prices are compared without tax", "20 %, or no"),
    "buyer": About("a link belongs to one buyer", "a key of trade/buyers.yaml"),
    "version": About("an older version of a link opens nothing", "2"),
    "since": About("a link's version is told by its day", "2026-11-01"),
    "folder": About("the site is laid there", "../shop-site on this computer, or public_html on a server"),
    "host": About("the server is called by it", "files.quillfern.example"),
    "port": About("the server is called there", "22"),
    "user": About("the server knows you by it", "quillfern"),
    "key": About("the server knows you by it, and no password is kept", "~/.ssh/id_ed25519"),
    "host_key": About(
        "only by its key can your server be told from one that poses as it",
        "ssh-ed25519 and the letters that follow it in your host's documentation",
    ),
    "on": About("a notice without its date cannot be told from an older one", "2026-11-01"),
}
OTHERWISE: Final = About("a paper would show something else than was meant", "one text")
"""What can be said of any other key."""

_ONE_OF: Final[Mapping[str, str]] = {
    "composition": "a constituent",
    "sizes": "a size",
    "weighed": "a weighing",
}


def about(owner: Any, key: str) -> About:
    """What there is to say of a key in one part of an entry."""
    return _KEYS.get(f"{owner.__name__}.{key}") or _KEYS.get(key, OTHERWISE)


def one_of(key: str) -> str:
    """The noun for one mapping below a key: one of ``sizes`` is a size."""
    return _ONE_OF.get(key, key)

from typing import Any

import pytest

from generator.model.candle import Candle
from generator.model.formats import Format
from generator.model.label_stock import LabelStock
from generator.model.maker import Maker
from generator.model.materials import Fragrance, Wax, Wick
from generator.model.trade import Buyer
from generator.model.vessel import Vessel
from tests.reading.telling import told

GOOD_CANDLE = "scent: Tide\ncollection: quay\ningredients: {soy: 1000 g}\n"
ONE_SIZE = f"{GOOD_CANDLE}sizes:\n  - stock_code: TT-30\n    "
MAKER = "name: X\naddress: [a]\ncountry: GB\nemail: a@b.example\nmarkets: [GB]\ncurrency: GBP\nas_of: 2026-11-01\n"
WEIGHT = "    why: the net weight is calculated from it\n"
HAZARDS = "    why: the hazard label is calculated from it\n"
LOST = "    why: its contents would be missing from every paper\n"
COMMA = "    why: a comma means thousands to some readers and decimals to others\n"

TOLD: dict[str, tuple[type[Any], str, str]] = {
    "an item of a list without its unit": (
        Vessel,
        "name: Jar\nmaterial: glass\ninside: {shape: profile, points: [[0 mm, 50 mm], [20, 62 mm]]}",
        "3:51: error: item 1 of item 2 of points is '20', without a unit\n"
"    why: mm, cm and inches give very different wax weights\n"
"    fix: 20 mm or 20 cm",
    ),
    "a pair with one value": (
        Vessel,
        "name: Jar\nmaterial: glass\ninside: {shape: profile, points: [[0 mm]]}",
        "3:35: error: item 1 of points has 1 values, not 2\n"
f"{WEIGHT}    fix: points: [[0 mm, ... mm], [... mm, ... mm]]",
    ),
    "a pair with three values": (
        Vessel,
        "name: Jar\nmaterial: glass\ninside: {shape: profile, points: [[0 mm, 5 mm, 6 mm]]}",
        "3:35: error: item 1 of points has 3 values, not 2\n"
f"{WEIGHT}    fix: points: [[0 mm, ... mm], [... mm, ... mm]]",
    ),
    "a text where a shape's keys belong": (
        Vessel,
        "name: Jar\nmaterial: glass\ninside: 74 mm",
        f"3:9: error: inside is '74 mm'; expected keys with values\n{WEIGHT}"
        "    fix: inside: {shape: cylinder, diameter: ... mm, height: ... mm}",
    ),
    "a list where a shape's word belongs": (
        Vessel,
        "name: Jar\nmaterial: glass\ninside: {shape: [cone]}",
        "3:17: error: shape is a list, which is not one of the choices\n"
f"{WEIGHT}    fix: shape: cylinder, cone, rounded, hexagon, square ...",
    ),
    "one length in a list": (
        Format,
        "fill: {to: [68 mm]}",
        ("1:12: error: to is a list; expected one text\n"
f"{WEIGHT}    fix: to: 68 mm"),
    ),
    "keys where one length belongs": (
        Format,
        "fill: {to: {height: 68 mm}}",
        f"1:12: error: to has keys of its own; expected one text\n{WEIGHT}    fix: to: ... mm",
    ),
    "nothing where keys belong": (
        Format,
        "fill:",
        f"1:6: error: fill is empty; expected keys with values\n{WEIGHT}"
        "    fix: fill: {to: ... mm, level: set or poured}",
    ),
    "nothing where a list belongs": (
        Maker,
        "name: X\naddress:\ncountry: GB\nemail: a@b.example\nmarkets: [GB]\ncurrency: GBP\nas_of: 2026-11-01",
        "2:9: error: address is empty; expected a list\n"
"    why: every label must say who answers for the candle\n"
"    fix: address: [..., ...]",
    ),
    "nothing where a word belongs": (
        Wick,
        "name: Braid\ncore:\ntrim: 6 mm",
        "2:6: error: core is empty, which is not one of the choices\n"
"    why: a core with lead must never burn\n"
"    fix: core: none (plain cotton braid), paper, zinc, tin or wood",
    ),
    "a list where a wick belongs": (
        Format,
        "wick: [braid-24]",
        "1:7: error: wick is a list; expected keys with values\n"
        "    why: the burning advice is calculated from it\n"
        "    fix: wick: ... (the name of a file in wicks/, without .yaml), or {that name: how many}",
    ),
    "a theme by its name": (
        Maker,
        f"{MAKER}theme: Net Loft",
        "8:8: error: theme is 'Net Loft'; expected an id\n"
"    why: it names another file, and becomes part of web addresses\n"
"    fix: theme: net-loft",
    ),
    "a length alone in place of a fill": (
        Format,
        "fill: 6.8 cm",
        f"1:7: error: fill is '6.8 cm'; expected keys with values\n{WEIGHT}"
        "    fix: fill: {to: 6.8 cm, level: set}, or {to: 6.8 cm, level: poured, at: ... C}",
    ),
    "a volume alone in place of a fill": (
        Format,
        "fill: 18 cl",
        f"1:7: error: fill is '18 cl'; expected keys with values\n{WEIGHT}"
        "    fix: fill: {volume: 18 cl, level: set}, or {volume: 18 cl, level: poured, at: ... C}",
    ),
    "a comma that parts thousands before a point": (
        Format,
        "price: '1,250.00'",
        f"1:8: error: price '1,250.00' is written with a comma\n{COMMA}    fix: price: 1250.00",
    ),
    "a comma that fits no number with a point": (
        Format,
        "price: '12,5.00'",
        f"1:8: error: price '12,5.00' is written with a comma\n{COMMA}"
        "    fix: price: the number with one point",
    ),
    "a wick's count in words": (
        Format,
        "wick: {braid-24: three}",
        "1:18: error: braid-24 is 'three'; expected a whole number\n"
"    why: it is printed and counted with\n"
"    fix: braid-24: 3",
    ),
    "a text in place of a size": (
        Candle,
        f"{GOOD_CANDLE}sizes: [TT-30]",
        "4:9: error: item 1 of sizes is 'TT-30'; expected keys with values\n"
        "    why: a candle without a size cannot be sold\n"
        "    fix: sizes: [{stock_code: ..., format: ...}]",
    ),
    "a text with a sign in place of a list": (
        Candle,
        f"{GOOD_CANDLE}sizes: 'TT-30: tumbler'",
        "4:8: error: sizes is 'TT-30: tumbler'; expected a list\n"
"    why: a candle without a size cannot be sold\n"
"    fix: sizes: [{stock_code: ..., format: ...}]",
    ),
    "keys in place of a list": (
        Candle,
        f"{ONE_SIZE}photos: {{front: a.jpg}}",
        "6:13: error: photos has keys of its own; expected a list\n"
        "    why: the candle's page shows them\n    fix: photos: [...]",
    ),
    "a list in place of a weight or its keys": (
        Candle,
        f"{ONE_SIZE}declared: [240 g]",
        "6:15: error: declared is a list; expected keys with values or one text\n"
"    why: the label's net quantity is checked against it\n"
"    fix: declared: ... g, or {g: ..., oz: ...}",
    ),
    "half of a weighing": (
        Candle,
        f"{ONE_SIZE}weighed: [{{empty: 285.2 g}}]",
        f"6:15: error: 'full' is missing from this weighing\n{WEIGHT}    fix: full: ... g",
    ),
    "a misspelt needful key": (
        Candle,
        f"{ONE_SIZE}burn_time: {{lik: NL-30}}",
        f"6:17: error: 'lik' is not a key of burn_time\n{LOST}    fix: like: NL-30",
    ),
    "an unknown key of a size": (
        Candle,
        f"{ONE_SIZE}colours: red",
        f"6:5: error: 'colours' is not a key of a size\n{LOST}    fix: kind, vessel, wick, fill, price ...",
    ),
    "a misspelt key with much below it": (
        Candle,
        f"{ONE_SIZE}trad: {{price: 12.00}}",
        f"6:5: error: 'trad' is not a key of a size\n{LOST}    fix: trade: ...",
    ),
    "an empty key": (
        Candle,
        f"{ONE_SIZE}ingredients: {{'': 85 g}}",
        "6:19: error: a key of ingredients is empty\n"
"    why: papers would have a gap\n"
"    fix: its-id: 85 g",
    ),
    "a key among a few words": (
        Fragrance,
        "name: Salt\ncomposition: [{substance: X, share: 1 %, hazards: [], m: {acut: 1}}]",
        f"2:59: error: 'acut' is not a key of m\n{LOST}    fix: acute: 1",
    ),
    "keys in place of a composition": (
        Fragrance,
        "name: Salt\ncomposition: {substance: X}",
        f"2:14: error: composition has keys of its own; expected a list or one text\n{HAZARDS}"
        "    fix: composition: [{substance: ..., share: ...-... %, hazards: [...]}], or a table beside this file",
    ),
    "a limit that is neither a share nor its words": (
        Fragrance,
        "name: Salt\nifra_category_12: none",
        "2:19: error: ifra_category_12 is 'none'; expected a share\n"
"    why: 10 % of the wax is 9.09 % of the total, and a hazard limit may lie between the two\n"
"    fix: ifra_category_12: ... % of wax, or ... % of total, or no restriction",
    ),
    "a decimal comma before a unit": (
        Format,
        "fill: {to: '68,5 mm'}",
        f"1:12: error: to '68,5 mm' is written with a comma\n{COMMA}    fix: to: 68.5 mm",
    ),
    "a comma that may part thousands": (
        Format,
        "fill: {weight: '1,250 g'}",
        f"1:16: error: weight '1,250 g' is written with a comma\n{COMMA}    fix: weight: 1250 g, or 1.250 g",
    ),
    "several lines where one value belongs": (
        Format,
        "packaging: |\n  40 g\n  with the box\n",
        "1:12: error: packaging is '40 g with the box'; 'g with the box' is not a unit of a weight\n"
        "    why: grams and ounces differ 28-fold on every paper\n"
        "    fix: packaging: 40 and one of g, oz, kg, lb or mg",
    ),
    "a very long text in place of keys": (
        Format,
        f"fill: {'as full as it goes ' * 5}",
        f"1:7: error: fill is '{('as full as it goes ' * 5)[:60]}...'; expected keys with values\n{WEIGHT}"
        "    fix: fill: {to: ... mm, level: set or poured}",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("kind", "text", "expected"), TOLD.values(), ids=TOLD.keys())
def test_a_value_that_does_not_fit_is_told_with_its_place_its_reason_and_its_remedy(
    kind: type[Any], text: str, expected: str
) -> None:
    assert told(text, kind) == f"content/entry.yaml:{expected}"


def test_all_faults_of_an_entry_are_told_at_once() -> None:
    text = "kind: jar\nfill: {to: 68, level: sett}\nprice: cheap\n"

    assert [line for line in told(text, Format).splitlines() if not line.startswith(" ")] == [
        "content/entry.yaml:1:7: error: kind is 'jar', which is not one of the choices",
        "content/entry.yaml:2:12: error: to is '68', without a unit",
        "content/entry.yaml:2:23: error: level is 'sett', which is not one of the choices",
        "content/entry.yaml:3:8: error: price is 'cheap'; expected a price",
    ]


OFFERED = {
    "an M-factor alone": (Fragrance, "m: 10", "m: {acute: 10}, or {chronic: 10}"),
    "an M-factor as sheets print it": (Fragrance, "m: M=100", "m: {acute: 100}, or {chronic: 100}"),
    "a dose alone": (Fragrance, "ate: 1150 mg/kg", "ate: {oral: 1150 mg/kg}, or {dermal: 1150 mg/kg}"),
    "a dose with its name": (Fragrance, "ate: LD50 1150 mg/kg", "ate: {oral: 1150 mg/kg}, or {dermal: 1150 mg/kg}"),
    "a share by weight": (Fragrance, "share: 5% w/w", "share: 5 %"),
    "a share with its most behind it": (Fragrance, "share: 5 % max", "share: <= 5 %"),
    "a share with its most before it": (Fragrance, "share: up to 5 %", "share: <= 5 %"),
    "parts per million": (Fragrance, "share: 10 ppm", "share: 0.001 %"),
    "a trace": (Fragrance, "share: trace", "share: ...-... %"),
    "a share that nobody knows": (Fragrance, "share: unknown", "share: ...-... %"),
    "no class in words": (Fragrance, "hazards: Not classified", "hazards: []"),
    "no class in words in a list": (
        Fragrance,
        "hazards: [none]",
        "hazards: [...] with its classes as section 3 gives them, [] if it says there are none, or [unknown]",
    ),
    "pence": (Wick, "price: 10p", "price: 0.10 GBP"),
    "a stroke in a stock code": (Candle, "stock_code: FW/20", "stock_code: FW-20"),
    "brackets in a file's name": (Candle, "photos: [my fig (1).jpg]", "my fig -1.jpg, and rename the file to that"),
    "a photo with its folder": (Candle, "photos: [photos/fig.jpg]", "fig.jpg"),
    "one density of a wax": (Wax, "density: 0.90 g/ml", "density: {set: 0.90 g/ml, molten: ... g/ml at ... C}"),
    "a label's shape": (LabelStock, "label: {shape: circle, diameter: 5 mm}", "shape: round"),
    "a label with four sides": (LabelStock, "label: {shape: rectangle, width: 5 mm, height: 5 mm}", "shape: box"),
    "a contact in a list": (Buyer, "contact: [Sorcha, orders]", "contact: ..."),
    "a melt": (Format, "kind: wax melt", "kind: melt"),
}  # fmt: skip


def _within(kind: type[Any], line: str) -> str:
    """An entry that holds the line, with nothing else at fault where that could be told in the same words."""
    if kind is Fragrance:
        rest = {"share": "1 %", "hazards": "[]"}
        others = ", ".join(f"{key}: {value}" for key, value in rest.items() if not line.startswith(key))
        return f"name: X\ncomposition: [{{substance: X, {others}, {line}}}]"
    if kind is Candle:
        return f"{GOOD_CANDLE}sizes: [{{{line if 'code' in line else f'stock_code: TT-30, {line}'}}}]"
    return line


@pytest.mark.parametrize(("kind", "line", "offered"), OFFERED.values(), ids=OFFERED.keys())
def test_what_is_offered_holds_the_makers_own_figures_or_a_blank(
    kind: type[Any], line: str, offered: str
) -> None:
    said = told(_within(kind, line), kind).splitlines()

    assert f"    fix: {offered}" in said

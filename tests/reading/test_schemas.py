import json
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from generator.model.burn_tests import TestNotes
from generator.model.candle import Candle
from generator.model.formats import Format
from generator.model.maker import Maker
from generator.model.trade import Terms
from generator.reading.entries import FOLDERS
from generator.reading.schemas import editor_schemas
from tests.reading.broken_shops import GOOD
from tests.reading.telling import told

SCHEMAS: dict[str, Any] = {name: json.loads(text) for name, text in editor_schemas().items()}


class _Editor(yaml.SafeLoader):
    """Reads as an editor does: in YAML 1.2 a date is a text, and so are yes, no and on."""


_Editor.yaml_implicit_resolvers = {
    sign: [
        (tag, pattern) for tag, pattern in resolvers if tag.rpartition(":")[2] not in ("timestamp", "bool")
    ]
    for sign, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}

ENTRIES = {
    "maker": """
        name: Lamp Row Candles
        address: [3 Lamp Row, Averness AV3 1AA]
        country: GB
        email: hello@lamprow.example
        phone: "+44 1632 960188"
        markets: [GB, EU, US]
        eu_contact: {name: Atelier, address: [4 quai Gris, Port-Lannec]}
        currency: GBP
        prices_include_tax: 20 %
        as_of: 2026-11-01
        scale_step: 1 g
        """,
    "label-stock": """
        name: Labels 70 by 37 mm, 24 on A4
        sheet: A4
        label: {shape: box, width: 70 mm, height: 37 mm, corner: 0 mm}
        rows: 8
        columns: 3
        margin: {top: 0.5 mm, left: 0 mm}
        pitch: {across: 70 mm, down: 37 mm}
        """,
    "collections": """
        quay: {name: The Quay, text: One sentence., order: 1}
        """,
    "wax": """
        name: Soy and paraffin container wax
        density: {set: 0.90 g/ml, molten: 0.80 g/ml at 75 C}
        melts_at: 52 C
        most_fragrance: 10 % of wax
        declared_as: [hydrogenated soybean oil, paraffin wax]
        heat: 37.5 MJ/kg
        price: 4.10 per kg
        """,
    "fragrance": """
        name: Salt accord
        density: 0.98 g/ml
        flash_point: "> 93 C"
        ifra_category_12: no restriction
        sheet_dated: 2025-05-14
        composition:
          - {substance: Linalool, cas: 78-70-6, ec: 201-134-4, share: 5-10 %, hazards: [Skin Sens. 1B H317]}
          - {substance: X, share: <1 %, hazards: [], m: {acute: 1}, limits: ["Skin Sens. 1A: 0.01 %"],
             ate: {oral: 500 mg/kg}}
        undisclosed: 0 %
        """,
    "additive": "{name: UV absorber, teaspoon: 3.1 g, composition: uv.csv}",
    "dye": "{name: Charcoal, drop: 0.03 g, price: 62.00 per kg, discontinued: no}",
    "wick": "{name: Flat braid, core: none, trim: 6 mm, holder_neck: 6 mm, price: 0.10}",
    "vessel": """
        name: 30 cl tumbler
        material: glass
        inside: {shape: profile, points: [[0 mm, 40 mm], [5 mm, 58 mm]]}
        wall: 3 mm
        brimful: 389 g of water at 20 C
        weight: 285 g
        lid: {name: cork, weight: 16 g, snuffs: no}
        price: 1.20 EUR
        """,
    "format": """
        kind: container
        vessel: tumbler-30
        wick: {flat-braid-24: 3}
        fill: {to: 68 mm, level: poured, at: 75 C}
        price: 24.00
        trade: {price: 12.00, case: 6, minimum: 6}
        packaging: 40 g
        cased: {size: [300 mm, 200 mm, 120 mm], weight: 350 g}
        """,
    "candle": """
        scent: Tide Table
        collection: quay
        status: made to order
        sold: {from: 2026-09-01, until: 2027-01-31}
        scent_notes: {top: [sea salt], heart: [samphire], base: [wet slate]}
        colour: {name: wet slate, shade: "#66727a"}
        description: |
          Markdown.
        ingredients: {soy: 1000 g, salt: 8.5 % of wax, uv: 0.75 US tsp, charcoal: 6 drops}
        make: {heat_to: 88 C, fragrance_at: 180 F, pour_at: 75 C, cure: 14 days}
        sizes:
          - stock_code: TT-30
            format: tumbler-30
            declared: {g: 240, oz: 8.4}
            weighed: [{empty: 285.2 g, full: 533.9 g}, 247.9 g]
            burn_time: [burn-tests/TT-30.csv]
            claim_hours: 40
            barcode: "5012345678900"
            photos: [tt-30-front.jpg]
            ingredients: {salt: 70 g}
          - {stock_code: 31, format: tumbler-30, declared: 240 g, burn_time: {like: TT-30}}
        """,
    "burn-test": """
        tested_as: {vessel: tumbler-30, wick: flat-braid-24, ingredients: {soy: 1000 g}, cure: 14 days}
        tested_on: 2026-09-12
        by: M. Ferrier
        """,
    "publish": """
        drive: {to: folder, folder: ../shop-site}
        web-space: {to: sftp, host: files.example, port: 2222, user: lamp, folder: public_html, key: ~/.ssh/id,
                    host_key: ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIJtTn0v9sUeYz1u1mZ0J0j3o3q9p8w7x6y5z4a3b2c1d}
        """,
    "recall": """
        lots: [TT-30-2026201-T4RD]
        stock_codes: [TT-30]
        hazard: The glass can crack while the candle burns.
        what_to_do: [Put it outside.]
        remedy: Your money back, or a new candle, as you choose.
        contact: hello@lamprow.example
        sold: Sold in our shop in July 2026.
        on: 2026-10-30
        """,
    "terms": """
        opening_order: 150.00
        repeat_order: 75
        lead_time: 10 working days
        payment: With the order.
        carriage: 9.50 a carton
        returns: Breakages are replaced.
        from: 2026-09-01
        until: 2027-03-31
        levels: {shop: {off_retail: 50 %}, friend: {off_trade: 10 %}}
        rounding: to 5 cents
        testers: One of each scent.
        enquiry: [opening_order, lead_time]
        """,
    "buyers": """
        harbour-stores:
          name: Harbour Stores
          level: shop
          price_list: summer
          country: IE
          currency: EUR
          language: en
          offered: [TT-30]
          withheld: [31]
          opening_order: 180.00
          repeat_order: 90.00 EUR
          contact: Sorcha, orders@harbour.example
          bill_to: [Harbour Stores, 2 Quay Street]
          ship_to: [Harbour Stores, The Yard]
          tax_number: IE 0000000X
          notes: Pays in January.
        """,
}

FAULTS = {
    "a label without its height": ("label-stock", "height: 37 mm, ", ""),
    "a sheet that nobody sells": ("label-stock", "sheet: A4", "sheet: A5"),
    "an unknown key": ("wick", "core: none", "core: none, colour: red"),
    "an unknown key further in": ("vessel", "shape: profile,", "shape: profile, rim: 8 mm,"),
    "the id, which the file's name gives": ("wick", "name: Flat braid", "name: Flat braid, id: flat-braid"),
    "a length without its unit": ("format", "to: 68 mm", "to: 68"),
    "a percentage without its basis": ("wax", "10 % of wax", "10 %"),
    "a fluid ounce of two sizes": ("vessel", "389 g of water at 20 C", "13 fl oz"),
    "a word that is none of those known": ("wick", "core: none", "core: rope"),
    "a core of lead": ("wick", "core: none", "core: lead"),
    "a shape that is none of those known": ("vessel", "shape: profile", "shape: tube"),
    "a needful key left out": ("candle", "collection: quay", ""),
    "an empty value": ("wax", "melts_at: 52 C", "melts_at:"),
    "an ingredient by its name": ("candle", "soy: 1000 g, salt", "Soy Wax: 1000 g, salt"),
    "a text in place of a list": ("maker", "address: [3 Lamp Row, Averness AV3 1AA]", "address: 3 Lamp Row"),
    "two measures of a case": ("format", "[300 mm, 200 mm, 120 mm]", "[300 mm, 200 mm]"),
    "an unknown market": ("maker", "[GB, EU, US]", "[GB, CH]"),
    "a level of two discounts": ("terms", "{off_retail: 50 %}", "{off_retail: 50 %, off_trade: 5 %}"),
    "a level of nothing": ("terms", "{off_retail: 50 %}", "{}"),
    "a rounding that has no name": ("terms", "to 5 cents", "to 7 cents"),
    "a term that there is none of": ("terms", "[opening_order, lead_time]", "[discount]"),
    "terms without their end": ("terms", "until: 2027-03-31", ""),
    "a currency's sign": ("buyers", "currency: EUR", "currency: €"),
    "a buyer's id, which its key gives": ("buyers", "name: Harbour Stores", "id: harbour"),
    "a buyer without a country": ("buyers", "country: IE", ""),
    "a collection's id in capitals": ("collections", "quay:", "Quay:"),
}
KINDS: dict[str, Any] = {
    "maker": Maker,
    "burn-test": TestNotes,
    "terms": Terms,
    **{folder.word: folder.kind for folder in FOLDERS},
}


def _finds_fault(kind: str, text: str) -> bool:
    validator = Draft202012Validator(SCHEMAS[f"{kind}.json"])
    return not validator.is_valid(yaml.load(text, Loader=_Editor))  # noqa: S506  (it is a safe loader's child)


def test_there_is_a_schema_for_every_kind_of_entry() -> None:
    assert sorted(SCHEMAS) == sorted(f"{kind}.json" for kind in ENTRIES)


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_keeps_to_the_draft_it_names(name: str) -> None:
    Draft202012Validator.check_schema(SCHEMAS[name])

    assert SCHEMAS[name]["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("kind", ENTRIES)
def test_an_editor_finds_no_fault_in_a_good_entry(kind: str) -> None:
    assert not _finds_fault(kind, ENTRIES[kind])


@pytest.mark.parametrize(("kind", "good", "bad"), FAULTS.values(), ids=FAULTS.keys())
def test_an_editor_underlines_a_fault(kind: str, good: str, bad: str) -> None:
    assert good in ENTRIES[kind]
    assert _finds_fault(kind, ENTRIES[kind].replace(good, bad))


@pytest.mark.parametrize("kind", KINDS)
def test_the_reader_finds_no_fault_where_an_editor_finds_none(kind: str) -> None:
    assert told(ENTRIES[kind], KINDS[kind]) == ""


OF_OTHERS = ("an ingredient by its name", "a core of lead", "a level of two discounts", "a level of nothing")
"""What the rules refuse: they know the other entries, why lead must not burn, and what a level is for."""

READ = {
    name: fault
    for name, fault in FAULTS.items()
    if fault[0] in KINDS and "id:" not in fault[2] and name not in OF_OTHERS
}
"""The faults that an entry shows without its file's name and without the other entries of its file."""


@pytest.mark.parametrize(("kind", "good", "bad"), READ.values(), ids=READ.keys())
def test_the_reader_refuses_what_an_editor_underlines(kind: str, good: str, bad: str) -> None:
    assert told(ENTRIES[kind].replace(good, bad), KINDS[kind]) != ""


@pytest.mark.parametrize(
    "path", sorted(GOOD.rglob("*.yaml")), ids=lambda path: path.relative_to(GOOD).as_posix()
)
def test_an_editor_finds_no_fault_in_the_good_shop(path: Any) -> None:
    folders = {"waxes": "wax", "burn-tests": "burn-test"}
    kind = folders.get(
        path.parent.name, path.stem if path.parent == GOOD else path.parent.name.removesuffix("s")
    )

    assert not _finds_fault(kind, path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("kind", [Candle, Format], ids=lambda kind: kind.__name__)
def test_an_editor_shows_what_an_entry_is_in_plain_words(kind: type[object]) -> None:
    described = SCHEMAS[f"{kind.__name__.lower()}.json"]["description"]

    assert described == (kind.__doc__ or "").replace("``", "'")


def test_the_text_is_the_same_every_time() -> None:
    assert editor_schemas.__wrapped__() == editor_schemas.__wrapped__()


@pytest.mark.parametrize("name", ["maker", "wax", "terms"])
def test_every_entry_may_hold_reasons_for_its_warnings(name: str) -> None:
    schema = SCHEMAS[f"{name}.json"]
    entry = {key: value for key, value in schema["properties"].items() if key == "accepted"}
    validator = Draft202012Validator({"type": "object", "properties": entry, "additionalProperties": False})

    assert validator.is_valid({"accepted": {"headspace": "the lid rests on a shoulder"}})
    assert not validator.is_valid({"accepted": ["headspace"]})


@pytest.mark.parametrize(
    ("name", "part"), [("candle", "Size"), ("buyers", "Buyer"), ("collections", "Collection")]
)
def test_so_may_sizes_and_the_entries_that_share_a_file(name: str, part: str) -> None:
    assert "accepted" in SCHEMAS[f"{name}.json"]["$defs"][part]["properties"]
    assert "accepted" not in json.dumps(SCHEMAS["candle.json"]["$defs"]["Fill"])

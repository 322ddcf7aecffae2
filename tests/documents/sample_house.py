"""A small invented house, worked out by hand, for tests of single papers; every test changes what it is about."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any, TypeVar

from generator.documents.house import House, LanguagePack, Scent, SizeOf, Words
from generator.facts.facts import ContainerFacts, Facts, PartFacts, ShapeFacts, TestFacts, WickFacts
from generator.facts.hazard_facts import HazardFacts
from generator.ledgers.record import record_of
from generator.ledgers.sheet import sheet_value
from generator.ledgers.standing import SheetState, state_of
from generator.model.amounts import Amount, AmountUnit
from generator.model.burn_safety import BurnAdvice, BurnHours, HazardLabel, sheet_as_json
from generator.model.candle import Candle, Colour, ScentNotes
from generator.model.canonical import canonical, fingerprint_of
from generator.model.formats import Fill
from generator.model.kinds import Kind
from generator.model.ledger import Issued, Ledger
from generator.model.maker import Collection, Contact, Maker
from generator.model.markets import Market
from generator.model.materials import Fragrance, Wax, WaxDensity, Wick
from generator.model.money import Money
from generator.model.quantities import DensityAt
from generator.model.recorded import Build, Formula, Portion, Recorded, Role, WickUse
from generator.model.sizes import Size, Status
from generator.model.vessel import Cylinder, Lid, Vessel
from generator.reading.languages import FIRST, material_words, wording, words_of
from tests.conftest import TODAY

Thing = TypeVar("Thing", Recorded, Facts)

ROOT = Path(__file__).parents[2]

WORDS: Words = words_of(FIRST)

MAKER = Maker(
    name="Saltmarsh Wax",
    address=("The Drying Shed", "2 Creek Lane", "Oxwick OX1 9ZZ"),
    country="GB",
    email="hello@saltmarsh.example",
    phone="+44 1632 960001",
    web="https://saltmarsh.example",
    markets=("GB", "EU", "US"),
    eu_contact=Contact(
        name="Comptoir du Large", address=("1 quai Vieux", "Port-Nul"), email="eu@large.example"
    ),
    currency="GBP",
    prices_include_tax_percent=20.0,
    as_of=TODAY,
)

ADVICE: Mapping[Market, BurnAdvice] = {
    "GB": BurnAdvice(
        trim="6 mm", longest_session_h=4.0, stop_at="10 mm", apart="10 cm", clear_of=None,
        first_burn_h=3.0, cool_down_h=2.0,
    ),
    "EU": BurnAdvice(
        trim="6 mm", longest_session_h=4.0, stop_at="10 mm", apart="10 cm", clear_of=None,
        first_burn_h=3.0, cool_down_h=2.0,
    ),
    "US": BurnAdvice(
        trim="1/4 in", longest_session_h=4.0, stop_at="1/2 in", apart="3 in", clear_of="12 in",
        first_burn_h=3.0, cool_down_h=2.0,
    ),
}  # fmt: skip

VESSEL = Vessel(
    id="beaker",
    name="Clear beaker",
    material="glass",
    inside=Cylinder(shape="cylinder", diameter_mm=74.0, height_mm=92.0),
    wall_mm=3.0,
    weight_g=285.0,
    lid=Lid(name="cork", weight_g=16.0),
)

WAX = Wax(
    id="soy",
    name="Soy wax",
    density=WaxDensity(set_g_per_ml=0.9, molten=DensityAt(0.87, 75.0)),
    declared_as=("hydrogenated soybean oil",),
)
FRAGRANCE = Fragrance(id="marsh", name="Marsh accord")
WICK = Wick(id="braid-9", name="Flat braid 9", core="none", trim_mm=6.0)

RECORDED = Recorded(
    stock_code="SM-30",
    candle="samphire-bank",
    scent="Samphire Bank",
    collection="tideline",
    size_name="Clear beaker",
    kind=Kind.CONTAINER,
    status=Status.CURRENT,
    build=Build(
        shape=VESSEL.wax_shape,
        container=VESSEL,
        wicks=(WickUse(wick=WICK, count=1),),
        fill=Fill(to_mm=65.0),
        formula=Formula(
            waxes=(Portion(material=WAX, amount=Amount(Decimal(1000), AmountUnit.GRAMS)),),
            fragrances=(Portion(material=FRAGRANCE, amount=Amount(Decimal(85), AmountUnit.GRAMS)),),
            additives=(),
            dyes=(),
        ),
        cure_h=None,
    ),
    make=None,
    weighed=(),
    declared_g=None,
    declared_oz=None,
    tests=(),
    like=None,
    claim_hours=None,
    longest_session_h=None,
    price=Money(Decimal("24.00")),
    prices_include_tax_percent=20.0,
    trade_price=Money(Decimal("12.00")),
    case=6,
    minimum=6,
    packaging_g=40.0,
    cased=None,
    barcode="6291041500213",
    ufi=None,
    added=None,
    markets=("GB", "EU", "US"),
    currency="GBP",
    scale_step_g=1.0,
    as_of=TODAY,
)

NO_HAZARDS = HazardFacts(
    label=HazardLabel(status="none", law="CLP"),
    classes=(),
    may_leave_off=(),
    size=None,
    reasons=(),
    next_limits=(),
)


def saying(hazards: HazardFacts, **changed: Any) -> HazardFacts:
    """The same hazards whose label differs as named."""
    return replace(hazards, label=replace(hazards.label, **changed))


SKIN_AND_EYES = replace(
    saying(
        NO_HAZARDS,
        status="classified",
        pictograms=("GHS07",),
        signal_word="Warning",
        h=("H317", "H319"),
        p=("P102", "P302+P352", "P305+P351+P338", "P333+P313", "P337+P313", "P501"),
        named_substances=("Citronellol", "Geraniol", "Linalool"),
        sensitisers=("Citronellol", "Geraniol", "Linalool"),
    ),
    classes=("Skin Sens. 1 H317", "Eye Irrit. 2 H319"),
    reasons=("Skin Sens. 1 H317: Geraniol 1.4429 % of the candle; the limit is 1 %",),
    next_limits=("Eye Dam. 1 H318: Geraniol 1.4429 % of the candle; the limit is 3 %",),
)
"""The longest label that a candle of the example shop carries."""

SENSITISING = replace(
    saying(
        NO_HAZARDS,
        status="classified",
        pictograms=("GHS07",),
        signal_word="Warning",
        h=("H317",),
        named_substances=("Linalool",),
        sensitisers=("Linalool",),
    ),
    classes=("Skin Sens. 1B H317",),
)
NAMING = saying(NO_HAZARDS, euh=("EUH208",), named_substances=("Linalool",), sensitisers=("Linalool",))
UNKNOWN = replace(saying(NO_HAZARDS, status="unknown"), reasons=("marsh: no composition is recorded",))
HAZARDS: Mapping[Market, HazardFacts | None] = {"GB": NO_HAZARDS, "EU": NO_HAZARDS, "US": None}

FACTS = Facts(
    stock_code="SM-30",
    candle="samphire-bank",
    kind=Kind.CONTAINER,
    margin_percent=Decimal(40),
    minimum_cartons=1,
    hs_heading="3406",
    site_path="candles/samphire-bank.html",
    safety_path="safety/SM-30.html",
    container=ContainerFacts(id="beaker", name="Clear beaker", material="glass"),
    shape=ShapeFacts(brimful_ml=390.0, diameter_mm=74.0, depth_mm=92.0),
    wick=WickFacts(id="braid-9", name="Flat braid 9", count=1, trim_mm=6.0),
    fill_volume_ml=279.6,
    level_set_mm=65.0,
    net_weight_g=249.9,
    net_weight_basis="weighed",
    net_weight_error_percent=0.4,
    weighed_n=6,
    declared={"GB": "240 g", "EU": "240 g", "US": "8.4 oz (240 g)"},
    estimated={"GB": "249 g", "EU": "249 g", "US": "8.8 oz (249 g)"},
    declared_status="proven",
    declared_g=240,
    density_set_g_per_ml=0.9061,
    density_molten_g_per_ml=0.8751,
    fragrance_of_wax_percent=8.5,
    fragrance_of_total_percent=7.834,
    heel_g=49.5,
    burnable_g=200.4,
    lhv_mj_per_kg=37.2,
    heat_w=51.7,
    gross_g=590.9,
    case_g=3895.4,
    rate_g_per_h=4.6,
    rate_high_g_per_h=5.0,
    burn_hours=BurnHours(claim=40, low=40.1, mean=43.6, high=47.7, basis="tested"),
    burn_track=None,
    burn_test=TestFacts(
        files=("burn-tests/SM-30.csv",),
        pieces=3,
        sessions=30,
        coverage=0.98,
        excluded=(),
        matches=True,
        moved=(),
    ),
    first_burn_h=2.91,
    session_limit_h=4.0,
    stop_depth_mm=12.7,
    advice=ADVICE,
    hazards=HAZARDS,
    outline_mm=((37.0, 0.0), (37.0, 92.0)),
    contains=("hydrogenated soybean oil", "Marsh accord"),
    parts=(
        PartFacts(
            id="soy",
            name="Soy wax",
            role=Role.WAX,
            of_wax_percent=Decimal(100),
            of_total_percent=Decimal("92.166"),
        ),
        PartFacts(
            id="marsh",
            name="Marsh accord",
            role=Role.FRAGRANCE,
            of_wax_percent=Decimal("8.5"),
            of_total_percent=Decimal("7.834"),
        ),
    ),
    figures=(),
    sources={},
)

CANDLE = Candle(
    id="samphire-bank",
    scent="Samphire Bank",
    collection="tideline",
    added=date(2026, 3, 1),
    scent_notes=ScentNotes(top=("salt",)),
    colour=Colour(name="wet slate", shade="#66727a"),
    description="Salt first, then *stone*.",
    ingredients={},
    sizes=(Size(stock_code="SM-30"),),
)


def size(**changed: Any) -> SizeOf:
    """One size whose record and facts differ as named."""
    assert all(hasattr(RECORDED, name) or hasattr(FACTS, name) for name in changed)
    return SizeOf(
        recorded=_changed(RECORDED, changed),
        facts=_changed(FACTS, changed),
        key=repr(sorted(changed.items())),
    )


def _changed(value: Thing, changed: Mapping[str, Any]) -> Thing:
    """The value with those of the changes that are fields of it."""
    known = {name for name in changed if hasattr(value, name)}
    return replace(value, **{name: changed[name] for name in known})


def with_vessel(one: SizeOf, vessel: Vessel) -> SizeOf:
    """The same size in another vessel."""
    build = replace(one.recorded.build, shape=vessel.wax_shape, container=vessel)
    return replace(one, recorded=replace(one.recorded, build=build))


MELT = SizeOf(
    key="melt",
    recorded=replace(
        RECORDED,
        stock_code="SM-SB",
        size_name="Snap bar",
        kind=Kind.MELT,
        build=replace(RECORDED.build, wicks=()),
    ),
    facts=replace(
        FACTS,
        stock_code="SM-SB",
        kind=Kind.MELT,
        safety_path="safety/SM-SB.html",
        wick=None,
        burn_hours=None,
        first_burn_h=None,
        session_limit_h=None,
        stop_depth_mm=None,
        advice={},
    ),
)


def sheets(*sizes: SizeOf, maker: Maker = MAKER) -> Mapping[str, SheetState]:
    """The sheets of these sizes, none of them issued."""
    return {
        one.facts.stock_code: state_of(sheet_value(one.recorded, one.facts, maker), None) for one in sizes
    }


def speech_in(language: str, words: Words = WORDS) -> LanguagePack:
    """A language's law and materials with these sentences."""
    return LanguagePack(words=words, wording=wording(language), language=language, materials=material_words())


def house(*sizes: SizeOf, maker: Maker = MAKER, candle: Candle = CANDLE) -> House:
    """A house with one scent in these sizes, whose sheets are shown as drafts."""
    sizes = sizes or (size(),)
    return House(
        maker=maker,
        collections={"tideline": Collection(name="Tideline", text="What the tide leaves.", order=1)},
        scents=(Scent(candle=candle, sizes=sizes),),
        photos={},
        speech=speech_in(maker.language),
        as_of=maker.as_of or TODAY,
        sheets=sheets(*sizes, maker=maker),
        drafts=True,
    )


def issued_of(one: SizeOf, revision: int = 1, maker: Maker = MAKER) -> Issued:
    """What a size's sheet says, as issued; its seal is not looked at where there is no file."""
    said = sheet_as_json(sheet_value(one.recorded, one.facts, maker))
    return Issued(
        revision=revision,
        on=date(2026, 10, 14 + revision),
        reason="first issue",
        said=said,
        fingerprint=fingerprint_of(said),
        recorded=canonical(record_of(one.recorded)),
        seal=f"seal of {revision}",
    )


def with_issued(shop: House, *revisions: Issued) -> House:
    """The same house after these revisions of its first sheet were issued."""
    (code, state), *others = shop.sheets.items()
    issued = state_of(state.value, Ledger(stock_code=code, revisions=revisions))
    return replace(shop, sheets={code: issued, **dict(others)})

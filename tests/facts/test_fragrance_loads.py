"""The loads at which a fragrance changes a label, by hand where the arithmetic is a division."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from generator.facts.fragrance_loads import FragranceLoads, LoadStep, loads_of
from generator.making.remembered import LOADS
from generator.model.hazard_classes import HazardClass
from generator.model.materials import Constituent, Fragrance
from generator.model.sheet_values import ShareRange

ON = date(2026, 11, 1)
SENSITISING = Constituent(
    substance="Linalool",
    share=ShareRange(low_percent=Decimal(10), high_percent=Decimal(20)),
    hazards=(HazardClass("Skin Sens. 1B", "H317"),),
)
OIL = Fragrance(id="oil", name="Oil", sheet_dated=date(2026, 1, 1), composition=(SENSITISING,))


def test_a_sensitiser_is_named_from_a_tenth_of_a_percent_and_classifies_from_one() -> None:
    """CLP Annex I Tables 3.4.5 (FOUND) and 3.4.6 (MEMORY): 0.1 and 1 % of the candle, of an oil that holds 20 %."""
    loads = loads_of(OIL, ("EU",), ON).markets["EU"]

    assert loads.steps == (
        LoadStep(
            of_wax_percent="0.5025",
            of_total_percent="0.5",
            status="none",
            classes=(),
            codes=("EUH208",),
            named=("Linalool",),
        ),
        LoadStep(
            of_wax_percent="5.2631",
            of_total_percent="5",
            status="classified",
            classes=("Skin Sens. 1B H317",),
            codes=("H317",),
            named=("Linalool",),
        ),
    )


def test_the_united_states_have_no_steps_at_all() -> None:
    assert loads_of(OIL, ("US", "GB"), ON).markets.keys() == {"GB"}


def test_without_a_composition_nothing_is_known_which_is_not_no_step() -> None:
    blank = Fragrance(id="oil", name="Oil")
    harmless = Fragrance(id="oil", name="Oil", sheet_dated=date(2026, 1, 1), composition=())

    steps = [loads_of(oil, ("EU",), ON).markets["EU"].steps for oil in (blank, harmless)]

    assert steps == [None, ()]


def test_loads_come_back_from_the_store_as_they_were() -> None:
    loads: FragranceLoads = loads_of(OIL, ("EU", "GB"), ON)

    assert LOADS.load(LOADS.dump(loads)) == loads


def test_a_class_that_only_one_market_knows_is_told_there_alone() -> None:
    """Reg. (EU) 2023/707 (FOUND) knows endocrine disruptors, GB CLP does not."""
    disruptor = replace(SENSITISING, substance="Other", hazards=(HazardClass("ED ENV 2", "EUH431"),))
    oil = replace(OIL, composition=(SENSITISING, disruptor))

    loads = loads_of(oil, ("GB", "EU"), ON).markets

    codes = {
        market: {code for step in one.steps or () for code in step.codes} for market, one in loads.items()
    }
    assert codes == {"GB": {"EUH208", "H317"}, "EU": {"EUH208", "H317", "EUH431"}}

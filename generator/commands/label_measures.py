"""The least letters and signs on a label, by the rules of its market and the room that its stock leaves."""

from datetime import date

from generator.documents.house import SizeOf
from generator.documents.papers.label_text import LabelSizes
from generator.model.label_stock import LabelStock
from generator.model.markets import Market
from generator.rules.labels.label_sizes import (
    LEAST_SIGN_MM,
    caution_type,
    quantity_type,
    small_letters_mm,
)
from generator.rules.labels.type_height import round_panel_in2

LEAST_DIAMOND_MM, USUAL_DIAMOND_MM = 10, 16
"""Side of a red diamond where no capacity says more (CLP Annex I table 1.3: standards.md C2, FOUND)."""


def sizes_of(size: SizeOf, market: Market, stock: LabelStock, on: date) -> LabelSizes:
    """The least letters and signs on a label of this stock for this candle."""
    facts, wall_mm = size.facts, size.recorded.build.wall_mm or 0.0
    type_ = caution_type(stock.area_mm2, market)
    found = facts.hazards.get(market)
    label_size = None if found is None else found.size
    panel_in2 = round_panel_in2(facts.shape.depth_mm, facts.shape.diameter_mm + 2 * wall_mm)
    quantity = quantity_type(market, facts.net_weight_g, panel_in2)
    return LabelSizes(
        signal_mm=type_.signal_mm,
        statement_mm=type_.statement_mm,
        other_mm=type_.other_mm,
        hazard_small_letter_mm=small_letters_mm(market, facts.shape.brimful_ml, on),
        sign_mm=LEAST_SIGN_MM,
        diamond_least_mm=label_size.pictogram_least_mm if label_size else LEAST_DIAMOND_MM,
        diamond_mm=label_size.pictogram_mm if label_size else USUAL_DIAMOND_MM,
        quantity_mm=quantity.height_mm,
        quantity_of_small_letters=quantity.of_small_letters,
        quantity_stands_low=quantity.stands_low,
    )

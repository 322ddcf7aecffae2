"""What the public may see before a sheet is issued, and after it has changed."""

from dataclasses import replace

from generator.documents.house import SizeOf
from generator.documents.published import as_published
from generator.facts.facts import Facts
from generator.memory import Remembered
from generator.model.burn_safety import BurnHours
from tests.documents.sample_house import FACTS, house, issued_of, size, with_issued


def published(one: SizeOf, *, issued: SizeOf | None = None, drafts: bool = False) -> Facts:
    shop = replace(house(one), drafts=drafts)
    if issued is not None:
        shop = with_issued(shop, issued_of(issued))
    return as_published(shop, Remembered()).scents[0].sizes[0].facts


def test_before_a_sheet_is_issued_there_are_no_hours() -> None:
    assert published(size()) == replace(FACTS, burn_hours=None, figures=())


def test_where_drafts_are_shown_everything_is() -> None:
    assert published(size(), drafts=True) == FACTS


def test_a_sheet_in_force_lets_all_its_figures_out() -> None:
    assert published(size(), issued=size()) == FACTS


def test_after_a_change_the_figures_in_force_stay() -> None:
    less = {"GB": "230 g", "EU": "230 g", "US": "8.1 oz (230 g)"}
    now = size(declared=less, estimated=less, burn_hours=None, session_limit_h=3.0, stop_depth_mm=10.0)

    facts = published(now, issued=size())

    assert facts.declared == FACTS.declared
    assert facts.burn_hours == BurnHours(claim=40, low=None, mean=None, high=None, basis="tested")
    assert (facts.session_limit_h, facts.stop_depth_mm, facts.advice) == (4.0, 13.0, FACTS.advice)


def test_an_estimate_in_force_stays_an_estimate() -> None:
    guessed = size(
        declared=dict.fromkeys(FACTS.declared), declared_status="estimated", net_weight_basis="geometry"
    )

    facts = published(size(), issued=guessed)

    assert (facts.declared["GB"], facts.estimated["GB"], facts.net_weight_basis) == (
        None,
        "249 g",
        "geometry",
    )

"""The workshop's own files: all figures and all warnings for other programs, and the page that lists them."""

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Final, TypeVar

from generator.document import Document, PlainText, Value
from generator.documents.hazard_labels import texts_from_memory
from generator.documents.house import House, SizeOf
from generator.documents.pages.burn_chart import chart_address
from generator.documents.pages.change_report import CHANGES
from generator.documents.pages.link_list import LINK_LIST
from generator.documents.pages.loads_page import loads_path
from generator.documents.pages.trade_sheet import SHEET, TRADE_TABLE
from generator.documents.printed import listed
from generator.facts.facts import Facts
from generator.facts.hazard_facts import HazardFacts
from generator.model.burn_safety import advice_written
from generator.model.entry import by_field
from generator.model.ledger import sheet_address
from generator.model.markets import MARKETS, Market
from generator.model.money import Money, rounded
from generator.model.recorded import Recorded
from generator.problems import Problem, alike, as_data, in_reading_order, is_open

Data = dict[str, object]
Known = TypeVar("Known")

FACTS: Final = "workshop/facts.json"
PROBLEMS: Final = "workshop/problems.json"
WORKSHOP: Final = "workshop/index.html"
_WORKSHOP: Final = "workshop/"


def facts_file(house: House) -> PlainText:
    """``facts.json``: every stock code's figures, unrounded; what is absent is null and never missing."""
    by_code = sorted(house.sizes, key=lambda size: size.facts.stock_code)
    # A line for each stock code, so that a comparison of two builds names the codes; indenting costs five times more.
    lines = ",\n".join(
        f"{_written(size.facts.stock_code)}: {_written(_figures(house, size))}" for size in by_code
    )
    return PlainText(path=FACTS, text=f"{{\n{lines}\n}}\n")


def problems_file(problems: Sequence[Problem]) -> PlainText:
    """``problems.json``: the warnings of this build in reading order, accepted ones with their reasons."""
    lines = ",\n".join(_written(as_data(problem)) for problem in in_reading_order(problems))
    return PlainText(path=PROBLEMS, text=f"[\n{lines}\n]\n")


def workshop_index(house: House, problems: Sequence[Problem], *, has_links: bool = False) -> Document:
    """The workshop's front page; it leads to the list of trade links where there are any."""
    words = house.words["workshop"]
    papers = (
        (words["changes"], CHANGES),
        (words["trade"], SHEET),
        (words["trade_table"], TRADE_TABLE),
        *(((house.words["links"]["title"], LINK_LIST),) if has_links else ()),
        (words["facts"], FACTS),
        (words["problems"], PROBLEMS),
    )
    value: dict[str, Value] = {
        "title": words["title"],
        "language": house.maker.language,
        "house": house.maker.name,
        "lead": words["lead"],
        "papers": tuple({"name": name, "address": path.removeprefix(_WORKSHOP)} for name, path in papers),
        "loads": tuple(
            {"name": loads.name, "address": loads_path(id_)} for id_, loads in house.loads.items()
        ),
        "tests": tuple(
            {
                "name": house.words["burn_chart"]["workshop"].format(stock_code=size.facts.stock_code),
                "address": chart_address(size),
            }
            for size in house.sizes
            if size.facts.burn_track is not None
        ),
        "from_memory": tuple(_from_memory(house)),
        "warnings": words["warnings"],
        "problems": tuple(_told(group) for group in alike(in_reading_order(filter(is_open, problems)))),
        "none": words["none"],
        "accepted": tuple(
            _accepted(problem) for problem in in_reading_order(problems) if not is_open(problem)
        ),
    }
    return Document(path=WORKSHOP, template="pages/workshop.html", value=value)


def _from_memory(house: House) -> Iterator[Mapping[str, Value]]:
    """The stock codes whose labels carry sentences not yet compared with the law's text."""
    for size in house.sizes:
        printed = {code for hazards in size.facts.hazards.values() if hazards for code in hazards.label.codes}
        codes = texts_from_memory(sorted(printed), house.speech.wording)
        if codes:
            yield {"stock_code": size.facts.stock_code, "codes": listed(codes, house.words)}


def _told(group: Sequence[Problem]) -> Mapping[str, Value]:
    """Problems that share one reason and one fix, which are given once."""
    return {
        "each": tuple({"place": str(each.place), "what": each.what} for each in group),
        "why": group[0].why,
        "fix": group[0].fix,
        "acceptance": tuple(dict.fromkeys(each.acceptance for each in group if each.acceptance)),
    }


def _accepted(problem: Problem) -> Mapping[str, Value]:
    return {"place": str(problem.place), "what": problem.what, "reason": problem.accepted}


def _figures(house: House, size: SizeOf) -> Data:
    facts = size.facts
    return {
        **_names(size),
        **_made_of(facts),
        **_weights(facts),
        **_sold_as(house, size),
        **_burning(facts),
        **_advice(facts),
        **_papers(house, facts),
    }


def _names(size: SizeOf) -> Data:
    recorded = size.recorded
    return {
        "scent": recorded.scent,
        "size": recorded.size_name,
        "kind": recorded.kind.value,
        "collection": recorded.collection,
        "status": recorded.status.value,
        "currency": recorded.currency,
        "price": _money(recorded, recorded.price),
        "trade_price": _money(recorded, recorded.trade_price),
        "case": recorded.case,
        "minimum": recorded.minimum,
        "barcode": recorded.barcode,
        "site_path": size.facts.site_path,
        "safety_path": size.facts.safety_path,
    }


def _made_of(facts: Facts) -> Data:
    container, shape, wick = facts.container, facts.shape, facts.wick
    return {
        "vessel": {
            "id": container.id if container else None,
            "material": container.material if container else None,
            "brimful_ml": shape.brimful_ml,
            "diameter_mm": shape.diameter_mm,
            "depth_mm": shape.depth_mm,
        },
        "wick": None if wick is None else {"id": wick.id, "count": wick.count, "trim_mm": wick.trim_mm},
    }


def _weights(facts: Facts) -> Data:
    return {
        "fill_volume_ml": facts.fill_volume_ml,
        "level_set_mm": facts.level_set_mm,
        "net_weight_g": facts.net_weight_g,
        "net_weight_basis": facts.net_weight_basis,
        "net_weight_error_percent": facts.net_weight_error_percent,
        "weighed_n": facts.weighed_n,
        "declared": _by_market(facts.declared),
        "declared_status": facts.declared_status,
        "density_set_g_per_ml": facts.density_set_g_per_ml,
        "density_molten_g_per_ml": facts.density_molten_g_per_ml,
        "fragrance_of_wax_percent": facts.fragrance_of_wax_percent,
        "fragrance_of_total_percent": facts.fragrance_of_total_percent,
        "heel_g": facts.heel_g,
        "burnable_g": facts.burnable_g,
        "lhv_mj_per_kg": facts.lhv_mj_per_kg,
        "heat_w": facts.heat_w,
        "gross_g": facts.gross_g,
        "case_g": facts.case_g,
    }


def _sold_as(house: House, size: SizeOf) -> Data:
    """What invoices and customs papers ask for; an own label's buyer is the workshop's business."""
    facts, maker, cased = size.facts, house.maker, size.recorded.cased
    own_label = size.recorded.own_label
    return {
        "case_size_mm": cased.size if cased else None,
        "minimum_cartons": facts.minimum_cartons,
        "hs_heading": facts.hs_heading,
        "origin": maker.origin or maker.country,
        "made_for": own_label.buyer if own_label else None,
        "brand": own_label.brand if own_label else None,
    }


def _burning(facts: Facts) -> Data:
    return {
        "rate_g_per_h": facts.rate_g_per_h,
        "rate_high_g_per_h": facts.rate_high_g_per_h,
        "burn_hours": None if facts.burn_hours is None else by_field(facts.burn_hours),
        "burn_test": by_field(facts.burn_test),
    }


def _advice(facts: Facts) -> Data:
    given = _by_market(facts.advice)
    return {
        "first_burn_h": facts.first_burn_h,
        "session_limit_h": facts.session_limit_h,
        "stop_depth_mm": facts.stop_depth_mm,
        "guidance": {market: None if one is None else advice_written(one) for market, one in given.items()},
    }


def _papers(house: House, facts: Facts) -> Data:
    given = _by_market(facts.hazards)
    hazards = {market: None if one is None else _hazards(house, one) for market, one in given.items()}
    return {"hazards": hazards, "sheet": _sheet(house, facts), "sources": _sources(house, facts)}


def _by_market(given: Mapping[Market, Known | None]) -> dict[Market, Known | None]:
    """Every market, the first row last; None where the shop does not sell there or nothing is known."""
    return {market: given.get(market) for market in reversed(tuple(MARKETS))}


def _sheet(house: House, facts: Facts) -> Data:
    """How the burn-safety sheet stands; a draft has no revision, and its fingerprint is that of what it says now."""
    state = house.sheets[facts.stock_code]
    issued = state.issued
    return {
        "revision": issued.revision if issued else None,
        "status": state.status,
        "fingerprint": issued.fingerprint if issued else state.fingerprint,
        "issued_on": issued.on.isoformat() if issued else None,
        "address": sheet_address(facts.stock_code, issued.revision) if issued else None,
    }


def _hazards(house: House, hazards: HazardFacts) -> Data:
    label = hazards.label
    return {
        "status": label.status,
        "classes": hazards.classes,
        "pictograms": label.pictograms,
        "signal_word": label.signal_word,
        "h": label.h,
        "euh": label.euh,
        "p": label.p,
        "named_substances": label.named_substances,
        "reasons": hazards.reasons,
        "next_limits": hazards.next_limits,
        "texts_from_memory": texts_from_memory(label.codes, house.speech.wording),
    }


def _sources(house: House, facts: Facts) -> Data:
    """On what each figure rests, in words."""
    return {name: house.words["figure_sources"][source] for name, source in facts.sources.items()}


def _money(recorded: Recorded, price: Money | None) -> str | None:
    return None if price is None else f"{rounded(price.amount, price.currency or recorded.currency)}"


def _written(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, allow_nan=False)

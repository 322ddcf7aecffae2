"""The maker's file on one stock code: everything recorded of it, for an officer. It is private."""

from collections.abc import Iterator, Mapping
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House, SizeOf, Words
from generator.documents.papers.bench_sheet import BENCH_COLUMNS
from generator.documents.printed import (
    day,
    exact,
    formula,
    listed,
    measured,
    named,
    number,
    quantity_with_basis,
)
from generator.facts.facts import Facts, Figure
from generator.facts.hazard_facts import HazardFacts
from generator.ledgers.record import on_one_line
from generator.ledgers.sheet import flattened
from generator.model.burn_tests import Session
from generator.model.canonical import Plain, parsed
from generator.model.ledger import Issued, sheet_address
from generator.model.lots import Lot, PouredFormula, ingredients_in
from generator.model.markets import Market
from generator.model.materials import Constituent
from generator.model.recorded import Test

_DIGITS: Final = 12
"""More digits than any scale or clock gives, and few enough to hide the noise of binary fractions."""


Formulas = Mapping[str, PouredFormula]
"""The lots that have their own formula, by code: the formula each was poured by."""


def makers_file(house: House, size: SizeOf, risks: tuple[str, ...], poured: Formulas) -> Document:
    """One page with everything; ``risks`` are the maker's own notes and today's warnings."""
    words, facts, maker = house.words["file"], size.facts, house.maker
    reached = (maker.name, *maker.address, maker.phone, maker.email)
    names = {"scent": size.recorded.scent, "size": size.recorded.size_name, "stock_code": facts.stock_code}
    value: dict[str, Value] = {
        "title": words["title"].format(**names),
        "language": house.maker.language,
        "lead": words["lead"].format(day=day(house.as_of, house.words)),
        "maker": ", ".join(text for text in reached if text),
        "words": words,
        "net_quantity": tuple(
            f"{house.words['markets'][market]}: {_net_quantity(facts, market, house.words)}"
            for market in maker.markets
        ),
        "formula": tuple(_formula(size)),
        "sheets": tuple(_data_sheets(house, size)),
        "hazards": tuple(_hazards(house, market, found) for market, found in facts.hazards.items()),
        "tests": tuple(_test(house, test) for test in size.recorded.tests),
        "moved": facts.burn_test.moved,
        "vessel": _vessel(house, size),
        "figures": tuple(_figure(house, figure) for figure in facts.figures),
        "risks": (*((words["not_for_food"],) if size.recorded.looks_like_food is False else ()), *risks),
        "revisions": tuple(
            _revision(house, facts.stock_code, one) for one in house.sheets[facts.stock_code].revisions
        ),
        "lots": tuple(_lots(house, facts.stock_code, poured)),
        "recalls": tuple(_recalls(house, facts.stock_code)),
    }
    return Document(path=f"{facts.stock_code}.html", template="pages/file.html", value=value)


def _net_quantity(facts: Facts, market: Market, words: Words) -> str:
    """What one market's label declares, or the estimate with its basis."""
    declared = facts.declared[market]
    if declared is not None:
        return measured(declared, words)
    return quantity_with_basis(facts.estimated[market], facts.net_weight_basis, words)


def _formula(size: SizeOf) -> Iterator[Mapping[str, Value]]:
    """Each ingredient with its amount as recorded."""
    recipe = size.recorded.build.formula
    for portion in recipe.portions:
        yield {"name": portion.material.name, "amount": on_one_line(portion.amount)}


def _data_sheets(house: House, size: SizeOf) -> Iterator[Mapping[str, Value]]:
    """The suppliers' safety data sheets, except the waxes', with their dates and section 3."""
    words = house.words["file"]
    for portion in size.recorded.build.formula.stirred_in:
        material = portion.material
        lines = material.composition if isinstance(material.composition, tuple) else ()
        dated = material.sheet_dated
        yield {
            "name": material.name,
            "dated": words["dated"].format(day=day(dated, house.words)) if dated else words["undated"],
            "written_for": words["written_for"].format(market=house.words["markets"][material.sheet_for])
            if material.sheet_for
            else None,
            "constituents": tuple(_constituent(line, house.words) for line in lines),
            "none": None if lines else words["no_composition"],
        }


def _constituent(line: Constituent, words: Words) -> Mapping[str, Value]:
    low, high = on_one_line(line.share.low_percent), on_one_line(line.share.high_percent)
    return {
        "substance": line.substance,
        "cas": line.cas,
        "share": measured(f"{low} - {high} %", words),
        "hazards": ", ".join(filter(None, map(on_one_line, line.hazards))),
    }


def _hazards(house: House, market: str, found: HazardFacts | None) -> Mapping[str, Value]:
    words = house.words["file"]
    classes = listed(found.classes, house.words) if found and found.classes else None
    return {
        "market": house.words["markets"][market],
        "result": words["no_label_law"]
        if found is None
        else classes or house.words["file_statuses"][found.label.status],
        "law": house.words["laws"].get(found.label.law, found.label.law) if found else None,
        "codes": listed(found.label.codes, house.words) if found and found.label.codes else None,
        "reasons": (*found.reasons, *found.next_limits) if found else (),
    }


def _test(house: House, test: Test) -> Mapping[str, Value]:
    words = house.words["file"]
    when = day(test.tested_on, house.words) if test.tested_on else words["undated"]
    return {
        "file": test.file,
        "told": words["tested"].format(day=when, by=test.by or words["unnamed"]),
        **_sessions(test.sessions, house.words),
    }


def _sessions(sessions: tuple[Session, ...], words: Words) -> Mapping[str, Value]:
    """A test as a table, without empty columns."""
    columns = tuple(name for name in BENCH_COLUMNS if any(_cell(one, name, words) for one in sessions))
    heads = (words["burn_test_columns"][name] for name in columns)
    return {
        "heads": (words["bench"]["piece_name"], *heads),
        "sessions": tuple(
            (session.piece, *(_cell(session, name, words) for name in columns)) for session in sessions
        ),
    }


def _cell(session: Session, column: str, words: Words) -> str | None:
    """One column of a session; None where it is empty."""
    value = getattr(session, column)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return number(f"{value:.{_DIGITS}g}", words)
    return value.replace("_", " ") if value else None


def _vessel(house: House, size: SizeOf) -> Mapping[str, Value] | None:
    """The vessel, and what is known of its fitness."""
    vessel = size.recorded.build.container
    if vessel is None:
        return None
    return {
        "name": house.words["candle"]["vessel_of"].format(vessel=vessel.name, material=vessel.material),
        "evidence": vessel.heat_evidence or house.words["file"]["no_evidence"],
    }


def _figure(house: House, figure: Figure) -> Mapping[str, Value]:
    words = house.words
    return {
        "label": words["figure_labels"][figure.label],
        "value": exact(figure.value, figure.unit, words),
        "formula": formula(figure, words),
        "inputs": "; ".join(
            f"{named(given, words)} {exact(given.value, given.unit, words)}" for given in figure.inputs
        ),
        "source": words["figure_sources"][figure.source],
    }


def _revision(house: House, stock_code: str, issued: Issued) -> Mapping[str, Value]:
    said = (f"{' '.join(way).replace('_', ' ')}: {text}" for way, text in flattened(parsed(issued.said)))
    return {
        "heading": house.words["file"]["revision"].format(
            revision=issued.revision, day=day(issued.on, house.words), reason=issued.reason
        ),
        "fingerprint": issued.fingerprint,
        "path": f"site/{sheet_address(stock_code, issued.revision)}",
        "said": tuple(said),
        "formula": house.words["file"]["formula_then"].format(parts="; ".join(_parts(issued.record))),
    }


def _parts(record: Mapping[str, Plain]) -> Iterator[str]:
    """Each ingredient of a recorded formula with its amount."""
    return (f"{name} {amount}" for name, amount in ingredients_in(record))


def _lots(house: House, stock_code: str, poured: Formulas) -> Iterator[Mapping[str, Value]]:
    words = house.words["file"]
    for lot in house.lots:
        if lot.stock_code == stock_code:
            sheet = (
                words["under"].format(revision=lot.sheet_revision)
                if lot.sheet_revision
                else words["no_sheet"]
            )
            told = words["lot"].format(
                lot=lot.lot, made=lot.made, day=day(lot.poured_on, house.words), sheet=sheet
            )
            sent = words["sent_to"].format(buyers="; ".join(lot.sent_to)) if lot.sent_to else None
            drawn = "; ".join(f"{one.id} {one.number}" for one in lot.drawn_from)
            yield {
                "told": f"{told}; {sent}" if sent else told,
                "formula": _poured_by(house, lot, poured.get(lot.lot)),
                "drawn": words["drawn_from"].format(lots=drawn) if drawn else None,
            }


def _poured_by(house: House, lot: Lot, formula: PouredFormula | None) -> str:
    """The lot's own formula; without one that of its revision, labelled as such."""
    words = house.words["file"]
    if formula is not None:
        return words["poured_by"].format(parts="; ".join(_parts(formula.record)), name=formula.name)
    if lot.formula_fingerprint is not None:
        return words["poured_by_lost"].format(name=lot.formula_fingerprint)
    if house.sheets[lot.stock_code].revision(lot.sheet_revision) is not None:
        return words["poured_by_sheet"].format(revision=lot.sheet_revision)
    return words["poured_by_unknown"]


def _recalls(house: House, stock_code: str) -> Iterator[str]:
    """Each notice that reaches the candle, with its lots."""
    for one in house.recalls:
        if stock_code in one.stock_codes:
            lots = listed((lot.lot for lot in one.lots if lot.stock_code == stock_code), house.words)
            hazard = f"{day(one.notice.on, house.words)}: {one.notice.hazard}"
            yield f"{hazard} ({lots})" if lots else hazard

"""The change report: for each sheet that differs from what was issued, why, and what to do."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House
from generator.documents.pages.trade_sheet import SHEET, TRADE_TABLE, listed_codes
from generator.documents.printed import day, listed
from generator.facts.facts import Facts
from generator.ledgers.sheet_changes import Change, Difference
from generator.model.entry import entry_key
from generator.problems import Places

CHANGES: Final = "workshop/changes.html"
_UNITS: Final = {unit: unit for unit in ("g", "mm", "ml", "h")} | {
    "percent": "%",
    "c": "°C",
    "g_per_ml": "g/ml",
    "mj_per_kg": "MJ/kg",
}
"""The unit that ends a field's name, as it is written."""

_DIGITS: Final = 5
_LONG_NUMBER: Final = re.compile(r"[0-9]{1,5}\.[0-9]{3,}")
"""A calculated figure; nobody types so many digits."""

_TESTED: Final = ("tested", "provisional")


def changes_page(house: House, changes: Sequence[Change], places: Places) -> Document:
    """The report as a workshop page, which says so if nothing has changed."""
    words, drafts = house.words["changes"], _drafts(house)
    value: dict[str, Value] = {
        "title": words["title"],
        "language": house.maker.language,
        "house": house.maker.name,
        "lead": words["lead"] if changes else words["nothing"],
        "drafts": words["drafts"].format(codes=listed(drafts, house.words)) if drafts else None,
        "heads": {
            name: words[name] for name in ("where", "field", "was", "now", "recorded", "printed", "follows")
        },
        "changes": tuple(_section(house, change, places) for change in changes),
    }
    return Document(path=CHANGES, template="pages/changes.html", value=value)


def changes_lines(house: House, change: Change, places: Places) -> Iterator[str]:
    """The report on one sheet for a screen."""
    told = _section(house, change, places)
    yield str(told["heading"])
    for key in ("recorded", "printed"):
        for row in _rows(told[key]):
            where = f"{row['place']}: " if row["place"] else "    "
            yield f"  {where}{row['field']}: {row['was']} -> {row['now']}"
    for sentence in _texts(told["follows"]):
        yield f"  {sentence}"


def _section(house: House, change: Change, places: Places) -> Mapping[str, Value]:
    words = house.words["changes"]
    size = next(one for one in house.sizes if one.facts.stock_code == change.stock_code)
    since = {"revision": change.issued.revision, "day": day(change.issued.on, house.words)}
    return {
        "stock_code": change.stock_code,
        "heading": words["heading"].format(
            stock_code=change.stock_code, scent=size.recorded.scent, size=size.recorded.size_name, **since
        ),
        "recorded": tuple(_row(house, each, str(places.of(path))) for each, path in change.recorded),
        "printed": tuple(_row(house, each, None) for each in change.printed if each.way[0] != "drawing"),
        "follows": tuple(_follows(house, change, size.facts)),
    }


def _row(house: House, each: Difference, place: str | None) -> Mapping[str, Value]:
    *above, field = (step for step in each.way if step not in ("build", "material"))
    name = entry_key(field)
    unit = _UNITS.get(field.removeprefix(name).removeprefix("_"), "")
    was, now = (
        f"{text} {unit}".rstrip() if text else house.words["changes"]["absent"]
        for text in told_apart(each.was, each.now)
    )
    return {"place": place, "field": " ".join((*above, name)).replace("_", " "), "was": was, "now": now}


def told_apart(was: str | None, now: str | None) -> tuple[str | None, str | None]:
    """Long numbers with just enough digits to differ, five at least: 301 g of water are 301.54 ml."""
    for digits in range(_DIGITS, 12):
        rounded = tuple(_rounded(text, digits) for text in (was, now))
        if rounded[0] != rounded[1]:
            return rounded[0], rounded[1]
    return was, now


def _rounded(text: str | None, digits: int) -> str | None:
    is_long = text is not None and _LONG_NUMBER.fullmatch(text)
    return f"{float(text):.{digits}g}" if text is not None and is_long else text


def _follows(house: House, change: Change, facts: Facts) -> Iterator[str]:
    """What the change leads to, in sentences."""
    words = house.words["changes"]
    if all(each.way[0] == "drawing" for each in change.printed):
        yield words["drawing"]
    was_proven = change.issued.value.net_quantity_basis == "proven"
    dropped = was_proven and facts.declared_status == "estimated"
    yield house.words["weight_changes"]["dropped" if dropped else facts.declared_status]
    yield from _hours(house, change, facts)
    for one in change.statements:
        names = {"market": house.words["markets"][one.market]}
        if one.came:
            yield words["came"].format(codes=listed(one.came, house.words), **names)
        if one.went:
            yield words["went"].format(codes=listed(one.went, house.words), **names)
    yield from _labels(words, change)
    yield from _lots(house, change.stock_code)
    if change.stock_code in listed_codes(house):
        yield words["trade"].format(sheets=listed((SHEET, TRADE_TABLE), house.words))


def _hours(house: House, change: Change, facts: Facts) -> Iterator[str]:
    """Whether the hours are still those of a test."""
    words, burn = house.words["changes"], facts.burn_hours
    if burn is None:
        return
    before = change.issued.value.burn_hours
    if burn.basis in _TESTED:
        yield words["hours_tested"]
    elif before and before.basis in _TESTED:
        yield words["hours_dropped"].format(moved="; ".join(facts.burn_test.moved))
    else:
        yield words["hours_untested"]


def _labels(words: Mapping[str, str], change: Change) -> Iterator[str]:
    """Whether labels are still correct; even then each leads to the revision it was printed for."""
    if change.labels_are_untrue:
        yield words["labels"]
        return
    yield words["labels_stay"]
    if change.issued.value.maker.web:
        yield words["labels_code"].format(revision=change.issued.revision)


def _lots(house: House, stock_code: str) -> Iterator[str]:
    """The lots of each revision; their sheets stay as they are."""
    words, poured = house.words["changes"], [lot for lot in house.lots if lot.stock_code == stock_code]
    for revision in sorted({lot.sheet_revision or 0 for lot in poured}):
        lots = listed((lot.lot for lot in poured if (lot.sheet_revision or 0) == revision), house.words)
        yield words["lots" if revision else "lots_of_draft"].format(revision=revision, lots=lots)


def _drafts(house: House) -> list[str]:
    return sorted(code for code, state in house.sheets.items() if state.status == "draft")


def _rows(told: Value) -> Iterable[Mapping[str, Value]]:
    return (row for row in told if isinstance(row, Mapping)) if isinstance(told, tuple) else ()


def _texts(told: Value) -> Iterable[str]:
    return (text for text in told if isinstance(text, str)) if isinstance(told, tuple) else ()

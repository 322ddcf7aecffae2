"""``issue``: what a sheet says today becomes its next revision, on purpose and for a reason."""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TypedDict

from generator.commands.wanted import NOTHING, Wanted, is_due, refusal_of, unfit
from generator.ledgers.append_revision import sealed, with_revision
from generator.ledgers.record import record_of
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import unknown_codes
from generator.making.load_shop import Known, know
from generator.making.one_writer import writes_content
from generator.making.options import Asked
from generator.making.report import Refusal, refusal_as_data, refuse, say, tell
from generator.model.canonical import canonical
from generator.model.ledger import Issued, short
from generator.problems import is_error
from generator.writing.store import Store
from generator.writing.whole_files import record


@writes_content("issue")
def run(asked: Asked, stock_codes: Sequence[str], reason: str) -> int:
    """Exit code 0 when all that was wanted is issued, 1 when entries stand in the way, 2 when it was called wrongly."""
    reason = " ".join(reason.split())
    wrong = unfit(reason)
    if wrong is not None:
        return refuse(wrong, as_json=asked.as_data)
    known = know(asked, Store(asked.output / ".store"))
    errors = [problem for problem in known.problems if is_error(problem)]
    if known.shop is None or errors:
        tell(errors, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    sheets = _sheets(known, known.shop.maker.as_of)
    if unknown := unknown_codes(stock_codes, sheets, NOTHING):
        return refuse(*unknown, as_json=asked.as_data)
    if stock_codes:
        return _issue_named(asked, [sheets[code] for code in dict.fromkeys(stock_codes)], reason)
    return _issue_due(asked, [one for one in sheets.values() if is_due(one)], reason)


def _sheets(known: Known, on: date) -> Mapping[str, Wanted]:
    return {
        facts.stock_code: Wanted(gathered=gathered, facts=facts, state=known.sheets[facts.stock_code], on=on)
        for gathered, facts in known.facts
    }


def _issue_named(asked: Asked, wanted: Sequence[Wanted], reason: str) -> int:
    """All of them, or none if one cannot be."""
    refusals = [refusal for one in wanted if (refusal := refusal_of(one, NOTHING))]
    if refusals:
        return refuse(*refusals, as_json=asked.as_data)
    issued = [_issued(asked.content, one, reason) for one in wanted]
    _say_issued(asked, issued, ())
    return 0


def _issue_due(asked: Asked, wanted: Sequence[Wanted], reason: str) -> int:
    """As many as can be, and what stands in the way of the others."""
    refusals = {
        one.code: refusal for one in wanted if (refusal := refusal_of(one, f"{one.code} was not issued"))
    }
    issued = [_issued(asked.content, one, reason) for one in wanted if one.code not in refusals]
    _say_issued(asked, issued, tuple(refusals.values()))
    return AT_FAULT if refusals else 0


class IssuedSheet(TypedDict):
    """One revision that was written, for other programs."""

    stock_code: str
    revision: int
    issued_on: str
    fingerprint: str
    file: str


def _say_issued(asked: Asked, issued: Sequence[IssuedSheet], refused: Sequence[Refusal]) -> None:
    """What was issued, and what not; as data all in one value."""
    lines = [
        f"issued revision {one['revision']} of {one['stock_code']} on {one['issued_on']} "
        f"({one['fingerprint']}): {one['file']}"
        for one in issued
    ]
    if issued:
        lines.append("the site shows this after: wickwright build, and wickwright publish")
    elif not refused:
        lines = ["every sheet is in force as it is; there is nothing to issue"]
    data = {"issued": issued, "refused": [refusal_as_data(refusal) for refusal in refused]}
    say(lines, data, as_json=asked.as_data)
    if refused and not asked.as_data:
        refuse(*refused, as_json=False)


def _issued(content: Path, one: Wanted, reason: str) -> IssuedSheet:
    """Write the revision."""
    path = content / "sheets" / f"{one.code}.yaml"
    draft = Issued(
        revision=one.state.next_revision,
        on=one.on,
        reason=reason,
        said=one.state.said,
        fingerprint=one.state.fingerprint,
        recorded=canonical(record_of(one.gathered.recorded)),
        seal="",
    )
    before = path.read_bytes() if path.exists() else b""
    record(path, with_revision(before, one.code, sealed(draft, one.state.ledger)))
    return IssuedSheet(
        stock_code=one.code,
        revision=draft.revision,
        issued_on=draft.on.isoformat(),
        fingerprint=short(draft.fingerprint),
        file=path.as_posix(),
    )

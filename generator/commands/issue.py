"""``issue``: the current sheet becomes a new revision, on purpose and for a reason."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final, TypedDict

from generator.arguments import CommandParser
from generator.commands.verify import run as run_verify
from generator.facts.facts import Facts
from generator.facts.gather import Gathered
from generator.ledgers.append_revision import sealed_revision, with_revision
from generator.ledgers.record import record_of
from generator.ledgers.standing import SheetState
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop
from generator.making.one_writer import writes_content
from generator.making.options import AT_FAULT, CommandOptions
from generator.making.progress import each_counted
from generator.making.report import (
    Refusal,
    publish_or,
    refusal_as_data,
    refuse,
    report_faults,
    say,
    unknown_codes,
)
from generator.model.canonical import canonical
from generator.model.ledger import Issued, short_fingerprint
from generator.model.sizes import Status
from generator.reading.text_files import UNPRINTABLE
from generator.writing.whole_files import record

_NOTHING: Final = "nothing was issued"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetToIssue:
    """One sheet that is to be issued, on a day."""

    gathered: Gathered
    facts: Facts
    state: SheetState
    on: date

    @property
    def code(self) -> str:
        """Its stock code."""
        return self.facts.stock_code


def add_arguments(words: CommandParser) -> None:
    """Which sheets, and why; or whether those that are issued are as they were."""
    words.add_argument(
        "stock_codes", metavar="STOCK_CODE", nargs="*", help="all that have changed if you name none"
    )
    words.add_argument("--reason", metavar="TEXT", default="", help="why, in one line")
    words.add_argument("--verify", action="store_true", help="only check that issued sheets are unchanged")
    words.runs(_issue_or_verify)


def _issue_or_verify(
    options: CommandOptions, stock_codes: Sequence[str], reason: str, *, verify: bool
) -> int:
    return run_verify(options) if verify else run(options, stock_codes, reason)


@writes_content("issue")
def run(options: CommandOptions, stock_codes: Sequence[str], reason: str) -> int:
    """Exit code 0 when all that was wanted is issued, 1 when entries stand in the way, 2 when it was called wrongly."""
    reason = " ".join(reason.split())
    wrong = unfit(reason)
    if wrong is not None:
        return refuse(wrong, as_json=options.as_data)
    loaded = load_shop(options)
    if not isinstance(loaded, LoadedShop) or loaded.errors:
        return report_faults(options, loaded.errors, _NOTHING)
    sheets = {
        facts.stock_code: SheetToIssue(
            gathered=gathered,
            facts=facts,
            state=loaded.sheets[facts.stock_code],
            on=loaded.shop.as_of,
        )
        for gathered, facts in loaded.facts
    }
    if unknown := unknown_codes(stock_codes, sheets, _NOTHING):
        return refuse(*unknown, as_json=options.as_data)
    if stock_codes:
        named = [in_newest_words(sheets[code]) for code in dict.fromkeys(stock_codes)]
        return _issue_named(options, named, reason)
    return _issue_due(options, [one for one in sheets.values() if is_due(one)], reason)


def _issue_named(options: CommandOptions, wanted: Sequence[SheetToIssue], reason: str) -> int:
    """All of them, or none if one cannot be."""
    refusals = [refusal for one in wanted if (refusal := refusal_of(one, _NOTHING))]
    if refusals:
        return refuse(*refusals, as_json=options.as_data)
    issued = [_issued(options.content, one, reason) for one in _counted(wanted)]
    _say_issued(options, issued, ())
    return 0


def _issue_due(options: CommandOptions, wanted: Sequence[SheetToIssue], reason: str) -> int:
    """As many as can be, and what stands in the way of the others."""
    refusals = {
        one.code: refusal for one in wanted if (refusal := refusal_of(one, f"{one.code} was not issued"))
    }
    issued = [_issued(options.content, one, reason) for one in _counted(wanted) if one.code not in refusals]
    _say_issued(options, issued, tuple(refusals.values()))
    return AT_FAULT if refusals else 0


def _counted(wanted: Sequence[SheetToIssue]) -> Iterator[SheetToIssue]:
    return each_counted("sheets issued", wanted, len(wanted))


class IssuedSheet(TypedDict):
    """One revision that was written, for other programs."""

    stock_code: str
    revision: int
    issued_on: str
    fingerprint: str
    file: str


def _say_issued(options: CommandOptions, issued: Sequence[IssuedSheet], refused: Sequence[Refusal]) -> None:
    """What was issued, and what not; as data all in one value."""
    lines = [
        f"issued revision {one['revision']} of {one['stock_code']} on {one['issued_on']} "
        f"({one['fingerprint']}): {one['file']}"
        for one in issued
    ]
    if not issued and not refused:
        lines = ["Nothing to issue: every sheet is up to date."]
    data = {"issued": issued, "refused": [refusal_as_data(refusal) for refusal in refused]}
    next_step = publish_or(options, "wickwright build") if issued else None
    say(lines, data, as_json=options.as_data, next_step=next_step)
    if refused and not options.as_data:
        refuse(*refused, as_json=False)


def _issued(content: Path, one: SheetToIssue, reason: str) -> IssuedSheet:
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
    record(path, with_revision(before, one.code, sealed_revision(draft, one.state.ledger)))
    return IssuedSheet(
        stock_code=one.code,
        revision=draft.revision,
        issued_on=draft.on.isoformat(),
        fingerprint=short_fingerprint(draft.fingerprint),
        file=path.as_posix(),
    )


def in_newest_words(one: SheetToIssue) -> SheetToIssue:
    """A sheet that is named is issued in today's words, even if these alone are new."""
    return replace(one, state=one.state.in_newest_words)


def is_due(one: SheetToIssue) -> bool:
    """Whether a sheet is meant when none is named: trials are not public, and what is in force needs nothing."""
    return one.gathered.recorded.status is not Status.TRIAL and one.state.status != "issued"


def refusal_of(one: SheetToIssue, then: str) -> Refusal | None:
    """What stands in the way of issuing a sheet, if anything does; ``then`` says what is not issued for that."""
    state, hazards = one.state, one.facts.hazards
    unknown = {
        market: found for market, found in hazards.items() if found and found.label.status == "unknown"
    }
    if state.issued and one.on < state.issued.on:
        what = (
            f"revision {state.issued.revision} of {one.code} was issued on {state.issued.on}, after {one.on}"
        )
        return Refusal(
            what=what,
            then=then,
            fix=f"write --date {state.issued.on} or a later day, and check the clock of this computer",
        )
    if state.issued and state.status == "issued":
        fingerprint = short_fingerprint(state.fingerprint)
        what = f"{one.code} has not changed since revision {state.issued.revision} ({fingerprint})"
        kept = "a change to the recipe alone is kept with each lot: `wickwright lots add`"
        return Refusal(what=what, then=then, fix=kept)
    if unknown:
        what = f"the hazards of {one.code} are unknown, and it is sold in {' and '.join(unknown)}"
        reasons = dict.fromkeys(
            each.rpartition(" (")[0] for found in unknown.values() for each in found.reasons
        )
        return Refusal(what=what, then=then, fix="; ".join(reasons), exit_code=AT_FAULT)
    return None


def unfit(reason: str) -> Refusal | None:
    """What is wrong with a reason, if anything is."""
    if not reason:
        fix = "write --reason and one line that will still make sense in ten years"
        return Refusal(what="a revision needs a reason", then=_NOTHING, fix=fix)
    # A list of revisions that holds such a character could not be read any more.
    odd = UNPRINTABLE.search(reason)
    if odd is None:
        return None
    what = f"the reason contains a character that cannot be printed (U+{ord(odd[0]):04X})"
    return Refusal(what=what, then=_NOTHING, fix="leave it out")

"""``issue``: what a sheet says today becomes its next revision, on purpose and for a reason."""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from generator.model.ledger import Issued, canonical, short
from generator.problems import is_error
from generator.reading.text_files import UNPRINTABLE
from generator.recording.sheets import sealed, with_revision
from generator.revisions.record import record_of
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.one_writer import writes_content
from generator.stories.shop import Known, know
from generator.stories.telling import nearest_codes, tell
from generator.stories.wanted import Wanted, is_due, refusal_of
from generator.writing.store import Store
from generator.writing.whole_files import record


@writes_content("issue")
def run(asked: Asked, stock_codes: Sequence[str], reason: str) -> int:
    """Exit code 0 when all that was wanted is issued, 1 when entries stand in the way, 2 when it was called wrongly."""
    reason = " ".join(reason.split())
    unfit = _unfit(reason)
    if unfit is not None:
        print(f"{unfit}; nothing was issued")
        return WRONG_USE
    known = know(asked, Store(asked.output / ".store"))
    errors = [problem for problem in known.problems if is_error(problem)]
    if known.shop is None or errors:
        tell(errors, as_json=asked.as_data, then="nothing was issued")
        return AT_FAULT
    sheets = _sheets(known, known.shop.maker.as_of)
    unknown = [code for code in stock_codes if code not in sheets]
    for code in unknown:
        print(f"there is no stock code '{code}'; {nearest_codes(code, sheets)}; nothing was issued")
    if unknown:
        return WRONG_USE
    if stock_codes:
        return _issue_named(asked, [sheets[code] for code in dict.fromkeys(stock_codes)], reason)
    return _issue_due(asked, [one for one in sheets.values() if is_due(one)], reason)


def _unfit(reason: str) -> str | None:
    """What is wrong with a reason, if anything is."""
    if not reason:
        return "write --reason and one line for whoever reads the revisions in ten years"
    # A list of revisions that holds such a character could not be read any more.
    odd = UNPRINTABLE.search(reason)
    if odd is None:
        return None
    return f"the reason holds a character that cannot be printed (U+{ord(odd[0]):04X}); write it without"


def _sheets(known: Known, on: date) -> Mapping[str, Wanted]:
    return {
        facts.stock_code: Wanted(gathered=gathered, facts=facts, state=known.sheets[facts.stock_code], on=on)
        for gathered, facts in known.facts
    }


def _issue_named(asked: Asked, wanted: Sequence[Wanted], reason: str) -> int:
    """All of them, or none if one cannot be."""
    refusals = [refusal for one in wanted if (refusal := refusal_of(one))]
    for refusal in refusals:
        print(f"{refusal.told}; nothing was issued")
    if refusals:
        return min(refusal.exit_code for refusal in refusals)
    for one in wanted:
        print(_issued(asked.content, one, reason))
    return 0


def _issue_due(asked: Asked, wanted: Sequence[Wanted], reason: str) -> int:
    """As many as can be, and what stands in the way of the others."""
    refusals = {one.code: refusal for one in wanted if (refusal := refusal_of(one))}
    ready = [one for one in wanted if one.code not in refusals]
    for one in ready:
        print(_issued(asked.content, one, reason))
    for code, refusal in refusals.items():
        print(f"{refusal.told}; {code} was not issued")
    if not wanted:
        print("every sheet is in force as it is; there is nothing to issue")
    return AT_FAULT if refusals else 0


def _issued(content: Path, one: Wanted, reason: str) -> str:
    """Write the revision, and say so."""
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
    fingerprint = short(draft.fingerprint)
    return f"issued revision {draft.revision} of {one.code} on {draft.on} ({fingerprint}): {path.as_posix()}"

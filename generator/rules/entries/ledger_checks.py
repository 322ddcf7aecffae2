"""Whether the issued sheets are still as they were issued: nothing edited, nothing missing, nothing out of turn."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from generator.letters import shown_and_named, unprintable
from generator.model.canonical import fingerprint_of
from generator.model.ledger import Issued, Ledger, seal_of, short_fingerprint
from generator.model.shop import Shop
from generator.problems import Fault, Path, warning
from generator.rules.references import IsBroken

_AS_ISSUED: Final = "restore the file from a backup or version control"
_NEXT: Final = f"{_AS_ISSUED}; then issue a correction as the next revision"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Turn:
    """One revision with its place, and the previous one."""

    stock_code: str
    path: Path
    issued: Issued
    before: Issued | None

    @property
    def name(self) -> str:
        return f"revision {self.issued.revision} of {self.stock_code}"


def ledger_faults(
    shop: Shop, is_broken: IsBroken, faults_of: Callable[[Ledger], Iterable[Fault]]
) -> Iterator[Fault]:
    """Every fault of every ledger; an issued sheet whose candle is gone is one, ``faults_of`` gives the others."""
    stock_codes = {size.stock_code for candle in shop.candles.values() for size in candle.sizes}
    for stock_code, ledger in shop.ledgers.items():
        file = f"sheets/{stock_code}.yaml"
        if stock_code not in stock_codes and not is_broken("stock-code", stock_code):
            yield _without_candle(file, ledger)
        yield from faults_of(ledger)


def faults_within(ledger: Ledger) -> Iterator[Fault]:
    """Every fault within a single ledger."""
    file = f"sheets/{ledger.stock_code}.yaml"
    yield from _wrong_file(file, ledger)
    for turn in _turns(file, ledger):
        yield from _faults(turn)


def _turns(file: str, ledger: Ledger) -> Iterator[_Turn]:
    before = None
    for number, issued in enumerate(ledger.revisions):
        path = (file, "revisions", number)
        yield _Turn(stock_code=ledger.stock_code, path=path, issued=issued, before=before)
        before = issued


def _faults(turn: _Turn) -> Iterator[Fault]:
    numbers = tuple(_numbers(turn))
    yield from numbers
    yield from _edited_value(turn)
    yield from _clock(turn)
    yield from _unprintable(turn)
    if not numbers:
        yield from _edited_elsewhere(turn)


def _unprintable(turn: _Turn) -> Iterator[Fault]:
    odd = unprintable(turn.issued.said)
    if odd:
        yield warning(
            path=(*turn.path, "value"),
            what=(
                f"{turn.name} contains {shown_and_named(odd)}, which no paper can print; "
                "its printed sheet spells out the name"
            ),
            why=(
                "an issued sheet stays as it was issued, and is printed for as long as anyone has the candle"
            ),
            fix="leave it; leave the character out of the next revision",
        )


def _numbers(turn: _Turn) -> Iterator[Fault]:
    number, last = turn.issued.revision, turn.before.revision if turn.before else 0
    at = (*turn.path, "revision")
    if number == last:
        yield Fault(
            path=at,
            what=f"revision {number} of {turn.stock_code} is here twice",
            why="two sheets would share one address, and only one could be shown there",
            fix="keep one of the two as it was issued, then issue the other one's changes again",
        )
    elif number < last:
        yield Fault(
            path=at,
            what=f"revision {number} of {turn.stock_code} comes after revision {last}",
            why="the last one in the file is the one in force",
            fix=_AS_ISSUED,
        )
    elif number > last + 1:
        missing = f"revision {last + 1}" if number == last + 2 else f"revisions {last + 1} to {number - 1}"
        yield Fault(
            path=at,
            what=f"{missing} of {turn.stock_code} {'is' if number == last + 2 else 'are'} missing before "
            f"revision {number}",
            why="anyone with a candle of that time could not be given its sheet",
            fix=_AS_ISSUED,
        )


def _edited_value(turn: _Turn) -> Iterator[Fault]:
    issued, found = turn.issued, fingerprint_of(turn.issued.said)
    if found != issued.fingerprint:
        yield Fault(
            path=(*turn.path, "value"),
            what=(
                f"{turn.name} no longer says what was issued: its fingerprint is {short_fingerprint(found)}, "
                f"but {short_fingerprint(issued.fingerprint)} was issued"
            ),
            why="anyone who bought a candle with that sheet would see a different one",
            fix=_NEXT,
        )


def _edited_elsewhere(turn: _Turn) -> Iterator[Fault]:
    """Edits that the fingerprint does not cover: the date, the reason, the record, and earlier revisions."""
    issued = turn.issued
    seal = seal_of(issued, turn.before.seal if turn.before else "")
    if seal != issued.seal and fingerprint_of(issued.said) == issued.fingerprint:
        yield Fault(
            path=(*turn.path, "seal"),
            what=(
                f"the date, the reason or the record of {turn.name} has been changed, or "
                "an earlier revision has"
            ),
            why="they are evidence of what was known when it was issued",
            fix=_NEXT,
        )


def _clock(turn: _Turn) -> Iterator[Fault]:
    issued, before = turn.issued, turn.before
    if before and issued.on < before.on:
        yield Fault(
            path=(*turn.path, "on"),
            what=f"{turn.name} was issued on {issued.on}, before revision {before.revision} of {before.on}",
            why="there is no telling which sheet a lot was poured under",
            fix=_AS_ISSUED,
        )


def _wrong_file(file: str, ledger: Ledger) -> Iterator[Fault]:
    for number, issued in enumerate(ledger.revisions[:1]):
        written_for = issued.value.stock_code
        if written_for != ledger.stock_code:
            yield Fault(
                path=(file, "revisions", number, "value", "stock_code"),
                what=f"this sheet was issued for {written_for}, but its file is named {ledger.stock_code}.yaml",
                why="buyers of one candle would be given the sheet of another",
                fix=f"rename the file to sheets/{written_for}.yaml",
            )


def _without_candle(file: str, ledger: Ledger) -> Fault:
    return Fault(
        path=(file,),
        what=f"a sheet was issued for {ledger.stock_code}, but no candle has that stock code",
        why="anyone who bought one still needs its page, and the page needs the entry",
        fix=f"restore stock_code: {ledger.stock_code} in its candle, with status: discontinued",
    )

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

_AS_ISSUED: Final = "the file as it was before, from version control or a copy"
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
            what=f"{turn.name} holds {shown_and_named(odd)}, which no paper can print; its printed sheet says the name",
            why="an issued sheet stays as it was issued, and is printed for as long as candles have it",
            fix="nothing here; a later revision can do without it",
        )


def _numbers(turn: _Turn) -> Iterator[Fault]:
    number, last = turn.issued.revision, turn.before.revision if turn.before else 0
    at = (*turn.path, "revision")
    if number == last:
        yield Fault(
            path=at,
            what=f"revision {number} of {turn.stock_code} stands here a second time",
            why="two candles would carry the same address, and only one of the two sheets could stand there",
            fix="one of the two as it was issued; then issue again what the other one held",
        )
    elif number < last:
        yield Fault(
            path=at,
            what=f"revision {number} of {turn.stock_code} stands behind revision {last}",
            why="the last one in the file is the one in force",
            fix=_AS_ISSUED,
        )
    elif number > last + 1:
        missing = f"revision {last + 1}" if number == last + 2 else f"revisions {last + 1} to {number - 1}"
        yield Fault(
            path=at,
            what=f"{missing} of {turn.stock_code} {'is' if number == last + 2 else 'are'} missing before "
            f"revision {number}",
            why="whoever has a candle of that time could not be given its sheet",
            fix=_AS_ISSUED,
        )


def _edited_value(turn: _Turn) -> Iterator[Fault]:
    issued, found = turn.issued, fingerprint_of(turn.issued.said)
    if found != issued.fingerprint:
        yield Fault(
            path=(*turn.path, "value"),
            what=f"{turn.name} no longer says what was issued: its fingerprint is {short_fingerprint(found)}, "
            f"and {short_fingerprint(issued.fingerprint)} was issued",
            why="whoever bought a candle with that sheet would be shown another one",
            fix=_NEXT,
        )


def _edited_elsewhere(turn: _Turn) -> Iterator[Fault]:
    """Edits that the fingerprint does not cover: the date, the reason, the record, and earlier revisions."""
    issued = turn.issued
    seal = seal_of(issued, turn.before.seal if turn.before else "")
    if seal != issued.seal and fingerprint_of(issued.said) == issued.fingerprint:
        yield Fault(
            path=(*turn.path, "seal"),
            what=f"the date, the reason or the record of {turn.name} was changed, or a revision before it was",
            why="they are evidence of what was known when it was issued",
            fix=_NEXT,
        )


def _clock(turn: _Turn) -> Iterator[Fault]:
    issued, before = turn.issued, turn.before
    if before and issued.on < before.on:
        yield Fault(
            path=(*turn.path, "on"),
            what=f"{turn.name} was issued on {issued.on}, before revision {before.revision} of {before.on}",
            why="it could not be told under which sheet a lot was poured",
            fix=_AS_ISSUED,
        )


def _wrong_file(file: str, ledger: Ledger) -> Iterator[Fault]:
    for number, issued in enumerate(ledger.revisions[:1]):
        written_for = issued.value.stock_code
        if written_for != ledger.stock_code:
            yield Fault(
                path=(file, "revisions", number, "value", "stock_code"),
                what=f"this sheet was issued for {written_for}, and its file is named {ledger.stock_code}.yaml",
                why="the buyer of one candle would be given the sheet of another",
                fix=f"sheets/{written_for}.yaml as the name of the file",
            )


def _without_candle(file: str, ledger: Ledger) -> Fault:
    return Fault(
        path=(file,),
        what=f"a sheet was issued for {ledger.stock_code}, and no candle has that stock code",
        why="whoever bought one still needs its page, and the page needs the entry",
        fix=f"stock_code: {ledger.stock_code} in its candle again, with status: discontinued",
    )

"""Where a sheet stands: never issued, issued as it is, or changed since it was."""

from dataclasses import dataclass, replace
from typing import Literal

from generator.model.burn_safety import Sheet, sheet_as_json
from generator.model.canonical import fingerprint_of
from generator.model.ledger import Issued, Ledger
from generator.model.markets import LAWS

SheetStatus = Literal["draft", "issued", "changed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetState:
    """What a sheet would say today, and what was issued.

    ``value`` is in the terms of the revision in force while nothing but these differs, ``today`` always in today's.
    """

    value: Sheet
    said: str
    fingerprint: str
    ledger: Ledger | None
    today: Sheet

    @property
    def status(self) -> SheetStatus:
        """Whether today's sheet is the one in force."""
        if self.ledger is None:
            return "draft"
        return "issued" if self.ledger.present.said == self.said else "changed"

    @property
    def issued(self) -> Issued | None:
        """The revision in force."""
        return None if self.ledger is None else self.ledger.present

    @property
    def revisions(self) -> tuple[Issued, ...]:
        """Every issued revision, oldest first."""
        return () if self.ledger is None else self.ledger.revisions

    @property
    def as_it_was_issued(self) -> "SheetState | None":
        """The same for a reader who does not need today's sheet: the revision in force replaces it."""
        if self.ledger is None:
            return None
        present = self.ledger.present
        return SheetState(
            value=present.value,
            said=present.said,
            fingerprint=present.fingerprint,
            ledger=self.ledger,
            today=present.value,
        )

    def revision(self, number: int | None) -> Issued | None:
        """The revision of this number."""
        return next((issued for issued in self.revisions if issued.revision == number), None)

    def shown(self, *, drafts: bool) -> Sheet:
        """What a page shows: the revision in force, or today's sheet if there is none or drafts are shown."""
        return self.value if drafts or self.issued is None else self.issued.value

    @property
    def in_newest_words(self) -> "SheetState":
        """The same sheet in today's edition of the words, if that of the revision in force is older."""
        return self if self.value.edition == self.today.edition else _state(self.today, self.ledger)

    @property
    def next_revision(self) -> int:
        """The number that today's sheet would be issued under."""
        return 1 if self.ledger is None else self.ledger.present.revision + 1


def state_of(value: Sheet, ledger: Ledger | None) -> SheetState:
    """How today's sheet compares with what was issued.

    A new edition of the words, or a law that only got another name, changes no sheet.
    """
    if ledger is not None:
        as_issued = _state(in_terms_of(ledger.present, value), ledger)
        if as_issued.status == "issued":
            return replace(as_issued, today=value)
    return _state(value, ledger)


def in_terms_of(issued: Issued, value: Sheet) -> Sheet:
    """Today's sheet in the edition of the words of an issued one, with each law by the name that it has there."""
    names = {
        other: title
        for law in LAWS.values()
        for _, title in law.titles
        if f'"{title}"' in issued.said
        for _, other in law.titles
    }
    labels = value.hazards.items()
    hazards = {market: replace(label, law=names.get(label.law, label.law)) for market, label in labels}
    return replace(value, edition=issued.value.edition, hazards=hazards)


def _state(value: Sheet, ledger: Ledger | None) -> SheetState:
    said = sheet_as_json(value)
    return SheetState(value=value, said=said, fingerprint=fingerprint_of(said), ledger=ledger, today=value)

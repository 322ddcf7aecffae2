"""Where a sheet stands: never issued, issued as it is, or changed since it was."""

from dataclasses import dataclass
from typing import Literal

from generator.model.burn_safety import Sheet, sheet_as_json
from generator.model.canonical import fingerprint_of
from generator.model.ledger import Issued, Ledger

SheetStatus = Literal["draft", "issued", "changed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetState:
    """What a sheet would say today, and what was issued."""

    value: Sheet
    said: str
    fingerprint: str
    ledger: Ledger | None

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
            value=present.value, said=present.said, fingerprint=present.fingerprint, ledger=self.ledger
        )

    def revision(self, number: int | None) -> Issued | None:
        """The revision of this number."""
        return next((issued for issued in self.revisions if issued.revision == number), None)

    def shown(self, *, drafts: bool) -> Sheet:
        """What a page shows: the revision in force, or today's sheet if there is none or drafts are shown."""
        return self.value if drafts or self.issued is None else self.issued.value

    @property
    def next_revision(self) -> int:
        """The number that today's sheet would be issued under."""
        return 1 if self.ledger is None else self.ledger.present.revision + 1


def state_of(value: Sheet, ledger: Ledger | None) -> SheetState:
    """How today's sheet stands to what was issued."""
    said = sheet_as_json(value)
    return SheetState(value=value, said=said, fingerprint=fingerprint_of(said), ledger=ledger)

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
    """How today's sheet stands to what was issued; a law that only got another name since then changes no sheet."""
    said = sheet_as_json(value)
    if ledger is not None and said != ledger.present.said:
        renamed = by_names_of(ledger.present.said, value)
        if (by_its_names := sheet_as_json(renamed)) == ledger.present.said:
            value, said = renamed, by_its_names
    return SheetState(value=value, said=said, fingerprint=fingerprint_of(said), ledger=ledger)


def by_names_of(issued: str, value: Sheet) -> Sheet:
    """Today's sheet with each law by the name that it has in the text of an issued one."""
    names = {
        other: title
        for law in LAWS.values()
        for _, title in law.titles
        if f'"{title}"' in issued
        for _, other in law.titles
    }
    labels = value.hazards.items()
    return replace(
        value,
        hazards={market: replace(label, law=names.get(label.law, label.law)) for market, label in labels},
    )

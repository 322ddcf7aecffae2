"""Where a sheet stands: never issued, issued as it is, or changed since it was."""

from dataclasses import dataclass
from typing import Final, Literal

from generator.model.burn_safety import Sheet, sheet_as_json
from generator.model.canonical import fingerprint_of
from generator.model.ledger import Issued, Ledger
from generator.model.markets import LAWS

SheetStatus = Literal["draft", "issued", "changed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetState:
    """What a sheet would say today, and what was issued of it."""

    value: Sheet
    said: str
    fingerprint: str
    ledger: Ledger | None

    @property
    def status(self) -> SheetStatus:
        """Whether today's sheet is the one in force."""
        if self.ledger is None:
            return "draft"
        return "issued" if says_the_same(self.ledger.present.said, self.said) else "changed"

    @property
    def issued(self) -> Issued | None:
        """The revision in force."""
        return None if self.ledger is None else self.ledger.present

    @property
    def revisions(self) -> tuple[Issued, ...]:
        """Every issued revision, the first one first."""
        return () if self.ledger is None else self.ledger.revisions

    @property
    def as_it_was_issued(self) -> "SheetState | None":
        """The same where nobody asks for what it would say today: the revision in force stands in for that."""
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
        """What a page says of it: the revision in force, or today's sheet where none is or drafts are shown."""
        return self.value if drafts or self.issued is None else self.issued.value

    @property
    def next_revision(self) -> int:
        """The number that today's sheet would be issued under."""
        return 1 if self.ledger is None else self.ledger.present.revision + 1


_RENAMED: Final = tuple(
    (f'"{older}"', f'"{law.titles[-1][1]}"') for law in LAWS.values() for _, older in law.titles[:-1]
)
"""Each older name of a law, and its latest, as they stand in the JSON of a sheet."""


def says_the_same(one: str, other: str) -> bool:
    """Whether two sheets say the same; a law that only got another name says what it said."""
    return one == other or _by_the_latest_names(one) == _by_the_latest_names(other)


def _by_the_latest_names(said: str) -> str:
    for older, latest in _RENAMED:
        said = said.replace(older, latest)
    return said


def state_of(value: Sheet, ledger: Ledger | None) -> SheetState:
    """How today's sheet stands to what was issued."""
    said = sheet_as_json(value)
    return SheetState(value=value, said=said, fingerprint=fingerprint_of(said), ledger=ledger)

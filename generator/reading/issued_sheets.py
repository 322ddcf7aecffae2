"""Issued sheets: every ledger read back as it is; the rules decide whether it was edited."""

import json
import re
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from generator.model.burn_safety import Sheet
from generator.model.canonical import canonical
from generator.model.dates import Day
from generator.model.entry import Entry
from generator.model.ledger import Issued, Ledger
from generator.model.words import Count, FreeText
from generator.problems import Path, Place
from generator.reading.gathering import Gathering
from generator.reading.source_file import SourceFile

SHEETS: Final = "sheets"

_MARKER: Final = re.compile(r"^(<{7}|\|{7}|={7}|>{7})(?=\s|$)", re.MULTILINE)

_LOST: Final = "the sheets sold with older candles would be lost"
_AS_BEFORE: Final = "restore the file from a backup or version control"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Written(Entry):
    """One revision as written in its file."""

    revision: Count
    on: Day
    reason: FreeText
    fingerprint: FreeText
    value: dict[str, Any]
    record: dict[str, Any]
    seal: FreeText


def read_ledgers(gathering: Gathering) -> dict[str, Ledger]:
    """Every ledger by its stock code; one that cannot be read is left out, and its fault stops the build."""
    codes = (name.removesuffix(".yaml") for name in gathering.names(SHEETS) if name.endswith(".yaml"))
    return gathering.sound(
        "sheet", ((code, gathering.read(f"{SHEETS}/{code}.yaml", _ledger)) for code in codes)
    )


def _ledger(file: SourceFile) -> Ledger | None:
    source, packed = file.remembered(lambda: _pack(_read(file)))
    return Ledger(stock_code=file.stem, revisions=_unpack(packed), source=source) if packed else None


def _read(file: SourceFile) -> tuple[Issued, ...]:
    """The revisions of one file in order, none where it has faults."""
    met = len(file.problems)
    text = file.text()
    if text is not None and _has_markers(file, text):
        return ()
    revisions = () if text is None else _listed(file)
    file.tell_alike(met, why=_LOST, fix=_AS_BEFORE)
    return revisions


def _listed(file: SourceFile) -> tuple[Issued, ...]:
    data = file.yaml()
    if data is None:
        return ()
    written = data.get("revisions")
    if list(data) != ["revisions"] or not isinstance(written, list) or not written:
        file.note(
            file.start,
            what="the file is not a list of issued revisions",
            why=_LOST,
            fix=_AS_BEFORE,
        )
        return ()
    read = [_revision(file, (file.name, "revisions", number), each) for number, each in enumerate(written)]
    whole = [each for each in read if each is not None]
    return tuple(whole) if len(whole) == len(read) else ()


def _revision(file: SourceFile, at: Path, written: object) -> Issued | None:
    """One revision with a readable sheet; None where it has faults."""
    revision = file.valid(_Written, "a revision", at, written)
    if revision is None or file.valid(Sheet, "a sheet", (*at, "value"), revision.value) is None:
        return None
    return Issued(
        revision=revision.revision,
        on=revision.on,
        reason=revision.reason,
        said=canonical(revision.value),
        fingerprint=revision.fingerprint,
        recorded=canonical(revision.record),
        seal=revision.seal,
    )


def _has_markers(file: SourceFile, text: str) -> bool:
    """Whether version control left two versions in the file to choose from."""
    marker = _MARKER.search(text)
    if marker is None:
        return False
    file.note(
        Place(file.shown, text.count("\n", 0, marker.start()) + 1, 1),
        what=f"'{marker[1]}' was left here when two versions were merged",
        why="there is no telling which revisions were issued",
        fix="keep one version as it was issued, then issue the other one's changes again",
    )
    return True


def _pack(revisions: tuple[Issued, ...]) -> bytes:
    """Revisions as bytes of which only the head is parsed to restore them."""
    if not revisions:
        return b""
    heads: list[list[object]] = []
    bodies: list[bytes] = []
    for one in revisions:
        texts = (one.said.encode(), one.recorded.encode())
        sizes = [len(text) for text in texts]
        heads.append([one.revision, one.on.isoformat(), one.reason, one.fingerprint, one.seal, *sizes])
        bodies += texts
    return b"\n".join((json.dumps(heads).encode(), b"".join(bodies)))


def _unpack(packed: bytes) -> tuple[Issued, ...]:
    head, _, bodies = packed.partition(b"\n")
    revisions, start = [], 0
    for revision, on, reason, fingerprint, seal, said, recorded in json.loads(head):
        middle = start + said
        revisions.append(
            Issued(
                revision=revision,
                on=date.fromisoformat(on),
                reason=reason,
                said=bodies[start:middle].decode(),
                fingerprint=fingerprint,
                recorded=bodies[middle : middle + recorded].decode(),
                seal=seal,
            )
        )
        start = middle + recorded
    return tuple(revisions)

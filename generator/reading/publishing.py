"""``publish.yaml``: each key names a target, and ``to`` says which kind of place it is."""

from collections.abc import Mapping
from typing import Any, Final

from generator.model.publishing import FolderTarget, ObjectStoreTarget, SftpTarget, Target
from generator.reading.gathering import Gathering
from generator.reading.nearest import nearest

PUBLISH: Final = "publish.yaml"
_KINDS: Final[Mapping[str, Any]] = {
    "folder": FolderTarget,
    "sftp": SftpTarget,
    "object-store": ObjectStoreTarget,
}


def read_targets(gathering: Gathering) -> dict[str, Target]:
    """Every target by its name; none where there is no such file."""
    data = gathering.yaml(PUBLISH) if gathering.has(PUBLISH) else None
    targets: dict[str, Target] = {}
    for name, written in (data or {}).items():
        is_id = gathering.is_id(gathering.places.key((PUBLISH, name)), name)
        kind = _kind(gathering, name, written)
        target = None if kind is None else gathering.valid(kind, "a target", (PUBLISH, name), written)
        if target is not None and is_id:
            targets[name] = target
    return targets


def _kind(gathering: Gathering, name: str, written: Any) -> Any:
    to = written.get("to") if isinstance(written, dict) else None
    if isinstance(to, str) and to in _KINDS:
        return _KINDS[to]
    near = nearest(to, tuple(_KINDS)) if isinstance(to, str) else None
    gathering.note(
        gathering.places.of((PUBLISH, name, "to")),
        what=f"'to' is missing from {name}" if to is None else f"to is '{to}', not one of its words",
        why="it says how the site gets there",
        write=f"to: {near or ' or '.join(_KINDS)}",
    )
    return None

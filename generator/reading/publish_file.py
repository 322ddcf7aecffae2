"""``publish.yaml``: each key names a target, and ``to`` its kind."""

import re
from collections.abc import Mapping
from typing import Any, Final

from generator.model.publish_targets import FolderTarget, ObjectStoreTarget, SftpTarget, Target
from generator.reading.gathering import Gathering
from generator.reading.meant import nearest
from generator.reading.source_file import SourceFile

PUBLISH: Final = "publish.yaml"
_KINDS: Final[Mapping[str, Any]] = {
    "folder": FolderTarget,
    "sftp": SftpTarget,
    "object-store": ObjectStoreTarget,
}

_SECRET: Final = re.compile(r"pass|secret|token|access", re.IGNORECASE)


def read_targets(gathering: Gathering) -> dict[str, Target]:
    """Every target by name; none where there is no such file."""
    targets = gathering.read(PUBLISH, _targets) if gathering.has(PUBLISH) else None
    return gathering.sound("target", (targets or {}).items())


def _targets(file: SourceFile) -> dict[str, Target]:
    targets: dict[str, Target] = {}
    for name, written in (file.yaml() or {}).items():
        is_id = file.is_id(file.places.key((PUBLISH, name)), name)
        kind = None if _tells_a_secret(file, name, written) else _kind(file, name, written)
        target = None if kind is None else file.valid(kind, "a target", (PUBLISH, name), written)
        if target is not None and is_id:
            targets[name] = target
    return targets


def _tells_a_secret(file: SourceFile, name: str, written: Any) -> bool:
    """Whether a target contains a secret; reported before anything else, and without its value."""
    secrets = [key for key in written if _SECRET.search(key)] if isinstance(written, dict) else []
    for key in secrets:
        file.note(
            file.places.key((PUBLISH, name, key)),
            what=f"{key} of {name} is in a file of the shop",
            why="anyone who reads the shop's files could replace your site",
            fix=(
                "delete this line; sftp uses a key file, and an object store uses the keys "
                "in this computer's settings"
            ),
        )
    return bool(secrets)


def _kind(file: SourceFile, name: str, written: Any) -> Any:
    to = written.get("to") if isinstance(written, dict) else None
    if isinstance(to, str) and to in _KINDS:
        return _KINDS[to]
    near = nearest(to, tuple(_KINDS)) if isinstance(to, str) else None
    file.note(
        file.places.of((PUBLISH, name, "to")),
        what=f"'to' is missing from {name}"
        if to is None
        else f"to is '{to}', which is not one of the choices",
        why="it says how the site is published",
        fix=f"to: {near or ' or '.join(_KINDS)}",
    )
    return None

"""A run that wants some files and no others."""

from collections.abc import Collection, Mapping
from pathlib import Path

from generator.writing.output import Laid, Layout, PlannedFile, ready_file


def lay_out(folder: Path, files: Mapping[str, bytes | PlannedFile], ours: Collection[str] = ()) -> Laid:
    """What came of it."""
    with Layout(folder) as layout:
        layout.add(
            ready_file(path, file) if isinstance(file, bytes) else file for path, file in files.items()
        )
        return layout.finish(ours)

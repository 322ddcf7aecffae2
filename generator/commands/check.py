"""``check``: every fault of every entry, and the rules by which an editor finds them while you type."""

from collections.abc import Iterator
from pathlib import Path

from generator.making.exit_codes import AT_FAULT
from generator.making.load_shop import know
from generator.making.one_writer import alone_in_content, alone_in_output
from generator.making.options import CommandOptions
from generator.making.report import tell
from generator.reading.schemas import editor_schemas
from generator.writing.store import Store
from generator.writing.whole_files import record


def run(asked: CommandOptions) -> int:
    """Exit code 0 when the entries are sound, 1 when they are at fault."""
    store = Store(asked.output / ".store")
    known = know(asked, store)
    tell(known.problems, as_json=asked.as_data, then="" if known.is_sound else "fix them before you build")
    # Behind the faults, because a folder that cannot be written to can still be read.
    if asked.content.is_dir() and any(_outdated(asked.content)):
        with alone_in_content(asked.content, "check"):
            for path, schema in tuple(_outdated(asked.content)):
                record(path, schema)
    if known.shop is not None and known.shop.photos:
        with alone_in_output(asked.output, "check"):
            store.save()  # A photo is opened to see whether it is whole, and that takes long enough to do it once.
    return 0 if known.is_sound else AT_FAULT


def _outdated(content: Path) -> Iterator[tuple[Path, bytes]]:
    """The schemas that are not there as they should be."""
    for name, text in editor_schemas().items():
        path, schema = content / ".schema" / name, text.encode()
        if not path.exists() or path.read_bytes() != schema:
            yield path, schema

"""``check``: every error of every entry, and the rules by which an editor finds them while you type."""

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from generator.arguments import CommandParser
from generator.making.load_shop import load_shop, store_of
from generator.making.loaded_shop import LoadedShop
from generator.making.one_writer import alone_in_content, alone_in_output
from generator.making.options import AT_FAULT, CommandOptions
from generator.making.report import report_problems, say_next
from generator.reading.schemas import editor_schemas
from generator.writing.store import Store
from generator.writing.whole_files import record


def add_arguments(words: CommandParser) -> None:
    """Nothing but where the shop is."""
    words.runs(run)


def run(options: CommandOptions) -> int:
    """Exit code 0 when the entries are sound, 1 when they are at fault."""
    with closing(store_of(options, saves=True)) as store:
        return _checked(options, store)


def _checked(options: CommandOptions, store: Store) -> int:
    loaded = load_shop(options, store)
    report_problems(loaded.problems, as_json=options.as_data, then="")
    if not options.as_data:
        say_next("fix the errors, then: wickwright check" if loaded.errors else "wickwright build")
    # Behind the faults, because a folder that cannot be written to can still be read.
    if options.content.is_dir() and any(_outdated(options.content)):
        with alone_in_content(options.content, "check"):
            for path, schema in tuple(_outdated(options.content)):
                record(path, schema)
    if isinstance(loaded, LoadedShop) and loaded.shop.photos:
        with alone_in_output(options.output, "check"):
            # A photo is opened to see whether it is whole, and that takes long enough to do it once.
            store.end_run()
            store.save()
    return AT_FAULT if loaded.errors else 0


def _outdated(content: Path) -> Iterator[tuple[Path, bytes]]:
    """The schemas that are not there as they should be."""
    for name, text in editor_schemas().items():
        path, schema = content / ".schema" / name, text.encode()
        if not path.exists() or path.read_bytes() != schema:
            yield path, schema

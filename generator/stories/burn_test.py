"""``burn-test new`` makes the table of a burn test to type into; ``papers bench`` the sheet to fill in by hand."""

from generator.documents.bench_test import bench_papers
from generator.recording.burn_tests import blank_table, tested_as
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.one_writer import writes_content
from generator.stories.pressing import pressed
from generator.stories.ready import Ready, are_known, ready, write_papers
from generator.stories.refusing import tell_refusals
from generator.writing.store import Store
from generator.writing.whole_files import record

NOTHING = "nothing was written"


@writes_content("burn-test new")
def run_new(asked: Asked, stock_code: str) -> int:
    """Exit code 0 when both files are made, 1 when entries stand in the way, 2 for no candle to burn or test."""
    shop = _ready_to_burn(asked, Store(asked.output / ".store"), stock_code)
    if isinstance(shop, int):
        return shop
    folder = asked.content / "burn-tests"
    table, beside = folder / f"{stock_code}.csv", folder / f"{stock_code}.yaml"
    blank = blank_table().encode()
    there = [path for path in (table, beside) if path.exists()]
    # A command that was cut short leaves the one without the other.
    if there and (there != [table] or table.read_bytes() != blank):
        print(f"{there[0].as_posix()} is there already and stays as it is; rename it to begin another test")
        return WRONG_USE
    record(table, blank)  # First, because the other without it is at fault.
    record(beside, tested_as(shop.sizes[stock_code].recorded.build).encode())
    print(
        f"wrote {table.as_posix()} to type into, and {beside.as_posix()}, the candle as it is recorded today"
    )
    print(
        f"with the first session in it, write burn_time: burn-tests/{stock_code}.csv in the entry of {stock_code}"
    )
    return 0


def run_bench(asked: Asked, stock_code: str) -> int:
    """Exit code 0 when the sheet is written, 1 when entries stand in the way, 2 for no candle to burn."""
    store = Store(asked.output / ".store")
    shop = _ready_to_burn(asked, store, stock_code)
    if isinstance(shop, int):
        return shop
    size = shop.sizes[stock_code]
    made = pressed(bench_papers(shop.house, size), shop.setting.theme, store)
    if made.refused:
        return tell_refusals(asked, shop, {stock_code: bench_papers(shop.house, size)}, then=NOTHING)
    write_papers(asked, made.files)
    return 0


def _ready_to_burn(asked: Asked, store: Store, stock_code: str) -> Ready | int:
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    if not are_known((stock_code,), shop.sizes, NOTHING):
        return WRONG_USE
    if not shop.sizes[stock_code].recorded.build.wicks:
        print(f"{stock_code} has no wick, so there is nothing to burn; {NOTHING}")
        return WRONG_USE
    return shop

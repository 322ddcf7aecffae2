"""``burn-test new`` makes the table of a burn test to type into; ``papers bench`` the sheet to fill in by hand."""

from generator.documents.papers.bench_sheet import bench_papers
from generator.ledgers.new_burn_test import blank_table, tested_as
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import Ready, ready, unknown_codes, write_papers
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed
from generator.making.refused_papers import tell_refusals
from generator.making.report import Refusal, refuse, say_written
from generator.writing.store import Store
from generator.writing.whole_files import record

NOTHING = "nothing was written"


@writes_content("burn-test new")
def run_new(asked: CommandOptions, stock_code: str) -> int:
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
        what = f"{there[0].as_posix()} is there already and stays as it is"
        return refuse(Refusal(what=what, write="rename it to begin another test"), as_json=asked.as_data)
    record(table, blank)  # First, because the other without it is at fault.
    record(beside, tested_as(shop.sizes[stock_code].recorded.build).encode())
    then = f"with the first session in it, write burn_time: burn-tests/{stock_code}.csv in the entry of {stock_code}"
    say_written(
        asked,
        (table, beside),
        f"type into the first; the second is the candle as it is recorded today; {then}",
    )
    return 0


def run_bench(asked: CommandOptions, stock_code: str) -> int:
    """Exit code 0 when the sheet is written, 1 when entries stand in the way, 2 for no candle to burn."""
    store = Store(asked.output / ".store")
    shop = _ready_to_burn(asked, store, stock_code)
    if isinstance(shop, int):
        return shop
    size = shop.sizes[stock_code]
    made = pressed(bench_papers(shop.house, size), shop.presentation.theme, store)
    if made.refused:
        return tell_refusals(asked, shop, {stock_code: bench_papers(shop.house, size)}, then=NOTHING)
    write_papers(asked, made.files)
    return 0


def _ready_to_burn(asked: CommandOptions, store: Store, stock_code: str) -> Ready | int:
    shop = ready(asked, store, NOTHING)
    if shop is None:
        return AT_FAULT
    if unknown := unknown_codes((stock_code,), shop.sizes, NOTHING):
        return refuse(*unknown, as_json=asked.as_data)
    if not shop.sizes[stock_code].recorded.build.wicks:
        wickless = Refusal(what=f"{stock_code} has no wick, so there is nothing to burn", then=NOTHING)
        return refuse(wickless, as_json=asked.as_data)
    return shop

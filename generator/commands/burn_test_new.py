"""``burn-test new``: the table of a burn test to type into."""

from dataclasses import replace
from typing import Final

from generator.arguments import CommandParser
from generator.commands.make_paper import not_to_burn
from generator.ledgers.new_burn_test import blank_table, tested_as
from generator.making.load_shop import load_sound_shop
from generator.making.loaded_shop import SoundShop
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, refuse, report_faults, say_written
from generator.problems import is_error
from generator.writing.whole_files import record

_NOTHING: Final = "nothing was written"


def add_arguments(words: CommandParser) -> None:
    """What is tested."""
    words.add_argument("stock_code", metavar="STOCK_CODE")
    words.runs(run)


@writes_content("burn-test new")
def run(options: CommandOptions, stock_code: str) -> int:
    """Exit code 0 when both files are made, 1 when entries stand in the way, 2 for no candle to burn or test."""
    shop = load_sound_shop(options)
    if not isinstance(shop, SoundShop):
        return report_faults(options, filter(is_error, shop), _NOTHING)
    if refusals := not_to_burn(shop, stock_code):
        return refuse(*(replace(refusal, then=_NOTHING) for refusal in refusals), as_json=options.as_data)
    folder = options.content / "burn-tests"
    table, beside = folder / f"{stock_code}.csv", folder / f"{stock_code}.yaml"
    blank = blank_table().encode()
    there = [path for path in (table, beside) if path.exists()]
    # A command that was cut short leaves the one without the other.
    if there and (there != [table] or table.read_bytes() != blank):
        what = f"{there[0].as_posix()} exists already and was not changed"
        return refuse(
            Refusal(what=what, fix="rename both files of that test to start another"), as_json=options.as_data
        )
    record(table, blank)  # First, because the other without it is at fault.
    record(beside, tested_as(shop.sizes[stock_code].recorded.build).encode())
    note = "The first is for your sessions. The second is the candle as it is recorded now."
    next_step = (
        f"burn the candle, type in the first session, and add burn_time: burn-tests/{stock_code}.csv "
        f"to the entry of {stock_code}"
    )
    say_written(options, (table, beside), (note,), next_step)
    return 0

"""Five hundred buyers by three hundred stock codes: every sheet worked out, printed and sealed, and again unchanged.

Processor time is measured, so that a busy machine changes little. The first build is all of a shop that was never
built: entries, pictures, pages, sheets and files. The fixture writes 300 stock codes (0.2 s) and asks for the links,
which reads and works out the whole shop once without keeping anything (2 to 3 s); neither is counted.
"""

from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from time import process_time

import pytest

from generator.commands import link
from generator.commands.build import build
from generator.making.options import CommandOptions
from generator.making.report import Built
from tests.example.thousand import write_shop
from tests.example.trade import TERMS

CODES = 300
BUYERS = 500
TRIES = 5
ONE_LEVEL = "  shop: {off_retail: 50 %}\n"
MOST_S_AT_FIRST = 20.0
MOST_S_AGAIN = 2.0


@pytest.fixture(name="asked", scope="module")
def _asked(tmp_path_factory: pytest.TempPathFactory) -> CommandOptions:
    """The shop with a link for every buyer, not built yet."""
    started = process_time()
    folder = tmp_path_factory.mktemp("trade")
    content = folder / "content"
    write_shop(content, codes=CODES)
    (content / "trade").mkdir()
    terms = TERMS.replace(
        ONE_LEVEL, f"{ONE_LEVEL}  large: {{off_retail: 55 %}}\n  friend: {{off_trade: 10 %}}\n"
    )
    (content / "trade" / "terms.yaml").write_text(terms, encoding="utf-8")
    (content / "trade" / "buyers.yaml").write_text("".join(buyers()), encoding="utf-8")
    written = process_time()
    asked = CommandOptions(content=content, output=folder / "output", as_of=None, as_data=False)
    with redirect_stdout(StringIO()), redirect_stderr(StringIO()):
        assert link.run(asked, link.LinkRequest(buyer=None)) == 0
    links = process_time() - written
    print(
        f"\nthe fixture: {written - started:.2f} s to write the shop, {links:.2f} s to give {BUYERS} links out"
    )
    return asked


def buyers() -> Iterator[str]:
    """Each on one of three levels or none, some with a smallest order of their own."""
    for number in range(BUYERS):
        level = ("", "  level: shop\n", "  level: large\n", "  level: friend\n")[number % 4]
        own = f"  repeat_order: {50 + number % 7}.00\n" if number % 5 == 0 else ""
        yield (
            f"buyer-{number:03}:\n  name: Shop number {number}\n{level}{own}  country: GB\n  currency: GBP\n"
            f"  contact: orders@shop-{number}.example\n  bill_to: [Shop number {number}, {number} High Street]\n"
        )


@pytest.mark.benchmark
def test_five_hundred_buyers_by_three_hundred_codes_build_in_twenty_seconds_and_again_in_two(
    asked: CommandOptions,
) -> None:
    started = process_time()
    first = build(asked)
    first_s = process_time() - started
    again, again_s = build_again(asked)

    print(
        f"\nfirst {first_s:.2f} s ({first.seconds:.2f} s by the clock), again {again_s:.2f} s ({again.seconds:.2f} s)"
    )
    assert first.laid is not None
    assert again.laid is not None
    assert sum(path.startswith("site/t/") for path in first.laid.written) == BUYERS
    assert set(again.laid.changed) <= {"workshop/build.json"}
    assert first_s < MOST_S_AT_FIRST
    assert again_s < MOST_S_AGAIN


def build_again(asked: CommandOptions) -> tuple[Built, float]:
    """The last of some builds with nothing changed, and the least that one took: the rest is the machine's."""
    times = []
    for _ in range(TRIES):
        started = process_time()
        again = build(asked)
        times.append(process_time() - started)
    return again, min(times)

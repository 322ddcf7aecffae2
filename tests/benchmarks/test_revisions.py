"""Ten issued revisions of a thousand stock codes, none of them changed: no page or paper is made again or read back."""

import json
from itertools import islice
from pathlib import Path

import pytest

from generator.commands import issue
from generator.commands.build import build
from generator.documents.frame import frame
from generator.documents.pages.safety import PAPER_SIZES, issued_pages
from generator.documents.papers.printed_sheets import issued_papers
from generator.ledgers.append_revision import sealed_revision, with_revision
from generator.making.options import CommandOptions
from generator.making.pdf_papers import pressed
from generator.making.report import LOG
from generator.model.ledger import Issued, Ledger
from generator.writing.templates import Templates
from tests.benchmarks.measures import processor_time
from tests.example.thousand import write_shop
from tests.loaded import house_and_theme, loaded_shop

CODES, REVISIONS = 1000, 10
MOST_OF_PRINTING_IT = 0.03
"""What an unchanged revision may cost, as a part of what printing it costs, its page and its two papers.

Its ledger is read, and its files are looked at.
"""

MOST_OF_BUILDING_AGAIN = 0.2
"""What a build costs of which nothing at all has changed, as a part of one that has to look at every sheet."""


MOST_PAGES_OF_THE_WORKSHOP = 3
"""Those that nobody remembers: its report on changes, and with links their lists."""


def one_more_revision(asked: CommandOptions) -> None:
    """Behind the revisions of every ledger one more that says the same."""
    shop = loaded_shop(asked).shop
    for code, ledger in shop.ledgers.items():
        path = asked.content / "sheets" / f"{code}.yaml"
        path.write_bytes(with_revision(path.read_bytes(), code, _again(ledger, len(ledger.revisions) + 1)))


def _again(ledger: Ledger, number: int) -> Issued:
    first = ledger.revisions[0]
    again = Issued(
        revision=number, on=first.on, reason="again", said=first.said, fingerprint=first.fingerprint,
        recorded=first.recorded, seal="",
    )  # fmt: skip
    return sealed_revision(again, ledger)


def building_again(asked: CommandOptions) -> float:
    """Seconds of processor time where something was changed that stands on no sheet.

    The least of three, because whatever else a computer does only adds to it.
    """
    maker, took = asked.content / "maker.yaml", []
    for _ in range(3):
        maker.write_text(maker.read_text(encoding="utf-8") + "# a note to myself\n", encoding="utf-8")
        took.append(_processor_time(asked))
    return min(took)


def _processor_time(asked: CommandOptions) -> float:
    started = processor_time()
    built = build(asked)
    assert built.laid is not None
    assert set(built.laid.changed) <= {LOG}
    return processor_time() - started


def printing_time(asked: CommandOptions) -> float:
    """What it takes to print one revision, its page and its two papers, on the average of up to forty."""
    sound = house_and_theme(asked)
    house = sound.house
    sizes = [scent.sizes[0] for scent in house.scents[:40]]
    pages = [next(issued_pages(house, size)) for size in sizes]
    papers = [paper for size in sizes for paper in islice(issued_papers(house, size), len(PAPER_SIZES))]
    site, templates = frame(house), Templates(sound.presentation.theme)
    started = processor_time()
    for page in pages:
        templates.render(page.made(), site)
    pressed([paper.made() for paper in papers], sound.presentation.theme)
    return (processor_time() - started) / len(sizes)


@pytest.mark.benchmark
def test_ten_revisions_of_a_thousand_codes_make_no_page_again_when_nothing_changed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write_shop(tmp_path / "content", codes=CODES)
    asked = CommandOptions(
        content=tmp_path / "content", output=tmp_path / "output", as_of=None, as_data=False
    )
    issue.run(asked, [], "first issue")
    capsys.readouterr()
    build(asked)
    with_one = building_again(asked)
    for _ in range(REVISIONS - 1):
        one_more_revision(asked)
    build(asked)

    with_ten = building_again(asked)
    nothing = min(_processor_time(asked) for _ in range(3))

    log = json.loads((asked.output / "workshop" / "build.json").read_bytes())
    one, printed = (with_ten - with_one) / (CODES * (REVISIONS - 1)), printing_time(asked)
    print(
        f"\nagain: {with_one:.2f} s with 1 revision of each, {with_ten:.2f} s with {REVISIONS}; {log['seconds']}"
    )
    print(f"an unchanged revision {1000 * one:.2f} ms, printing one {1000 * printed:.2f} ms")
    print(f"with nothing changed at all {nothing:.2f} s")
    assert log["made"]["papers"]["misses"] == 0
    assert log["made"]["pages"]["misses"] <= MOST_PAGES_OF_THE_WORKSHOP
    assert nothing <= MOST_OF_BUILDING_AGAIN * with_ten
    assert one <= MOST_OF_PRINTING_IT * printed

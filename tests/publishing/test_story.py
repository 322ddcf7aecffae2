"""The command from its words to its exit code, to every kind of target: publish, change, revoke, go back."""

import shutil

import pytest

from generator.cli import main
from tests.conftest import PROJECT
from tests.example.trade import sell_to_the_trade
from tests.publishing.conftest import Bench
from tests.publishing.places import Place
from tests.publishing.sites import assert_linked

PAGE, SHEET, FIRST, SECOND = (
    "candles/wet-garden.html",
    "safety/WG-20.html",
    "safety/WG-20-r1.html",
    "safety/WG-20-r2.html",
)
RECALL = """\
stock_codes: [WG-20]
hazard: The glass can crack while the candle burns, and hot wax runs out.
what_to_do: [Put it outside.]
remedy: Your money back.
contact: hello@ferry-lane.example
on: 2026-10-30
"""


class Shop:
    """The small shop with two trade buyers, its first sheet issued and every link given out; and its target."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        shutil.copytree(PROJECT / "generator" / "data" / "first_shop", bench.content, dirs_exist_ok=True)
        sell_to_the_trade(bench.content)
        assert self.say("issue", "WG-20", "--reason", "the first one") == 0
        assert self.say("link", "--all") == 0

    def say(self, *words: str) -> int:
        output = self.bench.folder / "output"
        return main([*words, "--content", str(self.bench.content), "--output", str(output)])

    def rewrite(self, file: str, old: str, new: str) -> None:
        path = self.bench.content / file
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")

    def page(self, path: str = PAGE) -> str:
        return self.bench.place.read(path).decode()

    def sealed(self) -> set[str]:
        return {path for path in self.bench.place.names() if path.startswith("t/")}


@pytest.fixture(name="shop")
def _shop(bench: Bench) -> Shop:
    return Shop(bench)


def everything_with(place: Place, start: str) -> set[str]:
    """All names anywhere at the target, the folders beside the one that is seen included."""
    return {path.partition(start)[1] + path.partition(start)[2] for path in place.names() if start in path}


def test_what_was_published_can_be_changed_revoked_and_put_back(shop: Shop) -> None:
    assert shop.say("publish") == 0
    first, links = shop.page(), shop.sealed()
    assert "£18.00" in first
    assert len(links) == 2

    shop.rewrite("candles/wet-garden.yaml", "price: 18.00", "price: 21.00")
    assert shop.say("link", "--renew", "quay-stores") == 0
    assert shop.say("publish") == 0
    assert "£21.00" in shop.page()
    (ended,) = links - shop.sealed()
    renewed = shop.sealed()
    assert ended not in everything_with(shop.bench.home, "t/")

    assert shop.say("publish", "--rollback") == 0
    assert shop.page() == first
    assert shop.sealed() == renewed
    assert ended not in everything_with(shop.bench.home, "t/")
    assert_linked(shop.bench.seen())

    assert shop.say("publish") == 0
    assert "£21.00" in shop.page()


@pytest.mark.parametrize("bench", ["folder", "folder at once"], indirect=True)
def test_an_issued_sheet_outlives_what_replaces_it_and_a_way_back(shop: Shop) -> None:
    assert shop.say("publish") == 0
    assert FIRST in shop.page(SHEET)
    shop.rewrite("vessels/amber-20.yaml", "20 cl", "Brown 20 cl")
    assert shop.say("issue", "WG-20", "--reason", "another name for the jar") == 0

    assert shop.say("publish") == 0
    assert {FIRST, SECOND} <= shop.bench.seen().keys()
    assert "superseded" in shop.page(FIRST).lower()
    second = shop.bench.seen()[SECOND]

    assert shop.say("publish", "--rollback") == 0
    assert shop.bench.seen()[SECOND] == second
    assert FIRST in shop.bench.seen()
    assert_linked(shop.bench.seen())


@pytest.mark.parametrize("bench", ["folder", "folder at once"], indirect=True)
def test_a_page_that_the_site_no_longer_has_is_gone(shop: Shop) -> None:
    page = shop.bench.content / "pages" / "stalls.md"
    page.write_text("# Stalls\n\nBy the quay.\n", encoding="utf-8")
    assert shop.say("publish") == 0
    assert "stalls.html" in shop.bench.seen()
    page.unlink()

    assert shop.say("publish") == 0

    assert "stalls.html" not in shop.bench.seen()
    assert "stalls.html" not in "".join(
        shop.page(path) for path in shop.bench.seen() if path.endswith(".html")
    )


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_a_recall_is_not_unsaid_by_going_back(shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    assert shop.say("publish") == 0
    recall = shop.bench.content / "recalls" / "cracked-glass.yaml"
    recall.parent.mkdir()
    recall.write_text(RECALL, encoding="utf-8")
    assert shop.say("publish") == 0

    assert shop.say("publish", "--rollback") == 3

    assert "recalls/cracked-glass.html, and a recall must stay published" in capsys.readouterr().err
    assert "recalls/cracked-glass.html" in shop.bench.seen()


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_there_is_no_way_back_from_the_first_release(shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    assert shop.say("publish") == 0

    assert shop.say("publish", "--rollback") == 3

    assert capsys.readouterr().err == (
        "wickwright: could not publish to disk: this computer has kept no release before the one that is "
        "live.\n"
    )


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_sealed_sheets_are_not_sent_where_no_browser_would_open_them(
    shop: Shop, capsys: pytest.CaptureFixture[str]
) -> None:
    shop.rewrite("maker.yaml", "https://ferry-lane.example", "http://ferry-lane.example")

    assert shop.say("publish") != 0

    assert "https" in capsys.readouterr().err
    assert shop.bench.seen() == {}


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_a_sheet_whose_record_is_lost_is_not_withdrawn(
    shop: Shop, capsys: pytest.CaptureFixture[str]
) -> None:
    assert shop.say("publish") == 0
    shutil.rmtree(shop.bench.content / "sheets")

    code = shop.say("publish")

    assert code in (1, 3)
    assert "WG-20" in "".join(capsys.readouterr())
    assert FIRST in shop.bench.seen()


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_a_way_back_is_not_taken_while_a_target_is_at_fault(
    shop: Shop, capsys: pytest.CaptureFixture[str]
) -> None:
    assert shop.say("publish") == 0
    shop.rewrite("publish.yaml", "to: folder", "to: fodler")

    assert shop.say("publish", "--rollback") == 1

    assert "to is 'fodler', which is not one of the choices" in capsys.readouterr().out


@pytest.mark.parametrize("bench", ["folder"], indirect=True)
def test_a_target_that_is_not_named_is_wrong_use(shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    assert shop.say("publish", "dsik") == 2

    assert (
        capsys.readouterr().err
        == "wickwright: 'dsik' is not a target. Nothing was sent. Write one of: disk.\n"
    )

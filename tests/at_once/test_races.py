"""Six commands at one moment: what was said is what stands, and a build is as if it had been alone."""

import csv
import os
import re
from collections.abc import Sequence
from pathlib import Path

import pytest

from generator.making.options import CommandOptions
from generator.memory import digest
from generator.model.shop import Shop
from generator.model.trade_links import links_in_force
from generator.problems import is_error
from generator.writing.whole_files import is_temporary
from tests.at_once.conftest import NewShop
from tests.at_once.forks import Ended, Forks, where
from tests.loaded import loaded_shop
from tests.site.test_command import everything_below

ROUNDS = int(os.environ.get("WICKWRIGHT_RACE_ROUNDS", "1"))
SIX = 6
ADD = ("lots", "add", "WG-20", "--made", "3")
ISSUE = ("issue", "WG-20", "--reason", "first issue")
RENEW_ONE, RENEW_OTHER = ("link", "quay-stores", "--renew"), ("link", "lamp-room", "--renew")
BUILT_ALONE: dict[str, dict[str, bytes]] = {}
FILE, ORDER = ("papers", "file", "WG-20"), ("papers", "order", "quay-stores")

pytestmark = pytest.mark.skipif(os.name != "posix", reason="only there can a process be copied")


@pytest.fixture(params=range(ROUNDS), autouse=True)
def _round() -> None:
    """Every test is one round."""


def at_once(forked: Forks, shop: Path, *commands: Sequence[str]) -> list[Ended]:
    """Run them all; none may end in a fault of the program, or leave anything half written."""
    ended = forked.at_once([[*words, *where(shop)] for words in commands])
    assert [one.err for one in ended if "Traceback" in one.err or "could not finish" in one.err] == []
    assert [path for path in shop.rglob("*") if is_temporary(path)] == []
    return ended


def sound(shop: Path) -> Shop:
    """The shop, in which nothing is wrong."""
    asked = CommandOptions(content=shop / "content", output=shop / "output", as_of=None, as_data=False)
    known = loaded_shop(asked)
    assert [str(problem) for problem in known.problems if is_error(problem)] == []
    return known.shop


def rows(book: Path) -> list[dict[str, str]]:
    with book.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def codes(ended: Sequence[Ended]) -> list[int]:
    return sorted(one.code for one in ended)


def said(ended: Sequence[Ended], what: str) -> list[str]:
    return sorted(found for one in ended for found in re.findall(what, one.out))


def site_of(shop: Path) -> dict[str, bytes]:
    return everything_below(shop / "output" / "site")


def built_alone(forked: Forks, shop: Path) -> dict[str, bytes]:
    """The same entries built with nobody beside, from nothing; once for all rounds that come to the same entries."""
    entries = everything_below(shop / "content")
    key = digest(*(part for path in sorted(entries) for part in (path, entries[path])))
    if key not in BUILT_ALONE:
        output = shop / "elsewhere"
        ended = forked.alone("build", "--content", str(shop / "content"), "--output", str(output))
        assert ended.code == 0, ended.out
        BUILT_ALONE[key] = everything_below(output / "site")
    return BUILT_ALONE[key]


def test_every_lot_that_was_said_to_be_added_is_in_the_book(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[ADD] * SIX)

    assert codes(ended) == [0] * SIX
    assert said(ended, r"added lot (\S+):") == sorted(lot.lot for lot in sound(shop).lots)


def test_one_of_six_issues_a_sheet_and_the_others_find_it_issued(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[ISSUE] * SIX)

    assert codes(ended) == [0] + [2] * (SIX - 1)
    assert len(said(ended, "issued revision 1 of WG-20")) == len(sound(shop).ledgers["WG-20"].revisions) == 1


def test_one_secret_is_made_and_each_first_link_is_the_same(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[("link", "--all")] * SIX)

    assert codes(ended) == [0] * SIX
    assert len({one.out for one in ended}) == 1
    assert len([one for one in ended if "Keep a copy" in one.err]) == 1
    written = [row["buyer"] for row in rows(shop / "content/trade/links.csv")]
    assert sorted(links_in_force(sound(shop).links)) == sorted(written) == ["lamp-room", "quay-stores"]


def test_every_renewed_link_is_another_and_is_written_down(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()
    first = forked.alone("link", "--all", *where(shop))

    ended = at_once(forked, shop, *[RENEW_ONE, RENEW_OTHER] * (SIX // 2))

    assert codes([first, *ended]) == [0] * (SIX + 1)
    assert len(set(said([first, *ended], r"/t/[a-z2-7]+\.html"))) == SIX + 2
    written = [(row["buyer"], row["version"]) for row in rows(shop / "content/trade/links.csv")]
    assert len(set(written)) == len(written) == SIX + 2
    assert {link.version for link in links_in_force(sound(shop).links).values()} == {SIX // 2 + 1}


def test_six_builds_into_one_output_are_one_build(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[("build",)] * SIX)

    assert codes(ended) == [0] * SIX
    assert site_of(shop) == built_alone(forked, shop)


def test_two_outputs_of_one_content_are_alike(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()
    content, others = str(shop / "content"), [shop / name for name in ("one", "two")]

    ended = forked.at_once([["build", "--content", content, "--output", str(each)] for each in others * 3])

    assert codes(ended) == [0] * SIX
    one, two = (everything_below(each / "site") for each in others)
    assert one == two


def test_two_contents_with_one_output_take_turns(forked: Forks, new_shop: NewShop) -> None:
    one, two = new_shop(), new_shop()
    maker = two / "content" / "maker.yaml"
    maker.write_text(maker.read_text(encoding="utf-8").replace("Ferry Lane Candles", "Hay Wharf Candles"))
    output = str(one / "output")

    ended = forked.at_once(
        [["build", "--content", str(s / "content"), "--output", output] for s in (one, two) * 3]
    )

    assert codes(ended) == [0] * SIX
    assert site_of(one) in (built_alone(forked, one), built_alone(forked, two))


def test_one_of_six_begins_a_burn_test(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[("burn-test", "new", "WG-20")] * SIX)

    assert codes(ended) == [0] + [2] * (SIX - 1)
    assert {path.name for path in (shop / "content/burn-tests").iterdir()} == {"WG-20.csv", "WG-20.yaml"}


def test_six_checks_write_the_schemas_whole(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[("check",)] * SIX)

    assert codes(ended) == [0] * SIX
    assert everything_below(shop / "content/.schema").keys() >= {"maker.json", "candle.json"}


def test_one_of_six_starts_a_shop(forked: Forks, tmp_path: Path) -> None:
    ended = forked.at_once([["start", str(tmp_path / "shop")]] * SIX)

    assert codes(ended) == [0] + [2] * (SIX - 1)
    sound(tmp_path / "shop")


def test_papers_are_written_whole_beside_builds(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[("build",), FILE, ORDER] * (SIX // 3))

    assert codes(ended) == [0] * SIX
    assert all((shop / path).is_file() for path in said(ended, r"wrote (\S+?);?$"))
    assert site_of(shop) == built_alone(forked, shop)


def test_what_is_published_is_a_whole_site_whatever_is_built_and_issued_meanwhile(
    forked: Forks, new_shop: NewShop
) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, *[("publish",)] * 3, ("build", "--drafts"), ISSUE, ("build",))

    busy = [one for one in ended if one.code == 3]
    assert all("this computer is already publishing there" in one.err for one in busy)
    assert codes(ended) == [0] * (SIX - len(busy)) + [3] * len(busy)
    assert forked.alone("publish", *where(shop)).code == 0
    published = everything_below(shop / "web")
    assert {path: published[path] for path in site_of(shop)} == site_of(shop) == built_alone(forked, shop)


def test_commands_of_all_kinds_do_each_what_they_say(forked: Forks, new_shop: NewShop) -> None:
    shop = new_shop()

    ended = at_once(forked, shop, ADD, ISSUE, RENEW_ONE, ADD, ("build",), ("burn-test", "new", "WG-20"))

    assert codes(ended) == [0] * SIX
    assert said(ended, r"added lot (\S+):") == sorted(lot.lot for lot in sound(shop).lots)
    assert len(sound(shop).ledgers["WG-20"].revisions) == 1
    assert forked.alone("build", *where(shop)).code == 0
    assert site_of(shop) == built_alone(forked, shop)

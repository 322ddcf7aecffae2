"""Commands killed at random moments and at each step on the disk: all is whole, and the next run completes it."""

import os
import random
import shutil
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.making.one_writer import LOCK_FILE
from generator.model.trade_links import links_in_force
from generator.reading.shop_secret import HIDDEN_FILE
from generator.writing.whole_files import is_temporary
from tests.at_once.conftest import NewShop
from tests.at_once.forks import KILLED, NEVER, Forks, where
from tests.at_once.test_races import ADD, FILE, ISSUE, RENEW_ONE, UFI, built_alone, rows, site_of, sound
from tests.publishing.wires import small_disk
from tests.site.test_command import everything_below

KILLS = int(os.environ.get("WICKWRIGHT_KILLS", "21"))
FREE_PAGES = range(8) if KILLS >= 100 else (0, 3)

pytestmark = pytest.mark.skipif(os.name != "posix", reason="only there can a process be copied")


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A command, what it is run on, and whether a shop is as it should be once it was run to its end."""

    name: str
    words: tuple[str, ...]
    on: str
    is_done: Callable[[Path], bool]


def _lots(number: int) -> Callable[[Path], bool]:
    """One that was written before it was said is there besides."""
    return lambda shop: len(sound(shop).lots) in {number, number + 1}


def _revisions(number: int) -> Callable[[Path], bool]:
    return lambda shop: len(sound(shop).ledgers["WG-20"].revisions) == number


def _has(*paths: str) -> Callable[[Path], bool]:
    return lambda shop: all((shop / path).is_file() for path in paths)


def _is_published(shop: Path) -> bool:
    return everything_below(shop / "web").items() >= site_of(shop).items()


CASES = (
    Case(name="first lot", words=ADD, on="new", is_done=_lots(1)),
    Case(name="another lot", words=ADD, on="begun", is_done=_lots(2)),
    Case(name="first issue", words=ISSUE, on="new", is_done=_revisions(1)),
    Case(name="another issue", words=ISSUE, on="begun", is_done=_revisions(2)),
    Case(
        name="first links",
        words=("link", "--all"),
        on="new",
        is_done=lambda shop: len(rows(shop / "content/trade/links.csv")) == 2,
    ),
    Case(
        name="renewed link",
        words=RENEW_ONE,
        on="begun",
        is_done=lambda shop: links_in_force(sound(shop).links)["quay-stores"].version in {2, 3},
    ),
    Case(
        name="ended link",
        words=("link", "lamp-room", "--end"),
        on="begun",
        is_done=lambda shop: set(links_in_force(sound(shop).links)) == {"quay-stores"},
    ),
    Case(
        name="burn test",
        words=("burn-test", "new", "WG-20"),
        on="new",
        is_done=_has("content/burn-tests/WG-20.csv", "content/burn-tests/WG-20.yaml"),
    ),
    Case(name="ufi", words=UFI, on="new", is_done=lambda shop: len(rows(shop / "content/ufi.csv")) == 1),
    Case(name="check", words=("check",), on="new", is_done=_has("content/.schema/wick.json")),
    Case(
        name="start", words=("start",), on="nothing", is_done=_has("content/maker.yaml", "content/.gitignore")
    ),
    Case(name="first build", words=("build",), on="new", is_done=_has("output/site/index.html")),
    Case(name="another build", words=("build",), on="begun", is_done=_has("output/site/index.html")),
    Case(name="publish", words=("publish",), on="begun", is_done=_is_published),
    Case(name="paper", words=FILE, on="begun", is_done=_has("output/workshop/files/WG-20.html")),
)
WRITERS_OF_CONTENT = CASES[:10]
BY_NAME = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name.replace(" ", "-"))


@pytest.fixture(name="shops")
def _shops(forked: Forks, new_shop: NewShop) -> Callable[[Case], Path]:
    """Another shop of the sort that a case is run on: new, or with begun books and a candle that changed since."""
    begun: list[Path] = []

    def shop_for(case: Case) -> Path:
        shop = new_shop()
        if case.on == "nothing":
            shutil.rmtree(shop)
        if case.on != "begun":
            return shop
        if not begun:
            for words in (("link", "--all"), ISSUE, ADD, ("build",)):
                assert forked.alone(*words, *where(shop)).code == 0
            candle = shop / "content" / "candles" / "wet-garden.yaml"
            candle.write_text(candle.read_text(encoding="utf-8").replace("to: 60 mm", "to: 58 mm"))
            begun.append(shop)
            shop = new_shop()
        shutil.rmtree(shop)
        shutil.copytree(begun[0], shop)
        return shop

    return shop_for


def words_for(case: Case, shop: Path) -> tuple[str, ...]:
    return ("start", str(shop)) if case.on == "nothing" else (*case.words, *where(shop))


def entries_of(shop: Path) -> dict[str, bytes]:
    """The entries without what is half written, and without the schemas, of which an older one is no harm."""
    found = everything_below(shop / "content")
    return {
        path: data for path, data in found.items() if not is_temporary(Path(path)) and ".schema" not in path
    }


def stays_of(path: str, data: bytes) -> bytes:
    """What of an entry no command changes: all of it, but for the last line of the secret, which counts the links."""
    return data.rstrip(b"\n").rpartition(b"\n")[0] if path == HIDDEN_FILE else data


def assert_whole(shop: Path, before: dict[str, bytes]) -> None:
    """Nothing that was in an entry is lost, and all that can be read is sound."""
    now = entries_of(shop)
    assert {path for path, data in before.items() if not now[path].startswith(stays_of(path, data))} == set()
    if (shop / "content" / "maker.yaml").is_file() and before:
        sound(shop)
    for secret in (shop / "content").glob(f"{HIDDEN_FILE}*"):
        assert secret.stat().st_mode & 0o077 == 0


def assert_completed(forked: Forks, case: Case, shop: Path) -> None:
    """The next run does what is left to do, and takes away what was left over."""
    again = forked.alone(*words_for(case, shop))
    assert again.code in {0, 2}, again
    assert "Traceback" not in again.err
    assert case.is_done(shop), again
    if case.name != "paper":
        assert [path for path in shop.rglob("*") if is_temporary(path)] == []
    if "build" in case.name:
        assert site_of(shop) == built_alone(forked, shop)


@BY_NAME
def test_a_kill_at_any_moment_loses_nothing_and_the_next_run_completes(
    case: Case, forked: Forks, shops: Callable[[Case], Path]
) -> None:
    shop, began = shops(case), time.monotonic()
    to_its_end = forked.alone(*words_for(case, shop), die_at=NEVER)
    lasts_s = time.monotonic() - began
    assert to_its_end.code == 0, to_its_end
    chance = random.Random(case.name)  # noqa: S311  (moments, no secrets)
    kills = max(KILLS // len(CASES), 1)
    at_steps = [1 + step * to_its_end.steps // (kills - kills // 3) for step in range(kills - kills // 3)]
    for kill in range(kills):
        shop = shops(case)
        before = entries_of(shop) if (shop / "content").is_dir() else {}
        if kill < len(at_steps):
            assert forked.alone(*words_for(case, shop), die_at=at_steps[kill]).code == KILLED
        else:
            forked.at_once([words_for(case, shop)], kill_after_s=chance.uniform(0, lasts_s))
        assert_whole(shop, before)
        assert_completed(forked, case, shop)
        shutil.rmtree(shop)


@pytest.mark.parametrize("case", WRITERS_OF_CONTENT, ids=lambda case: case.name.replace(" ", "-"))
def test_a_full_disk_loses_nothing_and_with_room_the_next_run_completes(
    case: Case, forked: Forks, shops: Callable[[Case], Path]
) -> None:
    shop = shops(case)
    kept = shop.parent / "kept"
    shutil.copytree(shop / "content", kept)
    with small_disk(shop / "content", "size=2m"):
        for free_pages in FREE_PAGES:
            for there in (shop / "content").iterdir():
                shutil.rmtree(there) if there.is_dir() else there.unlink()
            shutil.copytree(kept, shop / "content", dirs_exist_ok=True)
            before = entries_of(shop)
            filler = shop / "content" / LOCK_FILE / "filler"
            filler.parent.mkdir(exist_ok=True)
            fill(filler, free_pages)
            ended = forked.alone(*words_for(case, shop))
            assert ended.code in {0, 3}, ended
            assert "Traceback" not in ended.err
            assert_whole(shop, before)
            assert [path for path in shop.rglob("*") if is_temporary(path)] == []
            filler.unlink()
            assert_completed(forked, case, shop)


def fill(filler: Path, free_pages: int) -> None:
    """Take all room of a disk but so many pages."""
    page = 4096
    free = os.statvfs(filler.parent).f_bavail
    filler.write_bytes(b"." * (page * max(free - free_pages, 0)))

"""A link that has ended stays ended: after files are lost, edited, mixed up, and ids given to other shops."""

import csv
import io
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.cli import main
from generator.ledgers.secret_file import secret_file
from generator.model.secret import ShopSecret
from generator.reading.shop_secret import HIDDEN_FILE, read_secret
from generator.writing.sealed import link_of
from tests.conftest import FIRST_SHOP, once
from tests.example.trade import BUYERS, sell_to_the_trade

OLDER_BOOK = (
    "buyer,version,since\nquay-stores,1,2026-11-01\nlamp-room,1,2026-11-01\nquay-stores,2,2026-11-01\n"
)


@pytest.fixture(name="linked", scope="session")
def _linked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop whose two buyers have links, one of them renewed, built."""

    def make(folder: Path) -> None:
        shop = Path(shutil.copytree(FIRST_SHOP, folder / "content"))
        sell_to_the_trade(shop)
        assert wickwright(shop, "link", "--all") == 0
        (folder / "earlier.csv").write_bytes(book(shop).read_bytes())
        assert wickwright(shop, "link", "quay-stores", "--renew") == 0
        assert wickwright(shop, "build") == 0

    return once(tmp_path_factory, "linked", make)


@pytest.fixture(name="shop")
def _shop(tmp_path: Path, linked: Path) -> Path:
    """A copy of that shop, beside its output."""
    shutil.copytree(linked, tmp_path, dirs_exist_ok=True)
    return tmp_path / "content"


@pytest.fixture(name="older")
def _older(shop_folder: Path) -> Path:
    """The small shop with a book of links and a secret from before there were seals."""
    sell_to_the_trade(shop_folder)
    book(shop_folder).write_text(OLDER_BOOK, encoding="utf-8")
    put_secret(shop_folder, ShopSecret(key=bytes(range(32)), mark=None))
    return shop_folder


def wickwright(shop: Path, *words: str) -> int:
    return main([*words, "--content", str(shop), "--output", str(shop.parent / "output")])


def book(shop: Path) -> Path:
    return shop / "trade" / "links.csv"


def put_secret(shop: Path, secret: ShopSecret) -> None:
    (shop / HIDDEN_FILE).write_bytes(secret_file(secret))
    (shop / HIDDEN_FILE).chmod(0o600)


def buyers(shop: Path, text: str) -> None:
    (shop / "trade" / "buyers.yaml").write_text(text, encoding="utf-8")


def pages(shop: Path) -> set[str]:
    return {path.name for path in (shop.parent / "output" / "site" / "t").glob("*")}


def link_to(shop: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    capsys.readouterr()
    assert wickwright(shop, "link", *words) == 0
    return capsys.readouterr().out.strip()


def page_of(link: str) -> str:
    return link.partition("#")[0].rpartition("/")[2]


def lose(shop: Path) -> None:
    book(shop).unlink()


def check_out_earlier(shop: Path) -> None:
    shutil.copy(shop.parent / "earlier.csv", book(shop))


def empty(shop: Path) -> None:
    book(shop).write_text("buyer,version,since\n", encoding="utf-8")


def go_back_a_version(shop: Path) -> None:
    book(shop).write_text(
        f"{book(shop).read_text(encoding='utf-8')}quay-stores,1,2026-11-02\n", encoding="utf-8"
    )


def edit(shop: Path) -> None:
    text = book(shop).read_text(encoding="utf-8")
    book(shop).write_text(text.replace("lamp-room,1,", "lamp-room,3,"), encoding="utf-8")


def bring_back_the_first_link(shop: Path) -> None:
    first, *_, last = book(shop).read_text(encoding="utf-8").splitlines()[1:]
    text = book(shop).read_text(encoding="utf-8").replace(last.split(",")[4], first.split(",")[4])
    book(shop).write_text(text, encoding="utf-8")


def take_another_secret(shop: Path) -> None:
    put_secret(shop, ShopSecret(key=bytes(32), mark=None))


def lose_the_secret(shop: Path) -> None:
    (shop / HIDDEN_FILE).unlink()


TOLD: dict[Callable[[Path], None], str] = {
    lose: "content/trade/links.csv:1:1: error: the 3 rows that were written here are missing",
    check_out_earlier: "content/trade/links.csv:1:1: error: the last 1 of the 3 rows that were written here is missing",
    empty: "content/trade/links.csv:1:1: error: the 3 rows that were written here are missing",
    go_back_a_version: "content/trade/links.csv:5:13: error: version 1 of 'quay-stores' comes after version 2",
    edit: "error: the row has been altered: it was changed or added by hand",
    bring_back_the_first_link: "error: the row has been altered: it was changed or added by hand",
    take_another_secret: "content/trade/links.csv:1:1: error: no row was written with the shop's secret that is here",
    lose_the_secret: "content/.shop-secret:1:1: error: the shop's secret is missing, and trade links were made",
}


@pytest.mark.parametrize("upset", TOLD, ids=lambda upset: upset.__name__)
def test_whatever_would_open_an_ended_link_stops_every_command(
    shop: Path, capsys: pytest.CaptureFixture[str], upset: Callable[[Path], None]
) -> None:
    before, secret = pages(shop), (shop / HIDDEN_FILE).read_bytes()
    upset(shop)
    upset_book = book(shop).read_bytes() if book(shop).exists() else None
    capsys.readouterr()

    for words in (
        ("build",),
        ("check",),
        ("link", "--all"),
        ("link", "quay-stores", "--renew"),
        ("publish",),
    ):
        assert wickwright(shop, *words) == 1
        assert TOLD[upset] in capsys.readouterr().out

    assert pages(shop) == before
    assert (book(shop).read_bytes() if book(shop).exists() else None) == upset_book
    assert (
        not (shop / HIDDEN_FILE).exists()
        or upset is take_another_secret
        or ((shop / HIDDEN_FILE).read_bytes() == secret)
    )


@pytest.mark.parametrize("upset", TOLD, ids=lambda upset: upset.__name__)
def test_the_command_that_is_named_ends_every_link_and_opens_the_shop_again(
    shop: Path, capsys: pytest.CaptureFixture[str], upset: Callable[[Path], None]
) -> None:
    before = pages(shop)
    upset(shop)
    wickwright(shop, "build")
    assert "wickwright link --end-all" in capsys.readouterr().out or upset is go_back_a_version

    assert wickwright(shop, "link", "--end-all") == 0
    assert wickwright(shop, "build") == 0
    assert pages(shop) == set()

    assert wickwright(shop, "link", "--all") == 0
    assert wickwright(shop, "build") == 0
    assert len(pages(shop)) == 2
    assert pages(shop) & before == set()


@pytest.mark.parametrize("upset", [check_out_earlier, lambda shop: put_secret(shop, SECRETS[shop])])
def test_after_all_links_were_ended_neither_the_old_book_nor_the_old_secret_opens_them(
    shop: Path, upset: Callable[[Path], None]
) -> None:
    old = read_secret(shop, "content", 1)
    assert isinstance(old, ShopSecret)
    SECRETS[shop] = old
    wickwright(shop, "link", "--end-all")
    wickwright(shop, "link", "lamp-room")
    upset(shop)

    assert wickwright(shop, "build") == 1


SECRETS: dict[Path, ShopSecret] = {}


def test_a_secret_that_was_copied_before_the_last_links_were_given_still_serves(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    copy = (shop / HIDDEN_FILE).read_bytes()
    wickwright(shop, "link", "lamp-room", "--renew")
    wickwright(shop, "build")
    before = pages(shop)
    (shop / HIDDEN_FILE).write_bytes(copy)
    capsys.readouterr()

    assert wickwright(shop, "build") == 0
    assert "0 errors, 0 warnings" in capsys.readouterr().out
    assert pages(shop) == before

    wickwright(shop, "link", "--all")
    check_out_earlier(shop)
    assert wickwright(shop, "build") == 1


def test_an_id_that_another_shop_gets_opens_nothing_to_whoever_had_it_before(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old = link_to(shop, capsys, "quay-stores")
    buyers(shop, BUYERS[BUYERS.index("lamp-room") :])
    assert wickwright(shop, "build") == 0
    assert page_of(old) not in pages(shop)
    assert (
        "trade/links.csv:4:1: warning: the link of 'quay-stores' does not work, because no"
        in capsys.readouterr().out
    )
    buyers(shop, BUYERS.replace("Quay Stores", "The Quince Larder"))

    for words in (("build",), ("link", "quay-stores"), ("link", "--all")):
        assert wickwright(shop, *words) == 1
        assert "trade/buyers.yaml:2:9: error: 'quay-stores' is 'The Quince Larder', but its link was" in (
            capsys.readouterr().out
        )
    assert page_of(old) not in pages(shop)

    new = link_to(shop, capsys, "quay-stores", "--renew")
    assert wickwright(shop, "build") == 0
    assert page_of(old) not in pages(shop)
    assert page_of(new) in pages(shop)


def test_a_link_that_was_ended_stays_so_when_the_buyer_comes_back(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old = link_to(shop, capsys, "quay-stores")
    buyers(shop, BUYERS[BUYERS.index("lamp-room") :])
    assert wickwright(shop, "link", "quay-stores", "--end") == 0
    assert wickwright(shop, "build") == 0
    assert "0 errors, 0 warnings" in capsys.readouterr().out
    buyers(shop, BUYERS)

    assert wickwright(shop, "build") == 0
    assert (
        "No link is in force for quay-stores; make one with: wickwright link --all" in capsys.readouterr().out
    )
    assert len(pages(shop)) == 1

    new = link_to(shop, capsys, "quay-stores")
    assert wickwright(shop, "build") == 0
    assert page_of(new) in pages(shop)
    assert page_of(old) not in pages(shop)


@pytest.mark.parametrize("id_", ["quay-stores", "harbour-stores"], ids=["another name", "another id"])
def test_the_same_shop_under_another_id_or_name_goes_on_with_its_link(
    shop: Path, capsys: pytest.CaptureFixture[str], id_: str
) -> None:
    old = link_to(shop, capsys, "quay-stores")
    buyers(shop, BUYERS.replace("quay-stores:", f"{id_}:").replace("Quay Stores", "Quay & Sons"))

    assert link_to(shop, capsys, id_, "--was", "quay-stores") == old
    assert wickwright(shop, "build") == 0

    assert "0 errors, 0 warnings" in capsys.readouterr().out
    assert page_of(old) in pages(shop)
    assert len(pages(shop)) == 2


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("lamp-room", "--was", "nobody"),
            "no link of 'nobody' is in force; a new one is made with: wickwright link",
        ),
        (
            ("lamp-room", "--was", "quay-stores"),
            "'quay-stores' is a buyer's id still, so its link stays with it",
        ),
        (("nobody", "--end"), "no link of 'nobody' is in force; "),
        (("--all", "--end"), "--end is for one buyer's link; --end-all alone ends all"),
        (("--end-all", "--end"), "--end is for one buyer's link; --end-all alone ends all"),
        (("--end-all", "--renew"), "--renew, --was and --file are for one buyer's link"),
        (("--all", "--was", "quay-stores"), "--renew, --was and --file are for one buyer's link"),
    ],
)
def test_what_cannot_be_ended_or_kept_is_told_and_nothing_is_written(
    shop: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], told: str
) -> None:
    before = book(shop).read_bytes()
    capsys.readouterr()

    assert wickwright(shop, "link", *words) == 2

    assert told in capsys.readouterr().err
    assert book(shop).read_bytes() == before


def test_a_buyer_with_a_link_of_its_own_takes_no_others(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    buyers(shop, BUYERS[BUYERS.index("lamp-room") :])

    assert wickwright(shop, "link", "lamp-room", "--was", "quay-stores") == 2

    assert (
        "'lamp-room' has a link of its own; end it first: wickwright link lamp-room --end"
        in capsys.readouterr().err
    )


def test_a_shop_of_before_there_were_seals_builds_and_its_links_open_as_they_did(
    older: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert wickwright(older, "build") == 0

    assert pages(older) == {
        page_of(link_of(bytes(range(32)), name).path) for name in ("quay-stores/2", "lamp-room/1")
    }
    assert (
        "trade/links.csv:1:1: warning: the shop's secret does not record how many rows"
        in capsys.readouterr().out
    )


def test_the_next_link_puts_an_older_book_under_seal_and_keeps_its_rows_and_links(
    older: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wickwright(older, "build")
    before = pages(older)

    wickwright(older, "link", "lamp-room")
    assert wickwright(older, "build") == 0

    lines = book(older).read_text(encoding="utf-8").splitlines()
    assert lines[:4] == ["buyer,version,since,name,link,seal", *OLDER_BOOK.splitlines()[1:]]
    rows = [(row["buyer"], row["version"], row["name"], row["link"]) for row in csv.DictReader(lines)][3:]
    assert rows == [
        ("quay-stores", "2", "Quay Stores", "quay-stores/2"),
        ("lamp-room", "1", "The Lamp Room", "lamp-room/1"),
    ]
    assert pages(older) == before
    capsys.readouterr()

    book(older).write_text(OLDER_BOOK, encoding="utf-8")
    assert wickwright(older, "build") == 1
    assert "the last 2 of the 5 rows that were written here are missing" in capsys.readouterr().out


def test_an_older_link_of_nobody_ends_with_the_next_link_and_another_with_its_renewal(
    older: Path,
) -> None:
    buyers(older, BUYERS[BUYERS.index("lamp-room") :])
    wickwright(older, "link", "lamp-room", "--renew")
    buyers(older, BUYERS)

    assert wickwright(older, "build") == 0

    assert len(pages(older)) == 1
    assert pages(older) & {
        page_of(link_of(bytes(range(32)), f"{name}").path) for name in ("quay-stores/2", "lamp-room/1")
    } == (set())


def test_a_buyer_that_was_never_given_a_link_has_no_page(
    older: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    buyers(older, f"{BUYERS}larder:\n  name: Larder Lane\n  country: GB\n  currency: GBP\n")

    assert wickwright(older, "build") == 0

    assert len(pages(older)) == 2
    assert "No link is in force for larder; make one with: wickwright link --all" in capsys.readouterr().out


def test_a_list_that_is_lost_beside_an_older_secret_is_told(
    older: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lose(older)

    assert wickwright(older, "build") == 1

    assert (
        "links.csv:1:1: error: the list of trade links is missing, and links were given"
        in capsys.readouterr().out
    )


@pytest.mark.parametrize("name", ['Quay, Sons & "Co"; Ltd', "'Ėglė' – 茶", "=1+1", "two\nlines"])
def test_a_name_is_known_again_whatever_it_holds(shop: Path, name: str) -> None:
    buyers(shop, f"{BUYERS}other:\n  name: {ascii_json(name)}\n  country: GB\n  currency: GBP\n")

    assert wickwright(shop, "link", "--all") == 0
    assert wickwright(shop, "build") == 0
    assert len(pages(shop)) == 3


def ascii_json(text: str) -> str:
    return '"' + text.replace('"', '\\"').replace("\n", "\\n") + '"'


def test_links_asked_for_again_write_nothing(shop: Path) -> None:
    before = book(shop).read_bytes(), (shop / HIDDEN_FILE).stat().st_mtime_ns

    wickwright(shop, "link", "--all")

    assert (book(shop).read_bytes(), (shop / HIDDEN_FILE).stat().st_mtime_ns) == before
    assert len(list(csv.DictReader(io.StringIO(before[0].decode())))) == 3

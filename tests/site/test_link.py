"""Trade links from outside: asked for, renewed, written to a file, and sealed pages that come and go with them."""

import csv
import io
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from generator.cli import main
from tests.example.trade import BUYERS, WEB, sell_to_the_trade

OPENER = Path(__file__).parents[1] / "writing" / "open_sealed.mjs"


@pytest.fixture(name="shop")
def _shop(shop_folder: Path) -> Path:
    """The small shop with two trade buyers, without a link yet."""
    sell_to_the_trade(shop_folder)
    return shop_folder


def wickwright(shop: Path, *words: str) -> int:
    return main([*words, "--content", str(shop), "--output", str(shop.parent / "output")])


def link_to(shop: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """A buyer's link from the site's root."""
    capsys.readouterr()
    assert wickwright(shop, "link", *words) == 0
    return capsys.readouterr().out.strip().removeprefix(f"{WEB}/")


def sealed_pages(shop: Path) -> dict[str, bytes]:
    folder = shop.parent / "output" / "site"
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.glob("t/*")}


def opened(page: Path, *key_and_path: str) -> str:
    """What the WebCrypto of Node makes of a page."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("there is no node")
    words = [node, str(OPENER), str(page), *key_and_path]
    return subprocess.run(words, check=True, capture_output=True, encoding="utf-8").stdout


def test_a_link_is_an_address_below_the_shops_own_that_tells_nothing_of_the_buyer(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert wickwright(shop, "link", "quay-stores") == 0

    assert re.fullmatch(rf"{WEB}/t/[a-z2-7]{{26}}\.html#[a-z2-7]{{52}}\n", capsys.readouterr().out)


def test_the_first_link_makes_the_secret_and_says_so_beside_the_address(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wickwright(shop, "link", "quay-stores")

    secret = shop / ".shop-secret"
    assert secret.stat().st_mode & 0o077 == 0
    assert capsys.readouterr().err == (
        f"made {secret.as_posix()}: keep a copy in a safe place, since no link opens without it\n"
        "its page is there once the shop is built and published\n"
    )


def test_git_passes_over_the_secret_of_a_shop_that_was_started_here(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    git = shutil.which("git")
    if git is None:
        pytest.skip("there is no git")
    for name in ("GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE"):
        monkeypatch.delenv(name, raising=False)
    subprocess.run([git, "-C", str(shop), "init", "-q"], check=True)
    wickwright(shop, "link", "quay-stores")

    subprocess.run([git, "-C", str(shop), "add", "."], check=True, capture_output=True)

    assert wickwright(shop, "link", "quay-stores") == 0


def test_a_link_is_written_down_and_the_buyers_entry_stays_as_it_is(shop: Path) -> None:
    wickwright(shop, "link", "quay-stores")
    wickwright(shop, "link", "quay-stores")

    book = (shop / "trade" / "links.csv").read_text(encoding="utf-8")
    assert re.fullmatch(
        "buyer,version,since,name,link,seal\nquay-stores,1,2026-11-01,Quay Stores,[0-9a-f]{32},[0-9a-f]{32}\n",
        book,
    )
    assert (shop / "trade" / "buyers.yaml").read_text(encoding="utf-8") == BUYERS


def test_all_links_are_a_table_for_a_mail_merge(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wickwright(shop, "link", "--all")

    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert [(row["buyer"], row["name"], row["contact"], row["version"]) for row in rows] == [
        ("quay-stores", "Quay Stores", "Ada Fenn, orders@quay-stores.example", "1"),
        ("lamp-room", "The Lamp Room", "", "1"),
    ]
    assert rows[0]["address"] == f"{WEB}/{link_to(shop, capsys, 'quay-stores')}"


def test_a_build_before_the_first_link_seals_nothing_and_says_how_to_begin(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wickwright(shop, "build")

    assert sealed_pages(shop) == {}
    assert not (shop / ".shop-secret").exists()
    assert (
        "No trade buyer has a link yet; make the links with: wickwright link --all" in capsys.readouterr().out
    )


def test_every_buyers_page_is_opened_by_its_key_in_another_webcrypto(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    links = [link_to(shop, capsys, buyer).partition("#") for buyer in ("quay-stores", "lamp-room")]
    wickwright(shop, "build")

    sheets = [opened(shop.parent / "output" / "site" / path, key) for path, _, key in links]

    assert ["Quay Stores" in sheet for sheet in sheets] == [True, False]
    assert ["The Lamp Room" in sheet for sheet in sheets] == [False, True]
    assert sorted(sealed_pages(shop)) == sorted(path for path, _, _ in links)


def test_another_webcrypto_refuses_another_key_another_path_and_a_flipped_bit(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, _, key = link_to(shop, capsys, "quay-stores").partition("#")
    wickwright(shop, "build")
    page = shop.parent / "output" / "site" / path
    text = page.read_text(encoding="utf-8")
    spot = text.index(">", text.index("data-path")) + 100
    flipped = shop.parent / "flipped.html"
    flipped.write_text(text[:spot] + ("A" if text[spot] != "A" else "B") + text[spot + 1 :], encoding="utf-8")

    other = "a" if key[0] != "a" else "b"

    assert opened(page, other + key[1:]) == "refused: OperationError"
    assert opened(page, key, "t/another.html") == "refused: OperationError"
    assert opened(flipped, key) == "refused: OperationError"


def test_building_again_gives_the_same_bytes_and_seals_nothing_anew(shop: Path) -> None:
    wickwright(shop, "link", "--all")
    wickwright(shop, "build")
    first = sealed_pages(shop)

    wickwright(shop, "build")
    remembered = sealed_pages(shop)
    shutil.rmtree(shop.parent / "output")
    wickwright(shop, "build")

    assert len(first) == 2
    assert remembered == first
    assert sealed_pages(shop) == first


def test_a_buyer_that_changes_leaves_the_others_pages_as_they_are(shop: Path) -> None:
    wickwright(shop, "link", "--all")
    wickwright(shop, "build")
    before = sealed_pages(shop)
    entry = shop / "trade" / "buyers.yaml"
    entry.write_text(BUYERS.replace("Ada Fenn", "Ida Fenn"), encoding="utf-8")

    wickwright(shop, "build")

    after = sealed_pages(shop)
    assert after.keys() == before.keys()
    assert sum(after[path] != before[path] for path in after) == 1


def test_a_renewed_link_takes_the_old_page_off_the_site(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old = link_to(shop, capsys, "quay-stores")
    wickwright(shop, "build")

    new = link_to(shop, capsys, "--renew", "quay-stores")
    wickwright(shop, "build")

    (old_path, _, old_key), (new_path, _, new_key) = old.partition("#"), new.partition("#")
    assert old_key != new_key
    assert old_path not in sealed_pages(shop)
    assert opened(shop.parent / "output" / "site" / new_path, old_key) == "refused: OperationError"
    assert "\nquay-stores,2,2026-11-01,Quay Stores," in (shop / "trade" / "links.csv").read_text(
        encoding="utf-8"
    )


def test_a_buyer_that_is_removed_leaves_the_site(shop: Path) -> None:
    wickwright(shop, "link", "--all")
    wickwright(shop, "build")
    entry = shop / "trade" / "buyers.yaml"
    entry.write_text(BUYERS[: BUYERS.index("lamp-room")], encoding="utf-8")

    wickwright(shop, "build")

    assert len(sealed_pages(shop)) == 1


def test_the_file_to_attach_is_the_page_at_the_link(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, _, key = link_to(shop, capsys, "quay-stores").partition("#")
    wickwright(shop, "build")
    file = shop.parent / "sheet.html"

    told = link_to(shop, capsys, "quay-stores", "--file", str(file))

    assert file.read_bytes() == sealed_pages(shop)[path]
    assert told == (
        f"wrote {file.as_posix()}; it opens in a browser with this key, to be sent apart from it:\n{key}"
    )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("quay-store",),
            "there is no buyer 'quay-store' in trade/buyers.yaml; write one of: quay-stores; no link was made\n",
        ),
        (
            ("--all", "--renew"),
            "--renew, --was and --file are for one buyer's link; write its id in place of all; no link was made\n",
        ),
    ],
    ids=["an unknown buyer", "all at once"],
)
def test_what_cannot_be_done_is_told_and_nothing_is_made(
    shop: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], told: str
) -> None:
    assert wickwright(shop, "link", *words) == 2

    assert capsys.readouterr().err == f"wickwright: {told}"
    assert not (shop / ".shop-secret").exists()


def test_without_buyers_there_is_nothing_to_give_out(
    shop_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert wickwright(shop_folder, "link", "--all") == 2

    assert capsys.readouterr().err == (
        "wickwright: there are no buyers yet; write the first into trade/buyers.yaml; no link was made\n"
    )
    assert not (shop_folder / ".shop-secret").exists()


def test_a_file_that_is_there_is_not_written_over(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = shop.parent / "sheet.html"
    file.write_text("mine", encoding="utf-8")

    assert wickwright(shop, "link", "quay-stores", "--file", str(file)) == 2

    assert capsys.readouterr().err == (
        f"wickwright: {file.as_posix()} is there already; write another name, or remove it first; no link was made\n"
    )
    assert file.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("address", "what"),
    [
        ("web: http://ferry-lane.example", "the shop's address is 'http://ferry-lane.example'"),
        ("", "the shop has no address of its own"),
    ],
    ids=["plain http", "none"],
)
def test_without_a_safe_address_there_is_no_link(
    shop: Path, capsys: pytest.CaptureFixture[str], address: str, what: str
) -> None:
    maker = shop / "maker.yaml"
    maker.write_text(maker.read_text(encoding="utf-8").replace(f"web: {WEB}", address), encoding="utf-8")

    assert wickwright(shop, "link", "quay-stores") == 1

    assert f"error: {what}\n    why: a link leads to a page below it" in capsys.readouterr().out
    assert not (shop / ".shop-secret").exists()


def test_a_lost_secret_stops_the_build_and_the_links(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wickwright(shop, "link", "--all")
    (shop / ".shop-secret").unlink()

    codes = [wickwright(shop, *words) for words in (("build",), ("check",), ("link", "quay-stores"))]

    assert codes == [1, 1, 1]
    assert (
        capsys.readouterr().out.count("the shop's secret is missing, and trade links were made with it") == 3
    )
    assert not (shop / ".shop-secret").exists()


def test_the_workshop_lists_every_link(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    link = link_to(shop, capsys, "quay-stores")
    wickwright(shop, "build")
    workshop = shop.parent / "output" / "workshop"

    assert f"{WEB}/{link}" in (workshop / "links.html").read_text(encoding="utf-8")
    assert 'href="links.html"' in (workshop / "index.html").read_text(encoding="utf-8")
    assert f'href="../site/{link}"' in (workshop / "links.html").read_text(encoding="utf-8")
    assert f"{WEB}/{link}" in (workshop / "links.csv").read_text(encoding="utf-8-sig")


def test_a_build_prints_no_key(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    key = link_to(shop, capsys, "quay-stores").partition("#")[2]
    secret = next(
        word for word in (shop / ".shop-secret").read_text(encoding="ascii").split() if len(word) == 52
    )

    wickwright(shop, "build")

    printed = "".join(capsys.readouterr())
    assert "site" in printed
    assert [word for word in (key, secret, "Quay", "quay-stores") if word in printed] == []

"""A shop that older programs wrote still reads, builds and verifies, and every address and link of it still serves.

``shop/`` was written by the program at commit 49ac2bd, before links had names and seals and before lots kept what they
were poured by; ``later/`` is what the program at f3a7aee made of its books. Neither is ever edited: where a test fails
here, the program is wrong. The secrets were made for these tests alone.
"""

import gzip
import re
import shutil
from base64 import b32decode, b64decode
from dataclasses import dataclass
from functools import reduce
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from generator.cli import main
from generator.ledgers.append_revision import with_revision
from generator.model.canonical import fingerprint_of
from generator.model.ledger import Issued
from generator.reading.read_shop import read_shop
from generator.reading.shop_secret import HIDDEN_FILE
from tests.conftest import TODAY

FROZEN = Path(__file__).parent
SHOP, LATER = FROZEN / "shop", FROZEN / "later"
CODES = {"QS-20": 2, "TT-20": 2, "WG-20": 3}
"""Each stock code, and how many revisions of its sheet were issued."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Old:
    """A copy of the shop in one of its two states."""

    content: Path
    name: str

    @property
    def site(self) -> Path:
        return self.content.parent / "output" / "site"

    def run(self, *words: str) -> int:
        return main([*words, "--content", str(self.content), "--output", str(self.site.parent)])

    def links(self) -> dict[str, tuple[str, str]]:
        """The page and the key of each link as it was given out; ``ended`` is one that was replaced."""
        written = (FROZEN / f"{self.name}links.txt").read_text(encoding="utf-8")
        return {
            whose: (page, key) for whose, page, key in re.findall(r"(\S+) https://[^/]+/(.+)#(.+)", written)
        }


def bytes_below(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


@pytest.fixture(name="old", params=["", "later-"], ids=["of 49ac2bd", "of f3a7aee"])
def _old(request: pytest.FixtureRequest, tmp_path: Path) -> Old:
    old = Old(content=tmp_path / "content", name=request.param)
    shutil.copytree(SHOP, old.content)
    if old.name:
        shutil.copytree(LATER, old.content, dirs_exist_ok=True)
    secret = old.content / HIDDEN_FILE
    shutil.copy(FROZEN / f"{old.name}secret-for-tests.txt", secret)
    secret.chmod(0o600)
    return old


def opened(site: Path, page: str, key: str) -> str:
    """What a link's key makes of the page at its address."""
    found = re.search(r'data-path="([^"]*)">([^<]*)<', (site / page).read_text(encoding="utf-8"))
    assert found is not None
    assert found[1] == page
    sealed = b64decode(found[2])
    raw = b32decode(key.upper() + "=" * (-len(key) % 8))
    plain = AESGCM(raw).decrypt(sealed[:12], sealed[12:], page.encode())
    return gzip.decompress(plain[4 : 4 + int.from_bytes(plain[:4], "big")]).decode()


def test_it_builds_without_an_error_and_everything_is_where_it_was(
    old: Old, capsys: pytest.CaptureFixture[str]
) -> None:
    before = bytes_below(old.content)
    assert old.run("build") == 0
    assert "0 errors, " in capsys.readouterr().out

    ended, _ = old.links()["ended"]
    addresses = set((FROZEN / f"{old.name}addresses.txt").read_text(encoding="utf-8").split())
    assert addresses - {ended} - bytes_below(old.site).keys() == set()
    assert not (old.site / ended).exists()
    for whose, name in (("quay-stores", "Quay Stores"), ("lamp-room", "The Lamp Room")):
        assert name in opened(old.site, *old.links()[whose])

    assert old.run("issue", "--verify") == 0
    assert "7 of 7 fingerprints and 7 of 7 pages are as issued" in capsys.readouterr().out
    assert before.items() <= bytes_below(old.content).items()


def test_its_sheets_say_today_what_was_issued(old: Old, capsys: pytest.CaptureFixture[str]) -> None:
    assert old.run("issue", "--reason", "to see whether a sheet has changed") == 0

    assert capsys.readouterr().out == "every sheet is in force as it is; there is nothing to issue\n"
    assert bytes_below(old.content / "sheets") == bytes_below(SHOP / "sheets")


def test_its_ledgers_are_read_and_written_back_byte_for_byte(old: Old) -> None:
    shop = read_shop(old.content, "content", TODAY).shop
    assert shop is not None

    assert {code: len(ledger.revisions) for code, ledger in shop.ledgers.items()} == CODES
    for code, ledger in shop.ledgers.items():

        def written(book: bytes, issued: Issued, code: str = code) -> bytes:
            return with_revision(book, code, issued)

        assert reduce(written, ledger.revisions, b"") == (SHOP / "sheets" / f"{code}.yaml").read_bytes()
        assert all(one.fingerprint == fingerprint_of(one.said) for one in ledger.revisions)


def test_its_books_grow_below_the_rows_that_they_have(old: Old) -> None:
    books = [old.content / "lots.csv", old.content / "trade" / "links.csv"]
    before = [book.read_text(encoding="utf-8").splitlines() for book in books]

    assert old.run("lots", "add", "WG-20", "--made", "6") == old.run("link", "quay-stores", "--renew") == 0

    for (head, *rows), book in zip(before, books, strict=True):
        longer, *grown = book.read_text(encoding="utf-8").splitlines()
        assert longer.startswith(head)
        assert grown[: len(rows)] == rows
        assert len(grown) > len(rows)
    assert old.run("build") == 0

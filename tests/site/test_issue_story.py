"""The whole story on a copy of the example shop: issue, change a gram, be told, be refused, issue again, look back."""

import json
import shutil
from contextlib import redirect_stdout
from dataclasses import dataclass, replace
from io import StringIO
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from generator.commands import build, issue, verify
from generator.making.options import CommandOptions
from tests.site.story import CODE, NEW, OLD, add_a_gram, asked_in, issue_again, issued_in, rewrite


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """The copy, what is asked about it, and what was said to the maker."""

    asked: CommandOptions
    capsys: pytest.CaptureFixture[str]

    def page(self, name: str) -> str:
        return (self.asked.output / "site" / name).read_text(encoding="utf-8")

    def said(self) -> str:
        return self.capsys.readouterr().out.replace(self.asked.content.as_posix(), "content")


@pytest.fixture(name="issued", scope="module")
def _issued(tmp_path_factory: pytest.TempPathFactory, built_example: Path) -> Path:
    folder = tmp_path_factory.mktemp("issued")
    shutil.copytree(built_example / ".store", asked_in(folder).output / ".store")
    issued_in(folder)
    return folder


@pytest.fixture(name="desk")
def _desk(issued: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Desk:
    shutil.copytree(issued, tmp_path, dirs_exist_ok=True)
    capsys.readouterr()
    return Desk(asked=asked_in(tmp_path), capsys=capsys)


@pytest.fixture(name="changed_once", scope="module")
def _changed_once(issued: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """One gram of fragrance more, built; and what was said of it."""
    folder = tmp_path_factory.mktemp("changed")
    asked = asked_in(shutil.copytree(issued, folder, dirs_exist_ok=True))
    add_a_gram(asked)
    with redirect_stdout(StringIO()) as said:
        assert build.run(asked) == 0
    return folder, said.getvalue().replace(asked.content.as_posix(), "content")


@pytest.fixture(name="changed")
def _changed(changed_once: tuple[Path, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Desk:
    shutil.copytree(changed_once[0], tmp_path, dirs_exist_ok=True)
    return Desk(asked=asked_in(tmp_path), capsys=capsys)


def article(page: str) -> str:
    return str(BeautifulSoup(page, "html.parser").article)


def test_the_report_names_the_gram_the_statement_the_hours_and_what_follows(
    changed_once: tuple[Path, str],
) -> None:
    _, report = changed_once

    for line in (
        "QF-30: Quillfern, Clear tumbler; changes since revision 1 of 1 November 2026",
        "  content/candles/quillfern.yaml:15:12: formula fragrances bracken amount: 89 g -> 90 g",
        "      burn hours claim: 38 -> 25",
        "  The declared weight is proven by weighing.",
        "  The burn hours are no longer supported by tests "
        "(burn-tests/QF-30.csv: fragrance bracken was 7.2 %, is 8.24 %).",
        "  New on the label (Great Britain): H317, P101, P102, P103, P302+P352, P333+P313, P501.",
        "  No longer on the label (Great Britain): EUH208.",
        "  Reprint the labels.",
        "  Listed in workshop/trade.html, workshop/trade.csv; send shops the new version.",
    ):
        assert f"{line}\n" in report


def test_the_workshop_has_the_report_and_the_draft(changed: Desk) -> None:
    workshop = changed.asked.output / "workshop"

    assert "H317" in (workshop / "changes.html").read_text(encoding="utf-8")
    assert "about 25 hours" in (workshop / "drafts" / "QF-30.html").read_text(encoding="utf-8")


def test_the_site_keeps_showing_what_was_issued(changed: Desk) -> None:
    for page in ("safety/QF-30.html", OLD, "candles/quillfern.html"):
        assert "about 38 hours (early test)" in changed.page(page)
        assert "about 25 hours" not in changed.page(page)


def test_with_drafts_the_site_shows_what_the_sheet_says_today(changed: Desk) -> None:
    build.run(replace(changed.asked, drafts=True))

    assert "about 25 hours" in changed.page("safety/QF-30.html")
    assert "Draft" in changed.page("safety/QF-30.html")


def test_a_build_of_issued_sheets_alone_is_refused_and_writes_nothing(changed: Desk) -> None:
    changed.said()
    before = changed.page("safety/QF-30.html")

    assert build.run(replace(changed.asked, issued_only=True)) == 1
    told = changed.said()
    assert "error: the sheet of QF-30 has changed since revision 1" in told
    assert "error: no sheet of NR-30 has been issued" in told
    assert ". Nothing was written.\nNext: " in told
    assert changed.page("safety/QF-30.html") == before


def test_issued_again_the_old_sheet_stays_what_it_was(changed: Desk) -> None:
    sold_with = article(changed.page(OLD))

    issue_again(changed.asked)
    assert build.run(changed.asked) == 0

    assert article(changed.page(OLD)) == sold_with
    assert "Revision 1 of this sheet has been superseded." in changed.page(OLD)
    assert "about 25 hours" in changed.page(NEW)
    assert article(changed.page(NEW)) == article(changed.page("safety/QF-30.html"))


def test_once_superseded_a_page_keeps_its_bytes_whatever_the_shop_becomes(changed: Desk) -> None:
    issue_again(changed.asked)
    build.run(changed.asked)
    before = changed.page(OLD)

    rewrite(changed.asked, "maker.yaml", "as_of: 2026-11-01", "as_of: 2026-12-01")
    rewrite(changed.asked, "candles/quillfern.yaml", "scent: Quillfern", "scent: Quillfern and Hay")
    rewrite(changed.asked, "maker.yaml", "name: Quillfern Candles", "name: Quillfern & Daughter")
    issue.run(changed.asked, [CODE], "another name")
    build.run(changed.asked)

    assert changed.page(OLD) == before
    assert "Quillfern and Hay" in changed.page("safety/QF-30-r3.html")


def test_nothing_is_said_where_nothing_changed(desk: Desk) -> None:
    build.run(desk.asked)

    assert "changed since" not in desk.said()


def test_an_altered_page_is_found_and_named(desk: Desk) -> None:
    page = desk.asked.output / "site" / OLD
    page.write_text(desk.page(OLD).replace("38 hours", "88 hours"), encoding="utf-8")

    assert verify.run(desk.asked) == 1
    assert desk.said().splitlines() == [
        f"{page.as_posix()}:1:1: error: the page differs from what was issued",
        "    why: customers find the sheet for their candle at this address",
        "    fix: wickwright build",
        "",
        "1 error. 1 of 1 fingerprints and 0 of 1 pages are as issued.",
    ]


def test_an_issued_page_whose_revision_was_lost_is_found_and_named(desk: Desk) -> None:
    (desk.asked.content / "sheets" / f"{CODE}.yaml").unlink()

    assert verify.run(desk.asked) == 1
    assert desk.said().splitlines() == [
        f"{(desk.asked.output / 'site' / OLD).as_posix()}:1:1: error: the page was issued, but no file in "
        "content/sheets records it",
        "    why: customers find the sheet for their candle at this address",
        "    fix: restore that file from version control or a backup before you build",
        "",
        "1 error. 0 of 0 fingerprints and 0 of 0 pages are as issued.",
    ]


def test_what_differs_is_told_as_data_too(desk: Desk) -> None:
    (desk.asked.output / "site" / OLD).unlink()

    assert verify.run(replace(desk.asked, as_data=True)) == 1
    (told,) = json.loads(desk.said())
    assert told["what"] == "the page of an issued sheet is missing"


def test_a_missing_page_is_found_and_made_again(desk: Desk) -> None:
    (desk.asked.output / "site" / OLD).unlink()

    assert verify.run(desk.asked) == 1
    build.run(desk.asked)
    assert verify.run(desk.asked) == 0

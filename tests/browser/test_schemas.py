"""The feed and the site map of the example shop, judged by the schemas that their standards give."""

import gzip
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.browser.whole_shop import Printed

pytestmark = pytest.mark.browser

Judge = Callable[[Path], str]
"""Tells what a schema finds wrong with a file; nothing if it is valid."""


def schema_of_atom(rfc: str) -> str:
    """RFC 4287, appendix B, in the compact syntax of RELAX NG: without the foot and head of each printed page."""
    whole = rfc[rfc.index("# -*- rnc -*-") : rfc.index("# EOF")]
    return re.sub(r"\n+Nottingham & Sayre .*\[Page \d+\]\n\f\n?RFC 4287 .*\n", "\n", whole)


@pytest.fixture(name="by_atom", scope="module")
def _by_atom(rfc_4287: Path, run: Callable[[str], str], tmp_path_factory: pytest.TempPathFactory) -> Judge:
    text = gzip.decompress(rfc_4287.read_bytes()).decode("latin-1")
    schema = tmp_path_factory.mktemp("atom") / "atom.rnc"
    schema.write_text(schema_of_atom(text), encoding="utf-8")
    return lambda path: _told_by(run("jing"), "-c", str(schema), str(path))


@pytest.fixture(name="by_sitemaps", scope="module")
def _by_sitemaps(tools: Path, run: Callable[[str], str]) -> Judge:
    """The schema of sitemaps.org, protocol 0.9, as an npm package brings it."""
    schema = tools / "sitemap" / "schema" / "sitemap.xsd"
    return lambda path: _told_by(run("xmllint"), "--noout", "--nonet", "--schema", str(schema), str(path))


def _told_by(*command: str) -> str:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return f"{done.stdout}{done.stderr}" if done.returncode else ""


def test_the_feed_is_valid_atom(printed: Printed, by_atom: Judge) -> None:
    assert by_atom(printed.output / "site/feed.xml") == ""


def test_the_map_is_a_valid_site_map(printed: Printed, by_sitemaps: Judge) -> None:
    assert by_sitemaps(printed.output / "site/sitemap.xml") == ""


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        (r"<id>[^<]*</id>", ""),
        (r"<updated>[^<]*</updated>", "<updated>yesterday</updated>"),
        (r"<title>", "<name>a name</name><title>"),
    ],
)
def test_a_fault_of_the_feed_would_be_noticed(
    right: str, wrong: str, whole: Callable[[str], Printed], by_atom: Judge, tmp_path: Path
) -> None:
    feed = (whole("netloft").output / "site/feed.xml").read_text(encoding="utf-8")
    (tmp_path / "feed.xml").write_text(re.sub(right, wrong, feed, count=1), encoding="utf-8")

    assert "error" in by_atom(tmp_path / "feed.xml")


@pytest.mark.parametrize(
    ("right", "wrong"), [(r"<loc>[^<]*</loc>", ""), (r"<loc>[^<]*</loc>", "<loc>a.html</loc>")]
)
def test_a_fault_of_the_map_would_be_noticed(
    right: str, wrong: str, whole: Callable[[str], Printed], by_sitemaps: Judge, tmp_path: Path
) -> None:
    text = (whole("netloft").output / "site/sitemap.xml").read_text(encoding="utf-8")
    (tmp_path / "sitemap.xml").write_text(re.sub(right, wrong, text, count=1), encoding="utf-8")

    assert "fails to validate" in by_sitemaps(tmp_path / "sitemap.xml")

"""What a server says of a file: known kinds for all that a site holds, and what may be kept for how long."""

import pytest

from generator.writing.targets.http_headers import headers_to_set, keeping_of, kind_of


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("index.html", "text/html; charset=utf-8"),
        ("photos/a-960.0a1b2c3d.webp", "image/webp"),
        ("feed.xml", "application/xml"),
        ("safety/SS-30-r1-a4.pdf", "application/pdf"),
        ("anything", "application/octet-stream"),
    ],
)
def test_the_kind_of_a_file_is_told_by_its_ending(path: str, kind: str) -> None:
    assert kind_of(path) == kind


@pytest.mark.parametrize(
    ("path", "keeping"),
    [
        ("index.html", "no-cache"),
        ("safety/SS-30-r1.html", "no-cache"),
        ("styles/site.0a1b2c3d.css", "public, max-age=31536000, immutable"),
        ("t/abc.html", "no-store"),
        (".wickwright/list-0a.json", "no-store"),
    ],
)
def test_only_what_is_named_by_its_content_is_kept_without_asking(path: str, keeping: str) -> None:
    assert keeping_of(path) == keeping


def test_what_is_to_be_set_at_a_host_says_the_same_of_keeping() -> None:
    rules = [(start, value) for start, header, value in headers_to_set("") if header == "Cache-Control"]

    for path in ("index.html", "photos/a.0a1b2c3d.jpg", "t/abc.html"):
        assert [value for start, value in rules if path.startswith(start)][-1] == keeping_of(path)

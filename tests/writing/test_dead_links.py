"""Links of pages as a browser reads them."""

from generator.writing.link_targets import dead_links


def test_a_backslash_in_a_link_leads_where_a_browser_goes() -> None:
    pages = {
        "index.html": b'<a href="safety\\a.html">a</a><a href="safety\\b.html">b</a>',
        "safety/a.html": b"",
    }

    assert dead_links(pages, pages.__getitem__) == (("index.html", "safety\\b.html"),)

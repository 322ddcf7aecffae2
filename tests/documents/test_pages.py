"""The maker's own pages: her Markdown as markup, her markup as text, and nothing fetched from elsewhere."""

import re
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.documents.pages.markdown_pages import (
    from_markdown,
    not_found,
    text_faults,
    text_without_markup,
    written_page,
)
from generator.model.shop import Page
from generator.problems import is_error
from tests.documents.said import told
from tests.documents.sample_house import MAKER, house

OURS = frozenset({"p", "h2", "h3", "h4", "h5", "h6", "a", "em", "strong", "ul", "ol", "li", "blockquote", "code", "pre",
                  "hr", "br", "span", "table", "thead", "tbody", "tr", "th", "td"})  # fmt: skip


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.names: list[str] = []
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names.append(tag)
        self.links += [value or "" for name, value in attrs if name == "href"]


def tags(html: str) -> _Tags:
    found = _Tags()
    found.feed(html)
    return found


def test_markup_in_a_text_is_shown_and_not_followed() -> None:
    html = from_markdown('Salt <b onclick="x()">&amp;</b> <script>alert(1)</script>\n\n<div>block</div>')

    assert set(tags(html).names) == {"p"}
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html


@settings(max_examples=50, deadline=None)
@given(st.text(alphabet=st.sampled_from("<>/=\"'`*_[]()!#&;:\n ajsx1|-"), max_size=60))
def test_whatever_is_typed_only_tags_of_our_own_come_out(text: str) -> None:
    assert set(tags(from_markdown(text)).names) <= OURS


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("# Wax\n\n## Soy", ["h2", "h3"]),
        ("### Wax\n\n### Soy", ["h2", "h2"]),
        ("# Wax\n\n#### Soy", ["h2", "h3"]),
    ],
    ids=["from the top", "from below", "with a gap"],
)
def test_headings_begin_below_the_title_and_leave_no_gap(text: str, expected: list[str]) -> None:
    assert tags(from_markdown(text)).names == expected


def test_tables_and_typographic_quotes_are_known() -> None:
    html = from_markdown('| wax | it\'s "soft" |\n|---|---|\n| soy | yes |')

    assert "<td>soy</td>" in html
    assert "it’s “soft”" in unescape(html)


def test_a_local_link_leads_from_the_page_to_the_root() -> None:
    html = from_markdown("[care](care.html), [top](#top), [shop](https://shop.example)", to_root="../")

    assert tags(html).links == ["../care.html", "#top", "https://shop.example"]


@pytest.mark.parametrize(
    "address",
    ["javascript:alert(1)", "JaVaScript:alert(1)", "java&#115;cript:alert(1)", "<java\tscript:alert(1)>",
     "data:text/html,x", "//elsewhere.example/x"],
    ids=["a script", "in capitals", "with an entity", "with a tab", "data", "without a scheme"],
)  # fmt: skip
def test_a_link_that_could_run_something_loses_its_address(address: str) -> None:
    assert tags(from_markdown(f"[words]({address})")).links == []


def test_a_picture_is_refused_with_its_address() -> None:
    (fault,) = text_faults(("pages/about.md",), "Look: ![a jar](https://elsewhere.example/jar.png)")

    assert (fault.path, fault.what, fault.why, fault.fix) == (
        ("pages/about.md",),
        "the text contains the picture 'https://elsewhere.example/jar.png'",
        "the page would load it from another site, or show an empty frame",
        "delete the picture; list a photo under photos: of a candle's size",
    )


def test_a_link_to_nowhere_is_refused_with_its_address() -> None:
    (fault,) = text_faults(("pages/about.md",), "[words](ftp://old.example)")

    assert (fault.what, fault.why, fault.fix) == (
        "'ftp://old.example' is a broken link",
        "it would lead visitors nowhere, or start a program",
        "write [words](https://shop.example), [words](mailto:shop@shop.example), or [words](about.html)",
    )


def test_a_sound_text_has_no_faults() -> None:
    assert (
        text_faults(("pages/about.md",), "[Write](mailto:a@shop.example), [ring](tel:+441632960001).") == ()
    )


@pytest.mark.parametrize(
    "address",
    [
        r"/\evil.example",
        r"\\\\evil.example",
        r"\/evil.example",
        "//evil.example",
        "/&#9;/evil.example",
        r"/&#92;evil.example",
    ],
)
def test_a_link_that_a_browser_takes_for_another_host_s_is_refused(address: str) -> None:
    (fault,) = text_faults(("pages/care.md",), f"[a](<{address}>)")

    assert fault.what == "'//evil.example' is a broken link"
    assert tags(from_markdown(f"[a](<{address}>)")).links == []


def test_a_backslash_in_a_link_of_ours_is_a_stroke() -> None:
    assert tags(from_markdown(r"[a](<\safety\a.html>)", to_root="../")).links == ["../safety/a.html"]


@pytest.mark.parametrize(
    ("text", "what"),
    [
        pytest.param("[" * 50_000, "more than 2000 brackets [", id="50,000 brackets"),
        pytest.param("![" * 2_001, "more than 2000 brackets [", id="pictures that are none"),
        pytest.param("``a`" * 15_000, "a paragraph longer than 10000 characters", id="one paragraph"),
        pytest.param(
            "1. " * 300 + "a", "more than 20 lists or quotes, one inside another", id="300 lists in a line"
        ),
        pytest.param(
            "\n\n".join(f"{'    ' * deep}- a" for deep in range(300))[:9_000].replace("\n\n", "\n"),
            "more than 20 lists or quotes, one inside another",
            id="lists inside each other",
        ),
        pytest.param("> " * 300 + "a", "more than 20 lists or quotes, one inside another", id="300 quotes"),
    ],
)
def test_a_text_that_would_take_for_ever_is_refused(text: str, what: str) -> None:
    (fault,) = text_faults(("pages/care.md",), text)

    assert fault.what == f"the text has {what}"
    assert from_markdown("- a\n    - b").count("<ul>") == 2, "the next text is converted as ever"


def test_lists_ten_deep_are_a_text_like_any_other() -> None:
    text = "\n".join(f"{'    ' * deep}- a" for deep in range(10))

    assert text_faults(("pages/care.md",), text) == ()
    assert from_markdown(text).count("<ul>") == 10


def test_a_refused_picture_leaves_no_trace_on_the_page() -> None:
    assert "elsewhere" not in from_markdown("![a jar](https://elsewhere.example/jar.png)")


def test_plain_text_has_no_markup_left() -> None:
    assert (
        text_without_markup("Salt *first*, then\n\n- stone & [rope](rope.html).")
        == "Salt first, then stone & rope."
    )


def test_a_page_of_the_maker_stands_at_the_root_under_its_own_title() -> None:
    document = written_page(house(), Page(id="about", title="About us", markdown="## Who\n\nWe pour."))

    value = told(document)

    assert (document.path, value["title"]) == ("site/about.html", "About us")
    assert value["body"] == "<h2>Who</h2>\n<p>We pour.</p>"


@pytest.mark.parametrize(
    ("web", "expected"),
    [
        ("https://saltmarsh.example", "https://saltmarsh.example/"),
        ("https://host.example/saltmarsh/", "https://host.example/saltmarsh/"),
        (None, "/"),
    ],
    ids=["a host of its own", "a folder of a host", "unknown"],
)
def test_the_page_for_a_wrong_address_leads_home_from_any_depth(web: str | None, expected: str) -> None:
    document = not_found(house(maker=replace(MAKER, web=web)))

    assert told(document)["home"]["address"] == expected


def test_an_automatic_address_of_mail_is_a_link() -> None:
    assert re.search(r"^<p><a href=\"&#109;", from_markdown("<hello@saltmarsh.example>"))


HIDDEN = "secret"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("We <!-- secret -->pour.", "<p>We pour.</p>"),
        ("We\n<!-- secret\n\n# secret -->\n\npour.", "<p>We</p>\n<p>pour.</p>"),
        ("<!-- secret -->\n- one\n- two", "<ul>\n<li>one</li>\n<li>two</li>\n</ul>"),
        ("- one\n\n    <!-- secret -->", "<ul>\n<li>\n<p>one</p>\n</li>\n</ul>"),
        ("<!-- secret --><!-- secret -- too -->We pour.<!-- secret -->", "<p>We pour.</p>"),
        ("<!--> We <!---> pour.", "<p> We  pour.</p>"),
        ("**We<!-- ** secret --> pour.**", "<p><strong>We pour.</strong></p>"),
        ("## We <!-- `secret` -->", "<h2>We </h2>"),
        ("[We](a<!-- secret -->.html) pour.", '<p><a href="a.html">We</a> pour.</p>'),
        ("`<!--` opens. <!-- ` secret -->", "<p><code>&lt;!--</code> opens. </p>"),
    ],
    ids=["in a line", "of several paragraphs", "before a list", "in a list", "several", "the shortest", "with markup",
         "in a heading", "in an address", "after one in code"],
)  # fmt: skip
def test_a_comment_is_left_out_and_told_of(text: str, expected: str) -> None:
    faults = text_faults(("pages/about.md",), text)

    assert from_markdown(text) == expected
    assert faults
    assert [fault for fault in faults if is_error(fault)] == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Write `<!-- so -->`.", "<p>Write <code>&lt;!-- so --&gt;</code>.</p>"),
        ("Write `<!--` and `-->`.", "<p>Write <code>&lt;!--</code> and <code>--&gt;</code>.</p>"),
        ("    <!--\n    so\n\n    -->", "<pre><code>&lt;!--\nso\n\n--&gt;\n</code></pre>"),
        ("`a\n<!-- so --> b`", "<p><code>a\n&lt;!-- so --&gt; b</code></p>"),
    ],
    ids=["between backticks", "its two ends", "indented", "over two lines"],
)
def test_in_code_a_comment_is_text_like_any_other(text: str, expected: str) -> None:
    assert from_markdown(text) == expected
    assert text_faults(("pages/about.md",), text) == ()


def test_a_comment_is_told_of_at_its_line() -> None:
    (fault,) = text_faults(("pages/about.md",), "We pour.\n\nBy hand. <!-- for secret\nbuyers -->")

    assert (fault.path, fault.what, fault.why, fault.fix) == (
        ("pages/about.md", 3),
        "the comment <!-- for secret buyers --> is not published",
        (
            "comments are left out of pages, but one mistyped sign would print them, so they are no place for "
            "secrets"
        ),
        "move anything private to notes: of an entry, and delete the rest",
    )


@pytest.mark.parametrize(
    ("text", "line"),
    [("We\n\n<!-- secret", 3), ("<!-- secret --\n>", 1), ("a ` b\nc ` <!-- secret ` --> d", 2)],
    ids=["without an end", "with half of one", "with backticks across"],
)
def test_a_comment_without_an_end_stops_the_build(text: str, line: int) -> None:
    (fault,) = text_faults(("pages/about.md",), text)

    assert is_error(fault)
    assert (fault.path, fault.what) == (
        ("pages/about.md", line),
        "a comment begins here with <!-- and has no end",
    )


@settings(max_examples=200, deadline=None)
@given(
    st.text(alphabet=st.sampled_from("<!-->`\\ab *[](): \n\t|#"), max_size=30),
    st.text(alphabet=st.sampled_from("<!>\\ab *[](): \n\t|#"), max_size=12),
    st.text(alphabet=st.sampled_from("<!-->`\\ab *[](): \n\t|#"), max_size=30),
)
def test_no_comment_is_printed_and_none_goes_untold(before: str, within: str, after: str) -> None:
    text = f"{before}<!-- {within}{HIDDEN}-->{after}"
    code = re.findall(r"<code>.*?</code>", from_markdown(text), re.DOTALL)
    outside = re.sub(r"<code>.*?</code>", "", from_markdown(text), flags=re.DOTALL)

    assert HIDDEN not in outside or any(is_error(fault) for fault in text_faults(("pages/a.md",), text))
    assert any(HIDDEN in each for each in code) or text_faults(("pages/a.md",), text)
    assert "comment:" not in from_markdown(text)

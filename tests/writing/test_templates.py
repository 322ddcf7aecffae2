"""Printing a document: everything escaped, nothing missing, addresses that work from every folder and from disk."""

import posixpath
import re
from pathlib import Path
from urllib.parse import unquote, urljoin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.document import DeferredDocument, Document, Value
from generator.writing.templates import TemplateFault, Templates, page_key, relative_address, shared_digest
from generator.writing.themes import Theme, theme_assets


class Desk:
    """A theme on a temporary disk, and one document to print with it."""

    def __init__(self, folder: Path) -> None:
        self.theme = Theme(name="harbour", folders=(folder / "harbour", folder / "base"))

    def write(self, name: str, text: str) -> None:
        path = self.theme.folders[0].parent / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())

    def printed(self, text: str, *, path: str = "site/candles/x.html", **page: Value) -> str:
        self.write("harbour/pages/x.html", text)
        document = Document(path=path, template="pages/x.html", value=page)
        return Templates(self.theme).render(document, {"name": "Quillfern"}).decode()


@pytest.fixture(name="desk")
def _desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path)


def test_a_template_prints_what_the_document_and_the_site_say(desk: Desk) -> None:
    assert desk.printed("{{ page.title }} by {{ site.name }}", title="Slate") == "Slate by Quillfern\n"


def test_an_edited_template_is_printed_as_it_now_reads(desk: Desk) -> None:
    assert desk.printed("{{ page.title }}", title="Slate") == "Slate\n"

    assert desk.printed("the {{ page.title }}", title="Slate") == "the Slate\n"


@pytest.mark.parametrize("name", ["x.html", "x.xml", "x.txt"])
def test_text_is_escaped_whatever_the_kind_of_paper(desk: Desk, name: str) -> None:
    desk.write(f"harbour/pages/{name}", "{{ page.title }}")
    document = Document(path=f"site/{name}", template=f"pages/{name}", value={"title": "<b> & \"'"})

    printed = Templates(desk.theme).render(document, {})

    assert printed == b"&lt;b&gt; &amp; &#34;&#39;\n"


def test_only_the_markup_filter_prints_text_as_markup(desk: Desk) -> None:
    printed = desk.printed("{{ page.plate }}{{ page.plate|markup }}", plate="<svg/>")

    assert printed == "&lt;svg/&gt;<svg/>\n"


def test_a_part_that_documents_share_is_printed_once(desk: Desk) -> None:
    desk.write("harbour/parts/row.html", "<td>{{ page.name }}</td>")
    desk.write("harbour/pages/rows.html", '{{ part("parts/row.html", page.row) }}')
    templates, row = Templates(desk.theme), {"name": "Slate & Salt"}

    def printed(shared: Value) -> bytes:
        return templates.render(
            Document(path="site/x.html", template="pages/rows.html", value={"row": shared}), {}
        )

    first = printed(row)
    row["name"] = "what nobody should ask for again"
    assert printed(row) == first == b"<td>Slate &amp; Salt</td>\n"
    assert printed({"name": "Salt"}) == b"<td>Salt</td>\n"


@pytest.mark.parametrize("wants", ["site.name", "here('index.html')"])
def test_a_part_that_documents_share_knows_of_none_of_them(desk: Desk, wants: str) -> None:
    desk.write("harbour/parts/row.html", f"{{{{ {wants} }}}}")

    with pytest.raises(TemplateFault, match="is undefined"):
        desk.printed('{{ part("parts/row.html", page.row) }}', row={})


def test_lines_end_in_one_way_and_the_last_line_ends(desk: Desk) -> None:
    assert desk.printed("a\r\n{{ page.b }}\n\n\n", b="b\r\nc\rd") == "a\nb\nc\nd\n"


def test_a_line_that_holds_only_a_tag_leaves_no_blank_line(desk: Desk) -> None:
    assert desk.printed("a\n  {% if true %}\nb\n  {% endif %}\nc") == "a\nb\nc\n"


def test_a_key_that_is_also_the_name_of_a_method_prints_the_key(desk: Desk) -> None:
    assert desk.printed("{{ page.items }} {{ page.keys[0] }}", items="two", keys=("a",)) == "two a\n"


def test_a_part_of_a_theme_further_off_is_used_unless_a_nearer_has_it(desk: Desk) -> None:
    desk.write("base/parts/head.html", "far")
    desk.write("base/parts/foot.html", "far")
    desk.write("harbour/parts/foot.html", "near")

    printed = desk.printed("{% include 'parts/head.html' %} {% include 'parts/foot.html' %}")

    assert printed == "far near\n"


def test_a_page_may_extend_the_same_page_of_the_theme_that_its_own_one_extends(desk: Desk) -> None:
    desk.write(
        "base/pages/x.html",
        "{% set word = 'far' %}{% block one %}{{ word }}{% endblock %} {% block two %}far{% endblock %}",
    )

    printed = desk.printed(
        "{% extends 'base/pages/x.html' %}{% block two %}near {{ self.one() }}{% endblock %}"
    )

    assert printed == "far near far\n"


def test_an_imported_part_knows_the_addresses_of_the_page_that_imports_it(desk: Desk) -> None:
    desk.write("harbour/parts/links.html", "{% macro home() %}{{ here('index.html') }}{% endmacro %}")
    text = "{% from 'parts/links.html' import home %}{{ home() }}"
    templates_first = desk.printed(text, path="site/index.html")

    assert (templates_first, desk.printed(text)) == ("index.html\n", "../index.html\n")


def test_one_set_of_templates_prints_each_document_from_its_own_place(desk: Desk) -> None:
    desk.write("harbour/parts/links.html", "{% macro home() %}{{ here('index.html') }}{% endmacro %}")
    desk.write(
        "harbour/pages/x.html", "{% from 'parts/links.html' import home %}{{ home() }} {{ here('a.css') }}"
    )
    templates = Templates(desk.theme)
    paths = ("site/a/b/x.html", "site/x.html", "workshop/a/x.html")

    documents = [Document(path=path, template="pages/x.html", value={}) for path in paths]

    expected = [b"../../index.html ../../a.css\n", b"index.html a.css\n", b"../index.html ../a.css\n"]
    assert expected == [templates.render(document, {}) for document in documents]


def test_an_asset_is_addressed_by_its_public_name(desk: Desk) -> None:
    desk.write("harbour/styles/site.css", "a {}")
    (public,) = theme_assets(desk.theme)

    assert desk.printed("{{ asset('styles/site.css') }}") == f"../{public}\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        pytest.param("\n{{ page.tilte }}", "2: 'tilte' does not exist here", id="a misspelt key"),
        pytest.param("{% if page.x %}{% endif %}", "1: 'x' does not exist here", id="even within an if"),
        pytest.param("\n{{ titel }}", r"2: 'titel' is undefined", id="an unknown name"),
        pytest.param("\n\n{% if %}", r"3: Expected an expression, got 'end of statement block'", id="syntax"),
        pytest.param(
            "{{ page.title|safe }}", r"1: No filter named 'safe'\.", id="the filter that trusts anything"
        ),
        pytest.param(
            "\n{% autoescape false %}{% endautoescape %}", r"2: escaping is always on", id="escaping off"
        ),
        pytest.param(
            "\n{{ page.nothing }}", "2: only text and whole numbers can be printed, not None", id="absent"
        ),
        pytest.param(
            "{{ page.yes }}", "1: only text and whole numbers can be printed, not True", id="a truth value"
        ),
        pytest.param(
            "{{ page.pieces / 2 }}",
            "1: only text and whole numbers can be printed, not 1\\.5",
            id="a number to round",
        ),
        pytest.param(
            "{{ page.yes|markup }}", "1: only text can be printed as markup, not True", id="markup of no text"
        ),
        pytest.param("{{ asset('a.css') }}", r"1: the theme has no asset 'a\.css'; it has: none", id="asset"),
        pytest.param(
            "{% include 'parts/a.html' %}", r"1: there is no template 'parts/a\.html'", id="a missing part"
        ),
        pytest.param(
            "{{ here('/a') }}", r"1: here\(\) needs a path from the site's root, not '/a'", id="here"
        ),
        pytest.param("{{ 1 // 0 }}", r"1: integer division or modulo by zero", id="arithmetic"),
    ],
)
def test_a_fault_names_the_template_the_line_and_the_document(desk: Desk, text: str, said: str) -> None:
    whole = rf"^harbour/pages/x\.html:{said} \(while printing site/candles/x\.html\)$"

    with pytest.raises(TemplateFault, match=whole):
        desk.printed(text, title="Slate", nothing=None, yes=True, pieces=3)


def test_a_fault_in_a_part_names_the_part(desk: Desk) -> None:
    desk.write("base/parts/head.html", "\n\n{{ page.tilte }}")

    with pytest.raises(TemplateFault, match=r"^base/parts/head\.html:3: "):
        desk.printed("{% include 'parts/head.html' %}")


def test_a_document_whose_template_is_missing_names_it(desk: Desk) -> None:
    document = Document(path="site/a.html", template="pages/a.html", value={})

    with pytest.raises(
        TemplateFault, match=r"^pages/a\.html: there is no template 'pages/a\.html' \(while printing site"
    ):
        Templates(desk.theme).render(document, {})


@pytest.mark.parametrize(
    ("document", "target", "address"),
    [
        ("site/candles/x.html", "styles/a.css", "../styles/a.css"),
        ("site/candles/x.html", "candles/y.html", "y.html"),
        ("site/candles/x.html", "candles/x.html", "x.html"),
        ("site/index.html", "candles/x.html", "candles/x.html"),
        ("site/a/b/c.html", "a/d.html", "../d.html"),
        ("workshop/labels/x.html", "styles/a.css", "../styles/a.css"),
        ("workshop/index.html", "styles/a.css", "styles/a.css"),
        ("site/candles/x.html", "", "../index.html"),
        ("site/index.html", "", "index.html"),
        ("site/candles/x.html", "index.html", "../index.html"),
        ("site/candles/x.html", "trade/", "../trade/index.html"),
        ("site/candles/x.html", "safety/y.html#first-burn", "../safety/y.html#first-burn"),
        ("site/candles/x.html", "index.html?season=winter#list", "../index.html?season=winter#list"),
        ("site/candles/x.html", "#list", "../index.html#list"),
        ("site/x.html", "pictures/wet slate ü.png", "pictures/wet%20slate%20%C3%BC.png"),
        ("site/x.html", "pictures/wet%20slate.png", "pictures/wet%20slate.png"),
        ("notes.html", "styles/a.css", "styles/a.css"),
    ],
)
def test_an_address_is_written_from_the_document_that_prints_it(
    document: str, target: str, address: str
) -> None:
    assert relative_address(document, target) == address


@pytest.mark.parametrize(
    "target", ["https://a.example/", "//a.example/", "/a", "../a", "a/../b", "a//b", "mailto:a@b"]
)
def test_a_target_that_is_not_written_from_the_root_is_refused(target: str) -> None:
    with pytest.raises(ValueError, match=re.escape(f"not {target!r}")):
        relative_address("site/x.html", target)


steps = st.lists(st.sampled_from(["a", "b", "c d", "é", "x.html"]), min_size=1, max_size=4).map("/".join)


@given(steps, steps)
@settings(max_examples=50)
def test_a_browser_comes_from_any_document_to_any_target(document: str, target: str) -> None:
    address = relative_address(f"site/{document}", target)

    arrived = unquote(urljoin(f"http://127.0.0.1/{document}", address))
    assert arrived == posixpath.join("http://127.0.0.1/", target)


def document(**page: Value) -> Document:
    return Document(path="site/x.html", template="pages/x.html", value=page)


def promised(path: str, *depends_on: str) -> DeferredDocument[Document]:
    return DeferredDocument(path=path, depends_on=depends_on, made=document)


def test_a_page_key_changes_with_everything_the_page_depends_on() -> None:
    shared = shared_digest({}, "theme", "program")
    keys = {
        page_key(promised("site/x.html", "a"), shared),
        page_key(promised("site/x.html", "b"), shared),
        page_key(promised("site/x.html", "a", "b"), shared),
        page_key(promised("site/y.html", "a"), shared),
        page_key(promised("site/x.html", "a"), shared_digest({"a": "1"}, "theme", "program")),
        page_key(promised("site/x.html", "a"), shared_digest({}, "other theme", "program")),
        page_key(promised("site/x.html", "a"), shared_digest({}, "theme", "other program")),
    }

    assert len(keys) == 7


def test_a_page_that_nobody_may_remember_has_no_key() -> None:
    assert page_key(DeferredDocument(path="site/x.html", depends_on=None, made=document), "shared") is None

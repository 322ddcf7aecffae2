"""``handbook [PAGE [KEY]]``: the manual's pages listed, read, searched, or opened in a browser."""

import sys
import webbrowser
from collections.abc import Iterable
from dataclasses import asdict
from difflib import get_close_matches
from pathlib import Path
from shutil import get_terminal_size
from typing import Final

from generator.arguments import CommandParser
from generator.document import Document
from generator.handbook.browser_pages import HANDBOOK_FOLDER, browser_pages
from generator.handbook.in_terminal import Screen, key_lines, page_lines
from generator.handbook.search import found_in
from generator.handbook.shelf import handbook, handbook_page
from generator.handbook_pages import MADE, PAGES
from generator.making.colour import shows_colour
from generator.making.one_writer import alone_in_output
from generator.making.presentation import language_pack
from generator.making.report import Refusal, refuse, say
from generator.problems import Place, Problem, Stopped
from generator.reading.entries import MAKER, read_maker
from generator.reading.gathering import Gathering
from generator.reading.languages import FIRST, languages
from generator.reading.theme_files import theme_folders
from generator.writing.templates import Templates
from generator.writing.themes import Theme
from generator.writing.whole_files import replace_file

_CONTENT: Final = Path("content")
_OUTPUT: Final = Path("output")
_WIDEST: Final = 100
"""Columns of a terminal: longer lines are hard to read (CHOICE)."""

_USUAL_THEME: Final = "netloft"


def add_arguments(words: CommandParser) -> None:
    """A page, a key of the page of keys, or words to look for."""
    words.add_argument("page", metavar="PAGE", nargs="?", help="the page to read")
    words.add_argument("key", metavar="KEY", nargs="?", help="with the page 'keys': one key alone")
    either = words.add_mutually_exclusive_group()
    either.add_argument(
        "--find", dest="wanted", metavar="WORDS", help="list the sections that hold all these words"
    )
    either.add_argument("--browser", action="store_true", help="open the pages in a browser")
    words.add_argument(
        "--json", dest="as_json", action="store_true", help="print it as data for other programs"
    )
    words.set_defaults(run=run)


def run(*, page: str | None, key: str | None, wanted: str | None, browser: bool, as_json: bool) -> int:
    """Exit code 0, or 2 for a page, a key or words that are not there."""
    if page is not None and page not in PAGES:
        near = get_close_matches(page, PAGES, n=3, cutoff=0.5) or PAGES
        return refuse(
            Refusal(what=f"there is no page '{page}'", fix=f"pages: {', '.join(near)}"), as_json=as_json
        )
    if browser:
        return _open(page or PAGES[0], as_json=as_json)
    if wanted is not None:
        return _find(wanted, (page,) if page else PAGES, as_json=as_json)
    if key is not None and page is not None:
        return _tell_key(page, key, as_json=as_json)
    return _list(as_json=as_json) if page is None else _read(page, as_json=as_json)


def _screen() -> Screen:
    columns = min(get_terminal_size().columns, _WIDEST)
    return Screen(columns=columns, bold=shows_colour(sys.stdout))


def _list(*, as_json: bool) -> int:
    """Every page with its summary."""
    pages, screen, widest = handbook(), _screen(), max(map(len, PAGES))
    lines = [
        line
        for page in pages
        for line in screen.wrapped(page.summary, f"{page.name:<{widest}}  ", " " * (widest + 2))
    ]
    how = ("", "wickwright handbook labels shows a page, --find \"lot code\" searches all of them,",
           "and --browser opens them in your browser.")  # fmt: skip
    data = [{"page": page.name, "title": page.title, "summary": page.summary} for page in pages]
    say((*lines, *how), data, as_json=as_json)
    return 0


def _read(name: str, *, as_json: bool) -> int:
    page = handbook_page(name)
    lines = tuple(page_lines(page, _screen()))
    say(lines, {"page": name, "title": page.title, "text": "\n".join(lines)}, as_json=as_json)
    return 0


def _tell_key(name: str, key: str, *, as_json: bool) -> int:
    lines = tuple(key_lines(handbook_page(name), key.removesuffix(":"), _screen()))
    if not lines:
        fix = f"wickwright handbook --find {key}" if name == MADE else f"wickwright handbook {MADE} {key}"
        return refuse(
            Refusal(what=f"the page '{name}' has no key '{key}'", fix=f"try: {fix}"), as_json=as_json
        )
    say(lines[:-1], {"page": name, "key": key, "text": "\n".join(lines[:-1])}, as_json=as_json)
    return 0


def _find(wanted: str, names: Iterable[str], *, as_json: bool) -> int:
    """The sections that hold all these words, below the name of each page."""
    found = tuple(found_in(map(handbook_page, names), wanted))
    if not found:
        return refuse(
            Refusal(what=f"no section holds all of '{wanted}'", fix="try fewer words"), as_json=as_json
        )
    screen, lines, last = _screen(), [], ""
    for one in found:
        if one.page != last:
            lines += ["", screen.heading(one.page)]
            last = one.page
        lines += [f"  {one.section}", *screen.wrapped(one.line, " " * 6)]
    say(lines[1:], [asdict(one) for one in found], as_json=as_json)
    return 0


def _open(name: str, *, as_json: bool) -> int:
    """Write every page and open one; the address is always told, since a machine may have no browser."""
    theme, language = _shop_speaks()
    try:
        files = _printed(theme, language)
    except Stopped:
        files = _printed(_theme(_USUAL_THEME), language)
    with alone_in_output(_OUTPUT, "handbook"):
        for path, data in files.items():
            place = _OUTPUT / path
            place.parent.mkdir(parents=True, exist_ok=True)
            replace_file(place, data)
    address = (_OUTPUT / HANDBOOK_FOLDER / f"{name}.html").resolve().as_uri()
    if not as_json:
        webbrowser.open(address)
    say((address,), {"address": address}, as_json=as_json)
    return 0


def _printed(theme: Theme, language: str) -> dict[str, bytes]:
    """Every file by its path below the output folder."""
    templates, words = Templates(theme), language_pack(language).words["handbook"]
    return {
        made.path: templates.render(made, {}) if isinstance(made, Document) else made.text.encode()
        for made in browser_pages(handbook(), words, language)
    }


def _shop_speaks() -> tuple[Theme, str]:
    """The theme and the language of the shop in this folder, as far as it has any that can be read."""
    maker = read_maker(Gathering(_CONTENT, _CONTENT.name, None)) if (_CONTENT / MAKER).is_file() else None
    if maker is None:
        return _theme(_USUAL_THEME), FIRST
    folders = theme_folders(_CONTENT, maker.theme, Place(MAKER, 1, 1))
    theme = (
        Theme(name=maker.theme, folders=folders) if not isinstance(folders, Problem) else _theme(_USUAL_THEME)
    )
    return theme, maker.language if maker.language in languages() else FIRST


def _theme(name: str) -> Theme:
    """A theme that comes with the program."""
    folders = theme_folders(_CONTENT, name, Place(MAKER, 1, 1))
    if isinstance(folders, Problem):
        raise Stopped(folders)
    return Theme(name=name, folders=folders)

"""A theme's files: the nearest of a chain, public names that follow the bytes, nothing fetched from another host."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import generator
from generator.writing.themes import (
    Theme,
    asset_addresses,
    theme_assets,
)

SHIPPED = sorted(path for path in (Path(generator.__file__).parents[1] / "themes").iterdir() if path.is_dir())
REVIEWED_MARKUP = Path(__file__).with_name("reviewed_markup.txt")


_OTHER_HOST = r"""["'(\s]*(?:https?:)?//[^\s"')>]+"""
_FOREIGN_RESOURCE = re.compile(
    rf"""
    \b(?:src|srcset|poster|action|formaction|data)\s*={_OTHER_HOST}  # whatever the element
    | <(?!a\b)[a-z][\w:-]*\s[^<]*?\bhref\s*={_OTHER_HOST}            # a link to follow is no resource
    | \burl\({_OTHER_HOST}
    | @import{_OTHER_HOST}
    | \b(?:import|from|fetch|importScripts|Worker){_OTHER_HOST}
    """,
    re.IGNORECASE | re.VERBOSE,
)
_MARKUP_USE = re.compile(r"\{[{%](?:(?![%}]\}).)*\bmarkup\b.*?[%}]\}", re.DOTALL)


def foreign_resources(theme: Theme) -> tuple[str, ...]:
    """Where a file of the chain fetches something from another host, as ``file:line: what is written there``."""
    return tuple(
        f"{name}:{text.count(chr(10), 0, found.end()) + 1}: {' '.join(found.group().split())}"
        for name, text in _texts(theme)
        for found in _FOREIGN_RESOURCE.finditer(text)
    )


def markup_uses(theme: Theme) -> tuple[str, ...]:
    """Where a template prints trusted markup, as ``file: expression``; a test lists them for the reviewer."""
    return tuple(
        f"{name}: {' '.join(found.group().split())}"
        for name, text in _texts(theme)
        for found in _MARKUP_USE.finditer(text)
    )


def _texts(theme: Theme) -> Iterator[tuple[str, str]]:
    for folder in theme.folders:
        for path in sorted(path for path in folder.rglob("*") if path.is_file()):
            text = path.read_bytes().decode("utf-8", errors="replace")
            yield f"{folder.name}/{path.relative_to(folder).as_posix()}", text


def chain(folder: Path, *themes: dict[str, str]) -> Theme:
    """A theme made of the given files, the nearest first."""
    folders = tuple(folder / f"theme-{number}" for number in range(len(themes)))
    for home, files in zip(folders, themes, strict=True):
        for name, text in files.items():
            (home / name).parent.mkdir(parents=True, exist_ok=True)
            (home / name).write_bytes(text.encode())
    return Theme(name="harbour", folders=folders)


def test_an_asset_is_published_under_a_name_that_changes_with_its_bytes(tmp_path: Path) -> None:
    quiet = chain(
        tmp_path / "quiet", {"styles/site.css": "a {}", "scripts/narrow.js": "", "pages/x.html": ""}
    )
    loud = chain(tmp_path / "loud", {"styles/site.css": "b {}"})

    (narrow, site), (other,) = theme_assets(quiet), theme_assets(loud)

    assert asset_addresses(quiet) == {"scripts/narrow.js": narrow, "styles/site.css": site}
    assert theme_assets(quiet)[site] == b"a {}"
    assert site != other
    assert [len(part) for part in site.split(".")] == [len("styles/site"), 8, len("css")]


def test_the_nearest_theme_of_a_chain_gives_the_asset(tmp_path: Path) -> None:
    theme = chain(
        tmp_path, {"styles/site.css": "near"}, {"styles/site.css": "far", "styles/print.css": "far"}
    )

    assert sorted(theme_assets(theme).values()) == [b"far", b"near"]


def test_files_that_begin_with_a_dot_are_no_part_of_a_theme(tmp_path: Path) -> None:
    bare = chain(tmp_path, {"styles/site.css": "a {}"}).digest

    dotted = chain(tmp_path, {"styles/.DS_Store": "x", ".git/styles/x.css": "x"})

    assert (dotted.digest, len(theme_assets(dotted))) == (bare, 1)


@pytest.mark.parametrize(
    "themes",
    [
        pytest.param(({"pages/a.html": "A"}, {"parts/b.html": "b"}), id="other bytes"),
        pytest.param(({"pages/c.html": "a"}, {"parts/b.html": "b"}), id="another name"),
        pytest.param(({"parts/b.html": "b"}, {"pages/a.html": "a"}), id="another order of the chain"),
        pytest.param(({"pages/a.html": "a"},), id="one theme fewer"),
    ],
)
def test_the_digest_of_a_theme_changes_with_every_file_of_its_chain(
    tmp_path: Path, themes: tuple[dict[str, str], ...]
) -> None:
    theme = chain(tmp_path / "one", {"pages/a.html": "a"}, {"parts/b.html": "b"})

    assert theme.digest != chain(tmp_path / "other", *themes).digest


def test_the_digest_of_a_theme_does_not_depend_on_where_it_lies(tmp_path: Path) -> None:
    here, there = (chain(tmp_path / place, {"pages/a.html": "a"}) for place in ("here", "there"))

    assert here.digest == there.digest


@pytest.mark.parametrize(
    "line",
    [
        '<script src="https://cdn.example/x.js"></script>',
        "<img\n  alt='' src='//pictures.example/x.png'>",
        '<link rel="stylesheet" href="http://styles.example/x.css">',
        '<use href="https://shapes.example/x.svg#a">',
        "a { background: url( 'https://pictures.example/x.png' ) }",
        '@import "https://styles.example/x.css";',
        'import { a } from "https://scripts.example/x.js";',
        'await fetch("https://data.example/x.json")',
        '<form action="https://forms.example/">',
    ],
)
def test_anything_fetched_from_another_host_is_found_with_its_place(tmp_path: Path, line: str) -> None:
    theme = chain(tmp_path, {"pages/x.html": f"first\n{line}\n"})

    (found,) = foreign_resources(theme)

    assert found.startswith(f"theme-0/pages/x.html:{2 + line.count(chr(10))}: ")


def test_links_namespaces_and_own_files_are_not_taken_for_foreign_resources(tmp_path: Path) -> None:
    text = """<a class="x" href="https://law.example/"><svg xmlns="http://www.w3.org/2000/svg">
        <img src="{{ here('a.png') }}"><link href="{{ asset('styles/site.css') }}"> from // here on
        {{ page.web }} https://prose.example/ <script src="a/b.js">"""

    assert foreign_resources(chain(tmp_path, {"pages/x.html": text})) == ()


def test_every_use_of_trusted_markup_is_found(tmp_path: Path) -> None:
    text = """{{ a }} {{ page.plate
        | markup }}{% set x = rows|map('markup') %} {{ { "a": b }|markup }} markup {# not markup #}"""
    theme = chain(tmp_path, {"pages/x.html": text})

    expected = (
        "theme-0/pages/x.html: {{ page.plate | markup }}",
        "theme-0/pages/x.html: {% set x = rows|map('markup') %}",
        'theme-0/pages/x.html: {{ { "a": b }|markup }}',
    )
    assert expected == markup_uses(theme)


@pytest.mark.parametrize("folder", SHIPPED, ids=lambda folder: folder.name)
def test_no_shipped_theme_fetches_anything_from_another_host(folder: Path) -> None:
    assert foreign_resources(Theme(name=folder.name, folders=(folder,))) == ()


def test_the_uses_of_trusted_markup_in_the_shipped_themes_are_the_reviewed_ones() -> None:
    """Each must be a drawing or Markdown that this program made; then its line goes into reviewed_markup.txt."""
    uses = {use for folder in SHIPPED for use in markup_uses(Theme(name=folder.name, folders=(folder,)))}

    assert sorted(uses) == REVIEWED_MARKUP.read_text(encoding="utf-8").splitlines()


def test_the_mark_in_a_public_name_is_of_the_bytes_alone(tmp_path: Path) -> None:
    theme = chain(tmp_path, {"styles/a.css": "same", "styles/b.css": "same"})

    first, second = theme_assets(theme)

    assert first.removeprefix("styles/a.") == second.removeprefix("styles/b.")

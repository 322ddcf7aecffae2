"""Narrowing the shelves in a real browser: what is found, what is counted, and the way back."""

from typing import TYPE_CHECKING

import pytest

from generator.commands.build import build
from generator.making.options import CommandOptions
from tests.conftest import EXAMPLE

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser


@pytest.fixture(name="home", scope="module")
def _home(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of the example's home page."""
    output = tmp_path_factory.mktemp("output")
    assert build(CommandOptions(content=EXAMPLE, output=output, as_of=None, as_data=False)).laid is not None
    return (output / "site/index.html").as_uri()


def look_for(page: "Page", text: str) -> None:
    page.fill("#find", text)
    page.wait_for_function(
        "text => new URLSearchParams(location.search).get('find') === text.trim()", arg=text
    )


def shown(page: "Page") -> list[str]:
    return [
        name.text_content() or "" for name in page.locator(".piece .scent-name").all() if name.is_visible()
    ]


def counted(page: "Page") -> str:
    return page.inner_text(".count [role=status]")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("SS-30", "Slate & Samphire"),
        ("samphire.", "Slate & Samphire"),
        ('"sea salt"', "Slate & Samphire"),
        ("wax melts", "Quillfern"),
        ("melt", "Quillfern"),
        ("soy", "Ropewalk"),
    ],
)
def test_the_box_finds_what_a_shopper_types(text: str, expected: str, home: str, page: "Page") -> None:
    page.goto(home)
    everything = len(shown(page))

    look_for(page, text)

    assert expected in shown(page)
    assert len(shown(page)) < everything


@pytest.mark.parametrize("text", ["Weiße Schürze", "weisse schurze", "cœur de pré", "COEUR DE PRE"])
def test_a_letter_that_is_missing_on_the_keyboard_is_found_all_the_same(
    text: str, home: str, page: "Page"
) -> None:
    page.goto(home)
    page.evaluate(
        "() => { document.querySelector('.scent-name').textContent = 'Weiße Schürze, cœur de pré'; }"
    )

    look_for(page, text)

    assert shown(page) == ["Weiße Schürze, cœur de pré"]


def test_going_back_after_typing_ends_the_search_and_stays_on_the_site(home: str, page: "Page") -> None:
    page.goto("about:blank")
    page.goto(home)
    everything = shown(page)
    look_for(page, "zzz")
    look_for(page, "zzzz")
    assert shown(page) == []

    page.go_back()
    page.wait_for_function("location.search === ''")

    assert (page.input_value("#find"), shown(page)) == ("", everything)


def test_what_is_coming_is_counted_like_the_rest(home: str, page: "Page") -> None:
    page.goto(home)
    everything = len(shown(page))

    look_for(page, "nettle")

    assert counted(page) == f"{len(shown(page))} of {everything} scents"
    assert "Nettle & Rain" in shown(page)


def test_a_key_of_somebody_else_narrows_nothing(home: str, page: "Page") -> None:
    page.goto(f"{home}?foo=1")

    assert counted(page) == f"{len(shown(page))} scents"
    assert page.is_hidden(".clear")


def test_a_season_keeps_the_candles_of_all_the_year(home: str, page: "Page") -> None:
    page.goto(f"{home}?season=spring")

    assert "Quillfern" in shown(page)
    assert "Orange on the Stove" not in shown(page)


def test_showing_everything_empties_the_box(home: str, page: "Page") -> None:
    page.goto(f"{home}?find=samphire")
    assert page.input_value("#find") == "samphire"

    page.click(".clear")

    assert (page.input_value("#find"), counted(page)) == ("", f"{len(shown(page))} scents")

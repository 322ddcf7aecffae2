"""A theme is found with those it extends; a slip in its file is told where it stands."""

from pathlib import Path

import pytest

from generator.problems import Place, Problem
from generator.reading.theme_files import theme_folders

NAMED_AT = Place("content/maker.yaml", 3, 8)


def found(folder: Path, text: str) -> tuple[str, ...] | Problem:
    """What a theme of the maker's own is made of, by the text of its file."""
    theme = folder / "themes" / "mine"
    theme.mkdir(parents=True)
    (theme / "theme.yaml").write_text(text, encoding="utf-8")
    folders = theme_folders(folder / "content", "mine", NAMED_AT)
    return folders if isinstance(folders, Problem) else tuple(one.name for one in folders)


def test_a_theme_comes_before_those_that_it_extends(tmp_path: Path) -> None:
    assert found(tmp_path, "name: mine\nextends: ledger\n") == ("mine", "ledger", "netloft")


def test_a_theme_may_stand_by_itself(tmp_path: Path) -> None:
    assert found(tmp_path, "name: mine\n") == ("mine",)


def test_a_theme_that_is_not_there_is_told_where_it_is_named(tmp_path: Path) -> None:
    assert theme_folders(tmp_path / "content", "net-loft", NAMED_AT) == Problem(
        place=NAMED_AT,
        what="there is no theme 'net-loft'",
        why="the pages could not be printed",
        fix="theme: ledger, or netloft",
    )


@pytest.mark.parametrize(
    ("text", "told"),
    [
        pytest.param(
            "name: mine\nextend: netloft\n",
            ("2:1", "'extend' is not a key of a theme", "extends: netloft"),
            id="a misspelt key",
        ),
        pytest.param(
            "name: mine\nextends: netlofft\n",
            ("2:10", "there is no theme 'netlofft'", "extends: ledger, or mine, or netloft"),
            id="a misspelt theme",
        ),
        pytest.param(
            "name: mine\nextends: mine\n",
            (
                "2:10",
                "the theme 'mine' extends 'mine', which in turn extends it",
                "extends: ... (a theme that does not extend this one, such as netloft)",
            ),
            id="a circle",
        ),
    ],
)
def test_a_slip_in_a_themes_file_is_told_where_it_stands(
    tmp_path: Path, text: str, told: tuple[str, str, str]
) -> None:
    problem = found(tmp_path, text)

    assert isinstance(problem, Problem)
    at = f"themes/mine/theme.yaml:{told[0]}"
    assert (str(problem.place), problem.what, problem.fix) == (at, *told[1:])


def test_a_themes_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    problem = found(tmp_path, "name: mine\n extends: netloft\n")

    assert isinstance(problem, Problem)
    assert problem.place.file == "themes/mine/theme.yaml"

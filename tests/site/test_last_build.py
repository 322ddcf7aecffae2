"""A build of which nothing has changed: it is told again, and whatever has changed is seen."""

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.commands.build import build
from generator.making.last_build import inputs_of, last_built, note_down
from generator.making.options import CommandOptions
from generator.writing.output import NotOurs
from tests.site.test_command import everything_below


@pytest.fixture(name="asked")
def _asked(shop_folder: Path, ask: Callable[[Path], CommandOptions]) -> CommandOptions:
    """A shop with one problem, built."""
    candle = shop_folder / "candles" / "wet-garden.yaml"
    candle.write_text(candle.read_text(encoding="utf-8") + "# by hand\n", encoding="utf-8")
    asked = ask(shop_folder)
    build(asked)
    return asked


def is_told_again(asked: CommandOptions) -> bool:
    inputs = inputs_of(asked)
    return inputs is not None and last_built(asked, inputs) is not None


def test_nothing_changed_is_told_as_the_build_itself_told_it(asked: CommandOptions) -> None:
    first = build(replace(asked, output=asked.output.with_name("elsewhere")))

    again = build(asked)

    assert (again.problems, again.changes) == (first.problems, first.changes)
    assert first.laid is not None
    assert again.laid is not None
    assert set(again.laid.same) == set(first.laid.written)


RUN = "from generator.cli import main; main()"
LOADED = "import sys; print(sorted({'jinja2', 'pydantic'} & {*sys.modules}))"


def test_nothing_changed_loads_neither_templates_nor_shop(asked: CommandOptions) -> None:
    build(replace(asked, today=date.today()))  # noqa: DTZ011  (another process asks the clock)
    told = subprocess.run(
        [
            sys.executable,
            "-c",
            f"{RUN}; {LOADED}",
            *("build", "--content", str(asked.content), "--output", str(asked.output)),
        ],
        capture_output=True,
        text=True,
        check=False,
    )

    assert (told.stdout.splitlines()[-1], told.stderr) == ("[]", "")


def test_an_entry_that_reads_the_same_is_built_and_writes_nothing_but_the_log(asked: CommandOptions) -> None:
    maker = asked.content / "maker.yaml"
    maker.write_text(maker.read_text(encoding="utf-8") + "# a note to myself\n", encoding="utf-8")

    again = build(asked)

    assert again.laid is not None
    assert (again.laid.written, again.laid.changed, again.laid.removed) == ((), ("workshop/build.json",), ())


def test_a_file_that_was_altered_or_removed_is_made_whole(asked: CommandOptions) -> None:
    before = everything_below(asked.output / "site")
    (asked.output / "site" / "index.html").write_bytes(b"not ours")
    (asked.output / "site" / "about.html").unlink()

    build(asked)

    assert everything_below(asked.output / "site") == before


@pytest.mark.parametrize(
    "change",
    [{"drafts": True}, {"issued_only": True}, {"as_of": date(2026, 1, 1)}, {"today": date(2026, 11, 2)}],
)
def test_another_question_is_another_build(asked: CommandOptions, change: dict[str, bool | date]) -> None:
    assert is_told_again(asked)

    assert not is_told_again(replace(asked, **change))  # type: ignore[arg-type]  # one field of several types


def test_a_theme_of_the_makers_own_is_looked_at(asked: CommandOptions) -> None:
    style = asked.content.parent / "themes" / "ours" / "styles" / "site.css"
    style.parent.mkdir(parents=True)

    style.write_text("a { color: red }", encoding="utf-8")

    assert not is_told_again(asked)


def test_a_slip_in_a_theme_is_told_with_its_line_and_nothing_is_written(asked: CommandOptions) -> None:
    theme = asked.content.parent / "themes" / "ours"
    (theme / "pages").mkdir(parents=True)
    (theme / "theme.yaml").write_text("name: ours\nextends: netloft\n", encoding="utf-8")
    (theme / "pages" / "404.html").write_text("<p>\n{{ page.titel }}</p>", encoding="utf-8")
    maker = asked.content / "maker.yaml"
    maker.write_text(
        maker.read_text(encoding="utf-8").replace("theme: netloft", "theme: ours"), encoding="utf-8"
    )

    built = build(asked)

    assert (built.laid, [str(problem) for problem in built.problems]) == (
        None,
        [
            "ours/pages/404.html:2:1: error: 'titel' does not exist here\n"
            "    why: site/404.html could not be printed with this theme\n"
            "    fix: use only what themes/README.md lists for a template"
        ],
    )


def test_a_renamed_file_is_another_shop(asked: CommandOptions) -> None:
    (asked.content / "pages" / "about.md").rename(asked.content / "pages" / "us.md")

    assert not is_told_again(asked)


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps no such rights of a file")
def test_a_secret_that_others_may_read_is_looked_at(asked: CommandOptions) -> None:
    secret = asked.content / ".shop-secret"
    secret.write_text("A" * 52 + "\n", encoding="ascii")
    secret.chmod(0o600)
    build(asked)

    secret.chmod(0o644)

    assert not is_told_again(asked)


@pytest.mark.skipif(os.name == "nt", reason="links need rights that not everybody has there")
def test_a_folder_behind_a_link_is_built_every_time(asked: CommandOptions) -> None:
    (asked.content / "pages").rename(asked.content.parent / "pages")
    (asked.content / "pages").symlink_to(asked.content.parent / "pages", target_is_directory=True)

    assert inputs_of(asked) is None
    assert build(asked).laid is not None


@pytest.mark.parametrize("lost", [".manifest.json", ".store/last-build.json"])
@pytest.mark.parametrize("how", ["damaged", "removed"])
def test_a_lost_list_or_note_costs_a_build_and_nothing_else(
    asked: CommandOptions, lost: str, how: str
) -> None:
    before = everything_below(asked.output / "site")
    (asked.output / lost).write_bytes(b"{")
    if how == "removed":
        (asked.output / lost).unlink()

    built = build(asked)

    assert built.laid is not None
    assert everything_below(asked.output / "site") == before


def test_a_folder_with_a_strange_name_is_told_of(asked: CommandOptions) -> None:
    (asked.content / "candels").mkdir()

    told = [problem.what for problem in build(asked).problems]

    assert any("candels" in what for what in told)


@pytest.mark.skipif(os.name == "nt", reason="links need rights that not everybody has there")
def test_a_site_behind_a_link_is_not_told_to_be_as_before(asked: CommandOptions) -> None:
    (asked.output / "site").rename(asked.output.parent / "site")
    (asked.output / "site").symlink_to(asked.output.parent / "site", target_is_directory=True)

    with pytest.raises(NotOurs):
        build(asked)


def test_an_edit_undone_while_a_build_reads_is_seen_by_the_next(asked: CommandOptions) -> None:
    inputs, built = inputs_of(asked), build(asked)
    maker = asked.content / "maker.yaml"
    maker.write_text(maker.read_text(encoding="utf-8") + "# a note to myself\n", encoding="utf-8")
    (asked.output / ".store" / "last-build.json").unlink()

    note_down(asked, inputs, built)

    assert not (asked.output / ".store" / "last-build.json").exists()


def test_a_log_that_is_not_ours_is_left_alone(
    shop_folder: Path, ask: Callable[[Path], CommandOptions]
) -> None:
    asked = ask(shop_folder)
    (asked.output / "workshop").mkdir(parents=True)
    (asked.output / "workshop" / "build.json").write_text('{"mine": 1}', encoding="utf-8")

    with pytest.raises(NotOurs):
        build(asked)

    assert (asked.output / "workshop" / "build.json").read_text(encoding="utf-8") == '{"mine": 1}'


def test_a_folder_with_the_name_of_an_entry_is_seen(asked: CommandOptions) -> None:
    assert is_told_again(asked)

    (asked.content / "candles" / "odd.yaml").mkdir()

    assert not is_told_again(asked)


def test_what_a_moment_ago_was_written_twice_within_one_step_of_the_clock_is_not_noted(
    asked: CommandOptions,
) -> None:
    candle = asked.content / "candles" / "wet-garden.yaml"
    (asked.output / ".store" / "last-build.json").unlink()
    inputs, built = inputs_of(asked), build(asked)
    (asked.output / ".store" / "last-build.json").unlink()
    now = candle.stat()
    candle.write_bytes(candle.read_bytes()[::-1])
    os.utime(candle, ns=(now.st_atime_ns, now.st_mtime_ns))
    assert inputs is not None
    later = inputs_of(asked)
    assert later is not None
    inputs.stamps = later.stamps  # As on a disk that counts the times of both writings as one.

    note_down(asked, inputs, built)

    assert not (asked.output / ".store" / "last-build.json").exists()

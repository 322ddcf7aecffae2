import pytest
import yaml

from generator.problems import Spot
from generator.reading import located as module
from generator.reading.located import DEEPEST, MOST_REPEATED, located, pack, unpack
from tests.reading.telling import told_of_writing


@pytest.fixture(
    name="_each_loader", params=[yaml.CSafeLoader, yaml.SafeLoader], ids=["C", "Python"], autouse=True
)
def _each_loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both parsers must keep every promise: the one in C, and the one in Python where that is missing."""
    monkeypatch.setattr(module, "LOADER", request.param)


def _data(text: str) -> object:
    return located(text.encode(), "entry.yaml").data


@pytest.mark.parametrize(
    "written",
    ["no", "NO", "on", "007", "0x10", "12:30", "1_000", "1e3", "2026-01-02", "24.10", ".5", "+44 1632"],
)
def test_every_scalar_stays_the_text_it_was_written_as(written: str) -> None:
    assert _data(f"key: {written}") == {"key": written}


@pytest.mark.parametrize("written", ["", " ", "~", "null", "Null", "NULL", " # later"])
def test_nothing_written_is_an_empty_text(written: str) -> None:
    assert _data(f"key: {written}\nnext: x") == {"key": "", "next": "x"}


def test_a_word_in_quotes_is_a_text_even_if_it_is_null() -> None:
    assert _data('key: "null"') == {"key": "null"}


def test_a_file_may_begin_with_the_mark_of_utf_8_and_end_its_lines_as_any_system_does() -> None:
    expected = {"a": "1", "b": "2", "c": "3"}

    assert _data("\ufeffa: 1\r\nb: 2\rc: 3\n") == expected


def test_values_and_keys_are_found_where_they_stand() -> None:
    text = "fill:\n  to: 68 mm\nsize: [1 mm, 2 mm]\n"

    spot = located(text.encode(), "entry.yaml").spots()

    assert spot == Spot(1, 1, 1, 1, {
        "fill": Spot(2, 3, 1, 1, {"to": Spot(2, 7, 2, 3)}),
        "size": Spot(3, 7, 3, 1, {0: Spot(3, 8, 3, 8), 1: Spot(3, 14, 3, 14)}),
    })  # fmt: skip


def test_columns_count_characters_and_not_bytes() -> None:
    spot = located("{née: a, key: b}".encode(), "entry.yaml").spots()

    assert spot.below["key"] == Spot(1, 15, 1, 10)


def test_what_is_packed_comes_back_as_it_was_under_another_name() -> None:
    text = "a: {b: [1, x]}\na: 2\nc: !t x\n"
    expected = located(text.encode(), "other.yaml")

    again = unpack(pack(located(text.encode(), "entry.yaml")), "other.yaml")

    assert again == (expected.data, expected.problems)


def test_an_alias_repeats_a_value_and_stands_where_its_own_key_is() -> None:
    found = located(b"a: &usual {to: 68 mm}\nb: *usual\n", "entry.yaml")

    assert found.data == {"a": {"to": "68 mm"}, "b": {"to": "68 mm"}}
    assert found.spots().below["b"].key_line == 2
    assert found.problems == ()


def test_a_merge_key_gives_what_the_mapping_does_not_say_itself() -> None:
    text = "a: &a {x: 1, y: 2}\nb: {<<: *a, y: 3}\nc: {<<: [*a, {z: 4}]}\n"

    assert _data(text) == {
        "a": {"x": "1", "y": "2"},
        "b": {"y": "3", "x": "1"},
        "c": {"x": "1", "y": "2", "z": "4"},
    }


def test_a_merge_key_takes_in_mappings_only() -> None:
    assert told_of_writing("a: {<<: 68 mm}") == (
        "entry.yaml:1:9: error: '<<' copies keys from another group, and there are none here\n"
        "    why: nothing would be copied\n"
        "    fix: <<: *name, with &name before a group of keys"
    )


def test_a_value_that_holds_itself_is_refused() -> None:
    assert told_of_writing("a: &a [*a]") == (
        "entry.yaml:1:8: error: '*a' repeats a value marked '&a', and nothing above is marked so\n"
        "    why: the value would be missing\n"
        '    fix: "*a" in quotes, if you mean the text itself'
    )


def test_aliases_cannot_swell_a_small_file() -> None:
    tenfold = "\n".join(f"k{n}: &k{n} [{', '.join([f'*k{n - 1}'] * 10)}]" for n in range(1, 9))

    assert told_of_writing(f"k0: &k0 [1, 2]\n{tenfold}\n") == (
        f"entry.yaml:4:20: error: more than {MOST_REPEATED} values are repeated with '*' up to here\n"
        "    why: a small file could grow until the program runs out of memory\n"
        "    fix: write the values out"
    )


def test_as_many_levels_as_are_allowed_can_be_read() -> None:
    text = "[" * DEEPEST + "]" * DEEPEST

    assert told_of_writing(text) == ""


def test_one_level_more_is_refused() -> None:
    text = "[" * (DEEPEST + 1) + "]" * (DEEPEST + 1)

    assert told_of_writing(text) == (
        f"entry.yaml:1:{DEEPEST + 1}: error: more than {DEEPEST} levels are nested inside each other\n"
        "    why: no entry has so many, so it is unclear what you mean\n"
        "    fix: use fewer brackets or less indentation"
    )


@pytest.mark.parametrize("key", ["[a]", "{a: b}", "? [a]\n"], ids=["list", "mapping", "marked list"])
def test_a_key_is_a_plain_name(key: str) -> None:
    problem = told_of_writing(f"{key}: b").split(": error: ", maxsplit=1)[1]

    assert problem == (
        "this key is not a plain word\n"
        "    why: every value is found by its key\n"
        "    fix: write one word and a colon; put quotes around a text that begins with [, { or *"
    )


def test_a_character_written_with_a_backslash_must_be_printable_too() -> None:
    assert told_of_writing('name: "Sea\\0salt"') == (
        "entry.yaml:1:7: error: there is a character here that cannot be printed (U+0000)\n"
        "    why: papers and pages would show a gap or a box\n"
        "    fix: delete the character"
    )


def test_a_colour_without_quotes_is_noticed_where_its_value_seems_empty() -> None:
    assert told_of_writing("colour:\n  shade: #66727a\n  name: wet slate\n") == (
        "entry.yaml:2:10: error: the colour #66727a has no quotes around it\n"
        "    why: a '#' after a space starts a comment, so the rest of the line is not read\n"
        '    fix: shade: "#66727a"'
    )


def test_a_standard_tag_is_quoted_as_the_maker_wrote_it() -> None:
    assert told_of_writing("price: !!float 24.00") == (
        "entry.yaml:1:8: error: '!!float' is a tag\n"
        "    why: values are read exactly as written, so a tag does nothing\n"
        "    fix: remove the tag, or put the whole text in quotes"
    )


def test_a_repeated_key_names_the_first_line_and_the_first_value_counts() -> None:
    found = located(b"a: 1\nb: 2\na: 3\n", "entry.yaml")

    assert found.data == {"a": "1", "b": "2"}
    assert [str(problem) for problem in found.problems] == [
        "entry.yaml:3:1: error: 'a' is written twice\n"
        "    why: it is already on line 1, and only one can be printed\n"
        "    fix: delete one of the two lines"
    ]

import pytest

from tests.reading.telling import told_of_writing

TAB = (
    "the line is indented with a tab\n"
    "    why: a tab is as wide as each editor likes, so it cannot say what belongs to what\n"
    "    fix: spaces in place of the tab, as many as in the lines beside it"
)
COMMA_OR = (
    "    why: it cannot be told where one value ends and the next begins\n"
    "    fix: a comma between two values, and quotes around a text that holds a comma, a colon or a bracket"
)
LINED_UP = "    why: the spaces before a line say what it belongs to\n"
TWO_KEYS = "    why: a colon and a space divide a key from its value, so there would be two keys\n"
NO_COLON = "    why: every line names a key and its value, or goes on indented from the line above\n"

SLIPS = {
    "a tab before a first key": ("fill:\n\tto: 68 mm\n", f"2:1: error: {TAB}"),
    "a tab before a later key": ("fill:\n  to: 68 mm\n\tlevel: set\n", f"3:1: error: {TAB}"),
    "an open double quote": (
        'name: "Tide\nnotes: x\n',
        '1:7: error: the quote " opened here is never closed\n'
        "    why: everything below it would be one text\n"
        '    fix: name: "Tide"',
    ),
    "an open single quote": (
        "name: 'Tide\n",
        "1:7: error: the quote ' opened here is never closed\n"
        "    why: everything below it would be one text\n"
        "    fix: name: 'Tide'",
    ),
    "an open quote that a later one closes": (
        'name: "Tide\nnotes: "salt"\n',
        '2:9: error: the quote " before this closes one that was opened on an earlier line\n'
        "    why: the lines between would be one text\n"
        '    fix: a closing " on the line where the text ends',
    ),
    "an apostrophe within single quotes": (
        "name: 'Ferrier's Tide'\n",
        "1:16: error: the text goes on after its closing quote\n"
        "    why: what follows would be lost\n"
        '    fix: name: "Ferrier\'s Tide"',
    ),
    "an inch sign within double quotes": (
        'name: "5" jar"\n',
        "1:11: error: the text goes on after its closing quote\n"
        "    why: what follows would be lost\n"
        "    fix: name: '5\" jar'",
    ),
    "words after a closing quote": (
        'name: "Tide" table\n',
        "1:14: error: the text goes on after its closing quote\n"
        "    why: what follows would be lost\n"
        "    fix: name: '\"Tide\" table'",
    ),
    "a backslash between double quotes": (
        'file: "scans\\glass.pdf"\n',
        "1:13: error: a backslash stands between double quotes\n"
        "    why: there it changes the character that follows it\n"
        "    fix: file: 'scans\\glass.pdf'",
    ),
    "a colour without quotes in braces": (
        "colour: {name: slate, shade: #66727a}\nnext: x\n",
        "1:30: error: the colour #66727a stands without quotes\n"
        "    why: a '#' after a space begins a remark, so the rest of the line would not be read\n"
        '    fix: colour: {name: slate, shade: "#66727a"}',
    ),
    "a colour without quotes in braces at the end of the file": (
        "name: x\nlist:\n  - {colour: {name: slate, shade: #66727a}}\n",
        "3:35: error: the colour #66727a stands without quotes\n"
        "    why: a '#' after a space begins a remark, so the rest of the line would not be read\n"
        '    fix: - {colour: {name: slate, shade: "#66727a"}}',
    ),
    "a colour without quotes on a later line of its braces": (
        "colour: {name: slate,\n  shade: #66727a}\nnext: x\n",
        "2:10: error: the colour #66727a stands without quotes\n"
        "    why: a '#' after a space begins a remark, so the rest of the line would not be read\n"
        '    fix: shade: "#66727a"}',
    ),
    "a colour in a remark above an open brace": (
        "# {was #66727a}\nfill: {to: 68 mm\n",
        "2:7: error: the bracket { opened here is not closed\n"
        "    why: the lines below it would belong to it\n"
        "    fix: fill: {to: 68 mm}",
    ),
    "an open bracket before the next key": (
        "markets: [GB, EU\ncurrency: GBP\n",
        "1:10: error: the bracket [ opened here is not closed\n"
        "    why: the lines below it would belong to it\n"
        "    fix: markets: [GB, EU]",
    ),
    "an open brace at the end": (
        "fill: {to: 68 mm\n",
        "1:7: error: the bracket { opened here is not closed\n"
        "    why: the lines below it would belong to it\n"
        "    fix: fill: {to: 68 mm}",
    ),
    "a comma forgotten in braces": (
        "fill: {to: 68 mm level: set}\n",
        f"1:23: error: a comma or the closing }} was expected here\n{COMMA_OR}",
    ),
    "a comma forgotten in brackets": (
        'top: [sea, "salt" foam]\n',
        f"1:19: error: a comma or the closing ] was expected here\n{COMMA_OR}",
    ),
    "a comma too many": (
        "top: [sea,, salt]\n",
        "1:11: error: no value stands before this comma\n"
        "    why: the list would have a gap\n"
        "    fix: top: [sea, salt]",
    ),
    "a bracket too many": (
        "top: [sea, salt]]\n",
        "1:17: error: the bracket ] closes nothing\n"
        "    why: what belongs together cannot be told\n"
        "    fix: top: [sea, salt]",
    ),
    "a bracket alone in its line": (
        "name: Tide\n]\n",
        "2:1: error: the bracket ] closes nothing\n"
        "    why: what belongs together cannot be told\n"
        "    fix: the file without this line",
    ),
    "a greater-than sign before a number": (
        "flash_point: > 93 C\n",
        "1:14: error: a text that begins with > needs quotes\n"
        "    why: without them > is a sign of the notation and not part of the text\n"
        '    fix: flash_point: "> 93 C"',
    ),
    "an at sign first": (
        "by: @ferrier\n",
        "1:5: error: a text that begins with @ needs quotes\n"
        "    why: without them @ is a sign of the notation and not part of the text\n"
        '    fix: by: "@ferrier"',
    ),
    "a percent sign first": (
        "notes:\n  - %5\n",
        "2:5: error: a text that begins with % needs quotes\n"
        "    why: without them % is a sign of the notation and not part of the text\n"
        '    fix: - "%5"',
    ),
    "a colon in a text": (
        "scent: Tide: the salt one\n",
        f"1:12: error: a second ': ' stands in this line\n{TWO_KEYS}    fix: scent: \"Tide: the salt one\"",
    ),
    "a colon in a text with quotes": (
        'text: He said: "salt"\n',
        f"1:14: error: a second ': ' stands in this line\n{TWO_KEYS}    fix: text: 'He said: \"salt\"'",
    ),
    "no space after the first colon": (
        "scent:Tide\nseason: all year\n",
        "1:6: error: no space follows the colon\n"
        "    why: without it the line is one text and names no key\n"
        "    fix: scent: Tide",
    ),
    "no space after a later colon": (
        "scent: Tide\nseason:all year\nnotes: x\n",
        "2:7: error: no space follows the colon\n"
        "    why: without it the line is one text and names no key\n"
        "    fix: season: all year",
    ),
    "a first key without a colon": (
        "scent Tide\nseason: all year\n",
        f"1:1: error: 'scent Tide' has no colon\n{NO_COLON}    fix: scent Tide: its value",
    ),
    "a last key without a colon": (
        "scent: Tide\nseason all year\n",
        f"2:1: error: 'season all year' has no colon\n{NO_COLON}    fix: season all year: its value",
    ),
    "a key below a value": (
        "scent: Tide\n  season: all year\n",
        "2:3: error: the line is indented further than line 1, which has its value already\n"
        "    why: what is indented further belongs to the line above\n"
        "    fix: the line with as many spaces before it as the others of its group have: season: all year",
    ),
    "a key that lines up with nothing": (
        "fill:\n  to: 68 mm\n level: set\n",
        f"3:2: error: the line does not line up with those above it\n{LINED_UP}"
        "    fix: the line with as many spaces before it as the others of its group have: level: set",
    ),
    "a list on the line of its key": (
        "photos: - front.jpg\n",
        "1:9: error: a list begins on the line of its key\n"
        "    why: with dashes each value stands on a line of its own\n"
        "    fix: photos: [front.jpg]",
    ),
    "an anchor without a name": (
        "price: &\n",
        "1:9: error: from here on the file cannot be read\n"
        "    why: what it says would be missing from every paper\n"
        "    fix: key: value on each line, and quotes around a text that holds other signs",
    ),
}


@pytest.mark.parametrize(("text", "expected"), SLIPS.values(), ids=SLIPS.keys())
def test_a_slip_of_the_pen_is_told_in_plain_words(text: str, expected: str) -> None:
    assert told_of_writing(text) == f"entry.yaml:{expected}"

import pytest

from tests.reading.telling import told_of_writing

TAB = (
    "the line is indented with a tab\n"
    "    why: editors show tabs at different widths, so it is unclear what belongs to what\n"
    "    fix: replace the tab with spaces, as many as on the lines beside it"
)
COMMA_OR = (
    "    why: it is unclear where one value ends and the next begins\n"
    "    fix: put a comma between two values, and quotes around a text that contains a comma, a colon "
    "or a bracket"
)
LINED_UP = "    why: the spaces before a line show what it belongs to\n"
TWO_KEYS = "    why: a colon and a space end a key, so the line would have two keys\n"
NO_COLON = "    why: each line is a key and its value, or continues, indented, from the line above\n"

SLIPS = {
    "a tab before a first key": ("fill:\n\tto: 68 mm\n", f"2:1: error: {TAB}"),
    "a tab before a later key": ("fill:\n  to: 68 mm\n\tlevel: set\n", f"3:1: error: {TAB}"),
    "an open double quote": (
        'name: "Tide\nnotes: x\n',
        '1:7: error: the quote " opened here is never closed\n'
        "    why: everything below it would become one text\n"
        '    fix: name: "Tide"',
    ),
    "an open single quote": (
        "name: 'Tide\n",
        "1:7: error: the quote ' opened here is never closed\n"
        "    why: everything below it would become one text\n"
        "    fix: name: 'Tide'",
    ),
    "an open quote that a later one closes": (
        'name: "Tide\nnotes: "salt"\n',
        '2:9: error: the quote " before this closes one that was opened on an earlier line\n'
        "    why: the lines between would become one text\n"
        '    fix: put a closing " on the line where the text ends',
    ),
    "an apostrophe within single quotes": (
        "name: 'Ferrier's Tide'\n",
        "1:16: error: the text continues after its closing quote\n"
        "    why: the rest would be lost\n"
        '    fix: name: "Ferrier\'s Tide"',
    ),
    "an inch sign within double quotes": (
        'name: "5" jar"\n',
        "1:11: error: the text continues after its closing quote\n"
        "    why: the rest would be lost\n"
        "    fix: name: '5\" jar'",
    ),
    "words after a closing quote": (
        'name: "Tide" table\n',
        "1:14: error: the text continues after its closing quote\n"
        "    why: the rest would be lost\n"
        "    fix: name: '\"Tide\" table'",
    ),
    "a backslash between double quotes": (
        'file: "scans\\glass.pdf"\n',
        "1:13: error: there is a backslash between double quotes\n"
        "    why: there it changes the character after it\n"
        "    fix: file: 'scans\\glass.pdf'",
    ),
    "a colour without quotes in braces": (
        "colour: {name: slate, shade: #66727a}\nnext: x\n",
        "1:30: error: the colour #66727a has no quotes around it\n"
        "    why: a '#' after a space starts a comment, so the rest of the line is not read\n"
        '    fix: colour: {name: slate, shade: "#66727a"}',
    ),
    "a colour without quotes in braces at the end of the file": (
        "name: x\nlist:\n  - {colour: {name: slate, shade: #66727a}}\n",
        "3:35: error: the colour #66727a has no quotes around it\n"
        "    why: a '#' after a space starts a comment, so the rest of the line is not read\n"
        '    fix: - {colour: {name: slate, shade: "#66727a"}}',
    ),
    "a colour without quotes on a later line of its braces": (
        "colour: {name: slate,\n  shade: #66727a}\nnext: x\n",
        "2:10: error: the colour #66727a has no quotes around it\n"
        "    why: a '#' after a space starts a comment, so the rest of the line is not read\n"
        '    fix: shade: "#66727a"}',
    ),
    "a colour in a remark above an open brace": (
        "# {was #66727a}\nfill: {to: 68 mm\n",
        "2:7: error: the bracket { opened here is not closed\n"
        "    why: the lines below would become part of it\n"
        "    fix: fill: {to: 68 mm}",
    ),
    "an open bracket before the next key": (
        "markets: [GB, EU\ncurrency: GBP\n",
        "1:10: error: the bracket [ opened here is not closed\n"
        "    why: the lines below would become part of it\n"
        "    fix: markets: [GB, EU]",
    ),
    "an open brace at the end": (
        "fill: {to: 68 mm\n",
        "1:7: error: the bracket { opened here is not closed\n"
        "    why: the lines below would become part of it\n"
        "    fix: fill: {to: 68 mm}",
    ),
    "a comma forgotten in braces": (
        "fill: {to: 68 mm level: set}\n",
        f"1:23: error: a comma or the closing }} is missing here\n{COMMA_OR}",
    ),
    "a comma forgotten in brackets": (
        'top: [sea, "salt" foam]\n',
        f"1:19: error: a comma or the closing ] is missing here\n{COMMA_OR}",
    ),
    "a comma too many": (
        "top: [sea,, salt]\n",
        "1:11: error: there is no value before this comma\n"
        "    why: the list would have a gap\n"
        "    fix: top: [sea, salt]",
    ),
    "a bracket too many": (
        "top: [sea, salt]]\n",
        "1:17: error: the bracket ] closes nothing\n"
        "    why: it is unclear what belongs together\n"
        "    fix: top: [sea, salt]",
    ),
    "a bracket alone in its line": (
        "name: Tide\n]\n",
        "2:1: error: the bracket ] closes nothing\n"
        "    why: it is unclear what belongs together\n"
        "    fix: delete this line",
    ),
    "a greater-than sign before a number": (
        "flash_point: > 93 C\n",
        "1:14: error: a text that begins with > needs quotes\n"
        "    why: without them > is read as punctuation, not as part of the text\n"
        '    fix: flash_point: "> 93 C"',
    ),
    "an at sign first": (
        "by: @ferrier\n",
        "1:5: error: a text that begins with @ needs quotes\n"
        "    why: without them @ is read as punctuation, not as part of the text\n"
        '    fix: by: "@ferrier"',
    ),
    "a percent sign first": (
        "notes:\n  - %5\n",
        "2:5: error: a text that begins with % needs quotes\n"
        "    why: without them % is read as punctuation, not as part of the text\n"
        '    fix: - "%5"',
    ),
    "a colon in a text": (
        "scent: Tide: the salt one\n",
        f"1:12: error: this line has a second ': '\n{TWO_KEYS}    fix: scent: \"Tide: the salt one\"",
    ),
    "a colon in a text with quotes": (
        'text: He said: "salt"\n',
        f"1:14: error: this line has a second ': '\n{TWO_KEYS}    fix: text: 'He said: \"salt\"'",
    ),
    "no space after the first colon": (
        "scent:Tide\nseason: all year\n",
        "1:6: error: there is no space after the colon\n"
        "    why: without it the whole line is one text and has no key\n"
        "    fix: scent: Tide",
    ),
    "no space after a later colon": (
        "scent: Tide\nseason:all year\nnotes: x\n",
        "2:7: error: there is no space after the colon\n"
        "    why: without it the whole line is one text and has no key\n"
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
        "2:3: error: the line is indented further than line 1, which already has its value\n"
        "    why: indented lines belong to the line above\n"
        "    fix: indent the line like the others in its group: season: all year",
    ),
    "a key that lines up with nothing": (
        "fill:\n  to: 68 mm\n level: set\n",
        "3:2: error: the line is not aligned with those above it\n"
        f"{LINED_UP}    fix: indent the line like the others in its group: level: set",
    ),
    "a list on the line of its key": (
        "photos: - front.jpg\n",
        "1:9: error: the list begins on the same line as its key\n"
        "    why: with dashes, each value needs its own line\n"
        "    fix: photos: [front.jpg]",
    ),
    "an anchor without a name": (
        "price: &\n",
        "1:9: error: the file cannot be read from here on\n"
        "    why: its contents would be missing from every paper\n"
        "    fix: write key: value on each line, and quotes around a text with other signs",
    ),
}


@pytest.mark.parametrize(("text", "expected"), SLIPS.values(), ids=SLIPS.keys())
def test_a_slip_of_the_pen_is_told_in_plain_words(text: str, expected: str) -> None:
    assert told_of_writing(text) == f"entry.yaml:{expected}"

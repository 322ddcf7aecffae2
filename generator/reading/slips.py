"""What went wrong where a YAML file stops being readable, judged from the lines themselves.

The parser gives where it stopped and where what it was reading began; its message is never used.
"""

import re
from dataclasses import dataclass
from typing import Final

from generator.model.accepted import check_of
from generator.problems import Place, Problem, Severity
from generator.reading.text_files import LINE_END

Position = tuple[int, int]
"""Line and column, counted from 0 as the parser does."""

_QUOTES: Final = ("'", '"')
_CLOSING: Final = {"[": "]", "{": "}"}
_INDENT: Final = re.compile(r"[ \t]*")
_KEY: Final = re.compile(r"\s*(?:- +)*[^\s:#][^:]*:(?= |$)")
_KEY_AND_TEXT: Final = re.compile(r"(\s*(?:- +)*[^:]*?): +(.*)")
_UNQUOTED_COLOUR: Final = re.compile(r"(?<=\s)#[0-9A-Fa-f]{6}\b")

CUT: Final = re.compile(r"[ \t]+(#(?:[^\s#].*|[ \t]?[0-9]+(?![\w.]).*))")
"""A # after a value that hardly begins a comment: no space follows, or a number as in ``No # 5``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stop:
    """Where the parser stopped, and where what it was reading began."""

    lines: tuple[str, ...]
    file: str
    at: Position
    began: Position

    @property
    def line(self) -> str:
        """The line it stopped in."""
        return self.lines[self.at[0]]

    @property
    def before(self) -> str:
        """That line up to where it stopped."""
        return self.line[: self.at[1]]

    @property
    def sign(self) -> str:
        """The character it stopped at; empty at the end of a line."""
        return self.line[self.at[1] : self.at[1] + 1]

    @property
    def opened(self) -> str:
        """What it was reading, to the end of its first line."""
        return self.lines[self.began[0]][self.began[1] :]

    @property
    def above(self) -> int:
        """The number of the nearest line above that is not empty; its own if there is none."""
        numbers = (n for n in range(self.at[0] - 1, -1, -1) if self.lines[n].strip())
        return next(numbers, self.at[0])

    @property
    def at_the_end(self) -> bool:
        """Whether nothing follows."""
        return not any(line.strip() for line in (self.line[self.at[1] :], *self.lines[self.at[0] + 1 :]))

    def problem(self, position: Position, what: str, why: str, fix: str) -> Problem:
        """The slip, at a position."""
        line, column = position
        place = Place(self.file, line + 1, column + 1)
        return Problem(place=place, what=what, why=why, fix=fix.strip() or "delete this line")


def slip_at(text: str, file: str, at: Position | None, began: Position | None) -> Problem:
    """The likeliest slip, given where the parser stopped and what it was reading."""
    lines = (*LINE_END.split(text), "")
    stopped = at or began or (0, 0)
    stop = _Stop(lines=lines, file=file, at=_inside(lines, stopped), began=_inside(lines, began or stopped))
    slips = (slip(stop) for slip in _SLIPS)
    return next((slip for slip in slips if slip is not None), _unreadable(stop))


def unquoted_colour(line: str, file: str, position: Position) -> Problem | None:
    """A colour without quotes, which YAML takes for a comment and reads as nothing."""
    colour = _UNQUOTED_COLOUR.search(line, position[1])
    if colour is None:
        return None
    return Problem(
        place=Place(file, position[0] + 1, colour.start() + 1),
        what=f"the colour {colour[0]} has no quotes around it",
        why="a '#' after a space starts a comment, so the rest of the line is not read",
        fix=f'{line[: colour.start()]}"{colour[0]}"{line[colour.end() :]}'.strip(),
    )


def cut_text(kept: str, cut: str, place: Place) -> Problem:
    """A text without quotes of which YAML reads only what comes before its #."""
    cut = cut.strip()
    quote = "'" if '"' in kept + cut else '"'
    return Problem(
        place=place,
        what=f"only '{kept}' is read here; '{cut}' after it is taken for a comment",
        why="a '#' after a space starts a comment, so the rest of the text is lost",
        fix=f"{quote}{kept} {cut}{quote}, or a space and words after the # of a comment",
        severity=Severity.WARNING,
        check=check_of("cut-text", kept),
    )


def _inside(lines: tuple[str, ...], position: Position) -> Position:
    line = min(position[0], len(lines) - 1)
    return line, min(position[1], len(lines[line]))


def _tab(stop: _Stop) -> Problem | None:
    tab = _indentation(stop.line).find("\t")
    if tab < 0:
        return None
    return stop.problem(
        (stop.at[0], tab),
        "the line is indented with a tab",
        "editors show tabs at different widths, so it is unclear what belongs to what",
        "replace the tab with spaces, as many as on the lines beside it",
    )


def _open_quote(stop: _Stop) -> Problem | None:
    quote = stop.opened[:1]
    if quote not in _QUOTES or not stop.at_the_end:
        return None
    return stop.problem(
        stop.began,
        f"the quote {quote} opened here is never closed",
        "everything below it would become one text",
        f"{stop.lines[stop.began[0]].rstrip()}{quote}",
    )


def _backslash(stop: _Stop) -> Problem | None:
    if not stop.opened.startswith('"'):
        return None
    start = stop.lines[stop.began[0]][: stop.began[1]]
    return stop.problem(
        stop.at,
        "there is a backslash between double quotes",
        "there it changes the character after it",
        f"{start}{_quoted(stop.opened.strip().strip(chr(34)))}",
    )


def _colour_in_brackets(stop: _Stop) -> Problem | None:
    """The closing bracket is in a comment.

    At the end of a file the parser no longer gives the bracket's position: it is searched for from the start.
    """
    is_open = stop.opened[:1] in _CLOSING
    if not is_open and not stop.at_the_end:
        return None
    first = stop.began[0] if is_open else 0
    for number in range(first, stop.at[0] + 1):
        column = stop.began[1] if is_open and number == first else 0
        line = stop.lines[number]
        colour = unquoted_colour(line, stop.file, (number, column))
        if colour is not None and _is_in_brackets(line, colour.place.column - 1):
            return colour
    return None


def _is_in_brackets(line: str, column: int) -> bool:
    """Whether a bracket is open there, or one opened on an earlier line is closed after it."""
    before, behind = line[:column], line[column:]
    if before.lstrip().startswith("#"):
        return False
    return any(
        before.count(sign) > before.count(_CLOSING[sign]) or _CLOSING[sign] in behind for sign in _CLOSING
    )


def _open_bracket(stop: _Stop) -> Problem | None:
    closing = _CLOSING.get(stop.opened[:1])
    if closing is None or not (stop.at_the_end or (stop.at[0] > stop.began[0] and _KEY.match(stop.line))):
        return None
    return stop.problem(
        stop.began,
        f"the bracket {stop.opened[:1]} opened here is not closed",
        "the lines below would become part of it",
        f"{stop.lines[stop.began[0]].rstrip()}{closing}",
    )


def _in_brackets(stop: _Stop) -> Problem | None:
    closing = _CLOSING.get(stop.opened[:1])
    if closing is None:
        return None
    return stop.problem(
        stop.at,
        f"a comma or the closing {closing} is missing here",
        "it is unclear where one value ends and the next begins",
        (
            "put a comma between two values, and quotes around a text that contains "
            "a comma, a colon or a bracket"
        ),
    )


def _block_sign(stop: _Stop) -> Problem | None:
    return _needs_quotes(stop, stop.began) if stop.opened[:1] in (">", "|") else None


def _after_a_quote(stop: _Stop) -> Problem | None:
    quote = stop.before.rstrip()[-1:]
    if quote not in _QUOTES:
        return None
    if stop.before.count(quote) % 2:
        return stop.problem(
            stop.at,
            f"the quote {quote} before this closes one that was opened on an earlier line",
            "the lines between would become one text",
            f"put a closing {quote} on the line where the text ends",
        )
    key, text = _key_and_text(stop.line)
    whole = text[1:-1] if len(text) > 1 and text[0] == text[-1] == quote else text
    return stop.problem(
        stop.at,
        "the text continues after its closing quote",
        "the rest would be lost",
        f"{key}{_quoted(whole)}",
    )


def _second_colon(stop: _Stop) -> Problem | None:
    key, text = _key_and_text(stop.line)
    if stop.sign != ":" or len(key) > stop.at[1] or not key:
        return None
    return stop.problem(
        stop.at,
        "this line has a second ': '",
        "a colon and a space end a key, so the line would have two keys",
        f"{key}{_quoted(text)}",
    )


def _no_space_after_colon(stop: _Stop) -> Problem | None:
    number = stop.above if stop.sign == ":" else stop.began[0]
    line = stop.lines[number]
    glued = re.fullmatch(r"(\s*(?:- +)*[A-Za-z0-9_-]+):(\S.*)", line)
    if glued is None:
        return None
    return stop.problem(
        (number, len(glued[1])),
        "there is no space after the colon",
        "without it the whole line is one text and has no key",
        f"{glued[1]}: {glued[2]}",
    )


def _line_without_colon(stop: _Stop) -> Problem | None:
    number = stop.above if stop.sign == ":" else stop.began[0]
    line = stop.lines[number]
    if _KEY.match(line) or not line.strip() or line.lstrip().startswith(("-", "#", ":", "%")):
        return None
    return stop.problem(
        (number, len(_indentation(line))),
        f"'{line.strip()[:60]}' has no colon",
        "each line is a key and its value, or continues, indented, from the line above",
        f"{line.strip()[:60]}: its value",
    )


def _indented_further(stop: _Stop) -> Problem | None:
    indentation, above = _indentation(stop.line), _indentation(stop.lines[stop.above])
    if stop.sign != ":" or len(indentation) <= len(above):
        return None
    return stop.problem(
        (stop.at[0], len(indentation)),
        (f"the line is indented further than line {stop.above + 1}, which already has its value"),
        "indented lines belong to the line above",
        f"indent the line like the others in its group: {stop.line.strip()}",
    )


def _list_beside_key(stop: _Stop) -> Problem | None:
    if stop.sign != "-" or not stop.before.rstrip().endswith(":"):
        return None
    return stop.problem(
        stop.at,
        "the list begins on the same line as its key",
        "with dashes, each value needs its own line",
        f"{stop.before}[{stop.line[stop.at[1] :].lstrip('- ')}]",
    )


def _closes_nothing(stop: _Stop) -> Problem | None:
    if stop.sign not in ("]", "}") or stop.before.rstrip().endswith(":"):
        return None
    return stop.problem(
        stop.at,
        f"the bracket {stop.sign} closes nothing",
        "it is unclear what belongs together",
        f"{stop.before}{stop.line[stop.at[1] + 1 :]}",
    )


def _comma_too_many(stop: _Stop) -> Problem | None:
    if stop.sign != "," or not stop.before.rstrip().endswith(("[", "{", ",")):
        return None
    return stop.problem(
        stop.at,
        "there is no value before this comma",
        "the list would have a gap",
        f"{stop.before.rstrip()}{stop.line[stop.at[1] + 1 :]}",
    )


def _sign_at_the_start(stop: _Stop) -> Problem | None:
    starts_value = stop.before.rstrip().endswith((":", "-")) or not stop.before.strip()
    return _needs_quotes(stop, stop.at) if starts_value and stop.sign in tuple("@`%&*!?,]}") else None


def _out_of_line(stop: _Stop) -> Problem | None:
    if stop.before.strip() or not stop.sign:
        return None
    return stop.problem(
        stop.at,
        "the line is not aligned with those above it",
        "the spaces before a line show what it belongs to",
        f"indent the line like the others in its group: {stop.line.strip()}",
    )


def _unreadable(stop: _Stop) -> Problem:
    return stop.problem(
        stop.at,
        "the file cannot be read from here on",
        "its contents would be missing from every paper",
        "write key: value on each line, and quotes around a text with other signs",
    )


_SLIPS: Final = (
    _tab,
    _open_quote,
    _backslash,
    _colour_in_brackets,
    _open_bracket,
    _in_brackets,
    _block_sign,
    _after_a_quote,
    _second_colon,
    _no_space_after_colon,
    _line_without_colon,
    _indented_further,
    _list_beside_key,
    _closes_nothing,
    _comma_too_many,
    _sign_at_the_start,
    _out_of_line,
)
"""The first that fits is reported: narrow ones come before wide ones."""


def _needs_quotes(stop: _Stop, position: Position) -> Problem:
    line = stop.lines[position[0]]
    start, text = line[: position[1]], line[position[1] :].strip()
    return stop.problem(
        position,
        f"a text that begins with {text[:1]} needs quotes",
        f"without them {text[:1]} is read as punctuation, not as part of the text",
        f"{start}{_quoted(text)}",
    )


def _indentation(line: str) -> str:
    match = _INDENT.match(line)
    return match[0] if match else ""


def _key_and_text(line: str) -> tuple[str, str]:
    match = _KEY_AND_TEXT.match(line)
    return (f"{match[1]}: ", match[2].strip()) if match else ("", line.strip())


def _quoted(text: str) -> str:
    """The text in quotes that leave it unchanged."""
    if '"' in text or "\\" in text:
        doubled = text.replace("'", "''")
        return f"'{doubled}'"
    return f'"{text}"'

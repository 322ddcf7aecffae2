"""How a file is changed at random: its bytes, its lines, its values, and what is most to be feared in its sort."""

from collections.abc import Callable, Mapping
from random import Random
from typing import Final

Change = Callable[[bytes, Random], bytes]

_LONGEST_RUN: Final = 4_000
_VALUES: Final = (
    "",
    "~",
    "0",
    "-1",
    "0 g",
    "0 mm",
    "1e999",
    "NaN",
    "inf g",
    "9" * 400,
    "0.000000001 g",
    "999999999999 g",
    "100 %",
    "0 % of wax",
    "1000 % of total",
    "0001-01-01",
    "1900-01-01",
    "9999-12-31",
    "2024-02-29",
    "CON",
    "aux.jpg",
    "com1",
    "\\1",
    "\\n \\g<0>",
    "a\\",
    "../../x",
    "/etc/passwd",
    "=1+1",
    "{{ 7 * 7 }}",
    "{% for %}",
    "#panic()",
    "$x$",
    "<b>",
    "[a](/\\evil.example)",
    "[a](//evil.example)",
    "![a](b)",
    "> " * 60,
    "- " * 60 + "a",
    "1. " * 60,
    "[" * 300,
    "*" * 300,
    "\u202e",
    "\u0000",
    "\ud7ff",
    "é" * 300,
    "⌀",
    "x" * 9_999,
    "x" * 10_001,
    "yes",
    "no",
    "[]",
    "{}",
    "[[[[]]]]",
    "*a",
    "&a [*a]",
    "!!python/name:os.system",
    "|",
    ">",
    "'",
    '"',
    "@",
    "`",
    "2026-11-31",
    "12:00",
    "1_000",
    "٣",
    "½",
)
_MARKUP: Final = (
    "<g>" * 150 + "</g>" * 150,
    "<foreignObject/>",
    '<image href="#x.jpg" xml:base="/etc/"/>',
    '<use href="#a"/>',
    '<g id="a"><use href="#a"/></g>',
    '<filter id="f"><feTurbulence numOctaves="99999"/></filter>',
    "<rect/>" * 500,
    '<image href="data:image/png;base64,iVBORw0KGgo="/>',
    "<text>⌀</text>",
    "<!DOCTYPE svg [<!ENTITY a 'b'>]>",
    "&a;",
    "<style>*{fill:url(x)}</style>",
    '<path d="M0 0L1e999 1"/>',
    'width="1e99"',
    'viewBox="0 0 0 0"',
    "<svg",
    "</svg>",
    "<?xml version='1.0' encoding='utf-16'?>",
    "<script>1</script>",
    "]]>",
    "\0",
)
_TEMPLATE: Final = (
    "{% include 'pages/candle.html' %}",
    "{{ page.nothing }}",
    "{{ page }}",
    "{{ page|safe }}",
    "{{ 1/0 }}",
    "{% if %}",
    "{% endif %}",
    "{% block a %}",
    "{% extends 'x' %}",
    "{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}",
    "{{ [] * 9 }}",
    "{% set x = [1] %}{% set _ = x.append(x) %}{{ x }}",
    "{{ 'a' * 10 ** 9 }}",
    "{{ here('//x') }}",
    "{{ qr('x' * 9999) }}",
    "{% autoescape false %}",
    "{# ",
    "{{",
    "}}",
    "{%",
    "%}",
    "{{ page.title.format(x) }}",
    "{{ '%s' % 1 % 2 }}",
    "{{ ''[5] }}",
    "{{ here }}",
    "{{ asset('x') }}",
    "{{ part('x', 1) }}",
    "{{ None }}",
    "{{ 9 ** 9999 }}",
    "\x00",
    "{{ (" + "(" * 300,
    "{% for i in range(9) %}" * 30,
    "{{ '\\ud800' }}",
)
_TYPST: Final = (
    "#panic()",
    "#let f(x) = f(x)\n#f(1)",
    "#while true {}",
    '#include "/etc/passwd"',
    '#read("../../x")',
    "#(1/0)",
    '#import "@preview/a:1.0.0": *',
    '#image("x.svg")',
    "#x",
    "#(",
    "#{",
    "$",
    "*",
    "`",
    "#[",
    "]",
    "/*",
    "*/",
    "#set page(",
    "#set page(width: 0mm)",
    "#pagebreak() * 9",
    "#context here().page()",
    "#str(none)",
    "#range(9).map(x => x.y)",
    "⌀",
    "\x00",
    "#metadata(1) <too-large>",
    '#metadata((part: 1, needs_mm: "a", has_mm: none)) <too-large>',
    "#for x in (1,) { panic() }",
)
_OF_A_SORT: Final[Mapping[str, tuple[str, ...]]] = {
    ".svg": _MARKUP,
    ".html": _TEMPLATE,
    ".typ": _TYPST,
    ".css": (
        "}",
        "{",
        "/*",
        "*/",
        "svg{--a:<",
        'svg{--night:"',
        "url(https://x.example/a)",
        "@import 'x'",
        "\x00",
        ".a{fill:}",
    ),
    ".md": (
        "# a",
        "| a |\n|-|\n",
        "[a]: b\n",
        "<!-- a -->",
        "\n> > > > - 1. a",
        "    " * 30 + "a",
        "``",
        "[[[[](",
        "\n===\n",
        "\n\n",
    ),
}


def mutated(source: bytes, suffix: str, random: Random) -> bytes:
    """The bytes of a file of a sort after one to four changes."""
    changes: tuple[Change, ...] = (*_BYTES, *_LINES, *_LINES)
    snippets = _OF_A_SORT.get(suffix, _VALUES)
    if suffix in (".jpg", ".png", ".webp"):
        changes = _BYTES
    for _ in range(random.randint(1, 4)):
        if suffix not in (".jpg", ".png", ".webp") and random.random() < 0.3:
            source = _insert(source, random.choice(snippets).encode("utf-8", "surrogatepass"), random)
        else:
            source = random.choice(changes)(source, random)
    return source


def _at(source: bytes, random: Random) -> int:
    return random.randint(0, len(source))


def _insert(source: bytes, what: bytes, random: Random) -> bytes:
    at = _at(source, random)
    return source[:at] + what + source[at:]


def _other_byte(source: bytes, random: Random) -> bytes:
    at = _at(source, random)
    return source[:at] + random.randbytes(1) + source[at + 1 :]


def _new_bytes(source: bytes, random: Random) -> bytes:
    return _insert(source, random.randbytes(random.randint(1, 8)), random)


def _gap(source: bytes, random: Random) -> bytes:
    at = _at(source, random)
    return source[:at] + source[at + random.randint(1, 40) :]


def _cut_short(source: bytes, random: Random) -> bytes:
    return source[: _at(source, random)]


def _again(source: bytes, random: Random) -> bytes:
    first, last = sorted((_at(source, random), _at(source, random)))
    return source[:last] + source[first:last] + source[last:]


def _number(source: bytes, random: Random) -> bytes:
    """Four bytes of a head that may say a size."""
    at = random.randint(0, min(200, len(source)))
    what = random.choice((b"\xff\xff\xff\xff", b"\x00\x00\x00\x00", b"\x7f\xff\xff\xff", b"\x00\x00\x27\x10"))
    return source[:at] + what + source[at + 4 :]


_BYTES: Final[tuple[Change, ...]] = (_other_byte, _new_bytes, _gap, _cut_short, _again, _number)


def _line(change: Callable[[list[bytes], int, Random], None]) -> Change:
    def changed(source: bytes, random: Random) -> bytes:
        lines = source.split(b"\n")
        change(lines, random.randrange(len(lines)), random)
        return b"\n".join(lines)

    return changed


def _gone(lines: list[bytes], at: int, _: Random) -> None:
    del lines[at]


def _twice(lines: list[bytes], at: int, _: Random) -> None:
    lines.insert(at, lines[at])


def _over_and_over(lines: list[bytes], at: int, random: Random) -> None:
    lines[at : at + 1] = [lines[at]] * random.choice((3, 60, 600, 3_000))


def _moved(lines: list[bytes], at: int, random: Random) -> None:
    lines.insert(random.randrange(len(lines)), lines.pop(at))


def _indented(lines: list[bytes], at: int, random: Random) -> None:
    lines[at] = b" " * random.choice((1, 2, 4, 90)) + lines[at]


def _other_value(lines: list[bytes], at: int, random: Random) -> None:
    for sign in (b": ", b",", b" "):
        head, found, _ = lines[at].partition(sign)
        if found:
            lines[at] = head + found + random.choice(_VALUES).encode("utf-8", "surrogatepass")
            return


def _value_of_another(lines: list[bytes], at: int, random: Random) -> None:
    head, found, _ = lines[at].partition(b":")
    lines[at] = head + found + random.choice(lines).partition(b":")[2]


def _deeper(lines: list[bytes], at: int, random: Random) -> None:
    times = random.choice((5, 60, _LONGEST_RUN))
    opening, closing = random.choice(
        ((b"[", b"]"), (b"{a: ", b"}"), (b"- ", b""), (b"> ", b""), (b"(", b")"))
    )
    head, found, tail = lines[at].partition(b": ")
    lines[at] = head + found + opening * times + tail + closing * times


def _new_keys(lines: list[bytes], at: int, random: Random) -> None:
    name = lines[at].partition(b":")[0]
    lines[at:at] = [name + str(n).encode() + b": x" for n in range(random.choice((1, 90, 3_000)))]


_LINES: Final[tuple[Change, ...]] = tuple(
    _line(each)
    for each in (
        *(_gone, _twice, _over_and_over, _moved, _indented, _other_value, _other_value),
        *(_value_of_another, _deeper, _new_keys),
    )
)

"""What rules say to write holds no figure of its own: the maker's are put in, and all others are blanks."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import generator

ROOMS: Final = ("commands", "facts", "ledgers", "making", "reading", "rules")
NAMES: Final = re.compile(r"section [0-9]+|A4|UTF-8|kg/m3|chmod 600|\.0f")
KEPT: Final = (
    "use a point for decimals (3.5), and quotes around a text that contains the separator",
    "undisclosed: 0 % if section 3 lists everything, or undisclosed: ... % for the rest",
    "rows: 1, or delete this line",
    "points: [[0 mm, ... mm], [... mm, ... mm]]",
    "the first point at the base: [0 mm, diameter there]",
    "displaced: the volume of wick and holder, about 0.5 to 1 ml",
    "session: the number of the burn, counted from 1 for each piece",
    ": less than 100 %",
    "give --start a number from 1 to ",
    "write the language's rule as in Unicode CLDR, such as: i = 1 and v = 0",
)
"""Figures that are true of every shop; none of these passes as it stands."""


def _advice(source: str) -> Iterator[str]:
    """Every text that is written out behind ``fix=`` and ``fix = ``."""
    for node in ast.walk(ast.parse(source)):
        named = isinstance(node, ast.keyword) and node.arg == "fix"
        assigned = isinstance(node, ast.Assign) and any(
            isinstance(target, ast.Name) and target.id == "fix" for target in node.targets
        )
        if named or assigned:
            parts = ast.walk(node.value)  # type: ignore[attr-defined]
            yield from (
                each.value for each in parts if isinstance(each, ast.Constant) and str is type(each.value)
            )


def test_no_rule_offers_a_figure_of_its_own() -> None:
    room = Path(generator.__file__).parent
    texts = [
        text
        for name in ROOMS
        for file in sorted((room / name).rglob("*.py"))
        for text in _advice(file.read_text(encoding="utf-8"))
    ]

    assert len(texts) > 100
    assert [text for text in texts if re.search("[0-9]", NAMES.sub("", text)) and text not in KEPT] == []


def test_the_search_finds_a_figure() -> None:
    assert [*_advice('Fault(fix=f"{key}: 1000 g")\nfix = "at: 75 C"')] == ["at: 75 C", ": 1000 g"]

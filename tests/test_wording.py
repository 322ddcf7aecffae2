"""Problems are worded as a candle maker would say them: no phrase that reads as translated."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

GENERATOR: Final = Path(__file__).parent.parent / "generator"
ROOMS: Final = ("commands", "model", "reading", "rules", "facts", "ledgers", "making", "writing", "documents")
FILES: Final = ("arguments.py", "cli.py", "parser.py", "files.py", "letters.py", "problems.py")
BETTER: Final = {
    r"stands? (?:in|on|under|behind|here|there|below|beside|by itself)\b": "is in, contains",
    r"speaks? (?:for|against)\b": "as of",
    r"anew\b": "again",
    r"whoever (?!notified\b)": "anyone who",
    r"(?:somebody|anybody|nobody (?!but you))\b": "someone, anyone, no one",
    r"at fault\b": "has errors, is faulty",
    r"tells? every\b": "report all",
    r"(?:held|hold|holds) (?:against|back)\b": "compared with, checked against",
    r"plays? the risk down\b": "downplay the risk",
    r"leads? (?:nowhere|neither)\b": "is a broken link",
    r"(?:was|were) expected\b": "expected ...",
    r"cannot be told\b": "there is no telling, it is unclear",
    r"taken for harmless\b": "assumed unclassified",
    r"falls? away\b": "is not needed",
    r"(?:as|than) was meant\b": "as you meant",
    r"of its own accord\b": "by itself",
    r"in its turn\b": "in turn",
    r"(?<!there )is no (?:folder|list|number|file|VAT|whole)\b": "is not a",
}
"""Phrases that no problem holds, each with what to say in its place."""

_BANNED: Final = re.compile("|".join(rf"(?<!\w){phrase}" for phrase in BETTER))


def _texts(source: str) -> Iterator[str]:
    """Every string of a module, also within f-strings, but for docstrings."""
    tree = ast.parse(source)
    docstrings = {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in docstrings:
            yield node.value


def _translated(source: str) -> list[str]:
    """The texts with such a phrase; headings of files that shops keep, which begin with #, stay as they are."""
    return [text for text in _texts(source) if _BANNED.search(text) and not text.startswith("# ")]


def test_no_problem_reads_as_translated() -> None:
    modules = [
        *(GENERATOR / name for name in FILES),
        *(module for room in ROOMS for module in sorted((GENERATOR / room).rglob("*.py"))),
    ]

    found = {
        f"{module.relative_to(GENERATOR)}: {text}"
        for module in modules
        for text in _translated(module.read_text(encoding="utf-8"))
    }

    assert found == set(), f"say instead: {BETTER}"


def test_the_search_finds_a_phrase_and_passes_over_docstrings() -> None:
    source = '''
def fault(word):
    """What stands in the text."""
    return Fault(what=f"'{word}' stands in the text", why=_WHY, fix="delete the word")

_WHY = "whoever reads it would be misled"
'''

    assert sorted(_translated(source)) == ["' stands in the text", "whoever reads it would be misled"]

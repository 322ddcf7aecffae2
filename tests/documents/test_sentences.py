"""Sentences that a reader sees stand among the words of each language, and nowhere else."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.documents.sample_house import ROOT

CODE = sorted((ROOT / "generator" / "documents").rglob("*.py"))
PAGES = sorted((ROOT / "themes").rglob("*.html"))
PAPERS = sorted((ROOT / "themes").rglob("*.typ"))
RUN_OF_WORDS = re.compile(r"[A-Za-z]{2,} [a-z]{2,}(?: [a-z]+){2,}")
CLASS_OF_A_PAGE = r"\{% block kind %\}[^{]*\{% endblock %\}"
OF_COMMANDS = frozenset({"Fault", "ValueError", "TypeError"})
"""What is told to whoever types a command, which is in English."""


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def texts(node: ast.AST) -> Iterator[str]:
    """Every text in a tree of code but docstrings and what goes into faults."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in OF_COMMANDS:
        return
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return
    for below in ast.iter_child_nodes(node):
        yield from texts(below)


def is_markup(text: str) -> bool:
    return any(sign in text for sign in "<>{=")


@pytest.mark.parametrize("path", CODE, ids=named)
def test_no_sentence_stands_in_the_code_of_a_paper(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))

    assert [text for text in texts(tree) if RUN_OF_WORDS.search(text) and not is_markup(text)] == []


@pytest.mark.parametrize("path", PAGES, ids=named)
def test_no_word_stands_in_a_template(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    passages = (
        CLASS_OF_A_PAGE,
        r"\{#.*?#\}",
        r"<(style|script)\b.*?</\1>",
        r"\{%.*?%\}",
        r"\{\{.*?\}\}",
        r"<!?[a-z/][^>]*>",
    )
    for passage in passages:
        text = re.sub(passage, " ", text, flags=re.DOTALL)

    assert re.findall(r"[A-Za-z]{2,}", text) == []


@pytest.mark.parametrize("path", PAGES, ids=named)
def test_no_attribute_that_is_read_aloud_is_written_in_a_template(path: Path) -> None:
    read_aloud = r"\b(?:alt|aria-label|placeholder|title)=\"[^\"{]*[A-Za-z]"

    assert re.findall(read_aloud, path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("path", PAPERS, ids=named)
def test_no_sentence_stands_in_a_paper(path: Path) -> None:
    lines = (
        line for line in path.read_text(encoding="utf-8").splitlines() if not line.lstrip().startswith("//")
    )
    written = (found for line in lines for found in re.findall(r"\[([^\]#]*)\]|\"([^\"]*)\"", line))

    assert [text for pair in written for text in pair if RUN_OF_WORDS.search(text)] == []

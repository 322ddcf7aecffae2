"""Every warning may be accepted by the name of its check, or stands here as a duty."""

import ast
from collections.abc import Iterator
from pathlib import Path

import generator

DUTIES = {
    "facts/hazard_facts.py": 1,  # A UFI that the label needs.
    "reading/shop_secret.py": 2,  # Recipes and keys under version control, and a version control that cannot be asked.
    "rules/entries/acceptance.py": 1,  # What was accepted and is needed no more.
    "rules/burning/guidance.py": 1,  # A burn longer than the usual safety advice.
    "rules/entries/ledger_checks.py": 1,  # What was issued with letters that nobody can print.
    "rules/entries/recall_checks.py": 2,  # A recall without a remedy, or with words that play the risk down.
    "rules/entries/maker_checks.py": 1,  # Nobody who answers for the candles in a market.
    "rules/entries/link_checks.py": 2,  # Links that open what they should not.
    "rules/hazards/compositions.py": 7,  # A safety data sheet that is missing, too old or at odds with itself.
    "rules/hazards/sheet_age.py": 1,  # A sheet by rules that no label is made by.
    "rules/wax/temperatures.py": 1,  # An oil at its flash point.
    "documents/link_previews.py": 1,  # A site without https.
    "making/lot_hazards.py": 1,  # A lot whose sheet says other hazards than its recipe has.
}
"""How many warnings of each module stay for as long as their reason does."""

_SETTLED_ELSEWHERE = {"reading/source_file.py"}
"""It makes whatever names a check a warning."""


def _without_a_check(tree: ast.AST) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            given = {each.arg: ast.unparse(each.value) for each in node.keywords}
            warns = "WARNING" in given.get("severity", "") or ast.unparse(node.func) == "warning"
            if warns and "check" not in given:
                yield node


def test_every_warning_names_its_check_or_is_a_duty() -> None:
    room = Path(generator.__file__).parent
    found = {
        file.relative_to(room).as_posix(): len(
            [*_without_a_check(ast.parse(file.read_text(encoding="utf-8")))]
        )
        for file in room.rglob("*.py")
    }

    assert {
        name: count for name, count in found.items() if count and name not in _SETTLED_ELSEWHERE
    } == DUTIES

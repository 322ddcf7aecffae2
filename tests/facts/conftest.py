"""The first shop with changes of a test's own, and what comes of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.facts.facts import Facts
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop
from generator.making.options import CommandOptions
from generator.model.burn_safety import BurnHours

Change = str | tuple[str, str]
"""A whole file, or a text in it and what stands there now."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """The facts by stock code, and every problem as printed, with its file below the content folder."""

    facts: Mapping[str, Facts]
    problems: tuple[str, ...]

    def hours(self, stock_code: str = "WG-20") -> BurnHours:
        """The burn hours of one stock code."""
        hours = self.facts[stock_code].burn_hours
        assert hours is not None
        return hours


ChangeShop = Callable[[Mapping[str, Change]], Changed]

_LOSSES_G_PER_H = {"A": 5.0, "B": 5.2, "C": 4.9}

THREE_PIECES = "piece,session,hours,before_g,after_g,outcome,note\n" + "".join(
    f"{piece},{session + 1},4,{lit - 4 * session * rate:g},{lit - 4 * (session + 1) * rate:g},ok,\n"
    for lit, (piece, rate) in enumerate(_LOSSES_G_PER_H.items(), start=400)
    for session in range(8)
)
"""Three pieces burnt through in eight sessions of four hours: tested, and 27 h to claim."""

TESTED: Mapping[str, Change] = {"burn-tests/WG-20.csv": THREE_PIECES}


@pytest.fixture(name="change_shop")
def _change_shop(shop_folder: Path, ask: Callable[[Path], CommandOptions]) -> ChangeShop:
    def changed(changes: Mapping[str, Change]) -> Changed:
        for file, change in changes.items():
            _write(shop_folder / file, change)
        asked = ask(shop_folder)
        known = load_shop(asked)
        found = known.facts if isinstance(known, LoadedShop) else ()
        return Changed(
            facts={facts.stock_code: facts for _, facts in found},
            problems=tuple(
                str(problem).replace(f"{shop_folder.as_posix()}/", "") for problem in known.problems
            ),
        )

    return changed


def _write(path: Path, change: Change) -> None:
    if isinstance(change, str):
        path.parent.mkdir(exist_ok=True)
        path.write_text(change, encoding="utf-8")
        return
    before, after = change
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")

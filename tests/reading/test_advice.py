"""What to write in place of a wrong value: pasted as it stands, it passes only with the maker's own figures in it.

Every field of every entry is given wrong values of many sorts. Each advice, and each of its alternatives, is pasted
where the fault was found. Where the field is sound then, every number in it must be one that the maker wrote (or that
one exactly in another unit), its unit must be the one she wrote, and every word one she wrote or one of the program's.
"""

import re
import shutil
from collections.abc import Iterator
from copy import deepcopy
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any, Final

import pytest
from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from generator.model import dates
from generator.model.burn_tests import Session
from generator.model.hazard_classes import CODES
from generator.model.lots import Lot
from generator.model.materials import Constituent
from generator.model.money import CURRENCIES
from generator.model.trade import PriceRow
from generator.problems import START, Places
from generator.reading.faults import Misfit, Written, misfit_of
from generator.reading.fields import about, bare, choices, form, keys_of
from generator.reading.located import located
from generator.reading.wording import worded
from tests.reading.broken_shops import GOOD, told_of_shop
from tests.reading.test_keys import PARTS

FILE: Final = "entry.yaml"
UNITS: Final = (
    "mm", "cm", "g", "kg", "oz", "ml", "h", "min", "C", "F", "%", "% of wax", "% w/w", "ppm", "mg/kg", "mg/l", "g/ml",
    "GBP", "p", "parts", "lbs", "weeks",
)  # fmt: skip
ALIKE: Final = {
    "% w/w": ("%",),
    "ppm": ("ppm", "%"),
    "p": (" p", "GBP"),
    "lbs": ("lb",),
    "weeks": ("weeks", "days"),
}
"""Other words for a unit, and those whose numbers are turned exactly into another unit."""

FACTORS: Final = tuple(map(Decimal, ("1", "100", "0.01", "0.0001", "7")))
"""0.5 of a whole in percent, pence in pounds, parts per million in percent, weeks in days."""

WRONG: Final[tuple[Any, ...]] = (
    "10", "0.5", "62", "-5", "1900", "", "...", "X", "trace", "unknown", "none", "Not classified", "cheap", "three",
    "5-10", "18-20", "> 5 %", "up to 5 %", "5 % max", "5,5 %", "M=10", "LD50 1150 mg/kg", "1/2/2026", "2026-13-01",
    "soon", "FW/20", "my fig (1).jpg", "Skn Sens. 1B", "Eye Irrit. 3", "Acute Tox. 4", "0.90 g/ml", "7 bananas",
    "clear 25",
    [], ["7 mm"], ["x", "7"], [[]], [{}], {}, {"x": "7"}, {"shape": "tube"}, {"to": "62"}, {"weight": ["7 g"]},
    *(f"7 {unit}" for unit in UNITS),
)  # fmt: skip


def _words(value: Any) -> frozenset[str]:
    """Every word in a value, keys included."""
    return frozenset(re.findall(r"[A-Za-zé]+", str(value).lower()))


def _numbers(value: Any) -> list[Decimal]:
    found = re.compile(r"(?<![A-Za-z])[0-9]+(?:[.,][0-9]+)?")
    return [Decimal(number.replace(",", ".")) for text in _texts(value) for number in found.findall(text)]


def _texts(value: Any) -> Iterator[str]:
    """Every text in a value; names of classes are words, and their categories are no figures of hers."""
    if isinstance(value, dict):
        value = [*value.values()]
    for each in value if isinstance(value, list) else ():
        yield from _texts(each)
    if isinstance(value, str):
        yield value


def _vocabulary() -> Iterator[str]:
    """The program's own words: keys, choices, units and currencies."""
    for part in PARTS:
        for key, field in keys_of(part).items():
            yield key
            yield from choices(bare(field))
    yield from (
        *UNITS,
        *CURRENCIES,
        "mj",
        "kj",
        "us",
        "imp",
        "fl",
        "of",
        "water",
        "at",
        "total",
        "wax",
        "days",
        "drops",
    )
    yield from (
        "yes",
        "no",
        "inch",
        "inches",
        "lb",
        "mg",
        "m",
        "l",
        "cl",
        "in",
        "blocks",
        "tsp",
        "per",
        "unknown",
    )


OURS: Final = frozenset(word for text in _vocabulary() for word in _words(text))


@cache
def _adapter(part: Any) -> TypeAdapter[Any]:
    return TypeAdapter(part)


def _faults(part: Any, key: str, data: dict[str, Any]) -> list[ErrorDetails]:
    """What is wrong with one key of a part of an entry."""
    try:
        _adapter(part).validate_python(data)
    except ValidationError as error:
        return [each for each in error.errors(include_url=False) if each["loc"][:1] == (key,)]
    return []


@cache
def _read(line: str) -> Any:
    """What a line of an entry says; None where it cannot be read."""
    found = located(line.encode(), FILE)
    return None if found.problems else found.data


def _alternatives(fix: str) -> Iterator[str]:
    yield fix
    key, colon, value = fix.partition(": ")
    start = f"{key}{colon}" if re.fullmatch(r"[a-z0-9_-]+", key) and colon else ""
    for each in re.split(r",? or |, ", re.sub(r" \([^)]*\)", "", value if start else fix)):
        yield f"{start}{each}"


def _pasted(misfit: Misfit, data: dict[str, Any], line: str) -> dict[str, Any] | None:
    """The entry with a line in place of what was at fault; None where the line is no YAML."""
    wanted = deepcopy(data)
    read = _read(line) if ": " in line else None
    steps = list(misfit.path[1:])
    if isinstance(read, dict) and len(read) == 1:
        name, value = next(iter(read.items()))
        while steps and steps[-1] != name and name in (each for each in steps if isinstance(each, str)):
            steps.pop()
        is_added = bool(misfit.beyond)
        holder = _within(wanted, steps if is_added else steps[:-1])
        if isinstance(holder, dict):
            if not is_added:
                holder.pop(steps[-1], None)
            holder[name] = value
            return wanted
    item = _read(f"x: {line}")
    holder = _within(wanted, steps[:-1])
    if item is None or misfit.beyond or not steps or not isinstance(holder, dict | list):
        return None
    holder[steps[-1]] = item["x"]  # type: ignore[index]
    return wanted


def _within(data: Any, steps: list[Any]) -> Any:
    for step in steps:
        data = data[step] if isinstance(data, list) or (isinstance(data, dict) and step in data) else None
    return data


def _invented(wrong: Any, pasted: Any) -> str | None:
    """What in a value that passes is not the maker's own."""
    if any(text in CODES or text.rpartition(" ")[0] in CODES for text in _texts(pasted)):
        return (
            None  # The name and the statement of a class come from the law; its category is tested by itself.
        )
    allowed = {number * factor for number in _numbers(wrong) for factor in FACTORS}
    numbers = [number for number in _numbers(pasted) if number not in allowed]
    if numbers and not (wrong == "three" and numbers == [3]):
        return f"the figure {numbers[0]}"
    unit, said = str(wrong).partition(" ")[2], " ".join(_texts(pasted))
    if unit in UNITS and _numbers(pasted) and not any(each in said for each in ALIKE.get(unit, (unit,))):
        return f"not the unit {unit}"
    words = _words(pasted) - _words(wrong) - OURS
    return f"the words {sorted(words)}" if words else None


def _is_named_alike(part: Any, key: str, wrong: Any, pasted: Any) -> bool:
    """Whether it is her own word as a name of which other signs than letters and digits are no part."""
    slugs = [re.sub("[^a-z0-9]+", "-", str(each).lower()).strip("-") for each in (wrong, pasted)]
    return slugs[0] == slugs[1] and not _faults(part, key, {key: "x-y"})


def _advice(part: Any, key: str, wrong: Any, file: str = FILE) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each alternative that is offered, and the part with it in the place of the fault."""
    data = {key: wrong}
    places = Places(shown_as="content", files={file: lambda: START})
    written = Written(kind=part, noun="an entry", data=data, at=(file,), places=places)
    for error in _faults(part, key, data):
        misfit = misfit_of(error, written)
        for problem in worded([error], written):
            for line in _alternatives(problem.fix):
                pasted = _pasted(misfit, data, line)
                if pasted is not None:
                    yield problem.fix, pasted


IN_FILES = [
    *((part, FILE) for part in PARTS),
    *((part, "table.csv") for part in (Constituent, Lot, PriceRow, Session)),
]


@pytest.mark.parametrize(("part", "file"), IN_FILES, ids=lambda each: getattr(each, "__name__", each))
def test_no_advice_passes_with_what_the_maker_did_not_write(part: Any, file: str) -> None:
    invented = set()
    for key, field in keys_of(part).items():
        for wrong in WRONG if key != "id" else ():
            for fix, pasted in _advice(part, key, wrong, file):
                new = pasted.get(key)
                # A word that a key takes is a choice, as one of a list is.
                if new in (None, wrong, dates.TODAY, *choices(bare(field))) or _faults(part, key, pasted):
                    continue
                what = None if _is_named_alike(part, key, wrong, new) else _invented(wrong, new)
                invented |= {f"{key}: {wrong!r} -> {fix!r}: {what}"} if what else set()

    assert sorted(invented) == []


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.__name__)
def test_no_form_of_a_field_passes_as_it_stands(part: Any) -> None:
    passed = []
    for key, field in keys_of(part).items():
        read = _read(f"{key}: {form(field)}") if key != "id" else None
        if isinstance(read, dict) and not _faults(part, key, read) and len(choices(bare(field))) != 1:
            passed.append(key)

    assert [key for key in passed if key not in ("note", "soot")] == []  # They take any text of a cell.


def test_what_was_tested_is_never_to_be_renamed(tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(GOOD, content)
    notes = content / "burn-tests" / "TT-30.yaml"
    notes.write_text(notes.read_text(encoding="utf-8").replace("tumbler", "clear-25"), encoding="utf-8")

    assert told_of_shop(content) == (
        "content/burn-tests/TT-30.yaml:2:11: error: there is no vessel 'clear-25' in content/vessels\n"
        "    why: whether the test counts for a candle depends on it\n"
        "    fix: keep an entry for what was tested, under this name; a test keeps what it was made with\n"
    )


def test_the_search_finds_an_advice_that_invents() -> None:
    assert _invented("m: 10", "1") == "the figure 1"
    assert _invented("7 p", "7") == "not the unit p"
    assert _invented("clear 25", "Larder Lane 25") == "the words ['lane', 'larder']"
    assert about(None).why

"""Statements and symbols, held against tables that others published under free licences.

Texts: the LaTeX package ghsystem, English (LPPL 1.3c; in Debian's texlive-science); its wording is that of 2008 to
2011, so that it is no source for what was amended since. Symbols: ghs-hazard-pictogram (PyPI, MIT), which says
which classes each symbol is for.
"""

import os
import re
from pathlib import Path

import pytest
from ghs_hazard_pictogram.data import GHS_HAZARDS

from generator.model.hazard_classes import CODES
from generator.reading.languages import wording
from generator.rules.hazards.label import ALLOCATION

TEXMF = Path(os.environ.get("TEXMFDIST", "/usr/share/texlive/texmf-dist"))
ENGLISH = TEXMF / "tex/latex/ghsystem/language/ghsystem_english.def"

_STATEMENT = re.compile(
    r"\\ghsystem_add_statement:nnn \{(\w+)\} \{ ([^}]*) \}\s*\{((?:[^{}]|\{[^{}]*\})*)\}", re.DOTALL
)

NOT_THERE = {"P362+P364", "EUH380", "EUH381", "EUH430", "EUH431", "EUH440", "EUH441", "EUH450", "EUH451"}
"""Younger than the package: Reg. (EU) No 487/2013 and Reg. (EU) 2023/707."""

DIFFERENT = {
    "H334": "the package prints 'orbreathing'",
    "EUH208": "the package leaves the gap for the name out",
    "P103": "amended by Reg. (EU) 2019/521; was 'Read label before use.'",
    "P280": "'hearing protection' was added by Reg. (EU) 2019/521",
    "P301+P312": "'or doctor/physician' became '/doctor/...'",
    "P302+P352": "'soap and water' became 'water/...'",
    "P304+P340": "'victim ... at rest in a position comfortable' became 'person ... comfortable'",
    "P310": "'or doctor/physician' became '/doctor/...'",
    "P311": "'or doctor/physician' became '/doctor/...'",
    "P312": "'or doctor/physician' became '/doctor/...'",
}
"""Where our texts, read in the law of 1 July 2026, rightly differ."""


def _package_texts() -> dict[str, str]:
    written = ENGLISH.read_text(encoding="utf-8")
    return {
        "+".join(f"{kind}{number.strip()}" for number in numbers.split("+")): _plain(text)
        for kind, numbers, text in _STATEMENT.findall(written)
    }


def _plain(tex: str) -> str:
    """The sentence that a statement of the package prints without its optional parts."""
    tex = re.sub(r"\\bool_if:NF \\l_ghsystem_organs_bool \{([^}]*)\}", r"\1", tex)
    tex = tex.replace(r"\ghsystem_slash:", "/").replace(r"\c_space_tl", "~")
    tex = re.sub(r"\\l_ghsystem_dots_tl\\?", "…~", re.sub(r"\\ghsystem_\w+:", "", tex))
    return _compared("".join(tex.split()).replace("~", " "))


def _compared(text: str) -> str:
    return " ".join(re.sub(r"[.…]", " ", text).split())


def _our_texts() -> dict[str, str]:
    return {code: _compared(statement.text) for code, statement in wording("en").statements.items()}


@pytest.mark.skipif(not ENGLISH.is_file(), reason="the package ghsystem is not installed here")
def test_english_statements_are_worded_as_in_a_public_table_but_for_the_amended_ones() -> None:
    theirs, ours = _package_texts(), _our_texts()

    assert {code for code in ours if code not in theirs} == NOT_THERE
    assert {code for code, text in ours.items() if code in theirs and theirs[code] != text} == set(DIFFERENT)


LONG_NAMES = {
    "Acute Tox.": "Acute toxicity",
    "Skin Corr.": "Skin corrosion",
    "Skin Irrit.": "Skin irritation",
    "Skin Sens.": "Skin sensitization",
    "Eye Dam.": "Serious eye damage",
    "Eye Irrit.": "Eye irritation",
    "Resp. Sens.": "Respiratory sensitization",
    "Muta.": "Germ cell mutagenicity",
    "Carc.": "Carcinogenicity",
    "Repr.": "Reproductive toxicity",
    "STOT SE": "Specific target organ toxicity following single exposure",
    "STOT RE": "Specific target organ toxicity following repeated exposure",
    "Asp. Tox.": "Aspiration hazard",
    "Aquatic Acute": "Acute hazards to the aquatic environment",
    "Aquatic Chronic": "Chronic hazards to the aquatic environment",
}

WITH_A_SYMBOL = [
    (name, symbol)
    for name, codes in CODES.items()
    for symbol in {ALLOCATION[code[:4]][0] for code in codes if code[:4] in ALLOCATION}
    if name.rsplit(" ", 1)[0] in LONG_NAMES
]


def _symbols_of(name: str) -> set[str | None]:
    """The symbols under whose uses the package lists a class and its category, with or without subcategories."""
    kind, category = name.rsplit(" ", 1)
    found: set[str | None] = {
        str(entry["code"])
        for entry in GHS_HAZARDS
        for line in str(entry["usage"]).splitlines()
        if line.strip(" -").startswith(LONG_NAMES[kind])
        and any(listed.startswith((category, category[0])) for listed in re.findall(r"\b\d[A-C]?\b", line))
        and str(entry["code"]).startswith("GHS")
    }
    return found or {None}


@pytest.mark.parametrize(("name", "symbol"), WITH_A_SYMBOL, ids=[name for name, _ in WITH_A_SYMBOL])
def test_each_class_has_the_symbol_that_a_public_table_gives_it(name: str, symbol: str | None) -> None:
    assert _symbols_of(name) == {symbol}

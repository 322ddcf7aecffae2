"""Hazard classes as safety data sheets spell them: 'Skin Sens. 1B H317' and its many variants."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from typing import Annotated, Final

from pydantic import BeforeValidator

from generator.model.quantities import as_text, wrong

REPR_1: Final = ("H360", "H360F", "H360D", "H360FD", "H360Fd", "H360Df")
REPR_2: Final = ("H361", "H361f", "H361d", "H361fd")

CODES: Final[Mapping[str, tuple[str, ...]]] = {
    "Flam. Liq. 1": ("H224",), "Flam. Liq. 2": ("H225",), "Flam. Liq. 3": ("H226",),
    "Flam. Sol. 1": ("H228",), "Flam. Sol. 2": ("H228",),
    "Self-heat. 1": ("H251",), "Self-heat. 2": ("H252",),
    "Ox. Liq. 1": ("H271",), "Ox. Liq. 2": ("H272",), "Ox. Liq. 3": ("H272",),
    "Ox. Sol. 1": ("H271",), "Ox. Sol. 2": ("H272",), "Ox. Sol. 3": ("H272",),
    "Met. Corr. 1": ("H290",),
    "Acute Tox. 1": ("H300", "H310", "H330"), "Acute Tox. 2": ("H300", "H310", "H330"),
    "Acute Tox. 3": ("H301", "H311", "H331"), "Acute Tox. 4": ("H302", "H312", "H332"),
    "Asp. Tox. 1": ("H304",),
    "Skin Corr. 1": ("H314",), "Skin Corr. 1A": ("H314",), "Skin Corr. 1B": ("H314",),
    "Skin Corr. 1C": ("H314",),
    "Skin Irrit. 2": ("H315",),
    "Skin Sens. 1": ("H317",), "Skin Sens. 1A": ("H317",), "Skin Sens. 1B": ("H317",),
    "Eye Dam. 1": ("H318",), "Eye Irrit. 2": ("H319",),
    "Resp. Sens. 1": ("H334",), "Resp. Sens. 1A": ("H334",), "Resp. Sens. 1B": ("H334",),
    "Muta. 1A": ("H340",), "Muta. 1B": ("H340",), "Muta. 2": ("H341",),
    "Carc. 1A": ("H350", "H350i"), "Carc. 1B": ("H350", "H350i"), "Carc. 2": ("H351",),
    "Repr. 1A": REPR_1, "Repr. 1B": REPR_1, "Repr. 2": REPR_2, "Lact.": ("H362",),
    "STOT SE 1": ("H370",), "STOT SE 2": ("H371",), "STOT SE 3": ("H335", "H336"),
    "STOT RE 1": ("H372",), "STOT RE 2": ("H373",),
    "Aquatic Acute 1": ("H400",), "Aquatic Chronic 1": ("H410",), "Aquatic Chronic 2": ("H411",),
    "Aquatic Chronic 3": ("H412",), "Aquatic Chronic 4": ("H413",),
    "Ozone 1": ("H420",),
    "ED HH 1": ("EUH380",), "ED HH 2": ("EUH381",), "ED ENV 1": ("EUH430",), "ED ENV 2": ("EUH431",),
    "PBT": ("EUH440",), "vPvB": ("EUH441",), "PMT": ("EUH450",), "vPvM": ("EUH451",),
    "EUH066": ("EUH066",),
}  # fmt: skip
"""Every class a constituent may have and the statements it may carry (CLP Annex VI Table 1.1 and Annex III,
MEMORY; those met in Annex VI Table 3 FOUND). EUH066 is not a class, but sheets list it like one."""

ROUTES: Final[Mapping[str, str]] = {
    "oral": "H300 H301 H302", "dermal": "H310 H311 H312", "inhal": "H330 H331 H332",
}  # fmt: skip

_ALONE: Final[Mapping[str, str]] = {
    "H228": "Flam. Sol. 2", "H271": "Ox. Liq. 1", "H272": "Ox. Liq. 3", "H314": "Skin Corr. 1",
    "H317": "Skin Sens. 1", "H334": "Resp. Sens. 1", "H340": "Muta. 1B", "H350": "Carc. 1B",
    "H350i": "Carc. 1B",
    **dict.fromkeys(REPR_1, "Repr. 1B"),
}  # fmt: skip
"""The class assumed where a sheet gives only a statement that several classes share with the same effect in a
candle, or where the category is left open (H314, H317, H334). CHOICE."""

_UN_ONLY: Final = frozenset({
    "h303", "h305", "h313", "h316", "h320", "h333", "h401", "h402", "acute tox 5", "skin irrit 3",
    "eye irrit 2b", "aquatic acute 2", "aquatic acute 3", "asp tox 2", "flam liq 4",
})  # fmt: skip
"""Categories of the UN system that neither the EU nor Great Britain adopted (acute 5, skin 3 and aquatic
acute 2 and 3 FOUND in UN ST/SG/AC.10/C.4/2008/23; the others MEMORY)."""

_LONG_WORDS: Final = (
    (r"sensiti[sz](?:ation|er|ing)", "sens"), (r"irritation|irritant", "irrit"),
    (r"corrosion|corrosive", "corr"), (r"serious eye damage|eye damage", "eye dam"),
    (r"acute toxicity", "acute tox"), (r"respiratory", "resp"),
    (r"carcinogenicity|carcinogen", "carc"), (r"germ cell mutagenicity|mutagenicity", "muta"),
    (r"reproductive toxicity|repro?\b", "repr"), (r"aspiration (?:hazard|toxicity)", "asp tox"),
    (r"flammable liquids?", "flam liq"), (r"flammable solids?", "flam sol"), (r"eye irrit 2a", "eye irrit 2"),
    (r"\b1 (?=[abc]\b)", "1"),
)  # fmt: skip

EMPTY: Final = "[]"
WHY_OF_CLASSES: Final = "the candle's own hazard label is calculated from it"
_STATEMENT: Final = re.compile(r"\b(EUH\d{3}|H\d{3}[A-Za-z]{0,2})\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, order=True)
class HazardClass:
    """One hazard class with its category, and the code of its statement."""

    name: str
    code: str

    @property
    def kind(self) -> str:
        """The class without its category: ``Skin Sens.``."""
        return self.name.rsplit(" ", 1)[0]

    def __str__(self) -> str:
        return self.name if self.name == self.code else f"{self.name} {self.code}"


def _spelt(text: str) -> str:
    """A name as it is looked up: lower case, no full stops, abbreviated words."""
    plain = re.sub(r"\b(?:category|categories|cat)\b", " ", re.sub(r"[.,;:*()\[\]_]", " ", text.lower()))
    plain = " ".join(re.sub(r"\s+[-–]\s*|\s*[-–]\s+", " ", plain).split())
    for long, short in _LONG_WORDS:
        plain = re.sub(long, short, plain)
    return plain


_NAMES: Final = {_spelt(name): name for name in CODES}
_STATEMENTS: Final = {code.lower(): code for codes in tuple(CODES.values())[::-1] for code in codes[::-1]}


UNKNOWN: Final = HazardClass("unknown", "unknown")
"""Replaces the classes of a constituent whose sheet does not say whether it has any."""

_NONE: Final = frozenset({
    "not classified", "unclassified", "none", "not hazardous", "non-hazardous", "no classification",
    "nicht eingestuft", "non classé",
})  # fmt: skip
"""How sheets say that a constituent has no class."""


def hazard_class(written: object) -> HazardClass:
    """A class, its statement, or both, in any of the common spellings."""
    text = " ".join(str(written).split())
    return UNKNOWN if text.lower() == UNKNOWN.name else _hazard_class(text)


@lru_cache(maxsize=1024)
def _hazard_class(text: str) -> HazardClass:
    """Remembered, because sheets repeat the same few."""
    statements = _STATEMENT.findall(text)
    if len(statements) > 1:
        raise wrong(
            f"is '{text}', with {len(statements)} statements",
            WHY_OF_CLASSES,
            "each class separately, with its own statement",
        )
    code = _known_statement(statements[0], text) if statements else None
    spelt = _spelt(re.sub(r"\(.*?\)", " ", _STATEMENT.sub(" ", text)))
    if not spelt and code is not None:
        return HazardClass(_class_of(code, text), code)
    route = next((route for route in ROUTES if route in text.lower()), None)
    return _with_statement(_named(spelt, text), route, code, text)


def _known_statement(written: str, text: str) -> str:
    exact = next((code for codes in CODES.values() for code in codes if code == written), None)
    known = exact or _STATEMENTS.get(written.lower())
    if known is None:
        raise _not_used(text) if written.lower() in _UN_ONLY else _unknown(text)
    return known


def _class_of(code: str, text: str) -> str:
    """The class that a statement alone means."""
    names = [name for name, codes in CODES.items() if code in codes]
    if code not in _ALONE and len(names) > 1:
        choice = ", or ".join(f"{name} {code}" for name in names)
        raise wrong(f"is '{text}', which may be {names[0]} or {names[1]}", WHY_OF_CLASSES, choice)
    return _ALONE.get(code, names[0])


_LONGEST: Final = 60
"""Letters of a name that is looked up; no class has so many, and comparing takes quadratic time."""


def _named(spelt: str, text: str) -> str:
    """The class's name, optionally followed by a route of exposure."""
    bare = " ".join(word for word in spelt.split() if not word.startswith(tuple(ROUTES)))
    name = _NAMES.get(bare)
    if name is None and bare in _UN_ONLY:
        raise _not_used(text)
    if name is None:
        raise _unknown(text, _near(bare[:_LONGEST]))
    return name


def _near(spelt: str) -> str:
    """The class meant by a misspelling: only one of the same category, because that is the maker's figure."""
    category = spelt.rpartition(" ")[2]
    same = [
        each for each in _NAMES if each.rpartition(" ")[2] == category and any(map(str.isdigit, category))
    ]
    close = get_close_matches(spelt, same, n=1, cutoff=0.5)
    return _NAMES[close[0]] if close else ""


def _with_statement(name: str, route: str | None, code: str | None, text: str) -> HazardClass:
    """The class with the one statement that belongs to it."""
    codes = CODES[name]
    if route is not None:
        codes = tuple(c for c in codes if c in ROUTES[route].split()) or codes
    if code is None and len({c[:4] for c in codes}) > 1:
        choice = ", or ".join(f"{name} {c}" for c in codes)
        raise wrong(
            f"is '{text}', without its statement",
            "each route of exposure and each effect counts separately",
            choice,
        )
    if code is not None and code not in codes:
        either = [f"{name} {c}" for c in codes] + [f"{n} {code}" for n, held in CODES.items() if code in held]
        raise wrong(
            f"is '{text}'; {name} is {' or '.join(codes)}, and {code} is another class",
            WHY_OF_CLASSES,
            ", or ".join(either),
        )
    return HazardClass(name, code or codes[0])


def _unknown(text: str, near: str = "") -> Exception:
    return wrong(f"is '{text}'; expected a hazard class", WHY_OF_CLASSES, near)


def _not_used(text: str) -> Exception:
    return wrong(
        f"is '{text}', a category that EU and GB law do not use",
        "it adds nothing to the candle's label there",
        "delete it, or write [] if it is the only one",
    )


def with_statements(written: object) -> object:
    """A list of classes in which a statement may be a separate item after its class.

    Sheets print 'Acute Tox. 4; H302'. Both items then hold the whole, so that a fault keeps its place. A table's cell
    is ``[]`` where section 3 gives no class.
    """
    if isinstance(written, str) and written.strip().lower() in _NONE:
        raise wrong(f"is '{written}'; expected a list of classes", WHY_OF_CLASSES, EMPTY)
    if not isinstance(written, list):
        return written
    items = [str(item).strip() for item in written if written != [EMPTY]]
    for at, item in enumerate(items[1:], start=1):
        if _STATEMENT.fullmatch(item) and not _STATEMENT.search(items[at - 1]):
            items[at - 1] = items[at] = f"{items[at - 1]} {item}"
    return items


HazardClassOf = Annotated[
    HazardClass,
    *as_text(hazard_class, r"^.*(H[0-9]{3}|[0-9]|Lact|PBT|PMT|vP|unknown).*$", "Skin Sens. 1B H317", "..."),
]
HazardClasses = Annotated[tuple[HazardClassOf, ...], BeforeValidator(with_statements)]

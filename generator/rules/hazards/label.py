"""What a candle's hazard label must show: symbols, signal word, statements, names, and how large."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from generator.model.burn_safety import HazardLabel, Pictogram, SignalWord, Toxicity
from generator.model.hazard_classes import HazardClass
from generator.rules.hazards.classify import Classification
from generator.rules.hazards.findings import Finding, substance_names
from generator.rules.hazards.precautions import needed_by, precautions
from generator.rules.hazards.ruleset import RuleSet

ALLOCATION: Final[Mapping[str, tuple[Pictogram | None, SignalWord | None]]] = MappingProxyType({
    "H300": ("GHS06", "Danger"), "H310": ("GHS06", "Danger"), "H330": ("GHS06", "Danger"),
    "H301": ("GHS06", "Danger"), "H311": ("GHS06", "Danger"), "H331": ("GHS06", "Danger"),
    "H302": ("GHS07", "Warning"), "H312": ("GHS07", "Warning"), "H332": ("GHS07", "Warning"),
    "H304": ("GHS08", "Danger"),
    "H314": ("GHS05", "Danger"), "H315": ("GHS07", "Warning"), "H317": ("GHS07", "Warning"),
    "H318": ("GHS05", "Danger"), "H319": ("GHS07", "Warning"), "H334": ("GHS08", "Danger"),
    "H335": ("GHS07", "Warning"), "H336": ("GHS07", "Warning"),
    "H340": ("GHS08", "Danger"), "H341": ("GHS08", "Warning"),
    "H350": ("GHS08", "Danger"), "H351": ("GHS08", "Warning"),
    "H360": ("GHS08", "Danger"), "H361": ("GHS08", "Warning"), "H362": (None, None),
    "H370": ("GHS08", "Danger"), "H371": ("GHS08", "Warning"),
    "H372": ("GHS08", "Danger"), "H373": ("GHS08", "Warning"),
    "H400": ("GHS09", "Warning"), "H410": ("GHS09", "Warning"), "H411": ("GHS09", None),
    "H412": (None, None), "H413": (None, None),
    "EUH380": (None, "Danger"), "EUH381": (None, "Warning"),
    "EUH430": (None, "Danger"), "EUH431": (None, "Warning"),
    "EUH440": (None, "Danger"), "EUH441": (None, "Danger"),
    "EUH450": (None, "Danger"), "EUH451": (None, "Danger"),
})  # fmt: skip
"""Symbol and signal word of each statement. CLP Annex V and Annex I (MEMORY; water and the words of the EUH
statements FOUND; skin, eyes and skin sensitisation FOUND in rows of Annex VI)."""

SMALL_PACK_ML: Final = 125
SPARED_H_AND_P: Final = frozenset({"H315", "H319", "H400", "H410", "H411"})
SPARED_P: Final = frozenset({"H412", "H413"})
"""What contents up to 125 ml may omit when sold to the public (CLP Annex I 1.5.2.1, FOUND in German)."""

_TOXICITIES: Final[tuple[Toxicity, ...]] = ("acute", "aquatic")
_WATER: Final = frozenset({"H400", "H410", "H411", "H412"})


@dataclass(frozen=True, slots=True)
class LabelSize:
    """Least size of the label and of one side of a red diamond, and the side it should have if possible."""

    width_mm: int
    height_mm: int
    if_possible: bool
    pictogram_least_mm: int
    pictogram_mm: int


_SIZES: Final = (
    (3_000, LabelSize(52, 74, if_possible=True, pictogram_least_mm=10, pictogram_mm=16)),
    (50_000, LabelSize(74, 105, if_possible=False, pictogram_least_mm=23, pictogram_mm=23)),
    (500_000, LabelSize(105, 148, if_possible=False, pictogram_least_mm=32, pictogram_mm=32)),
    (float("inf"), LabelSize(148, 210, if_possible=False, pictogram_least_mm=46, pictogram_mm=46)),
)


def label(result: Classification, rules: RuleSet) -> HazardLabel:
    """The hazards on a candle's label; only the status where they are unknown or it is refused."""
    near = any(finding.near for finding in (*result.findings, *result.named))
    if result.status in ("unknown", "refused"):
        return HazardLabel(status=result.status, law=rules.law, near=near)
    codes = frozenset(_base(outcome.code) for outcome in result.classes)
    return HazardLabel(
        status=result.status,
        law=rules.law,
        near=near,
        pictograms=pictograms(codes),
        signal_word=signal_word(codes),
        h=hazard_statements(outcome.code for outcome in result.classes),
        euh=supplements(codes, naming=bool(result.named)),
        p=precautions(result.classes),
        named_substances=substance_names(_naming(result)),
        sensitisers=substance_names(result.named),
        unknown=tuple(toxicity for toxicity in _TOXICITIES if _is_unknown(toxicity, result, rules)),
    )


def pictograms(codes: Iterable[str]) -> tuple[Pictogram, ...]:
    """Symbols after the precedence of CLP Art. 26 (FOUND).

    The skull takes the place of the exclamation mark; corrosion takes it for skin and eye irritation; the
    health hazard of the airways takes it for skin sensitisation and for skin and eye irritation.
    """
    causes = {code: ALLOCATION[code][0] for code in codes}
    shown = set(causes.values())
    harmful = {code for code, symbol in causes.items() if symbol == "GHS07"}
    if "GHS05" in shown:
        harmful -= {"H315", "H319"}
    if "H334" in causes:
        harmful -= {"H315", "H317", "H319"}
    if "GHS06" in shown or not harmful:
        shown.discard("GHS07")
    return tuple(sorted(symbol for symbol in shown if symbol is not None))


def signal_word(codes: Iterable[str]) -> SignalWord | None:
    """The stronger word if any class requires it, never both (CLP Art. 20, MEMORY)."""
    words = {ALLOCATION[code][1] for code in codes}
    if "Danger" in words:
        return "Danger"
    return "Warning" if "Warning" in words else None


def hazard_statements(codes: Iterable[str]) -> tuple[str, ...]:
    """H codes without redundant ones (CLP Art. 27, MEMORY).

    H314 implies H318, and H400 with H410, H411 or H412 prints only H410 (FOUND in rows of Annex VI).
    """
    printed = {code for code in codes if code.startswith("H")}
    if "H314" in printed:
        printed.discard("H318")
    if "H400" in printed and printed & {"H410", "H411", "H412"}:
        printed = printed - {"H400", "H411", "H412"} | {"H410"}
    return tuple(sorted(printed))


def supplements(codes: Collection[str], *, naming: bool) -> tuple[str, ...]:
    """EUH codes. EUH208 names sensitisers, unless the candle is one itself (CLP Annex II 2.8, FOUND)."""
    printed = {code for code in codes if code.startswith("EUH")}
    if naming and not {"H317", "H334"} & set(codes):
        printed.add("EUH208")
    return tuple(sorted(printed))


def label_size(capacity_ml: float) -> LabelSize:
    """Least sizes by what the package could hold, CLP Annex I Table 1.3 (FOUND).

    A diamond covers at least a fifteenth of the least label and never under 1 cm2; its sides are measured.
    """
    return next(size for most_ml, size in _SIZES if capacity_ml <= most_ml)


def _base(code: str) -> str:
    """The statement without the letters that say which effect: H360Fd is H360."""
    return code if code.startswith("EUH") else code[:4]


def _naming(result: Classification) -> tuple[Finding, ...]:
    """The findings whose substances a label names: those that classify it, and sensitisers beside them."""
    return (*(f for f in result.findings if _by_name(f.outcome.code)), *result.named)


def _by_name(code: str) -> bool:
    """Whether a class puts names on the label, CLP Art. 18(3)(b) (MEMORY): not irritation, not water."""
    return not code.startswith(("H2", "H4", "H315", "H319"))


def may_leave_off(
    printed: HazardLabel, classes: Iterable[HazardClass], contents_ml: float
) -> tuple[str, ...]:
    """Statements that so small a pack may omit: those that only exempted classes require."""
    if contents_ml > SMALL_PACK_ML:
        return ()
    codes = {outcome.code for outcome in classes}
    spoken_for = {code: codes & _WATER if code == "H410" else {code} for code in printed.h}
    spared_h = (code for code in printed.h if spoken_for[code] <= SPARED_H_AND_P)
    kept = needed_by(codes - SPARED_H_AND_P - SPARED_P)
    return (*spared_h, *(statement for statement in printed.p if statement not in kept))


def _is_unknown(toxicity: Toxicity, result: Classification, rules: RuleSet) -> bool:
    return result.unknown_percent >= rules.limits[f"unknown {toxicity} toxicity said"].percent


def identifier_due(codes: Iterable[str]) -> bool:
    """Whether classes require a poison centre notification: physical and health ones (CLP Art. 45, FOUND-2nd)."""
    return any(code.startswith(("H2", "H3", "EUH38")) for code in codes)

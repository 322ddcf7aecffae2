"""What a burn-safety sheet says, as a value: everything printed on it and nothing else, all of it text.

The page's own sentences are not in it, only the keys of those that are chosen, so that one value can be printed in
the words of its language. What is absent or empty is left out.
"""

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Final

from generator.facts.facts import Advice, Facts
from generator.facts.hazard_facts import HazardFacts
from generator.model.candle import OwnLabel
from generator.model.entry import by_field
from generator.model.kinds import KINDS, Kind, KindTraits
from generator.model.ledger import Plain
from generator.model.maker import Contact, Maker
from generator.model.markets import MARKETS
from generator.model.recorded import Recorded

Sheet = Mapping[str, Plain]

_LABELLED: Final = frozenset({"scent", "size", "stock_code", "kind", "net_quantity", "net_quantity_basis", "hazards",
                             "ufi", "stop", "snuffing_lid", "brand", "responsible", "maker", "contacts"})  # fmt: skip
_ADVICE_ON_LABELS: Final = frozenset({"longest_session", "trim"})

_FIGURED: Final = frozenset({"trim", "session", "apart"})
"""Signs whose sentence carries a figure of the advice."""


def sheet_value(recorded: Recorded, facts: Facts, maker: Maker) -> Sheet:
    """What the sheet of one stock code says."""
    return _told({
        "language": maker.language,
        "stock_code": facts.stock_code,
        "scent": facts.scent,
        "size": facts.size,
        "kind": facts.kind.value,
        "markets": maker.markets,
        **_quantity(facts),
        "vessel": facts.container and {"name": facts.container.name, "material": facts.container.material},
        **_burning(recorded, facts),
        "warnings": warnings(facts.kind, figured=home_advice(maker, facts) is not None),
        "hazards": {market: _hazards(found) for market, found in facts.hazards.items()},
        "ufi": facts.ufi,
        **_answerable(recorded.own_label, maker),
    })  # fmt: skip


def warnings(kind: Kind, *, figured: bool) -> Mapping[str, Sequence[str]]:
    """The keys of the sentences and signs of such a candle; those that carry a figure only where there is one."""
    row = KINDS[kind]
    return {
        "core": row.core,
        "signs": tuple(sign for sign in row.signs if figured or sign not in _FIGURED),
        "emergencies": row.emergencies,
        "first_aid": row.first_aid,
    }


def home_advice(maker: Maker, facts: Facts) -> Advice | None:
    """The advice of the market whose units stand first; none where nothing burns."""
    return facts.advice.get(maker.markets[0])


def kind_of(said: Sheet) -> KindTraits:
    """What the kind is of which a sheet speaks."""
    return KINDS[Kind(text_of(said, "kind"))]


def is_on_labels(way: Sequence[str]) -> bool:
    """Whether a label prints a text of the sheet too, so that a change of it makes labels untrue."""
    match way:
        case ("advice", market, "stop_at"):
            return MARKETS[market].length_unit == "in"
        case ("advice", _, name):
            return name in _ADVICE_ON_LABELS
        case ("warnings", part):
            return part == "core"
        case ("hazards", _, "law" | "near"):
            return False
    return way[0] in _LABELLED


def speaker_of(said: Sheet) -> str:
    """Whose candle it is: the brand of an own label, else who answers for it."""
    answers = part_of(said, "responsible") or part_of(said, "maker")
    return text_of(said, "brand") or text_of(answers, "name") or ""


def flattened(value: Plain, at: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every text of a value with the keys that lead to it; a list of texts is one text."""
    if isinstance(value, str):
        yield at, value
    elif isinstance(value, Mapping):
        for key, below in value.items():
            yield from flattened(below, (*at, key))
    elif all(isinstance(each, str) for each in value):
        yield at, ", ".join(str(each) for each in value)
    else:
        for number, below in enumerate(value, start=1):
            yield from flattened(below, (*at, str(number)))


def _quantity(facts: Facts) -> dict[str, object]:
    """The net quantity each market reads: declared where that is proven, else the estimate and what it rests on."""
    if facts.declared_status == "proven" and all(facts.declared.values()):
        return {"net_quantity": facts.declared, "net_quantity_basis": "proven"}
    return {"net_quantity": facts.estimated, "net_quantity_basis": facts.net_weight_basis}


def _burning(recorded: Recorded, facts: Facts) -> dict[str, object]:
    """What is said of the flame; nothing where nothing burns."""
    if not KINDS[facts.kind].has_flame:
        return {}
    lid, stop_mm = recorded.build.lid, facts.stop_depth_mm
    return {
        "wick": facts.wick and {"name": facts.wick.name, "count": str(facts.wick.count)},
        "burn_hours": _hours(facts),
        "stop": None if stop_mm is None else f"{ceil(stop_mm)} mm",
        "advice": {market: by_field(given) for market, given in facts.advice.items()},
        "snuffing_lid": lid.name if lid and lid.snuffs else None,
        "drawing": _drawing(recorded, facts),
    }


def _hours(facts: Facts) -> Mapping[str, str] | None:
    burn = facts.burn_hours
    known = None if burn is None else burn.low if burn.claim is None else burn.claim
    return None if burn is None or known is None else {"claim": str(int(known)), "basis": burn.basis}


def _drawing(recorded: Recorded, facts: Facts) -> Mapping[str, object]:
    """The measures of the section that is drawn, in millimetres, to the tenth."""
    build = recorded.build
    return {
        "shape": build.shape.inside.shape,
        "inside": [f"{_tenths(radius)} {_tenths(height)}" for radius, height in facts.outline_mm],
        "wall": None if build.wall_mm is None else _tenths(build.wall_mm),
        "wax": None if facts.level_set_mm is None else _tenths(facts.level_set_mm),
        "stop": None if facts.stop_depth_mm is None else _tenths(facts.stop_depth_mm),
        "wick": _tenths(facts.wick.trim_mm) if facts.wick else None,
    }


def _hazards(found: HazardFacts | None) -> Mapping[str, object] | None:
    if found is None:
        return None
    return {
        "law": found.law,
        "near": "yes" if found.near else None,
        "status": found.status,
        "signal_word": found.signal_word,
        "pictograms": found.pictograms,
        "h": found.h,
        "euh": found.euh,
        "p": found.p,
        "named_substances": found.named_substances,
        "sensitisers": found.sensitisers,
        "unknown": _of_unknown_toxicity(found),
    }


def _of_unknown_toxicity(found: HazardFacts) -> tuple[str, ...]:
    """What is said to be unknown in part of the mixture; how large a part stays with the record."""
    shares = {"acute": found.unknown_acute_percent, "aquatic": found.unknown_aquatic_percent}
    return tuple(name for name, percent in shares.items() if percent is not None)


def _answerable(own_label: OwnLabel | None, maker: Maker) -> dict[str, object]:
    """Who answers for the candle: the maker and her contacts, or an own label's people as far as they may be shown."""
    house = {key: getattr(maker, key) for key in ("name", "address", "email", "phone", "web")}
    contacts = {market: _contact(one) for market, one in maker.contacts_by_market().items()}
    if own_label is None:
        return {"maker": house, "contacts": contacts}
    brand = own_label.brand if "brand" in own_label.public else None
    if "responsible" not in own_label.public:
        return {"brand": brand, "maker": house, "contacts": contacts}
    # The address of the site stays, because the permanent address of the sheet is made of it.
    return {"brand": brand, "responsible": _contact(own_label.responsible), "maker": {"web": maker.web}}


def _contact(contact: Contact | None) -> Mapping[str, object] | None:
    return None if contact is None else by_field(contact)


def _tenths(length_mm: float) -> str:
    return f"{round(length_mm, 1):g}"


def _told(value: Mapping[str, object]) -> dict[str, Plain]:
    """The value without what is absent or empty."""
    told: dict[str, Plain] = {}
    for key, each in value.items():
        if isinstance(each, str):
            told[key] = each
        elif isinstance(each, dict):
            told[key] = _told(each)
        elif isinstance(each, list | tuple):
            told[key] = [str(one) for one in each]
    return {key: each for key, each in told.items() if each}


def text_of(sheet: Sheet, key: str) -> str | None:
    """One text of a sheet; None where it says nothing of that."""
    value = sheet.get(key)
    return value if isinstance(value, str) else None


def texts_of(sheet: Sheet, key: str) -> tuple[str, ...]:
    """A list of texts of a sheet, empty where it says nothing of that."""
    value = sheet.get(key)
    return tuple(map(str, value)) if isinstance(value, list | tuple) else ()


def part_of(sheet: Sheet, key: str) -> Sheet:
    """A part of a sheet, empty where it says nothing of that."""
    value = sheet.get(key)
    return value if isinstance(value, dict) else {}

"""Whether labels fit their stock; where one does not, by how much, and which stock would hold it."""

from collections.abc import Iterator, Mapping, Sequence

from generator.document import Value
from generator.documents.label_stock import Printing
from generator.documents.labels import label, label_paper
from generator.model.label_stock import LabelStock, RoundLabel
from generator.problems import Problem
from generator.stories.labelled import LabelOrder, labelled
from generator.stories.pressing import places_of_codes, refusal
from generator.stories.ready import Ready
from generator.writing.pdf import Press, Refused, press

_OTHERWISE = "a fold-out label, or a tag"


def unfit(
    shop: Ready, stock: LabelStock, order: LabelOrder, labels: Mapping[str, Mapping[str, Value]]
) -> Iterator[Problem]:
    """What is wrong with each label that cannot be printed as it is."""
    with press(shop.setting.theme) as machine:
        for code, value in labels.items():
            refused = _refused(machine, stock, order, value)
            if refused is None:
                continue
            if refused.missing_letters:
                place = places_of_codes(shop.shop, shop.known.places)[code]
                yield refusal(refused, code, place)
            else:
                yield _too_large(shop, stock, order, refused, _holding(machine, shop, stock, order, code))


def _too_large(
    shop: Ready, stock: LabelStock, order: LabelOrder, refused: Refused, holding: LabelStock | None
) -> Problem:
    part = refused.too_large[0]
    way = "across" if isinstance(stock.label, RoundLabel) else "down"
    next_size = f"--stock {holding.id}, the next size that holds it; or " if holding else ""
    return Problem(
        place=shop.known.places.of((f"label-stock/{stock.id}.yaml", "label")),
        what=(
            f"the {order.kind} label of {part.part} for {order.market} needs {part.needs_mm:.1f} mm {way} "
            f"in the smallest letters allowed, and has {part.has_mm:.1f} mm: "
            f"{part.needs_mm - part.has_mm:.1f} mm too little"
        ),
        why="smaller letters or signs are not allowed, and nothing on it may be left off",
        write=f"{next_size}{_OTHERWISE}",
    )


def _holding(
    machine: Press, shop: Ready, stock: LabelStock, order: LabelOrder, code: str
) -> LabelStock | None:
    """The smallest of the larger stocks on which the label fits."""
    for other in _larger(shop, stock):
        one = labelled(shop, shop.sizes[code], order, other)
        if not isinstance(one, Problem):
            value = label(order.kind, one, order.speech)
            if _refused(machine, other, order, value) is None:
                return other
    return None


def _larger(shop: Ready, stock: LabelStock) -> Sequence[LabelStock]:
    larger = (other for other in shop.shop.label_stock.values() if other.area_mm2 > stock.area_mm2)
    return sorted(larger, key=lambda other: other.area_mm2)


def _refused(
    machine: Press, stock: LabelStock, order: LabelOrder, value: Mapping[str, Value]
) -> Refused | None:
    """Why a single label cannot be printed, if it cannot."""
    around = {
        "market": order.market,
        "title": order.kind,
        "house": "",
        "language": order.speech.language,
        "dated": "2000-01-01",
    }
    result = machine.set(label_paper(order.kind, Printing(stock=stock), [(value, 1)], around))
    return result if isinstance(result, Refused) else None

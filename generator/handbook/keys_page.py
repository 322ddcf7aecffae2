"""The page of every key, made from the declarations of the model: no key is described anywhere else."""

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Any, Final, get_args

from generator.handbook.page_text import HandbookPage, KeyBlock, Paragraph, Section, spans
from generator.model.burn_tests import Session, TestNotes
from generator.model.candle import Candle
from generator.model.entry import BLANK, Key
from generator.model.formats import Format
from generator.model.label_stock import LabelStock
from generator.model.lots import Lot, Recall
from generator.model.maker import Collection, Maker
from generator.model.materials import Additive, Dye, Fragrance, Wax, Wick
from generator.model.notified import MadeUfi
from generator.model.publish_targets import FolderTarget, ObjectStoreTarget, SftpTarget
from generator.model.trade import Buyer, PriceRow, Terms
from generator.model.vessel import Vessel
from generator.reading.fields import bare, choices, form, has_keys, key_of, keys_of, options, required_keys

_TITLE: Final = "Every key"
_SUMMARY: Final = "What may be written in each file of a shop, in which form, and who gets to see it."
_OPENING: Final = (
    "A key that is needed may not be left out; all others may. Any file that ends in .yaml may "
    "also hold `accepted:`, which says why a warning is right as it is; see [errors and warnings](warnings.md). "
    "`wickwright handbook keys fill` shows one key alone."
)
_IDS: Final = "The name of the file, without its ending, is the name by which other files refer to it."
_TARGETS: Final = "Each target is a key of your own, with these keys below it."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sort:
    """One sort of entry: its heading, its file, and a sentence on where its keys stand."""

    title: str
    file: str
    kind: Any
    told: str


_SORTS: Final = (
    _Sort(title="Maker", file="maker.yaml", kind=Maker, told="Who you are, and how the shop speaks."),
    _Sort(title="Collections", file="collections.yaml", kind=Collection,
          told="Each collection is a key of your own, with these keys below it."),
    _Sort(title="Candles", file="candles/NAME.yaml", kind=Candle, told="One file for each scent."),
    _Sort(title="Formats", file="formats/NAME.yaml", kind=Format,
          told=f"What all candles of one size share; a size in a candle's file may override any of it. {_IDS}"),
    _Sort(title="Vessels", file="vessels/NAME.yaml", kind=Vessel, told=_IDS),
    _Sort(title="Wicks", file="wicks/NAME.yaml", kind=Wick, told=_IDS),
    _Sort(title="Waxes", file="waxes/NAME.yaml", kind=Wax, told=_IDS),
    _Sort(title="Fragrances", file="fragrances/NAME.yaml", kind=Fragrance, told=_IDS),
    _Sort(title="Additives", file="additives/NAME.yaml", kind=Additive, told=_IDS),
    _Sort(title="Dyes", file="dyes/NAME.yaml", kind=Dye, told=_IDS),
    _Sort(title="Burn tests", file="burn-tests/NAME.csv", kind=Session,
          told="The columns of the table, one row for each burn."),
    _Sort(title="What was tested", file="burn-tests/NAME.yaml", kind=TestNotes,
          told="Stands beside the table of the same name."),
    _Sort(title="Lots", file="lots.csv", kind=Lot,
          told="The columns of the table, one row for each pour; columns of your own are left alone."),
    _Sort(title="UFIs", file="ufi.csv", kind=MadeUfi,
          told="The columns of the table that `wickwright ufi new` writes; columns of your own are left alone."),
    _Sort(title="Recalls", file="recalls/NAME.yaml", kind=Recall, told="One file for each notice."),
    _Sort(title="Label stock", file="label-stock/NAME.yaml", kind=LabelStock, told=_IDS),
    _Sort(title="Trade terms", file="trade/terms.yaml", kind=Terms, told="The terms that every order goes by."),
    _Sort(title="Buyers", file="trade/buyers.yaml", kind=Buyer,
          told="Each shop is a key of your own, with these keys below it."),
    _Sort(title="Prices", file="prices.csv", kind=PriceRow,
          told="The columns of the table; each row is for a stock code or for a format."),
    _Sort(title="Publish to a folder", file="publish.yaml", kind=FolderTarget,
          told=_TARGETS),
    _Sort(title="Publish by SFTP", file="publish.yaml", kind=SftpTarget,
          told=_TARGETS),
    _Sort(title="Publish to a store", file="publish.yaml", kind=ObjectStoreTarget,
          told=_TARGETS),
)  # fmt: skip


def keys_page(name: str) -> HandbookPage:
    """The whole page."""
    parts = _parts()
    sections = [Section(title="", blocks=(Paragraph(line=spans(_OPENING)),))]
    for sort in _SORTS:
        told = Paragraph(line=spans(f"In `content/{sort.file}`. {sort.told}"))
        sections.append(Section(title=sort.title, blocks=(told, *_keys(sort.kind, parts))))
        sections += [
            Section(title=title, blocks=tuple(_keys(part, parts)))
            for part, (of, title) in parts.items()
            if of is sort
        ]
    return HandbookPage(name=name, title=_TITLE, summary=_SUMMARY, sections=tuple(sections))


def _parts() -> Mapping[Any, tuple[_Sort, str]]:
    """Each part of an entry that has keys of its own: the sort in which it is described, and its heading there."""
    known: dict[Any, tuple[_Sort, str]] = {}
    for sort in _SORTS:
        for key, part in _parts_below(sort.kind):
            shape = next(iter(choices(bare(keys_of(part).get("shape")))), "")
            known.setdefault(part, (sort, f"{sort.title}: {key}{f', {shape}' if shape else ''}"))
    return known


def _parts_below(kind: Any) -> Iterator[tuple[str, Any]]:
    """Every part that a value may hold, each with the key it stands under."""
    for key, annotation in keys_of(kind).items():
        for part in _parts_of(annotation):
            yield key, part
            yield from _parts_below(part)


def _parts_of(annotation: Any) -> Iterator[Any]:
    accepts = bare(annotation)
    if has_keys(accepts):
        yield accepts
    elif not isinstance(accepts, type) or not issubclass(accepts, Enum):
        for inner in options(accepts) or get_args(accepts):
            yield from _parts_of(inner) if inner is not Ellipsis and not isinstance(inner, str) else ()


def _keys(kind: Any, parts: Mapping[Any, tuple[_Sort, str]]) -> Iterator[KeyBlock]:
    is_table = not has_alias_of_entries(kind)
    for key, annotation in keys_of(kind).items():
        said = key_of(annotation)
        if said is None:
            continue  # An id, which nobody writes; a test holds that nothing else is left out.
        yield KeyBlock(
            name=key,
            means=said.means,
            form=_form(annotation, said),
            example=said.example if is_table else f"{key}: {said.example}",
            needed="needed" if key in required_keys(kind) else "",
            seen_by=said.seen_by.value,
            below=tuple(dict.fromkeys(parts[part][1] for part in _parts_of(annotation))),
        )


def has_alias_of_entries(kind: Any) -> bool:
    """Whether its keys are written in YAML; columns of a table keep their units."""
    return "alias_generator" in getattr(kind, "__pydantic_config__", {})


def _form(annotation: Any, said: Key) -> str:
    """How its value is written; nothing where that says no more than the example."""
    written = form(annotation)
    return "" if written in (BLANK, "[...]", "[..., ...]", said.example) else written


def described_fields() -> Iterator[tuple[Any, str, Any]]:
    """Every key of the page: the part it belongs to, its name, its declaration."""
    for kind in dict.fromkeys((*(sort.kind for sort in _SORTS), *_parts())):
        for key, annotation in keys_of(kind).items():
            if key != "id" or not dataclasses.is_dataclass(kind):
                yield kind, key, annotation

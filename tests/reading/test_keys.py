import re
from collections.abc import Iterator
from typing import Any, get_args, get_origin

from generator.model.burn_tests import Session, TestNotes
from generator.model.candle import ScentNotes
from generator.model.formats import Fill
from generator.model.label_stock import Margin
from generator.model.lots import Lot
from generator.model.maker import Collection, Maker
from generator.model.materials import OwnClassification
from generator.model.publish_targets import FolderTarget, ObjectStoreTarget, SftpTarget
from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.model.vessel import Vessel
from generator.reading.entries import FOLDERS
from generator.reading.fields import about, bare, form, keys_of, options

TRADE = (Terms, Buyer, PriceRow, LinkVersion)
TARGETS = (FolderTarget, SftpTarget, ObjectStoreTarget)
ENTRIES = (Maker, Collection, TestNotes, Session, Lot, *TRADE, *TARGETS, *(folder.kind for folder in FOLDERS))
NO_FIGURES = ("1", "65535", "3166", "8", "12", "13", "14", "25519", "5", "10", "50", "3", "0", "4")
"""What a form holds beside its blanks: names of standards and keys, bounds of a port, a base at 0 mm, roundings."""


def _parts(accepts: Any) -> Iterator[Any]:
    """Every part of an entry whose keys a maker writes."""
    inner = bare(accepts)
    if hasattr(inner, "__pydantic_config__"):
        yield inner
        for key in keys_of(inner).values():
            yield from _parts(key)
    elif get_origin(inner) in (tuple, dict) or options(inner):
        for each in get_args(inner):
            yield from _parts(each)


PARTS = sorted({part for entry in ENTRIES for part in _parts(entry)}, key=lambda part: part.__name__)
FIELDS = [(part, key, field) for part in PARTS for key, field in keys_of(part).items() if key != "id"]
OTHERWISE = about(None)
"""What is said of a key of which nothing is declared."""


def test_each_field_has_its_reason() -> None:
    assert [(part.__name__, key) for part, key, field in FIELDS if about(field) is OTHERWISE] == []


def test_each_field_has_a_form_that_leaves_its_figures_blank() -> None:
    figures = {(part.__name__, key): re.findall(r"[0-9]+", form(field)) for part, key, field in FIELDS}

    assert {at: found for at, found in figures.items() if set(found) - set(NO_FIGURES)} == {}


def test_a_reason_belongs_to_its_field_and_not_to_the_name_of_its_key() -> None:
    asked = {
        (Vessel, "weight"): "the parcel's weight is calculated from it",
        (Fill, "weight"): "the net weight is calculated from it",
        (Fill, "at"): "hot wax shrinks as it sets, so the same line would mean less wax",
        (OwnClassification, "at"): "the supplier's classification applies at one load only",
        (Margin, "top"): "it decides where labels are printed on the sheet",
        (ScentNotes, "top"): "the candle's page lists it",
    }

    assert {(part, key): about(keys_of(part)[key]).why for part, key in asked} == asked

"""The page of keys: each is declared with its meaning, an example that is read, and who sees it."""

import csv
import io
import json
import warnings
from collections.abc import Iterator
from textwrap import dedent
from typing import Any, get_args, get_origin

import pytest
import yaml
from pydantic import TypeAdapter
from pydantic.warnings import UnsupportedFieldAttributeWarning

from generator.handbook.in_terminal import Screen, key_lines
from generator.handbook.keys_page import described_fields, has_alias_of_entries
from generator.handbook.page_text import KeyBlock
from generator.handbook.shelf import handbook_page
from generator.model.burn_tests import TestNotes
from generator.model.candle import Candle
from generator.model.entry import Key, SeenBy
from generator.model.lots import Lot
from generator.model.maker import Maker
from generator.model.materials import Fragrance, Wax, Wick
from generator.model.trade import Buyer, LinkVersion, PriceRow, Terms
from generator.model.vessel import Vessel
from generator.model.words import Id
from generator.reading.fields import bare, has_keys, key_of, keys_of, options
from generator.reading.located import located
from generator.reading.schemas import editor_schemas
from generator.reading.tables import Table, table_of
from tests.documents import test_border, test_border_of_trade
from tests.reading.test_keys import PARTS

FIELDS = tuple(described_fields())
SORTS: dict[str, Any] = {
    "maker.yaml": Maker,
    "waxes": Wax,
    "fragrances": Fragrance,
    "wicks": Wick,
    "vessels": Vessel,
    "candles": Candle,
    "burn-tests": TestNotes,
    "trade/terms.yaml": Terms,
    "trade/buyers.yaml": dict[Id, Buyer],
}
SHOWN_ELSEWHERE = {"price"}
"""Of an own-label candle: the same key of any other candle is public, so its declaration says so."""


def test_every_key_that_a_maker_writes_is_on_the_page_but_those_of_the_book_of_links() -> None:
    described = {part for part, _, _ in FIELDS}

    assert {part.__name__ for part in PARTS} - {part.__name__ for part in described} == {LinkVersion.__name__}


def test_every_key_says_what_it_means_and_who_sees_it() -> None:
    assert [(part.__name__, key) for part, key, field in FIELDS if key_of(field) is None] == []


def test_what_a_key_means_is_one_sentence() -> None:
    said = {(part.__name__, key): found for part, key, field in FIELDS if (found := key_of(field))}

    assert [at for at, one in said.items() if not one.means[0].isupper() or not one.means.endswith(".")] == []
    assert [at for at, one in said.items() if ". " in one.means] == []


def test_every_example_of_an_entry_is_read() -> None:
    faults = []
    for part, key, field in FIELDS:
        said = key_of(field)
        if said is None or not has_alias_of_entries(part):
            continue
        read = located(f"{key}: {said.example}\n".encode(), "entry.yaml")
        assert isinstance(read.data, dict), (part, key, read.problems)
        try:
            reader(field).validate_python(read.data[key])
        except ValueError as fault:
            faults.append((part.__name__, key, str(fault)))

    assert faults == []


def test_every_example_of_a_table_is_read() -> None:
    for kind in dict.fromkeys(part for part, _, _ in FIELDS if not has_alias_of_entries(part)):
        examples = {key: said.example for key, field in keys_of(kind).items() if (said := key_of(field))}
        text = io.StringIO()
        csv.writer(text).writerows([examples, examples.values()])

        table = table_of(text.getvalue(), "table.csv", kind)

        assert isinstance(table, Table), table
        TypeAdapter(kind).validate_python(table.records[0])


def test_an_example_that_is_wrong_would_be_found() -> None:
    with pytest.raises(ValueError, match="unit"):
        TypeAdapter(keys_of(Wick)["trim"]).validate_python("6 bananas")


def reader(field: Any) -> TypeAdapter[Any]:
    """What reads the value of one key; that the key has another name than its field does not matter then."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UnsupportedFieldAttributeWarning)
        return TypeAdapter(field)


def leaves(accepts: Any, written: Any) -> Iterator[tuple[str, Key, str]]:
    """Every value of an entry with the declaration of its key."""
    accepts = _fitting(bare(accepts), written)
    if isinstance(written, dict):
        keyed = keys_of(accepts) if has_keys(accepts) else dict.fromkeys(written, get_args(accepts)[-1])
        for key, value in written.items():
            said = key_of(keyed[key])
            if said is not None and not _holds_keys(keyed[key], value):
                yield key, said, str(value)
            else:
                yield from leaves(keyed[key], value)
    elif isinstance(written, list):
        for value in written:
            yield from leaves(get_args(accepts)[0], value)


def _holds_keys(field: Any, written: Any) -> bool:
    accepts = _fitting(bare(field), written)
    if get_origin(accepts) in (tuple, dict):
        return any(has_keys(bare(inner)) for inner in get_args(accepts) if inner is not Ellipsis)
    return has_keys(accepts)


def _fitting(accepts: Any, written: Any) -> Any:
    """The type of a union that a value of this form is."""
    for option in options(accepts):
        if isinstance(written, dict) and has_keys(option) and set(written) <= set(keys_of(option)):
            return option
        if isinstance(written, list) and get_origin(option) is tuple:
            return option
    return accepts


def planted() -> Iterator[tuple[str, str, Key, str]]:
    """Every value of the shops with canaries: its file, its key, what is declared of it, and the value."""
    for file, changes in test_border.PLANTED.items():
        text = (test_border.FIRST_SHOP / file).read_text(encoding="utf-8")
        for old, new in changes.items():
            text = text.replace(old, new)
        kind = SORTS.get(file) or SORTS[file.partition("/")[0]]
        if file.endswith(".yaml"):
            yield from ((file, *leaf) for leaf in leaves(kind, yaml.safe_load(text)))
    for file in ("trade/terms.yaml", "trade/buyers.yaml"):
        text = dedent(test_border_of_trade.FILES[file])
        yield from ((file, *leaf) for leaf in leaves(SORTS[file], yaml.safe_load(text)))
    sizes = yaml.safe_load(f"sizes:{test_border_of_trade.OWN_LABELS}")
    yield from (("own labels", *leaf) for leaf in leaves(Candle, sizes))


def is_secret(value: str) -> bool:
    """Whether the tests of the border hold that it is on no public page."""
    secrets = (*test_border.TYPED, *test_border_of_trade.NUMBERS, test_border.CANARY)
    return any(one in value for one in secrets)


def test_whatever_the_border_holds_back_is_declared_as_seen_by_no_stranger() -> None:
    found = [(file, key, said) for file, key, said, value in planted() if is_secret(value)]
    seen = {(file, key) for file, key, said in found if said.seen_by is SeenBy.EVERYBODY}

    assert len(found) > 40
    assert {(file, key) for file, key in seen if not (file == "own labels" and key in SHOWN_ELSEWHERE)} == {
        ("own labels", "name"),
        ("own labels", "address"),
        ("own labels", "email"),
        ("own labels", "phone"),
    }, "only of a shop that answers for its own label, whose contact is otherwise public"


def test_columns_that_the_border_holds_back_are_seen_by_no_stranger() -> None:
    of_lots = ("poured_on", "made", "sent_to", "formula_fingerprint", "drawn_from")
    columns = {Lot: of_lots, PriceRow: tuple(keys_of(PriceRow))}

    for kind, names in columns.items():
        for name in names:
            said = key_of(keys_of(kind)[name])
            assert said is not None
            assert said.seen_by is not SeenBy.EVERYBODY, name


def test_editors_describe_each_key_by_the_same_sentence() -> None:
    schemas = [json.loads(text) for text in editor_schemas().values()]
    described = {
        (key, value.get("description"))
        for schema in schemas
        for part in (schema, *schema.get("$defs", {}).values())
        for key, value in part.get("properties", {}).items()
    }

    missing = [
        (part.__name__, key)
        for part, key, field in FIELDS
        if has_alias_of_entries(part) and (said := key_of(field)) and (key, said.means) not in described
    ]

    assert missing == []


def test_one_key_is_printed_alone_in_each_place_that_has_it() -> None:
    lines = list(key_lines(handbook_page("keys"), "below_rim", Screen(columns=80, bold=False)))

    assert lines == [
        "Candles: fill",
        "",
        "below_rim",
        "    How far the wax stays below the rim.",
        "    example:  below_rim: 12 mm",
        "    form:     ... mm",
        "    seen by:  everybody",
        "",
    ]


def test_the_keys_inside_a_value_are_where_the_key_says() -> None:
    page = handbook_page("keys")
    titles = {section.title for section in page.sections}
    keys = [block for section in page.sections for block in section.blocks if isinstance(block, KeyBlock)]

    assert {title for key in keys for title in key.below} <= titles
    assert any(key.below for key in keys)

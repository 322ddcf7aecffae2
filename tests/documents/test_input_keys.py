"""What a page is handed decides its key, and nothing else does."""

from dataclasses import fields, replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from generator.documents.house import House, Rendition, Scent
from generator.documents.input_keys import InputKeys
from generator.documents.published import as_published, for_lists
from generator.facts.fragrance_loads import FragranceLoads
from generator.memory import Remembered
from generator.model.lots import Recall
from generator.model.maker import Collection
from generator.model.money import Money
from generator.model.shop import Page
from tests.documents.lots import OLD, RECALL, with_lots
from tests.documents.sample_house import CANDLE, MAKER, house, issued_of, size, with_issued
from tests.documents.sample_house import speech_in as speech

PICTURE = Rendition(path="photos/a.jpg", width=480, height=320, format="jpeg")
OTHERS: dict[str, Any] = {
    "maker": replace(MAKER, phone="01632 960999"),
    "collections": {"tideline": Collection(name="Another", order=1)},
    "scents": (),
    "photos": {"a.jpg": (PICTURE,)},
    "speech": replace(speech("en"), language="xx"),
    "as_of": date(2030, 1, 1),
    "sheets": {},
    "drafts": False,
    "pages": (Page(id="care", title="Care", markdown="Care"),),
    "lots": (OLD,),
    "recalls": with_lots(OLD, recall=RECALL).recalls,
    "terms": None,
    "cards": {"index.html": PICTURE},
    "loads": {},
    "language_packs": {},
}


def key_of(shop: House) -> str:
    return InputKeys(Remembered()).of(shop)


@pytest.mark.parametrize("name", [field.name for field in fields(House)])
def test_every_field_of_a_house_tells_two_apart(name: str) -> None:
    loads = {"marsh": FragranceLoads(name="Marsh accord", markets={})}
    full = replace(with_lots(), terms=None, loads=loads, language_packs={"en": speech("en")})
    other = {**OTHERS, "loads": {}, "terms": MAKER}

    changed = replace(full, **{name: other[name]})

    assert getattr(full, name) != other[name]
    assert key_of(full) != key_of(changed)


def test_the_same_said_by_other_objects_has_the_same_key() -> None:
    assert key_of(house()) == key_of(replace(house(), maker=replace(MAKER)))


def test_a_part_of_an_unknown_sort_has_no_key() -> None:
    with pytest.raises(TypeError, match=r"no key can be made of 1\.5"):
        InputKeys(Remembered()).of(1.5)


def test_a_sheet_that_was_issued_again_tells_two_houses_apart() -> None:
    once = with_issued(house(), issued_of(size()))
    twice = with_issued(house(), issued_of(size()), issued_of(size(), revision=2))

    assert key_of(once) != key_of(twice)


def test_a_house_about_one_scent_holds_what_is_of_that_scent() -> None:
    other = Scent(candle=replace(CANDLE, id="other", collection="other"), sizes=(size(stock_code="SM-22"),))
    shop = with_lots(OLD, recall=RECALL)
    both = replace(
        shop,
        scents=(*shop.scents, other),
        sheets={**shop.sheets, "SM-22": shop.sheets["SM-30"]},
        cards={"index.html": PICTURE, "candles/other.html": PICTURE},
    )

    about = both.about(other)

    assert about.scents == (other,)
    assert list(about.sheets) == ["SM-22"]
    assert not about.recalls
    assert not about.lots
    assert both.about(shop.scents[0]).recalls == both.recalls


def listed(shop: House) -> House:
    return for_lists(shop, Remembered(), Remembered())


def test_a_gram_more_that_no_list_shows_leaves_lists_as_they_were() -> None:
    one, heavier = (house(replace(size(heat_w=watts), key=str(watts))) for watts in (40.0, 41.0))

    assert key_of(one) != key_of(heavier)
    assert key_of(listed(one)) == key_of(listed(heavier))


def test_a_price_more_tells_two_lists_apart() -> None:
    one, dearer = (
        house(replace(size(price=Money(amount=Decimal(pounds))), key=pounds)) for pounds in ("24.00", "25.00")
    )

    assert key_of(listed(one)) != key_of(listed(dearer))


def test_what_was_published_of_another_revision_has_another_key() -> None:
    shops = [
        replace(with_issued(house(), issued), drafts=False)
        for issued in (issued_of(size(burn_hours=None)), issued_of(size(first_burn_h=2.0)))
    ]

    keys = {key_of(as_published(shop, Remembered())) for shop in shops}

    assert len(keys) == len(shops)


def test_recalls_are_known_whatever_the_order_of_their_codes() -> None:
    notice: Recall = RECALL
    (one,) = with_lots(OLD, recall=notice).recalls
    same = replace(one, stock_codes=frozenset(sorted(one.stock_codes, reverse=True)))

    assert InputKeys(Remembered()).of(one) == InputKeys(Remembered()).of(same)

"""What a shared link shows: the properties of ogp.me, whole addresses, and a warning where there can be none."""

from dataclasses import replace
from decimal import Decimal

from generator.documents.house import Rendition
from generator.documents.link_previews import SharedLink, address_faults, preview
from generator.model.money import Money
from tests.documents.sample_house import MAKER

CARD = Rendition(path="cards/a.png", width=1200, height=630, format="png")
PAGE = SharedLink(
    path="candles/a.html",
    title="Samphire Bank",
    description="Salt & stone",
    picture=CARD,
    picture_text="A jar",
)


def properties(page: SharedLink) -> dict[object, object]:
    return {one["property"]: one["content"] for one in preview(MAKER, page)}


def test_the_four_required_properties_stand_on_every_page() -> None:
    """ogp.me asks for title, type, image and url (reference W11: FOUND)."""
    found = properties(PAGE)

    assert [found[f"og:{name}"] for name in ("title", "type", "image", "url")] == [
        "Samphire Bank",
        "website",
        "https://saltmarsh.example/cards/a.png",
        "https://saltmarsh.example/candles/a.html",
    ]


def test_the_useful_properties_stand_beside_them() -> None:
    found = properties(PAGE)

    assert [found[f"og:{name}"] for name in ("description", "site_name", "locale", "image:alt")] == [
        "Salt & stone",
        "Saltmarsh Wax",
        "en_GB",
        "A jar",
    ]


def test_what_is_for_sale_is_a_product_with_its_price() -> None:
    found = properties(replace(PAGE, price=Money(Decimal(24))))

    assert found["og:type"] == "product"
    assert (found["product:price:amount"], found["product:price:currency"]) == ("24.00", "GBP")


def test_without_a_picture_there_is_no_preview() -> None:
    assert preview(MAKER, replace(PAGE, picture=None)) == ()


def test_without_an_address_there_is_no_preview() -> None:
    assert preview(replace(MAKER, web=None), PAGE) == ()


def test_a_missing_address_is_a_warning() -> None:
    (fault,) = address_faults(replace(MAKER, web=None))

    assert (fault.path, fault.severity.value, fault.what, fault.why, fault.fix) == (
        ("maker.yaml", "web"),
        "warning",
        "web, the address of the site, is missing",
        "search engines, feed readers and shared links need full addresses, so what they read is left out",
        "web: ... (https:// and your site's host)",
    )


def test_an_address_over_plain_http_is_a_warning() -> None:
    (fault,) = address_faults(replace(MAKER, web="http://saltmarsh.example/shop"))

    assert (fault.path, fault.severity.value, fault.what, fault.why, fault.fix) == (
        ("maker.yaml", "web"),
        "warning",
        "web is 'http://saltmarsh.example/shop', with http instead of https",
        "sealed price sheets do not open there, and anyone on the way could change an issued sheet",
        "web: https://saltmarsh.example/shop, once your web host supports https",
    )


def test_a_known_address_is_no_fault() -> None:
    assert address_faults(MAKER) == ()

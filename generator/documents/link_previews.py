"""What a shared link to a page shows; it needs absolute addresses, and these the maker's ``web``."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.document import Document, Value
from generator.documents.house import HOME_PAGE, House, Rendition
from generator.model.maker import Maker
from generator.model.money import Money, rounded
from generator.problems import Fault, Severity


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedLink:
    """A page as shown by a link: ``picture_text`` describes the picture; only what is for sale has a price."""

    path: str
    title: str
    description: str
    picture: Rendition | None
    picture_text: str
    price: Money | None = None


def address_faults(maker: Maker) -> tuple[Fault, ...]:
    """A warning where the site has no address of its own, or one that anyone on the way can change (plain http)."""
    if maker.web is not None and maker.web.startswith("http://"):
        return (_plain_http(maker.web),)
    if maker.web is not None:
        return ()
    fault = Fault(
        path=("maker.yaml", "web"),
        what="web, the address of the site, is missing",
        why=(
            "search engines, feed readers and shared links need full addresses, so what they read is left out"
        ),
        fix="web: ... (https:// and your site's host)",
        severity=Severity.WARNING,
        check="no-web",
    )
    return (fault,)


def _plain_http(web: str) -> Fault:
    return Fault(
        path=("maker.yaml", "web"),
        what=f"web is '{web}', with http instead of https",
        why="sealed price sheets do not open there, and anyone on the way could change an issued sheet",
        fix=f"web: https{web.removeprefix('http')}, once your web host supports https",
        severity=Severity.WARNING,
    )


def absolute(web: str, path: str) -> str:
    """The absolute address of a path from the site's root."""
    return f"{web.rstrip('/')}/{path}"


def preview(maker: Maker, page: SharedLink) -> tuple[Mapping[str, Value], ...]:
    """The Open Graph properties of a page; none without a picture, which ogp.me wants on every page (FOUND)."""
    if maker.web is None or page.picture is None:
        return ()
    properties = {
        "og:title": page.title,
        "og:type": "website" if page.price is None else "product",
        "og:url": absolute(maker.web, page.path),
        "og:image": absolute(maker.web, page.picture.path),
        "og:image:width": str(page.picture.width),
        "og:image:height": str(page.picture.height),
        "og:image:alt": page.picture_text,
        "og:description": page.description,
        "og:site_name": maker.name,
        "og:locale": f"{maker.language}_{maker.country}",
    }
    if page.price is not None:
        amount, currency = plain_price(page.price, maker.currency)
        properties |= {"product:price:amount": amount, "product:price:currency": currency}
    return tuple({"property": name, "content": content} for name, content in properties.items())


def preview_of_house(
    house: House, path: str, title: str, description: str
) -> tuple[Mapping[str, Value], ...]:
    """The same for a page about no single candle, with the picture of the house."""
    shared = SharedLink(
        path=path,
        title=title,
        description=description,
        picture=house.cards.get(HOME_PAGE),
        picture_text=house.words["catalogue"]["card"].format(house=house.maker.name),
    )
    return preview(house.maker, shared)


def site_page(house: House, path: str, template: str, value: Mapping[str, Value]) -> Document:
    """A page about no single candle; ``value`` includes its title and description."""
    shown = preview_of_house(house, path, str(value["title"]), str(value["description"]))
    return Document(path=f"site/{path}", template=template, value={"path": path, "preview": shown, **value})


def plain_price(price: Money, currency: str) -> tuple[str, str]:
    """A price for programs: the amount with a decimal point, and its currency."""
    code = price.currency or currency
    return f"{rounded(price.amount, code)}", code

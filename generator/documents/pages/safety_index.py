"""The list of all burn-safety sheets, so that anyone with a candle can find its sheet, even years later."""

from collections.abc import Mapping

from generator.document import Document, Value
from generator.documents.frame import SAFETY
from generator.documents.house import House, SizeOf
from generator.documents.link_previews import site_page
from generator.documents.printed import listed
from generator.documents.shelves import public_sizes
from generator.model.sizes import Status


def safety_index(house: House) -> Document:
    """Every public sheet by the name of its scent."""
    words = house.words["safety"]
    scents = sorted(
        (scent for scent in house.scents if public_sizes(scent)), key=lambda one: one.candle.scent
    )
    value: dict[str, Value] = {
        "title": words["index"],
        "description": words["index_description"].format(house=house.maker.name),
        "lead": words["index_lead"],
        "scents": tuple(
            {
                "scent": scent.candle.scent,
                "sheets": tuple(_sheet(house, size) for size in public_sizes(scent)),
            }
            for scent in scents
        ),
    }
    return site_page(house, SAFETY, "pages/safety_index.html", value)


def _sheet(house: House, size: SizeOf) -> Mapping[str, Value]:
    facts = size.facts
    words, gone = house.words["safety"], size.recorded.status is Status.DISCONTINUED
    missing = facts.stock_code not in house.sheets and not house.drafts
    remarks = [words["index_discontinued"]] * gone + [words["index_not_issued"]] * missing
    return {
        "path": facts.safety_path,
        "size": size.recorded.size_name,
        "stock_code": facts.stock_code,
        "remark": listed(remarks, house.words) if remarks else None,
    }

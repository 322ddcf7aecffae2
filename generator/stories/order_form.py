"""``papers order BUYER``: a trade buyer's prices as a table and as a spreadsheet to order with; both are private."""

import sys

from generator.documents.line_sheet import line_sheet
from generator.documents.order_form import order_form
from generator.documents.published import as_published
from generator.documents.stock_lines import Stock
from generator.problems import Problem, is_error
from generator.reading.trade import BUYERS
from generator.rules.trade import offers_by_buyer
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.papers import house_of
from generator.stories.ready import write_papers
from generator.stories.setting import Setting, setting_of
from generator.stories.shop import know
from generator.stories.telling import nearest_ids, tell
from generator.stories.verify import NO_PHOTOS
from generator.writing.spreadsheet import workbook
from generator.writing.store import Store


def run(asked: Asked, buyer_id: str) -> int:
    """Exit code 0 when both are written, 1 when entries are at fault, 2 for a buyer that is none."""
    known = know(asked, Store(asked.output / ".store"))
    shop, errors = known.shop, [problem for problem in known.problems if is_error(problem)]
    setting = setting_of(asked.content, shop, known.places) if shop else None
    if isinstance(setting, Problem):
        errors.append(setting)
    if shop is None or errors or not isinstance(setting, Setting):
        tell(errors, as_json=asked.as_data, then="no order form was written")
        return AT_FAULT
    buyer = shop.buyers.get(buyer_id)
    if buyer is None or shop.terms is None:
        near = nearest_ids(buyer_id, shop.buyers) if shop.buyers else "write the first"
        print(f"there is no buyer '{buyer_id}' in {BUYERS}; {near}", file=sys.stderr)
        return WRONG_USE
    house = as_published(house_of(shop, known, NO_PHOTOS, setting.speeches))
    stock = Stock(house=house.speaking(buyer.language))
    offers = offers_by_buyer(shop)[buyer.id]
    table, form = line_sheet(stock, buyer, offers, {}), order_form(stock, buyer, offers, shop.terms)
    write_papers(asked, {table.path: table.text.encode(), form.path: workbook(form)})
    return 0

"""``papers order BUYER``: a trade buyer's prices as a table and as a spreadsheet to order with; both are private."""

from typing import Final

from generator.documents.line_sheet import line_sheet
from generator.documents.papers.order_workbook import order_form
from generator.documents.published import as_published
from generator.documents.stock_lines import Stock
from generator.making.exit_codes import AT_FAULT
from generator.making.load_for_papers import ready, write_papers
from generator.making.options import CommandOptions
from generator.making.report import Refusal, nearest_ids, refuse
from generator.reading.trade_files import BUYERS
from generator.rules.trade.prices import offers_by_buyer
from generator.writing.spreadsheet import workbook
from generator.writing.store import Store

NOTHING: Final = "no order form was written"


def run(asked: CommandOptions, buyer_id: str) -> int:
    """Exit code 0 when both are written, 1 when entries are at fault, 2 for a buyer that is none."""
    shop = ready(asked, Store(asked.output / ".store"), NOTHING)
    if shop is None:
        return AT_FAULT
    buyers, terms = shop.shop.buyers, shop.shop.terms
    buyer = buyers.get(buyer_id)
    if buyer is None or terms is None:
        near = nearest_ids(buyer_id, buyers) if buyers else "write the first"
        none = Refusal(what=f"there is no buyer '{buyer_id}' in {BUYERS}", then=NOTHING, write=near)
        return refuse(none, as_json=asked.as_data)
    stock = Stock(house=as_published(shop.house).speaking(buyer.language))
    offers = offers_by_buyer(shop.shop)[buyer.id]
    table, form = line_sheet(stock, buyer, offers, {}), order_form(stock, buyer, offers, terms)
    write_papers(asked, {table.path: table.text.encode(), form.path: workbook(form)})
    return 0

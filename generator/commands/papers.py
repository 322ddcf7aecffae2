"""``papers``: every paper that is made by itself, a row for each."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Any, Final

from generator.arguments import (
    CommandHelp,
    CommandParser,
    add_command,
    code_with_count,
    one_of,
    sum_of_counts,
)
from generator.commands.labels import LABELS, STOCK, paper_of_labels
from generator.commands.make_paper import (
    Need,
    Paper,
    PaperRequest,
    Papers,
    not_in_the_shop,
    not_to_burn,
    run,
)
from generator.commands.makers_file import makers_file_of
from generator.documents.house import SizeOf
from generator.documents.line_sheet import line_sheet
from generator.documents.papers.bench_sheet import bench_papers
from generator.documents.papers.cost_sheet import cost_papers
from generator.documents.papers.notification_page import notification_page
from generator.documents.papers.order_workbook import order_form
from generator.documents.papers.pour_sheet import pour_papers
from generator.documents.papers.printed_sheets import papers_today
from generator.documents.published import as_published
from generator.documents.stock_lines import Stock
from generator.facts.cost_facts import costs_of
from generator.facts.gather import shared_keys
from generator.facts.notification_facts import notification_facts
from generator.facts.pours import Scale, Wanted, pour
from generator.making.loaded_shop import SoundShop
from generator.making.options import CommandOptions
from generator.making.presentation import language_pack
from generator.making.report import Refusal, nearest_ids
from generator.model.sizes import Status
from generator.reading.languages import languages
from generator.reading.trade_files import BUYERS
from generator.rules.trade.prices import offers_by_buyer, prices_by_level


def _one_code(words: CommandParser) -> None:
    words.add_argument("counts", metavar="STOCK_CODE", nargs=1, type=one_of)


def _codes(words: CommandParser) -> None:
    help_ = "all candles if you name none"
    words.add_argument("counts", metavar="STOCK_CODE", nargs="*", type=one_of, help=help_)


def _counts(words: CommandParser) -> None:
    words.add_argument("counts", metavar="STOCK_CODE=N", nargs="+", type=code_with_count)


def _buyer(words: CommandParser) -> None:
    words.add_argument("buyer", metavar="BUYER", help="the buyer's id in buyers.yaml")


def _language(words: CommandParser) -> None:
    help_ = "another language than the shop's, such as de or fr"
    words.add_argument("--language", metavar="CODE", help=help_)


def _nobody(shop: SoundShop, request: PaperRequest) -> Iterator[Refusal]:
    buyers = shop.shop.buyers
    if not buyers:
        yield Refusal(what="no buyers are recorded yet", fix=f"add one to {BUYERS}")
    elif request.buyer not in buyers:
        near = nearest_ids(request.buyer, buyers)
        yield Refusal(what=f"there is no buyer '{request.buyer}' in {BUYERS}", fix=near)


def _unspoken(_shop: SoundShop, request: PaperRequest) -> Iterator[Refusal]:
    if request.language is not None and request.language not in languages():
        what = f"there are no sheets in the language '{request.language}'"
        yield Refusal(what=what, fix=f"write one of: {', '.join(languages())}")


def _wickless(shop: SoundShop, request: PaperRequest) -> Iterator[Refusal]:
    for code in request.counts:
        yield from not_to_burn(shop, code)


CODE: Final = Need(add_arguments=_one_code, refusals=not_in_the_shop)
SOME_CODES: Final = Need(add_arguments=_codes, refusals=not_in_the_shop)
COUNTS: Final = Need(add_arguments=_counts, refusals=not_in_the_shop)
CODE_TO_BURN: Final = Need(add_arguments=_one_code, refusals=_wickless)
BUYER: Final = Need(add_arguments=_buyer, refusals=_nobody)
LANGUAGE: Final = Need(add_arguments=_language, refusals=_unspoken)


def _sizes(shop: SoundShop, request: PaperRequest) -> Sequence[SizeOf]:
    """The stock codes that were named; all of them where none was."""
    sizes = shop.sizes
    return [sizes[code] for code in request.counts or sizes]


def _file(shop: SoundShop, request: PaperRequest) -> Papers:
    note = "This file contains your recipe. Give it only to an officer who asks for it."
    documents = tuple(makers_file_of(shop, size) for size in _sizes(shop, request))
    return Papers(documents=documents, notes=(note,))


def _notification(shop: SoundShop, request: PaperRequest) -> Papers:
    note = "it holds the recipe, so give it only to the person who notifies the mixture"
    documents = tuple(
        notification_page(shop.house, size, notification_facts(shop.shop, size.recorded, size.facts))
        for size in _sizes(shop, request)
    )
    return Papers(documents=documents, notes=(note,))


def _sheets(shop: SoundShop, request: PaperRequest) -> Papers:
    house, language = shop.house, request.language
    if language is not None:
        packs = {**house.language_packs, language: language_pack(language)}
        house = replace(house, language_packs=packs)
    sizes = _sizes(shop, request)
    return Papers(documents=tuple(one for size in sizes for one in papers_today(house, size, language)))


def _order(shop: SoundShop, request: PaperRequest) -> Papers:
    buyer = shop.shop.buyers[request.buyer]
    house = as_published(shop.house, shop.loaded.store.shelf("published sizes"))
    stock = Stock(house=house.speaking(buyer.language))
    offers = offers_by_buyer(shop.shop)[buyer.id]
    terms = shop.shop.terms
    form = () if terms is None else (order_form(stock, buyer, offers, terms),)
    return Papers(documents=(line_sheet(stock, buyer, offers, {}), *form))


def _pour(shop: SoundShop, request: PaperRequest) -> Papers:
    sizes, maker = shop.sizes, shop.shop.maker
    scale = Scale(step_g=maker.scale_step_g, waste_percent=maker.waste_percent)
    wanted = [
        Wanted(recorded=sizes[code].recorded, facts=sizes[code].facts, count=count)
        for code, count in request.counts.items()
    ]
    gone = tuple(
        f"{code} is discontinued and on no shelf. If you make it again, set status: current."
        for code in request.counts
        if sizes[code].recorded.status is Status.DISCONTINUED
    )
    return Papers(documents=tuple(pour_papers(shop.house, pour(wanted, scale), scale)), notes=gone)


def _cost(shop: SoundShop, request: PaperRequest) -> Papers:
    shared, levels = shared_keys(shop.shop), prices_by_level(shop.shop)
    costs = [
        costs_of(
            shop.shop,
            size.recorded,
            size.facts,
            shared[size.facts.stock_code],
            {
                name: paid[size.facts.stock_code]
                for name, paid in levels.items()
                if size.facts.stock_code in paid
            },
        )
        for size in _sizes(shop, request)
    ]
    return Papers(documents=tuple(cost_papers(shop.house, costs)))


def _bench(shop: SoundShop, request: PaperRequest) -> Papers:
    return Papers(
        documents=tuple(one for size in _sizes(shop, request) for one in bench_papers(shop.house, size))
    )


PAPERS: Final = (
    Paper(
        word="file",
        help=CommandHelp(
            "make a candle's compliance file, for an officer who asks; keep it private",
            "papers file SS-30",
            "safety-sheets",
        ),
        needs=(CODE,),
        make=_file,
        templates=("pages/file.html",),
        folder="workshop/files",
        nothing="no file was written",
        next_step=None,
        blames="stock code",
    ),
    Paper(
        word="notification",
        help=CommandHelp(
            "write the figures for a poison-centre notification to type from; it is private",
            "papers notification SS-30",
            "ufi",
        ),
        needs=(CODE,),
        make=_notification,
        templates=("pages/notification.html",),
        folder="workshop/notifications",
        nothing="no page was written",
        next_step=None,
        blames="stock code",
    ),
    Paper(
        word="sheets",
        help=CommandHelp(
            "make burn-safety sheets to print, on A4 and Letter",
            "papers sheets SS-30 --language de",
            "safety-sheets",
        ),
        needs=(SOME_CODES, LANGUAGE),
        make=_sheets,
        templates=("papers/safety.typ",),
        folder="workshop/papers/safety",
        nothing="no paper was written",
        next_step=None,
        blames="stock code",
    ),
    Paper(
        word="order",
        help=CommandHelp("make a buyer's price table and order form", "papers order lamp-room", "shops"),
        needs=(BUYER,),
        make=_order,
        templates=(),
        folder="workshop/trade",
        nothing="no order form was written",
        next_step=None,
        blames="house",
    ),
    Paper(
        word="labels",
        help=CommandHelp(
            "make labels for the label sheets or rolls you buy",
            "papers labels SS-30=24 --stock box-99x93-a4",
            "labels",
        ),
        needs=(STOCK, LABELS),
        make=paper_of_labels,
        templates=("papers/calibration.typ", "papers/labels.typ"),
        folder="workshop/papers/labels",
        nothing="no label was printed",
        next_step=None,
        blames="house",
    ),
    Paper(
        word="pour",
        help=CommandHelp("make a pour sheet for a batch", "papers pour SS-30=24 NL-22=12", "bench"),
        needs=(COUNTS,),
        make=_pour,
        templates=("papers/pour.typ",),
        folder="workshop/papers/pour",
        nothing="no pour sheet was written",
        next_step="once poured: wickwright lots add {code} --made {count}",
        blames="stock code",
    ),
    Paper(
        word="cost",
        help=CommandHelp("make a sheet of costs and profit", "papers cost SS-30", "bench"),
        needs=(SOME_CODES,),
        make=_cost,
        templates=("papers/cost.typ",),
        folder="workshop/papers/cost",
        nothing="no cost sheet was written",
        next_step=None,
        blames="stock code",
    ),
    Paper(
        word="bench",
        help=CommandHelp("make a sheet to fill in during a burn test", "papers bench SS-22", "burn-tests"),
        needs=(CODE_TO_BURN,),
        make=_bench,
        templates=("papers/bench_test.typ",),
        folder="workshop/papers/bench",
        nothing="no bench sheet was written",
        next_step="wickwright burn-test new {code}",
        blames="stock code",
    ),
)


def add_arguments(words: CommandParser) -> None:
    """A word for each paper."""
    below = words.below("WHAT")
    for paper in PAPERS:
        command = add_command(below, paper.word, paper.help)
        for need in paper.needs:
            need.add_arguments(command)
        command.runs(partial(_run, paper))


def _run(
    paper: Paper, options: CommandOptions, *, counts: Sequence[tuple[str, int]] = (), **asked: Any
) -> int:
    return run(options, paper, PaperRequest(counts=sum_of_counts(counts), **asked))

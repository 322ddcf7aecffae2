"""The words of the command line: every command with its options, each loading only its own story."""

import argparse
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from generator.arguments import Version, Words, added_up, count, counted, day, drawn

if TYPE_CHECKING:
    from generator.making.options import CommandOptions


@cache
def parser() -> argparse.ArgumentParser:
    """All commands, each with the story it runs."""
    words = Words(
        prog="wickwright",
        description="Candle catalogue, burn-safety pages and trade sheets from recorded formulas.",
    )
    words.add_argument("--version", action=Version, nargs=0)
    commands = words.add_subparsers(metavar="COMMAND", required=True)

    start = _command(commands, "start", _start, "make a small shop to edit in a new folder")
    start.add_argument("folder", metavar="DIR", type=Path, help="the new shop's folder")

    for name, run, purpose in (
        ("check", _check, "read every entry and tell every fault; the site and its papers stay as they are"),
        ("build", _build, "make the site and the workshop's papers"),
        ("preview", _preview, "show the site in a browser and make it again whenever an entry is saved"),
        ("explain", _explain, "print every figure of one stock code with its inputs, formula and source"),
    ):
        command = _command(commands, name, run, purpose)
        if name == "explain":
            command.add_argument("stock_code", metavar="STOCK_CODE")
        _shop_options(command)
        if name == "preview":
            command.add_argument("--port", metavar="N", type=int, default=8620, help="the first port to try")
            command.add_argument("--no-browser", action="store_true", help="do not open a browser")
        if name == "build":
            command.add_argument("--drafts", action="store_true", help="show sheets that are not issued, too")
            command.add_argument(
                "--issued-only", action="store_true", help="refuse while any sheet is not issued as it is"
            )
    _sheets(commands)
    _lots(commands)
    _link(commands)
    _publishing(commands)
    return words


def _sheets(commands: "argparse._SubParsersAction[Words]") -> None:
    issue = _command(commands, "issue", _issue, "make what a sheet says today its next revision")
    issue.add_argument(
        "stock_codes", metavar="STOCK_CODE", nargs="*", help="all that changed if none is named"
    )
    issue.add_argument("--reason", metavar="TEXT", default="", help="why, in one line")
    issue.add_argument("--verify", action="store_true", help="only tell whether all is as it was issued")
    _shop_options(issue)

    purpose = "make single papers: sheets, labels, pour sheets, costs, orders, a maker's file"
    papers = commands.add_parser("papers", help=purpose, description=f"{purpose.capitalize()}.")
    below = papers.add_subparsers(metavar="WHAT", required=True)
    file = _command(below, "file", _file, "write the file on one stock code for an officer; it is private")
    file.add_argument("stock_code", metavar="STOCK_CODE")
    _shop_options(file)

    sheets = _command(below, "sheets", _paper_sheets, "make burn-safety sheets to print, on A4 and on Letter")
    sheets.add_argument("stock_codes", metavar="STOCK_CODE", nargs="*", help="all of them if none is named")
    sheets.add_argument("--language", metavar="CODE", help="if it is not the shop's own, such as de or fr")
    _shop_options(sheets)
    order = _command(below, "order", _order, "write a trade buyer's prices as a table and as an order form")
    order.add_argument("buyer", metavar="BUYER", help="the key of the buyer's entry in buyers.yaml")
    _shop_options(order)
    _labels(below)
    _bench(commands, below)


def _bench(
    commands: "argparse._SubParsersAction[Words]",
    below: "argparse._SubParsersAction[Words]",
) -> None:
    """The papers that lie on the bench, and what is asked there; all of them private."""
    pour = _command(below, "pour", _pour, "make the sheet to pour so many candles from")
    pour.add_argument("counts", metavar="STOCK_CODE=N", nargs="+", type=counted)
    _shop_options(pour)

    cost = _command(below, "cost", _cost, "make the sheet of what candles cost, and what prices leave")
    cost.add_argument("stock_codes", metavar="STOCK_CODE", nargs="*", help="all of them if none is named")
    _shop_options(cost)

    bench = _command(below, "bench", _bench_sheet, "make the sheet to fill in by hand during a burn test")
    bench.add_argument("stock_code", metavar="STOCK_CODE")
    _shop_options(bench)

    purpose = "record burn tests"
    tests = commands.add_parser("burn-test", help=purpose, description=f"{purpose.capitalize()}.")
    new = _command(
        tests.add_subparsers(metavar="WHAT", required=True),
        "new",
        _burn_test,
        "make the table to type a test into",
    )
    new.add_argument("stock_code", metavar="STOCK_CODE")
    _shop_options(new)

    fills = _command(commands, "fills", _fills, "tell how many candles the wax in the pot will fill")
    fills.add_argument("pot", metavar="WEIGHT", help="what the pot holds, such as '4.6 kg' or '26 oz'")
    fills.add_argument("stock_codes", metavar="STOCK_CODE", nargs="+")
    fills.add_argument("--unscented", action="store_true", help="it holds wax alone, nothing stirred in yet")
    _shop_options(fills)


def _labels(below: "argparse._SubParsersAction[Words]") -> None:
    labels = _command(below, "labels", _paper_labels, "make labels for bought sheets or rolls")
    labels.add_argument(
        "counts", metavar="STOCK_CODE=N", nargs="*", type=counted, help="none makes a calibration page"
    )
    labels.add_argument(
        "--stock", metavar="ID", required=True, help="a file of content/label-stock, without its ending"
    )
    labels.add_argument("--kind", choices=("warning", "product"), default="warning")
    labels.add_argument(
        "--market", choices=("GB", "EU", "US"), help="if it is not the first of the shop's markets"
    )
    labels.add_argument(
        "--language", metavar="CODE", help="if it is not the usual one of the market, such as de or fr"
    )
    labels.add_argument(
        "--start", metavar="N", type=count, default=1, help="the first free place of a used sheet"
    )
    labels.add_argument(
        "--lot", metavar="CODE", action="append", default=[], help="if it is not the lot poured last"
    )
    labels.add_argument("--blank-lot", action="store_true", help="leave a field to write the lot into")
    labels.add_argument(
        "--incomplete", action="store_true", help="print labels that may not be used yet, marked as proofs"
    )
    labels.add_argument("--outlines", action="store_true", help="print each label's outline, for plain paper")
    _shop_options(labels)


def _lots(commands: "argparse._SubParsersAction[Words]") -> None:
    purpose = "write down what was poured, or find the lots that something went into"
    book = commands.add_parser("lots", help=purpose, description=f"{purpose.capitalize()}.")
    below = book.add_subparsers(metavar="WHAT", required=True)

    purpose = "write a lot into lots.csv, with its formula and the revision of its sheet"
    example = "wickwright lots add SS-30 --made 48 --from samphire=B4711"
    add = _command(below, "add", _lots_add, purpose, example)
    add.add_argument("stock_code", metavar="STOCK_CODE")
    add.add_argument("--made", metavar="N", type=count, required=True, help="how many candles were poured")
    add.add_argument("--lot", metavar="CODE", help="your own code, instead of one that cannot be guessed")
    add.add_argument("--poured", metavar="YYYY-MM-DD", type=day, help="the day, if it is not the shop's")
    add.add_argument(
        "--from", dest="drawn", metavar="ID=LOT", action="append", type=drawn, default=[],
        help="the supplier's lot of a material, vessel or wick; as often as there are lots",
    )  # fmt: skip
    _shop_options(add)

    purpose = "list the lots that a material, vessel or wick went into"
    using = _command(below, "using", _lots_using, purpose, "wickwright lots using samphire --from B4711")
    using.add_argument("id", metavar="ID", help="the name of its file without the ending")
    using.add_argument("--from", dest="number", metavar="LOT", help="only this one of its supplier's lots")
    _shop_options(using)


def _link(commands: "argparse._SubParsersAction[Words]") -> None:
    link = _command(commands, "link", _link_given, "print what a trade buyer opens the price sheet with")
    whose = link.add_mutually_exclusive_group(required=True)
    whose.add_argument(
        "buyer", metavar="BUYER", nargs="?", help="the key of the buyer's entry in buyers.yaml"
    )
    whose.add_argument("--all", action="store_true", help="every buyer's link, as a table for a mail merge")
    whose.add_argument(
        "--end-all", action="store_true", help="end every link that was ever given out, with another secret"
    )
    how = link.add_mutually_exclusive_group()
    how.add_argument(
        "--renew", action="store_true", help="a new link; the old one ends when you next publish"
    )
    how.add_argument(
        "--file", metavar="PATH", type=Path, help="write the sealed page, to attach to a message"
    )
    how.add_argument(
        "--end", action="store_true", help="the link ends when you next publish, and there is no new one"
    )
    how.add_argument(
        "--was",
        metavar="ID",
        help="go on with the link of the same shop, once its id or its name has changed",
    )
    _shop_options(link)


def _publishing(commands: "argparse._SubParsersAction[Words]") -> None:
    publish = _command(commands, "publish", _publish, "put what changed of the site where people can see it")
    publish.add_argument(
        "target", metavar="TARGET", nargs="?", help="a name of publish.yaml, unless it has only one"
    )
    publish.add_argument("--dry-run", action="store_true", help="only tell what would be sent and removed")
    publish.add_argument(
        "--rollback", action="store_true", help="put back the release before, without building"
    )
    publish.add_argument(
        "--headers", action="store_true", help="only print the headers that your host should send"
    )
    publish.add_argument(
        "--take-over", action="store_true", help="go on although another computer's run was cut off there"
    )
    _shop_options(publish)


def _command(
    commands: "argparse._SubParsersAction[Words]",
    name: str,
    run: Callable[[argparse.Namespace], int],
    purpose: str,
    example: str = "",
) -> argparse.ArgumentParser:
    """A command that runs a story; its ``example`` ends its description."""
    told = f"{purpose[0].upper()}{purpose[1:]}." + (f" Example: {example}" if example else "")
    command = commands.add_parser(name, help=purpose, description=told)
    command.set_defaults(run=run)
    return command


def _shop_options(command: argparse.ArgumentParser) -> None:
    command.add_argument("--content", metavar="DIR", type=Path, default=Path("content"), help="the entries")
    command.add_argument(
        "--output", metavar="DIR", type=Path, default=Path("output"), help="what is made of them"
    )
    command.add_argument(
        "--date", metavar="YYYY-MM-DD", type=day, help="take this day as today instead of as_of"
    )
    command.add_argument("--json", action="store_true", help="print faults as data for other programs")


def _start(asked: argparse.Namespace) -> int:
    from generator.commands import start

    return start.run(asked.folder)


def _check(asked: argparse.Namespace) -> int:
    from generator.commands import check

    return check.run(_shop(asked))


def _build(asked: argparse.Namespace) -> int:
    from dataclasses import replace

    from generator.commands import build

    return build.run(replace(_shop(asked), drafts=asked.drafts, issued_only=asked.issued_only))


def _preview(asked: argparse.Namespace) -> int:
    from generator.commands import preview

    return preview.run(_shop(asked), port=asked.port, open_browser=not asked.no_browser)


def _explain(asked: argparse.Namespace) -> int:
    from generator.commands import explain

    return explain.run(_shop(asked), asked.stock_code)


def _issue(asked: argparse.Namespace) -> int:
    from generator.commands import issue, verify

    if asked.verify:
        return verify.run(_shop(asked))
    return issue.run(_shop(asked), asked.stock_codes, asked.reason)


def _file(asked: argparse.Namespace) -> int:
    from generator.commands import makers_file

    return makers_file.run(_shop(asked), asked.stock_code)


def _paper_sheets(asked: argparse.Namespace) -> int:
    from generator.commands import safety_papers

    return safety_papers.run(_shop(asked), asked.stock_codes, asked.language)


def _paper_labels(asked: argparse.Namespace) -> int:
    from generator.commands import label_order, labels

    wanted = label_order.LabelsAsked(
        counts=added_up(asked.counts),
        stock=asked.stock,
        kind=asked.kind,
        market=asked.market,
        language=asked.language,
        start=asked.start,
        lots=tuple(asked.lot),
        blank_lot=asked.blank_lot,
        incomplete=asked.incomplete,
        outlines=asked.outlines,
    )
    return labels.run(_shop(asked), wanted)


def _pour(asked: argparse.Namespace) -> int:
    from generator.commands import pour

    return pour.run(_shop(asked), added_up(asked.counts))


def _cost(asked: argparse.Namespace) -> int:
    from generator.commands import cost as costs

    return costs.run(_shop(asked), asked.stock_codes)


def _bench_sheet(asked: argparse.Namespace) -> int:
    from generator.commands import burn_test

    return burn_test.run_bench(_shop(asked), asked.stock_code)


def _burn_test(asked: argparse.Namespace) -> int:
    from generator.commands import burn_test

    return burn_test.run_new(_shop(asked), asked.stock_code)


def _fills(asked: argparse.Namespace) -> int:
    from generator.commands import pour

    return pour.run_fills(_shop(asked), asked.stock_codes, asked.pot, unscented=asked.unscented)


def _order(asked: argparse.Namespace) -> int:
    from generator.commands import order_form

    return order_form.run(_shop(asked), asked.buyer)


def _publish(asked: argparse.Namespace) -> int:
    from generator.commands import publish
    from generator.making import headers

    if asked.headers:
        return headers.run(_shop(asked))
    how = publish.How(dry_run=asked.dry_run, rollback=asked.rollback, take_over=asked.take_over)
    return publish.run(_shop(asked), asked.target, how)


def _lots_add(asked: argparse.Namespace) -> int:
    from generator.commands import lots_add

    pour = lots_add.Pour(
        stock_code=asked.stock_code,
        made=asked.made,
        poured_on=asked.poured,
        code=asked.lot,
        drawn=tuple(asked.drawn),
    )
    return lots_add.run(_shop(asked), pour)


def _lots_using(asked: argparse.Namespace) -> int:
    from generator.commands import lots_using

    return lots_using.run(_shop(asked), asked.id, asked.number)


def _link_given(asked: argparse.Namespace) -> int:
    from generator.commands import link
    from generator.making import link_ends

    for_one_buyer = asked.renew or asked.end or asked.was is not None or asked.file is not None
    if asked.end_all and not for_one_buyer:
        return link_ends.end_all(_shop(asked))
    if asked.end:
        return link_ends.end(_shop(asked), asked.buyer)
    wanted = link.Wanted(buyer=asked.buyer, renew=asked.renew, was=asked.was, file=asked.file)
    return link.run(_shop(asked), wanted)


def _shop(asked: argparse.Namespace) -> "CommandOptions":
    from generator.making.options import CommandOptions

    return CommandOptions(content=asked.content, output=asked.output, as_of=asked.date, as_data=asked.json)

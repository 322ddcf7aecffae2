"""``link --end`` and ``--end-all``: one link, or every link that was ever given out, opens nothing any more."""

from generator.documents.csv_tables import as_table
from generator.ledgers.link_book import COLUMNS
from generator.making.exit_codes import AT_FAULT
from generator.making.link_rows import brought_up, ended_link
from generator.making.load_shop import know
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, nearest_ids, refuse, say, tell
from generator.making.shop_links import give, in_the_way, keep, new_secret
from generator.model.trade_links import in_force
from generator.reading.shop_secret import HIDDEN_FILE
from generator.reading.trade_files import LINKS
from generator.writing.store import Store
from generator.writing.whole_files import record

NOTHING = "no link was ended"
_UNTIL_THEN = "build and publish, so that its page leaves your site"


@writes_content("link")
def end(asked: CommandOptions, id_: str | None) -> int:
    """Exit code 0 when the end is written down, 1 when the book of links is at fault, 2 for a link that is none."""
    known = know(asked, Store(asked.output / ".store"))
    problems = tuple(in_the_way(known, settling=True))
    if known.shop is None or problems:
        tell(problems or known.problems, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    links = in_force(known.shop.links)
    if id_ is None or id_ not in links:
        what = f"no link of '{id_}' is in force" if id_ else "--end is for one buyer's link"
        near = nearest_ids(id_, links) if id_ and links else ""
        write = near if id_ else "--end-all alone ends all"
        return refuse(Refusal(what=what, then=NOTHING, write=write), as_json=asked.as_data)
    give(asked, known, (*brought_up(known.shop, {id_}), ended_link(known.shop, links[id_])))
    say((f"the link of '{id_}' has ended; {_UNTIL_THEN}",), {"ended": [id_]}, as_json=asked.as_data)
    return 0


@writes_content("link")
def end_all(asked: CommandOptions) -> int:
    """Exit code 0 when there is another secret and no link, 1 where there is no shop.

    The secret goes first: where a run is cut short, the old rows do not fit the new secret, and nothing opens.
    """
    known = know(asked, Store(asked.output / ".store"))
    if known.shop is None:
        tell(known.problems, as_json=asked.as_data, then=NOTHING)
        return AT_FAULT
    ended = list(in_force(known.shop.links))
    keep(asked, new_secret())
    if (asked.content / LINKS).exists():
        record(asked.content / LINKS, as_table(COLUMNS, ()).encode())
    kept = (asked.content / HIDDEN_FILE).as_posix()
    told = (
        f"every link that was given out has ended, and {kept} is another: keep a copy of it in a safe place; "
        "new links are made with: wickwright link --all; then build and publish"
    )
    say((told,), {"ended": ended}, as_json=asked.as_data)
    return 0

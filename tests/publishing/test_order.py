from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.publish_targets import FileDigest
from generator.rules.entries.publish_plan import (
    alike_but_for_case,
    carried_back,
    in_sending_order,
    in_turns,
    planned,
    recalls_unsaid,
    revoked,
    withdrawn,
)

PATHS = st.sampled_from(
    [
        "index.html",
        "a/index.html",
        "a/p.html",
        "a/P.html",
        "s.css",
        "a/i.webp",
        "sitemap.xml",
        "safety/X-r1.html",
        "t/q.html",
        "recalls/glass.html",
    ]
)
SITES = st.dictionaries(PATHS, st.integers(1, 3).map(lambda size: FileDigest(sha256="d", size=size)))


def _rank(path: str) -> int:
    if path.endswith(("index.html", "sitemap.xml")):
        return 2
    return int(path.endswith(".html"))


@settings(max_examples=50)
@given(wanted=SITES, there=SITES)
def test_sending_and_removing_make_the_target_what_is_wanted(
    wanted: dict[str, FileDigest], there: dict[str, FileDigest]
) -> None:
    plan = planned(wanted, there)

    target = {**there, **{path: wanted[path] for path in plan.send}}
    for path in plan.remove:
        del target[path]

    assert target == wanted


@settings(max_examples=50)
@given(wanted=SITES, there=SITES)
def test_files_are_sent_before_the_pages_that_need_them_and_removed_after(
    wanted: dict[str, FileDigest], there: dict[str, FileDigest]
) -> None:
    plan = planned(wanted, there)

    sent, removed = [_rank(path) for path in plan.send], [_rank(path) for path in plan.remove]

    assert sent == sorted(sent)
    assert removed == sorted(removed, reverse=True)


@given(site=SITES)
def test_nothing_is_to_be_done_where_nothing_changed(site: dict[str, FileDigest]) -> None:
    plan = planned(site, site)

    assert (plan.send, plan.remove) == ((), ())


@given(before=SITES, now=SITES)
def test_going_back_never_withdraws_an_issued_sheet(
    before: dict[str, FileDigest], now: dict[str, FileDigest]
) -> None:
    assert withdrawn(carried_back(before, now), now) == ()


@given(before=SITES, now=SITES)
def test_going_back_leaves_every_trade_link_as_it_holds_now(
    before: dict[str, FileDigest], now: dict[str, FileDigest]
) -> None:
    back = carried_back(before, now)

    assert {path for path in back if path.startswith("t/")} == {path for path in now if path.startswith("t/")}
    assert revoked(now, back) == ()


@given(site=SITES)
def test_what_goes_side_by_side_goes_in_the_same_order(site: dict[str, FileDigest]) -> None:
    turns = in_turns(site)

    assert tuple(path for turn in turns for path in turn) == in_sending_order(site)
    assert [len({_rank(path) for path in turn}) for turn in turns] == [1] * len(turns)


def test_a_recall_that_would_be_unsaid_is_noticed() -> None:
    assert recalls_unsaid(["index.html"], ["recalls/glass.html", "index.html"]) == ("recalls/glass.html",)


def test_an_issued_sheet_is_missed_and_an_ordinary_page_is_not() -> None:
    there = ("safety/SS-30-r1.html", "safety/SS-30.html", "t/k3.html")

    assert withdrawn((), there) == ("safety/SS-30-r1.html",)


def test_a_spelling_in_other_capitals_is_noticed() -> None:
    assert alike_but_for_case(["a/p.html", "b.css"], ["a/P.html", "c.css"]) == ("a/P.html",)

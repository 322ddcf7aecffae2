"""``build``: entries are read, worked out, written up and laid out."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from time import monotonic

from generator.documents.cards import card_file, cards
from generator.documents.frame import frame
from generator.problems import Problem, counted
from generator.stories.papers import house_of, papers_of
from generator.stories.pictures import developed, drawn
from generator.stories.printing import printed, published
from generator.stories.setting import setting_of
from generator.stories.shop import Asked, know, tell
from generator.writing.output import AlikeButForCase, Laid, NotOurs, lay_out
from generator.writing.program import library_versions
from generator.writing.store import Store

COULD_NOT_FINISH = 3
SHOWN = 12
"""How many changed files are named; the rest is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build came to: every problem, what was laid out if there was no error, and how long it took."""

    problems: tuple[Problem, ...]
    laid: Laid | None
    seconds: float


def run(asked: Asked) -> int:
    """Exit code 0 when everything was built, 1 when entries are at fault; then OUTPUT is untouched."""
    try:
        built = build(asked)
    except (NotOurs, AlikeButForCase) as taken:
        print(f"wickwright: could not finish: {taken}")
        return COULD_NOT_FINISH
    if built.laid is None:
        tell(built.problems, as_json=asked.as_data, then="nothing was written")
        return 1
    if asked.as_data:
        tell(built.problems, as_json=True, then="")
    else:
        _report(asked, built, built.laid)
    return 0


def build(asked: Asked) -> Built:
    """The whole journey of a shop, from its entries to its files."""
    started = monotonic()
    store = Store(asked.output / ".store")
    known = know(asked, store)
    shop = known.shop
    if shop is None:
        return Built(problems=known.problems, laid=None, seconds=monotonic() - started)
    setting = setting_of(asked.content, shop.maker, known.places)
    photos = developed(shop, asked.content, known.places, store)
    known = known.with_problems((*photos.problems, *([setting] if isinstance(setting, Problem) else [])))
    if isinstance(setting, Problem) or not known.is_sound:
        return Built(problems=known.problems, laid=None, seconds=monotonic() - started)
    house = house_of(shop, known, photos, setting.words)
    pictured = cards(house)
    house = replace(house, cards={page: card_file(page) for page in pictured})
    files = {
        **photos.files,
        **drawn(pictured, store),
        **published(setting.theme),
        **printed(papers_of(house, known), frame(house), setting.theme, store),
    }
    files["workshop/build.json"] = _log(store, files, monotonic() - started)
    laid = lay_out(asked.output, files)
    store.save()
    return Built(problems=known.problems, laid=laid, seconds=monotonic() - started)


def _log(store: Store, files: Mapping[str, bytes], seconds: float) -> bytes:
    """``build.json``: the libraries, what came from the store and what was made anew, how long it took."""
    log = {
        "versions": library_versions(),
        "files": len(files),
        "store": {name: asdict(counts) for name, counts in store.counts().items()},
        "seconds": round(seconds, 3),
    }
    return (json.dumps(log, indent=2, sort_keys=True) + "\n").encode()


def _report(asked: Asked, built: Built, laid: Laid) -> None:
    for problem in built.problems:
        print(f"{problem}\n")
    named = [("new", path) for path in laid.written]
    named += [("changed", path) for path in laid.changed if path != "workshop/build.json"]
    named += [("removed", path) for path in laid.removed]
    if laid.same:
        for what, path in named[:SHOWN]:
            print(f"{what}: {path}")
        if len(named) > SHOWN:
            print(f"... and {len(named) - SHOWN} more")
    print(
        f"{len(laid.written)} new, {len(laid.changed)} changed, {len(laid.removed)} removed, "
        f"{len(laid.same)} as before, in {built.seconds:.1f} s"
    )
    print(f"{counted(built.problems)}; open {(asked.output / 'site' / 'index.html').as_posix()}")

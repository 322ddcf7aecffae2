"""The example shop with something of everything, printed in a theme: every kind of page at least once."""

import re
import shutil
from contextlib import redirect_stdout
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from typing import Final

from generator.cli import main
from tests.conftest import EXAMPLE

THEMES: Final = ("netloft", "ledger")
RECALLED: Final = "NL-30-2026289-TPRC"
RECALL: Final = f"""\
lots: [{RECALLED}]
hazard: The glass can crack while the candle burns, and hot wax runs out.
what_to_do: [Put it outside where no child comes.]
remedy: Your money back.
contact: hello@quillfern.example
on: 2026-10-30
"""
BUYER: Final = "lamp-room"

KINDS: Final = {
    "home": "site/index.html",
    "collection": "site/collections/shoreline.html",
    "candle": "site/candles/slate-and-samphire.html",
    "undyed candle": "site/candles/bare-comb.html",
    "near-black candle": "site/candles/ropewalk.html",
    "candle out of season or no longer made": "site/candles/lavender-press.html",
    "all sheets": "site/safety/index.html",
    "sheet": "site/safety/SS-30.html",
    "sheet of three wicks": "site/safety/OS-3W.html",
    "sheet of melts": "site/safety/SS-SB.html",
    "no sheet yet": "site/safety/NR-30.html",
    "revision in force": "site/safety/QF-30-r3.html",
    "revision superseded": "site/safety/QF-30-r2.html",
    "sheet under another's name": "site/safety/LR-30-r2.html",
    "find": "site/find.html",
    "recalled lot": "site/lots/*.html",
    "recall": "site/recalls/*.html",
    "figures": "site/figures.html",
    "words of the trade": "site/glossary.html",
    "for shops": "site/for-shops.html",
    "written page": "site/about.html",
    "not found": "site/404.html",
    "sealed": "site/t/*.html",
    "workshop": "workshop/index.html",
    "loads": "workshop/hazards/bracken.html",
    "trade": "workshop/trade.html",
    "changes": "workshop/changes.html",
    "draft": "workshop/drafts/*.html",
    "links": "workshop/links.html",
    "file": "workshop/files/*.html",
    "notification": "workshop/notifications/*.html",
}
"""One page of every kind, and every sort of candle that looks different."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """The shop as printed in one theme, and the link that opens a buyer's sheet, from the site's root."""

    theme: str
    output: Path
    link: str

    def page(self, kind: str) -> Path:
        """A page of one kind that stays when it is opened."""
        found = sorted(self.output.glob(KINDS[kind]))
        return next(path for path in found if b'http-equiv="refresh"' not in path.read_bytes())

    def pages(self) -> tuple[Path, ...]:
        """Every page."""
        return tuple(sorted(self.output.rglob("*.html")))


def printed_in(theme: str, folder: Path) -> Printed:
    """A sheet issued twice, another that would change, a recall, links for buyers, and papers for officers."""
    content = folder / "content"
    shutil.copytree(EXAMPLE, content, ignore=shutil.ignore_patterns(".shop-secret"))
    (content / "recalls").mkdir(exist_ok=True)
    (content / "recalls" / "cracked-glass.yaml").write_text(RECALL, encoding="utf-8")
    _replace(content / "maker.yaml", r"(?m)^theme: .*$", f"theme: {theme}")
    _replace(content / "maker.yaml", r"(?m)^as_of: .*$", "as_of: 2026-11-15")
    _replace(
        content / "vessels" / "tumbler-30.yaml", r"(?m)^name: .*$", "name: Clear tumbler with a thick base"
    )
    _wickwright(folder, "issue", "QF-30", "--reason", "another name for the vessel")
    _wickwright(folder, "papers", "file", "SS-30")
    _wickwright(folder, "papers", "notification", "SS-30")
    _wickwright(folder, "link", "--all")
    _wickwright(folder, "build")
    web = re.search(r"(?m)^web: (\S+)$", (content / "maker.yaml").read_text(encoding="utf-8"))
    assert web is not None
    link = _wickwright(folder, "link", BUYER).strip().removeprefix(f"{web[1]}/")
    return Printed(theme=theme, output=folder / "output", link=link)


def _replace(path: Path, pattern: str, text: str) -> None:
    before = path.read_text(encoding="utf-8")
    after = re.sub(pattern, text, before, count=1)
    path.write_text(after, encoding="utf-8")


def _wickwright(folder: Path, *words: str) -> str:
    """What a command prints."""
    with redirect_stdout(StringIO()) as said:
        code = main([*words, "--content", str(folder / "content"), "--output", str(folder / "output")])
    assert code == 0, said.getvalue()
    return said.getvalue()

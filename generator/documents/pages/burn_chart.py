"""A burn test as a chart: wax left against hours, the fitted rate, the heel, and the hours claimed."""

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from math import ceil
from typing import Final

from generator.document import PlainText
from generator.documents.house import House, SizeOf, Words
from generator.documents.printed import counted, derived, grams, hours
from generator.documents.shelves import public_sizes
from generator.facts.facts import BurnTrack

WIDTH: Final = 560
HEIGHT: Final = 320
_LEFT, _RIGHT, _TOP, _BOTTOM = 56, 16, 16, 48
_STEPS: Final = tuple(part * ten for ten in (1, 10, 100, 1_000, 10_000) for part in (1, 2, 5))
_MOST_H, _MOST_G = 8, 10
"""The most steps of an axis that remain legible (CHOICE)."""

_STYLE: Final = (
    "<style>text{font:13px sans-serif;fill:#1d1a16}.axis{stroke:#5c5347}.piece{fill:none;stroke:#5c5347}"
    ".rate{stroke:#154889;stroke-width:2}.heel{stroke:#5c5347;stroke-dasharray:2 4}"
    ".claim{stroke:#9b2423;stroke-width:2;stroke-dasharray:6 4}.ground{fill:#fff}</style>"
)


def public_tracks(house: House) -> Iterator[tuple[SizeOf, BurnTrack]]:
    """The candles on the shelves whose published hours are those of today's test.

    A candle that has changed since its sheet was issued has none, because its chart would reveal the change; where
    the maker keeps charts private, no candle has one.
    """
    if house.maker.burn_charts == "private":
        return
    for size in (size for scent in house.scents for size in public_sizes(scent)):
        if not house.drafts and house.sheets[size.facts.stock_code].status != "issued":
            continue
        said = size.facts.burn_hours
        track = size.facts.burn_track
        if said is not None and track is not None and said.claim == track.claim_h:
            yield size, track


def chart_address(size: SizeOf) -> str:
    """From the root of the site or of the workshop."""
    return f"tests/{size.facts.stock_code}.svg"


def described(house: House, size: SizeOf, track: BurnTrack) -> str:
    """What the drawing shows, in words."""
    pieces = str(len(track.tracks))
    return counted("counted_tracks", pieces, house.words).format(
        name=f"{size.recorded.scent}, {size.recorded.size_name}",
        pieces=pieces,
        rate=derived(track.rate_g_per_h, "g/h", house.words),
        claim=hours(track.claim_h, house.words),
    )


@dataclass(frozen=True, slots=True)
class _Ground:
    """The chart's area: its extent, and where hours and grams are on it.

    Whole units, so that no figure can be read back finer than it is drawn.
    """

    longest_h: int
    most_g: int
    step_h: int
    step_g: int

    def x(self, at_h: float) -> int:
        return round(_LEFT + (WIDTH - _LEFT - _RIGHT) * at_h / self.longest_h)

    def y(self, left_g: float) -> int:
        return round(HEIGHT - _BOTTOM - (HEIGHT - _TOP - _BOTTOM) * left_g / self.most_g)

    def line(self, name: str, start: tuple[float, float], end: tuple[float, float]) -> str:
        """A straight line between two points of hours and grams."""
        (from_h, from_g), (to_h, to_g) = start, end
        return f'<path class="{name}" d="M{self.x(from_h)} {self.y(from_g)}L{self.x(to_h)} {self.y(to_g)}"/>'


def chart(house: House, size: SizeOf, track: BurnTrack, path: str) -> PlainText:
    """The chart of a candle whose test gives a rate."""
    words, ground = house.words["burn_chart"], _ground(track)
    axes = _axes(ground, track.net_g, words["hours"], words["left"])
    body = "".join((*axes, *_lines(ground, track), *_labels(ground, track, house.words)))
    text = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
        f"<title>{escape(described(house, size, track))}</title>{_STYLE}"
        f'<rect class="ground" width="{WIDTH}" height="{HEIGHT}"/>{body}</svg>\n'
    )
    return PlainText(path=path, text=text)


def _ground(track: BurnTrack) -> _Ground:
    """As far as every line reaches; after a short test the rate's line ends beyond the claim."""
    longest_h = max(track.claim_h, _ends_h(track), *(one.points[-1][0] for one in track.tracks))
    step_g = _step(track.net_g, _MOST_G)
    return _Ground(
        longest_h=ceil(longest_h),
        most_g=ceil(track.net_g / step_g) * step_g,
        step_h=_step(longest_h, _MOST_H),
        step_g=step_g,
    )


def _step(reach: float, most: int) -> int:
    """The smallest step that keeps the axis legible."""
    return next((step for step in _STEPS if reach <= most * step), _STEPS[-1])


def _ends_h(track: BurnTrack) -> float:
    """When the wax is down to what stays in the vessel, at the fitted rate."""
    return (track.net_g - track.heel_g) / track.rate_g_per_h


def _axes(ground: _Ground, net_g: float, across: str, up: str) -> Iterator[str]:
    base, right = ground.y(0), WIDTH - _RIGHT
    yield f'<path class="axis" fill="none" d="M{_LEFT} {_TOP}V{base}H{right}"/>'
    for at_h in range(0, ground.longest_h + 1, ground.step_h):
        yield f'<text x="{ground.x(at_h)}" y="{base + 18}" text-anchor="middle">{at_h}</text>'
    for at_g in range(0, ceil(net_g) + 1, ground.step_g):
        yield f'<text x="{_LEFT - 8}" y="{ground.y(at_g) + 4}" text-anchor="end">{at_g}</text>'
    yield f'<text x="{right}" y="{base + 38}" text-anchor="end">{escape(across)}</text>'
    yield f'<text x="{_LEFT + 8}" y="{_TOP + 10}">{escape(up)}</text>'


def _lines(ground: _Ground, track: BurnTrack) -> Iterator[str]:
    for one in track.tracks:
        path = "L".join(f"{ground.x(at_h)} {ground.y(left_g)}" for at_h, left_g in one.points)
        yield f'<path class="piece" d="M{path}"/>'
    yield ground.line("rate", (0, track.net_g), (_ends_h(track), track.heel_g))
    yield ground.line("heel", (0, track.heel_g), (ground.longest_h, track.heel_g))
    yield ground.line("claim", (track.claim_h, ground.most_g), (track.claim_h, 0))


def _labels(ground: _Ground, track: BurnTrack, words: Words) -> Iterator[str]:
    said = words["burn_chart"]
    claim = said["claim"].format(hours=hours(track.claim_h, words))
    # On the side of its line with more room: on the other it would meet the axis's words.
    aside, anchor = (-6, "end") if 2 * track.claim_h > ground.longest_h else (6, "start")
    at = f'x="{ground.x(track.claim_h) + aside}" y="{_TOP + 10}" text-anchor="{anchor}"'
    yield f"<text {at}>{escape(claim)}</text>"
    middle_h = _ends_h(track) / 2
    middle_g = (track.net_g + track.heel_g) / 2
    at = f'x="{ground.x(middle_h) + 16}" y="{ground.y(middle_g) - 16}"'
    rate = said["rate"].format(rate=derived(track.rate_g_per_h, "g/h", words))
    yield f"<text {at}>{escape(rate)}</text>"
    heel = said["heel"].format(heel=grams(track.heel_g, words))
    yield f'<text x="{_LEFT + 8}" y="{ground.y(track.heel_g) - 6}">{escape(heel)}</text>'

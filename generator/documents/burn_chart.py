"""A burn test as a drawing: wax left against hours, the fitted rate, the heel, and the hours claimed."""

from collections.abc import Iterator
from html import escape
from math import ceil
from typing import Final

from generator.document import PlainText
from generator.documents.house import House, SizeOf
from generator.documents.printed import derived, grams, hours
from generator.documents.shelves import public_sizes
from generator.facts.burn_tracks import BurnTrack

WIDTH: Final = 560
HEIGHT: Final = 320
_LEFT, _RIGHT, _TOP, _BOTTOM = 56, 16, 16, 48
_STEP_H: Final = 5
_STEP_G: Final = 50
_STYLE: Final = (
    "<style>text{font:13px sans-serif;fill:#1d1a16}.axis{stroke:#5c5347}.piece{fill:none;stroke:#5c5347}"
    ".rate{stroke:#154889;stroke-width:2}.heel{stroke:#5c5347;stroke-dasharray:2 4}"
    ".claim{stroke:#9b2423;stroke-width:2;stroke-dasharray:6 4}.ground{fill:#fff}</style>"
)


def workshop_charts(house: House) -> Iterator[PlainText]:
    """A chart of every candle whose test gives a rate."""
    for size in (size for scent in house.scents for size in scent.sizes):
        track = house.tracks.get(size.facts.stock_code)
        if track is not None:
            yield _chart(house, size, track, "workshop")


def public_charts(house: House) -> Iterator[PlainText]:
    """Those that the site shows."""
    for size, track in public_tracks(house):
        yield _chart(house, size, track, "site")


def public_tracks(house: House) -> Iterator[tuple[SizeOf, BurnTrack]]:
    """The candles on the shelves whose published hours are the ones that their test gives today."""
    for size in (size for scent in house.scents for size in public_sizes(scent)):
        said = size.facts.burn_hours
        track = house.tracks.get(size.facts.stock_code)
        if said is not None and track is not None and said.claim == track.claim_h:
            yield size, track


def chart_address(size: SizeOf) -> str:
    """From the root of the site or of the workshop."""
    return f"tests/{size.facts.stock_code}.svg"


def described(house: House, size: SizeOf, track: BurnTrack) -> str:
    """What the drawing shows, in words."""
    return house.words["burn_chart"]["described"].format(
        name=f"{size.facts.scent}, {size.facts.size}",
        pieces=len(track.tracks),
        rate=derived(track.rate_g_per_h, "g/h", house.words),
        claim=hours(track.claim_h, house.words),
    )


def _chart(house: House, size: SizeOf, track: BurnTrack, root: str) -> PlainText:
    words = house.words["burn_chart"]
    body = "".join((*_axes(track, words["hours"], words["left"]), *_lines(track), *_labels(house, track)))
    text = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
        f"<title>{escape(described(house, size, track))}</title>{_STYLE}"
        f'<rect class="ground" width="{WIDTH}" height="{HEIGHT}"/>{body}</svg>\n'
    )
    return PlainText(path=f"{root}/{chart_address(size)}", text=text)


def _longest_h(track: BurnTrack) -> int:
    ends = [track.claim_h, *(one.points[-1][0] for one in track.tracks)]
    return ceil(max(ends) / _STEP_H) * _STEP_H


def _x(track: BurnTrack, at_h: float) -> int:
    """Whole units, so that no figure can be read back finer than it is drawn."""
    return round(_LEFT + (WIDTH - _LEFT - _RIGHT) * at_h / _longest_h(track))


def _y(track: BurnTrack, left_g: float) -> int:
    most = ceil(track.net_g / _STEP_G) * _STEP_G
    return round(HEIGHT - _BOTTOM - (HEIGHT - _TOP - _BOTTOM) * left_g / most)


def _axes(track: BurnTrack, across: str, up: str) -> Iterator[str]:
    base, right = _y(track, 0), WIDTH - _RIGHT
    yield f'<path class="axis" fill="none" d="M{_LEFT} {_TOP}V{base}H{right}"/>'
    for at_h in range(0, _longest_h(track) + 1, 2 * _STEP_H):
        yield f'<text x="{_x(track, at_h)}" y="{base + 18}" text-anchor="middle">{at_h}</text>'
    for at_g in range(0, ceil(track.net_g) + 1, _STEP_G):
        yield f'<text x="{_LEFT - 8}" y="{_y(track, at_g) + 4}" text-anchor="end">{at_g}</text>'
    yield f'<text x="{right}" y="{base + 38}" text-anchor="end">{escape(across)}</text>'
    yield f'<text x="{_LEFT + 8}" y="{_TOP + 10}">{escape(up)}</text>'


def _lines(track: BurnTrack) -> Iterator[str]:
    for one in track.tracks:
        path = "L".join(f"{_x(track, at_h)} {_y(track, left_g)}" for at_h, left_g in one.points)
        yield f'<path class="piece" d="M{path}"/>'
    ends_h = (track.net_g - track.heel_g) / track.rate_g_per_h
    yield _line("rate", (_x(track, 0), _y(track, track.net_g)), (_x(track, ends_h), _y(track, track.heel_g)))
    yield _line("heel", (_LEFT, _y(track, track.heel_g)), (WIDTH - _RIGHT, _y(track, track.heel_g)))
    yield _line("claim", (_x(track, track.claim_h), _TOP), (_x(track, track.claim_h), _y(track, 0)))


def _line(name: str, start: tuple[int, int], end: tuple[int, int]) -> str:
    return f'<path class="{name}" d="M{start[0]} {start[1]}L{end[0]} {end[1]}"/>'


def _labels(house: House, track: BurnTrack) -> Iterator[str]:
    words = house.words["burn_chart"]
    claim = words["claim"].format(hours=hours(track.claim_h, house.words))
    yield f'<text x="{_x(track, track.claim_h) - 6}" y="{_TOP + 10}" text-anchor="end">{escape(claim)}</text>'
    middle_h = (track.net_g - track.heel_g) / track.rate_g_per_h / 2
    middle_g = (track.net_g + track.heel_g) / 2
    at = f'x="{_x(track, middle_h) + 16}" y="{_y(track, middle_g) - 16}"'
    rate = words["rate"].format(rate=derived(track.rate_g_per_h, "g/h", house.words))
    yield f"<text {at}>{escape(rate)}</text>"
    heel = words["heel"].format(heel=grams(track.heel_g, house.words))
    yield f'<text x="{_LEFT + 8}" y="{_y(track, track.heel_g) - 6}">{escape(heel)}</text>'

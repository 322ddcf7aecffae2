"""QR codes as drawings; the home of ``segno``, and knows nothing of candles."""

from collections.abc import Iterator
from functools import lru_cache
from html import escape
from itertools import groupby
from typing import Final

import segno

_QUIET_MODULES: Final = 4
"""The light border all round, in modules: ISO/IEC 18004 requires four. (MEMORY)"""

_KEPT: Final = 4096
"""A code is on a sheet's page, on its revision's page, on both papers and on every label."""


@lru_cache(maxsize=_KEPT)
def qr_code(text: str) -> str:
    """The code as SVG without a size, dark on light in every colour scheme; its text is its title.

    Error correction M restores about 15 % of the modules (ISO/IEC 18004, MEMORY), enough for a smudged label.
    """
    rows = segno.make_qr(text, error="m").matrix
    side = len(rows) + 2 * _QUIET_MODULES
    dark = "".join(_runs(rows))
    return (
        f'<svg viewBox="0 0 {side} {side}" role="img"><title>{escape(text)}</title>'
        f'<path fill="#fff" d="M0 0h{side}v{side}H0z"/>'
        f'<path stroke="#000" shape-rendering="crispEdges" d="{dark}"/></svg>'
    )


def _runs(rows: tuple[bytearray, ...]) -> Iterator[str]:
    """Each run of dark modules as a stroke one module wide, through the middle of its row."""
    for down, row in enumerate(rows, start=_QUIET_MODULES):
        across = _QUIET_MODULES
        for is_dark, run in groupby(row):
            length = sum(1 for _ in run)
            if is_dark:
                yield f"M{across} {down}.5h{length}"
            across += length

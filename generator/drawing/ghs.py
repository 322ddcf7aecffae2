"""The red diamonds of hazard labels, drawn here: black symbol, white ground, red frame, on its point.

Our own drawings, from the descriptions of the symbols in the UN's system and CLP Annex V (MEMORY). A diamond
is 200 units from point to point; the law measures its side, 141.4 units.
"""

from collections.abc import Mapping
from html import escape
from types import MappingProxyType
from typing import Final

BLACK: Final = "#000000"
RED: Final = "#e30613"
WHITE: Final = "#ffffff"

_FRAME: Final = (
    f'<path fill="{RED}" d="M100 0 200 100 100 200 0 100Z"/>'
    f'<path fill="{WHITE}" d="M100 15.5 184.5 100 100 184.5 15.5 100Z"/>'
)

_TUBE: Final = (
    f'<path fill="{BLACK}" d="M-9-24h18v36a9 9 0 0 1-18 0z"/><path fill="{BLACK}" d="M-12-28h24v6h-24z"/>'
    f'<path fill="{WHITE}" d="M-5-18h4v32a4 4 0 0 1-4-4z"/>'
)
_DROP: Final = "c3.500 5.500 5 8 5 10.500a5 5 0 0 1-10 0c0-2.500 1.500-5 5-10.500z"

_CORROSION: Final = (
    f'<g transform="translate(81 61) rotate(-126) scale(.92)">{_TUBE}</g>'
    f'<g transform="translate(119 61) rotate(126) scale(.92)">{_TUBE}</g>'
    f'<path d="M58 78{_DROP}M58 95{_DROP}M142 78{_DROP}M142 95{_DROP}"/>'
    '<path d="M43 112h8l3 5 4-1 3 5 5-4 3-5h25v14H43z"/>'
    '<path d="M109 127c-6 0-6-8 0-8l10 0-8-4c-5-2-3-8 2-7l19 5 3 3 4-1 4 4 3-5 7-5 7 3-3 9c-7 6-15 7-24 6z"/>'
)

_BONE: Final = (
    f'<path stroke="{BLACK}" stroke-width="9" d="M60 104 137 129"/>'
    '<circle cx="57" cy="99" r="7"/><circle cx="53" cy="107" r="7"/>'
    '<circle cx="143" cy="125" r="7"/><circle cx="138" cy="133" r="7"/>'
)

_SKULL: Final = (
    f'{_BONE}<g transform="translate(200 0) scale(-1 1)">{_BONE}</g>'
    f'<path stroke="{WHITE}" stroke-width="4" d="M100 34c22 0 33 16 32.500 35-.3 9-4 16-11 21l-2 12'
    'c-1 7-8 9-19.500 9s-18.500-2-19.500-9l-2-12c-7-5-10.700-12-11-21C67 50 78 34 100 34z"/>'
    f'<g fill="{WHITE}"><ellipse cx="86" cy="72" rx="9" ry="10"/><ellipse cx="114" cy="72" rx="9" ry="10"/>'
    '<path d="M100 83 94.500 94h11z"/>'
    '<path d="M90 99h2.200v9h-2.200zM98.900 99h2.200v10h-2.200zM107.800 99h2.200v9h-2.200z"/></g>'
)

_EXCLAMATION: Final = (
    '<path d="M100 40c9.500 0 14.500 6.500 13.800 15.500l-5.300 62c-.4 5-3.600 8-8.500 8s-8.100-3-8.500-8'
    'l-5.300-62C85.500 46.500 90.500 40 100 40z"/><circle cx="100" cy="147" r="12"/>'
)

_HEALTH: Final = (
    '<circle cx="100" cy="55" r="20"/>'
    '<path d="M91 70h18v13c3 3 9 5 16 7 11 3 18 10 20 21l3 18-23 23-25 9-25-9-23-23 3-18'
    'c2-11 9-18 20-21 7-2 13-4 16-7z"/>'
    f'<path fill="{WHITE}" d="M100 89l5 19 17-12-10 18 21 3-20 7 11 18-17-10-7 24-7-24-17 10 11-18'
    '-20-7 21-3-10-18 17 12z"/>'
)

_ENVIRONMENT: Final = (
    '<path d="M44 125c14-3 26-4 40-1 12 3 22 9 36 9l26-2-8 10c-12 4-26 5-42 4-16 0-30-2-40-6z"/>'
    f'<g fill="none" stroke="{BLACK}" stroke-linecap="round" stroke-linejoin="round">'
    '<path stroke-width="9" d="M80 128V84"/>'
    '<path stroke-width="5" d="M80 94 64 76l-2-13M69 81l-14 1M80 86l7-24-4-14M85 68l17-10M80 104l16-17 13-1"/>'
    "</g>"
    '<g transform="translate(126 113) rotate(-12)"><path d="M-33 1c9-14 32-18 49-4l15-12c-3 9-2 19 3 28l-18-8'
    'c-17 12-39 8-49-4z"/>'
    f'<path fill="none" stroke="{WHITE}" stroke-width="2.500" d="M-22-5l6 6m0-6-6 6"/></g>'
)

_SYMBOLS: Final[Mapping[str, str]] = MappingProxyType({
    "GHS05": _CORROSION,
    "GHS06": _SKULL,
    "GHS07": _EXCLAMATION,
    "GHS08": _HEALTH,
    "GHS09": _ENVIRONMENT,
})  # fmt: skip


def pictogram(code: str, name: str) -> str:
    """One symbol as a separate drawing, with its name as text alternative."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 200" role="img">'
        f"<title>{escape(name)}</title>{_FRAME}"
        f'<g fill="{BLACK}">{_SYMBOLS[code]}</g></svg>'
    )

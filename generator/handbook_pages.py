"""The pages of the handbook in reading order, and which of them speaks of a file of the shop."""

from typing import Final

PAGES: Final = (
    "candle",
    "burn-tests",
    "safety-sheets",
    "lots",
    "labels",
    "bench",
    "shops",
    "publishing",
    "languages",
    "themes",
    "figures",
    "warnings",
    "limits",
    "keys",
    "changes",
)
"""Every page by its name: ``generator/data/handbook/NAME.md``, but for ``keys``, which is made from the model."""

MADE: Final = "keys"
"""The page that no file holds."""

_OF_FILES: Final = {
    "burn-tests": "burn-tests",
    "sheets": "safety-sheets",
    "recalls": "lots",
    "lots.csv": "lots",
    "poured": "lots",
    "label-stock": "labels",
    "artwork": "labels",
    "trade": "shops",
    "prices.csv": "shops",
    "publish.yaml": "publishing",
    "pages": "candle",
    "photos": "candle",
    "themes": "themes",
    "languages": "languages",
    "maker.yaml": "keys",
    "collections.yaml": "keys",
    "formats": "keys",
    "candles": "candle",
    "vessels": "candle",
    "waxes": "candle",
    "fragrances": "safety-sheets",
    "additives": "candle",
    "dyes": "candle",
    "wicks": "candle",
}
"""The page of a file or folder, by a part of its path; what is not here has none."""


def page_of(file: str) -> str | None:
    """The page that speaks of a file, by its path as problems print it; None where no page does."""
    return next((_OF_FILES[part] for part in reversed(file.split("/")) if part in _OF_FILES), None)

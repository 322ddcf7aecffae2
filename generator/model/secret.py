"""The shop's secret, and what its file remembers of the links that were given out with it.

Apart from the links, because a build of which nothing has changed loads it, and must not wait for `pydantic`.
"""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How many rows ``trade/links.csv`` had when ``link`` last wrote it, and the seal of the last one."""

    rows: int
    seal: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopSecret:
    """What all keys are made from; ``mark`` is None in a file from before there were marks."""

    key: bytes = field(repr=False)
    mark: Mark | None

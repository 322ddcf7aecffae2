"""The shop's secret, and what its file remembers of the links given out with it.

Separate from the links, because a build with no changes loads it, and must not wait for `pydantic`.
"""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How many rows ``trade/links.csv`` had when ``link`` last wrote it, and the seal of the last one."""

    rows: int
    seal: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopSecret:
    """What all keys are derived from; ``mark`` is None in a file older than marks."""

    key: bytes = field(repr=False)
    mark: Mark | None

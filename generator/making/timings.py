"""How long each part of a build took, for ``build.json``."""

from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic


class Timings:
    """Seconds by the name of the part."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    @contextmanager
    def of(self, part: str) -> Iterator[None]:
        """Whatever is done within counts as this part."""
        started = monotonic()
        yield
        self.seconds[part] = self.seconds.get(part, 0.0) + monotonic() - started

    @property
    def total(self) -> float:
        """All parts together."""
        return sum(self.seconds.values())

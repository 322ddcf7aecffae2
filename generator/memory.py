"""Values identified by what they were made from, within a run and, in a preview, from one run to the next."""

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """How many values of a shelf were reused and how many made in this run."""

    hits: int
    misses: int


class Remembered(Generic[_T]):
    """Values of one kind, each by its inputs: everything it was made from.

    A text among the inputs says everything it stands for, as a digest does. Anything else counts as the same only
    while it is the very same object; the shelf holds it, so that its address in memory is not reused.
    What a run did not ask for is forgotten at its end.
    """

    def __init__(self) -> None:
        self._before: dict[tuple[object, ...], tuple[Sequence[object], _T]] = {}
        self._now: dict[tuple[object, ...], tuple[Sequence[object], _T]] = {}
        self._made = 0

    def remember(self, inputs: tuple[object, ...], make: Callable[[], _T]) -> _T:
        """The value made from these inputs; made only if it is not remembered."""
        key = tuple(part if isinstance(part, str) else id(part) for part in inputs)
        held = self._now.get(key) or self._before.get(key) or (inputs, self._value(inputs, make))
        self._now[key] = held
        return held[1]

    def _value(self, inputs: tuple[object, ...], make: Callable[[], _T]) -> _T:  # noqa: ARG002  (a stored shelf asks)
        self._made += 1
        return make()

    def keep(self) -> None:
        """Keep what the previous run asked for, because what was made with it is remembered itself."""
        self._now = {**self._before, **self._now}

    @property
    def counts(self) -> Counts:
        """The counts of this run."""
        return Counts(hits=len(self._now) - self._made, misses=self._made)

    def end_run(self) -> None:
        """Forget what this run did not ask for."""
        self._before, self._now, self._made = self._now, {}, 0


def digest(*parts: bytes | str) -> str:
    """The sha256 of the parts, each framed by its kind and length so that no two lists of parts read alike."""
    framed = hashlib.sha256()
    for part in parts:
        kind, data = (b"t", part.encode()) if isinstance(part, str) else (b"b", part)
        framed.update(kind + len(data).to_bytes(8, "big"))
        framed.update(data)
    return framed.hexdigest()

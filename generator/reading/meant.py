"""What other words and forms of a maker may mean where they are not read."""

from collections.abc import Mapping
from typing import Any, Final

from generator.model.candle import Fill
from generator.model.quantities import LENGTH, MASS, VOLUME

_WORDS: Final[Mapping[str, Mapping[str, str]]] = {
    "shape": {
        **dict.fromkeys(
            ("round", "circle", "circular", "straight", "cylindrical"),
            "cylinder, or rounded where the wall meets the base in a curve",
        ),
        **dict.fromkeys(("tapered", "conical", "flared"), "cone"),
        **dict.fromkeys(("hex", "hexagonal"), "hexagon"),
        **dict.fromkeys(("ellipse", "elliptical"), "oval"),
        **dict.fromkeys(("cube", "box"), "square"),
    },
}


def word_meant(key: str, written: str) -> str | None:
    """The words of a key that another word stands for."""
    return _WORDS.get(key, {}).get(written.strip().lower())


def keys_meant(accepts: Any, written: Any) -> str | None:
    """The keys in which one text belongs that was written in their place."""
    if accepts is not Fill or not isinstance(written, str):
        return None
    text = " ".join(written.split())
    if MASS.holds(text):
        return f"{{weight: {text}}}"
    if LENGTH.holds(text):
        return f"{{to: {text}, level: set}}"
    return f"{{volume: {text}, level: set}}" if VOLUME.holds(text) else None

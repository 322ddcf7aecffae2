"""The maker's own drawing on the front of a candle, when all of it can be printed."""

from pathlib import Path

from generator.problems import Place, Problem
from generator.reading.artwork import read_artwork
from generator.writing.photos import BadPicture, check_embedded


def printable(file: Path, shown: str) -> str | Problem:
    """The drawing as it is written, or what is wrong with it or with a picture embedded in it."""
    artwork = read_artwork(file, shown)
    if isinstance(artwork, Problem):
        return artwork
    for number, picture in enumerate(artwork.pictures, start=1):
        try:
            check_embedded(picture)
        except BadPicture as bad:
            return Problem(
                place=Place(shown, 1, 1),
                what=f"picture {number} in the drawing {bad.reason}",
                why="the front of the candle would be printed without it",
                write="the drawing with a smaller picture in it, saved again",
            )
    return artwork.svg

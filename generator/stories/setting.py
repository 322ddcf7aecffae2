"""What a shop chose to be printed with: its theme and its language."""

from dataclasses import dataclass
from pathlib import Path

from generator.documents.house import Words
from generator.model.maker import Maker
from generator.problems import Places, Problem
from generator.reading.shipped import languages, theme_folders, words_of
from generator.writing.themes import Theme


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A theme with those it extends, and the words of one language."""

    theme: Theme
    words: Words


def setting_of(content: Path, maker: Maker, places: Places) -> Setting | Problem:
    """The theme and the words, or what is wrong with the choice."""
    folders = theme_folders(content, maker.theme, places.of(("maker.yaml", "theme")))
    if isinstance(folders, Problem):
        return folders
    if maker.language not in languages():
        return Problem(
            place=places.of(("maker.yaml", "language")),
            what=f"there are no words in the language '{maker.language}'",
            why="the pages could not be printed",
            write=f"language: {', or '.join(languages())}",
        )
    return Setting(theme=Theme(name=maker.theme, folders=folders), words=words_of(maker.language))

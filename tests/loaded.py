"""Shops that a test takes for readable, or for sound."""

from collections.abc import Mapping

from generator.commands.make_paper import PaperRequest, run
from generator.commands.papers import PAPERS
from generator.making.load_shop import load_shop
from generator.making.loaded_shop import LoadedShop, SoundShop, sound_shop
from generator.making.options import CommandOptions


def loaded_shop(options: CommandOptions) -> LoadedShop:
    """The shop with all that is wrong with it."""
    loaded = load_shop(options)
    assert isinstance(loaded, LoadedShop), loaded.problems
    return loaded


def house_and_theme(options: CommandOptions) -> SoundShop:
    """The shop as its papers see it."""
    sound = sound_shop(load_shop(options))
    assert isinstance(sound, SoundShop), sound
    return sound


def make_paper(options: CommandOptions, word: str, *codes: str) -> int:
    """A paper on one of each stock code."""
    return make_papers(options, word, dict.fromkeys(codes, 1))


def make_papers(options: CommandOptions, word: str, counts: Mapping[str, int]) -> int:
    """A paper on so many of each stock code."""
    (paper,) = (one for one in PAPERS if one.word == word)
    return run(options, paper, PaperRequest(counts=counts))

"""The page that says how every figure is worked out, on what sources, and what is our own choice."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from generator.document import Document, Value
from generator.documents.frame import FIGURES, GLOSSARY
from generator.documents.house import House
from generator.documents.link_previews import preview_of_house
from generator.documents.pages.burn_chart import HEIGHT, WIDTH, chart_address, described, public_tracks

Standing = Literal["read", "reported", "memory", "worked_out", "practice", "choice"]
"""What stands behind a step, from the surest to what is only ours."""

_STANDINGS: Final[tuple[Standing, ...]] = ("read", "reported", "memory", "worked_out", "practice", "choice")


@dataclass(frozen=True, slots=True)
class _Topic:
    """One section: its name among the words, how many paragraphs it has, and its sources with their standing."""

    name: str
    paragraphs: int
    sources: tuple[tuple[str, Standing], ...]


_TOPICS: Final = (
    _Topic("weight", 2, (("order", "choice"), ("error", "worked_out"), ("water", "memory"))),
    _Topic("line", 1, (("shrinks", "worked_out"),)),
    _Topic(
        "density", 1, (("rule", "worked_out"), ("wax", "practice"), ("heat", "reported"), ("oil", "choice"))
    ),
    _Topic(
        "quantity",
        2,
        (
            ("down", "read"),
            ("factor", "read"),
            ("pound", "reported"),
            ("eu", "read"),
            ("proof", "choice"),
        ),
    ),
    _Topic("heel", 2, (("us", "reported"), ("eu", "reported"), ("deepest", "choice"))),
    _Topic(
        "hours",
        3,
        (
            ("no_rule", "read"),
            ("spread", "read"),
            ("flame", "reported"),
            ("bound", "choice"),
            ("level", "choice"),
            ("few", "choice"),
        ),
    ),
    _Topic("untested", 1, (("pillars", "read"), ("ten", "read"), ("margin", "choice"))),
    _Topic(
        "first_burn",
        2,
        (("inch", "practice"), ("four", "reported"), ("wicks", "choice"), ("least", "choice")),
    ),
    _Topic(
        "cautions",
        1,
        (
            ("clear", "read"),
            ("signs", "reported"),
            ("trim", "reported"),
            ("apart", "reported"),
            ("shapes", "memory"),
            ("skin", "memory"),
        ),
    ),
    _Topic("private", 1, ()),
)


def figures_page(house: House) -> Document:
    """The methods, in plain words."""
    words = house.words["figures"]
    return Document(
        path=f"site/{FIGURES}",
        template="pages/figures.html",
        value={
            "path": FIGURES,
            "title": words["title"],
            "description": words["description"],
            "preview": preview_of_house(house, FIGURES, words["title"], words["description"]),
            "lead": words["lead"],
            "glossary": {"name": words["glossary"], "path": GLOSSARY},
            "topics": tuple(_topic(words, topic) for topic in _TOPICS),
            "tests": _tests(house),
            "standing": words["standing"],
            "standings": tuple(
                {"mark": words[one], "meaning": words[f"{one}_meaning"], "key": one} for one in _STANDINGS
            ),
        },
    )


def _tests(house: House) -> Mapping[str, Value] | None:
    words = house.words["burn_chart"]
    shown = tuple(
        {
            "address": chart_address(size),
            "name": f"{size.recorded.scent}, {size.recorded.size_name}",
            "said": described(house, size, track),
            "width": str(WIDTH),
            "height": str(HEIGHT),
        }
        for size, track in public_tracks(house)
    )
    return {"title": words["title"], "lead": words["lead"], "charts": shown} if shown else None


def _topic(words: Mapping[str, str], topic: _Topic) -> Mapping[str, Value]:
    return {
        "id": topic.name.replace("_", "-"),
        "title": words[topic.name],
        "paragraphs": tuple(words[f"{topic.name}_{number}"] for number in range(1, topic.paragraphs + 1)),
        "sources": tuple(
            {"mark": words[standing], "key": standing, "text": words[f"{topic.name}_{source}"]}
            for source, standing in topic.sources
        ),
    }

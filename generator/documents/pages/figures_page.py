"""The page on how every figure is worked out, from which sources, and what is our own choice."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from generator.document import Document, Value
from generator.documents.frame import FIGURES, GLOSSARY
from generator.documents.house import House
from generator.documents.link_previews import site_page
from generator.documents.pages.burn_chart import HEIGHT, WIDTH, chart_address, described, public_tracks

_Standing = Literal["read", "reported", "memory", "worked_out", "practice", "choice"]
"""What supports a step, from the surest source to our own choice."""

_MEANINGS: Final[tuple[tuple[_Standing, str], ...]] = (
    ("read", "read_meaning"),
    ("reported", "reported_meaning"),
    ("memory", "memory_meaning"),
    ("worked_out", "worked_out_meaning"),
    ("practice", "practice_meaning"),
    ("choice", "choice_meaning"),
)


@dataclass(frozen=True, slots=True)
class _Topic:
    """One section by the names of its words: heading, paragraphs, and sources with how they are known."""

    name: str
    paragraphs: tuple[str, ...]
    sources: tuple[tuple[str, _Standing], ...]


_TOPICS: Final = (
    _Topic(
        "weight",
        (
            "weight_1",
            "weight_2",
        ),
        (
            ("weight_order", "choice"),
            ("weight_error", "worked_out"),
            ("weight_water", "memory"),
        ),
    ),
    _Topic(
        "line",
        ("line_1",),
        (("line_shrinks", "worked_out"),),
    ),
    _Topic(
        "density",
        ("density_1",),
        (
            ("density_rule", "worked_out"),
            ("density_wax", "practice"),
            ("density_heat", "reported"),
            ("density_oil", "choice"),
        ),
    ),
    _Topic(
        "quantity",
        (
            "quantity_1",
            "quantity_2",
        ),
        (
            ("quantity_down", "read"),
            ("quantity_factor", "read"),
            ("quantity_pound", "reported"),
            ("quantity_eu", "read"),
            ("quantity_proof", "choice"),
        ),
    ),
    _Topic(
        "heel",
        (
            "heel_1",
            "heel_2",
        ),
        (
            ("heel_us", "reported"),
            ("heel_eu", "reported"),
            ("heel_deepest", "choice"),
        ),
    ),
    _Topic(
        "hours",
        (
            "hours_1",
            "hours_2",
            "hours_3",
        ),
        (
            ("hours_no_rule", "read"),
            ("hours_spread", "read"),
            ("hours_flame", "reported"),
            ("hours_bound", "choice"),
            ("hours_level", "choice"),
            ("hours_few", "choice"),
        ),
    ),
    _Topic(
        "untested",
        ("untested_1",),
        (
            ("untested_pillars", "read"),
            ("untested_ten", "read"),
            ("untested_margin", "choice"),
        ),
    ),
    _Topic(
        "first_burn",
        (
            "first_burn_1",
            "first_burn_2",
        ),
        (
            ("first_burn_inch", "practice"),
            ("first_burn_four", "reported"),
            ("first_burn_wicks", "choice"),
            ("first_burn_least", "choice"),
        ),
    ),
    _Topic(
        "cautions",
        ("cautions_1",),
        (
            ("cautions_clear", "read"),
            ("cautions_signs", "reported"),
            ("cautions_trim", "reported"),
            ("cautions_apart", "reported"),
            ("cautions_shapes", "memory"),
            ("cautions_skin", "memory"),
        ),
    ),
    _Topic(
        "private",
        ("private_1",),
        (),
    ),
)


def figures_page(house: House) -> Document:
    """The methods, in plain words."""
    words = house.words["figures"]
    value: dict[str, Value] = {
        "title": words["title"],
        "description": words["description"],
        "lead": words["lead"],
        "glossary": {"name": words["glossary"], "path": GLOSSARY},
        "topics": tuple(_topic(words, topic) for topic in _TOPICS),
        "tests": _tests(house),
        "standing": words["standing"],
        "standings": tuple(
            {"mark": words[one], "meaning": words[meaning], "key": one} for one, meaning in _MEANINGS
        ),
    }
    return site_page(house, FIGURES, "pages/figures.html", value)


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
        "paragraphs": tuple(words[name] for name in topic.paragraphs),
        "sources": tuple(
            {"mark": words[standing], "key": standing, "text": words[source]}
            for source, standing in topic.sources
        ),
    }

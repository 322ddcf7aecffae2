"""One burn-safety sheet as printed, from its value: the same function for a draft and every issued revision."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Final

from generator.document import Value
from generator.documents.frame import contact
from generator.documents.hazard_labels import full_labels, whose_rules
from generator.documents.house import LanguagePack, Words
from generator.documents.outlines import CORNERS_OF_HEXAGON, UNDYED, thickness_mm, wall_of
from generator.documents.printed import (
    advised,
    at_least,
    counted,
    emergency_number,
    hours_on_sheet,
    listed,
    quantity_with_basis,
)
from generator.drawing.drawings import (
    Box,
    Caption,
    Outline,
    Pen,
    PlanView,
    WallMaterial,
    body_of,
    section,
    svg,
    wicks_around,
)
from generator.drawing.profiles import radius_at, short
from generator.model.burn_safety import Answerable, BurnAdvice, Cautions, Sheet, SheetDrawing
from generator.model.kinds import KINDS
from generator.model.markets import MARKETS, Market

_TOLERANCE_MM: Final = 0.3
_BESIDE_MM: Final = 9
_STEPS: Final = 4
_HEADS: Final = {
    "trim": "advice_trim",
    "longest_session": "advice_longest_session",
    "cool_down": "advice_cool_down",
    "stop_at": "advice_stop_at",
    "apart": "advice_apart",
    "clear_of": "advice_clear_of",
}
"""The columns of advice for each market, with their headings."""

_WORDS: Final = ("call", "local", "permanent", "in_force", "on_paper", "candle")
_WORDS_OF_FLAMES: Final = ("numbers", "stop_line", "advice", *_WORDS)
"""Sentences that a sheet prints unchanged."""

_shared = lru_cache(maxsize=1024)
"""What many sheets of a shop share is worded once."""


def sheet(said: Sheet, speech: LanguagePack) -> dict[str, Value]:
    """Everything on the paper, except its revision."""
    words, kind = speech.words["safety"], KINDS[said.kind]
    return {
        **names_of(said),
        "heading": words[kind.sentences.heading],
        "signal": words["signal"],
        "signal_line": words[kind.sentences.signal_line],
        **_facts(said, speech.words),
        **_numbers(said, speech),
        **cautions(said, speech),
        "hazards": full_labels(said, speech),
        "hazards_standing": whose_rules(said, speech.words),
        **people(said, speech),
        "words": {name: words[name] for name in (_WORDS_OF_FLAMES if kind.has_flame else _WORDS)},
    }


def names_of(said: Sheet) -> dict[str, str]:
    """Which candle it is."""
    return {"scent": said.scent, "size": said.size, "stock_code": said.stock_code}


def cautions(said: Sheet, speech: LanguagePack) -> Mapping[str, Value]:
    """The signs, and what to do if something goes wrong."""
    every_time = KINDS[said.kind].sentences.every_time
    return _cautions(every_time, said.warnings, said.home_advice, said.snuffing_lid, speech)


@_shared
def _cautions(
    every_time: str, chosen: Cautions, advice: BurnAdvice | None, lid: str | None, speech: LanguagePack
) -> Mapping[str, Value]:
    words = speech.words["safety"]
    return {
        "core": tuple({"sign": name, "words": words[name]} for name in chosen.core),
        "every_time": words[every_time],
        "signs": tuple(_signs(chosen, advice, lid, speech)),
        "emergencies": tuple(
            {"title": words[name], "steps": tuple(words[f"{name}_{step}"] for step in range(1, _STEPS + 1))}
            for name in chosen.emergencies
        ),
        **{name: words[name] if name in chosen.first_aid else None for name in ("smoking", "skin")},
    }


def people(said: Sheet, speech: LanguagePack) -> Mapping[str, Value]:
    """Whom to call, and who answers."""
    role = "responsible" if said.responsible else "made_by"
    return _people(said.markets, role, said.answers, tuple(said.contacts.items()), speech)


@_shared
def _people(
    markets: tuple[Market, ...],
    role: str,
    answers: Answerable,
    contacts: tuple[tuple[Market, Answerable], ...],
    speech: LanguagePack,
) -> Mapping[str, Value]:
    words = speech.words["safety"]
    return {
        "calls": tuple(
            words[f"call_{market}"].format(number=emergency_number(market, speech.words))
            for market in markets
        ),
        "contacts": (
            contact(words[role], answers),
            *(contact(words[f"contact_{market}"], who) for market, who in contacts),
        ),
    }


def _facts(said: Sheet, words: Words) -> dict[str, Value]:
    """Net quantity, container and wick in one line."""
    vessel, wick, given = said.vessel, said.wick, words["candle"]
    told = [_quantity(said, words)]
    if vessel:
        told.append(given["vessel_of"].format(vessel=vessel.name, material=vessel.material))
    if wick:
        sentence = counted("counted_wicks", str(wick.count), words)
        told.append(sentence.format(name=wick.name, count=wick.count))
    return {"made_as": listed(told, words)}


def _quantity(said: Sheet, words: Words) -> str:
    """The net quantity of every market, equal texts once, and an estimate marked as one."""
    texts = dict.fromkeys(said.net_quantity[market] for market in said.markets)
    quantity = quantity_with_basis(words["safety"]["or"].join(texts), said.net_quantity_basis, words)
    return words["safety"]["net_quantity"].format(quantity=quantity)


def _numbers(said: Sheet, speech: LanguagePack) -> dict[str, Value]:
    """This candle's own numbers; none where nothing burns."""
    words, advice, drawing = speech.words, said.home_advice, said.drawing
    given, note = words["safety"], KINDS[said.kind].sentences.advice_note
    if advice is None or drawing is None:
        return dict.fromkeys(("drawing", "first_burn", "burn_hours", "advice", "advice_note")) | {
            "numbers": ()
        }
    figures = advised(advice, speech)
    return {
        "drawing": _drawing(drawing, _wicks(said), _material(said), speech) if said.stop_mm else None,
        "numbers": tuple(_large(said, words, figures)),
        "first_burn": given["first_burn"].format(
            first_burn=figures["first_burn"], session=figures["longest_session"]
        ),
        "burn_hours": _burn_hours(said, words),
        "advice": _advice_table(said, speech),
        "advice_note": note and given[note].format(stop=_stop(said, figures)),
    }


def _burn_hours(said: Sheet, words: Words) -> str | None:
    in_all = hours_on_sheet(said.burn_hours, words)
    return None if in_all is None else words["safety"]["burn_hours"].format(hours=in_all)


def _large(said: Sheet, words: Words, figures: Mapping[str, str]) -> Iterator[Mapping[str, Value]]:
    """The figures printed large, to be read from across a table."""
    given = words["safety"]
    longest = given["longest_session"].format(cool_down=figures["cool_down"])
    yield {"figure": figures["longest_session"], "label": longest}
    if said.stop_mm is not None:
        yield {"figure": _stop(said, figures), "label": given["stop"]}
    yield {"figure": figures["trim"], "label": given["trim"]}


def _stop(said: Sheet, figures: Mapping[str, str]) -> str:
    """The stop line in the units of the house."""
    if MARKETS[said.markets[0]].length_unit == "in":
        return figures["stop_at"]
    return "" if said.stop_mm is None else at_least(said.stop_mm)


def _wicks(said: Sheet) -> int:
    return said.wick.count if said.wick else 0


def _material(said: Sheet) -> str:
    return said.vessel.material if said.vessel else ""


@_shared
def _drawing(drawn: SheetDrawing, wicks: int, material: str, speech: LanguagePack) -> str:
    """The candle in section, without its lid, with the stop line through it."""
    body = body_of(_outline(drawn, wicks, wall_of(material, speech.materials)), _TOLERANCE_MM)
    half, stop, ground = body.half_breadth_mm + _BESIDE_MM, body.outline.stop_mm or 0.0, body.outline.wall_mm
    lines = (
        f'<path d="M{short(-half)} {short(ground + 0.4)}h{short(2 * half)}" stroke="currentColor" '
        f'stroke-width=".8"/><path d="M{short(-half)} {short(-stop)}h{short(2 * half)}" '
        'stroke="var(--no)" stroke-width="2"/>'
    )
    box = Box(-half, -body.top_mm - 1, 2 * half, body.top_mm + ground + 2)
    caption = Caption(name="stop", title=speech.words["safety"]["stop_line"])
    return svg(box, caption, section(body, caption.name, Pen()) + lines)


def _outline(drawn: SheetDrawing, wicks: int, wall: WallMaterial) -> Outline:
    """The measurements on the sheet, as drawn; the wax is drawn undyed."""
    is_hexagon = drawn.shape == "hexagon"
    wider = CORNERS_OF_HEXAGON if is_hexagon else 1.0
    inside = tuple((radius * wider, height) for radius, height in drawn.inside_mm)
    breadth_mm = 2 * max(radius for radius, _ in inside)
    return Outline(
        inside=inside,
        plan=PlanView(form="hexagon" if is_hexagon else "round", breadth_mm=breadth_mm, depth_mm=breadth_mm),
        wall_mm=thickness_mm(wall, drawn.wall_mm),
        material=wall,
        shade=UNDYED,
        wax_mm=drawn.wax_mm,
        stop_mm=drawn.stop_mm,
        wicks_mm=wicks_around(wicks, radius_at(inside, drawn.wax_mm or 0.0)),
        wick_mm=drawn.wick_mm or 0.0,
    )


def _advice_table(said: Sheet, speech: LanguagePack) -> Mapping[str, Value]:
    words = speech.words
    columns = tuple(name for name in _HEADS if name != "stop_at" or KINDS[said.kind].has_stop_line)
    return {
        "heads": (
            words["safety"]["advice_market"],
            *(words["safety"][_HEADS[name]] for name in columns),
        ),
        "rows": tuple(
            {"market": words["markets"][market], "cells": _cells(speech, said.advice[market], columns)}
            for market in said.markets
            if market in said.advice
        ),
    }


def _cells(speech: LanguagePack, advice: BurnAdvice, columns: Sequence[str]) -> tuple[str, ...]:
    figures = advised(advice, speech)
    return tuple(figures[name] or speech.words["safety"]["not_given"] for name in columns)


def _signs(
    chosen: Cautions, advice: BurnAdvice | None, lid: str | None, speech: LanguagePack
) -> Iterator[Mapping[str, Value]]:
    words = speech.words["safety"]
    figures = advised(advice, speech) if advice else {}
    for name in chosen.signs:
        with_lid = name == "snuff" and lid is not None
        sentence = words[f"{name}_sign_lid" if with_lid else f"{name}_sign"]
        yield {
            "sign": name,
            "words": sentence.format(**figures, lid=lid, session=figures.get("longest_session")),
        }

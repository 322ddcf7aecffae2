"""One burn-safety sheet as printed, from what it says: the same function for a draft and for every issued revision."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from generator.document import Value
from generator.documents.drawings import Box, Caption, Outline, Pen, Plan, body_of, section, svg, wicks_around
from generator.documents.ghs import NAMES, pictogram
from generator.documents.house import Words
from generator.documents.outlines import CORNERS_OF_HEXAGON, UNDYED, thickness_mm, wall_of
from generator.documents.printed import SPACE, hours_with_basis, listed
from generator.documents.profiles import radius_at, short
from generator.model.candle import Kind
from generator.model.statements import Wording
from generator.revisions.sheet import Sheet, part_of, text_of, texts_of

_TOLERANCE_MM: Final = 0.3
_BESIDE_MM: Final = 9
_STEPS: Final = 4
_ADVICE: Final = ("trim", "longest_session", "cool_down", "stop_at", "apart", "clear_of")
_GAP: Final = re.compile("<[^>]*>")
"""Where a statement of the law leaves room for names."""

_HOMELY: Final = "US"
"""The market whose stop line is printed in its own unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Speech:
    """The words that a sheet is printed in."""

    words: Words
    wording: Wording | None


def sheet(said: Sheet, speech: Speech) -> dict[str, Value]:
    """All that stands on the paper, but for its revision."""
    words = speech.words["safety"]
    return {
        **names_of(said),
        "heading": words[f"heading{_ending(said)}"],
        "signal": words["signal"],
        "signal_line": words[f"signal_line{_ending(said)}"],
        **_facts(said, speech.words),
        **_numbers(said, speech.words),
        **cautions(said, words),
        "hazards": tuple(_hazards(said, speech)),
        **people(said, words),
    }


def names_of(said: Sheet) -> dict[str, str]:
    """Which candle it is."""
    return {key: text_of(said, key) or "" for key in ("scent", "size", "stock_code")}


def cautions(said: Sheet, words: Mapping[str, str]) -> dict[str, Value]:
    """The signs, and what to do when something goes wrong."""
    chosen = part_of(said, "warnings")
    return {
        "core": tuple({"sign": name, "words": words[name]} for name in texts_of(chosen, "core")),
        "every_time": words[f"every_time{_ending(said)}"],
        "signs": tuple(_signs(said, words)),
        "emergencies": tuple(
            {"title": words[name], "steps": tuple(words[f"{name}_{step}"] for step in range(1, _STEPS + 1))}
            for name in texts_of(chosen, "emergencies")
        ),
    }


def people(said: Sheet, words: Mapping[str, str]) -> dict[str, Value]:
    """Whom to call, and who answers."""
    elsewhere = part_of(said, "contacts")
    return {
        "calls": tuple(words[f"call_{market}"] for market in texts_of(said, "markets")),
        "contacts": (
            _contact(words["made_by"], part_of(said, "maker")),
            *(_contact(words[f"contact_{market}"], part_of(elsewhere, market)) for market in elsewhere),
        ),
    }


def _ending(said: Sheet) -> str:
    """What ends the names of the words for such a candle."""
    return "_melt" if text_of(said, "kind") == Kind.MELT.value else ""


def _home(said: Sheet) -> str:
    return texts_of(said, "markets")[0]


def _facts(said: Sheet, words: Words) -> dict[str, Value]:
    """Vessel, wick and net quantity in one line."""
    vessel, wick, given = part_of(said, "vessel"), part_of(said, "wick"), words["candle"]
    told = [
        _quantity(said, words),
        given["vessel_of"].format(vessel=text_of(vessel, "name"), material=text_of(vessel, "material")),
    ]
    if wick:
        several = text_of(wick, "count") != "1"
        told.append(given["wicks" if several else "one_wick"].format(**wick))
    return {"made_as": listed(told, words)}


def _quantity(said: Sheet, words: Words) -> str:
    """The net quantity of every market, those that read alike once, and an estimate as one."""
    basis = text_of(said, "net_quantity_basis") or ""
    texts = dict.fromkeys(
        text_of(part_of(said, "net_quantity"), market) for market in texts_of(said, "markets")
    )
    together = words["safety"]["or"].join(text for text in texts if text)
    if basis != "proven":
        together = words["candle"][f"net_{basis.replace(' ', '_')}"].format(quantity=together)
    return words["safety"]["net_quantity"].format(quantity=together)


def _numbers(said: Sheet, words: Words) -> dict[str, Value]:
    """This candle's own numbers; none of them where nothing burns."""
    given, advice = words["safety"], part_of(part_of(said, "advice"), _home(said))
    if not advice:
        return {"drawing": None, "numbers": (), "first_burn": None, "burn_hours": None, "advice": None}
    return {
        "drawing": _drawing(said, given),
        "numbers": tuple(_large(said, given, advice)),
        "first_burn": given["first_burn"].format(
            first_burn=text_of(advice, "first_burn"), session=text_of(advice, "longest_session")
        ),
        "burn_hours": _burn_hours(said, words),
        "advice": _advice_table(said, given),
    }


def _burn_hours(said: Sheet, words: Words) -> str | None:
    burn = part_of(said, "burn_hours")
    if not burn:
        return None
    in_all = hours_with_basis(int(text_of(burn, "claim") or ""), text_of(burn, "basis") or "", words)
    return words["safety"]["burn_hours"].format(hours=in_all)


def _large(said: Sheet, words: Mapping[str, str], advice: Sheet) -> Iterator[Mapping[str, Value]]:
    """The figures to be read from across the table."""
    yield {
        "figure": text_of(advice, "longest_session"),
        "label": words["longest_session"].format(cool_down=text_of(advice, "cool_down")),
    }
    stop = text_of(advice, "stop_at") if _home(said) == _HOMELY else text_of(said, "stop")
    if stop is not None and text_of(said, "stop") is not None:
        yield {"figure": stop.replace(" mm", f"{SPACE}mm"), "label": words["stop"]}
    yield {"figure": text_of(advice, "trim"), "label": words["trim"]}


def _drawing(said: Sheet, words: Mapping[str, str]) -> str:
    """The candle in section, without its lid, and the line at which to stop running through it."""
    body = body_of(_outline(said), _TOLERANCE_MM)
    half, stop, ground = body.half_breadth_mm + _BESIDE_MM, body.outline.stop_mm or 0.0, body.outline.wall_mm
    lines = (
        f'<path d="M{short(-half)} {short(ground + 0.4)}h{short(2 * half)}" stroke="currentColor" '
        f'stroke-width=".8"/><path d="M{short(-half)} {short(-stop)}h{short(2 * half)}" '
        'stroke="var(--no)" stroke-width="2"/>'
    )
    box = Box(-half, -body.top_mm - 1, 2 * half, body.top_mm + ground + 2)
    caption = Caption(name="stop", title=words["stop_line"])
    return svg(box, caption, section(body, caption.name, Pen()) + lines)


def _outline(said: Sheet) -> Outline:
    """The measures that the sheet states, as they are drawn; the wax is drawn undyed."""
    drawn, material = part_of(said, "drawing"), text_of(part_of(said, "vessel"), "material") or ""
    is_hexagon = text_of(drawn, "shape") == "hexagon"
    points = [point.split() for point in texts_of(drawn, "inside")]
    wider = CORNERS_OF_HEXAGON if is_hexagon else 1.0
    inside = tuple((float(radius) * wider, float(height)) for radius, height in points)
    breadth_mm = 2 * max(radius for radius, _ in inside)
    wicks = int(text_of(part_of(said, "wick"), "count") or 0)
    wax_mm, wall = _number(drawn, "wax"), wall_of(material)
    return Outline(
        inside=inside,
        plan=Plan(form="hexagon" if is_hexagon else "round", breadth_mm=breadth_mm, depth_mm=breadth_mm),
        wall_mm=thickness_mm(wall, _number(drawn, "wall")),
        material=wall,
        shade=UNDYED,
        wax_mm=wax_mm,
        stop_mm=_number(drawn, "stop"),
        wicks_mm=wicks_around(wicks, radius_at(inside, wax_mm or 0.0)),
        wick_mm=_number(drawn, "wick") or 0.0,
    )


def _number(part: Sheet, key: str) -> float | None:
    text = text_of(part, key)
    return None if text is None else float(text)


def _advice_table(said: Sheet, words: Mapping[str, str]) -> Mapping[str, Value]:
    given = part_of(said, "advice")
    markets = [market for market in texts_of(said, "markets") if market in given]
    return {
        "heads": tuple(words[f"advice_{name}"] for name in ("market", *_ADVICE)),
        "rows": tuple(
            {"market": words[f"market_{market}"], "cells": _cells(words, part_of(given, market))}
            for market in markets
        ),
    }


def _cells(words: Mapping[str, str], advice: Sheet) -> tuple[str, ...]:
    return tuple(text_of(advice, name) or words["not_given"] for name in _ADVICE)


def _signs(said: Sheet, words: Mapping[str, str]) -> Iterator[Mapping[str, Value]]:
    advice, lid = part_of(part_of(said, "advice"), _home(said)), text_of(said, "snuffing_lid")
    figures = {"session": text_of(advice, "longest_session"), "lid": lid, **advice}
    for name in texts_of(part_of(said, "warnings"), "signs"):
        with_lid = name == "snuff" and lid is not None
        sentence = words[f"{name}_sign_lid" if with_lid else f"{name}_sign"]
        yield {"sign": name, "words": sentence.format(**figures)}


def _hazards(said: Sheet, speech: Speech) -> Iterator[Mapping[str, Value]]:
    """The label elements, those of markets that read alike once."""
    words, found = speech.words["safety"], part_of(said, "hazards")
    alike: dict[str, list[str]] = {}
    for market in texts_of(said, "markets"):
        if market in found:
            alike.setdefault(repr(sorted(part_of(found, market).items())), []).append(market)
    for markets in alike.values():
        told, names = part_of(found, markets[0]), (words[f"market_{market}"] for market in markets)
        yield {"markets": listed(names, speech.words), **_elements(said, told, speech)}


def _elements(said: Sheet, told: Sheet, speech: Speech) -> Mapping[str, Value]:
    words, status = speech.words["safety"], text_of(told, "status")
    sentences = tuple(_sentences(told, speech))
    word, ufi = text_of(told, "signal_word"), text_of(said, "ufi")
    named = listed(texts_of(told, "named_substances"), speech.words) if texts_of(told, "h") else ""
    return {
        "signal_word": speech.wording.signal_words[word] if word and speech.wording else word,
        "pictograms": tuple(pictogram(code) for code in texts_of(told, "pictograms") if code in NAMES),
        "statements": " ".join(sentences),
        "contains": words["hazards_contain"].format(names=named) if named else None,
        "ufi": words["ufi"].format(ufi=ufi) if ufi and sentences else None,
        "none": None if sentences else words[f"hazards_{'unknown' if status == 'unknown' else 'none'}"],
    }


def _sentences(told: Sheet, speech: Speech) -> Iterator[str]:
    """The statements in the law's order, then what must be said of what is not known."""
    names = listed(texts_of(told, "named_substances"), speech.words)
    for key in ("h", "euh", "p"):
        for code in texts_of(told, key):
            yield _GAP.sub(names, _statement(code, speech.wording))
    for key in ("unknown_acute_percent", "unknown_aquatic_percent"):
        percent = text_of(told, key)
        if percent is not None:
            yield speech.words["safety"][key].format(percent=percent)


def _statement(code: str, wording: Wording | None) -> str:
    """The law's sentence, or its code where there are no sentences in this language."""
    if wording is None or code not in wording.statements:
        return code
    return wording.statements[code].text


def _contact(role: str, contact: Sheet) -> Mapping[str, Value]:
    return {
        "role": role,
        "name": text_of(contact, "name"),
        "address": texts_of(contact, "address"),
        "email": text_of(contact, "email"),
        "phone": text_of(contact, "phone"),
    }

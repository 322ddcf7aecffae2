"""One burn-safety sheet as printed, from what it says: the same function for a draft and for every issued revision."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from generator.document import Value
from generator.documents.hazard_labels import full_labels, standing
from generator.documents.house import LanguagePack, Words
from generator.documents.outlines import CORNERS_OF_HEXAGON, UNDYED, thickness_mm, wall_of
from generator.documents.printed import (
    SPACE,
    counted,
    emergency_number,
    hours_with_basis,
    listed,
    measured,
    quantity_with_basis,
)
from generator.drawing.drawings import Box, Caption, Outline, Pen, Plan, body_of, section, svg, wicks_around
from generator.drawing.profiles import radius_at, short
from generator.ledgers.sheet import Sheet, kind_of, part_of, text_of, texts_of
from generator.model.markets import MARKETS

_TOLERANCE_MM: Final = 0.3
_BESIDE_MM: Final = 9
_STEPS: Final = 4
_ADVICE: Final = ("trim", "longest_session", "cool_down", "stop_at", "apart", "clear_of")
_WORDS: Final = ("call", "local", "permanent", "in_force", "on_paper", "candle")
_WORDS_OF_FLAMES: Final = ("numbers", "stop_line", "advice", *_WORDS)
"""Sentences that a sheet prints as they stand."""


def sheet(said: Sheet, speech: LanguagePack) -> dict[str, Value]:
    """All that stands on the paper, but for its revision."""
    words, kind = speech.words["safety"], kind_of(said)
    return {
        **names_of(said),
        "heading": words[kind.sentences.heading],
        "signal": words["signal"],
        "signal_line": words[kind.sentences.signal_line],
        **_facts(said, speech.words),
        **_numbers(said, speech),
        **cautions(said, speech.words),
        "hazards": full_labels(said, speech),
        "hazards_standing": standing(said, speech.words),
        **people(said, speech.words),
        "words": {name: words[name] for name in (_WORDS_OF_FLAMES if kind.has_flame else _WORDS)},
    }


def names_of(said: Sheet) -> dict[str, str]:
    """Which candle it is."""
    return {key: text_of(said, key) or "" for key in ("scent", "size", "stock_code")}


def cautions(said: Sheet, speech: Words) -> dict[str, Value]:
    """The signs, and what to do when something goes wrong."""
    chosen, words = part_of(said, "warnings"), speech["safety"]
    return {
        "core": tuple({"sign": name, "words": words[name]} for name in texts_of(chosen, "core")),
        "every_time": words[kind_of(said).sentences.every_time],
        "signs": tuple(_signs(said, speech)),
        "emergencies": tuple(
            {"title": words[name], "steps": tuple(words[f"{name}_{step}"] for step in range(1, _STEPS + 1))}
            for name in texts_of(chosen, "emergencies")
        ),
        **{
            name: words[name] if name in texts_of(chosen, "first_aid") else None
            for name in ("smoking", "skin")
        },
    }


def people(said: Sheet, speech: Words) -> dict[str, Value]:
    """Whom to call, and who answers."""
    words = speech["safety"]
    elsewhere, own = part_of(said, "contacts"), part_of(said, "responsible")
    return {
        "calls": tuple(_call(market, speech) for market in texts_of(said, "markets")),
        "contacts": (
            _contact(words["responsible"], own)
            if own
            else _contact(words["made_by"], part_of(said, "maker")),
            *(_contact(words[f"contact_{market}"], part_of(elsewhere, market)) for market in elsewhere),
        ),
    }


def _call(market: str, words: Words) -> str:
    return words["safety"][f"call_{market}"].format(number=emergency_number(market, words))


def _home(said: Sheet) -> str:
    return texts_of(said, "markets")[0]


def _facts(said: Sheet, words: Words) -> dict[str, Value]:
    """Net quantity, container and wick in one line."""
    vessel, wick, given = part_of(said, "vessel"), part_of(said, "wick"), words["candle"]
    told = [_quantity(said, words)]
    if vessel:
        names = {"vessel": text_of(vessel, "name"), "material": text_of(vessel, "material")}
        told.append(given["vessel_of"].format(**names))
    if wick:
        told.append(counted("counted_wicks", text_of(wick, "count") or "", words).format(**wick))
    return {"made_as": listed(told, words)}


def _quantity(said: Sheet, words: Words) -> str:
    """The net quantity of every market, those that read alike once, and an estimate as one."""
    basis = text_of(said, "net_quantity_basis") or ""
    texts = dict.fromkeys(
        text_of(part_of(said, "net_quantity"), market) for market in texts_of(said, "markets")
    )
    together = words["safety"]["or"].join(text for text in texts if text)
    return words["safety"]["net_quantity"].format(quantity=quantity_with_basis(together, basis, words))


def _numbers(said: Sheet, speech: LanguagePack) -> dict[str, Value]:
    """This candle's own numbers; none of them where nothing burns."""
    words, advice = speech.words, part_of(part_of(said, "advice"), _home(said))
    given, note = words["safety"], kind_of(said).sentences.advice_note
    if not advice:
        return dict.fromkeys(("drawing", "first_burn", "burn_hours", "advice", "advice_note")) | {
            "numbers": ()
        }
    return {
        "drawing": _drawing(said, speech) if text_of(said, "stop") else None,
        "numbers": tuple(_large(said, words, advice)),
        "first_burn": given["first_burn"].format(
            first_burn=_figure(advice, "first_burn", words), session=_figure(advice, "longest_session", words)
        ),
        "burn_hours": _burn_hours(said, words),
        "advice": _advice_table(said, words),
        "advice_note": note and given[note].format(stop=_stop(said, advice, words)),
    }


def _burn_hours(said: Sheet, words: Words) -> str | None:
    burn = part_of(said, "burn_hours")
    if not burn:
        return None
    in_all = hours_with_basis(int(text_of(burn, "claim") or ""), text_of(burn, "basis") or "", words)
    return words["safety"]["burn_hours"].format(hours=in_all)


def _figure(advice: Sheet, name: str, words: Words) -> str:
    """One figure of the advice; empty where it gives none."""
    return measured(text_of(advice, name) or "", words)


def _large(said: Sheet, words: Words, advice: Sheet) -> Iterator[Mapping[str, Value]]:
    """The figures to be read from across the table."""
    given = words["safety"]
    yield {
        "figure": _figure(advice, "longest_session", words),
        "label": given["longest_session"].format(cool_down=_figure(advice, "cool_down", words)),
    }
    if text_of(said, "stop") is not None:
        yield {"figure": _stop(said, advice, words), "label": given["stop"]}
    yield {"figure": _figure(advice, "trim", words), "label": given["trim"]}


def _stop(said: Sheet, advice: Sheet, words: Words) -> str:
    """The stop line in the units of the house."""
    part, key = (advice, "stop_at") if MARKETS[_home(said)].length_unit == "in" else (said, "stop")
    return _figure(part, key, words).replace(" mm", f"{SPACE}mm")


def _drawing(said: Sheet, speech: LanguagePack) -> str:
    """The candle in section, without its lid, and the line at which to stop running through it."""
    body = body_of(_outline(said, speech), _TOLERANCE_MM)
    half, stop, ground = body.half_breadth_mm + _BESIDE_MM, body.outline.stop_mm or 0.0, body.outline.wall_mm
    lines = (
        f'<path d="M{short(-half)} {short(ground + 0.4)}h{short(2 * half)}" stroke="currentColor" '
        f'stroke-width=".8"/><path d="M{short(-half)} {short(-stop)}h{short(2 * half)}" '
        'stroke="var(--no)" stroke-width="2"/>'
    )
    box = Box(-half, -body.top_mm - 1, 2 * half, body.top_mm + ground + 2)
    caption = Caption(name="stop", title=speech.words["safety"]["stop_line"])
    return svg(box, caption, section(body, caption.name, Pen()) + lines)


def _outline(said: Sheet, speech: LanguagePack) -> Outline:
    """The measures that the sheet states, as they are drawn; the wax is drawn undyed."""
    drawn, material = part_of(said, "drawing"), text_of(part_of(said, "vessel"), "material") or ""
    is_hexagon = text_of(drawn, "shape") == "hexagon"
    points = [point.split() for point in texts_of(drawn, "inside")]
    wider = CORNERS_OF_HEXAGON if is_hexagon else 1.0
    inside = tuple((float(radius) * wider, float(height)) for radius, height in points)
    breadth_mm = 2 * max(radius for radius, _ in inside)
    wicks = int(text_of(part_of(said, "wick"), "count") or 0)
    wax_mm, wall = _number(drawn, "wax"), wall_of(material, speech.materials)
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


def _advice_table(said: Sheet, words: Words) -> Mapping[str, Value]:
    given, sentences = part_of(said, "advice"), words["safety"]
    markets = [market for market in texts_of(said, "markets") if market in given]
    columns = tuple(name for name in _ADVICE if name != "stop_at" or kind_of(said).has_stop_line)
    return {
        "heads": tuple(sentences[f"advice_{name}"] for name in ("market", *columns)),
        "rows": tuple(
            {"market": words["markets"][market], "cells": _cells(words, part_of(given, market), columns)}
            for market in markets
        ),
    }


def _cells(words: Words, advice: Sheet, columns: Sequence[str]) -> tuple[str, ...]:
    return tuple(_figure(advice, name, words) or words["safety"]["not_given"] for name in columns)


def _signs(said: Sheet, speech: Words) -> Iterator[Mapping[str, Value]]:
    advice, lid = part_of(part_of(said, "advice"), _home(said)), text_of(said, "snuffing_lid")
    figures = {name: _figure(advice, name, speech) for name in ("trim", "apart")}
    figures |= {"session": _figure(advice, "longest_session", speech), "lid": lid or ""}
    words = speech["safety"]
    for name in texts_of(part_of(said, "warnings"), "signs"):
        with_lid = name == "snuff" and lid is not None
        sentence = words[f"{name}_sign_lid" if with_lid else f"{name}_sign"]
        yield {"sign": name, "words": sentence.format(**figures)}


def _contact(role: str, contact: Sheet) -> Mapping[str, Value]:
    return {
        "role": role,
        "name": text_of(contact, "name"),
        "address": texts_of(contact, "address"),
        "email": text_of(contact, "email"),
        "phone": text_of(contact, "phone"),
    }

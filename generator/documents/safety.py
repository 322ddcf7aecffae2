"""The burn-safety page of one stock code: the usual cautions, this candle's own numbers, what to do in an emergency."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from generator.document import Document, Value
from generator.documents.drawings import Box, Caption, Pen, body_of, section, svg
from generator.documents.frame import home_market
from generator.documents.hazards import full_labels, standing
from generator.documents.house import House, SizeOf
from generator.documents.outlines import outline_of
from generator.documents.previews import Shared, preview
from generator.documents.printed import at_least, burning, day
from generator.documents.profiles import short
from generator.facts.facts import Advice, Facts
from generator.model.candle import Kind
from generator.model.maker import Contact


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cautions:
    """What a page says by heart: ``ending`` ends the names of its words, signs come in reading order."""

    ending: str
    core: tuple[str, ...]
    signs: tuple[str, ...]
    emergencies: tuple[str, ...]


_BURNING: Final = _Cautions(
    ending="",
    core=("alone", "catches", "reach"),
    signs=("trim", "session", "draught", "surface", "move", "pool", "snuff", "apart", "water"),
    emergencies=("flares", "cracks"),
)
_WARMING: Final = _Cautions(
    ending="_melt",
    core=("alone_melt", "catches_melt", "reach_melt"),
    signs=("unlit", "warmer", "surface_melt", "move_melt", "set", "water_melt"),
    emergencies=("smokes", "spills"),
)
_TOLERANCE_MM: Final = 0.3
_BESIDE_MM: Final = 9
_FIGURED: Final = frozenset({"trim", "session", "apart"})
"""Signs whose sentence carries a figure of the advice."""

_STEPS: Final = 4
_ADVICE: Final = ("trim", "longest_session", "cool_down", "stop_at", "apart", "clear_of")


def safety_page(house: House, size: SizeOf) -> Document:
    """The page that is printed and laid into the box."""
    facts = size.facts
    cautions = _WARMING if facts.kind is Kind.MELT else _BURNING
    return Document(
        path=f"site/{facts.safety_path}",
        template="pages/safety.html",
        value={
            **_head(house, facts, cautions),
            **_numbers(house, size),
            **_said(house, size, cautions),
            "hazards": full_labels(house, facts),
            "hazards_standing": standing(house, facts),
            **_foot(house),
        },
    )


def _head(house: House, facts: Facts, cautions: _Cautions) -> dict[str, Value]:
    words = house.words["safety"]
    names = {"scent": facts.scent, "size": facts.size, "stock_code": facts.stock_code}
    title = words["title"].format(**names)
    description = words[f"description{cautions.ending}"].format(**names)
    linked = Shared(
        path=facts.safety_path,
        title=title,
        description=description,
        picture=house.cards.get(facts.site_path),
        picture_text=house.words["candle"]["card"].format(scent=facts.scent),
    )
    return {
        "title": title,
        "description": description,
        "preview": preview(house.maker, linked),
        "heading": words[f"heading{cautions.ending}"],
        **names,
        "path": facts.safety_path,
        "candle_path": facts.site_path,
        "signal": words["signal"],
        "signal_line": words[f"signal_line{cautions.ending}"],
    }


def _numbers(house: House, size: SizeOf) -> dict[str, Value]:
    """This candle's own numbers; none of them where nothing burns."""
    facts, words = size.facts, house.words["safety"]
    advice = _home_advice(house, facts)
    if facts.kind is Kind.MELT or advice is None:
        return {
            "drawing": None,
            "numbers": (),
            "first_burn": None,
            "burn_hours": None,
            "advice": None,
            "advice_note": None,
        }
    in_all = burning(facts.burn_hours, house.words)
    return {
        "drawing": _drawing(house, size),
        "numbers": tuple(_large(house, facts, advice)),
        "first_burn": words["first_burn"].format(
            first_burn=advice.first_burn, session=advice.longest_session
        ),
        "burn_hours": None if in_all is None else words["burn_hours"].format(hours=in_all),
        "advice": _advice_table(house, facts),
        "advice_note": words["advice_note"].format(stop=_stop(house, facts.stop_depth_mm or 0.0, advice)),
    }


def _large(house: House, facts: Facts, advice: Advice) -> Iterator[Mapping[str, Value]]:
    """The figures to be read from across the table."""
    words = house.words["safety"]
    yield {
        "figure": advice.longest_session,
        "label": words["longest_session"].format(cool_down=advice.cool_down),
    }
    if facts.stop_depth_mm is not None:
        yield {"figure": _stop(house, facts.stop_depth_mm, advice), "label": words["stop"]}
    yield {"figure": advice.trim, "label": words["trim"]}


def _stop(house: House, stop_depth_mm: float, advice: Advice) -> str:
    """The stop line in the units of the house."""
    return advice.stop_at if home_market(house) == "US" else at_least(stop_depth_mm)


def _drawing(house: House, size: SizeOf) -> str:
    """The candle in section, without its lid, and the line at which to stop running through it."""
    candle = next(scent.candle for scent in house.scents if scent.candle.id == size.facts.candle)
    body = body_of(replace(outline_of(size, candle), lid=None), _TOLERANCE_MM)
    half, stop, ground = body.half_breadth_mm + _BESIDE_MM, body.outline.stop_mm or 0.0, body.outline.wall_mm
    lines = (
        f'<path d="M{short(-half)} {short(ground + 0.4)}h{short(2 * half)}" stroke="currentColor" stroke-width=".8"/>'
        f'<path d="M{short(-half)} {short(-stop)}h{short(2 * half)}" stroke="var(--no)" stroke-width="2"/>'
    )
    box = Box(-half, -body.top_mm - 1, 2 * half, body.top_mm + ground + 2)
    caption = Caption(name="stop", title=house.words["safety"]["stop_line"])
    return svg(box, caption, section(body, caption.name, Pen()) + lines)


def _advice_table(house: House, facts: Facts) -> Mapping[str, Value]:
    words = house.words["safety"]
    advised = ((market, facts.advice[market]) for market in house.maker.markets if market in facts.advice)
    return {
        "heads": tuple(words[f"advice_{name}"] for name in ("market", *_ADVICE)),
        "rows": tuple(
            {"market": words[f"market_{market}"], "cells": _cells(words, advice)}
            for market, advice in advised
        ),
    }


def _cells(words: Mapping[str, str], advice: Advice) -> tuple[str, ...]:
    return tuple(getattr(advice, name) or words["not_given"] for name in _ADVICE)


def _said(house: House, size: SizeOf, cautions: _Cautions) -> dict[str, Value]:
    words = house.words["safety"]
    return {
        "core": tuple({"sign": name, "words": words[name]} for name in cautions.core),
        "every_time": words[f"every_time{cautions.ending}"],
        "signs": tuple(_signs(house, size, cautions)),
        "emergencies": tuple(
            {"title": words[name], "steps": tuple(words[f"{name}_{step}"] for step in range(1, _STEPS + 1))}
            for name in cautions.emergencies
        ),
    }


def _signs(house: House, size: SizeOf, cautions: _Cautions) -> Iterator[Mapping[str, Value]]:
    """The signs with their sentences; one whose figure is not known is left out."""
    words, figures = house.words["safety"], _figures(house, size.facts)
    sentences = {name: words[f"{name}_sign"] for name in cautions.signs}
    lid = size.recorded.build.vessel.lid
    if "snuff" in sentences and lid is not None and lid.snuffs:
        sentences["snuff"] = words["snuff_sign_lid"].format(lid=lid.name)
    for name, sentence in sentences.items():
        if name not in _FIGURED or name in figures:
            yield {"sign": name, "words": sentence.format(**figures)}


def _figures(house: House, facts: Facts) -> dict[str, str]:
    """The figures that signs carry, by sign."""
    advice = _home_advice(house, facts)
    if facts.kind is Kind.MELT or advice is None:
        return {}
    return {"trim": advice.trim, "session": advice.longest_session, "apart": advice.apart}


def _home_advice(house: House, facts: Facts) -> Advice | None:
    return facts.advice.get(home_market(house))


def _foot(house: House) -> dict[str, Value]:
    maker, words = house.maker, house.words["safety"]
    own = Contact(name=maker.name, address=maker.address, email=maker.email, phone=maker.phone)
    others = (("EU", maker.eu_contact), ("GB", maker.gb_contact))
    return {
        "calls": tuple(words[f"call_{market}"] for market in maker.markets),
        "contacts": (
            _contact(words["made_by"], own),
            *(_contact(words[f"contact_{market}"], contact) for market, contact in others if contact),
        ),
        "sheet": words["no_sheet"].format(day=day(house.as_of, house.words)),
        "draft": words["draft"] if house.draft else None,
    }


def _contact(role: str, contact: Contact) -> Mapping[str, Value]:
    return {
        "role": role,
        "name": contact.name,
        "address": contact.address,
        "email": contact.email,
        "phone": contact.phone,
    }

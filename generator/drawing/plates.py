"""The measured drawing of one candle: plan and section, with its dimensions."""

from dataclasses import dataclass
from html import escape
from typing import Final

from generator.drawing.contrast import text_on
from generator.drawing.drawings import Body, Box, Caption, Outline, Pen, body_of, section, svg
from generator.drawing.profiles import height_at, radius_at, short

_LETTERS: Final = 0.034
"""The height of the figures as a fraction of the plate's width, so that they stay readable on a small screen."""

_TOLERANCE_MM: Final = 0.1
_LEFT_LETTERS: Final = 5.0
_RIGHT_LETTERS: Final = 7.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimensions:
    """The texts of the dimension lines; None leaves a line out."""

    breadth: str | None
    depth: str | None = None
    height: str
    wax: str | None = None
    stop: str | None = None
    lid: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """Positions on the plate; the inside of the base is at y = 0."""

    body: Body
    letter_mm: float
    plan_y_mm: float
    half_depth_mm: float
    pen: Pen

    @property
    def half_mm(self) -> float:
        return self.body.half_breadth_mm


def plate(outline: Outline, dimensions: Dimensions, caption: Caption) -> str:
    """The plate as SVG."""
    sheet = _laid_out(body_of(outline, _TOLERANCE_MM))
    content = (
        _centre_line(sheet)
        + section(sheet.body, caption.name, sheet.pen)
        + _inside_wax(sheet)
        + _plan(sheet)
        + _dimension_lines(sheet, dimensions)
        + _figures(sheet, dimensions)
    )
    letter, half = sheet.letter_mm, sheet.half_mm
    top = sheet.plan_y_mm - sheet.half_depth_mm - letter * (2.6 if dimensions.breadth else 1)
    bottom = outline.wall_mm + letter * 0.6
    left = -half - _LEFT_LETTERS * letter
    width = 2 * half + (_LEFT_LETTERS + _RIGHT_LETTERS) * letter
    return svg(Box(left, top, width, bottom - top), caption, content)


def _laid_out(body: Body) -> _Sheet:
    half = body.half_breadth_mm
    width = 2 * half / (1 - _LETTERS * (_LEFT_LETTERS + _RIGHT_LETTERS))
    letter = _LETTERS * width
    depth = half * body.outline.plan.depth_mm / body.outline.plan.breadth_mm
    return _Sheet(
        body=body,
        letter_mm=letter,
        plan_y_mm=-body.top_mm - letter * 1.4 - depth,
        half_depth_mm=depth,
        pen=Pen(weight_mm=width / 300),
    )


def _centre_line(sheet: _Sheet) -> str:
    letter = sheet.letter_mm
    top = sheet.plan_y_mm - sheet.half_depth_mm - letter * 0.6
    right = sheet.half_mm + letter * 0.6
    dashes = " ".join(short(letter * part) for part in (1.6, 0.3, 0.3, 0.3))
    path = (
        f"M0 {short(top)}V{short(sheet.body.outline.wall_mm + letter * 0.5)}"
        f"M{short(-right)} {short(sheet.plan_y_mm)}H{short(right)}"
    )
    return _stroke(path, sheet.pen.quiet, sheet.pen.weight_mm * 0.6, f' stroke-dasharray="{dashes}"')


def _inside_wax(sheet: _Sheet) -> str:
    """The wicks within the wax, dashed like hidden edges, in a colour that shows on its shade."""
    outline = sheet.body.outline
    if outline.wax_mm is None or not outline.wicks_mm:
        return ""
    path = "".join(
        f"M{short(x)} {short(-outline.wax_mm)}V{short(-height_at(sheet.body.inner, abs(x)))}"
        for x, _ in outline.wicks_mm
    )
    dashes = f' stroke-dasharray="{short(sheet.letter_mm * 0.3)}"'
    return _stroke(path, text_on(outline.shade), sheet.pen.weight_mm, dashes)


def _plan(sheet: _Sheet) -> str:
    """The candle from above: outer and inner edge of the rim, the wax, the wicks."""
    body, outline, pen = sheet.body, sheet.body.outline, sheet.pen
    rim = body.inner[-1][0]
    line = f'stroke="{pen.line}" stroke-width="{short(pen.weight_mm)}"'
    shapes = [_seen(outline, body.half_breadth_mm, line)]
    if outline.wax_mm is not None:
        radius = min(rim, radius_at(body.inner, outline.wax_mm))
        shapes.append(_seen(outline, radius, f'fill="{outline.shade}" {line}'))
        dot = f'r="{short(pen.weight_mm * 2.4)}" fill="{text_on(outline.shade)}"'
        shapes.extend(f'<circle cx="{short(x)}" cy="{short(y)}" {dot}/>' for x, y in outline.wicks_mm)
    shapes.append(_seen(outline, rim, line))
    return f'<g transform="translate(0 {short(sheet.plan_y_mm)})">{"".join(shapes)}</g>'


def _seen(outline: Outline, radius_mm: float, style: str) -> str:
    """The plan's form at one radius."""
    plan = outline.plan
    deep = radius_mm * plan.depth_mm / plan.breadth_mm
    if plan.form == "round":
        return f'<circle r="{short(radius_mm)}" {style}/>'
    if plan.form == "oval":
        return f'<ellipse rx="{short(radius_mm)}" ry="{short(deep)}" {style}/>'
    if plan.form == "square":
        x, y, side = short(-radius_mm), short(-deep), short(2 * radius_mm)
        return f'<rect x="{x}" y="{y}" width="{side}" height="{short(2 * deep)}" rx="{short(plan.corner_mm)}" {style}/>'
    half = radius_mm / 2
    points = ((-radius_mm, 0.0), (-half, -deep), (half, -deep), (radius_mm, 0.0), (half, deep), (-half, deep))
    return f'<polygon points="{" ".join(f"{short(x)},{short(y)}" for x, y in points)}" {style}/>'


def _dimension_lines(sheet: _Sheet, said: Dimensions) -> str:
    body, letter, pen = sheet.body, sheet.letter_mm, sheet.pen
    breadth, rim = body.outline.plan.breadth_mm / 2, body.rim_mm
    left, right = -sheet.half_mm - letter, sheet.half_mm + letter * 0.4
    above = sheet.plan_y_mm - sheet.half_depth_mm - letter
    depth = body.outline.plan.depth_mm / 2
    thin = pen.weight_mm * 0.8
    lines = [_upright(left, 0, -rim, letter), _feelers(left, (0, -rim), -body.inner[-1][0])]
    if said.breadth:
        lines.append(_level(above, -breadth, breadth, letter))
    if said.depth:
        lines.append(_upright(right, sheet.plan_y_mm + depth, sheet.plan_y_mm - depth, letter))
    drawn = _stroke("".join(lines), pen.quiet, thin)
    if said.wax and body.outline.wax_mm is not None:
        start = radius_at(body.inner, body.outline.wax_mm)
        drawn += _stroke(
            f"M{short(start)} {short(-body.outline.wax_mm)}H{short(right + letter)}",
            pen.quiet,
            thin,
        )
    if said.stop and body.outline.stop_mm is not None:
        drawn += _stop_line(sheet, body.outline.stop_mm, right + letter)
    return drawn


def _stop_line(sheet: _Sheet, stop_mm: float, end_mm: float) -> str:
    """The stop line: on the wax in a colour that shows there, outside it in the accent."""
    radius = radius_at(sheet.body.inner, stop_mm)
    y, weight = short(-stop_mm), sheet.pen.weight_mm * 1.6
    dashes = f' stroke-dasharray="{short(sheet.letter_mm * 0.5)} {short(sheet.letter_mm * 0.25)}"'
    within = _stroke(
        f"M{short(-radius)} {y}H{short(radius)}",
        text_on(sheet.body.outline.shade),
        weight,
        dashes,
    )
    return within + _stroke(f"M{short(radius)} {y}H{short(end_mm)}", sheet.pen.accent, weight)


def _figures(sheet: _Sheet, said: Dimensions) -> str:
    body, outline, letter, pen = sheet.body, sheet.body.outline, sheet.letter_mm, sheet.pen
    right, down, apart = sheet.half_mm + letter * 1.7, letter * 0.34, letter * 1.2
    wax, stop = outline.wax_mm or 0.0, outline.stop_mm or 0.0
    crowded = max(0.0, apart - (wax - stop)) / 2 if said.stop else 0.0
    beside = (
        (said.wax, wax + crowded, ""),
        (said.stop, stop - crowded, f' fill="{pen.accent}"'),
        (said.lid, max((body.rim_mm + body.top_mm) / 2, wax + crowded + apart), f' fill="{pen.quiet}"'),
    )
    texts = [_text(right, down - height, text, extra=colour) for text, height, colour in beside if text]
    texts.append(_text(-sheet.half_mm - letter * 1.5, down - body.rim_mm / 2, said.height, "end"))
    if said.breadth:
        texts.append(_text(0, sheet.plan_y_mm - sheet.half_depth_mm - letter * 1.5, said.breadth, "middle"))
    if said.depth:
        texts.append(_text(right - letter * 0.7, sheet.plan_y_mm + down, said.depth))
    return f'<g font-size="{short(letter)}" fill="{pen.line}">{"".join(texts)}</g>'


def _text(x: float, y: float, said: str, anchor: str = "start", extra: str = "") -> str:
    turned = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return f'<text x="{short(x)}" y="{short(y)}"{turned}{extra}>{escape(said)}</text>'


def _level(y: float, start: float, end: float, letter: float) -> str:
    """A level dimension line with a slanting stroke at each end."""
    return f"M{short(start)} {short(y)}H{short(end)}" + _ticks(((start, y), (end, y)), letter)


def _upright(x: float, start: float, end: float, letter: float) -> str:
    """An upright dimension line with a slanting stroke at each end."""
    return f"M{short(x)} {short(start)}V{short(end)}" + _ticks(((x, start), (x, end)), letter)


def _feelers(x: float, levels: tuple[float, ...], to_x: float) -> str:
    """Extension lines from a dimension line towards what it measures."""
    return "".join(f"M{short(x)} {short(y)}H{short(to_x)}" for y in levels)


def _ticks(places: tuple[tuple[float, float], ...], letter: float) -> str:
    half, whole = short(letter * 0.25), short(letter * 0.5)
    return "".join(f"M{short(x)} {short(y)}m-{half} {half}l{whole}-{whole}" for x, y in places)


def _stroke(path: str, colour: str, weight_mm: float, extra: str = "") -> str:
    return f'<path d="{path}" stroke="{colour}" stroke-width="{weight_mm:.2g}"{extra}/>'

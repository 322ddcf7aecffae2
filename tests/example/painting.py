"""Paints soft light with masks and gradients; nothing here knows of candles. The same calls give the same picture."""

import hashlib
from collections.abc import Sequence
from typing import Final

from PIL import Image, ImageChops, ImageDraw, ImageFilter

Rgb = tuple[int, int, int]
Point = tuple[float, float]

FINE: Final = 2  # Everything is painted twice as large, then made smaller, so that edges are smooth.
WIDTH: Final = 1200 * FINE
HEIGHT: Final = 1500 * FINE


def mix(one: Rgb, other: Rgb, share: float) -> Rgb:
    """A colour on the way from one to the other."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(one, other, strict=True))
    return red, green, blue


def lit(colour: Rgb, strength: float) -> Rgb:
    """A colour under more or less light; bright light also pales it a little."""
    red, green, blue = (min(255, round(part * strength)) for part in colour)
    return mix((red, green, blue), (255, 255, 255), max(0.0, strength - 1.0) * 0.35)


def gradient(size: tuple[int, int], start: Rgb, end: Rgb, *, across: bool = False) -> Image.Image:
    """A soft change of colour from top to bottom, or from left to right."""
    strip = Image.new("RGB", (256, 1) if across else (1, 256))
    strip.putdata([mix(start, end, step / 255) for step in range(256)])
    return strip.resize(size, Image.Resampling.BICUBIC)


def grain(size: tuple[int, int], cell: tuple[int, int], name: str) -> Image.Image:
    """Grey noise whose grains are ``cell`` large; the name alone decides how it looks."""
    small = (max(2, size[0] // cell[0]), max(2, size[1] // cell[1]))
    noise = hashlib.shake_256(name.encode()).digest(small[0] * small[1])
    return Image.frombytes("L", small, noise).resize(size, Image.Resampling.BICUBIC)


def blurred(picture: Image.Image, radius: float) -> Image.Image:
    """The picture out of focus; wide blurs are made on a small copy, which looks the same."""
    shrink = max(1, int(radius / 6))
    small = picture.resize((picture.width // shrink, picture.height // shrink), Image.Resampling.BOX)
    soft = small.filter(ImageFilter.GaussianBlur(radius / shrink))
    return soft.resize(picture.size, Image.Resampling.BICUBIC)


def fainter(mask: Image.Image, share: float) -> Image.Image:
    """A mask that lets less through."""
    return mask.point([round(level * share) for level in range(256)])


def area(points: Sequence[Point], blur: float = 0) -> Image.Image:
    """A mask of the picture's size that lets paint through inside an outline."""
    mask = Image.new("L", (WIDTH, HEIGHT))
    ImageDraw.Draw(mask).polygon(list(points), fill=255)
    return blurred(mask, blur) if blur else mask


def disc(middle: Point, across: float, tall: float, blur: float) -> Image.Image:
    """A soft round mask, ``across`` and ``tall`` being its half width and half height."""
    (x, y) = middle
    mask = Image.new("L", (WIDTH, HEIGHT))
    ImageDraw.Draw(mask).ellipse((x - across, y - tall, x + across, y + tall), fill=255)
    return blurred(mask, blur)


def line(points: Sequence[Point], width: float, blur: float) -> Image.Image:
    """A mask along a line."""
    mask = Image.new("L", (WIDTH, HEIGHT))
    ImageDraw.Draw(mask).line(list(points), fill=255, width=round(width))
    return blurred(mask, blur)


def lay(picture: Image.Image, mask: Image.Image, colour: Rgb, share: float = 1.0) -> None:
    """Paints a colour through a mask."""
    picture.paste(colour, (0, 0, *picture.size), fainter(mask, share))


def shine(picture: Image.Image, mask: Image.Image, colour: Rgb, share: float) -> None:
    """Adds light of a colour through a mask, as a flame does; it never darkens."""
    light = Image.new("RGB", picture.size)
    lay(light, mask, mix((0, 0, 0), colour, share))
    picture.paste(ImageChops.screen(picture, light))

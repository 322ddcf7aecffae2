"""Link-preview pictures: a candle drawn to scale on its shelf, and beside it the few words a shopper reads first."""

import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.metadata import version
from importlib.resources import files
from io import BytesIO
from itertools import chain, combinations, groupby
from math import ceil

from PIL import Image, ImageColor, ImageDraw, ImageFont, features

from generator.document import Card
from generator.memory import digest

WIDTH, HEIGHT = 1200, 630
"""The size in pixels of a link preview: common practice, no source."""

PX_PER_MM = 3.6
"""One scale for all cards, so that in two previews the bigger candle looks bigger."""

_MARGIN = 88
_SHELF_Y = 512
_SHELF_THICKNESS = 2
_DRAWING_WIDTH, _DRAWING_HEIGHT = 400, 430
_GUTTER = 48
_TEXT_BASELINE_Y = _SHELF_Y - 40
_HOUSE_BASELINE_Y = _SHELF_Y + 62
_STROKE_PX = 2
_FINER = 3
_COMPRESSION = 3
_PALETTE_COLOURS = 256
_SHADES_APART = 14

_FACES = (
    ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Regular.ttf"),
    ("fontpkg_inter", "Inter[opsz,wght].ttf"),
)
"""The second one sets words for which the first lacks a letter."""

_NOT_A_CHARACTER = "\uffff"
_CUT = "…"
_MEASURED_SIZE = 100
_LINE_HEIGHT = 1.06
_NARROWER = (0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95)

_Colour = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Setting:
    """How a text is set: in the largest size at which its lines fit."""

    sizes: tuple[int, ...]
    most_lines: tuple[int, ...]
    space_above: int
    strength: float


_TITLE = _Setting(sizes=(92, 80, 70, 62, 54, 46), most_lines=(2, 3, 3, 4, 4, 4), space_above=0, strength=1)
_SECOND = _Setting(sizes=(36, 32, 28, 28), most_lines=(1, 1, 1, 2), space_above=38, strength=0.92)
_THIRD = _Setting(sizes=(32, 28, 25), most_lines=(1, 1, 1), space_above=14, strength=0.66)
_HOUSE = _Setting(sizes=(28, 25, 22), most_lines=(1, 1, 1), space_above=0, strength=0.66)


def draw_card(card: Card) -> bytes:
    """The card as a PNG of few colours; the same card gives the same bytes."""
    image = Image.new("RGB", (WIDTH, HEIGHT), card.ground)
    pen = ImageDraw.Draw(image)
    shelf = (_MARGIN, _SHELF_Y, WIDTH - _MARGIN - 1, _SHELF_Y + _SHELF_THICKNESS - 1)
    pen.rectangle(shelf, fill=_mixed(card.ground, card.ink, 0.42))
    if card.shapes:
        _stand_on_shelf(image, card)
    _Column(pen, card, _words_width(card), _TEXT_BASELINE_Y).write(
        (card.third, _THIRD), (card.second, _SECOND), (card.title, _TITLE)
    )
    _Column(pen, card, WIDTH - 2 * _MARGIN, _HOUSE_BASELINE_Y).write((card.house, _HOUSE))
    return _as_png(image, card)


@cache
def card_settings_digest() -> str:
    """The digest of the libraries and typefaces of a card; its layout is part of the program."""
    libraries = (f"{name} {features.version(name)}" for name in ("pil", "freetype2", "zlib"))
    return digest(*(version(package) for package, _ in _FACES), *libraries)


class _Column:
    """Lines of text, flush left at the margin, set from the lowest baseline up."""

    def __init__(self, pen: ImageDraw.ImageDraw, card: Card, width: int, baseline_y: float) -> None:
        self._pen = pen
        self._card = card
        self._width = width
        self._baseline_y = baseline_y

    def write(self, *texts: tuple[str, _Setting]) -> None:
        """Set the texts, the lowest first."""
        for text, setting in texts:
            size, lines = _fitted(_sayable(text), setting, self._width)
            colour = _mixed(self._card.ground, self._card.ink, setting.strength)
            for line in reversed(lines):
                self._write_line(line, size, colour)
                self._baseline_y -= size * _LINE_HEIGHT
            if lines:
                self._baseline_y -= setting.space_above

    def _write_line(self, line: str, size: int, colour: _Colour) -> None:
        """Draw words of one typeface together."""
        x = float(_MARGIN)
        for face, words in groupby(line.split(" "), _face_of):
            text = " ".join(words)
            self._pen.text((x, self._baseline_y), text, colour, _font(size, face), anchor="ls")
            x += size * _ems(f"{text} ")


def _words_width(card: Card) -> int:
    taken = _DRAWING_WIDTH + _GUTTER if card.shapes else 0
    return WIDTH - 2 * _MARGIN - taken


def _stand_on_shelf(image: Image.Image, card: Card) -> None:
    """Draw the shapes much larger and reduce them, which smooths every edge."""
    xs = [x for shape in card.shapes for x, _y in shape.points_mm]
    top = max(y for shape in card.shapes for _x, y in shape.points_mm)
    left, across = min(xs), max(xs) - min(xs)
    scale = min(PX_PER_MM, _DRAWING_WIDTH / max(across, 1), _DRAWING_HEIGHT / max(top, 1))
    width, height = ceil(across * scale) + _STROKE_PX, ceil(top * scale) + _STROKE_PX
    fine = Image.new("RGB", (width * _FINER, height * _FINER), card.ground)
    pen = ImageDraw.Draw(fine)
    for shape in card.shapes:
        points = [
            ((_STROKE_PX / 2 + (x - left) * scale) * _FINER, (height - y * scale) * _FINER)
            for x, y in shape.points_mm
        ]
        pen.polygon(points, fill=shape.fill)
        if shape.stroke is not None:
            pen.line([*points, points[0]], fill=shape.stroke, width=_STROKE_PX * _FINER, joint="curve")
    image.paste(fine.reduce(_FINER), (WIDTH - _MARGIN - (_DRAWING_WIDTH + width) // 2, _SHELF_Y - height))


def _fitted(text: str, setting: _Setting, width: int) -> tuple[int, list[str]]:
    """The largest size at which the text fits, and its lines; at the smallest, what does not fit is cut off."""
    for size, most_lines in zip(setting.sizes, setting.most_lines, strict=True):
        lines = _wrapped(text, width / size)
        if len(lines) <= most_lines and _fits(lines, width / size):
            return size, _balanced(text, width / size, lines)
    if len(lines) > most_lines:
        lines[most_lines - 1 :] = [" ".join(lines[most_lines - 1 :])]
    return size, [_cut(line, width / size) for line in lines]


def _wrapped(text: str, width_ems: float) -> list[str]:
    """Lines of as many words as fit the width; an ampersand stays with the word after it."""
    lines: list[str] = []
    for word in text.replace("& ", "&\N{NO-BREAK SPACE}").split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and _ems(longer) <= width_ems:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines if text else []


def _balanced(text: str, width_ems: float, lines: list[str]) -> list[str]:
    """The same number of lines of more equal length, so that no word is left alone at the end."""
    for part in _NARROWER:
        narrower = _wrapped(text, part * width_ems)
        if len(narrower) == len(lines) and _fits(narrower, width_ems):
            return narrower
    return lines


def _cut(line: str, width_ems: float) -> str:
    if _fits([line], width_ems):
        return line
    while line and not _fits([line + _CUT], width_ems):
        line = line[:-1]
    return line.rstrip() + _CUT


def _fits(lines: list[str], width_ems: float) -> bool:
    return all(_ems(line) <= width_ems for line in lines)


def _ems(text: str) -> float:
    """The width of a text in ems; hinting may make a small line slightly wider, within the gutter."""
    words = text.split(" ")
    return sum(map(_word_ems, words)) + (len(words) - 1) * _word_ems(" ")


@cache
def _word_ems(word: str) -> float:
    return _font(_MEASURED_SIZE, _face_of(word)).getlength(word) / _MEASURED_SIZE


@cache
def _face_of(word: str) -> int:
    """The first typeface that has every letter of a word; the first of all where none has."""
    return next((face for face in range(len(_FACES)) if all(_has(each, face) for each in word)), 0)


def _sayable(text: str) -> str:
    """The text in characters the font has: a letter without its accent rather than a box, or nothing."""
    plain = unicodedata.normalize("NFC", " ".join(text.split()))
    return " ".join("".join(map(_character, plain)).split())


@cache
def _character(character: str) -> str:
    if _is_drawn(character) and not unicodedata.combining(character):
        return character
    parts = unicodedata.normalize("NFKD", character)
    # A lone accent would be set over the letter after it.
    return "".join(part for part in parts if _is_drawn(part) and not unicodedata.combining(part))


def _is_drawn(character: str) -> bool:
    return character.isprintable() and any(_has(character, face) for face in range(len(_FACES)))


@cache
def _has(character: str, face: int) -> bool:
    """Whether a typeface draws anything other than its sign for a missing character."""
    font = _font(_MEASURED_SIZE, face)
    missing, drawn = font.getmask(_NOT_A_CHARACTER), font.getmask(character)
    return (drawn.size, bytes(drawn)) != (missing.size, bytes(missing))


@cache
def _font(size: int, face: int) -> ImageFont.FreeTypeFont:
    # The basic layout is in every build of Pillow, so that the same card is the same picture everywhere.
    package, file = _FACES[face]
    data = files(package).joinpath("files", file).read_bytes()
    return ImageFont.truetype(BytesIO(data), size, layout_engine=ImageFont.Layout.BASIC)


def _as_png(image: Image.Image, card: Card) -> bytes:
    drawn = chain.from_iterable((shape.fill, shape.stroke) for shape in card.shapes)
    colours = dict.fromkeys((card.ground, card.ink, *(colour for colour in drawn if colour is not None)))
    few = image.quantize(palette=_palette(tuple(colours)), dither=Image.Dither.NONE)
    file = BytesIO()
    few.save(file, "PNG", compress_level=_COMPRESSION)
    return file.getvalue()


@lru_cache(maxsize=8)  # Pillow's colour lookup for one takes half a megabyte.
def _palette(colours: tuple[str, ...]) -> Image.Image:
    """The colours themselves, then shades between every two of them for the smoothed edges where they meet."""
    own = [_mixed(colour, colour, 0) for colour in colours]
    shades: dict[_Colour, None] = {}
    for one, other in combinations(colours, 2):
        steps = _distance(_mixed(one, one, 0), _mixed(other, other, 0)) // _SHADES_APART
        shades |= dict.fromkeys(_mixed(one, other, step / steps) for step in range(1, steps))
    # Pillow looks colours up in steps of four, so a shade too near to a colour might be taken for it.
    apart = [
        shade for shade in shades if all(_distance(shade, colour) >= _SHADES_APART / 2 for colour in own)
    ]
    palette = Image.new("P", (1, 1))
    palette.putpalette(list(chain.from_iterable((own + apart)[:_PALETTE_COLOURS])))
    return palette


def _distance(one: _Colour, other: _Colour) -> int:
    return max(abs(a - b) for a, b in zip(one, other, strict=True))


def _mixed(ground: str, ink: str, strength: float) -> _Colour:
    """The ink on the ground at an opacity: 0 is the ground, 1 the ink."""
    red, green, blue = (
        round(low + (high - low) * strength)
        for low, high in zip(ImageColor.getrgb(ground)[:3], ImageColor.getrgb(ink)[:3], strict=True)
    )
    return red, green, blue

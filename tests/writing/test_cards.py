"""Link-preview pictures: to scale, on the shelf, with words that fit, small, and the same every time."""

from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops

from generator.document import Card, Polygon
from generator.writing.card_pictures import PX_PER_MM, card_settings_digest, draw_card

GROUND, INK = "#f6f1e7", "#22201c"
WAX = "#66727a"
WORDS = (0, 0, 688, 630)
"""What is left of the drawing and of most of the empty strip before it."""


def block(width_mm: float, height_mm: float, colour: str = WAX) -> Polygon:
    return Polygon(points_mm=((0, 0), (0, height_mm), (width_mm, height_mm), (width_mm, 0)), fill=colour)


def card(*shapes: Polygon, title: str = "Slate & Samphire", second: str = "", house: str = "") -> Card:
    return Card(ground=GROUND, ink=INK, title=title, second=second, house=house, shapes=shapes)


def picture(drawn: Card) -> Image.Image:
    return Image.open(BytesIO(draw_card(drawn))).convert("RGB")


def box_of(image: Image.Image, colour: str) -> tuple[int, int, int, int]:
    """The box around all pixels of exactly this colour."""
    flat = Image.new("RGB", image.size, colour)
    differs = ImageChops.difference(image, flat).convert("L", matrix=(1, 1, 1, 0))
    box = differs.point(lambda value: 255 if value == 0 else 0).getbbox()
    assert box is not None
    return box


def marked_box(image: Image.Image, part: tuple[int, int, int, int]) -> tuple[int, int, int, int] | None:
    """The box around all that is not ground within a part of the picture."""
    cut = image.crop(part)
    return ImageChops.difference(cut, Image.new("RGB", cut.size, GROUND)).getbbox()


def test_a_card_is_a_small_png_of_few_colours_in_the_size_of_a_link_preview() -> None:
    data = draw_card(card(block(80, 95), second="30 cl tumbler, 240 g", house="Quillfern Candles"))

    image = Image.open(BytesIO(data))
    assert (image.format, image.mode, image.size) == ("PNG", "P", (1200, 630))
    assert len(data) < 40_000


def test_the_same_card_is_the_same_picture() -> None:
    assert draw_card(card(block(80, 95))) == draw_card(card(block(80, 95)))


def test_a_candle_is_drawn_to_the_common_scale_and_stands_on_the_shelf() -> None:
    left, top, right, bottom = box_of(picture(card(block(80, 95))), WAX)

    # An edge that falls between two pixels is smoothed, so at each side one pixel may be missing.
    assert right - left == pytest.approx(80 * PX_PER_MM, abs=2)
    assert bottom - top == pytest.approx(95 * PX_PER_MM, abs=2)
    assert bottom == 512


def test_the_shelf_is_a_hairline_under_the_candle() -> None:
    image = picture(card(block(80, 95)))

    assert image.crop((88, 512, 1112, 514)).getcolors(1) is not None
    assert marked_box(image, (0, 514, 1200, 630)) is None


@pytest.mark.parametrize(("width_mm", "height_mm"), [(300, 100), (100, 400), (900, 900)])
def test_a_candle_too_large_for_the_card_is_drawn_smaller_in_the_same_proportion(
    width_mm: float, height_mm: float
) -> None:
    left, top, right, bottom = box_of(picture(card(block(width_mm, height_mm))), WAX)

    assert (right - left) / (bottom - top) == pytest.approx(width_mm / height_mm, rel=0.02)
    assert left >= 712
    assert right <= 1112
    assert (top >= 80, bottom) == (True, 512)


def test_shapes_lie_one_over_the_other_in_their_order_in_exactly_their_colours() -> None:
    image = picture(card(block(80, 95), block(80, 40, "#c9a45c"), title=""))

    assert box_of(image, WAX)[3] == pytest.approx(512 - 40 * PX_PER_MM, abs=2)
    assert box_of(image, "#c9a45c")[3] == 512


def test_ground_and_ink_are_the_given_colours() -> None:
    image = picture(card())

    assert image.getpixel((0, 0)) == (0xF6, 0xF1, 0xE7)
    assert marked_box(image, box_of(image, INK)) is not None


titles = st.one_of(
    st.text(max_size=200),
    st.lists(st.sampled_from(["Netloft", "&", "of", "Weihnachtsspekulatius", "W" * 60]), max_size=30).map(
        " ".join
    ),
)


@given(titles, titles)
@settings(max_examples=40, deadline=None)
def test_no_words_run_into_the_drawing_or_off_the_card(title: str, second: str) -> None:
    image = picture(card(block(111, 119), title=title, second=second, house=title))

    beside = marked_box(image, (688, 0, 712, 510))
    above = marked_box(image, (0, 0, 1200, 40))
    right = marked_box(image, (1160, 0, 1200, 630))
    assert (beside, above, right) == (None, None, None)


def test_a_long_title_is_set_smaller_and_on_more_lines() -> None:
    short = marked_box(picture(card(block(80, 95), title="Netloft")), WORDS)
    long = marked_box(picture(card(block(80, 95), title="Netloft and old rope at the harbour's end")), WORDS)

    assert short is not None
    assert long is not None
    assert long[1] < short[1]


@pytest.mark.parametrize(
    ("title", "shown"),
    [
        pytest.param("Ʋ\u030aick", "Ʋick", id="a letter without its accent"),
        pytest.param("Samphire ⑪", "Samphire 11", id="a sign by what it stands for"),
        pytest.param("Slate 漢字 Tide", "Slate Tide", id="nothing for what cannot be drawn"),
        pytest.param("  Slate\n Tide\x00 ", "Slate Tide", id="no stray spaces and no control signs"),
        pytest.param("e\u0301te\u0301", "été", id="accents written apart"),
        pytest.param("Ti\u0332de", "Tide", id="an accent that no letter has"),
        pytest.param("漢字", "", id="nothing at all"),
    ],
)
def test_what_the_fonts_lack_is_said_as_well_as_it_can_be(title: str, shown: str) -> None:
    assert draw_card(card(title=title)) == draw_card(card(title=shown))


@pytest.mark.parametrize("title", ["Κήπος", "Полынь", "Ŵick", "Fig ♥"])
def test_a_word_that_the_first_font_lacks_is_set_in_the_second(title: str) -> None:
    bare = "".join(letter for letter in title if letter.isascii())

    assert draw_card(card(title=title)) != draw_card(card(title=bare))


def test_the_key_of_the_settings_is_a_digest() -> None:
    assert card_settings_digest() == card_settings_digest()
    assert len(card_settings_digest()) == 64

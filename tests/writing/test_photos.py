"""Developing a photo: the sizes, the colours, nothing of the maker's in it, and plain words for what is no photo."""

import struct
import zlib
from collections.abc import Callable
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms, ImageDraw, ImageFile

from generator.writing.photos import BadPicture, Picture, develop, settings_digest

RED, BLUE, WHITE = (255, 0, 0), (0, 0, 255), (255, 255, 255)
CANARY = "54.4609N 1.0655W Bench"
XMP = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF>{CANARY}</rdf:RDF></x:xmpmeta>".encode()
ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825


def saved(image: Image.Image, form: str, **settings: object) -> bytes:
    file = BytesIO()
    image.save(file, form, **settings)
    return file.getvalue()


def photo(size: tuple[int, int] = (40, 20)) -> Image.Image:
    """White, with a red quarter at the top left."""
    image = Image.new("RGB", size, "white")
    ImageDraw.Draw(image).rectangle((0, 0, size[0] // 2 - 1, size[1] // 2 - 1), fill=RED)
    return image


def opened(picture: Picture) -> Image.Image:
    return Image.open(BytesIO(picture.data))


def colour_at(developed: tuple[Picture, ...], x: float, y: float) -> tuple[str, ...]:
    """The nearest of our three colours, in each of the files, at a part of the width and height."""
    names = []
    for picture in developed:
        spot = opened(picture).convert("RGB").getpixel((int(x * picture.width), int(y * picture.height)))
        assert isinstance(spot, tuple)
        distances = {
            name: sum(abs(a - b) for a, b in zip(colour, spot, strict=True)) for name, colour in NAMED.items()
        }
        names.append(min(distances, key=lambda name: distances[name]))
    return tuple(names)


NAMED = {"red": RED, "blue": BLUE, "white": WHITE}


def exif(orientation: int = 1) -> Image.Exif:
    data = Image.Exif()
    data[ORIENTATION] = orientation
    data[MAKER] = CANARY
    data.get_ifd(GPS)[2] = (54.0, 27.0, 39.2)
    data.get_ifd(GPS)[1] = "N"
    return data


def profile(*, red_means_blue: bool = False) -> bytes:
    """The sRGB profile, or one in which the primaries red and blue have changed places."""
    plain = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    if not red_means_blue:
        return plain
    return plain.replace(b"rXYZ", b"?XYZ").replace(b"bXYZ", b"rXYZ").replace(b"?XYZ", b"bXYZ")


def test_a_large_photo_comes_as_jpeg_and_webp_at_three_widths() -> None:
    developed = develop(saved(photo((2000, 1000)), "JPEG"))

    sizes = [(480, 240), (960, 480), (1600, 800)]
    assert [(p.width, p.height, p.format) for p in developed] == [
        (*size, form) for size in sizes for form in ("jpeg", "webp")
    ]
    assert [(opened(p).size, str(opened(p).format).lower()) for p in developed] == [
        (size, form) for size in sizes for form in ("jpeg", "webp")
    ]


@pytest.mark.parametrize(
    ("width", "widths"),
    [(1200, [480, 960, 1200]), (960, [480, 960]), (700, [480, 700]), (100, [100]), (4, [4])],
)
def test_no_photo_is_enlarged_and_a_small_one_keeps_its_own_width(width: int, widths: list[int]) -> None:
    developed = develop(saved(photo((width, width // 2)), "PNG"))

    assert [p.width for p in developed if p.format == "webp"] == widths


def test_the_jpeg_is_progressive() -> None:
    jpeg, _webp = develop(saved(photo(), "PNG"))

    assert opened(jpeg).info.get("progressive")


def test_the_same_photo_gives_the_same_bytes() -> None:
    source = saved(photo((700, 500)), "JPEG", exif=exif(), icc_profile=profile())

    assert develop(source) == develop(source)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF", "AVIF"])
def test_nothing_of_what_a_camera_or_a_maker_wrote_into_a_photo_is_left(form: str) -> None:
    extra = {} if form == "TIFF" else {"xmp": XMP}
    source = saved(photo((600, 300)), form, exif=exif(), icc_profile=profile(), **extra)
    assert CANARY.encode() in source

    for picture in develop(source):
        image = opened(picture)
        image.load()

        assert (dict(image.getexif()), image.getxmp()) == ({}, {})
        assert image.info.keys() & {"exif", "xmp", "icc_profile", "comment", "photoshop", "dpi"} == set()
        assert [word for word in (CANARY.encode(), b"Exif", b"ICC", b"adobe:") if word in picture.data] == []


def test_a_comment_in_a_jpeg_or_a_text_in_a_png_is_left_out() -> None:
    sources = (saved(photo(), "JPEG", comment=CANARY), saved(photo(), "GIF", comment=CANARY.encode()))

    assert [p for source in sources for p in develop(source) if CANARY.encode() in p.data] == []


@pytest.mark.parametrize(
    ("orientation", "x", "y"),
    # Where the recorded top left is to be shown, by the Exif specification's table of orientations (from memory).
    [
        (1, 0.2, 0.2),
        (2, 0.8, 0.2),
        (3, 0.8, 0.8),
        (4, 0.2, 0.8),
        (5, 0.2, 0.2),
        (6, 0.8, 0.2),
        (7, 0.8, 0.8),
        (8, 0.2, 0.8),
    ],
)
def test_a_photo_stands_upright_however_the_camera_was_held(orientation: int, x: float, y: float) -> None:
    developed = develop(saved(photo((40, 20)), "JPEG", exif=exif(orientation), quality=95))

    assert {(p.width, p.height) for p in developed} == {(40, 20) if orientation < 5 else (20, 40)}
    assert colour_at(developed, x, y) == ("red", "red")
    assert colour_at(developed, 1 - x, 1 - y) == ("white", "white")


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_colours_are_what_the_profile_of_the_photo_says(form: str) -> None:
    developed = develop(saved(photo(), form, icc_profile=profile(red_means_blue=True)))

    assert colour_at(developed, 0.2, 0.2) == ("blue", "blue")


@pytest.mark.parametrize("broken", [b"not a profile", profile()[:200]])
def test_a_profile_that_cannot_be_read_is_passed_over(broken: bytes) -> None:
    developed = develop(saved(photo(), "PNG", icc_profile=broken))

    assert colour_at(developed, 0.2, 0.2) == ("red", "red")


def test_a_profile_for_other_colours_than_the_photo_has_is_passed_over() -> None:
    developed = develop(saved(photo().convert("L"), "PNG", icc_profile=profile(red_means_blue=True)))

    assert colour_at(developed, 0.8, 0.8) == ("white", "white")


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P"])
def test_what_can_be_seen_through_is_laid_on_white(mode: str) -> None:
    clear = Image.new("RGBA", (40, 20), (0, 0, 0, 0))
    source = saved(clear.convert(mode), "PNG", **({"transparency": 0} if mode == "P" else {}))

    assert colour_at(develop(source), 0.5, 0.5) == ("white", "white")


@pytest.mark.parametrize(
    ("mode", "form"),
    [("1", "PNG"), ("L", "JPEG"), ("CMYK", "JPEG"), ("CMYK", "TIFF"), ("P", "GIF"), ("RGB", "BMP")],
)
def test_every_usual_kind_of_colours_is_shown_as_it_was(mode: str, form: str) -> None:
    developed = develop(saved(photo().convert(mode), form))

    assert colour_at(developed, 0.8, 0.8) == ("white", "white")


def test_a_grey_of_sixteen_bits_keeps_its_tone() -> None:
    developed = develop(saved(Image.new("I;16", (40, 20), 0x8000), "PNG"))

    assert [opened(p).convert("L").getpixel((5, 5)) for p in developed] == [128, 128]


def png_that_says_it_is(width: int, height: int) -> bytes:
    """Nothing but a header: whoever tries to decode it finds it cut short."""
    header = b"IHDR" + struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + struct.pack(">I", 13)
        + header
        + struct.pack(">I", zlib.crc32(header))
        + (struct.pack(">I", 100) + b"IDAT")
    )


MOVING = saved(photo(), "GIF", save_all=True, append_images=[photo().rotate(90)])
MOVING_PNG = saved(photo(), "PNG", save_all=True, append_images=[photo().rotate(90)])
TWO_PAGES = saved(photo(), "TIFF", save_all=True, append_images=[photo().rotate(90)])
LIST = "use JPEG, PNG, WebP, TIFF, AVIF, GIF or BMP"
SEVERAL = "contains several pictures (it is animated or has pages); only a single one can be shown"


@pytest.mark.parametrize(
    ("source", "reason"),
    [
        pytest.param(b"", "is an empty file", id="empty"),
        pytest.param(b"<svg/>", f"is not a picture this program can read; {LIST}", id="not a picture"),
        pytest.param(
            b"\0\0\0\x18ftypheic\0\0\0\0mif1heic",
            "is a HEIC picture, which most browsers cannot show; save it as JPEG",
            id="from a telephone",
        ),
        pytest.param(saved(photo((400, 300)), "JPEG")[:1500], "is damaged or cut off", id="a truncated JPEG"),
        pytest.param(saved(photo((400, 300)), "PNG")[:-60], "is damaged or cut off", id="a truncated PNG"),
        pytest.param(saved(photo(), "AVIF")[:-9], "is damaged or cut off", id="a truncated AVIF"),
        pytest.param(png_that_says_it_is(40, 20), "is damaged or cut off", id="only a header"),
        pytest.param(
            png_that_says_it_is(5_000, 5_001),
            "has more than 25 megapixels; as JPEG it may have 100 megapixels",
            id="just too large",
        ),
        pytest.param(png_that_says_it_is(20_000, 10_000), "has more than 100 megapixels", id="far too large"),
        pytest.param(
            png_that_says_it_is(100, 1001),
            "is 100 by 1001 pixels, more than 10 times as long as it is wide",
            id="a strip",
        ),
        pytest.param(MOVING, SEVERAL, id="a moving GIF"),
        pytest.param(MOVING_PNG, SEVERAL, id="a moving PNG"),
        pytest.param(TWO_PAGES, SEVERAL, id="two pages"),
        pytest.param(
            saved(Image.new("F", (4, 4)), "TIFF"),
            "uses F colours, which no browser shows",
            id="measurements",
        ),
    ],
)
def test_what_cannot_be_shown_is_refused_in_plain_words(source: bytes, reason: str) -> None:
    with pytest.raises(BadPicture) as refused:
        develop(source)

    assert refused.value.reason == reason


def test_twenty_five_megapixels_are_not_too_many() -> None:
    with pytest.raises(BadPicture, match="is damaged or cut off"):
        develop(png_that_says_it_is(5_000, 5_000))


def _noting(decoded: list[tuple[int, int]]) -> Callable[[ImageFile.ImageFile], object]:
    load = ImageFile.ImageFile.load

    def noted(image: ImageFile.ImageFile) -> object:
        decoded.append(image.size)
        return load(image)

    return noted


def test_a_large_jpeg_is_decoded_to_what_a_page_needs(monkeypatch: pytest.MonkeyPatch) -> None:
    source = saved(photo((6400, 4800)), "JPEG")
    decoded: list[tuple[int, int]] = []
    monkeypatch.setattr(ImageFile.ImageFile, "load", _noting(decoded))

    assert {picture.width for picture in develop(source)} == {480, 960, 1600}
    assert set(decoded) == {(3200, 2400)}


def test_the_second_view_a_camera_hides_in_a_jpeg_is_passed_over() -> None:
    source = saved(photo(), "MPO", save_all=True, append_images=[Image.new("RGB", (40, 20), "blue")])

    assert colour_at(develop(source), 0.2, 0.2) == ("red", "red")


SOURCES = tuple(
    saved(photo(), form, exif=exif(), icc_profile=profile())
    for form in ("JPEG", "PNG", "WEBP", "TIFF", "AVIF")
)


@given(
    st.sampled_from([*SOURCES, saved(photo(), "GIF"), saved(photo(), "BMP")]),
    st.lists(st.tuples(st.floats(0, 1, exclude_max=True), st.integers(0, 255)), min_size=1, max_size=8),
)
@settings(max_examples=100, deadline=None)
def test_any_damage_gives_pictures_or_plain_words(source: bytes, changes: list[tuple[float, int]]) -> None:
    damaged = bytearray(source)
    for part, byte in changes:
        damaged[int(part * len(source))] = byte

    try:
        shown = len(develop(bytes(damaged))) > 0
    except BadPicture as bad:
        shown = bad.reason != ""

    assert shown


def test_the_key_of_the_settings_changes_with_the_widths() -> None:
    assert settings_digest((480, 960)) != settings_digest()

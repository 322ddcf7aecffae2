"""A maker's photo to the pictures a page shows: upright, in sRGB, at a few widths, without any metadata."""

import struct
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from threading import Lock

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError, features

from generator.memory import digest

WIDTHS = (480, 960, 1600)
MOST_PIXELS = 25_000_000
MOST_PIXELS_OF_JPEG = 100_000_000
"""What is decoded within 500 MB (measured); a JPEG decodes to a half or a quarter of its size by itself."""

MOST_TIMES_LONGER = 10
"""WebP ends at 16,383 pixels a side, and nothing so long is the photo of a candle."""

_FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "AVIF", "GIF", "BMP")
_JPEGS = ("JPEG", "MPO")
_JPEG_QUALITY = 80
_WEBP_QUALITY = 78
_WEBP_METHOD = 4
_SAVED_AS = {
    "webp": {"quality": _WEBP_QUALITY, "method": _WEBP_METHOD},
    "jpeg": {"quality": _JPEG_QUALITY, "progressive": True, "optimize": True},
}
_HEIC_BRANDS = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1")
_SAYABLE_COLOURS = frozenset({"1", "L", "LA", "P", "PA", "RGB", "RGBA", "CMYK", "YCbCr", "I;16"})
_FAULTS_OF_PICTURES = (
    *(OSError, SyntaxError, ValueError, EOFError, LookupError, TypeError, RuntimeError, ArithmeticError),
    *(struct.error, zlib.error),
)
"""What Pillow's readers raise at damaged files, found by damaging files."""

_WARNING_FILTERS = Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One file of a photo: its size in pixels, its format (``jpeg`` or ``webp``), its bytes."""

    width: int
    height: int
    format: str
    data: bytes


class BadPicture(Exception):
    """A photo that cannot be shown; the reason, in the maker's words, continues from its file's name."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def check_embedded(source: bytes) -> None:
    """Raise ``BadPicture`` for a picture that cannot be printed as it is, by its header; no pixel is decoded."""
    with _opening(source) as image:
        if image.width * image.height > MOST_PIXELS:
            raise BadPicture(f"has more than {_mega(MOST_PIXELS)}")


def develop(source: bytes, widths: tuple[int, ...] = WIDTHS) -> tuple[Picture, ...]:
    """The photo as JPEG and WebP at each width that does not enlarge it, or its own if small; narrowest first."""
    upright, profile = _opened(source)
    sizes = sorted({_size_at(upright, width) for width in widths}, reverse=True)
    picture = _in_srgb(_resized(upright, sizes[0]), profile)
    pictures: list[Picture] = []
    for size in sizes:
        # Each from the next larger one, which is a third quicker than from the source (measured).
        picture = _resized(picture, size)
        pictures += _encoded(picture)
    return tuple(reversed(pictures))


def fault_of(source: bytes) -> str | None:
    """Why a photo cannot be shown, as ``develop`` would report it; None where it can."""
    try:
        _opened(source)
    except BadPicture as bad:
        return bad.reason
    return None


def settings_digest(widths: tuple[int, ...] = WIDTHS) -> str:
    """The digest of everything that affects a picture besides its source."""
    libraries = (
        f"{name} {features.version(name)}" for name in ("pil", "libjpeg_turbo", "webp", "littlecms2")
    )
    return digest(repr((widths, _JPEG_QUALITY, _WEBP_QUALITY, _WEBP_METHOD)), *libraries)


def _opened(source: bytes) -> tuple[Image.Image, bytes | None]:
    """The decoded photo, upright and opaque, and its colour profile."""
    with _opening(source) as image:
        _ask_for_fewer_pixels(image)
        ImageOps.exif_transpose(image, in_place=True)
        return _opaque(image), image.info.get("icc_profile")


@contextmanager
def _opening(source: bytes) -> Iterator[Image.Image]:
    """The photo while it is read, with Pillow's faults in the maker's words."""
    if not source:
        raise BadPicture("is an empty file")
    # Pillow warns about odd metadata and large sizes; the first is dropped and the second refused here.
    with _WARNING_FILTERS, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            with Image.open(BytesIO(source), formats=_FORMATS) as image:
                _check(image)
                yield image
        except Image.DecompressionBombError as fault:
            raise BadPicture(f"has more than {_mega(MOST_PIXELS_OF_JPEG)}") from fault
        except UnidentifiedImageError as fault:
            raise _unreadable(source) from fault
        except _FAULTS_OF_PICTURES as fault:
            raise BadPicture("is damaged or cut off") from fault


def _check(image: Image.Image) -> None:
    """Refuse by what the file's header says, before a pixel is decoded."""
    pixels, is_jpeg = image.width * image.height, image.format in _JPEGS
    if pixels > MOST_PIXELS_OF_JPEG:
        raise BadPicture(f"has more than {_mega(MOST_PIXELS_OF_JPEG)}")
    if pixels > MOST_PIXELS and not is_jpeg:
        raise BadPicture(
            f"has more than {_mega(MOST_PIXELS)}; as JPEG it may have {_mega(MOST_PIXELS_OF_JPEG)}"
        )
    if pixels > MOST_PIXELS_OF_JPEG // 2 and image.mode == "CMYK":
        raise BadPicture(f"has more than {_mega(MOST_PIXELS_OF_JPEG // 2)} in the colours of print")
    if max(image.size) > MOST_TIMES_LONGER * min(image.size):
        raise BadPicture(
            f"is {image.width} by {image.height} pixels, more than {MOST_TIMES_LONGER} "
            "times as long as it is wide"
        )
    # A camera's MPO file is a JPEG with a second view behind it; the first is the photo.
    if image.format != "MPO" and getattr(image, "is_animated", False):
        raise BadPicture(
            "contains several pictures (it is animated or has pages); only a single one can be shown"
        )
    if image.mode not in _SAYABLE_COLOURS:
        raise BadPicture(f"uses {image.mode} colours, which no browser shows")


def _ask_for_fewer_pixels(image: Image.Image) -> None:
    """A large JPEG is decoded at half its pixels a side or less, which is still more than a page shows."""
    if image.width * image.height > MOST_PIXELS:
        times = max(1, min(image.size) // WIDTHS[-1])
        image.draft(image.mode, (image.width // times, image.height // times))


def _opaque(image: Image.Image) -> Image.Image:
    """The image without transparency, laid on white, in colours a profile can be applied to."""
    if image.has_transparency_data:
        see_through = image if image.mode == "RGBA" else image.convert("RGBA")
        white = Image.new("RGB", image.size, "white")
        white.paste(see_through, mask=see_through.getchannel("A"))
        return white
    if image.mode == "I;16":
        return image.point(lambda level: level / 256).convert("L")
    if image.mode in {"L", "CMYK"}:
        return image
    return image.convert("RGB")


def _size_at(image: Image.Image, width: int) -> tuple[int, int]:
    width = min(width, image.width)
    return width, max(1, round(image.height * width / image.width))


def _resized(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    return image if image.size == size else image.resize(size, Image.Resampling.LANCZOS)


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """A new picture in sRGB with only pixels."""
    fresh = Image.new("RGB", image.size)
    fresh.paste((image if profile is None else _by_profile(image, profile)).convert("RGB"))
    return fresh


def _by_profile(image: Image.Image, profile: bytes) -> Image.Image:
    """The image by its profile; unchanged if the profile is broken or for another colour space."""
    try:
        meant = ImageCms.ImageCmsProfile(BytesIO(profile))
        return (
            ImageCms.profileToProfile(image, meant, ImageCms.createProfile("sRGB"), outputMode="RGB") or image
        )
    except (ImageCms.PyCMSError, OSError):
        return image


def _encoded(picture: Image.Image) -> Iterator[Picture]:
    for form, settings in _SAVED_AS.items():
        file = BytesIO()
        picture.save(file, form, **settings)
        yield Picture(width=picture.width, height=picture.height, format=form, data=file.getvalue())


def _mega(pixels: int) -> str:
    return f"{pixels // 1_000_000} megapixels"


def _unreadable(source: bytes) -> BadPicture:
    if source[4:8] == b"ftyp" and source[8:12] in _HEIC_BRANDS:
        return BadPicture("is a HEIC picture, which most browsers cannot show; save it as JPEG")
    return BadPicture("is not a picture this program can read; use JPEG, PNG, WebP, TIFF, AVIF, GIF or BMP")

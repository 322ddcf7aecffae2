"""Papers in exact millimetres: a document through a theme's typst template to a tagged PDF; the home of ``typst``."""

import json
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import local
from typing import Final

import typst

from generator.document import Document, Value
from generator.letters import OF_THE_FIRST, spelled
from generator.writing.paper_drawings import PaperStyles, dress_signs, paper_styles
from generator.writing.qr import qr_code
from generator.writing.templates import TemplateFault, written_out
from generator.writing.themes import Theme

STANDARDS: Final[list["typst.PDFStandard"]] = ["a-2a", "ua-1"]
"""PDF/A-2a and PDF/UA-1; the export is refused when a glyph, a title or a text for a picture is missing."""

DATED: Final = "dated"
"""The key of a value that holds its paper's day, ``2026-11-01``; no clock is read."""

_CODES: Final = "codes"
"""The key of a value that lists the texts its paper prints as QR codes; optional."""

_DRAWING: Final = "drawing"
"""The key under which a value holds a drawing made for a page; it gets its colours on the way to the paper."""

TYPEFACES: Final = (
    "fontpkg_atkinson_hyperlegible",
    "fontpkg_inter",
    "fontpkg_arimo",
    "fontpkg_fira_code",
)
"""The packages of the papers' typefaces, each for the letters that those before it lack (``parts/typeface.typ``)."""

_NEEDED: Final = ("papers", "parts/pictograms")
_PACKAGES: Final = "@preview"
_TOO_LARGE: Final = "<too-large>"

_MOST_SAID: Final = 2_000
"""The most letters shown of a diagnosis: the typesetter shows each of thousands of slips with its line."""

_BREAKDOWN: Final = "PanicException"
"""The name of what is raised then, the only way to recognise it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TooLarge:
    """A part of a paper that needs more room than it has: its name, and both sizes in millimetres, of its height
    unless it is said to be across."""

    part: str
    needs_mm: float
    has_mm: float
    across: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why a paper was not set: parts larger than their space."""

    path: str
    too_large: tuple[TooLarge, ...]


class Press:
    """Sets documents in type. Several threads may use one press at the same time.

    A template is a ``.typ`` file below the theme's ``papers/``. It reads its value with
    ``json(bytes(sys.inputs.value))`` and the drawings of its QR codes by their texts with
    ``json(bytes(sys.inputs.codes))``; it marks a part that does not fit with
    ``#metadata((part: "...", needs_mm: 41.8, has_mm: 29.9)) <too-large>``. A letter of the value that the typefaces
    lack is set as its name, so that everything issued can be printed.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._styles = paper_styles(folder)
        folders: list[Path] = [Path(str(files(package).joinpath("files"))) for package in TYPEFACES]
        self._fonts = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=folders
        )
        self._of_thread = local()

    def set(self, document: Document) -> bytes | Refused:
        """The paper as PDF, or why it was not set."""
        compiler = self._compiler(document.template)
        # A template looks up a code by its text as printed.
        drawn = {spelled(text): qr_code(text) for text in _texts(document.value.get(_CODES))}
        inputs = {
            "value": written_out(_dressed(document.value, self._styles)),
            "codes": written_out(drawn),
            "of_the_first": OF_THE_FIRST,
        }
        try:
            data, warnings = compiler.compile_with_warnings(
                format="pdf",
                sys_inputs=inputs,
                pdf_standards=STANDARDS,
                timestamp=_moment(document.value),
            )
        except typst.TypstError as fault:
            raise _fault_of(document, fault.message, fault.diagnostic) from fault
        except BaseException as fault:
            # The typesetter's own breakdown is not an Exception; it happens when a template takes all memory.
            if type(fault).__name__ != _BREAKDOWN:
                raise
            raise _fault_of(document, "the typesetter crashed on this template", "") from fault
        if warnings:
            raise _fault_of(document, warnings[0].message, warnings[0].diagnostic)
        if too_large := json.loads(compiler.query(_TOO_LARGE, field="value")):
            return Refused(path=document.path, too_large=tuple(TooLarge(**one) for one in too_large))
        if not isinstance(data, bytes):
            raise _fault_of(document, "produced several files", "")
        return data

    def _compiler(self, template: str) -> typst.Compiler:
        """One for each thread and template, because a compiler remembers what it was last given."""
        compilers: dict[str, typst.Compiler] = self._of_thread.__dict__
        if template not in compilers:
            compilers[template] = typst.Compiler(
                self._folder / template,
                root=self._folder,
                font_paths=self._fonts,
                package_path=self._folder / "none",
            )
        return compilers[template]


@contextmanager
def press(theme: Theme) -> Iterator[Press]:
    """A press with the templates of a theme and of those it extends; where several have one, the nearest."""
    with TemporaryDirectory(prefix="wickwright-") as folder:
        for step in reversed(theme.folders):
            for name in _NEEDED:
                if (step / name).is_dir():
                    shutil.copytree(step / name, Path(folder) / name, dirs_exist_ok=True)
        dress_signs(Path(folder), paper_styles(Path(folder)))
        _refuse_packages(Path(folder))
        yield Press(Path(folder))


def _refuse_packages(folder: Path) -> None:
    for path in sorted(folder.rglob("*.typ")):
        if _PACKAGES.encode() in path.read_bytes():
            at = path.relative_to(folder).as_posix()
            raise TemplateFault("a template may not fetch packages", at=at, document="any paper")


def _moment(value: Mapping[str, Value]) -> int:
    """Midnight of the paper's day in seconds, for the PDF's own date."""
    day = datetime.strptime(str(value[DATED]), "%Y-%m-%d").replace(tzinfo=UTC)
    return int(day.timestamp())


def _dressed(value: Value, styles: PaperStyles) -> Value:
    """The value with every drawing prepared for paper, and every other text in available letters."""
    if isinstance(value, str):
        return spelled(value)
    if isinstance(value, Mapping):
        return {
            key: styles.dressed(below)
            if key == _DRAWING and isinstance(below, str)
            else _dressed(below, styles)
            for key, below in value.items()
        }
    if isinstance(value, tuple | list):
        return tuple(_dressed(below, styles) for below in value)
    return value


def _texts(value: Value) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for below in value.values():
            yield from _texts(below)
    elif isinstance(value, tuple | list):
        for below in value:
            yield from _texts(below)


def _fault_of(document: Document, message: str, diagnostic: str) -> TemplateFault:
    message, diagnostic = message[:_MOST_SAID], diagnostic[:_MOST_SAID]
    what = f"{message}\n{diagnostic}" if diagnostic else message
    return TemplateFault(what, at=document.template, document=document.path)

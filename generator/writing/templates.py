"""Documents through a theme's templates to bytes. What a template cannot print is a fault, never a gap."""

import json
import posixpath
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache, partial
from pathlib import Path
from types import CodeType, TracebackType
from typing import Any
from urllib.parse import quote, urlsplit

from jinja2 import (
    BaseLoader,
    BytecodeCache,
    ChoiceLoader,
    Environment,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
    TemplateError,
    TemplateSyntaxError,
    Undefined,
)
from jinja2.bccache import Bucket
from jinja2.exceptions import TemplateNotFound, TemplateRuntimeError
from jinja2.ext import Extension
from jinja2.lexer import Token, TokenStream
from markupsafe import Markup

from generator.document import DeferredDocument, Document, Value
from generator.memory import digest
from generator.problems import Place, Problem, Stopped
from generator.writing.qr import qr_code
from generator.writing.themes import Theme, asset_addresses

_FAULTS_OF_TEMPLATES = (
    TemplateError,
    TypeError,
    ValueError,
    LookupError,
    AttributeError,
    ArithmeticError,
    RecursionError,
    MemoryError,
    SyntaxError,
)
_ABSENT = re.compile(r"'[^']+ object' has no attribute ('[^']+')")
_LETTERS_OF_ADDRESSES = "/%@!$&'()*+,;=~"


class TemplateFault(Stopped):
    """A document could not be printed because of a theme, not of an entry; ``problem`` is for the theme's writer."""

    def __init__(self, what: str, *, at: str, document: str) -> None:
        file, _, line = at.partition(":")
        super().__init__(
            Problem(
                place=Place(file, int(line or 1), 1),
                what=what,
                why=f"{document} could not be printed with this theme",
                fix="use only what themes/README.md lists for a template",
            ),
            f"{at}: {what} (while printing {document})",
        )


class Templates:
    """The templates of a theme, which print one document at a time.

    A template of a theme that extends another may extend that one's page by its theme's name
    (``{% extends "netloft/pages/candle.html" %}``) and write only the blocks that differ.

    A template knows ``page`` (the document's value), ``site`` (what all pages share), ``here(target)`` (the address
    of a page or file from this page), ``asset(name)`` (the address of a style or script of the theme), ``qr(text)``
    (the drawing of a QR code), ``part(name, value)`` (a part that many documents hold alike, printed once) and the
    filter ``markup``, the one way to print text as markup: for drawings and Markdown made by this program.
    """

    def __init__(self, theme: Theme) -> None:
        self._folders = theme.folders
        self._assets = asset_addresses(theme)
        self._parts: dict[tuple[str, int], tuple[Value, Markup]] = {}
        self._environment = _Environment(
            loader=_loader(theme.folders),
            autoescape=True,
            undefined=StrictUndefined,
            finalize=_printable,
            trim_blocks=True,
            lstrip_blocks=True,
            auto_reload=False,
            bytecode_cache=_COMPILED,
            extensions=[_EscapingStaysOn],
        )
        del self._environment.filters["safe"]
        self._environment.filters["markup"] = _as_markup

    def load(self, name: str) -> None:
        """Read a template; its name may begin with a theme's."""
        try:
            self._environment.get_template(name)
        except _FAULTS_OF_TEMPLATES as fault:
            at = _place(fault, self._folders) or name
            raise TemplateFault(_in_words(fault), at=at, document=name) from fault

    def render(self, document: Document, site_values: Mapping[str, Value]) -> bytes:
        """The printed document."""
        here = partial(relative_address, document.path)
        known = {
            "here": here,
            "asset": partial(_asset_address, self._assets, here),
            "qr": _qr_code,
            "part": self._part,
        }
        try:
            # As globals and not as values, because an imported part sees only those.
            template = self._environment.get_template(document.template, globals=known)
            return _ended(template.render(page=document.value, site=site_values)).encode()
        except _FAULTS_OF_TEMPLATES as fault:
            at = _place(fault, self._folders) or document.template
            raise TemplateFault(_in_words(fault), at=at, document=document.path) from fault

    def _part(self, name: str, value: Value) -> Markup:
        """A part whose ``page`` is the value; documents with the very same value share its printed text."""
        key = (name, id(value))
        if key not in self._parts:
            # The value is kept with it, so that its address in memory is not reused.
            self._parts[key] = (value, Markup(self._environment.get_template(name).render(page=value)))  # noqa: S704
        return self._parts[key][1]


def unreadable_templates(theme: Theme, folders: tuple[Path, ...]) -> Iterator[Problem]:
    """Every unreadable template in these folders of a theme, before anything is printed."""
    templates = Templates(theme)
    for folder in folders:
        for path in sorted(folder.rglob("*.html")):
            try:
                templates.load(path.relative_to(folder.parent).as_posix())
            except TemplateFault as fault:
                yield fault.problem


def relative_address(document_path: str, target: str) -> str:
    """The address of a target from a document, e.g. ``../styles/a.css`` from ``site/candles/x.html``.

    The target is written from the root the document lives under (``site/`` or ``workshop/``) and may carry a query and
    a fragment. A folder stands for its ``index.html``, because pages are also opened from disk.
    """
    return _relative(document_path.rpartition("/")[0].partition("/")[2], target)


@cache
def _relative(inside: str, target: str) -> str:
    """Remembered, because the same few addresses are on every page of a folder."""
    address = urlsplit(target)
    path = f"{address.path}index.html" if address.path.endswith("/") or not address.path else address.path
    if (
        address.scheme
        or address.netloc
        or path.startswith("/")
        or posixpath.normpath(f"/{path}") != f"/{path}"
    ):
        raise ValueError(f"here() needs a path from the site's root, not {target!r}")
    folder, _slash, name = path.rpartition("/")
    relative = posixpath.normpath(posixpath.join(posixpath.relpath(f"/{folder}", f"/{inside}"), name))
    return address._replace(path=quote(relative, safe=_LETTERS_OF_ADDRESSES)).geturl()


def shared_digest(site_values: Mapping[str, Value], theme_digest: str, program_digest: str) -> str:
    """The digest of everything that all printed documents depend on; the program's covers the libraries."""
    return digest(written_out(site_values), theme_digest, program_digest)


def page_key(paper: DeferredDocument[Any], shared: str) -> str | None:
    """The key of a printed document: everything its bytes depend on; None where it must not be remembered."""
    return None if paper.depends_on is None else digest(paper.path, *paper.depends_on, shared)


def _loader(folders: tuple[Path, ...]) -> BaseLoader:
    """Finds ``pages/candle.html`` in the nearest theme, and ``netloft/pages/candle.html`` in the theme of that name."""
    by_name = {folder.name: FileSystemLoader(folder) for folder in folders}
    return ChoiceLoader([FileSystemLoader(folders), PrefixLoader(by_name)])


class _Environment(Environment):
    """Finds a mapping's key before its method, so that ``page.items`` is what the document says."""

    def getattr(self, obj: Any, attribute: str) -> Any:
        if isinstance(obj, Mapping) and attribute in obj:
            return obj[attribute]
        return super().getattr(obj, attribute)


class _Compiled(BytecodeCache):
    """Compiled templates by file and text, so that a preview recompiles only what was edited."""

    def __init__(self) -> None:
        self._code: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        bucket.code = self._code.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        if bucket.code is not None:
            self._code[bucket.key, bucket.checksum] = bucket.code


_COMPILED = _Compiled()
"""One for the run, since all environments here have the same settings."""


class _EscapingStaysOn(Extension):
    """Refuses the block that would print text unescaped."""

    def filter_stream(self, stream: TokenStream) -> Iterator[Token]:
        for token in stream:
            if token.type == "name" and token.value == "autoescape":
                raise TemplateSyntaxError("escaping is always on", token.lineno, stream.name, stream.filename)
            yield token


def _printable(value: object) -> object:
    """The value, if a paper may show it; 'None' or 'True' on a paper would be a mistake."""
    if isinstance(value, str | int | Undefined) and not isinstance(value, bool):
        return value
    raise TemplateRuntimeError(f"only text and whole numbers can be printed, not {value!r}")


def _as_markup(value: str) -> Markup:
    if not isinstance(value, str):
        raise TemplateRuntimeError(f"only text can be printed as markup, not {value!r}")
    # The text is a drawing or Markdown rendered by this program; a test lists every template that says so.
    return Markup(value)  # noqa: S704


def _qr_code(text: str) -> Markup:
    # Drawn only when a page is printed: a remembered page costs no code. The text in it is escaped.
    return Markup(qr_code(text))  # noqa: S704


def _asset_address(assets: Mapping[str, str], here: Callable[[str], str], name: str) -> str:
    if name not in assets:
        raise TemplateRuntimeError(f"the theme has no asset {name!r}; it has: {', '.join(assets) or 'none'}")
    return here(assets[name])


def _plain(value: object) -> object:
    if isinstance(value, Mapping):
        return dict(value)
    raise TypeError(f"a document's value cannot contain {value!r}")


written_out = json.JSONEncoder(sort_keys=True, allow_nan=False, ensure_ascii=False, default=_plain).encode
"""A document's value as one text, for its digest and for the typesetter."""


def _ended(text: str) -> str:
    """The text with uniform line ends, and one at its end."""
    return text.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n") + "\n"


def _in_words(fault: Exception) -> str:
    if isinstance(fault, TemplateNotFound):
        return f"there is no template {fault.name!r}"
    absent = _ABSENT.fullmatch(str(fault))
    return f"{absent[1]} does not exist here" if absent else str(fault)


def _place(fault: Exception, folders: tuple[Path, ...]) -> str | None:
    """The theme's file and line of the fault; None if no template had been reached."""
    spots = list(_spots(fault.__traceback__))
    if isinstance(fault, TemplateSyntaxError) and fault.filename:
        spots.append((fault.filename, fault.lineno))
    for file, line in reversed(spots):
        for folder in folders:
            if Path(file).is_relative_to(folder):
                return f"{folder.name}/{Path(file).relative_to(folder).as_posix()}:{line}"
    return None


def _spots(trace: TracebackType | None) -> Iterator[tuple[str, int]]:
    while trace is not None:
        yield trace.tb_frame.f_code.co_filename, trace.tb_lineno
        trace = trace.tb_next

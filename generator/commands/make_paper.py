"""One paper of a command, from what it needs over the shop to its files."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from generator.arguments import CommandHelp, CommandParser
from generator.document import Document, PlainText, Spreadsheet
from generator.documents.frame import frame
from generator.documents.papers.label_text import LabelKind
from generator.making.load_shop import load_sound_shop
from generator.making.loaded_shop import SoundShop
from generator.making.one_writer import alone_in_output
from generator.making.options import CommandOptions
from generator.making.pdf_papers import Pressed, pressed, problem_of_paper
from generator.making.progress import each_counted
from generator.making.report import Refusal, refuse, report_faults, say_written, unknown_codes
from generator.model.markets import Market
from generator.problems import Problem, is_error
from generator.writing.pdf import Refused, press
from generator.writing.templates import Templates
from generator.writing.whole_files import replace_file


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperRequest:
    """What a paper was asked for: so many of each stock code, and what else it needs."""

    counts: Mapping[str, int] = field(default_factory=dict)
    buyer: str = ""
    language: str | None = None
    stock: str = ""
    start: int = 1
    kind: LabelKind = "warning"
    market: Market | None = None
    lots: Sequence[str] = ()
    blank_lot: bool = False
    incomplete: bool = False
    outlines: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What a paper cannot be made without: the words that ask for it, and why it may not be had."""

    add_arguments: Callable[[CommandParser], None]
    refusals: Callable[[SoundShop, PaperRequest], Iterable[Refusal]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Papers:
    """What was made; each path is below the folder of its paper."""

    documents: tuple[Document | PlainText | Spreadsheet, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A paper that ``papers WORD`` makes.

    ``templates`` are those of the theme that print it, ``folder`` is where it is written below OUTPUT, ``nothing`` says
    that it was not. ``next_step`` is what follows, with ``{code}`` and ``{count}`` of the first stock code. What does
    not fit is the fault of what it ``blames``: each stock code by itself, or the house.
    """

    word: str
    help: CommandHelp
    needs: tuple[Need, ...]
    make: Callable[[SoundShop, PaperRequest], Papers | tuple[Problem, ...]]
    templates: tuple[str, ...]
    folder: str
    nothing: str
    next_step: str | None
    blames: Literal["stock code", "house"]


def run(options: CommandOptions, paper: Paper, request: PaperRequest) -> int:
    """Exit code 0 when the paper is written, 1 when entries stand in the way, 2 for what it needs and is not there."""
    shop = load_sound_shop(options)
    if not isinstance(shop, SoundShop):
        return report_faults(options, filter(is_error, shop), paper.nothing)
    refusals = (refusal for need in paper.needs for refusal in need.refusals(shop, request))
    if refused := [replace(refusal, then=paper.nothing) for refusal in refusals]:
        return refuse(*refused, as_json=options.as_data)
    papers = paper.make(shop, request)
    if not isinstance(papers, Papers):
        return report_faults(options, papers, paper.nothing)
    made = _rendered(shop, paper, papers)
    if made.refused:
        return report_faults(options, tuple(_unfitting(shop, paper, request, made)), paper.nothing)
    _write(options, made.files)
    code, count = next(iter(request.counts.items()), ("", 0))
    next_step = paper.next_step and paper.next_step.format(code=code, count=count)
    say_written(options, [options.output / path for path in made.files], papers.notes, next_step=next_step)
    return 0


def _rendered(shop: SoundShop, paper: Paper, papers: Papers) -> Pressed:
    """Every file by its path below OUTPUT, and what does not fit on its sheet."""
    files: dict[str, bytes] = {}
    to_press: list[Document] = []
    theme = shop.presentation.theme
    for each in papers.documents:
        document = replace(each, path=f"{paper.folder}/{each.path}")
        if isinstance(document, PlainText):
            files[document.path] = document.text.encode()
        elif isinstance(document, Spreadsheet):
            from generator.writing.spreadsheet import workbook  # noqa: PLC0415  # slow to load, and seldom needed

            files[document.path] = workbook(document)
        elif document.template.endswith(".typ"):
            to_press.append(document)
        else:
            files[document.path] = Templates(theme).render(document, frame(shop.house))
    made = pressed(to_press, theme)
    return Pressed(files={**files, **made.files}, refused=made.refused)


def _unfitting(shop: SoundShop, paper: Paper, request: PaperRequest, made: Pressed) -> Iterator[Problem]:
    """What is wrong with each stock code whose paper alone would be refused; one paper size is enough to find it."""
    if paper.blames == "house":
        yield problem_of_paper(made.refused[0], "the house", shop.loaded.places.of(("maker.yaml", "name")))
        return
    with press(shop.presentation.theme) as machine:
        codes = request.counts or shop.sizes
        for code in each_counted("papers tried", codes, len(codes)):
            alone = paper.make(shop, replace(request, counts={code: request.counts.get(code, 1)}))
            first = alone.documents[0] if isinstance(alone, Papers) else None
            result = machine.set(first) if isinstance(first, Document) else None
            if isinstance(result, Refused):
                yield problem_of_paper(result, code, shop.loaded.places_of_codes[code])


def _write(options: CommandOptions, files: Mapping[str, bytes]) -> None:
    """Each file below OUTPUT, in the place of the old one."""
    with alone_in_output(options.output, "papers"):
        for path, data in files.items():
            place = options.output / path
            place.parent.mkdir(parents=True, exist_ok=True)
            replace_file(place, data)


def not_in_the_shop(shop: SoundShop, request: PaperRequest) -> tuple[Refusal, ...]:
    """Stock codes that there are none of."""
    return unknown_codes(request.counts, shop.sizes, "")


def not_to_burn(shop: SoundShop, code: str) -> tuple[Refusal, ...]:
    """Why a stock code cannot be burnt, if it cannot."""
    if unknown := unknown_codes((code,), shop.sizes, ""):
        return unknown
    has_wick = bool(shop.sizes[code].recorded.build.wicks)
    return (
        ()
        if has_wick
        else (Refusal(what=f"{code} has no wick and cannot be burnt", fix="name a candle with a wick"),)
    )

"""The burn-safety sheets as papers to print: every issued revision, and today's sheet for the workshop."""

from collections.abc import Iterator
from functools import partial
from typing import Final

from generator.document import DeferredDocument, Document, Value
from generator.documents.house import House, LanguagePack, SizeOf, Words
from generator.documents.link_previews import absolute
from generator.documents.pages.safety import PAPER_SIZES, PaperSize, draft_said, revision_in_force, title_of
from generator.documents.safety_sheet import sheet
from generator.model.burn_safety import Sheet
from generator.model.ledger import Issued, paper_address

_TEMPLATE: Final = "papers/safety.typ"


def issued_papers(house: House, size: SizeOf) -> Iterator[DeferredDocument[Document]]:
    """Every issued revision on each paper size, from what it said when it was issued."""
    state = house.sheets[size.facts.stock_code]
    for issued in state.revisions:
        speech = house.speaking(issued.language).speech
        notice = () if issued is state.issued else _superseded(speech.words, issued, size)
        for paper in PAPER_SIZES:
            path = f"site/{paper_address(issued.value.stock_code, issued.revision, paper)}"
            yield DeferredDocument(
                path=path,
                depends_on=(issued.seal, paper, speech.language, *notice),
                made=partial(_issued_paper, speech, issued, path, paper, notice),
            )


def papers_today(house: House, size: SizeOf, language: str | None = None) -> Iterator[Document]:
    """The sheet for the workshop's printer: the revision in force, or today's as a draft if they differ.

    In another ``language`` it says the same, because a sheet holds no sentences, only which ones are chosen.
    """
    code = size.facts.stock_code
    state = house.sheets[code]
    own = state.value.language
    speaker = house.speaking(language or own)
    ending = f"-{language}" if language not in (None, own) else ""
    for paper in PAPER_SIZES:
        path = f"{code}-{paper}{ending}.pdf"
        if state.issued is not None and state.status == "issued":
            standing = _as_issued(speaker.words, state.issued)
            yield _paper(speaker.speech, state.issued.value, path, paper, standing)
        else:
            standing = {**draft_said(speaker, state), "dated": house.as_of.isoformat(), "notice": ()}
            yield _paper(speaker.speech, state.value, path, paper, standing)


def _issued_paper(
    speech: LanguagePack, issued: Issued, path: str, paper: PaperSize, notice: tuple[str, ...]
) -> Document:
    standing = {**_as_issued(speech.words, issued), "notice": notice}
    return _paper(speech, issued.value, path, paper, standing)


def _superseded(all_words: Words, issued: Issued, size: SizeOf) -> tuple[str, ...]:
    """That another revision is in force, and where; printed above what was sealed, which stays unchanged."""
    words, web = all_words["safety"], issued.value.maker.web
    notice = words["superseded"].format(revision=issued.revision)
    return (notice, f"{words['in_force']}: {absolute(web, size.facts.safety_path)}") if web else (notice,)


def _as_issued(words: Words, issued: Issued) -> dict[str, Value]:
    return {**revision_in_force(words, issued), "dated": issued.on.isoformat(), "notice": ()}


def _paper(
    speech: LanguagePack, said: Sheet, path: str, paper: PaperSize, standing: dict[str, Value]
) -> Document:
    permanent = standing["permanent"]
    value: dict[str, Value] = {
        **title_of(said, speech.words["safety"]),
        **sheet(said, speech),
        **standing,
        "paper": paper,
        "language": speech.language,
        "house": said.speaker,
        "codes": () if permanent is None else (permanent,),
    }
    return Document(path=path, template=_TEMPLATE, value=value)

"""The burn-safety pages: the one in force, each issued revision at its permanent address, and drafts.

All print the same sheet by the same function; they differ only in what they say of its state.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import Final, Literal

from generator.document import DeferredDocument, Document, Value
from generator.documents.house import HOME_PAGE, House, LanguagePack, SizeOf, Words
from generator.documents.link_previews import SharedLink, absolute, preview
from generator.documents.pages.recall_notices import notices
from generator.documents.printed import day
from generator.documents.safety_sheet import cautions, names_of, people, sheet
from generator.facts.facts import Facts
from generator.ledgers.sheet import warnings
from generator.ledgers.standing import SheetState
from generator.model.burn_safety import Sheet
from generator.model.kinds import KINDS
from generator.model.ledger import Issued, paper_address, sheet_address, short_fingerprint
from generator.model.sizes import Status

PaperSize = Literal["a4", "letter"]
PAPER_SIZES: Final[tuple[PaperSize, ...]] = ("a4", "letter")
"""The paper sizes of a sheet."""

_ON_PAPER: Final = {"a4": "paper_a4", "letter": "paper_letter"}
_SHEET: str = "pages/safety.html"
_ALONE: str = "pages/sheet.html"


def safety_page(house: House, size: SizeOf) -> Document:
    """The page of a stock code: the revision in force, today's sheet where drafts are shown, or that there is none."""
    state, facts = house.sheets[size.facts.stock_code], size.facts
    shown = _shown(house, state)
    if shown is None:
        return _not_issued(house, facts, state.value)
    said, speaker, standing = shown
    value = {
        **_head(house, facts, state.value),
        **sheet(said, speaker.speech),
        **standing,
        "language": said.language,
    }
    return Document(path=f"site/{facts.safety_path}", template=_SHEET, value=value)


def issued_pages(house: House, size: SizeOf) -> Iterator[DeferredDocument[Document]]:
    """Each issued revision at the address that never changes, printed from what it said when it was issued."""
    state = house.sheets[size.facts.stock_code]
    recalls = notices(house, size.facts.stock_code)
    for issued in state.revisions:
        is_past = issued is not state.issued
        speech = house.speaking(issued.language).speech
        yield DeferredDocument(
            path=f"site/{sheet_address(issued.value.stock_code, issued.revision)}",
            depends_on=(issued.seal, str(is_past), repr(recalls), speech.language),
            made=partial(_issued_page, speech, issued, recalls, is_past=is_past),
        )


def has_draft(house: House, size: SizeOf) -> bool:
    """Whether today's sheet differs from the one in force."""
    return house.sheets[size.facts.stock_code].status != "issued"


def draft_page(house: House, size: SizeOf) -> Document:
    """Today's sheet for the workshop."""
    state, code = house.sheets[size.facts.stock_code], size.facts.stock_code
    value = _alone(state.value, house.speech, draft_said(house, state))
    return Document(path=f"workshop/drafts/{code}.html", template=_ALONE, value=value)


def has_own_label_page(house: House, size: SizeOf) -> bool:
    """Whether a stock code has one: not a trial, and not before its sheet is issued."""
    if size.recorded.own_label is None or size.recorded.status is Status.TRIAL:
        return False
    return _shown(house, house.sheets[size.facts.stock_code]) is not None


def own_label_page(house: House, size: SizeOf) -> Document:
    """The page of an own-label candle, outside the site's frame."""
    shown = _shown(house, house.sheets[size.facts.stock_code])
    if shown is None:
        raise ValueError(f"{size.facts.stock_code} has no sheet to show")
    said, speaker, standing = shown
    value = _alone(said, speaker.speech, standing, recalls=notices(house, size.facts.stock_code))
    return Document(path=f"site/{size.facts.safety_path}", template=_ALONE, value=value)


def _shown(house: House, state: SheetState) -> tuple[Sheet, House, dict[str, Value]] | None:
    """The public sheet, the house in its language, and its state; None where there is none."""
    if house.drafts and state.status != "issued":
        return state.value, house, draft_said(house, state)
    if state.issued is None:
        return None
    speaker = house.speaking(state.issued.language)
    return state.issued.value, speaker, revision_in_force(speaker.words, state.issued)


def _issued_page(
    speech: LanguagePack,
    issued: Issued,
    recalls: tuple[Mapping[str, Value], ...],
    *,
    is_past: bool,
) -> Document:
    code = issued.value.stock_code
    superseded = speech.words["safety"]["superseded"].format(revision=issued.revision)
    value = _alone(
        issued.value,
        speech,
        revision_in_force(speech.words, issued),
        candle_path=f"safety/{code}.html",
        notice=superseded if is_past else None,
        recalls=recalls,
    )
    return Document(path=f"site/{sheet_address(code, issued.revision)}", template=_ALONE, value=value)


def title_of(said: Sheet, words: Mapping[str, str]) -> dict[str, str]:
    """The sheet's title, for machines too."""
    names = names_of(said)
    return {
        "title": words["title"].format(**names),
        "description": words[KINDS[said.kind].sentences.description].format(**names),
    }


def _alone(
    said: Sheet, speech: LanguagePack, standing: Mapping[str, Value], **around: Value
) -> dict[str, Value]:
    """A sheet on a page without the site's frame: where it leads and what is ``around`` it.

    An own label's page leads to no catalogue, because its candle is in none.
    """
    return {
        **title_of(said, speech.words["safety"]),
        **sheet(said, speech),
        **standing,
        "language": said.language,
        "house": said.speaker,
        "home": None if said.brand or said.responsible else HOME_PAGE,
        "candle_path": None,
        "notice": None,
        "recalls": (),
        **around,
    }


def _head(house: House, facts: Facts, today: Sheet) -> dict[str, Value]:
    """What the site says around the sheet."""
    titled = title_of(today, house.words["safety"])
    linked = SharedLink(
        path=facts.safety_path,
        title=titled["title"],
        description=titled["description"],
        picture=house.cards.get(facts.site_path),
        picture_text=house.words["candle"]["card"].format(scent=today.scent),
    )
    return {
        **titled,
        "path": facts.safety_path,
        "preview": preview(house.maker, linked),
        "candle_path": facts.site_path,
        "recalls": notices(house, facts.stock_code),
    }


def revision_in_force(words: Words, issued: Issued) -> dict[str, Value]:
    """Which revision it is, and its permanent address."""
    code, web = issued.value.stock_code, issued.value.maker.web
    address = sheet_address(code, issued.revision)
    return {
        "draft": None,
        "sheet": words["safety"]["issued"].format(
            revision=issued.revision,
            day=day(issued.on, words),
            fingerprint=short_fingerprint(issued.fingerprint),
        ),
        "permanent": absolute(web, address) if web else None,
        "permanent_path": address,
        "papers": tuple(
            {
                "words": words["safety"][_ON_PAPER[paper]],
                "path": paper_address(code, issued.revision, paper),
            }
            for paper in PAPER_SIZES
        ),
    }


def draft_said(house: House, state: SheetState) -> dict[str, Value]:
    """That the sheet is a draft, and why."""
    words = house.words["safety"]
    told = words["changed" if state.issued else "no_sheet"]
    return {
        "draft": words["draft"],
        "sheet": told.format(day=day(house.as_of, house.words), revision=state.next_revision - 1),
        "permanent": None,
        "permanent_path": None,
        "papers": (),
    }


def _not_issued(house: House, facts: Facts, said: Sheet) -> Document:
    """Only the usual cautions, without any of this candle's own numbers."""
    words = house.words["safety"]
    general = replace(said, warnings=warnings(facts.kind, figured=False))
    value = {
        **_head(house, facts, said),
        **names_of(said),
        **cautions(general, house.speech),
        **people(said, house.speech),
        "heading": words[KINDS[facts.kind].sentences.heading],
        "told": words["not_issued"],
        "meanwhile": words["not_issued_meanwhile"].format(email=house.maker.email),
    }
    return Document(path=f"site/{facts.safety_path}", template="pages/safety_none.html", value=value)

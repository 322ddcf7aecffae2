"""The example shop in German and French: no page says anything in English, and every paper still fits."""

import html
import re
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from generator.documents.frame import frame
from generator.documents.papers.printed_sheets import papers_today
from generator.documents.published import for_everybody
from generator.making.html_pages import printed
from generator.making.options import CommandOptions
from generator.making.pages import Pages
from generator.reading.languages import words_of
from tests.documents.sample_house import ROOT
from tests.documents.set_in_type import set_all
from tests.loaded import house_and_theme
from tests.site.paper_tools import page_sizes_mm

LANGUAGES = ("de", "fr")
OF_THE_MAKER = ("about.html", "care.html", "where-to-buy.html")
"""Pages that the maker writes, in whatever language."""

FOR_PROGRAMS = (".json", ".csv")
A_SENTENCE = 4
LONGEST = 4


class Spoken:
    """The example shop in another language, with today's sheets shown as drafts beside those issued in English."""

    def __init__(self, folder: Path, language: str) -> None:
        self.language = language
        content = folder / "content"
        shutil.copytree(ROOT / "content", content)
        maker = content / "maker.yaml"
        maker.write_text(f"{maker.read_text(encoding='utf-8')}language: {language}\n", encoding="utf-8")
        asked = CommandOptions(content=content, output=folder, as_of=None, as_data=False, drafts=True)
        sound = house_and_theme(asked)
        self.house = replace(sound.house, drafts=True)
        site = frame(for_everybody(self.house))
        self.pages = tuple(printed(Pages(self.house, sound.loaded), site, sound.presentation.theme))

    def texts(self) -> Iterator[tuple[str, str]]:
        """What each page of the site and the workshop says in its own language, whatever it is written for."""
        for page in self.pages:
            if not page.path.endswith((*OF_THE_MAKER, *FOR_PROGRAMS)):
                yield page.path, page.make().decode()


@pytest.fixture(scope="module", params=LANGUAGES)
def spoken(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, built_example: Path
) -> Spoken:
    """The shop in each language; its figures are those of the shop in English."""
    folder = tmp_path_factory.mktemp(request.param)
    shutil.copytree(built_example / ".store", folder / ".store")
    return Spoken(folder, request.param)


@cache
def sentences_only_in(language: str, other: str) -> Mapping[str, str]:
    """Runs of at least four words that one language says and another does not, each with where it stands."""
    found: dict[str, str] = {}
    sentences_of_other = (sentence for part in words_of(other).values() for sentence in part.values())
    elsewhere = " ".join(" ".join(sentences_of_other).split())
    for subject, sentences in words_of(language).items():
        for name, sentence in sentences.items():
            for run in re.split(r"\{[^}]*\}", sentence):
                plain = " ".join(run.split()).strip(" .,:;()")
                if len(plain.split()) >= A_SENTENCE and plain not in elsewhere:
                    found[plain] = f"{subject}.{name}"
    return found


def said(page: str, language: str) -> str:
    """The text of a page without what it marks as being in another language, in one line with plain spaces."""
    parts = rf'<(\w+)\b[^>]*\blang="(?!{language}")\w+"[^>]*>.*?</\1>'
    head, body, rest = page.partition("<body") if "<body" in page else ("", "", page)
    plain = html.unescape(head + body + re.sub(parts, " ", rest, flags=re.DOTALL))
    return " ".join(plain.split())


def left_of(language: str, spoken: str, pages: Mapping[str, str]) -> set[tuple[str, str]]:
    """Where pages that speak one language say a sentence of another."""
    sentences = sentences_only_in(language, spoken)
    texts = {path: said(text, spoken) for path, text in pages.items()}
    return {
        (path, name)
        for path, text in texts.items()
        for sentence, name in sentences.items()
        if sentence in text
    }


def is_issued(path: str) -> bool:
    """Whether it is a revision, which stays in the language it was issued in."""
    return re.search(r"safety/[^/]+-r\d+\.html$", path) is not None


def test_no_page_says_a_sentence_in_english(spoken: Spoken) -> None:
    pages = {path: text for path, text in spoken.texts() if not is_issued(path)}

    left = left_of("en", spoken.language, pages)

    assert pages
    assert left == set()


def test_what_was_issued_in_english_stays_english_throughout(spoken: Spoken) -> None:
    revisions = {path: text for path, text in spoken.texts() if is_issued(path)}

    mixed = left_of(spoken.language, "en", revisions)

    assert revisions
    assert mixed == set()


def test_every_page_says_which_language_it_is_in(spoken: Spoken) -> None:
    found = {
        path: re.search(r'<html lang="(\w+)"', text)
        for path, text in spoken.texts()
        if path.endswith(".html")
    }

    wrong = {
        path
        for path, lang in found.items()
        if lang is None or lang[1] != ("en" if is_issued(path) else spoken.language)
    }

    assert found
    assert wrong == set()


@pytest.mark.parametrize(
    ("path", "texts"),
    [
        ("site/candles/slate-and-samphire.html", {"de": "24,00 £", "fr": "24,00 £"}),
        ("site/index.html", {"de": "1. November 2026", "fr": "1er novembre 2026"}),
        ("site/index.html", {"de": "ca. 40 Stunden", "fr": "environ 40 heures"}),
        ("site/candles/slate-and-samphire.html", {"de": "8,4 oz (240 g)", "fr": "8,4 oz (240 g)"}),
    ],
    ids=["price", "date", "hours", "quantity"],
)
def test_numbers_and_dates_are_written_as_the_language_does(
    spoken: Spoken, path: str, texts: Mapping[str, str]
) -> None:
    page = said(dict(spoken.texts())[path], spoken.language)

    assert texts[spoken.language] in page


def test_the_longest_sheets_fit_on_one_page_of_either_paper(spoken: Spoken) -> None:
    sizes = [size for scent in spoken.house.scents for size in scent.sizes]
    papers = [paper for size in sizes for paper in papers_today(spoken.house, size)]
    longest = sorted(papers, key=lambda paper: len(repr(paper.value)))[-LONGEST:]
    melts = [paper for paper in papers if not paper.value["numbers"]][:2]

    for data in set_all([*longest, *melts]):
        assert isinstance(data, bytes)
        assert len(page_sizes_mm(data)) == 1

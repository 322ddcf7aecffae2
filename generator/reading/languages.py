"""The words of each language: one file for each, every file with the same sentences, which take the same names."""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from string import Formatter
from typing import Final

from pydantic import TypeAdapter

from generator.problems import Path as KeyPath
from generator.problems import Place, Places, Problem
from generator.reading.gathering import Gathering
from generator.reading.located import Located, located
from generator.reading.nearest import nearest

Sentences = dict[str, dict[str, str]]

FIRST: Final = "en"
"""The language that all others are held against."""

OF_LABELS: Final = ("numbers", "markets", "pictograms", "labels")
"""The subjects that a label is made of; a language of labels has no others."""

_FOLDER: Final = Path(str(files("generator"))) / "data" / "words"
_SHOWN: Final = "generator/data/words"
_LABELS: Final = "labels"
_WORDS: Final = TypeAdapter(Sentences)


def words_of(language: str) -> Sentences:
    """The sentences of one language by subject and name; a language that is not shipped is a `LookupError`."""
    if language not in label_languages():
        raise LookupError(language)
    return _WORDS.validate_python(_read(_source(language), _file(language)).data)


def languages() -> tuple[str, ...]:
    """The languages that the site and all papers can speak."""
    return tuple(sorted(path.stem for path in _FOLDER.glob("*.yaml")))


def label_languages() -> tuple[str, ...]:
    """The languages that labels can speak: those of the site, and some in which labels alone are written."""
    return tuple(sorted((*languages(), *(path.stem for path in (_FOLDER / _LABELS).glob("*.yaml")))))


def words_problems(language: str) -> tuple[Problem, ...]:
    """What is wrong with a language's file."""
    return file_problems(_source(language), _file(language))


def file_problems(source: bytes, file: str) -> tuple[Problem, ...]:
    """What a file of words lacks, holds too much, or fills in otherwise than the first language's."""
    read = _read(source, file)
    if read.problems:
        return read.problems
    places = Places(shown_as=_SHOWN, files={file: read.spots})
    first = words_of(FIRST)
    if file.startswith(_LABELS):
        first = {subject: first[subject] for subject in OF_LABELS}
    return tuple(_differences(file, _WORDS.validate_python(read.data), first, places))


def note_unspoken(gathering: Gathering, language: str, at: KeyPath, why: str) -> None:
    """Note a language of the site that has no words."""
    if language not in languages():
        _note_unspoken(gathering, language, at, why, languages())


def note_unspoken_label(gathering: Gathering, language: str, at: KeyPath) -> None:
    """Note a language of labels that has no words."""
    if language not in label_languages():
        _note_unspoken(gathering, language, at, "its labels could not be printed", label_languages())


def _note_unspoken(
    gathering: Gathering, language: str, at: KeyPath, why: str, known: tuple[str, ...]
) -> None:
    gathering.note(
        gathering.places.of(at),
        what=f"there are no words in the language '{language}'",
        why=why,
        write=f"language: {', or '.join(known)}" if at[-1] == "language" else ", or ".join(known),
    )


@cache
def _read(source: bytes, file: str) -> Located:
    """Remembered, because a preview asks for the same words after each edit of an entry."""
    return located(source, f"{_SHOWN}/{file}")


def _source(language: str) -> bytes:
    return (_FOLDER / _file(language)).read_bytes()


def _file(language: str) -> str:
    return f"{language}.yaml" if language in languages() else f"{_LABELS}/{language}.yaml"


def _differences(file: str, words: Sentences, first: Sentences, places: Places) -> Iterator[Problem]:
    for subject in sorted({*words, *first}):
        here, there = words.get(subject, {}), first.get(subject, {})
        at = (file, subject)
        for name in sorted(there.keys() - here.keys()):
            yield _missing(f"{subject}.{name}", there[name], places.key(at))
        for name in sorted(here.keys() - there.keys()):
            yield _unknown(f"{subject}.{name}", there, places.key((*at, name)))
        for name in sorted(here.keys() & there.keys()):
            if _filled(here[name]) != _filled(there[name]):
                yield _filled_otherwise(
                    f"{subject}.{name}", (here[name], there[name]), places.of((*at, name))
                )


def _missing(name: str, sentence: str, place: Place) -> Problem:
    return Problem(
        place=place,
        what=f"the sentence {name} is missing",
        why="papers in this language would have a gap",
        write=f'{name.partition(".")[2]}: what {FIRST}.yaml says, which is "{sentence}"',
    )


def _unknown(name: str, known: Mapping[str, str], place: Place) -> Problem:
    subject, _, own = name.partition(".")
    near = nearest(own, tuple(known))
    return Problem(
        place=place,
        what=f"{name} is no sentence of {FIRST}.yaml",
        why="no paper would ever print it",
        write=f"{near}, or the same in every language" if near else f"{subject}.{own} in every language",
    )


def _filled_otherwise(name: str, sentences: tuple[str, str], place: Place) -> Problem:
    here, there = (_braces(_filled(sentence)) for sentence in sentences)
    return Problem(
        place=place,
        what=f"{name} holds {here}; in {FIRST}.yaml it holds {there}",
        why="what belongs there would be missing, or the program would not know what to put in",
        write=there,
    )


def _filled(sentence: str) -> frozenset[str]:
    """The names in braces that a sentence is filled in by; one that cannot be read is its own name."""
    try:
        return frozenset(name for _, name, _, _ in Formatter().parse(sentence) if name is not None)
    except ValueError:
        return frozenset({sentence})


def _braces(names: frozenset[str]) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(names)) or "nothing in braces"

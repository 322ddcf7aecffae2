"""The languages: a folder for each, with its sentences and the words that are searched for in texts.

A language of the site has ``words``, ``law``, ``claims`` and ``materials``; one for labels only has
``labels`` and ``law``. Folders are found automatically, and their tables compared with those of the first language.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from string import Formatter
from typing import Final, TypeVar

from pydantic import TypeAdapter

from generator.model.language_tables import ClaimWords, MaterialWords, Wording
from generator.model.plurals import OTHER, is_plural_rule
from generator.problems import START, Place, Places, Problem
from generator.problems import Path as KeyPath
from generator.reading.gathering import Gathering
from generator.reading.located import Located, YamlData, located
from generator.reading.meant import nearest
from generator.reading.shipped import PACKAGE

Sentences = dict[str, dict[str, str]]
_Table = TypeVar("_Table")

FIRST: Final = "en"
"""The language that all others are compared with."""

OF_LABELS: Final = ("plurals", "numbers", "counted_inches", "markets", "pictograms", "labels")
"""The subjects that a label is made of; a language for labels only has no others."""

COUNTED: Final = "counted_"
"""The prefix of subjects whose sentences differ by a count: one sentence for each category of the language."""

LANGUAGES = PACKAGE / "data" / "languages"
_SHOWN: Final = "generator/data/languages"
_OF_SITE: Final = ("words", "law", "claims", "materials")
_OF_LABELS: Final = ("labels", "law")
_EARLIER: Final = "issued"
_WORDS: Final = TypeAdapter(Sentences)
_EDITIONS: Final = TypeAdapter(dict[int, Sentences])
_WORDING: Final = TypeAdapter(Wording)
_CLAIMS: Final = TypeAdapter(ClaimWords)
_MATERIALS: Final = TypeAdapter(MaterialWords)
_GAP: Final = "papers in this language would have a gap"


def words_of(language: str) -> Sentences:
    """The sentences of one language by subject and name; a language that is not shipped is a `LookupError`."""
    if language not in label_languages():
        raise LookupError(language)
    return _table(_WORDS, f"{language}/{_tables_of(language)[0]}.yaml")


def earlier_words_of(language: str) -> Mapping[int, Sentences]:
    """The sentences of one language in each earlier edition, by its number; see ``issued.yaml``."""
    words = words_of(language)
    editions = _table(_EDITIONS, f"{language}/{_EARLIER}.yaml") if language in _having(_EARLIER) else {}
    return {
        number: {subject: sentences | then.get(subject, {}) for subject, sentences in words.items()}
        for number, then in editions.items()
    }


def wording(language: str) -> Wording:
    """The law's sentences in one language."""
    return _table(_WORDING, f"{language}/law.yaml")


def claim_words() -> tuple[ClaimWords, ...]:
    """Words of praise, in each language that has a table of them."""
    return tuple(_table(_CLAIMS, f"{language}/claims.yaml") for language in _having("claims"))


def material_words() -> tuple[MaterialWords, ...]:
    """Names of materials, in each language that has a table of them."""
    return tuple(_table(_MATERIALS, f"{language}/materials.yaml") for language in _having("materials"))


def languages() -> tuple[str, ...]:
    """The languages of the site and all papers."""
    return _having("words")


def label_languages() -> tuple[str, ...]:
    """The languages of labels: those of the site, and some for labels only."""
    return tuple(sorted((*languages(), *_having("labels"))))


def language_problems(language: str) -> tuple[Problem, ...]:
    """What is wrong with a language's folder."""
    files = [f"{language}/{table}.yaml" for table in _tables_of(language)]
    missing = tuple(_no_file(file) for file in files if not (LANGUAGES / file).is_file())
    return missing or tuple(problem for file in files for problem in file_problems(_source(file), file))


def file_problems(source: bytes, file: str) -> tuple[Problem, ...]:
    """What a table such as ``de/law.yaml`` lacks, has too much of, or fills in differently from the first one's."""
    read = _read(source, file)
    if read.problems:
        return read.problems
    places = Places(shown_as=_SHOWN, files={file: read.spots})
    here = _subjects(read.data)
    return (*_rule_problems(file, here, places), *_differences(file, here, _expected(file, here), places))


def note_unspoken(gathering: Gathering, at: KeyPath, language: str, known: tuple[str, ...], why: str) -> None:
    """Note an unknown language."""
    if language not in known:
        gathering.note(
            gathering.places.of(at),
            what=f"there are no words for the language '{language}'",
            why=why,
            fix=f"language: {', or '.join(known)}" if at[-1] == "language" else ", or ".join(known),
        )


@cache
def _read(source: bytes, file: str) -> Located:
    """Remembered, because a preview asks for the same words after each edit of an entry."""
    return located(source, f"{_SHOWN}/{file}")


def _having(table: str) -> tuple[str, ...]:
    return tuple(sorted(path.parent.name for path in LANGUAGES.glob(f"*/{table}.yaml")))


def _source(file: str) -> bytes:
    return (LANGUAGES / file).read_bytes()


def _table(shape: TypeAdapter[_Table], file: str) -> _Table:
    table: _Table = _table_of(_source(file), shape, file)
    return table


@cache
def _table_of(source: bytes, shape: TypeAdapter[_Table], file: str) -> _Table:
    """One for all who ask, so that what is said in it can be remembered."""
    return shape.validate_python(_read(source, file).data)


def _tables_of(language: str) -> tuple[str, ...]:
    return _OF_SITE if language in languages() else _OF_LABELS


def _subjects(data: YamlData) -> dict[str, dict[str, YamlData]]:
    """A table by subject and name; what is not a mapping has no names."""
    subjects = data if isinstance(data, dict) else {}
    return {subject: names if isinstance(names, dict) else {} for subject, names in subjects.items()}


def _expected(file: str, here: Mapping[str, Mapping[str, YamlData]]) -> dict[str, dict[str, YamlData]]:
    """The content of the first language's table, with the count categories of this one."""
    table = file.rpartition("/")[2]
    first = _subjects(_read(_source(_first(table)), _first(table)).data)
    if table == "labels.yaml":
        first = {subject: first[subject] for subject in OF_LABELS}
    if "plurals" not in first or "plurals" not in here:
        return first
    categories = (*here["plurals"], OTHER)
    counted = {
        subject: {category: sentences.get(category, sentences[OTHER]) for category in categories}
        for subject, sentences in first.items()
        if subject.startswith(COUNTED)
    }
    return first | counted | {"plurals": dict(here["plurals"])}


def _first(table: str) -> str:
    return f"{FIRST}/{'words.yaml' if table == 'labels.yaml' else table}"


def _rule_problems(
    file: str, here: Mapping[str, Mapping[str, YamlData]], places: Places
) -> Iterator[Problem]:
    for category, rule in here.get("plurals", {}).items():
        if not (isinstance(rule, str) and is_plural_rule(rule)):
            yield Problem(
                place=places.of((file, "plurals", category)),
                what=f"'{rule}' is not a plural rule",
                why="a count would be printed with the wrong form of its noun",
                fix="write the language's rule as in Unicode CLDR, such as: i = 1 and v = 0",
            )


def _differences(
    file: str,
    here: Mapping[str, Mapping[str, YamlData]],
    first: Mapping[str, Mapping[str, YamlData]],
    places: Places,
) -> Iterator[Problem]:
    shown = _first(file.rpartition("/")[2])
    for subject in sorted({*here, *first}):
        own, expected = here.get(subject, {}), first.get(subject, {})
        for name in sorted(expected.keys() - own.keys()):
            sentence = expected[name]
            which = f', which is "{sentence}"' if isinstance(sentence, str) else ""
            yield Problem(
                place=places.key((file, subject)),
                what=f"{subject}.{name} is missing",
                why=_GAP,
                fix=f"{name}: ... (what {shown} says{which})",
            )
        for name in sorted(own.keys() - expected.keys()):
            near = nearest(name, tuple(expected))
            yield Problem(
                place=places.key((file, subject, name)),
                what=f"{subject}.{name} is not in {shown}",
                why="nothing would ever use it",
                fix=f"rename it to {near}, or add it to every language"
                if near
                else f"add {subject}.{name} to every language, or delete this line",
            )
        for name in sorted(own.keys() & expected.keys()):
            held, wanted = _filled(own[name]), _filled(expected[name])
            if held != wanted:
                yield Problem(
                    place=places.of((file, subject, name)),
                    what=f"{subject}.{name} contains {held}; in {shown} it contains {wanted}",
                    why="a value would be missing, or the program would not know what to put in",
                    fix=wanted,
                )


def _no_file(file: str) -> Problem:
    return Problem(
        place=Place(f"{_SHOWN}/{file}", START.line, START.column),
        what="the file is missing",
        why=_GAP,
        fix=f"translate {_first(file.rpartition('/')[2])} into this language, under this name",
    )


def _filled(sentence: YamlData) -> str:
    """The names in braces of a sentence; an unreadable sentence counts as its own name."""
    try:
        parts = Formatter().parse(sentence) if isinstance(sentence, str) else ()
        names = {name for _, name, _, _ in parts if name is not None}
    except ValueError:
        names = {str(sentence)}
    return ", ".join(f"{{{name}}}" for name in sorted(names)) or "nothing in braces"

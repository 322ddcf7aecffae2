"""Every misfit in the maker's words: what is there, what it would spoil, what to write instead."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import is_dataclass, replace
from functools import cache
from typing import Any, Final, get_args, get_origin

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from generator.model.accepted import ACCEPTED
from generator.model.entry import BLANK
from generator.model.suggestions import as_choice
from generator.problems import Problem
from generator.reading.faults import Misfit, Thing, Written, misfit_of
from generator.reading.fields import bare, choices, keys_of, options, required_keys, shapes
from generator.reading.meant import keys_meant, nearest, word_meant

_COMMA: Final = re.compile(r"([0-9]+),([0-9]+)([^,]*)", re.DOTALL)
_ARTICLE: Final = re.compile(r"^an? ")
_NOT_OF_AN_ID: Final = re.compile(r"[^a-z0-9]+")
_LONGEST: Final = 60
_MOST_LISTED: Final = 5
_LONGEST_SAID: Final = 300
_MOST_TOLD: Final = 50
"""How many faults of one entry are reported."""

_UNKNOWN_KEY: Final = "unexpected_keyword_argument"


def worded(errors: Sequence[ErrorDetails], written: Written[Any]) -> tuple[Problem, ...]:
    """Each fault once, placed and worded."""
    misfits = [misfit_of(error, written) for error in errors[:_MOST_TOLD]]
    more = max(0, len(errors) - _MOST_TOLD)
    meant = {(*each.path[:-1], _near_key(each)) for each in misfits if each.type == _UNKNOWN_KEY}
    problems = [
        _SENTENCES[each.type](each) if each.type in _SENTENCES else _expected(each, "something else")
        for each in misfits
        if not _said_by_another(each) and (*each.path, *each.beyond) not in meant
    ]
    return tuple(dict.fromkeys((*problems, *([_untold(more, written)] if more else []))))


def _untold(more: int, written: Written[Any]) -> Problem:
    return Problem(
        place=written.places.of(written.at),
        what=f"{_MOST_TOLD} errors of {written.noun} are listed; {more} more are not",
        why="so many errors usually share one mistake",
        fix="correct what is listed first, and the rest in the same way",
    )


def _said_by_another(misfit: Misfit) -> bool:
    """Whether a value failed both types it may have; the first one's sentence also names the second's words."""
    return misfit.type == "literal_error" and bool(options(misfit.accepts))


def _quantity(misfit: Misfit) -> Problem:
    """The fault from the reader of a quantity, with the key before it."""
    what, why, fix = (
        _shortened(" ".join(misfit.says[part].split()), _LONGEST_SAID) for part in ("what", "why", "fix")
    )
    if misfit.is_key:
        slug = fix or _NOT_OF_AN_ID.sub("-", str(misfit.path[-1]).lower()).strip("-") or "its-id"
        own = f"{slug}: {_on_one_line(misfit.value)}"
        return Problem(place=misfit.key_place, what=f"a key of {misfit.mapping} {what}", why=why, fix=own)
    if not isinstance(misfit.value, str):
        return _text_expected(misfit)
    comma = _COMMA.fullmatch(misfit.value.strip())
    if comma is not None:
        return _with_comma(misfit, comma)
    own = misfit.line(fix) if fix else _form(misfit)
    return _at_value(misfit, f"{misfit.name} {what}", why, own)


def _with_comma(misfit: Misfit, written: re.Match[str]) -> Problem:
    whole, part, unit = written.groups()
    either = [f"{whole}{part}{unit}"] if len(part) == len("000") else []
    decimal = [] if unit.startswith(".") else [f"{whole}.{part}{unit}"]
    return _at_value(
        misfit,
        f"{misfit.name} '{written[0]}' is written with a comma",
        "a comma means thousands to some readers and decimals to others",
        misfit.line(", or ".join([*either, *decimal]) or "the number with one point"),
    )


def _missing(misfit: Misfit) -> Problem:
    key = misfit.beyond[0]
    if isinstance(key, int):
        return _wrong_length(misfit, misfit.within)
    this = _ARTICLE.sub("this ", misfit.mapping) + _name_of(misfit)
    if misfit.in_table:
        return Problem(
            place=misfit.written.places.of((*misfit.path, *misfit.beyond)),
            what=f"'{key}' is empty in {this}",
            why=misfit.about.why,
            fix="fill in this cell" + ("" if misfit.form == BLANK else f", in the form of {misfit.form}"),
        )
    return Problem(
        place=misfit.key_place,
        what=f"'{key}' is missing from {this}",
        why=misfit.about.why,
        fix=f"{key}: {misfit.form}",
    )


def _name_of(misfit: Misfit) -> str:
    """The name of one of several, by its first required key: ``, Linalool``."""
    first = next(iter(required_keys(misfit.owner)), "")
    is_name = bare(keys_of(misfit.owner).get(first)) is str
    called = misfit.value.get(first) if is_name and isinstance(misfit.value, dict) else None
    is_one_of_several = len(misfit.path) > len(misfit.written.at) and isinstance(misfit.path[-1], int)
    return (
        f", {_on_one_line(called)}"
        if is_one_of_several and isinstance(called, str) and called.strip()
        else ""
    )


def _missing_shape(misfit: Misfit) -> Problem:
    return _missing(replace(misfit, beyond=("shape",), form=_listed(shapes(misfit.accepts))))


def _unknown_key(misfit: Misfit) -> Problem:
    if misfit.path[-1] == ACCEPTED:
        return _no_such_key(misfit, f"{ACCEPTED}: at the left edge of the entry, or in one of its sizes")
    near = _near_key(misfit)
    if near is not None:
        return _no_such_key(misfit, f"{near}: {_on_one_line(misfit.value)}")
    return _no_such_key(misfit, _listed(_keys_not_written(misfit) or list(keys_of(misfit.owner))))


def _choice(misfit: Misfit) -> Problem:
    words = choices(misfit.accepts)
    return _no_such_key(misfit, _listed(words)) if misfit.is_key else _not_one_of(misfit, words)


def _not_one_of(misfit: Misfit, words: Sequence[str]) -> Problem:
    meant = word_meant(str(misfit.value), words)
    near = meant or nearest(str(misfit.value), words)
    return _at_value(
        misfit,
        f"{misfit.name} {_state(misfit.value)}, which is not one of the choices",
        misfit.about.why,
        misfit.line(near or _listed(words)),
    )


def _wrong_form(misfit: Misfit) -> Problem:
    """The value has a form that its key does not allow, or an unknown shape."""
    words = shapes(misfit.accepts)
    if words:
        shape = replace(misfit, path=(*misfit.path, "shape"), value=misfit.value["shape"])
        return _not_one_of(shape, words)
    forms = [_form_of(option) for option in options(misfit.accepts)]
    return _expected(misfit, " or ".join(forms))


def _keys_expected(misfit: Misfit) -> Problem:
    meant = keys_meant(misfit.accepts, misfit.value)
    return _expected(misfit, "keys with values", misfit.line(meant) if meant else None)


def _list_expected(misfit: Misfit) -> Problem:
    """One text may have been meant as a list of one."""
    text = misfit.value.strip() if isinstance(misfit.value, str) else ""
    fits = text and not set(text) & set("[]{}:#\"'\n") and not _COMMA.search(text)
    return _expected(misfit, "a list", misfit.line(f"[{text}]") if fits else None)


def _text_expected(misfit: Misfit) -> Problem:
    """A list of one may have been meant as its one text."""
    only = misfit.value[0] if isinstance(misfit.value, list) and len(misfit.value) == 1 else None
    return _expected(misfit, "one text", misfit.line(only) if isinstance(only, str) else None)


def _wrong_length(misfit: Misfit, wanted: Any) -> Problem:
    return _at_value(
        misfit,
        f"{misfit.name} has {len(misfit.value)} values, not {len(get_args(wanted))}",
        misfit.about.why,
        _form(misfit),
    )


def _no_such_key(misfit: Misfit, fix: str) -> Problem:
    return Problem(
        place=misfit.key_place,
        what=f"'{misfit.path[-1]}' is not a key of {misfit.mapping}",
        why="its contents would be missing from every paper",
        fix=fix,
    )


def _expected(misfit: Misfit, expected: str, fix: str | None = None) -> Problem:
    what = f"{misfit.name} {_state(misfit.value)}; expected {expected}"
    return _at_value(misfit, what, misfit.about.why, fix or _form(misfit))


def _at_value(misfit: Misfit, what: str, why: str, fix: str) -> Problem:
    return Problem(place=misfit.written.places.of(misfit.path), what=what, why=why, fix=fix)


def _near_key(misfit: Misfit) -> str | None:
    key = str(misfit.path[-1])
    return None if key == ACCEPTED else nearest(key, [*_keys_not_written(misfit), ACCEPTED])


def _keys_not_written(misfit: Misfit) -> list[str]:
    return [key for key in keys_of(misfit.owner) if key not in misfit.siblings and key != "id"]


def _form(misfit: Misfit) -> str:
    """How the value is written; an item of a list is shown with the list around it."""
    last_key = [step for step in misfit.path if isinstance(step, str)][-1]
    return misfit.form if misfit.in_table else f"{last_key}: {misfit.form}"


def _form_of(option: Any) -> str:
    if is_dataclass(option):
        return "keys with values"
    return "a list" if get_origin(option) is tuple else "one text"


def _state(value: Any) -> str:
    if isinstance(value, str):
        return f"is '{_on_one_line(value)}'" if value.strip() else "is empty"
    return "is a list" if isinstance(value, list) else "has keys of its own"


def _on_one_line(value: Any) -> str:
    text = " ".join(value.split()) if isinstance(value, str) else "..."
    return _shortened(text, _LONGEST)


def _shortened(text: str, longest: int) -> str:
    return text if len(text) <= longest else f"{text[:longest]}..."


def _listed(words: Sequence[str]) -> str:
    if len(words) > _MOST_LISTED:
        return f"{', '.join(words[:_MOST_LISTED])} ..."
    return as_choice(words)


_SENTENCES: Final[Mapping[str, Callable[[Misfit], Problem]]] = {
    "entry": _quantity,
    "missing": _missing,
    _UNKNOWN_KEY: _unknown_key,
    "enum": _choice,
    "literal_error": _choice,
    "dataclass_type": _keys_expected,
    "dict_type": _keys_expected,
    "model_attributes_type": _keys_expected,
    "tuple_type": _list_expected,
    "too_long": lambda misfit: _wrong_length(misfit, misfit.accepts),
    "union_tag_invalid": _wrong_form,
    "union_tag_not_found": _missing_shape,
}


def validated(written: Written[Thing]) -> Thing | tuple[Problem, ...]:
    """The model's value, or all the faults of what is written."""
    kind: Any = written.kind
    try:
        value: Thing = _adapter(kind).validate_python(written.data)
    except ValidationError as error:
        return worded(error.errors(include_url=False), written)
    return value


def is_valid(kind: Any, data: Any) -> bool:
    """Whether something is valid as written."""
    try:
        _adapter(kind).validate_python(data)
    except ValidationError:
        return False
    return True


@cache
def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(kind)

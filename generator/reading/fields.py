"""From pydantic's location of a fault to its place in the entry, and what is expected there."""

import dataclasses
from collections.abc import Iterable, Mapping
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Final, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import Tag
from pydantic.fields import FieldInfo

from generator.model.entry import BLANK, About, Form, Key
from generator.model.suggestions import as_choice
from generator.problems import Path, Step

_KEY_ITSELF: Final = "[key]"
_OTHERWISE: Final = About("papers would show something other than you meant")


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """A fault's path into the entry.

    ``accepts`` is the type expected there, ``within`` that of its container, ``owner`` the innermost
    part of the entry with its own keys; ``is_key`` when the key itself is wrong and not its value. ``field`` is
    the declaration of the owner's key on the way, and ``keyed`` that of the last key, which may also be a mapping's.
    """

    path: Path
    accepts: Any
    within: Any
    owner: Any
    field: Any
    keyed: Any
    is_key: bool


def found(kind: Any, steps: Iterable[Step]) -> _Found:
    """Follow pydantic's steps through the types, leaving out those that only name a choice of type."""
    accepts: Any = kind
    within: Any = kind
    owner: Any = kind
    field: Any = kind
    keyed: Any = kind
    is_key = False
    path: list[Step] = []
    for step in steps:
        if step == _KEY_ITSELF and get_origin(within) is dict:
            accepts, is_key = bare(get_args(within)[0]), True
        elif not _holds_values(accepts):
            accepts = _chosen(accepts, step)
        else:
            within = accepts
            owner = within if dataclasses.is_dataclass(within) else owner
            held = _held(within, step)
            field = held if dataclasses.is_dataclass(within) else field
            keyed = keyed if get_origin(within) is tuple else held
            accepts = bare(held)
            path.append(step)
    return _Found(
        path=tuple(path),
        accepts=accepts,
        within=within,
        owner=owner,
        field=field,
        keyed=keyed,
        is_key=is_key,
    )


def _holds_values(accepts: Any) -> bool:
    return dataclasses.is_dataclass(accepts) or get_origin(accepts) in (dict, tuple)


def _held(within: Any, step: Step) -> Any:
    if isinstance(within, type):
        return keys_of(within).get(str(step), Any)
    return get_args(within)[1 if get_origin(within) is dict else 0]


def choices(accepts: Any) -> tuple[str, ...]:
    """The words to choose from, if any."""
    if isinstance(accepts, type) and issubclass(accepts, Enum):
        return tuple(str(each.value) for each in accepts)
    if get_origin(accepts) is Literal:
        return tuple(str(each) for each in get_args(accepts))
    return tuple(word for option in options(accepts) for word in choices(option))


def choices_of_keys(accepts: Any) -> tuple[str, ...]:
    """The keys a mapping may have, if they are among a few words."""
    if has_keys(accepts):
        return tuple(keys_of(accepts))
    return choices(bare(get_args(accepts)[0])) if get_origin(accepts) is dict else ()


def shapes(accepts: Any) -> tuple[str, ...]:
    """The words to choose from for ``shape:``."""
    return tuple(word for option in options(accepts) for word in choices(bare(keys_of(option).get("shape"))))


def options(accepts: Any) -> tuple[Any, ...]:
    """The types of a union, each without its tag; none of any other type."""
    return tuple(bare(each) for each in get_args(accepts)) if _is_union(accepts) else ()


@cache
def keys_of(kind: Any) -> Mapping[str, Any]:
    """The keys of an entry's part and the type each accepts."""
    if not dataclasses.is_dataclass(kind):
        return {}
    hints = get_type_hints(kind, include_extras=True)
    rename = getattr(kind, "__pydantic_config__", {}).get("alias_generator", str)
    return {
        _alias(hints[each.name]) or rename(each.name): hints[each.name] for each in dataclasses.fields(kind)
    }


def has_keys(accepts: Any) -> bool:
    """Whether it is a part of an entry with its own keys, and not a value written as one text."""
    return dataclasses.is_dataclass(accepts) and hasattr(accepts, "__pydantic_config__")


@cache
def required_keys(kind: Any) -> tuple[str, ...]:
    """The keys that may not be left out."""
    pairs = zip(keys_of(kind), dataclasses.fields(kind), strict=True)
    return tuple(key for key, each in pairs if each.default is each.default_factory is dataclasses.MISSING)


def about(field: Any) -> About:
    """What is declared of a field beside its type; of a whole entry, that a paper would be wrong."""
    return next((each for each in _beside(field) if isinstance(each, About)), _OTHERWISE)


def key_of(field: Any) -> Key | None:
    """What the handbook says of a key; None of an id, which is written nowhere."""
    return next((each for each in _beside(field) if isinstance(each, Key)), None)


def form(annotation: Any) -> str:
    """How a value is written, with a blank for each figure; it is never valid as it is."""
    said = next((each for each in _beside(annotation) if isinstance(each, Form)), None)
    declared = about(annotation).form or (said.text if said else "")
    if declared:
        return declared
    plain = get_args(annotation)[0] if get_origin(annotation) is Annotated else annotation
    if _is_union(plain):
        some = (each for each in get_args(plain) if each is not NoneType)
        return ", or ".join(dict.fromkeys(form(each) for each in some))
    return _form_of_keys(plain) if has_keys(plain) else _form_of_values(plain)


def _form_of_keys(part: Any) -> str:
    wanted = required_keys(part) or tuple(keys_of(part))
    return f"{{{', '.join(f'{key}: {form(keys_of(part)[key])}' for key in wanted if key != 'id')}}}"


def _form_of_values(kind: Any) -> str:
    """The form of a mapping, a list or one of a few words."""
    inner = get_args(kind)
    if get_origin(kind) is dict:
        return f"{{{form(inner[0])}: {form(inner[1])}}}"
    if get_origin(kind) is tuple:
        return f"[{', '.join(form(each) for each in inner if each is not Ellipsis)}]"
    words = choices(kind)
    return as_choice(words) or BLANK


def bare(annotation: Any) -> Any:
    """A type without its annotations, and without "or None"."""
    while get_origin(annotation) is Annotated:
        annotation = get_args(annotation)[0]
    if not _is_union(annotation):
        return annotation
    some = tuple(each for each in get_args(annotation) if each is not NoneType)
    return bare(some[0]) if len(some) == 1 else Union[some]  # noqa: UP007  (built at run time)


def _is_union(annotation: Any) -> bool:
    return get_origin(annotation) in (Union, UnionType)


def _alias(annotation: Any) -> str | None:
    aliases = (each.alias for each in _beside(annotation) if isinstance(each, FieldInfo))
    return next(aliases, None)


def _chosen(union: Any, tag: Step) -> Any:
    for option in get_args(union):
        if Tag(str(tag)) in _beside(option) or tag in choices(bare(keys_of(option).get("shape"))):
            return bare(option)
    return union


def _beside(annotation: Any) -> tuple[Any, ...]:
    return get_args(annotation)[1:] if get_origin(annotation) is Annotated else ()

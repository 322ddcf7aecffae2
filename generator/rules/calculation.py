"""Figures as arithmetic: the formula that is printed is the one that is evaluated."""

import operator
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from math import asin, floor, pi, sqrt
from typing import Final, NoReturn

Number = float | Fraction
_Term = Callable[[Mapping[str, Number]], Number]
_Operation = Callable[[Number, Number], Number]

_SUMS: Final[Mapping[str, _Operation]] = {"+": operator.add, "-": operator.sub}
_PRODUCTS: Final[Mapping[str, _Operation]] = {"*": operator.mul, "/": operator.truediv}
_FUNCTIONS: Final[Mapping[str, Callable[..., Number]]] = {
    "sqrt": sqrt,
    "asin": asin,
    "floor": floor,
    "min": min,
    "max": max,
}
_TOKENS: Final = re.compile(r"[0-9]+(?:\.[0-9]+)?|[A-Za-z][A-Za-z0-9_]*|[^\s]")
_KEPT: Final = 512
"""Parsed formulas that are remembered: a search for a level evaluates one formula about forty times."""


@dataclass(frozen=True, slots=True, eq=False)
class Calculation:
    """A formula over named numbers, and its value; each object equals only itself.

    Written with + - * / ^ ( ), pi, sqrt, asin, floor, min, max, plain decimals and the names of ``inputs``; raises
    ValueError for anything else. With fractions only, the arithmetic is exact, and decimals count as written; else it
    is that of floats, in the order written. ``found`` is the number itself where a search or an exact
    routine gives it: the formula then gives the same except for rounding. ``value`` is the float nearest to ``exact``.

    >>> Calculation("floor(weight_g / 28.349523125 * 10) / 10", {"weight_g": Fraction("181.436948")}).value
    6.4
    """

    formula: str
    inputs: Mapping[str, Number]
    found: float | None = None
    exact: Number = field(init=False)
    value: float = field(init=False)

    def __post_init__(self) -> None:
        exact: Number | None = self.found
        if exact is None:
            exactly = set(map(type, self.inputs.values())) <= {Fraction}
            exact = _read(self.formula, Fraction if exactly else float)(self.inputs)
        object.__setattr__(self, "exact", exact)
        object.__setattr__(self, "value", float(exact))


def least(terms: Sequence[str]) -> str:
    """The least of the terms; a single one needs no function."""
    return _of_several("min", terms)


def most(terms: Sequence[str]) -> str:
    """The greatest of the terms; a single one needs no function."""
    return _of_several("max", terms)


def _of_several(function: str, terms: Sequence[str]) -> str:
    return f"{function}({', '.join(terms)})" if len(terms) > 1 else terms[0]


@lru_cache(maxsize=_KEPT)
def _read(formula: str, kind: type[Number]) -> _Term:
    return _Reader(formula, kind).whole()


class _Reader:
    """Reads a formula from left to right; only brackets and powers go deeper, so that sums may be long."""

    def __init__(self, formula: str, kind: type[Number]) -> None:
        self.formula = formula
        self.kind = kind
        self.left = [*reversed(_TOKENS.findall(formula))]

    def whole(self) -> _Term:
        read = self._sum()
        if self.left:
            self._refuse()
        return read

    def _refuse(self) -> NoReturn:
        raise ValueError(f"'{self.formula}' is no arithmetic")

    def _next_is(self, *tokens: str) -> bool:
        return bool(self.left) and self.left[-1] in tokens

    def _take(self, token: str) -> None:
        if not self._next_is(token):
            self._refuse()
        self.left.pop()

    def _sum(self) -> _Term:
        return self._chain(self._product, _SUMS)

    def _product(self) -> _Term:
        return self._chain(self._power, _PRODUCTS)

    def _chain(self, read: Callable[[], _Term], operations: Mapping[str, _Operation]) -> _Term:
        first = read()
        others: list[tuple[_Operation, _Term]] = []
        while self._next_is(*operations):
            others.append((operations[self.left.pop()], read()))
        return _applied(first, others) if others else first

    def _power(self) -> _Term:
        base = self._single()
        if not self._next_is("^"):
            return base
        self.left.pop()
        return _applied(base, [(operator.pow, self._power())])

    def _single(self) -> _Term:
        word = self.left.pop() if self.left else ""
        if word[:1].isdigit():
            number = self.kind(word)
            return lambda _: number
        if word == "pi":
            return lambda _: pi
        if word in _FUNCTIONS:
            return self._called(_FUNCTIONS[word])
        if word[:1].isalpha():
            return operator.itemgetter(word)
        if word != "(":
            self._refuse()
        inside = self._sum()
        self._take(")")
        return inside

    def _called(self, function: Callable[..., Number]) -> _Term:
        self._take("(")
        terms = [self._sum()]
        while self._next_is(","):
            self.left.pop()
            terms.append(self._sum())
        self._take(")")
        return lambda inputs: function(*(term(inputs) for term in terms))


def _applied(first: _Term, others: Sequence[tuple[_Operation, _Term]]) -> _Term:
    """Apply the operators from left to right."""

    def value(inputs: Mapping[str, Number]) -> Number:
        total = first(inputs)
        for operation, term in others:
            total = operation(total, term(inputs))
        return total

    return value

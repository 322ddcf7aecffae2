"""Figures as arithmetic: the formula that is printed is the one that is worked out."""

import ast
import operator
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from math import asin, floor, pi, sqrt
from typing import Final

Number = float | Fraction
_Arithmetic = Callable[[Mapping[str, Number]], Number]

_OPERATORS: Final[Mapping[type[ast.operator], Callable[[Number, Number], Number]]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
_FUNCTIONS: Final[Mapping[str, Callable[..., Number]]] = {
    "sqrt": sqrt,
    "asin": asin,
    "floor": floor,
    "min": min,
    "max": max,
}
_KEPT: Final = 512
"""Formulas whose reading is remembered: a level is searched for in some forty steps of one formula."""


@dataclass(frozen=True)
class Calculation:
    """A formula over named numbers, and what it comes to.

    Written with + - * / ^ ( ), pi, sqrt, asin, floor, min, max, plain decimals and the names of ``inputs``; raises
    ValueError for any other expression. Over fractions alone the arithmetic is exact, and decimals count as written;
    else it is that of floats, in the order in which it is written.

    >>> Calculation("floor(weight_g / 28.349523125 * 10) / 10", {"weight_g": Fraction("181.436948")}).value
    6.4
    """

    formula: str
    inputs: Mapping[str, Number]

    @cached_property
    def exact(self) -> Number:
        """Not rounded, where all inputs are fractions."""
        exactly = all(isinstance(number, Fraction) for number in self.inputs.values())
        return _read(self.formula, Fraction if exactly else float)(self.inputs)

    @property
    def value(self) -> float:
        """To the nearest float."""
        return float(self.exact)


def least(terms: Sequence[str]) -> str:
    """The least of the terms; a single one needs no function."""
    return _of_several("min", terms)


def most(terms: Sequence[str]) -> str:
    """The greatest of the terms; a single one needs no function."""
    return _of_several("max", terms)


def _of_several(function: str, terms: Sequence[str]) -> str:
    return f"{function}({', '.join(terms)})" if len(terms) > 1 else terms[0]


@lru_cache(maxsize=_KEPT)
def _read(formula: str, kind: type[Number]) -> _Arithmetic:
    return _arithmetic(ast.parse(formula.replace("^", "**"), mode="eval").body, kind)


def _arithmetic(node: ast.expr, kind: type[Number]) -> _Arithmetic:
    match node:
        case ast.Constant(value=int() | float() as number):
            literal = kind(repr(number))
            return lambda _: literal
        case ast.Name(id="pi"):
            return lambda _: pi
        case ast.Name(id=name):
            return operator.itemgetter(name)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPERATORS:
            apply, first, second = _OPERATORS[type(op)], _arithmetic(left, kind), _arithmetic(right, kind)
            return lambda inputs: apply(first(inputs), second(inputs))
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]) if name in _FUNCTIONS:
            function, terms = _FUNCTIONS[name], [_arithmetic(arg, kind) for arg in args]
            return lambda inputs: function(*(term(inputs) for term in terms))
    raise ValueError(f"'{ast.unparse(node)}' is no arithmetic")

"""Every worked example in a docstring of the letters, the model and the rules comes out as printed there."""

import doctest
import importlib
import pkgutil
from types import ModuleType

import pytest

import generator.letters
import generator.model
import generator.rules


def modules(*rooms: ModuleType) -> list[ModuleType]:
    return [
        importlib.import_module(found.name)
        for room in rooms
        for found in pkgutil.walk_packages(room.__path__, f"{room.__name__}.")
    ]


EXAMPLES = [
    example
    for module in (generator.letters, *modules(generator.model, generator.rules))
    for example in doctest.DocTestFinder().find(module)
    if example.examples
]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.name)
def test_a_worked_example_comes_out_as_printed(example: doctest.DocTest) -> None:
    results = doctest.DocTestRunner().run(example)

    assert results.attempted > 0
    assert results.failed == 0

"""The house's plan, held against the code: who imports whom, one home per outside library, small rooms."""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

GENERATOR = Path(__file__).parent.parent / "generator"
MODULES = sorted(GENERATOR.rglob("*.py"))

ROOMS: dict[str, frozenset[str]] = {
    "handbook_pages": frozenset(),
    "problems": frozenset({"handbook_pages"}),
    "files": frozenset(),
    "document": frozenset(),
    "letters": frozenset(),
    "model": frozenset({"files", "letters", "problems"}),
    "data": frozenset(),
    "rules": frozenset({"model", "problems"}),
    "rules/wax": frozenset({"model", "problems", "rules"}),
    "rules/burning": frozenset({"model", "problems", "rules"}),
    "rules/hazards": frozenset({"model", "problems", "rules/wax"}),
    "rules/labels": frozenset({"model", "problems", "rules", "rules/wax"}),
    "rules/trade": frozenset({"model", "problems", "rules"}),
    "rules/entries": frozenset(
        {"letters", "model", "problems", "rules", "rules/burning", "rules/hazards", "rules/labels", "rules/trade",
         "rules/wax"}
    ),
    "reading": frozenset({"model", "files", "memory", "problems"}),
    "facts": frozenset(
        {"memory", "model", "problems", "rules", "rules/burning", "rules/entries", "rules/hazards", "rules/labels",
         "rules/trade", "rules/wax"}
    ),
    "ledgers": frozenset({"facts", "model", "problems"}),
    "drawing": frozenset(),
    "documents": frozenset({"document", "drawing", "facts", "ledgers", "memory", "model", "problems"}),
    "documents/pages": frozenset({"document", "documents", "drawing", "facts", "ledgers", "model", "problems"}),
    "documents/papers": frozenset({"document", "documents", "documents/pages", "facts", "ledgers", "model"}),
    "writing": frozenset({"files", "letters", "memory", "problems", "document"}),
    "writing/targets": frozenset({"writing"}),
    "making": frozenset(
        {"files", "memory", "problems", "document", "model", "rules", "rules/entries", "rules/labels", "rules/trade",
         "reading", "facts", "ledgers", "documents", "documents/pages", "documents/papers", "writing",
         "writing/targets"}
    ),
    "commands": frozenset(
        {"arguments", "handbook", "handbook_pages", "problems", "document", "model", "rules", "rules/entries",
         "rules/hazards", "rules/labels", "rules/trade", "reading", "facts", "ledgers", "documents", "documents/pages",
         "documents/papers", "making", "writing", "writing/targets"}
    ),
    "handbook": frozenset({"document", "handbook_pages", "model", "reading"}),
    "memory": frozenset(),
    "arguments": frozenset(),
    "parser": frozenset({"arguments"}),
    "cli": frozenset({"arguments", "parser", "problems", "making"}),
    "first_run": frozenset(),
    "__main__": frozenset({"cli"}),
}  # fmt: skip
"""Each room and what it may import besides itself; DEVELOPERS.md draws the same plan."""

HOMES: dict[str, tuple[str, ...]] = {
    "yaml": ("reading/located.py",),
    "pydantic": ("model/", "reading/", "making/remembered.py"),
    "pydantic_core": ("model/", "reading/"),
    "jinja2": ("writing/templates.py",),
    "segno": ("writing/qr.py",),
    "markdown": ("documents/pages/markdown_pages.py",),
    "PIL": ("writing/photos.py", "writing/card_pictures.py"),
    "cryptography": ("writing/sealed.py",),
    "filelock": ("writing/lock.py",),
    "typst": ("writing/pdf.py",),
    "stdnum": ("rules/trade/tax_numbers.py",),
    "xlsxwriter": ("writing/spreadsheet.py",),
    "botocore": ("writing/targets/object_store.py",),
    "livereload": ("writing/preview_server.py",),
    "tornado": ("writing/preview_server.py",),
    "argparse": ("arguments.py", "parser.py"),
}
"""Where each outside library (and argparse) lives."""

LONGEST_MODULE = 400
LONGEST_FUNCTION = 40
LISTINGS = frozenset({"_facts"})
"""Functions that are one call with a line for each field of what they make."""

Function = ast.FunctionDef | ast.AsyncFunctionDef


def _named(module: Path) -> str:
    return module.relative_to(GENERATOR).as_posix()


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """What a module imports, and how many lines each of its functions has besides the docstring."""

    imports: frozenset[str]
    functions: tuple[tuple[str, int], ...]


@cache
def _outline(module: Path) -> Outline:
    """Parsed once for all that is asked of a module."""
    nodes = tuple(ast.walk(ast.parse(module.read_text(encoding="utf-8"))))
    return Outline(
        imports=frozenset(name for node in nodes for name in _imported(node, module)),
        functions=tuple((node.name, _length(node)) for node in nodes if isinstance(node, Function)),
    )


def _imported(node: ast.AST, module: Path) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        assert node.level == 0, f"{module} imports relatively"
        yield node.module or ""
        yield from (f"{node.module}.{alias.name}" for alias in node.names)


def _length(function: Function) -> int:
    """A formula's docstring has six parts; it does not count as length of the function."""
    docstring = ast.get_docstring(function, clean=False)
    lines = (function.end_lineno or 0) - function.lineno + 1
    return lines - (docstring.count("\n") + 1 if docstring else 0)


def _room(module: Path) -> str:
    """The innermost room of a module: ``rules/wax`` for ``rules/wax/blend.py``, ``files`` for ``files.py``."""
    inside = module.relative_to(GENERATOR)
    return inside.parent.as_posix() if len(inside.parts) > 1 else inside.stem


def _room_of(name: str) -> str:
    """The room that an import of ``generator.rules.wax.blend`` reaches into."""
    parts = name.split(".")[1:]
    return next(room for room in ("/".join(parts[:2]), parts[0]) if room in ROOMS)


def test_a_room_imports_only_what_the_plan_allows() -> None:
    faults = []
    for module in MODULES:
        rooms = {_room_of(name) for name in _outline(module).imports if name.startswith("generator.")}
        strays = rooms - {_room(module)} - ROOMS.get(_room(module), frozenset())
        faults += [f"{_named(module)} imports {one}" for one in sorted(strays)]

    assert not faults, "\n".join(faults)


def test_an_outside_library_is_imported_only_at_its_home() -> None:
    faults = []
    for module in MODULES:
        libraries = {name.split(".")[0] for name in _outline(module).imports} & HOMES.keys()
        strays = (one for one in sorted(libraries) if not _named(module).startswith(HOMES[one]))
        faults += [f"{_named(module)} imports {one}" for one in strays]

    assert not faults, "\n".join(faults)


def test_a_module_fits_on_a_few_screens() -> None:
    faults = []
    for module in MODULES:
        lines = module.read_text(encoding="utf-8").count("\n")
        if lines > LONGEST_MODULE:
            faults.append(f"{_named(module)} has {lines} lines")

    assert not faults, "\n".join(faults)


def test_a_function_fits_on_one_screen() -> None:
    faults = [
        f"{_named(module)}: {name} has {lines} lines"
        for module in MODULES
        for name, lines in _outline(module).functions
        if lines > LONGEST_FUNCTION and name not in LISTINGS
    ]

    assert not faults, "\n".join(faults)


def test_a_package_says_what_it_is_and_nothing_else() -> None:
    for package in GENERATOR.rglob("__init__.py"):
        body = ast.parse(package.read_text(encoding="utf-8")).body

        assert [type(node) for node in body] == [ast.Expr], package


def test_the_top_level_holds_what_was_given_and_dot_files() -> None:
    given = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "generator",
        "content",
        "themes",
        "tests",
        "output",
    }

    found = {path.name for path in GENERATOR.parent.iterdir() if not path.name.startswith((".", "__"))}

    assert found - {"dist", "build"} == given


def test_no_two_modules_have_the_same_name() -> None:
    homes: dict[str, list[str]] = {}
    for module in MODULES:
        if not module.stem.startswith("__"):
            homes.setdefault(module.stem, []).append(_named(module))

    assert not {stem: found for stem, found in homes.items() if len(found) > 1}


def test_no_modules_import_each_other_in_a_circle() -> None:
    """Not even inside a function, where a circle would be hidden."""
    names = {
        f"generator.{'.'.join(module.relative_to(GENERATOR).with_suffix('').parts)}": module
        for module in MODULES
    }
    below = {name: _outline(module).imports & names.keys() for name, module in names.items()}
    while free := {name for name, needed in below.items() if not needed & below.keys()}:
        below = {name: needed for name, needed in below.items() if name not in free}

    assert not below, f"in a circle, or above one: {sorted(below)}"


SAID_OF_EACH = frozenset({"add_arguments", "main", "run"})
"""What every command, or each of the two programs, has under the same name."""


def test_a_public_name_means_one_thing() -> None:
    homes: dict[str, list[str]] = {}
    for module in MODULES:
        for name in _defined(module):
            homes.setdefault(name, []).append(_named(module))
    twice = {name: found for name, found in homes.items() if len(found) > 1 and name not in SAID_OF_EACH}

    assert not twice


def _defined(module: Path) -> Iterator[str]:
    """The public names that a module defines for others."""
    for node in ast.parse(module.read_text(encoding="utf-8")).body:
        names = []
        if isinstance(node, Function | ast.ClassDef):
            names = [node.name]
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            names = [target.id for target in targets if isinstance(target, ast.Name)]
        yield from (name for name in names if not name.startswith("_"))


def test_every_shelf_stands_on_the_page_about_what_is_remembered() -> None:
    told = (
        (GENERATOR.parent / "DEVELOPERS.md").read_text(encoding="utf-8").partition("## What is remembered")[2]
    )
    shelves = {
        name for module in MODULES for name in re.findall(r'\.shelf\(\s*"([^"]+)"', module.read_text("utf-8"))
    }

    assert shelves
    assert [name for name in sorted(shelves) if f"`{name}`" not in told] == []

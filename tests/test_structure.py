"""The house's plan, held against the code: who imports whom, one home per outside library, small rooms."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

GENERATOR = Path(__file__).parent.parent / "generator"
MODULES = sorted(GENERATOR.rglob("*.py"))

ROOMS: dict[str, frozenset[str]] = {
    "problems": frozenset(),
    "files": frozenset(),
    "document": frozenset(),
    "letters": frozenset(),
    "model": frozenset({"files", "letters", "problems"}),
    "data": frozenset(),
    "rules": frozenset({"letters", "model", "problems"}),
    "reading": frozenset({"model", "files", "problems"}),
    "facts": frozenset({"rules", "model", "problems"}),
    "revisions": frozenset({"facts", "model", "problems"}),
    "documents": frozenset({"revisions", "facts", "model", "problems", "document"}),
    "recording": frozenset({"revisions", "model", "problems"}),
    "writing": frozenset({"files", "letters", "problems", "document"}),
    "stories": frozenset(
        {"files", "problems", "document", "model", "data", "rules", "reading", "facts", "revisions", "documents",
         "recording", "writing"}
    ),
    "arguments": frozenset(),
    "commands": frozenset({"arguments", "stories"}),
    "cli": frozenset({"arguments", "commands", "problems", "stories"}),
    "first_run": frozenset(),
    "__main__": frozenset({"cli"}),
}  # fmt: skip
"""Each room and what it may import besides itself; DEVELOPERS.md draws the same plan."""

HOMES: dict[str, tuple[str, ...]] = {
    "yaml": ("reading/located.py",),
    "pydantic": ("model/", "reading/", "facts/remembered.py"),
    "pydantic_core": ("model/", "reading/"),
    "jinja2": ("writing/templates.py",),
    "segno": ("writing/qr.py",),
    "markdown": ("documents/pages.py",),
    "PIL": ("writing/photos.py", "writing/cards.py"),
    "cryptography": ("writing/sealed.py",),
    "filelock": ("writing/lock.py",),
    "typst": ("writing/pdf.py",),
    "stdnum": ("rules/tax_numbers.py",),
    "xlsxwriter": ("writing/spreadsheet.py",),
    "botocore": ("writing/object_store.py",),
    "livereload": ("writing/preview.py",),
    "tornado": ("writing/preview.py",),
    "argparse": ("arguments.py", "cli.py", "commands.py"),
}
"""Where each outside library (and argparse) lives."""

LONGEST_MODULE = 400
LONGEST_FUNCTION = 40
LISTINGS = frozenset({"_facts"})
"""Functions that are one call with a line for each field of what they make."""

Function = ast.FunctionDef | ast.AsyncFunctionDef

LONGEST_STORY = 150
LONGEST_COMMAND = 150


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


def _length(function: Function) -> int:
    """A formula's docstring has six parts; it does not count as length of the function."""
    docstring = ast.get_docstring(function, clean=False)
    lines = (function.end_lineno or 0) - function.lineno + 1
    return lines - (docstring.count("\n") + 1 if docstring else 0)


def _room(module: Path) -> str:
    return module.relative_to(GENERATOR).parts[0].removesuffix(".py")


def _longest(module: Path) -> int:
    if _room(module) == "stories":
        return LONGEST_STORY
    return LONGEST_COMMAND if module.name == "cli.py" else LONGEST_MODULE


def test_a_room_imports_only_what_the_plan_allows() -> None:
    faults = []
    for module in MODULES:
        rooms = {name.split(".")[1] for name in _outline(module).imports if name.startswith("generator.")}
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
        if lines > _longest(module):
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

"""The house's plan, held against the code: who imports whom, one home per outside library, small rooms."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

GENERATOR = Path(__file__).parent.parent / "generator"
MODULES = sorted(GENERATOR.rglob("*.py"))

ROOMS: dict[str, frozenset[str]] = {
    "problems": frozenset(),
    "document": frozenset(),
    "model": frozenset({"problems"}),
    "data": frozenset(),
    "rules": frozenset({"model", "problems"}),
    "reading": frozenset({"model", "problems"}),
    "facts": frozenset({"rules", "model", "problems"}),
    "revisions": frozenset({"facts", "model", "problems"}),
    "documents": frozenset({"revisions", "facts", "model", "problems", "document"}),
    "recording": frozenset({"revisions", "model", "problems"}),
    "writing": frozenset({"problems", "document"}),
    "stories": frozenset(
        {"problems", "document", "model", "data", "rules", "reading", "facts", "revisions", "documents", "recording",
         "writing"}
    ),
    "commands": frozenset({"stories"}),
    "cli": frozenset({"commands"}),
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
    "typst": ("writing/pdf.py",),
    "xlsxwriter": ("writing/spreadsheet.py",),
    "botocore": ("writing/object_store.py",),
    "livereload": ("writing/preview.py",),
    "tornado": ("writing/preview.py",),
    "argparse": ("cli.py", "commands.py"),
}
"""Where each outside library (and argparse) lives."""

LONGEST_MODULE = 400
LONGEST_FUNCTION = 40
LISTINGS = frozenset({"_facts"})
"""Functions that are one call with a line for each field of what they make."""

LONGEST_STORY = 120
LONGEST_COMMAND = 150


def _named(module: Path) -> str:
    return module.relative_to(GENERATOR).as_posix()


def _imports(module: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module} imports relatively"
            yield node.module or ""


def _room(module: Path) -> str:
    return module.relative_to(GENERATOR).parts[0].removesuffix(".py")


@pytest.mark.parametrize("module", MODULES, ids=_named)
def test_a_room_imports_only_what_the_plan_allows(module: Path) -> None:
    own = _room(module)
    rooms = {name.split(".")[1] for name in _imports(module) if name.startswith("generator.")}

    assert rooms - {own} <= ROOMS.get(own, frozenset())


@pytest.mark.parametrize("module", MODULES, ids=_named)
def test_an_outside_library_is_imported_only_at_its_home(module: Path) -> None:
    libraries = {name.split(".")[0] for name in _imports(module)} & HOMES.keys()

    strays = {library for library in libraries if not _named(module).startswith(HOMES[library])}

    assert strays == set()


@pytest.mark.parametrize("module", MODULES, ids=_named)
def test_a_module_fits_on_a_few_screens(module: Path) -> None:
    lines = module.read_text(encoding="utf-8").count("\n")
    limit = (
        LONGEST_STORY
        if _room(module) == "stories"
        else LONGEST_COMMAND
        if module.name == "cli.py"
        else LONGEST_MODULE
    )

    assert lines <= limit


@pytest.mark.parametrize("module", MODULES, ids=_named)
def test_a_function_fits_on_one_screen(module: Path) -> None:
    functions = (
        node
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    )

    too_long = [
        node.name
        for node in functions
        if (node.end_lineno or 0) - node.lineno + 1 > _allowed(node) and node.name not in LISTINGS
    ]

    assert too_long == []


def _allowed(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """A formula's docstring has six parts; it does not count as length of the function."""
    docstring = ast.get_docstring(function, clean=False)
    return LONGEST_FUNCTION + (docstring.count("\n") + 1 if docstring else 0)


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

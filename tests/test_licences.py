"""Under which licences the libraries stand that are installed, and what of others is in what we give away: nothing.

Each licence was read in the library's own metadata. None asks that a program which uses the library stand under it too.
"""

from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

import pytest

from tests.locked import PROJECT, Pin, pins

KNOWN = {
    "Apache-2.0": "aws-xray-sdk boto3 botocore coverage docker jsonpath-ng jsonschema-path moto openapi-spec-validator"
    " pathable playwright requests responses s3transfer sortedcontainers tornado trove-classifiers types-jsonschema"
    " types-markdown types-pyyaml typst tzdata zxing-cpp",
    "Apache-2.0 AND CNRI-Python": "regex",
    "Apache-2.0 OR BSD": "cryptography packaging python-dateutil",
    "BSD": "antlr4-python3-runtime click colorama flask flexcache flexparser idna itsdangerous jinja2 joserfc jsonpatch"
    " jsonpointer lazy-object-proxy livereload markdown markupsafe mpmath networkx openapi-schema-validator pandas pint"
    " pycparser pygments python-dotenv scipy segno sympy werkzeug wrapt xlsxwriter",
    "BSD AND 0BSD AND MIT AND Zlib AND CC0-1.0": "numpy",
    "BSD AND Apache-2.0": "pypdfium2",
    "LGPL-2.1-or-later": "python-stdnum",
    "MIT": "annotated-types ast-serialize attrs beautifulsoup4 blinker build charset-normalizer chemicals et-xmlfile"
    " execnet filelock flask-cors fluids fontpkg fonttools ghs-hazard-pictogram graphql-core hatchling iniconfig"
    " jmespath jsonschema jsonschema-specifications librt mypy mypy-extensions openpyxl platformdirs pluggy"
    " py-partiql-parser pydantic"
    " pydantic-core pydantic-settings pyparsing pyproject-hooks pytest pytest-cov pytest-randomly pytest-xdist pyyaml"
    " referencing rfc3339-validator rpds-py ruff six soupsieve tomlkit typing-inspection urllib3 xmltodict",
    "MIT AND PSF-2.0": "greenlet",
    "MIT-0": "cffi cfn-lint",
    "MIT-CMU": "pillow",
    "MPL-2.0": "certifi hypothesis pathspec",
    "OFL-1.1": "fontpkg-arimo fontpkg-atkinson-hyperlegible fontpkg-fira-code fontpkg-inter",
    "PSF-2.0": "defusedxml pywin32 typing-extensions",
}
"""Each accepted licence and the libraries under it. BSD has two or three clauses: metadata often does not say which."""

MEANT = {
    "Apache Software License": "Apache-2.0",
    "Apache-2.0 OR BSD-2-Clause": "Apache-2.0 OR BSD",
    "Apache-2.0 OR BSD-3-Clause": "Apache-2.0 OR BSD",
    "BSD License OR Apache Software License": "Apache-2.0 OR BSD",
    "BSD License": "BSD",
    "BSD-2-Clause": "BSD",
    "BSD-3-Clause": "BSD",
    "BSD-3-Clause AND 0BSD AND MIT AND Zlib AND CC0-1.0": "BSD AND 0BSD AND MIT AND Zlib AND CC0-1.0",
    "BSD-3-Clause, Apache-2.0, dependency licenses": "BSD AND Apache-2.0",
    "GNU Lesser General Public License v2 or later (LGPLv2+)": "LGPL-2.1-or-later",
    "MIT License": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Python Software Foundation License": "PSF-2.0",
}
"""What other words of metadata mean."""

EVERY = {
    pin.name: pin for lock in ("tools", "test", "build", "back-end") for pin in pins(lock) if pin.is_for_here
}
NEEDED = tuple(pin for pin in pins("build") if pin.is_for_here)
TYPEFACES = {".woff", ".woff2", ".ttf", ".otf", ".eot"}


def stated(found: Distribution) -> str:
    """A library's licence in its own words: as an expression, else by its classifiers, else as one line."""
    classifiers = [
        each for each in found.metadata.get_all("Classifier") or [] if each.startswith("License ::")
    ]
    (expression,) = found.metadata.get_all("License-Expression") or [""]
    (line,) = found.metadata.get_all("License") or [""]
    said = expression or " OR ".join(each.split(" :: ")[-1] for each in classifiers) or line.strip()
    return MEANT.get(said, said)


def installed(pin: Pin) -> Distribution | None:
    try:
        return distribution(pin.name)
    except PackageNotFoundError:
        return None


def test_every_library_of_the_locks_has_a_licence_that_we_know() -> None:
    known = {name for names in KNOWN.values() for name in names.split()}

    assert {pin.name for lock in ("tools", "back-end") for pin in pins(lock)} - known == set()


@pytest.mark.parametrize("pin", EVERY.values(), ids=EVERY)
def test_a_library_says_the_licence_that_we_know_it_by(pin: Pin) -> None:
    found = installed(pin)
    if found is None:
        assert pin not in NEEDED
        pytest.skip("a tool that is not installed here")

    assert pin.name in KNOWN.get(stated(found), "").split(), stated(found)


def test_a_typeface_that_papers_and_pictures_hold_brings_its_licence() -> None:
    """The licence lets a paper hold it; ``writing/pdf.py`` sets papers in the typefaces of such packages alone."""
    faces = [pin for pin in NEEDED if pin.name.startswith("fontpkg-")]
    texts = [path for pin in faces for path in distribution(pin.name).files or () if path.name == "LICENSE"]

    assert {pin.name for pin in faces} <= set(KNOWN["OFL-1.1"].split())
    assert len(texts) >= len(faces) > 0
    assert all("SIL OPEN FONT LICENSE Version 1.1" in text.read_text(encoding="utf-8") for text in texts)


@pytest.mark.parametrize("folder", ["generator", "themes", "content"])
def test_what_a_wheel_holds_has_no_typeface_and_no_code_of_others(folder: str) -> None:
    files = [path for path in (PROJECT / folder).rglob("*") if path.is_file()]
    marked = [path for path in files if path.suffix in {".css", ".js", ".html", ".typ", ".svg"}]

    assert [path for path in files if path.suffix in TYPEFACES] == []
    assert [path for path in marked if _speaks_of_rights(path)] == []


def test_a_site_holds_no_typeface_and_no_code_of_others(built_example: Path) -> None:
    files = [path for path in (built_example / "site").rglob("*") if path.is_file()]

    assert len(files) > 0
    assert [path for path in files if path.suffix in TYPEFACES] == []
    assert [path for path in files if path.suffix in {".css", ".js"} and _speaks_of_rights(path)] == []


def _speaks_of_rights(path: Path) -> bool:
    """Whether a file has the words that code of others brings along."""
    text = path.read_text(encoding="utf-8").casefold()
    return any(
        word in text for word in ("copyright", "(c) ", "@license", "licensed under", "sourcemappingurl")
    )

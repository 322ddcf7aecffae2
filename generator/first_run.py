"""From a bare machine to a built shop or a tested program: makes the environment, then runs inside it.

Only the standard library is used, since nothing else is there yet, and the system's Python is left as it was.
"""

import os
import subprocess
import sys
import venv
from importlib.util import find_spec
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
ENVIRONMENT = PROJECT / ".venv"
LEAST_PYTHON = (3, 11)
USAGE = "write: python3 -m generator.first_run build, or python3 -m generator.first_run test"


def main(arguments: list[str]) -> int:
    """``build`` the shop in content/, or ``test`` the program; the exit code is that of the step which ended it."""
    if sys.version_info < LEAST_PYTHON:
        print(f"Wickwright needs Python 3.11 or later; this one is {sys.version.split()[0]}.")
        return 2
    if not arguments or arguments[0] not in ("build", "test"):
        print(USAGE)
        return 2
    wanted, rest = arguments[0], arguments[1:]
    if not _environment_python().exists():
        print(f"Making an environment of its own in {ENVIRONMENT.name}/ ...", flush=True)
        venv.create(ENVIRONMENT, with_pip=False, symlinks=os.name != "nt")
    print("Fetching the libraries; this takes a minute the first time ...", flush=True)
    if _run([*_pip(), *_install(wanted)]) != 0:
        print(
            "The libraries could not be fetched. Is there a network? Run the same command again when there is."
        )
        return 3
    command = ["-m", "generator", "build"] if wanted == "build" else ["-m", "pytest"]
    ended = _run([str(_environment_python()), *command, *rest])
    if wanted == "build":
        print(f"\nFrom now on, type this once in each new window:\n    {_activation_shown()}")
        print(
            "and then, in any folder: wickwright start my-shop   (or build, preview, check, explain STOCK_CODE)"
        )
    return ended


def _pip() -> list[str]:
    """The system's pip working on the environment, or, where the system has none, one inside the environment."""
    if find_spec("pip") is not None:
        return [sys.executable, "-m", "pip", "--python", str(_environment_python())]
    _run([str(_environment_python()), "-m", "ensurepip"])
    return [str(_environment_python()), "-m", "pip"]


def _install(wanted: str) -> list[str]:
    quiet = ["install", "--quiet", "--disable-pip-version-check", "--editable"]
    return [*quiet, f"{PROJECT}[test]" if wanted == "test" else str(PROJECT)]


def _environment_python() -> Path:
    return ENVIRONMENT / "Scripts" / "python.exe" if os.name == "nt" else ENVIRONMENT / "bin" / "python"


def _activation_shown() -> str:
    """What makes ``wickwright`` a word that a window knows, wherever it stands."""
    if os.name == "nt":
        return str(ENVIRONMENT / "Scripts" / "activate")
    return f"source '{ENVIRONMENT / 'bin' / 'activate'}'"


def _run(command: list[str]) -> int:
    return subprocess.run(command, cwd=PROJECT, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

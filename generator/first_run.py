"""From a bare machine to a built shop or a tested program: makes the environment, then runs inside it.

Only the standard library is used, since nothing else is there yet, and the system's Python is left as it was. What is
installed is what ``.locks/`` holds, file by file, each checked against its hash.
"""

import os
import platform
import subprocess
import sys
import sysconfig
import venv
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
ENVIRONMENT = PROJECT / ".venv"
INSTALLED = ENVIRONMENT / "installed.txt"
"""The digests of what was installed to the end, a line each."""
LEAST_PYTHON = (3, 11)
HOLDS = {"build": ("build",), "test": ("test", "build")}
"""Each lock and those whose libraries it holds too."""
BACK_END = "back-end"
"""The lock of what installs the project itself."""
USAGE = "Usage: python3 -m generator.first_run build, or python3 -m generator.first_run test"
NO_NETWORK = (
    "The libraries could not be downloaded (the reason is above). Check your connection, then run the same\n"
    "command again."
)
OTHER_FILE = (
    "Refused: a downloaded file is not the locked one (its name and both hashes are above). Nothing was installed.\n"
    "Unless you changed .locks/ yourself, someone may have replaced the file."
)
UNLOCKED = (
    "There are no locked libraries for {system} with Python {python}. Using the newest that pyproject.toml allows,\n"
    "not checked against our hashes; papers may look different from those of other computers."
)


def main(arguments: list[str]) -> int:
    """``build`` the shop in content/, or ``test`` the program; the exit code is that of the step which ended it."""
    if sys.version_info < LEAST_PYTHON:
        print(f"Wickwright needs Python 3.11 or later; this one is {sys.version.split()[0]}.")
        return 2
    if not arguments or arguments[0] not in HOLDS:
        print(USAGE)
        return 2
    wanted, rest = arguments[0], arguments[1:]
    if not _environment_python().exists():
        print(f"Setting up an environment in {ENVIRONMENT.name}/ ...", flush=True)
        venv.create(ENVIRONMENT, with_pip=False, symlinks=os.name != "nt")
    if not _is_installed(wanted) and (refused := _install(wanted)):
        print(refused)
        return 3
    command = ["-m", "generator", "build"] if wanted == "build" else ["-m", "pytest"]
    ended = _run([str(_environment_python()), *command, *rest])
    if wanted == "build":
        print(f"\nNext: type this once in each new window:\n      {_activation_shown()}")
        print("      and then, in any folder: wickwright start my-shop")
    return ended


def is_locked(lock: str, system: str, python: str) -> bool:
    """Whether a lock's heading calls it complete for a system (``linux-x86_64``) and a Python (``3.11``)."""
    start = f"# complete for {system}: "
    return any(
        python in line.removeprefix(start).split() for line in lock.splitlines() if line.startswith(start)
    )


def steps(wanted: str, *, locked: bool) -> list[list[str]]:
    """What pip is asked for, in order. Locked, the second step fetches nothing: the build back end is there by then.

    ``locked`` is decided by this machine alone, never by what the network answered: a refused file must not lead to
    an unchecked one.
    """
    if not locked:
        return [["--prefer-binary", "--editable", f"{PROJECT}[test]" if wanted == "test" else str(PROJECT)]]
    checked = ["--require-hashes", "--only-binary", ":all:"]
    files = [word for name in (wanted, BACK_END) for word in ("--requirement", str(_lock(name)))]
    return [
        [*checked, *files],
        ["--no-index", "--no-deps", "--no-build-isolation", "--editable", str(PROJECT)],
    ]


def pip_failure(said: str) -> str:
    """What to tell the person when pip failed, by what it said."""
    return OTHER_FILE if "DO NOT MATCH THE HASHES" in said else NO_NETWORK


def this_system() -> str:
    """The system as the locks name it; one that their wheels are not made for has a name that no lock holds."""
    named = sysconfig.get_platform()
    if named.startswith("macosx"):
        named = f"macosx-{platform.machine()}"
    if named.startswith("linux") and platform.libc_ver()[0] != "glibc":
        named += " without glibc"
    if sys.implementation.name != "cpython":
        named += f" under {sys.implementation.name}"
    return f"{named}, free-threaded," if sysconfig.get_config_var("Py_GIL_DISABLED") else named


def _install(wanted: str) -> str:
    """Installs and notes it; returns why not, or nothing."""
    system, python = this_system(), f"{sys.version_info.major}.{sys.version_info.minor}"
    locks = [_lock(name).read_text(encoding="utf-8") for name in (wanted, BACK_END)]
    locked = all(is_locked(lock, system, python) for lock in locks)
    if not locked:
        print(UNLOCKED.format(system=system, python=python))
    print("Downloading the libraries; this takes a minute the first time ...", flush=True)
    INSTALLED.unlink(missing_ok=True)
    pip = [*_pip(), "install", "--quiet", "--disable-pip-version-check"]
    for step in steps(wanted, locked=locked):
        ended = subprocess.run(
            [*pip, *step], cwd=PROJECT, check=False, stderr=subprocess.PIPE, text=True, errors="replace"
        )
        print(ended.stderr, end="", file=sys.stderr, flush=True)
        if ended.returncode != 0:
            return pip_failure(ended.stderr)
    INSTALLED.write_text("\n".join(_digest(name) for name in HOLDS[wanted]), encoding="utf-8")
    return ""


def _is_installed(wanted: str) -> bool:
    return INSTALLED.exists() and _digest(wanted) in INSTALLED.read_text(encoding="utf-8").splitlines()


def _digest(wanted: str) -> str:
    """Of all that decides what is installed: the locks, the project's own entry, the Python, the place."""
    files = (_lock(wanted), _lock(BACK_END), PROJECT / "pyproject.toml")
    said = (sys.version.encode(), str(PROJECT).encode())
    return sha256(b"\0".join((*(file.read_bytes() for file in files), *said))).hexdigest()


def _lock(wanted: str) -> Path:
    return PROJECT / ".locks" / f"{wanted}.txt"


def _pip() -> list[str]:
    """The system's pip working on the environment, or, where the system has none, one inside the environment."""
    if find_spec("pip") is not None:
        return [sys.executable, "-m", "pip", "--python", str(_environment_python())]
    _run([str(_environment_python()), "-m", "ensurepip"])
    return [str(_environment_python()), "-m", "pip"]


def _environment_python() -> Path:
    return ENVIRONMENT / "Scripts" / "python.exe" if os.name == "nt" else ENVIRONMENT / "bin" / "python"


def _activation_shown() -> str:
    """What makes ``wickwright`` work in any folder, for one window."""
    if os.name == "nt":
        return str(ENVIRONMENT / "Scripts" / "activate")
    return f"source '{ENVIRONMENT / 'bin' / 'activate'}'"


def _run(command: list[str]) -> int:
    return subprocess.run(command, cwd=PROJECT, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

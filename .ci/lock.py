"""Writes ``.locks/`` anew from the bounds in ``pyproject.toml``: each library at one version, each file with its hash.

``python3 .ci/lock.py`` keeps the versions that are locked and adds or drops what the bounds ask for; with ``--upgrade``
everything moves to the newest version within its bounds. A lock holds wheels only, since building from source would
fetch what no hash speaks for. Its heading says on which systems and Pythons it was found to be complete.
"""

import subprocess
import sys
import tempfile
import tomllib
import venv
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
LOCKS = PROJECT / ".locks"
TOOL = "uv>=0.13,<0.14"

LARGEST = "tools"
"""The lock that the others take their versions from."""

HELD: dict[str, tuple[str, ...]] = {
    LARGEST: ("pyproject.toml", "--extra", "test", "--extra", "browser", "--extra", "dev", "-"),
    "test": ("pyproject.toml", "--extra", "test"),
    "build": ("pyproject.toml",),
    "back-end": ("-",),
}
"""Each lock and what it holds, as the tool is told; ``-`` is the build back end, which installs the project itself."""

SYSTEMS = {
    "linux-x86_64": "x86_64-unknown-linux-gnu",
    "linux-aarch64": "aarch64-unknown-linux-gnu",
    "macosx-x86_64": "x86_64-apple-darwin",
    "macosx-arm64": "aarch64-apple-darwin",
    "win-amd64": "x86_64-pc-windows-msvc",
}
"""Each system by the name that ``first_run`` gives it, and by that of the tool."""

PYTHONS = ("3.11", "3.12", "3.13", "3.14", "3.15")


def main(arguments: list[str]) -> int:
    """Writes the locks; 1 when a system or a Python is without one of its files, so that somebody looks."""
    if arguments not in ([], ["--upgrade"]):
        print("write: python3 .ci/lock.py, or python3 .ci/lock.py --upgrade")
        return 2
    with tempfile.TemporaryDirectory() as folder:
        tool = _tool(Path(folder))
        for name in HELD:
            _resolve(tool, name, arguments if name == LARGEST else [])
        gaps = [gap for name in HELD for gap in _head(tool, name, Path(folder))]
    _lock_page_tools(arguments)
    print("\n".join(gaps) or "Every lock is complete on every system and Python.")
    return 1 if gaps else 0


def _tool(folder: Path) -> str:
    """The resolver, in an environment of its own that is gone afterwards."""
    venv.create(folder, with_pip=True)
    programs = folder / ("Scripts" if sys.platform == "win32" else "bin")
    _run([str(programs / "python"), "-m", "pip", "install", "-qq", TOOL])
    return str(programs / "uv")


def _resolve(tool: str, name: str, moved: list[str]) -> None:
    back_end = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["build-system"]
    if name != LARGEST:
        _lock(name).write_bytes(
            _lock(LARGEST).read_bytes()
        )  # the versions that the tool finds there, it keeps
    shape = ["--universal", "--python-version", PYTHONS[0], "--only-binary", ":all:", "--generate-hashes"]
    silent = ["--quiet", "--no-header", "--no-annotate", "--output-file", str(_lock(name))]
    _run([tool, "pip", "compile", *shape, *silent, *moved, *HELD[name]], said="\n".join(back_end["requires"]))


def _head(tool: str, name: str, folder: Path) -> list[str]:
    """Tries the lock on every system and Python, writes the heading, and returns what is missing, a line each."""
    complete, gaps = [], []
    for system, target in SYSTEMS.items():
        refused = {python: _refused(tool, name, (target, python), folder) for python in PYTHONS}
        complete.append(f"# complete for {system}: {' '.join(one for one in PYTHONS if not refused[one])}")
        gaps += [f"{name} on {system}, Python {one}: {why}" for one, why in refused.items() if why]
    lines = _lock(name).read_text(encoding="utf-8").splitlines()
    pinned = [line for line in lines if not line.startswith("#")]
    text = "\n".join(["# Made by .ci/lock.py; not written by hand.", *complete, *pinned, ""])
    _lock(name).write_text(text, encoding="utf-8", newline="\n")
    return gaps


def _refused(tool: str, name: str, place: tuple[str, str], folder: Path) -> str:
    """Why the files of a lock cannot all be had for a system and a Python; empty when they can. Nothing is fetched."""
    checks = ["--dry-run", "--quiet", "--require-hashes", "--only-binary", ":all:", "--no-deps"]
    where = ["--target", str(folder / "none"), "--python-platform", place[0], "--python-version", place[1]]
    command = [tool, "pip", "install", *checks, *where, "--requirement", str(_lock(name))]
    tried = subprocess.run(command, cwd=PROJECT, check=False, capture_output=True, text=True)
    return " ".join(tried.stderr.split()) if tried.returncode else ""


def _lock_page_tools(moved: list[str]) -> None:
    """The tools that judge pages: exact versions in package.json, everything below them in package-lock.json."""
    if moved:
        (LOCKS / "package-lock.json").unlink(missing_ok=True)
    plain = ["--ignore-scripts", "--no-audit", "--no-fund", "--silent", "--omit-lockfile-registry-resolved"]
    _run(["npm", "install", "--prefix", str(LOCKS), "--package-lock-only", *plain])


def _lock(name: str) -> Path:
    return LOCKS / f"{name}.txt"


def _run(command: list[str], said: str = "") -> None:
    subprocess.run(command, cwd=PROJECT, check=True, input=said, text=True)


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except subprocess.CalledProcessError as failed:
        sys.exit(f"{Path(failed.cmd[0]).name} failed (why: above); git restore .locks puts the locks back")

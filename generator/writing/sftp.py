"""A target behind the computer's own OpenSSH client: one batch a run, the server's key pinned, no password."""

import re
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final

from generator.writing.peer import (
    A_LIST,
    LOCK,
    OURS,
    OVERTAKEN,
    OWNER,
    TAKEN,
    Corner,
    CouldNotPublish,
    Found,
    Lock,
    Ready,
    Remove,
    Send,
    Settle,
    Step,
    Still,
    Switch,
    readied,
)

_CONNECT_S: Final = 20
_PINNED: Final = "wickwright-target"
_TEMPORARY: Final = ".wickwright-part"


@dataclass(frozen=True, slots=True, kw_only=True)
class Server:
    """Where the site goes, whose key opens it, and by which key the server is known."""

    host: str
    port: int
    user: str
    folder: str
    key: Path
    host_key: str


class SftpPeer:
    """Every look and every run is one connection."""

    def __init__(self, server: Server) -> None:
        self._server = server
        if shutil.which("sftp") is None:
            raise CouldNotPublish("this computer has no sftp command; install its OpenSSH client")
        if not server.key.is_file():
            raise CouldNotPublish(
                f"there is no key {server.key.as_posix()}; write the file of your private key"
            )

    def look(self, folders: tuple[str, ...]) -> Found:
        """What is there now."""
        with tempfile.TemporaryDirectory() as folder:
            owner, *heres = (Path(folder) / str(number) for number in range(len(folders) + 1))
            lines = [f"-get {_quoted(OWNER)} {_local(owner)}"]
            for name, here in zip(folders, heres, strict=True):
                here.mkdir()
                # What stands in quotes is no pattern.
                lists = f"{_quoted(_below(name, f'{OURS}/list-'))}*.json"
                lines += [f"-get {lists} {_local(here)}", f"-ls -1a {_quoted(name or '.')}"]
            names = _names_by_turns(self._run(lines))
            corners = {
                name: Corner(lists=_lists(here), names=listed)
                for name, here, listed in zip(folders, heres, names, strict=True)
                if listed
            }
            return Found(owner=owner.read_bytes() if owner.is_file() else None, corners=corners)

    def tells_case(self) -> bool:
        """Whether our own folder answers to its name in capitals."""
        try:
            self._run([f"ls -1 {_quoted(OURS.upper())}"])
        except _StoppedAt:
            return True
        return False

    def carry_out(self, steps: Iterable[Step], tell: Callable[[], None]) -> None:
        """Take the steps in their order."""
        try:
            self._run(_lines(steps), tell)
        except _StoppedAt as stop:
            raise CouldNotPublish(str(stop)) from stop

    def _run(self, lines: Iterable[str], tell: Callable[[], None] = lambda: None) -> list[str]:
        with tempfile.TemporaryDirectory() as folder:
            batch, known, errors = (Path(folder) / name for name in ("batch", "known", "errors"))
            batch.write_text("\n".join((f"cd {_quoted(self._server.folder)}", *lines, "")), encoding="utf-8")
            known.write_text(f"{_PINNED} {self._server.host_key}\n", encoding="utf-8")
            with errors.open("wb") as wrong:
                said, code = self._talk(batch, known, wrong.fileno(), tell)
            if code:
                raise _stopped(errors.read_text(encoding="utf-8", errors="replace"), self._server)
            return said

    def _talk(self, batch: Path, known: Path, errors: int, tell: Callable[[], None]) -> tuple[list[str], int]:
        said = []
        command = [
            *_command(self._server, known),
            "-b",
            str(batch),
            f"{self._server.user}@{self._server.host}",
        ]
        with subprocess.Popen(  # noqa: S603  # the computer's own client, with the maker's own settings
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=errors,
            encoding="utf-8",
            errors="replace",
        ) as client:
            for line in client.stdout or ():
                said.append(line.rstrip("\r\n"))
                if line.startswith("sftp> rename "):
                    tell()
        return said, client.returncode


class _StoppedAt(CouldNotPublish):
    """The server refused one line of the batch."""


def _command(server: Server, known: Path) -> list[str]:
    """The client without the settings of this computer's user, which could lead elsewhere."""
    options = {
        "BatchMode": "yes",
        "StrictHostKeyChecking": "yes",
        "UserKnownHostsFile": f'"{known.as_posix()}"',
        "GlobalKnownHostsFile": "none",
        "HostKeyAlias": _PINNED,
        "HostKeyAlgorithms": _algorithms(server.host_key),
        "IdentitiesOnly": "yes",
        "ConnectTimeout": str(_CONNECT_S),
        "ServerAliveInterval": "15",
    }
    pairs = [word for name, value in options.items() for word in ("-o", f"{name}={value}")]
    return ["sftp", "-F", "none", *pairs, "-i", str(server.key), "-P", str(server.port)]


def _algorithms(host_key: str) -> str:
    kind = host_key.partition(" ")[0]
    return "rsa-sha2-512,rsa-sha2-256" if kind == "ssh-rsa" else kind


def _lines(steps: Iterable[Step]) -> Iterator[str]:
    """The batch: folders are made when the first file of theirs is sent; a line with a hyphen may fail."""
    made: set[str] = set()
    for step in steps:
        if isinstance(step, Send):
            folders = [folder for folder in _folders(step.path) if folder not in made]
            yield from (f"-mkdir {_quoted(folder)}" for folder in folders)
            made.update(folders)
        yield from _lines_of(step)


def _lines_of(step: Step) -> Iterator[str]:
    match step:
        case Send(path, source):
            yield f"put {_local(source)} {_quoted(_temporary(path))}"
            yield f"rename {_quoted(_temporary(path))} {_quoted(path)}"
        case Remove(path):
            yield f"-rm {_quoted(path)}"
            yield f"-rm {_quoted(_temporary(path))}"
            yield from (f"-rmdir {_quoted(folder)}" for folder in reversed(_folders(path)))
        case Lock(owner, name):
            ready = f"{LOCK}-{name}"
            yield f"-mkdir {_quoted(OURS)}"
            yield f"-mkdir {_quoted(ready)}"
            yield f"put {_local(owner)} {_quoted(f'{ready}/{PurePosixPath(OWNER).name}')}"
            yield f"rename {_quoted(ready)} {_quoted(LOCK)}"
        case Still(path):
            yield f"ls -1 {_quoted(path)}"
        case Settle():
            # A batch is one line after the other.
            pass
        case Ready(link, folder):
            yield f"-rm {_quoted(readied(link))}"
            yield f"ln -s {_quoted(folder)} {_quoted(readied(link))}"
        case Switch(link):
            yield f"rename {_quoted(readied(link))} {_quoted(link)}"
        case _:
            yield f"-rm {_quoted(OWNER)}"
            yield f"-rmdir {_quoted(LOCK)}"


def _temporary(path: str) -> str:
    place = PurePosixPath(path)
    return place.with_name(f"{_TEMPORARY}-{place.name}").as_posix()


def _folders(path: str) -> tuple[str, ...]:
    """The folders of a path from the outermost in."""
    return tuple(parent.as_posix() for parent in reversed(PurePosixPath(path).parents))[1:]


def _quoted(path: str) -> str:
    """One word of a batch; what would be a pattern stands for itself inside quotes."""
    escaped = path.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _local(path: Path) -> str:
    return _quoted(path.as_posix())


def _below(folder: str, path: str) -> str:
    return f"{folder}/{path}" if folder else path


def _lists(here: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in here.iterdir() if A_LIST.fullmatch(path.name)}


def _names_by_turns(said: Iterable[str]) -> list[tuple[str, ...]]:
    """The names that the client listed after each `ls`; a folder that is there holds at least itself."""
    names: list[list[str]] = []
    for line in said:
        if line.startswith("sftp> -ls "):
            names.append([])
        elif names and line.strip() and not line.startswith("sftp>"):
            names[-1].append(line.strip().rpartition("/")[2])
    return [tuple(sorted(each)) for each in names]


_WORDS: Final = (
    (
        r"IDENTIFICATION HAS CHANGED|Host key verification failed|no matching host key",
        "{host} shows another key than the one in publish.yaml; ask your host whether it has a new one, and send "
        "nothing until you know: it may be another server",
    ),
    (
        r"Could not resolve|Connection refused|timed out|No route to host|unreachable",
        "{host} cannot be reached on port {port}; see whether this computer is on the network, then publish again",
    ),
    (
        r"Permission denied \(",
        "{host} does not let {user} in with the key {key}; give your host its public half (the file ending in .pub)",
    ),
    (
        r"Connection closed|Connection reset|Broken pipe|Connection to .* closed",
        "the connection to {host} was cut; publish again, and it goes on where it stopped",
    ),
)
_REFUSED: Final = (
    (r"rename .*lock", TAKEN),
    (r"Can't ls", OVERTAKEN),
    (r"symlink", "{host} makes no links; leave `changes: at once` out of publish.yaml"),
    (
        r"No space left|[Qq]uota|write remote .*Failure",
        "the disk of {host} is full; make room there and publish again",
    ),
    (r"stat.*No such file|realpath", "{host} has no folder {folder}; make it there, or write the right one"),
    (r"Permission denied", "{user} may not write in {folder} on {host}; ask your host for the right folder"),
)


def _stopped(said: str, server: Server) -> CouldNotPublish:
    """The client's last words, in the maker's."""
    about = {
        "host": server.host,
        "port": server.port,
        "user": server.user,
        "key": server.key.as_posix(),
        "folder": server.folder,
    }
    for pattern, words in _WORDS:
        if re.search(pattern, said):
            return CouldNotPublish(words.format(**about))
    for pattern, words in _REFUSED:
        if re.search(pattern, said):
            return _StoppedAt(words.format(**about))
    last = next((line for line in reversed(said.splitlines()) if line.strip()), "it gave no reason")
    return _StoppedAt(f"{server.host} stopped: {last}")

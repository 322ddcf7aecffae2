"""A target behind the computer's own OpenSSH client: one batch a run, the server's key pinned, no password."""

import os
import re
import secrets
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final

from generator.writing.paths import all_folders, folders_above
from generator.writing.targets.peer import (
    A_LIST,
    LOCK,
    MOST_BYTES_OF_A_LIST,
    MOST_BYTES_OF_AN_OWNER,
    MOST_LISTS,
    OURS,
    OVERTAKEN,
    OWNER,
    TAKEN,
    Barrier,
    CouldNotPublish,
    FolderListing,
    Found,
    Lock,
    ReleaseStep,
    Remove,
    RequireUnchanged,
    Send,
    StageLink,
    Switch,
    owner_of,
    paths_of,
    readied,
    ready_lock,
    target_text,
    too_large,
    too_many_lists,
)
from generator.writing.targets.sftp_batch import (
    LIST_COMMAND,
    Listing,
    check_way,
    command,
    listing,
    local,
    option,
    remote,
)

_CONNECT_S: Final = 20
_PINNED: Final = "wickwright-target"
_TEMPORARY: Final = ".wickwright-part"
_HERE: Final = "Remote working directory: "
_LISTS: Final = f"{OURS}/list-"


@dataclass(frozen=True, slots=True, kw_only=True)
class Server:
    """Where the site goes, the key that opens it, and the key that identifies the server."""

    host: str
    port: int
    user: str
    folder: str
    key: Path
    host_key: str
    link: str | None = None
    """The one name in the folder that may be a link."""


class SftpPeer:
    """A target over SFTP; every look and every run is one connection."""

    def __init__(self, server: Server) -> None:
        self._server = server
        if shutil.which("sftp") is None:
            raise CouldNotPublish("this computer has no sftp command; install its OpenSSH client")
        if not server.key.is_file():
            raise CouldNotPublish(
                f"there is no key {server.key.as_posix()}; name the file of your private key in publish.yaml"
            )

    def look(self, folders: tuple[str, ...]) -> Found:
        """What is there now; no list or owner is fetched that this program would not have left there."""
        with tempfile.TemporaryDirectory() as folder:
            owner, *heres = (Path(folder) / str(number) for number in range(len(folders) + 1))
            lines = [command("-get", remote(OWNER), local(owner))]
            for name, here in zip(folders, heres, strict=True):
                here.mkdir()
                # Inside quotes nothing is a pattern.
                lines.append(command("-get", remote(_below(name, _LISTS)) + b"*.json", local(here)))
            ours = [_below(name, OURS) for name in folders]
            listings = self._listed(
                (".", OURS, LOCK, *filter(None, folders), *ours), lines, self._refuse_notes
            )
            standing = {
                name: FolderListing(
                    lists=_lists(here), names=tuple(sorted(entry.name for entry in listings[name or "."]))
                )
                for name, here in zip(folders, heres, strict=True)
                if listings[name or "."]
            }
            return Found(owner=_fetched(owner, MOST_BYTES_OF_AN_OWNER), listings=standing)

    def tells_case(self) -> bool:
        """Whether our own folder answers to its name in capitals."""
        try:
            self._run([command("ls -1", remote(OURS.upper()))])
        except _StoppedAt:
            return True
        return False

    def carry_out(self, steps: Iterable[ReleaseStep], tell: Callable[[], None]) -> None:
        """Take the steps in order, once nothing is in the way of any of them."""
        steps = tuple(steps)
        paths = {written for path in paths_of(steps) for written in (path, _temporary(path))}

        def hear(line: str) -> None:
            if line.startswith("sftp> rename "):
                tell()

        try:
            self._listed((".", *sorted(all_folders(paths))), (), lambda found: _check_all(found, paths))
            self._run(_lines(steps), hear)
        except _StoppedAt as stop:
            raise CouldNotPublish(str(stop)) from stop

    def _refuse_notes(self, listings: Mapping[str, Listing]) -> None:
        """Stop where a note of ours is not a file, is reached through a link, is too large, or one of too many."""
        _refuse_longer(MOST_BYTES_OF_AN_OWNER, listings, OWNER, None)
        start = PurePosixPath(_LISTS).name
        for ours in (folder for folder in listings if folder == OURS or folder.endswith(f"/{OURS}")):
            check_way(listings, f"{ours}/{start}", self._server.link)
            names = {entry.name for entry in listings[ours] if entry.name.startswith(start)}
            if len(names) > MOST_LISTS:
                raise too_many_lists(ours)
            for name in names:
                _refuse_longer(MOST_BYTES_OF_A_LIST, listings, f"{ours}/{name}", self._server.link)

    def _listed(
        self, folders: Iterable[str], then: Iterable[bytes], judge: Callable[[Mapping[str, Listing]], None]
    ) -> Mapping[str, Listing]:
        """The content of these folders; it is checked once known, and the steps that follow may be stopped.

        Names may contain line ends: a listing ends at a word that nobody at the target can guess.
        """
        word = secrets.token_hex(16)
        asked = tuple(dict.fromkeys(folders))
        heard: list[list[str]] = []
        found: dict[str, Listing] = {}

        def hear(line: str) -> None:
            if line == f"sftp> # {word}":
                heard.append([])
                if len(heard) > len(asked):
                    found.update(
                        (name, listing(name, lines[1:])) for name, lines in zip(asked, heard, strict=False)
                    )
                    judge(found)
            elif line.startswith(_HERE) and not heard:
                self._refuse_patterns(line.removeprefix(_HERE))
            elif 0 < len(heard) <= len(asked):
                heard[-1].append(line)

        mark = f"# {word}".encode()
        looks = (line for name in asked for line in (mark, command(LIST_COMMAND, remote(name))))
        self._run((b"pwd", *looks, mark, *then), hear)
        return found

    def _refuse_patterns(self, folder: str) -> None:
        """Stop if the folder's own path would be a pattern: the client puts it unquoted before every path."""
        if re.search(r"[*?[{]|\\(?![0-3][0-7]{2})", folder):
            raise CouldNotPublish(
                f"the SFTP client reads the path {target_text(folder)} on {self._server.host} "
                "as a pattern, and might change other folders; choose one without * ? [ "
                f"{{ and \\"
            )

    def _run(self, lines: Iterable[bytes], hear: Callable[[str], None] = lambda _: None) -> None:
        with tempfile.TemporaryDirectory() as folder:
            batch, known, errors = (Path(folder) / name for name in ("batch", "known", "errors"))
            batch.write_bytes(b"\n".join((command("cd", remote(self._server.folder)), *lines, b"")))
            known.write_text(f"{_PINNED} {self._server.host_key}\n", encoding="utf-8")
            with errors.open("wb") as wrong:
                code = _talk(_command(self._server, known, batch), wrong.fileno(), hear)
            if code:
                raise _stopped(errors.read_text(encoding="utf-8", errors="replace"), self._server)


def _talk(command: list[str], errors: int, hear: Callable[[str], None]) -> int:
    """The client's exit code, after each of its lines was handled; it is ended if handling one raises."""
    with subprocess.Popen(  # noqa: S603  # the computer's own client, without the maker's own settings
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=errors,
        encoding="utf-8",
        errors="surrogateescape",
        # Makes its messages the expected ones, and non-ASCII names octal numbers.
        env={**os.environ, "LC_ALL": "C"},
    ) as client:
        try:
            for line in client.stdout or ():
                hear(line.rstrip("\r\n"))
        except BaseException:
            client.kill()
            raise
    return client.returncode


class _StoppedAt(CouldNotPublish):
    """The server refused one line of the batch."""


def _command(server: Server, known: Path, batch: Path) -> list[str]:
    """The client's arguments, without this user's settings, which could lead elsewhere."""
    options = {
        "BatchMode": "yes",
        "StrictHostKeyChecking": "yes",
        "UserKnownHostsFile": option(known),
        "IdentityFile": option(server.key),
        "GlobalKnownHostsFile": "none",
        "HostKeyAlias": _PINNED,
        "HostKeyAlgorithms": _algorithms(server.host_key),
        "IdentitiesOnly": "yes",
        "ConnectTimeout": str(_CONNECT_S),
        "ServerAliveInterval": "15",
    }
    pairs = [word for name, value in options.items() for word in ("-o", f"{name}={value}")]
    to = f"{server.user}@{server.host}"
    return ["sftp", "-F", "none", *pairs, "-P", str(server.port), "-b", str(batch), "--", to]


def _algorithms(host_key: str) -> str:
    kind = host_key.partition(" ")[0]
    return "rsa-sha2-512,rsa-sha2-256" if kind == "ssh-rsa" else kind


def _lines(steps: Iterable[ReleaseStep]) -> Iterator[bytes]:
    """The batch: folders are made before their first file is sent; a line with a hyphen may fail."""
    made: set[str] = set()
    for step in steps:
        if isinstance(step, Send):
            folders = [folder for folder in folders_above(step.path) if folder not in made]
            yield from (command("-mkdir", remote(folder)) for folder in folders)
            made.update(folders)
        yield from _lines_of(step)


def _lines_of(step: ReleaseStep) -> Iterator[bytes]:
    match step:
        case Send(path, source):
            yield command("put", local(source), remote(_temporary(path)))
            yield command("rename", remote(_temporary(path)), remote(path))
        case Remove(path):
            yield command("-rm", remote(path))
            yield command("-rm", remote(_temporary(path)))
            yield from (command("-rmdir", remote(folder)) for folder in reversed(tuple(folders_above(path))))
        case Lock(owner, name):
            ready = ready_lock(name)
            yield command("-mkdir", remote(OURS))
            yield command("-mkdir", remote(ready))
            yield command("put", local(owner), remote(owner_of(ready)))
            yield command("rename", remote(ready), remote(LOCK))
        case RequireUnchanged(path):
            yield command("ls -1", remote(path))
        case Barrier():
            # A batch is one line after the other.
            pass
        case StageLink(link, folder):
            yield command("-rm", remote(readied(link)))
            yield command("ln -s", remote(folder), remote(readied(link)))
        case Switch(link):
            yield command("rename", remote(readied(link)), remote(link))
        case _:
            yield command("-rm", remote(OWNER))
            yield command("-rmdir", remote(LOCK))


def _temporary(path: str) -> str:
    place = PurePosixPath(path)
    return place.with_name(f"{_TEMPORARY}-{place.name}").as_posix()


def _below(folder: str, path: str) -> str:
    return f"{folder}/{path}" if folder else path


def _check_all(listings: Mapping[str, Listing], paths: Iterable[str]) -> None:
    for path in sorted(paths):
        check_way(listings, path)


def _refuse_longer(most: int, listings: Mapping[str, Listing], path: str, link: str | None) -> None:
    if any(entry.size > most for entry in check_way(listings, path, link)):
        raise too_large(path)


def _lists(here: Path) -> dict[str, bytes]:
    fetched = {
        path.name: _fetched(path, MOST_BYTES_OF_A_LIST)
        for path in here.iterdir()
        if A_LIST.fullmatch(path.name)
    }
    return {name: data for name, data in fetched.items() if data is not None}


def _fetched(place: Path, most: int) -> bytes | None:
    """The bytes of a fetched file; it may have grown since it was listed."""
    if not place.is_file():
        return None
    if place.stat().st_size > most:
        raise too_large(place.name)
    return place.read_bytes()


_WORDS: Final = (
    (
        r"IDENTIFICATION HAS CHANGED|Host key verification failed|no matching host key",
        (
            "{host} shows a different key from the one in publish.yaml; ask your host "
            "whether it has a new one, and send nothing until you know: it may be another "
            "server"
        ),
    ),
    (
        r"Could not resolve|Connection refused|timed out|No route to host|unreachable",
        (
            "{host} cannot be reached on port {port}; check this computer's network "
            "connection, then publish again"
        ),
    ),
    (
        r"Permission denied \(",
        (
            "{host} does not let {user} in with the key {key}; give your host the public "
            "half (the file ending in .pub)"
        ),
    ),
    (
        r"Connection closed|Connection reset|Broken pipe|Connection to .* closed",
        "the connection to {host} was lost; publish again to continue where it stopped",
    ),
)
_REFUSED: Final = (
    (r"rename .*lock", TAKEN),
    (r"Can't ls", OVERTAKEN),
    (r"symlink", "{host} cannot make links; delete `changes: at once` in publish.yaml"),
    (
        r"No space left|[Qq]uota|write remote .*Failure",
        "the disk of {host} is full; free some space and publish again",
    ),
    (
        r"stat.*No such file|realpath",
        "{host} has no folder {folder}; create it, or correct its name in publish.yaml",
    ),
    (r"Permission denied", "{user} may not write in {folder} on {host}; ask your host for the right folder"),
)


def _stopped(said: str, server: Server) -> CouldNotPublish:
    """The client's last message, in the maker's words."""
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
    return _StoppedAt(f"{server.host} stopped: {target_text(last)}")

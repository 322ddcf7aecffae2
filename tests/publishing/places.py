"""Where a test's target keeps its files: on the disk, or in a bucket. What stands there is read apart from our code."""

import time
from pathlib import Path
from typing import Any, Protocol

OURS = ".wickwright/"


class Place(Protocol):
    """The files of a target by their paths, and a hand of somebody else in it."""

    def names(self) -> frozenset[str]: ...

    def read(self, path: str) -> bytes: ...

    def times(self) -> dict[str, object]: ...

    def settle(self) -> None: ...

    def put(self, path: str, data: bytes) -> None: ...

    def remove(self, path: str) -> None: ...


class Disk:
    """A folder, or the folder to which a link leads."""

    def __init__(self, web: Path) -> None:
        self.web = web

    def names(self) -> frozenset[str]:
        files = (path for path in self.web.rglob("*") if path.is_file())
        return frozenset(path.relative_to(self.web).as_posix() for path in files)

    def read(self, path: str) -> bytes:
        return (self.web / path).read_bytes()

    def times(self) -> dict[str, object]:
        return {str(path): path.stat().st_mtime_ns for path in self.web.rglob("*")}

    def settle(self) -> None:
        time.sleep(0.02)

    def put(self, path: str, data: bytes) -> None:
        place = self.web / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)

    def remove(self, path: str) -> None:
        (self.web / path).unlink()


class Bucket:
    """All names in a bucket that begin alike."""

    def __init__(self, client: Any, name: str, start: str = "") -> None:
        self.client = client
        self.name = name
        self.start = start

    def names(self) -> frozenset[str]:
        return frozenset(self.times())

    def read(self, path: str) -> bytes:
        data: bytes = self.object(path)["Body"].read()
        return data

    def times(self) -> dict[str, object]:
        pages = self.client.get_paginator("list_objects_v2").paginate(Bucket=self.name, Prefix=self.start)
        found = [each for page in pages for each in page.get("Contents", ())]
        return {each["Key"].removeprefix(self.start): each["LastModified"] for each in found}

    def object(self, path: str) -> Any:
        return self.client.get_object(Bucket=self.name, Key=f"{self.start}{path}")

    def settle(self) -> None:
        """Wait until the store has done what was still on its way to it."""
        before, now = None, self.times()
        while now != before:
            time.sleep(0.3)
            before, now = now, self.times()

    def put(self, path: str, data: bytes) -> None:
        self.client.put_object(Bucket=self.name, Key=f"{self.start}{path}", Body=data)

    def remove(self, path: str) -> None:
        self.client.delete_object(Bucket=self.name, Key=f"{self.start}{path}")


def everything_at(place: Place) -> dict[str, bytes]:
    """All files by their paths."""
    return {path: place.read(path) for path in place.names()}


def site_of(place: Place) -> dict[str, bytes]:
    """What people can see: all files but our own notes."""
    return {path: place.read(path) for path in place.names() if not path.startswith(OURS)}


def list_of(place: Place) -> str:
    """The name of the one list at the target."""
    (name,) = (path for path in place.names() if path.startswith(f"{OURS}list-"))
    return name

"""What a target of ``publish.yaml`` means: the place where the site goes, and how it changes there."""

from dataclasses import dataclass
from pathlib import Path, PurePath, PurePosixPath

from generator.model.publish_targets import FolderTarget, ObjectStoreTarget, SftpTarget, Target
from generator.writing.paths import can_be_laid
from generator.writing.targets.folder import FolderPeer
from generator.writing.targets.peer import CouldNotPublish, Peer, target_text
from generator.writing.targets.sftp import Server, SftpPeer
from generator.writing.targets.target_state import TargetState, by_turns, in_place, sides_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Destination:
    """A target that can be changed; ``link`` leads visitors to a release, None where files change one by one."""

    peer: Peer
    link: str | None = None

    def state(self, web: str) -> TargetState:
        """What is there now of the site at ``web``."""
        if self.link is None:
            return in_place(self.peer.look(("",)), web)
        return by_turns(self.peer.look((self.link, *sides_of(self.link))), self.link, web)


def destination_of(target: Target, content: Path) -> Destination:
    """The place a target refers to; its paths on this computer are relative to the content folder."""
    if isinstance(target, FolderTarget):
        folder = _here(content, target.folder)
        if target.changes == "at once":
            link = _link(folder)
            return Destination(peer=FolderPeer(folder.parent, link), link=link)
        return Destination(peer=FolderPeer(folder))
    if isinstance(target, ObjectStoreTarget):
        return Destination(peer=_object_store(target))
    if target.changes == "at once":
        place = PurePosixPath(target.folder)
        link = _link(place)
        return Destination(peer=_server(target, place.parent.as_posix(), content, link), link=link)
    return Destination(peer=_server(target, target.folder, content))


def _here(content: Path, written: str) -> Path:
    """A path on this computer, relative to the content folder; ``~`` is a user's home."""
    try:
        return content / Path(written).expanduser()
    except RuntimeError:
        raise CouldNotPublish(
            f"this computer knows no home folder for {target_text(Path(written).parts[0])} "
            f"in {target_text(written)}; write the whole path in publish.yaml"
        ) from None


def _link(place: PurePath) -> str:
    """The name of the link; raises CouldNotPublish for a path without a usable name."""
    if not can_be_laid(place.name):
        raise CouldNotPublish(
            "a site published all at once needs a folder with a name of its own, and "
            f"{target_text(place.name) or '/'} has none; choose another folder in publish.yaml"
        )
    return place.name


def _server(target: SftpTarget, folder: str, content: Path, link: str | None = None) -> Peer:
    return SftpPeer(
        Server(
            host=target.host,
            port=target.port,
            user=target.user,
            folder=folder,
            key=_here(content, target.key),
            host_key=target.host_key,
            link=link,
        )
    )


def _object_store(target: ObjectStoreTarget) -> Peer:
    try:
        from generator.writing.targets.object_store import Bucket, ObjectStorePeer  # noqa: PLC0415  # an extra, and slow
    except ModuleNotFoundError as fault:
        if (fault.name or "").partition(".")[0] != "botocore":
            raise
        raise CouldNotPublish(
            "the client for object stores is not installed; run this in the program's "
            "folder: python3 -m pip --python .venv/bin/python install -e '.[object-store]'"
        ) from fault
    return ObjectStorePeer(
        Bucket(
            endpoint=target.endpoint,
            name=target.bucket,
            start=f"{target.folder}/" if target.folder else "",
            region=target.region,
            profile=target.profile,
        )
    )

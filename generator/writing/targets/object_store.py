"""A target in an S3-compatible object store; the keys stay in the client's own settings."""

from base64 import b64encode
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass
from hashlib import md5
from typing import Any, Final, TypeVar

from botocore.config import Config
from botocore.exceptions import (
    BotoCoreError,
    ClientError,
    ConnectTimeoutError,
    EndpointConnectionError,
    HTTPClientError,
    NoCredentialsError,
    PartialCredentialsError,
    ProfileNotFound,
    SSLError,
)
from botocore.session import Session

from generator.writing.targets.http_headers import keeping_of, kind_of
from generator.writing.targets.peer import (
    A_LIST,
    MOST_BYTES_OF_A_LIST,
    MOST_BYTES_OF_AN_OWNER,
    MOST_LISTS,
    OURS,
    OVERTAKEN,
    OWNER,
    TAKEN,
    CouldNotPublish,
    FolderListing,
    Found,
    Lock,
    ReleaseStep,
    Remove,
    RequireUnchanged,
    Send,
    Unlock,
    too_large,
    too_many_lists,
)

_AT_ONCE: Final = 8
"""Files sent at the same time."""

_CONNECT_S, _READ_S = 20, 60
_TRIES: Final = 3
_LOCKED_ALREADY: Final = frozenset({"PreconditionFailed", "ConditionalRequestConflict"})
_A_LIST_BEGINS: Final = "list-"
_CANNOT_LOCK: Final = "NotImplemented"
_Given = TypeVar("_Given")
_Answer = TypeVar("_Answer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bucket:
    """Where the site goes; ``start`` begins every name there, ``profile`` chooses among the keys of this computer."""

    endpoint: str
    name: str
    start: str
    region: str
    profile: str | None


class ObjectStorePeer:
    """Such a store replaces an object as a whole or not at all."""

    def __init__(self, bucket: Bucket) -> None:
        self._bucket = bucket
        try:
            self._client = _client(bucket)
        except BotoCoreError as fault:
            raise _stopped(fault, bucket) from fault

    def look(self, folders: tuple[str, ...]) -> Found:
        """What is there now."""
        return Found(
            owner=self._ask(self._read_owner, OWNER),
            listings={folder: self._ask(self._folder_listing, folder) for folder in folders},
        )

    def tells_case(self) -> bool:
        """Names of objects are exact."""
        return True

    def carry_out(self, steps: Iterable[ReleaseStep], tell: Callable[[], None]) -> None:
        """Take the steps in parallel between one ``Barrier`` and the next."""
        with ThreadPoolExecutor(_AT_ONCE) as pool:
            waiting: list[tuple[ReleaseStep, Future[None]]] = []
            try:
                for step in steps:
                    match step:
                        case Send() | Remove():
                            waiting.append((step, pool.submit(self._ask, self._take, step)))
                        case Lock() | Unlock() | RequireUnchanged():
                            self._ask(self._take, step)
                        case _:
                            _settle(waiting, tell)
                _settle(waiting, tell)
            finally:
                for _, future in waiting:
                    future.cancel()

    def _take(self, step: ReleaseStep) -> None:
        match step:
            case Send(path, source):
                self._put(path, source.read_bytes())
            case Remove(path):
                self._client.delete_object(Bucket=self._bucket.name, Key=self._key(path))
            case Lock(owner, _):
                self._lock(owner.read_bytes())
            case RequireUnchanged(path):
                if self._read(path) is None:
                    raise CouldNotPublish(OVERTAKEN)
            case _:
                self._client.delete_object(Bucket=self._bucket.name, Key=self._key(OWNER))

    def _lock(self, owner: bytes) -> None:
        """The store itself refuses the second of two; the owner of the lock is read back.

        It may be our own: still on its way when an earlier run was interrupted.
        """
        try:
            self._put(OWNER, owner, IfNoneMatch="*")
        except ClientError as fault:
            if _code(fault) == _CANNOT_LOCK:
                self._put(OWNER, owner)
            elif _code(fault) not in _LOCKED_ALREADY:
                raise
        if self._read_owner(OWNER) != owner:
            raise CouldNotPublish(TAKEN)

    def _put(self, path: str, data: bytes, **more: str) -> None:
        """The store compares the bytes with their digest before it accepts them."""
        self._client.put_object(
            Bucket=self._bucket.name,
            Key=self._key(path),
            Body=data,
            ContentType=kind_of(path),
            CacheControl=keeping_of(path),
            ContentMD5=b64encode(md5(data, usedforsecurity=False).digest()).decode(),
            **more,
        )

    def _read_owner(self, path: str) -> bytes | None:
        return self._read(path, MOST_BYTES_OF_AN_OWNER)

    def _read(self, path: str, most: int = MOST_BYTES_OF_A_LIST) -> bytes | None:
        """The bytes of an object; a larger one is not fetched, whatever length the store reports."""
        try:
            found = self._client.get_object(Bucket=self._bucket.name, Key=self._key(path))
        except ClientError as fault:
            if _code(fault) == "NoSuchKey":
                return None
            raise
        with closing(found["Body"]) as body:
            data: bytes = body.read(most + 1) if found["ContentLength"] <= most else b""
        if max(len(data), found["ContentLength"]) > most:
            raise too_large(path)
        return data

    def _folder_listing(self, folder: str) -> FolderListing:
        start = f"{folder}/" if folder else ""
        ours = f"{start}{OURS}/"
        names = self._names(f"{ours}{_A_LIST_BEGINS}")
        if len(names) > MOST_LISTS:
            raise too_many_lists(ours)
        listed = [name for end in names if A_LIST.fullmatch(name := f"{_A_LIST_BEGINS}{end}")]
        lists = {name: self._read(f"{ours}{name}") for name in listed}
        return FolderListing(
            lists={name: data for name, data in lists.items() if data is not None},
            names=() if lists else self._names(start),
        )

    def _names(self, beginning: str) -> tuple[str, ...]:
        """How the names with this beginning continue; of very many the first page, enough to see whose they are."""
        start = self._key(beginning)
        found = self._client.list_objects_v2(Bucket=self._bucket.name, Prefix=start, Delimiter="/")
        keys = [each["Key"] for each in found.get("Contents", ())]
        keys += [each["Prefix"].removesuffix("/") for each in found.get("CommonPrefixes", ())]
        return tuple(sorted(name for key in keys if (name := key.removeprefix(start))))

    def _key(self, path: str) -> str:
        return f"{self._bucket.start}{path}"

    def _ask(self, question: Callable[[_Given], _Answer], about: _Given) -> _Answer:
        try:
            return question(about)
        except (BotoCoreError, ClientError) as fault:
            raise _stopped(fault, self._bucket) from fault


def _settle(waiting: list[tuple[ReleaseStep, Future[None]]], tell: Callable[[], None]) -> None:
    for step, future in waiting:
        future.result()
        if isinstance(step, Send):
            tell()
    waiting.clear()


def _client(bucket: Bucket) -> Any:
    session = Session(profile=bucket.profile)
    # Keys come from the environment and the files of this computer, never from the network.
    finder = session.get_component("credential_provider")
    for asks_the_network in ("container-role", "iam-role"):
        finder.remove(asks_the_network)
    return session.create_client(
        "s3",
        endpoint_url=bucket.endpoint,
        region_name=bucket.region,
        config=Config(
            connect_timeout=_CONNECT_S,
            read_timeout=_READ_S,
            retries={"mode": "standard", "total_max_attempts": _TRIES},
            max_pool_connections=_AT_ONCE,
            # Not every store knows checksums newer than Content-MD5.
            request_checksum_calculation="when_required",
            response_checksum_validation="when_required",
            s3={"addressing_style": "path"},
        ),
    )


def _code(fault: ClientError) -> str:
    code: str = fault.response.get("Error", {}).get("Code", "")
    return code


_NO_KEYS: Final = (
    "this computer has no keys for {endpoint}; set them as the README describes, "
    "and never in a file of the shop"
)
_WRONG_KEYS: Final = (
    "{endpoint} does not recognise this computer's keys; set the ones your store gave you for {bucket}"
)
_NOT_ALLOWED: Final = (
    "this computer's keys do not allow writing to {bucket} at {endpoint}; allow "
    "them to read, write, list and delete there"
)
_SKEWED: Final = "{endpoint} rejects this computer's clock; set the date and time, then publish again"
_UNREACHABLE: Final = (
    "{endpoint} cannot be reached; check this computer's network connection, then publish again"
)
_BY_CODE: Final[Mapping[str, str]] = {
    "AccessDenied": _NOT_ALLOWED,
    "AllAccessDisabled": _NOT_ALLOWED,
    "InvalidAccessKeyId": _WRONG_KEYS,
    "SignatureDoesNotMatch": _WRONG_KEYS,
    "NoSuchBucket": (
        "there is no bucket {bucket} at {endpoint}; create it, or correct its name in publish.yaml"
    ),
    "RequestTimeTooSkewed": _SKEWED,
    "RequestExpired": _SKEWED,
    "QuotaExceeded": "{bucket} at {endpoint} is full; free some space and publish again",
    "InsufficientStorage": "{bucket} at {endpoint} is full; free some space and publish again",
}
_BY_KIND: Final[tuple[tuple[type[BotoCoreError], str], ...]] = (
    (NoCredentialsError, _NO_KEYS),
    (PartialCredentialsError, _NO_KEYS),
    (
        ProfileNotFound,
        ("this computer has no keys under the name {profile}; write a name from its own settings"),
    ),
    (SSLError, "{endpoint} cannot prove that it is your store; send nothing until you know why"),
    (EndpointConnectionError, _UNREACHABLE),
    (ConnectTimeoutError, _UNREACHABLE),
    (HTTPClientError, "the connection to {endpoint} was lost; publish again to continue where it stopped"),
)


def _stopped(fault: BotoCoreError | ClientError, bucket: Bucket) -> CouldNotPublish:
    """The client's fault, in the maker's words."""
    about = {"endpoint": bucket.endpoint, "bucket": bucket.name, "profile": bucket.profile}
    if isinstance(fault, ClientError):
        words = _BY_CODE.get(_code(fault), "{endpoint} refused it ({code}); publish again later")
        return CouldNotPublish(words.format(**about, code=_code(fault)))
    words = next((words for kind, words in _BY_KIND if isinstance(fault, kind)), "{endpoint}: {fault}")
    return CouldNotPublish(words.format(**about, fault=fault))

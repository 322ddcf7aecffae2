"""Where the site is published: the targets of ``publish.yaml``, and what is known of each file there."""

import re
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.entry import ENTRY
from generator.model.quantities import wrong
from generator.model.words import FreeText

MOST_PORTS: Final = 65535
"""TCP has no higher port (RFC 9293, 16 bits)."""


def port(written: object) -> int:
    """A port of the server, from 1 to 65535."""
    text = str(written).strip()
    if not re.fullmatch(r"[1-9][0-9]{0,4}", text) or int(text) > MOST_PORTS:
        raise wrong(
            f"is '{text}'; a number from 1 to {MOST_PORTS} was expected", "the server is called there", "22"
        )
    return int(text)


def host_key(written: object) -> str:
    """The server's public key as its kind and its letters, without a comment."""
    text = " ".join(str(written).split())
    found = re.match(r"(?:ssh|ecdsa|sk)-[a-z0-9@.-]+ [A-Za-z0-9+/]{40,}={0,3}(?= |$)", text)
    if found is None:
        raise wrong(
            f"is '{text[:40]}'; a kind of key and its letters were expected",
            "only by its key can your server be told from one that poses as it",
            "ssh-ed25519 and the letters that follow it in your host's documentation",
        )
    return found[0]


def endpoint(written: object) -> str:
    """The address of a store: over https, or on this computer itself."""
    text = str(written).strip().rstrip("/")
    if not re.fullmatch(r"https://[^/\s]+(/\S*)?|http://(127\.0\.0\.1|localhost)(:[0-9]+)?", text):
        raise wrong(
            f"is '{text}'; an address that begins with https:// was expected",
            "without https anybody on the way could change what is sent",
            "https:// and the address that your store's documentation gives",
        )
    return text


Port = Annotated[int, BeforeValidator(port), WithJsonSchema({"type": ["string", "integer"]})]
HostKey = Annotated[str, BeforeValidator(host_key), WithJsonSchema({"type": "string"})]
Endpoint = Annotated[str, BeforeValidator(endpoint), WithJsonSchema({"type": "string"})]
Changes = Literal["file by file", "at once"]
"""Whether files are replaced one by one, or a link leads to a whole new release in one move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderTarget:
    """A folder of this computer: a disk, a mounted drive, a checkout that a host serves."""

    __pydantic_config__ = ENTRY

    to: Literal["folder"]
    folder: FreeText
    changes: Changes = "file by file"


@dataclass(frozen=True, slots=True, kw_only=True)
class SftpTarget:
    """A folder on a server that this computer's own OpenSSH reaches with the maker's key; no password is kept."""

    __pydantic_config__ = ENTRY

    to: Literal["sftp"]
    host: FreeText
    port: Port = 22
    user: FreeText
    folder: FreeText
    key: FreeText
    host_key: HostKey
    changes: Changes = "file by file"


@dataclass(frozen=True, slots=True, kw_only=True)
class ObjectStoreTarget:
    """A bucket of an S3-compatible store; the keys to it stand in this computer's own settings, never here.

    ``folder`` is what its names begin with; None where the site fills the bucket.
    """

    __pydantic_config__ = ENTRY

    to: Literal["object-store"]
    endpoint: Endpoint
    bucket: FreeText
    folder: FreeText | None = None
    region: FreeText = "us-east-1"
    profile: FreeText | None = None


Target = FolderTarget | SftpTarget | ObjectStoreTarget


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """What tells one content of a file from another."""

    sha256: str
    size: int

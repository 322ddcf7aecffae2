"""Where the site is published: the targets of ``publish.yaml``, and what is known of each file there."""

import re
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.about import About, Form
from generator.model.entry import ENTRY
from generator.model.quantities import wrong
from generator.model.words import Text

_SITE: Final = "the site is laid there"
_KNOWN: Final = "the server knows you by it"
_KIND: Final = "how the site gets there depends on it"
_STEPS: Final = "it says whether visitors may meet a half-changed site"
_FOLDER: Final = "... (../shop-site on this computer, or public_html on a server)"
_STORE: Final = "the store is found by it"


MOST_PORTS: Final = 65535
"""TCP has no higher port (RFC 9293, 16 bits)."""


def port(written: object) -> int:
    """A port of the server, from 1 to 65535."""
    text = str(written).strip()
    if not re.fullmatch(r"[1-9][0-9]{0,4}", text) or int(text) > MOST_PORTS:
        raise wrong(
            f"is '{text}'; a number from 1 to {MOST_PORTS} was expected", "the server is called there"
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
        )
    return found[0]


def endpoint(written: object) -> str:
    """The address of a store: over https, or on this computer itself."""
    text = str(written).strip().rstrip("/")
    if not re.fullmatch(r"https://[^/\s]+(/\S*)?|http://(127\.0\.0\.1|localhost)(:[0-9]+)?", text):
        raise wrong(
            f"is '{text}'; an address that begins with https:// was expected",
            "without https anybody on the way could change what is sent",
        )
    return text


_HOST_KEY: Final = "ssh-ed25519 and the letters that follow it in your host's documentation"
_ENDPOINT: Final = "https:// and the address that your store's documentation gives"
Port = Annotated[
    int, BeforeValidator(port), WithJsonSchema({"type": ["string", "integer"]}), Form("... (1 to 65535)")
]
HostKey = Annotated[
    str,
    BeforeValidator(host_key),
    WithJsonSchema({"type": "string"}),
    Form(_HOST_KEY),
]
Endpoint = Annotated[
    str,
    BeforeValidator(endpoint),
    WithJsonSchema({"type": "string"}),
    Form(_ENDPOINT),
]
Changes = Literal["file by file", "at once"]
"""Whether files are replaced one by one, or a link leads to a whole new release in one move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderTarget:
    """A folder of this computer: a disk, a mounted drive, a checkout that a host serves."""

    __pydantic_config__ = ENTRY

    to: Annotated[Literal["folder"], About(_KIND)]
    folder: Annotated[Text, About(_SITE, _FOLDER)]
    changes: Annotated[Changes, About(_STEPS)] = "file by file"


@dataclass(frozen=True, slots=True, kw_only=True)
class SftpTarget:
    """A folder on a server that this computer's own OpenSSH reaches with the maker's key; no password is kept."""

    __pydantic_config__ = ENTRY

    to: Annotated[Literal["sftp"], About(_KIND)]
    host: Annotated[Text, About("the server is called by it", "... (as your host names it)")]
    port: Annotated[Port, About("the server is called there")] = 22
    user: Annotated[Text, About(_KNOWN)]
    folder: Annotated[Text, About(_SITE, _FOLDER)]
    key: Annotated[
        Text,
        About("the server knows you by it, and no password is kept", "... (the file of your key, in ~/.ssh)"),
    ]
    host_key: Annotated[HostKey, About("only by its key can your server be told from one that poses as it")]
    changes: Annotated[Changes, About(_STEPS)] = "file by file"


@dataclass(frozen=True, slots=True, kw_only=True)
class ObjectStoreTarget:
    """A bucket of an S3-compatible store; the keys to it stand in this computer's own settings, never here.

    ``folder`` is what its names begin with; None where the site fills the bucket.
    """

    __pydantic_config__ = ENTRY

    to: Annotated[Literal["object-store"], About(_KIND)]
    endpoint: Annotated[Endpoint, About(_STORE)]
    bucket: Annotated[Text, About(_STORE)]
    folder: Annotated[Text | None, About(_SITE)] = None
    region: Annotated[Text, About(_STORE)] = "us-east-1"
    profile: Annotated[Text | None, About("the keys to the store are found by it")] = None


Target = FolderTarget | SftpTarget | ObjectStoreTarget


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """What tells one content of a file from another."""

    sha256: str
    size: int

"""Where the site is published: the targets of ``publish.yaml``, and what is known of each file there."""

import re
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.entry import FOR_YOU, About, Entry, Form, Key
from generator.model.quantities import wrong
from generator.model.words import text_from_entry

_SITE: Final = "the site is put there"
_KNOWN: Final = "the server identifies you by it"
_KIND: Final = "it decides how the site gets there"
_STEPS: Final = "it decides whether visitors may see a half-changed site"
_FOLDER: Final = "... (../shop-site on this computer, or public_html on a server)"
_STORE: Final = "it finds the store"


MOST_PORTS: Final = 65535
"""TCP has no higher port (RFC 9293, 16 bits)."""


def port(written: object) -> int:
    """A port of the server, from 1 to 65535."""
    text = str(written).strip()
    if not re.fullmatch(r"[1-9][0-9]{0,4}", text) or int(text) > MOST_PORTS:
        raise wrong(f"is '{text}'; expected a number from 1 to {MOST_PORTS}", "it is the server's port")
    return int(text)


def host_key(written: object) -> str:
    """The server's public key as its kind and its letters, without a comment."""
    text = " ".join(str(written).split())
    found = re.match(r"(?:ssh|ecdsa|sk)-[a-z0-9@.-]+ [A-Za-z0-9+/]{40,}={0,3}(?= |$)", text)
    if found is None:
        raise wrong(
            f"is '{text[:40]}'; expected a kind of key and its letters",
            "only its key tells your server from an impostor",
        )
    return found[0]


def endpoint(written: object) -> str:
    """The address of a store: over https, or on this computer."""
    text = str(written).strip().rstrip("/")
    if "@" in text:
        # What stands before it is not told: it may be a password.
        raise wrong(
            "contains a name or a password before an @",
            "anyone who reads the shop's files could replace your site",
        )
    if not text.startswith(("https://", "http://127.0.0.1", "http://localhost")):
        raise wrong(
            f"is {_spelled(text)}; expected an address that begins with https://",
            "without https anyone on the way could change what is sent",
        )
    if not re.fullmatch(_ENDPOINT, text) or "/.." in text:
        raise wrong(
            f"is {_spelled(text)}; expected a host and at most a path, without ? and #",
            "the names of bucket and files are added after it",
        )
    return text


def place(written: object) -> str:
    """A path to a folder or a file: any visible characters."""
    text = text_from_entry(written)
    if not text.isprintable() or len(text) > _MOST_LETTERS:
        raise wrong(
            (f"is {_spelled(text)}; expected a path of at most {_MOST_LETTERS} visible characters"),
            (
                "hidden characters may lead elsewhere, and the programs that send the files "
                "read them as commands"
            ),
        )
    return text


def beginning(written: object) -> str:
    """The beginning of the names in a bucket, without slashes around it."""
    text = place(written).strip("/")
    if "\\" in text or {"", ".", ".."} & {*text.split("/")}:
        raise wrong(
            f"is {_spelled(text)}; expected names with slashes between them",
            "the names of all files in the bucket begin with it",
        )
    return text


def _named(pattern: str, what: str, why: str) -> tuple[BeforeValidator, WithJsonSchema]:
    """A reader of names that are passed to another program, and must not be taken for its options."""

    def read(written: object) -> str:
        text = text_from_entry(written)
        if not re.fullmatch(pattern, text):
            raise wrong(f"is {_spelled(text)}; expected {what}", why)
        return text

    return BeforeValidator(read), _TEXT


def _spelled(text: str) -> str:
    """A text as it may be printed: short, with invisible characters spelled out."""
    short = text if len(text) <= _MOST_SHOWN else f"{text[:_MOST_SHOWN]}..."
    return f"'{short}'" if short.isprintable() else repr(short)


_MOST_SHOWN: Final = 80
_MOST_LETTERS: Final = 500
_HOST: Final = (
    r"[A-Za-z0-9]([A-Za-z0-9._-]{0,252}[A-Za-z0-9])?\.?|\[[0-9A-Fa-f:.]{2,45}(%[A-Za-z0-9]{1,16})?\]"
)
"""A name, or an address; an IPv6 address is in brackets (RFC 3986, 3.2.2)."""

_USER: Final = r"[A-Za-z0-9_]([A-Za-z0-9._+@\\-]{0,126}[A-Za-z0-9._+-])?"
_BUCKET: Final = r"[A-Za-z0-9][A-Za-z0-9._-]{1,254}"
_REGION: Final = r"[A-Za-z0-9]([A-Za-z0-9-]{0,61}[A-Za-z0-9])?"
_PROFILE: Final = r"[A-Za-z0-9_]([A-Za-z0-9._@+ -]{0,98}[A-Za-z0-9._@+-])?"
_ENDPOINT: Final = (
    r"https://([A-Za-z0-9][A-Za-z0-9._-]{0,253}|\[[0-9A-Fa-f:.]{2,45}\])(:[0-9]{1,5})?(/[A-Za-z0-9._~/-]*)?"
    r"|http://(127\.0\.0\.1|localhost)(:[0-9]{1,5})?"
)
_TEXT: Final = WithJsonSchema({"type": ["string", "number"]})
TargetPlace = Annotated[str, BeforeValidator(place), _TEXT]
Beginning = Annotated[str, BeforeValidator(beginning), _TEXT]
Host = Annotated[str, *_named(_HOST, "the name of a server", "it is the server's address")]
User = Annotated[
    str,
    *_named(
        _USER,
        "a user name at your host: a letter or digit first, then letters, digits and . _ + @ -",
        "the client is given it, and would take a hyphen for an option",
    ),
]
BucketName = Annotated[str, *_named(_BUCKET, "the name of a bucket", "it becomes part of an address")]
Region = Annotated[str, *_named(_REGION, "the name of a region", "what is sent is signed for it")]
StoreProfile = Annotated[str, *_named(_PROFILE, "the name of a profile", "it selects this computer's keys")]
Port = Annotated[
    int, BeforeValidator(port), WithJsonSchema({"type": ["string", "integer"]}), Form("... (1 to 65535)")
]
HostKey = Annotated[
    str,
    BeforeValidator(host_key),
    WithJsonSchema({"type": "string"}),
    Form("ssh-ed25519 and the letters after it, from your host's documentation"),
]
Endpoint = Annotated[
    str,
    BeforeValidator(endpoint),
    WithJsonSchema({"type": "string"}),
    Form("https:// and the address from your store's documentation"),
]
Changes = Literal["file by file", "at once"]
"""Whether files are replaced one by one, or a link leads to a whole new release in one move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderTarget(Entry):
    """A folder of this computer: a disk, a mounted drive, a checkout that a host serves."""

    to: Annotated[
        Literal["folder"],
        About(_KIND),
        Key("The site goes into a folder on this computer.", "folder", FOR_YOU),
    ]
    folder: Annotated[
        TargetPlace,
        About(_SITE, _FOLDER),
        Key("The folder that the site is put into.", "../shop-site", FOR_YOU),
    ]
    changes: Annotated[
        Changes,
        About(_STEPS),
        Key("Whether visitors get the new site all at once or file by file.", "at once", FOR_YOU),
    ] = "file by file"


@dataclass(frozen=True, slots=True, kw_only=True)
class SftpTarget(Entry):
    """A folder on a server that this computer's own OpenSSH reaches with the maker's key; no password is kept."""

    to: Annotated[
        Literal["sftp"], About(_KIND), Key("The site goes to a web host over SFTP.", "sftp", FOR_YOU)
    ]
    host: Annotated[
        Host,
        About("it is the server's address", "... (as your host names it)"),
        Key("The name of the server, as your host gives it.", "sftp.host.example", FOR_YOU),
    ]
    port: Annotated[
        Port,
        About("it is the server's port"),
        Key("The port, if your host names another than 22.", "22", FOR_YOU),
    ] = 22
    user: Annotated[User, About(_KNOWN), Key("Your user name at the host.", "quillfern", FOR_YOU)]
    folder: Annotated[
        TargetPlace,
        About(_SITE, _FOLDER),
        Key("The folder on the server that the site is put into.", "public_html", FOR_YOU),
    ]
    key: Annotated[
        TargetPlace,
        About(
            "the server identifies you by it, and no password is kept",
            "... (the file of your key, in ~/.ssh)",
        ),
        Key("The file of your private key on this computer.", "~/.ssh/quillfern", FOR_YOU),
    ]
    host_key: Annotated[
        HostKey,
        About("only its key tells your server from an impostor"),
        Key(
            "The server's public key, from your host's documentation.",
            "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA",
            FOR_YOU,
        ),
    ]
    changes: Annotated[
        Changes,
        About(_STEPS),
        Key("Whether visitors get the new site all at once or file by file.", "at once", FOR_YOU),
    ] = "file by file"


@dataclass(frozen=True, slots=True, kw_only=True)
class ObjectStoreTarget(Entry):
    """A bucket of an S3-compatible store; its keys are in this computer's own settings, never here.

    ``folder`` is what its names begin with; None where the site fills the bucket.
    """

    to: Annotated[
        Literal["object-store"],
        About(_KIND),
        Key("The site goes into a bucket of an S3-compatible store.", "object-store", FOR_YOU),
    ]
    endpoint: Annotated[
        Endpoint, About(_STORE), Key("The address of the store.", "https://store.example", FOR_YOU)
    ]
    bucket: Annotated[BucketName, About(_STORE), Key("The name of the bucket.", "quillfern-site", FOR_YOU)]
    folder: Annotated[
        Beginning | None,
        About(_SITE),
        Key("What the names of the files begin with, if the site does not fill the bucket.", "shop", FOR_YOU),
    ] = None
    region: Annotated[
        Region, About(_STORE), Key("The region of the store, if it has any.", "eu-west-1", FOR_YOU)
    ] = "us-east-1"
    profile: Annotated[
        StoreProfile | None,
        About("it selects the keys to the store"),
        Key("The profile on this computer that holds the keys to the store.", "quillfern", FOR_YOU),
    ] = None


Target = FolderTarget | SftpTarget | ObjectStoreTarget


@dataclass(frozen=True, slots=True, kw_only=True)
class FileDigest:
    """The digest and size by which file contents are told apart."""

    sha256: str
    size: int

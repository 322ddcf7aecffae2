"""The public page around a sealed sheet: who made it, how to open it, and nothing of whom it is for."""

from dataclasses import dataclass
from typing import Final

from generator.document import Document
from generator.documents.house import House

_ROOT: Final = "site/"
_SAID: Final = ("opening", "missing", "cut", "wrong", "insecure", "too_old")
"""The page's messages, each one sentence; its script knows them by these names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SealedSheet:
    """A sheet as ciphertext in base64, its address from the site's root, and its content security policy."""

    path: str
    text: str
    policy: str


def sealed_page(house: House, sheet: SealedSheet) -> Document:
    """The page at the address of one link; it is the same for all buyers, except for the sheet in it."""
    words, maker = house.words["sealed"], house.maker
    names = {"house": maker.name, "contact": maker.email}
    return Document(
        path=f"{_ROOT}{sheet.path}",
        template="pages/sealed.html",
        value={
            "title": words["title"].format(**names),
            "heading": words["heading"],
            "house": maker.name,
            "language": maker.language,
            "policy": sheet.policy,
            "sealed": sheet.text,
            "path": sheet.path,
            "no_script": words["no_script"],
            "box": words["box"],
            "button": words["button"],
            "said": tuple({"name": name, "text": words[name].format(**names)} for name in _SAID),
        },
    )

"""What every paper is made from: the house, its words, and its scents with the facts of their sizes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, Final, TypeVar

from generator.facts.facts import Facts
from generator.facts.fragrance_loads import FragranceLoads
from generator.ledgers.standing import SheetState
from generator.model.candle import Candle
from generator.model.language_tables import MaterialWords, Wording
from generator.model.lots import Lot, Recall
from generator.model.maker import Collection, Maker
from generator.model.recorded import Recorded
from generator.model.shop import Page
from generator.model.trade import Terms

_Known = TypeVar("_Known")

_NOTHING: Final[Mapping[str, Any]] = {}
"""One object for all pages, so that they are seen to hold the same."""

HOME_PAGE: Final = "index.html"

Words = Mapping[str, Mapping[str, str]]
"""The sentences of one language, by subject and name; ``str.format`` puts in numbers and names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendition:
    """One file of a photo as published: path from the site's root, size, format (``jpeg`` or ``webp``)."""

    path: str
    width: int
    height: int
    format: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeOf:
    """One stock code of a scent: its record and the facts worked out from it.

    ``key`` is the digest of both: of the record, and of how it is shown.
    """

    recorded: Recorded
    facts: Facts
    key: str

    @property
    def object_name(self) -> str:
        """Its name where a drawing shows it: its container's, else its size's."""
        container = self.facts.container
        return container.name if container else self.recorded.size_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Scent:
    """One scent with its sizes, in the order of its entry."""

    candle: Candle
    sizes: tuple[SizeOf, ...]

    def in_size(self, stock_code: str) -> "Scent":
        """The same scent in only one of its sizes."""
        return replace(self, sizes=tuple(size for size in self.sizes if size.facts.stock_code == stock_code))


@dataclass(frozen=True, slots=True, kw_only=True)
class Recalled:
    """A recall with the lots it reaches, and the stock codes whose pages carry it."""

    notice: Recall
    lots: tuple[Lot, ...]
    stock_codes: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LanguagePack:
    """Words and the law's wording in one language; ``materials`` are those of all languages.

    There is one object for each language, so that what is worded in it can be remembered. ``earlier`` are the same
    with the sentences of sheets issued in earlier editions of the words, by the number of the edition.
    """

    words: Words
    wording: Wording
    language: str
    materials: tuple[MaterialWords, ...]
    earlier: Mapping[int, "LanguagePack"] = field(default_factory=dict)

    def of_edition(self, edition: int | None) -> "LanguagePack":
        """The same language in an edition of the words; None is the first."""
        return self.earlier.get(edition or 1, self)


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """The shop as its papers see it on one day.

    ``sheets`` are the burn-safety sheets by stock code; with ``drafts`` the site shows those that are not issued.
    ``cards`` are the pictures that a shared link shows, by the page's address from the site's root.
    ``loads`` are those of each fragrance, by its id.
    ``speech`` is its own language, ``language_packs`` all languages of its papers, by code.
    """

    maker: Maker
    collections: Mapping[str, Collection]
    scents: tuple[Scent, ...]
    photos: Mapping[str, tuple[Rendition, ...]]
    speech: LanguagePack
    as_of: date
    sheets: Mapping[str, SheetState]
    drafts: bool
    pages: tuple[Page, ...] = ()
    lots: tuple[Lot, ...] = ()
    recalls: tuple[Recalled, ...] = ()
    terms: Terms | None = None
    cards: Mapping[str, Rendition] = field(default_factory=dict)
    loads: Mapping[str, FragranceLoads] = field(default_factory=dict)
    language_packs: Mapping[str, LanguagePack] = field(default_factory=dict)

    @property
    def words(self) -> Words:
        """The sentences of its language."""
        return self.speech.words

    @property
    def sizes(self) -> tuple[SizeOf, ...]:
        """Every stock code, scent by scent."""
        return tuple(size for scent in self.scents for size in scent.sizes)

    def about(self, *scents: Scent, stock_codes: Iterable[str] = ()) -> "House":
        """The same house for a page about these scents, or about none, with only what belongs to them.

        ``stock_codes`` adds the sheets and recalls of codes that may no longer belong to a scent.
        """
        sizes = [size for scent in scents for size in scent.sizes]
        codes = {*stock_codes, *(size.facts.stock_code for size in sizes)}
        pages = (HOME_PAGE, *(size.facts.site_path for size in sizes))
        photos = [name for scent in scents for size in scent.candle.sizes for name in size.photos]
        return replace(
            self,
            scents=scents,
            collections=_part(self.collections, (scent.candle.collection for scent in scents)),
            photos=_part(self.photos, photos),
            sheets=_part(self.sheets, codes),
            cards=_part(self.cards, pages),
            recalls=tuple(one for one in self.recalls if codes & one.stock_codes),
            pages=(),
            lots=(),
            loads=_NOTHING,
        )

    def speaking(self, language: str | None) -> "House":
        """The same house in another language; in its own where it has no words for that one."""
        if language is None or language == self.maker.language or language not in self.language_packs:
            return self
        maker = replace(self.maker, language=language)
        return replace(self, maker=maker, speech=self.language_packs[language])


def _part(known: Mapping[str, _Known], keys: Iterable[str]) -> dict[str, _Known]:
    return {key: known[key] for key in sorted(set(keys)) if key in known}

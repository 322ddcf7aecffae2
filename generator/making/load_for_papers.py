"""A shop whose entries are sound and whose house can speak, for commands that make single papers of it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from generator.documents.house import House, SizeOf
from generator.making.load_shop import Known, know
from generator.making.one_writer import alone_in_output
from generator.making.options import CommandOptions
from generator.making.papers import house_of
from generator.making.pictures import NO_PHOTOS
from generator.making.presentation import Presentation
from generator.making.report import Refusal, nearest_codes, say_written, tell
from generator.model.shop import Shop
from generator.problems import is_error
from generator.writing.output import LazyBytes
from generator.writing.store import Store
from generator.writing.whole_files import replace_file


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """The shop as recorded, as worked out, and as its papers see it."""

    shop: Shop
    known: Known
    house: House
    presentation: Presentation

    @property
    def sizes(self) -> Mapping[str, SizeOf]:
        """Every stock code with what was recorded and worked out of it."""
        return {size.facts.stock_code: size for scent in self.house.scents for size in scent.sizes}


def ready(asked: CommandOptions, store: Store, otherwise: str) -> Ready | None:
    """The shop, or None after its errors were told; ``otherwise`` says what was not done then."""
    known = know(asked, store).as_it_was(asked.as_of)
    if known.shop is None or known.presentation is None or not known.is_sound:
        tell(filter(is_error, known.problems), as_json=asked.as_data, then=otherwise)
        return None
    house = house_of(known.shop, known, NO_PHOTOS, known.presentation.language_packs)
    return Ready(shop=known.shop, known=known, house=house, presentation=known.presentation)


def unknown_codes(stock_codes: Iterable[str], known: Collection[str], otherwise: str) -> tuple[Refusal, ...]:
    """Those that are no stock codes of the shop."""
    return tuple(
        Refusal(what=f"there is no stock code '{code}'", then=otherwise, write=nearest_codes(code, known))
        for code in stock_codes
        if code not in known
    )


def write_papers(asked: CommandOptions, files: Mapping[str, bytes | LazyBytes], *notes: str) -> None:
    """Put papers below the output folder, each in the place of the old one; say where they are, with notes on them."""
    with alone_in_output(asked.output, "papers"):
        for path, data in files.items():
            place = asked.output / path
            place.parent.mkdir(parents=True, exist_ok=True)
            replace_file(place, data.fetch() if isinstance(data, LazyBytes) else data)
    say_written(asked, [asked.output / path for path in files], *notes)

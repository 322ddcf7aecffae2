"""A shop whose entries are sound and whose house can speak, for commands that make single papers of it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.documents.house import House, SizeOf
from generator.model.shop import Shop
from generator.problems import Problem, is_error
from generator.stories.asked import Asked
from generator.stories.one_writer import alone_in_output
from generator.stories.papers import house_of
from generator.stories.setting import Setting, setting_of
from generator.stories.shop import Known, know
from generator.stories.telling import nearest_codes, tell
from generator.stories.verify import NO_PHOTOS
from generator.writing.output import Held
from generator.writing.store import Store
from generator.writing.whole_files import replace_file


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """The shop as recorded, as worked out, and as its papers see it."""

    shop: Shop
    known: Known
    house: House
    setting: Setting

    @property
    def sizes(self) -> Mapping[str, SizeOf]:
        """Every stock code with what was recorded and worked out of it."""
        return {size.facts.stock_code: size for scent in self.house.scents for size in scent.sizes}


def ready(asked: Asked, store: Store, otherwise: str) -> Ready | None:
    """The shop, or None after its errors were told; ``otherwise`` says what was not done then."""
    known = know(asked, store).as_it_was(asked.as_of)
    errors = [problem for problem in known.problems if is_error(problem)]
    setting = setting_of(asked.content, known.shop, known.places) if known.shop else None
    if isinstance(setting, Problem):
        errors.append(setting)
    if known.shop is None or errors or not isinstance(setting, Setting):
        tell(errors, as_json=asked.as_data, then=otherwise)
        return None
    house = house_of(known.shop, known, NO_PHOTOS, setting.speeches)
    return Ready(shop=known.shop, known=known, house=house, setting=setting)


def are_known(stock_codes: Iterable[str], sizes: Mapping[str, SizeOf], otherwise: str) -> bool:
    """Whether each is a stock code of the shop; those that are not are told."""
    unknown = [code for code in stock_codes if code not in sizes]
    for code in unknown:
        print(f"there is no stock code '{code}'; {nearest_codes(code, sizes)}; {otherwise}")
    return not unknown


def write_papers(asked: Asked, files: Mapping[str, bytes | Held]) -> None:
    """Put papers below the output folder, each in the place of the old one, and say where they are."""
    with alone_in_output(asked.output, "papers"):
        for path, data in files.items():
            place = asked.output / path
            place.parent.mkdir(parents=True, exist_ok=True)
            replace_file(place, data.fetch() if isinstance(data, Held) else data)
            print(f"wrote {place.as_posix()}")

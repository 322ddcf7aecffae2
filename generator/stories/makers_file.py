"""``papers file STOCK_CODE``: the maker's file on one candle for an officer, as one private page."""

from collections.abc import Iterator

from generator.documents.frame import frame
from generator.documents.house import House, SizeOf
from generator.documents.makers_file import makers_file
from generator.problems import Problem, is_error
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT, WRONG_USE
from generator.stories.papers import house_of
from generator.stories.setting import Setting, setting_of
from generator.stories.shop import Known, know
from generator.stories.telling import nearest_codes, tell
from generator.stories.verify import NO_PHOTOS
from generator.writing.store import Store
from generator.writing.templates import Templates
from generator.writing.whole_files import replace_file


def run(asked: Asked, stock_code: str) -> int:
    """Exit code 0 when the file is written, 1 when entries are at fault, 2 for an unknown stock code."""
    known = know(asked, Store(asked.output / ".store"))
    errors = [problem for problem in known.problems if is_error(problem)]
    setting = setting_of(asked.content, known.shop, known.places) if known.shop else None
    if isinstance(setting, Problem):
        errors.append(setting)
    if known.shop is None or errors or not isinstance(setting, Setting):
        tell(errors, as_json=asked.as_data, then="no file was written")
        return AT_FAULT
    house = house_of(known.shop, known, NO_PHOTOS, setting.speeches)
    sizes = {size.facts.stock_code: size for scent in house.scents for size in scent.sizes}
    size = sizes.get(stock_code)
    if size is None:
        print(f"there is no stock code '{stock_code}'; {nearest_codes(stock_code, sizes)}")
        return WRONG_USE
    document = makers_file(house, size, tuple(_risks(house, size, known)))
    path = asked.output / document.path
    path.parent.mkdir(parents=True, exist_ok=True)
    replace_file(path, Templates(setting.theme).render(document, frame(house)))
    print(
        f"wrote {path.as_posix()}; it holds the formula, so give it to nobody but an officer who asks for it"
    )
    return 0


def _risks(house: House, size: SizeOf, known: Known) -> Iterator[str]:
    """The maker's own notes, and every warning that stands against the candle today."""
    candle = next(scent.candle for scent in house.scents if size in scent.sizes)
    entry = next(one for one in candle.sizes if one.stock_code == size.facts.stock_code)
    yield from (note for note in (candle.notes, entry.notes) if note)
    files = {f"candles/{candle.id}.yaml", *(test.file for test in size.recorded.tests)}
    shown = {known.places.shown(file) for file in files}
    yield from (f"{problem.what}: {problem.why}" for problem in known.problems if problem.place.file in shown)

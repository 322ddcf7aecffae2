"""``issue --verify``: every fingerprint and every issued page worked out again and held against what is there."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from generator.document import Promised, Value
from generator.documents.frame import frame
from generator.documents.safety import issued_pages
from generator.problems import Problem, is_error
from generator.rules.ledgers import faults_within
from generator.rules.publishing import withdrawn
from generator.stories.asked import Asked
from generator.stories.exit_codes import AT_FAULT
from generator.stories.papers import house_of
from generator.stories.pictures import Photos
from generator.stories.release import SITE
from generator.stories.setting import Setting, setting_of
from generator.stories.shop import Known, know
from generator.stories.telling import tell
from generator.writing.store import Store
from generator.writing.templates import Templates

NO_PHOTOS = Photos(renditions={}, files={}, problems=())


def run(asked: Asked) -> int:
    """Exit code 0 when every issued sheet is as it was issued, 1 with the differences."""
    known = know(asked, Store(asked.output / ".store"))
    errors = [problem for problem in known.problems if is_error(problem)]
    errors += (fault for fault in _faults_found_anew(known) if fault not in errors)
    setting = setting_of(asked.content, known.shop, known.places) if known.shop else None
    if isinstance(setting, Problem):
        errors.append(setting)
    if known.shop is None or errors or not isinstance(setting, Setting):
        tell(errors, as_json=asked.as_data, then="the issued sheets are not as they were, or cannot be told")
        return AT_FAULT
    house = house_of(known.shop, known, NO_PHOTOS, setting.speeches)
    papers = [paper for scent in house.scents for size in scent.sizes for paper in issued_pages(house, size)]
    differences = list(_differences(papers, Templates(setting.theme), frame(house), asked.output))
    unlisted = list(_unlisted(papers, asked))
    for told in (*differences, *unlisted):
        print(told)
    revisions = sum(len(ledger.revisions) for ledger in known.shop.ledgers.values())
    print(
        f"{revisions} fingerprints as issued, {revisions - len(differences)} of {revisions} pages as issued"
    )
    return AT_FAULT if differences or unlisted else 0


def _faults_found_anew(known: Known) -> Iterator[Problem]:
    """What is wrong with the ledgers, whatever an earlier build remembers of them."""
    for ledger in known.shop.ledgers.values() if known.shop else ():
        for fault in faults_within(ledger):
            yield fault.at(known.places.of(fault.path))


def _differences(
    papers: Iterable[Promised], templates: Templates, site: Mapping[str, Value], output: Path
) -> Iterator[str]:
    """Every issued page that is missing from OUTPUT, or that says something else there."""
    for paper in papers:
        place = output / paper.path
        if not place.is_file():
            yield f"{place.as_posix()} is missing; wickwright build makes it again"
        elif place.read_bytes() != templates.render(paper.made(), site):
            yield f"{place.as_posix()} is not what was issued; wickwright build makes it again"


def _unlisted(papers: Iterable[Promised], asked: Asked) -> Iterator[str]:
    """Every issued page in OUTPUT whose revision is in no list any more."""
    site = asked.output / "site"
    there = (page.relative_to(site).as_posix() for page in site.glob("safety/*.html"))
    for page in withdrawn((paper.path.removeprefix(SITE) for paper in papers), there):
        yield (
            f"{(site / page).as_posix()} was issued, and no list of revisions in {asked.content.as_posix()}/sheets "
            "has it; bring that file back from version control or a copy before you build"
        )

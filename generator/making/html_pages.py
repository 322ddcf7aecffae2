"""From deferred papers to files that are printed only if something is new; and the theme's own files."""

from collections.abc import Iterable, Iterator, Mapping
from functools import partial

from generator.document import DeferredDocument, Document, PlainText, Value
from generator.writing.output import PlannedFile, ready_file
from generator.writing.program import program_digest
from generator.writing.templates import Templates, page_key, shared_digest
from generator.writing.themes import Theme, theme_assets


def printed(
    papers: Iterable[DeferredDocument[Document | PlainText]], site: Mapping[str, Value], theme: Theme
) -> Iterator[PlannedFile]:
    """Every paper as a file below the output folder."""
    templates, surroundings = Templates(theme), shared_digest(site, theme.digest, program_digest())
    for paper in papers:
        yield PlannedFile(
            path=paper.path,
            key=page_key(paper, surroundings),
            make=partial(rendered, paper, templates, site),
            private=paper.private,
        )


def rendered(
    paper: DeferredDocument[Document | PlainText], templates: Templates, site: Mapping[str, Value]
) -> bytes:
    """Its bytes."""
    made = paper.made()
    return made.text.encode() if isinstance(made, PlainText) else templates.render(made, site)


def published(theme: Theme) -> Iterator[PlannedFile]:
    """The theme's styles and scripts, for the site and for the workshop."""
    for path, data in theme_assets(theme).items():
        for root in ("site", "workshop"):
            yield ready_file(f"{root}/{path}", data)

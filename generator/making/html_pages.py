"""Documents to bytes, each printed once and remembered by everything it depends on."""

from collections.abc import Iterable, Mapping
from functools import partial

from generator.document import DeferredDocument, Document, PlainText, Value
from generator.making.progress import Progress
from generator.writing.output import LazyBytes, lazy
from generator.writing.program import program_digest
from generator.writing.store import Store
from generator.writing.templates import Templates, page_key, shared_digest
from generator.writing.themes import Theme, theme_assets, theme_digest


def printed(
    papers: Iterable[Document | DeferredDocument | PlainText],
    site: Mapping[str, Value],
    theme: Theme,
    store: Store,
) -> Mapping[str, bytes | LazyBytes]:
    """Every paper's bytes by its path below the output folder."""
    papers = tuple(papers)
    shelf, templates, progress = store.shelf("pages"), Templates(theme), Progress("pages", len(papers))
    surroundings = shared_digest(site, theme_digest(theme), program_digest())
    files: dict[str, bytes | LazyBytes] = {}
    for paper in papers:
        if isinstance(paper, PlainText):
            files[paper.path] = lazy(paper.text.encode(), private=paper.private)
        elif isinstance(paper, Document) and paper.private:
            files[paper.path] = lazy(templates.render(paper, site), private=True)
        else:
            key = page_key(paper, surroundings)
            files[paper.path] = shelf.lazy(key, partial(_rendered, paper, templates, site))
        progress.step()
    progress.end()
    return files


def _rendered(paper: Document | DeferredDocument, templates: Templates, site: Mapping[str, Value]) -> bytes:
    return templates.render(paper.made(), site)


def published(theme: Theme) -> Mapping[str, bytes]:
    """The theme's styles and scripts, for the site and for the workshop."""
    assets = theme_assets(theme)
    return {f"{root}/{path}": data for root in ("site", "workshop") for path, data in assets.items()}

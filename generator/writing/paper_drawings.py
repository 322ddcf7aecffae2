"""Drawings made for pages, as they stand on paper: with the colours that a page's styles would give them."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Final

_STYLES: Final = "papers/parts/drawings.css"
_SIGNS: Final = "parts/pictograms"
_VARIABLE: Final = re.compile(r"--([\w-]+):\s*([^;}]+)")
_NAMESPACE: Final = ' xmlns="http://www.w3.org/2000/svg"'


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperStyles:
    """The styles of a theme's drawings on paper."""

    rules: str

    def dressed(self, drawing: str) -> str:
        """The drawing with the styles inside, and their variables by their values, which typesetters do not know."""
        namespace = "" if "xmlns=" in drawing else _NAMESPACE
        opened = drawing.replace("<svg", f"<svg{namespace}", 1)
        for name, colour in _VARIABLE.findall(self.rules):
            opened = opened.replace(f"var(--{name})", colour)
        return opened.replace(">", f"><style>{self.rules}</style>", 1)


def paper_styles(folder: Path) -> PaperStyles:
    """Those of a folder of templates; none where it has no such file."""
    path = folder / _STYLES
    return PaperStyles(rules=path.read_text(encoding="utf-8") if path.is_file() else "")


def dress_signs(folder: Path, styles: PaperStyles) -> None:
    """Rewrites the signs of a folder as they stand on paper, once for all papers."""
    for path in (folder / _SIGNS).glob("*.svg"):
        path.write_text(styles.dressed(path.read_text(encoding="utf-8")), encoding="utf-8")

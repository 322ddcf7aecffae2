"""What a paper says, for tests to look into."""

import json
from typing import Any

from generator.document import Document, PlainText


def told(document: Document) -> Any:
    """A document's value as any JSON reader sees it."""
    return json.loads(json.dumps(document.value, default=dict))


def said(paper: Document | PlainText) -> str:
    """All that a paper says, as one text."""
    if isinstance(paper, PlainText):
        return paper.text
    return json.dumps(paper.value, default=dict, ensure_ascii=False)

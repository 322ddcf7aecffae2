"""Names of substances in the sentences of a label, whatever signs they hold."""

import pytest

from generator.documents.hazard_labels import contains, sentence
from generator.reading.languages import wording


@pytest.mark.parametrize("name", ["a\\b", r"\1", r"\g<0>", "\\", r"\n"])
def test_a_backslash_in_a_substance_s_name_is_printed_as_it_is_written(name: str) -> None:
    words = wording("en")
    assert words is not None

    assert sentence("EUH208", (name, "linalool"), words) == (
        f"Contains {name}, linalool. May produce an allergic reaction."
    )
    assert contains((name,), words) == f"Contains {name}."

"""Signs and drawings on paper: what a style sheet would give them stands in them as attributes."""

from pathlib import Path

import pytest

from generator.writing.paper_drawings import PaperStyles, dress_signs, paper_styles

STYLES = """
/* On paper. */
svg { color: #123; --no: #9b2423; }
.ground, .bar { fill: #fff; }
.must .ground { fill: #148; stroke-width: 2; }
"""
SIGN = (
    '<svg class="must" viewBox="0 0 9 9"><g class="ground"><path class="bar" d="M0 0"/></g>'
    '<path stroke="currentColor" d="M1 1"/></svg>'
)


@pytest.fixture(name="styles")
def _styles(tmp_path: Path) -> PaperStyles:
    (tmp_path / "papers" / "parts").mkdir(parents=True)
    (tmp_path / "papers" / "parts" / "drawings.css").write_text(STYLES, encoding="utf-8")
    return paper_styles(tmp_path)


def test_the_rule_of_more_classes_wins(styles: PaperStyles) -> None:
    assert '<g class="ground" fill="#148" stroke-width="2">' in styles.dressed(SIGN)


def test_a_class_alone_is_given_what_it_says(styles: PaperStyles) -> None:
    assert '<path class="bar" d="M0 0" fill="#fff" />' in styles.dressed(SIGN)


def test_the_colour_of_the_ink_and_of_variables_is_written_out(styles: PaperStyles) -> None:
    drawing = '<svg viewBox="0 0 9 9"><path fill="currentColor" stroke="var(--no)" d="M0 0"/></svg>'

    assert styles.coloured(drawing) == (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path fill="#123" stroke="#9b2423" d="M0 0"/></svg>'
    )


def test_a_folder_without_styles_leaves_signs_as_they_are_but_for_their_namespace(tmp_path: Path) -> None:
    (tmp_path / "parts" / "pictograms").mkdir(parents=True)
    sign = tmp_path / "parts" / "pictograms" / "set.svg"
    sign.write_text('<svg viewBox="0 0 9 9"><path class="bar" d="M0 0" /></svg>', encoding="utf-8")

    dress_signs(tmp_path, paper_styles(tmp_path))

    assert sign.read_text(encoding="utf-8") == (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path class="bar" d="M0 0" /></svg>'
    )

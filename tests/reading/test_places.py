from generator.problems import Place, Places, Spot

SPOTS = Spot(2, 1, 2, 1, {"fill": Spot(4, 3, 3, 1, {"to": Spot(4, 7, 4, 3)})})
TABLE = Spot(1, 1, 1, 1, {0: Spot(2, 1, 2, 1, {"share": Spot(2, 10, 2, 10)})})
PLACES = Places(
    shown_as="my/content",
    files={"formats/jar.yaml": lambda: SPOTS, "fragrances/salt.csv": lambda: TABLE},
    elsewhere={("fragrances/salt.yaml", "composition"): "fragrances/salt.csv"},
)


def test_a_value_is_found_below_the_folder_as_the_maker_writes_it() -> None:
    assert PLACES.of(("formats/jar.yaml", "fill", "to")) == Place("my/content/formats/jar.yaml", 4, 7)


def test_a_key_is_found_before_its_value() -> None:
    assert PLACES.key(("formats/jar.yaml", "fill")) == Place("my/content/formats/jar.yaml", 3, 1)


def test_what_is_not_written_is_found_at_the_nearest_thing_around_it() -> None:
    assert PLACES.of(("formats/jar.yaml", "fill", "level", 3)) == Place("my/content/formats/jar.yaml", 4, 3)


def test_a_file_that_was_not_read_is_found_at_its_start() -> None:
    assert PLACES.of(("lots.csv", 3, "lot")) == Place("my/content/lots.csv", 1, 1)


def test_a_value_written_in_another_file_is_found_there() -> None:
    place = PLACES.of(("fragrances/salt.yaml", "composition", 0, "share"))

    assert place == Place("my/content/fragrances/salt.csv", 2, 10)

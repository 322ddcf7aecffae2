"""Praise that the law or honesty forbids: found by itself, in every text a shopper reads, and nowhere else."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from generator.model.amounts import Amount, AmountUnit
from generator.model.candle import Candle, Colour, ScentNotes
from generator.model.formats import Format
from generator.model.maker import Collection
from generator.model.materials import Wax, WaxDensity
from generator.model.quantities import DensityAt
from generator.model.shop import Page, Shop
from generator.problems import Fault, Severity
from generator.reading.languages import claim_words
from generator.rules.entries.claims import CLAIMS, claim_faults
from tests.rules.entries import EMPTY

LANGUAGES = claim_words()
DENSITY = WaxDensity(set_g_per_ml=0.9, molten=DensityAt(0.87, 75.0))
SOY = Wax(id="soy", name="Soy wax", density=DENSITY, declared_as=("hydrogenated soybean oil",))
BLEND = Wax(id="blend", name="Container wax", density=DENSITY, declared_as=("soybean oil", "paraffin wax"))
BEESWAX = Wax(id="bees", name="White beeswax", density=DENSITY)
KILO = Amount(Decimal(1000), AmountUnit.GRAMS)
CANDLE = Candle(
    id="heron", scent="Heron", collection="shore", ingredients={"soy": KILO}, sizes=(), description=None
)
SHOP = replace(
    EMPTY,
    collections={"shore": Collection(name="Shore", text="Sand.")},
    waxes={"soy": SOY, "blend": BLEND, "bees": BEESWAX},
    candles={"heron": CANDLE},
)


def faults(candle: Candle, *, classified: bool = False) -> tuple[Fault, ...]:
    shop = replace(SHOP, candles={"heron": candle})
    return tuple(claim_faults(shop, {"heron"} if classified else set(), LANGUAGES))


def said_of(description: str, wax: str = "soy", *, classified: bool = False) -> list[str]:
    candle = replace(CANDLE, description=description, ingredients={wax: KILO})
    return [fault.what for fault in faults(candle, classified=classified)]


def test_the_whole_warning_of_a_classified_candle() -> None:
    (fault,) = faults(replace(CANDLE, description="Non-toxic, and it smells of rain."), classified=True)

    assert fault == Fault(
        path=("candles/heron.yaml", "description"),
        what="'Non-toxic' is claimed for Heron, which is classified as hazardous",
        why="CLP Art. 25(4) forbids such words on a classified mixture and in its advertising (FOUND-2nd)",
        fix="say what it smells of, or what it is made of",
        severity=Severity.WARNING,
    )


@pytest.mark.parametrize(
    "claim",
    ["non toxic", "nontoxic", "harmless", "toxin-free", "safe for pets", "non\u2011toxic"],
)
def test_words_that_only_a_classified_candle_may_not_carry(claim: str) -> None:
    """standards.md C15 (FOUND-2nd): non-toxic, harmless and alike."""
    text = f"It is {claim}, we think."

    assert (len(said_of(text, classified=True)), said_of(text)) == (1, [])


@pytest.mark.parametrize(
    "claim",
    [
        "eco-friendly",
        "environmentally friendly",
        "kind to the planet",
        "sustainable",
        "carbon-neutral",
        "ecological",
        "environmentally correct",
        "nature's friend",
        "climate friendly",
        "carbon-friendly",
        "gentle on the environment",
        "kind to nature",
        "green choice",
        "going green",
        "energy-efficient",
        "biodegradable",
        "bio-based",
        "biobased",
        "aromatherapy",
        "relieves stress",
        "purifies the air",
        "repels insects",
        "keeps midges away",
        "keeps the midges off",
        "insect-repellent",
        "clean-burning",
        "burns cleanly",
        "soot-free",
    ],
)
def test_words_that_no_candle_may_carry_unproven(claim: str) -> None:
    assert said_of(f"This candle: {claim}.") == [f"'{claim}' is claimed for Heron"]


@pytest.mark.parametrize(
    "claim",
    [
        "ungiftig",
        "Ungiftige",
        "nicht giftig",
        "unschädliches",
        "schadstofffrei",
        "sicher für Kinder",
        "non toxique",
        "non\u2011polluante",
        "inoffensives",
        "sans danger pour l’environnement",
    ],
)
def test_such_words_are_found_in_german_and_french(claim: str) -> None:
    """CLP Art. 25(4), its German and French words from memory (MEMORY)."""
    text = f"Es ist, c'est: {claim}."

    assert (len(said_of(text, classified=True)), said_of(text)) == (1, [])


@pytest.mark.parametrize(
    "claim",
    [
        "umweltfreundlich",
        "umweltschonende",
        "klimaneutral",
        "CO\u2082-neutral",
        "biologisch abbaubares",
        "nachhaltig",
        "ökologisch",
        "CO\u2082-freundlich",
        "energieeffiziente",
        "biobasiertes",
        "Freund der Natur",
        "grüne Wahl",
        "gut für die Umwelt",
        "heilsamer",
        "lindert Stress",
        "stärkt das Immunsystem",
        "reinigt die Luft",
        "vertreibt Mücken",
        "gegen die Wespen",
        "hält Motten fern",
        "Mückenkerze",
        "rußfrei",
        "brennt besonders sauber",
        "respectueuse de l'environnement",
        "écoresponsable",
        "bougies durables",
        "neutre en carbone",
        "écologiques",
        "amie de la nature",
        "geste vert",
        "biosourcées",
        "économe en énergie",
        "respectueux du climat",
        "guérit",
        "apaise le stress",
        "purifie l'air",
        "éloigne les moustiques",
        "anti-moustiques",
        "sans fumée",
    ],
)
def test_words_that_no_candle_may_carry_are_found_in_german_and_french(claim: str) -> None:
    written = claim.replace("\u2082", "2")

    assert said_of(f"Diese Kerze, cette bougie: {claim}.") == [f"'{written}' is claimed for Heron"]


@pytest.mark.parametrize("claim", ["Eine Sojakerze", "reines Sojawachs", "bougie de soja", "100 % soja"])
def test_soy_with_paraffin_in_it_is_no_soy_candle_in_any_language(claim: str) -> None:
    assert len(said_of(claim, "blend")) == 1


@pytest.mark.parametrize("name", ["Bienenwachs, gebleicht", "Cire d’abeille"])
def test_beeswax_is_known_by_its_name_in_each_language(name: str) -> None:
    shop = replace(
        SHOP,
        waxes={"bees": replace(BEESWAX, name=name)},
        candles={"heron": replace(CANDLE, description="Vegane Kerze.", ingredients={"bees": KILO})},
    )

    assert of_texts(claim_faults(shop, set(), LANGUAGES)) == [
        "'Vegane' is claimed for Heron, which contains beeswax"
    ]


def test_every_sort_of_praise_has_words_in_each_language_of_the_site() -> None:
    sorts = {claim.sort for claim in CLAIMS}

    assert LANGUAGES
    assert all(set(each.phrases) == sorts and all(each.phrases.values()) for each in LANGUAGES)
    assert all(set(each.denied) == {"before", "after"} for each in LANGUAGES)


@pytest.mark.parametrize("claim", ["A soy candle", "soy wax candles", "pure soy", "100 % soy wax"])
def test_soy_with_paraffin_in_it_is_no_soy_candle(claim: str) -> None:
    assert len(said_of(claim, "blend")) == 1
    assert said_of(claim, "soy") == []


def test_beeswax_is_not_vegan() -> None:
    assert said_of("Vegan.", "bees") == ["'Vegan' is claimed for Heron, which contains beeswax"]
    assert said_of("Vegan.", "soy") == []


@pytest.mark.parametrize(
    "text",
    [
        "A harmless-looking heron waits.",
        "It is not harmless.",
        "The wax cures for two weeks.",
        "Veganism, ecologist, soya milk.",
        "A smoky, peaty fire. Keep it clear of draughts.",
        "Clean linen, burning peat.",
        "Green stems and a friendly dog.",
        "Nicht ungiftig, nie harmlos, keine Sojakerze. Sie heilt nicht und vertreibt keine Mücken.",
        "Ein heiliger Hain, Heilbutt am Freitag, eine heile Welt, Tee gegen sechs. Der Duft bleibt lange.",
        "Soja und Paraffin. Vom Docht steigt ein wenig Rauch auf; der Ruß hängt am Glas.",
        "Elle n’est pas inoffensive, ne purifie pas l’air, et n’est jamais écologique.",
        "Une mouche sur la vitre, la cire de soja et la paraffine, un parfum durable, un air sain.",
    ],
)
def test_innocent_sentences_are_left_alone(text: str) -> None:
    assert said_of(text, "blend", classified=True) == []


def test_a_claim_that_runs_over_a_line_is_found_and_told_once() -> None:
    assert said_of("It is eco-\nfriendly. Eco- friendly!") == ["'eco- friendly' is claimed for Heron"]


def everything(word: str) -> Shop:
    candle = replace(
        CANDLE,
        scent=word,
        season=word,
        colour=Colour(name=word, shade="#123456"),
        description=word,
        scent_notes=ScentNotes(top=(word,), heart=("fern", word), base=(word,)),
    )
    return replace(
        SHOP,
        maker=replace(SHOP.maker, line=word),
        collections={"shore": Collection(name=word, text=word)},
        formats={"tin": Format(id="tin", name=word)},
        candles={"heron": candle},
        pages={"care": Page(id="care", title="Care", markdown=f"\n\nTrim it.\n{word}")},
    )


def test_every_text_a_shopper_reads_is_read() -> None:
    found = {fault.path for fault in claim_faults(everything("smokeless"), set(), LANGUAGES)}

    assert found == {
        ("maker.yaml", "line"),
        ("collections.yaml", "shore", "name"),
        ("collections.yaml", "shore", "text"),
        ("formats/tin.yaml", "name"),
        ("pages/care.md", 4),
        ("candles/heron.yaml", "scent"),
        ("candles/heron.yaml", "season"),
        ("candles/heron.yaml", "colour", "name"),
        ("candles/heron.yaml", "description"),
        ("candles/heron.yaml", "scent_notes", "top", 0),
        ("candles/heron.yaml", "scent_notes", "heart", 1),
        ("candles/heron.yaml", "scent_notes", "base", 0),
    }


def of_texts(faults: Iterator[Fault]) -> list[str]:
    return [fault.what for fault in faults]


def test_a_collection_speaks_for_its_own_candles_and_a_page_for_all() -> None:
    elsewhere = replace(CANDLE, id="wren", scent="Wren", collection="lane", ingredients={"bees": KILO})
    shop = replace(
        SHOP,
        candles={"heron": CANDLE, "wren": elsewhere},
        collections={"shore": Collection(name="Shore", text="All vegan."), "lane": Collection(name="Lane")},
        pages={"about": Page(id="about", title="About", markdown="Vegan, all of it. Harmless.")},
    )

    assert of_texts(claim_faults(shop, {"wren"}, LANGUAGES)) == [
        "'Harmless' is claimed for a candle of this shop, which is classified as hazardous",
        "'Vegan' is claimed for a candle of this shop, which contains beeswax",
    ]


def of_a_day(day: str, markets: tuple[str, ...], description: str) -> list[Severity]:
    """How grave each word is in a candle's description, in a shop that speaks for a day."""
    candles = {"heron": replace(CANDLE, description=description)}
    maker = replace(SHOP.maker, markets=markets)
    shop = replace(SHOP, maker=maker, as_of=date.fromisoformat(day), candles=candles)
    return [fault.severity for fault in claim_faults(shop, set(), LANGUAGES)]


@pytest.mark.parametrize(
    ("day", "markets", "severity"),
    [
        ("2026-09-26", ("GB", "EU"), Severity.WARNING),
        ("2026-09-27", ("GB", "EU"), Severity.ERROR),
        ("2026-09-27", ("GB", "US"), Severity.WARNING),
    ],
)
def test_a_general_green_claim_is_an_error_in_the_union_from_its_day_on(
    day: str, markets: tuple[str, ...], severity: Severity
) -> None:
    """Directive (EU) 2024/825, applied from 2026-09-27 (FOUND-2nd)."""
    for claim in ("An eco-friendly candle.", "Eine umweltfreundliche Kerze.", "Une bougie écologique."):
        assert of_a_day(day, markets, claim) == [severity], claim


def test_what_only_needs_proof_stays_a_warning() -> None:
    assert of_a_day("2027-01-01", ("EU",), "A sustainable candle.") == [Severity.WARNING]


@pytest.mark.parametrize(
    ("text", "severity"),
    [
        ("We do not call our candles eco-friendly.", Severity.WARNING),
        ("We don't say that wax is biodegradable.", Severity.WARNING),
        ("Wir nennen keine Kerze umweltfreundlich.", Severity.WARNING),
        ("We do not pour paraffin. Our candles are eco-friendly.", Severity.ERROR),
    ],
)
def test_a_sentence_that_denies_it_stops_no_build(text: str, severity: Severity) -> None:
    assert of_a_day("2026-11-01", ("EU",), text) == [severity]


@pytest.mark.parametrize(
    "text",
    ["Green leaves and green tea.", "A green candle.", "Grüne Blätter.", "Du thé vert.", "verte prairie"],
)
def test_green_is_a_colour_too(text: str) -> None:
    assert of_a_day("2026-11-01", ("EU",), text) == []

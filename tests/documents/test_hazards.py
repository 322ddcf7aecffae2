"""Hazards on the public papers: what the law of each market has a label say, and never more than is known."""

from typing import Any

from generator.documents.pages.candle_page import candle_page
from generator.documents.pages.safety import safety_page
from generator.facts.hazard_facts import HazardFacts
from tests.documents.said import said, told
from tests.documents.sample_house import NAMING, NO_HAZARDS, SKIN_AND_EYES, UNKNOWN, house, saying, size

UFI = "C23S-PQ2V-AMH9-VVRF"
IN_WATER = saying(NO_HAZARDS, status="classified", pictograms=("GHS09",), h=("H411",), p=("P273", "P501"))


def labels(gb: HazardFacts, eu: HazardFacts, **changed: Any) -> Any:
    one = size(hazards={"GB": gb, "EU": eu, "US": None}, **changed)
    return told(safety_page(house(one), one))["hazards"]


def test_a_label_says_what_the_law_has_it_say() -> None:
    (label,) = labels(SKIN_AND_EYES, SKIN_AND_EYES)

    assert label["signal_word"] == "Warning"
    assert label["hazards"] == ["May cause an allergic skin reaction.", "Causes serious eye irritation."]
    assert label["contains"] == "Contains Citronellol, Geraniol, Linalool."
    assert label["precautions"][0] == "Keep out of reach of children."
    assert len(label["precautions"]) == 6
    assert label["codes"] == (
        "Codes: H317, H319, P102, P302+P352, P305+P351+P338, P333+P313, P337+P313, P501."
    )


def test_a_label_states_the_nominal_quantity() -> None:
    (label,) = labels(SKIN_AND_EYES, SKIN_AND_EYES)

    assert label["quantity"] == "Contents: 240 g."


def test_a_limit_counted_as_reached_for_the_sake_of_the_scale_is_told() -> None:
    one = size(hazards={"GB": saying(SKIN_AND_EYES, near=True), "EU": None, "US": None})
    other = size(hazards={"GB": SKIN_AND_EYES, "EU": None, "US": None})

    near, clear = (told(safety_page(house(each), each))["hazards_standing"] for each in (one, other))

    assert near == f"{clear} A limit within one step of the scale counts as reached."


def test_each_diamond_has_a_name_for_those_who_do_not_see_it() -> None:
    (label,) = labels(SKIN_AND_EYES, SKIN_AND_EYES)
    (diamond,) = label["pictograms"]

    assert diamond["name"] == "Exclamation mark"
    assert "<title>Exclamation mark</title>" in diamond["drawing"]


def test_markets_that_say_the_same_share_a_block() -> None:
    (label,) = labels(NAMING, NAMING)

    assert label["heading"] == "Hazards: Great Britain and European Union"


def test_markets_that_differ_have_a_block_each() -> None:
    british, european = labels(NAMING, SKIN_AND_EYES)

    assert (british["heading"], european["heading"]) == (
        "Hazards: Great Britain",
        "Hazards: European Union",
    )


def test_below_the_limit_of_the_class_the_names_stand_in_one_sentence() -> None:
    (label,) = labels(NAMING, NAMING)

    assert label["hazards"] == ["Contains Linalool. May produce an allergic reaction."]
    assert (label["contains"], label["signal_word"], label["pictograms"]) == (None, None, [])


def test_a_substance_named_for_its_class_is_no_sensitiser_by_that() -> None:
    damaging = saying(
        NAMING,
        status="classified",
        h=("H318",),
        named_substances=("Geraniol", "Linalool"),
        sensitisers=("Linalool",),
    )

    (label,) = labels(damaging, damaging)

    assert label["hazards"][1] == "Contains Linalool. May produce an allergic reaction."
    assert label["contains"] == "Contains Geraniol."


def test_no_hazards_are_a_plain_sentence() -> None:
    (label,) = labels(NO_HAZARDS, NO_HAZARDS)

    assert (label["plain"], label["codes"]) == (
        "Suppliers’ data show no hazard that needs a label.",
        None,
    )


def test_unknown_hazards_are_never_none() -> None:
    (label,) = labels(UNKNOWN, UNKNOWN)

    assert label["plain"] == (
        "Hazards are not known: our data are incomplete or out of date. That does not mean there are none."
    )


def test_the_united_states_have_no_such_label_as_a_duty() -> None:
    american = size(hazards={"US": None})

    page = told(safety_page(house(american), american))

    assert (page["hazards"], page["hazards_standing"]) == ([], None)


def test_the_formula_identifier_stands_where_the_union_s_law_holds() -> None:
    british, european = labels(NAMING, SKIN_AND_EYES, ufi=UFI)

    assert (british["identifier"], european["identifier"]) == (None, f"UFI: {UFI}")


def test_a_share_of_unknown_toxicity_is_said_without_the_share() -> None:
    partly = saying(SKIN_AND_EYES, unknown=("acute",))
    one = size(hazards={"GB": partly, "EU": partly})

    text = said(safety_page(house(one), one))

    assert "The acute toxicity of part of the mixture (1 % or more) is unknown." in text


def test_the_sheet_says_by_whose_rules_and_who_decides() -> None:
    one = size(hazards={"GB": saying(NAMING, law="GB CLP"), "EU": saying(NAMING, law="EU CLP")})

    assert told(safety_page(house(one), one))["hazards_standing"] == (
        "Calculated from suppliers’ data under these rules: GB CLP; EU CLP. This is not legal advice: a competent "
        "person and local law decide."
    )


def test_no_reason_and_no_limit_is_public() -> None:
    one = size(hazards={"GB": SKIN_AND_EYES, "EU": SKIN_AND_EYES})

    text = said(safety_page(house(one), one)) + said(candle_page(house(one), house(one).scents[0]))

    assert [share for share in ("1.4429", "limit is") if share in text] == []


def before_purchase(*sizes: Any) -> Any:
    shop = house(*sizes)
    return told(candle_page(shop, shop.scents[0]))["hazards"]


def test_an_offer_says_symbol_signal_word_hazards_and_names_before_it_is_taken() -> None:
    (group,) = before_purchase(size(hazards={"EU": SKIN_AND_EYES}))["groups"]
    (label,) = group["labels"]

    assert (label["signal_word"], len(label["pictograms"]), len(label["hazards"])) == ("Warning", 1, 2)
    assert label["contains"] == "Contains Citronellol, Geraniol, Linalool."


def test_sizes_that_agree_say_it_once() -> None:
    alike = {"EU": NAMING}

    (group,) = before_purchase(size(hazards=alike), size(stock_code="SM-22", hazards=alike))["groups"]

    assert group["sizes"] is None


def test_sizes_that_differ_are_named() -> None:
    groups = before_purchase(
        size(hazards={"EU": NAMING}),
        size(stock_code="SM-SB", size_name="Snap bar", hazards={"EU": SKIN_AND_EYES}),
    )["groups"]

    assert [group["sizes"] for group in groups] == ["Clear beaker", "Snap bar"]


def test_whoever_buys_a_labelled_candle_is_asked_to_read_the_label() -> None:
    labelled, plain = before_purchase(size(hazards={"EU": IN_WATER})), before_purchase(size())

    assert labelled["read_label"] == "Always read the label and product information before use."
    assert plain["read_label"] is None

"""The panel of an answer: rows and words; nothing that is not known is shown as nought."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.render.panel import UNKNOWN, panel_of

from ..nutrition.test_labels import view


def entry(amount: float, unit: str, **more: Any) -> dict[str, Any]:
    return {"amount": amount, "low": amount * 0.9, "high": amount * 1.1, "unit": unit, **more}


def answer(**more: Any) -> dict[str, Any]:
    return {
        "title": "Tern Quay broth",
        "servings": 4.0,
        "per_serving": {
            "weight_g": 251.26,
            "nutrients": {
                "NA": entry(512.34, "mg", daily_value_percent=22),
                "K": entry(100, "mg", coverage=0.8),
                "FAT": {**entry(2.0, "g"), "low": 2.0, "high": 2.0},
            },
        },
        "per_100g": {"nutrients": {"NA": entry(204.1, "mg")}},
        "sodium": {"as_listed_per_serving_mg": 3000.0, "per_serving_mg": {"likely": 512.34}},
        "notices": [],
        **more,
    }


def row(panel: Any, name: str) -> Any:
    return next(each for each in panel.rows if each.name == name)


def test_rows_stand_in_the_order_of_a_label_and_only_where_known() -> None:
    assert [each.name for each in panel_of(answer()).rows] == ["Fat", "Sodium", "Potassium"]


def test_a_row_has_amount_range_per_100_g_and_percent() -> None:
    assert row(panel_of(answer()), "Sodium").cells == ("512 mg", "461 to 564 mg", "204 mg", "22 %")
    assert row(panel_of(answer()), "Fat").cells == ("2 g", "2 g", UNKNOWN, "")


def test_every_row_fills_every_column() -> None:
    panel = panel_of(answer())
    assert {len(each.cells) + 1 for each in panel.rows} == {len(panel.head)}


def test_partial_knowledge_is_said_in_the_row() -> None:
    assert row(panel_of(answer()), "Potassium").note == "known for 80 % of the weight listed"


def test_the_contrast_to_the_list_is_told_where_there_is_one() -> None:
    assert any("3000 mg" in note for note in panel_of(answer()).notes)
    near = {"as_listed_per_serving_mg": 513.0, "per_serving_mg": {"likely": 512.34}}
    assert not any("513" in note for note in panel_of(answer(sodium=near)).notes)


@pytest.mark.parametrize(
    ("severities", "words"),
    [
        (["check"], "1 notice asks"),
        (["check", "check"], "2 notices ask"),
        (["check", "stop"], "Do not publish"),
    ],
)
def test_what_is_unchecked_is_said(severities: list[str], words: str) -> None:
    panel = panel_of(answer(notices=[{"severity": severity} for severity in severities]))
    assert words in panel.notes[-1]


def test_nothing_to_check_is_not_spoken_of() -> None:
    assert len(panel_of(answer(notices=[{"severity": "info"}])).notes) == 2


def labelled(scheme: str, *, servings: float = 4.0, sodium: Any = None, **wishes: Any) -> Any:
    label = view(scheme, **wishes)
    return panel_of(answer(label=label, servings=servings, **({"sodium": sodium} if sodium else {})))


def cells(panel: Any) -> dict[str, tuple[str, ...]]:
    return {each.name: each.cells for each in panel.rows}


def test_a_label_has_its_scheme_s_words_and_its_amounts_beside_their_percent() -> None:
    panel = labelled("fda")
    assert panel.head == ("Amount per serving", "Per serving", "% Daily Value*")
    assert panel.lead[0] == "4 servings per container"
    found = cells(panel)
    assert found["Sodium"] == ("610 mg", "27%")
    assert found["Protein"] == ("22 g", "")
    assert found["Trans Fat"] == (UNKNOWN, "")
    assert found["Includes 1 g Added Sugars"] == ("", "2%")
    assert panel.notes[0].startswith("*The % Daily Value")
    assert panel.notes[1] == "Not known from the ingredients; find out before this is printed: Trans fat."


def test_one_serving_is_no_servings() -> None:
    assert labelled("fda", servings=1.0).lead[0] == "1 serving per container"


def test_a_label_of_two_columns_has_a_name_for_each_and_keeps_words_out_of_row_names() -> None:
    panel = labelled("fda", dish_class="meat_entree")
    assert panel.head[1::2] == ("Per serving", "Per reference amount (85 g)")
    found = cells(panel)
    assert {len(each) for each in found.values()} == {4}
    assert found["Includes Added Sugars"][0] == "1 g"
    assert found["Sodium"][:2] == ("610 mg", "27%")
    assert found["Sodium"][2] == "210 mg"


def test_a_row_that_one_column_lacks_is_blank_there() -> None:
    found = cells(labelled("uk"))
    assert found["Salt"] == ("", "", "1.5 g", "26%")
    assert labelled("uk").notes[0] == "Reference intake of an average adult (8400 kJ/2000 kcal)"


def test_a_column_without_any_percent_has_none_in_its_head() -> None:
    label = view("eu")
    for each in label["columns"][0]["rows"]:
        each["percent"] = None
    panel = panel_of(answer(label=label))
    assert panel.head == ("", "Per 100 g", "Per serving", "% of reference intake")
    assert cells(panel)["Fat"] == ("2 g", "4.9 g", "7%")


def test_what_is_known_for_a_part_of_the_weight_only_is_said() -> None:
    part = labelled("fda", coverage={"CA": 0.6, "FATRN": 0.0})
    (said,) = [note for note in part.notes if note.startswith("Known for a part")]
    assert said == "Known for a part of the weight only, so that more may be in it: Calcium."
    assert not [note for note in labelled("fda").notes if note.startswith("Known for a part")]


def test_a_label_prints_no_sodium_that_was_not_counted() -> None:
    gaps = [{"line": f"{'x' * 70}{number}", "why": "not read"} for number in range(7)]
    sodium = {
        "complete": False,
        "uncounted": gaps,
        "counted_per_serving_mg": 120.0,
        "as_listed_per_serving_mg": 120.0,
        "per_serving_mg": {"likely": 120.0},
    }
    panel = labelled("fda", complete=False, sodium=sodium)
    assert cells(panel)["Sodium"] == ("incomplete", "")
    assert "Sodium" not in panel.notes[1]
    (said,) = [note for note in panel.notes if note.startswith("Incomplete")]
    assert "only 120 mg of sodium a serving were counted" in said
    assert said.count("x" * 60 + " (not read)") == 5
    assert "x" * 61 not in said
    assert said.endswith("; and 2 more.")


def test_parts_of_a_row_stand_below_it() -> None:
    tags = ("ENERC", "ENERC_KJ", "FAT", "FASAT", "CHOCDF", "FIBTG", "SUGAR", "ADDED_SUGARS", "PROCNT", "NA")
    tags += ("SALT", "K", "CA", "FE", "VITD")
    serving = {"weight_g": 100.0, "nutrients": {tag: entry(1.0, "g") for tag in tags}}
    found = {each.name: each.depth for each in panel_of(answer(per_serving=serving)).rows}
    parts = {"of which saturated": 1, "of which fibre": 1, "of which sugars": 1, "of which added": 2}
    parts["as salt (sodium × 2.5)"] = 1
    assert len(found) == len(tags)
    assert {name: depth for name, depth in found.items() if depth} == parts


@pytest.mark.parametrize(("listed", "is_told"), [(104.0, False), (106.0, True), (95.5, False), (94.5, True)])
def test_a_contrast_of_a_twentieth_is_told(listed: float, is_told: bool) -> None:
    sodium = {"as_listed_per_serving_mg": listed, "per_serving_mg": {"likely": 100.0}}
    told = [note for note in panel_of(answer(sodium=sodium)).notes if note.startswith("The ingredient list")]
    assert bool(told) is is_told

"""Spreadsheet and structured data of an answer: complete, safe to open, and silent on what is not known."""

import csv
import io
import json

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.foods.nutrients import INDEX, NUTRIENTS
from saltledger.render.json_ld import embedded, nutrition_information, recipe
from saltledger.render.spreadsheet import recipe_csv


def values(**amounts):
    table = np.full(len(NUTRIENTS), np.nan)
    for tag, amount in amounts.items():
        table[INDEX[tag]] = amount
    return table


FOODS = {"02047": values(NA=38758.0, ENERC=0.0), "11124": values(NA=69.0, ENERC=41.0, VITC=5.9)}


def ingredient(line, code, name, grams):
    return {
        "component": "recipe",
        "line": line,
        "grams": grams,
        "grams_low": grams,
        "grams_high": grams,
        "grams_basis": "stated",
        "food": code and {"code": code, "name": name},
    }


def amount(likely, unit, coverage=1.0):
    return {"amount": likely, "unit": unit, "low": likely * 0.9, "high": likely * 1.1, "coverage": coverage}


def answer(*lines):
    return {
        "title": "Carrots of Tern Quay",
        "servings": 4.0,
        "per_serving": {
            "weight_g": 125.678,
            "nutrients": {
                "ENERC": amount(51.5, "kcal"),
                "NA": amount(377.25, "mg"),
                "FAMS": amount(0.2, "g"),
                "FAPU": amount(0.3, "g"),
                "FAT": amount(0.04567, "g"),
                "SUGAR": amount(3.0, "g", coverage=0.5),
            },
        },
        "per_100g": {"nutrients": {"NA": amount(300.2, "mg")}},
        "ingredients": list(lines)
        or [
            ingredient("500 g carrots", "11124", "Carrots, raw", 500.0),
            ingredient("3 g salt", "02047", "Salt, table", 3.0),
            ingredient("some woodruff", None, None, None),
        ],
    }


def sheet(document):
    return list(csv.DictReader(io.StringIO(recipe_csv(document, FOODS.get))))


def test_one_row_an_ingredient_and_then_the_sums():
    found = sheet(answer())
    assert [row["row"] for row in found] == [
        "ingredient",
        "ingredient",
        "ingredient",
        "listed_total",
        "eaten_per_serving",
        "eaten_per_serving_low",
        "eaten_per_serving_high",
        "eaten_per_100g",
    ]
    assert [row["NA (mg)"] for row in found[:3]] == ["345", "1162.74", ""]
    assert float(found[3]["NA (mg)"]) == pytest.approx(345 + 1162.74)
    assert found[3]["grams"] == "503"
    assert found[4]["NA (mg)"] == "377.25"
    assert found[5]["NA (mg)"] == "339.525"
    assert found[7]["NA (mg)"] == "300.2"


def test_what_is_not_known_is_an_empty_cell():
    found = sheet(answer())
    assert [row["VITC (mg)"] for row in found[:2]] == ["29.5", ""]
    assert {row["K (mg)"] for row in found} == {""}


def test_every_nutrient_has_a_column():
    assert set(sheet(answer())[0]) >= {f"{each.tag} ({each.unit})" for each in NUTRIENTS}


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n", "＝"])
def test_text_that_looks_like_a_formula_is_kept_as_text(start):
    line = f'{start}HYPERLINK("https://example.org")'
    row = sheet(answer(ingredient(line, "02047", line, 1.0)))[0]
    assert row["line"] == f"'{line}"
    assert row["food"] == f"'{line}"


@given(st.text(max_size=40))
@settings(max_examples=100)
def test_no_cell_begins_a_formula_and_no_text_breaks_the_table(text):
    rows = list(
        csv.reader(
            io.StringIO(recipe_csv(answer(ingredient(text, "02047", text, 1.0)), FOODS.get), newline="")
        )
    )
    assert {len(row) for row in rows} == {len(rows[0])}
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]
    assert rows[1][2].removeprefix("'").lstrip("'") == text.removeprefix("'").lstrip("'")


def test_nutrition_information_is_that_of_schema_org():
    found = nutrition_information(answer())
    assert found == {
        "@context": "https://schema.org",
        "@type": "NutritionInformation",
        "servingSize": "126 g",
        "calories": "51.5 kcal",
        "fatContent": "0.0457 g",
        "sodiumContent": "377 mg",
        "unsaturatedFatContent": "0.5 g",
    }


def test_a_recipe_holds_its_lines_and_nutrition():
    found = recipe(answer())
    assert (found["@type"], found["recipeYield"], found["name"]) == ("Recipe", "4", "Carrots of Tern Quay")
    assert found["recipeIngredient"][1] == "3 g salt"
    assert found["nutrition"]["@type"] == "NutritionInformation"
    assert "@context" not in found["nutrition"]


def test_embedded_text_cannot_leave_its_script_element():
    hostile = {"name": "</script><script>alert(1)</script>&<!-- \u2028"}
    text = embedded(hostile)
    assert not set("<>&\u2028") & set(text)
    assert json.loads(text) == hostile


def test_what_follows_from_the_nutrients_has_columns_too():
    found = sheet(answer())
    assert [row["SALT (g)"] for row in found[:4]] == ["0.8625", "2.90685", "", "3.76935"]
    assert float(found[0]["ENERC_KJ (kJ)"]) == pytest.approx(5 * 41 * 4.184)
    assert {row["CHOAVL (g)"] for row in found} == {""}


def test_each_food_of_a_line_that_names_several_has_a_row():
    whole = {
        **ingredient("500 g carrots and salt", "11124", "Carrots, raw", 500.0),
        "parts": [ingredient("salt", "02047", "Salt, table", 3.0)],
    }
    found = [row for row in sheet(answer(whole)) if row["row"] == "ingredient"]
    assert [row["food_code"] for row in found] == ["11124", "02047"]
    assert len({row["component"] for row in found}) == 1

"""Every form of an answer over HTTP: explained, as a panel, on a label; and wishes that cannot be met."""

from __future__ import annotations

import csv
import io
from collections import Counter
from html.parser import HTMLParser
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.http.examples import SHORT, recipe_example
from saltledger.recipe.explaining import MAIN

from .problems import faults

URL = "/v1/calculations"
FORMS = ("application/json", "text/csv", "application/ld+json", "text/html")
HOSTILE = '<script>alert("1")</script> & <b>soup</b>'


class Page(HTMLParser):
    """Tags, attributes, and the text of a fragment, with the tags that were left open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: Counter[str] = Counter()
        self.attributes: list[tuple[str, str | None]] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[tag] += 1
        self.attributes += attrs
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def post(client: FlaskClient, recipe: dict[str, Any], accept: str = FORMS[0], query: str = "") -> Any:
    response = client.post(f"{URL}{query}", json=recipe, headers={"Accept": accept})
    assert response.status_code == 200, response.get_data(as_text=True)
    return response


def panel(client: FlaskClient, recipe: dict[str, Any], query: str = "") -> str:
    text: str = post(client, recipe, "text/html", query).get_data(as_text=True)
    return text


def test_nothing_is_explained_unless_it_is_asked_for(client: FlaskClient) -> None:
    plain = post(client, SHORT).get_json()
    assert "explanation" not in plain
    assert post(client, SHORT, query="?explain=false").get_json() == plain


def test_true_explains_the_nutrients_of_a_label(client: FlaskClient) -> None:
    found = post(client, recipe_example(), query="?explain=true").get_json()
    chains = found["explanation"]["nutrients"]
    assert tuple(chains) == MAIN
    for tag, chain in chains.items():
        told = found["per_serving"]["nutrients"][tag]["amount"]
        parts = sum(each["eaten_per_serving"] or 0 for each in chain["inputs"])
        assert parts == pytest.approx(chain["per_serving"], rel=1e-6)
        assert parts == pytest.approx(told, rel=1e-5)
        assert chain["sentences"]
    without = {key: value for key, value in found.items() if key != "explanation"}
    assert without == post(client, recipe_example()).get_json()


def test_any_nutrient_can_be_named(client: FlaskClient) -> None:
    found = post(client, SHORT, query="?explain=ZN,VITC,ZN").get_json()
    assert tuple(found["explanation"]["nutrients"]) == ("ZN", "VITC")


def test_a_nutrient_that_there_is_not_is_refused_with_the_nearest(client: FlaskClient) -> None:
    message = faults(client.post(f"{URL}?explain=NA,FASATT", json=SHORT))["/explain"]
    assert message == 'There is no nutrient "FASATT"; did you mean FASAT?'


@pytest.mark.parametrize("form", FORMS)
def test_each_form_comes_as_asked_and_says_that_it_varies(client: FlaskClient, form: str) -> None:
    response = post(client, SHORT, form)
    assert response.mimetype == form
    assert response.headers["Vary"].split(", ")[0] == "Accept"
    assert response.get_data() == post(client, SHORT, form).get_data()


def test_a_form_that_there_is_not_is_refused(client: FlaskClient) -> None:
    assert client.post(URL, json=SHORT, headers={"Accept": "application/pdf"}).status_code == 406


@pytest.mark.parametrize("query", ["", "?label=fda", "?label=eu", "?label=uk"])
def test_a_panel_is_one_accessible_table_without_style_or_script(client: FlaskClient, query: str) -> None:
    page = Page(panel(client, recipe_example(), query))
    assert page.open == []
    assert (page.tags["table"], page.tags["caption"], page.tags["thead"]) == (1, 1, 1)
    assert not {"script", "style", "link", "img", "h1", "h2"} & set(page.tags)
    names = {name for name, _ in page.attributes}
    assert names == {"class", "lang", "aria-label", "scope"}
    assert {value for name, value in page.attributes if name == "scope"} == {"col", "row"}


@pytest.mark.parametrize("query", ["", "?label=fda"])
def test_titles_and_lines_cannot_leave_their_text(client: FlaskClient, query: str) -> None:
    recipe = {"title": HOSTILE, "servings": 1, "ingredients": [f"100 g {HOSTILE}", "1 g salt"]}
    text = panel(client, recipe, query)
    assert not {"script", "b"} & set(Page(text).tags)
    if not query:
        assert HOSTILE in "".join(Page(text).words)


def test_a_us_panel_has_the_words_and_order_of_the_rule(client: FlaskClient) -> None:
    words = " ".join(Page(panel(client, recipe_example(), "?label=fda")).words)
    wanted = (
        "Nutrition Facts",
        "6 servings per container",
        "Serving size",
        "Amount per serving",
        "% Daily Value*",
        "Calories",
        "Total Fat",
        "Saturated Fat",
        "Trans Fat",
        "Cholesterol",
        "Sodium",
        "Total Carbohydrate",
        "Dietary Fiber",
        "Total Sugars",
        "Includes 0 g Added Sugars",
        "Protein",
        "Vitamin D",
        "Calcium",
        "Iron",
        "Potassium",
        "*The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily",
    )
    places = [words.index(each) for each in wanted]
    assert places == sorted(places)


def test_a_panel_of_ours_uses_no_words_of_the_us_label(client: FlaskClient) -> None:
    assert "Nutrition Facts" not in panel(client, recipe_example())


def test_the_stylesheet_for_panels_is_there(client: FlaskClient) -> None:
    with client.get("/static/panel.css") as response:
        assert response.status_code == 200
        assert ".saltledger-panel" in response.get_data(as_text=True)


def test_the_spreadsheet_has_what_follows_from_the_nutrients(client: FlaskClient) -> None:
    rows = list(csv.DictReader(io.StringIO(post(client, SHORT, "text/csv").get_data(as_text=True))))
    (serving,) = (row for row in rows if row["row"] == "eaten_per_serving")
    nutrients = post(client, SHORT).get_json()["per_serving"]["nutrients"]
    for tag, unit in (("ENERC_KJ", "kJ"), ("CHOAVL", "g"), ("SALT", "g")):
        assert float(serving[f"{tag} ({unit})"]) == pytest.approx(nutrients[tag]["amount"], rel=1e-4)


def test_an_own_limit_is_among_the_references(client: FlaskClient) -> None:
    limit = {"id": "renal_menu", "label": "Renal menu, a meal", "sodium_mg": 600, "per": "serving"}
    sodium = post(client, {**SHORT, "own_limits": [limit]}).get_json()["sodium"]
    own = sodium["references"][-1]
    assert (own["id"], own["limit_mg"], own["per"]) == ("renal_menu", 600, "serving")
    assert own["percent"] == pytest.approx(100 * sodium["per_serving_mg"]["likely"] / 600, abs=0.51)
    assert own["source"] == "stated by the caller"


def test_an_audience_has_its_own_values(client: FlaskClient) -> None:
    adult = post(client, SHORT).get_json()["per_serving"]["nutrients"]["NA"]["daily_value_percent"]
    child = post(client, {**SHORT, "audience": "child_1_3"}).get_json()["per_serving"]["nutrients"]["NA"]
    assert child["daily_value_percent"] > adult


def test_a_class_of_dish_sets_the_reference_amount_of_the_label(client: FlaskClient) -> None:
    label = post(client, {**SHORT, "dish_class": "soup"}, query="?label=fda").get_json()["label"]
    assert label["serving"]["reference_amount"]["amount_g"] == 245
    assert [column["basis"] for column in label["columns"]] == ["per_serving", "per_reference_amount"]


@pytest.mark.parametrize("where", ["", "/v1/targets", "/v1/comparisons"])
def test_unknown_wishes_are_refused_with_all_that_there_are(client: FlaskClient, where: str) -> None:
    recipe = {
        **SHORT,
        "audience": "martian",
        "dish_class": "moon",
        "components": [{"id": "eaten", "ingredients": []}],
    }
    body: dict[str, Any] = recipe
    if where == "/v1/targets":
        body = {"recipe": recipe, "target": {"sodium_mg_per_serving": 480}, "vary": "/servings"}
    if where == "/v1/comparisons":
        body = {"versions": [{"label": "a", "recipe": SHORT}, {"label": "b", "recipe": recipe}]}
    messages = faults(client.post(where or URL, json=body))
    base = {"": "", "/v1/targets": "/recipe", "/v1/comparisons": "/versions/1/recipe"}[where]
    assert "pregnancy, " in messages[f"{base}/audience"]
    assert "soup, " in messages[f"{base}/dish_class"]
    assert f"{base}/components/0/id" in messages


def test_reference_values_of_an_unknown_audience_are_refused(client: FlaskClient) -> None:
    message = faults(client.get("/v1/reference-values?audience=martian"))["/audience"]
    assert message.startswith("There is no audience 'martian'; choose one of: infant_0_6_months,")


def test_raw_and_cooked_rows_are_told_apart(client: FlaskClient) -> None:
    recipe = {
        "servings": 1,
        "components": [{"id": "tray", "ingredients": [{"food": "10061", "grams": 200}]}],
        "steps": [{"kind": "roast", "food": "tray", "duration_h": 0.5}],
    }
    found = {each["code"]: each for each in post(client, recipe).get_json()["notices"]}
    assert found["cooked-food-cooked-again"]["pointer"] == "/components/0/ingredients/0"

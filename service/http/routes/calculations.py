"""POST /v1/calculations: a recipe in, what a serving holds out, in the form that the caller asks for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from flask import Response, render_template
from marshmallow import ValidationError, validates_schema

from ...calculator import Calculated, calculated, costs_of
from ...core.documents import every_food
from ...core.errors import Fault, InvalidRequest
from ...foods.nutrients import INDEX
from ...gate.fields import Choice, Text, nearest, said
from ...gate.problem_details import InvalidQuery
from ...gate.recipe_schema import RecipeSchema
from ...nutrition.label_schemes import label_schemes
from ...recipe.answer import PARTS
from ...recipe.explaining import MAIN
from ...recipe.scaling import Wish, scaled
from ...render import json_ld
from ...render.panel import panel_of
from ...render.spreadsheet import recipe_csv
from .. import known_foods, media_types
from ..api import Blueprint, View
from ..examples import recipe_example
from ..kept_answers import may_be_kept
from ..schemas.answers import CalculationSchema, PartsOfCalculationSchema
from ..schemas.scaling import NAMES, ScalingQuerySchema
from ..watch import allow

blueprint = Blueprint("calculations", __name__, description="What a serving of a recipe holds.")

MEANING = "What a serving holds; as a spreadsheet; as structured data or as a panel for a web page."
MOST_CHARACTERS = 400
ANSWERS = {"anyOf": [CalculationSchema(), PartsOfCalculationSchema(partial=PARTS)]}


class Explained(Text):
    """Tags of nutrients, joined by commas; true for the main ones, false for none."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(most=MOST_CHARACTERS, wanted="true, false, or tags joined by commas", **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        text = super()._deserialize(value, attr, data, **kwargs)
        if text in ("true", "false"):
            return MAIN if text == "true" else ()
        tags = tuple(dict.fromkeys(tag.strip() for tag in text.split(",")))
        if unknown := [tag for tag in tags if tag not in INDEX]:
            raise ValidationError([f'There is no nutrient "{t[:40]}"{nearest(t, INDEX)}' for t in unknown])
        return tags


class CalculationQuerySchema(ScalingQuerySchema):
    """What else the answer is to hold."""

    label = Choice(
        tuple(label_schemes()),
        metadata=said("Add the amounts as a label under these rules would print them."),
    )
    explain = Explained(
        metadata=said(
            "Tell how figures came about, line by line: true for the nutrients of a label, or INFOODS "
            "tagnames joined by commas.",
            example="NA,K",
        )
    )


class Parts(Text):
    """Parts of an answer by their names, joined by commas."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(most=MOST_CHARACTERS, wanted="names of parts joined by commas", **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        text = super()._deserialize(value, attr, data, **kwargs)
        parts = tuple(dict.fromkeys(name.strip() for name in text.split(",")))
        if unknown := [name for name in parts if name not in PARTS]:
            known = dict.fromkeys(PARTS)
            raise ValidationError([f'An answer has no part "{n[:40]}"{nearest(n, known)}' for n in unknown])
        return parts


class PartsQuerySchema(CalculationQuerySchema):
    """The same, and which parts of the answer are wanted."""

    include = Parts(
        metadata=said(
            f"Only these parts of the answer, joined by commas, out of {', '.join(PARTS)}; all of it where "
            "not stated. What it is of, what it rests on and its notices stand in every answer.",
            example="sodium,allergens",
        )
    )

    @validates_schema
    def of_what_is_asked(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        included = data.get("include", ())
        for part, asked in (("label", "label"), ("explanation", "explain")):
            if part in included and not data.get(asked):
                raise ValidationError(
                    {
                        "include": [
                            f"An answer has the part {part} where {asked} is asked for as well; add {asked}."
                        ]
                    }
                )


def _as_csv(answer: Calculated) -> str:
    foods = answer.foods
    return recipe_csv(answer.document, lambda code: foods.get(code).values if code in foods else None)


def _as_structured_data(answer: Calculated) -> str:
    return json_ld.embedded(json_ld.recipe(answer.document)) + "\n"


def _rests_on_itself(found: Calculated) -> bool:
    """Whether an answer would be the same while foods and tables are: it names no saved recipe, and asks
    nobody for a food that is not known here."""
    named = any(each.recipe for part in found.request.components for each in part.ingredients)
    whole = "ingredients" in found.document
    known = whole and all(each["food"] for each in every_food(found.document))
    return not named and (known or found.foods.second.is_closed)


RENDERERS: media_types.Renderers[Calculated] = {
    "application/json": lambda answer: media_types.as_json(answer.document),
    "text/csv": _as_csv,
    "application/ld+json": _as_structured_data,
    "text/html": lambda answer: render_template("panel.html", panel=panel_of(answer.document)) + "\n",
}
"""By media type. A new form of the answer is one more line here."""


def in_other_forms(of: Blueprint) -> Callable[[View], View]:
    """Decorate a view that gives a calculation with the forms it has besides JSON."""

    def decorate(view: View) -> View:
        for media_type in list(RENDERERS)[1:]:
            kind = "object" if media_type.endswith("json") else "string"
            view = of.gives({"type": kind}, MEANING, media_type)(view)
        return view

    return decorate


@blueprint.route("/v1/calculations", methods=["POST"], again=True)
@blueprint.takes(RecipeSchema, example=recipe_example())
@blueprint.asks(PartsQuerySchema)
@blueprint.gives(ANSWERS, MEANING)
@in_other_forms(blueprint)
@blueprint.fails(406)
def calculate_recipe(document: dict[str, Any], query: dict[str, Any]) -> Response:
    """Work out nutrients and sodium per serving

    `ingredients` alone is the short form: one component, all of it eaten, no steps. With `components` and
    `steps` the salt is followed from place to place. A measured value on a step (a weight, a laboratory
    figure) replaces the model's. Nothing is guessed: what could not be read, weighed or mapped is in
    `notices`. Equal requests get equal bytes. `Accept: text/csv` gives a spreadsheet, one row an ingredient;
    `Accept: application/ld+json` a schema.org Recipe with its nutrition; `Accept: text/html` a panel to embed
    in a page, with `label` in the form of that label; `/static/panel.css` styles it, or the page's own rules.
    `servings`, `portion_g` and `batch_g` add `scaled`: the recipe for so many, by weight, in equal batches.
    `include=sodium,allergens` gives these parts alone, and is quicker.
    """
    allow(costs_of(document, len(query.get("explain", ()))))
    media_type = media_types.negotiate(RENDERERS)
    wish = asked_scale(query, media_type)
    if "include" in query and (media_type != "application/json" or wish is not None):
        message = "Parts are told in JSON and unscaled; leave include out, or Accept and scaling."
        raise InvalidQuery([Fault("/include", message)])
    found = calculated(document, known_foods.foods(), **query)
    if _rests_on_itself(found):
        may_be_kept()
    return media_types.respond_as(replace(found, document=scaled_too(found.document, wish)), RENDERERS)


def asked_scale(query: dict[str, Any], media_type: str) -> Wish | None:
    """To what the caller wants a recipe scaled, taken out of the query.

    Raises InvalidQuery: another form than JSON is asked for, in which it is not told.
    """
    wish: Wish | None = query.pop("scale", None)
    if wish is not None and media_type != "application/json":
        named = [name for name in NAMES if getattr(wish, name) is not None]
        message = f"This is told in JSON and not in {media_type}; leave it out, or Accept."
        raise InvalidQuery(Fault(f"/{name}", message) for name in named)
    return wish


def scaled_too(answer: dict[str, Any], wish: Wish | None) -> dict[str, Any]:
    """An answer with the recipe scaled, where that is wanted. Raises InvalidQuery."""
    if wish is None:
        return answer
    try:
        return {**answer, "scaled": scaled(answer, wish)}
    except InvalidRequest as refused:
        raise InvalidQuery(refused.faults) from refused

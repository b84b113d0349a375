"""The floor under every answer: a bare Flask app that reads a recipe by marshmallow and sends it back."""

from __future__ import annotations

from typing import Any

from flask import Flask, Response, jsonify, request
from marshmallow import Schema, fields


class Component(Schema):
    id = fields.String(required=True)
    ingredients = fields.List(fields.String(), required=True)


class Step(Schema):
    kind = fields.String(required=True)
    food = fields.String(required=True)
    bath = fields.String()
    duration_h = fields.Float()
    temperature_c = fields.Float()
    thickness_cm = fields.Float()
    rinsed = fields.Boolean()


class Recipe(Schema):
    title = fields.String(required=True)
    servings = fields.Float(required=True)
    components = fields.List(fields.Nested(Component), required=True)
    steps = fields.List(fields.Nested(Step))


def make_app() -> Flask:
    app, schema = Flask(__name__), Recipe()

    @app.post("/v1/calculations")
    def echo() -> Response:
        loaded: Any = schema.load(request.get_json())
        return jsonify(loaded)

    @app.get("/health/ready")
    def ready() -> Response:
        return jsonify({})

    return app

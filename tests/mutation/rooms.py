"""Rooms of the house, and the tests that ought to notice a fault in each."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Room:
    """Files as patterns from the top of the checkout; tests as paths."""

    files: tuple[str, ...]
    tests: tuple[str, ...]


_LAW = "tests/published"
ROOMS = {
    "diffusion": Room(("service/diffusion/*.py",), ("tests/diffusion", f"{_LAW}/test_diffusion.py")),
    "transfer": Room(
        ("service/transfer/*.py",),
        (
            "tests/transfer",
            "tests/safety/test_centre_and_eggs.py",
            f"{_LAW}/test_pots.py",
            f"{_LAW}/test_salting_data.py",
            f"{_LAW}/test_curing.py",
        ),
    ),
    "curing": Room(
        ("service/curing/*.py",),
        ("tests/curing", f"{_LAW}/test_curing.py", "tests/recipe/test_dish_safety.py"),
    ),
    "safety": Room(
        ("service/safety/*.py",),
        (
            "tests/safety",
            f"{_LAW}/test_lethality.py",
            "tests/recipe/test_dish_safety.py",
            "tests/recipe/test_safety_checks.py",
        ),
    ),
    "steps": Room(
        ("service/recipe/steps/*.py",),
        (
            "tests/recipe/steps",
            "tests/recipe/test_conservation.py",
            "tests/recipe/test_derived.py",
            "tests/recipe/test_handwork_in_a_row.py",
            "tests/recipe/test_steps_in_a_row.py",
        ),
    ),
    "lines": Room(("service/lines/*.py",), ("tests/lines",)),
    "weights": Room(("service/foods/weights/*.py",), ("tests/foods", f"{_LAW}/test_weights.py")),
    "matching": Room(("service/foods/matching/*.py",), ("tests/foods",)),
    "labels": Room(
        (
            "service/nutrition/label*.py",
            "service/nutrition/tolerances.py",
            "service/nutrition/reference_amounts.py",
            "service/render/panel.py",
        ),
        ("tests/nutrition", "tests/render/test_panel.py", f"{_LAW}/test_labels.py", f"{_LAW}/law"),
    ),
    "claims": Room(
        ("service/nutrition/claims.py", "service/nutrition/usual_amounts.py"),
        ("tests/nutrition", f"{_LAW}/test_claims.py"),
    ),
    "nutrition": Room(
        ("service/nutrition/*.py",),
        (
            "tests/nutrition",
            f"{_LAW}/test_claims.py",
            f"{_LAW}/test_labels.py",
            f"{_LAW}/test_reference_values.py",
        ),
    ),
    "store": Room(("service/store/*.py",), ("tests/store", "tests/http/test_bulk_saves.py")),
    "auth": Room(
        ("service/http/auth.py", "service/http/login_throttle.py", "service/http/pages/review_session.py"),
        (
            "tests/http/test_auth.py",
            "tests/http/test_who_may.py",
            "tests/http/test_door.py",
            "tests/http/test_form_tokens.py",
            "tests/http/test_login_throttle.py",
            "tests/http/test_review.py",
            "tests/store/test_keys.py",
            "tests/store/test_reviewers.py",
        ),
    ),
}

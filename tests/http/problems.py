"""Reading problem details in tests."""

from __future__ import annotations

from typing import Any

from werkzeug.test import TestResponse


def problem(response: TestResponse, status: int) -> dict[str, Any]:
    """The problem in a response, which must be one of `status`."""
    assert response.status_code == status, response.get_data(as_text=True)
    assert response.mimetype == "application/problem+json"
    document: dict[str, Any] = response.get_json()
    assert document["type"] == "about:blank"
    assert document["status"] == status
    assert document["title"]
    assert document["detail"].endswith((".", "'"))
    return document


def faults(response: TestResponse, status: int = 422) -> dict[str, str]:
    """The faults of a problem: message by pointer."""
    errors = problem(response, status)["errors"]
    assert all(set(error) == {"pointer", "message"} for error in errors)
    return {error["pointer"]: error["message"] for error in errors}

"""The review pages without a browser: who comes in, what the forms do, what they refuse."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from saltledger.http.examples import WRITTEN
from saltledger.http.login_throttle import TRIES
from saltledger.http.pages.review_session import CARRIED
from saltledger.store import keys, reviewers
from werkzeug.test import TestResponse

from ..databases import KINDS
from .kept import BRINED, SOUP, kept_app, soup

PASSWORD = "tide-table-at-noon"
SALT = "/ingredients/2"
Make = Callable[..., Flask]


@pytest.fixture
def make(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Make]:
    with ExitStack() as stack:
        yield lambda **settings: stack.enter_context(
            kept_app(getattr(request, "param", "sqlite"), tmp_path, **settings)
        )


@pytest.fixture
def desk(make: Make) -> FlaskClient:
    return make().test_client()


def save(client: FlaskClient, document: Any = SOUP, key: str = "soup") -> str:
    response = client.put(f"/v1/recipes/{key}", json=document)
    assert response.status_code in (200, 201), response.get_data(as_text=True)
    return str(response.get_json()["save_id"])


def words(response: TestResponse, status: int = 200) -> str:
    """The text of a page, without its markup."""
    page = response.get_data(as_text=True)
    assert response.status_code == status, page
    assert response.mimetype == "text/html"
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", page)).split())


def form_token(client: FlaskClient, path: str) -> str:
    found = re.search(r'name="form_token" value="([^"]+)"', client.get(path).get_data(as_text=True))
    assert found is not None
    return found[1]


def send(client: FlaskClient, path: str, page: str, **fields: Any) -> TestResponse:
    return client.post(path, data={"form_token": form_token(client, page), **fields})


def change(
    client: FlaskClient, save_id: str, /, at: str = SALT, action: str = "keep", **fields: Any
) -> TestResponse:
    sent = {"reason": "weighed", "name": "Ines Ware, RD", "at": at, "action": action, **fields}
    path = f"/review/{save_id}/change"
    return send(client, path, f"/review/{save_id}", **sent)


def decide(client: FlaskClient, save_id: str, /, verdict: str = "signed", **fields: Any) -> TestResponse:
    sent = {"name": "Ines Ware, RD", "verdict": verdict, **fields}
    return send(client, f"/review/{save_id}/decision", f"/review/{save_id}", **sent)


def review(client: FlaskClient, key: str = "soup") -> Any:
    return client.get(f"/v1/recipes/{key}/review").get_json()


def test_an_empty_list_says_how_recipes_come(desk: FlaskClient) -> None:
    assert "PUT /v1/recipes/KEY" in words(desk.get("/review"))


def test_the_list_has_what_waits_with_the_most_sodium_first(desk: FlaskClient) -> None:
    for i, salt in enumerate((1, 4, 2)):
        save(desk, soup(f"{salt} tsp table salt", title=f"Soup {i}"), f"soup-{i}")
    page = words(desk.get("/review"))
    assert page.index("Soup 1") < page.index("Soup 2") < page.index("Soup 0")
    assert "Waits for review (3)" in page
    assert "Soup" not in words(desk.get("/review?status=signed"))
    assert "Soup 0" in words(desk.get("/review?status=all&above_mg=1"))
    assert "Soup 0" not in words(desk.get("/review?above_mg=900000"))


def test_a_page_says_where_each_milligram_came_from_and_went(desk: FlaskClient) -> None:
    name = save(desk, {**BRINED, "title": "<b>Legs</b> & co"})
    response = desk.get(f"/review/{name}")
    text, page = words(response), response.get_data(as_text=True)
    assert "&lt;b&gt;Legs&lt;/b&gt; &amp; co" in page
    likely = review(desk)["sodium_per_serving_mg"]
    assert f"{likely:,.0f} mg" in text
    assert "Poured away" in text
    assert 'class="band eaten"' in page
    assert "180 g table salt" in text
    for inline in (" style=", "<script>", "<style", "onclick"):
        assert inline not in page
    assert "http" not in re.sub(r"http://www\.w3\.org", "", page)


def test_a_calculation_leads_to_its_version(desk: FlaskClient) -> None:
    save(desk, key="stew")
    name = save(desk)
    number = desk.get("/v1/recipes/soup").get_json()["calculation"]["id"]
    assert desk.get(f"/review/{number}").headers["Location"] == f"/review/{name}"
    assert "Not here" in words(desk.get("/review/none"), 404)
    assert "Not here" in words(desk.get("/review/%00"), 404)


def test_the_reference_is_chosen(desk: FlaskClient) -> None:
    limits = [{"id": "renal_menu", "label": "Renal menu", "sodium_mg": 500, "per": "serving"}]
    name = save(desk, {**SOUP, "own_limits": limits})
    assert "% of 500 mg (Renal menu, per serving)" in words(desk.get(f"/review/{name}?reference=renal_menu"))
    assert "% of 500 mg" not in words(desk.get(f"/review/{name}?reference=none"))


def test_what_the_service_is_least_sure_of_comes_first(desk: FlaskClient) -> None:
    name = save(desk, soup("1 pinch moonshade dust zzyzx"))
    text = words(desk.get(f"/review/{name}"))
    decide = text[text.index("To decide") : text.index("Where the sodium came from")]
    assert "zzyzx not read" in decide
    assert "800 g potatoes" not in decide
    assert "Not in the dataset" in text


def test_a_change_is_tried_before_it_is_kept(desk: FlaskClient) -> None:
    name = save(desk)
    before = review(desk)["sodium_per_serving_mg"]
    tried = words(change(desk, name, action="try", grams="3,5", reason="", name=""))
    assert "With this change" in tried
    assert f"instead of {before:,.0f} mg" in tried
    assert review(desk)["save_id"] == name
    kept = change(desk, name, grams="3,5")
    assert kept.status_code == 303
    newer = review(desk)
    assert kept.headers["Location"] == f"/review/{newer['save_id']}?done=overruled"
    assert newer["sodium_per_serving_mg"] < before
    page = words(desk.get(kept.headers["Location"]))
    assert "Your change is kept" in page
    assert "Weight: 3.5 g , by Ines Ware, RD" in page
    assert "Since version 1" in page


def test_each_kind_of_thing_is_changed(desk: FlaskClient) -> None:
    name = save(desk, BRINED)
    for at, fields in (
        ("/components/0/ingredients/0", {"food": "05075"}),
        ("/components/1/ingredients/1", {"eaten_fraction": "50"}),
        ("/components/1", {"eaten_fraction": "10"}),
        ("/steps/0", {"absorption_factor": "30", "yield_fraction": "105"}),
    ):
        response = change(desk, name, at, **fields)
        assert response.status_code == 303, response.get_data(as_text=True)
        name = response.headers["Location"].split("/")[2].split("?")[0]
    told = desk.get("/v1/recipes/soup").get_json()["overrules"]
    assert {each["field"]: each["value"] for each in told if each["kind"] == "step"} == {
        "absorption_factor": 0.3,
        "yield_fraction": 1.05,
    }
    assert len(told) == 5


def test_foods_are_searched_for(desk: FlaskClient) -> None:
    name = save(desk)
    page = change(desk, name, action="search", query="olive oil", grams="7")
    assert 'value="04053"' in page.get_data(as_text=True)
    assert 'name="grams" inputmode="decimal" size="10" value="7"' in page.get_data(as_text=True)
    assert "No food has these words" in words(change(desk, name, action="search", query="zzyzx"))
    kept = change(desk, name, food="04053")
    assert "Oil, olive" in words(desk.get(kept.headers["Location"]))


def test_foods_of_the_recipe_itself_are_offered(desk: FlaskClient) -> None:
    own = {"code": "house-brine", "name": "House brine", "per_100g": {"NA": 2000}}
    name = save(desk, {**SOUP, "custom_foods": [own]})
    page = desk.get(f"/review/{name}/change?at={SALT}").get_data(as_text=True)
    assert 'value="house-brine"' in page
    assert "House brine" in words(desk.get(change(desk, name, food="house-brine").headers["Location"]))


@pytest.mark.parametrize(
    ("fields", "fault"),
    [
        ({}, "Nothing is changed yet"),
        ({"grams": "a lot"}, "wanted a number"),
        ({"grams": "-1"}, "wanted a number"),
        ({"grams": "nan"}, "wanted a number"),
        ({"grams": "1e9"}, "ten tonnes"),
        ({"eaten_fraction": "101"}, "wanted 0 to 100"),
        ({"food": "99999"}, "no food '99999'"),
        ({"grams": "3", "reason": " "}, "Say why"),
        ({"grams": "3", "name": ""}, "Give your name"),
        ({"grams": "3", "reason": "x" * 1001}, "At most 1000 characters"),
    ],
)
def test_changes_that_mean_nothing_are_sent_back_in_words(desk: FlaskClient, fields: Any, fault: str) -> None:
    name = save(desk)
    assert fault in words(change(desk, name, **fields), 422)
    assert review(desk)["save_id"] == name


@pytest.mark.parametrize("make", KINDS, indirect=True)
def test_odd_characters_do_no_harm(desk: FlaskClient) -> None:
    name = save(desk)
    kept = change(desk, name, grams="3", reason="a\0b\x07 <i>", name="Inés\0")
    assert "&lt;i&gt;" in desk.get(kept.headers["Location"]).get_data(as_text=True)
    newer = review(desk)["save_id"]
    assert decide(desk, newer, note="fine\0", name="I\0").status_code == 303
    assert "no such line, part or step" in words(desk.get(f"/review/{newer}/change?at=/x%00"), 422)


def test_a_change_is_taken_back(desk: FlaskClient) -> None:
    name = save(desk)
    before = review(desk)["sodium_per_serving_mg"]
    change(desk, name, grams="3")
    newer = review(desk)["save_id"]
    number = desk.get("/v1/recipes/soup").get_json()["overrules"][0]["id"]
    path = f"/review/{newer}/withdraw"
    response = send(desk, path, f"/review/{newer}", overrule=number)
    assert "taken back" in words(desk.get(response.headers["Location"]))
    assert review(desk)["sodium_per_serving_mg"] == pytest.approx(before)
    newest = review(desk)["save_id"]
    path = f"/review/{newest}/withdraw"
    assert "Not here" in words(send(desk, path, f"/review/{newest}", overrule=number), 404)
    assert "Not here" in words(send(desk, path, f"/review/{newest}", overrule="x"), 404)


def test_a_change_that_no_longer_fits_is_told_of(desk: FlaskClient) -> None:
    change(desk, save(desk), grams="3")
    name = save(desk, {**SOUP, "ingredients": ["800 g potatoes", "1 litre water", "3 tsp table salt"]})
    assert "No longer in force" in words(desk.get(f"/review/{name}"))


def test_other_recipes_are_offered_a_change(desk: FlaskClient) -> None:
    change(desk, save(desk), grams="3", reason="level spoons")
    name = save(desk, {"servings": 2, "ingredients": ["2 tsp Table Salt", "1 litre water"]}, "broth")
    page = desk.get(f"/review/{name}").get_data(as_text=True)
    offer = re.search(r'href="([^"]+)">Use it here', page)
    assert offer is not None
    assert "In soup, Ines Ware, RD set the weight of this line to 3 g: level spoons" in words(
        desk.get(f"/review/{name}")
    )
    form = desk.get(unescape(offer[1])).get_data(as_text=True)
    assert 'value="3"' in form or 'value="3.0"' in form
    assert "As in soup: level spoons" in form
    assert desk.get("/v1/recipes/broth").get_json()["overrules"] == []


def test_signing_off_has_a_name_and_a_date(desk: FlaskClient) -> None:
    name = save(desk)
    assert "Give the name" in words(decide(desk, name, name=""), 422)
    signed = decide(desk, name, note="as weighed")
    assert "Signed off: Tern Quay potato soup" in words(desk.get(signed.headers["Location"]))
    page = words(desk.get(f"/review/{name}"))
    assert re.search(
        r"Signed off by Ines Ware, RD \(this machine, without a key\), \d{4}-\d\d-\d\d : as weighed", page
    )
    assert review(desk)["status"] == "signed"
    assert "Signed off by Ines Ware, RD" in words(desk.get(f"/review/{name}/print"))


def test_sending_back_says_what_is_wrong(desk: FlaskClient) -> None:
    name = save(desk)
    assert "Say what is to be corrected" in words(decide(desk, name, "sent_back"), 422)
    assert "Choose to sign off" in words(decide(desk, name, "maybe"), 422)
    assert decide(desk, name, "sent_back", note="which salt?").status_code == 303
    assert review(desk)["status"] == "sent_back"
    assert "Sent back" in words(desk.get("/review?status=sent_back"))


def test_a_verdict_that_came_meanwhile_is_shown_before_another_is_given(desk: FlaskClient) -> None:
    name = save(desk)
    assert 'name="seen_verdicts" value="0"' in desk.get(f"/review/{name}").get_data(as_text=True)
    assert decide(desk, name, note="as weighed", seen_verdicts=0).status_code == 303
    refused = decide(desk, name, "sent_back", note="which salt?", seen_verdicts=0)
    page = words(refused, 412)
    assert "This version was signed off meanwhile by Ines Ware, RD (this machine, without a key)." in page
    assert "which salt?</textarea>" in refused.get_data(as_text=True)
    assert review(desk)["status"] == "signed"
    assert 'name="seen_verdicts" value="1"' in refused.get_data(as_text=True)
    assert decide(desk, name, "sent_back", note="which salt?", seen_verdicts=1).status_code == 303
    assert review(desk)["status"] == "sent_back"


def test_an_old_version_is_read_and_not_signed(desk: FlaskClient) -> None:
    old = save(desk)
    token = form_token(desk, f"/review/{old}")
    newer = save(desk, soup("1 bay leaf"))
    page = words(desk.get(f"/review/{old}"))
    assert "There is a newer version" in page
    assert "Sign and next" not in page
    sent = {"form_token": token, "verdict": "signed", "name": "Ines", "note": "salt weighed <twice>"}
    refused = desk.post(f"/review/{old}/decision", data=sent)
    assert "There is a newer version" in words(refused, 412)
    again = refused.get_data(as_text=True)
    assert f'action="/review/{newer}/decision"' in again
    assert "salt weighed &lt;twice&gt;</textarea>" in again
    assert review(desk)["status"] == "open"
    refused = desk.get(f"/review/{old}/change?at={SALT}")
    assert "Go to version 2" in words(refused, 412)


def test_a_stop_notice_is_dealt_with_before_signing(
    desk: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    from saltledger.jobs import workbenches  # noqa: PLC0415  # patched where it is used

    plain = workbenches.answer_recipe
    stop = {"code": "nitrite-over-limit", "severity": "stop", "message": "Too much nitrite.", "pointer": ""}
    monkeypatch.setattr(workbenches, "answer_recipe", lambda *given: {**plain(*given), "notices": [stop]})
    name = save(desk)
    assert "Stop. Too much nitrite." in words(desk.get(f"/review/{name}"))
    assert "confirm that you have dealt" in words(decide(desk, name), 422)
    assert decide(desk, name, read_stops="yes").status_code == 303


# who comes in


def with_reviewer(app: Flask) -> FlaskClient:
    with app.extensions["saltledger-store"].database.write() as connection:
        reviewers.add(connection, "ines", "Ines Ware, RD", PASSWORD)
    return app.test_client()


def log_in(
    client: FlaskClient, password: str = PASSWORD, base: str | None = None, **fields: str
) -> TestResponse:
    named = {"base_url": base} if base else {}
    page = client.get("/review/login", **named).get_data(as_text=True)
    token = re.search(r'name="form_token" value="([^"]+)"', page)
    assert token is not None
    sent = {"form_token": token[1], "login": "ines", "password": password, **fields}
    return client.post("/review/login", data=sent, **named)


def test_wrong_passwords_are_counted_and_right_ones_are_not(
    make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = with_reviewer(make())
    monkeypatch.setattr(reviewers, "log_in", lambda store, login, given: "t" if given == PASSWORD else None)
    for _ in range(TRIES):
        assert log_in(client).status_code == 303
    for _ in range(TRIES):
        assert "do not belong together" in words(log_in(client, "wrong-password"), 403)
    assert "wait half a minute" in words(log_in(client), 403)  # right, and too soon


def test_where_there_are_reviewers_one_logs_in(make: Make) -> None:
    client = with_reviewer(make())
    name = save(client)
    turned = client.get(f"/review/{name}?reference=x")
    assert turned.headers["Location"] == f"/review/login?next=/review/{name}?reference%3Dx"
    assert "do not belong together" in words(log_in(client, "wrong-password"), 403)
    came = log_in(client, next=f"/review/{name}")
    assert came.headers["Location"] == f"/review/{name}"
    page = words(client.get(f"/review/{name}"))
    assert "Signed by: Ines Ware, RD" in page
    assert "Your name" not in page
    decide(client, name, name="Somebody Else")
    assert review(client)["sign_offs"][0]["name"] == "Ines Ware, RD"
    assert send(client, "/review/logout", f"/review/{name}").status_code == 303
    assert client.get("/review").headers["Location"].startswith("/review/login")


def test_a_session_that_was_logged_out_of_opens_nothing_when_its_cookie_is_sent_again(make: Make) -> None:
    client = with_reviewer(make())
    name = save(client)
    log_in(client)
    cookie = client.get_cookie("saltledger")
    assert cookie is not None
    token = form_token(client, f"/review/{name}")
    assert send(client, "/review/logout", f"/review/{name}").status_code == 303
    client.set_cookie("saltledger", cookie.value)
    assert client.get(f"/review/{name}").headers["Location"].startswith("/review/login")
    replayed = client.post(
        f"/review/{name}/decision",
        data={"form_token": token, "verdict": "signed"},
        headers={"Origin": "http://localhost"},
    )
    assert "Your login has ended" in words(replayed, 403)
    assert review(client)["sign_offs"] == []
    written = {f"{CARRIED}note": "as it is, says Ines", "send_to": f"/review/{name}/decision"}
    again = log_in(client, **written)
    assert "You are logged in again." in words(again)
    assert all(value in again.get_data(as_text=True) for value in written.values())


@pytest.mark.parametrize(
    "target", ["https://elsewhere.example/", "//elsewhere.example", "/review//x", "/docs", "\\\\x"]
)
def test_logging_in_leads_to_no_other_site(make: Make, target: str) -> None:
    assert log_in(with_reviewer(make()), next=target).headers["Location"] == "/review"


def test_cookies_are_kept_from_scripts_and_other_sites(make: Make) -> None:
    client = with_reviewer(make())
    plain = log_in(client).headers["Set-Cookie"]
    assert plain.startswith("saltledger=")
    assert "HttpOnly" in plain
    assert "SameSite=Lax" in plain
    assert "Secure" not in plain
    secure = log_in(client, base="https://localhost").headers["Set-Cookie"]
    assert secure.startswith("__Host-saltledger=")
    assert {"Secure", "HttpOnly", "Path=/", "SameSite=Lax"} <= set(secure.split("; "))


def test_forms_come_from_their_own_page(desk: FlaskClient) -> None:
    name = save(desk)
    token = form_token(desk, f"/review/{name}")
    sent = {"verdict": "signed", "name": "Ines"}
    path = f"/review/{name}/decision"
    assert desk.post(path, data=sent).status_code == 403
    assert desk.post(path, data={**sent, "form_token": "x"}).status_code == 403
    elsewhere = {"Origin": "https://elsewhere.example"}
    assert desk.post(path, data={**sent, "form_token": token}, headers=elsewhere).status_code == 403
    assert review(desk)["status"] == "open"
    home = {"Origin": "http://localhost"}
    assert desk.post(path, data={**sent, "form_token": token}, headers=home).status_code == 303


def test_a_login_form_comes_from_its_own_page(make: Make) -> None:
    client = with_reviewer(make())
    sent = {"login": "ines", "password": PASSWORD, "form_token": "x"}
    assert client.post("/review/login", data=sent).status_code == 403


def test_a_session_of_nobody_ends_when_reviewers_are_added(make: Make) -> None:
    app = make()
    client = app.test_client()
    assert client.get("/review").status_code == 200
    with_reviewer(app)
    assert client.get("/review").status_code == 303


@pytest.mark.parametrize("how", ["address", "key", "open", "host"])
def test_without_reviewers_only_this_machine_comes_in(make: Make, how: str) -> None:
    app = make(access="open" if how == "open" else "loopback")
    if how == "key":
        with app.extensions["saltledger-store"].database.write() as connection:
            keys.create(connection, "newsroom", ["save"])
    from_here = how in ("key", "host")
    response = app.test_client().get(
        "/review",
        environ_overrides={"REMOTE_ADDR": "127.0.0.1" if from_here else "192.0.2.7"},
        headers={"Host": "rebound.example"} if how == "host" else {},
    )
    assert response.headers["Location"].startswith("/review/login")
    assert "saltledger reviewers add" in words(app.test_client().get("/review/login"))


def test_pages_are_not_kept_and_say_where_forms_come_from(desk: FlaskClient) -> None:
    response = desk.get("/review")
    assert response.headers["Cache-Control"] == "no-store"
    assert response.headers["Referrer-Policy"] == "same-origin"
    assert "unsafe-inline" not in response.headers["Content-Security-Policy"]


HALF_READ = {
    "title": "Cellar stew",
    "servings": 4,
    "ingredients": ["800 g potatoes", "salt to taste", "xyzzyqwv"],
}


def test_a_page_says_incomplete_wherever_it_gives_the_figure(desk: FlaskClient) -> None:
    name = save(desk, HALF_READ, "stew")
    assert "incomplete" in words(desk.get("/review"))
    for path in (f"/review/{name}", f"/review/{name}/print"):
        page = words(desk.get(path))
        assert "Incomplete: not all sodium was counted" in page
        assert "xyzzyqwv : no food of the dataset fits" in page
    assert "It is still incomplete: xyzzyqwv" in words(
        send(
            desk,
            f"/review/{name}/change",
            f"/review/{name}/change?at=/ingredients/1",
            at="/ingredients/1",
            grams="8",
            action="try",
        )
    )


def test_an_incomplete_figure_is_signed_by_confirming_what_is_missing(desk: FlaskClient) -> None:
    name = save(desk, HALF_READ, "stew")
    assert "I sign this figure although it is incomplete. Not counted: salt to taste; xyzzyqwv" in words(
        desk.get(f"/review/{name}")
    )
    assert "confirm that you sign it without: salt to taste; xyzzyqwv" in words(decide(desk, name), 422)
    assert review(desk, "stew")["status"] == "open"
    assert decide(desk, name, read_missing="yes").status_code == 303
    assert "signed without: salt to taste (it gives no amount); xyzzyqwv" in words(
        desk.get(f"/review/{name}")
    )
    assert "signed without: salt to taste" in words(desk.get(f"/review/{name}/print"))


def headline(client: FlaskClient, path: str) -> tuple[float, float]:
    """The range of the page's figure."""
    found = re.search(r"<span>([\d,.]+) to ([\d,.]+) mg</span>", client.get(path).get_data(as_text=True))
    assert found is not None
    low, high = (float(each.replace(",", "")) for each in found.groups())
    return low, high


def test_what_was_measured_is_entered_on_the_page_and_narrows_the_range(desk: FlaskClient) -> None:
    answer = desk.post("/v1/calculations", json=BRINED).get_json()
    likely = answer["per_100g"]["nutrients"]["NA"]["amount"]
    first = f"/review/{save(desk, BRINED, 'legs')}"
    low, high = headline(desk, first)
    told = send(desk, f"{first}/measure", first, amount=f"{likely:.0f}", measured_by="Dock Lab", place="")
    assert told.status_code == 303
    second = told.headers["Location"]
    assert "The measurement is kept" in words(desk.get(second))
    own_low, own_high = headline(desk, second.partition("?")[0])
    assert own_high - own_low < 0.75 * (high - low)
    assert "the kitchen's own measurements" in words(desk.get(second))


def test_a_measurement_that_contradicts_is_told_and_moves_nothing(desk: FlaskClient) -> None:
    first = f"/review/{save(desk, BRINED, 'legs')}"
    told = send(desk, f"{first}/measure", first, amount="9000", place="sodium:legs")
    assert told.headers["Location"].startswith(first)
    assert "contradicts the calculation" in words(desk.get(told.headers["Location"]))


def test_a_measurement_that_is_no_number_is_refused_at_its_field(desk: FlaskClient) -> None:
    first = f"/review/{save(desk, BRINED, 'legs')}"
    told = send(desk, f"{first}/measure", first, amount="much")
    assert "number above 0" in words(told, 422)


def test_a_packet_is_copied_on_the_page(desk: FlaskClient) -> None:
    name = save(desk, HALF_READ, "stew")
    path = f"/review/{name}/change"
    page = f"{path}?at=/ingredients/2"
    assert "Copy what its packet says" in words(desk.get(page))
    fields = {
        "at": "/ingredients/2",
        "grams": "40",
        "packet_g": "20",
        "packet_sodium": "150",
        "action": "keep",
    }
    wrong = send(desk, path, page, **{**fields, "packet_salt": "9"}, reason="packet", name="Ines")
    assert "which is stated as 750" in words(wrong, 422)
    kept = send(desk, path, page, **fields, reason="read on the packet", name="Ines")
    assert kept.status_code == 303
    assert "Packet: sodium 750 mg in 100 g" in words(desk.get(kept.headers["Location"]))
    found = desk.get("/v1/recipes/stew").get_json()["calculation"]["ingredients"][2]
    assert found["sodium_mg"] == 300


def test_the_method_is_shown_with_what_its_phrases_became(desk: FlaskClient) -> None:
    name = save(desk, WRITTEN, "harbour")
    page = desk.get(f"/review/{name}").get_data(as_text=True)
    assert '<mark id="phrase-1"><a href="#read-1">Put in the chicken legs' in page
    assert 'id="read-1"' in page
    assert "</a>: chicken legs in brine" in page


def test_an_answer_to_a_question_is_kept_and_worked_out(desk: FlaskClient) -> None:
    name = save(desk, WRITTEN, "harbour")
    questions = desk.get("/v1/recipes/harbour").get_json()["calculation"]["reading"]["questions"]
    question = next(each for each in questions if each["id"].startswith("pot-salt"))
    sent = {"question": question["id"], "choice": "plain", "name": "Ines Ware, RD"}
    response = send(desk, f"/review/{name}/answer", f"/review/{name}", **sent)
    assert response.status_code == 303
    assert "Your answer is kept" in words(desk.get(response.headers["Location"]))
    saved = desk.get("/v1/recipes/harbour").get_json()
    plain = next(c for c in question["choices"] if c["choice"] == "plain")
    likely = saved["calculation"]["sodium"]["per_serving_mg"]["likely"]
    assert likely == pytest.approx(plain["sodium_mg_per_serving"])
    again = {**sent, "choice": "very"}
    send(desk, f"/review/{saved['save_id']}/answer", f"/review/{name}", **again)
    latest = desk.get("/v1/recipes/harbour").get_json()
    assert latest["recipe"]["answers"] == {question["id"]: "very"}
    no_such = {"question": "no", "choice": "x"}
    words(send(desk, f"/review/{latest['save_id']}/answer", f"/review/{name}", **no_such), 422)


def test_a_recipe_that_nothing_is_known_of_has_a_page(desk: FlaskClient) -> None:
    name = save(desk, {"servings": 2, "ingredients": ["1 pinch moonshade"]}, "odd")
    for path in (f"/review/{name}", f"/review/{name}/print", f"/review/{name}/change?at=/ingredients/0"):
        assert "moonshade" in words(desk.get(path))


def test_a_page_has_no_words_of_the_api(desk: FlaskClient) -> None:
    name = save(
        desk, {**BRINED, "ingredients": ["1 pinch moonshade", "salt to taste", "1 tbsp sauce"]}, "odd"
    )
    page = words(desk.get(f"/review/{name}"))
    shown = page[: page.index("How this was worked out")]
    assert not re.search(r"\b[a-z]+_[a-z_]+\b|/components/|/ingredients/|\d+e-?\d+", shown)
    assert "8 h, 3 °C, 4.5 cm thick" in shown


def test_enter_in_a_field_keeps_nothing(desk: FlaskClient) -> None:
    name = save(desk)
    assert "Nothing is kept yet" in words(change(desk, name, action="enter", grams="3"))
    searched = change(desk, name, action="enter", query="olive oil", grams="3")
    assert 'value="04053"' in searched.get_data(as_text=True)
    assert 'name="searched" value="olive oil"' in searched.get_data(as_text=True)
    again = change(desk, name, action="enter", query="olive oil", searched="olive oil", grams="3")
    assert "Nothing is kept yet" in words(again)
    assert review(desk)["save_id"] == name
    page = desk.get(f"/review/{name}").get_data(as_text=True)
    form = page[page.index('data-draft="soup"') :]
    assert re.search(r"<button[^>]*>", form)[0] == '<button disabled hidden aria-hidden="true">'  # type: ignore[index]


def test_what_is_in_force_stands_in_every_field_and_is_no_change(desk: FlaskClient) -> None:
    name = save(desk, BRINED)
    for at, fields in {
        "/components/1/ingredients/1": {"grams": "180", "eaten_fraction": "100"},
        "/components/1": {"eaten_fraction": "0"},
        "/steps/0": {},
    }.items():
        page = desk.get(f"/review/{name}/change?at={at}").get_data(as_text=True)
        for field, value in fields.items():
            assert re.search(rf'name="{field}"[^>]*value="{value}"', page)
        assert "Nothing is changed yet" in words(change(desk, name, at, **fields), 422)
    taken = re.search(r'name="absorption_factor"[^>]*value="([\d.]+)"', page)
    assert taken is not None
    assert 0 < float(taken[1]) < 30


def test_candidates_tell_their_sodium(desk: FlaskClient) -> None:
    name = save(desk, soup("100 g cheese"), "soup")
    assert re.search(
        r"Cheese, swiss 1\d\d mg in 100 g; −\d+ mg a serving", words(desk.get(f"/review/{name}"))
    )
    changing = words(desk.get(f"/review/{name}/change?at=/ingredients/3"))
    assert re.search(r"Cheese, swiss 01040; 1\d\d mg of sodium in 100 g", changing)

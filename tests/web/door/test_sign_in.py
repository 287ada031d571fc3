"""Signing in and out."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask.testing import FlaskClient

from archive.store.session import Store
from archive.web.door.views import TRIES
from tests.conftest import PASSWORD, app_of, sign_in

FACES = ("/desk/", "/reading/", "/workroom/")


@pytest.fixture
def browser(home: Store) -> FlaskClient:
    """A visitor's browser on a home of its own."""
    return app_of(home).test_client()


def post(browser: FlaskClient, **form: str) -> int:
    """The status of sending the form with its token."""
    token = browser.get("/sign-in").get_data(as_text=True).split('name="csrf_token"')[1].split('value="')[1]
    return browser.post("/sign-in", data={"csrf_token": token.split('"')[0], **form}).status_code


def test_a_form_without_its_token_is_refused(browser: FlaskClient) -> None:
    """Whatever name and password are sent."""
    answer = browser.post("/sign-in", data={"name": "guide", "password": PASSWORD})
    assert answer.status_code == 400
    assert "load the page again" in answer.get_data(as_text=True)


@pytest.mark.parametrize(("name", "password"), [("guide", "wrong password"), ("nobody", PASSWORD)])
def test_wrong_names_and_passwords_are_told_alike(browser: FlaskClient, name: str, password: str) -> None:
    """Neither answer tells whether the name exists."""
    assert post(browser, name=name, password=password) == 401
    assert browser.get("/desk/").status_code == 303


def test_empty_fields_are_told_beside_the_field(browser: FlaskClient) -> None:
    """Sending nothing says what to give."""
    assert post(browser, name="", password="") == 400


def test_after_too_many_tries_even_the_right_password_waits(browser: FlaskClient) -> None:
    """The limit counts failures by name and address."""
    for _ in range(TRIES):
        assert post(browser, name="guide", password="wrong password") == 401
    assert post(browser, name="guide", password=PASSWORD) == 429


@pytest.mark.parametrize("face", FACES)
def test_strangers_are_sent_to_sign_in_and_back(browser: FlaskClient, face: str) -> None:
    """The address they wanted is kept."""
    answer = browser.get(face)
    assert answer.status_code == 303
    assert answer.location.startswith("/sign-in?next=")


@pytest.mark.parametrize("wanted", ["https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere.example"])
def test_nobody_is_sent_off_the_site(browser: FlaskClient, wanted: str) -> None:
    """Only an address on this site is gone back to."""
    page = browser.get("/sign-in").get_data(as_text=True)
    token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]
    form = {"csrf_token": token, "name": "guide", "password": PASSWORD}
    answer = browser.post("/sign-in", query_string={"next": wanted}, data=form)
    assert answer.location == "/desk/"


@pytest.mark.parametrize(("role", "face"), [("guide", "/workroom/"), ("reader", "/desk/"), ("reader", "/workroom/")])
def test_a_role_is_refused_rooms_that_are_not_its_own(browser: FlaskClient, role: str, face: str) -> None:
    """Signed in is not enough."""
    answer = sign_in(browser, role).get(face)
    assert answer.status_code == 403
    assert f"You are signed in as a {role}" in answer.get_data(as_text=True)


def test_signing_out_ends_it(browser: FlaskClient) -> None:
    """And needs the form's token too."""
    sign_in(browser, "keeper")
    assert browser.post("/sign-out").status_code == 400
    page = browser.get("/reading/").get_data(as_text=True)
    token = page.split('name="csrf_token" value="')[1].split('"')[0]
    assert browser.post("/sign-out", data={"csrf_token": token}).location == "/"
    assert browser.get("/reading/").status_code == 303


def test_the_cookie_is_kept_from_scripts_and_other_sites(browser: FlaskClient) -> None:
    """HttpOnly and SameSite are set."""
    (cookie,) = browser.get("/sign-in").headers.getlist("Set-Cookie")
    assert cookie.startswith("lemel=")
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie


def test_the_key_that_signs_cookies_is_its_owners_alone(browser: FlaskClient, home: Store) -> None:
    """Nobody else on the machine can read it, and it stays the same from start to start."""
    key: Path = home.settings.secret_file
    assert key.stat().st_mode & 0o077 == 0
    assert app_of(home).config["SECRET_KEY"] == key.read_bytes()

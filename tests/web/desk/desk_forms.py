"""Sending a Desk form as a browser does: with the page's token, and the fields that the page holds."""

from __future__ import annotations

from html.parser import HTMLParser

from flask.testing import FlaskClient
from werkzeug.test import TestResponse


class _Fields(HTMLParser):
    """The hidden fields and the deeds that a page offers."""

    def __init__(self) -> None:
        super().__init__()
        self.hidden: dict[str, str] = {}
        self.deeds: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take a field or a button."""
        told = {name: value or "" for name, value in attrs}
        if tag == "input" and told.get("type") == "hidden":
            self.hidden[told["name"]] = told["value"]
        if tag == "button" and told.get("name") == "deed":
            self.deeds.append(told["value"])


def fields_of(browser: FlaskClient, address: str) -> _Fields:
    """What the page at an address would send."""
    read = _Fields()
    read.feed(browser.get(address).get_data(as_text=True))
    return read


def send(browser: FlaskClient, page: str, to: str, **fields: str) -> TestResponse:
    """Send a form of a page, with its hidden fields and these."""
    return browser.post(to, data={**fields_of(browser, page).hidden, **fields})

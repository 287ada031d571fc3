"""What the tests of the web layer share beyond the homes and sign-ins."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from archive.search.gateway import SearchIndex
from archive.search.keeping import bring_in_step
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in


@pytest.fixture(scope="session")
def as_role(shared_home: Store) -> SignIn:
    """A browser on the small collection, by role, with its search index; signed in once for all that only read."""
    index = SearchIndex(shared_home.settings.index)
    bring_in_step(shared_home, index)
    index.close()
    app = app_of(shared_home)
    signed_in: dict[str, FlaskClient] = {}

    def browser(role: str) -> FlaskClient:
        if role not in signed_in:
            signed_in[role] = sign_in(app.test_client(), role)
        return signed_in[role]

    return browser

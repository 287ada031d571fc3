"""The ready reckoners for machines."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from archive.reckoners.registry import RECKONERS

BASE = "/api/v1/reckoners"
BEYOND = "metal/mixing?mass=100+g&now=800&wanted=900&added=850"


@pytest.mark.parametrize(
    ("address", "status", "wheres"),
    [
        ("/no/such?a=1", 404, []),
        ("/output/gross", 400, ["pieces"]),
        ("/metal/fineness?fineness=-1&colour=red", 400, ["colour", "fineness"]),
        ("/metal/fineness?fineness=nan", 400, ["fineness"]),
        ("/metal/fineness?fineness=18ct&fineness=9ct", 400, ["fineness"]),
        ("/metal/cold-reduction?before=1+kg&after=20+gauge", 400, ["after", "before"]),
        ("/output/gross?pieces=1e400", 400, ["pieces"]),
        ("?colour=red", 400, ["colour"]),
    ],
)
def test_bad_input_is_told_field_by_field(client: FlaskClient, address: str, status: int, wheres: list[str]) -> None:
    """An unknown sum is not found, and each field that cannot be taken is named, with what is allowed."""
    answer = client.get(BASE + address)
    assert answer.status_code == status
    faults = answer.get_json()["faults"]
    assert [fault["where"] for fault in faults] == wheres
    assert all(fault["found"] and fault["allowed"] for fault in faults)


def test_beyond_what_a_method_is_good_for(client: FlaskClient) -> None:
    """Fields that are each allowed but lie beyond the method are answered with 422 and what would be needed."""
    answer = client.get(f"{BASE}/{BEYOND}")
    assert answer.status_code == 422
    assert answer.get_json()["words"]


def test_the_list_is_open_to_all(client: FlaskClient) -> None:
    """A visitor gets every reckoner with inputs, outputs and sources."""
    answer = client.get(BASE).get_json()
    assert answer["total"] == len(RECKONERS)
    assert [one["name"] for one in answer["items"]] == list(RECKONERS)
    assert all(one["inputs"] and one["outputs"] and one["sources"] for one in answer["items"])


def test_a_sum_is_worked_out(client: FlaskClient) -> None:
    """The answer has figures with units and text, the sum, the sources and the caution."""
    answer = client.get(f"{BASE}/metal/cold-reduction?before=1.43+mm&after=0.90+mm&form=strip").get_json()
    assert answer["values"]["reduction"]["text"] == "37.1 %"
    assert answer["steps"]
    assert answer["sources"]
    assert answer["caution"]

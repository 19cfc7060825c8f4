import json

import pytest

from estimator.documents.quote_json import quote_to_dict
from estimator.quote.recipient import Recipient


def test_it_survives_strict_json(quote):
    data = quote_to_dict(quote)

    assert json.loads(json.dumps(data, allow_nan=False)) == data
    assert data["schema"] == "quote/1"


def test_totals_agree_with_their_parts(quote):
    data = quote_to_dict(quote)
    rooms = data["schedule"]["rooms"]
    surfaces = [surface for room in rooms for surface in room["surfaces"]]

    assert data["totals"]["treated_m2"] == pytest.approx(
        sum(surface["treated_m2"] for surface in surfaces)
    )
    assert data["totals"]["solution_m3"] == pytest.approx(
        sum(dose["volume_m3"] for dose in data["solution"]["doses"])
    )
    assert sum(kind["treated_m2"] for kind in data["schedule"]["by_kind"].values()) == (
        pytest.approx(data["totals"]["treated_m2"])
    )


def test_money_is_written_exactly(quote):
    data = quote_to_dict(quote)

    # 131.67 + 14.40 + 51.12 and 13.80 tax, added by hand.
    assert data["price"]["charge"] == {"amount": "197.19", "currency": "USD"}
    assert data["price"]["total"] == {"amount": "210.99", "currency": "USD"}


def test_strength_is_in_ppm(quote):
    assert [mix["wanted_ppm"] for mix in quote_to_dict(quote)["solution"]["mixes"]] == [
        200.0,
        500.0,
        1000.0,
    ]


def test_whom_a_quote_is_addressed_to_is_told(quote):
    assert quote_to_dict(quote)["recipient"] is None
    told = Recipient(client="=Larkfield 廚房", address=("4 Mill Lane",), number="3F9A", version=2)

    assert quote_to_dict(quote, told)["recipient"] == {
        "client": "=Larkfield 廚房",
        "address": ["4 Mill Lane"],
        "site": "",
        "site_address": [],
        "number": "3F9A",
        "version": 2,
    }

"""What a scene says about buying."""

import pytest
from pydantic import ValidationError

from trimwright.model.scene.buy import BuySpec


def test_nothing_said_saves_metal_and_cuts_with_snips() -> None:
    assert (BuySpec().objective, BuySpec().kerf, BuySpec().stock) == ("metal", 0.0, ())


def test_a_bare_length_is_stock_of_every_profile_in_any_number() -> None:
    (stock,) = BuySpec.model_validate({"stock": ["12'"]}).stock
    assert (stock.length, stock.profile, stock.price, stock.count, stock.on_hand) == (
        144,
        None,
        None,
        None,
        False,
    )


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"objective": "time"}, "'metal', 'lengths' or 'money'"),
        ({"kerf": "1 in"}, 'too long; give at most 1/2"'),
        ({"stock": [{"length": "12'", "price": 0}]}, "greater than 0"),
        ({"stock": [{"length": "12'", "count": 0}]}, "greater than or equal to 1"),
        ({"stock": [{"length": "12'", "on_hand": True, "profile": "hook rake"}]}, "give count"),
        ({"stock": [{"length": "12'", "on_hand": True, "count": 1}]}, "give profile"),
        (
            {"stock": [{"length": "12'", "on_hand": True, "count": 1, "profile": "hook rake", "price": 3}]},
            "leave its price out",
        ),
        ({"stocks": []}, "Extra inputs"),
    ],
)
def test_says_what_it_takes(keys: dict[str, object], said: str) -> None:
    with pytest.raises(ValidationError, match=said):
        BuySpec.model_validate(keys)

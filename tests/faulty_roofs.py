"""Ordinary roofs with mistakes of tape, pencil and keyboard planted in them, by number."""

from collections.abc import Callable
from random import Random
from typing import Any

from ordinary_roofs import EDGES, ordinary

Tables = dict[str, Any]


def faulty(number: int) -> Tables:
    """Return an ordinary roof with one to four mistakes in it, as the tables of its file."""
    chance = Random(number)
    tables = ordinary(number)
    tables.setdefault("screws", {})
    planted = chance.sample(MISTAKES, chance.randint(1, 4))
    for plant in sorted(
        planted, key=lambda one: one is _bare
    ):  # an edge left bare has no table to plant anything in
        plant(tables, chance)
    return tables


def _trim(tables: Tables, chance: Random) -> Tables:
    kind = chance.choice(EDGES[tables["roof"]["form"]])
    asked: Tables = tables["trim"][kind]
    return asked


def _short_lap(tables: Tables, chance: Random) -> None:
    _trim(tables, chance)["lap"] = f"{chance.choice([1, 2, 2.5])} in"


def _unsealed(tables: Tables, chance: Random) -> None:
    _trim(tables, chance)["sealed"] = False


def _fixed(tables: Tables, chance: Random) -> None:
    _trim(tables, chance)["fixed"] = True


def _no_tab(tables: Tables, chance: Random) -> None:
    _trim(tables, chance)["tab"] = chance.choice([0, "1/8 in", "1/4 in"])


def _narrow_face(tables: Tables, chance: Random) -> None:
    tables["trim"]["eave"]["face"] = f"{chance.choice([1, 1.25])} in"


def _start(tables: Tables, chance: Random) -> None:
    _trim(tables, chance)["start"] = chance.choice(["low", "high", "centered"])


def _thin(tables: Tables, chance: Random) -> None:
    tables["metal"]["thickness"] = f"{chance.choice([0.012, 0.015, 0.017])} in"


def _screws_of_other_metal(tables: Tables, chance: Random) -> None:
    tables["screws"]["kind"] = chance.choice(["steel", "brass", "galvanized"])


def _far_apart(tables: Tables, chance: Random) -> None:
    tables["screws"]["spacing"] = f"{chance.randint(22, 40)} in"


def _first_far(tables: Tables, chance: Random) -> None:
    tables["screws"] |= {"first": f"{chance.randint(9, 14)} in", "ends": ["6 in", "15 in"]}


def _near_the_ends(tables: Tables, chance: Random) -> None:
    tables["screws"]["ends"] = ["2 in", f"{chance.randint(3, 5)} in"]


def _placed(tables: Tables, chance: Random) -> None:
    marks = [chance.randint(1, 12)]
    while marks[-1] < 60:
        marks.append(marks[-1] + chance.choice([1, 12, 20, 28]))
    tables["screws"]["placed"] = {"E1-1": marks}


def _seams(tables: Tables, chance: Random) -> None:
    tables["panels"] = {"offset": f"{chance.randint(1, 15)} in"}


def _lapped(tables: Tables, chance: Random) -> None:
    tables["panels"] = {"seam_kind": "lapped"}


def _bare(tables: Tables, chance: Random) -> None:
    kind = chance.choice(EDGES[tables["roof"]["form"]])
    tables["run"] = {} if kind != "eave" else {"front eave": False}
    if kind != "eave":
        tables["trim"][kind] = False


MISTAKES: list[Callable[[Tables, Random], None]] = [
    _short_lap,
    _unsealed,
    _fixed,
    _no_tab,
    _narrow_face,
    _start,
    _thin,
    _screws_of_other_metal,
    _far_apart,
    _first_far,
    _near_the_ends,
    _placed,
    _seams,
    _lapped,
    _bare,
]

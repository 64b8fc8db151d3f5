"""Three sheets worked out on paper: an eave-rake corner, both sides of a peak, and the foot of a hip.

Every corner of the flat pattern, and every length that the steps name, is recomputed here by plane geometry from
the scene's own sizes. Nothing of the model is used. Pieces tilt by less than a
thousandth over what they lie on; that is left out, so a corner may be off by 0.01 in.

Frames. Of a slope that rises at the angle ``a``: ``u`` along it, upward; ``q`` square to it, up from the deck.
In a plumb plane across the eave: ``h`` level, out past the edge of the deck; ``z`` up. A point (u, q) of the slope
has h = -u cos a + q sin a and z = u sin a + q cos a.
"""

from dataclasses import dataclass
from functools import cached_property
from math import atan, cos, degrees, hypot, pi, radians, sin, sqrt, tan

import numpy as np
from pytest import approx

CLOSE = 0.01
CLEARANCE = 1 / 32  # room between sheets that meet edge to face
TAB = 3 / 8


@dataclass(frozen=True)
class Worked:
    """An end worked out by hand.

    Attributes:
        points: Corners of its edge ``(u, v)``, from the piece's low end or, at a high end, as the piece has them.
        lengths: What its steps name, places from the end of the blank.
        low: ``u`` of the piece's low end.
        width: Developed width of the piece.
    """

    points: list[tuple[float, float]]
    lengths: dict[str, float]
    low: float = 0.0
    width: float = 0.0


@dataclass(frozen=True)
class Hooked:
    """Eave or rake trim with a hook lip: top 4, return 1, face 3 1/2, kick 3/4, hem 3/8, outside the bends.

    Attributes:
        t: Thickness.
        r: Inside radius of the bends.
        down: Angle from the deck outward down to the face, radians: 90 degrees at a rake.
    """

    t: float
    r: float
    down: float = pi / 2

    def bend(self, angle: float) -> float:
        """Length of metal in a bend, soft steel or half-hard copper: 0.64 T + 1.57 R for 90 degrees."""
        return (0.64 * self.t + 1.57 * self.r) * angle / 90

    @property
    def corner(self) -> float:
        """Setback of a bend of 90 degrees or more: R + T."""
        return self.r + self.t

    @property
    def kick_setback(self) -> float:
        return self.corner * tan(radians(22.5))

    @property
    def turn(self) -> float:
        """How far the bend between return and face turns, degrees: the return points inward, at 180."""
        return 180 - degrees(self.down)

    @property
    def widths(self) -> tuple[float, ...]:
        """Flat and bent widths from the inboard edge: top, nose, return, bend, face, bend, kick, bend, hem."""
        c, k = self.corner, self.kick_setback
        return (
            4 - c,
            self.bend(180),
            1 - 2 * c,
            self.bend(self.turn),
            3.5 - c - k,
            self.bend(45),
            0.75 - k - c,
            self.bend(180),
            0.375 - c,
        )

    @property
    def v(self) -> tuple[float, ...]:
        """Where each of them begins and ends."""
        return (0.0, *np.cumsum(self.widths).tolist())

    @property
    def face(self) -> tuple[float, float]:
        """``v`` of the face's two bend lines."""
        return self.v[4], self.v[5]

    @cached_property
    def nose(self) -> list[tuple[float, float]]:
        """(out, q) from the end of the top leg round the nose to the face, the end of the top leg at (0, t/2).

        A bend of more than 90 degrees is two straight strips. The nose falls at 45 and 135 degrees; the bend to
        the face, which turns the other way, in two strips at 1/4 and 3/4 of its turn, or one at half of it.
        """
        places = [(0.0, self.t / 2)]

        def go(length: float, heading: float) -> None:
            x, y = places[-1]
            places.append((x + length * cos(radians(heading)), y - length * sin(radians(heading))))

        go(self.bend(90), 45)
        go(self.bend(90), 135)
        go(self.widths[2], 180)
        if self.turn <= 90:
            go(self.bend(self.turn), 180 - self.turn / 2)
        else:
            go(self.bend(self.turn) / 2, 180 - self.turn / 4)
            go(self.bend(self.turn) / 2, 180 - 3 * self.turn / 4)
        return places

    @property
    def top_of_face(self) -> float:
        """``q`` of the bend under the hook lip."""
        return self.nose[-1][1]

    def below_face(self) -> list[tuple[float, float]]:
        """(v, q) of a rake from the kick's bend line out: the bend, the kick, the two strips of the hem's bend."""
        q = self.top_of_face - self.widths[4]
        places = [(self.v[5], q)]
        half = self.bend(90)
        for length, heading in (
            (self.bend(45), 67.5),
            (self.widths[6], 45),
            (half, 90),
            (half, 180),
            (self.widths[8], 225),
        ):
            v, q = places[-1]
            places.append((v + length, q - length * sin(radians(heading))))
        return places


PITCH = atan(6 / 12)
STEEL = 0.0239
RAKE = Hooked(STEEL, 1 / 32)
EAVE = Hooked(STEEL, 1 / 32, pi / 2 - PITCH)


def miter(q: float) -> float:
    """``u`` of the miter line on the rake's face at ``q``.

    The rake's face is laid on the eave trim's. The eave trim's face is plumb, its back on the edge of the deck, so its
    middle is at h = t/2 and the rake's, a sheet farther, at h = 3t/2. From h = -u cos a + q sin a.
    """
    return q * tan(PITCH) - 1.5 * STEEL / cos(PITCH)


def eave_face_on_rake(q_first: float) -> tuple[float, float]:
    """``v`` on the rake's face, whose upper bend line is at ``q_first``, where the eave trim's face begins and ends."""
    t, a = STEEL, PITCH
    # From its bend under the lip to its kick, in (out, q) of its own slope: out is level across the eave when seen in
    # h, z: h = out cos a + q sin a, z = -out sin a + q cos a. Its face is at h = t/2.
    q_face = EAVE.top_of_face
    out_face = (t / 2 - q_face * sin(a)) / cos(a)
    z_top = -out_face * sin(a) + q_face * cos(a)
    z_low = z_top - EAVE.widths[4]
    # Carried level to the rake's face at h = 3t/2 and turned into the rake's q = h sin a + z cos a:
    v_top, v_low = (RAKE.face[0] + q_first - (1.5 * t * sin(a) + z * cos(a)) for z in (z_top, z_low))
    return v_top, v_low


def way_of_kick() -> float:
    """``du/dv`` of the eave trim's kick on the rake's face: out past the eave is down the rake.

    The kick falls away from the face by its bend and its own width, 45 degrees out of plumb.
    """
    down = degrees(EAVE.down)
    steps = ((EAVE.bend(45), down - 22.5), (EAVE.widths[6], down - 45))
    out, fall = (sum(n * f(radians(g)) for n, g in steps) for f in (cos, sin))
    return -out / fall


def eave_rake() -> Worked:
    """A rake's low end over the eave trim: R1-1 of the boat shed whose eave trim keeps a face of 3 1/2 in."""
    t = STEEL
    first, last = RAKE.face
    # The rake lies on the eave trim: all of it is one sheet higher than it would be on the deck.
    q_first = RAKE.top_of_face + t
    q_last = q_first - RAKE.widths[4]
    top, bottom = miter(q_first), miter(q_last)
    lean = -tan(PITCH)  # du/dv of the miter line: v runs against q
    assert (bottom - top) / (last - first) == approx(lean)
    # 3/8 in square to the miter line is this much along the piece:
    beyond = -TAB * hypot(1, lean)

    v_top, v_low = eave_face_on_rake(q_first)
    # The tab stays a sheet and the clearance away from both.
    gap = t + CLEARANCE
    h_top, h_low = max(v_top, first) + gap, min(v_low, last) - gap

    def on_miter(v: float) -> tuple[float, float]:
        return top + lean * (v - first), v

    hinge = (on_miter(h_top), on_miter(h_low))
    along = np.array([lean, 1.0]) / hypot(1, lean)
    away = np.array([-1.0, lean]) / hypot(1, lean)
    upper = np.array(hinge[0]) + TAB * (away + along / 2)
    lower = np.array(hinge[1]) + TAB * (away - along)

    # The ear under the tab: from the miter line, a gap below the kick's line, along the eave trim's kick out to the
    # allowance line.
    begin = on_miter(v_low + gap)
    way = way_of_kick()
    drop = beyond / (way - lean)
    ear = (begin[0] + way * drop, begin[1] + drop)
    assert ear[1] < last

    foot = bottom + beyond
    tab = [hinge[0], upper, lower, hinge[1]]
    points = [(top, 0.0), (top, first), *tab, begin, ear, (foot, last), (bottom, last), (bottom, RAKE.v[-1])]
    low = min(u for u, _ in points)
    named = {
        "at_top": top - low,
        "at_bottom": bottom - low,
        "down": v_low - first,
        "tab": TAB,
        "at_lower": lower[0] - low,
        "lower": lower[1] - first,
        "at_upper": upper[0] - low,
        "upper": upper[1] - first,
    }
    return Worked([(float(u) - low, float(v)) for u, v in points], named, low)


def from_ridge() -> float:
    """Distance from the low end of a gable's upper rake piece up to the corner of the deck at the ridge.

    Half the width and the overhang, up the slope; less the first piece's overhang past the eave, its length and lap.
    """
    low = eave_rake().low
    slope = (10 * 12 + 12) / cos(PITCH)
    return slope - (low + 126 - 4)


def from_end(points: list[tuple[float, float]], named: dict[str, float]) -> dict[str, float]:
    """Places along a piece, measured back from the end of its blank: its farthest point."""
    end = max(u for u, _ in points)
    return {name: end - u for name, u in named.items()}


def peak_over() -> Worked:
    """The rake on top at a peak, R2-2 of the same.

    Equal slopes: the kicks cross plumb under the ridge, so the face is cut plumb: u = q tan a from the ridge.
    """
    ridge, a = from_ridge(), PITCH
    first, last = RAKE.face
    # Top leg and lip: square across where the plumb plane a clearance short of the ridge meets the lowest of them,
    # the bend under the lip.
    top = ridge + RAKE.top_of_face * tan(a) - CLEARANCE / cos(a)
    upper = ridge + RAKE.top_of_face * tan(a)
    below = [(ridge + q * tan(a), v) for v, q in RAKE.below_face()]
    points = [(top, 0.0), (top, first), (upper, first), *below]
    assert below[0][1] == approx(last)
    return Worked(points, from_end(points, {"at_ridge": top, "at_cross": below[0][0], "at_top": upper}))


def peak_under() -> Worked:
    """The rake underneath, R1-2 of the same.

    It loses its kick at the crossing and keeps its face, under the other slope's lip, 1 1/2 in past the ridge.
    """
    ridge, a = from_ridge(), PITCH
    first, last = RAKE.face
    q_first = RAKE.top_of_face
    top = ridge + q_first * tan(a) - CLEARANCE / cos(a)
    lip = q_first - (STEEL + CLEARANCE)

    # A sheet and a clearance below the other slope's bend under its lip: points x up that slope from the ridge and
    # `lip` square to it. In this slope's own frame, the two slopes 2a apart: u = -x cos 2a + lip sin 2a,
    # q = x sin 2a + lip cos 2a.
    def under_lip(v: float) -> float:
        q = q_first - (v - first)
        x = (q - lip * cos(2 * a)) / sin(2 * a)
        return ridge - x * cos(2 * a) + lip * sin(2 * a)

    # The plumb line 1 1/2 in past the ridge: level h = u cos a - q sin a.
    def past(v: float) -> float:
        q = q_first - (v - first)
        return ridge + (1.5 + q * sin(a)) / cos(a)

    # Both are straight: they meet where their difference is nought.
    gaps = [under_lip(v) - past(v) for v in (first, last)]
    assert gaps[0] < 0 < gaps[1]
    v_tip = first + (last - first) * gaps[0] / (gaps[0] - gaps[1])
    tip = (past(v_tip), v_tip)
    # The kick is cut plumb, a clearance short of the other one.
    below = [(ridge + (-CLEARANCE + q * sin(a)) / cos(a), v) for v, q in RAKE.below_face()]
    points = [(top, 0.0), (top, first), (under_lip(first), first), tip, (past(last), last), *below]
    named = {"at_ridge": top, "at_cross": below[0][0], "at_kick": below[0][0]}
    named |= {"at_bend": under_lip(first), "at_drip": past(last)}
    assert max(u for u, _ in points) == tip[0]
    return Worked(points, from_end(points, named))


def past_nose(eave: Hooked, a: float, rise: float) -> float:
    """How far out from the corner of the deck, level, the end of a cap ``rise`` above it is cut: clear of the eave."""
    t = eave.t
    # The eave's nose is the farthest out: from its top leg's end (0, t/2) to the face at (x, q), and the face at
    # h = t/2 says where that is. Level h = out cos a + q sin a.
    (tip_out, tip_q), (face_out, face_q) = eave.nose[1], eave.nose[-1]
    start = (t / 2 - face_q * sin(a)) / cos(a) - face_out
    nose = (start + tip_out) * cos(a) + tip_q * sin(a)
    # The panels' seams stand square to the deck, as high as the cap's underside at most: they lean out over the eave.
    return nose + rise * sin(a) + 1 / 4  # room to hook the panels


def flap_below(
    outer_end: tuple[float, float], inner_end: tuple[float, float], a: float, depth: float
) -> list[np.ndarray]:
    """Corners of a wing's flap: its fold stops 1/64 short of both bends; square to it, ``depth`` wide; cut along the
    hem's bend."""
    along = np.array([-cos(a), 1.0]) / hypot(1, cos(a))  # toward the middle
    away = np.array([-1.0, -cos(a)]) / hypot(1, cos(a))
    begin = np.array(outer_end) + along / 64
    finish = np.array(inner_end) - along / 64
    inner = finish + away * depth
    outer = inner - along * (inner[1] - begin[1]) / along[1]
    return [begin, outer, inner, finish]


def hip_foot() -> Worked:
    """The low end of a hip cap, H1-1 of the bakehouse.

    A pyramid at 8 in 12: the hip runs at 45 degrees in plan, and both wings are alike.
    """
    t, r, a = 0.027, 1 / 32, atan(8 / 12)
    eave = Hooked(t, r, pi / 2 - a)
    corner = r + t
    hem, bent, wing = 0.5 - corner, eave.bend(180), 6 - corner  # the wing's other bend is worked out below

    # The middle bend turns the wings from one slope to the other: their level lines make an angle with the hip's
    # plumb plane; each wing falls sideways from it at b, with tan b = tan a cos 45 / sqrt(1 + (tan a sin 45)^2).
    hip = atan(tan(a) * cos(pi / 4))
    b = atan(tan(a) * cos(pi / 4) * cos(hip))
    turn = 2 * b
    wing -= corner * tan(turn / 2)
    middle = eave.bend(degrees(turn))
    v_bend, v_inner = hem + bent, hem + bent + wing

    # The wings' hems lie on the seams: pan 1/8, seam 1 in and a sheet above the deck, square to it. The cap's underside
    # is higher by the fold of the hem, two chords at 45 degrees, and its middle half a sheet more.
    rise = 1 / 8 + 1 + t + eave.bend(180) / 2 * sqrt(2)
    depth = rise / cos(a)  # hanging plumb from the underside to the deck
    # The wings' middles meet plumb over the hip, this much above it:
    over = (rise + t / 2) / cos(a)
    square = past_nose(eave, a, rise)
    # The wings' cut is level and in line with the eave, ``square`` out from the corner: on the hip, in plan, sqrt 2
    # times as far. A point u up the cap's middle, ``over`` plumb above the hip, is in plan at u cos - over sin cos.
    u_apex = (-sqrt(2) * square) / cos(hip) + over * sin(hip)
    # On the wing, a level line in line with the eave makes with the hip an angle whose cotangent is cos a.
    aside = middle / 2 / cos(turn / 2)  # from the middles' meeting to the wing's inner bend line, up the wing
    u_inner = u_apex + aside * cos(a)
    u_outer = u_apex + (aside + wing) * cos(a)

    flap = flap_below((u_outer, v_bend), (u_inner, v_inner), a, depth)
    free = u_outer + 1 / 4
    half = [(free, 0.0), (free, v_bend), (u_outer, v_bend), *flap, (u_inner, v_inner)]
    width = 2 * v_inner + middle
    both = [*half, *((u, width - v) for u, v in half[::-1])]
    low = min(u for u, _ in both)
    points = [(float(u) - low, float(v)) for u, v in both]

    named = {
        "at_inner": u_inner - low,
        "at_outer": u_outer - low,
        "depth": depth,
        "at_left": free - low,
        "at_right": free - low,
    }
    return Worked(points, named, low, width)

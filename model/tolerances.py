"""Every tolerance and clearance of the model, with its reason. Lengths in inches, angles in radians."""

import math

POINT = 1e-6
"""Two points closer than this are one: far below any cut, far above the rounding of a 100 ft roof."""

LEVEL = math.radians(0.05)
"""An edge that rises less than this is level: 1/16 in in 6 ft, what a level can show."""

TAPE = 1 / 32
"""Two lengths this close read the same on a tape marked in sixteenths: half a mark."""

CLEARANCE = 1 / 32
"""Room left where two sheets come edge to face, so that hand-cut metal goes together."""

MITER_GAP = 1 / 16
"""The widest joint line that still reads as closed from the ground, and that sealant bridges."""

HAND = 1 / 8
"""How near to its mark a screw can be driven by hand; less off a limit is not worth a finding."""

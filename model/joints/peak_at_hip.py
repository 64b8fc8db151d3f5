"""Peak at a hip: where two rakes meet under the end of a hip's cap, made as under a ridge's.

Source: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from . import peak

KIND = peak.KIND
MEETING = replace(peak.MEETING, edges=("hip", "rake", "rake"))
fit = peak.fit

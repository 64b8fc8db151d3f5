"""A profile is drawn that no trim is made of.

**Finds** a profile under ``[profile]`` that no run of the roof has.

**Fix** Name it under the trim that it is for, such as ``profile = "deep rake"`` under ``[trim.rake]``, or take it out.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import message
from ...scene.draft import Change
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import at_key

RULE = "profile-unused"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("The trim is bent to another section than the one that was drawn for it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each profile of the scene's own that lies nowhere."""
    scene = facts.layout.scene
    made_of = {run.section.profile for run in facts.layout.runs}
    for name, profile in scene.profile.items():
        if name not in made_of:
            yield at_key(
                facts,
                RULE,
                SEVERITY,
                ("profile", name),
                message("no trim of this roof is made of it"),
                message(
                    'Write profile = "{profile}" under [trim.{kind}], or take it out.',
                    profile=name,
                    kind=profile.edges[0],
                ),
                proposals=((Change(("trim", profile.edges[0], "profile"), name),),),
            )

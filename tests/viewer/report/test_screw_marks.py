"""Where the screws of a piece go, wing by wing where the wings of a cap have theirs at other places."""

from zoo import layout

from trimwright.viewer.report.screw_marks import marks_by_leg, screws_told
from trimwright.viewer.words.speaker import speaker_of


def test_each_wing_of_a_cap_between_unlike_slopes_has_marks_of_its_own() -> None:
    plan = layout("uneven-hip")
    show = plan.scene.tape
    for part in (part for part in plan.parts if part.run.trim == "hip"):
        middle = part.run.section.width / 2
        screws = plan.screws_of(part.mark)
        left = dict.fromkeys(show(screw.at) for screw in screws if screw.across < middle)
        right = dict.fromkeys(show(screw.at) for screw in screws if screw.across > middle)
        assert list(left) != list(right)
        assert marks_by_leg(plan, part, show) == {
            "left wing": ", ".join(left),
            "right wing": ", ".join(right),
        }


def test_wings_with_the_same_marks_are_told_once() -> None:
    plan = layout("boat-shed")
    part = next(part for part in plan.parts if part.run.trim == "ridge")
    assert len(marks_by_leg(plan, part, plan.scene.tape)) == 1
    assert "wing" not in screws_told(plan, part, speaker_of(plan.scene))

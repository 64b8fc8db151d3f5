"""A page of the packet: paper, margins, and what stands at its head and foot."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from trimwright.model.scene.schema import Scene

from ...report.words import CAUTIONS
from ...words.speaker import Speaker, speaker_of
from ...words.unbroken import unbroken_tape
from ..ink.drawing import Drawing, Item, Stroke, Words
from ..ink.letters import ASCENT, DESCENT, shortened, width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, INK, LINE, SMALL, SOFT, TITLE
from .sizes import PAPERS, Paper

MARGIN = 0.5
"""What printers leave white, inches, and a hand's hold on the paper."""


HEAD = 0.62
FOOT = 0.72
"""Heights of the title strip and of the foot with its cautions, inches."""

CLEAR = 0.07
"""Between the cautions and the line under them at least, inches: the foot is higher where a language needs it."""

RULE_AT = 0.16
"""How far below the body of a page the rule over the cautions is, inches."""

NUMBER = 1.3
"""Room for the page's number at the foot, inches."""


@dataclass(frozen=True, slots=True)
class Imprint:
    """What every page of a packet says, and in which words.

    Attributes:
        title: The scene's.
        say: Puts everything into words, lengths as the scene's tape reads them.
        date: Of the scene's file; empty when it is unknown.
    """

    title: str
    say: Speaker
    date: str = ""


@dataclass(frozen=True, slots=True)
class Room:
    """A rectangle on the paper, inches.

    Attributes:
        left: Its left side.
        low: Its bottom.
        right: Its right side.
        top: Its top.
    """

    left: float
    low: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From side to side, inches."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top, inches."""
        return self.top - self.low


def reader_of(scene: Scene) -> Speaker:
    """Return the speaker of a scene for what is on paper: no line ends within a length."""
    say = speaker_of(scene)
    return replace(say, tape=unbroken_tape(say.tape))


def imprint_of(scene: Scene, date: str = "") -> Imprint:
    """Return what every page of a scene's packet says."""
    return Imprint(scene.title, reader_of(scene), date)


def body_of(paper: Paper, imprint: Imprint) -> Room:
    """Return the part of a page between its head and its foot."""
    width, height = PAPERS[paper]
    spaces = len(_cautions(paper, imprint)) - 1
    text = SMALL * (0.95 + LINE * spaces + DESCENT)
    foot = max(FOOT, RULE_AT + 0.03 + text + CLEAR + SMALL * ASCENT)
    return Room(MARGIN, MARGIN + foot, width - MARGIN, height - MARGIN - HEAD)


def _cautions(paper: Paper, imprint: Imprint) -> tuple[str, ...]:
    return wrapped(imprint.say(CAUTIONS), SMALL, PAPERS[paper][0] - 2 * MARGIN)


def paged(
    title: str, pages: Sequence[Sequence[Item]], paper: Paper, imprint: Imprint, asides: Sequence[str] = ("",)
) -> list[Drawing]:
    """Return pages that go on with each other, each with head and foot.

    Args:
        title: Of them all.
        pages: What is on each, inside of ``body_of``.
        paper: Their size.
        imprint: What every page says.
        asides: At the head of each, right; the last one serves those that follow.
    """
    further = imprint.say("{title}, continued", title=title)
    result = []
    for number, items in enumerate(pages):
        aside = asides[min(number, len(asides) - 1)]
        result.append(framed(further if number else title, items, paper, imprint, aside))
    return result


def framed(title: str, items: Iterable[Item], paper: Paper, imprint: Imprint, aside: str = "") -> Drawing:
    """Return a page with its title at the head, and the scene, its date and the cautions at the foot.

    Args:
        title: At the head, left; also the drawing's title.
        items: What is on it, inside of ``body_of(paper, imprint)``.
        paper: Its size.
        imprint: What every page says.
        aside: At the head, right.
    """
    head, foot = _head(title, aside, paper), _foot(paper, imprint)
    return Drawing(title, PAPERS[paper], (*head, *items, *foot))


def _head(title: str, aside: str, paper: Paper) -> list[Item]:
    width, height = PAPERS[paper]
    left, right = MARGIN, width - MARGIN
    base = height - MARGIN - TITLE
    aside_width = width_of(aside, BODY) if aside else 0.0
    room = right - left - aside_width - (0.25 if aside else 0.0)
    size = max(SMALL, min(TITLE, TITLE * room / max(width_of(title, TITLE, bold=True), 1e-9)))
    title = shortened(title, size, room + 1e-6, bold=True)
    head: list[Item] = [
        Words(title, (left, base), size, bold=True, color=INK, name="title"),
        Stroke(((left, base - 0.14), (right, base - 0.14)), 0.02, INK, name="rule"),
    ]
    if aside:
        head.append(Words(aside, (right, base), BODY, "end", color=SOFT, name="aside"))
    return head


def _foot(paper: Paper, imprint: Imprint) -> list[Item]:
    left, right = MARGIN, PAPERS[paper][0] - MARGIN
    top = body_of(paper, imprint).low - RULE_AT
    foot: list[Item] = [Stroke(((left, top), (right, top)), 0.008, SOFT, name="rule")]
    foot += lines(_cautions(paper, imprint), (left, top - 0.03), SMALL, color=SOFT)
    date = imprint.say("scene of {date}", date=imprint.date) if imprint.date else ""
    words = "  ·  ".join(part for part in (imprint.title, date) if part)
    words = shortened(words, SMALL, right - left - NUMBER)
    foot.append(Words(words, (left, MARGIN), SMALL, color=INK, name="imprint"))
    return foot


def numbered(drawing: Drawing, number: int, count: int, say: Speaker) -> Drawing:
    """Return ``drawing`` with its page number at the foot."""
    text = say("Page {number} of {count}", number=number, count=count)
    words = Words(text, (drawing.size[0] - MARGIN, MARGIN), SMALL, "end", bold=True, name="page")
    return replace(drawing, items=(*drawing.items, words))

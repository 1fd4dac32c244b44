"""A shoe's pieces as most tests of lays take them: two curved ones with a hand, and a strap without."""

from geometry.outline import Outline
from nesting.items import Item

VAMP = Outline.make(
    [(0, 0), (150, 0), (170, 40), (90, 45), (90, 85), (170, 90), (150, 130), (0, 130), (-25, 65)]
)
QUARTER = Outline.make([(0, 0), (120, 0), (150, 40), (90, 70), (20, 60)])
STRAP = Outline.make([(0, 0), (70, 0), (70, 12), (0, 12)])


def shoe(pairs: int) -> tuple[Item, ...]:
    """Return the items of a number of pairs in one size."""
    return (
        Item("vamp L", VAMP, pairs, piece="vamp", size="36", hand="left"),
        Item("vamp R", VAMP.mirrored(), pairs, piece="vamp", size="36", hand="right"),
        Item("quarter L", QUARTER, 2 * pairs, piece="quarter", size="36", hand="left"),
        Item("quarter R", QUARTER.mirrored(), 2 * pairs, piece="quarter", size="36", hand="right"),
        Item("strap", STRAP, 2 * pairs),
    )

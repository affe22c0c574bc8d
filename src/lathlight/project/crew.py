"""What a crew lifts together."""

from __future__ import annotations

SHARE = (1.0, 2.0 / 3.0, 1.0 / 2.0)  # of the sum of what one, two, three people lift
TEAM = "team handling guidance of a railway (Network Rail): two lift 2/3 of the sum, three 1/2, more unlikely to help"


def team_lift(*, people: int, each: float) -> float:
    """Return what a team lifts together: less than the sum of what each lifts alone [kg].

    Parameters
    ----------
    people
        At least one; more than three count as three.
    each
        What one person lifts alone in good posture [kg].

    Notes
    -----
    Two lift two thirds of the sum, three half of it; more do not help. Source: team handling guidance of a railway
    (Network Rail), read in a public copy. No figure here is a limit that nobody gets hurt below.

    Examples
    --------
    >>> round(team_lift(people=2, each=20), 1), team_lift(people=3, each=20)
    (26.7, 30.0)
    """
    count = min(people, len(SHARE))
    return SHARE[count - 1] * count * each

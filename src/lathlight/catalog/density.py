"""What a cubic metre of timber weighs at a given moisture; what a tree's figures mean is left to the tables."""

from __future__ import annotations

WATER = 1000.0  # density of water [kg/m3], as the Wood Handbook's metric formula takes it


def wood_density(*, specific_gravity: float, moisture: float) -> float:
    """Density of wood at a moisture content [kg/m3].

    Parameters
    ----------
    specific_gravity
        Oven-dry mass over the volume at that very moisture content, against water [-], above 0.
    moisture
        Water in the wood against its oven-dry mass [%], from 0; planed framing timber has about 12.

    Raises
    ------
    ValueError
        A value outside its range: a caller's mistake, the table's reader has refused it before.

    Notes
    -----
    ``density = water x specific gravity x (1 + moisture / 100)`` [1]_.  Specific gravity on the green or the oven-dry
    volume belongs to another formula and is not to be put in here.

    References
    ----------
    .. [1] USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), chapter 4.

    Examples
    --------
    >>> wood_density(specific_gravity=0.40, moisture=12)
    448.0
    """
    if specific_gravity <= 0 or moisture < 0:
        raise ValueError(f"specific gravity {specific_gravity} and moisture {moisture} % do not belong to wood")
    return round(WATER * specific_gravity * (1 + moisture / 100), 9)

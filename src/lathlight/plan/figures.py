"""The figures that matter, as quantities with their working."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.working import GEOMETRY, Quantity, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry import BuiltWall, Packed
    from lathlight.layout import Layout


def quantities_of(
    *, walls: Sequence[BuiltWall], boards: Sequence[Packed], sheets: Sequence[Packed], layout: Layout
) -> tuple[Quantity, ...]:
    """Return the set's quantities: sizes [mm], counts, weights [kg], areas [mm2]."""
    return (*_sizes(walls, layout), *_counts(walls, boards, sheets), *_weights(walls), *_centre(walls, layout))


def _quantity(
    identity: str,
    label: str,
    value: float,
    unit: str,
    formula: str,
    inputs: Iterable[tuple[str, float | str, str]] = (),
    source: str = GEOMETRY,
) -> Quantity:
    why = Working(formula=formula, inputs=tuple(inputs), source=source, value=value, unit=unit)
    return Quantity(id=identity, label=label, value=value, unit=unit, why=why)


def _sizes(walls: Sequence[BuiltWall], layout: Layout) -> Iterable[Quantity]:
    lengths = [(f"length of {w.name}", w.length, "mm") for w in walls]
    yield _quantity(
        "set/length", "wall, end to end", sum(w.length for w in walls), "mm", "sum of finished lengths", lengths
    )
    yield _quantity("set/height", "height", max(w.height for w in walls), "mm", "highest wall")
    points = [p for line in layout.walls for p in (line.start, line.end)]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    yield _quantity(
        "set/width", "width of the faces in plan", max(xs) - min(xs), "mm", "rightmost less leftmost face corner"
    )
    yield _quantity(
        "set/depth", "depth of the faces in plan", max(ys) - min(ys), "mm", "backmost less foremost face corner"
    )
    faces = sum(p.area for w in walls for f in w.flats for p in f.pieces)
    yield _quantity("set/face-area", "faced area, openings out", faces, "mm2", "sum of all sheet pieces' faces")


def _counts(walls: Sequence[BuiltWall], boards: Sequence[Packed], sheets: Sequence[Packed]) -> Iterable[Quantity]:
    yield _quantity("set/flats", "flats", sum(len(w.flats) for w in walls), "", "sum over the walls")
    for kind, packed in (("boards", boards), ("sheets", sheets)):
        inputs = [(p.stock, p.number, "") for p in packed]
        inputs += [(f"{p.stock}, spare", p.spare, "") for p in packed if p.spare]
        total = sum(p.number + p.spare for p in packed)
        proven = "proven" if all(p.proven for p in packed) else "not proven"
        formula = "what all pieces are cut from, spares included"
        yield _quantity(f"set/{kind}", f"{kind}, {proven}", total, "", formula, inputs)


def _weights(walls: Sequence[BuiltWall]) -> Iterable[Quantity]:
    flats = [f for w in walls for f in w.flats]
    source = "densities of the catalogue's rows"
    weights = [(f.id, f.weight.value, "kg") for f in flats]
    total = sum(f.weight.value for f in flats)
    yield _quantity("set/weight", "weight of the set", total, "kg", "sum over the flats", weights, source)
    heaviest = max(flats, key=lambda f: (f.weight.value, f.id))
    yield _quantity(
        "set/heaviest-flat",
        "heaviest flat",
        heaviest.weight.value,
        "kg",
        f"the heaviest of all flats: {heaviest.id}",
        heaviest.weight.why.inputs,
        source,
    )


def _centre(walls: Sequence[BuiltWall], layout: Layout) -> Iterable[Quantity]:
    """Yield the centre of gravity of the whole set in set axes."""
    total = 0.0
    moments = [0.0, 0.0, 0.0]
    for wall in walls:
        line = layout.wall(wall.name)
        for flat in wall.flats:
            along, behind, up = flat.centre
            place = (*line.at(along=along, behind=behind), up)
            total += flat.weight.value
            moments = [m + flat.weight.value * p for m, p in zip(moments, place, strict=True)]
    labels = (("x", "right of the set's axis"), ("y", "behind the axis' foot"), ("z", "above the floor"))
    for (axis, label), moment in zip(labels, moments, strict=True):
        yield _quantity(
            f"set/centre-{axis}",
            f"centre of gravity, {label}",
            moment / total,
            "mm",
            "mean of the flats' centres, weighted",
            (("weight", total, "kg"),),
        )

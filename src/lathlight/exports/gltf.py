"""The set as a binary glTF 2.0 file (GLB): one node a part, under its flat and its wall.

Decides the file's axes, sharing of equal meshes and the plain materials; the solids are given. The one place that
knows glTF. glTF measures in metres with y up and +z towards the viewer of an asset's front [1]_, so a point (x, y, z)
of the set's axes (mm, z up, y away from the camera) becomes (x, z, -y) / 1000: the finished faces look along +z.

.. [1] Khronos Group, glTF 2.0 specification (ISO/IEC 12113:2022), 3.4 Coordinate System and Units.
"""
# pyright: reportUnknownMemberType=false, reportMissingTypeStubs=false

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from lathlight.geometry import Body, Part, Place

MATERIALS = {  # red, green, blue (linear) and roughness; plain colours that tell materials apart
    "timber": (0.60, 0.42, 0.23, 0.9),
    "sheet": (0.75, 0.72, 0.66, 0.95),
    "plate": (0.50, 0.33, 0.16, 0.9),  # corner plates of ply
    "lining": (0.68, 0.60, 0.48, 0.9),
    "moulding": (0.86, 0.84, 0.80, 0.6),
    "floor": (0.36, 0.33, 0.30, 0.8),
}
SAME = 1e4  # parts are equal where their corners agree to a ten-thousandth of a millimetre
STRAIGHT = 1e-12  # a turn smaller than this is none [rad]
FLOAT, WHOLE = 5126, 5125  # component types: 32-bit float, 32-bit unsigned integer
ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER = 34962, 34963
Key = tuple[object, ...]


def set_glb(parts: Sequence[Part]) -> bytes:
    """Return the set as a GLB file; equal parts give equal bytes.

    Parameters
    ----------
    parts
        Solids in set axes [mm], with the groups they belong to and one of the materials of `MATERIALS`.
        Equal shapes share one mesh.

    Raises
    ------
    ValueError
        No parts, or an unknown material: a fault of ours.
    """
    if not parts:
        msg = "a set without parts has no model"
        raise ValueError(msg)
    unknown = sorted({part.material for part in parts} - set(MATERIALS))
    if unknown:
        msg = f"no glTF material called {', '.join(unknown)}"
        raise ValueError(msg)
    meshes = _Meshes()
    stands = [meshes.place(part) for part in parts]
    return _written(parts, stands, meshes)


def to_gltf(point: Place) -> Place:
    """Return a point of the set's axes [mm] in the file's axes [m].

    Examples
    --------
    >>> to_gltf((1000.0, 200.0, 2400.0))
    (1.0, 2.4, -0.2)
    """
    x, y, z = point
    return _metres(x), _metres(z), _metres(-y)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    """Where a part stands: its mesh, the place of the mesh's origin [mm], and its turn about the upright axis [rad]."""

    mesh: int
    origin: Place
    turn: float


@dataclass(slots=True)
class _Meshes:
    """Meshes found so far, by shape and material; each is stored turned straight, about its own lowest corner."""

    known: dict[Key, int] = field(default_factory=dict[Key, int])
    vertices: list[NDArray[np.float32]] = field(default_factory=list["NDArray[np.float32]"])
    normals: list[NDArray[np.float32]] = field(default_factory=list["NDArray[np.float32]"])
    indices: list[NDArray[np.uint32]] = field(default_factory=list["NDArray[np.uint32]"])
    materials: list[str] = field(default_factory=list[str])

    def place(self, part: Part) -> _Stand:
        """Return how the part stands, adding its mesh where it is new."""
        turn = _turn(part.solid)
        straight = _turned(part.solid.points, -turn)
        low = tuple(min(p[i] for p in straight) for i in range(3))
        corners = tuple(tuple(p[i] - low[i] for i in range(3)) for p in straight)
        grid = tuple(round(v * SAME) for corner in corners for v in corner)
        key: Key = (part.material, part.solid.shape, grid)
        number = self.known.setdefault(key, len(self.materials))
        if number == len(self.materials):
            vertices, normals, indices = _flat_shaded(part.solid, corners)
            self.vertices.append(vertices)
            self.normals.append(normals)
            self.indices.append(indices)
            self.materials.append(part.material)
        (origin,) = _turned([(low[0], low[1], low[2])], turn)
        return _Stand(mesh=number, origin=origin, turn=turn)


def _turn(solid: Body) -> float:
    """Return the direction of a body's first edge in plan [rad], so that walls at any angle share meshes."""
    (ax, ay, _), (bx, by, _) = solid.points[:2]
    if math.hypot(bx - ax, by - ay) * SAME < 1:  # it stands upright
        return 0.0
    turn = math.atan2(by - ay, bx - ax)
    return 0.0 if abs(turn) < STRAIGHT else turn


def _turned(points: Sequence[Place], turn: float) -> list[Place]:
    if turn == 0.0:
        return list(points)
    c, s = math.cos(turn), math.sin(turn)
    return [(c * x - s * y, s * x + c * y, z) for x, y, z in points]


def _metres(value: float) -> float:
    return round(value / 1000.0, 7) + 0.0  # no negative zero


def _flat_shaded(
    solid: Body, corners: Sequence[tuple[float, ...]]
) -> tuple[NDArray[np.float32], NDArray[np.float32], NDArray[np.uint32]]:
    """Return vertices [m], normals and triangles, each plane of the solid with corners of its own."""
    points = np.array(corners)[:, (0, 2, 1)] * (0.001, 0.001, -0.001)
    vertices: list[NDArray[np.float64]] = []
    normals: list[NDArray[np.float64]] = []
    indices: list[int] = []
    for facet in solid.facets():
        used = sorted({i for triangle in facet for i in triangle})
        place = {i: len(vertices) + k for k, i in enumerate(used)}
        vertices += [points[i] for i in used]
        normals += [_normal(points, facet)] * len(used)
        indices += [place[i] for triangle in facet for i in triangle]
    return (
        np.array(vertices, dtype="<f4"),
        np.array(normals, dtype="<f4"),
        np.array(indices, dtype="<u4"),
    )


def _normal(points: NDArray[np.float64], facet: Iterable[tuple[int, int, int]]) -> NDArray[np.float64]:
    """Return the unit normal of all triangles of one plane together: slivers do not count."""
    corners = points[np.array(list(facet))]
    total = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]).sum(axis=0)
    return total / np.linalg.norm(total)


def _written(parts: Sequence[Part], stands: Sequence[_Stand], meshes: _Meshes) -> bytes:
    import pygltflib

    gltf: Any = pygltflib
    blobs = [b"".join(a.tobytes() for a in arrays) for arrays in (meshes.vertices, meshes.normals, meshes.indices)]
    model = gltf.GLTF2(
        asset=gltf.Asset(version="2.0", generator="Lathlight"),
        scene=0,
        scenes=[gltf.Scene(name="set", nodes=[0])],
        nodes=_nodes(parts, stands, gltf),
        meshes=_mesh_table(meshes, gltf),
        materials=[_material(name, gltf) for name in _materials(meshes)],
        accessors=_accessors(meshes, gltf),
        bufferViews=_buffer_views(blobs, gltf),
        buffers=[gltf.Buffer(byteLength=sum(len(b) for b in blobs))],
    )
    model.set_binary_blob(b"".join(blobs))
    return b"".join(model.save_to_bytes())


def _materials(meshes: _Meshes) -> list[str]:
    return [name for name in MATERIALS if name in meshes.materials]


def _nodes(parts: Sequence[Part], stands: Sequence[_Stand], gltf: Any) -> list[Any]:
    """Return the tree: the set, its walls, their flats, their parts."""
    nodes = [gltf.Node(name="set", children=[])]
    groups: dict[tuple[str, ...], int] = {(): 0}
    for part, stand in zip(parts, stands, strict=True):
        for depth in range(1, len(part.path) + 1):
            path = part.path[:depth]
            if path not in groups:
                groups[path] = len(nodes)
                nodes[groups[path[:-1]]].children.append(len(nodes))
                nodes.append(gltf.Node(name=path[-1], children=[]))
        nodes[groups[part.path]].children.append(len(nodes))
        nodes.append(
            gltf.Node(
                name=part.id, mesh=stand.mesh, translation=list(to_gltf(stand.origin)), rotation=_quaternion(stand.turn)
            )
        )
    return nodes


def _quaternion(turn: float) -> list[float] | None:
    """Return a turn about the file's y axis, which is the set's z; None where there is none."""
    if turn == 0.0:
        return None
    return [0.0, round(math.sin(turn / 2), 12), 0.0, round(math.cos(turn / 2), 12)]


def _mesh_table(meshes: _Meshes, gltf: Any) -> list[Any]:
    numbers = {name: i for i, name in enumerate(_materials(meshes))}
    return [
        gltf.Mesh(
            primitives=[
                gltf.Primitive(
                    attributes=gltf.Attributes(POSITION=3 * i, NORMAL=3 * i + 1),
                    indices=3 * i + 2,
                    material=numbers[material],
                )
            ]
        )
        for i, material in enumerate(meshes.materials)
    ]


def _accessors(meshes: _Meshes, gltf: Any) -> list[Any]:
    accessors: list[Any] = []
    start = 0
    first = 0
    for vertices, indices in zip(meshes.vertices, meshes.indices, strict=True):
        count = len(vertices)
        low, high = ([float(v) for v in values] for values in (vertices.min(axis=0), vertices.max(axis=0)))
        for view, limits in ((0, {"min": low, "max": high}), (1, {})):
            accessors.append(
                gltf.Accessor(
                    bufferView=view, byteOffset=start, componentType=FLOAT, count=count, type="VEC3", **limits
                )
            )
        accessors.append(
            gltf.Accessor(bufferView=2, byteOffset=first, componentType=WHOLE, count=len(indices), type="SCALAR")
        )
        start += 12 * count
        first += 4 * len(indices)
    return accessors


def _buffer_views(blobs: Sequence[bytes], gltf: Any) -> list[Any]:
    views: list[Any] = []
    start = 0
    for blob, target, stride in zip(
        blobs, (ARRAY_BUFFER, ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER), (12, 12, None), strict=True
    ):
        views.append(
            gltf.BufferView(buffer=0, byteOffset=start, byteLength=len(blob), byteStride=stride, target=target)
        )
        start += len(blob)
    return views


def _material(name: str, gltf: Any) -> Any:
    *colour, roughness = MATERIALS[name]
    return gltf.Material(
        name=name,
        pbrMetallicRoughness=gltf.PbrMetallicRoughness(
            baseColorFactor=[*colour, 1.0], metallicFactor=0.0, roughnessFactor=roughness
        ),
    )

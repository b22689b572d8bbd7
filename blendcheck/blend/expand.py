"""From the lines of a recipe to its leaves, every mass still linear.

A leaf is a lot of a material. A stock blend or a dilution whose proportions are
known exactly is expanded to its leaves; one whose proportions are not (its oils
were counted in drops) stays a *mix*, and is closed on its own, from the inside
out, before it is weighed into anything.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from blendcheck.blend.plan import LineMass, Planner
from blendcheck.blend.shelf import Shelf
from blendcheck.blend.solve import Total
from blendcheck.errors import RecipeError
from blendcheck.records.mass import Key, key_of
from blendcheck.records.material import Material, Materials, StockLine
from blendcheck.records.recipe import Line, Recipe
from blendcheck.records.working import Figure, Id, Working

__all__ = ["Expansion", "LineMass", "Node", "expand"]


@dataclass(slots=True)
class Node:
    """A leaf, or a mix that is closed on its own.

    Parameters
    ----------
    id : str
        ``material/lot`` or the name of the mix.
    says : str
        What the maker calls it.
    material : Material or None
        The material of a leaf.
    lot : str or None
        Its lot.
    leaves : Id or None
        Figure of what leaves on drying, for a leaf that dries off. [%]
    inner : dict
        For a mix, its own nodes and their mass steps.
    inner_whole : Id or None
        For a mix, the step that adds them.
    masses : list of Id
        Steps of the masses that were expanded into this node.
    wet, left : Id or None
        Steps of the mass put in and of what is left of it. [g]
    """

    id: str
    says: str
    material: Material | None = None
    lot: str | None = None
    leaves: Id | None = None
    inner: dict[str, "Node"] = field(default_factory=dict)
    inner_whole: Id | None = None
    masses: list[Id] = field(default_factory=list)
    wet: Id | None = None
    left: Id | None = None


@dataclass(slots=True)
class Expansion:
    """The leaves of a recipe, its lines in grams and its totals."""

    nodes: dict[str, Node]
    lines: list[LineMass]
    totals: dict[Total, Id]
    expected: Id
    wet: Id


def expand(recipe: Recipe, materials: Materials, working: Working) -> Expansion:
    """Expand a recipe.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    materials : Materials
        The shelf that it names.
    working : Working
        Where figures and steps are kept.

    Returns
    -------
    Expansion
        Leaves, lines and totals.

    Raises
    ------
    InputError
        If a line names something that is not there, or cannot be weighed.
    RecipeError
        If a stock blend contains itself, or the lines cannot be solved.
    """
    shelf = Shelf(recipe, materials, working)
    shelf.look_through()
    planned, totals = Planner(shelf).plan()
    expander = _Expander(shelf)
    nodes: dict[str, Node] = {}
    for mass, line in planned:
        expander.into(nodes, line, mass.grams, (), mass.where)
    expander.settle(nodes, "")
    wet = expander.add("wet mass", [n.wet for n in nodes.values()], "wet mix")
    left = expander.add(
        "expected finished mass",
        [n.left for n in nodes.values()],
        "expected mass when dry",
    )
    least = working.range(left).low
    if least is None or least <= 0:
        raise RecipeError(
            "it is not certain that anything is left of this recipe when it is dry "
            "(0 g): enter how much goes in, and how much of it leaves on drying"
        )
    return Expansion(nodes, [mass for mass, _ in planned], totals, left, wet)


class _Expander:
    """Puts lines into nodes, through stock blends and dilutions."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf, self.materials = shelf, shelf.materials
        self.working = shelf.working

    def into(
        self,
        nodes: dict[str, Node],
        line: Line | StockLine,
        grams: Id,
        path: tuple[str, ...],
        where: str,
    ) -> None:
        if line.material is not None:
            material = self.materials.get(line.material)
            lot = self.shelf.lot(where, material, line)
            own = line.leaves_on_drying if isinstance(line, Line) else None
            leaves = self.shelf.leaves(
                material, where if own is not None else None, own
            )
            self._material_into(nodes, material, lot, leaves, grams, path)
            return
        stock = self.shelf.stock(line.stock or "")
        if stock.id in path:
            chain = " → ".join((*path[path.index(stock.id) :], stock.id))
            raise RecipeError(f"a stock blend contains itself: {chain}")
        path = (*path, stock.id)
        parts = self.shelf.parts(stock)
        if all(self.shelf.is_exact(part) for _, part in parts):
            all_parts = tuple(part for _, part in parts)
            for n, (inner, part) in enumerate(parts, start=1):
                step = self.working.work(
                    f"{grams}/{key_of(stock.id)}[{n}]",
                    "part of a mix",
                    (grams, part, *all_parts),
                    unit="g",
                    says=f"{self.shelf.says(inner)} from {stock.name or stock.id}",
                )
                self.into(nodes, inner, step.id, path, f"{key_of(stock.id)}.line[{n}]")
            return
        node = nodes.get(key_of("stock", stock.id))
        if node is None:
            node = Node(key_of("stock", stock.id), stock.name or stock.id)
            for n, (inner, part) in enumerate(parts, start=1):
                self.into(
                    node.inner, inner, part, path, f"{key_of(stock.id)}.line[{n}]"
                )
            self._close(node)
            nodes[node.id] = node
        node.masses.append(grams)

    def _material_into(
        self,
        nodes: dict[str, Node],
        material: Material,
        lot: str | None,
        leaves: Id | None,
        grams: Id,
        path: tuple[str, ...],
    ) -> None:
        dilution = material.dilution
        if dilution is None or dilution.papers_describe == "as sold":
            name = key_of("leaf", material.id, lot, *((leaves,) if leaves else ()))
            if name not in nodes:
                says = material.name + (f", lot {lot}" if lot else "")
                nodes[name] = Node(name, says, material, lot, leaves)
            nodes[name].masses.append(grams)
            return
        if f"diluted {material.id}" in path:
            raise RecipeError(f'"{material.id}" is diluted in itself')
        self._diluted_into(nodes, material, lot, grams, path)

    def _diluted_into(
        self,
        nodes: dict[str, Node],
        material: Material,
        lot: str | None,
        grams: Id,
        path: tuple[str, ...],
    ) -> None:
        dilution = material.dilution
        if dilution is None:
            raise RecipeError(f'"{material.id}" is not diluted')
        diluent = self.materials.get(dilution.diluent)
        share = self.working.add(
            Figure(
                key_of("dilution", material.id),
                dilution.percent.printed,
                dilution.percent.range,
                "%",
                f"share of the oil in {material.name} as sold",
            )
        )
        path = (*path, f"diluted {material.id}")
        neat = material.model_copy(update={"dilution": None})
        leaves = self.shelf.leaves(material, None, None)
        lot_of_diluent = self.shelf.lot(f"diluent of {material.id}", diluent, None)
        if self.working.range(Id(share)).is_exact:
            oil = self._own(f"{grams}/neat", "percent of", (share, grams), material)
            rest = self._own(f"{grams}/diluent", "stays", (grams, share), diluent)
            self._material_into(nodes, neat, lot, leaves, oil, path)
            self._material_into(
                nodes,
                diluent,
                lot_of_diluent,
                self.shelf.leaves(diluent, None, None),
                rest,
                path,
            )
            return
        node = nodes.get(key_of("diluted", material.id, lot))
        if node is None:
            node = Node(key_of("diluted", material.id, lot), material.name)
            hundred = self.shelf.number("hundred", 100)
            oil = self.add(f"{node.id}/neat", [Id(share)], "oil in 100 g as sold")
            rest = self.working.work(
                f"{node.id}/diluent",
                "stays",
                (hundred, share),
                unit="g",
                says="diluent in 100 g as sold",
            ).id
            self._material_into(node.inner, neat, lot, leaves, oil, path)
            self._material_into(
                node.inner,
                diluent,
                lot_of_diluent,
                self.shelf.leaves(diluent, None, None),
                rest,
                path,
            )
            self._close(node)
            nodes[node.id] = node
        node.masses.append(grams)

    def _own(
        self, name: str, rule: str, given: tuple[Id | Key, Id | Key], material: Material
    ) -> Id:
        says = f"{material.name}, its own mass"
        return self.working.work(name, rule, given, unit="g", says=says).id

    def _close(self, node: Node) -> None:
        self.settle(node.inner, node.id)
        node.inner_whole = self.add(
            f"{node.id}/whole",
            [n.wet for n in node.inner.values()],
            f"{node.says}, whole",
        )

    def settle(self, nodes: dict[str, Node], prefix: str) -> None:
        """Add up what was expanded into each node, and what is left of it."""
        for node in nodes.values():
            head = f"{prefix}>{node.id}" if prefix else node.id
            node.wet = self.add(f"{head}/wet", node.masses, f"{node.says}, put in")
            node.left = self._left(node, head)

    def _left(self, node: Node, head: str) -> Id | None:
        if node.leaves is not None and node.wet is not None:
            return self.working.work(
                f"{head}/left",
                "stays",
                (node.wet, node.leaves),
                unit="g",
                says=f"{node.says}, left when dry",
            ).id
        if node.wet is None or not self._dries(node):
            return node.wet
        return self.working.work(
            f"{head}/left",
            "grams",
            (self._stay_share(node), node.wet),
            unit="g",
            says=f"{node.says}, left when dry",
        ).id

    def _dries(self, node: Node) -> bool:
        return node.leaves is not None or any(map(self._dries, node.inner.values()))

    def _stay_share(self, node: Node) -> Id:
        """Return the share of a leaf or a mix that is left when dry."""
        hundred = self.shelf.number("hundred", 100)
        if not self._dries(node):
            return hundred
        says = f"share of {node.says} that stays"
        if node.leaves is not None:
            given: tuple[Id, ...] = (hundred, node.leaves)
            name = f"stay/{node.leaves}"
            return self.working.work(name, "stays", given, unit="%", says=says).id
        pairs: tuple[Id, ...] = ()
        for inner in node.inner.values():
            pairs += (self._stay_share(inner), inner.wet or Id(""))
        whole = node.inner_whole or Id("")
        return self.working.work(
            f"{node.id}/stays", "percent", (*pairs, whole), unit="%", says=says
        ).id

    def add(self, name: str, given: Iterable[Id | None], says: str) -> Id:
        ids = tuple(i for i in given if i is not None)
        if len(ids) == 1:
            return ids[0]
        return self.working.work(name, "sum", ids, unit="g", says=says).id

"""The whole of a recipe: its leaves, its bases, its finished mass and its piece."""

from collections.abc import Iterable
from fractions import Fraction
from functools import cached_property

from blendcheck.blend.expand import Expansion, Node, expand
from blendcheck.blend.grams import grams_of
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.mass import Key, Mass
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.working import Figure, Given, Id, Working

__all__ = ["Batch"]


class Batch:
    """A recipe expanded, with the masses that percents are closed with.

    Parameters
    ----------
    recipe, materials : Recipe, Materials
        What was written.
    working : Working
        Where figures and steps are kept.

    Raises
    ------
    InputError, RecipeError
        If the recipe cannot be expanded.
    """

    def __init__(self, recipe: Recipe, materials: Materials, working: Working) -> None:
        self.recipe, self.materials, self.working = recipe, materials, working
        self.expansion: Expansion = expand(recipe, materials, working)
        self.weighed = self._weighed()

    @property
    def nodes(self) -> Iterable[Node]:
        """Leaves and mixes of the recipe."""
        return self.expansion.nodes.values()

    @cached_property
    def leaves(self) -> tuple[Node, ...]:
        """Every leaf, those inside mixes included."""
        found: dict[str, Node] = {}

        def walk(nodes: Iterable[Node]) -> None:
            for node in nodes:
                if node.material is not None:
                    found.setdefault(node.id, node)
                walk(node.inner.values())

        walk(self.nodes)
        return tuple(found.values())

    def _weighed(self) -> Id | None:
        """Return the weighed dry mass, from what was kept to what was made."""
        dry = self.recipe.dry_mass
        if dry is None:
            return None
        weighed = grams_of(dry, None, None, "dry_mass", "dry batch", self.working)
        loss = self.recipe.allowance_for_loss
        if loss is None or not loss.range.high:
            return weighed
        kept = self.working.add(
            Figure(
                Key("kept-at-least"),
                f"1 less up to {loss.printed}",
                Range(1 - loss.range.high / 100, Fraction(1)),
                "",
                "share of the mix that was kept",
            )
        )
        return self.working.work(
            "dry_mass/before loss",
            "before loss",
            (weighed, kept),
            unit="g",
            says="dry batch, what was lost on the way added",
        ).id

    def whole(self, base: Base) -> Id:
        """Return the step of the whole that a base names.

        Parameters
        ----------
        base : Base
            Finished, wet mix, powders or soaping oils.
        """
        if base is Base.FINISHED:
            return self.expansion.expected
        if base is Base.WET:
            return self.expansion.wet
        kind = "solid" if base is Base.POWDERS else "soaping oil"
        found = (self._of_kind(node, kind) for node in self.nodes)
        given = tuple(i for i in found if i is not None)
        return self.working.work(
            f"whole/{base}", "sum", given, unit="g", says=f"{base}"
        ).id

    def _of_kind(self, node: Node, kind: str) -> Id | None:
        """Return the step of what a leaf or a mix holds of one kind, in grams."""
        if node.material is not None:
            return node.wet if node.material.kind == kind else None
        share = self._share_of_kind(node, kind)
        if share is None or node.wet is None:
            return None
        return self.working.work(
            f"{node.id}/{kind}",
            "grams",
            (share, node.wet),
            unit="g",
            says=f"{kind} in {node.says}",
        ).id

    def _share_of_kind(self, node: Node, kind: str) -> Id | None:
        pairs: tuple[Id, ...] = ()
        for one in node.inner.values():
            if one.material is None:
                share = self._share_of_kind(one, kind)
            else:
                share = self.hundred() if one.material.kind == kind else None
            if share is not None and one.wet is not None:
                pairs += (share, one.wet)
        if not pairs or node.inner_whole is None:
            return None
        return self.working.work(
            f"{node.id}/{kind}/share",
            "percent",
            (*pairs, node.inner_whole),
            unit="%",
            says=f"share of {kind} in {node.says}",
        ).id

    def has(self, base: Base) -> bool:
        """Whether the recipe holds any of a base, so that percents of it exist.

        Parameters
        ----------
        base : Base
            Finished, wet mix, powders or soaping oils.
        """
        low = self.working.range(self.whole(base)).low
        return low is not None and low > 0

    @property
    def powder_base(self) -> Base:
        """The base that stands in for powders in this product."""
        return Base.SOAPING_OILS if self.recipe.product == "soap" else Base.POWDERS

    @cached_property
    def finished(self) -> Id:
        """Step of the finished mass that percents are closed with, in grams."""
        if self.weighed is None:
            return self.expansion.expected
        return self.working.work(
            "finished mass",
            "smaller",
            (self.expansion.expected, self.weighed),
            unit="g",
            says="finished mass used: the smaller of expected and weighed",
        ).id

    @cached_property
    def piece_mass(self) -> Id | None:
        """Step of the mass of one piece, entered or shared out, in grams."""
        recipe = self.recipe
        if recipe.piece_mass is not None:
            return grams_of(
                recipe.piece_mass, None, None, "piece_mass", "one piece", self.working
            )
        if recipe.pieces is None:
            return None
        count = self.working.add(
            Figure(
                Key("pieces"),
                str(recipe.pieces),
                Range.at(recipe.pieces),
                "",
                "pieces to make",
            )
        )
        return self.working.work(
            "piece", "divided", (self.finished, count), unit="g", says="one piece"
        ).id

    def mass_of(self, name: Id) -> Mass:
        """Return the linear form behind a mass step.

        Parameters
        ----------
        name : Id
            The step.
        """
        return Given(name, self.working.value(name)).mass

    def hundred(self) -> Id:
        """Return the figure of a share of one hundred percent."""
        return self._hundred

    @cached_property
    def _hundred(self) -> Id:
        figure = Figure(Key("hundred"), "100", Range.at(100), "", "hundred")
        return Id(self.working.add(figure))

    def pieces(self) -> tuple[int | None, Range | None]:
        """Count the pieces that can be counted on, and what is left over.

        Returns
        -------
        int or None
            Whole pieces, from the smallest finished mass after the allowance for
            loss; ``None`` without a piece mass.
        Range or None
            What is left of the finished mass. [g]
        """
        if self.piece_mass is None or self.recipe.piece_mass is None:
            return self.recipe.pieces, None
        made, piece = (
            self.working.range(self.finished),
            self.working.range(self.piece_mass),
        )
        loss = self.recipe.allowance_for_loss
        kept = 1 - (loss.range.high or Fraction(0)) / 100 if loss else Fraction(1)
        each = piece.high or Fraction(1)
        low, high = (made.low or Fraction(0)) * kept, (made.high or Fraction(0)) * kept
        count = int(low / each)
        if self.recipe.pieces is not None:
            count = min(count, self.recipe.pieces)
        return count, Range(low - count * each, high - count * each)

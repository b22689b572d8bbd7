"""Grams of a total: in the batch, in one piece, in one use, for one person."""

from typing import NamedTuple

from blendcheck.blend.batch import Batch
from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Share, Subject
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.mass import Key
from blendcheck.records.working import Figure, Id

__all__ = ["Amounts", "SubjectTotal", "Traced"]


class Traced(NamedTuple):
    """One material's part in a total: its node, readings and mass steps."""

    node: Node
    share: Share
    mass: Id


class SubjectTotal(Frozen):
    """A subject in one base, in its three readings.

    Parameters
    ----------
    documented, most, strict : Id
        Steps of the percent documented, at most, and at most when published
        ranges are not taken for the lot's own. [%]
    span : Id
        Step from the documented low end to the most. [%]
    traced : tuple of Traced
        What it comes from.
    base : Base
        What it is a percent of.
    """

    subject: Subject
    documented: Id
    most: Id
    strict: Id
    span: Id
    traced: tuple[Traced, ...]
    base: Base


class Amounts(Batch):
    """A batch, and the grams that follow from a total of it.

    Parameters
    ----------
    recipe, materials : Recipe, Materials
        What was written.
    working : Working
        Where figures and steps are kept.
    """

    def per_piece(self, total: SubjectTotal) -> Id | None:
        """Grams of a finished-base total in one piece.

        Parameters
        ----------
        total : SubjectTotal
            A total of the finished product.

        Returns
        -------
        Id or None
            The step [g]; ``None`` if neither piece mass nor pieces are entered.
        """
        piece = self.piece_mass
        if piece is None:
            return None
        if self.recipe.piece_mass is None:
            count = Id("pieces")
            grams = self.batch_grams(total)
            return self.working.work(
                f"{total.span}/piece",
                "divided",
                (grams, count),
                unit="g",
                says=f"{total.subject.name} in one piece",
            ).id
        return self.working.work(
            f"{total.span}/piece",
            "per piece",
            (total.span, piece),
            unit="g",
            says=f"{total.subject.name} in one piece",
        ).id

    def _span_share(self, low: Id | None, high: Id, one: Traced) -> Id:
        if low == high:
            return high
        if low is None:
            return self.working.work(
                f"{high}/from nothing",
                "may count",
                (high,),
                unit="%",
                says=f"in {one.node.says}, from nothing up",
            ).id
        return self.working.work(
            f"{high}/from {low}",
            "low to high",
            (low, high),
            unit="%",
            says=f"in {one.node.says}",
        ).id

    def batch_grams(self, total: SubjectTotal) -> Id:
        """Grams of a total in the batch.

        Parameters
        ----------
        total : SubjectTotal
            Any total.
        """
        pairs: tuple[Id, ...] = ()
        for one in total.traced:
            low, high = one.share.documented, one.share.most
            if high is None:
                continue
            pairs += (self._span_share(low, high, one), one.mass)
        return self.working.work(
            f"{total.span}/batch",
            "grams",
            pairs,
            unit="g",
            says=f"{total.subject.name} in the batch",
        ).id

    def per_use(self, total: SubjectTotal) -> Id | None:
        """Grams of a total in one use (half a piece, one or two).

        Parameters
        ----------
        total : SubjectTotal
            A total of the finished product.
        """
        piece = self.per_piece(total)
        if piece is None:
            return None
        used = Figure(
            Key("pieces-per-use"),
            self.recipe.pieces_per_use,
            Range.at(self.recipe.share_of_piece_used),
            "",
            "pieces in one use",
        )
        return self._in_pieces(piece, used, "use", f"{total.subject.name} in one use")

    def per_person(self, total: SubjectTotal) -> Id | None:
        """Grams of a total in all that one person is given.

        Parameters
        ----------
        total : SubjectTotal
            A total of the finished product.

        Returns
        -------
        Id or None
            The step [g]; ``None`` if it is not entered how many pieces that is.
        """
        piece, given = self.per_piece(total), self.recipe.pieces_given
        if piece is None or given is None:
            return None
        count = Figure(
            Key("pieces-given"),
            str(given),
            Range.at(given),
            "",
            "pieces given to one person",
        )
        says = f"{total.subject.name} in what one person is given"
        return self._in_pieces(piece, count, "given", says)

    def _in_pieces(self, piece: Id, count: Figure, name: str, says: str) -> Id:
        """Return grams in one piece, times a number of pieces."""
        given = (piece, self.working.add(count))
        return self.working.work(
            f"{piece}/{name}", "product", given, unit="g", says=says
        ).id

    def traced_grams(self, one: Traced) -> Id:
        """Grams that one material brings to a total.

        Parameters
        ----------
        one : Traced
            An entry of :attr:`SubjectTotal.traced`.
        """
        if one.share.most is None:
            return one.mass
        share = self._span_share(one.share.documented, one.share.most, one)
        return self.working.work(
            f"{share}/from/{one.node.id}",
            "grams",
            (share, one.mass),
            unit="g",
            says=f"from {one.node.says}",
        ).id

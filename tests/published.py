"""A figure as a publication prints it, and how near to it ours must be."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

__all__ = ["Printed"]


@dataclass(frozen=True)
class Printed:
    """A printed figure; ours must round to it.

    ``text`` keeps the printed digits. The tolerance is half a unit of the last of
    them, exactly, and more (``widen``, as text) only with a reason.
    """

    text: str
    unit: str
    source_id: str
    locator: str
    widen: str = ""
    why_wider: str = ""

    def __post_init__(self) -> None:
        if bool(self.widen) != bool(self.why_wider):
            raise ValueError("a wider tolerance needs its reason, and a reason a width")

    @property
    def value(self) -> Fraction:
        """The figure, exactly."""
        return Fraction(self.text.replace(" ", ""))

    @property
    def tolerance(self) -> Fraction:
        """Half a unit of its last place, and the widening."""
        exponent = Decimal(self.text.replace(" ", "")).as_tuple().exponent
        assert isinstance(exponent, int)
        return Fraction(10) ** exponent / 2 + Fraction(self.widen or "0")

    def holds(self, ours: object) -> bool:
        """Say whether one of our numbers rounds to the figure.

        A float, or an array of one number, counts as the fraction that it is.
        """
        number = ours if isinstance(ours, int | Fraction) else float(ours)  # type: ignore[arg-type]
        return abs(Fraction(number) - self.value) <= self.tolerance

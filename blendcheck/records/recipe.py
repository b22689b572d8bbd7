"""What the maker wants to make: a recipe."""

from fractions import Fraction
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from blendcheck.errors import InputError
from blendcheck.records.fields import (
    AmountText,
    DateText,
    Name,
    PercentText,
    Record,
    TemperatureText,
)
from blendcheck.records.material import CapEntry, Stock, StockLine
from blendcheck.records.papers import PaperTexts

__all__ = ["Blend", "CategoryBasis", "Line", "Process", "Product", "Recipe", "Stage"]

Product = Literal["shower tablet", "bath fizz", "soap", "balm", "room mist", "other"]

Stage = Literal[
    "stored oils",
    "weighing",
    "wet mix",
    "drying",
    "heated base",
    "wrapping",
    "posting",
]


class Line(StockLine):
    """A line of a recipe. ``amount`` may be parts or a percent of a base."""

    leaves_on_drying: PercentText | None = None

    @model_validator(mode="after")
    def _dries_as_one_material(self) -> Self:
        if self.leaves_on_drying is not None and self.stock is not None:
            raise InputError(
                "what leaves on drying is a property of a material, and this line is "
                "a stock blend",
                "enter it with the material inside the stock blend",
                code="leaves-stock",
            )
        return self


def _blend_lines(lines: tuple[StockLine, ...]) -> tuple[StockLine, ...]:
    return Stock(id="blend", line=lines).line


class Blend(Record):
    """The scent of a recipe, and how much of it goes in.

    ``load`` is a percent ``of`` the total or on top of the base; without it the
    lines are amounts and are weighed as they stand.
    """

    load: PercentText | None = None
    of: Literal["the total", "on top of the base"] | None = None
    line: Annotated[tuple[StockLine, ...], AfterValidator(_blend_lines)]

    @model_validator(mode="after")
    def _load_has_a_base(self) -> Self:
        relative = any(x.amount.kind in ("parts", "percent") for x in self.line)
        if self.load is None and relative:
            raise InputError(
                "the blend is in parts or percent but no load is given",
                'write load = "2 %" and of = "the total" or "on top of the base"',
                code="load-missing",
            )
        if self.load is not None and self.of is None:
            raise InputError(
                f"a load of {self.load.printed} of what?",
                'write of = "the total" or of = "on top of the base"',
                code="load-base",
            )
        if self.load is not None and not self.load.range.is_exact:
            raise InputError(
                f'"{self.load.printed}" is a range, and a load is one number',
                "choose the load to make, for example its high end",
                code="load-range",
            )
        return self


class Process(Record):
    """The kitchen while it is made.

    ``ignition`` is the answer to one question for the whole kitchen: a list of
    what can light a vapour there (hob, pilot light, heater, candles, ...); an
    empty list says that somebody looked and there is none; left out, it is not
    known. Stage temperatures that are left out are the room's, save those that
    only exist when they are given (heated base, wrapping, posting).
    """

    room: TemperatureText | None = None
    ignition: tuple[Name, ...] | None = None
    heat_gun: bool | None = None
    temperature: dict[Stage, TemperatureText] = Field(default_factory=dict)


class CategoryBasis(Record):
    """Who said which category the product is in, and when."""

    scheme: Name
    category: Name
    said_by: Name
    on: DateText
    edition: str = ""


class Recipe(Record):
    """A recipe as written. See README for the file form.

    ``pieces_given`` is how many pieces one person is handed.
    """

    schema_: Literal[1] = Field(default=1, alias="schema")
    name: Name
    materials: str = "materials.toml"
    product: Product = "shower tablet"
    contact: Literal["leave-on", "rinse-off", "not for skin"] | None = None
    channel: Literal["gift", "sale", "free at the stall"] | None = None
    pieces: int | None = Field(default=None, ge=1, le=1_000_000, strict=True)
    piece_mass: AmountText | None = None
    pieces_per_use: Literal["1/2", "1", "2"] = "1"
    pieces_given: int | None = Field(default=None, ge=1, le=1_000_000, strict=True)
    allowance_for_loss: PercentText | None = None
    dry_mass: AmountText | None = None
    remark: str = ""
    line: tuple[Line, ...] = ()
    blend: Blend | None = None
    stock: tuple[Stock, ...] = ()
    cap: tuple[CapEntry, ...] = ()
    process: Process = Process()
    category: tuple[CategoryBasis, ...] = ()
    papers: PaperTexts = PaperTexts()

    @model_validator(mode="after")
    def _can_be_weighed(self) -> Self:
        if not self.line and self.blend is None:
            raise InputError(
                "the recipe has no lines", "add what goes in, with amounts"
            )
        for name, amount in (
            ("piece_mass", self.piece_mass),
            ("dry_mass", self.dry_mass),
        ):
            if amount is not None and amount.kind != "mass":
                raise InputError(f"{name} must be weighed", "write it in grams")
            if amount is not None and amount.number.high == 0:
                raise InputError(
                    f"{name} is 0 g", "weigh it, or leave it out", code="zero-mass"
                )
        loss = self.allowance_for_loss
        if loss is not None and not (loss.range.is_exact and loss.range.high != 100):
            raise InputError("the allowance for loss is one number below 100 %", "")
        return self

    @property
    def share_of_piece_used(self) -> Fraction:
        """Pieces put down for one use, a plain number."""
        return Fraction(self.pieces_per_use)

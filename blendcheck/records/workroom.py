"""The rooms: where it is made, with what the maker knows of them."""

from typing import Self

from pydantic import model_validator

from blendcheck.errors import InputError
from blendcheck.records.fields import (
    AirChangesText,
    AmountText,
    HoursText,
    LevelText,
    Record,
    VolumeText,
)

__all__ = ["Workroom"]


class Workroom(Record):
    """The room in which alcohol dries off.

    What is left out is asked for, or shown from none to all of it. ``volume`` is
    the air of the room, ``air_changes`` how often an hour it is replaced,
    ``drying`` how long the batch gives off its alcohol, ``also_used`` the alcohol
    beside the recipe (spritz that missed, wiped trays, soaked cloths),
    ``alcohol_kept`` how much of it stands at home, ``level`` the concentration
    under which the average is to fall.
    """

    volume: VolumeText | None = None
    air_changes: AirChangesText | None = None
    drying: HoursText | None = None
    also_used: AmountText | None = None
    alcohol_kept: AmountText | None = None
    level: LevelText | None = None

    @model_validator(mode="after")
    def _is_a_room(self) -> Self:
        for name, given in (
            ("volume", self.volume),
            ("drying", self.drying),
            ("level", self.level),
        ):
            if given is not None and not given.range.low:
                raise InputError(
                    f"{name} of the workroom is {given.printed}",
                    "measure it, or leave it out",
                    code="zero-setting",
                )
        for name, amount in (
            ("also_used", self.also_used),
            ("alcohol_kept", self.alcohol_kept),
        ):
            if amount is not None and amount.kind not in ("mass", "volume"):
                raise InputError(
                    f"{name} of the workroom is no weight or volume",
                    "write it like 200 g or 1 L",
                    code="kept-kind",
                )
        return self

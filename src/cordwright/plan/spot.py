"""A part of a plan that knows where in the file it stands."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic.json_schema import SkipJsonSchema  # noqa: TC002 - pydantic reads it at run time

from cordwright.errors import Place  # noqa: TC001 - pydantic reads it at run time
from cordwright.plan.fields import problem
from cordwright.plan.marks import MarkedDict


class Spot(BaseModel):
    """A part of the plan that knows where in the file it stands."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)

    where: SkipJsonSchema[Place | None] = Field(default=None, exclude=True, repr=False)

    @model_validator(mode="before")
    @classmethod
    def _mark(cls, data: Any) -> Any:
        if not isinstance(data, MarkedDict):
            return data
        if "where" in data:
            raise problem(
                "'where' is not a key that is known here.", "take it out", data.key_places["where"]
            )
        known = {f.alias or name for name, f in cls.model_fields.items()} - {"nothing"}
        empty = next((k for k, v in data.items() if v is None and k in known), None)
        if empty is not None:
            raise problem(
                f"'{empty}' is empty.", "give it a value, or take it out", data.key_places[empty]
            )
        return {**data, "where": data.place}

    def _own(self) -> tuple[Any, ...]:
        return tuple(v for k, v in self.__dict__.items() if k != "where")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and isinstance(other, Spot) and self._own() == other._own()

    def __hash__(self) -> int:
        return hash((type(self), self._own()))

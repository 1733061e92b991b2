"""The job: its head, and the facts of every stage under the stage's own key."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, Literal

from pydantic import BaseModel, Field, create_model

from undertile.job.address import Path, canonical, split
from undertile.job.photo import PhotoFacts
from undertile.job.shape import Leaf, Table, table_of
from undertile.job.stages import STAGES
from undertile.lengths import Unit
from undertile.survey.facts import Facts

VERSION = 2
"""Version of the job file this package writes; older ones are migrated, newer ones refused."""


class JobHead(Facts):
    """What a job has before any stage: version, name, unit, place, photos."""

    version: Literal[2] = Field(default=2, description="version of the job file")
    name: str = Field(default="", description="what the job is called")
    unit: Unit = Field(description="unit of a number without a mark")
    place: str = Field(default="", description="where it is")
    photos: dict[str, PhotoFacts] = Field(
        default_factory=dict, description="what each photo shows, by the first 32 digits of its hash"
    )

    def facts(self) -> dict[str, BaseModel]:
        """The facts of every stage by its key, in the job's order."""
        return {stage.key: getattr(self, stage.key) for stage in STAGES}

    def told_in(self, unit: Unit | None = None) -> dict[str, Any]:
        """What a stage is given of a job: its facts, the unit that words print in, and the job's own."""
        return {"unit": unit or self.unit, "own_unit": self.unit, **self.facts()}


HEAD = tuple(JobHead.model_fields)
"""Keys of the job's own, before the stages' tables."""

if TYPE_CHECKING:

    class Job(JobHead):
        """One job as it stands: its head, and one field for each stage in ``STAGES``."""

        def __getattr__(self, name: str) -> Any: ...

else:
    Job = create_model(
        "Job",
        __base__=JobHead,
        __doc__="One job as it stands: its head, and one field for each stage in ``STAGES``.",
        __module__=__name__,
        **{
            stage.key: (stage.facts, Field(default_factory=stage.facts, description=stage.question))
            for stage in STAGES
        },
    )


@cache
def job_shape() -> Table:
    """Everything a job can hold, but for the version, which the file alone carries."""
    shape = table_of(Job)
    fields = {key: node for key, node in shape.fields.items() if key != "version"}
    return Table(fields, shape.required, shape.doc)


@lru_cache(maxsize=4096)
def fact_at(address: str) -> tuple[Path, Leaf]:
    """A fact of a job by its address: its canonical path, and what kind of fact it is.

    Kept, for a log is folded anew with every value typed, and all but one of its addresses were there before.

    Raises
    ------
    InputError
        If it is no address, or no job has such a fact.
    """
    return canonical(split(address), job_shape())

"""The job: its head, and the facts of every stage under the stage's own key."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from pydantic import BaseModel, Field, create_model

from undertile.job.shape import Table, table_of
from undertile.job.stages import STAGES
from undertile.lengths import Unit
from undertile.survey.facts import Facts

VERSION = 2
"""Version of the job file this package writes; older ones are migrated, newer ones refused."""


class Job(Facts):
    """One job as it stands: head and facts of every stage.

    Instances are of the composed model (``job_model``), which adds one field for each stage.
    """

    version: Literal[2] = Field(default=2, description="version of the job file")
    name: str = Field(default="", description="what the job is called")
    unit: Unit = Field(description="unit of a number without a mark")
    place: str = Field(default="", description="where it is")

    if TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any: ...

    def facts(self) -> dict[str, BaseModel]:
        """The facts of every stage by its key, in the job's order."""
        return {stage.key: getattr(self, stage.key) for stage in STAGES}


HEAD = tuple(Job.model_fields)
"""Keys of the job's own, before the stages' tables."""


@cache
def job_model() -> type[Job]:
    """The job model composed of every stage in ``STAGES``."""
    fields: dict[str, Any] = {
        stage.key: (stage.facts, Field(default_factory=stage.facts, description=stage.question))
        for stage in STAGES
    }
    return create_model("Job", __base__=Job, __doc__=Job.__doc__, **fields)


@cache
def job_shape() -> Table:
    """Everything a job can hold, but for the version, which the file alone carries."""
    shape = table_of(job_model())
    fields = {key: node for key, node in shape.fields.items() if key != "version"}
    return Table(fields, shape.required, shape.doc)

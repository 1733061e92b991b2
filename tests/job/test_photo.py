"""What a photo shows is facts of the job like any other, under a name that fits in an address."""

from __future__ import annotations

from tests.job.cast import SETUP, said
from undertile.job import fold, read_job, write_job
from undertile.job.address import say, split
from undertile.job.archive import photo_name
from undertile.job.photo import MARK

NAME = photo_name(b"a picture")[:MARK]


def test_a_photo_of_a_stud_folds_and_is_written() -> None:
    facts = {"wall": "B", "stud": "B2", "height": "48", "stage": "trued", "note": "tape in frame"}
    log = [said(f"p{key}", value, f"photos.{NAME}.{key}") for key, value in facts.items()]
    folded = fold([*SETUP, *log])
    assert folded.findings == ()
    photo = folded.job.photos[NAME]
    assert (photo.wall, photo.stud, photo.stage, photo.note) == ("B", "B2", "trued", "tape in frame")
    assert photo.height is not None
    assert photo.height.text == "48"
    assert read_job(write_job(folded.job)) == folded.job


def test_a_stage_that_is_none_is_left_out_with_a_finding() -> None:
    folded = fold([*SETUP, said("s", "lunch", f"photos.{NAME}.stage")])
    assert folded.left_out == (f"photos.{NAME}.stage",)
    assert folded.findings[0].where == f"photo {NAME[:8]}, stage"


def test_a_photo_is_said_by_the_beginning_of_its_hash() -> None:
    assert say(split(f"photos.{NAME}.wall")) == f"photo {NAME[:8]}, wall"

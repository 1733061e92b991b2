"""What is still to be read again: each place said once, and as many as the pad asks for."""

from __future__ import annotations

import re
from collections import Counter

from tests.screens.cast import bring, site


def test_each_place_is_asked_for_once_and_the_head_counts_what_the_pad_asks() -> None:
    """independent: the rows of the pad, which are made from what was asked and not from these lines."""
    at = site()
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    pad = at.twin(f"/job/{job}/recheck/pad")["rows"]
    first = next(row for row in pad if row["stud"] is not None and row["label"] == "B3")
    also = [{"fact": each["fact"], "value": each["value"]} for each in first["also"] or pad[0]["also"]]
    at.send(job, *also, {"fact": first["fact"], "value": "6"})
    told = at.twin(f"/job/{job}/recheck")
    assert told["state"] == "read"
    rows = at.twin(f"/job/{job}/recheck/pad")["rows"]
    left = [row for row in rows if not row["value"]]
    places = Counter(row["label"] for row in left if row["fact"].startswith("recheck.walls."))
    laid = sum(row["fact"].startswith("recheck.straightedges.") for row in left)
    assert laid
    assert told["next"]["text"] == f"Read {places.total()} places again"
    assert told["next"]["why"] == f"Lay the straightedge: {laid} to go"
    said = [line for wall in told["walls"] for line in wall["show"]]
    said += [line for wall in told["walls"] for stud in wall["studs"] for line in stud["show"]]
    assert len(said) == len(set(said))
    asked = Counter(stud for line in said for stud in re.findall(r"\b([BLR][0-9]) at", line))
    assert asked == Counter(places.keys()), "a stud once, with all its heights"
    for row in left:
        if row["fact"].startswith("recheck.walls."):
            line = next(line for line in said if f"{row['label']} at" in line)
            assert re.search(rf"\b{row['at'].removeprefix('at ')}\b", line)
    at.store.close()

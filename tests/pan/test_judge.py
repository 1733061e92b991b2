"""How figures are judged and printed: rounding never contradicts the verdict."""

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from undertile.findings import Check, Verdict
from undertile.framing.say import code_place
from undertile.lengths import parse_length
from undertile.pan.judge import Topic, worst
from undertile.pan.say import say, window

TOPIC = Topic("t", "T", "w", "convention-5")
lengths = st.fractions(min_value=-3, max_value=3, max_denominator=1000)


@given(
    value=lengths, low=lengths, unit=st.sampled_from(["in", "mm"]), rounding=st.sampled_from(["up", "down"])
)
def test_a_printed_value_never_contradicts_its_verdict(value: F, low: F, unit, rounding):
    check = TOPIC.judge(value, low, None, unit, rounding=rounding)
    printed = parse_length(check.value).inches
    limit = parse_length(check.limit.removeprefix("at least ")).inches
    # independent: read back as a person reads it
    if check.verdict is Verdict.PASS:
        assert value >= low
        assert printed >= limit
        assert not check.margin.startswith("-")
    else:
        assert value < low
        assert printed <= limit
        assert check.margin.startswith("-")


@given(value=lengths, unit=st.sampled_from(["in", "mm"]))
def test_down_never_prints_more_and_up_never_less(value: F, unit):
    assert (
        parse_length(say(value, unit, "down")).inches <= value <= parse_length(say(value, unit, "up")).inches
    )


def test_twice_the_uncertainty_is_within_it():
    # independent: margin 1/16 against 2 x 1/32, and against a hair less
    assert TOPIC.judge(F(1, 16), F(0), None, "in", sigma=1 / 32).within_uncertainty
    assert not TOPIC.judge(F(1, 16), F(0), None, "in", sigma=0.031).within_uncertainty
    assert not TOPIC.judge(F(1, 16), F(0), None, "in").within_uncertainty


def test_both_ends_of_a_window_count():
    check = TOPIC.judge(F(7, 64), F(1, 16), F(1, 8), "in")
    assert check.margin == '+1/64"'
    assert TOPIC.judge(F(3, 16), F(1, 16), F(1, 8), "in").verdict is Verdict.FAIL


def test_a_pass_carries_no_next_step_and_a_failure_does():
    assert TOPIC.judge(F(1), F(0), None, "in", fix="do").next_step == ""
    assert TOPIC.judge(F(-1), F(0), None, "in", fix="do").next_step == "do"


def test_the_worst_of_all_is_a_failure_then_not_shown():
    def made(verdict: Verdict) -> Check:
        return TOPIC.said(verdict, "", "", step="x")

    assert worst([made(Verdict.PASS), made(Verdict.NOT_SHOWN)]) is Verdict.NOT_SHOWN
    assert worst([made(Verdict.FAIL), made(Verdict.NOT_SHOWN)]) is Verdict.FAIL
    assert worst([]) is Verdict.PASS


def test_places_and_windows_in_words():
    assert code_place(F(16)) == "16"
    assert code_place(F(63, 4)) == "15-3/4"
    assert code_place(F(2000, 127)) == "400mm"  # on no inch rule; a code tells no unit of a page
    assert window(F(1, 16), F(1, 8), "in") == '1/16" to 1/8"'
    assert window(None, F(1, 8), "in") == 'at most 1/8"'
    assert window(None, None, "in") == ""

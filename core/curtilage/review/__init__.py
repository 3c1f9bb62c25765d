"""Checks on a design, questions for the authority, and what a stop withholds."""

from curtilage.review.questions import Question, questions
from curtilage.review.run import review
from curtilage.review.stops import Stop, stops

__all__ = ["Question", "Stop", "questions", "review", "stops"]

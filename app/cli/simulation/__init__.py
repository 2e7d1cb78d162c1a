"""Synthetic learners, to measure the learner model by. What comes of them is simulated; no learner sees it."""

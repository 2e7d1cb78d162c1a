"""The question engine: solvers, distractors, wording, drawing and checking of items."""

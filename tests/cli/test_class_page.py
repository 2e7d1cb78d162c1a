"""The measure of a class's page, at a size that takes a moment: what it reads is right, nothing is timed."""

from app.cli.measures.class_page import measure_sizes


def test_page_works_and_the_sums_agree() -> None:
    readings = {each.name: each for each in measure_sizes((50_000, 60_000))}
    assert {"class page: 50,000 answers", "class page: 60,000 answers"} <= set(readings)
    difference = readings["question sums: largest difference"]
    assert difference.goal is not None
    assert difference.value <= difference.goal

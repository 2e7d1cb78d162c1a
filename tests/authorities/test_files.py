"""Every published value names its source and how far it can be trusted, and a test module stands beside each file."""

import pytest

from tests.authorities.published import FOLDER, STATUSES, all_rows, subjects


@pytest.mark.parametrize("subject", subjects())
def test_rows_name_source_and_status(subject: str) -> None:
    assert all(row["source"] and row["status"] in STATUSES for row in all_rows(subject))
    assert all("says" in row or "inputs" in row for row in all_rows(subject))


@pytest.mark.parametrize("subject", subjects())
def test_ids_are_unique(subject: str) -> None:
    ids = [row["id"] for row in all_rows(subject)]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("subject", subjects())
def test_a_test_module_stands_beside_the_file(subject: str) -> None:
    assert (FOLDER / f"test_{subject}.py").is_file()

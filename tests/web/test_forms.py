"""Coordinates as people write them."""

import pytest
from flask import Flask
from werkzeug.datastructures import MultiDict
from wtforms import Form

from app.web.forms import CoordinateField


class Place(Form):  # type: ignore[misc] # the library has no types
    latitude = CoordinateField(letters=("N", "S"))
    longitude = CoordinateField(letters=("E", "WO"))


def read(app: Flask, name: str, text: str) -> Place:
    with app.test_request_context():
        form = Place(MultiDict({name: text}))
        form.validate()
        return form


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("45.32", 45.32),
        ("45,32", 45.32),
        (" -7 ", -7),
        ("−7.5°", -7.5),
        ("45.32 N", 45.32),
        ("33.9s", -33.9),
        (".5", 0.5),
        ("+5", 5),
    ],
)
def test_latitudes_are_read(app: Flask, text: str, value: float) -> None:
    assert read(app, "latitude", text).latitude.data == value


@pytest.mark.parametrize(("text", "value"), [("75.67 W", -75.67), ("75,67 O", -75.67), ("172.3 E", 172.3), ("-0", 0)])
def test_longitudes_are_read(app: Flask, text: str, value: float) -> None:
    assert read(app, "longitude", text).longitude.data == value


@pytest.mark.parametrize(
    "text", ["abc", "45 19", "1e2", "--5", "٤٥", "4532.0", "N", "45 W", "-45 S", "nan", "9" * 1000]
)
def test_others_are_named_and_kept(app: Flask, text: str) -> None:
    field = read(app, "latitude", text).latitude
    assert field.data is None
    assert f"“{text[:40]}" in field.errors[0]
    assert "such as 45.32" in field.errors[0]
    assert field._value() == text


def test_empty_is_no_number(app: Flask) -> None:
    assert read(app, "latitude", "").latitude.data is None

import pytest

from app.services.class_access import taught_class
from app.services.errors import NotAllowed, NotFound
from app.storage.ids import new_id
from app.storage.queries.classes import list_students
from app.storage.unit_of_work import UnitOfWork
from tests.services.people import NOW, cast_of, make_class, visitor


def test_who_may_load_a_class(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    other = make_class(uow, "Other", cast.selma)
    evening = make_class(uow, "Evening", cast.ingrid, cast.alice)
    with uow.reader() as connection:
        assert taught_class(connection, cast.ingrid, evening).name == "Evening"
        assert taught_class(connection, cast.selma, evening).name == "Evening"
        for actor, class_id in ((cast.ingrid, other), (cast.alice, evening)):
            with pytest.raises(NotAllowed):
                taught_class(connection, actor, class_id)
        for actor in (cast.bob, cast.charlie, cast.dora, visitor(uow)):
            with pytest.raises(NotFound):
                taught_class(connection, actor, evening)
        with pytest.raises(NotFound):
            taught_class(connection, cast.ingrid, new_id(NOW))


def test_class_lists_its_students_by_name(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    evening = make_class(uow, "Evening", cast.ingrid, cast.bob, cast.alice)
    with uow.reader() as connection:
        students = list_students(connection, cast.ingrid.school_id, evening)
    assert [(student.name, student.visit_id) for student in students] == [
        ("Alice", cast.alice.visit_id),
        ("Bob", cast.bob.visit_id),
    ]

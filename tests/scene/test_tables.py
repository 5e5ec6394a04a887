"""The keys of every table are those that the records of a scene have."""

from __future__ import annotations

import msgspec
import pytest

from aimcalc.scene import model, tables

# Keys that a record holds in another shape than they are written in.
OTHER_SHAPE = {
    model.Pipe: {"trim", "y", "from", "to"},
}
NOT_WRITTEN = {
    model.Settings: {"typed_in"},
    model.Target: {"plane_given"},
    model.Kind: {"typical"},
    model.Pipe: {"zero_off"},
    model.Unit: {"out_to", "source"},
}


@pytest.mark.parametrize(
    ("readers", "record"),
    [
        (tables.scene_readers, model.Settings),
        (tables.stage_readers, model.Stage),
        (tables.errors_readers, model.Errors),
        (tables.correction_readers, model.Correction),
        (tables.pipe_readers, model.Pipe),
        (tables.boom_readers, model.Boom),
        (tables.stand_readers, model.Stand),
        (tables.target_readers, model.Target),
        (tables.kind_readers, model.Kind),
        (tables.unit_readers, model.Unit),
        (tables.solid_readers, model.Solid),
        (tables.seats_readers, model.Seats),
        (tables.stock_readers, model.Stock),
        (tables.cable_readers, model.Cable),
    ],
)
def test_a_table_has_the_keys_of_its_record(readers: object, record: type[msgspec.Struct]) -> None:
    keys = set(readers("m"))  # type: ignore[operator]
    fields = set(record.__struct_fields__) - NOT_WRITTEN.get(record, set())
    assert keys - OTHER_SHAPE.get(record, set()) == fields


def test_bare_numbers_are_in_the_unit_of_the_scene() -> None:
    assert tables.boom_readers("ft")["height"](10) == 3.048
    assert tables.kind_readers("in")["drop_under"](14) == 0.3556
    assert tables.point_reader("cm")([100, "1 m DS", 50]) == (1.0, -1.0, 0.5)

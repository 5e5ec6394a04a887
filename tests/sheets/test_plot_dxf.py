"""The light plot as DXF, read back by the library for it: units, blocks, places, layers, attributes."""

from __future__ import annotations

import io

import ezdxf
import msgspec
import pytest
from ezdxf import recover

from aimcalc.paper.drawdxf import names_of, plain
from aimcalc.sheets.plot.light_plot import light_plot
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions, Stamp
from tests.findings.clean import changed
from tests.shows import a_show, rig_of

SCENES = ("playhouse", "studio", "raked", "arena")
LAYERS = {
    "deck",
    "acting area",
    "centre and plaster lines",
    "scenery",
    "scenery overhead",
    "seats",
    "positions",
    "units",
    "unit data",
    "position names",
    "zero marks",
    "dimensions",
    "sheet",
    "draft",
}


def dxf_of(rig, **more: object) -> bytes:
    stream = io.BytesIO()
    asked = PaperOptions(**{"stamp": Stamp("K7MP4"), **more})  # type: ignore[arg-type]
    light_plot(a_show(rig), io.BytesIO(), io.BytesIO(), stream, asked)
    return stream.getvalue()


def read(data: bytes):
    document, audit = recover.read(io.BytesIO(data))
    assert not audit.errors
    assert not document.audit().errors
    return document


@pytest.fixture(scope="module")
def documents():
    feet = {"paper": "letter", "length": "ft"}
    return {
        name: read(dxf_of(rig_of(name), **(feet if name == "playhouse" else {}))) for name in SCENES
    }


def units_of(document) -> dict[str, object]:
    """The block references of units by "position/number"."""
    found = {}
    for insert in document.modelspace().query('INSERT[layer=="units"]'):
        told = {attribute.dxf.tag: attribute.dxf.text for attribute in insert.attribs}
        found[f"{told['POSITION']}/{told['NUMBER']}"] = insert
    return found


# Clamps on the plan, as typed in the scenes: the studio's in metres, the playhouse's in feet.
STUDIO = {
    "front pipe/1": (2.70, -1.2),
    "front pipe/2": (1.10, -1.2),
    "front pipe/3": (0.55, -1.2),
    "front pipe/4": (-0.55, -1.2),
    "front pipe/5": (-1.10, -1.2),
    "front pipe/6": (-2.70, -1.2),
    "back pipe/1": (1.60, 2.8),
    "back pipe/2": (0.25, 2.8),
    "back pipe/3": (-1.60, 2.8),
    "boom SL/1": (3.4 - 0.45, 0.7),  # an arm of 0.45 m to SR
    "boom SL/2": (3.4, 0.7),
    "boom SL/3": (3.4, 0.7),
}
PLAYHOUSE = {
    "house pipe/1": (19.0, -14.0),
    "house pipe/20": (-19.0, -14.0),
    "balcony rail/1": (12.0, -33.0),
    "pipe 1/1": (19.25, 4.0),
    "pipe 5/9": (-14.0, 24.0),
    "boom SL/1": (18.5, 5.0 - 1.25),  # an arm of 1'-3" to DS
    "boom SR/1": (-18.5, 5.0 - 1.25),
    "floor SL/1": (16.5, 7.0),
}


@pytest.mark.parametrize(
    ("name", "clamps", "unit"), [("studio", STUDIO, 6), ("playhouse", PLAYHOUSE, 2)]
)
def test_every_unit_is_a_block_at_its_clamp_in_the_unit_of_the_header(
    documents, name, clamps, unit
):
    """$INSUNITS: 6 metres, 2 feet (DXF reference, header section)."""
    document = documents[name]
    assert document.header["$INSUNITS"] == unit
    found = units_of(document)
    assert len(found) == len(rig_of(name).units)
    for called, (x, y) in clamps.items():
        insert = found[called].dxf.insert
        assert (insert.x, insert.y) == pytest.approx((x, y), abs=1e-6), called


@pytest.mark.parametrize("name", SCENES)
def test_layers_are_plainly_named_and_units_are_on_theirs(documents, name):
    document = documents[name]
    assert {layer.dxf.name for layer in document.layers} - {"0", "Defpoints"} == LAYERS
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert used <= LAYERS
    assert {"units", "positions", "deck"} <= used


def test_attributes_say_what_the_scene_says(documents):
    """Front pipe, unit 1 of the studio, as typed."""
    insert = units_of(documents["studio"])["front pipe/1"]
    told = {attribute.dxf.tag: attribute.dxf.text for attribute in insert.attribs}
    assert told == {
        "NUMBER": "1",
        "CHANNEL": "11",
        "CIRCUIT": "F1",
        "COLOUR": "cool 1",
        "KIND": "ers-40",
        "TARGET": "chair SL",
        "SYSTEM": "front cool",
        "POSITION": "front pipe",
        "MARK": "2.70 m SL",
        "HOW": "",
        "HEIGHT": "3.50 m",
    }
    definitions = documents["studio"].blocks[insert.dxf.name].query("ATTDEF")
    assert {each.dxf.tag for each in definitions} == set(told)


def test_the_blocks_nose_points_where_the_unit_is_aimed(documents):
    """Unit 1 of the front pipe: from (2.70, 1.2 DS) to the chair at (1.6, 0.8 US); noses are towards +y."""
    from math import atan2, degrees

    insert = units_of(documents["studio"])["front pipe/1"]
    wanted = degrees(atan2(0.8 + 1.2, 1.6 - 2.7)) - 90.0
    assert (insert.dxf.rotation - wanted + 180) % 360 - 180 == pytest.approx(0.0, abs=1e-6)


def test_bodies_are_as_large_as_their_kinds(documents):
    """ers-40 of the generic kinds is 0.58 m long and 0.22 m wide (scene/generic_kinds.toml)."""
    block = documents["studio"].blocks["ers-40"]
    body = block.query("LWPOLYLINE")[0].get_points("xy")
    xs, ys = zip(*body, strict=True)
    assert max(ys) - min(ys) == pytest.approx(0.58)
    assert max(xs) - min(xs) == pytest.approx(0.22)


def test_the_deck_is_drawn_as_typed(documents):
    """Playhouse, feet."""
    (deck,) = documents["playhouse"].modelspace().query('LWPOLYLINE[layer=="deck"]')
    typed = [
        (-22, 0),
        (-16, 0),
        (-14, -4),
        (14, -4),
        (16, 0),
        (22, 0),
        (22, 29),
        (-22, 29),
        (-22, 0),
    ]
    found = deck.get_points("xy")
    assert len(found) == len(typed)
    for point, corner in zip(found, typed, strict=True):
        assert point == pytest.approx(corner)


@pytest.mark.parametrize("name", SCENES)
def test_the_sheet_is_a_layout_with_the_plan_at_its_scale(documents, name):
    layout = documents[name].layout("light plot")
    (window,) = [view for view in layout.query("VIEWPORT") if view.dxf.id != 1]
    scale = {"playhouse": 48}.get(name, 50)
    real = window.dxf.view_height * (0.3048 if name == "playhouse" else 1.0)
    assert real / (window.dxf.height / 1000) == pytest.approx(scale)
    said = " ".join(text.dxf.text for text in layout.query("TEXT"))
    assert "LIGHT PLOT" in said
    assert "set K7MP4" in said
    assert "GEOMETRY ONLY" in said


def test_the_same_call_gives_the_same_bytes_and_tells_its_set():
    scene = rig_of("studio").scene
    first = dxf_of(solve_rig(scene))
    assert dxf_of(solve_rig(scene)) == first
    assert dict(read(first).header.custom_vars.properties)["set"] == "set K7MP4"


def test_names_that_the_format_takes_for_codes_come_back_as_typed():
    scene = rig_of("studio").scene
    unit = msgspec.structs.replace(scene.units[0], colour="50%%u ^J blue", channel="a\tb")
    kinds = {**scene.kinds, "a/b*c": msgspec.structs.replace(scene.kinds["ers-40"], name="a/b*c")}
    other = msgspec.structs.replace(scene.units[1], kind="a/b*c")
    rig = solve_rig(changed(scene, units=(unit, other, *scene.units[2:]), kinds=kinds))
    found = units_of(read(dxf_of(rig)))
    told = {each.dxf.tag: each for each in found["front pipe/1"].attribs}
    assert told["COLOUR"].plain_text() == "50%%u ^J blue"
    assert told["CHANNEL"].dxf.text == "a b"
    assert found["front pipe/2"].dxf.name == "a_b_c"


def test_block_names_are_all_different_where_capitals_do_not_count():
    assert names_of(["A", "a", "a/b", "a:b", ""]) == ["A", "a 2", "a_b", "a_b 2", "kind"]
    assert plain("one  two\n%") == "one two %"


def test_a_draft_says_so_in_both_spaces():
    document = read(dxf_of(rig_of("studio"), draft=True))
    assert [t.dxf.text for t in document.modelspace().query('TEXT[layer=="draft"]')] == ["DRAFT"]
    assert "DRAFT" in {text.dxf.text for text in document.layout("light plot").query("TEXT")}


def test_the_librarys_own_setting_is_left_as_it_was():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    dxf_of(rig_of("studio"))
    assert ezdxf.options.write_fixed_meta_data_for_testing == before

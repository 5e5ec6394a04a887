"""The trade's ordinary words for the columns of a hang list, and those that stand for one another."""

from __future__ import annotations

# Words that stand for one another, once a heading is in lower case with its marks taken out.
WORDS = {
    **dict.fromkeys(("color", "colours", "colors", "colour", "clr", "colr", "col"), "colour"),
    **dict.fromkeys(("colored", "coloured"), "colour"),
    **dict.fromkeys(("gels",), "gel"),
    **dict.fromkeys(("foils",), "foil"),
    **dict.fromkeys(("center", "centre", "ctr", "centreline", "centerline"), "centre"),
    **dict.fromkeys(("number", "numbers", "num", "nbr", "no", "nos", "nr", "n°", "№"), "no"),
    **dict.fromkeys(("position", "positions", "pos", "posn", "posit"), "position"),
    **dict.fromkeys(("location", "locations", "loc", "locn"), "location"),
    **dict.fromkeys(
        ("channel", "channels", "chan", "chans", "ch", "chs", "chnl", "chn", "chl", "chls"),
        "channel",
    ),
    **dict.fromkeys(("control", "ctrl", "ctl", "desk", "console", "board"), "control"),
    **dict.fromkeys(("instrument", "instruments", "inst", "instr"), "instrument"),
    **dict.fromkeys(("fixture", "fixtures", "fixt", "fix", "fxt"), "fixture"),
    **dict.fromkeys(("luminaire", "luminaires", "lum"), "luminaire"),
    **dict.fromkeys(("lantern", "lanterns", "ltn", "ltns", "lant", "lntn"), "lantern"),
    **dict.fromkeys(("distance", "distances", "dist"), "distance"),
    **dict.fromkeys(("dimmer", "dimmers", "dim", "dims", "dmr", "dm"), "dimmer"),
    **dict.fromkeys(("circuit", "circuits", "ckt", "cct", "circ", "cir", "ck", "cks"), "circuit"),
    **dict.fromkeys(("ckts", "ccts", "circs", "cirs", "crct", "crcts", "crkt", "crkts"), "circuit"),
    **dict.fromkeys(("circt", "circts", "cirt", "cirts", "circuts", "circut"), "circuit"),
    "mults": "mult",
    "multis": "multi",
    "socas": "soca",
    **dict.fromkeys(("unit", "units", "u"), "unit"),
    **dict.fromkeys(("type", "types", "typ"), "type"),
    **dict.fromkeys(("degree", "degrees", "deg", "degs", "°"), "degree"),
    **dict.fromkeys(("notes", "note"), "note"),
    **dict.fromkeys(("remarks", "remark", "rem"), "remark"),
    **dict.fromkeys(("comments", "comment"), "comment"),
    **dict.fromkeys(("electrics", "electric", "elec"), "electric"),
    **dict.fromkeys(("areas", "area"), "area"),
    **dict.fromkeys(("points", "point", "pt"), "point"),
    **dict.fromkeys(("from", "fr", "frm"), "from"),
    **dict.fromkeys(("targets", "target"), "target"),
    **dict.fromkeys(("systems", "system", "sys"), "system"),
    **dict.fromkeys(("focused", "focussed", "foc", "fcs", "focus", "focuses", "focusing"), "focus"),
    **dict.fromkeys(("purposes", "purpose", "purp"), "purpose"),
    **dict.fromkeys(("gobos", "gobo"), "gobo"),
    **dict.fromkeys(("filters", "filter", "filt"), "filter"),
    **dict.fromkeys(("lamps", "lamp", "lmp"), "lamp"),
    **dict.fromkeys(("lights", "lts", "lt", "lite"), "light"),
    **dict.fromkeys(("equip", "eqpt", "eq"), "equipment"),
    **dict.fromkeys(("spots", "spot"), "spot"),
    **dict.fromkeys(("fittings", "fitting"), "fitting"),
    **dict.fromkeys(("dimension", "dimensions", "dimn"), "dimension"),
    **dict.fromkeys(("measurement", "measurements", "measured", "measure", "meas"), "measurement"),
    **dict.fromkeys(("offsets", "offset", "offs"), "offset"),
    **dict.fromkeys(("pipes", "pipe"), "pipe"),
    **dict.fromkeys(("bars", "bar"), "bar"),
    **dict.fromkeys(("places", "place"), "place"),
    **dict.fromkeys(("middle", "mid", "midline"), "middle"),
    **dict.fromkeys(("tracks", "track"), "track"),
    **dict.fromkeys(("spotlights", "spotlight"), "spotlight"),
    **dict.fromkeys(("objects", "object"), "object"),
    **dict.fromkeys(("boom", "booms", "tower", "towers"), "boom"),
    **dict.fromkeys(("reference", "references", "ref", "refs"), "reference"),
    **dict.fromkeys(("sockets", "socket", "skt", "soc"), "socket"),
    **dict.fromkeys(("faders", "fader", "handle", "handles"), "fader"),
    **dict.fromkeys(("descriptions", "description", "desc", "descr"), "description"),
    **dict.fromkeys(("heights", "height", "ht", "hgt"), "height"),
    **dict.fromkeys(("quantity", "qty", "qnty", "quant"), "quantity"),
    **dict.fromkeys(("accessories", "accessory", "acc", "accs", "access"), "accessories"),
}
# What a column holds, likeliest first, and the headings that say so, in those words.
TRADE = """
position: position, location, hanging position, hang position, hung on, hang on, hangs on, hung from
position: hanging location, position name, pipe, pipe name, bar, bar name, batten, electric, lx, lx bar
position: lx pipe, truss, hang location, lighting position, mounting position, rigging position, where
position: where hung, unit position
number: letter no, letter or no, no or letter
number: no, unit no, fixture no, instrument no, lantern no, light no, luminaire no, hang no, unit id
number: position no, no on position, no on pipe, no on bar
number: lamp no, spot no, head no, fitting no, device no, unit name, no in position, no of unit
number channel: fixture id, fid, fixture id no
number: no of light, position unit, pipe unit, bar unit, instrument id, light id
number kind: unit, item, item no, id
position: boom, ladder, line set, lineset, line, rigged on, flown on, pipe no, bar no, lx no
position: electric no, truss no, batten no, lx position, pipe or boom, bar or boom, place hung
at: at, distance, distance from, from cl, from centre, from centre line, distance from cl
at: distance from centre, distance from centre line, distance cl, cl distance, distance to cl, offset
at: offset from cl, offset from centre, cl offset, off cl, off centre, position on pipe, position on bar
at: place, place on pipe, place on bar, on pipe, on bar, hang at, hung at, hangs at, hang point
at: hanging point, location on pipe, location on bar, along, along pipe, along bar, cl, centre line
at: from zero, position from cl, position from centre, location from cl, distance along, from
at: x, distance along pipe, measurement, hang mark, mark
upstage: y, y position, position y, y coordinate, coordinate y, y coord, y offset, y distance, stage y, ypos
at_SL: sl, distance sl, sl distance, distance to sl, sl of cl, sl of centre, sl of centre line
at_SR: sr, distance sr, sr distance, distance to sr, sr of cl, sr of centre, sr of centre line
gap: gap, gaps, space, spacing, spacings, gap from last, gap to last, gap from previous
gap: gap to previous
gap: spacing from last, spacing from previous, spacing to previous, space from last, space from previous
gap: space to previous, distance from last, distance from previous, distance to previous, from last
gap: from previous, from last one, from previous one, from one before, spacing from last unit
gap: gap from last unit
gap: spacing from previous unit, gap from previous unit, distance from last unit, distance from previous unit
gap: from last unit, from previous unit, from unit before, from last lantern, from previous lantern
gap: spacing from last lantern, spacing from previous lantern, gap from previous lantern, from last lamp
gap: from previous lamp, gap from previous lamp, spacing from previous lamp
at: running, running total, running sum, running distance, cumulative, cumulative distance, added up
side: l r, r l, left right, left or right
side: seite, lato, zijde, lado, strona, sida, strana, puoli, oldal
side: side, sl sr, sr sl, stage side, side of cl, side of centre, dir, direction
height: height, h, height on boom, boom height, height above deck, height above floor
kind: kind, type, instrument, fixture, lantern, luminaire, instrument type, fixture type, unit type
kind: lantern type, luminaire type, light type, light, equipment, kind of unit, type of unit, unit kind
kind: instrument kind, model, equipment type, instrument name, fixture name
kind: type of light, fitting, fitting type, apparatus, gear, device, device type, head, spot type
kind: type of fixture, type of instrument, type of lantern, spot, head type, unit and type
kind: symbol, symbol name, symbol type, type of lamp, kind of lamp, kind of light, kind of lantern, sort
kind: sort of lamp, sort of light, sort of lantern, sort of unit, lamp code, lantern code, light code
kind: type code, kind code, symbol code, lantern symbol, lamp symbol
lens: degree, lens, field, field angle, beam angle, angle, lens angle, lens degree, lens tube
target: target, focus, area, focus area, acting area, aim, aim at, aimed at, aim point, aiming point
target: where to, aimed where, on to what, shines on to, shines onto
target: light area, destination, focus zone, focus notes, area of light, lights which area, lit by it
target: focus point, focus to, focus on, focus at, hits, lights, lights area, area lit, focus position
target: focus target, zone, area no, stage area, lighting area
target: set to, set on, points at, pointing at, point at, points to, aims at, aim to, aimed to
target: what does it light, what does it hit, what does it point at, what is it aimed at, what it lights
target: what is it pointing at, where does it point, where is it aimed, what is it lighting
target: focused at, shoots, shoots at, lit area, covers, onto, shot, directed at, lighting, hits area
target: pointed at, light up
target: focus area no, acting area no, where focus, focus where, subject, light on, lights on
target: shines on, shines at, shining on, aiming at, aiming to, pointing to, pointing on, beam on, lit object
target: object, object lit, lit subject, subject lit, to light, area covered, area to light, area to be lit
target: covering, coverage, covers area, area of focus, area of stage, part of stage, playing area, picks up
target: illuminates, lights what, where aimed, where it points, where pointing, stage position, spot on
target: light falls on, what it hits, what it lights up, target area, target name, focus name, area name
target: lx focus, unit focus, lantern focus, instrument focus, fixture focus, lamp focus, show focus, lands on
target: falls on, beam to, throw to, looks at, aim for, shot at, where pointed, where to point, covers what
target: hitting, lighting what, pool on, directed to, used to light, light where
colour: gel to use, colour to use, filter to use, gel to be used, colour to be used
circuit: plug into, runs off, runs from, fed off, powered from, powered by, driven by, driven from
channel: comes up on, comes up at
circuit: wired to, wired into, connected to, connected into
target: what it should light, what it has to light, what it must light, what it needs to light, thing to light
target: things to light, what it will light, what it is meant to light, what it is for lighting
target: focus spot, focus description, focus location, focus on area, acting area lit, to hit, pointed to
target system: purpose, used for, use, duty, role, job, does what, does, what it does, what for
position: fly bar no, flying bar no, track, track name, rail, fly bar, flybar, flying bar, house pipe
position: lighting bar, lighting pipe
position: venue bar, venue pipe, venue name, theatre position, theatre bar, theatre pipe, your bar, your pipe
position: your position, house bar, house electric, house lx, house truss, house line, house line set
position: local position, local bar, show bar, show pipe, show position, tour bar, tour pipe
position: tour position, plot position, rep position, rep bar
position: bar or stand, bar stand, pipe boom, bar boom, rig position, hang pos, which bar, which pipe
position: which truss
position: hangs from, hanging from, suspended from, fixed on, mounted to, rigged from, clamped on
position: mounted on, fixed to, clamped to, attached to, hung where, where it hangs, where does it hang
position: boom name, truss name, electric name, ladder name, batten or boom, pipe or stand, truss or stand
position: barrel, brl, lx bars
position: catwalk, bridge, lineset no, line set no, ls no, truss section, structure, fly line, iwb, lxbar
position: spot bar, placement, position on rig, bar reference, pipe reference, scaff, scaff bar, gantry
position: hung off, hangs off, hanging off, rigged off, bolted to, hooked on, bar letter, pipe letter
position: truss letter
position: hangs on bar, hangs on pipe, internally wired bar, fly tower bar, flown bar, bar section
position: grid pipe, grid bar, venue position, house position, position of light, pipe no name, stand, perch
number: no along bar, no along pipe, no on truss, no on boom, no on track, unit reference, lamp reference
number: unit label, fixture label, light label, lamp id, lantern id, lantern reference, light reference
number: fixture reference, spotlight no, equipment no, head id, luminaire id, hung no, place no
number: unit on bar, unit on pipe, unit on truss, order on bar, order on pipe, rig no, unit tag, seq
number: n, sequence, un, uno, lx unit, lx unit no, no across, bar order
number: no in row, no from sl, no from sr, unit no on pipe, unit no on bar, pipe unit no, bar unit no
kind: what light, what lamp, what lantern, bulb, source type
kind: lx type, generic type, what is it, unit used, kind of kit, lantern to use, what unit, which unit
kind: which lantern, which light, type used, lamp and lens, lantern and lens, unit and lens
kind: spotlight, spotlight type, type of spotlight, kit, projector, what kind, what sort, what type
kind: light kind, light used, lamp used
kind: lighting instrument, lighting unit, light fitting, light sort, lamp sort, lamp kind, lantern kind
kind: fixture kind, instrument used, lantern used, make model, type model, kind of fixture, kind of instrument
kind: unit description, instrument description, fixture description, lantern description, type wattage
kind: instrument type wattage, type and wattage, instrument and wattage, fixture model, kind of spotlight
at: spacing from cl, spacing from centre, lateral, lateral distance, horizontal, horizontal distance, xpos
at: lateral offset, horizontal offset, lat offset, lat distance
at: tape mark, tape no, mark on tape, tape reading
at: set out, setting out, setout, set out from centre, rigged at, centres
at: stage x, clamp at, rig at, tape, tape measure, tape distance, measured at, running dimension, hook at
at: hook position, hanging dimension, hang dimension, hang measurement, rig distance, rigging distance
at: clamp, clamp position, clamp place, clamp on bar, clamp on pipe, where on bar, where on pipe, where along
at: where along bar, where along pipe, where on truss, truss point, hang place
at: where from centre, how far, how far along, how far out, how far off centre, how far from centre
at: hangs from centre, where on it, where on, where on which, where on light bar
at: spot on pipe, spot on truss, spot on batten, spot along bar, spot along pipe, point on truss
at: place along bar, place along pipe, point on bar, point on pipe, spot on bar, distance on bar
at: distance on pipe
at: x location, location x, x place, x dimension
at: along bar from centre, bar offset, pipe offset, x position, position x, pos x, x pos, x offset, x distance
at: x coordinate, x coord, coordinate x, hang offset, hang distance, distance out, out from centre
side: way from centre, towards, c j, j c, cour or jardin, jardin or cour
side: which side, which way, side of stage, sl or sr, ps op, ps or op, p op, prompt or op
height: trim or height, trim height, height or trim
height: z, elevation, z height, height z, rung height, height up, height up boom, height on stand, up boom
height: below grid, from top, down from top, distance from top, distance down from top, below top
height: how high, mounting height, hung height
height: h, above floor, above deck, above stage, from floor, from deck, off floor, off deck, up from floor
height: up from deck, floor to hook, deck to hook, hook height
channel: slider, slider no, cont, desk fader, lx control
channel: desk channel, desk chan, des chan
channel: dmx channel, channel dmx, lighting channel, light channel, fader, fader no, softpatch, soft patch
channel: control by, controlled by, on channel, lx channel, channel id, memory channel, show channel
circuit: hard patch, dmx dimmer, hot, socapex, soca, multi, iwb socket, bar socket
circuit: dimmer circuit no, bar outlet, bar circuit, pipe circuit, multicore, soca way, multicore way, spigot
circuit: plugging, plug no, plugged, way no, patch no, patch point, outlet name, outlet id, power circuit
circuit: house circuit, grid circuit, fed by, feed, supply, power outlet, circuit id, dimmer outlet
circuit: dimmer id, dimmer rack, rack and way, multi way, dimmer socket, floor pocket, pocket, drop box
circuit: power from, switch, switch no
circuit: patched in, circuit outlet, outlet circuit, hot circuit, plugs in, goes into, dimmer and way
circuit: rack way, mult, mult way, multi tail, tail no, loom, loom tail, loom way, loom no, multicable
circuit: multicable tail, multi cable, multi core, mult no, multi no, multi circuit
circuit: breakout, break out, breakout tail
circuit: cable way, cable and way, fan out, socapex way, socapex tail, soca tail, soca no, mult tail
circuit: breaker, breaker dimmer, breaker and dimmer, breaker or dimmer
colour: cto, ctb, cto ctb, ctb cto, cto or ctb, ctb or cto, cct gel, correction colour, gel correction
colour: colour or correction, gel or correction, colour and correction, diff gel, gel diff, diff or gel
colour: colour 1, gel 1, gel no 1, colour no 1, filter 1, filter no 1, gels, colours, hue, gel type
colour: colour of gel, colour of light, filter name, filter type, gel code
colour: filter code, colour correction, correction, correction filter, correction gel, l filter, r filter
colour: l filter no, r filter no, l no, g filter
colour: colour call, colour used, gel used, colour gel no, colour frame, gel colour no, colour filter no
colour: colour name or no, colour sheet, colour in, gel in, light colour, lamp colour
count: no off, how many off, no of lamps, no of lights, no of lanterns, no of fixtures, no of instruments
count: no required
note: extras, extra, additional, special note, detail, details, instruction, instructions, more
system: system, group, wash, function, job, lighting system, system name
channel: control and channel, channel on control, control channel no, control no channel, cue channel
channel: channel, channel no, control, control channel, control no
circuit: circuit, circuit no, circuit name, dimmer, dimmer no, dimmer circuit, circuit dimmer, outlet
circuit: patched to, patch, patched, patched into, plug, plugged in, outlet no, fed from, way
circuit: socket no, circuit or dimmer, dimmer way, plugged to, plugs into
circuit: socket, plugged into, dimmer or circuit
colour: colour, gel, filter, colour gel, gel colour, gel no, colour no, filter no, colour filter, medium
colour: tint, media, gel or colour, colour or gel, colour medium no, gel name, colour name, colour code
colour: colour plastic, plastic, plastic colour, gel sheet, colour gel sheet, colour film, jelly, jellies
colour: gel paper, gel papers, colour paper, coloured paper, filter paper, gelatine paper, gelatin paper
colour: gelatine, gelatin, swatch, swatch no, colour swatch, colour light, light of colour
colour: colour media, gel in frame, colour in frame, filter in frame
colour: colour wanted, what colour, foil, colour foil, foil colour, foil no
colour: colour medium, gel filter, filter colour, colour frost, colour and frost, gel frost, gel and frost
colour: colour diffusion, gel diffusion, colour and diffusion, gel and diffusion, filter diffusion
colour: colour diff, diff colour, diffusion colour, diff filter, filter diff, diffusion filter
colour: frost colour, frost gel, frost filter, filter frost, filter and frost, filter and diffusion
colour: diff and colour, diff and gel, diff and filter, frost and colour, frost and gel, diffusion and colour
colour: diffusion and gel, diffusion and filter, colour and diff, gel and diff, filter and diff
count: count, quantity, how many, pcs, pieces, no of units, amount
mount: mount, mounting, mount type, hang type, hanging method, rigging, how hung
arm: arm, sidearm, side arm, arm length, side arm length
arm_to: arm to, arm towards, arm toward, arm direction
transmission: transmission, transmittance
note: note, remark, comment, accessories, misc, miscellaneous, other, special instructions
"""

LENGTHS = {
    **dict.fromkeys(("ft", "feet", "foot", "'"), "ft"),
    **dict.fromkeys(("in", "ins", "inch", "inches", '"'), "in"),
    **dict.fromkeys(
        ("m", "metre", "metres", "meter", "meters", "mètres", "metri", "metros", "metry"), "m"
    ),
    **dict.fromkeys(("cm", "cms", "centimetres", "centimeters"), "cm"),
    **dict.fromkeys(("mm", "mms", "millimetres", "millimeters"), "mm"),
}

# Words of colours, for a column that no heading calls so; beside them stand gel numbers.
_COLOURS = """
amber apricot aqua azure blue bastard blush bronze brown canary cerise chocolate cobalt congo copper cyan
daylight fire frost gold green grey gray indigo lavender lemon lilac lime magenta mauve mist moonlight ochre
orange orchid peach pink purple red rose ruby salmon scarlet sky steel straw sunset surprise tangerine teal
turquoise violet white yellow cto ctb nc ow
"""
COLOURS = frozenset(_COLOURS.split())
_COLOUR_BESIDE = """
no color colour open clear none pale light dark deep medium mid bright hot soft full half quarter double
cool warm special primary n c o w l r g and
"""
COLOUR_BESIDE = frozenset(_COLOUR_BESIDE.split())
# What these head is told by the cells alone: numbers, names of kinds or neither.
_UNSURE = """
number kind: lamp, code, which lamp
kind: lamp type, source, spec, make, product
kind target: what, description
number kind position target: name
target: for, to, lit, aimed, pointing, facing, pointed, hit, lighting on, lights up, points
target: object lit by, who, performer, actor, object name, serves, aiming, bereich, flache, motiv
target: objekt, zweck, auf, objet, sujet, objectif, fonction, utilisation, sur, objeto, sujeto, uso
target: funcion, para, oggetto, soggetto, funzione, gebied, vlak, functie, voor, ponto, funcao, omrade
target: yta, punkt, mot, mod, pa, formal, syfte, sigte, sone, zon, obiekt, zastosowanie, na, plan
target position: on
target: on to, onto
position at: hung, hangs, hang, bar position, pipe position, truss position, rigging point, rig point
position: rig, set, pole, support, fly, flys, flies, flown, fly no
number kind position: which, which one
circuit: power, mains, power supply, mains supply, cable no, cable, box, loom, tail, rack, caja
circuit: boitier, harting, puissance, potencia, alimentation, alimentacion, alimentazione, zasilanie
circuit: strom, stroom
position: lives on, sits on
target: for lighting, washes
at: across
colour: gelled, gelled with, colour to cut, gel to cut, frame, cc, scroller frame, scroll, insert
at: height position, height place, height distance
position number: slot
"""


def by_phrase(text: str) -> dict[str, tuple[str, ...]]:
    """The keys of each phrase of lines as those above: keys, likeliest first, and the phrases behind them."""
    found: dict[str, tuple[str, ...]] = {}
    for line in text.strip().splitlines():
        keys, _, phrases = line.partition(": ")
        found |= dict.fromkeys(phrases.split(", "), tuple(keys.split()))
    return found


UNSURE = by_phrase(_UNSURE)

# A heading of these words alone, one of MEASURES among them or a unit before "from", is that of a place.
MEASURES = frozenset(
    ("distance", "offset", "measurement", "dimension", "place", "at", "along", "x", "mark")
)
CENTRES = frozenset(("cl", "centre", "zero", "middle", "datum", "axis", "axe"))
FROM = frozenset(("from", "off", "to", "of"))
# A heading of these words alone is that of heights: one of HIGH among them, or from where and what it counts.
HIGH = frozenset(("height", "high", "elevation", "z"))
FROM_BELOW = frozenset(("above", "from", "off", "over", "up"))
GROUNDS = frozenset(("deck", "floor", "ground", "stage", "level"))
_OF_HEIGHTS = """
to of at on in for and is or how its clamp hook yoke pin pivot boom ladder stand tree pole post tower rung
unit light lamp fixture instrument lantern head lens mounting mounted hanging hang hung rigging rigged
"""
OF_HEIGHTS = frozenset(_OF_HEIGHTS.split())
_LITTLE = """
line the each on in by and or pipe bar batten truss hang where it is hangs out positive negative value
coordinate coord hung point taken stage how far away along its clamp decimal
approx approximate approximately roughly rough
"""
LITTLE = frozenset(_LITTLE.split())

"use strict";
// Where the light goes of a unit set so: the lines of landings/forward.py with nothing out. Metres, radians.
const throwing = (() => {
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const cross = (a, b) => [
    a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0],
  ];
  const plus = (a, b, by = 1) => [a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2]];
  const times = (a, by) => [a[0] * by, a[1] * by, a[2] * by];
  const size = (a) => Math.sqrt(dot(a, a));
  const UP = [0, 0, 1];
  const GRAZING = 1e-9, TOUCH = 1e-9, FAR = 1e3, STEEP = Math.sin(Math.PI / 12);

  // A vector turned about a unit axis square to it or not (Rodrigues).
  function turned(v, about, by) {
    const c = Math.cos(by), s = Math.sin(by);
    return plus(plus(times(v, c), cross(about, v), s), about, dot(about, v) * (1 - c));
  }

  // The turn at the clamp of a pan in radians; sign +1 towards the first of the unit's two sides.
  function turnOf(unit, pan, sign) {
    const faces = unit.faces;
    return Math.atan2(faces * sign * Math.sin(pan), faces * unit.square * Math.cos(pan));
  }

  // Turned by the dial, tipped by a level: cos t h_z + sin t a_z = -sin(down). Steepest: as far as it goes.
  function byDial(unit, turn, down) {
    const h = turned(unit.reference, unit.stem, turn), a = unit.stem;
    const most = Math.hypot(h[2], a[2]), share = -Math.sin(down) / most;
    const t = Math.atan2(a[2], h[2]) + unit.root * Math.acos(Math.min(1, Math.max(-1, share)));
    return { axis: plus(times(h, Math.cos(t)), a, Math.sin(t)), most: Math.asin(Math.min(1, most)),
             comes: Math.abs(share) <= 1 + GRAZING };
  }

  // Turned to a heading, or to a mark on its tape.
  function byHeading(heading, down) {
    const level = Math.cos(down);
    return { axis: [Math.sin(heading) * level, Math.cos(heading) * level, -Math.sin(down)],
             most: Math.PI / 2, comes: true };
  }
  function headingOfSight(unit, mark) {
    const { zero, along, out } = unit.sight;
    const x = zero[0] + mark * along[0] + out[0] - unit.pivot[0];
    const y = zero[1] + mark * along[1] + out[1] - unit.pivot[1];
    return Math.atan2(x, y);
  }

  // The ray of a unit set so: {turn, down}, {heading, down} or {sight, down}. `from` is on the axis, `lens` too.
  function ray(unit, set) {
    const told = set.turn !== undefined ? byDial(unit, set.turn, set.down)
      : byHeading(set.sight !== undefined ? headingOfSight(unit, set.sight) : set.heading, set.down);
    const { axis } = told;
    let from = unit.pivot;
    if (unit.rise) {
      const sine = dot(unit.stem, axis);
      const cosine = Math.sqrt(Math.max(1 - sine * sine, GRAZING * GRAZING));
      const up = times(plus(times(axis, sine), unit.stem, -1), unit.faces / cosine);
      from = plus(from, up, unit.rise);
    }
    return { ...told, from, lens: plus(from, axis, unit.nose) };
  }

  // Where a ray comes to a plane: normal . X = offset; null where it never does.
  function cut(thrown, normal, offset) {
    const slant = dot(normal, thrown.axis);
    const reach = (offset - dot(normal, thrown.from)) / slant;
    if (!(Math.abs(slant) > GRAZING && reach > 0 && reach < FAR)) return null;
    return plus(thrown.from, thrown.axis, reach);
  }

  // How far along the axis from the lens the deck or a platform is, and which: geometry/deck.py, `landing`.
  function landing(deck, lens, axis) {
    let reach = deck.rake < 0 ? falling(deck, lens, axis) : rising(deck, lens, axis), on = -1;
    deck.boxes.forEach((box, k) => {
      const far = boxed(box, lens, axis);
      if (far !== null && (reach === null || far <= reach)) { reach = far; on = k; }
    });
    return reach === null ? null : { reach, on, point: plus(lens, axis, reach) };
  }
  function rising(deck, lens, axis) {
    const sloped = lens[2] - deck.rake * (lens[1] - deck.rake_from);
    if (lens[2] < -TOUCH || (deck.rake && sloped < -TOUCH)) return null;
    let closing = -axis[2] / Math.max(lens[2], 1e-300);
    if (deck.rake) closing = Math.max(closing, (deck.rake * axis[1] - axis[2]) / Math.max(sloped, 1e-300));
    return closing > 0 ? 1 / closing : null;
  }
  function falling(deck, lens, axis) {
    const slopes = [[lens[2], axis[2]],
      [lens[2] - deck.rake * (lens[1] - deck.rake_from), axis[2] - deck.rake * axis[1]]];
    let enter = -Infinity, leave = Infinity;
    for (const [over, rate] of slopes) {
      if (rate < 0) enter = Math.max(enter, -over / rate);
      else if (rate > 0) leave = Math.min(leave, -over / rate);
      else if (over > 0) return null;
    }
    const above = Math.max(slopes[0][0], slopes[1][0]) >= -TOUCH;
    return above && enter <= leave && leave > 0 && Number.isFinite(enter) ? Math.max(enter, 0) : null;
  }
  function boxed(box, lens, axis) {
    let enter = -Infinity, leave = Infinity;
    for (let k = 0; k < 3; k++) {
      if (axis[k] === 0) {
        if (lens[k] < box[k] || lens[k] > box[k + 3]) return null;
        continue;
      }
      const a = (box[k] - lens[k]) / axis[k], b = (box[k + 3] - lens[k]) / axis[k];
      enter = Math.max(enter, Math.min(a, b));
      leave = Math.min(leave, Math.max(a, b));
    }
    return enter <= leave && enter >= -TOUCH && leave > TOUCH ? Math.max(enter, 0) : null;
  }

  // By how much the axis misses the face, at the lens, and what it may be off that way (rig/rig.py, `allowed`).
  function miss(unit, thrown) {
    const to = plus(unit.face, thrown.lens, -1), way = times(to, 1 / size(to));
    const off = Math.atan2(size(cross(thrown.axis, way)), dot(thrown.axis, way));
    let may = unit.may;
    if (unit.oval) {
      const apart = plus(thrown.axis, way, -1);
      const across = plus(apart, unit.axis, -dot(apart, unit.axis));
      const inverse = Math.hypot(dot(across, unit.oval[0]), dot(across, unit.oval[1]));
      const full = 2 * Math.atan(size(across) / inverse);
      if (!Number.isNaN(full)) may *= full / unit.field;
    }
    return { off, may };
  }

  // From the face to where the axis passes: on the level plane through it, of a flat axis on an upright one.
  function past(unit, thrown) {
    const { axis, lens } = thrown, upright = Math.abs(axis[2]) < STEEP;
    const normal = upright ? [axis[0], axis[1], 0] : UP;
    const reach = dot(plus(unit.face, lens, -1), normal) / dot(axis, normal);
    if (!(reach > 0 && reach < FAR)) return { by: null, upright };
    return { by: plus(plus(lens, axis, reach), unit.face, -1), upright };
  }

  return { ray, turnOf, headingOfSight, cut, landing, miss, past };
})();

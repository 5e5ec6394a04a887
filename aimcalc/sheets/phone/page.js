"use strict";
// The page: one unit at a time, in the order of the ladder. Words come from the sheets' own functions.
const page = (() => {
  const { data, TICKS } = journal;
  const $ = (id) => document.getElementById(id);
  const units = data.units, SVG = "http://www.w3.org/2000/svg";
  const byName = new Map(units.map((u, k) => [u.name, k]));
  const DEG = 180 / Math.PI;
  const SIDES = ["US", "SL", "DS", "SR"], X = ["SL", "SR"], Y = ["US", "DS"];
  let here = { view: "start" }, lastUnit = null;

  function el(tag, attrs = {}, ...inside) {
    const made = tag.startsWith("svg:") ? document.createElementNS(SVG, tag.slice(4)) : document.createElement(tag);
    for (const [key, value] of Object.entries(attrs)) {
      if (value === null || value === undefined || value === false) continue;
      if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
      else made.setAttribute(key, value === true ? "" : String(value));
    }
    made.append(...inside.flat(9).filter((each) => each !== null && each !== "" && each !== false));
    return made;
  }
  const button = (words, act, attrs = {}) => el("button", { type: "button", onclick: act, ...attrs }, words);
  const list = (items) => el("ul", { class: "list" }, items.map((item) => el("li", {}, item)));
  let hush = 0;
  function say(words) {
    $("said").textContent = words;
    clearTimeout(hush);
    hush = setTimeout(() => { $("said").textContent = ""; }, 6000);
  }
  const kept = (words) => say(journal.keeps() ? words : `${words} This browser does not keep it: save it under More before you close the page.`);
  const count = (n, one) => `${n} ${one}${n === 1 ? "" : "s"}`;

  // Where the page is stands in its address, so that a reload comes back to it.
  function go(view, of) {
    const told = of === undefined ? view : `${view}=${encodeURIComponent(of)}`;
    if (location.hash === `#${told}`) show(); else location.hash = told;
  }
  function read() {
    const [view, of] = location.hash.slice(1).split("=");
    let name = "";
    try { name = decodeURIComponent(of || ""); } catch { /* no such unit */ }
    if (view === "unit" && byName.has(name)) return { view, k: byName.get(name) };
    if (view === "position" && data.positions[Number(name)]) return { view, n: Number(name) };
    return { view: Object.hasOwn(VIEWS, view) && !["unit", "position"].includes(view) ? view : "start" };
  }
  const VIEWS = { start, position, unit, find, plan, more };
  function show(keepPlace = false) {
    here = read();
    const main = $("main");
    main.replaceChildren(...[VIEWS[here.view]()].flat());
    main.dataset.view = here.view;
    drawNav();
    if (!keepPlace) { scrollTo(0, 0); main.focus({ preventScroll: true }); }
  }

  // The order of the ladder: a position's first page, then its units.
  const stops = data.positions.flatMap((_, n) =>
    [{ n }, ...units.flatMap((u, k) => (u.position === n ? [{ k }] : []))]);
  function at() {
    return stops.findIndex((s) => (here.view === "unit" ? s.k === here.k : here.view === "position" && s.n === here.n));
  }
  function step(by) {
    const k = at(), next = k < 0 ? stops[stops.findIndex((s) => s.k === lastUnit)] || stops[0] : stops[k + by];
    if (!next) return;
    if (next.k === undefined) go("position", next.n); else go("unit", units[next.k].name);
  }
  function drawNav() {
    const k = at(), current = (view) => (here.view === view ? "page" : null);
    $("nav").replaceChildren(
      button("Back", () => step(-1), { disabled: k === 0 }),
      button("Find", () => go("find"), { "aria-current": current("find") }),
      button("Plan", () => go("plan"), { "aria-current": current("plan") }),
      VIEWS.board ? button("Board", () => go("board"), { "aria-current": current("board") }) : "",
      button("More", () => go("more"), { "aria-current": current("more") }),
      button("Next", () => step(1), { disabled: k === stops.length - 1 }));
    const p = here.view === "unit" ? units[here.k].position : here.n;
    $("place").replaceChildren(p === undefined ? data.revision
      : button(data.positions[p].short, () => go(here.view === "unit" ? "position" : "start", p)));
  }

  // --- The positions --------------------------------------------------------------------------
  function done(k) { return TICKS.filter(([tick]) => journal.value(units[k].name, tick)).length; }
  const unitLine = (k) => {
    const u = units[k];
    return [`${data.positions[u.position].short}, unit ${u.number}`,
      el("small", {}, " ", [u.channel && `ch ${u.channel}`, u.target, `${done(k)} of ${TICKS.length} ticks`]
        .filter(Boolean).join(", "))];
  };
  const unitButton = (k) => button(unitLine(k), () => go("unit", units[k].name));
  function start() {
    return [el("h2", {}, "Positions"),
      list(data.positions.map((p, n) => {
        const mine = units.map((u, k) => k).filter((k) => units[k].position === n);
        const ready = mine.filter((k) => done(k) === TICKS.length).length;
        return button([p.short, el("small", {}, ` ${p.where}. ${ready} of ${count(mine.length, "unit")} with every tick.`)],
          () => go("position", n));
      })),
      units.length ? "" : el("p", {}, "This scene has no units."),
      el("p", {}, data.caution)];
  }
  const line = ([word, says, shouts]) =>
    el("li", {}, el("b", { class: shouts ? "shout" : null }, word.replace(/:$/, "")), says ? `: ${says}` : "");
  function position() {
    const p = data.positions[here.n];
    return [el("h2", {}, p.short), el("p", {}, el("b", {}, p.stance), p.start ? `. ${p.start}` : ""),
      el("p", {}, [p.where, ...p.facts.slice(1)].join(", ")),
      el("ul", { class: "lines" }, p.told.map((l) => line([...l, l[0] === "STOP"])), p.lines.map(line)),
      el("h3", {}, "The helper on the deck"), el("ul", { class: "lines" }, p.deck.map(line)), el("h3", {}, "Units"),
      list(units.flatMap((u, k) => (u.position === here.n ? [unitButton(k)] : []))),
      el("p", {}, data.caution)];
  }

  // --- One unit -------------------------------------------------------------------------------
  function cell([label, of, figures, words, shouts]) {
    const long = figures.length > 1 || figures.some((f) => f.length > 8 || /\p{L}{7}|[A-Z]{5}/u.test(f));
    return el("div", { class: long ? "wide" : null },
      el("dt", {}, el("b", { class: shouts ? "shout" : null }, label), of),
      el("dd", {}, figures.map((f) => [el("span", { class: "fig" }, f), " "]),
        words.map((w) => el("span", { class: "words" }, el("b", { class: /^(AT YOU|OVER PIPE)/.test(w) ? "shout" : null }, w), " "))));
  }
  function picture(drawn, says) {
    if (!drawn) return "";
    const [wide, high] = drawn.s;
    return el("figure", {}, el("svg:svg", { viewBox: `0 0 ${wide} ${high}`, role: "img", "aria-label": says },
      drawn.p.map(([d, weight, fill, dash]) =>
        el("svg:path", { d, class: fill || null, "stroke-width": weight, "stroke-dasharray": dash || null })),
      drawn.t.map(([x, y, size, align, white, words]) => el("svg:text", { x, y, "font-size": size,
        "text-anchor": { l: "start", c: "middle", r: "end" }[align], class: white ? "w" : null }, words))),
      el("figcaption", {}, says));
  }
  function unit() {
    const u = units[here.k], p = data.positions[u.position];
    lastUnit = here.k;
    const mine = units.filter((each) => each.position === u.position);
    return [
      el("h2", {}, `Unit ${u.number}`),
      el("p", {}, `${mine.indexOf(u) + 1} of ${mine.length} on ${p.short}`, u.target ? `, ${u.target}` : "", `. ${p.stance}.`),
      el("dl", { class: "cells" }, u.cells.map(cell)),
      u.acts.map(([act, then]) => [el("h3", {}, `${act}: check only`), el("dl", { class: "cells" }, then.map(cell))]),
      u.told.length ? el("ul", { class: "lines" }, u.told.map(line)) : "",
      el("div", { class: "pictures" },
        picture(u.plan, `From above. ${p.stance}.`), picture(u.side, "From its side: its own tip.")),
      el("p", {}, el("b", {}, "CALL: "), u.call),
      ticks(u),
      el("div", { class: "halves" }, el("div", {}, asSet(u)), el("div", {}, landed(u), notes(u))),
      el("p", {}, data.caution)];
  }
  function ticks(u) {
    const row = TICKS.map(([tick, words]) => {
      const on = journal.value(u.name, tick) === true, differ = journal.differ(u.name, tick);
      return button([on ? "✓ " : "", words, el("span", {}, differ ? "phones differ: look" : on ? "done" : "not yet")],
        () => {
          journal.write(u.name, tick, !on);
          kept(`${words}: ${on ? "taken off" : "done"}.`);
          again(`[data-tick="${tick}"]`);
        }, { class: "tick", "aria-pressed": String(on), "data-tick": tick });
    });
    return el("section", { "aria-label": "Ticks" }, el("h3", {}, "Ticks"), el("div", { class: "grid" }, row));
  }
  // Drawn anew with the place on the page and the focus kept.
  function again(focus) {
    const y = scrollY;
    show(true);
    scrollTo(0, y);
    if (focus) $("main").querySelector(focus)?.focus({ preventScroll: true });
  }

  // --- As set: where it lands -----------------------------------------------------------------
  const field = (label, attrs) => el("label", {}, el("span", {}, label), el("input", { type: "text", autocomplete: "off", ...attrs }));
  const select = (label, options, attrs = {}, chosen = null) => el("label", {}, el("span", { class: /side$/i.test(label) ? "quiet" : null }, label),
    el("select", attrs, options.map(([value, words]) => el("option", { value, selected: value === chosen }, words))));
  const plain = (words) => words.map((w) => [w, w]);

  const typed = {};  // by unit: what was typed as set, kept while the page is open
  function asSet(u) {
    const t = u.throw;
    if (!t) return el("section", { "aria-label": "As set" }, el("h3", {}, "As set"), el("p", {}, "No aim to compare with. Ask the head electrician."));
    const now = typed[u.name] ||= {};
    const keep = (key) => ({ oninput: (event) => { now[key] = event.target.value; tell(); }, onchange: (event) => { now[key] = event.target.value; tell(); } });
    const told = el("div", { class: "told", role: "status", "data-told": "" });
    const tell = () => told.replaceChildren(...readOut(u, now).map((words) => el("p", {}, words)));
    const parts = [];
    const pair = (label, key, hint, sides, side) => parts.push(el("div", { class: "pair" },
      field(label, { inputmode: key === "sight" ? "text" : "decimal", placeholder: hint, value: now[key] || "", "data-set": key, ...keep(key) }),
      select(`${label} side`, plain(sides), { "data-set": `${key}Side`, ...keep(`${key}Side`) }, now[`${key}Side`] || side)));
    const tip = t.down < 0 ? "UP" : "DOWN";
    pair("Down, degrees", "down", String(Math.abs(t.down)), ["DOWN", "UP", "plumb"], tip);
    if (t.sight) pair("Sight tape", "sight", t.sight.printed, t.sight.sides, t.sight.sides[t.sight.sight < 0 ? 1 : 0]);
    if (t.dial) pair("Pan, degrees from square", "pan", String(t.pan[0]), t.swings, t.pan[1] || t.swings[0]);
    if (t.by === "heading" && !t.free) {
      const [off, side] = headingOff(t);
      pair(`Heading, degrees of ${t.base}`, "heading", String(Math.round(off)), besides(t.base), side);
    }
    tell();
    return el("section", { "aria-label": "As set" }, el("h3", {}, "As set, where it lands"),
      el("p", { class: "small" }, "Type what was read off it. What stays empty counts as printed", t.dial && t.by !== "dial" ? `; a ${t.by} goes before a pan` : "", "."),
      parts, told);
  }
  const besides = (base) => { const k = SIDES.indexOf(base); return [SIDES[(k + 1) % 4], SIDES[(k + 3) % 4]]; };
  function headingOff(t) {
    const off = ((t.heading * DEG - 90 * SIDES.indexOf(t.base) + 540) % 360) - 180;
    return [Math.abs(off), besides(t.base)[off < 0 ? 1 : 0]];
  }
  const angle = (text) => { const v = Number(String(text).trim().replace(",", ".").replace("°", "")); return text.trim() && v >= 0 && v <= 90 ? v : NaN; };

  // How a unit is set, by what was typed; a sentence where that is no number.
  function setOf(u, now) {
    const t = u.throw, given = {}, has = (key) => (now[key] || "").trim() !== "";
    let down = t.down;
    if (has("down")) {
      const v = angle(now.down), way = now.downSide || (t.down < 0 ? "UP" : "DOWN");
      if (Number.isNaN(v)) return { wrong: "Down: a number of degrees, 0 to 90." };
      down = way === "plumb" ? 90 - v : way === "UP" ? -v : v;
      given.down = way === "plumb" ? `plumb ${v}` : `${way} ${v}`;
    }
    const set = { down: down / DEG };
    if (t.sight && has("sight")) {
      const { sides, sight } = t.sight;
      const v = lengths.read(now.sight, data.unit), side = now.sightSide || sides[sight < 0 ? 1 : 0];
      if (Number.isNaN(v)) return { wrong: `Sight tape: a length, such as ${lengths.said(sight, data.length)}.` };
      set.sight = side === sides[1] ? -v : v;
      given.sight = cellOf(now.sight, side);
    } else if (t.dial && !has("heading")) {
      printedPan(t, set);
      if (has("pan")) {
        const v = angle(now.pan), side = now.panSide || t.pan[1] || t.swings[0];
        if (Number.isNaN(v)) return { wrong: "Pan: a number of degrees, 0 to 90." };
        set.turn = throwing.turnOf(t, v / DEG, side === t.swings[0] ? 1 : -1);
        given.pan = v ? `${v} ${side}` : "square";
      }
    } else {
      set.heading = t.heading;
      if (has("heading")) {
        const v = angle(now.heading), side = now.headingSide || headingOff(t)[1];
        if (Number.isNaN(v)) return { wrong: `Heading: a number of degrees, 0 to 90, of ${t.base}.` };
        set.heading = (90 * SIDES.indexOf(t.base) + (side === besides(t.base)[0] ? v : -v)) / DEG;
      }
    }
    return { set, given };
  }
  function printedPan(t, set) {
    set.turn = throwing.turnOf(t, t.pan[0] / DEG, t.pan[1] === t.swings[0] ? 1 : t.pan[1] ? -1 : 0);
  }
  const cellOf = (text, side) => {
    const bare = /^[\d.,/ -]+$/.test(text.trim());
    return `${text.trim()}${bare ? ` ${data.unit}` : ""} ${side}`;
  };
  const degrees = (a) => `${a < 9.95 ? a.toFixed(1) : a.toFixed(0)}°`;

  function readOut(u, now) {
    const t = u.throw, { set, wrong } = setOf(u, now);
    if (wrong) return [wrong];
    const thrown = throwing.ray(t, set);
    if (!thrown.comes) return [`With its clamp turned so it comes to at most ${Math.floor(thrown.most * DEG)}° down.`];
    const { by, upright } = throwing.past(t, thrown), { off, may } = throwing.miss(t, thrown);
    let passes = "nowhere near its face";
    if (by) {
      const parts = [[by[1], Y], [by[0], X], [by[2], ["over", "under"]]].filter(([size]) => Math.abs(size) >= 0.01)
        .map(([size, sides]) => `${lengths.said(size, data.length)} ${sides[size < 0 ? 1 : 0]}`);
      passes = parts.length ? `${parts.join(" and ")} of its face${upright ? "" : ", at face height"}` : "through its face";
    }
    const land = throwing.landing(data.deck, thrown.lens, thrown.axis);
    const where = land ? `${lengths.placed(land.point[0], X, "CENTRE LINE", data.length)}, ${lengths.placed(land.point[1], Y, "PLASTER LINE", data.length)}` : "";
    return [`Passes ${passes}: ${degrees(off * DEG)} off at the lens, may be ${degrees(may * DEG)}.`,
      off <= may ? "That will do." : "That will not do: set it once more. Still out: ask the head electrician.",
      land ? `Comes down at ${where} on ${land.on < 0 ? "the deck" : `${data.deck.names[land.on]}, ${lengths.said(land.point[2], data.length)} UP`}.` : "Never comes down to the deck.",
      el("small", {}, `Counts the deck${data.deck.names.length ? " and its platforms" : ""} alone, the unit hung as plotted. Left out: scenery, borders, other units`
        + `${data.deck.more ? ", platforms that are no boxes" : ""}. Believe the light.`)];
  }

  // --- Where it landed ------------------------------------------------------------------------
  function landed(u) {
    const spots = journal.open(u.name, "landing").filter((e) => e.value);
    const x = field("Across", { "data-land": "x" }), y = field("Up and down the stage", { "data-land": "y" });
    const xs = select("Side", plain(X), { "data-land": "xs" }), ys = select("Side", plain(Y), { "data-land": "ys" });
    const on = select("On", [["", "floor or platform"], ["pole", "a pole"], ...plain(data.solids)], { "data-land": "on" });
    const height = field("Height, on a pole or upright", { "data-land": "height" });
    const value = (made) => made.querySelector("input, select").value;
    function keep() {
      const spot = {}, wrong = [];
      for (const [key, made, side] of [["x", x, xs], ["y", y, ys], ["height", height, null]]) {
        const text = value(made);
        if (!text.trim()) continue;
        if (Number.isNaN(lengths.read(text, data.unit))) wrong.push(made);
        else spot[key] = cellOf(text, side ? value(side) : "").trim();
      }
      if (value(on)) spot.on = value(on);
      const upright = Boolean(spot.on) && spot.height;
      if (wrong.length) { say("A length, such as 3.20 m or 10'-6\"."); wrong[0].querySelector("input").focus(); return; }
      if (!(spot.x && spot.y) && !upright) { say("Fill in where it landed: across, and up and down the stage."); x.querySelector("input").focus(); return; }
      Object.assign(spot, u.throw ? setOf(u, typed[u.name] || {}).given || {} : {});
      journal.write(u.name, "landing", spot);
      kept("Noted where it landed.");
      again('[data-land="keep"]');
    }
    return el("section", { "aria-label": "Where it landed" }, el("h3", {}, "Where it landed"),
      spots.length > 1 ? el("p", {}, el("b", {}, "Phones differ: "), "look again, then keep one spot.") : "",
      spots.map((e) => el("p", {}, el("b", {}, "Kept: "), spotWords(e.value), el("small", {}, ` (${e.phone})`))),
      el("div", { class: "pair" }, x, xs), el("div", { class: "pair" }, y, ys), el("div", { class: "pair" }, on, height),
      el("p", { class: "small" }, "From the centre line and the plaster line; middle of the light. What is typed as set goes with it."),
      el("div", { class: "grid" }, button("Keep this spot", keep, { "data-land": "keep" }),
        spots.length ? button("Take it back", () => { journal.write(u.name, "landing", null); kept("Taken back."); again('[data-land="keep"]'); }) : ""));
  }
  const spotWords = (spot) => [spot.x, spot.y, spot.on && `on ${spot.on}`, spot.height && `height ${spot.height}`,
    spot.down, spot.pan && `pan ${spot.pan}`, spot.sight && `sight ${spot.sight}`].filter(Boolean).join(", ");
  function notes(u) {
    const area = el("textarea", { rows: 2, maxlength: 500, "data-note": "", onchange: () => {
      journal.write(u.name, "note", area.value.trim());
      kept("Noted.");
    } });
    area.value = journal.value(u.name, "note") || "";
    const others = journal.differ(u.name, "note") ? journal.open(u.name, "note").map((e) => el("p", {}, `${e.phone}: ${e.value}`)) : "";
    return el("section", { "aria-label": "Notes" }, el("h3", {}, "Notes"), others, el("label", {}, el("span", {}, "Your note on this unit"), area));
  }

  // --- Find, plan, more -----------------------------------------------------------------------
  function found(words) {
    const asked = words.trim().toLowerCase().replace(/^ch(annel)?\.?\s*(?=\w)/, "ch ");
    if (!asked) return [];
    const rank = (u) => {
      const channel = u.channel.toLowerCase(), number = u.number.toLowerCase(), target = u.target.toLowerCase();
      const parts = [number, `unit ${number}`, channel, channel && `ch ${channel}`, target, u.name.toLowerCase()];
      if (parts.includes(asked)) return 0;
      return parts.some((p) => p && p.startsWith(asked)) ? 1 : [target, u.name.toLowerCase()].some((p) => p.includes(asked)) ? 2 : 3;
    };
    return units.map((u, k) => [rank(u), k]).filter(([r]) => r < 3).sort((a, b) => a[0] - b[0] || a[1] - b[1]).map(([, k]) => k);
  }
  let asked = "";
  function find() {
    const out = el("div", {});
    const tell = () => {
      const ks = found(asked);
      out.replaceChildren(el("p", { role: "status" }, asked.trim() ? `${count(ks.length, "unit")} found.` : ""), list(ks.slice(0, 60).map(unitButton)));
    };
    const input = field("Number, channel or target", { type: "search", value: asked, "data-find": "", oninput: (e) => { asked = e.target.value; tell(); },
      onkeydown: (e) => { const ks = found(asked); if (e.key === "Enter" && ks.length) go("unit", units[ks[0]].name); } });
    tell();
    return [el("h2", {}, "Find"), input, out];
  }

  function inside(pool, x, y) {
    let odd = false;
    for (let a = 0, b = pool.length - 2; a < pool.length; b = a, a += 2)
      if ((pool[a + 1] > y) !== (pool[b + 1] > y)
        && x < (pool[b] - pool[a]) * (y - pool[a + 1]) / (pool[b + 1] - pool[a + 1]) + pool[a]) odd = !odd;
    return odd;
  }
  const trace = (flat, close) => flat.reduce((d, v, k) => d + (k % 2 ? `${-v}` : `${k ? "L" : "M"}${v} `), "") + (close ? "Z" : "");
  let tapped = null;
  function plan() {
    const p = data.plan, chosen = units[lastUnit];
    const solid = p.lines.map(([, points]) => points).concat(units.map((u) => u.at)).flat();
    const xs = solid.filter((_, k) => k % 2 === 0), ys = solid.filter((_, k) => k % 2);
    const box = [Math.min(...xs) - 60, -Math.max(...ys) - 60, Math.max(...xs) - Math.min(...xs) + 120, Math.max(...ys) - Math.min(...ys) + 120];
    const out = el("div", {}), type = 0.03 * box[2];  // what is drawn over the stage keeps its size on the screen
    const label = ([x, y], words, on) => el("svg:text", { x, y: -y - 0.7 * type, "font-size": on ? 1.8 * type : type, "text-anchor": "middle" }, words);
    const cross = ([, x, y]) => el("svg:path", { d: `M${x - 14} ${-y}h28M${x} ${-y - 14}v28` });
    const svg = el("svg:svg", { viewBox: box.join(" "), class: "plan", role: "img", "aria-label": "The stage from above, US at the top. Tap a unit, or a spot on the stage.", onclick: tap },
      p.lines.map(([kind, points]) => el("svg:path", { d: trace(points), class: kind })), p.targets.map(cross),
      chosen && chosen.pool.length ? el("svg:path", { d: trace(chosen.pool, true), class: "pool" }) : "",
      chosen && chosen.stops ? el("svg:path", { d: trace([...chosen.at, ...chosen.stops]), class: "way" }) : "",
      units.map((u) => el("svg:circle", { cx: u.at[0], cy: -u.at[1], r: 0.45 * type, class: u === chosen ? "this" : null })),
      units.filter((u) => u !== chosen).map((u) => label(u.at, u.number)), chosen ? label(chosen.at, chosen.number, true) : "");
    function tap(event) {
      const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const reach = 28 * box[2] / svg.clientWidth;
      tapped = { x: spot.x, y: -spot.y, reach, words: "" };
      tell();
    }
    function tell() {
      if (!tapped) { out.replaceChildren(); return; }
      const near = units.map((u, k) => [Math.hypot(u.at[0] - tapped.x, u.at[1] - tapped.y), k])
        .filter(([far]) => far <= tapped.reach).sort((a, b) => a[0] - b[0]).map(([, k]) => k);
      const lit = units.map((u, k) => k).filter((k) => inside(units[k].pool, tapped.x, tapped.y));
      const place = `${lengths.placed(tapped.x / 100, X, "CENTRE LINE", data.length)}, ${lengths.placed(tapped.y / 100, Y, "PLASTER LINE", data.length)}`;
      out.replaceChildren(el("p", { role: "status" }, `${tapped.words || place}: ${count(lit.length, "field")} of light at face height${near.length ? `, ${count(near.length, "unit")} here` : ""}.`),
        near.length ? el("h3", {}, "Hung here") : "", list(near.map(unitButton)),
        lit.length ? el("h3", {}, "Lights this spot at face height") : "", list(lit.map(unitButton)));
    }
    tell();
    const spots = select("A target", [["", "none chosen"], ...p.targets.map(([name], k) => [String(k), name])], { "data-spot": "", onchange: (e) => {
      const t = p.targets[e.target.value];
      tapped = t ? { x: t[1], y: t[2], reach: 0, words: t[0] } : null;
      tell();
    } });
    return [el("h2", {}, "Plan"), el("p", {}, "Tap a unit, or a spot on the stage. Scenery in the way is left out.",
      chosen ? ` Drawn: the field of ${data.positions[chosen.position].short}, unit ${chosen.number}, at face height.` : ""), svg, spots, out];
  }

  function save(name, text) {
    const link = el("a", { href: URL.createObjectURL(new Blob([text], { type: "text/csv" })), download: name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    say(`${name} is written.`);
  }
  const fileName = (what) => `${data.title} ${what} ${journal.phone()}`.replace(/[^\p{L}\p{N}]+/gu, "-").slice(0, 80) + ".csv";
  function more() {
    const looks = [["dark", "Dark: dim and warm"], ["bright", "Bright: black on white"]];
    const set = document.documentElement.dataset;
    const n = journal.events.size, entries = (many) => `${many} ${many === 1 ? "entry" : "entries"}`;
    return [el("h2", {}, "More"),
      el("h3", {}, "Look"),
      el("div", { class: "grid" }, looks.map(([look, words]) => button(words, () => { wear(look); again(`[data-wear="${look}"]`); },
        { "aria-pressed": String(set.look === look), "data-wear": look, class: "tick" }))),
      el("h3", {}, "Take it off this phone"),
      el("p", {}, `${entries(n)} of ${data.set || "this print"}`, journal.keeps() ? " kept on this phone." : ". ",
        journal.keeps() ? "" : el("b", {}, "This browser keeps nothing: save before you close the page.")),
      el("div", { class: "grid" },
        button("Save landings", () => save(fileName("landings"), journal.landings()), { "data-save": "landings" }),
        button("Save ticks and notes", () => save(fileName("ticks"), journal.ticks()), { "data-save": "ticks" })),
      journal.elsewhere() ? el("p", {}, `On this phone too: ${entries(journal.elsewhere())} of other prints of this show. Open that print to see or save them.`) : "",
      el("p", { class: "small" }, "Two phones' files are joined by: aimcalc merge A B -o OUT. Landings are read by: aimcalc learn."),
      field("What this phone is called", { value: journal.phone(), maxlength: 30, "data-phone": "", onchange: (e) => { if (e.target.value.trim()) journal.call(e.target.value.trim()); } }),
      el("h3", {}, "This print"),
      el("p", {}, [data.title, data.revision, data.set].filter(Boolean).join(", ")), el("p", {}, data.caution)];
  }
  function wear(look) { document.documentElement.dataset.look = look; journal.put("look", look); }

  function begin() {
    wear(journal.get("look") === "bright" ? "bright" : "dark");
    $("over").textContent = data.over;
    $("over").hidden = !data.over;
    addEventListener("hashchange", () => show());
    addEventListener("keydown", (event) => {
      const writing = /^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName);
      if (writing || event.altKey || event.ctrlKey || event.metaKey) return;
      if (event.key === "ArrowRight") step(1);
      if (event.key === "ArrowLeft") step(-1);
    });
    journal.hear.push((_, from) => {
      const writing = /^(INPUT|TEXTAREA|SELECT)$/.test(document.activeElement?.tagName || "");
      if (from !== "hand" && !writing) again();
    });
    show(true);
  }
  begin();
  return { show, go, el, $, button, spotWords, views: VIEWS };
})();

// The live page. The server says under keys what there is, in words and in metres ("u/pipe 1/3", "t/area 2");
// the page draws it over the paper's own drawings and says what a hand does. It works nothing out itself.

const $ = (id) => document.getElementById(id);
const SVG = "http://www.w3.org/2000/svg";
const NEAR = 18; // px from a thing that a hand may be and still take it
const AGAIN = 1000; // ms until a lost server is asked again
const STILL = 400; // ms after the last arrow key that a change is made

const told = new Map();
let chosen = null; // {sort: "unit" | "target" | "position", name}
let view = "plan";
let socket = null;
let sent = 0; // moves sent, and answered: never more than one on its way
let answered = 0;
let waiting = null; // the latest place of the hand while a move is on its way
let fresh = new Set(); // what has moved since the drawing was made
export const times = { frame: [], server: [], lost: [], light: [] }; // ms, for whoever measures
globalThis.deskTimes = times;

// --- building ---

function made(tag, words, attributes = {}) {
  const one = document.createElement(tag);
  if (words !== undefined) one.textContent = words;
  for (const [name, value] of Object.entries(attributes)) one.setAttribute(name, value);
  return one;
}

function drawn(tag, look, attributes = {}) {
  const one = document.createElementNS(SVG, tag);
  one.setAttribute("class", look);
  for (const [name, value] of Object.entries(attributes)) one.setAttribute(name, value);
  return one;
}

const of = (sort, name) => told.get(`${sort}/${name}`);
const names = (sort) => [...told.keys()].filter((key) => key.startsWith(sort + "/")).map((key) => key.slice(sort.length + 1));
const units = () => names("u").sort((a, b) => of("u", a).order - of("u", b).order);
const byTarget = (target) => names("u").filter((name) => of("u", name).target === target);
const byPosition = (position) => units().filter((name) => of("u", name).position === position);

// --- the server ---

function connect() {
  const place = new URL("live", location.href);
  place.protocol = "ws:";
  socket = new WebSocket(place);
  socket.onopen = () => {
    told.clear();
    fresh.clear();
    sent = answered = 0;
    $("cut").hidden = true;
    document.body.classList.remove("cut");
    if (!$("lit").hidden) look();
  };
  socket.onmessage = (event) => hear(JSON.parse(event.data));
  socket.onclose = () => {
    hand = null;
    waiting = null;
    $("cut").textContent = "The desk does not answer: it was closed, or its machine sleeps. What was tried is kept there while it runs. Trying again.";
    $("cut").hidden = false;
    setTimeout(connect, AGAIN);
  };
}

function ask(what) {
  if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify(what));
}

function hear(message) {
  const now = performance.now();
  for (const [key, value] of Object.entries(message.set)) {
    if (value === null) told.delete(key);
    else told.set(key, value);
    if (told.has("drawn") && /^[utp]\//.test(key)) fresh.add(key);
  }
  if (message.n > answered) {
    answered = message.n;
    times.server.push(message.ms);
    if (hand) times.frame.push(now - hand.sentAt);
    if (waiting) send();
  }
  show(Object.keys(message.set), now);
}

// --- showing what was told ---

let dirty = new Set();
function show(keys, heard) {
  if (!dirty.size) requestAnimationFrame(paint);
  for (const key of keys) dirty.add(key.includes("/") ? key.slice(0, key.indexOf("/")) : key);
  if (keys.some((key) => key.startsWith("lost/")) && moved) times.lost.push(heard - moved);
  if (keys.includes("light") && moved) times.light.push(heard - moved);
}

const PAINT = [
  [["show"], paintTitle],
  [["changes"], paintChanges],
  [["trouble"], paintTrouble],
  [["said"], () => { $("said").textContent = told.get("said"); }],
  [["findings", "chosen"], paintFindings],
  [["light", "helpers"], paintLight],
  [["u", "t", "p"], paintNames],
  [["u", "row", "lost", "typed", "load", "t", "p", "chosen"], paintChosen],
  [["u", "row", "lost", "typed", "chosen"], paintTable],
  [["drawn"], () => redraw()],
  [["chosen"], () => view === "model" && space?.mark()],
  [["u", "t", "p", "chosen", "light", "view"], () => paintLive()],
];

function paint() {
  const now = dirty;
  dirty = new Set();
  for (const [keys, work] of PAINT) if (keys.some((key) => now.has(key))) work();
}

function paintTitle() {
  const about = told.get("show");
  document.title = `${about.title}: desk`;
  $("title").textContent = about.title;
  $("facts").textContent = `${about.file}${about.revision ? `, revision ${about.revision}` : ""}${told.get("notice") ? `. ${told.get("notice")}` : ""}`;
  const system = $("system"), was = system.value;
  system.replaceChildren(...about.systems.map((name) => made("option", name)));
  system.value = about.systems.includes(was) ? was : about.systems.at(-1);
}

function paintChanges() {
  const { done, undone } = told.get("changes");
  $("undo").disabled = !done.length;
  $("redo").disabled = !undone.length;
  $("changes").replaceChildren(
    ...done.map((words) => made("li", words)),
    ...undone.toReversed().map((words) => {
      const gone = made("li", "", { class: "gone" });
      gone.append(made("s", words));
      return gone;
    }),
  );
  $("unsaved").textContent = done.length ? "Tried here only: the scene's files stay as they are until you save." : "Nothing was changed.";
}

function paintTrouble() {
  const words = told.get("trouble");
  $("trouble").hidden = !words;
  $("trouble").textContent = words ? `The scene's files have a mistake; this page shows the last good state.\n${words}` : "";
}

function paintFindings() {
  if (!told.has("findings")) return;
  const found = told.get("findings");
  const left = told.get("findings left") || 0;
  $("found").textContent = `Findings (${found.length + left})`;
  const rows = found.map(([word, says, what, name]) => {
    const row = made("li", undefined, { "data-of": name });
    if (chosen?.name === name) row.setAttribute("aria-current", "true");
    row.append(made("span", word, { class: `word ${word}` }), " ");
    if (name) row.append(button(name, () => choose(thing(name))), " ");
    row.append(says, what ? ` ${what}` : "");
    return row;
  });
  if (left) rows.push(made("li", `and ${left} more: aimcalc check tells them all.`));
  $("findings").replaceChildren(...(rows.length ? rows : [made("li", "Nothing was found.")]));
  $("findings").prepend(...rows.filter((row) => chosen && row.dataset.of === chosen.name));
}

function button(words, work, attributes = {}) {
  const one = made("button", words, { type: "button", ...attributes });
  one.addEventListener("click", work);
  return one;
}

let listed = "";
function paintNames() {
  const every = [...units(), ...names("t"), ...names("p")];
  const now = every.join("\n");
  if (now === listed) return;
  listed = now;
  $("names").replaceChildren(...every.map((name) => made("option", undefined, { value: name })));
}

function thing(name) {
  if (told.has(`u/${name}`)) return { sort: "unit", name };
  if (told.has(`t/${name}`)) return { sort: "target", name };
  return told.has(`p/${name}`) ? { sort: "position", name } : null;
}

function choose(what) {
  if (!what) return;
  chosen = what;
  show(["chosen"]);
}

// --- the chosen one ---

const WORDS = { x: "across", y: "up and down stage", at: "hangs at", trim: "trim", kind: "kind", mount: "mount", colour: "colour", target: "target" };
let asked = ""; // which fields stand there, so that typing is not disturbed

function paintChosen() {
  if (chosen && !thing(chosen.name)) chosen = null;
  $("chosen").textContent = chosen ? chosen.name : "Nothing chosen";
  paintFields();
  $("about").replaceChildren(...about().map((words) => made("p", words)));
  paintLadder();
}

function about() {
  if (!chosen) return ["Click something in the drawing, in the table, or find it by name."];
  const { sort, name } = chosen;
  if (sort === "unit") {
    const lost = of("lost", name);
    return [`Throw ${of("u", name).throw || "none"}. Light lost on the way: ${lost ?? "not worked out yet"}.`];
  }
  if (sort === "target") {
    const mine = byTarget(name);
    return [mine.length ? `Lit by ${mine.join(", ")}.` : "No unit is aimed here."];
  }
  const words = of("p", name).words;
  return [words ? `${words[0].toUpperCase()}${words.slice(1)}.` : "", ...(of("load", name) || [])].filter(Boolean);
}

function typedOf() {
  if (!chosen) return {};
  if (chosen.sort === "unit") return of("typed", chosen.name) || {};
  return of({ target: "t", position: "p" }[chosen.sort], chosen.name).typed;
}

function paintFields() {
  const values = typedOf();
  const which = chosen ? `${chosen.sort} ${chosen.name} ${Object.keys(values)}` : "";
  if (which !== asked) {
    asked = which;
    $("fields").replaceChildren(...Object.keys(values).flatMap((key) => field(key, values[key])));
  }
  for (const [key, value] of Object.entries(values)) {
    const input = $(`set-${key}`);
    if (input && document.activeElement !== input) input.value = value;
  }
}

function field(key, value) {
  const choices = { kind: told.get("show").kinds, mount: told.get("show").mounts, target: ["", ...names("t")] }[key];
  const input = made(choices ? "select" : "input", undefined, { id: `set-${key}`, autocomplete: "off", spellcheck: "false" });
  if (choices) input.append(...choices.map((name) => made("option", name, { value: name })));
  input.value = value;
  input.addEventListener("change", () => put(key, input.value.trim()));
  return [made("label", WORDS[key], { for: `set-${key}` }), input];
}

function put(key, value) {
  told.delete("said");
  $("said").textContent = "";
  const edits = [[chosen.name, key, value === "" ? null : value]];
  if (key === "target" && of("u", chosen.name).target === "") edits.push([chosen.name, "point", null]);
  ask({ do: "put", edits });
  asked = ""; // a refused value gives way to what holds
  setTimeout(() => show(["chosen"]), STILL);
}

function paintLadder() {
  const row = chosen?.sort === "unit" ? of("row", chosen.name) : null;
  if (!row) {
    $("ladder").replaceChildren(...unitsOfChosen());
    return;
  }
  const unit = of("u", chosen.name);
  const cells = [
    ["UNIT", row.number, row.channel],
    ["HANG AT", row.hang[0], [row.over ? "OVER PIPE" : "", row.hang[1]].filter(Boolean).join(", ")],
    ["KIND, circuit, colour", row.kind[0], row.kind.slice(1).join(", ")],
    ["SQUARE", row.square, ""],
    ["SWING", unit.swing || row.swing[0], row.swing[1]],
    ["SIGHT", row.sight[1].length > 2 ? row.sight[0] : `${row.sight[0]} ${row.sight[1]}`, [row.sight[1].length > 2 ? row.sight[1] : "", row.sight[2]].filter(Boolean).join(", ")],
    ["DOWN / UP", unit.tip || row.tip[0], row.tip[1]],
    ["WITHIN", row.within[0] || "", row.within.slice(1).join(", ")],
    ["TAIL", row.tail[0] || "", row.tail.slice(1).join(" ")],
  ];
  const list = made("dl");
  for (const [head, big, small] of cells) {
    const cell = made("div");
    const loud = ["AT YOU", "UP"].some((word) => big === word || big.startsWith("UP "));
    cell.append(made("dt", head), made("dd", big, { class: loud ? "big shout" : "big" }));
    if (small) cell.append(made("dd", small, small.startsWith("OVER PIPE") ? { class: "shout" } : {}));
    list.append(cell);
  }
  const lines = row.told.map(([word, says]) => {
    const line = made("p");
    line.append(made("strong", word), says ? `: ${says}` : "");
    return line;
  });
  $("ladder").replaceChildren(made("h2", `${chosen.name}. ${row.stance}`), list, ...lines);
}

// Under a target or a position that is chosen: its units, in few words.
function unitsOfChosen() {
  if (!chosen || chosen.sort === "unit") return [];
  const mine = chosen.sort === "target" ? byTarget(chosen.name) : byPosition(chosen.name);
  if (!mine.length) return [];
  const list = made("dl");
  for (const name of mine) {
    const unit = of("u", name), cell = made("div"), lost = of("lost", name);
    const head = made("dt");
    head.append(button(chosen.sort === "target" ? name : unit.number, () => choose({ sort: "unit", name }), { "aria-label": name }));
    cell.append(head, made("dd", unit.swing ? `${unit.swing}, ${unit.tip}` : "NO AIM"), made("dd", lost ? `loses ${lost}` : ""));
    list.append(cell);
  }
  return [made("h2", `${chosen.name}: ${mine.length === 1 ? "1 unit" : `${mine.length} units`}`), list];
}

// --- the table ---

const COLUMNS = ["unit", "channel", "hangs at", "kind", "mount", "target", "swing", "down", "throw", "light lost", "colour"];

function paintTable() {
  if (view !== "table") return;
  const rows = units().map((name) => {
    const unit = of("u", name), typed = of("typed", name) || {};
    const row = made("tr", undefined, { "aria-selected": String(chosen?.name === name) });
    const first = made("td");
    first.append(button(name, () => choose({ sort: "unit", name })));
    row.append(first, ...[unit.channel, typed.at, typed.kind, typed.mount, typed.target || "a point", unit.swing ?? "no aim", unit.tip ?? "", unit.throw ?? "", of("lost", name) ?? "", typed.colour].map((words) => made("td", words)));
    row.addEventListener("click", () => choose({ sort: "unit", name }));
    return row;
  });
  const head = made("tr");
  head.append(...COLUMNS.map((words) => made("th", words, { scope: "col" })));
  const top = made("thead"), body = made("tbody"), table = made("table", undefined, { role: "grid", "aria-label": "Units" });
  top.append(head);
  body.append(...rows);
  table.append(top, body);
  const focus = document.activeElement?.closest("#table tr")?.rowIndex;
  $("table").replaceChildren(table);
  if (focus) table.rows[focus]?.querySelector("button")?.focus();
}

// --- drawings ---

const SEEN = { plan: [0, 1], section: [1, 2] }; // which of x, y, z a drawing shows
const sheet = { svg: null, live: null, matrix: null, box: null, whole: null, of: "" };

async function redraw() {
  if (view === "model") drawModel();
  if (!(view in SEEN)) return; // drawn when it is shown again
  const which = view;
  const asked = told.get("drawn");
  const picture = await (await fetch(which)).json();
  if (asked !== told.get("drawn") || which !== view) return; // a later one is coming
  const same = sheet.of === which ? sheet.box : null;
  sheet.svg = placed($("paper"), picture.svg);
  sheet.matrix = picture.matrix;
  sheet.of = which;
  const { x, y, width, height } = sheet.svg.viewBox.baseVal;
  sheet.whole = [x, y, width, height];
  zoomTo(same || sheet.whole);
  sheet.live = drawn("g", "live");
  sheet.svg.append(sheet.live);
  if (!hand) fresh.clear();
  $("paper").setAttribute("aria-label", which === "plan" ? "Plan" : "Section");
  if (!$("was").hidden) redrawBefore();
  paintLive();
}

async function redrawBefore() {
  const picture = await (await fetch(`${sheet.of}-before`)).json();
  placed($("was").querySelector(".paper"), picture.svg).setAttribute("viewBox", sheet.box.join(" "));
}

function placed(paper, text) {
  const svg = document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  svg.setAttribute("aria-hidden", "true");
  paper.replaceChildren(svg);
  return svg;
}

function zoomTo(box) {
  sheet.box = box;
  sheet.svg.setAttribute("viewBox", box.join(" "));
  $("was").querySelector("svg")?.setAttribute("viewBox", box.join(" "));
}

function zoom(by, at) {
  const [x, y, wide, high] = sheet.box;
  const size = Math.min(Math.max(wide * by, sheet.whole[2] / 40), sheet.whole[2] * 2) / wide;
  const [ax, ay] = at || [x + wide / 2, y + high / 2];
  zoomTo([ax - (ax - x) * size, ay - (ay - y) * size, wide * size, high * size]);
  paintLive();
}

// From metres to the drawing, from there to the screen, and back.
function onPaper(point) {
  const [a, b, c, d, e, f] = sheet.matrix, [i, j] = SEEN[sheet.of];
  const [u, v] = point.length === 2 ? point : [point[i], point[j]];
  return [a * u + c * v + e, b * u + d * v + f];
}

function metres(x, y) {
  const [a, b, c, d, e, f] = sheet.matrix, size = a * d - b * c;
  return [(d * (x - e) - c * (y - f)) / size, (a * (y - f) - b * (x - e)) / size];
}

function paperAt(event) {
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(sheet.svg.getScreenCTM().inverse());
  return [at.x, at.y];
}

const pixels = () => sheet.svg.getScreenCTM().a; // of a millimetre of the drawing
const path = (points, close) => "M" + points.map((p) => onPaper(p).map((v) => v.toFixed(2)).join(" ")).join("L") + (close ? "Z" : "");
const line = (look, points, close) => drawn("path", look, { d: path(points, close) });
const ring = (look, point, px) => {
  const [cx, cy] = onPaper(point);
  return drawn("circle", look, { cx, cy, r: px / pixels() });
};

function words(text, point, px) {
  const [x, y] = onPaper(point);
  const one = drawn("text", "", { x: x + 8 / pixels(), y: y - 8 / pixels(), "font-size": px / pixels() });
  one.textContent = text;
  return one;
}

function paintLive() {
  if (!sheet.live || !(view in SEEN) || sheet.of !== view) return;
  $("paper").classList.toggle("lit", view === "plan" && !$("lit").hidden);
  for (const old of sheet.svg.querySelectorAll(".old")) old.classList.remove("old");
  for (const key of fresh) {
    const name = key.slice(2);
    for (const old of sheet.svg.querySelectorAll(`[data-name="${CSS.escape(name)}"]`)) old.classList.add("old");
  }
  const parts = [];
  const light = told.get("light");
  if (view === "plan" && light && !$("lit").hidden) parts.push(...lightLines(light));
  for (const key of fresh) {
    const name = key.slice(2);
    if (key[0] === "u" && told.has(key)) parts.push(...movedUnit(of("u", name)));
    if (key[0] === "t" && told.has(key)) parts.push(...cross("mark", of("t", name).at));
    if (key[0] === "p" && told.has(key)) parts.push(...positionLines("edge", name));
  }
  if (chosen) parts.push(...CHOSEN[chosen.sort](chosen.name));
  sheet.live.replaceChildren(...parts);
}

function movedUnit(unit) {
  if (view === "plan") return [line("body", unit.body, true)];
  return unit.lens ? [ring("body", unit.clamp, 3), line("edge", [unit.clamp, unit.lens])] : [];
}

const CHOSEN = {
  unit: (name) => unitLines(name, true),
  target: (name) => {
    const at = of("t", name)?.at;
    if (!at) return [];
    return [...byTarget(name).flatMap((unit) => unitLines(unit, false)), ...cross("mark", at), ring("mark", at, 14), words(name, at, 15)];
  },
  position: (name) => {
    if (!told.has(`p/${name}`)) return [];
    const end = of("p", name).lines[0][0];
    return [...positionLines("pipe", name), words(name, end, 15)];
  },
};

function unitLines(name, whole) {
  const unit = of("u", name);
  if (!unit) return [];
  const parts = [];
  if (view === "plan") {
    for (const [field, rim] of unit.rims) if (whole || field) parts.push(line(whole ? (field ? "field" : "beam") : "near", rim, false));
    if (unit.lens) parts.push(line("ray", [unit.lens, unit.end || unit.face]));
    parts.push(line(whole ? "on body" : "body", unit.body, true));
  } else {
    if (unit.lens) {
      parts.push(line("ray", [unit.lens, unit.end || unit.face]));
      if (whole) for (const edge of unit.edges) if (edge) parts.push(line("field", [unit.lens, edge]));
    }
    if (unit.clamp) parts.push(ring(whole ? "on body" : "body", unit.clamp, 5));
  }
  if (whole && unit.clamp) parts.push(ring("mark", unit.lens || unit.clamp, 16), words(name, unit.lens || unit.clamp, 15));
  return parts;
}

function cross(look, at) {
  const [x, y] = onPaper(at), r = 7 / pixels();
  return [drawn("path", look, { d: `M${x - r} ${y}H${x + r}M${x} ${y - r}V${y + r}` })];
}

function positionLines(look, name) {
  return of("p", name).lines.flatMap((run) => {
    const points = run.filter(Boolean);
    return view === "plan" || of("p", name).sort === "boom" ? [line(look, points)] : [ring(look, middle(points), 7)];
  });
}

const middle = (points) => [0, 1, 2].map((k) => (points[0][k] + points.at(-1)[k]) / 2);

function lightLines(light) {
  const parts = [];
  const taken = [];
  const said = [];
  const say = (text, point, px) => {
    const [x, y] = onPaper(point), scale = pixels();
    const box = [x * scale, y * scale - px - 8, x * scale + 8 + text.length * px * 0.7, y * scale];
    if (taken.some((other) => box[0] < other[2] && other[0] < box[2] && box[1] < other[3] && other[1] < box[3])) return;
    taken.push(box);
    said.push(words(text, point, px));
  };
  for (const hole of light.holes) {
    for (const edge of hole.edge) parts.push(line("hole", edge));
    for (const hatch of hole.hatch) parts.push(line("hatch", hatch));
  }
  light.holes.forEach((hole, k) => say(`hole ${k + 1}`, hole.centre, 15));
  for (const { worth, points } of light.lines.toSorted((a, b) => b.points.length - a.points.length)) {
    parts.push(line("equal", points));
    if (points.length > 8) say(worth, points[Math.floor(points.length / 2)], 13);
  }
  return [...parts, ...said];
}

// --- the hand ---

let hand = null; // what it holds: {sort, name, sentAt}, or {box} where it moves the paper
let moved = 0; // when the last move was made
const fingers = new Map();

function under(event) {
  const [px, py] = paperAt(event), scale = pixels();
  let best = null, nearest = NEAR;
  const look = (sort, name, at, less = 0) => {
    if (!at) return;
    const [x, y] = onPaper(at), far = Math.hypot(x - px, y - py) * scale - less;
    if (far < nearest) [best, nearest] = [{ sort, name }, far];
  };
  for (const name of names("t")) look("target", name, of("t", name).at, chosen?.name === name ? 6 : 0);
  for (const name of names("u")) look("unit", name, of("u", name).lens || of("u", name).clamp, chosen?.name === name ? 6 : 0);
  if (best) return best;
  for (const name of names("p")) {
    for (const run of of("p", name).lines) {
      const points = run.filter(Boolean).map(onPaper);
      if (view === "section" && of("p", name).sort === "pipe") look("position", name, middle(run.filter(Boolean)));
      else for (let k = 1; k < points.length; k++) {
        const far = toLine([px, py], points[k - 1], points[k]) * scale;
        if (far < nearest - 8) [best, nearest] = [{ sort: "position", name }, far];
      }
    }
  }
  return best;
}

function toLine([x, y], [x0, y0], [x1, y1]) {
  const dx = x1 - x0, dy = y1 - y0, size = dx * dx + dy * dy;
  const t = size ? Math.min(Math.max(((x - x0) * dx + (y - y0) * dy) / size, 0), 1) : 0;
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

// What a hand may do with a thing: its sort for the server, none for what stands fast here.
function hold(what) {
  if (!what) return null;
  if (what.sort === "unit") return "unit";
  if (what.sort === "target") return "target";
  const sort = of("p", what.name).sort;
  if (sort === "pipe") return view === "plan" ? "pipe" : "trim";
  return view === "plan" ? "target" : null; // a boom, a stand
}

function down(event) {
  if (!sheet.svg) return;
  fingers.set(event.pointerId, [event.clientX, event.clientY]);
  $("paper").setPointerCapture(event.pointerId);
  if (fingers.size > 1) {
    letGo();
    hand = { pinch: spread(), box: sheet.box };
    return;
  }
  const what = under(event);
  if (what) {
    choose(what);
    const sort = hold(what);
    const from = paperAt(event);
    hand = sort ? { sort, name: what.name, from, off: offset(what, from), began: false } : null;
  } else {
    hand = { box: sheet.box, from: [event.clientX, event.clientY] };
  }
}

// How far from a thing's own place it was taken, so that it does not jump under the hand.
function offset(what, [x, y]) {
  const at = what.sort === "target" ? of("t", what.name).at : what.sort === "unit" ? of("u", what.name).clamp : middle(of("p", what.name).lines[0]);
  const [px, py] = onPaper(at);
  return [px - x, py - y];
}

const spread = () => {
  const [a, b] = [...fingers.values()];
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
};

function move(event) {
  if (!fingers.has(event.pointerId) || !hand) return;
  fingers.set(event.pointerId, [event.clientX, event.clientY]);
  if (hand.pinch) {
    if (fingers.size > 1) {
      const [x, y, wide, high] = hand.box, by = hand.pinch / Math.max(spread(), 1);
      zoomTo([x + (wide - wide * by) / 2, y + (high - high * by) / 2, wide * by, high * by]);
    }
    return;
  }
  if (hand.box) {
    const scale = pixels(), [x, y, wide, high] = hand.box;
    zoomTo([x - (event.clientX - hand.from[0]) / scale, y - (event.clientY - hand.from[1]) / scale, wide, high]);
    return;
  }
  const at = paperAt(event);
  if (!hand.began) {
    if (Math.hypot(at[0] - hand.from[0], at[1] - hand.from[1]) * pixels() < 4) return;
    hand.began = true;
    ask({ do: "grab", sort: hand.sort, name: hand.name });
  }
  place(metres(at[0] + hand.off[0], at[1] + hand.off[1]));
}

function place([u, v]) {
  const [i, j] = SEEN[view], point = { x: null, y: null, z: null };
  point["xyz"[i]] = u;
  point["xyz"[j]] = v;
  if (hand.sort === "trim" || (hand.sort === "target" && view === "section")) delete point.x;
  waiting = { sort: hand.sort, name: hand.name, ...point, asked: performance.now() };
  if (sent === answered) send();
}

function send() {
  const { asked, ...what } = waiting;
  waiting = null;
  sent = Math.max(sent, answered) + 1;
  if (hand) hand.sentAt = asked;
  moved = asked;
  ask({ do: "move", n: sent, ...what });
}

function up(event) {
  fingers.delete(event.pointerId);
  if (!fingers.size) letGo();
}

function letGo() {
  if (hand?.began) {
    if (waiting) send();
    ask({ do: "drop" });
  }
  if (hand?.box) paintLive();
  hand = null;
}

// --- keys ---

let arrows = 0; // the timer that ends a walk of arrow keys
const STEP = { m: [0.01, 0.25], ft: [0.0254, 0.3048] };

function key(event) {
  const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
  if (way && chosen && view in SEEN) {
    event.preventDefault();
    nudge(way, event.shiftKey);
  } else if (event.key === "Escape") {
    chosen = null;
    show(["chosen"]);
  } else if (event.key === "+" || event.key === "=") zoom(0.8);
  else if (event.key === "-") zoom(1.25);
  else if (event.key === "0") { zoomTo(sheet.whole); paintLive(); }
}

function nudge([right, higher], far) {
  const sort = hold(chosen);
  if (!sort) return;
  const size = STEP[told.get("show").unit][far ? 1 : 0];
  if (!hand) {
    const from = chosen.sort === "target" ? of("t", chosen.name).at : chosen.sort === "unit" ? of("u", chosen.name).clamp : middle(of("p", chosen.name).lines[0]);
    hand = { sort, name: chosen.name, began: true, at: from };
    ask({ do: "grab", sort, name: chosen.name });
  }
  const [a, b, c, d] = sheet.matrix, [i, j] = SEEN[view];
  hand.at = [...hand.at];
  hand.at[i] += size * Math.sign(a || 1) * right;
  hand.at[j] += size * -Math.sign(d || -1) * higher;
  if (sort === "unit" && view === "plan" && !right) hand.at[i] += 0; // a unit stays on its pipe: the server sees to it
  place([hand.at[i], hand.at[j]]);
  clearTimeout(arrows);
  arrows = setTimeout(letGo, STILL);
}

// --- light ---

function look() {
  const on = !$("lit").hidden;
  const plane = document.querySelector("[name=plane]:checked").value;
  ask({ do: "look", system: on ? $("system").value : null, plane, share: touched ? $("share").value / 100 : null });
  if (!on) { told.delete("light"); told.delete("helpers"); }
}

let touched = false; // whether the threshold is the page's own, not the scene's
function paintLight() {
  const light = told.get("light");
  if (!light) return;
  if (!touched && light.share) $("share").value = Math.round(light.share * 100);
  $("shown").value = `${$("share").value} %`;
  $("figures").textContent = light.says;
  const helpers = told.get("helpers") || [];
  $("holes").replaceChildren(...(light.holes.length ? light.holes.map((hole, k) => holeRow(hole, k, helpers[k])) : [made("li", "No holes.")]));
}

function holeRow(hole, k, offer) {
  const row = made("li");
  row.append(made("strong", `Hole ${k + 1}: `), hole.says);
  if (!offer) return row;
  if (offer.says) row.append(made("p", `No help: ${offer.says}.`));
  for (const one of offer.units) {
    const line = made("p", `${one.says}. `);
    line.append(button("Apply", () => ask({ do: "apply", unit: one.unit, point: one.point }), { "aria-label": `Apply: ${one.unit} to hole ${k + 1}` }));
    row.append(line);
  }
  return row;
}

// --- three dimensions ---

let space = null;

async function drawModel() {
  if (!globalThis.THREE) await new Promise((done, failed) => {
    const script = made("script", undefined, { src: "three.js" });
    script.onload = done;
    script.onerror = failed;
    document.head.append(script);
  });
  const T = globalThis.THREE;
  const model = await (await fetch("model.glb")).arrayBuffer();
  const gltf = await new Promise((done, failed) => new T.GLTFLoader().parse(model, "", done, failed));
  if (!space) space = newSpace(T);
  space.show(gltf.scene);
}

function newSpace(T) {
  const renderer = new T.WebGLRenderer({ antialias: true });
  renderer.setPixelRatio(devicePixelRatio);
  const scene = new T.Scene();
  scene.background = new T.Color(0xffffff);
  const camera = new T.PerspectiveCamera(40, 1, 0.1, 500);
  const controls = new T.TrackballControls(camera, renderer.domElement);
  controls.staticMoving = true;
  controls.rotateSpeed = 2;
  $("model").append(renderer.domElement);
  renderer.domElement.setAttribute("role", "img");
  renderer.domElement.setAttribute("aria-label", "The rig in three dimensions; the table has its figures");
  const plain = new T.MeshBasicMaterial({ color: 0xffffff, side: T.DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
  const black = new T.MeshBasicMaterial({ color: 0, side: T.DoubleSide });
  const pencil = new T.LineBasicMaterial({ color: 0 });
  let rig = null, whole = null;
  const draw = () => renderer.render(scene, camera);
  const size = () => {
    const { clientWidth, clientHeight } = $("model");
    if (!clientWidth || !clientHeight) return;
    renderer.setSize(clientWidth, clientHeight, false);
    renderer.domElement.style.width = "100%";
    renderer.domElement.style.height = "100%";
    camera.aspect = clientWidth / clientHeight;
    camera.updateProjectionMatrix();
    controls.handleResize();
    draw();
  };
  new ResizeObserver(size).observe($("model"));
  controls.addEventListener("change", draw);
  (function turn() { requestAnimationFrame(turn); if (view === "model") controls.update(); })();
  renderer.domElement.addEventListener("click", (event) => {
    const box = renderer.domElement.getBoundingClientRect(), ray = new T.Raycaster();
    ray.setFromCamera(new T.Vector2(((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2), camera);
    const hit = ray.intersectObjects(solids, false)[0];
    if (hit) choose(thing(hit.object.userData.name));
  });
  let solids = [], lights = [];
  function show(model) {
    if (rig) scene.remove(rig);
    rig = model;
    solids = [];
    lights = [];
    model.traverse((one) => {
      if (!one.isMesh) return;
      const name = one.name || one.parent?.name || "";
      one.userData.name = known(name);
      if (name.startsWith("light of") || name.startsWith("light_of")) {
        one.material = new T.MeshBasicMaterial({ visible: false });
        one.add(new T.LineSegments(new T.EdgesGeometry(one.geometry, 1), pencil));
        lights.push(one);
      } else {
        one.material = plain;
        one.add(new T.LineSegments(new T.EdgesGeometry(one.geometry, 25), pencil));
        solids.push(one);
      }
    });
    scene.add(model);
    if (!whole) {
      whole = new T.Box3().setFromObject(model);
      const middle = whole.getCenter(new T.Vector3()), far = whole.getSize(new T.Vector3()).length();
      camera.position.set(middle.x + far * 0.35, middle.y + far * 0.45, middle.z + far * 0.75);
      controls.target.copy(middle);
      controls.update();
    }
    mark();
    size();
  }
  function mark() {
    for (const one of solids) one.material = chosen && one.userData.name === chosen.name ? black : plain;
    for (const one of lights) one.visible = chosen?.sort === "unit" && one.userData.name === `light of ${chosen.name}`;
    draw();
  }
  return { show, mark, size };
}

// The loader spells names its own way: spaces become "_", some letters are left out.
function known(spelled) {
  const plain = (name) => name.replace(/\s/g, "_").replace(/[[\].:/]/g, "");
  const every = [...names("u").flatMap((name) => [name, `light of ${name}`]), ...names("p")];
  return every.find((name) => plain(name) === spelled) || spelled;
}

// --- what fills the page ---

function fill(which) {
  view = which;
  for (const one of document.querySelectorAll("[data-view]")) one.setAttribute("aria-pressed", String(one.dataset.view === which));
  $("paper").hidden = !(which in SEEN);
  $("model").hidden = which !== "model";
  $("table").hidden = which !== "table";
  $("stance").textContent = {
    plan: "PLAN: you look down from above, US up the page.",
    section: "SECTION: you look from SL across the stage.",
    model: "THREE DIMENSIONS: drag to walk round, pinch or turn the wheel to come nearer, click to choose.",
    table: "TABLE: every unit in hang order.",
  }[which];
  $("keys").textContent = which in SEEN ? "Drag a target, a unit or a pipe; drag the paper to move it, wheel or + and - to come nearer, 0 for all of it. Arrow keys move what is chosen, with Shift in long steps." : "";
  if (which in SEEN && told.has("drawn")) redraw();
  if (which === "model") drawModel();
  show(["view", "chosen"]);
}

function start() {
  for (const one of document.querySelectorAll("[data-view]")) one.addEventListener("click", () => fill(one.dataset.view));
  $("undo").addEventListener("click", () => ask({ do: "undo" }));
  $("redo").addEventListener("click", () => ask({ do: "redo" }));
  $("before").addEventListener("click", () => {
    $("was").hidden = !$("was").hidden;
    $("before").setAttribute("aria-pressed", String(!$("was").hidden));
    if (!$("was").hidden) redrawBefore();
    show(["view"]);
  });
  $("light").addEventListener("click", () => {
    $("lit").hidden = !$("lit").hidden;
    $("light").setAttribute("aria-pressed", String(!$("lit").hidden));
    look();
    show(["view"]);
  });
  $("system").addEventListener("change", look);
  $("share").addEventListener("input", () => {
    touched = true;
    $("shown").value = `${$("share").value} %`;
    look();
  });
  for (const plane of document.querySelectorAll("[name=plane]")) plane.addEventListener("change", look);
  $("find").addEventListener("change", () => {
    const found = thing($("find").value.trim());
    if (found) {
      choose(found);
      $("find").value = "";
      if (view in SEEN) $("paper").focus({ preventScroll: true }); // where arrow keys move it
      else $("find").blur();
    }
    else if ($("find").value.trim()) $("said").textContent = `Nothing here is called "${$("find").value.trim()}".`;
  });
  $("save").addEventListener("click", () => {
    if (!$("folder").value) $("folder").value = told.get("show").folder;
    $("saving").showModal();
  });
  $("saving").addEventListener("close", () => {
    if ($("saving").returnValue !== "save") return;
    const into = document.querySelector("[name=where]:checked").value;
    ask({ do: "save", folder: into === "new" ? $("folder").value.trim() : null });
  });
  const paper = $("paper");
  paper.addEventListener("pointerdown", down);
  paper.addEventListener("pointermove", move);
  paper.addEventListener("pointerup", up);
  paper.addEventListener("pointercancel", up);
  paper.addEventListener("wheel", (event) => {
    event.preventDefault();
    if (sheet.svg) zoom(event.deltaY > 0 ? 1.15 : 1 / 1.15, paperAt(event));
  }, { passive: false });
  paper.addEventListener("keydown", key);
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z" || event.target.matches("input")) return;
    event.preventDefault();
    ask({ do: event.shiftKey ? "redo" : "undo" });
  });
  fill("plan");
  connect();
}

start();

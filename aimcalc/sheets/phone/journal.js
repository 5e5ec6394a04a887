"use strict";
// What was ticked, noted and landed: a list of events that only grows, kept on this phone under the show's name.
// An event says which earlier ones it takes the place of (`over`), so that whatever is joined loses nothing.
const journal = (() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const PREFIX = `aimcalc ${data.title} ${data.print} `;
  const TICKS = [["hung", "hung"], ["safety", "safety cable"], ["upright", "upright"], ["tail", "tail"],
                 ["pan", "pan"], ["down", "down"], ["tested", "tested"]];
  const events = new Map(), heads = new Map(), hear = [];
  let keeps = true, last = 0;

  function get(key) { try { return localStorage.getItem(PREFIX + key); } catch { keeps = false; return null; } }
  function put(key, value) {
    try { localStorage.setItem(PREFIX + key, value); return true; } catch { keeps = false; return false; }
  }
  function random(letters) {
    const every = "CDFHJKMNPRTVWXY34679", bytes = crypto.getRandomValues(new Uint8Array(letters));
    return Array.from(bytes, (b) => every[b % every.length]).join("");
  }

  let phone = get("phone");
  if (!phone) put("phone", phone = `phone ${random(3)}`);
  const sound = (e) => e && typeof e === "object" && typeof e.id === "string" && typeof e.unit === "string"
    && typeof e.what === "string" && typeof e.when === "string" && Array.isArray(e.over);

  // The events of one thing of one unit that no other takes the place of, by the clock, then by name.
  const keyOf = (e) => JSON.stringify([e.unit, e.what]);
  function take(event) {
    if (!sound(event) || events.has(event.id)) return false;
    events.set(event.id, event);
    const key = keyOf(event), mine = [...(heads.get(key) || { all: [] }).all, event];
    const gone = new Set(mine.flatMap((e) => e.over));
    const open = mine.filter((e) => !gone.has(e.id));
    open.sort((a, b) => (a.when < b.when ? -1 : a.when > b.when ? 1 : a.id < b.id ? -1 : 1));
    heads.set(key, { all: mine, open });
    return true;
  }
  function add(list, from) {
    const fresh = list.filter(take);
    for (const event of fresh) if (from !== "store") put(`event ${event.id}`, JSON.stringify(event));
    if (fresh.length) hear.forEach((f) => f(fresh, from));
    return fresh.length;
  }
  function write(unit, what, value) {
    last = Math.max(Date.now(), last + 1);
    const over = open(unit, what).map((e) => e.id);
    const event = { id: random(12), when: new Date(last).toISOString(), phone, unit, what, value, over };
    add([event], "hand");
    return event;
  }
  function open(unit, what) { return (heads.get(JSON.stringify([unit, what])) || { open: [] }).open; }
  // What holds: of a tick that phones differ on it is that it is not done.
  function value(unit, what) {
    const now = open(unit, what);
    if (!now.length) return null;
    if (TICKS.some(([tick]) => tick === what)) return now.every((e) => e.value === true);
    return now[now.length - 1].value;
  }
  function differ(unit, what) {
    return new Set(open(unit, what).map((e) => JSON.stringify(e.value))).size > 1;
  }

  // Files. A cell that a spreadsheet would take for a formula begins with an apostrophe.
  const cell = (v) => {
    let text = v === null || v === undefined ? "" : String(v);
    if (/^[=+@\t\r-]/.test(text)) text = `'${text}`;
    return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
  };
  const csv = (rows) => "\uFEFF" + rows.map((row) => row.map(cell).join(",")).join("\r\n") + "\r\n";
  const named = new Map(data.units.map((u) => [u.name, [data.positions[u.position].name, u.number_whole]]));
  const LANDING = ["x", "y", "on", "height", "down", "pan", "sight"];
  function landings() {
    const rows = [["position", "unit", ...LANDING, "note", "when", "phone", "id", "over"]];
    for (const [name, whole] of named)
      for (const e of open(name, "landing"))
        if (e.value) rows.push([...whole, ...LANDING.map((key) => e.value[key]), value(name, "note"),
                                e.when, e.phone, e.id, e.over.join("+")]);
    return csv(rows);
  }
  function ticks() {
    const rows = [["position", "unit", "tick", "value", "when", "phone", "id", "over"]];
    const every = [...events.values()].sort((a, b) => (a.when < b.when ? -1 : a.when > b.when ? 1 : a.id < b.id ? -1 : 1));
    for (const e of every) {
      if (e.what === "landing" || !named.has(e.unit)) continue;
      const told = e.value === true ? "yes" : e.value === false ? "no" : e.value;
      rows.push([...named.get(e.unit), e.what, told, e.when, e.phone, e.id, e.over.join("+")]);
    }
    return csv(rows);
  }

  // The keys of this show's entries, of this print or of others.
  function keysOf(start, wanted) {
    try {
      return Object.keys(localStorage).filter((key) => key.startsWith(start) && wanted(key));
    } catch { keeps = false; return []; }
  }
  const elsewhere = () => keysOf(`aimcalc ${data.title} `, (key) => key.includes(" event ") && !key.startsWith(PREFIX)).length;
  function reread() {
    const found = keysOf(`${PREFIX}event `, () => true).map((key) => {
      try { return JSON.parse(localStorage.getItem(key)); } catch { return null; }  // what is no entry is passed over
    });
    return add(found, "store");
  }
  reread();
  addEventListener("storage", reread);  // another page of the same show wrote
  return { data, TICKS, events, add, write, value, open, differ, landings, ticks, get, put, hear,
           phone: () => phone, call: (name) => { phone = name; put("phone", name); }, keeps: () => keeps, elsewhere };
})();

"use strict";
// The link to the computer that served this page: what is missed comes first, then what is new here is sent
// until it is answered for. Without a link all goes on, and is sent later.
(() => {
  const { el, $, button, views } = page, { data } = journal;
  const theirs = new Set(), refused = new Set();
  const AT_ONCE = 40, PATIENCE = 6000, LONGEST_WAIT = 8000;
  let socket = null, name = "", have = 0, wait = 400, ready = false, asked = 0, timer = 0, other = false, trouble = "";

  const outbox = () => [...journal.events.values()].filter((e) => !theirs.has(e.id) && !refused.has(e.id));
  function connect() {
    clearTimeout(timer);
    if (socket && socket.readyState < WebSocket.CLOSING) return;
    const address = new URL("link", location.href);
    address.protocol = "ws:";
    address.hash = "";
    const mine = socket = new WebSocket(address);
    mine.onopen = () => mine.send(JSON.stringify({ type: "hello", print: data.print, journal: name, have }));
    mine.onmessage = (event) => { if (mine === socket) hear(JSON.parse(event.data)); };
    mine.onclose = () => {
      if (mine !== socket) return;
      socket = null;
      ready = false;
      clearTimeout(asked);
      asked = 0;
      timer = setTimeout(connect, wait);
      wait = Math.min(2 * wait, LONGEST_WAIT);
      tell();
    };
  }
  function hear(told) {
    if (told.journal) {
      if (told.journal !== name) { theirs.clear(); have = 0; }
      name = told.journal;
      other = told.other;
    }
    if (told.events) {
      told.events.forEach((e) => theirs.add(e.id));
      have = Math.max(have, told.seq);
      journal.add(told.events, "link");
    }
    if (told.ready) { ready = true; wait = 400; trouble = ""; send(); }
    if (told.trouble) { trouble = told.trouble; socket.close(); }
    if (told.kept) {
      clearTimeout(asked);
      asked = 0;
      told.kept.forEach((id) => theirs.add(id));
      told.refused.forEach((id) => refused.add(id));
      send();
    }
    tell();
  }
  function send() {
    const events = outbox().slice(0, AT_ONCE);
    if (!ready || asked || !events.length) return;
    socket.send(JSON.stringify({ type: "events", events }));
    asked = setTimeout(() => socket?.close(), PATIENCE);  // a link that answers nothing is broken
  }
  function tell() {
    const n = outbox().length, waiting = `${n} ${n === 1 ? "entry waits" : "entries wait"} on this phone`;
    const told = trouble || (other ? "The sheets were printed again: reload this page. What is ticked here is kept."
      : !ready ? `Not linked${n ? `: ${waiting}, sent later` : ""}. Keep this page open.`
        : n ? `Linked: ${waiting}.` : "Linked: all is sent.");
    const more = refused.size ? ` ${refused.size} refused: not of this show.` : "";
    if ($("link").textContent !== told + more) $("link").textContent = told + more;
  }

  // The progress board.
  const landed = (u) => journal.open(u.name, "landing").some((e) => e.value);
  function board() {
    const { units, positions } = data, { TICKS } = journal;
    const row = (words, mine) => el("tr", {}, el("th", { scope: "row" }, words), el("td", {}, String(mine.length)),
      TICKS.map(([tick]) => el("td", {}, String(mine.filter((u) => journal.value(u.name, tick) === true).length))),
      el("td", {}, String(mine.filter(landed).length)));
    const heads = ["Position", "units", ...TICKS.map(([, words]) => words), "landed"];
    const differing = units.flatMap((u, k) => [...TICKS.map(([t]) => t), "landing", "note"]
      .filter((what) => journal.differ(u.name, what)).map((what) => [k, what]));
    const last = [...journal.events.values()].sort((a, b) => (a.when < b.when ? 1 : -1)).slice(0, 20);
    return [el("h2", {}, "Board"),
      el("div", { class: "wide-table", tabindex: "0", role: "region", "aria-label": "Progress by position" },
        el("table", {}, el("thead", {}, el("tr", {}, heads.map((h) => el("th", { scope: "col" }, h)))),
          el("tbody", {}, positions.map((p, n) => row(p.short, units.filter((u) => u.position === n))), row("All", units)))),
      differing.length ? el("h3", {}, "Phones differ: look at the unit") : "",
      el("ul", { class: "list" }, differing.map(([k, what]) => el("li", {},
        button(`${units[k].name}: ${what}`, () => page.go("unit", units[k].name))))),
      el("h3", {}, "Last heard"),
      el("ul", { class: "lines" }, last.map((e) => el("li", {}, `${new Date(e.when).toTimeString().slice(0, 5)} ${e.phone}: ${e.unit}, `,
        e.what === "landing" ? (e.value ? `landed at ${page.spotWords(e.value)}` : "landing taken back")
          : e.what === "note" ? `note: ${e.value}` : `${e.what}: ${e.value ? "done" : "taken off"}`))),
      last.length ? "" : el("p", {}, "Nothing yet."),
      el("h3", {}, "For phones"),
      el("p", {}, "Read this with a phone on the same network. Whoever has the address can read the sheets and tick."),
      el("img", { src: "address.svg", alt: "The address of this page as a QR code", class: "code" }),
      el("p", {}, location.href.replace(/#.*/, ""))];
  }
  views.board = board;
  $("head").append(el("p", { id: "link", role: "status" }));
  journal.hear.push((_, from) => { if (from !== "link") send(); tell(); });
  addEventListener("online", connect);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) connect(); });
  page.show(true);
  tell();
  connect();
})();

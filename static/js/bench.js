// The bench: draws the track that the server sent. Every angle shown comes from there; nothing is modelled here.
import { typing } from "./page.js";

const SVG = "http://www.w3.org/2000/svg";
const RAD = Math.PI / 180;
const STEP_S = 0.5;
const TELL_S = 0.1;

// The form shows what the chosen manoeuvre takes.
const doing = document.querySelector("#doing");
const showFields = () => {
  for (const part of document.querySelectorAll("[data-for]")) {
    part.hidden = !part.dataset.for.split(" ").includes(doing.value) && !part.querySelector("[aria-invalid]");
  }
};
const rate = document.querySelector("#rate");
const bank = document.querySelector("#bank_deg").closest(".field");
const showBank = () => {
  bank.hidden = rate.value !== "bank" && !bank.querySelector("[aria-invalid]");
};
rate.addEventListener("change", showBank);
showBank();
doing.addEventListener("change", showFields);
showFields();

// What one fills in for a place of one's own says which place is meant.
const ownPlaces = { latitude_deg: "typed", longitude_deg: "typed", dip_deg: "dip" };
for (const [id, place] of Object.entries(ownPlaces)) {
  document.getElementById(id).addEventListener("input", () => {
    document.querySelector("#place_id").value = place;
  });
}

const player = document.querySelector("#player");

// On a phone the flight comes first: the form opens when it is asked for, or when it refuses something.
const asked = document.querySelector("#asked");
const roomy = matchMedia("(min-width: 60rem)");
const fold = () => {
  asked.open = roomy.matches || player === null || asked.querySelector("[aria-invalid]") !== null;
};
roomy.addEventListener("change", fold);
fold();

function make(parent, name, attributes, text = "") {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text) element.textContent = text;
  parent.append(element);
  return element;
}

function line(parent, d, ink = "ink", width = 2) {
  return make(parent, "path", { d, class: `fig-${ink}`, fill: "none", "stroke-width": width, "vector-effect": "non-scaling-stroke" });
}

function letters(parent, x, y, size, text, attributes = {}) {
  return make(parent, "text", { x, y, "font-size": size, "text-anchor": "middle", class: "fig-ink-fill", ...attributes }, text);
}

// Sets what a moment changes, and only what it changes: each attribute written costs layout and paint.
const written = new WeakMap();
function put(element, name, value) {
  const known = written.get(element) ?? written.set(element, {}).get(element);
  if (known[name] === value) return;
  known[name] = value;
  element.setAttribute(name, value);
}

const three = (deg) => String(Math.round(((deg % 360) + 360) % 360) % 360 || 360).padStart(3, "0");
const signed = (deg) => ((((deg + 180) % 360) + 360) % 360) - 180;
const label = (heading) =>
  heading % 90 === 0 ? player.dataset.cardinals.split(" ")[(heading / 90) % 4] : String(heading / 10);

// A still becomes a stage: its drawing keeps size and title, what moves is drawn anew.
function stage(name, box) {
  const figure = player.querySelector(`[data-still="${name}"]`);
  const svg = figure?.querySelector("svg");
  if (!svg) return null;
  for (const child of [...svg.children]) if (child.tagName !== "title") child.remove();
  svg.setAttribute("viewBox", `0 0 ${box[0]} ${box[1]}`);
  svg.setAttribute("height", box[1]);
  return svg;
}

// The drum, seen from behind: a heading d clockwise of the reading stands at 160 - 156 sin d, lifted toward the sides.
const seen = (d) => [(160 - 156 * Math.sin(d * RAD)).toFixed(2), 15.6 * (1 - Math.cos(d * RAD))];

function drum() {
  const svg = stage("drum", [320, 212]);
  if (!svg) return () => {};
  const clip = make(make(svg, "defs", {}), "clipPath", { id: "window" });
  make(clip, "rect", { x: 42, y: 44, width: 236, height: 128, rx: 4 });
  make(svg, "rect", { x: 1, y: 1, width: 318, height: 210, rx: 12, class: "fig-ink fig-tint-fill", "stroke-width": 2 });
  make(svg, "rect", { x: 42, y: 44, width: 236, height: 128, rx: 4, class: "fig-card-fill" });
  const card = make(svg, "g", { "clip-path": "url(#window)" });
  for (const y of [62, 160]) line(card, `M42 ${y - 5.4}Q160 ${y + 5.4} 278 ${y - 5.4}`, "ink", 1.5);
  const [fives, tens] = [line(card, "", "ink", 2), line(card, "", "ink", 3)];
  const names = [];
  for (let heading = 30; heading <= 360; heading += 30) {
    const cardinal = heading % 90 === 0;
    const weight = cardinal ? { "font-weight": 700 } : {};
    names.push({ heading, name: letters(card, 0, 0, cardinal ? 34 : 28, label(heading), weight) });
  }
  const pieces = [line(svg, "M160 44V172", "card", 8), line(svg, "M160 44V172", "ink", 3)];
  make(svg, "rect", { x: 42, y: 44, width: 236, height: 128, rx: 4, class: "fig-ink", fill: "none", "stroke-width": 2 });
  make(svg, "path", { d: "M153 33H167L160 44Z", class: "fig-ink-fill" });
  return ({ reading }) => {
    const marks = ["", ""];
    for (let heading = 5 * Math.ceil((reading - 58) / 5); heading <= reading + 58; heading += 5) {
      const [x, lifted] = seen(heading - reading);
      if (heading % 10) marks[0] += `M${x} ${135 - lifted}v17`;
      else marks[1] += `M${x} ${122 - lifted}v30`;
    }
    put(fives, "d", marks[0]);
    put(tens, "d", marks[1]);
    let near = false;
    for (const { heading, name } of names) {
      const d = signed(heading - reading);
      const away = Math.abs(d) > 58;
      put(name, "display", away ? "none" : "inline");
      if (away) continue;
      const [x, lifted] = seen(d);
      put(name, "transform", `translate(${x} ${100 - lifted}) scale(${Math.cos(d * RAD).toFixed(3)} 1)`);
      near ||= Math.abs(d) <= 8.5;
    }
    for (const piece of pieces) put(piece, "d", near ? "M160 44V68M160 112V172" : "M160 44V172");
  };
}

// A dial: larger numbers to the right, the card turned back by what it shows.
function dial(parent, radius) {
  const group = make(parent, "g", { class: "turning" });
  for (let heading = 5; heading <= 360; heading += 5) {
    const mark = make(group, "g", { transform: `rotate(${heading})` });
    line(mark, `M0 ${-radius}v${heading % 10 ? 10 : 17}`, "ink", heading % 10 ? 1.5 : 2.5);
    if (heading % 30 === 0) letters(mark, 0, -radius + 42, 21, label(heading));
  }
  return group;
}

const OUTLINE = "M0-44L4-37 5-14 44-2V8L5 6 4 29 17 36V43L0 40-17 43V36L-4 29-5 6-44 8V-2L-5-14-4-37Z";

function indicator() {
  const svg = stage("heading-indicator", [320, 320]);
  if (!svg) return () => {};
  make(svg, "rect", { x: 1, y: 1, width: 318, height: 318, rx: 12, class: "fig-ink fig-tint-fill", "stroke-width": 2 });
  const middle = make(svg, "g", { transform: "translate(160 164)" });
  make(middle, "circle", { r: 132, class: "fig-ink fig-card-fill", "stroke-width": 2 });
  const card = dial(middle, 127);
  line(middle, OUTLINE, "ink", 1.5);
  make(svg, "path", { d: "M153 25H167L160 37Z", class: "fig-ink-fill" });
  return ({ real }) => put(card, "transform", `rotate(${-real})`);
}

// The aircraft from above over fixed headings; the dashed ray is where the compass says the nose points.
function above() {
  const own = document.createElement("figure");
  own.className = "figure";
  own.dataset.still = "above";
  player.querySelector('[data-still="heading-indicator"]').after(own);
  const svg = make(own, "svg", { class: "fig", viewBox: "0 0 320 320", role: "img" });
  make(svg, "title", {}, player.dataset.above);
  own.append(Object.assign(document.createElement("figcaption"), { textContent: player.dataset.above }));
  const middle = make(svg, "g", { transform: "translate(160 160)" });
  make(middle, "circle", { r: 140, class: "fig-magnetic", fill: "none", "stroke-width": 1.5 });
  dial(middle, 140);
  const says = line(middle, "M0 0V-118", "ink", 2.5);
  says.setAttribute("stroke-dasharray", "9 6");
  const plane = line(middle, OUTLINE, "magnetic", 2);
  for (const each of [says, plane]) each.classList.add("turning");
  return ({ real, reading }) => {
    put(says, "transform", `rotate(${reading})`);
    put(plane, "transform", `rotate(${real})`);
  };
}

// The tilted card from behind (while the speed changes, from the left, nose to the left): case and card turn with the bank, the downward field stays; its part along the card.
function tilted(dip) {
  const svg = stage("tilted-card", [320, 320]);
  if (!svg) return () => {};
  const down = dip < 0 ? -1 : 1;
  const middle = make(svg, "g", { transform: "translate(160 160)" });
  line(middle, "M-159 0H159", "line", 1.25);
  const turned = make(middle, "g", {});
  line(turned, "M-124-58H124V46H-124Z", "line", 1.25);
  line(turned, "M-104 0H104", "ink", 6);
  line(turned, `M0 0V${140}M-5 130L0 140 5 130`, "ink", 1.5);
  const box = line(middle, "", "line", 1.25);
  line(middle, `M0 0V${down * 140}M0 ${down * 140}l-6 ${down * -10}`, "magnetic", 2.5);
  const along = line(middle, "", "magnetic", 4);
  const [card, part, field] = player.dataset.words.split("|");
  const own = letters(turned, -64, -12, 15, card);
  const name = letters(middle, 0, 0, 15, part, { class: "fig-magnetic-fill", "font-weight": 700 });
  const vertical = letters(middle, 12, down * 134, 15, field, { class: "fig-magnetic-fill", "text-anchor": "start" });
  return ({ bank: sideways, sunk }) => {
    const bank = sunk === undefined ? sideways : -sunk;
    put(turned, "transform", `rotate(${bank})`);
    const [sin, cos] = [Math.sin(bank * RAD), Math.cos(bank * RAD)];
    const size = down * 140 * sin;
    put(along, "d", `M0 0L${size * cos} ${size * sin}`);
    put(name, "display", Math.abs(bank) < 1 ? "none" : "inline");
    put(name, "x", size > 0 ? 66 : -66);
    put(own, "x", size > 0 ? -64 : 64);
    put(vertical, "x", size < 0 ? -12 : 12);
    put(vertical, "text-anchor", size < 0 ? "end" : "start");
    put(name, "y", down > 0 ? -14 : 24);
    put(box, "d", `M${size * cos} ${size * sin}L0 ${down * 140}`);
  };
}

// Gravity and the acceleration turned round add to the vertical the card hangs from.
function forces() {
  const svg = stage("apparent-vertical", [320, 196]);
  if (!svg) return () => {};
  const [, , , gravity, apparent, acceleration] = player.dataset.words.split("|");
  const middle = make(svg, "g", { transform: "translate(160 48)" });
  line(middle, "M-159 0H159", "line", 1.25);
  const card = line(middle, "M-64 0H64", "ink", 6);
  line(middle, "M0 0V106M-5 97L0 106 5 97", "ink", 2.5);
  const [away, sum] = [line(middle, "", "ink", 1.5), line(middle, "", "ink", 4)];
  const down = letters(middle, 0, 64, 14, gravity);
  const names = [letters(middle, 0, 130, 14, acceleration), letters(middle, 0, 64, 15, apparent, { "font-weight": 700 })];
  return ({ bank: sideways, sunk }) => {
    const bank = sunk === undefined ? sideways : -sunk;
    const side = bank < 0 ? -1 : 1;
    const x = -106 * Math.tan(bank * RAD);
    put(card, "transform", `rotate(${bank})`);
    put(away, "d", `M0 106H${x}`);
    put(sum, "d", `M0 0L${x} 106`);
    put(down, "x", 10 * side);
    put(down, "text-anchor", side > 0 ? "start" : "end");
    put(names[1], "x", Math.min(52, Math.max(-52, x / 2 - 10 * side)));
    put(names[1], "text-anchor", side > 0 ? "end" : "start");
    for (const name of names) put(name, "display", Math.abs(bank) < 1 ? "none" : "inline");
  };
}

// Above the critical bank no card hangs steady: the page says so and draws none.
function steadiness(critical) {
  const words = player.querySelector("[data-unsteady]");
  const stills = ["tilted-card", "apparent-vertical"].map((name) => player.querySelector(`[data-still="${name}"]`));
  return ({ bank }) => {
    const steady = Math.abs(bank) <= critical;
    words.hidden = steady;
    for (const still of stills) if (still) still.hidden = !steady;
  };
}

// The moment on each plot: the server drew it in a group of its own, in the frame the figure describes.
function plot(svg, track) {
  const group = svg.querySelector("g");
  if (!group) return () => {};
  const [width, height] = [svg.viewBox.baseVal.width, svg.viewBox.baseVal.height];
  const all = [...track.real, ...track.reading, ...(track.edges.includes("critical") ? [] : track.settled)];
  const low = 30 * Math.floor(Math.min(...all) / 30);
  const high = 30 * Math.ceil((Math.max(...all) + 1e-9) / 30);
  const x = (time) => 46 + (time * (width - 60)) / track.time.at(-1);
  const y = (heading) => height - 44 - ((heading - low) * (height - 74)) / (high - low);
  const [ray, ...dots] = group.children;
  return ({ time, real, reading }) => {
    put(ray, "d", `M${x(time)} 22V${height - 44}`);
    dots.forEach((dot, at) => {
      put(dot, "cx", x(time));
      put(dot, "cy", y(at < 2 ? real : reading));
    });
  };
}

function start(track) {
  const controls = player.querySelector(".controls");
  const button = controls.querySelector("[data-do=play]");
  const [scrub, pace] = [controls.querySelector("#scrub"), controls.querySelector("#pace")];
  const end = track.time.at(-1);
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const words = [button.textContent, button.dataset.playing];
  const draw = new Map([[player, steadiness(track.critical)]]);
  const stills = { above: above(), drum: drum(), "heading-indicator": indicator(), "tilted-card": tilted(track.dip), "apparent-vertical": forces() };
  for (const [name, each] of Object.entries(stills)) draw.set(player.querySelector(`[data-still="${name}"]`) ?? name, each);
  for (const svg of document.querySelectorAll(".plot svg")) draw.set(svg, plot(svg, track));

  // While it plays, what is out of sight waits: a phone shows two or three drawings at a time.
  const hidden = new Set();
  const watch = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) hidden[isIntersecting ? "delete" : "add"](target);
  });
  for (const place of draw.keys()) if (place instanceof Element && place !== player) watch.observe(place);
  const still = player.querySelector('[data-still="card-plane"]');
  if (still) still.hidden = true;
  const places = Object.fromEntries(
    ["time", "real", "reading", "settled", "bank"].map((name) => [name, player.querySelectorAll(`[data-now=${name}]`)]),
  );
  let now = Number(scrub.value);
  let told = now;
  let frame = 0;
  let before = 0;

  // Between two samples everything runs straight: they lie a quarter of a second apart.
  function sample(time) {
    let after = track.time.findIndex((each) => each > time);
    if (after < 1) after = after === 0 ? 1 : track.time.length - 1;
    const part = Math.min(1, Math.max(0, (time - track.time[after - 1]) / (track.time[after] - track.time[after - 1])));
    const at = (name) => track[name][after - 1] + part * (track[name][after] - track[name][after - 1]);
    return { time, real: at("real"), reading: at("reading"), settled: at("settled"), bank: at("bank"), sunk: track.sunk && at("sunk") };
  }

  function show(time, playing = false) {
    now = Math.min(end, Math.max(0, time));
    const moment = sample(now);
    for (const [place, each] of draw) if (!playing || !hidden.has(place)) each(moment);
    // The rest of the page is told ten times a second, and when it stops.
    if (playing && now - told < TELL_S * Number(pace.value) && now > told) return;
    told = now;
    scrub.value = now;
    const shown = {
      time: now.toFixed(1).replace(".", document.documentElement.lang === "fr" ? "," : "."),
      real: three(moment.real),
      reading: three(moment.reading),
      settled: Math.abs(moment.bank) <= track.critical ? three(moment.settled) : "–",
      bank: `${Math.round(moment.bank) || 0}°`.replace("-", "\u2212"),
    };
    for (const [name, text] of Object.entries(shown)) {
      for (const place of places[name]) if (place.textContent !== text) place.textContent = text;
    }
  }

  // The address, the form and the link hold the moment at which one stops.
  function keep() {
    const text = now.toFixed(1);
    show(Number(text));
    for (const link of document.querySelectorAll(".bench-links a")) {
      const url = new URL(link.href);
      if (url.searchParams.has("at")) url.searchParams.set("at", text);
      link.href = url;
    }
    const here = new URL(document.querySelector("a.state").href);
    const view = new URL(location.href).searchParams.get("view");
    if (view) here.searchParams.set("view", view);
    history.replaceState(null, "", here);
    document.querySelector("#at").value = text;
  }

  function tick(stamp) {
    show(now + ((stamp - before) / 1000) * Number(pace.value), true);
    before = stamp;
    if (now < end) frame = requestAnimationFrame(tick);
    else pause();
  }

  function pause() {
    cancelAnimationFrame(frame);
    frame = 0;
    button.textContent = words[0];
    keep();
  }

  function play() {
    if (calm.matches) return;
    if (now >= end) show(0);
    button.textContent = words[1];
    before = performance.now();
    frame = requestAnimationFrame(tick);
  }

  const toggle = () => (frame ? pause() : play());
  const step = (by) => {
    if (frame) pause();
    show(now + by);
    keep();
  };
  button.addEventListener("click", toggle);
  controls.querySelector("[data-do=back]").addEventListener("click", () => step(-STEP_S));
  controls.querySelector("[data-do=on]").addEventListener("click", () => step(STEP_S));
  scrub.addEventListener("input", () => {
    const wanted = Number(scrub.value);
    if (frame) pause();
    show(wanted);
  });
  scrub.addEventListener("change", keep);
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || typing(event.target) || event.target === scrub) return;
    if (event.key === " " && event.target.closest("button, a, summary") === null) {
      event.preventDefault();
      toggle();
    } else if (event.key === "ArrowLeft") step(-STEP_S);
    else if (event.key === "ArrowRight") step(STEP_S);
  });
  const settle = () => {
    if (calm.matches && frame) pause();
    button.hidden = calm.matches;
  };
  calm.addEventListener("change", settle);
  settle();
  controls.hidden = false;
  show(now);
  player.dataset.ready = "yes";
}

if (player !== null) {
  const answer = await fetch(player.dataset.track);
  if (answer.ok) start(await answer.json());
}

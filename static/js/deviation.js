// The deviation workshop: sliders beside the boxes, the eight points of the swing under hand and keys. Every picture
// and every number comes from the server; this page only asks for it again while values change.
const form = document.querySelector("#deviation-form");
const status = document.querySelector("#deviation-status");
const boxes = [...form.querySelectorAll("input[data-most]")];
const STEP_DEG = 0.5;
const LARGE_STEP_DEG = 5;
const PAUSE_MS = 150;
let asked = null;
let waiting = 0;

const french = document.documentElement.lang === "fr";
const size = (value) => String(Math.abs(value)).replace(".", french ? "," : ".");
const written = (value) => (value ? `${size(value)}° ${value < 0 ? (french ? "O" : "W") : "E"}` : "0°");
const read = (text) => {
  const plain = text.replace(/[\s°]/g, "").replace(",", ".").replace("\u2212", "-").toUpperCase();
  const value = Number(plain.replace(/[EWO]$/, ""));
  return Number.isFinite(value) ? (/[WO]$/.test(plain) ? -value : value) : 0;
};
const rounded = (value, most) => Math.max(-most, Math.min(most, Math.round(value / STEP_DEG) * STEP_DEG));

// Ask the server to work the form out, and put what it says in place of what stands here.
async function refresh(spanDeg) {
  asked?.abort();
  asked = new AbortController();
  const query = new URLSearchParams(new FormData(form));
  const address = new URL(form.action);
  address.search = query;
  const view = new URL(location.href).searchParams.get("view");
  if (view) address.searchParams.set("view", view);
  const wanted = new URL(address);
  if (spanDeg) wanted.searchParams.set("span_deg", spanDeg);
  try {
    const response = await fetch(wanted, { signal: asked.signal });
    if (!response.ok && response.status !== 422) throw new TypeError(response.statusText);
    const page = new DOMParser().parseFromString(await response.text(), "text/html");
    const refusal = page.querySelector(".refusal");
    status.textContent = refusal ? refusal.textContent : "";
    if (!refusal) replace(page, address);
  } catch (error) {
    if (error.name !== "AbortError") form.requestSubmit();
  }
}

function replace(page, address) {
  for (const part of document.querySelectorAll("[data-live]")) {
    const fresh = page.querySelector(`[data-live="${part.dataset.live}"]`);
    if (fresh) part.replaceChildren(...fresh.childNodes);
    else location.assign(address);
  }
  history.replaceState(null, "", address);
  for (const here of document.querySelectorAll("input[name=here]")) here.value = address.pathname + address.search;
  placeHandles();
}

function refreshSoon() {
  clearTimeout(waiting);
  waiting = setTimeout(refresh, PAUSE_MS);
}

// A range has no large step of its own that fits degrees: Page up and Page down are as on the points.
function addSlider(box) {
  const most = Number(box.dataset.most);
  const slider = document.createElement("input");
  Object.assign(slider, { type: "range", min: -most, max: most, step: STEP_DEG, value: read(box.value) });
  slider.setAttribute("aria-label", document.querySelector(`label[for="${box.id}"]`).textContent);
  const say = () => slider.setAttribute("aria-valuetext", written(Number(slider.value)));
  slider.addEventListener("keydown", (event) => {
    const by = { PageUp: LARGE_STEP_DEG, PageDown: -LARGE_STEP_DEG }[event.key];
    if (!by) return;
    event.preventDefault();
    slider.value = rounded(Number(slider.value) + by, most);
    slider.dispatchEvent(new Event("input"));
  });
  slider.addEventListener("input", () => {
    box.value = french ? slider.value.replace(".", ",") : slider.value;
    say();
    refreshSoon();
  });
  box.addEventListener("input", () => {
    slider.value = read(box.value);
    say();
  });
  say();
  box.after(slider);
}

const handles = [];

function frameOf(place) {
  return JSON.parse(place.querySelector("[data-frame]").dataset.frame);
}

// A point of the swing: dragged up and down, or moved by the arrow keys.
function addHandle(box, at, place) {
  const handle = document.createElement("div");
  Object.assign(handle, { className: "handle", tabIndex: 0, role: "slider" });
  handle.setAttribute("aria-label", document.querySelector(`label[for="${box.id}"]`).textContent);
  handle.setAttribute("aria-orientation", "vertical");
  const most = Number(box.dataset.most);
  handle.setAttribute("aria-valuemin", -most);
  handle.setAttribute("aria-valuemax", most);
  let held = null;
  const set = (value) => {
    box.value = french ? String(value).replace(".", ",") : String(value);
  };
  handle.addEventListener("keydown", (event) => {
    const large = LARGE_STEP_DEG;
    const by = { ArrowUp: STEP_DEG, ArrowRight: STEP_DEG, ArrowDown: -STEP_DEG, ArrowLeft: -STEP_DEG, PageUp: large, PageDown: -large };
    const ends = { Home: -most, End: most };
    if (event.ctrlKey || event.metaKey || event.altKey || !(event.key in by || event.key in ends)) return;
    event.preventDefault();
    set(event.key in ends ? ends[event.key] : rounded(read(box.value) + by[event.key], most));
    placeHandles();
    refreshSoon();
  });
  handle.addEventListener("pointerdown", (event) => {
    const frame = frameOf(place);
    held = { y: event.clientY, value: read(box.value), span: frame.span, px: (frame.degree * place.clientHeight) / 100 };
    handle.setPointerCapture(event.pointerId);
    event.preventDefault();
    handle.focus({ preventScroll: true });
  });
  handle.addEventListener("pointermove", (event) => {
    if (!held) return;
    const value = rounded(held.value + (held.y - event.clientY) / held.px, Math.min(most, held.span));
    if (value === read(box.value)) return;
    set(value);
    placeHandles();
    refresh(held.span);
  });
  const drop = () => {
    if (held) refresh();
    held = null;
  };
  handle.addEventListener("pointerup", drop);
  handle.addEventListener("pointercancel", drop);
  place.append(handle);
  handles.push({ handle, box, at, place });
}

function placeHandles() {
  for (const { handle, box, at, place } of handles) {
    const frame = frameOf(place);
    const value = read(box.value);
    handle.style.left = `${frame.across[at]}%`;
    handle.style.top = `${frame.middle - value * frame.degree}%`;
    handle.setAttribute("aria-valuenow", value);
    handle.setAttribute("aria-valuetext", written(value));
  }
}

const points = boxes.length === 8 && document.querySelector(".curve");
if (points) {
  for (const place of points.querySelectorAll(":scope > div")) boxes.forEach((box, at) => addHandle(box, at, place));
  placeHandles();
}
boxes.forEach(addSlider);
form.addEventListener("input", refreshSoon);

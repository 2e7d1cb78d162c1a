// A question by keyboard: 1 to 5 choose, arrows turn a heading, Enter answers and goes on. A drawing to pick on. A half-given answer
// outlives a change of language, and one that was sent a lost connection.
import { typing } from "./page.js";

const form = document.querySelector("#answer");
const next = document.querySelector("a.next");
const HALF_GIVEN = "half-given";
const AT_ONCE = "at-once";
const BOOKKEEPING = new Set(["csrf_token", "stamp", "sent", "item", "seed", AT_ONCE]);

const choose = (digit) => {
  const option = form.querySelectorAll(".options input")[digit - 1];
  if (option) {
    option.checked = option.type === "radio" || !option.checked;
    option.focus();
  }
};

const pressable = (target) => target.closest("a, button, summary, input, select, textarea") !== null;

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.repeat || event.defaultPrevented) return;
  if (form && /^[1-5]$/.test(event.key) && !typing(event.target)) choose(Number(event.key));
  if (event.key === "Enter" && (!pressable(event.target) || event.target.matches("[type=checkbox]"))) {
    event.preventDefault();
    if (form) form.requestSubmit();
    else if (next) next.click();
  }
});

const keep = () => {
  const fields = [...new FormData(form)].filter(([name, value]) => value && !BOOKKEEPING.has(name));
  sessionStorage.setItem(HALF_GIVEN, JSON.stringify({ stamp: form.dataset.stamp, fields }));
};

const fillIn = (name, value) => {
  for (const field of form.querySelectorAll(`[name="${CSS.escape(name)}"]`)) {
    if (field.type === "radio" || field.type === "checkbox") field.checked ||= field.value === value;
    else field.value ||= value;
  }
};

// Up and down turn the heading in a box by a degree, with Shift by ten; from an empty one they start at north.
const TURNS = { ArrowUp: 1, ArrowDown: -1 };
const turn = (event) => {
  const step = (TURNS[event.key] ?? 0) * (event.shiftKey ? 10 : 1);
  if (!step || !/^\d{0,3}$/.test(event.target.value)) return;
  event.preventDefault();
  const heading = (Number(event.target.value) + step + 720) % 360 || 360;
  event.target.value = String(heading).padStart(3, "0");
};

if (form) {
  const kept = JSON.parse(sessionStorage.getItem(HALF_GIVEN) ?? "{}");
  sessionStorage.removeItem(HALF_GIVEN);
  if (kept.stamp === form.dataset.stamp) kept.fields.forEach(([name, value]) => fillIn(name, value));
  form.addEventListener("submit", () => {
    form.append(Object.assign(document.createElement("input"), { type: "hidden", name: AT_ONCE, value: "1" }));
  });
  window.addEventListener("pagehide", keep);
  for (const box of form.querySelectorAll("input[data-kind=heading]")) {
    box.addEventListener("keydown", turn);
    box.addEventListener("change", () => {
      if (/^\d{1,3}$/.test(box.value)) box.value = box.value.padStart(3, "0");
    });
  }
}

// A ring on the drawing that may be picked chooses its option, and shows which one is chosen.
const spots = form && document.querySelector("#pick-hint") ? [...document.querySelectorAll("[data-pick]")] : [];
const showPicked = () => {
  const options = [...form.querySelectorAll(".options input")];
  for (const spot of spots) spot.classList.toggle("picked", Boolean(options[spot.dataset.pick - 1]?.checked));
};
if (spots.length) {
  document.querySelector("#pick-hint").hidden = false;
  for (const spot of spots) {
    spot.classList.add("pickable");
    spot.addEventListener("click", () => {
      form.querySelectorAll(".options input")[spot.dataset.pick - 1].checked = true;
      showPicked();
    });
  }
  form.addEventListener("change", showPicked);
  document.addEventListener("keydown", () => queueMicrotask(showPicked));
  showPicked();
}

// A verdict that comes with the answer gets its own address here, so that it can be loaded again.
const verdict = document.querySelector("#verdict");
if (verdict?.dataset.address) {
  history.replaceState(null, "", `${verdict.dataset.address}#verdict`);
  verdict.scrollIntoView();
}

// Just answered: to the verdict. Looked back on: the question comes first.
if (location.hash === "#verdict") verdict?.focus();

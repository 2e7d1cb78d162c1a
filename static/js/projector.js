// A set on a projector: the keys of a presenter go on and back, and a countdown runs where one is chosen.
import { countDown } from "./clock.js";
import { typing } from "./page.js";

const KEYS = { PageDown: "on", ArrowRight: "on", PageUp: "back", ArrowLeft: "back" };

document.addEventListener("keydown", (event) => {
  const way = document.querySelector(`[data-key="${KEYS[event.key]}"]`);
  if (!way || typing(event.target) || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  way.click();
});

const choice = document.querySelector(".countdown");
if (choice) {
  choice.hidden = false;
  choice.addEventListener("click", ({ target }) => {
    if (!target.dataset.seconds) return;
    const clock = document.querySelector(".clock");
    clock.dataset.seconds = target.dataset.seconds;
    choice.hidden = true;
    clock.parentElement.hidden = false;
    document.querySelector('[data-key="on"]').focus();
    countDown(clock);
  });
}

// A rehearsal's clock: just before its end it keeps what is chosen, and at its end it hands in, a moment later, so that
// by the server's clock the end has come.
import { countDown } from "./clock.js";

const clock = document.querySelector(".clock:not([data-paused])");
const answer = document.querySelector("#answer");
const handIn = () => setTimeout(() => document.querySelector("#end").requestSubmit(), 1000);
const keep = () => {
  if (!answer) return;
  const fields = new URLSearchParams(new FormData(answer));
  fields.set("to", "all");
  fetch(answer.action, { method: "POST", body: fields }).catch(() => {});
};

if (clock) countDown(clock, handIn, keep);

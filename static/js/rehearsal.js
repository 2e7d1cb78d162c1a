// A rehearsal's clock: at its end it hands in, a moment later, so that by the server's clock the end has come.
import { countDown } from "./clock.js";

const clock = document.querySelector(".clock:not([data-paused])");
if (clock) countDown(clock, () => setTimeout(() => document.querySelector("#end").requestSubmit(), 1000));

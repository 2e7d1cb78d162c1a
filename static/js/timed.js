// A drill by minutes, or a set with a time limit: what is left runs down on the page.
import { countDown } from "./clock.js";

const clock = document.querySelector(".clock");
if (clock) countDown(clock);

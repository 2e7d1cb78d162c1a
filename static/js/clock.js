// Counts down what the server said was left, says once that five minutes and one minute are, and tells of the last two
// seconds and of the end. The server's clock decides.
const TOLD_S = [300, 60];
const LAST_S = 2;
const pad = (number) => String(number).padStart(2, "0");

export function countDown(clock, ended = () => {}, atLast = () => {}) {
  const [shown, told] = clock.children;
  const began = performance.now();
  const whole = Number(clock.dataset.seconds);
  let before = whole;
  const tick = () => {
    const left = Math.max(0, Math.ceil(whole - (performance.now() - began) / 1000));
    shown.textContent = shown.dataset.words.replace("{time}", `${Math.floor(left / 60)}:${pad(left % 60)}`);
    for (const at of TOLD_S) if (before > at && left <= at) told.textContent = told.dataset[`at${at}`];
    if (before > LAST_S && left <= LAST_S) atLast();
    before = left;
    if (left > 0) return;
    clearInterval(timer);
    ended();
  };
  const timer = setInterval(tick, 1000);
  tick();
}

// A rehearsal's clock: counts down what the server said was left, and hands in at the end. The server's clock decides.
const shown = document.querySelector(".time-left");
const end = document.querySelector("#end");

if (shown && !shown.dataset.paused) {
  const began = performance.now();
  const whole = Number(shown.dataset.seconds);
  const pad = (number) => String(number).padStart(2, "0");
  const tick = () => {
    const left = Math.max(0, Math.ceil(whole - (performance.now() - began) / 1000));
    shown.textContent = shown.dataset.words.replace("{time}", `${Math.floor(left / 60)}:${pad(left % 60)}`);
    if (left > 0) return;
    clearInterval(timer);
    // A moment later, so that by the server's clock the end has come.
    setTimeout(() => end.requestSubmit(), 1000);
  };
  const timer = setInterval(tick, 1000);
  tick();
}

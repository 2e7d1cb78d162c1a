// On every page: the question mark lists the keys, and a print button works where there is JavaScript.
export const typing = (target) => target.closest("input:not([type=radio], [type=checkbox]), textarea, select") !== null;

document.addEventListener("keydown", (event) => {
  const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if (event.key === "?" && plain && !typing(event.target)) {
    document.querySelector(".keys-link").click();
  }
});

for (const button of document.querySelectorAll("button.print")) {
  button.hidden = false;
  button.addEventListener("click", () => window.print());
}

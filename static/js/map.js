// The map: a press goes there, arrows move the cross, Enter goes where it stands.
const frame = document.querySelector("#map");
const form = document.querySelector("#map-form");

if (frame) {
  const svg = frame.querySelector("svg");
  const cross = frame.querySelector("#cross");
  const words = document.querySelector("#cross-words");
  const boxes = [form.querySelector("#latitude_deg"), form.querySelector("#longitude_deg")];
  const WAYS = { ArrowUp: [1, 0], ArrowDown: [-1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] };
  const at = cross.transform.baseVal[0].matrix;
  let [latitude, longitude] = [(180 - at.f) / 2, (at.e - 360) / 2];

  // On a phone the map is wider than the screen: show where the cross stands.
  const show = () => {
    const spot = (svg.clientWidth * (longitude + 180)) / 360;
    const [from, to] = [frame.scrollLeft, frame.scrollLeft + frame.clientWidth];
    if (spot < from + 20 || spot > to - 20) frame.scrollLeft = spot - frame.clientWidth / 2;
  };

  const place = (north, east) => {
    latitude = Math.round(Math.min(90, Math.max(-90, north)) * 10) / 10;
    longitude = Math.round((((((east + 180) % 360) + 360) % 360) - 180) * 10) / 10;
    cross.setAttribute("transform", `translate(${360 + 2 * longitude} ${180 - 2 * latitude})`);
    [boxes[0].value, boxes[1].value] = [latitude, longitude];
    words.textContent = boxes.map((box) => box.value).join(", ");
    show();
  };

  show();
  svg.addEventListener("click", (event) => {
    const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    place((180 - spot.y) / 2, (spot.x - 360) / 2);
    form.requestSubmit();
  });

  frame.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const way = WAYS[event.key];
    if (way) {
      event.preventDefault();
      const by = event.shiftKey ? 10 : 1;
      place(latitude + by * way[0], longitude + by * way[1]);
    } else if (event.key === "Enter") {
      event.preventDefault();
      place(latitude, longitude);
      form.requestSubmit();
    }
  });

  for (const box of boxes) {
    box.addEventListener("change", () => {
      const [north, east] = boxes.map((each) => Number(each.value.replace(",", ".")));
      if (boxes.every((each) => each.value.trim()) && !Number.isNaN(north + east)) place(north, east);
    });
  }
}

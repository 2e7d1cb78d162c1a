// The home place: what one fills in says which of the two ways is meant.
const pick = (value) => {
  document.querySelector(`input[name=where][value=${value}]`).checked = true;
};

document.querySelector("#place_id").addEventListener("change", () => pick("listed"));
for (const id of ["latitude_deg", "longitude_deg"]) {
  document.getElementById(id).addEventListener("input", () => pick("typed"));
}

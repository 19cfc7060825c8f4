// Keeps what is ticked and written on this phone, tells times of day once the arrival is known, and saves a table of it.
"use strict";
const sheet = document.body.dataset.sheet;
const fields = [...document.querySelectorAll("input[name], textarea[name]")];
let kept = {};
try { kept = JSON.parse(localStorage.getItem(sheet)) || {}; } catch { kept = {}; }

const value = (field) => (field.type === "checkbox" ? field.checked : field.value);

const keep = () => {
  for (const field of fields) kept[field.name] = value(field);
  try { localStorage.setItem(sheet, JSON.stringify(kept)); } catch { /* a private window keeps nothing */ }
};

const show = () => {
  for (const card of document.querySelectorAll(".card[data-stop]")) {
    card.classList.toggle("finished", card.querySelector("input[name$='-done']").checked);
  }
  const arrived = document.querySelector("input[name=arrived]").value;
  for (const time of document.querySelectorAll("time[data-after]")) {
    const [hours, minutes] = (arrived || "0:0").split(":").map(Number);
    const at = hours * 60 + minutes + Math.round(time.dataset.after / 60);
    const clock = `${Math.floor(at / 60) % 24}:${String(at % 60).padStart(2, "0")}`;
    time.textContent = arrived ? ` (${clock})` : "";
  }
};

for (const field of fields) {
  if (field.name in kept) {
    if (field.type === "checkbox") field.checked = kept[field.name] === true;
    else field.value = String(kept[field.name]);
  }
  field.addEventListener("input", () => { keep(); show(); });
}
show();

// A cell that a spreadsheet could take for a formula is written as text.
const cell = (text) => `"${(/^[=+\-@\t]/.test(text) ? `'${text}` : text).replaceAll('"', '""')}"`;

document.querySelector("#save").addEventListener("click", () => {
  const rows = [["what", "field", "value"]];
  for (const field of fields) {
    const what = field.closest("[data-name]")?.dataset.name ?? "visit";
    rows.push([what, field.dataset.says, field.type === "checkbox" ? (field.checked ? "yes" : "no") : field.value]);
  }
  const table = "\ufeff" + rows.map((row) => row.map(cell).join(",")).join("\r\n") + "\r\n";
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([table], { type: "text/csv" }));
  link.download = `${sheet}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
});

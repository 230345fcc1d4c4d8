// The entry of a printed pick: says how many lines stay as printed, and which part a line number is. Works without this.
(() => {
  const said = document.querySelector("[data-as-printed]");
  if (!said) return;
  const lines = Number(said.dataset.lines);
  const names = new Map([...document.querySelectorAll("#printed-lines option")].map((o) => [o.value, o.textContent]));
  const numbers = [...document.querySelectorAll("input[name^=n_]")];
  const look = () => {
    const differing = new Set(numbers.map((field) => field.value.trim()).filter((n) => names.has(n)));
    said.textContent = `That is ${lines - differing.size} of ${lines} lines.`;
    for (const field of numbers) {
      const cell = field.closest("tr").querySelector("[data-part]");
      if (cell && field.value !== field.defaultValue) cell.textContent = names.get(field.value.trim()) || "no such line on this sheet";
    }
  };
  for (const field of numbers) field.addEventListener("input", look);
  look();
})();

"use strict";
// Every head of the table becomes a button that sorts by its column; a second press turns the order round.
(() => {
  const said = document.getElementById("sorted-said");
  for (const table of document.querySelectorAll("#rows table")) {
    const body = table.tBodies[0];
    const heads = [...table.tHead.rows[0].cells];
    heads.forEach((head, place) => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = head.textContent;
      head.replaceChildren(button);
      button.addEventListener("click", () => {
        const down = head.getAttribute("aria-sort") === "ascending";
        for (const other of heads) other.removeAttribute("aria-sort");
        head.setAttribute("aria-sort", down ? "descending" : "ascending");
        body.append(...[...body.rows].sort((one, other) => order(one, other, place, down)));
        said.textContent = `Sorted by ${button.textContent}, ${down ? "largest" : "smallest"} first.`;
      });
    });
  }

  function order(one, other, place, down) {
    const [a, b] = [one, other].map((row) => row.cells[place].textContent.trim());
    const missing = [a, b].map((text) => text === "" || text === "-");
    if (missing[0] || missing[1]) return missing[0] - missing[1];
    const figures = [a, b].map((text) => Number.parseFloat(text));
    const both = figures.every((figure) => !Number.isNaN(figure));
    const sign = both ? figures[0] - figures[1] : a.localeCompare(b, "en");
    return down ? -sign : sign;
  }
})();

/* SPDX-License-Identifier: MIT
   Filters and sorts the tables of courses. Without it the tables are whole, the most urgent course first. */
"use strict";
(function () {
  const tables = Array.from(document.querySelectorAll("table.courses"));
  const bar = document.querySelector("p.filter");
  if (tables.length === 0 || !bar) return;

  const label = document.createElement("label");
  label.textContent = "Show courses with ";
  const field = document.createElement("input");
  field.type = "search";
  label.append(field);
  const found = document.createElement("span");
  found.setAttribute("role", "status");
  bar.append(label, found);

  function rows(table) {
    return Array.from(table.tBodies[0].rows);
  }

  field.addEventListener("input", function () {
    const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    tables.forEach(function (table) {
      rows(table).forEach(function (row) {
        const text = row.textContent.toLowerCase();
        row.hidden = !words.every((word) => text.includes(word));
        if (!row.hidden) shown += 1;
      });
    });
    found.textContent = words.length > 0 ? " " + shown + " shown" : "";
  });

  function value(row, column) {
    const cell = row.cells[column];
    return cell.dataset.sort === undefined ? cell.textContent : Number(cell.dataset.sort);
  }

  function sort(table, column, downward) {
    const sorted = rows(table).sort(function (a, b) {
      const left = value(a, column);
      const right = value(b, column);
      const order = typeof left === "number" ? left - right : left.localeCompare(right);
      return downward ? -order : order;
    });
    sorted.forEach((row) => table.tBodies[0].append(row));
  }

  tables.forEach(function (table) {
    const heads = Array.from(table.tHead.rows[0].cells);
    heads.forEach(function (head, column) {
      if (!head.classList.contains("sorts")) return;
      const button = document.createElement("button");
      button.type = "button";
      button.append(...head.childNodes);
      head.append(button);
      button.addEventListener("click", function () {
        const downward = head.getAttribute("aria-sort") === "ascending";
        heads.forEach((other) => other.removeAttribute("aria-sort"));
        head.setAttribute("aria-sort", downward ? "descending" : "ascending");
        sort(table, column, downward);
      });
    });
  });
})();

/* SPDX-License-Identifier: MIT
   Filters and sorts the tables of courses. Without it the tables are whole, the most urgent course first. */
"use strict";
/* Takes up the tables that stand on the page; called once for each time they are written. */
function takeUpCourseTables() {
  const tables = Array.from(document.querySelectorAll("table.courses"));
  const bar = document.querySelector("p.filter");
  if (tables.length === 0 || !bar) return;

  function rows(table) {
    return Array.from(table.tBodies[0].rows);
  }
  const urgency = new Map(tables.map((table) => [table, rows(table)]));

  function labeled(words, field) {
    const label = document.createElement("label");
    label.append(words + " ", field);
    bar.append(label, " ");
    return field;
  }

  function choices(pairs) {
    const select = document.createElement("select");
    select.append(...pairs.map(([value, words]) => new Option(words, value)));
    return select;
  }

  const field = labeled("Show courses with", document.createElement("input"));
  field.type = "search";
  const kinds = new Set(Array.from(document.querySelectorAll("table.courses td.kind"), (cell) => cell.textContent).filter(Boolean));
  const kind = labeled("and", choices([["", "any kind"], ...Array.from(kinds, (name) => [name, name])]));
  const order = labeled("in order of", choices([["", "urgency"], ["name", "name"], ["best", "best weeks"]]));
  const found = document.createElement("span");
  found.setAttribute("role", "status");
  bar.append(found);

  function filter() {
    const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    tables.forEach(function (table) {
      rows(table).forEach(function (row) {
        const text = row.textContent.toLowerCase();
        const wanted = kind.value === "" || row.querySelector("td.kind").textContent === kind.value;
        row.hidden = !(wanted && words.every((word) => text.includes(word)));
        if (!row.hidden) shown += 1;
      });
    });
    found.textContent = words.length > 0 || kind.value !== "" ? " " + shown + " shown" : "";
  }
  field.addEventListener("input", filter);
  kind.addEventListener("change", filter);

  function value(row, column) {
    const cell = row.cells[column];
    return cell.dataset.sort === undefined ? cell.textContent : Number(cell.dataset.sort);
  }

  function heads(table) {
    return Array.from(table.tHead.rows[0].cells);
  }

  function put(table, sorted, head, downward) {
    heads(table).forEach((other) => other.removeAttribute("aria-sort"));
    if (head) head.setAttribute("aria-sort", downward ? "descending" : "ascending");
    sorted.forEach((row) => table.tBodies[0].append(row));
  }

  function sort(table, head, downward) {
    const column = heads(table).indexOf(head);
    const sorted = rows(table).sort(function (a, b) {
      const left = value(a, column);
      const right = value(b, column);
      const upward = typeof left === "number" ? left - right : left.localeCompare(right);
      return downward ? -upward : upward;
    });
    put(table, sorted, head, downward);
  }

  order.addEventListener("change", function () {
    tables.forEach(function (table) {
      const head = order.value === "best" ? table.tHead.querySelector("th.best") : heads(table)[0];
      if (order.value === "") put(table, urgency.get(table));
      else sort(table, head, false);
    });
  });

  tables.forEach(function (table) {
    heads(table).forEach(function (head) {
      if (!head.classList.contains("sorts")) return;
      const button = document.createElement("button");
      button.type = "button";
      button.append(...head.childNodes);
      head.append(button);
      button.addEventListener("click", () => sort(table, head, head.getAttribute("aria-sort") === "ascending"));
    });
  });
}
takeUpCourseTables();

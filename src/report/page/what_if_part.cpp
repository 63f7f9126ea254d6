// SPDX-License-Identifier: MIT
#include "report/page/what_if_part.hpp"

#include <fmt/format.h>

#include "advice/comparison/changed_answer.hpp"
#include "report/page/page_parts.hpp"
#include "report/page/plate.hpp"

namespace soilclock::report {

namespace {

using advice::TargetAnswer;

/// The first column names the figures, the second is the answer as it is; what differs from that stands out.
void write_figures(Markup& page, const TargetAnswer& as_read, const std::vector<AskedCase>& cases) {
  std::vector<std::string_view> headings{"", "Now"};
  std::vector<std::vector<advice::Figure>> columns;
  for (const AskedCase& asked : cases) {
    headings.push_back(asked.name);
    columns.push_back(advice::compared_figures(*asked.target));
  }
  start_table(page, "The figures side by side", "what-if", headings);
  const std::vector<advice::Figure> now = advice::compared_figures(as_read);
  for (std::size_t row = 0; row < now.size(); ++row) {
    page.open("tr");
    page.element("th", now[row].label, {{"scope", "row"}});
    page.element("td", now[row].text);
    for (const auto& column : columns)
      page.element("td", column[row].text, {{column[row].text == now[row].text ? "" : "class", "changed"}});
    page.close();
  }
  end_table(page);
}

void write_season(Markup& page, const TargetAnswer& as_read, const AskedCase& asked,
                  const std::string& heading, const std::string& id) {
  if (!has_plate(*asked.target)) return;
  page.open("div", {{"class", "season"}});
  page.element("h3", heading);
  for (const auto& [form, word] : {std::pair{PlateForm::wide, "wide"}, std::pair{PlateForm::phone, "phone"}})
    page.add(season_plate(*asked.site, *asked.target, form,
                          fmt::format("{}-{}-{}", asked.target->target, id, word), &as_read));
  page.close();
}

std::string refusal(const TargetAnswer& target) {
  Markup page;
  page.element("p", describe(*target.refusal) + ".", {{"class", "problem"}});
  return page.written();
}

}  // namespace

std::string what_if_part(const TargetAnswer& as_read, const AskedCase& asked, int weeks_later) {
  if (asked.target->refusal) return refusal(*asked.target);
  if (as_read.refusal) return refusal(as_read);
  Markup page;
  page.open("ul", {{"class", "changes"}});
  for (const std::string& sentence : advice::what_changed(as_read, *asked.target, weeks_later))
    page.element("li", sentence);
  page.close();
  write_figures(page, as_read, {asked});
  write_season(page, as_read, asked, "The season in that case", "asked");
  return page.written();
}

std::string cases_part(const TargetAnswer& as_read, const std::vector<AskedCase>& cases) {
  if (as_read.refusal) return refusal(as_read);
  for (const AskedCase& asked : cases) {
    if (asked.target->refusal) return refusal(*asked.target);
  }
  Markup page;
  write_figures(page, as_read, cases);
  for (std::size_t i = 0; i < cases.size(); ++i)
    write_season(page, as_read, cases[i], "The season with " + cases[i].name, fmt::format("case-{}", i + 1));
  return page.written();
}

}  // namespace soilclock::report

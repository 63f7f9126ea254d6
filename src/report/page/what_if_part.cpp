// SPDX-License-Identifier: MIT
#include "report/page/what_if_part.hpp"

#include "advice/comparison/changed_answer.hpp"
#include "report/page/page_parts.hpp"
#include "report/page/plate.hpp"

namespace soilclock::report {

namespace {

void write_figures(Markup& page, const advice::TargetAnswer& as_read, const advice::TargetAnswer& asked) {
  start_table(page, "The figures side by side", "what-if", {"", "Now", "What if"});
  for (const advice::FigurePair& pair : advice::figure_pairs(as_read, asked)) {
    page.open("tr", {{pair.as_read == pair.asked ? "" : "class", "changed"}});
    page.element("th", pair.label, {{"scope", "row"}});
    page.element("td", pair.as_read);
    page.element("td", pair.asked);
    page.close();
  }
  end_table(page);
}

void write_season(Markup& page, const advice::SiteAnswer& site, const advice::TargetAnswer& asked) {
  if (!has_plate(asked)) return;
  page.open("div", {{"class", "season"}});
  page.element("h3", "The season in that case");
  page.add(season_plate(site, asked, PlateForm::wide, asked.target + "-asked-wide"));
  page.add(season_plate(site, asked, PlateForm::phone, asked.target + "-asked-phone"));
  page.close();
}

}  // namespace

std::string what_if_part(const advice::TargetAnswer& as_read, const advice::SiteAnswer& asked_site,
                         const advice::TargetAnswer& asked, int weeks_later) {
  Markup page;
  if (as_read.refusal || asked.refusal) {
    page.element("p", describe(asked.refusal ? *asked.refusal : *as_read.refusal) + ".",
                 {{"class", "problem"}});
    return page.written();
  }
  page.open("ul", {{"class", "changes"}});
  for (const std::string& sentence : advice::what_changed(as_read, asked, weeks_later))
    page.element("li", sentence);
  page.close();
  write_figures(page, as_read, asked);
  write_season(page, asked_site, asked);
  return page.written();
}

}  // namespace soilclock::report

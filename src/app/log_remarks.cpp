// SPDX-License-Identifier: MIT
#include "app/log_remarks.hpp"

#include <algorithm>
#include <set>

#include "core/text.hpp"
#include "site/strip_checks.hpp"

namespace soilclock::app {

namespace {

using records::Record;

std::string suggestion(const std::optional<std::string>& near) {
  return near ? "; did you mean '" + *near + "'?" : "";
}

/// A target nobody knows is noted as it was given, since people count other weeds too.
void say_target(const Record& record, const advice::Catalogue& catalogue, std::vector<std::string>& said) {
  std::string target;
  if (const auto* count = std::get_if<records::ScoutingCount>(&record)) target = count->target;
  if (const auto* seen = std::get_if<records::FirstSeen>(&record)) target = seen->target;
  if (const auto* strip = std::get_if<records::StripCheck>(&record)) target = strip->target;
  if (const auto* application = std::get_if<records::Application>(&record)) target = application->target;
  if (target.empty() || catalogue.find_target(target) != nullptr) return;
  std::vector<std::string> known;
  for (const auto& [code, entry] : catalogue.targets) {
    known.push_back(code);
    known.insert(known.end(), entry.names.begin(), entry.names.end());
  }
  said.push_back("the target '" + target + "' is not known to advise" + suggestion(nearest(target, known)));
}

void say_actives(const Record& record, const advice::Catalogue& catalogue, std::vector<std::string>& said) {
  const auto* application = std::get_if<records::Application>(&record);
  if (application == nullptr) return;
  for (const std::string& active : application->actives) {
    if (catalogue.actives.find(active) != nullptr) continue;
    said.push_back("the active '" + active + "' is not in the list of actives, so its group is not known" +
                   suggestion(nearest(active, catalogue.actives.names())) + " (note the group with --group)");
  }
}

void say_site(const Record& record, const std::set<std::string>& known, std::vector<std::string>& said) {
  const std::string& site = records::site_of(record);
  if (known.empty() || known.contains(site)) return;
  if (const auto near = nearest(site, {known.begin(), known.end()}))
    said.push_back("this is the first entry of site '" + site + "'; there are entries of '" + *near + "'");
}

}  // namespace

std::vector<std::string> remarks_on(const std::vector<Record>& noted,
                                    const std::vector<records::Entry>& before, Day today,
                                    const advice::Catalogue& catalogue) {
  std::set<std::string> sites;
  for (const records::Entry& entry : before) sites.insert(records::site_of(entry.record));
  std::vector<std::string> said;
  for (const Record& record : noted) {
    if (records::date_of(record) > today)
      said.push_back("the date " + iso(records::date_of(record)) + " is still to come");
    say_actives(record, catalogue, said);
    say_target(record, catalogue, said);
    say_site(record, sites, said);
    if (const auto problem = strip_problem(record, catalogue.scouting.counts))
      said.push_back("a strip check shows no control: " + problem->what);
  }
  std::vector<std::string> once;
  for (const std::string& text : said) {
    if (std::find(once.begin(), once.end(), text) == once.end()) once.push_back(text);
  }
  return once;
}

}  // namespace soilclock::app

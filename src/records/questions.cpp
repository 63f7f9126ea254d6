// SPDX-License-Identifier: MIT
#include "records/questions.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soilclock::records {

std::optional<std::string> same_site_written_otherwise(const std::string& site,
                                                       const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), site) != known.end()) return std::nullopt;
  const auto same = std::find_if(known.begin(), known.end(),
                                 [&](const std::string& id) { return bare_name(id) == bare_name(site); });
  return same == known.end() ? std::nullopt : std::optional{*same};
}

std::optional<Problem> question_about_site(const std::string& site, const std::vector<std::string>& known) {
  const auto same = same_site_written_otherwise(site, known);
  if (!same) return std::nullopt;
  return Problem{Family::request,
                 "no site has this id, but one differs only in case or spacing",
                 {},
                 site,
                 "'" + *same + "', as it stands in the records",
                 "use that id, or add --new-site if this is another site"};
}

std::optional<Problem> question_about_count(const Record& record, const std::vector<Entry>& held) {
  const auto* count = std::get_if<ScoutingCount>(&record);
  if (count == nullptr) return std::nullopt;
  for (const Entry& entry : held) {
    const auto* other = std::get_if<ScoutingCount>(&entry.record);
    const bool same = other != nullptr && other->site == count->site && other->target == count->target &&
                      other->date == count->date && bare_name(other->area) == bare_name(count->area);
    if (!same) continue;
    return Problem{
        Family::request,
        fmt::format("entry {} is a count of {} at '{}'{} on {} already", entry.id, count->target, count->site,
                    count->area.empty() ? "" : ", " + count->area, soilclock::iso(*count->date)),
        {},
        {},
        {},
        fmt::format(
            "correct it with 'soilclock log correct {} --count ...', or add this one as well with --again",
            entry.id)};
  }
  return std::nullopt;
}

std::optional<Problem> question_about(const Record& record, const std::vector<Entry>& held,
                                      const std::vector<std::string>& sites, const Answered& answered) {
  if (!answered.new_site) {
    if (auto question = question_about_site(site_of(record), sites)) return question;
  }
  return answered.again ? std::nullopt : question_about_count(record, held);
}

}  // namespace soilclock::records

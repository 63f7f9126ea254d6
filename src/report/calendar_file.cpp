// SPDX-License-Identifier: MIT
#include "report/calendar_file.hpp"

#include <fmt/format.h>

#include <cmath>

#include "advice/answer/dated_events.hpp"
#include "advice/answer/words.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/file_names.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// A content line of so many octets, its line end not counted; RFC 5545, 3.1.
constexpr std::size_t longest_line = 75;

/// Folds a line between letters and ends it.
std::string folded(const std::string& line) {
  std::string text;
  std::size_t used = 0;
  for (std::size_t at = 0; at < line.size();) {
    std::size_t next = at + 1;
    while (next < line.size() && (static_cast<unsigned char>(line[next]) & 0xC0) == 0x80) ++next;
    if (used + (next - at) > longest_line) {
      text += "\r\n ";
      used = 1;
    }
    text += line.substr(at, next - at);
    used += next - at;
    at = next;
  }
  return text + "\r\n";
}

/// A text value: no control characters, and what has a meaning of its own behind a backslash.
std::string calendar_text(const std::string& text) {
  std::string value;
  for (const char c : printable(text, text.size())) {
    if (c == '\\' || c == ';' || c == ',') value += '\\';
    value += c;
  }
  return value;
}

std::string compact(Day day) {
  const CivilDate date = civil(day);
  return fmt::format("{:04}{:02}{:02}", date.year, date.month, date.day);
}

/// One all-day event in words.
struct Event {
  advice::DatedEvent dated;
  std::string summary;
  std::string description;
  bool canceled = false;
};

class Calendar {
 public:
  explicit Calendar(const AnswerFrame& frame)
      : care_{fmt::format("{}", fmt::join(frame.brief_cautions, " "))} {}

  void add(const SiteAnswer& site, const TargetAnswer& target, const Event& event) {
    line("BEGIN:VEVENT");
    line(fmt::format("UID:{}.{}.{}.{}@soilclock", safe_file_name(site.site), target.target,
                     compact(target.season_start), advice::name(event.dated.what)));
    line("DTSTAMP:" + compact(site.on) + "T000000Z");
    line(fmt::format("SEQUENCE:{}", site.on.time_since_epoch().count()));
    line("DTSTART;VALUE=DATE:" + compact(event.dated.days.begin()));
    line("DTEND;VALUE=DATE:" + compact(event.dated.days.end()));
    line("SUMMARY:" + calendar_text(event.summary));
    line("DESCRIPTION:" + calendar_text(event.description) +
         (care_.empty() ? "" : "\\n" + calendar_text(care_)));
    line("LOCATION:" + calendar_text(site.name));
    if (std::isfinite(site.place.latitude_deg) && std::isfinite(site.place.longitude_deg))
      line(fmt::format("GEO:{};{}", number_text(site.place.latitude_deg, 6),
                       number_text(site.place.longitude_deg, 6)));
    line("TRANSP:TRANSPARENT");
    if (event.canceled) line("STATUS:CANCELLED");
    line("END:VEVENT");
  }

  std::string text() const {
    if (events_.empty()) return "";
    return folded("BEGIN:VCALENDAR") + folded("VERSION:2.0") + folded("PRODID:-//soilclock//soilclock//EN") +
           folded("METHOD:PUBLISH") + events_ + folded("END:VCALENDAR");
  }

 private:
  void line(const std::string& text) { events_ += folded(text); }

  std::string care_;
  std::string events_;
};

/// What an event is called and what is said about it.
Event worded(const SiteAnswer& site, const TargetAnswer& target, const advice::DatedEvent& dated) {
  const advice::Decision& decision = target.decision;
  const bool second = target.after.has_value();
  const std::string start = fmt::format("{}, {}: ", site.name, lowered(target.title));
  const std::string kind = decision.kind ? advice::kind_words(*decision.kind, second) : "";
  switch (dated.what) {
    case advice::EventKind::best_weeks:
      return {dated, start + "best weeks for " + kind, target.headline};
    case advice::EventKind::good_through:
      return {dated, start + "last good week for " + kind, target.headline};
    case advice::EventKind::then:
      return {dated, start + "from this week on " + advice::kind_words(decision.then->kind, second),
              "Expected control " + advice::control_words(decision.then->control) + "."};
    case advice::EventKind::second_pre:
      return {dated, start + "second pre", target.second_pre->why};
    case advice::EventKind::next_look:
      break;
  }
  return {dated, start + "next look", target.next_look->why};
}

/// An event that an earlier report announced and this answer does not have; programs that show canceled
/// events find it said in the name as well.
Event taken_back(const SiteAnswer& site, const TargetAnswer& target, const advice::DatedEvent& dated) {
  return {dated, fmt::format("{}, {}: no longer planned", site.name, lowered(target.title)), target.headline,
          true};
}

}  // namespace

std::string calendar_file(std::span<const SiteAnswer> sites, const AnswerFrame& frame) {
  Calendar calendar{frame};
  for (const SiteAnswer& site : sites) {
    for (const TargetAnswer& target : site.targets) {
      for (const advice::DatedEvent& event : advice::dated_events(target))
        calendar.add(site, target, worded(site, target, event));
      for (const advice::DatedEvent& event : target.withdrawn)
        calendar.add(site, target, taken_back(site, target, event));
    }
  }
  return calendar.text();
}

}  // namespace soilclock::report

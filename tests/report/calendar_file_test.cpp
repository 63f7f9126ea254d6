// SPDX-License-Identifier: MIT
// The calendar: folding, escaping and stable identity of its events. Readers of others read it in
// tests/tools/renderings_are_read.py.
#include "report/calendar_file.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <sstream>

#include "made_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const report::AnswerFrame calendar_frame = frame_with({"The label is the law; scout, then decide."});

std::string calendar_of(const advice::SiteAnswer& site) {
  return report::calendar_file({&site, 1}, calendar_frame);
}

/// Content lines, unfolded.
std::vector<std::string> unfolded_lines(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) {
    REQUIRE(line.ends_with('\r'));
    line.pop_back();
    CHECK(line.size() <= 75);
    if (line.starts_with(' '))
      lines.back() += line.substr(1);
    else
      lines.push_back(line);
  }
  return lines;
}

std::vector<std::string> values_of(const std::string& text, const std::string& name) {
  std::vector<std::string> values;
  for (const std::string& line : unfolded_lines(text)) {
    if (line.starts_with(name)) values.push_back(line.substr(name.size()));
  }
  return values;
}

}  // namespace

TEST_CASE("the best weeks are one event from their Monday to the Monday after their last") {
  const std::string text = calendar_of(course("Copper Heron", {falling()}));
  const auto lines = unfolded_lines(text);
  CHECK(lines.front() == "BEGIN:VCALENDAR");
  CHECK(lines.back() == "END:VCALENDAR");
  CHECK(text.ends_with("\r\n"));
  const advice::MondaySpan best = *falling().decision.best_range;
  const auto starts = values_of(text, "DTSTART;VALUE=DATE:");
  const auto ends = values_of(text, "DTEND;VALUE=DATE:");
  REQUIRE(!starts.empty());
  REQUIRE(starts.size() == ends.size());
  CHECK(best.first == make_day(2026, 10, 12));
  CHECK(starts.front() == "20261012");
  CHECK(ends.front() == "20261019");
  CHECK(values_of(text, "DTSTAMP:").front() == "20261015T000000Z");
  CHECK(values_of(text, "SUMMARY:").front() ==
        "Copper Heron\\, annual bluegrass: best weeks for pre and post together");
  CHECK(holds(values_of(text, "DESCRIPTION:").front(), "\\nThe label is the law\\; scout\\, then decide."));
}

TEST_CASE("the same answer gives the same bytes, a later one the same events with a higher sequence") {
  advice::SiteAnswer site = course("Copper Heron", {falling(), early()});
  site.targets[1].target = "DIGIS";
  const std::string first = calendar_of(site);
  CHECK(first == calendar_of(site));
  site.on += Days{4};
  site.targets[0].decision.best_range->last += Days{7};
  const std::string later = calendar_of(site);
  const auto uids = values_of(first, "UID:");
  CHECK(uids == values_of(later, "UID:"));
  CHECK(std::set<std::string>(uids.begin(), uids.end()).size() == uids.size());
  const auto sequence = [](const std::string& text) {
    return std::stol(values_of(text, "SEQUENCE:").front());
  };
  CHECK(sequence(later) == sequence(first) + 4);
  advice::SiteAnswer next_year = site;
  for (advice::TargetAnswer& target : next_year.targets) target.season_start += Days{365};
  for (const std::string& uid : values_of(calendar_of(next_year), "UID:"))
    CHECK(std::find(uids.begin(), uids.end(), uid) == uids.end());
}

TEST_CASE("every date of an answer has its event, and an answer without one makes no calendar") {
  advice::SiteAnswer site = course("Copper Heron", {falling()});
  site.targets[0].second_pre = advice::DatedReason{make_day(2026, 12, 14), "the residual is spent"};
  const std::string text = calendar_of(site);
  std::vector<std::string> kinds;
  for (const std::string& uid : values_of(text, "UID:")) {
    const std::string front = "copper-heron";
    CHECK(holds(uid, ".POAAN.20260621."));
    kinds.push_back(uid.substr(uid.find(".20260621.") + 10));
  }
  std::vector<std::string> expected{"best-weeks@soilclock", "good-through@soilclock"};
  if (site.targets[0].decision.then) expected.emplace_back("then@soilclock");
  expected.emplace_back("second-pre@soilclock");
  if (site.targets[0].next_look) expected.emplace_back("next-look@soilclock");
  CHECK(kinds == expected);
  CHECK(holds(text, "DTSTART;VALUE=DATE:20261214"));
  advice::SiteAnswer refused = course("Copper Heron", {falling()});
  refused.targets[0].refusal = Problem{Family::data, "a hole", {}, {}, {}, {}};
  CHECK(calendar_of(refused).empty());
  CHECK(report::calendar_file({}, calendar_frame).empty());
}

TEST_CASE("an event that no longer holds is canceled under its name, and nothing else is") {
  advice::SiteAnswer site = course("Copper Heron", {falling()});
  CHECK(values_of(calendar_of(site), "STATUS:").empty());
  site.targets[0].withdrawn = {
      {advice::EventKind::second_pre, {make_day(2026, 12, 14), make_day(2026, 12, 15)}}};
  const std::string text = calendar_of(site);
  const auto uids = values_of(text, "UID:");
  CHECK(std::set<std::string>(uids.begin(), uids.end()).size() == uids.size());
  CHECK(uids.back().ends_with(".POAAN.20260621.second-pre@soilclock"));
  CHECK(values_of(text, "STATUS:") == std::vector<std::string>{"CANCELLED"});
  CHECK(values_of(text, "DTSTART;VALUE=DATE:").back() == "20261214");
  CHECK(values_of(text, "SUMMARY:").back() == "Copper Heron\\, annual bluegrass: no longer planned");
  CHECK(unfolded_lines(text)[unfolded_lines(text).size() - 3] == "STATUS:CANCELLED");
  site.targets = {finished()};
  CHECK(values_of(calendar_of(site), "STATUS:").empty());
  site.targets[0].withdrawn = {
      {advice::EventKind::best_weeks, {make_day(2026, 11, 2), make_day(2026, 11, 16)}}};
  CHECK(values_of(calendar_of(site), "STATUS:") == std::vector<std::string>{"CANCELLED"});
}

TEST_CASE("lines are folded between letters, never within one") {
  advice::TargetAnswer target = falling();
  for (int i = 0; i < 12; ++i) target.headline += " S\u00f6hne \u65e5\u672c\U0001F331";
  const std::string text = calendar_of(course(strange_name, {target}));
  CHECK(holds(values_of(text, "DESCRIPTION:").front(), target.headline.substr(target.headline.size() - 60)));
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) {
    const std::size_t at = line.starts_with(' ') ? 1 : 0;
    CHECK((static_cast<unsigned char>(line[at]) & 0xC0) != 0x80);  // no line goes on inside a letter
  }
}

TEST_CASE("nothing a name holds ends a line or a value") {
  const std::string text = calendar_of(course("a\r\nEND:VCALENDAR\nb;c,d\\e", {falling()}));
  CHECK(values_of(text, "END:VCALENDAR").size() == 1);
  CHECK(values_of(text, "LOCATION:").front() == "a??END:VCALENDAR?b\\;c\\,d\\\\e");
}

// SPDX-License-Identifier: MIT
#include "report/mix_report.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/text.hpp"
#include "report/json_values.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using treatment::GroupCount;
using treatment::ScoreLine;
using treatment::ScoreRange;
using treatment::SeedingRisk;
using treatment::SeedingWarning;

constexpr double full_score = 100.0;

std::string plain(double value) { return fmt::format("{:g}", std::round(value * 10.0) / 10.0); }

std::string range_words(const ScoreRange& range) {
  const std::string least = plain(range.least);
  const std::string most = plain(range.most);
  return least == most ? least : least + " to " + most;
}

std::string group_words(const std::vector<int>& groups) {
  if (groups.empty()) return "groups not known";
  std::vector<std::string> words;
  words.reserve(groups.size());
  for (const int group : groups) words.push_back(std::to_string(group));
  return (groups.size() == 1 ? "group " : "groups ") + listed(words);
}

std::string seasons_words(const std::vector<int>& seasons_ago) {
  std::vector<std::string> words;
  words.reserve(seasons_ago.size());
  for (const int ago : seasons_ago) {
    words.push_back(ago == 1 ? "last season" : std::to_string(ago) + " seasons ago");
  }
  return listed(words);
}

std::string first_sentence(const MixReport& report) {
  const treatment::MixScore& score = report.score;
  const ScoreRange& up = score.effective_on_emerged;
  const std::string on = report.site ? *report.site + ", " : "";
  return fmt::format(
      "{}plan for {}: {} effective group{} on plants that are up, {} on plants to come; diversity {} of {:g} "
      "({}).",
      on, short_date(report.date, true), range_words(up), range_words(up) == "1" ? "" : "s",
      range_words(score.effective_on_to_come), range_words(score.total), full_score, score.grade);
}

std::string seeding_text(const std::vector<SeedingWarning>& warnings, SeedingRisk risk) {
  std::string text;
  for (const SeedingWarning& warning : warnings) {
    if (warning.risk != risk) continue;
    text += wrapped(
        (risk == SeedingRisk::hard ? "Stop, seed is at risk: " : "Ask the label: ") + warning.text + ".", 0);
  }
  return text;
}

std::string groups_text(const std::vector<GroupCount>& groups) {
  std::string text = "Groups\n";
  for (const GroupCount& count : groups) {
    const std::string group = "group " + std::to_string(count.group);
    const bool bare = count.entries.size() == 1 && count.entries.front() == group;
    text += wrapped(fmt::format("{}{}: {} on plants up, {} on plants to come; {}", group,
                                bare ? "" : " (" + listed(count.entries) + ")", range_words(count.emerged),
                                range_words(count.to_come), count.why),
                    2);
  }
  return text;
}

std::string score_text(const treatment::MixScore& score) {
  std::string text = "Score\n";
  const auto line = [&text](const ScoreRange& points, double of, const std::string& rest) {
    text += wrapped(fmt::format("{:>12} of {:<3g}  {}", range_words(points), of, rest), 2);
  };
  for (const ScoreLine& item : score.lines) line(item.points, item.of, item.item + ": " + item.why);
  line(score.total, full_score, "in all: " + score.grade);
  return text;
}

std::string history_text(const MixReport& report) {
  std::string text = "Earlier treatments\n";
  if (!report.site) return text + "  not known: no site was named\n";
  text += wrapped(fmt::format("seasons begin on {}; record taken as complete for {} season{} back",
                              short_date(report.season_first), report.seasons_known,
                              report.seasons_known == 1 ? "" : "s"),
                  2);
  for (const NotedSpray& spray : report.sprays) {
    const std::string when = spray.seasons_ago == 0 ? "this season" : seasons_words({spray.seasons_ago});
    text += wrapped(fmt::format("{}: {}, {}", iso(spray.day), group_words(spray.groups), when), 2);
  }
  if (report.sprays.empty()) text += "  none noted\n";
  return text;
}

std::string flags_text(const MixReport& report) {
  std::string text;
  for (const std::string& flag : report.score.flags) text += wrapped(flag + ".", 2);
  for (const treatment::RepeatedGroup& repeat : report.score.repeats) {
    text += wrapped(fmt::format("group {} was used {}.", repeat.group, seasons_words(repeat.seasons_ago)), 2);
  }
  return text.empty() ? "" : "What stands out\n" + text;
}

std::string cautions_text(const std::vector<advice::Caution>& cautions) {
  std::string text = "Cautions:";
  for (const advice::Caution& caution : cautions) {
    if (caution.brief || caution.id == "resistance") text += " " + caution.text;
  }
  return wrapped(text, 0);
}

Json range_json(const ScoreRange& range) {
  return {{"least", rounded(range.least, 2)}, {"most", rounded(range.most, 2)}};
}

Json score_json(const treatment::MixScore& score) {
  Json json = range_json(score.total);
  json["of"] = full_score;
  json["grade"] = score.grade;
  json["lines"] = Json::array();
  for (const ScoreLine& line : score.lines) {
    json["lines"].push_back({{"item", line.item},
                             {"least", rounded(line.points.least, 2)},
                             {"most", rounded(line.points.most, 2)},
                             {"of", line.of},
                             {"why", line.why}});
  }
  return json;
}

Json groups_json(const std::vector<GroupCount>& groups) {
  Json json = Json::array();
  for (const GroupCount& count : groups) {
    json.push_back({{"group", count.group},
                    {"entries", count.entries},
                    {"emerged", range_json(count.emerged)},
                    {"to_come", range_json(count.to_come)},
                    {"why", count.why}});
  }
  return json;
}

Json history_json(const MixReport& report) {
  Json json = {{"season_start", iso(report.season_first)},
               {"seasons_known", report.seasons_known},
               {"sprays", Json::array()}};
  for (const NotedSpray& spray : report.sprays) {
    json["sprays"].push_back(
        {{"date", iso(spray.day)}, {"seasons_ago", spray.seasons_ago}, {"groups", spray.groups}});
  }
  return json;
}

Json seeding_json(const std::vector<SeedingWarning>& warnings) {
  Json json = Json::array();
  for (const SeedingWarning& warning : warnings) {
    json.push_back({{"entry", warning.entry},
                    {"risk", warning.risk == SeedingRisk::hard ? "hard" : "ask"},
                    {"weeks_between", rounded(warning.weeks_between, 1)},
                    {"text", warning.text}});
  }
  return json;
}

}  // namespace

std::string mix_text(const MixReport& report) {
  return wrapped(first_sentence(report), 0) + seeding_text(report.seeding, SeedingRisk::hard) +
         seeding_text(report.seeding, SeedingRisk::ask) + groups_text(report.score.groups) +
         score_text(report.score) + history_text(report) + flags_text(report) +
         cautions_text(report.cautions);
}

std::string mix_json(const MixReport& report) {
  Json json = {{"format", "soilclock-mix"}, {"version", 1}, {"date", iso(report.date)}};
  json["site"] = report.site ? Json(*report.site) : Json(nullptr);
  json["entries"] = Json::array();
  for (const treatment::PlanEntry& entry : report.entries) {
    json["entries"].push_back({{"entry", entry.text}, {"group", entry.group}});
  }
  json["effective_groups"] = {{"emerged", range_json(report.score.effective_on_emerged)},
                              {"to_come", range_json(report.score.effective_on_to_come)}};
  json["groups"] = groups_json(report.score.groups);
  json["score"] = score_json(report.score);
  json["history"] = history_json(report);
  json["repeats"] = Json::array();
  for (const treatment::RepeatedGroup& repeat : report.score.repeats) {
    json["repeats"].push_back({{"group", repeat.group}, {"seasons_ago", repeat.seasons_ago}});
  }
  json["flags"] = report.score.flags;
  json["seeding"] = seeding_json(report.seeding);
  json["remarks"] = Json::array();
  for (const Remark& remark : report.remarks) json["remarks"].push_back(remark_json(remark));
  json["cautions"] = Json::array();
  for (const advice::Caution& caution : report.cautions) json["cautions"].push_back(caution.text);
  return dumped(json, 2) + "\n";
}

}  // namespace soilclock::report

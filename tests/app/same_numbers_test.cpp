// SPDX-License-Identifier: MIT
// Text, table, JSON and CSV are renderings of one value: each must carry the same action, kind, control and
// dates. Read back from what was printed, not from the value.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <map>
#include <regex>

#include "app/demo_year.hpp"
#include "core/text.hpp"
#include "report/advice_csv.hpp"
#include "report/advice_text.hpp"
#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::SiteAnswer;

namespace {

using Row = std::map<std::string, std::string>;

/// The rows of CSV by target.
std::map<std::string, Row> csv_by_target(const SiteAnswer& answer) {
  const auto rows = csv_rows(report::advice_csv({&answer, 1}));
  std::map<std::string, Row> by_target;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    Row row;
    REQUIRE(rows[i].size() == rows[0].size());
    for (std::size_t cell = 0; cell < rows[i].size(); ++cell) row[rows[0][cell]] = rows[i][cell];
    by_target[row.at("target")] = row;
  }
  return by_target;
}

Json document_of(const SiteAnswer& answer) {
  report::AnswerFrame frame;
  frame.on = answer.on;
  return Json::parse(report::advice_json({&answer, 1}, frame)).at("sites")[0];
}

/// "" for null, numbers with one decimal as in CSV.
std::string cell(const Json& value) {
  if (value.is_null()) return "";
  if (value.is_number_integer()) return std::to_string(value.get<int>());
  return value.is_number() ? fmt::format("{:.1f}", value.get<double>()) : value.get<std::string>();
}

std::string part(const Json& object, const char* key) { return object.is_null() ? "" : cell(object.at(key)); }

void check_csv(const Json& target, const Row& row) {
  const Json& decision = target.at("decision");
  const Json& losses = decision.at("loss_if_wait_weeks");
  const std::map<std::string, std::string> expected{
      {"urgency_rank", cell(target.at("urgency_rank"))},
      {"action", cell(decision.at("action"))},
      {"kind", cell(decision.at("kind"))},
      {"expected_control", part(decision.at("expected_control"), "percent")},
      {"expected_low", part(decision.at("expected_control"), "low")},
      {"expected_high", part(decision.at("expected_control"), "high")},
      {"best_first", part(decision.at("best_range"), "first")},
      {"best_last", part(decision.at("best_range"), "last")},
      {"good_through", cell(decision.at("good_through"))},
      {"loss_1_week", cell(losses[0])},
      {"loss_2_weeks", cell(losses[1])},
      {"loss_3_weeks", cell(losses[2])},
      {"then_kind", part(decision.at("then"), "kind")},
      {"then_from", part(decision.at("then"), "from")},
      {"emerged_percent", part(target.at("emerged"), "percent")}};
  for (const auto& [column, text] : expected) {
    CAPTURE(column);
    const bool numbers = parse_number(text).has_value() && parse_number(row.at(column)).has_value();
    if (numbers)
      CHECK(*parse_number(row.at(column)) == Approx(*parse_number(text)));
    else
      CHECK(row.at(column) == text);
  }
}

/// Half a point of rounding to whole numbers, and that of JSON to one decimal.
void check_whole(const std::string& printed, const Json& value) {
  CHECK(std::abs(std::stod(printed) - value.get<double>()) <= 0.551);
}

std::string day_words(const Json& monday, int later) {
  return short_date(*parse_iso_day(monday.get<std::string>()) + Days{later});
}

/// The row of the many-sites table, cell by cell.
void check_table(const SiteAnswer& answer, const Json& target) {
  const Json& decision = target.at("decision");
  const std::regex row{R"((\S.*?)  +([A-Z]{5}) +([a-z-]+) +(pre\+post|pre|post) +(\d+)% \((\d+)\) +)"
                       R"((\w+ \d+) - (\w+ \d+) +(\w+ \d+) *([<0-9/]*))"};
  std::istringstream lines{report::advice_table({&answer, 1})};
  int found = 0;
  for (std::string line; std::getline(lines, line);) {
    std::smatch cells;
    if (!std::regex_match(line, cells, row) || cells[2] != target.at("target").get<std::string>()) continue;
    ++found;
    CAPTURE(line);
    CHECK(cells[3] == decision.at("action").get<std::string>());
    CHECK(cells[4] == decision.at("kind").get<std::string>());
    check_whole(cells[5], decision.at("expected_control").at("percent"));
    check_whole(cells[6], decision.at("expected_control").at("low"));
    CHECK(cells[7] == day_words(decision.at("best_range").at("first"), 0));
    CHECK(cells[8] == day_words(decision.at("best_range").at("last"), 6));
    CHECK(cells[9] == day_words(decision.at("good_through"), 6));
    std::istringstream costs{cells[10]};
    std::size_t week = 0;
    for (std::string cost; std::getline(costs, cost, '/'); ++week) {
      const double lost = decision.at("loss_if_wait_weeks")[week].get<double>();
      if (cost == "<1")
        CHECK((lost >= 0.45 && lost <= 1.0));  // JSON has one decimal
      else
        check_whole(cost, lost);
    }
    CHECK((week == 3 || decision.at("loss_if_wait_weeks")[week].is_null()));
  }
  CHECK(found == 1);
}

/// A table of weeks in the details has the rows of JSON: this is where the figures behind the answer are
/// read.
void check_details(const SiteAnswer& answer, const Json& target, const std::string& block) {
  const std::regex figures{R"((\d+) \((\d+)-(\d+)\)|-(?= |$))"};
  for (const Json& week : target.at("weeks")) {
    const std::string monday = day_words(week.at("week_of"), 0);
    const auto at = block.find("\n    " + monday + " ");
    CAPTURE(answer.site, monday);
    REQUIRE(at != std::string::npos);
    const std::string line = block.substr(at + 5, block.find('\n', at + 1) - at - 5);
    std::sregex_iterator cell{line.begin(), line.end(), figures};
    for (const char* kind : {"pre", "pre+post", "post"}) {
      REQUIRE(cell != std::sregex_iterator{});
      CHECK((*cell)[1].matched == week.at("allowed").at(kind).get<bool>());
      if ((*cell)[1].matched) {
        check_whole((*cell)[1], week.at("expected_control").at(kind));
        check_whole((*cell)[2], week.at("low").at(kind));
        check_whole((*cell)[3], week.at("high").at(kind));
      }
      ++cell;
    }
  }
}

/// The part of the details that belongs to one grass.
std::string block_of(const SiteAnswer& answer, const advice::TargetAnswer& target) {
  const std::string text = report::advice_details(answer);
  const auto begin = text.find(lowered(target.title) + ":");
  REQUIRE(begin != std::string::npos);
  const auto end = text.find("\n\n", begin);
  return text.substr(begin, end - begin);
}

std::string on_one_line(std::string text) { return std::regex_replace(text, std::regex{R"(\s+)"}, " "); }

}  // namespace

TEST_CASE("text, table, JSON and CSV carry the same decision all year round", "[statistics]") {
  int rows = 0;
  for (const std::string& id : demo_ids()) {
    for (const Day on : demo_days()) {
      const SiteAnswer& answer = demo_answer(id, on);
      const Json site = document_of(answer);
      const auto csv = csv_by_target(answer);
      const std::string brief = on_one_line(report::advice_brief(answer));
      REQUIRE(site.at("targets").size() == answer.targets.size());
      for (std::size_t i = 0; i < answer.targets.size(); ++i) {
        const Json& target = site.at("targets")[i];
        const Json& decision = target.at("decision");
        CAPTURE(id, iso(on), target.at("target").get<std::string>(),
                decision.at("headline").get<std::string>());
        check_csv(target, csv.at(target.at("target").get<std::string>()));
        const std::string block = block_of(answer, answer.targets[i]);
        check_details(answer, target, block);
        // The headline is the same sentence everywhere; the figures in it are those of the decision.
        const std::string headline = decision.at("headline").get<std::string>();
        CHECK(holds(on_one_line(block), headline));
        CHECK(holds(brief, headline));
        for (const Json& line : target.at("brief")) CHECK(holds(brief, line.at("text").get<std::string>()));
        const std::string action = decision.at("action").get<std::string>();
        if (action != "treat" && action != "any-week" && action != "wait") continue;
        ++rows;
        check_table(answer, target);
        const std::regex control{R"((\d+)%, at least (\d+)%)"};
        std::smatch figures;
        REQUIRE(std::regex_search(headline, figures, control));
        check_whole(figures[1], decision.at("expected_control").at("percent"));
        check_whole(figures[2], decision.at("expected_control").at("low"));
      }
    }
  }
  CHECK(rows >= 60);
}

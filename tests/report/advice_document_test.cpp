// SPDX-License-Identifier: MIT
#include "report/advice_document.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/made_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// Ranked and finished targets, a site without any, and a name that says what a rank not known yet looks
/// like.
std::vector<advice::SiteAnswer> courses() {
  return {course("First", {flat(), finished(), falling()}), course("Second", {}),
          course(R"("urgency_rank": null)", {falling(), held()}), course(strange_name, {torn(), gated()})};
}

std::string written(const std::vector<advice::SiteAnswer>& answers, std::size_t piece) {
  report::AdviceDocument document;
  std::string text;
  for (const advice::SiteAnswer& answer : answers) text += document.add(answer);
  std::string whole;
  REQUIRE(document.write(
      frame_with({}),
      [&] {
        const std::string next = text.substr(0, piece);
        text.erase(0, piece);
        return next;
      },
      [&](std::string_view part) { whole += part; }));
  return whole;
}

}  // namespace

TEST_CASE("the document is the same in whatever pieces its text was stored") {
  const auto answers = courses();
  const std::string whole = report::advice_json(answers, frame_with({}));
  for (const std::size_t piece : {1, 2, 3, 5, 64, 4096}) CHECK(written(answers, piece) == whole);
  CHECK(written({}, 10) == report::advice_json({}, frame_with({})));
}

TEST_CASE("every target that is open has its rank among all sites in the document, and no other has one") {
  const auto answers = courses();
  const auto json = nlohmann::ordered_json::parse(report::advice_json(answers, frame_with({})));
  // Written by the library in one go, the document has the same bytes.
  CHECK(json.dump(2) + "\n" == report::advice_json(answers, frame_with({})));
  std::size_t ranked = 0;
  for (const advice::RankedTarget& entry : advice::by_urgency(answers)) {
    CAPTURE(entry.site, entry.target);
    CHECK(json["sites"][entry.site]["targets"][entry.target]["urgency_rank"] == ++ranked);
  }
  CHECK(ranked >= 5);
  std::size_t numbers = 0;
  for (const auto& site : json["sites"]) {
    for (const auto& target : site["targets"]) numbers += target["urgency_rank"].is_null() ? 0 : 1;
  }
  CHECK(numbers == ranked);
}

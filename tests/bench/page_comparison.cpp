// SPDX-License-Identifier: MIT
// Drawing the pages of a hundred courses and their index from answers already worked out, against a general
// reader of HTML going through the same bytes.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <sstream>

#include "bench/comparison.hpp"
#include "report/page/course_page.hpp"
#include "report/page/portfolio_page.hpp"
#include "site/site_answer.hpp"

namespace soilclock::bench {

namespace {

constexpr std::size_t courses = 100;
constexpr int repeats = 5;

std::size_t count_of(const std::string& text, std::string_view word) {
  std::size_t count = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++count;
  return count;
}

/// All pages one after another, as `report` writes them into files.
std::string drawn(const std::vector<advice::SiteAnswer>& answers) {
  std::string bytes;
  std::vector<std::string> names;
  for (const advice::SiteAnswer& answer : answers) {
    bytes += report::course_page(answer, frame_for({answer}, answer.on, catalogue()));
    names.push_back(answer.site + ".html");
  }
  return bytes + report::portfolio_page(answers, names, frame_for(answers, answers.front().on, catalogue()));
}

}  // namespace

std::vector<Comparison> compare_pages() {
  Comparison row{"100 course pages and their index, drawn",
                 "python html.parser reading them",
                 0.0,
                 {},
                 "not run: no python3",
                 true};
  std::vector<advice::SiteAnswer> answers(courses, advised());
  for (std::size_t i = 0; i < courses; ++i) answers[i].site = fmt::format("course-{}", i);
  std::string bytes;
  std::vector<double> times;
  for (int i = 0; i < repeats; ++i) times.push_back(seconds_of([&] { bytes = drawn(answers); }));
  row.ours_s = middle(times);
  const std::string path = in_build_folder("pages.html");
  std::ofstream{path, std::ios::binary} << bytes;
  const auto output =
      output_of("/usr/bin/python3 '" SOILCLOCK_SOURCE_DIR "/tests/bench/page_reading.py' '" + path + "'");
  std::remove(path.c_str());
  if (!output) return {row};
  std::size_t pictures = 0;
  double seconds = 0.0;
  std::istringstream{*output} >> pictures >> seconds;
  row.answers_agree = pictures > courses && pictures == count_of(bytes, "<svg");
  row.other_s = seconds;
  row.note = row.answers_agree ? fmt::format("{:.1f} MB with {} pictures",
                                             1e-6 * static_cast<double>(bytes.size()), pictures)
                               : "pictures were lost";
  return {row};
}

}  // namespace soilclock::bench

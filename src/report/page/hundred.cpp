// SPDX-License-Identifier: MIT
// Of a hundred seedlings: stages as line drawings on one soil line, a bar below, brackets saying what pre and
// post work on.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/page/page_parts.hpp"
#include "report/svg/picture.hpp"

namespace soilclock::report {

namespace {

constexpr std::size_t stages = 5;
constexpr std::array<const char*, stages> stage_names{"still to come", "1 to 3 leaves", "up to 1 tiller",
                                                      "2 tillers", "older"};
constexpr std::array<const char*, stages> stage_fills{"seeds", "young", "tiller-1", "tiller-2", "older"};

/// Whole numbers that add up to `total`, by largest remainder; shares need not add up to 1.
template <std::size_t size>
std::array<int, size> rounded_to(const std::array<double, size>& shares, int total) {
  double sum = 0.0;
  for (const double share : shares) sum += share;
  std::array<int, size> counts{};
  if (sum <= 0.0) return counts;
  std::array<double, size> remainders{};
  int left = total;
  for (std::size_t i = 0; i < size; ++i) {
    const double exact = shares[i] / sum * total;
    counts[i] = static_cast<int>(std::floor(exact));
    remainders[i] = exact - counts[i];
    left -= counts[i];
  }
  for (; left > 0; --left) {
    const auto largest = std::max_element(remainders.begin(), remainders.end());
    ++counts[static_cast<std::size_t>(largest - remainders.begin())];
    *largest = -1.0;
  }
  return counts;
}

/// Still to come, then the stages: the share up is the answer's middle, split as its stages are.
std::array<int, stages> hundred_of(const advice::TargetAnswer& target) {
  const int up = static_cast<int>(std::round(target.emerged_percent.middle));
  const emergence::StageShares& s = target.stages;
  const auto split = rounded_to(std::array{s.leaves_1_3, s.to_one_tiller, s.two_tillers, s.older}, up);
  return {100 - up, split[0], split[1], split[2], split[3]};
}

/// A plant of so many blades on each side, as tall as `height`, standing at 0 0.
std::string plant(double height, int blades, bool middle) {
  std::string path;
  const auto blade = [&](double lean, double tall) {
    path += fmt::format("M0 0q{} {} {} {}", drawn(lean * 0.15 * height), drawn(-0.7 * tall * height),
                        drawn(lean * height), drawn(-tall * height));
  };
  if (middle) blade(0.04, 1.0);
  for (int i = 1; i <= blades; ++i) {
    const double share = static_cast<double>(i) / blades;
    const double tall = 1.02 - 0.5 * share * share;
    blade(0.22 + 0.5 * share * (blades > 1 ? 1.0 : 0.2), tall);
    blade(-0.22 - 0.5 * share * (blades > 1 ? 1.0 : 0.2), tall * 0.93);
  }
  for (const double lean : {-0.16, 0.0, 0.16})
    path += fmt::format("M0 0l{} {}", drawn(lean * (blades + 1) * 14.0), drawn(5.0 + blades));
  return path;
}

std::string stage_shape(std::size_t stage) { return fmt::format("stage-{}", stage); }

constexpr double width = 480.0;
constexpr double ground = 64.0;
constexpr double bar_top = 116.0;
constexpr double bar_height = 20.0;

double at_count(int count) { return 1.0 + (width - 2.0) * count / 100.0; }

void draw_bar(Picture& picture, const std::array<int, stages>& counts) {
  int sum = 0;
  for (std::size_t i = 0; i < stages; ++i) {
    const double from = at_count(sum);
    sum += counts[i];
    if (counts[i] == 0) continue;
    picture.rect({from, bar_top}, at_count(sum) - from, bar_height, stage_fills[i]);
    if (i > 1) picture.line({from, bar_top}, {from, bar_top + bar_height}, "joint");
  }
  picture.rect({at_count(0), bar_top}, at_count(100) - at_count(0), bar_height, "outline");
}

/// What a part of a treatment works on: a bracket below its stretch of the bar, with its words.
void draw_bracket(Picture& picture, double from, double to, bool right, std::string_view words) {
  if (to - from < 1.0) return;
  const double y = bar_top + bar_height + 5.0;
  picture.path(fmt::format("M{} {}v5H{}v-5", drawn(from + 0.5), drawn(y), drawn(to - 0.5)), "thin");
  const double needed = text_width(words, 13.0);
  const bool fits = from + needed < width;
  if (right && !fits)
    picture.text({width - 1.0, y + 22.0}, words, "b", Anchor::end);
  else
    picture.text({from, y + 22.0}, words, "b");
}

}  // namespace

void write_stage_shapes(Markup& page) {
  struct Form {
    double height;
    int blades;
    bool middle;
  };
  static constexpr std::array<Form, stages - 1> plants{
      {{26, 1, false}, {36, 1, true}, {44, 2, true}, {54, 4, true}}};
  page.open("svg", {{"class", "textures"}, {"aria-hidden", "true"}, {"width", 0}, {"height", 0}});
  page.open("defs");
  page.leaf("path", {{"id", stage_shape(0)}, {"class", "seed-drawing"}, {"d", "M-4.5 7q4-5 9-1q-4 5-9 1z"}});
  for (std::size_t i = 0; i < plants.size(); ++i) {
    const Form& form = plants[i];
    page.leaf("path", {{"id", stage_shape(i + 1)},
                       {"class", "plant"},
                       {"d", plant(form.height, form.blades, form.middle)}});
  }
  page.close();
  page.close();
}

void write_hundred(Markup& page, const advice::TargetAnswer& target) {
  if (!std::isfinite(target.emerged_percent.middle)) return;
  const std::array<int, stages> counts = hundred_of(target);
  page.open("div", {{"class", "hundred"}});
  page.element("h3", "Of a hundred seedlings of this season, this morning");
  std::string description;
  for (std::size_t i = 0; i < stages; ++i)
    description += fmt::format("{}{} {}", i == 0 ? "" : ", ", counts[i], stage_names[i]);
  Picture picture{
      width, 166.0, "stages", {target.target + "-hundred", "A hundred seedlings by stage", description}};
  picture.line({0, ground}, {width, ground}, "soil-line");
  for (std::size_t i = 0; i < stages; ++i) {
    const double x = width * (static_cast<double>(i) + 0.5) / stages;
    picture.shape(stage_shape(i), {x, ground});
    picture.text({x, ground + 28.0}, fmt::format("{}", counts[i]), "count", Anchor::middle);
    picture.text({x, ground + 43.0}, stage_names[i], "s", Anchor::middle);
  }
  draw_bar(picture, counts);
  const bool both = counts[0] > 0 && counts[0] < 100;
  const double split = at_count(counts[0]);
  // Side by side where both have room, so that neither's words run into the other's.
  draw_bracket(picture, at_count(0), split, false, both && counts[0] < 32 ? "pre" : "pre works on these");
  draw_bracket(picture, split, at_count(100), true,
               both && counts[0] > 58 ? "post" : "post, the young ones best");
  page.add(picture.finish());
  page.open("table", {{"class", "unseen"}});
  page.element("caption", "A hundred seedlings by stage");
  for (std::size_t i = 0; i < stages; ++i) {
    page.open("tr");
    page.element("th", stage_names[i], {{"scope", "row"}});
    page.element("td", fmt::format("{}", counts[i]));
    page.close();
  }
  page.close();
  page.close();
}

}  // namespace soilclock::report

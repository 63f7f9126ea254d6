// SPDX-License-Identifier: MIT
#include "treatment/treatment_draw.hpp"

#include <algorithm>

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

constexpr std::uint64_t members = 4000;

struct Files {
  GrassControl grass;
  MixtureRule mixture = shipped_mixture();
  ResidualRule residual = shipped_residual();
  explicit Files(const std::string& id) : grass{shipped_control(id)} {}
  TreatmentRules rules() const { return {&grass, &mixture, &residual}; }
};

/// A number of every member.
template <class Number>
std::vector<double> drawn(const Files& files, const TreatmentParts& parts, Number number) {
  const RandomField field{20240607};
  std::vector<double> values;
  for (std::uint64_t member = 0; member < members; ++member)
    values.push_back(number(draw_treatment(field, member, parts, files.rules())));
  return values;
}

double mean(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// Checks an even spread: ends not passed and nearly met, mean in the middle. 4000 members know the mean of
/// an even spread to 0.5 percent of its width; three of those are taken.
void check_even(const std::vector<double>& values, double least, double most) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  CHECK(*low >= least - 1e-9);
  CHECK(*high <= most + 1e-9);
  CHECK(*low == Approx(least).margin(0.01 * (most - least) + 1e-9));
  CHECK(*high == Approx(most).margin(0.01 * (most - least) + 1e-9));
  CHECK(mean(values) == Approx(0.5 * (least + most)).margin(0.015 * (most - least) + 1e-9));
}

ResidualPart residual_part(int group, double least, double most) {
  return {group, {least, most, {}}, {96, 96, {}}, {}};
}

FoliarPart foliar_part(int group, double percent) {
  KillByStage kill;
  kill.fill(Fraction::from_percent(percent));
  return {group, {kill}, {}};
}

}  // namespace

TEST_CASE("weeks and activation energy are drawn evenly over their spans") {
  const Files files{"annual_bluegrass"};
  const TreatmentParts parts{{}, {residual_part(3, 8, 16)}, {}, {}};
  check_even(drawn(files, parts, [](const auto& d) { return d.residuals.at(0).weeks; }), 8, 16);
  check_even(drawn(files, parts, [](const auto& d) { return d.residuals.at(0).activation_energy_j_per_mol; }),
             files.residual.activation_energy_least_j_per_mol,
             files.residual.activation_energy_most_j_per_mol);
}

TEST_CASE("a residual loses between none and its failure share, short ones more, and its resistant plants") {
  const Files files{"crabgrass"};
  const auto works = [&](double weeks, double resistant) {
    TreatmentParts parts{{}, {residual_part(3, weeks, weeks)}, {}, {}};
    parts.residual.front().resistant = Fraction::of(resistant);
    return drawn(files, parts, [](const auto& d) { return d.residuals.at(0).works; });
  };
  const double at_short = files.grass.failure_most_short;
  const double at_long = files.grass.failure_most_long;
  CHECK(at_short > at_long);
  check_even(works(8, 0.0), 0.96 * (1.0 - at_short), 0.96);
  check_even(works(12, 0.0), 0.96 * (1.0 - 0.5 * (at_short + at_long)), 0.96);
  check_even(works(16, 0.0), 0.96 * (1.0 - at_long), 0.96);
  check_even(works(4, 0.0), 0.96 * (1.0 - at_short), 0.96);
  check_even(works(30, 0.0), 0.96 * (1.0 - at_long), 0.96);
  check_even(works(16, 0.25), 0.75 * 0.96 * (1.0 - at_long), 0.75 * 0.96);
}

TEST_CASE("the greatest effect is drawn over its span") {
  Files files{"goosegrass"};
  files.grass.failure_most_short = files.grass.failure_most_long = 0.0;
  const TreatmentParts parts{{}, {{3, {12, 12, {}}, {50, 90, {}}, {}}}, {}, {}};
  check_even(drawn(files, parts, [](const auto& d) { return d.residuals.at(0).works; }), 0.5, 0.9);
}

TEST_CASE("a foliar row is moved as a whole or loses a share, as the grass has it") {
  const auto first = [](const DrawnTreatment& d) { return d.kill[0].value(); };
  const Files crabgrass{"crabgrass"};  // ten points either way
  const TreatmentParts fifty{{foliar_part(1, 50)}, {}, {}, {}};
  check_even(drawn(crabgrass, fifty, first), 0.40, 0.60);
  const Files bluegrass{"annual_bluegrass"};  // up to three tenths less
  check_even(drawn(bluegrass, fifty, first), 0.5 * (1.0 - bluegrass.grass.foliar_failure_most), 0.5);
  // Nothing is moved above the cap, and what does not act does not begin to.
  const auto high = drawn(crabgrass, {{foliar_part(1, 94)}, {}, {}, {}}, first);
  CHECK(*std::max_element(high.begin(), high.end()) == Approx(crabgrass.grass.cap.value()));
  const auto none = drawn(crabgrass, {{foliar_part(1, 0)}, {}, {}, {}}, first);
  CHECK(*std::max_element(none.begin(), none.end()) == 0.0);
  // All stages of a member move together.
  TreatmentParts stages = fifty;
  stages.foliar.front().rows.front()[4] = Fraction::from_percent(30);
  const auto apart =
      drawn(crabgrass, stages, [](const auto& d) { return d.kill[0].value() - d.kill[4].value(); });
  for (const double gap : apart) CHECK(gap == Approx(0.20));
}

TEST_CASE("an unnamed partner is one of its two rows, each in half of the members") {
  Files files{"annual_bluegrass"};
  files.grass.foliar_failure_most = 0.0;
  const auto oldest =
      drawn(files, unnamed_parts(files.grass), [](const auto& d) { return d.kill[4].value(); });
  const double contact = files.grass.row("contact")->kill[4].value();
  const double translocated = files.grass.row("translocated")->kill[4].value();
  double contacts = 0.0;
  for (const double kill : oldest) {
    CHECK((kill == Approx(contact) || kill == Approx(translocated)));
    contacts += kill == Approx(contact) ? 1.0 : 0.0;
  }
  CHECK(contacts / static_cast<double>(members) == Approx(0.5).margin(0.024));  // three standard errors
}

TEST_CASE("another part leaves the draws of those before it as they were") {
  const Files files{"crabgrass"};
  const RandomField field{7};
  const TreatmentParts one{{foliar_part(1, 60)}, {residual_part(3, 8, 26)}, {}, {}};
  TreatmentParts more = one;
  more.residual.push_back(residual_part(14, 8, 26));
  FoliarPart of_no_use = foliar_part(2, 60);
  of_no_use.resistant = Fraction::of(1.0);
  more.foliar.push_back(of_no_use);
  int different = 0;
  for (std::uint64_t member = 0; member < 50; ++member) {
    const DrawnTreatment a = draw_treatment(field, member, one, files.rules());
    const DrawnTreatment b = draw_treatment(field, member, more, files.rules());
    REQUIRE(b.residuals.size() == 2);
    CHECK(b.residuals[0].weeks == a.residuals[0].weeks);
    CHECK(b.residuals[0].works == a.residuals[0].works);
    CHECK(b.residuals[0].activation_energy_j_per_mol == a.residuals[0].activation_energy_j_per_mol);
    CHECK(b.kill[0].value() == Approx(a.kill[0].value()));
    different += std::abs(b.residuals[1].weeks - b.residuals[0].weeks) > 0.1 ? 1 : 0;
  }
  CHECK(different > 40);  // a further part is no copy of the first
}

TEST_CASE("the same seed and member give the same draw, others do not") {
  const Files files{"annual_bluegrass"};
  const TreatmentParts parts = unnamed_parts(files.grass);
  const auto weeks = [&](std::uint64_t seed, std::uint64_t member) {
    return draw_treatment(RandomField{seed}, member, parts, files.rules()).residuals.at(0).weeks;
  };
  CHECK(weeks(1, 3) == weeks(1, 3));
  CHECK(weeks(1, 3) != weeks(1, 4));
  CHECK(weeks(1, 3) != weeks(2, 3));
}

TEST_CASE("residuals of less than a week are left out") {
  const Files files{"annual_bluegrass"};
  const TreatmentParts parts{{}, {residual_part(3, 0, 0.9), residual_part(14, 1.5, 2)}, {}, {}};
  const DrawnTreatment d = draw_treatment(RandomField{1}, 1, parts, files.rules());
  REQUIRE(d.residuals.size() == 1);
  CHECK(d.residuals.front().group == 14);
  CHECK(d.kill[0].value() == 0.0);
}

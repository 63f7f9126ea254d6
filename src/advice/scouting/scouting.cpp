// SPDX-License-Identifier: MIT
#include "advice/scouting/scouting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "advice/scouting/posterior_check.hpp"
#include "advice/scouting/resampling.hpp"
#include "advice/scouting/usable_notes.hpp"
#include "core/number_text.hpp"
#include "core/random.hpp"
#include "core/unit_words.hpp"

namespace soilclock::advice {

namespace {

/// Gives the draws of scouting numbers of their own.
constexpr std::uint64_t scouting_field = 0x5C0071A6C0DE5EEDULL;

std::vector<double> log_weights(const std::vector<TargetMember>& members, const ScoutingEvidence& evidence,
                                const emergence::GrowthModel& growth) {
  std::vector<double> logs;
  logs.reserve(members.size());
  for (const TargetMember& member : members) logs.push_back(log_likelihood(evidence, member, growth));
  return logs;
}

/// Members by their date of 50 percent, so that the draw thins the dates evenly.
std::vector<std::size_t> by_half_date(const std::vector<TargetMember>& members) {
  std::vector<int> half;
  half.reserve(members.size());
  for (const TargetMember& member : members) {
    half.push_back(member.curve.first_day_reaching(0.5).value_or(static_cast<int>(member.curve.up.size())));
  }
  std::vector<std::size_t> order(members.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return half[a] < half[b]; });
  return order;
}

/// Every member as it is and shifted; neighbors in the list come from one member.
std::vector<TargetMember> with_moved(const std::vector<TargetMember>& members,
                                     const std::vector<int>& shifts) {
  std::vector<TargetMember> all;
  for (const TargetMember& member : members) {
    all.push_back(member);
    for (const int days : shifts) {
      all.push_back(member);
      all.back().curve = shifted(member.curve, days);
    }
  }
  return all;
}

std::vector<TargetMember> drawn(const std::vector<TargetMember>& members, const std::vector<double>& weights,
                                std::size_t size, const RandomField& random) {
  std::vector<TargetMember> chosen;
  for (const std::size_t index : resampled(weights, by_half_date(members), size, random.uniform(0, 0))) {
    chosen.push_back(members[index]);
  }
  return chosen;
}

void remark_left_out(ScoutedRun& scouted, const UsableNotes& usable) {
  if (usable.left_out == 0) return;
  scouted.remarks.push_back({"counts-after-treatment",
                             fmt::format("{} note{} of seedlings made after the treatment of {} {} not used "
                                         "for the curve: what it killed or kept down "
                                         "would look like seedlings still to come.",
                                         usable.left_out, usable.left_out == 1 ? "" : "s",
                                         short_date(*usable.treated), usable.left_out == 1 ? "is" : "are")});
}

void remark_use(ScoutedRun& scouted, std::size_t members, bool us_units) {
  if (scouted.evidence.plot_size_guessed) {
    scouted.remarks.push_back(
        {"plot-size-not-said",
         fmt::format("The size of the plots was not noted: {} are taken, which matters little as long as it "
                     "stays the same.",
                     area_words(scouted.evidence.rule.usual_plot_m2, us_units))});
  }
  bool standing = false;
  for (const ScoutedArea& area : scouted.evidence.areas) {
    standing = standing || std::any_of(area.visits.begin(), area.visits.end(),
                                       [](const Visit& visit) { return !visit.fresh; });
  }
  if (standing) {
    scouted.remarks.push_back(
        {"standing-counts-as-up",
         "Standing plants are taken as all that came up so far: plants that died are not known of."});
  }
  if (scouted.moved) {
    scouted.remarks.push_back(
        {"few-members-fit",
         fmt::format("Your notes leave about {} of {} possible seasons: these were also tried up to a "
                     "week earlier and "
                     "later, so the dates follow your notes further than the weather would.",
                     number_text(scouted.effective_members, 0), members)});
  }
}

}  // namespace

ScoutedRun scouted_run(const TargetRun& run, const SiteLog& log, Day on, const ScoutingRules& rules,
                       std::uint64_t seed, bool us_units) {
  const RandomField random{seed ^ scouting_field};
  const UsableNotes usable = usable_notes(run.job.target->code, run.season, log, on);
  ScoutedRun scouted;
  remark_left_out(scouted, usable);
  if (usable.none() || run.members.empty()) return scouted;
  scouted.evidence = evidence_of(usable, run.season, rules);
  const std::size_t size = run.members.size();
  std::vector<double> weights = normalized(log_weights(run.members, scouted.evidence, *run.job.growth));
  scouted.effective_members = effective_size(weights);
  scouted.run = TargetRun{run.job, run.season, {}};
  if (scouted.effective_members < rules.counts.least_effective * static_cast<double>(size)) {
    scouted.moved = true;
    const std::vector<TargetMember> all = with_moved(run.members, rules.counts.trial_shifts);
    weights = normalized(log_weights(all, scouted.evidence, *run.job.growth));
    scouted.run->members = drawn(all, weights, size, random);
  } else {
    scouted.run->members = drawn(run.members, weights, size, random);
  }
  reweigh_models(*scouted.run);
  remark_use(scouted, size, us_units);
  return scouted;
}

void judge_counts(ScoutedRun& scouted, const TargetRun& run, std::uint64_t seed) {
  const CountCheckRule& check = scouted.evidence.rule.check;
  bool disagrees = false;
  bool patchy = false;
  for (const ScoutedArea& area : scouted.evidence.areas) {
    std::set<std::size_t> counted;
    for (const PlotGroup& group : area.plots) {
      if (group.counts.size() >= check.plots_judged) counted.insert(group.visit);
    }
    if (counted.size() < check.visits_judged) continue;
    std::vector<std::vector<double>> shares;
    for (const TargetMember& member : run.members) shares.push_back(shares_met(area, member.curve));
    const PosteriorCheck test{area.plots, shares, scouted.evidence.priors, check,
                              RandomField{seed ^ scouting_field}};
    const CheckFlags flags = test.judged(area.plots);
    disagrees = disagrees || flags.curve;
    patchy = patchy || flags.plots;
  }
  if (disagrees) {
    scouted.remarks.push_back(
        {"model-and-field-disagree",
         "The counts run as hardly any of the possible seasons would (they fall, or jump up and down): "
         "plants may have "
         "died, plots or counters changed. Model and field disagree; trust what you see."});
  }
  if (patchy) {
    scouted.remarks.push_back({"patchy-counts",
                               "Many plots hold none while others hold many: the grass stands in patches, "
                               "and the counts say less about the "
                               "season than the band claims. Note patches as areas of their own."});
  }
}

}  // namespace soilclock::advice

// SPDX-License-Identifier: MIT
#include "advice/decision/season_control.hpp"

#include <algorithm>
#include <numeric>

#include "advice/ensemble/quantiles.hpp"
#include "emergence/season_drivers.hpp"

namespace soilclock::advice {

namespace {

/// Share coming up on each day, from the share up at its end.
std::vector<double> daily_shares(const emergence::EmergenceCurve& curve) {
  std::vector<double> shares;
  shares.reserve(curve.up.size());
  double before = 0.0;
  for (const double up : curve.up) {
    shares.push_back(up - before);
    before = up;
  }
  return shares;
}

}  // namespace

SeasonControl::SeasonControl(const TargetRun& run, const SeasonRuns& runs, const Scenarios& scenarios,
                             const Catalogue& catalogue, std::span<const ActingApplication> acting,
                             std::uint64_t seed)
    : rules_{&catalogue.control_of(run.job.target->code), &catalogue.mixture, &catalogue.residual},
      random_{seed},
      members_(run.members.size()) {
  for (std::size_t i = 0; i < members_.size(); ++i) {
    const TargetMember& from = run.members[i];
    const WeatherTrace& weather = scenarios.weather_of(static_cast<int>(from.scenario));
    Member& member = members_[i];
    member.emerging = daily_shares(from.curve);
    member.trace = scenarios.trace_of(static_cast<int>(from.scenario));
    member.cohorts = {run.season.first,
                      member.emerging,
                      from.thermal_age,
                      runs.soil[from.scenario],
                      std::span{weather.air_max}.subspan(static_cast<std::size_t>(emergence::lead_in_days)),
                      from.phyllochron,
                      run.job.growth->limits};
    member.reference_days = treatment::reference_days(
        member.cohorts.soil, treatment::drawn_activation_energy(random_, i, *rules_.residual),
        *rules_.residual);
    for (const ActingApplication& noted : acting) {
      member.logged.push_back({noted.day, noted.kind,
                               treatment::draw_treatment(random_, i, noted.parts, rules_),
                               noted.share_of_dose, noted.activation_delay_days});
    }
    member.net = member.cohorts;
    if (acting.empty()) continue;
    member.left = treatment::surviving_shares(member.cohorts, member.logged, *rules_.grass, *rules_.residual);
    member.net.emerging_share = member.left;
  }
  net_.reserve(members_.size());
  for (const Member& member : members_)
    net_.push_back({{member.net, *rules_.grass}, treatment::ComingSeedlings{member.net}});
}

const SeasonControl::Stands& SeasonControl::stands_on(Day day) const {
  const auto [at, fresh] = stands_.try_emplace(day);
  Stands& stands = at->second;
  if (!fresh) return stands;
  const Days rest_of_week = monday_of(day) + Days{7} - day;
  std::map<std::size_t, double> warmth;  // by trace
  stands.reserve(members_.size());
  for (std::size_t i = 0; i < members_.size(); ++i) {
    const auto [known, first] = warmth.try_emplace(members_[i].trace, 0.0);
    if (first) {
      known->second = treatment::warmth_of_foliar(members_[i].net, *rules_.grass, day,
                                                  static_cast<int>(rest_of_week.count()));
    }
    stands.push_back(net_[i].standing.on(day, known->second));
  }
  return stands;
}

std::vector<MemberPoints> SeasonControl::points(std::span<const treatment::TreatmentParts> alike,
                                                std::span<const Day> treated) const {
  std::vector<MemberPoints> points(alike.size(), MemberPoints(treated.size()));
  for (MemberPoints& weeks : points) {
    for (auto& kinds : weeks) {
      for (std::vector<double>& members : kinds) members.reserve(members_.size());
    }
  }
  if (treated.empty()) return points;
  std::vector<const Stands*> stands;
  for (const Day day : treated) stands.push_back(&stands_on(day));
  for (std::size_t i = 0; i < members_.size(); ++i) {
    std::vector<treatment::DrawnTreatment> drawn;
    for (const treatment::TreatmentParts& parts : alike)
      drawn.push_back(treatment::draw_treatment(random_, i, parts, rules_));
    const treatment::StoppedByResidual residual{net_[i].coming, drawn.front().residuals, *rules_.residual,
                                                members_[i].reference_days, treated.front()};
    for (std::size_t week = 0; week < treated.size(); ++week) {
      const auto& stand = (*stands[week])[i];
      const double stopped = residual.on(treated[week]);
      for (std::size_t plan = 0; plan < alike.size(); ++plan) {
        std::array<double, treatment::kind_count> shares{};
        if (stand) shares = treatment::control_of(*stand, stopped, drawn[plan], *rules_.grass);
        for (std::size_t kind = 0; kind < treatment::kind_count; ++kind)
          points[plan][week][kind].push_back(100.0 * shares[kind]);
      }
    }
  }
  return points;
}

MemberPoints SeasonControl::points(const treatment::TreatmentParts& parts,
                                   std::span<const Day> treated) const {
  return std::move(points(std::span{&parts, 1}, treated).front());
}

std::optional<ResidualLeft> SeasonControl::residual_left(Day on, Day since) const {
  std::vector<double> left;
  std::vector<std::optional<int>> spent_on;
  for (const Member& member : members_) {
    const treatment::LoggedDoses doses{member.cohorts, member.logged, *rules_.residual};
    const auto today = doses.left_on(on);
    if (!today) continue;
    left.push_back(*today);
    std::optional<int> spent;
    for (Day day = since; day < member.cohorts.days().end() && !spent; day += Days{1}) {
      if (*doses.left_on(day) < rules_.residual->spent_below) spent = static_cast<int>((day - since).count());
    }
    spent_on.push_back(spent);
  }
  if (left.empty()) return std::nullopt;
  const auto days = day_band_of(std::move(spent_on)).middle;
  return ResidualLeft{band_of(std::move(left)).middle,
                      days ? std::optional{since + Days{*days}} : std::nullopt};
}

std::optional<Band<double>> SeasonControl::control_by(Day day) const {
  std::vector<double> percents;
  for (const Member& member : members_) {
    const auto days =
        std::clamp<std::ptrdiff_t>((day - member.cohorts.first).count() + 1, 0, std::ssize(member.emerging));
    const double all = std::accumulate(member.emerging.begin(), member.emerging.begin() + days, 0.0);
    const auto net = member.net.emerging_share.first(static_cast<std::size_t>(days));
    const double left = std::accumulate(net.begin(), net.end(), 0.0);
    if (all > 0.0) percents.push_back(100.0 * (1.0 - left / all));
  }
  return percents.empty() ? std::nullopt : std::optional{band_of(std::move(percents))};
}

std::vector<std::optional<double>> SeasonControl::doses_left() const {
  std::vector<std::vector<double>> by_day;
  for (const Member& member : members_) {
    const treatment::LoggedDoses doses{member.cohorts, member.logged, *rules_.residual};
    const DayRange season = member.cohorts.days();
    by_day.resize(static_cast<std::size_t>(season.size()));
    for (std::size_t d = 0; d < by_day.size(); ++d) {
      if (const auto left = doses.left_on(season.begin() + Days{static_cast<int>(d)}))
        by_day[d].push_back(*left);
    }
  }
  std::vector<std::optional<double>> middles;
  middles.reserve(by_day.size());
  for (std::vector<double>& left : by_day)
    middles.push_back(left.empty() ? std::nullopt : std::optional{band_of(std::move(left)).middle});
  return middles;
}

std::vector<TreatmentWeek> weeks_of(const MemberPoints& points, std::span<const Day> treated,
                                    std::span<const std::size_t> members) {
  std::vector<TreatmentWeek> weeks;
  for (std::size_t week = 0; week < treated.size(); ++week) {
    TreatmentWeek row;
    row.week_of = monday_of(treated[week]);
    for (std::size_t kind = 0; kind < treatment::kind_count; ++kind) {
      std::vector<double> values;
      values.reserve(members.size());
      for (const std::size_t member : members) values.push_back(points[week][kind][member]);
      row.kinds[kind].control = band_of(std::move(values));
    }
    weeks.push_back(row);
  }
  return weeks;
}

}  // namespace soilclock::advice

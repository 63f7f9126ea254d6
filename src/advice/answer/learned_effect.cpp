// SPDX-License-Identifier: MIT
#include "advice/answer/learned_effect.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/windows.hpp"
#include "core/number_text.hpp"

namespace soilclock::advice {

namespace {

std::string half_words(const TargetRun& before, const TargetRun& after) {
  const DateBand was = date_reaching(before, 0.5);
  const DateBand is = date_reaching(after, 0.5);
  if (!was.middle || !is.middle || !was.low || !was.high || !is.low || !is.high) return "";
  const auto words = [](const DateBand& band) {
    return fmt::format("{} ({} to {})", short_date(*band.middle), short_date(*band.low),
                       short_date(*band.high));
  };
  if (words(is) == words(was)) return fmt::format(" Half are up by {}, as without them.", words(is));
  return fmt::format(" Half are up by {} instead of {}.", words(is), words(was));
}

/// The model that gained most, where one gained a percent.
std::string gain_words(const Learned& learned, const TargetJob& job) {
  const auto gain = [](const LearnedModel& model) { return model.weight - model.weight_before; };
  const auto most = std::max_element(learned.models.begin(), learned.models.end(),
                                     [&](const auto& a, const auto& b) { return gain(a) < gain(b); });
  constexpr double worth_saying = 0.01;
  if (most == learned.models.end() || gain(*most) < worth_saying) return "";
  const auto place = static_cast<std::size_t>(most - learned.models.begin());
  return fmt::format(" The model \"{}\" gained most: {}% of the weight instead of {}%.",
                     job.models[place].model->title, number_text(100.0 * most->weight, 0),
                     number_text(100.0 * most->weight_before, 0));
}

}  // namespace

std::string seasons_words(const Learned& learned) {
  int own = 0;
  for (const LearnedSeason& season : learned.seasons) own += season.site.empty() ? 1 : 0;
  const int others = static_cast<int>(learned.seasons.size()) - own;
  const auto seasons = [](int count) {
    return fmt::format("{} earlier season{}", count, count == 1 ? "" : "s");
  };
  if (others == 0) return seasons(own) + " noted here";
  if (own == 0) return seasons(others) + " noted at neighbors";
  return fmt::format("{} noted here and {} at neighbors", seasons(own), others);
}

std::string models_off_words(double days_later) {
  const auto days = std::lround(std::abs(days_later));
  if (days == 0) return "on the days the models said";
  return fmt::format("about {} day{} {} than the models said", days, days == 1 ? "" : "s",
                     days_later > 0.0 ? "later" : "earlier");
}

std::string learned_clause(const Learned& learned) {
  const auto doubtful = std::count_if(learned.seasons.begin(), learned.seasons.end(),
                                      [](const LearnedSeason& season) { return season.doubt > 0.5; });
  if (doubtful == std::ssize(learned.seasons))
    return seasons_words(learned) +
           ": too far from the models' days to count for much, see \"soilclock learned\"";
  return fmt::format("{}: seedlings came up {}{}", seasons_words(learned), models_off_words(learned.days),
                     doubtful == 0 ? "" : fmt::format(", {} left aside as too far off", doubtful));
}

std::string learned_words(const Learned& learned, const TargetRun& before, const TargetRun& after) {
  return fmt::format("{}.{}{}", learned_clause(learned), half_words(before, after),
                     gain_words(learned, before.job));
}

}  // namespace soilclock::advice

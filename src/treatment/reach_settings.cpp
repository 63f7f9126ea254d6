// SPDX-License-Identifier: MIT
#include "treatment/reach_settings.hpp"

#include "treatment/cited_value.hpp"

namespace soilclock::treatment {

namespace {

// Streams of the random field; other floors number theirs differently ("reach" in ASCII leads these).
enum Stream : std::uint64_t {
  partner_stream = 0x7265616368000001ULL,
  foliar_stream,
  residual_stream,
  weeks_stream
};

double between(double least, double most, double share) { return least + (most - least) * share; }

void read_draws(const JsonObject& draws, ReachSettings& settings) {
  settings.foliar_failure_most = read_cited(draws, "foliar_failure_most", "share", 0, 1).value;
  settings.residual_failure_most = read_cited(draws, "residual_failure_most", "share", 0, 1).value;
  settings.residual_weeks_least = read_cited(draws, "residual_weeks_least", "weeks", 1, 52).value;
  settings.residual_weeks_most = read_cited(draws, "residual_weeks_most", "weeks", 1, 52).value;
  settings.contact_share = read_cited(draws, "contact_share", "share", 0, 1).value;
  if (settings.residual_weeks_most < settings.residual_weeks_least) {
    draws.refuse("residual_weeks_most", "the long end is below the short end");
  }
  draws.finish();
}

}  // namespace

Result<ReachSettings> read_reach_settings(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [](const JsonObject& top) {
    read_file_head(top, "soilclock-reach-settings/1");
    ReachSettings settings;
    read_draws(top.object("draws"), settings);
    settings.window_points = read_cited(top, "window", "points", 0, 50).value;
    settings.tie_points = read_cited(top, "tie", "points", 0, 10).value;
    settings.pre_alone_within_points = read_cited(top, "pre_alone_within", "points", 0, 50).value;
    top.finish();
    return settings;
  });
}

MemberDraw draw_parts(const RandomField& field, std::uint64_t member, const ReachSettings& settings,
                      const KnownParts& known) {
  MemberDraw draw;
  draw.partner = field.uniform(partner_stream, member) < settings.contact_share ? FoliarPartner::contact
                                                                                : FoliarPartner::translocated;
  if (known.partner) draw.partner = *known.partner;
  const double foliar = settings.foliar_failure_most * field.uniform(foliar_stream, member);
  const double residual = settings.residual_failure_most * field.uniform(residual_stream, member);
  draw.foliar_failure = failing(Fraction::of(foliar), known.foliar_resistant);
  draw.residual_failure = failing(Fraction::of(residual), known.residual_resistant);
  draw.residual_weeks = known.residual_weeks.value_or(between(
      settings.residual_weeks_least, settings.residual_weeks_most, field.uniform(weeks_stream, member)));
  return draw;
}

}  // namespace soilclock::treatment

// SPDX-License-Identifier: MIT
// Active ingredients by common name: site of action, what they act on and how long. No product, no rate, and
// no word on whether an active may be used: the label and the law of the place say that.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/parameter.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"
#include "emergence/stage_class.hpp"

namespace soilclock::treatment {

enum class Uptake { soil, foliar, both };
enum class Movement { none, contact, translocated };
enum class ResistanceRecord {
  none_known,
  by_group,   ///< inferred from other actives of the group
  documented  ///< populations of annual bluegrass described
};

struct Active {
  std::string name;
  std::vector<std::string> aliases;
  int group = 0;  ///< HRAC/WSSA number; 0: outside the known sites
  std::string family;
  Uptake uptake = Uptake::soil;
  Movement moves = Movement::none;
  std::optional<emergence::StageClass>
      emerged_to;                   ///< oldest stage of annual bluegrass it counts on; nothing: none
  bool to_come = false;             ///< residual action on annual bluegrass
  std::vector<std::string> timing;  ///< "pre", "early-post", "post", "dormant"
  ParameterSpan residual_weeks;
  ResistanceRecord resistance = ResistanceRecord::none_known;
  std::optional<ParameterSpan> seeding_weeks;    ///< from application to seed or sprigs; nothing: not known
  std::optional<Temperature> least_day_maximum;  ///< day maximum below which it does not count on plants up
};

/// All actives of models/treatment/actives.json.
class Actives {
 public:
  explicit Actives(std::vector<Active> all) : all_{std::move(all)} {}
  const std::vector<Active>& all() const { return all_; }
  /// By common name or alias, whatever the case; null when unknown.
  const Active* find(std::string_view name) const;
  /// The actives of a group; empty for a group without any here.
  std::vector<const Active*> of_group(int group) const;
  /// All names and aliases.
  std::vector<std::string> names() const;

 private:
  std::vector<Active> all_;
};

/// Reads an actives file; a request problem names the place (unknown key or word, name twice, numbers without
/// grounds).
Result<Actives> read_actives(std::string_view json, const std::string& file);

/// What somebody wrote in a plan or a log: an active, or a bare group number.
struct PlanEntry {
  std::string text;  ///< as shown: "prodiamine" or "group 14"
  int group = 0;
  const Active* active = nullptr;  ///< null for a bare group; points into the Actives asked
};

/// Reads "prodiamine", "14" or "group 14". Legacy group numbers 7 and 8 are read as 5 and 15. Anything else
/// is a request problem with the nearest name.
Result<PlanEntry> read_plan_entry(std::string_view text, const Actives& actives);

}  // namespace soilclock::treatment

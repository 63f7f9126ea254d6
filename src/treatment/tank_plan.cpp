// SPDX-License-Identifier: MIT
#include "treatment/tank_plan.hpp"

#include <algorithm>

namespace soilclock::treatment {

namespace {

Fraction resistance_to(int group, const ResistantShares& resistant) {
  const auto known = resistant.find(group);
  return known == resistant.end() ? Fraction{} : known->second;
}

KillByStage kill_of(const GrassControl& grass, std::string_view row) { return grass.row(row)->kill; }

/// What rows of more than one spray are called where no active is named.
constexpr const char* unnamed_post = "an unnamed post";

FoliarPart unnamed_foliar(const GrassControl& grass) {
  FoliarPart part;
  for (const std::string& row : grass.unnamed_rows) part.rows.push_back(kill_of(grass, row));
  return part;
}

ParameterSpan greatest_of(const GrassControl& grass, std::string_view active, int group) {
  const auto by_active = grass.greatest_by_active.find(std::string{active});
  if (by_active != grass.greatest_by_active.end()) return by_active->second;
  const auto by_group = grass.greatest_by_group.find(group);
  return by_group != grass.greatest_by_group.end() ? by_group->second : grass.greatest;
}

ResidualPart unnamed_residual(const GrassControl& grass) {
  return {0, grass.unnamed_weeks, grass.greatest, {}};
}

/// The class row an active without figures of its own has, cut after its oldest stage; nothing where the
/// grass has no such class or the active does not count on plants that are up.
std::optional<KillByStage> class_row(const Active& active, const GrassControl& grass) {
  if (!active.emerged_to) return std::nullopt;
  const KillRow* row = grass.row(active.moves == Movement::contact ? "contact" : "translocated");
  if (row == nullptr) return std::nullopt;
  KillByStage kill = row->kill;
  for (std::size_t stage = static_cast<std::size_t>(*active.emerged_to) + 1; stage < emergence::stage_count;
       ++stage) {
    kill[stage] = Fraction{};
  }
  return kill;
}

/// Stage by stage; `rows` is not empty.
KillByStage weakest_of(const std::vector<KillByStage>& rows) {
  KillByStage weakest = rows.front();
  for (const KillByStage& row : rows) {
    for (std::size_t stage = 0; stage < emergence::stage_count; ++stage)
      weakest[stage] = std::min(weakest[stage], row[stage]);
  }
  return weakest;
}

/// Collects the sites of action of a plan on one grass, each group once.
class PartsOfPlan {
 public:
  PartsOfPlan(const GrassControl& grass, const ResistantShares& resistant, const Actives& actives)
      : grass_{grass}, resistant_{resistant}, actives_{actives} {}

  TreatmentParts of(const std::vector<PlanEntry>& entries) {
    std::vector<const Active*> named;
    for (const PlanEntry& entry : entries) {
      if (entry.active == nullptr)
        add_group(entry.group);
      else
        named.push_back(entry.active);
    }
    for (const Active* active : named) add_residual(*active);
    add_mixtures(named);
    for (const Active* active : named) add_foliar(*active);
    return std::move(parts_);
  }

 private:
  void add_foliar_row(int group, const KillByStage& kill) {
    const auto same = std::find_if(parts_.foliar.begin(), parts_.foliar.end(),
                                   [&](const FoliarPart& part) { return part.group == group; });
    if (same == parts_.foliar.end()) {
      parts_.foliar.push_back({group, {kill}, resistance_to(group, resistant_)});
      return;
    }
    for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
      same->rows.front()[stage] = std::max(same->rows.front()[stage], kill[stage]);
    }
  }

  void add_residual_weeks(int group, const ParameterSpan& weeks, const ParameterSpan& greatest) {
    const auto same = std::find_if(parts_.residual.begin(), parts_.residual.end(),
                                   [&](const ResidualPart& part) { return part.group == group; });
    if (same == parts_.residual.end()) {
      parts_.residual.push_back({group, weeks, greatest, resistance_to(group, resistant_)});
    } else if (weeks.most > same->weeks.most) {
      same->weeks = weeks;
      same->greatest = greatest;
    }
  }

  /// Weeks of an active on this grass: the grass's own figure, else that of the list of actives.
  ParameterSpan weeks_of(const Active& active) const {
    for (const ResidualAction& own : grass_.residuals) {
      if (own.active == active.name) return own.weeks;
    }
    if (!active.to_come) return {};
    return active.residual_weeks;
  }

  void add_residual(const Active& active) {
    const ParameterSpan weeks = weeks_of(active);
    if (weeks.most <= 0.0) return;
    add_residual_weeks(active.group, weeks, greatest_of(grass_, active.name, active.group));
  }

  /// Rows that stand for several actives of the plan; those actives are then spoken for.
  void add_mixtures(std::vector<const Active*>& named) {
    for (const KillRow& row : grass_.rows) {
      if (row.actives.size() < 2) continue;
      const auto stands_for = [&](const Active* active) {
        return std::find(row.actives.begin(), row.actives.end(), active->name) != row.actives.end();
      };
      const auto found = std::count_if(named.begin(), named.end(), stands_for);
      if (found < static_cast<std::ptrdiff_t>(row.actives.size())) continue;
      add_foliar_row((*std::find_if(named.begin(), named.end(), stands_for))->group, row.kill);
      note_sprays(row);
      named.erase(std::remove_if(named.begin(), named.end(), stands_for), named.end());
    }
  }

  /// The figures an active has by itself on this grass; null when it has none.
  const KillRow* own_row(const Active& active) const {
    const auto found = std::find_if(grass_.rows.begin(), grass_.rows.end(), [&](const KillRow& row) {
      return row.actives == std::vector{active.name};
    });
    return found == grass_.rows.end() ? nullptr : &*found;
  }

  void add_foliar(const Active& active) {
    if (const KillRow* row = own_row(active)) {
      add_foliar_row(active.group, row->kill);
      note_sprays(*row);
      return;
    }
    if (const auto kill = class_row(active, grass_))
      add_foliar_row(active.group, *kill);
    else if (weeks_of(active).most <= 0.0)
      parts_.not_counted.push_back(active.name);
  }

  void note_sprays(const KillRow& row) {
    if (row.sprays > 1) parts_.more_sprays.push_back(row.name);
  }

  /// Half of a group's actives make it a residual one, more than half a foliar one. Judgment: groups 3 and
  /// 29 come out as residual, 2 and 9 as foliar; on annual bluegrass 5 comes out as both.
  void add_group(int group) {
    const std::vector<const Active*> members = actives_.of_group(group);
    const bool residual = add_group_residual(group, members);
    const bool foliar = add_group_foliar(group, members);
    if (!residual && !foliar) parts_.not_counted.push_back("group " + std::to_string(group));
  }

  bool add_group_residual(int group, const std::vector<const Active*>& members) {
    ParameterSpan weeks;
    std::size_t lasting = 0;
    for (const Active* active : members) {
      const ParameterSpan own = weeks_of(*active);
      if (own.most <= 0.0) continue;
      weeks.least = lasting == 0 ? own.least : std::min(weeks.least, own.least);
      weeks.most = std::max(weeks.most, own.most);
      ++lasting;
    }
    if (lasting == 0 || lasting * 2 < members.size()) return false;
    add_residual_weeks(group, weeks, greatest_of(grass_, {}, group));
    return true;
  }

  /// The weakest figures of the group's actives; where none of them has any, those of an unnamed partner.
  bool add_group_foliar(int group, const std::vector<const Active*>& members) {
    std::vector<KillByStage> known;
    std::size_t acting = 0;
    bool more_sprays = false;
    for (const Active* active : members) {
      const KillRow* own = own_row(*active);
      const auto kill = own != nullptr ? std::optional{own->kill} : class_row(*active, grass_);
      if (kill) known.push_back(*kill);
      if (kill || likely_foliar(*active)) ++acting;
      more_sprays = more_sprays || (own != nullptr && own->sprays > 1);
    }
    if (acting * 2 <= members.size()) return false;
    if (known.empty()) {
      for (const std::string& row : grass_.unnamed_rows) {
        known.push_back(kill_of(grass_, row));
        more_sprays = more_sprays || grass_.row(row)->sprays > 1;
      }
    }
    add_foliar_row(group, weakest_of(known));
    if (more_sprays) parts_.more_sprays.push_back("group " + std::to_string(group));
    return true;
  }

  /// Whether an active without figures on this grass may be taken to act on plants that are up. Where a grass
  /// has classes, those say it.
  bool likely_foliar(const Active& active) const {
    const bool has_classes = grass_.row("contact") != nullptr || grass_.row("translocated") != nullptr;
    return !has_classes && active.uptake != Uptake::soil && !active.to_come;
  }

  const GrassControl& grass_;
  const ResistantShares& resistant_;
  const Actives& actives_;
  TreatmentParts parts_;
};

}  // namespace

std::string_view name(FoliarClass foliar) {
  switch (foliar) {
    case FoliarClass::none:
      return "none";
    case FoliarClass::contact:
      return "contact";
    case FoliarClass::translocated:
      break;
  }
  return "translocated";
}

TreatmentParts unnamed_parts(const GrassControl& grass) {
  TreatmentParts parts{{unnamed_foliar(grass)}, {unnamed_residual(grass)}, {}, {}};
  const bool some_twice = std::any_of(grass.unnamed_rows.begin(), grass.unnamed_rows.end(),
                                      [&](const std::string& row) { return grass.row(row)->sprays > 1; });
  if (some_twice) parts.more_sprays.emplace_back(unnamed_post);
  return parts;
}

TreatmentParts parts_of(const TankPlan& plan, const GrassControl& grass, const ResistantShares& resistant,
                        const Actives& actives) {
  if (!plan.entries.empty()) return PartsOfPlan{grass, resistant, actives}.of(plan.entries);
  TreatmentParts parts = unnamed_parts(grass);
  if (plan.residual_weeks) {
    if (*plan.residual_weeks > 0.0) {
      parts.residual.front().weeks.least = parts.residual.front().weeks.most = *plan.residual_weeks;
    } else {
      parts.residual.clear();
    }
  }
  if (plan.foliar == FoliarClass::none) {
    parts.foliar.clear();
    parts.more_sprays.clear();
  }
  if (plan.foliar && plan.foliar != FoliarClass::none) {
    if (const KillRow* row = grass.row(name(*plan.foliar))) {
      parts.foliar.front().rows = {row->kill};
      parts.more_sprays.clear();
      if (row->sprays > 1) parts.more_sprays.emplace_back(unnamed_post);
    }
  }
  return parts;
}

}  // namespace soilclock::treatment

// SPDX-License-Identifier: MIT
#include "app/earlier_answers.hpp"

#include <filesystem>

#include "advice/answer/answer_changes.hpp"
#include "advice/answer/dated_events.hpp"
#include "app/records_file.hpp"
#include "records/advice_store.hpp"

namespace soilclock::app {

namespace {

using records::StoredAdvice;

/// Nothing where no file is named and the user has none.
Result<std::optional<records::Store>> store_in_use(const std::string& records_file, records::Access access) {
  const auto path = records_path(records_file);
  std::error_code error;
  if (records_file.empty() && (!path || !std::filesystem::exists(*path, error)))
    return std::optional<records::Store>{};
  auto store = open_records(records_file, access);
  if (!store) return fail(store.error());
  return std::optional{std::move(*store)};
}

std::optional<treatment::Kind> treatment_kind_named(const std::string& word) {
  for (const treatment::Kind kind : treatment::all_kinds) {
    if (treatment::name(kind) == word) return kind;
  }
  return std::nullopt;
}

Problem unreadable(const std::string& found, const std::string& path) {
  return {Family::data,
          "an earlier answer in the records file cannot be read",
          {path, {}, {}, {}},
          found,
          {},
          "the file was changed by something else; put a copy of it back in its place"};
}

Result<advice::EarlierAnswer> earlier_of(const StoredAdvice& stored, const std::string& path) {
  const auto action = advice::action_named(stored.action);
  const auto kind = treatment_kind_named(stored.kind);
  const bool half_a_range = stored.best_first.has_value() != stored.best_last.has_value();
  if (!action || (!kind && !stored.kind.empty()) || half_a_range)
    return fail(unreadable(stored.site + ", " + stored.target + ", " + iso(stored.on), path));
  advice::EarlierAnswer earlier{stored.on, stored.season_start, *action, kind, {}};
  if (stored.best_first) earlier.best_range = advice::MondaySpan{*stored.best_first, *stored.best_last};
  return earlier;
}

StoredAdvice stored_of(const advice::SiteAnswer& site, const advice::TargetAnswer& target) {
  const advice::Decision& decision = target.decision;
  StoredAdvice stored{site.site, target.target, site.on, target.season_start, {}, {}, {}, {}};
  stored.action = advice::name(decision.action);
  if (decision.kind) stored.kind = treatment::name(*decision.kind);
  if (decision.best_range) {
    stored.best_first = decision.best_range->first;
    stored.best_last = decision.best_range->last;
  }
  return stored;
}

Checked add_withdrawn(records::AdviceStore& said, const std::string& path, advice::SiteAnswer& answer) {
  for (advice::TargetAnswer& target : answer.targets) {
    const auto stored = said.announced(answer.site, target.target, target.season_start);
    if (!stored) return fail(stored.error());
    std::vector<advice::DatedEvent> announced;
    for (const records::StoredEvent& event : *stored) {
      const auto what = advice::event_named(event.event);
      if (!what) return fail(unreadable(event.event, path));
      announced.push_back({*what, event.days});
    }
    target.withdrawn = advice::withdrawn_events(target, answer.on, announced);
  }
  return {};
}

}  // namespace

Checked add_changes(const std::string& records_file, const advice::ChangeRules& rules,
                    advice::SiteAnswer& answer) {
  auto store = store_in_use(records_file, records::Access::reading);
  if (!store) return fail(store.error());
  if (!*store) return {};
  records::AdviceStore said{**store};
  for (advice::TargetAnswer& target : answer.targets) {
    const auto stored = said.latest_before(answer.site, target.target, answer.on);
    if (!stored) return fail(stored.error());
    if (!*stored) continue;
    const auto earlier = earlier_of(**stored, (*store)->database().path());
    if (!earlier) return fail(earlier.error());
    target.changed = advice::changes_since(target, answer.on, *earlier, rules);
  }
  return add_withdrawn(said, (*store)->database().path(), answer);
}

Checked store_said(const std::string& records_file, const std::vector<advice::SiteAnswer>& answers) {
  std::vector<StoredAdvice> saying;
  std::vector<records::StoredEvent> announcing;
  for (const advice::SiteAnswer& site : answers) {
    for (const advice::TargetAnswer& target : site.targets) {
      if (target.refusal) continue;
      saying.push_back(stored_of(site, target));
      for (const advice::DatedEvent& event : advice::dated_events(target))
        announcing.push_back({site.site, target.target, target.season_start,
                              std::string{advice::name(event.what)}, event.days});
    }
  }
  if (saying.empty()) return {};
  auto store = store_in_use(records_file, records::Access::existing);
  if (!store) return fail(store.error());
  if (!*store) return {};
  return records::AdviceStore{**store}.put(saying, announcing);
}

}  // namespace soilclock::app

// SPDX-License-Identifier: MIT
#include "report/advice_document.hpp"

#include <algorithm>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>

#include "report/advice_values_json.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

constexpr int indent = 2;
/// A rank not known yet, as it stands in a text. Inside the words of a user the quotes would be escaped.
constexpr std::string_view open_rank = "\"urgency_rank\": null";
constexpr std::string_view rank_value = "null";

/// The text of a value as it stands in the array of a document's sites.
std::string as_item(const Json& json) {
  const std::string margin(2 * indent, ' ');
  std::string text = margin;
  for (const char one : dumped(json, indent)) {
    text += one;
    if (one == '\n') text += margin;
  }
  return text;
}

}  // namespace

std::string AdviceDocument::add(const SiteAnswer& site) {
  std::string text = empty_ ? "\n" : ",\n";
  text += as_item(site_json(site));
  std::size_t from = 0;
  for (const TargetAnswer& target : site.targets) {
    from = text.find(open_rank, from) + open_rank.size();
    if (advice::still_open(target))
      slots_.push_back({length_ + from - rank_value.size(), advice::urgency_of(target)});
  }
  length_ += text.size();
  empty_ = false;
  return text;
}

/// Ranks count over all sites of the document, the most urgent 1.
std::vector<std::size_t> AdviceDocument::ranks() const {
  std::vector<std::size_t> order(slots_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return advice::more_urgent(slots_[a].urgency, slots_[b].urgency);
  });
  std::vector<std::size_t> ranks(slots_.size());
  for (std::size_t place = 0; place < order.size(); ++place) ranks[order[place]] = place + 1;
  return ranks;
}

Checked AdviceDocument::write(const AnswerFrame& frame, const Stored& stored, const Sink& out) const {
  constexpr std::string_view no_sites = "\"sites\": []";
  const std::string around = dumped(frame_json(frame), indent) + "\n";
  const std::size_t middle = around.find(no_sites) + no_sites.size() - 1;
  out(std::string_view{around}.substr(0, middle));
  const std::vector<std::size_t> rank_of = ranks();
  std::size_t slot = 0;
  std::size_t at = 0;  // how far the stored text is written
  std::size_t before = 0;
  for (;;) {
    const auto piece = stored();
    if (!piece) return fail(piece.error());
    if (piece->empty()) break;
    const std::string_view text{*piece};
    const std::size_t end = before + text.size();
    for (; slot < slots_.size() && slots_[slot].offset < end; ++slot) {
      out(text.substr(at - before, slots_[slot].offset - at));
      out(std::to_string(rank_of[slot]));
      at = slots_[slot].offset + rank_value.size();  // may lie in the next piece
    }
    if (at < end) {
      out(text.substr(at - before));
      at = end;
    }
    before = end;
  }
  if (!empty_) out("\n" + std::string(indent, ' '));
  out(std::string_view{around}.substr(middle));
  return {};
}

std::string advice_json(std::span<const SiteAnswer> sites, const AnswerFrame& frame) {
  AdviceDocument document;
  std::string text;
  for (const SiteAnswer& site : sites) text += document.add(site);
  std::string whole;
  // Nothing can keep back a text that is held here.
  (void)document.write(
      frame, [&] { return Result<std::string>{std::exchange(text, {})}; },
      [&](std::string_view part) { whole += part; });
  return whole;
}

}  // namespace soilclock::report

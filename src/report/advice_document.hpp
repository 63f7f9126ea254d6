// SPDX-License-Identifier: MIT
// The document of advice written site after site, so that nobody need hold the answers of ten thousand.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/answer/urgency.hpp"
#include "core/problem.hpp"
#include "report/advice_json.hpp"

namespace soilclock::report {

/// Gives, byte for byte, what `advice_json` gives. Each site's text is handed out as soon as it is made and
/// stored by the caller; its rank among all sites is known at the end and put in while the document is
/// written.
class AdviceDocument {
 public:
  /// What was stored, in order and in pieces of any size; an empty one at the end.
  using Stored = std::function<Result<std::string>()>;
  /// Takes the document part by part.
  using Sink = std::function<void(std::string_view)>;

  /// The text of the next site, to be stored behind those before it.
  std::string add(const advice::SiteAnswer& site);

  /// Writes the whole document. Where a stored piece cannot be had, its problem comes back and the document
  /// stays without an end, so that nobody takes it for a whole one.
  Checked write(const AnswerFrame& frame, const Stored& stored, const Sink& out) const;

 private:
  /// Where the rank of a target belongs in the stored text.
  struct Slot {
    std::size_t offset = 0;
    advice::Urgency urgency;
  };

  std::vector<std::size_t> ranks() const;

  std::vector<Slot> slots_;
  std::size_t length_ = 0;
  bool empty_ = true;
};

}  // namespace soilclock::report

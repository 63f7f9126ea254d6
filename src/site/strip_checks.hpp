// SPDX-License-Identifier: MIT
// What the strip checks of the log say.
#pragma once

#include <optional>
#include <string>

#include "advice/data/count_rule.hpp"
#include "records/entries/record.hpp"
#include "treatment/observed_control.hpp"

namespace soilclock {

/// The control a strip check shows. Problems (request) as of treatment::observed_control.
Result<treatment::ObservedControl> control_seen(const records::StripCheck& check,
                                                const advice::CountRule& rule);

/// Why a strip check cannot be judged; nothing for one that can and for other kinds.
std::optional<Problem> strip_problem(const records::Record& record, const advice::CountRule& rule);

/// "control 90% (62 to 97%) by Abbott's formula" for a strip check, or why there is none; empty for other
/// kinds.
std::string strip_words(const records::Record& record, const advice::CountRule& rule);

}  // namespace soilclock

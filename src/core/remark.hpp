// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace soilclock {

/// Something worth saying that is no error: outside a model's range, a long gap filled, few past years.
/// `code` is stable and machine readable ("few-past-seasons"), `text` is one plain sentence.
struct Remark {
  std::string code;
  std::string text;
  friend bool operator==(const Remark&, const Remark&) = default;
};

}  // namespace soilclock

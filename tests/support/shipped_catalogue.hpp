// SPDX-License-Identifier: MIT
#pragma once

#include <stdexcept>

#include "advice/data/catalogue.hpp"

namespace soilclock::tests {

/// The compiled-in models and practice, read once.
inline const advice::Catalogue& shipped_catalogue() {
  static const advice::Catalogue catalogue = [] {
    auto loaded = advice::load_catalogue(advice::built_in_files());
    if (!loaded) throw std::runtime_error{describe(loaded.error())};
    return *std::move(loaded);
  }();
  return catalogue;
}

}  // namespace soilclock::tests

// SPDX-License-Identifier: MIT
#include "site/what_if.hpp"

namespace soilclock {

SiteRequest changed(SiteRequest request, const WhatIfChange& change) {
  request.soil_offset = request.soil_offset + change.soil;
  if (change.irrigated) request.irrigation = emergence::Irrigation{*change.irrigated, 0.0};
  return request;
}

}  // namespace soilclock

// SPDX-License-Identifier: MIT
#include "net/requests/query.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"

namespace soilclock::net {

namespace {

std::string encoded(std::string_view text) {
  std::string result;
  for (const char c : text) {
    const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
                       std::string_view{"-._~,"}.find(c) != std::string_view::npos;
    result += plain ? std::string{c} : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return result;
}

}  // namespace

std::string query_text(const Parameters& parameters) {
  std::string text;
  for (const auto& [name, value] : parameters) {
    if (!text.empty()) text += '&';
    text.append(name).append("=").append(encoded(value));
  }
  return text;
}

std::string degrees_text(double degrees, int decimals) {
  std::string text = number_text(degrees, decimals);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with('.')) text.pop_back();
  return text;
}

}  // namespace soilclock::net

// SPDX-License-Identifier: MIT
#include "net/secrets.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <string_view>

#include "net/requests/services.hpp"

namespace soilclock::net {

namespace {

/// So much of the beginning of a secret gives it away.
constexpr std::size_t telling_length = 8;

/// A character and how many bytes it is written with.
struct Written {
  char character = '\0';
  std::size_t length = 0;
};

/// The ASCII character of a number that is written between `prefix` bytes and `suffix` bytes.
std::optional<Written> numbered(std::string_view digits, int base, std::size_t prefix, std::size_t suffix) {
  unsigned code = 0;
  const char* end = digits.data() + digits.size();
  const auto [stopped, fault] = std::from_chars(digits.data(), end, code, base);
  if (digits.empty() || fault != std::errc{} || stopped != end || code >= 0x80) return std::nullopt;
  return Written{static_cast<char>(code), prefix + digits.size() + suffix};
}

/// A character of HTML: "&#47;", "&#x2F;" or "&amp;".
std::optional<Written> html_escape(std::string_view text) {
  constexpr std::size_t longest = 12;
  const auto end = text.substr(0, longest).find(';');
  if (end == std::string_view::npos) return std::nullopt;
  const std::string_view name = text.substr(1, end - 1);
  if (name.starts_with("#x") || name.starts_with("#X")) return numbered(name.substr(2), 16, 3, 1);
  if (name.starts_with('#')) return numbered(name.substr(1), 10, 2, 1);
  using Named = std::pair<std::string_view, char>;
  constexpr std::array named{Named{"amp", '&'}, Named{"quot", '"'}, Named{"lt", '<'}, Named{"gt", '>'},
                             Named{"apos", '\''}};
  const auto* found = std::find_if(named.begin(), named.end(), [&](Named n) { return n.first == name; });
  if (found == named.end()) return std::nullopt;
  return Written{found->second, name.size() + 2};
}

/// The character whose escape a text begins with.
std::optional<Written> escape_at(std::string_view text) {
  if (text.starts_with("\\u") && text.size() >= 6) return numbered(text.substr(2, 4), 16, 2, 0);
  if (text.starts_with('\\') && text.size() >= 2) return Written{text[1], 2};
  if (text.starts_with('%') && text.size() >= 3) return numbered(text.substr(1, 2), 16, 1, 0);
  if (text.starts_with('&')) return html_escape(text);
  if (text.starts_with('+')) return Written{' ', 1};
  return std::nullopt;
}

bool same_letter(char a, char b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return lower(a) == lower(b);
}

/// How many bytes of the text write this character; zero: it begins with another.
std::size_t bytes_of(char wanted, std::string_view text) {
  const auto escape = escape_at(text);
  if (escape && same_letter(escape->character, wanted)) return escape->length;
  return !text.empty() && same_letter(text.front(), wanted) ? 1 : 0;
}

/// How many bytes at the beginning of the text are the secret, or enough of it to give it away.
std::size_t bytes_of_secret(std::string_view secret, std::string_view text) {
  std::size_t bytes = 0;
  std::size_t known = 0;
  while (known < secret.size()) {
    const std::size_t more = bytes_of(secret[known], text.substr(bytes));
    if (more == 0) break;
    bytes += more;
    ++known;
  }
  return known >= std::min(secret.size(), telling_length) ? bytes : 0;
}

std::string without(std::string_view secret, std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const std::size_t bytes = bytes_of_secret(secret, text);
    if (bytes > 0)
      result += "***";
    else
      result += text.front();
    text.remove_prefix(std::max<std::size_t>(bytes, 1));
  }
  return result;
}

}  // namespace

std::string redact(std::string text, const std::vector<std::pair<std::string, std::string>>& secret_headers) {
  for (const auto& [name, secret] : secret_headers) {
    if (!secret.empty()) text = without(secret, text);
  }
  return text;
}

Problem redact(Problem problem, const std::vector<std::pair<std::string, std::string>>& secret_headers) {
  for (std::string* text : {&problem.what, &problem.where.file, &problem.where.json_pointer, &problem.found,
                            &problem.expected, &problem.remedy})
    *text = redact(std::move(*text), secret_headers);
  return problem;
}

Problem redact(Problem problem, const Service& service) {
  return redact(std::move(problem), {{"key", service.key}});
}

}  // namespace soilclock::net

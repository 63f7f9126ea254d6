// SPDX-License-Identifier: MIT
#include "net/url.hpp"

#include "core/text.hpp"

namespace soilclock::net {

std::optional<Url> Url::moved_to(const std::string& location) const {
  const CurlCalls& curl = *curl_calls();
  Url url{std::unique_ptr<CURLU, Closer>{curl.url_dup(handle_.get())}};
  if (curl.url_set(url.handle_.get(), CURLUPART_URL, location.c_str(), CURLU_DISALLOW_USER) != CURLUE_OK)
    return std::nullopt;
  return url;
}

std::string Url::host() const { return lowered(part(CURLUPART_HOST)); }

std::string Url::shown() const {
  const std::string port = part(CURLUPART_PORT);
  return port.empty() ? host() : host() + ":" + port;
}

bool Url::same_host_and_port(const Url& other) const {
  const auto port = [](const Url& url) { return url.part(CURLUPART_PORT, CURLU_DEFAULT_PORT); };
  return host() == other.host() && port(*this) == port(other);
}

std::string Url::part(CURLUPart which, unsigned flags) const {
  const CurlCalls& curl = *curl_calls();
  char* text = nullptr;
  if (curl.url_get(handle_.get(), which, &text, flags) != CURLUE_OK) return {};
  std::string result{text};
  curl.free(text);
  return result;
}

}  // namespace soilclock::net

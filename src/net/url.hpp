// SPDX-License-Identifier: MIT
// An address as the network library itself understands it, so that what is checked is what is asked. Works
// only where that library is (`curl_calls`).
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "net/curl_calls.hpp"

namespace soilclock::net {

class Url {
 public:
  /// Nothing when it is no absolute address of a known scheme, or holds a user's name.
  static std::optional<Url> parsed(const std::string& text) { return Url{}.moved_to(text); }

  /// The address a redirect leads to from here; `location` may be relative.
  std::optional<Url> moved_to(const std::string& location) const;

  std::string text() const { return part(CURLUPART_URL); }
  std::string host() const;
  bool is_secure() const { return part(CURLUPART_SCHEME) == "https"; }
  bool on_loopback() const { return host() == "127.0.0.1" || host() == "[::1]" || host() == "localhost"; }
  bool allowed() const { return is_secure() || (part(CURLUPART_SCHEME) == "http" && on_loopback()); }

  /// For people: the host, with its port when that is an unusual one.
  std::string shown() const;

  bool same_host_and_port(const Url& other) const;

 private:
  struct Closer {
    void operator()(CURLU* url) const { curl_calls()->url_cleanup(url); }
  };

  Url() : handle_{curl_calls()->url()} {}
  explicit Url(std::unique_ptr<CURLU, Closer> handle) : handle_{std::move(handle)} {}

  std::string part(CURLUPart which, unsigned flags = 0) const;

  std::unique_ptr<CURLU, Closer> handle_;
};

}  // namespace soilclock::net

// SPDX-License-Identifier: MIT
// Asks one service after another, one request at a time.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "net/requests/http_request.hpp"

namespace soilclock::net {

struct HttpAnswer {
  int status = 0;
  std::string host;  ///< that gave it, with its port where that is an unusual one
  std::string content_type;
  std::string body;
};

struct ClientSettings {
  std::string user_agent;
  std::string contact;  ///< whom a service may write to, beside the agent; empty: not said
  std::string ca_file;  ///< certificates to trust instead of the system's; empty: the system's
  std::chrono::milliseconds connect_limit{10'000};
  std::chrono::milliseconds attempt_limit{60'000};  ///< for one attempt, all of it
  std::chrono::milliseconds stall_limit{20'000};    ///< less than 50 bytes a second for so long: given up
  std::size_t size_limit = std::size_t{64} << 20U;  ///< bytes of an unpacked body
  int redirects = 3;
  int attempts = 4;
  std::chrono::milliseconds first_pause{
      1'000};  ///< before the second attempt; each next pause is four times as long
  std::chrono::milliseconds longest_pause{60'000};
  /// Judgment: for an answer with all its requests, attempts and pauses. Two attempts of full length fit, and
  /// all four where the service fails at once; a user will not wait longer without a sign.
  std::chrono::milliseconds total_limit{120'000};
};

class HttpClient {
 public:
  /// Waits for so long; tests give one that only counts.
  using Pause = std::function<void(std::chrono::milliseconds)>;
  explicit HttpClient(ClientSettings settings, Pause pause = {});
  HttpClient(HttpClient&&) noexcept;
  HttpClient& operator=(HttpClient&&) noexcept;
  ~HttpClient();

  /// The answer with status 200 and a body of the kind expected. Tried again, with growing pauses, after 429,
  /// 500, 502, 503, 504 and time-outs only. Problems (environment): no connection, no trust in the
  /// certificate, a redirect to anything but https (http on the loopback), too long, too large, a body that
  /// is no answer (HTML), or another status; with the reason the service gives in its body. A problem names
  /// the host and never the key. `spent` is what earlier requests for the same answer took of its total
  /// limit.
  Result<HttpAnswer> send(const HttpRequest& request, std::chrono::milliseconds spent = {});
  /// How often the latest request was asked, whatever came of it: the service may have counted each time.
  /// Redirects are part of an attempt. Zero before the first request, and for one that was not sent.
  int attempts() const;
  /// Whether the latest request was refused for what it asks (400, 404, 422): another request may do well.
  bool refused() const;
  /// The total limit's share that is used up after the latest request: attempts, pauses, and what it began
  /// with.
  std::chrono::milliseconds spent() const;
  /// Whether the latest request failed because its time was up: at the last attempt, or for another one.
  bool out_of_time() const;

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

/// Why this machine cannot ask anyone: the network library is not there. Nothing where it is.
std::optional<Problem> network_lacking();

/// Whether a URL may be asked: https, or http on the loopback of this machine (127.0.0.1, [::1], localhost).
/// Where the network library is lacking nothing can be asked, and any URL may be.
bool allowed_url(const std::string& url);

/// Whether a text may go into a header: control characters, line breaks before all, would end it.
bool one_line(std::string_view text);

}  // namespace soilclock::net

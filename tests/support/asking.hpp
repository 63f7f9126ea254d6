// SPDX-License-Identifier: MIT
// A client for tests: short limits, pauses that are only written down, and questions in one line.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "net/http_client.hpp"
#include "support/loopback_server.hpp"

namespace soilclock::tests {

using std::chrono::milliseconds;

/// Settings as shipped but for the name; the tests of limits set those they are about.
inline net::ClientSettings named_settings() {
  net::ClientSettings settings;
  settings.user_agent = "soilclock/test";
  settings.contact = "turf@club.example";
  return settings;
}

/// Asks, and keeps the pauses the client would have made.
class Asker {
 public:
  explicit Asker(net::ClientSettings settings = named_settings())
      : client{std::move(settings), [this](milliseconds pause) { pauses.push_back(pause); }} {}
  Asker(const Asker&) = delete;
  Asker& operator=(const Asker&) = delete;

  Result<net::HttpAnswer> ask(const std::string& url, net::BodyKind expects = net::BodyKind::json) {
    net::HttpRequest request;
    request.url = url;
    request.expects = expects;
    return client.send(request);
  }
  /// What went wrong, in one line; empty when nothing did.
  std::string refusal(const std::string& url, net::BodyKind expects = net::BodyKind::json) {
    const auto answer = ask(url, expects);
    return answer ? std::string{} : describe(answer.error());
  }

  std::vector<milliseconds> pauses;
  net::HttpClient client;
};

/// A server that gives the replies one after another, the last one again and again.
inline LoopbackServer::Handler in_turn(std::vector<Reply> replies) {
  return [replies = std::move(replies), next = std::size_t{0}](const SeenRequest&) mutable {
    const Reply reply = replies[next];
    next = std::min(next + 1, replies.size() - 1);
    return reply;
  };
}

inline Reply always(int status, std::string body, std::string type = "application/json") {
  Reply reply;
  reply.status = status;
  reply.body = std::move(body);
  reply.content_type = std::move(type);
  return reply;
}

inline Reply raw(std::string bytes) {
  Reply reply;
  reply.raw = std::move(bytes);
  return reply;
}

inline Reply redirect(int status, const std::string& location) {
  Reply reply = always(status, "moved", "text/plain");
  reply.headers = {{"Location", location}};
  return reply;
}

}  // namespace soilclock::tests

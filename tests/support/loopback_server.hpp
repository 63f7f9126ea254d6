// SPDX-License-Identifier: MIT
// A small HTTP/1.1 server on this machine's loopback, for tests of what asks the network. It answers what a
// handler says, byte for byte where that is wanted, at any speed, and remembers what it was asked. Use:
//   LoopbackServer server{[](const SeenRequest& asked) { return Reply{200, "{}"}; }};
//   ... ask server.url() + "/path" ...; look at server.requests()
#pragma once

#include <netinet/tcp.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cctype>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <thread>
#include <utility>
#include <vector>

#include "support/loopback_port.hpp"

namespace soilclock::tests {

/// A request as it came. Header names are in lower case; parameters are those of the address or, for a form,
/// of the body, percent signs decoded.
struct SeenRequest {
  std::string method;
  std::string path;    ///< without the query
  std::string target;  ///< as it stood in the request line
  std::map<std::string, std::string> parameters;
  std::map<std::string, std::string> headers;
  std::string body;
};

/// What is sent back. `raw` replaces status, type, headers and body and is followed by the end of the
/// connection; a raw reply of no bytes at all is asked for with `hang_up`.
struct Reply {
  int status = 200;
  std::string body = {};
  std::string content_type = "application/json";
  std::vector<std::pair<std::string, std::string>> headers = {};
  std::string raw = {};
  std::chrono::milliseconds between_bytes{0};      ///< body (or raw reply) dripped byte by byte
  std::chrono::milliseconds before{0};             ///< silence before the first byte
  std::optional<std::size_t> claimed_length = {};  ///< another Content-Length than that of the body
  std::size_t repeat_body = 1;                     ///< the body so many times, for large ones
  bool hang_up = false;                            ///< the connection ends without a byte
};

class LoopbackServer {
 public:
  using Handler = std::function<Reply(const SeenRequest&)>;

  /// Listens on 127.0.0.1 on a port the system chooses. The handler is called from one thread a connection,
  /// never from two at once.
  explicit LoopbackServer(Handler handler)
      : handler_{std::move(handler)}, door_{[this] { receive_guests(); }} {}
  LoopbackServer(const LoopbackServer&) = delete;
  LoopbackServer& operator=(const LoopbackServer&) = delete;
  ~LoopbackServer() {
    stop_ = true;
    port_.wake();
    door_.join();
    {
      const std::lock_guard hold{mutex_};
      for (const int connection : open_) shutdown(connection, SHUT_RDWR);
    }
    for (std::thread& guest : guests_) guest.join();
  }

  /// "http://127.0.0.1:PORT".
  std::string url() const { return port_.url(); }
  int port() const { return port_.number(); }

  /// All complete requests so far, in the order they came.
  std::vector<SeenRequest> requests() const {
    const std::lock_guard hold{mutex_};
    return requests_;
  }
  void forget_requests() const {
    const std::lock_guard hold{mutex_};
    requests_.clear();
  }
  /// How many connections were accepted.
  int connections() const { return connections_; }

 private:
  void receive_guests() {
    while (!stop_) {
      const int connection = port_.accept_one();
      if (connection < 0) continue;
      ++connections_;
      const int at_once = 1;  // head and body go in two pieces; neither waits for the other to be confirmed
      setsockopt(connection, IPPROTO_TCP, TCP_NODELAY, &at_once, sizeof at_once);
      const std::lock_guard hold{mutex_};
      open_.push_back(connection);
      guests_.emplace_back([this, connection] { serve(connection); });
    }
  }

  void serve(int connection) {
    std::string unread;
    while (!stop_ && answer_one(connection, unread)) {
    }
    const std::lock_guard hold{mutex_};
    open_.erase(std::find(open_.begin(), open_.end(), connection));
    close(connection);
  }

  /// False when the connection is at its end. `unread` keeps what came beyond the request.
  bool answer_one(int connection, std::string& unread) {
    while (unread.find("\r\n\r\n") == std::string::npos) {
      if (!receive(connection, unread)) return false;
    }
    const std::size_t head = unread.find("\r\n\r\n");
    SeenRequest request = parsed(unread.substr(0, head));
    unread.erase(0, head + 4);
    const auto length = request.headers.find("content-length");
    const std::size_t wanted = length == request.headers.end() ? 0 : std::stoul(length->second);
    while (unread.size() < wanted) {
      if (!receive(connection, unread)) return false;
    }
    request.body = unread.substr(0, wanted);
    unread.erase(0, wanted);
    if (request.method == "POST") read_parameters(request.body, request.parameters);
    {
      const std::lock_guard hold{mutex_};
      requests_.push_back(request);
    }
    const std::unique_lock one_at_a_time{handling_};
    const Reply reply = handler_(request);
    return send_reply(connection, reply);
  }

  static bool receive(int connection, std::string& text) {
    char bytes[4096];
    const ssize_t count = recv(connection, bytes, sizeof bytes, 0);
    if (count <= 0) return false;
    text.append(bytes, static_cast<std::size_t>(count));
    return true;
  }

  bool put(int connection, std::string_view bytes) const {
    while (!bytes.empty() && !stop_) {
      const ssize_t sent = ::send(connection, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return bytes.empty();
  }
  bool drip(int connection, std::string_view bytes, std::chrono::milliseconds between) const {
    if (between.count() == 0) return put(connection, bytes);
    for (const char& byte : bytes) {
      if (!put(connection, {&byte, 1}) || !wait(between)) return false;
    }
    return true;
  }
  /// False when the server is closed meanwhile.
  bool wait(std::chrono::milliseconds length) const {
    const auto end = std::chrono::steady_clock::now() + length;
    while (!stop_ && std::chrono::steady_clock::now() < end)
      std::this_thread::sleep_for(std::min(length, std::chrono::milliseconds{5}));
    return !stop_;
  }

  bool send_reply(int connection, const Reply& reply) const {
    if (!wait(reply.before) || reply.hang_up) return false;
    if (!reply.raw.empty()) {
      (void)drip(connection, reply.raw, reply.between_bytes);
      return false;
    }
    const std::size_t length = reply.claimed_length.value_or(reply.body.size() * reply.repeat_body);
    std::string head = "HTTP/1.1 " + std::to_string(reply.status) + " Said\r\n";
    if (!reply.content_type.empty()) head += "Content-Type: " + reply.content_type + "\r\n";
    head += "Content-Length: " + std::to_string(length) + "\r\n";
    for (const auto& [name, value] : reply.headers) head += name + ": " + value + "\r\n";
    if (!put(connection, head + "\r\n")) return false;
    for (std::size_t i = 0; i < reply.repeat_body; ++i) {
      if (!drip(connection, reply.body, reply.between_bytes)) return false;
    }
    return length == reply.body.size() * reply.repeat_body;
  }

  static std::string decoded(const std::string& text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '%' && i + 2 < text.size()) {
        result += static_cast<char>(std::stoi(text.substr(i + 1, 2), nullptr, 16));
        i += 2;
      } else {
        result += text[i];
      }
    }
    return result;
  }

  static void read_parameters(const std::string& text, std::map<std::string, std::string>& parameters) {
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find('&', at), text.size());
      const std::string item = text.substr(at, end - at);
      const auto equals = item.find('=');
      if (equals != std::string::npos)
        parameters[decoded(item.substr(0, equals))] = decoded(item.substr(equals + 1));
      at = end + 1;
    }
  }

  static SeenRequest parsed(const std::string& head) {
    SeenRequest request;
    const std::string line = head.substr(0, head.find("\r\n"));
    const auto first = line.find(' ');
    const auto last = line.rfind(' ');
    request.method = line.substr(0, first);
    request.target = line.substr(first + 1, last - first - 1);
    request.path = request.target.substr(0, request.target.find('?'));
    if (request.path.size() < request.target.size())
      read_parameters(request.target.substr(request.path.size() + 1), request.parameters);
    std::size_t at = head.find("\r\n");
    while (at != std::string::npos) {
      const std::size_t end = head.find("\r\n", at + 2);
      const std::string header = head.substr(at + 2, end == std::string::npos ? end : end - at - 2);
      const auto colon = header.find(": ");
      std::string name = header.substr(0, colon);
      for (char& c : name) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      if (colon != std::string::npos) request.headers[name] = header.substr(colon + 2);
      at = end;
    }
    return request;
  }

  Handler handler_;
  LoopbackPort port_;
  std::atomic<bool> stop_{false};
  std::atomic<int> connections_{0};
  std::mutex handling_;
  mutable std::mutex mutex_;  // guards what follows
  mutable std::vector<SeenRequest> requests_;
  std::vector<int> open_;
  std::vector<std::thread> guests_;  // touched by the door only, and by the destructor after it has closed
  std::thread door_;                 // last: it uses the others
};

}  // namespace soilclock::tests

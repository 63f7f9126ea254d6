// SPDX-License-Identifier: MIT
#include "net/http_client.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <stdexcept>
#include <thread>

#include "core/text.hpp"
#include "net/curl_calls.hpp"
#include "net/ignored_pipe_signal.hpp"
#include "net/requests/transfer.hpp"
#include "net/retry_policy.hpp"
#include "net/secrets.hpp"
#include "net/url.hpp"

namespace soilclock::net {

namespace {

using std::chrono::milliseconds;
using Clock = std::chrono::steady_clock;

/// Headers of one answer; the services send about two thousand bytes.
constexpr std::size_t most_header_bytes = std::size_t{64} << 10U;
/// Bytes a second below which a line counts as silent.
constexpr long silent_below = 50;

/// What the callbacks fill while an answer comes in.
struct Intake {
  Transfer transfer;
  std::size_t size_limit = 0;
  std::size_t header_bytes = 0;
  LineFault stopped = LineFault::none;  ///< why a callback ended the transfer
};

/// The body comes here unpacked, so that a small parcel cannot blow up to any size.
std::size_t take_body(char* bytes, std::size_t size, std::size_t count, void* target) {
  auto& intake = *static_cast<Intake*>(target);
  const std::size_t length = size * count;
  if (intake.transfer.body.size() + length > intake.size_limit) {
    intake.stopped = LineFault::too_large;
    return 0;  // anything but `length` ends the transfer
  }
  intake.transfer.body.append(bytes, length);
  return length;
}

std::optional<std::chrono::seconds> whole_seconds(std::string_view text) {
  const auto number = parse_number(text);
  if (!number || *number < 0.0 || *number > 1e9) return std::nullopt;
  return std::chrono::seconds{static_cast<long long>(*number)};
}

std::size_t take_header(char* bytes, std::size_t size, std::size_t count, void* target) {
  auto& intake = *static_cast<Intake*>(target);
  const std::string_view line{bytes, size * count};
  intake.header_bytes += line.size();
  if (intake.header_bytes > most_header_bytes) {
    intake.stopped = LineFault::too_many_heads;
    return 0;
  }
  const auto colon = line.find(':');
  if (colon == std::string_view::npos) return line.size();
  const std::string name = lowered(line.substr(0, colon));
  const std::string_view value = trimmed(line.substr(colon + 1));
  if (name == "location") intake.transfer.location = value;
  if (name == "retry-after") intake.transfer.retry_after = whole_seconds(value);
  return line.size();
}

LineFault fault_of(CURLcode code) {
  switch (code) {
    case CURLE_OK:
      return LineFault::none;
    case CURLE_COULDNT_RESOLVE_HOST:
      return LineFault::no_name;
    case CURLE_COULDNT_CONNECT:
      return LineFault::no_connection;
    case CURLE_COULDNT_RESOLVE_PROXY:
    case CURLE_PROXY:
      return LineFault::proxy;
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CONNECT_ERROR:
    case CURLE_SSL_ISSUER_ERROR:
      return LineFault::no_trust;
    case CURLE_SSL_CACERT_BADFILE:
      return LineFault::bad_ca_file;
    case CURLE_OPERATION_TIMEDOUT:
      return LineFault::time_out;
    case CURLE_GOT_NOTHING:
      return LineFault::nothing;
    case CURLE_PARTIAL_FILE:
    case CURLE_RECV_ERROR:
    case CURLE_SEND_ERROR:
      return LineFault::cut;
    case CURLE_BAD_CONTENT_ENCODING:
      return LineFault::damaged;
    case CURLE_WEIRD_SERVER_REPLY:
    case CURLE_UNSUPPORTED_PROTOCOL:
      return LineFault::not_http;
    default:
      return LineFault::other;
  }
}

class HeaderList {
 public:
  HeaderList() = default;
  HeaderList(const HeaderList&) = delete;
  HeaderList& operator=(const HeaderList&) = delete;
  ~HeaderList() { curl_calls()->slist_free_all(list_); }
  void add(const std::pair<std::string, std::string>& header) {
    list_ = curl_calls()->slist_append(list_, (header.first + ": " + header.second).c_str());
  }
  curl_slist* get() const { return list_; }

 private:
  curl_slist* list_ = nullptr;
};

}  // namespace

class HttpClient::Impl {
 public:
  Impl(ClientSettings settings, Pause pause) : settings_{std::move(settings)}, pause_{std::move(pause)} {
    if (!pause_) pause_ = [](milliseconds length) { std::this_thread::sleep_for(length); };
  }
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;
  ~Impl() {
    if (handle_ == nullptr) return;
    const IgnoredPipeSignal calm;  // closing connections write to the peer
    curl_calls()->easy_cleanup(handle_);
  }

  Result<HttpAnswer> send(const HttpRequest& request, milliseconds spent) {
    attempts_ = 0;
    status_ = 0;
    spent_ = spent;
    out_of_time_ = false;
    if (auto lacking = network_lacking()) return fail(std::move(*lacking));
    start();
    auto answer = checked_and_sent(request);
    if (!answer) return fail(redact(answer.error(), request.secret_headers));
    return answer;
  }

  int attempts() const { return attempts_; }
  bool refused() const { return status_ == 400 || status_ == 404 || status_ == 422; }
  milliseconds spent() const { return spent_; }
  bool out_of_time() const { return out_of_time_; }

 private:
  void start() {
    if (handle_ != nullptr) return;
    static const CURLcode started = curl_calls()->global_init(CURL_GLOBAL_DEFAULT);
    handle_ = started == CURLE_OK ? curl_calls()->easy_init() : nullptr;
    if (handle_ == nullptr) throw std::runtime_error("the network library does not start");
  }

  Result<HttpAnswer> checked_and_sent(const HttpRequest& request) {
    const auto url = Url::parsed(request.url);
    if (!url || !url->allowed()) return fail(bad_address());
    for (const auto* headers : {&request.headers, &request.secret_headers}) {
      for (const auto& [name, value] : *headers) {
        if (!one_line(name) || !one_line(value)) return fail(bad_header(url->shown()));
      }
    }
    return send_until_answered(*url, request);
  }

  Result<HttpAnswer> send_until_answered(const Url& url, const HttpRequest& request) {
    RetryPolicy retries{settings_, spent_};
    for (;;) {
      const auto begin = Clock::now();
      ++attempts_;
      auto transfer = follow(url, request, retries.attempt_limit());
      if (!transfer) return fail(transfer.error());
      status_ = transfer->fault == LineFault::none ? transfer->status : 0;
      const auto taken = std::chrono::ceil<milliseconds>(Clock::now() - begin);
      spent_ = retries.spent() + taken;
      if (!problem_with(*transfer, request.expects, settings_.size_limit))
        return HttpAnswer{transfer->status, transfer->host, std::move(transfer->content_type),
                          std::move(transfer->body)};
      const auto pause = retries.pause_after(*transfer, taken);
      if (!pause) {
        out_of_time_ = transfer->fault == LineFault::time_out || retries.used_up();
        return fail(final_problem(std::move(*transfer), request));
      }
      pause_(*pause);
    }
  }

  /// The problem as the user reads it. The secret is taken out of what the service said before that is cut,
  /// and again out of all words when its escapes are gone (in `send`).
  Problem final_problem(Transfer transfer, const HttpRequest& request) const {
    const Problem as_it_came = problem_with(transfer, request.expects, settings_.size_limit).value();
    transfer.body = redact(std::move(transfer.body), request.secret_headers);
    transfer.detail = redact(std::move(transfer.detail), request.secret_headers);
    Problem problem = problem_with(transfer, request.expects, settings_.size_limit).value_or(as_it_came);
    if (attempts_ > 1) problem.what += fmt::format("; asked {} times", attempts_);
    return problem;
  }

  /// One attempt: the request with its redirects. Each address is looked at before it is asked.
  Result<Transfer> follow(const Url& first, const HttpRequest& request, milliseconds limit) {
    const auto end = Clock::now() + limit;
    std::optional<Url> url = Url::parsed(first.text());
    bool as_form = !request.form.empty();
    for (int redirects = 0;; ++redirects) {
      const auto left = std::chrono::ceil<milliseconds>(end - Clock::now());
      Transfer transfer =
          exchange(*url, request, as_form, url->same_host_and_port(first), std::max(left, milliseconds{1}));
      constexpr std::array moving{301, 302, 303, 307, 308};
      const bool moved = transfer.fault == LineFault::none &&
                         std::find(moving.begin(), moving.end(), transfer.status) != moving.end() &&
                         !transfer.location.empty();
      if (!moved) return transfer;
      if (redirects == settings_.redirects)
        return fail(too_many_redirects(first.shown(), settings_.redirects));
      auto next = url->moved_to(transfer.location);
      if (!next || !next->allowed() || (url->is_secure() && !next->is_secure())) {
        const std::string target = next ? redact(next->host(), request.secret_headers) : "";
        return fail(bad_redirect(url->shown(), target));
      }
      // 303 asks for a look at another page; the others move the same question.
      as_form = as_form && transfer.status != 303;
      url = std::move(next);
    }
  }

  /// `at_home`: the host that was asked first; no other learns the secrets or the contact.
  Transfer exchange(const Url& url, const HttpRequest& request, bool as_form, bool at_home,
                    milliseconds limit) {
    Intake intake;
    intake.size_limit = settings_.size_limit;
    intake.transfer.host = url.shown();
    curl_calls()->easy_reset(handle_);  // keeps the connections
    HeaderList headers;
    for (const auto& header : request.headers) headers.add(header);
    if (at_home) {
      for (const auto& header : request.secret_headers) headers.add(header);
    }
    set(CURLOPT_HTTPHEADER, headers.get());
    set_address(url);
    set_user_agent(at_home);
    set_limits(limit);
    if (as_form) {
      set(CURLOPT_POSTFIELDSIZE_LARGE, static_cast<curl_off_t>(request.form.size()));
      set(CURLOPT_POSTFIELDS, request.form.c_str());
    }
    set(CURLOPT_WRITEFUNCTION, take_body);
    set(CURLOPT_WRITEDATA, &intake);
    set(CURLOPT_HEADERFUNCTION, take_header);
    set(CURLOPT_HEADERDATA, &intake);
    perform(intake);
    return std::move(intake.transfer);
  }

  void perform(Intake& intake) {
    Transfer& transfer = intake.transfer;
    std::array<char, CURL_ERROR_SIZE> words{};
    set(CURLOPT_ERRORBUFFER, words.data());
    CURLcode code = CURLE_OK;
    {
      const IgnoredPipeSignal calm;
      code = curl_calls()->easy_perform(handle_);
    }
    set(CURLOPT_ERRORBUFFER, nullptr);
    long status = 0;
    curl_calls()->easy_getinfo(handle_, CURLINFO_RESPONSE_CODE, &status);
    transfer.status = static_cast<int>(status);
    long proxy_status = 0;
    curl_calls()->easy_getinfo(handle_, CURLINFO_HTTP_CONNECTCODE, &proxy_status);
    const char* type = nullptr;
    curl_calls()->easy_getinfo(handle_, CURLINFO_CONTENT_TYPE, &type);
    if (type != nullptr) transfer.content_type = type;
    transfer.fault = intake.stopped != LineFault::none ? intake.stopped : fault_of(code);
    if (code != CURLE_OK && proxy_status >= 400) transfer.fault = LineFault::proxy;
    if (code != CURLE_OK)
      transfer.detail = words[0] != '\0' ? words.data() : curl_calls()->easy_strerror(code);
  }

  void set_address(const Url& url) {
    set(CURLOPT_URL, url.text().c_str());
    set(CURLOPT_PROTOCOLS_STR, url.is_secure() ? "https" : "http");
    // Plain text is for this machine only, so it never takes the way over a proxy.
    if (!url.is_secure()) set(CURLOPT_PROXY, "");
    set(CURLOPT_FOLLOWLOCATION, 0L);
    set(CURLOPT_HTTP_VERSION, static_cast<long>(CURL_HTTP_VERSION_1_1));
    set(CURLOPT_SSLVERSION, static_cast<long>(CURL_SSLVERSION_TLSv1_2));
    set(CURLOPT_SSL_VERIFYPEER, 1L);
    set(CURLOPT_SSL_VERIFYHOST, 2L);
    if (!settings_.ca_file.empty()) {
      set(CURLOPT_CAINFO, settings_.ca_file.c_str());
      set(CURLOPT_CAPATH, nullptr);  // instead of the system's, not beside them
    }
    set(CURLOPT_ACCEPT_ENCODING, "");  // all that the library can unpack
  }

  void set_user_agent(bool with_contact) {
    std::string agent = settings_.user_agent;
    if (with_contact && !settings_.contact.empty()) agent += " (" + settings_.contact + ")";
    set(CURLOPT_USERAGENT, agent.c_str());  // the library copies it
  }

  void set_limits(milliseconds limit) {
    set(CURLOPT_NOSIGNAL, 1L);
    set(CURLOPT_CONNECTTIMEOUT_MS, static_cast<long>(settings_.connect_limit.count()));
    set(CURLOPT_TIMEOUT_MS, static_cast<long>(limit.count()));
    const auto stall = std::chrono::ceil<std::chrono::seconds>(settings_.stall_limit);
    set(CURLOPT_LOW_SPEED_LIMIT, silent_below);
    set(CURLOPT_LOW_SPEED_TIME, static_cast<long>(stall.count()));
  }

  /// An option that is not taken would be a check that is not made.
  template <class Value>
  void set(CURLoption option, Value value) {
    const CURLcode code = curl_calls()->easy_setopt(handle_, option, value);
    if (code != CURLE_OK)
      throw std::runtime_error(std::string{"the network library refuses a setting: "} +
                               curl_calls()->easy_strerror(code));
  }

  ClientSettings settings_;
  Pause pause_;
  CURL* handle_ = nullptr;
  int attempts_ = 0;  ///< of the latest request
  int status_ = 0;    ///< of its last attempt; zero without an answer
  milliseconds spent_{0};
  bool out_of_time_ = false;
};

HttpClient::HttpClient(ClientSettings settings, Pause pause)
    : impl_{std::make_unique<Impl>(std::move(settings), std::move(pause))} {}
HttpClient::HttpClient(HttpClient&&) noexcept = default;
HttpClient& HttpClient::operator=(HttpClient&&) noexcept = default;
HttpClient::~HttpClient() = default;

Result<HttpAnswer> HttpClient::send(const HttpRequest& request, milliseconds spent) {
  return impl_->send(request, spent);
}
int HttpClient::attempts() const { return impl_->attempts(); }
bool HttpClient::refused() const { return impl_->refused(); }
milliseconds HttpClient::spent() const { return impl_->spent(); }
bool HttpClient::out_of_time() const { return impl_->out_of_time(); }

bool one_line(std::string_view text) {
  return std::none_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 || byte == 0x7F;
  });
}

std::optional<Problem> network_lacking() {
  if (curl_calls() != nullptr) return std::nullopt;
  return no_network_library();
}

bool allowed_url(const std::string& url) {
  if (curl_calls() == nullptr) return true;
  const auto parsed = Url::parsed(url);
  return parsed && parsed->allowed();
}

}  // namespace soilclock::net

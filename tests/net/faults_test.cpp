// SPDX-License-Identifier: MIT
// Each fault a service or a line can have, and what is made of it.
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

#include "support/asking.hpp"
#include "support/closed_door.hpp"
#include "support/record_files.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using Catch::Contains;

namespace {

using Pauses = std::vector<milliseconds>;

constexpr const char* page = "<!DOCTYPE html>\n<html><body>Service unavailable</body></html>";

/// The refusal of a server that always says the same, after so many requests.
std::string refusal_of(const Reply& reply, std::size_t requests,
                       net::BodyKind expects = net::BodyKind::json) {
  LoopbackServer server{[&](const SeenRequest&) { return reply; }};
  Asker asker;
  const auto answer = asker.ask(server.url() + "/v1/archive", expects);
  REQUIRE_FALSE(answer);
  CHECK(answer.error().family == Family::environment);
  CHECK(server.requests().size() == requests);
  CHECK(asker.pauses.size() == requests - 1);
  const std::string text = describe(answer.error());
  CHECK_THAT(text, Contains("127.0.0.1:" + std::to_string(server.port())));
  return text;
}

/// zlib's "deflate" format would need a checksum; this is the raw one inside gzip: `size` zero bytes as
/// copies of length 258 and distance 1 under the fixed codes (RFC 1951), about 1/160 of their size.
std::string packed_zeros(std::size_t size) {
  std::string bytes = std::string("\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\xff", 10);
  unsigned pending = 0;
  int count = 0;
  const auto put = [&](unsigned bits, int length) {  // lowest bit first
    pending |= bits << count;
    for (count += length; count >= 8; count -= 8, pending >>= 8U) bytes += static_cast<char>(pending & 0xFFU);
  };
  put(0b011, 3);       // the last block, with fixed codes
  put(0b00001100, 8);  // the byte 0: code 00110000
  for (std::size_t done = 1; done < size; done += 258) {
    put(0b10100011, 8);  // length 258: code 11000101
    put(0, 5);           // distance 1
  }
  put(0, 7 + 8);  // end of block, rest of the byte
  return bytes;
}

}  // namespace

TEST_CASE("a refusal for too many calls is waited out") {
  LoopbackServer server{
      in_turn({always(429, R"({"error":true,"reason":"Too many concurrent requests"})"), always(200, "{}")})};
  Asker asker;
  CHECK(asker.refusal(server.url()).empty());
  CHECK(asker.pauses == Pauses{milliseconds{1000}});
}

TEST_CASE("trouble of the service is waited out with growing pauses") {
  LoopbackServer server{in_turn({always(500, "{}"), always(500, "{}"), always(200, "{}")})};
  Asker asker;
  CHECK(asker.refusal(server.url()).empty());
  CHECK(asker.pauses == Pauses{milliseconds{1000}, milliseconds{4000}});
}

TEST_CASE("a service that stays in trouble is asked four times and no more") {
  const int status = GENERATE(500, 502, 503, 504);
  const std::string text = refusal_of(always(status, page, "text/html"), 4);
  CHECK_THAT(text, Contains("status " + std::to_string(status)) && Contains("web page") &&
                       Contains("asked 4 times") && Contains("stored"));
  CHECK_THAT(text, !Contains("<html"));
}

TEST_CASE("pauses grow four times each, up to the longest") {
  net::ClientSettings settings = named_settings();
  settings.attempts = 6;
  settings.total_limit = milliseconds{240'000};
  LoopbackServer server{[](const SeenRequest&) { return always(503, "{}"); }};
  Asker asker{settings};
  CHECK_FALSE(asker.refusal(server.url()).empty());
  CHECK(asker.pauses == Pauses{milliseconds{1000}, milliseconds{4000}, milliseconds{16'000},
                               milliseconds{60'000}, milliseconds{60'000}});
}

TEST_CASE("all attempts and pauses together keep to the total limit") {
  net::ClientSettings settings = named_settings();
  settings.attempts = 100;
  LoopbackServer server{[](const SeenRequest&) { return always(503, "{}"); }};
  Asker asker{settings};
  CHECK_FALSE(asker.refusal(server.url()).empty());
  milliseconds sum{0};
  for (const milliseconds pause : asker.pauses) sum += pause;
  CHECK(sum < settings.total_limit);
  CHECK(sum + settings.longest_pause >= settings.total_limit);
}

TEST_CASE("a pause that the service asks for is kept, unless it is too long") {
  Reply soon = always(429, "{}");
  soon.headers = {{"Retry-After", "30"}};
  LoopbackServer server{in_turn({soon, always(200, "{}")})};
  Asker asker;
  CHECK(asker.refusal(server.url()).empty());
  CHECK(asker.pauses == Pauses{milliseconds{30'000}});
  Reply late = always(429, "{}");
  late.headers = {{"Retry-After", "100"}};  // longer than the longest pause, shorter than all our time
  CHECK_THAT(refusal_of(late, 1), Contains("wait 100 s"));
  Reply by_date = always(503, "{}");
  by_date.headers = {{"Retry-After", "Wed, 21 Oct 2026 07:28:00 GMT"}};
  (void)refusal_of(by_date, 4);
}

TEST_CASE("calls used up for a minute are waited for, those of an hour or a day are not") {
  const auto used_up = [](const std::string& span) {
    return always(429, R"({"error":true,"reason":")" + span + R"( API request limit exceeded. And so on."})");
  };
  LoopbackServer server{in_turn({used_up("Minutely"), always(200, "{}")})};
  Asker asker;
  CHECK(asker.refusal(server.url()).empty());
  CHECK(asker.pauses == Pauses{milliseconds{60'000}});
  CHECK_THAT(refusal_of(used_up("Hourly"), 1), Contains("Hourly API request limit"));
  CHECK_THAT(refusal_of(used_up("Daily"), 1), Contains("Daily API request limit"));
}

TEST_CASE("used-up calls in words that are not known are waited for as any trouble is") {
  const std::string body = GENERATE(
      as<std::string>{}, R"({"error":true,"reason":"You have used up the calls of this minute."})",
      R"({"error":true,"reason":"The Minutely API request limit is exceeded."})",
      R"({"error":true,"reason":"minutely limit"})", R"({"error":true,"reason":["Hourly"]})",
      R"({"error":true,"message":"Daily API request limit exceeded."})", R"("Daily")", "Daily limit", "");
  INFO(body);
  CHECK_THAT(refusal_of(always(429, body), 4), Contains("takes no more calls for now") &&
                                                   Contains("minute, hour or UTC day") &&
                                                   Contains("asked 4 times"));
  LoopbackServer server{
      in_turn({always(429, body), always(429, body), always(429, body), always(200, "{}")})};
  Asker asker;
  CHECK(asker.refusal(server.url()).empty());
  CHECK(asker.pauses == Pauses{milliseconds{1000}, milliseconds{4000}, milliseconds{16'000}});
}

TEST_CASE("used-up calls are told with the service's reason and what to do") {
  const std::string text = refusal_of(
      always(429,
             R"({"error":true,"reason":"Daily API request limit exceeded. Please try again tomorrow."})"),
      1);
  CHECK_THAT(text, Contains("Daily API request limit exceeded. Please try again tomorrow.") &&
                       Contains("minute, hour or UTC day") && Contains("same internet address"));
}

TEST_CASE("a request the service does not take is not repeated, and its reason is told") {
  CHECK_THAT(
      refusal_of(always(400, R"({"error":true,"reason":"Latitude must be in range of -90 to 90."})"), 1),
      Contains("Latitude must be in range") && Contains("status 400"));
  CHECK_THAT(refusal_of(always(400, R"({"errorMessage":"no such station","errorCode":400})"), 1),
             Contains("no such station"));
  CHECK_THAT(refusal_of(always(422, R"({"header":"x","messages":["start is too early","and more"]})"), 1),
             Contains("start is too early") && !Contains("and more"));
  CHECK_THAT(refusal_of(always(404, R"({"title":"Data Unavailable","detail":"Unable to provide data"})"), 1),
             Contains("Unable to provide data") && Contains("status 404"));
}

TEST_CASE("refused access, a page that is not there and an empty answer are final") {
  CHECK_THAT(refusal_of(always(403, page, "text/html"), 1),
             Contains("refuses access") && Contains("contact") && Contains("web page"));
  CHECK_THAT(refusal_of(always(401, "{}"), 1), Contains("key"));
  CHECK_THAT(refusal_of(always(404, "nothing", "text/plain"), 1), Contains("nothing at this address"));
  CHECK_THAT(refusal_of(raw("HTTP/1.1 204 No Content\r\n\r\n"), 1), Contains("sent no data (status 204)"));
  CHECK_THAT(refusal_of(always(200, ""), 1), Contains("empty answer"));
  CHECK_THAT(refusal_of(always(200, " \n\n", "text/csv"), 1, net::BodyKind::text), Contains("empty answer"));
  CHECK_THAT(refusal_of(always(302, ""), 1), Contains("status 302"));
}

TEST_CASE("a web page under status 200 is no answer, whatever is asked") {
  CHECK_THAT(refusal_of(always(200, page, "text/html"), 1), Contains("a web page instead of data"));
  CHECK_THAT(refusal_of(always(200, page, "application/json"), 1), Contains("a web page instead of data"));
  CHECK_THAT(refusal_of(always(200, page, "text/csv"), 1, net::BodyKind::text), Contains("a web page"));
  CHECK_THAT(refusal_of(always(200, "Please sign in", "text/html; charset=utf-8"), 1, net::BodyKind::text),
             Contains("a web page"));
}

TEST_CASE("text where JSON is expected is shown by its beginning") {
  CHECK_THAT(refusal_of(always(200, "maintenance until noon", "text/plain"), 1),
             Contains("other than JSON") && Contains("maintenance until noon"));
}

TEST_CASE("an answer that is cut off is none") {
  Reply cut = always(200, R"({"hourly": [1, 2)");
  cut.claimed_length = 1000;
  CHECK_THAT(refusal_of(cut, 1), Contains("was cut off"));
  CHECK_THAT(refusal_of(raw("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n20\r\n{\"a\": 1"), 1),
             Contains("was cut off"));
  const std::string stopped =
      R"({"daily":{"time":["2024-05-01"],"temperature_2m_max":[20.8Unexpected error while )"
      R"(streaming data: timeoutReached)";
  CHECK_THAT(refusal_of(always(200, stopped), 1),
             Contains("was cut off") && Contains("error while streaming data: timeoutReached"));
}

TEST_CASE("a packed answer that is damaged or packed in an unknown way is none") {
  Reply damaged = always(200, std::string("\x1f\x8b\x08\x00 not packed at all", 23));
  damaged.headers = {{"Content-Encoding", "gzip"}};
  CHECK_THAT(refusal_of(damaged, 1), Contains("cannot be unpacked"));
  Reply unknown = always(200, "{}");
  unknown.headers = {{"Content-Encoding", "by-hand"}};
  CHECK_THAT(refusal_of(unknown, 1), Contains("cannot be unpacked"));
}

TEST_CASE("a connection that closes without a byte is told so") {
  Reply nothing;
  nothing.hang_up = true;
  CHECK_THAT(refusal_of(nothing, 1), Contains("closed the connection without an answer"));
}

TEST_CASE("something that speaks no HTTP is told so") {
  CHECK_THAT(refusal_of(raw("220 mail.example ESMTP\r\n"), 1), Contains("does not speak HTTP"));
}

TEST_CASE("a refused connection is final and says that kept weather still answers") {
  std::string url;
  {
    LoopbackServer gone{[](const SeenRequest&) { return always(200, "{}"); }};
    url = gone.url();
  }
  Asker asker;
  CHECK_THAT(asker.refusal(url),
             Contains("127.0.0.1") && Contains("cannot be reached") && Contains("advise goes on with"));
  CHECK(asker.pauses.empty());
}

TEST_CASE("a silent service is given up, and asked again") {
  net::ClientSettings settings = named_settings();
  settings.attempts = 2;
  settings.stall_limit = milliseconds{1000};
  Reply drip = always(200, "{" + std::string(2000, ' ') + "}");
  drip.between_bytes = milliseconds{100};  // 10 bytes a second
  LoopbackServer server{in_turn({drip, always(200, "{}")})};
  Asker asker{settings};
  const auto begin = std::chrono::steady_clock::now();
  CHECK(asker.refusal(server.url()).empty());
  CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds{20});
  CHECK(asker.pauses.size() == 1);
}

TEST_CASE("an attempt ends at its limit, even when bytes keep coming") {
  net::ClientSettings settings = named_settings();
  settings.attempts = 2;
  settings.attempt_limit = milliseconds{300};
  Reply slow = always(200, "{" + std::string(20'000, ' ') + "}");
  slow.between_bytes = milliseconds{5};
  LoopbackServer server{[&](const SeenRequest&) { return slow; }};
  Asker asker{settings};
  CHECK_THAT(asker.refusal(server.url()), Contains("did not answer in time") && Contains("asked 2 times"));
  CHECK(asker.pauses == Pauses{milliseconds{1000}});
}

TEST_CASE("no attempt goes on beyond the total limit") {
  net::ClientSettings settings = named_settings();
  settings.total_limit = milliseconds{300};
  Reply slow = always(200, "{}");
  slow.before = milliseconds{30'000};
  LoopbackServer server{[&](const SeenRequest&) { return slow; }};
  Asker asker{settings};
  const auto begin = std::chrono::steady_clock::now();
  CHECK_THAT(asker.refusal(server.url()), Contains("did not answer in time"));
  CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds{10});
  CHECK(asker.pauses.empty());
}

TEST_CASE("bytes that keep dripping, and redirects on the way, do not stretch the total limit") {
  net::ClientSettings settings = named_settings();
  settings.attempt_limit = milliseconds{400};
  settings.total_limit = milliseconds{3000};
  Reply drip = always(200, "{" + std::string(20'000, ' ') + "}");
  drip.between_bytes = milliseconds{5};
  LoopbackServer server{[&](const SeenRequest& asked) {
    Reply moved = redirect(302, "/drip");
    moved.before = milliseconds{200};
    return asked.path == "/drip" ? drip : moved;
  }};
  Asker asker{settings};
  const auto begin = std::chrono::steady_clock::now();
  CHECK_THAT(asker.refusal(server.url()), Contains("did not answer in time") && Contains("asked 2 times"));
  CHECK(std::chrono::steady_clock::now() - begin < settings.total_limit);
  // 400 ms, a pause of a second, 400 ms; the next pause of four seconds is more than is left.
  CHECK(asker.pauses == Pauses{milliseconds{1000}});
  CHECK(asker.client.out_of_time());
  CHECK(asker.client.spent() >= milliseconds{1800});
  CHECK(asker.client.spent() <= settings.total_limit);
}

TEST_CASE("a second request for the same answer has what the first one left") {
  net::ClientSettings settings = named_settings();
  settings.total_limit = milliseconds{60'000};
  Reply silent = always(200, "{}");
  silent.before = milliseconds{30'000};
  LoopbackServer server{[&](const SeenRequest&) { return silent; }};
  Asker asker{settings};
  net::HttpRequest request;
  request.url = server.url();
  const auto begin = std::chrono::steady_clock::now();
  REQUIRE_FALSE(asker.client.send(request, milliseconds{59'700}));
  CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds{10});
  CHECK(asker.client.out_of_time());
  CHECK(asker.pauses.empty());
}

TEST_CASE("a service that fails quickly is not out of time") {
  LoopbackServer server{[](const SeenRequest&) { return always(503, "{}"); }};
  Asker asker;
  CHECK_FALSE(asker.refusal(server.url()).empty());
  CHECK_FALSE(asker.client.out_of_time());
  LoopbackServer refusing{[](const SeenRequest&) { return always(404, "{}"); }};
  CHECK_FALSE(asker.refusal(refusing.url()).empty());
  CHECK_FALSE(asker.client.out_of_time());
}

TEST_CASE("an answer without end is stopped at the size limit") {
  Reply large = always(200, std::string(std::size_t{1} << 20U, ' '));
  large.repeat_body = 100;
  CHECK_THAT(refusal_of(large, 1), Contains("larger than 67108864 bytes") && Contains("fewer sites"));
}

TEST_CASE("a small parcel that unpacks to 100 MB is stopped at the size limit") {
  Reply parcel = always(200, packed_zeros(std::size_t{100} << 20U));
  parcel.headers = {{"Content-Encoding", "gzip"}};
  REQUIRE(parcel.body.size() < 1'000'000);
  CHECK_THAT(refusal_of(parcel, 1), Contains("larger than 67108864 bytes"));
  // The parcel is a sound one: under the limit its zeros come out, and are no JSON.
  parcel.body = packed_zeros(1000);
  CHECK_THAT(refusal_of(parcel, 1), Contains("damaged") || Contains("other than JSON"));
}

TEST_CASE("headers without end are stopped") {
  Reply bomb = always(200, "{}");
  for (int i = 0; i < 2000; ++i) bomb.headers.emplace_back("X-" + std::to_string(i), std::string(100, 'x'));
  CHECK_THAT(refusal_of(bomb, 1), Contains("headers without end"));
  Reply line = always(200, "{}");
  line.headers = {{"X", std::string(2'000'000, 'x')}};
  CHECK_THAT(refusal_of(line, 1), Contains("headers without end") || Contains("failed"));
}

TEST_CASE("a redirect off the safe path is not followed") {
  for (const char* target : {"http://elsewhere.example/", "//elsewhere.example/", "file:///etc/passwd",
                             "ftp://127.0.0.1/", "https://user:pw@127.0.0.1/", "https://", "http://0.0.0.0/",
                             "http://127.0.0.1.elsewhere.example/", "gopher://127.0.0.1:70/_x"}) {
    INFO(target);
    const std::string text = refusal_of(redirect(302, target), 1);
    CHECK_THAT(text, Contains("redirects to an address that may not be asked"));
    CHECK_THAT(text, !Contains("root:") && !Contains("pw"));
  }
  CHECK(door_of_program()->knocks() == 0);
}

TEST_CASE("a redirect to itself for ever is left") {
  LoopbackServer server{[](const SeenRequest&) { return redirect(301, "/again"); }};
  Asker asker;
  CHECK_THAT(asker.refusal(server.url()), Contains("redirects more than 3 times"));
  CHECK(server.requests().size() == 4);
  CHECK(asker.pauses.empty());
}

TEST_CASE("recorded refusals are repeated or not as their status says, and their reasons are told",
          "[records]") {
  const auto folder = record_folder("api_samples");
  struct Refusal {
    const char* file;
    int status;
    const char* reason;
  };
  // Those of the forecast service come and go: nearly all pass at the second or third question.
  for (const Refusal& said :
       {Refusal{"nws/error_500_unexpected_problem.json", 500, "An unexpected problem has occurred."},
        Refusal{"nws/error_503_forecast_grid_expired.json", 503, "2020-02-11T02:50:40+00:00 and has expired"},
        Refusal{"nws/error_503_unavailable.json", 503, "is currently unavailable"},
        Refusal{"constructed/open_meteo_error_429_concurrent.json", 429, "Too many concurrent requests"},
        Refusal{"constructed/open_meteo_error_503_overloaded.json", 503, "The service is overloaded"},
        Refusal{"open_meteo/error_400_bad_variable.json", 400, "invalid String value lksdfj"},
        Refusal{"open_meteo/error_400_bad_unit.json", 400, "invalid String value asdfsfd"},
        Refusal{"constructed/nws_error_404_invalid_point.json", 404, "point 51.5000,-0.1000"}}) {
    INFO(said.file);
    std::ifstream file{folder / said.file, std::ios::binary};
    const std::string body{std::istreambuf_iterator<char>{file}, {}};
    REQUIRE_FALSE(body.empty());
    const bool passes = said.status >= 429;
    CHECK_THAT(refusal_of(always(said.status, body), passes ? 4 : 1), Contains(said.reason));
    if (!passes) continue;
    LoopbackServer server{in_turn({always(said.status, body), always(said.status, body), always(200, "{}")})};
    Asker asker;
    CHECK(asker.refusal(server.url()).empty());
    CHECK(asker.pauses == Pauses{milliseconds{1000}, milliseconds{4000}});
  }
}

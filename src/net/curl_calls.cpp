// SPDX-License-Identifier: MIT
#include "net/curl_calls.hpp"

#include <dlfcn.h>

#include <optional>
#include <type_traits>

namespace soilclock::net {

namespace {

/// The fourth binary interface, the only one since 2006; every call above is part of it from 7.80 on.
constexpr const char* library_name = "libcurl.so.4";

std::optional<CurlCalls> opened() {
  void* const library = dlopen(library_name, RTLD_LAZY | RTLD_LOCAL);
  if (library == nullptr) return std::nullopt;
  CurlCalls calls;
  bool complete = true;
  const auto find = [&](auto& call, const char* name) {
    call = reinterpret_cast<std::remove_reference_t<decltype(call)>>(dlsym(library, name));
    complete = complete && call != nullptr;
  };
  find(calls.global_init, "curl_global_init");
  find(calls.easy_init, "curl_easy_init");
  find(calls.easy_cleanup, "curl_easy_cleanup");
  find(calls.easy_reset, "curl_easy_reset");
  find(calls.easy_setopt, "curl_easy_setopt");
  find(calls.easy_perform, "curl_easy_perform");
  find(calls.easy_getinfo, "curl_easy_getinfo");
  find(calls.easy_strerror, "curl_easy_strerror");
  find(calls.slist_append, "curl_slist_append");
  find(calls.slist_free_all, "curl_slist_free_all");
  find(calls.url, "curl_url");
  find(calls.url_dup, "curl_url_dup");
  find(calls.url_set, "curl_url_set");
  find(calls.url_get, "curl_url_get");
  find(calls.url_cleanup, "curl_url_cleanup");
  find(calls.free, "curl_free");
  if (!complete) return std::nullopt;
  return calls;
}

}  // namespace

const CurlCalls* curl_calls() {
  static const std::optional<CurlCalls> calls = opened();
  return calls ? &*calls : nullptr;
}

}  // namespace soilclock::net

// SPDX-License-Identifier: MIT
// The network library, opened when something is first asked. It brings 30 other libraries with it, and
// linking them took longer than half of what a command without network needs; with the linker's lazy binding
// they are loaded all the same. The only file that names the library; url.hpp and http_client.cpp include it,
// no other header does.
#pragma once

#include <curl/curl.h>

namespace soilclock::net {

/// The calls that are used, as the library's own header declares them.
struct CurlCalls {
  decltype(&::curl_global_init) global_init = nullptr;
  decltype(&::curl_easy_init) easy_init = nullptr;
  decltype(&::curl_easy_cleanup) easy_cleanup = nullptr;
  decltype(&::curl_easy_reset) easy_reset = nullptr;
  decltype(&::curl_easy_setopt) easy_setopt = nullptr;
  decltype(&::curl_easy_perform) easy_perform = nullptr;
  decltype(&::curl_easy_getinfo) easy_getinfo = nullptr;
  decltype(&::curl_easy_strerror) easy_strerror = nullptr;
  decltype(&::curl_slist_append) slist_append = nullptr;
  decltype(&::curl_slist_free_all) slist_free_all = nullptr;
  decltype(&::curl_url) url = nullptr;
  decltype(&::curl_url_dup) url_dup = nullptr;
  decltype(&::curl_url_set) url_set = nullptr;
  decltype(&::curl_url_get) url_get = nullptr;
  decltype(&::curl_url_cleanup) url_cleanup = nullptr;
  decltype(&::curl_free) free = nullptr;
};

/// The library's calls; it stays open until the program ends. Null where it cannot be opened.
const CurlCalls* curl_calls();

}  // namespace soilclock::net

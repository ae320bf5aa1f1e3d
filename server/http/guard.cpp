#include "server/http/guard.hpp"

#include <algorithm>

namespace brakewright::http {
namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return result;
}

bool names_us(const std::string& name, const Request& request, const std::vector<std::string>& names) {
  if (std::find(names.begin(), names.end(), name) != names.end()) return true;
  return name == request.local_address || name == "[" + request.local_address + "]";
}

}  // namespace

std::string host_name(std::string_view host_header) {
  const std::size_t bracket = host_header.starts_with('[') ? std::min(host_header.find(']'), host_header.size()) : 0;
  return lower(host_header.substr(0, host_header.find(':', bracket)));
}

void check_host_and_origin(const Request& request, const std::vector<std::string>& names) {
  const std::string_view host = request.header("host");
  if (host.empty()) throw Refusal(400, "bad_host", "", "a request names the host that it is for");
  if (!names_us(host_name(host), request, names)) {
    throw Refusal(421, "wrong_host", "", "this shop is not called so; open the address that the program printed");
  }
  const bool reads = request.method == "GET" || request.method == "HEAD";
  if (reads) return;
  const std::string origin = lower(request.header("origin"));
  if (!origin.empty() && origin != "http://" + lower(host) && origin != "https://" + lower(host)) {
    throw Refusal(403, "wrong_origin", "", "only pages of this shop may write to it");
  }
  const std::string_view site = request.header("sec-fetch-site");
  if (!site.empty() && site != "same-origin" && site != "none") {
    throw Refusal(403, "wrong_origin", "", "only pages of this shop may write to it");
  }
}

}  // namespace brakewright::http

#include "server/doors/cookie.hpp"

namespace brakewright::server {
namespace {

constexpr const char* kRules = "; Path=/; HttpOnly; SameSite=Strict";

std::string_view trimmed(std::string_view text) {
  while (text.starts_with(' ') || text.starts_with('\t')) text.remove_prefix(1);
  while (text.ends_with(' ') || text.ends_with('\t')) text.remove_suffix(1);
  return text;
}

}  // namespace

std::string_view cookie_in(std::string_view header, std::string_view name) {
  while (!header.empty()) {
    const std::size_t end = std::min(header.find(';'), header.size());
    const std::string_view pair = trimmed(header.substr(0, end));
    const std::size_t equals = pair.find('=');
    if (equals != std::string_view::npos && pair.substr(0, equals) == name) return pair.substr(equals + 1);
    header.remove_prefix(std::min(end + 1, header.size()));
  }
  return {};
}

std::string session_cookie(const std::string& token, std::chrono::seconds lasts, bool secure) {
  return std::string(kSessionCookie) + "=" + token + "; Max-Age=" + std::to_string(lasts.count()) + kRules +
         (secure ? "; Secure" : "");
}

std::string no_session_cookie(bool secure) { return session_cookie("", std::chrono::seconds(0), secure); }

}  // namespace brakewright::server

#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace brakewright::server {

/// The value of a cookie in a Cookie header (RFC 6265), empty when it is not there.
std::string_view cookie_in(std::string_view cookie_header, std::string_view name);

/// The Set-Cookie header that gives a tablet its session: read by no script, sent by no other site, for this whole
/// shop. @param secure  whether it may travel over HTTPS alone
std::string session_cookie(const std::string& token, std::chrono::seconds lasts, bool secure);

/// The one that takes it away again.
std::string no_session_cookie(bool secure);

inline constexpr std::string_view kSessionCookie = "session";

}  // namespace brakewright::server

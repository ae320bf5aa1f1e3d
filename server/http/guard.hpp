#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "server/http/message.hpp"

namespace brakewright::http {

/// Keeps other people's pages from using a browser in the shop against the shop.
///
/// A page of another site cannot name us in its Host header unless its name is made to point here (rebinding), and
/// cannot hide where it comes from when it writes. So the host must be one of `names`, or the address of this machine
/// that the client reached; and Origin, where there is one, must be the very host that was asked.
/// @param names  host names in lower case, without port: "localhost", "[::1]", "shop-pc.local"
/// @throws Refusal 400 "bad_host" without a Host header; 421 "wrong_host"; 403 "wrong_origin"
void check_host_and_origin(const Request& request, const std::vector<std::string>& names);

/// The host without its port, in lower case: "[::1]:8520" gives "[::1]".
std::string host_name(std::string_view host_header);

}  // namespace brakewright::http

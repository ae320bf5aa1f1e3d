#pragma once

#include <string>
#include <vector>

namespace brakewright::server {

/// Addresses (IPv4) by which other machines of the local network may reach this one, private ones first; empty when
/// it is on no network.
std::vector<std::string> network_addresses();

/// What this machine is called, in lower case: its own name and, for the local network, with ".local" behind it.
std::vector<std::string> machine_names();

/// A QR code of a text in half blocks, dark on light, for a terminal; a line for two rows of the code.
/// @throws std::runtime_error  when the text is too long for one (2,900 bytes)
std::string qr_for_terminal(const std::string& text);

}  // namespace brakewright::server

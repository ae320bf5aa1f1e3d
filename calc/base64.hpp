#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace brakewright::calc {

/// Bytes of base64 text with its padding; a "data:...;base64," before it and line breaks within are passed over.
/// @param path  of the text, for the refusal
/// @throws InputError "not_base64"
/// Source: RFC 4648, section 4.
std::vector<std::uint8_t> bytes_of_base64(const std::string& text, const std::string& path);

}  // namespace brakewright::calc

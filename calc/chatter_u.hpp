#pragma once

#include <nlohmann/json.hpp>
#include <optional>

#include "calc/reader.hpp"
#include "core/chatter/lobes.hpp"

namespace brakewright::calc {

/// "u_relative": {"k", "zeta", "kf"}, each 0 when left out; nothing where the object is.
std::optional<chatter::RelativeU> read_u_relative(Reader& reader);

/// {"low95", "high95"}
Json json_of(const chatter::Band95& band);

}  // namespace brakewright::calc

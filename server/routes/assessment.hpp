#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "shop/assess.hpp"

namespace brakewright::server {

/// An assessment as the API shows it (Assessment of api/openapi.yaml); what there is nothing to say of is null.
nlohmann::ordered_json answer_of(const shop::Assessment& assessment);

/// A verdict as it is kept with a decision: for `verdict_json` of a shop's surroundings.
std::string verdict_json(const shop::Assessment& assessment);

}  // namespace brakewright::server

#pragma once

#include <nlohmann/json_fwd.hpp>

#include "shop/plans.hpp"
#include "shop/stacks.hpp"

namespace brakewright::server {

/// StackAdvice of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::StackAdvice& advice);

/// PlanAdvice of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::PlanAdvice& advice);

/// LatheStudy of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::LatheRecord& record);

}  // namespace brakewright::server

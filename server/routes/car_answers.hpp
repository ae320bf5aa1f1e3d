#pragma once

#include <nlohmann/json_fwd.hpp>

#include "shop/diagnosis_advice.hpp"
#include "shop/pulsation_advice.hpp"
#include "shop/refit_advice.hpp"
#include "shop/road_advice.hpp"

namespace brakewright::server {

/// RefitAdvice of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::RefitAdvice& advice);

/// RoadAdvice of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::RoadAdvice& advice);

/// PulsationAdvice of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::PulsationAdvice& advice);

/// DiagnosisAdvice of api/openapi.yaml.
nlohmann::ordered_json answer_of(const shop::DiagnosisAdvice& advice);

}  // namespace brakewright::server

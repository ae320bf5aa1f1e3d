#pragma once

#include <nlohmann/json_fwd.hpp>

#include "shop/school/school.hpp"

/// The JSON of studies: what each person has still to read, and what all of it says.
namespace brakewright::server {

using Json = nlohmann::ordered_json;

/// StudyView of the API. @param parts  of the shop, for their names; no size is told
Json answer_of(const shop::StudyFile& file, const std::vector<shop::ReferencePart>& parts);

/// StudyNext of the API.
Json next_of(const shop::StudyFile& file, const shop::Uuid& person_id, const std::vector<shop::StudyPlace>& open,
             const std::vector<shop::ReferencePart>& parts, const std::vector<shop::Instrument>& instruments);

/// StudyAnswer of the API.
Json answer_of(const shop::StudyFile& file, const shop::StudyAnswer& answer);

}  // namespace brakewright::server

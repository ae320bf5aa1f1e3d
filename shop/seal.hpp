#pragma once

#include <string>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// Hash of a sealed job as 64 hex digits: SHA-256 (FIPS 180-4) of the file's JSON with object names in order, without
/// white space, members that are null or empty left out, whole numbers without a point, `seal_sha256` empty, `number` 0
/// (a job that is carried to another shop may get another), no amendments (they stand beside the original) and `seq` 0.
std::string seal_of(JobFile file);

}  // namespace brakewright::shop

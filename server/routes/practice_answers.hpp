#pragma once

#include <set>
#include <string>
#include <vector>

#include "server/routes/call.hpp"
#include "shop/practice/practice.hpp"

/// What practice answers, as the API describes it.
namespace brakewright::server {

Json answer_of(const shop::PracticeLine& line);
Json answer_of(const shop::PracticeFile& file);
Json answer_of(const shop::PracticeAnswer& answer);

/// @param whole  with its seed and what is wrong there
Json answer_of(const shop::PracticeSet& set, bool whole);

/// A sound as a WAV file, one channel of 16 bit. @param samples  -1 to 1; what lies outside is cut off
std::string wav_of(const std::vector<float>& samples, int rate_hz);

/// Data of the event "practice".
std::string event_of(const std::set<shop::Uuid>& run_ids);

}  // namespace brakewright::server

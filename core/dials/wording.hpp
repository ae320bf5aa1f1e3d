#pragma once

#include "core/dials/causes.hpp"
#include "core/dials/dial_check.hpp"

/// What is said of each explanation: numbers that can be checked by hand, and what to do to be sure.
namespace brakewright::dials {

/// Fills text, check and basis of a finding whose other fields are there.
void put_words(DialFinding& finding, CauseKind kind, const DialCheckInput& input, const DialCheck& check);

/// "the outboard face was not touched all round: ...", one for each limit of the answer.
std::vector<std::string> notes_of(const DialCheckInput& input);

}  // namespace brakewright::dials

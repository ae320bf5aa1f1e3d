#pragma once

#include <string>

#include "core/input_error.hpp"

namespace brakewright::bench_sim {

/// Code and field of a refusal; "accepted" without one.
template <class Call>
std::string refusal_of(const Call& call) {
  try {
    call();
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

}  // namespace brakewright::bench_sim

#include "core/chatter/check.hpp"

#include "core/want.hpp"

namespace brakewright::chatter {

void check_force(double n_per_m2, const std::string& field) {
  want(n_per_m2, 1, 1e15, field, "must be from 1 to 1e15 N/m2");
}

void check_speed(double rpm, const std::string& field) {
  want(rpm, 0.01, 1e6, field, "must be from 0.01 to 1000000 turns a minute");
}

}  // namespace brakewright::chatter

#include "core/length/length.hpp"

namespace brakewright {

std::string_view name_of(Unit unit) { return unit == Unit::mm ? "mm" : "in"; }

}  // namespace brakewright

#include "calc/chatter_u.hpp"

namespace brakewright::calc {

std::optional<chatter::RelativeU> read_u_relative(Reader& reader) {
  auto given = reader.optional_object("u_relative");
  if (!given) return std::nullopt;
  const chatter::RelativeU u{
      .k = given->number_or("k", 0), .zeta = given->number_or("zeta", 0), .kf = given->number_or("kf", 0)};
  given->done();
  return u;
}

Json json_of(const chatter::Band95& band) { return {{"low95", band.low_mm}, {"high95", band.high_mm}}; }

}  // namespace brakewright::calc

#include "shop/texts.hpp"

#include <cstddef>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

[[noreturn]] void not_utf8() { throw InputError("not_utf8", "", "the text is not valid UTF-8"); }

/// The code point at `place`, which moves behind it.
/// Source: Unicode 15, table 3-7 (well-formed UTF-8 byte sequences).
char32_t take_code_point(std::string_view text, std::size_t& place) {
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  const unsigned char first = byte(place++);
  if (first < 0x80) return first;
  const std::size_t following = first >= 0xf0 ? 3 : first >= 0xe0 ? 2 : 1;
  if (first < 0xc2 || first > 0xf4 || place + following > text.size()) not_utf8();
  char32_t point = first & (0x3fU >> following);
  for (std::size_t k = 0; k < following; ++k) {
    const unsigned char next = byte(place++);
    if ((next & 0xc0) != 0x80) not_utf8();
    point = (point << 6) | (next & 0x3fU);
  }
  const bool overlong = (following == 2 && point < 0x800) || (following == 3 && point < 0x10000);
  if (overlong || (point >= 0xd800 && point <= 0xdfff) || point > 0x10ffff) not_utf8();
  return point;
}

bool turns_direction(char32_t point) {
  return (point >= 0x202a && point <= 0x202e) || (point >= 0x2066 && point <= 0x2069);
}

bool is_control(char32_t point) { return point < 0x20 || (point >= 0x7f && point <= 0x9f); }

bool is_line_sign(char32_t point) { return point == '\n' || point == '\r' || point == '\t'; }

bool is_space(char32_t point) { return point == ' ' || point == 0xa0 || is_line_sign(point); }

}  // namespace

void check_text(std::string_view text, const TextRule& rule) {
  std::int64_t characters = 0;
  bool blank = true;
  for (std::size_t place = 0; place < text.size();) {
    const char32_t point = take_code_point(text, place);
    if (++characters > rule.longest) {
      throw InputError("too_long", "", "at most " + std::to_string(rule.longest) + " characters are accepted here");
    }
    if ((is_control(point) && !(rule.lines && is_line_sign(point))) || turns_direction(point)) {
      throw InputError("control_character", "", "control characters are not accepted here");
    }
    if (!is_space(point)) blank = false;
  }
  if (blank && !rule.blank) throw InputError("missing", "", "this may not be left empty");
}

}  // namespace brakewright::shop

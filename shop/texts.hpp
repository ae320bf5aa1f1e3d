#pragma once

#include <cstdint>
#include <string_view>

namespace brakewright::shop {

/// What a text may be.
struct TextRule {
  std::int64_t longest = 200;  ///< characters (code points)
  bool lines = false;          ///< may have line ends and tabs
  bool blank = true;           ///< may be empty or white space only
};

/// Refuses a text that would harm a record, a page or a table: too long, not UTF-8, with control characters or with
/// signs that turn the direction of the text around it. Anything else, markup included, is text and stays as it is.
/// @throws InputError "missing", "too_long", "not_utf8" or "control_character", each with an empty field
void check_text(std::string_view text, const TextRule& rule);

}  // namespace brakewright::shop

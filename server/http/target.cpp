#include "server/http/target.hpp"

#include <algorithm>
#include <cstdint>

#include "server/http/message.hpp"

namespace brakewright::http {
namespace {

[[noreturn]] void refuse(const std::string& message) { throw Refusal(400, "bad_target", "", message); }

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  refuse("an escape in an address is % and two hex digits");
}

std::string decoded(std::string_view text, bool plus_is_blank) {
  std::string result;
  result.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+' && plus_is_blank) {
      result += ' ';
    } else if (text[i] == '%') {
      if (i + 2 >= text.size()) refuse("an escape in an address is % and two hex digits");
      result += static_cast<char>(hex_digit(text[i + 1]) * 16 + hex_digit(text[i + 2]));
      i += 2;
    } else {
      result += text[i];
    }
  }
  if (!is_utf8(result)) refuse("an address is written in UTF-8");
  const bool control = std::any_of(result.begin(), result.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  if (control) refuse("control characters have no place in an address");
  return result;
}

std::string decoded_path(std::string_view path) {
  if (path.empty() || path.front() != '/') refuse("an address begins with /");
  std::string result;
  while (!path.empty()) {
    path.remove_prefix(1);
    const std::size_t end = std::min(path.find('/'), path.size());
    const std::string segment = decoded(path.substr(0, end), false);
    if (segment == "." || segment == ".." || segment.find_first_of("/\\") != std::string::npos) {
      refuse("an address names what is asked for directly, without detours");
    }
    result += "/" + segment;
    path.remove_prefix(end);
  }
  return result;
}

std::map<std::string, std::string> decoded_query(std::string_view query) {
  std::map<std::string, std::string> result;
  while (!query.empty()) {
    const std::size_t end = std::min(query.find('&'), query.size());
    const std::string_view pair = query.substr(0, end);
    query.remove_prefix(std::min(end + 1, query.size()));
    if (pair.empty()) continue;
    const std::size_t equals = std::min(pair.find('='), pair.size());
    const std::string name = decoded(pair.substr(0, equals), true);
    const std::string value = equals < pair.size() ? decoded(pair.substr(equals + 1), true) : "";
    if (!result.emplace(name, value).second) refuse("the parameter " + name + " stands twice");
  }
  return result;
}

}  // namespace

bool is_utf8(std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size();) {
    const auto byte_at = [&](std::size_t k) { return static_cast<std::uint8_t>(bytes[k]); };
    const std::uint8_t lead = byte_at(i);
    const std::size_t length = lead < 0x80 ? 1 : lead >> 5 == 6 ? 2 : lead >> 4 == 14 ? 3 : lead >> 3 == 30 ? 4 : 0;
    if (length == 0 || i + length > bytes.size()) return false;
    std::uint32_t point = length == 1 ? lead : lead & (0x7fU >> length);
    for (std::size_t k = 1; k < length; ++k) {
      if ((byte_at(i + k) & 0xc0) != 0x80) return false;
      point = point << 6 | (byte_at(i + k) & 0x3f);
    }
    constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    if (point < least[length] || point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff)) return false;
    i += length;
  }
  return true;
}

Target parse_target(std::string_view target) {
  const std::size_t mark = std::min(target.find('?'), target.size());
  std::string_view query = target.substr(mark);
  if (!query.empty()) query.remove_prefix(1);
  return {.path = decoded_path(target.substr(0, mark)), .query = decoded_query(query)};
}

}  // namespace brakewright::http
